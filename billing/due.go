package billing

import (
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
)

// A key is one thing that is billed: a scope line or an extra, taxed or not.
type key struct {
	ref   string
	taxed bool
}

// A tally is what one thing comes to, by the notes or by the invoices.
type tally struct {
	key
	amount notes.Money
	qty    notes.Decimal
	unit   notes.Unit
	rate   notes.Decimal
	single bool // all of it is a quantity at one rate
	what   string
	kind   string
	why    string
	from   []notes.Source
	days   []notes.Date       // that added to it
	number string             // of the last invoice that has it
	then   []notes.SourceLine // that invoices rest on, as they read then
}

func (t *tally) add(amount notes.Money, qty notes.Decimal, unit notes.Unit, rate notes.Decimal) {
	plain := notes.Cents(qty.Mul(rate)).Equal(amount)
	if len(t.days) == 0 && t.number == "" && t.amount.IsZero() {
		t.qty, t.unit, t.rate, t.single = qty, unit, rate, plain
	} else {
		t.single = t.single && plain && t.unit == unit && t.rate.Equal(rate)
		t.qty = t.qty.Add(qty)
	}
	t.amount = t.amount.Add(amount)
}

// earned returns what ever became ready, thing by thing, in the order it did.
func (in *Input) earned() []*tally {
	var all []*tally
	at := map[key]*tally{}
	get := func(k key) *tally {
		if at[k] == nil {
			at[k] = &tally{key: k}
			all = append(all, at[k])
		}
		return at[k]
	}
	for _, d := range in.Days {
		for _, l := range d.Money.Ready.Lines {
			t := get(key{l.Ref, l.Taxed})
			t.add(l.Amount, l.Qty, l.Unit, l.Rate)
			t.what, t.kind, t.why = l.What, l.Kind, l.Why
			t.from = append(t.from, l.From...)
			if !slices.Contains(t.days, d.Date) {
				t.days = append(t.days, d.Date)
			}
		}
	}
	for _, t := range all {
		if len(t.days) > 1 {
			t.why = "ready on " + daysText(t.days)
		}
	}
	if in.Job.Billing.Mode == notes.ByPercent {
		in.progress(get)
	}
	return all
}

// daysText names days; of many, the first and the last.
func daysText(days []notes.Date) string {
	const most = 4
	words := make([]string, len(days))
	for i, d := range days {
		words[i] = d.String()
	}
	if len(words) > most {
		return strconv.Itoa(len(words)) + " days from " + words[0] + " to " + words[len(words)-1]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// progress adds the lots that are under way, as far as they are done: their price in proportion to
// the quantity done, rounded half away from zero to the cent. A line with an unclear entry waits.
func (in *Input) progress(get func(key) *tally) {
	if len(in.Days) == 0 {
		return
	}
	last := in.Days[len(in.Days)-1]
	treatment, known := in.treatment()
	if !known {
		return // nothing is ready as long as nobody knows its tax
	}
	taxed := slices.Contains(treatment.Taxed, "scope")
	for _, s := range last.Scope {
		l, ok := in.Job.Line(s.Line)
		if !ok || l.Price.Kind != notes.LotPrice || s.Booked.Qty.Sign() <= 0 || s.ToDate.Sign() <= 0 || in.unclear(s.Line) {
			continue
		}
		t := get(key{s.Line, taxed})
		if !t.amount.IsZero() {
			continue // complete: all of it is ready
		}
		done := notes.Min(s.ToDate, s.Booked.Qty.Sub(s.Dropped))
		amount := notes.Cents(l.Price.Amount.Decimal().Mul(done).Quo(s.Booked.Qty, 2))
		if amount.IsZero() {
			continue
		}
		t.add(amount, notes.Int(1), notes.Lot, amount.Decimal())
		t.what, t.kind = l.Label+": "+l.Work, "scope"
		t.why = done.String() + " of " + s.Booked.Qty.String() + " " + string(s.Booked.Unit) + " done so far"
		for _, d := range in.Days {
			for _, x := range d.Scope {
				if x.Line == s.Line && x.Today.Sign() > 0 {
					t.from = append(t.from, x.From...)
					t.days = append(t.days, d.Date)
				}
			}
		}
	}
}

// unclear reports whether an unclear entry of any day may belong to the line.
func (in *Input) unclear(label string) bool {
	return slices.ContainsFunc(in.Days, func(d *notes.JobDay) bool {
		return slices.ContainsFunc(d.Scope, func(s notes.LineStanding) bool { return s.Line == label && s.Unclear })
	})
}

// billed returns what the invoices of the job have, thing by thing. A void takes back what the
// invoice before it had. An extra whose words were edited so that it has another id is another
// thing: it is billed anew, and what was billed under the old id is given back beside it. To guess
// that the two are one could bill one of them twice.
func (in *Input) billed() map[key]*tally {
	sent := map[key]*tally{}
	for i := range in.Records.Invoices {
		v := &in.Records.Invoices[i]
		for _, l := range v.Lines {
			k := key{l.Ref, l.Taxed}
			t := sent[k]
			if t == nil {
				t = &tally{key: k}
				sent[k] = t
			}
			t.add(l.Amount, l.Qty, l.Unit, l.Rate)
			t.what, t.kind, t.number = l.What, l.Kind, v.Number
			for _, s := range v.Sources {
				if s.Ref == l.Ref && !slices.Contains(t.then, s) {
					t.then = append(t.then, s)
				}
			}
		}
	}
	return sent
}

// A difference is what one thing still has to be billed, or given back.
type difference struct {
	*tally            // by the notes; of what is gone from them, by the invoices
	sent       *tally // by the invoices, nil for nothing
	amount     notes.Money
	correction bool // work billed before is worth something else now
	gone       bool // the notes no longer have it
}

// differences returns all that is not billed as the notes have it now: what was earned, in its order,
// then what is gone, by reference.
func (in *Input) differences() []difference {
	sent := in.billed()
	through := in.through()
	var list []difference
	for _, t := range in.earned() {
		s := sent[t.key]
		delete(sent, t.key)
		d := difference{tally: t, sent: s, amount: t.amount}
		if s != nil {
			d.amount = t.amount.Sub(s.amount)
			fresh := slices.ContainsFunc(t.days, func(day notes.Date) bool { return day.Compare(through) > 0 })
			d.correction = !s.amount.IsZero() && (d.amount.Sign() < 0 || !fresh)
		}
		if !d.amount.IsZero() {
			list = append(list, d)
		}
	}
	var gone []difference
	for _, s := range sent {
		if !s.amount.IsZero() {
			gone = append(gone, difference{tally: s, sent: s, amount: s.amount.Neg(), correction: true, gone: true})
		}
	}
	slices.SortFunc(gone, func(a, b difference) int {
		if a.taxed != b.taxed && a.ref == b.ref {
			if a.taxed {
				return -1
			}
			return 1
		}
		return strings.Compare(a.ref, b.ref)
	})
	return append(list, gone...)
}

// through returns the last day any invoice that still stands goes up to.
func (in *Input) through() notes.Date {
	var last notes.Date
	for _, v := range in.Records.Invoices {
		if v.Kind == notes.InvoiceBill && !in.Records.Voided(v.Number) && v.Through.Compare(last) > 0 {
			last = v.Through
		}
	}
	return last
}

// Unbilled returns what the job may bill now, before tax: everything earned less everything billed.
func (in *Input) Unbilled() notes.Money {
	var sum notes.Money
	for _, d := range in.differences() {
		sum = sum.Add(d.amount)
	}
	return sum
}
