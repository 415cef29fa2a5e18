// Package hours makes the time sheet: who worked how long on which job, what of it is overtime by
// the company's rule, what it cost, and how that stands against the hours that were booked.
//
// What is paid and what is billed are two things. Here the clock counts: start and end of each span
// rounded to the nearest step of the company's clock, never one way (29 CFR 785.48(b), read
// 2026-11-25). The steps in which extras are billed play no part.
//
// It is a function of its input: no clock, no disk, the same sheet for the same days.
package hours

import (
	"cmp"
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/price"
)

// Job is one job with its days, earliest first.
type Job struct {
	Job  *notes.Job
	Days []*notes.JobDay
}

// Input is what a time sheet is made from. The jobs must be all of the book: whether an hour is
// overtime depends on what else its person did that week.
type Input struct {
	Company *notes.Company
	Jobs    []Job
	// Since and Until are the first and last day shown. A week they cut is worked out whole.
	Since, Until notes.Date
	Only         string // number of the one job to show; "" for all
}

// TimeSheet is the hours of a stretch of days. Lists are never nil.
type TimeSheet struct {
	Company  string     `json:"company"`
	Currency string     `json:"currency"`
	Since    notes.Date `json:"since"`
	Until    notes.Date `json:"until"`
	Rules    []string   `json:"rules"`   // by which the figures came about, in words
	Weeks    []Week     `json:"weeks"`   // those with hours, earliest first
	Lines    []Line     `json:"lines"`   // by job, then as booked, then extras, then the rest
	Missing  []Missing  `json:"missing"` // who was on site without hours, by date and job
	// Costless says whose time has no cost, and why, once a person.
	Costless []string    `json:"costless"`
	Findings []FoundHere `json:"findings"`
}

// FoundHere is a finding about the hours shown.
type FoundHere struct {
	Rule    string       `json:"rule"`
	Message string       `json:"message"`
	Hint    string       `json:"hint"`
	Source  notes.Source `json:"source"`
}

// Week is one workweek, seven days from the day the company's weeks start on.
type Week struct {
	Starts notes.Date `json:"starts"`
	Ends   notes.Date `json:"ends"`
	Cut    bool       `json:"cut"` // only some of its days are shown
	People []Person   `json:"people"`
}

// Hours are minutes of work and what they cost. Regular + Overtime = Clock + Rounding.
type Hours struct {
	Clock    notes.Minutes `json:"clock_minutes"`    // as written, unpaid breaks taken off
	Rounding notes.Minutes `json:"rounding_minutes"` // what rounding the clock adds; may be negative
	Travel   notes.Minutes `json:"travel_minutes"`   // part of Clock
	Regular  notes.Minutes `json:"regular_minutes"`
	Overtime notes.Minutes `json:"overtime_minutes"`
	// Cost is what the time cost, the overtime premium with it. Time of somebody without a cost rate
	// is not in it but in Costless.
	Cost     notes.Money   `json:"cost"`
	Costless notes.Minutes `json:"costless_minutes"`
}

// Add returns both together.
func (h Hours) Add(o Hours) Hours {
	return Hours{
		h.Clock + o.Clock, h.Rounding + o.Rounding, h.Travel + o.Travel, h.Regular + o.Regular,
		h.Overtime + o.Overtime, h.Cost.Add(o.Cost), h.Costless + o.Costless,
	}
}

// Person is one person's week.
type Person struct {
	Name  string     `json:"name"` // "" for time that nobody's name stands at
	Class string     `json:"class"`
	Jobs  []JobHours `json:"jobs"`
	Days  []Day      `json:"days"` // by date, then in the order worked
	Total Hours      `json:"total"`
}

// JobHours is one person's week on one job.
type JobHours struct {
	Job   string           `json:"job"`
	Title string           `json:"title"`
	ByDay [7]notes.Minutes `json:"by_day"` // on the clock, from the first day of the week
	Total Hours            `json:"total"`
}

// Day is one person's day on one job.
type Day struct {
	Date notes.Date `json:"date"`
	Job  string     `json:"job"`
	Hours
	From []notes.Source `json:"from"`
}

// Missing is somebody a note names as on site and whose hours stand nowhere that day.
type Missing struct {
	Date notes.Date `json:"date"`
	Job  string     `json:"job"`
	Name string     `json:"name"`
	File string     `json:"file"`
}

// Sheet makes the time sheet. It raises hours/overlap, hours/short-break and hours/no-work, as Check
// does, of the days shown.
func Sheet(in Input) *TimeSheet {
	s := &TimeSheet{
		Company: in.Company.Name, Currency: in.Company.Currency, Since: in.Since, Until: in.Until,
		Rules: rules(in.Company), Weeks: []Week{}, Lines: []Line{}, Missing: []Missing{}, Costless: []string{},
		Findings: []FoundHere{},
	}
	all := stretches(in)
	for _, group := range weekly(all, in.Company.Workweek) {
		settle(group, in.Company)
	}
	shown := slices.DeleteFunc(slices.Clone(all), func(t *stretch) bool { return !in.shows(t) })
	for _, group := range weekly(shown, in.Company.Workweek) {
		s.enter(group, in)
	}
	s.Lines = lines(all, in)
	s.Missing = missing(in)
	for _, f := range Check(in.Company, in.Jobs) {
		if day, ok := in.dayOf(f.Span.File); ok && in.within(day) {
			s.Findings = append(s.Findings, FoundHere{f.Rule, f.Message, f.Hint, notes.SourceOf(f.Span)})
		}
	}
	return s
}

func (in Input) shows(t *stretch) bool {
	return in.within(t.date) && (in.Only == "" || strings.EqualFold(in.Only, t.job.Number))
}

func (in Input) within(d notes.Date) bool {
	return d.Compare(in.Since) >= 0 && d.Compare(in.Until) <= 0
}

// dayOf returns the date of the note that a file is, and false for a file of a job not shown.
func (in Input) dayOf(f *finding.File) (notes.Date, bool) {
	for _, j := range in.Jobs {
		if in.Only != "" && !strings.EqualFold(in.Only, j.Job.Number) {
			continue
		}
		for _, d := range j.Days {
			if slices.ContainsFunc(d.Notes, func(n notes.NoteRef) bool { return n.Source == f }) {
				return d.Date, true
			}
		}
	}
	return notes.Date{}, false
}

// stretch is one person's day on one job, with what the week makes of it.
type stretch struct {
	row   notes.LaborRow
	date  notes.Date
	job   *notes.Job
	first notes.Clock // when it began; a day without spans comes last
	paid  notes.Minutes

	regular, overtime notes.Minutes
	cost              notes.Money
	costed            bool
}

// noClock is when a stretch begins whose times are not written: after those with times.
const noClock notes.Clock = 7 * 24 * 60

// stretches are everybody's days up to the last one shown, and to the end of its week.
func stretches(in Input) []*stretch {
	var all []*stretch
	last := price.WeekOf(in.Until, in.Company.Workweek).AddDays(6)
	for _, j := range in.Jobs {
		for _, d := range j.Days {
			if d.Date.Compare(last) > 0 {
				continue
			}
			for _, r := range d.Labor {
				if r.Minutes <= 0 {
					continue
				}
				t := &stretch{row: r, date: d.Date, job: j.Job, first: noClock, paid: Paid(r, in.Company.Rounding.Clock)}
				for _, s := range r.Spans {
					t.first = min(t.first, s.From)
				}
				all = append(all, t)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *stretch) int {
		return cmp.Or(
			order(a.row.Name == "", b.row.Name == ""), strings.Compare(a.row.Name, b.row.Name), a.date.Compare(b.date), cmp.Compare(a.first, b.first),
			strings.Compare(a.job.Number, b.job.Number),
		)
	})
	return all
}

// hours is the stretch as it is shown.
func (t *stretch) hours() Hours {
	h := Hours{
		Clock: t.row.Minutes, Rounding: t.paid - t.row.Minutes, Travel: t.row.Travel,
		Regular: t.regular, Overtime: t.overtime, Cost: t.cost,
	}
	if !t.costed {
		h.Costless = t.paid
	}
	return h
}

// enter adds one person's week to the sheet.
func (s *TimeSheet) enter(group []*stretch, in Input) {
	start := price.WeekOf(group[0].date, in.Company.Workweek)
	i, found := slices.BinarySearchFunc(s.Weeks, start, func(w Week, d notes.Date) int { return w.Starts.Compare(d) })
	if !found {
		w := Week{Starts: start, Ends: start.AddDays(6), People: []Person{}}
		w.Cut = w.Starts.Compare(in.Since) < 0 || w.Ends.Compare(in.Until) > 0
		s.Weeks = slices.Insert(s.Weeks, i, w)
	}
	p := Person{Name: group[0].row.Name, Class: group[0].row.Class}
	for _, t := range group {
		h := t.hours()
		p.Total = p.Total.Add(h)
		p.Days = append(p.Days, Day{Date: t.date, Job: t.job.Number, Hours: h, From: t.row.From})
		p.addJob(t, h, start)
		if !t.costed {
			s.addCostless(t)
		}
	}
	s.Weeks[i].People = append(s.Weeks[i].People, p)
}

func (p *Person) addJob(t *stretch, h Hours, start notes.Date) {
	i := slices.IndexFunc(p.Jobs, func(j JobHours) bool { return j.Job == t.job.Number })
	if i < 0 {
		p.Jobs = append(p.Jobs, JobHours{Job: t.job.Number, Title: t.job.Title})
		i = len(p.Jobs) - 1
	}
	p.Jobs[i].ByDay[t.date.DaysSince(start)] += h.Clock
	p.Jobs[i].Total = p.Jobs[i].Total.Add(h)
}

func (s *TimeSheet) addCostless(t *stretch) {
	why := NameOf(t.row.Name) + " is in no labor class"
	switch {
	case t.row.Name == "":
		why = "time without a name has no class"
	case t.row.Class != "":
		why = "the class " + t.row.Class + " has no cost"
	}
	if !slices.Contains(s.Costless, why) {
		s.Costless = append(s.Costless, why)
	}
}

// NameOf is how a person is shown.
func NameOf(name string) string {
	if name == "" {
		return "nobody named"
	}
	return name
}

// missing lists who is on a day's crew and has no hours that day on its job.
func missing(in Input) []Missing {
	out := []Missing{}
	for _, j := range in.Jobs {
		for _, d := range j.Days {
			if !in.within(d.Date) || in.Only != "" && !strings.EqualFold(in.Only, j.Job.Number) {
				continue
			}
			for _, name := range d.Crew {
				if !clocked(d, name) {
					out = append(out, Missing{Date: d.Date, Job: j.Job.Number, Name: name, File: firstNote(d)})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Missing) int {
		return cmp.Or(a.Date.Compare(b.Date), strings.Compare(a.Job, b.Job), strings.Compare(a.Name, b.Name))
	})
	return out
}

// clocked reports whether a person, whom the crew list may name by first name, has hours.
func clocked(d *notes.JobDay, name string) bool {
	return slices.ContainsFunc(d.Labor, func(r notes.LaborRow) bool {
		first, _, _ := strings.Cut(r.Name, " ")
		return r.Minutes > 0 && (strings.EqualFold(r.Name, name) || strings.EqualFold(first, name))
	})
}

func firstNote(d *notes.JobDay) string {
	if len(d.Notes) == 0 {
		return ""
	}
	return d.Notes[0].File
}
