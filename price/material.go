package price

import (
	"jobday/finding"
	"jobday/notes"
)

// A materialQuote is one use of material with what the price list says about it.
type materialQuote struct {
	use     *notes.MaterialUse
	line    *lineMoney    // the booked line it went into, or nil
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
// beyond the allowance of its line.
func (b *bill) materialPrices() {
	b.quotes = b.quotes[:0]
	for i := range b.day.Materials {
		u := &b.day.Materials[i]
		q := b.quote(u)
		if q.line = b.line(u.Line); q.line != nil {
			b.allow(q.line, u)
		}
		if u.Over.Sign() > 0 && q.missing == "" {
			q.over = notes.Cents(q.rate.Mul(u.Over))
		}
		b.quotes = append(b.quotes, q)
	}
}

// A thing is material as notes name it, in the unit they count it in.
type thing struct {
	item string
	unit notes.Unit
}

// thingRate is what the price list says about one unit of a thing.
type thingRate struct {
	key        string // two things with one key are the same
	row        *notes.PriceRow
	cost, rate notes.Decimal // for one unit of the thing, not rounded
	basis      string
	missing    string // what a person must supply before it has a price, or ""
	noCost     bool   // whether to say so was settled
}

// rateOf looks a thing up in the price list, once a job.
func (j *job) rateOf(t thing) *thingRate {
	if r := j.things[t]; r != nil {
		return r
	}
	r := &thingRate{key: j.Rows.keyOf(t.item)}
	j.things[t] = r
	row := j.Rows.find(r.key, t.unit)
	if row == nil {
		r.missing = "a price for " + quote(t.item)
		return r
	}
	r.row = row
	one, same := notes.Quantity{Value: notes.Int(1), Unit: t.unit}.In(row.Unit)
	if !same {
		r.missing = quote(t.item) + " in " + string(row.Unit) + ", as the price list counts it, not in " + string(t.unit)
		return r
	}
	if row.Cost != nil {
		r.cost = row.Cost.Decimal().Mul(one.Value)
	}
	rate, basis, ok := j.unitPrice(*row)
	if !ok {
		if r.missing = "a price for " + quote(t.item); j.atCost() {
			r.missing = "the cost of " + quote(t.item)
		}
		return r
	}
	if r.basis = basis; t.unit != row.Unit {
		r.basis += ", 1 " + string(t.unit) + " is " + one.String()
	}
	r.rate = rate.Mul(one.Value)
	return r
}

// quote looks a use up in the price list and fills in its code, cost and price.
func (j *job) quote(u *notes.MaterialUse) materialQuote {
	q := materialQuote{use: u}
	switch {
	case !u.Qty.Written() || u.Qty.Value.Sign() <= 0:
		q.missing = "how much " + quote(u.Item) + " was used"
		return q
	case u.Item == "":
		q.missing = "what the " + u.Qty.String() + " are"
		return q
	}
	r := j.rateOf(thing{u.Item, u.Qty.Unit})
	if r.row != nil {
		u.Code = r.row.Code
		u.Cost = notes.Cents(r.cost.Mul(u.Qty.Value))
	}
	if q.missing = r.missing; q.missing != "" {
		return q
	}
	q.rate, q.basis = r.rate, r.basis
	q.amount = notes.Cents(q.rate.Mul(u.Qty.Value))
	u.Price = q.amount
	u.Priced = r.row.Cost != nil
	return q
}

// unitPrice returns the price of one unit of a row: its own, or its cost with the markup of the
// bracket the unit cost falls in, not rounded.
func (j *job) unitPrice(row notes.PriceRow) (rate notes.Decimal, basis string, ok bool) {
	where := "price list" + rowPlace(row)
	if j.atCost() {
		if row.Cost == nil {
			return notes.Decimal{}, "", false
		}
		return row.Cost.Decimal(), where + ": cost " + row.Cost.String() + " per " + string(row.Unit), true
	}
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

// findOver notes what was done beyond the booked quantity of each line.
func (b *bill) findOver() {
	for i := range b.day.Scope {
		if s := &b.day.Scope[i]; s.Over.Sign() > 0 {
			if l := b.line(s.Line); l != nil {
				l.over = s.Over
			}
		}
	}
}

// allow counts a use against the allowance of its line and sets what goes beyond it. A unit price
// is charged for what was done beyond the booked quantity as well, so it includes as much for each
// of those.
func (j *job) allow(l *lineMoney, u *notes.MaterialUse) {
	u.Allowed, u.Over = notes.Decimal{}, notes.Decimal{}
	a := j.allowance(l, u)
	if a == nil || l.Price.Kind == notes.TimeAndMaterial || u.Qty.Value.Sign() <= 0 {
		return
	}
	one, _ := notes.Quantity{Value: notes.Int(1), Unit: u.Qty.Unit}.In(a.Qty.Unit)
	allowed := a.Qty.Value.Sub(a.credited)
	if l.Price.Kind == notes.UnitPrice && l.over.Sign() > 0 && l.Qty.Value.Sign() > 0 {
		allowed = allowed.Mul(l.Qty.Value.Add(l.over)).Quo(l.Qty.Value, ratePlaces)
	}
	a.used = a.used.Add(u.Qty.Value.Mul(one.Value))
	zero := notes.Decimal{}
	over := notes.Max(a.used.Sub(allowed).Sub(a.over), zero)
	a.over = a.over.Add(over)
	if !one.Value.Equal(notes.Int(1)) {
		over = over.Quo(one.Value, ratePlaces)
	}
	u.Allowed = allowed
	u.Over = notes.Min(over, u.Qty.Value)
}

// allowance returns what the line's price includes of the thing that was used, or nil: by its name,
// or because the price list knows both as one row.
func (j *job) allowance(l *lineMoney, u *notes.MaterialUse) *allowance {
	if len(l.allowance) == 0 {
		return nil
	}
	used := j.rateOf(thing{u.Item, u.Qty.Unit})
	for i := range l.allowance {
		a := &l.allowance[i]
		if _, same := u.Qty.In(a.Qty.Unit); !same {
			continue
		}
		named := j.rateOf(thing{a.Name, a.Qty.Unit})
		if used.key == named.key || used.row != nil && used.row == named.row || used.key == j.rateOf(thing{a.Item, a.Qty.Unit}).key {
			return a
		}
	}
	return nil
}

// beyondAllowance holds the material used on a line beyond what its price includes.
func (b *bill) beyondAllowance(l *lineMoney) {
	for _, q := range b.quotes {
		u := q.use
		if q.line != l || u.Over.Sign() <= 0 {
			continue
		}
		over := notes.Quantity{Value: u.Over, Unit: u.Qty.Unit}
		what := over.String() + " " + u.Item + " on line " + l.Label
		why := over.String() + " over the " + u.Allowed.String() + " " + string(b.allowance(l, u).Qty.Unit) + " allowed on line " + l.Label
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
		}, overAllowed, l)
	}
}

// unplaced accounts for material that went into no line and no extra anybody can tell. Where a line
// billed by the hour was worked on it may be that line's and is held; else it is not billed: the
// office sees what it is worth and may ask.
func (b *bill) unplaced() {
	why := nowhere
	if len(b.hourly) > 0 && len(b.quotes) > 0 {
		why += "; " + b.byHour + " time and material"
	}
	var items []string
	var first *notes.MaterialUse
	var sum notes.Money
	for i := range b.quotes {
		q := &b.quotes[i]
		u := q.use
		if q.line != nil {
			if q.line.Price.Kind != notes.TimeAndMaterial {
				b.tellNoCost(q)
			}
			continue
		}
		if u.Line != "" {
			continue // an extra's
		}
		b.tellNoCost(q)
		n := unplacedNote(q, why)
		b.value(n.What, q.amount)
		if len(b.hourly) == 0 {
			b.notBilled(n)
			continue
		}
		b.holdOn(n, materialNowhere, nil)
		if first == nil {
			first = u
		}
		if sum = sum.Add(q.amount); u.Item != "" {
			items = append(items, u.Item)
		} else {
			items = append(items, n.What)
		}
	}
	if first == nil {
		return
	}
	b.tell(finding.Finding{
		Severity: finding.Warning, Rule: "price/material-unplaced",
		Message: quoteSome(items) + " went into no line and no extra, and " + b.byHour + " time and material",
		Hint:    b.placeHint(b.hourly[0], first), Holds: sum.String(),
	}, first.From)
}

// nowhere is why material and time on no line are not billed.
const nowhere = "no line and no extra says what it was for"

func unplacedNote(q *materialQuote, why string) notes.MoneyNote {
	u := q.use
	n := notes.MoneyNote{What: u.Item, Amount: q.amount, Why: why, From: u.From, Frees: "the line or extra it went into"}
	if u.Qty.Written() {
		n.What = u.Qty.String() + " " + u.Item
	}
	if q.missing != "" {
		n.Why += "; missing: " + q.missing
	}
	return n
}

// placeHint shows how to say which line a material went into.
func (b *bill) placeHint(label string, u *notes.MaterialUse) string {
	return `write the line in front, like "` + label + ": " + u.Item + `", or put it below the extra it was for`
}

// tellNoCost says once a job that the cost of something is not known, where a word could mend that:
// the list has the thing in another unit, or something much like it. Nothing billed waits for it,
// and what no list knows is noise.
func (b *bill) tellNoCost(q *materialQuote) {
	u := q.use
	if q.missing == "" || u.Item == "" || !u.Qty.Written() {
		return
	}
	r := b.rateOf(thing{u.Item, u.Qty.Unit})
	if r.noCost || r.row == nil && b.Rows.near(u.Item) == nil {
		r.noCost = true
		return
	}
	r.noCost = true
	b.tell(finding.Finding{
		Severity: finding.Note, Rule: "price/no-cost",
		Message: "the cost of " + quote(u.Item) + " is not known; missing: " + q.missing,
		Hint:    b.priceHint(u),
	}, u.From)
}

// priceHint shows how to give a material a price.
func (j *job) priceHint(u *notes.MaterialUse) string {
	if u.Code != "" {
		return "write the quantity in the unit of row " + u.Code + " of prices.csv"
	}
	if row := j.Rows.near(u.Item); row != nil {
		return "if it is " + quote(row.Item) + ", add " + quote(u.Item) + " to the words of row " + row.Code + " in prices.csv"
	}
	return "add a row for " + quote(u.Item) + " to prices.csv"
}
