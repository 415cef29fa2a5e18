package price

import (
	"cmp"
	"slices"
	"strings"

	"jobday/notes"
)

// Overtime is how many minutes of each person's day on a job are overtime the customer is charged
// for, by day and name. Nil stands for none.
type Overtime map[*notes.JobDay]map[string]notes.Minutes

// OvertimeOf figures the overtime to be billed over all jobs of a book, since a person's week is one
// whatever jobs it went to. It is nil for a company that bills none. The jobs of one date are in
// order of the first time on the clock; one without times comes last.
func OvertimeOf(jobs [][]*notes.JobDay, c *notes.Company) Overtime {
	if !c.Overtime.Bill {
		return nil
	}
	type shift struct {
		day  *notes.JobDay
		row  *notes.LaborRow
		from notes.Clock
	}
	people := map[string][]shift{}
	for _, days := range jobs {
		for _, d := range days {
			for i := range d.Labor {
				if r := &d.Labor[i]; r.Name != "" && r.Minutes > 0 {
					people[r.Name] = append(people[r.Name], shift{d, r, firstOn(r)})
				}
			}
		}
	}
	over := Overtime{}
	for name, shifts := range people { // each person by himself: the order does not matter
		slices.SortStableFunc(shifts, func(a, b shift) int {
			return cmp.Or(a.day.Date.Compare(b.day.Date), cmp.Compare(a.from, b.from), strings.Compare(a.day.Job, b.day.Job))
		})
		all := make([]Stretch, len(shifts))
		for i, s := range shifts {
			all[i] = Stretch{s.day.Date, s.row.Minutes}
		}
		for i, s := range Allot(all, c.Overtime, c.Workweek) {
			if s.Overtime == 0 {
				continue
			}
			if over[shifts[i].day] == nil {
				over[shifts[i].day] = map[string]notes.Minutes{}
			}
			over[shifts[i].day][name] += s.Overtime
		}
	}
	return over
}

// firstOn returns when somebody's day began; one whose times are not written comes after all others.
func firstOn(r *notes.LaborRow) notes.Clock {
	first := notes.Clock(7 * 24 * 60)
	for _, s := range r.Spans {
		first = min(first, s.From)
	}
	return first
}

// shareKey names one person's day.
type shareKey struct {
	day    *notes.JobDay
	person string
}

// overtimeOn returns how many of somebody's minutes of work on a line or extra were overtime that
// day, and how that is known. Travel is billed at its own rate and never at that for overtime.
func (j *job) overtimeOn(d *notes.JobDay, person, key string) (notes.Minutes, string) {
	whole := j.Overtime[d][person]
	if whole == 0 {
		return 0, ""
	}
	k := shareKey{d, person}
	s := j.shares[k]
	if s == nil {
		for i := range d.Labor {
			if d.Labor[i].Name == person {
				s = shareOvertime(d, &d.Labor[i], whole)
			}
		}
		if s == nil {
			return 0, ""
		}
		j.shares[k] = s
	}
	how := whole.String() + " of the day are overtime, shared by the minutes on each thing"
	if s.timed[key] {
		how = "overtime by the times written with it"
	}
	return s.on[key], how
}

// overtimeShare is what of a person's overtime of a day falls on each thing.
type overtimeShare struct {
	on    map[string]notes.Minutes
	timed map[string]bool // its times are written
}

// shareOvertime puts the overtime of a person's day, which is the last of it, on what it went to:
// by the times where they are written, and else in proportion to the minutes on each thing.
func shareOvertime(d *notes.JobDay, r *notes.LaborRow, whole notes.Minutes) *overtimeShare {
	s := &overtimeShare{on: map[string]notes.Minutes{}, timed: map[string]bool{}}
	late := lastOf(r.Spans, whole)
	for i := range d.Entries {
		if key := thingOf(d, &d.Entries[i]); key != "" {
			s.clock(&d.Entries[i], key, r.Name, late)
		}
	}
	rest := whole
	var open []string
	var weights []notes.Minutes
	for key, on := range r.On {
		work := on - travelOn(r, key, on)
		if !s.timed[key] {
			open = append(open, key)
			continue
		}
		s.on[key] = min(s.on[key], work)
		rest -= s.on[key]
	}
	slices.Sort(open)
	for _, key := range open {
		weights = append(weights, r.On[key]-travelOn(r, key, r.On[key]))
	}
	for i, m := range apportion(max(rest, 0), weights) {
		s.on[open[i]] = m
	}
	return s
}

// clock adds what of an entry's written times is among the late ones.
func (s *overtimeShare) clock(e *notes.EntryResult, key, person string, late []notes.ClockSpan) {
	if e.Entry == nil {
		return
	}
	rows := slices.Clone(e.Entry.Facts.Time)
	for _, d := range e.Entry.Details {
		rows = append(rows, d.Facts.Time...)
	}
	for _, row := range rows {
		if len(row.Spans) == 0 || row.Travel || !slices.Contains(row.People, person) {
			continue
		}
		s.timed[key] = true
		for _, span := range row.Spans {
			for _, l := range late {
				s.on[key] += max(0, notes.Minutes(min(span.To, l.To)-max(span.From, l.From)))
			}
		}
	}
}

// thingOf returns the line or extra an entry's time is on, or "".
func thingOf(d *notes.JobDay, e *notes.EntryResult) string {
	for i := range d.Extras {
		if d.Extras[i].ID == e.ID || slices.Contains(d.Extras[i].From, e.Source) {
			return d.Extras[i].ID
		}
	}
	if len(e.Lines) == 1 {
		return e.Lines[0]
	}
	return ""
}

// lastOf returns the last minutes of the spans on the clock, which may be in any order.
func lastOf(spans []notes.ClockSpan, minutes notes.Minutes) []notes.ClockSpan {
	sorted := slices.Clone(spans)
	slices.SortFunc(sorted, func(a, b notes.ClockSpan) int { return cmp.Compare(b.To, a.To) })
	var last []notes.ClockSpan
	for _, s := range sorted {
		if minutes <= 0 {
			break
		}
		if m := s.Minutes(); m > minutes {
			s.From = s.To - notes.Clock(minutes)
		}
		minutes -= s.Minutes()
		last = append(last, s)
	}
	return last
}

// apportion divides whole minutes in proportion to weights, so that the parts add up to it and none
// is more than its weight. What does not divide goes to the largest fractions, the first of equals.
func apportion(whole notes.Minutes, weights []notes.Minutes) []notes.Minutes {
	parts := make([]notes.Minutes, len(weights))
	total := notes.Minutes(0)
	for _, w := range weights {
		total += w
	}
	if whole = min(whole, total); whole <= 0 {
		return parts
	}
	order := make([]int, len(weights))
	rest := whole
	for i, w := range weights {
		parts[i] = whole * w / total
		rest -= parts[i]
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(whole*weights[b]%total, whole*weights[a]%total)
	})
	for _, i := range order[:rest] {
		parts[i]++
	}
	return parts
}
