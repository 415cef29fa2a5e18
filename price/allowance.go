package price

import "jobday/notes"

// unusedAllowance shows, on the day a line is finished, what its price includes and nobody used. Where
// the company credits it, it is a line of the bill with a negative amount; what is never written of
// is not known to be unused, and so it is not credited. Material used for the line later goes beyond
// what is then left of the allowance.
func (b *bill) unusedAllowance(l *lineMoney, s *notes.LineStanding) {
	if l.compared || len(l.allowance) == 0 || !b.closed(l) {
		return
	}
	l.compared = true
	for i := range l.allowance {
		a := &l.allowance[i]
		allowed := a.Qty.Value
		if l.dropped.Sign() > 0 && l.Qty.Value.Sign() > 0 {
			allowed = allowed.Mul(l.Qty.Value.Sub(l.dropped)).Quo(l.Qty.Value, ratePlaces)
		}
		left := notes.Quantity{Value: allowed.Sub(a.used), Unit: a.Qty.Unit}
		if left.Value.Sign() <= 0 {
			continue
		}
		b.unused(l, a, left, s)
	}
}

// closed reports whether all of a line is billed or held, so that nothing more should go into it.
func (b *bill) closed(l *lineMoney) bool {
	switch l.Price.Kind {
	case notes.LotPrice:
		return l.settled
	case notes.UnitPrice:
		return l.qty.Sign() > 0 && l.qty.Cmp(l.Qty.Value.Sub(l.dropped)) >= 0
	}
	return false
}

func (b *bill) unused(l *lineMoney, a *allowance, left notes.Quantity, s *notes.LineStanding) {
	what := left.String() + " " + a.Item + " not used on line " + l.Label
	rate := b.rateOf(thing{a.Name, a.Qty.Unit})
	worth := notes.Cents(rate.rate.Mul(left.Value))
	from := l.from(s)
	n := notes.MoneyNote{What: what, From: from, Ref: l.Label}
	n.Why = a.used.String() + " of the " + a.Qty.String() + " allowed were used"
	switch {
	case a.used.IsZero():
		n.Why = "no use of the " + a.Qty.String() + " allowed is written; the booked price stands"
	case rate.missing != "":
		n.Why += "; what the rest is worth is not known, missing: " + rate.missing
	case !b.Company.CreditUnused:
		n.Why += "; the rest is worth " + worth.String() + " and stays in the booked price"
	case s.Unclear:
		n.Amount, n.Frees = worth.Neg(), "a word on which line the unclear entry belongs to"
		b.value(what, n.Amount)
		b.holdOn(n, creditOpen, nil)
		a.credited = left.Value
		return
	default:
		a.credited = left.Value
		b.value(what, worth.Neg())
		b.ready(notes.InvoiceLine{
			Ref: l.Label, What: what, Qty: left.Value, Unit: left.Unit, Rate: rate.rate.Neg(), Amount: worth.Neg(),
			Taxed: b.taxed(kindScope), Why: n.Why, From: s.From, Kind: kindMaterial,
			Working: []notes.PricingStep{{
				What: what, Basis: "credited, " + rate.basis, Qty: left.Value, Unit: left.Unit,
				Rate: rate.rate.Neg(), Amount: worth.Neg(), From: from,
			}},
		})
		s.Ready = s.Ready.Sub(worth)
		return
	}
	b.value(what, n.Amount)
	b.notBilled(n)
}
