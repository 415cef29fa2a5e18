package price

import "jobday/notes"

// Agreement is what was offered for one extra, and what the customer said to it. Its amount holds
// whatever the notes say later.
type Agreement struct {
	Number  string     // of the change order
	Offered notes.Date // the day it was offered
	Item    notes.ChangeItem
	Answer  notes.AnswerKind // "" while there is none
	Who     string
	How     string
	At      notes.Date
	// Taxed and Free are what is authorized of the item, on taxed rows and on the others; both are
	// 0.00 while nothing is.
	Taxed, Free notes.Money
}

// authorized is what may be billed of the item.
func (a *Agreement) authorized() notes.Money { return a.Taxed.Add(a.Free) }

// agreed puts the amounts of a change order on an extra, and decides what becomes of the money: what
// was authorized is ready once the work is done, the rest is not billed. What the notes make the
// extra worth is kept beside it.
func (b *bill) agreed(e *notes.ExtraWork, a *Agreement) {
	m := b.moneyOf(e)
	if m.work.ID == "" || !unchanged(&m.work, e) || b.spokenOf(e) {
		m.price = b.priceExtra(e)
	}
	b.word(e, a)
	if e.Outcome == notes.ExtraCredit {
		b.credit(e)
		figured := e.Amount
		e.Figured, e.Number = &figured, a.Number
		b.offered(e, &m.price)
		return
	}
	if len(m.price.missing) == 0 {
		figured := m.price.total()
		e.Figured = &figured
	}
	e.Number, e.Amount, e.Pricing, m.waits = a.Number, a.Item.Amount, a.steps(e.From), false
	b.value(e.Work, e.Amount)
	b.placeAgreed(e, a, m)
	b.offered(e, &m.price)
	m.work = *e
	if m.waits {
		b.open = append(b.open, m)
	}
}

// word puts the customer's answer on an extra. While there is none, what the notes say counts.
func (b *bill) word(e *notes.ExtraWork, a *Agreement) {
	switch {
	case a.Answer == "":
	case a.Answer == notes.AnswerDeclined || a.authorized().IsZero():
		e.Authorization = notes.Authorization{State: "declined", By: a.Who, How: a.How, At: a.At.String()}
	default:
		e.Authorization = notes.Authorization{State: "authorized", By: a.Who, How: a.How, At: a.At.String()}
	}
	switch e.Authorization.State {
	case "declined":
		e.State = notes.ExtraDeclined
	case "authorized":
		e.State = notes.ExtraAuthorized
	default:
		e.State = notes.NeedsAuthorization
	}
}

// steps returns the rows of the offer as the working of the amount.
func (a *Agreement) steps(from []notes.Source) []notes.PricingStep {
	list := steps(nil)
	for _, r := range a.Item.Rows {
		list = append(list, notes.PricingStep{
			What: r.What, Basis: r.Basis + "; as offered in " + a.Number, Qty: r.Qty, Unit: r.Unit, Rate: r.Rate, Amount: r.Amount,
			From: sources(from),
		})
	}
	return list
}

func (b *bill) placeAgreed(e *notes.ExtraWork, a *Agreement, m *extraMoney) {
	n := notes.MoneyNote{What: e.Work, Amount: e.Amount, From: e.From, Ref: e.ID}
	if e.State == notes.ExtraDeclined {
		n.Why = a.Number + " was declined" + byText(e.Authorization)
		if a.Answer == notes.AnswerWithdrawn {
			n.Why = "the yes to " + a.Number + " was taken back" + byText(e.Authorization)
		}
		if e.Outcome == notes.ExtraDone {
			n.Why += ", and done all the same"
			b.tellDeclined(e)
		}
		b.notBilled(n)
		return
	}
	part := a.authorized()
	if a.Answer == "" {
		part = e.Amount
	}
	if rest := e.Amount.Sub(part); !rest.IsZero() {
		left := n
		left.Amount, left.Why = rest, "not among what was authorized of "+a.Number+byText(e.Authorization)
		b.notBilled(left)
	}
	n.Amount = part
	if m.ready.Known() {
		n.Why = b.since(m)
		b.notBilled(n)
		return
	}
	if n.Why, n.Frees = b.reasons(e, &extraPrice{}); n.Why != "" {
		n.Why = "offered as " + a.Number + "; " + n.Why
		b.hold(n)
		m.held, m.waits = n, true
		return
	}
	m.ready = b.day.Date
	b.readyAgreed(e, a)
}

// readyAgreed bills what was authorized: taxed and untaxed rows apart.
func (b *bill) readyAgreed(e *notes.ExtraWork, a *Agreement) {
	taxed, free := a.Taxed, a.Free
	if a.Answer == "" {
		taxed, free = a.Item.ByTax()
	}
	both := !taxed.IsZero() && !free.IsZero()
	line := func(amount notes.Money, isTaxed bool, part string) {
		if amount.IsZero() {
			return
		}
		what := e.Work + ", " + a.Number
		if both {
			what += part
		}
		b.ready(notes.InvoiceLine{
			Ref: e.ID, What: what, Qty: notes.Int(1), Unit: notes.Lot, Rate: amount.Decimal(), Amount: amount,
			Taxed: isTaxed, Why: "authorized" + byText(e.Authorization), Working: e.Pricing, From: e.From, Kind: kindExtra,
		})
	}
	line(taxed, true, ", what of it is taxed")
	line(free, false, ", what of it is not taxed")
}

// TreatmentOf returns how a job is taxed, and false when it names a treatment nobody knows. A
// company without treatments charges no tax.
func TreatmentOf(c *notes.Company, j *notes.Job) (notes.TaxTreatment, bool) {
	if j.Tax != "" {
		return c.Treatment(j.Tax)
	}
	if len(c.Treatments) > 0 {
		return c.Treatments[0], true
	}
	return notes.TaxTreatment{}, true
}

// offered gives an extra the rows of an offer, where they are asked for.
func (b *bill) offered(e *notes.ExtraWork, p *extraPrice) {
	if b.Offering {
		e.Rows, e.Missing = b.offerRows(e, p), p.missing
	}
}

// offerRows returns the price of an extra as a change order offers it: each row either taxed or not.
// What was added to taxed and untaxed kinds of cost at once is divided between two rows, exactly.
func (b *bill) offerRows(e *notes.ExtraWork, p *extraPrice) []notes.ChangeRow {
	var rows []notes.ChangeRow
	add := func(s notes.PricingStep, taxed bool) {
		if notes.Cents(s.Qty.Mul(s.Rate)).Equal(s.Amount) {
			rows = append(rows, notes.ChangeRow{What: s.What, Basis: s.Basis, Qty: s.Qty, Unit: s.Unit, Rate: s.Rate, Amount: s.Amount, Taxed: taxed})
			return
		}
		rows = append(rows, notes.ChangeRow{
			What: s.What, Basis: s.Basis, Qty: notes.Int(1), Unit: notes.Lot, Rate: s.Amount.Decimal(), Amount: s.Amount, Taxed: taxed,
		})
	}
	whole := b.taxed(kindExtra)
	if e.Outcome == notes.ExtraCredit {
		for _, s := range e.Pricing {
			add(s, b.taxed(kindScope))
		}
		return rows
	}
	for _, s := range p.steps {
		add(s, whole)
	}
	for k, list := range p.direct {
		for _, s := range list {
			add(s, whole || b.taxed(kind(k).String()))
		}
	}
	for _, x := range p.added {
		var taxed notes.Money
		for k, m := range x.share {
			if whole || b.taxed(kind(k).String()) {
				taxed = taxed.Add(m)
			}
		}
		if free := x.step.Amount.Sub(taxed); taxed.IsZero() || free.IsZero() {
			add(x.step, free.IsZero())
		} else {
			add(single(x.step.What+", on what is taxed", x.step.Basis, taxed, nil), true)
			add(single(x.step.What+", on what is not taxed", x.step.Basis, free, nil), false)
		}
	}
	return rows
}
