// Package review answers the owner's question over all jobs and crews: what was found beyond the
// booked scope in a stretch of time, what it was worth, and where it went. It is a pure function of
// compiled JobDays; every figure carries the entries and days it is made of.
package review

import (
	"cmp"
	"slices"

	"jobday/notes"
)

// Input is what is looked over.
type Input struct {
	Jobs []Job
	// Since and Until are the first and the last day looked at. Notes after Until do not count; what
	// was found before Since counts only where it still stands open.
	Since, Until notes.Date
}

// Job is a job with all its compiled days, in order.
type Job struct {
	Job  *notes.Job // required
	Days []*notes.JobDay
}

// Review is what the owner is shown. Lists are never nil; the JSON keys are a contract.
type Review struct {
	Since notes.Date `json:"since"`
	Until notes.Date `json:"until"`
	Jobs  int        `json:"jobs"` // with a note in the time
	Days  int        `json:"days"` // job-days with a note in the time

	// Found is the value of everything found beyond scope in the time, credits left out; Flow is
	// where it went and adds up to it.
	Found notes.Money `json:"found"`
	Flow  []Share     `json:"flow"`
	// Credits are booked lines the customers dropped, as a positive amount.
	Credits Share   `json:"credits"`
	Loose   []Loose `json:"loose"` // material billed to nobody, for no line and no extra says what it was for

	Exposure []Age   `json:"exposure"` // work done on nobody's confirmed word, by its age at Until
	Causes   []Share `json:"causes"`   // extras by what brought them about, the weightiest first
	Things   []Share `json:"things"`   // extras by what they were about, the weightiest first

	Faults  []FaultKind  `json:"deficiencies"` // kinds found in the time, the most frequent first
	Hazards []OpenHazard `json:"open_hazards"` // that can hurt and stand open at Until, the gravest and oldest first

	Hours    []JobHours `json:"hours"`
	Thin     []ThinDay  `json:"thin_days"` // days with hours and no work written, or work and no hours
	Wordings []Wording  `json:"wordings"`  // what was booked that extras keep growing from
	Weeks    []Week     `json:"weeks"`
	Extras   []Extra    `json:"extras"` // everything the amounts are made of, by day
}

// Fate is where an extra went.
type Fate string

// The fates, from the best to the worst for the company.
const (
	Billed     Fate = "billed"
	Authorized Fate = "authorized" // and not on an invoice yet
	Awaiting   Fate = "awaiting"   // a price is known, the customer's word is not
	Declined   Fate = "declined"
	GivenAway  Fate = "given away" // done at no charge
	Unpriced   Fate = "never priced"
)

// Fates lists the fates in their order.
var Fates = []Fate{Billed, Authorized, Awaiting, Declined, GivenAway, Unpriced}

// Extra is one extra as it stood at the end of the time.
type Extra struct {
	ID     string             `json:"id"`
	Job    string             `json:"job"`
	Found  notes.Date         `json:"found"`
	Work   string             `json:"work"`
	Cause  string             `json:"cause"`
	Thing  string             `json:"thing"`
	Done   bool               `json:"done"`
	State  notes.ExtraState   `json:"state"`
	Fate   Fate               `json:"fate"`
	Amount notes.Money        `json:"amount"` // as far as it could be priced
	Line   string             `json:"line"`   // the booked line it grew from, "" when none comes near
	From   []notes.Source     `json:"from"`
	Days   int                `json:"days"` // since it was found, at Until
	scope  notes.LineStanding // of Line
}

// Share is an amount with what it is made of.
type Share struct {
	Name   string      `json:"name"`
	Count  int         `json:"count"`
	Amount notes.Money `json:"amount"`
	// Percent is Amount, or of counts Count, of the whole list, rounded half up to a tenth; Running is
	// the sum of the list up to and with this, rounded likewise.
	Percent notes.Decimal `json:"percent"`
	Running notes.Decimal `json:"running"`
	Of      []string      `json:"of"` // ids of the extras, each with its job: "2431 2026-03-12/mixer"
}

// Loose is material that went into a job and onto no bill.
type Loose struct {
	Job    string         `json:"job"`
	Date   notes.Date     `json:"date"`
	What   string         `json:"what"`
	Amount notes.Money    `json:"amount"` // 0.00 when no price is known: then Why says so
	Why    string         `json:"why"`
	From   []notes.Source `json:"from"`
}

// Of looks over the jobs.
func Of(in Input) *Review {
	r := &Review{Since: in.Since, Until: in.Until, Extras: []Extra{}, Loose: []Loose{}, Hours: []JobHours{},
		Thin: []ThinDay{}, Hazards: []OpenHazard{}, Faults: []FaultKind{}, Wordings: []Wording{}, Weeks: []Week{}}
	jobs := in.upToUntil()
	var all []Extra // also older ones that still stand
	for _, j := range jobs {
		in.count(r, j)
		all = append(all, in.extras(j)...)
	}
	slices.SortStableFunc(all, func(a, b Extra) int {
		return cmp.Or(a.Found.Compare(b.Found), cmp.Compare(a.Job, b.Job), cmp.Compare(a.ID, b.ID))
	})
	for _, e := range all {
		if in.within(e.Found) {
			r.Extras = append(r.Extras, e)
		}
	}
	r.whereItWent()
	r.Exposure = exposure(all)
	r.Causes = pareto(r.Extras, func(e Extra) string { return e.Cause })
	r.Things = pareto(r.Extras, func(e Extra) string { return cmp.Or(e.Thing, "nothing that is named") })
	in.faults(r, jobs)
	r.Wordings = in.wordings(jobs, r.Extras)
	r.Weeks = in.weeks(jobs, r.Extras)
	return r
}

// within reports whether a day is in the time looked at.
func (in Input) within(d notes.Date) bool {
	return d.Compare(in.Since) >= 0 && d.Compare(in.Until) <= 0
}

// upToUntil returns the jobs without what was written after the time.
func (in Input) upToUntil() []Job {
	var jobs []Job
	for _, j := range in.Jobs {
		if days := notes.UpTo(j.Days, in.Until); len(days) > 0 {
			jobs = append(jobs, Job{j.Job, days})
		}
	}
	return jobs
}

// count adds what a job's days show by themselves: how many, thin ones, loose material, hours.
func (in Input) count(r *Review, j Job) {
	seen := 0
	for _, d := range j.Days {
		if !in.within(d.Date) {
			continue
		}
		seen++
		if t, thin := thinDay(d); thin {
			r.Thin = append(r.Thin, t)
		}
		r.Loose = append(r.Loose, loose(d)...)
	}
	if seen == 0 {
		return
	}
	r.Jobs++
	r.Days += seen
	r.Hours = append(r.Hours, jobHours(j))
}

// loose returns the material of a day that no line and no extra took.
func loose(d *notes.JobDay) []Loose {
	var list []Loose
	for _, n := range d.Money.NotBilled {
		if n.Ref == "" {
			list = append(list, Loose{d.Job, d.Date, n.What, n.Amount, n.Why, n.From})
		}
	}
	return list
}

// whereItWent adds up the extras by their fate. The sum of the parts is what was found.
func (r *Review) whereItWent() {
	byFate := map[Fate]*Share{}
	for _, f := range Fates {
		byFate[f] = &Share{Name: string(f), Of: []string{}}
	}
	r.Credits = Share{Name: "credits", Of: []string{}}
	for _, e := range r.Extras {
		if e.Cause == Dropped {
			r.Credits.add(e, e.Amount.Neg())
			continue
		}
		byFate[e.Fate].add(e, e.Amount)
		r.Found = r.Found.Add(e.Amount)
	}
	for _, f := range Fates {
		r.Flow = append(r.Flow, *byFate[f])
	}
	percents(r.Flow, r.Found.Decimal(), byAmount)
}

func (s *Share) add(e Extra, amount notes.Money) {
	s.Count++
	s.Amount = s.Amount.Add(amount)
	s.Of = append(s.Of, e.ref())
}

// ref names an extra over all jobs.
func (e Extra) ref() string { return e.Job + " " + e.ID }
