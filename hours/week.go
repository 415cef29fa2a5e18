package hours

import (
	"time"

	"jobday/notes"
	"jobday/price"
)

// WeekOf returns the first and last day of the workweek a day is in. A workweek is seven days in a
// row that start on a fixed day (29 CFR 778.105).
func WeekOf(d notes.Date, c *notes.Company) (first, last notes.Date) {
	first = price.WeekOf(d, c.Workweek)
	return first, first.AddDays(6)
}

// weekly parts stretches, which are in order of person and time, into workweeks of one person.
func weekly(all []*stretch, first time.Weekday) [][]*stretch {
	var groups [][]*stretch
	for i, t := range all {
		if i > 0 {
			last := all[i-1]
			if t.row.Name == last.row.Name && price.WeekOf(t.date, first) == price.WeekOf(last.date, first) {
				groups[len(groups)-1] = append(groups[len(groups)-1], t)
				continue
			}
		}
		groups = append(groups, []*stretch{t})
	}
	return groups
}

// Nearest rounds a time of day to the nearest step; what lies half-way goes up. The steps of
// 29 CFR 785.48(b) are 5 minutes, a tenth and a quarter of an hour.
func Nearest(c notes.Clock, step notes.Minutes) notes.Clock {
	if step <= 1 {
		return c
	}
	return (c + notes.Clock(step)/2) / notes.Clock(step) * notes.Clock(step)
}

// Paid returns the minutes of a day that are paid: start and end of each span rounded to the
// nearest step. Breaks, and time written as a duration, stand as they are.
func Paid(r notes.LaborRow, step notes.Minutes) notes.Minutes {
	m := r.Minutes
	for _, s := range r.Spans {
		rounded := notes.ClockSpan{From: Nearest(s.From, step), To: Nearest(s.To, step)}
		m += rounded.Minutes() - s.Minutes()
	}
	return max(m, 0)
}

// settle decides what of one person's workweek is overtime, in the order worked over all jobs, and
// what it cost.
func settle(week []*stretch, c *notes.Company) {
	clock := make([]price.Stretch, len(week))
	for i, t := range week {
		clock[i] = price.Stretch{Date: t.date, Minutes: t.paid}
	}
	for i, split := range price.Allot(clock, c.Overtime, c.Workweek) {
		week[i].regular, week[i].overtime = split.Regular, split.Overtime
	}
	var paid []Stretch
	var costed []*stretch
	for _, t := range week {
		class, ok := c.ClassNamed(t.row.Class)
		if !ok || class.Cost.IsZero() {
			continue
		}
		t.costed = true
		costed = append(costed, t)
		paid = append(paid, Stretch{Regular: t.regular, Overtime: t.overtime, Rate: class.Cost})
	}
	_, each := Pay(paid, notes.Money{})
	for i, t := range costed {
		t.cost = each[i]
	}
}

// rules says in words by which rules the sheet was made.
func rules(c *notes.Company) []string {
	out := []string{"Workweek: seven days from " + c.Workweek.String() + "."}
	over := ""
	switch o := c.Overtime; {
	case o.DailyOver > 0 && o.WeeklyOver > 0:
		over = "over " + o.DailyOver.String() + " a day, and over " + o.WeeklyOver.String() + " of regular time a week"
	case o.DailyOver > 0:
		over = "over " + o.DailyOver.String() + " a day"
	case o.WeeklyOver > 0:
		over = "over " + o.WeeklyOver.String() + " a week"
	}
	if over == "" {
		out = append(out, "Overtime: none, by company.yaml.")
	} else {
		out = append(out, "Overtime: "+over+", in the order worked, over all jobs. It costs half the week's regular rate on top: all earnings of the week by all its hours.")
	}
	if step := c.Rounding.Clock; step > 1 {
		out = append(out, "Clock: start and end rounded to the nearest "+step.String()+", up or down alike; steps of billing play no part.")
	} else {
		out = append(out, "Clock: to the minute, as written; steps of billing play no part.")
	}
	return append(out, "Cost: at the cost rate of the class; a week is rounded once, half a cent up.",
		"Local law can be stricter; this sheet is arithmetic, not advice.")
}
