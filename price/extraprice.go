package price

import (
	"slices"

	"jobday/finding"
	"jobday/notes"
)

// extraPrice is what an extra costs the customer and how that was figured.
type extraPrice struct {
	parts
	steps   []notes.PricingStep // of an agreed or listed price
	agreed  bool                // steps hold the price, parts are empty
	over    notes.Money         // beyond a limit
	overWhy string
	missing []string // what a person must supply before all of it has a price
	untold  bool     // no finding of its own says some of that
}

func (p *extraPrice) total() notes.Money {
	sum := p.parts.sum()
	for _, s := range p.steps {
		sum = sum.Add(s.Amount)
	}
	return sum
}

func (p *extraPrice) miss(what string) {
	if !slices.Contains(p.missing, what) {
		p.missing = append(p.missing, what)
	}
}

func (b *bill) priceExtra(e *notes.ExtraWork) extraPrice {
	b.work = b.extraMaterials(e)
	var p extraPrice
	switch {
	case e.Price.Quoted != nil:
		quoted(e, &p)
		return p
	case !e.Price.TimeAndMaterial && b.listed(e, &p):
	default:
		b.byTime(e, b.work, &p)
	}
	if limit := e.Price.NotOver; limit != nil {
		p.limit(*limit, "agreed not to go over "+limit.String(), "over the "+limit.String()+" it was not to go over")
	}
	if b.named() && b.rules.Ceiling != nil {
		most := b.rules.Ceiling.String()
		p.limit(*b.rules.Ceiling, "by the rules "+quote(b.rules.Name)+" an extra comes to at most "+most, "over the ceiling of "+most)
	}
	return p
}

// pricing is the working of the whole price.
func (p *extraPrice) pricing() []notes.PricingStep {
	return steps(slices.Concat(p.steps, p.parts.working()))
}

// quoted prices an extra by the amount agreed, for the whole or for each of what its words count. A
// price for each needs one count: of none or of several nobody can tell how many were meant.
func quoted(e *notes.ExtraWork, p *extraPrice) {
	amount := *e.Price.Quoted
	p.agreed = true
	if !e.Price.Each {
		p.steps = []notes.PricingStep{single("price agreed", "as quoted in the note", amount, e.From)}
		return
	}
	counted := 0
	for _, it := range e.Facts {
		if it.Qty.Written() {
			counted++
		}
	}
	if !e.Qty.Written() || e.Qty.Value.Sign() <= 0 || counted > 1 {
		p.miss("how many at " + amount.String() + " each")
		p.untold = true
		return
	}
	p.steps = []notes.PricingStep{{
		What: e.Qty.String() + " at the price agreed", Basis: "as quoted in the note, for each",
		Qty: e.Qty.Value, Unit: e.Qty.Unit, Rate: amount.Decimal(), Amount: amount.Times(e.Qty.Value), From: sources(e.From),
	}}
}

// limit cuts a price that goes over a limit; basis says whose limit it is, and why
// what goes over it is not billed.
func (p *extraPrice) limit(limit notes.Money, basis, why string) {
	over := p.total().Sub(limit)
	if over.Sign() <= 0 {
		return
	}
	p.over, p.overWhy = p.over.Add(over), why
	if p.agreed {
		p.steps = append(p.steps, single("less what is over the limit", basis, over.Neg(), nil))
		return
	}
	p.cut(over, "less what is over the limit", basis)
}

// extraMaterials prices the material of an extra, each use as the day lists it.
func (b *bill) extraMaterials(e *notes.ExtraWork) []materialQuote {
	quotes := b.work[:0]
	for i := range e.Materials {
		quotes = append(quotes, b.quote(&e.Materials[i]))
	}
	if len(quotes) > 0 {
		return quotes
	}
	for i := range b.day.Materials {
		if u := &b.day.Materials[i]; u.Line != "" && u.Line == e.ID {
			quotes = append(quotes, b.quote(u))
		}
	}
	return quotes
}

// listed prices an extra by a unit price: that of the booked line it goes beyond, or that of the
// one task of the price list whose words are all in the extra's. It reports whether it settled the
// price. A task whose quantity nobody wrote settles nothing: time and material then counts.
func (b *bill) listed(e *notes.ExtraWork, p *extraPrice) bool {
	if l := b.line(e.Line); l != nil && l.Price.Kind == notes.UnitPrice && e.Qty.Unit == l.Qty.Unit && e.Qty.Value.Sign() > 0 {
		p.agreed = true
		p.steps = []notes.PricingStep{{
			What: e.Qty.String() + " beyond line " + l.Label, Basis: "unit price of line " + l.Label + " as booked",
			Qty: e.Qty.Value, Unit: e.Qty.Unit, Rate: l.Price.Amount.Decimal(), Amount: l.Price.Amount.Times(e.Qty.Value),
			From: sources(e.From),
		}}
		return true
	}
	if b.named() {
		return false // the company's own list was not agreed with who sets the rules
	}
	var fit []*notes.PriceRow
	var qty notes.Quantity
	for _, t := range b.Rows.tasksOf(e.TaskWork) {
		if q, ok := taskQty(e, t); ok && t.row.Price != nil {
			fit, qty = append(fit, t.row), q
		}
	}
	switch len(fit) {
	case 0:
		return false
	case 1:
		b.taskPrice(e, fit[0], qty, p)
		return true
	}
	b.tellTasks(e, fit)
	p.miss("which of " + quote(fit[0].Item) + " and " + quote(fit[1].Item) + " it was")
	return true
}

// taskQty returns how many of a task an extra is: the quantity of the one thing counted in its
// words that the task's words name; its own quantity where its words count nothing; or 1 where its
// words name one of the thing and count none of it.
func taskQty(e *notes.ExtraWork, t *task) (notes.Quantity, bool) {
	unit := t.row.Unit
	if len(e.Facts) == 0 && e.Qty.Written() {
		q, ok := e.Qty.In(unit)
		return q, ok && q.Value.Sign() > 0
	}
	var found notes.Quantity
	for _, it := range e.Facts {
		thing := wordsOf(it.Name)
		if !it.Qty.Written() || len(it.Other) > 0 || !holds(t.words, thing) && !holds(thing, t.things) {
			continue
		}
		q, ok := it.Qty.In(unit)
		if !ok || q.Value.Sign() <= 0 || found.Written() {
			return notes.Quantity{}, false
		}
		found = q
	}
	if !found.Written() && unit == notes.Each && namesOne(e.TaskWork, t.things) {
		return notes.Quantity{Value: notes.Int(1), Unit: notes.Each}, true
	}
	return found, found.Written()
}

func (b *bill) taskPrice(e *notes.ExtraWork, row *notes.PriceRow, qty notes.Quantity, p *extraPrice) {
	p.agreed = true
	p.steps = []notes.PricingStep{{
		What:  qty.String() + " " + row.Item,
		Basis: "price list" + rowPlace(*row) + ": " + row.Price.String() + " per " + string(row.Unit) + ", labor and material included",
		Qty:   qty.Value, Unit: qty.Unit, Rate: row.Price.Decimal(), Amount: row.Price.Times(qty.Value), From: sources(e.From),
	}}
	if short := b.Company.MinExtra.Sub(p.total()); short.Sign() > 0 {
		p.steps = append(p.steps, b.minimumStep(short))
	}
	b.addHired(e, p) // what was hired is no labor and material of the list's price
	if b.rules != nil {
		p.markUp(b.rules)
	}
}

func (b *bill) minimumStep(short notes.Money) notes.PricingStep {
	return single("up to the least charge", "an extra costs at least "+b.Company.MinExtra.String(), short, nil)
}

func (b *bill) tellTasks(e *notes.ExtraWork, fit []*notes.PriceRow) {
	b.tell(finding.Finding{
		Severity: finding.Warning, Rule: "price/task-ambiguous",
		Message: quote(e.Work) + " fits " + quote(fit[0].Item) + " and " + quote(fit[1].Item) + " of the price list equally well",
		Hint:    "name the one it was in the words of the list, or write a price agreed, like quoted 180",
		Holds:   quote(e.Work),
	}, e.From)
}

// byTime prices an extra by time and material.
func (b *bill) byTime(e *notes.ExtraWork, quotes []materialQuote, p *extraPrice) {
	work := b.priceLabor(b.usesOf(e), e.ID)
	p.direct[ofLabor] = work.steps
	for _, m := range work.missing {
		p.miss(m)
		p.untold = p.untold || m == someone
	}
	if work.minutes == 0 && len(b.hired[e.ID]) == 0 {
		l := b.line(e.Line)
		switch {
		case e.Outcome == notes.ExtraNotDone:
			p.miss("a price") // what it will take is not known yet
			return
		case l != nil && l.Price.Kind == notes.TimeAndMaterial:
			p.miss("a word on whether the time on line " + l.Label + " covers it")
		default:
			p.miss("the time it took")
		}
		p.untold = true
	}
	for i := range quotes {
		q := &quotes[i]
		if q.missing != "" {
			p.miss(q.missing)
			p.untold = p.untold || q.use.Item == ""
			if e.Outcome == notes.ExtraDone && !e.Price.NoCharge {
				b.tellNoPrice(q)
			}
			continue
		}
		p.add(ofMaterial, q.step())
	}
	b.addHired(e, p)
	b.markExtra(p)
}

// addHired adds the equipment and the subcontractors of an extra.
func (b *bill) addHired(e *notes.ExtraWork, p *extraPrice) {
	for _, h := range b.hired[e.ID] {
		if h.missing != "" {
			p.miss(h.missing)
			p.untold = true
			continue
		}
		p.add(h.kind, h.step)
	}
}

// markExtra puts the markups on an extra and raises it to the least the company charges. The minimum
// is the company's own and no part of rules somebody else set.
func (b *bill) markExtra(p *extraPrice) {
	if b.rules == nil {
		p.miss("the pricing rules " + quote(b.Job.Pricing))
		return
	}
	whole := len(p.missing) == 0 && !b.named()
	if whole {
		b.leastTime(p)
	}
	p.markUp(b.rules)
	if short := b.Company.MinExtra.Sub(p.parts.sum()); whole && short.Sign() > 0 {
		p.addTo(ofLabor, b.minimumStep(short))
	}
}

// usesOf returns the time of an extra: as its own words say it, else as the rows of time do. What
// its minutes go beyond those of the people named is time of nobody in particular.
func (b *bill) usesOf(e *notes.ExtraWork) []notes.LaborUse {
	uses := slices.Clone(e.Labor)
	rest := e.Minutes
	for _, u := range uses {
		rest -= u.Minutes
	}
	if len(uses) == 0 && rest <= 0 {
		return b.usesOn(e.ID)
	}
	if rest > 0 {
		var from notes.Source
		if len(e.From) > 0 {
			from = e.From[0]
		}
		uses = append(uses, notes.LaborUse{Minutes: rest, From: from})
	}
	return uses
}

// leastTime raises the labor of an extra to the least time billed for one, at the rate of whoever
// is named first.
func (b *bill) leastTime(p *extraPrice) {
	var hours notes.Decimal
	done := p.direct[ofLabor]
	for _, s := range done {
		hours = hours.Add(s.Qty)
	}
	least := b.Company.MinMinutes
	short := least.Hours().Sub(hours)
	if len(done) == 0 || short.Sign() <= 0 {
		return
	}
	rate := done[0].Rate
	p.add(ofLabor, notes.PricingStep{
		What: "up to the least time", Basis: "at least " + least.String() + " of labor is billed for an extra",
		Qty: short, Unit: notes.Hour, Rate: rate, Amount: notes.Cents(rate.Mul(short)), From: sources(nil),
	})
}
