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
//
// A job may run for months with things left open, so what a day only carries on is not figured
// again: it shares the rows, which nobody changes, of the day before.
package price

import (
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
	// Agreed is what was offered and answered, by the id of the extra.
	Agreed map[string]*Agreement
	// Offering gives every extra the rows of an offer.
	Offering bool
	// Overtime is what of the days is billed as overtime, of all jobs together; see OvertimeOf.
	Overtime Overtime
}

// Days fills in all money on the days of one job, which must be in order of date: codes, costs and
// prices of material, classes and cost of labor, the working and amount of extras, what of each
// line is ready, and the day's money. What became ready on one day is not ready again on a later
// one; what is held stands in every later day until it is freed, and an extra that is held stands
// among the extras of every later day. Nothing unclear and nothing unpriced is ever ready.
// It raises the rules under "price/". Days share rows of money and working: none may be changed.
func Days(days []*notes.JobDay, in Input) finding.List {
	b := &bill{job: newJob(days, in)}
	for _, d := range days {
		b.day = d
		b.price()
	}
	return b.found
}

// job is what the prices of a job carry from one day to the next.
type job struct {
	Input
	tax       notes.TaxTreatment
	taxKnown  bool
	rules     *notes.PricingRules   // of time and material; nil when the job names some nobody knows
	hired     map[string][]hired    // of extras so far, by id
	notes     map[string]written    // the notes by name
	lines     map[string]*lineMoney // by label, as written and in lower case
	extras    map[string]*extraMoney
	workWords map[string][]string // of an extra's work, read once
	open      []*extraMoney       // held at the end of the day before
	held      []*heldRow          // over days
	things    map[thing]*thingRate
	classless map[string]bool
	shares    map[shareKey]*overtimeShare
	told      map[told]bool // findings given, so that what is carried is not told again
	found     finding.List
}

// written is a note's text and the day it is about.
type written struct {
	file *finding.File
	day  *notes.JobDay
}

// lineMoney is how the money of one booked line stands at the end of a day.
type lineMoney struct {
	notes.ScopeLine
	title     string         // "B: Circuit for the proofing cabinet"
	scope     []notes.Source // where the scope books it
	settled   bool           // lot price: ready, or held for good because something is unclear
	qty       notes.Decimal  // unit price: quantity that is ready or held so far
	spent     notes.Money    // time and material: what of a ceiling is used up
	dropped   notes.Decimal  // quantity the customer took out so far
	by        string         // by whose word
	redone    notes.Decimal  // what of it was done all the same
	refund    notes.Money    // dropped today although it was ready before
	begun     bool
	timed     bool            // time was written for it since it was last missed
	unpriced  bool            // told that it has no price
	priced    *notes.JobDay   // the day it was priced last, so that no label counts twice
	waits     notes.MoneyNote // held until it is complete, as a day holds it that does not touch the line
	waitsAt   string          // how the line stood then
	over      notes.Decimal   // done beyond the booked quantity
	allowance []allowance
	compared  bool // what is allowed was held against what a finished line used
}

// allowance is material the price of a line includes and what became of it, in its unit.
type allowance struct {
	notes.Allowance
	used, over notes.Decimal // so far; over is what of used went beyond it
	credited   notes.Decimal // given back because the line was finished without it
}

func newJob(days []*notes.JobDay, in Input) *job {
	j := &job{
		Input: in, notes: make(map[string]written, len(days)), lines: make(map[string]*lineMoney, 2*len(in.Job.Lines)),
		extras: map[string]*extraMoney{}, workWords: map[string][]string{}, things: map[thing]*thingRate{}, classless: map[string]bool{}, told: map[told]bool{},
		shares: map[shareKey]*overtimeShare{}, hired: map[string][]hired{},
	}
	if j.Rows == nil {
		j.Rows = Index(in.Prices)
	}
	for _, l := range in.Job.Lines {
		label := strings.ToLower(l.Label)
		if j.lines[label] != nil {
			continue
		}
		m := &lineMoney{ScopeLine: l, title: l.Label + ": " + l.Work}
		if l.Span.Known() {
			m.scope = []notes.Source{notes.SourceOf(l.Span)}
		}
		j.lines[label], j.lines[l.Label] = m, m
	}
	for _, a := range in.Job.Allowed {
		if l := j.line(a.Line); l != nil {
			l.allowance = append(l.allowance, allowance{Allowance: a})
		}
	}
	for _, d := range days {
		for _, n := range d.Notes {
			j.notes[n.File] = written{n.Source, d}
		}
	}
	j.tax, j.taxKnown = j.treatment()
	j.rules = j.findRules()
	return j
}

// line returns the money of the booked line with the label, or nil when there is none.
func (j *job) line(label string) *lineMoney {
	if l := j.lines[label]; l != nil || label == "" {
		return l
	}
	return j.lines[strings.ToLower(label)]
}

// bill is the money of one day in the making.
type bill struct {
	*job
	day        *notes.JobDay
	quotes     []materialQuote // of the day's material, in its order
	hourly     []string        // labels of the lines billed by time and material the day speaks of
	byHour     string          // "line D is billed by", of those
	fresh      []heldToday
	hiredToday []hired
	work       []materialQuote // of one extra
	rows       moneyRows
}

// moneyRows is the money of the day as far as it is known. Its memory is used again every day.
type moneyRows struct {
	valued          []notes.Value
	ready           []notes.InvoiceLine
	held, notBilled []notes.MoneyNote
}

func (b *bill) price() {
	b.rows = moneyRows{b.rows.valued[:0], b.rows.ready[:0], b.rows.held[:0], b.rows.notBilled[:0]}
	b.laborCosts()
	b.findOver()
	b.materialPrices()
	b.findHourly()
	b.findHired()
	for i := range b.day.Scope {
		b.scopeLine(&b.day.Scope[i])
	}
	b.unplaced()
	b.unassigned()
	b.unplacedHired()
	b.unclearEntries()
	b.carryExtras()
	for i := range b.day.Extras {
		b.extra(&b.day.Extras[i])
	}
	b.untaxed()
	b.carryHeld()
	b.day.Valued = list(b.rows.valued)
	b.day.Money = notes.MoneyStanding{
		Ready: notes.Ready{Lines: list(b.rows.ready), Tax: []notes.TaxAmount{}},
		Held:  list(b.rows.held), NotBilled: list(b.rows.notBilled),
	}
	b.total()
}

// list returns a copy of rows; of none it is empty and not nil, so that JSON shows [].
func list[T any](rows []T) []T { return append(make([]T, 0, len(rows)), rows...) }

// value enters what one thing is worth, before it is decided what becomes of the money.
func (b *bill) value(what string, amount notes.Money) {
	b.rows.valued = append(b.rows.valued, notes.Value{What: what, Amount: amount})
}

func (b *bill) ready(l notes.InvoiceLine) {
	l.From, l.Working = sources(l.From), steps(l.Working)
	b.rows.ready = append(b.rows.ready, l)
}

func (b *bill) hold(n notes.MoneyNote) {
	n.From = sources(n.From)
	b.rows.held = append(b.rows.held, n)
}

func (b *bill) notBilled(n notes.MoneyNote) {
	n.From = sources(n.From)
	b.rows.notBilled = append(b.rows.notBilled, n)
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
