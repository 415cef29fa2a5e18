package hours

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// shortBreak is the longest break that counts as work time: rest periods "from 5 minutes to about
// 20" are paid (29 CFR 785.18, read 2026-11-25).
const shortBreak notes.Minutes = 20

// Check returns what is doubtful about hours: somebody on the clock of two jobs at once
// (hours/overlap), a short break taken off (hours/short-break), and hours without a word of what
// was done (hours/no-work). What is counted twice stays counted until one of the two is put right.
func Check(c *notes.Company, jobs []Job) finding.List {
	var found finding.List
	var all []onTheClock
	for _, j := range jobs {
		for _, d := range j.Days {
			found.Add(silent(d)...)
			all = append(all, onClock(j.Job, d)...)
			for i := range d.Entries {
				found.Add(shortBreaks(&d.Entries[i])...)
			}
		}
	}
	return append(found, overlaps(all)...)
}

// silent finds a day with hours and without anything else.
func silent(d *notes.JobDay) finding.List {
	var at finding.Span
	for _, e := range d.Entries {
		switch {
		case e.Outcome != notes.TimeEntry:
			return nil
		case e.Entry != nil && !at.Known():
			at = e.Entry.Span
		}
	}
	sum := notes.Minutes(0)
	for _, r := range d.Labor {
		sum += r.Minutes
	}
	if sum == 0 || len(d.Narrative) > 0 || !at.Known() {
		return nil
	}
	return finding.List{{
		Severity: finding.Warning, Rule: "hours/no-work", Span: at,
		Message: fmt.Sprintf("%s of %s on job %s, and not a word of what was done", sum, d.Date, d.Job),
		Hint:    "write the work under ## Done",
	}}
}

// shortBreaks finds breaks taken off the clock that are too short to go unpaid.
func shortBreaks(e *notes.EntryResult) finding.List {
	if e.Outcome != notes.TimeEntry || e.Entry == nil {
		return nil
	}
	var found finding.List
	for _, row := range e.Entry.Facts.Time {
		if len(row.Spans) == 0 || row.Break <= 0 || row.Break > shortBreak {
			continue
		}
		found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "hours/short-break", Span: e.Entry.Span.Sub(row.Start, row.End),
			Message: "takes a break of " + row.Break.String() + " off; rest of about 5 to 20 minutes is paid time (29 CFR 785.18)",
			Hint:    "leave the break out, or write the meal as: 30 lunch",
		})
	}
	return found
}

// onTheClock is one span of one person, in minutes since a day long past.
type onTheClock struct {
	name     string
	from, to int
	span     notes.ClockSpan
	date     notes.Date
	job      *notes.Job
	at       finding.Span
}

var longPast = notes.Date{Year: 2000, Month: 1, Day: 1}

func onClock(j *notes.Job, d *notes.JobDay) []onTheClock {
	var out []onTheClock
	midnight := d.Date.DaysSince(longPast) * 24 * 60
	for _, r := range d.Labor {
		for _, s := range r.Spans {
			if r.Name == "" {
				continue
			}
			out = append(out, onTheClock{
				name: r.Name, from: midnight + int(s.From), to: midnight + int(s.To), span: s, date: d.Date, job: j,
				at: placeOf(d, r.Name, s),
			})
		}
	}
	return out
}

// placeOf finds the entry a span was read from.
func placeOf(d *notes.JobDay, name string, s notes.ClockSpan) finding.Span {
	var at finding.Span
	for _, e := range d.Entries {
		if e.Outcome != notes.TimeEntry || e.Entry == nil {
			continue
		}
		for _, row := range e.Entry.Facts.Time {
			if !slices.Contains(row.Spans, s) {
				continue
			}
			if slices.Contains(row.People, name) {
				return e.Entry.Span.Sub(row.Start, row.End)
			}
			if !at.Known() {
				at = e.Entry.Span.Sub(row.Start, row.End)
			}
		}
	}
	return at
}

// overlaps finds spans of one person that overlap across jobs or days. Within one day of one job
// that is said where the day is read.
func overlaps(all []onTheClock) finding.List {
	slices.SortStableFunc(all, func(a, b onTheClock) int {
		return cmp.Or(strings.Compare(a.name, b.name), cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to))
	})
	var found finding.List
	for i := 1; i < len(all); i++ {
		last, here := all[i-1], all[i]
		if here.name == last.name && last.to > here.to {
			all[i] = last // the longer one may reach over the next as well
		}
		if here.name != last.name || here.from >= last.to || here.job == last.job && here.date == last.date || !here.at.Known() {
			continue
		}
		f := finding.Finding{
			Severity: finding.Warning, Rule: "hours/overlap", Span: here.at,
			Message: fmt.Sprintf("%s is on the clock of job %s from %s to %s, and of job %s on %s from %s to %s",
				here.name, here.job.Number, here.span.From, here.span.To, last.job.Number, last.date, last.span.From, last.span.To),
			Hint: "correct one of the two; until then both are counted",
		}
		if last.at.Known() {
			f.Related = []finding.Related{{Message: "the other one", Span: last.at}}
		}
		found.Add(f)
	}
	return found
}
