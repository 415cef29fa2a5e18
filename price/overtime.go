package price

import (
	"time"

	"jobday/notes"
)

// A Stretch is time of one person on one date that counts as hours worked, travel between sites
// included.
type Stretch struct {
	Date    notes.Date
	Minutes notes.Minutes // 0 or more
}

// A Split is how the minutes of a stretch count. Both add up to the stretch.
type Split struct {
	Regular, Overtime notes.Minutes
}

// Allot says which minutes of one person are overtime by the company's rule. The stretches are in
// order of date and, within a date, of the clock, over all jobs; the answer has one split for each.
//
// The first minutes of a day and of a workweek are regular and what goes beyond the limit is
// overtime. The workweek is seven days from workweek and stands alone: no two are averaged.
// A minute is overtime once: what is overtime by the day does not count toward the week again, so
// that a week's overtime is the larger of its daily overtime and its hours over the weekly limit.
//
// Source: 29 CFR 778.101 and 778.104 (over 40 in a workweek, each by itself), 778.105 (168 hours
// that begin on a fixed day), 778.202 (overtime by the day is credited against that by the week).
func Allot(stretches []Stretch, rule notes.Overtime, workweek time.Weekday) []Split {
	splits := make([]Split, len(stretches))
	var week, day notes.Date
	var regular, today notes.Minutes // regular minutes of the week so far, all minutes of the day
	for i, s := range stretches {
		if w := WeekOf(s.Date, workweek); i == 0 || w != week {
			week, regular = w, 0
		}
		if i == 0 || s.Date != day {
			day, today = s.Date, 0
		}
		open := s.Minutes
		if rule.DailyOver > 0 {
			open = min(open, max(rule.DailyOver-today, 0))
		}
		if rule.WeeklyOver > 0 {
			open = min(open, max(rule.WeeklyOver-regular, 0))
		}
		splits[i] = Split{Regular: open, Overtime: s.Minutes - open}
		regular += open
		today += s.Minutes
	}
	return splits
}

// WeekOf returns the first day of the workweek a date falls in.
func WeekOf(d notes.Date, workweek time.Weekday) notes.Date {
	return d.AddDays(-int((d.Weekday() - workweek + 7) % 7))
}
