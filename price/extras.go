package price

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// extraMoney is how the money of an extra stands at the end of a day.
type extraMoney struct {
	work   notes.ExtraWork // as it was priced last
	price  extraPrice
	held   notes.MoneyNote
	waits  bool          // held at the end of the day
	ready  notes.Date    // the day it became ready, if it did
	listed *notes.JobDay // the last day that listed it
}

// moneyOf returns how the money of an extra stands, from the day it is first met.
func (b *bill) moneyOf(e *notes.ExtraWork) *extraMoney {
	m := b.extras[e.ID]
	if m == nil {
		m = &extraMoney{listed: b.day}
		b.extras[e.ID] = m
	}
	return m
}

// carryExtras puts what is held and nobody spoke of today among the extras of the day, in front: it
// is older than what today found.
func (b *bill) carryExtras() {
	for i := range b.day.Extras {
		if m := b.extras[b.day.Extras[i].ID]; m != nil {
			m.listed = b.day
		}
	}
	var missing []notes.ExtraWork
	for _, m := range b.open {
		if m.listed != b.day {
			m.listed = b.day
			missing = append(missing, m.work)
		}
	}
	b.open = b.open[:0]
	if len(missing) > 0 {
		b.day.Extras = append(missing, b.day.Extras...)
	}
}

// extra prices one extra and decides what becomes of the money. In this order the first that
// applies sets the price: an amount agreed in words; the unit price of the booked line it goes
// beyond; a unit price of the price list; time and material, at most what was said not to go over.
// An extra nothing was said about since it was priced keeps its price.
func (b *bill) extra(e *notes.ExtraWork) {
	if a := b.Agreed[e.ID]; a != nil {
		b.agreed(e, a)
		return
	}
	if e.Outcome == notes.ExtraCredit {
		b.credit(e)
		b.offered(e, &extraPrice{})
		return
	}
	m := b.moneyOf(e)
	if m.work.ID == "" || !unchanged(&m.work, e) || b.spokenOf(e) {
		m.price = b.priceExtra(e)
		m.waits = false
		e.Pricing = m.price.pricing()
		e.Amount = m.price.total()
		if e.State != notes.ExtraBilled {
			e.State = stateOf(e, &m.price)
		}
		m.work = *e
	} else {
		e.Pricing, e.Amount, e.State, e.Materials = m.work.Pricing, m.work.Amount, m.work.State, m.work.Materials
	}
	b.value(e.Work, e.Amount.Add(m.price.over))
	if m.price.over.Sign() > 0 {
		b.notBilled(notes.MoneyNote{
			What: e.Work, Amount: m.price.over, Why: m.price.overWhy,
			From: e.From, Ref: e.ID,
		})
	}
	b.place(e, m)
	b.offered(e, &m.price)
	if m.waits {
		b.open = append(b.open, m)
	}
}

// unchanged reports whether an extra is as it was before: a new word on it adds a place in the notes.
func unchanged(before, now *notes.ExtraWork) bool {
	return before.Outcome == now.Outcome && before.Authorization == now.Authorization &&
		before.Unclear == now.Unclear && before.Line == now.Line && before.TaskWork == now.TaskWork &&
		before.Minutes == now.Minutes && before.Price == now.Price && before.Number == now.Number &&
		before.Qty.Unit == now.Qty.Unit && before.Qty.Value.Equal(now.Qty.Value) &&
		(before.State == notes.ExtraBilled) == (now.State == notes.ExtraBilled) &&
		len(before.From) == len(now.From) && same(before.Labor, now.Labor) &&
		same(before.Materials, now.Materials) && same(before.Facts, now.Facts)
}

// same reports whether two lists are one and the same.
func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// spokenOf reports whether rows of the day, and not the extra itself, say what went into it.
func (b *bill) spokenOf(e *notes.ExtraWork) bool {
	if slices.ContainsFunc(b.hiredToday, func(h hired) bool { return h.key == e.ID }) {
		return true
	}
	if len(e.Labor) == 0 && e.Minutes <= 0 {
		for i := range b.day.Labor {
			if b.day.Labor[i].On[e.ID] > 0 {
				return true
			}
		}
	}
	if len(e.Materials) == 0 {
		for i := range b.day.Materials {
			if b.day.Materials[i].Line == e.ID {
				return true
			}
		}
	}
	return false
}

func stateOf(e *notes.ExtraWork, p *extraPrice) notes.ExtraState {
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
func (b *bill) place(e *notes.ExtraWork, m *extraMoney) {
	if m.waits { // nothing has changed since
		b.hold(m.held)
		return
	}
	p := &m.price
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
	if m.ready.Known() {
		n.Why = b.since(m)
		b.notBilled(n)
		return
	}
	if n.Why, n.Frees = b.reasons(e, p); n.Why != "" {
		b.hold(n)
		m.held, m.waits = n, true
		return
	}
	m.ready = b.day.Date
	b.readyExtra(e, p)
}

// since says why an extra that is spoken of again is not ready again.
func (b *bill) since(m *extraMoney) string {
	if !b.taxKnown {
		return "held since " + m.ready.String() + ", because " + taxUnknownWhy(b.Job)
	}
	return "ready since " + m.ready.String()
}

// reasons returns why an extra must wait and what would free it; no reason means that it is ready.
func (b *bill) reasons(e *notes.ExtraWork, p *extraPrice) (why, frees string) {
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

func (b *bill) readyExtra(e *notes.ExtraWork, p *extraPrice) {
	l := notes.InvoiceLine{
		Ref: e.ID, What: e.Work, Why: "authorized" + byText(e.Authorization), From: e.From, Kind: kindExtra,
	}
	if !p.agreed {
		b.readyParts(l, &p.parts, kindExtra)
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
	e.State = stateOf(e, &extraPrice{})
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
	e.Pricing = []notes.PricingStep{single(qty.String()+" "+string(l.Qty.Unit)+" dropped of line "+l.title, basis, e.Amount, e.From)}
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
		}, creditOpen, nil)
		return
	}
	b.ready(notes.InvoiceLine{
		Ref: e.ID, What: e.Work, Qty: notes.Int(1), Unit: notes.Lot, Rate: amount.Decimal(), Amount: amount,
		Taxed: b.taxed(kindScope), Why: "ready before it was dropped" + byText(e.Authorization),
		Working: e.Pricing, From: e.From, Kind: kindExtra,
	})
}
