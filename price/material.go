package price

import (
	"slices"

	"jobday/finding"
	"jobday/notes"
)

// A quoted material is one use with what the price list says about it.
type materialQuote struct {
	use     *notes.MaterialUse
	rate    notes.Decimal // price of one unit, not rounded
	basis   string        // where the rate comes from
	amount  notes.Money
	missing string // what a person must supply before it has a price, or ""
	over    notes.Money
}

func (q materialQuote) step() notes.PricingStep {
	return notes.PricingStep{
		What: q.use.Qty.String() + " " + q.use.Item, Basis: q.basis,
		Qty: q.use.Qty.Value, Unit: q.use.Qty.Unit, Rate: q.rate, Amount: q.amount, From: sources(q.use.From),
	}
}

// materialPrices fills in code, cost and price of everything used today, and what of it goes
// beyond the allowance of its line. It returns one quote a use, in the same order.
func (b *bill) materialPrices() []materialQuote {
	quotes := make([]materialQuote, len(b.day.Materials))
	for i := range b.day.Materials {
		u := &b.day.Materials[i]
		quotes[i] = b.quote(u)
		b.allow(u)
		if quotes[i].over = notes.Cents(quotes[i].rate.Mul(u.Over)); quotes[i].missing != "" {
			quotes[i].over = notes.Money{}
		}
	}
	return quotes
}

// quote looks a use up in the price list and fills in its code, cost and price.
func (j *job) quote(u *notes.MaterialUse) materialQuote {
	q := materialQuote{use: u}
	row, ok := j.Rows.Find(u.Item, u.Qty.Unit)
	switch {
	case !u.Qty.Written() || u.Qty.Value.Sign() <= 0:
		q.missing = "how much " + quote(u.Item) + " was used"
		return q
	case u.Item == "":
		q.missing = "what the " + u.Qty.String() + " are"
		return q
	case !ok:
		q.missing = "a price for " + quote(u.Item)
		return q
	}
	u.Code = row.Code
	one, same := notes.Quantity{Value: notes.Int(1), Unit: u.Qty.Unit}.In(row.Unit)
	if !same {
		q.missing = quote(u.Item) + " in " + string(row.Unit) + ", as the price list counts it, not in " + string(u.Qty.Unit)
		return q
	}
	if row.Cost != nil {
		u.Cost = notes.Cents(row.Cost.Decimal().Mul(one.Value).Mul(u.Qty.Value))
	}
	q.rate, q.basis, ok = j.unitPrice(row)
	if !ok {
		q.missing = "a price for " + quote(u.Item)
		return q
	}
	if !one.Value.Equal(notes.Int(1)) {
		q.basis += ", 1 " + string(u.Qty.Unit) + " is " + one.String()
	}
	q.rate = q.rate.Mul(one.Value)
	q.amount = notes.Cents(q.rate.Mul(u.Qty.Value))
	u.Price = q.amount
	u.Priced = row.Cost != nil
	return q
}

// unitPrice returns the price of one unit of a row: its own, or its cost with the markup of the
// bracket the unit cost falls in, not rounded.
func (j *job) unitPrice(row notes.PriceRow) (rate notes.Decimal, basis string, ok bool) {
	where := "price list" + rowPlace(row)
	if row.Price != nil {
		return row.Price.Decimal(), where + ": " + row.Price.String() + " per " + string(row.Unit), true
	}
	if row.Cost == nil {
		return notes.Decimal{}, "", false
	}
	hundred := notes.Int(100)
	for _, m := range j.Company.Markup {
		if m.UpTo != nil && row.Cost.Cmp(*m.UpTo) > 0 {
			continue
		}
		basis = where + ": cost " + row.Cost.String() + " + " + m.Percent.String() + " %"
		if m.UpTo != nil {
			basis += ", the markup up to " + m.UpTo.String()
		}
		return row.Cost.Decimal().Mul(hundred.Add(m.Percent)).Quo(hundred, ratePlaces), basis, true
	}
	return row.Cost.Decimal(), where + ": cost " + row.Cost.String() + ", no markup", true
}

// ratePlaces keeps every digit of a cost in cents with a markup of two decimals.
const ratePlaces = 12

func rowPlace(row notes.PriceRow) string {
	s := ""
	if row.Code != "" {
		s = " " + row.Code
	}
	if line, _ := row.Span.Position(); line > 0 {
		s += " (" + row.Span.File.Name + " line " + notes.Int(line).String() + ")"
	}
	return s
}

// allow counts a use against the allowance of its line and sets what goes beyond it.
func (b *bill) allow(u *notes.MaterialUse) {
	l := b.line(u.Line)
	if l == nil || l.Price.Kind == notes.TimeAndMaterial {
		return
	}
	i := slices.IndexFunc(l.allowance, func(a notes.Allowance) bool {
		_, same := u.Qty.In(a.Qty.Unit)
		return same && b.sameThing(a, u)
	})
	if i < 0 || u.Qty.Value.Sign() <= 0 {
		return
	}
	a := l.allowance[i]
	one, _ := notes.Quantity{Value: notes.Int(1), Unit: u.Qty.Unit}.In(a.Qty.Unit)
	before := l.used[a.Name]
	after := before.Add(u.Qty.Value.Mul(one.Value))
	if l.used == nil {
		l.used = map[string]notes.Decimal{}
	}
	l.used[a.Name] = after
	zero := notes.Decimal{}
	over := notes.Max(after.Sub(a.Qty.Value), zero).Sub(notes.Max(before.Sub(a.Qty.Value), zero))
	if !one.Value.Equal(notes.Int(1)) {
		over = over.Quo(one.Value, ratePlaces)
	}
	u.Allowed = a.Qty.Value
	u.Over = notes.Min(over, u.Qty.Value)
}

// sameThing reports whether an allowance is for the thing that was used: by its name, or because
// the price list knows both as one row.
func (j *job) sameThing(a notes.Allowance, u *notes.MaterialUse) bool {
	if used := key(u.Item); used == key(a.Name) || used == key(a.Item) {
		return true
	}
	row, ok := j.Rows.Find(u.Item, u.Qty.Unit)
	allowed, known := j.Rows.Find(a.Name, a.Qty.Unit)
	return ok && known && row.Span == allowed.Span && row.Item == allowed.Item
}

// beyondAllowance holds the material used on a line beyond what its price includes.
func (b *bill) beyondAllowance(l *lineMoney, quotes []materialQuote) {
	for _, q := range quotes {
		u := q.use
		if b.line(u.Line) != l || u.Over.Sign() <= 0 {
			continue
		}
		over := notes.Quantity{Value: u.Over, Unit: u.Qty.Unit}
		what := over.String() + " " + u.Item + " on line " + l.Label
		why := over.String() + " over the " + u.Allowed.String() + " " + string(b.allowedUnit(l, u)) + " allowed on line " + l.Label
		b.tell(finding.Finding{
			Severity: finding.Warning, Rule: "price/over-allowance", Message: why,
			Hint:  "get the customer's word for it, and write it under Extras",
			Holds: q.over.String(),
		}, u.From)
		if q.missing != "" {
			why += "; missing: " + q.missing
		}
		b.value(what, q.over)
		b.holdOn(notes.MoneyNote{
			What: what, Amount: q.over, Why: why, From: u.From, Ref: l.Label, Frees: "the customer's word or a decision",
		}, nil)
	}
}

func (j *job) allowedUnit(l *lineMoney, u *notes.MaterialUse) notes.Unit {
	for _, a := range l.allowance {
		if j.sameThing(a, u) {
			return a.Qty.Unit
		}
	}
	return u.Qty.Unit
}

// unplaced accounts for material that went into no line and no extra anybody can tell. Where a line
// billed by the hour was worked on it may be that line's and is held; else it is not billed: the
// office sees what it is worth and may ask.
func (b *bill) unplaced(quotes []materialQuote) {
	for _, q := range quotes {
		u := q.use
		if l := b.line(u.Line); l != nil {
			if l.Price.Kind != notes.TimeAndMaterial && q.missing != "" {
				b.tellNoCost(q)
			}
			continue
		}
		if u.Line != "" {
			continue // an extra's
		}
		what := u.Item
		if u.Qty.Written() {
			what = u.Qty.String() + " " + u.Item
		}
		n := notes.MoneyNote{What: what, Amount: q.amount, From: u.From, Frees: "the line or extra it went into"}
		n.Why = "no line and no extra says what it was for"
		if q.missing != "" {
			b.tellNoCost(q)
			n.Why += "; missing: " + q.missing
		}
		hourly := b.hourlyToday()
		b.value(what, q.amount)
		if len(hourly) == 0 {
			b.notBilled(n)
			continue
		}
		b.tell(finding.Finding{
			Severity: finding.Warning, Rule: "price/material-unplaced",
			Message: quote(u.Item) + " went into no line and no extra, and " + linesText(hourly) + " billed by time and material",
			Hint:    b.placeHint(hourly[0], u), Holds: q.amount.String(),
		}, u.From)
		n.Why += "; " + linesText(hourly) + " billed by time and material"
		b.holdOn(n, nil)
	}
}

// placeHint shows how to say which line a material went into.
func (b *bill) placeHint(label string, u *notes.MaterialUse) string {
	return `write the line in front, like "` + label + ": " + u.Item + `", or put it below the extra it was for`
}

// tellNoCost says that the cost of something is not known. Nothing billed waits for it.
func (j *job) tellNoCost(q materialQuote) {
	j.tell(finding.Finding{
		Severity: finding.Note, Rule: "price/no-cost",
		Message: "the cost of " + quote(q.use.Item) + " is not known; missing: " + q.missing,
		Hint:    j.priceHint(q.use),
	}, q.use.From)
}

// priceHint shows how to give a material a price.
func (j *job) priceHint(u *notes.MaterialUse) string {
	if u.Code != "" {
		return "write the quantity in the unit of row " + u.Code + " of prices.csv"
	}
	if row, ok := j.Rows.Near(u.Item); ok {
		return "if it is " + quote(row.Item) + ", add " + quote(u.Item) + " to the words of row " + row.Code + " in prices.csv"
	}
	return "add a row for " + quote(u.Item) + " to prices.csv"
}
