package price

import (
	"jobday/finding"
	"jobday/notes"
)

// unusedAllowance shows, on the day a line is finished, what its price includes and nobody used. Where
// the company credits it, it is a line of the bill with a negative amount; else the booked price
// stands and a finding says so. Of what no note speaks nobody knows that it was not used, and so it
// is not credited. Material used for the line later goes beyond what is then left of the allowance.
func (b *bill) unusedAllowance(l *lineMoney, s *notes.LineStanding) {
	if l.compared || len(l.allowance) == 0 || !closed(l) {
		return
	}
	l.compared = true
	var silent, unused []string
	var worth notes.Money
	for i := range l.allowance {
		a := &l.allowance[i]
		left := notes.Quantity{Value: allowedOf(l, a).Sub(a.used), Unit: a.Qty.Unit}
		rate := b.rateOf(thing{a.Name, a.Qty.Unit})
		switch {
		case left.Value.Sign() <= 0:
		case a.used.IsZero():
			silent = append(silent, left.String()+" "+a.Item)
		case b.Company.CreditUnused && rate.missing == "":
			a.credited = left.Value
			b.creditUnused(l, a, left, s)
		default:
			unused = append(unused, left.String()+" "+a.Item)
			worth = worth.Add(notes.Cents(rate.rate.Mul(left.Value)))
		}
	}
	from := l.from(s)
	if len(unused) > 0 {
		hint := `the booked price stands; "credit_unused: true" in company.yaml credits it, or write a price agreed`
		if b.Company.CreditUnused {
			hint = "write its price in prices.csv, so that it can be credited"
		}
		b.tell(finding.Finding{
			Severity: finding.Note, Rule: "price/allowance-unused", Hint: hint,
			Message: "line " + quote(l.Label) + " is finished and did not use " + quoteSome(unused) + " of what its price includes, worth " + worth.String(),
		}, from)
	}
	if len(silent) > 0 {
		b.tell(finding.Finding{
			Severity: finding.Note, Rule: "price/allowance-unused",
			Message: "line " + quote(l.Label) + " is finished and no note says that it used " + quoteSome(silent) + ", which its price includes",
			Hint:    "write under Materials what went in, like " + quote(l.Label+": "+silent[0]),
		}, from)
	}
}

// allowedOf returns what is allowed of a material, less the part of the line the customer took out.
func allowedOf(l *lineMoney, a *allowance) notes.Decimal {
	if l.dropped.Sign() <= 0 || l.Qty.Value.Sign() <= 0 {
		return a.Qty.Value
	}
	return a.Qty.Value.Mul(l.Qty.Value.Sub(l.dropped)).Quo(l.Qty.Value, ratePlaces)
}

// closed reports whether all of a line is billed or held, so that nothing more should go into it.
func closed(l *lineMoney) bool {
	switch l.Price.Kind {
	case notes.LotPrice:
		return l.settled
	case notes.UnitPrice:
		return l.qty.Sign() > 0 && l.qty.Cmp(l.Qty.Value.Sub(l.dropped)) >= 0
	}
	return false
}

// creditUnused gives back what is left of an allowance; on an unclear line that is held.
func (b *bill) creditUnused(l *lineMoney, a *allowance, left notes.Quantity, s *notes.LineStanding) {
	rate := b.rateOf(thing{a.Name, a.Qty.Unit})
	amount := notes.Cents(rate.rate.Mul(left.Value)).Neg()
	what := left.String() + " " + a.Item + " not used on line " + l.Label
	why := a.used.String() + " of the " + a.Qty.String() + " allowed were used"
	b.value(what, amount)
	if s.Unclear {
		b.holdOn(notes.MoneyNote{
			What: what, Amount: amount, Why: why + ", and an unclear entry may belong to line " + l.Label,
			From: l.from(s), Ref: l.Label, Frees: "a word on which line the unclear entry belongs to",
		}, creditOpen, nil)
		return
	}
	s.Ready = s.Ready.Add(amount)
	b.ready(notes.InvoiceLine{
		Ref: l.Label, What: what, Qty: left.Value, Unit: left.Unit, Rate: rate.rate.Neg(), Amount: amount,
		Taxed: b.taxed(kindScope), Why: why, From: s.From, Kind: kindMaterial,
		Working: []notes.PricingStep{{
			What: what, Basis: "credited, " + rate.basis, Qty: left.Value, Unit: left.Unit,
			Rate: rate.rate.Neg(), Amount: amount, From: l.from(s),
		}},
	})
}
