package price

import (
	"slices"

	"jobday/finding"
	"jobday/notes"
)

// scopeLine prices what today did to one booked line.
func (b *bill) scopeLine(s *notes.LineStanding) {
	s.Price, s.Ready = notes.Money{}, notes.Money{}
	l := b.line(s.Line)
	if l == nil || l.priced == b.day {
		return // not in the scope, or a second line with the same label
	}
	l.priced, l.refund = b.day, notes.Money{}
	l.begun = l.begun || s.Finished || s.ToDate.Sign() > 0 || s.Today.Sign() > 0 || s.State == notes.UnderWay || finished(s)
	s.Price = l.whole()
	switch l.Price.Kind {
	case notes.LotPrice:
		b.dropped(l, s)
		b.lot(l, s)
		b.doneAllTheSame(l, s)
	case notes.UnitPrice:
		b.unitPriced(l, s)
		b.doneAllTheSame(l, s)
		b.dropped(l, s)
	case notes.TimeAndMaterial:
		b.timeAndMaterial(l, s)
	default:
		b.unpriced(l, s)
	}
	b.beyondAllowance(l)
	b.unusedAllowance(l, s)
}

func finished(s *notes.LineStanding) bool {
	return s.Finished || s.State == notes.Complete || s.State == notes.Over
}

// whole returns the price of the line as booked; of time and material its ceiling, if it has one.
func (l *lineMoney) whole() notes.Money {
	switch l.Price.Kind {
	case notes.LotPrice:
		return l.Price.Amount
	case notes.UnitPrice:
		return l.Price.Amount.Times(l.Qty.Value)
	case notes.TimeAndMaterial:
		if l.Price.Max != nil {
			return *l.Price.Max
		}
	}
	return notes.Money{}
}

// worth returns the part of a lot or unit price that a quantity of the line stands for. A lot is
// divided by the booked quantity, rounded half away from zero to the cent.
func (l *lineMoney) worth(qty notes.Decimal) notes.Money {
	switch {
	case l.Price.Kind == notes.UnitPrice:
		return l.Price.Amount.Times(qty)
	case l.Price.Kind != notes.LotPrice || qty.Sign() <= 0:
		return notes.Money{}
	case qty.Cmp(l.Qty.Value) >= 0:
		return l.Price.Amount
	}
	return notes.Cents(l.Price.Amount.Decimal().Mul(qty).Quo(l.Qty.Value, 2))
}

// from returns where the line stands in the notes and in the scope.
func (l *lineMoney) from(s *notes.LineStanding) []notes.Source {
	if len(s.From) == 0 {
		return l.scope
	}
	return slices.Concat(s.From, l.scope)
}

// lot makes a lot price ready on the day the line is complete, and holds it from the day work on
// it began. A part the customer took out is no longer in the price.
func (b *bill) lot(l *lineMoney, s *notes.LineStanding) {
	out := l.worth(l.dropped)
	amount := l.Price.Amount.Sub(out)
	if l.settled || !l.begun || amount.IsZero() {
		return
	}
	b.value(l.title, amount)
	rest := l.Qty.Value.Sub(l.dropped) // what is still wanted of the line
	if !finished(s) && s.ToDate.Cmp(rest) < 0 {
		b.waitForLot(l, s, amount)
		return
	}
	l.settled = true
	if s.Unclear {
		b.holdUnclear(l, s, amount)
		return
	}
	s.Ready = amount
	working := []notes.PricingStep{single("lot price of line "+l.Label, "as booked, due when the line is complete", l.Price.Amount, l.from(s))}
	if !out.IsZero() {
		working = append(working, single("less what the customer took out",
			l.dropped.String()+" of "+l.Qty.String()+", in proportion, rounded half up to the cent", out.Neg(), s.From))
	}
	b.ready(notes.InvoiceLine{
		Ref: l.Label, What: l.title, Qty: notes.Int(1), Unit: notes.Lot, Rate: amount.Decimal(), Amount: amount,
		Taxed: b.taxed(kindScope), Why: "the line is complete", Working: working, From: s.From, Kind: kindScope,
	})
}

// waitForLot holds a lot price until its line is complete.
func (b *bill) waitForLot(l *lineMoney, s *notes.LineStanding, amount notes.Money) {
	stands := standingText(l, s)
	if len(s.From) > 0 || stands != l.waitsAt || !amount.Equal(l.waits.Amount) {
		l.waitsAt = stands
		l.waits = notes.MoneyNote{
			What: l.title, Amount: amount, From: l.scope, Ref: l.Label,
			Why: stands + "; a lot price is billed when the line is complete", Frees: "the line complete",
		}
	}
	n := l.waits
	n.From = l.from(s)
	b.hold(n)
}

// The kinds of invoice line a tax treatment tells apart.
const (
	kindScope    = "scope"
	kindExtra    = "extra"
	kindLabor    = "labor"
	kindMaterial = "material"
	kindMixed    = "time and material"
)

// standingText says how far a line is.
func standingText(l *lineMoney, s *notes.LineStanding) string {
	text := s.ToDate.String() + " of " + l.Qty.Value.String() + " done"
	if s.ToDate.IsZero() {
		text = "begun"
	}
	if s.State == notes.Blocked && s.BlockedBy != "" {
		text += ", blocked by " + s.BlockedBy
	}
	return text
}

// single returns a step of one lot at an amount.
func single(what, basis string, amount notes.Money, from []notes.Source) notes.PricingStep {
	return notes.PricingStep{
		What: what, Basis: basis, Qty: notes.Int(1), Unit: notes.Lot, Rate: amount.Decimal(), Amount: amount, From: sources(from),
	}
}

// holdUnclear holds money of a line because an unclear entry of the day may belong to it.
func (b *bill) holdUnclear(l *lineMoney, s *notes.LineStanding, amount notes.Money) {
	b.holdOn(notes.MoneyNote{
		What: l.title, Amount: amount, Why: "an unclear entry may belong to line " + l.Label, From: l.from(s),
		Ref: l.Label, Frees: "a word on which line the unclear entry belongs to",
	}, lineUnclear, l)
}

// unitPriced makes ready what was done since the last day, within the booked quantity. What goes
// beyond it is an extra.
func (b *bill) unitPriced(l *lineMoney, s *notes.LineStanding) {
	done := notes.Min(s.ToDate.Sub(s.Over), l.Qty.Value.Sub(l.dropped))
	qty := done.Sub(l.qty)
	if qty.Sign() <= 0 {
		return
	}
	l.qty = done
	amount := l.Price.Amount.Times(qty)
	b.value(l.title, amount)
	if s.Unclear {
		b.holdUnclear(l, s, amount)
		return
	}
	s.Ready = amount
	what := qty.String() + " " + string(l.Qty.Unit)
	b.ready(notes.InvoiceLine{
		Ref: l.Label, What: l.title, Qty: qty, Unit: l.Qty.Unit, Rate: l.Price.Amount.Decimal(), Amount: amount,
		Taxed: b.taxed(kindScope), Why: what + " done, " + done.String() + " of " + l.Qty.String() + " so far",
		Working: []notes.PricingStep{{
			What: what + " of line " + l.Label, Basis: "unit price as booked, for what is done within the booked quantity",
			Qty: qty, Unit: l.Qty.Unit, Rate: l.Price.Amount.Decimal(), Amount: amount, From: sources(l.from(s)),
		}},
		From: s.From, Kind: kindScope,
	})
}

// dropped accounts for what the customer took out of a line. A dropped quantity is never billed:
// its value is not billed on the day it is dropped, with who dropped it. Where that part was ready
// before, the value is owed back, which is for the credit among the extras to settle.
func (b *bill) dropped(l *lineMoney, s *notes.LineStanding) {
	total := notes.Min(s.Dropped, l.Qty.Value)
	if total.Cmp(l.dropped) <= 0 {
		return
	}
	open := total // what of the dropped quantity was never ready
	switch {
	case l.settled:
		open = l.dropped
	case l.Price.Kind == notes.UnitPrice:
		open = notes.Max(notes.Min(total, l.Qty.Value.Sub(l.qty)), l.dropped)
	}
	value := l.worth(open).Sub(l.worth(l.dropped))
	l.refund = l.worth(total).Sub(l.worth(open))
	what := total.Sub(l.dropped).String() + " " + string(l.Qty.Unit) + " dropped of line " + l.title
	l.dropped, l.by = total, b.droppedBy(l, s)
	l.redone = notes.Max(l.redone, s.ToDate.Sub(s.Over).Add(total).Sub(l.Qty.Value)) // done before it was dropped
	if value.IsZero() {
		return
	}
	b.value(what, value)
	b.notBilled(notes.MoneyNote{
		What: what, Amount: value, Why: "taken out by " + l.by + "; what is dropped is never billed",
		From: s.From, Ref: l.Label,
	})
}

// droppedBy returns by whose word a part of the line was taken out.
func (b *bill) droppedBy(l *lineMoney, s *notes.LineStanding) string {
	if s.DroppedBy != "" {
		return s.DroppedBy
	}
	for _, e := range b.day.Extras {
		if e.Outcome == notes.ExtraCredit && b.line(e.Line) == l && e.Authorization.By != "" {
			return e.Authorization.By
		}
	}
	return "the customer"
}

// doneAllTheSame holds the value of what was done although the customer had taken it out on an
// earlier day.
func (b *bill) doneAllTheSame(l *lineMoney, s *notes.LineStanding) {
	redone := s.ToDate.Sub(s.Over).Add(l.dropped).Sub(l.Qty.Value)
	if l.dropped.Sign() <= 0 || redone.Cmp(l.redone) <= 0 {
		return
	}
	amount := l.worth(redone).Sub(l.worth(l.redone))
	what := redone.Sub(l.redone).String() + " " + string(l.Qty.Unit) + " of line " + l.title
	l.redone = redone
	b.value(what, amount)
	b.holdOn(notes.MoneyNote{
		What: what, Amount: amount, Why: "done although " + l.by + " had taken it out", From: l.from(s),
		Ref: l.Label, Frees: "the customer's word or a decision",
	}, doneDropped, l)
}

// unpriced holds a line without a price from the day work on it began. Its value is not known.
func (b *bill) unpriced(l *lineMoney, s *notes.LineStanding) {
	if !l.begun {
		return
	}
	if !l.unpriced {
		l.unpriced = true
		b.found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "price/line-unpriced", Span: l.Span,
			Message: "line " + quote(l.Label) + " was worked on and has no price",
			Hint:    `write a price in the scope: 640.00, 118.00 each, T&M or T&M max 300`,
			Holds:   "line " + l.Label,
		})
	}
	b.value(l.title, notes.Money{})
	b.hold(notes.MoneyNote{
		What: l.title, Why: "the scope has no price for line " + l.Label + "; what it is worth is not known",
		From: l.from(s), Ref: l.Label, Frees: "a price in the scope",
	})
}
