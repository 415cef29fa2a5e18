package price

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// extra prices one extra and decides what becomes of the money. In this order the first that
// applies sets the price: an amount agreed in words; the unit price of the booked line it goes
// beyond; a unit price of the price list; time and material, at most what was said not to go over.
func (b *bill) extra(e *notes.ExtraWork) {
	if e.Outcome == notes.ExtraCredit {
		b.credit(e)
		return
	}
	p := b.priceExtra(e)
	e.Pricing = steps(slices.Concat(p.steps, p.laborSteps, p.materialSteps))
	e.Amount = p.total()
	if e.State != notes.ExtraBilled {
		e.State = stateOf(e, p)
	}
	full := e.Amount.Add(p.over)
	b.value(e.Work, full)
	if p.over.Sign() > 0 {
		b.notBilled(notes.MoneyNote{
			What: e.Work, Amount: p.over, Why: "over the " + e.Price.NotOver.String() + " it was not to go over",
			From: e.From, Ref: e.ID,
		})
	}
	b.place(e, p)
}

func stateOf(e *notes.ExtraWork, p extraPrice) notes.ExtraState {
	switch {
	case e.Price.NoCharge:
		return notes.ExtraNoCharge
	case e.Authorization.State == "declined":
		return notes.ExtraDeclined
	case len(p.missing) > 0:
		return notes.NeedsPrice
	case e.Authorization.State == "authorized":
		return notes.ExtraAuthorized
	}
	return notes.NeedsAuthorization
}

// place puts the amount of an extra where it belongs: ready, held or not billed.
func (b *bill) place(e *notes.ExtraWork, p extraPrice) {
	n := notes.MoneyNote{What: e.Work, Amount: e.Amount, From: e.From, Ref: e.ID}
	unknown := ""
	if len(p.missing) > 0 {
		unknown = "; what it is worth is not fully known, missing: " + strings.Join(p.missing, ", ")
	}
	switch e.State {
	case notes.ExtraNoCharge:
		if n.Why = "given away"; e.Price.Why != "" {
			n.Why += ": " + e.Price.Why
		}
		n.Why += unknown
		b.notBilled(n)
		return
	case notes.ExtraDeclined:
		n.Why = "declined" + byText(e.Authorization)
		if e.Outcome == notes.ExtraDone {
			n.Why += ", and done all the same"
			b.tellDeclined(e)
		}
		n.Why += unknown
		b.notBilled(n)
		return
	case notes.ExtraBilled:
		n.Why = "billed before"
		b.notBilled(n)
		return
	}
	if day, twice := b.billed[e.ID]; twice {
		n.Why = "ready since " + day.String()
		b.notBilled(n)
		return
	}
	if n.Why, n.Frees = b.reasons(e, p); n.Why != "" {
		b.hold(n)
		b.waiting = append(b.waiting, waiting{note: n, since: b.day.Date, extra: e.ID})
		return
	}
	b.billed[e.ID] = b.day.Date
	b.readyExtra(e, p)
}

// reasons returns why an extra must wait and what would free it; no reason means that it is ready.
func (b *bill) reasons(e *notes.ExtraWork, p extraPrice) (why, frees string) {
	var whys, free []string
	if len(p.missing) > 0 {
		whys = append(whys, "cannot be priced, missing: "+strings.Join(p.missing, ", "))
		free = append(free, strings.Join(p.missing, ", "))
		if e.Outcome == notes.ExtraDone && p.untold {
			b.tell(finding.Finding{
				Severity: finding.Warning, Rule: "price/extra-unpriced",
				Message: quote(e.Work) + " cannot be priced; missing: " + strings.Join(p.missing, ", "),
				Hint:    `write it below the extra, like "45 min, Ines", or a price agreed, like "quoted 180"`,
				Holds:   e.Amount.String() + " and what is missing",
			}, e.From)
		}
	}
	if e.Unclear != "" {
		whys, free = append(whys, e.Unclear), append(free, "a clear word on it")
	}
	if e.Authorization.State != "authorized" {
		whys, free = append(whys, "not authorized yet"), append(free, "a yes from the customer")
	}
	if e.Outcome == notes.ExtraNotDone {
		whys, free = append(whys, "not done yet"), append(free, "the work done")
	}
	return strings.Join(whys, "; "), strings.Join(free, "; ")
}

func (b *bill) readyExtra(e *notes.ExtraWork, p extraPrice) {
	l := notes.InvoiceLine{
		Ref: e.ID, What: e.Work, Why: "authorized" + byText(e.Authorization), From: e.From, Kind: kindExtra,
	}
	if !p.agreed {
		b.readyParts(l, p.parts, kindExtra)
		return
	}
	s := p.steps[0]
	l.Qty, l.Unit, l.Rate, l.Amount = s.Qty, s.Unit, s.Rate, e.Amount
	if !s.Amount.Equal(e.Amount) { // a minimum or a limit moved it
		l.Qty, l.Unit, l.Rate = notes.Int(1), notes.Lot, e.Amount.Decimal()
	}
	l.Working, l.Taxed = e.Pricing, b.taxed(kindExtra)
	b.ready(l)
}

func byText(a notes.Authorization) string {
	s := ""
	if a.By != "" {
		s += " by " + a.By
	}
	if a.How != "" {
		s += ", " + a.How
	}
	if a.At != "" {
		s += ", " + a.At
	}
	return s
}

func (b *bill) tellDeclined(e *notes.ExtraWork) {
	b.tell(finding.Finding{
		Severity: finding.Warning, Rule: "price/declined-done",
		Message: quote(e.Work) + " was declined" + byText(e.Authorization) + " and done all the same; it is not billed",
		Hint:    "if somebody agreed later, write who and when below it",
		Holds:   e.Amount.String(),
	}, e.From)
}

// credit prices booked work the customer dropped. The amount is what the change order takes off
// the booked price, and so it is negative. The line itself keeps the dropped part out of the bill;
// only what was ready before it was dropped has to be given back, once the drop is authorized.
func (b *bill) credit(e *notes.ExtraWork) {
	e.Pricing, e.Amount = steps(nil), notes.Money{}
	e.State = stateOf(e, extraPrice{})
	l := b.line(e.Line)
	if l == nil {
		return
	}
	qty := l.dropped
	if e.Qty.Written() && e.Qty.Value.Sign() > 0 {
		qty = notes.Min(e.Qty.Value, l.Qty.Value)
	}
	value := l.worth(qty)
	e.Amount = value.Neg()
	basis := "part of the booked price, not charged; rounded half up to the cent"
	if l.Price.Kind == notes.TimeAndMaterial {
		basis = "time and material: nothing is charged for what is not done"
	}
	e.Pricing = []notes.PricingStep{single(qty.String()+" "+string(l.Qty.Unit)+" dropped of line "+l.title(), basis, e.Amount, e.From)}
	if l.refund.Sign() > 0 {
		b.giveBack(e, l)
	}
}

// giveBack puts what was ready before it was dropped on the bill as a negative line.
func (b *bill) giveBack(e *notes.ExtraWork, l *lineMoney) {
	amount := l.refund.Neg()
	l.refund = notes.Money{}
	b.value(e.Work, amount)
	if e.State != notes.ExtraAuthorized {
		b.holdOn(notes.MoneyNote{
			What: e.Work, Amount: amount, Why: "line " + l.Label + " was ready before it was dropped, and nobody settled the credit",
			From: e.From, Ref: e.ID, Frees: "the customer's word or a decision",
		}, nil)
		return
	}
	b.billed[e.ID] = b.day.Date
	b.ready(notes.InvoiceLine{
		Ref: e.ID, What: e.Work, Qty: notes.Int(1), Unit: notes.Lot, Rate: amount.Decimal(), Amount: amount,
		Taxed: b.taxed(kindScope), Why: "ready before it was dropped" + byText(e.Authorization),
		Working: e.Pricing, From: e.From, Kind: kindExtra,
	})
}
