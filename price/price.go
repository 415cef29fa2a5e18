// Package price puts money on the days of a job: what the labor and the material cost, what each
// booked line and each extra is worth, and how much of that may be billed now, is held, or is not
// billed at all, each with the reason. It decides nothing about what is in scope.
//
// Rounding. Every product of a quantity and a rate is rounded half away from zero to the cent, and
// rounded amounts are then added; sums are never rounded again. Time billed is rounded up to the
// company's step for each person on each line or extra and day; it has nothing to do with the
// rounding of time on the clock, and cost is figured from the minutes as they are. A markup makes a
// unit price that is not rounded itself. Tax is rounded as the company says, for each line or for
// the invoice.
package price

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// Input is what the prices of one job come from. Company, Prices and Job may be empty but not nil.
type Input struct {
	Company *notes.Company
	Prices  *notes.PriceList
	Job     *notes.Job
	Rows    *Rows // index of Prices, made when nil; jobs of one book may share it
}

// Days fills in all money on the days of one job, which must be in order of date: codes, costs and
// prices of material, classes and cost of labor, the working and amount of extras, what of each
// line is ready, and the day's money. What became ready on one day is not ready again on a later
// one; what is held stands in every later day until it is freed.
// Nothing unclear and nothing unpriced is ever ready. It raises the rules under "price/".
func Days(days []*notes.JobDay, in Input) finding.List {
	j := newJob(days, in)
	for _, d := range days {
		b := &bill{job: j, day: d}
		b.price()
	}
	return j.found
}

// job is what the prices of a job carry from one day to the next.
type job struct {
	Input
	tax       notes.TaxTreatment
	files     map[string]*finding.File // the notes by name, to place findings
	crews     map[notes.Date][]string  // who was there
	dates     map[string]notes.Date    // of the notes by name
	lines     map[string]*lineMoney    // by label in lower case
	waiting   []waiting
	classless map[string]bool
	billed    map[string]notes.Date // extras by id, the day they became ready
	told      map[told]bool         // findings given, so that what is carried is not told again
	found     finding.List
}

// lineMoney is how the money of one booked line stands at the end of a day.
type lineMoney struct {
	notes.ScopeLine
	settled   bool          // lot price: ready, or held for good because something is unclear
	qty       notes.Decimal // unit price: quantity that is ready or held so far
	spent     notes.Money   // time and material: what of a ceiling is used up
	dropped   notes.Decimal // quantity the customer took out so far
	by        string        // by whose word
	redone    notes.Decimal // what of it was done all the same
	refund    notes.Money   // dropped today although it was ready before
	begun     bool
	timed     bool                     // time was written for it since it was last missed
	unpriced  bool                     // told that it has no price
	priced    *notes.JobDay            // the day it was priced last, so that no label counts twice
	used      map[string]notes.Decimal // material so far by the name of the allowance, in its unit
	allowance []notes.Allowance
}

// waiting is money held on one day that every later day holds as well.
type waiting struct {
	note  notes.MoneyNote
	since notes.Date
	until func() bool // reports whether it was freed; nil for money only a changed note can free
	extra string      // id of the extra it is for: where a day lists the extra, that row counts
}

func newJob(days []*notes.JobDay, in Input) *job {
	j := &job{
		Input: in, files: map[string]*finding.File{}, crews: map[notes.Date][]string{},
		dates: map[string]notes.Date{}, lines: map[string]*lineMoney{}, billed: map[string]notes.Date{}, classless: map[string]bool{}, told: map[told]bool{},
	}
	if j.Rows == nil {
		j.Rows = Index(in.Prices)
	}
	for _, l := range in.Job.Lines {
		if label := strings.ToLower(l.Label); j.lines[label] == nil {
			j.lines[label] = &lineMoney{ScopeLine: l}
		}
	}
	for _, a := range in.Job.Allowed {
		if l := j.line(a.Line); l != nil {
			l.allowance = append(l.allowance, a)
		}
	}
	for _, d := range days {
		for _, n := range d.Notes {
			j.files[n.File], j.dates[n.File] = n.Source, d.Date
		}
		j.crews[d.Date] = slices.Clone(d.Crew)
		for _, r := range d.Labor {
			if r.Name != "" {
				j.crews[d.Date] = append(j.crews[d.Date], r.Name)
			}
		}
	}
	j.tax = j.treatment()
	return j
}

// line returns the money of the booked line with the label, or nil when there is none.
func (j *job) line(label string) *lineMoney { return j.lines[strings.ToLower(label)] }

// bill is the money of one day in the making.
type bill struct {
	*job
	day *notes.JobDay
}

func (b *bill) price() {
	b.day.Valued = []notes.Value{}
	b.day.Money = notes.MoneyStanding{
		Ready: notes.Ready{Lines: []notes.InvoiceLine{}, Tax: []notes.TaxAmount{}},
		Held:  []notes.MoneyNote{}, NotBilled: []notes.MoneyNote{},
	}
	carried := b.waiting
	b.waiting = nil
	b.laborCosts()
	quotes := b.materialPrices()
	for i := range b.day.Scope {
		b.scopeLine(&b.day.Scope[i], quotes)
	}
	b.unplaced(quotes)
	b.unassigned()
	for i := range b.day.Extras {
		b.extra(&b.day.Extras[i])
	}
	b.carry(carried)
	b.total()
}

// carry holds again what earlier days held and nothing has freed.
func (b *bill) carry(earlier []waiting) {
	var kept []waiting
	for _, w := range earlier {
		if w.until != nil && w.until() || b.lists(w.extra) {
			continue
		}
		n := w.note
		n.Why += ", since " + w.since.String()
		b.value(n.What, n.Amount)
		b.day.Money.Held = append(b.day.Money.Held, n)
		kept = append(kept, w)
	}
	b.waiting = append(kept, b.waiting...)
}

// lists reports whether the day lists the extra, and so has a row of its own for its money.
func (b *bill) lists(id string) bool {
	return id != "" && slices.ContainsFunc(b.day.Extras, func(e notes.ExtraWork) bool { return e.ID == id })
}

// value enters what one thing is worth, before it is decided what becomes of the money.
func (b *bill) value(what string, amount notes.Money) {
	b.day.Valued = append(b.day.Valued, notes.Value{What: what, Amount: amount})
}

func (b *bill) ready(l notes.InvoiceLine) {
	l.From, l.Working = sources(l.From), steps(l.Working)
	b.day.Money.Ready.Lines = append(b.day.Money.Ready.Lines, l)
}

func (b *bill) hold(n notes.MoneyNote) {
	n.From = sources(n.From)
	b.day.Money.Held = append(b.day.Money.Held, n)
}

// holdOn holds money today and on every later day until it is freed.
func (b *bill) holdOn(n notes.MoneyNote, until func() bool) {
	n.From = sources(n.From)
	b.hold(n)
	b.waiting = append(b.waiting, waiting{note: n, since: b.day.Date, until: until})
}

func (b *bill) notBilled(n notes.MoneyNote) {
	n.From = sources(n.From)
	b.day.Money.NotBilled = append(b.day.Money.NotBilled, n)
}

// sources and steps make a missing list an empty one, so that JSON shows [].
func sources(s []notes.Source) []notes.Source {
	if s == nil {
		return []notes.Source{}
	}
	return s
}

func steps(s []notes.PricingStep) []notes.PricingStep {
	if s == nil {
		return []notes.PricingStep{}
	}
	return s
}
