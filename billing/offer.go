package billing

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/price"
	"jobday/record"
)

// OfferRequest is what a person says when a change order is offered.
type OfferRequest struct {
	Extras []string // ids
	Date   notes.Date
	By     string
	Reason string
	Effect string // on time, "none" when ""
}

// Offer makes the next change order of the job from extras, with the amounts they have now. The days
// must be priced for an offer, so that every extra has its rows.
func Offer(in Input, r OfferRequest) (notes.ChangeOrder, error) {
	if err := in.whole(); err != nil {
		return notes.ChangeOrder{}, err
	}
	treatment, known := in.treatment()
	if !known {
		return notes.ChangeOrder{}, fmt.Errorf("the tax treatment %s of job %s is not one of the company's", quote(in.Job.Tax), in.Job.Number)
	}
	c := in.blankOffer(r)
	var p proof
	var base []notes.InvoiceLine
	for _, id := range r.Extras {
		e, err := in.offerable(id)
		if err != nil {
			return c, err
		}
		item := itemOf(e, rows(&c))
		for _, row := range item.Rows {
			base = append(base, notes.InvoiceLine{Ref: item.Extra, Amount: row.Amount, Taxed: row.Taxed, Kind: "extra"})
		}
		c.Items = append(c.Items, item)
		c.Subtotal = c.Subtotal.Add(item.Amount)
		in.evidence(item.Extra, in.written(e), &p)
	}
	p.sort()
	c.Notes, c.Sources = p.notes, p.sources
	c.Tax = plainTax(price.TaxOn(base, treatment, in.Job.Exempt))
	c.Total = c.Subtotal
	for _, t := range c.Tax {
		c.Total = c.Total.Add(t.Amount)
	}
	return c, nil
}

func (in *Input) blankOffer(r OfferRequest) notes.ChangeOrder {
	co, j := in.Company, in.Job
	n := 0
	for _, c := range in.Records.Changes {
		if k, ok := numberIn(c.Number); ok && k > n {
			n = k
		}
	}
	c := notes.ChangeOrder{
		Number: "co-" + strconv.Itoa(n+1), Company: record.Plain(co.Name), Job: record.Plain(j.Number), Title: record.Plain(j.Title),
		Customer: record.Plain(j.Customer), Site: record.Plain(j.Site), Currency: co.Currency, Offered: r.Date, By: record.Plain(r.By),
		Reason: record.Plain(r.Reason), Effect: record.Plain(r.Effect), Excluded: plain(co.Offer.Excluded),
	}
	if c.Effect == "" {
		c.Effect = "none"
	}
	for _, x := range j.NotIncluded {
		c.Excluded = append(c.Excluded, plain([]string{x.Text})...)
	}
	if co.Offer.ValidDays > 0 {
		c.Valid = r.Date.AddDays(co.Offer.ValidDays)
	}
	return c
}

func rows(c *notes.ChangeOrder) int {
	n := 0
	for _, i := range c.Items {
		n += len(i.Rows)
	}
	return n
}

// offerable returns the extra with the id if it can be offered now.
func (in *Input) offerable(id string) (*notes.ExtraWork, error) {
	all := notes.LatestExtras(in.Days)
	i := slices.IndexFunc(all, func(e *notes.ExtraWork) bool { return strings.EqualFold(e.ID, id) })
	if i < 0 {
		return nil, fmt.Errorf("job %s has no extra %s", in.Job.Number, quote(id))
	}
	e := all[i]
	open := e.Number != ""
	if c := in.Records.Change(e.Number); c != nil && len(c.Answers) > 0 && Authorized(c).IsZero() {
		open = false // declined: it may be offered again
	}
	switch {
	case open:
		return nil, fmt.Errorf("%s is offered already, as %s; to offer it at another price, first write down that %s does not stand any more: jobday change decline %s, or withdraw where it is authorized",
			quote(e.ID), e.Number, e.Number, e.Number)
	case e.State == notes.ExtraBilled || in.isBilled(e.ID):
		return nil, fmt.Errorf("%s is billed already", quote(e.ID))
	case e.State == notes.ExtraNoCharge:
		return nil, fmt.Errorf("%s is given away: there is nothing to offer", quote(e.ID))
	case len(e.Missing) > 0 || e.State == notes.NeedsPrice:
		return nil, fmt.Errorf("%s has no price yet, missing: %s; give it one with: jobday decide %s price 180.00 --by NAME --why WORDS",
			quote(e.ID), strings.Join(e.Missing, ", "), e.ID)
	case e.Amount.IsZero():
		return nil, fmt.Errorf("%s comes to 0.00: there is nothing to offer", quote(e.ID))
	case e.Unclear != "":
		return nil, fmt.Errorf("%s is unclear: %s", quote(e.ID), e.Unclear)
	}
	return e, nil
}

func (in *Input) isBilled(id string) bool {
	sent := in.billed()
	a, b := sent[key{id, true}], sent[key{id, false}]
	return a != nil && !a.amount.IsZero() || b != nil && !b.amount.IsZero()
}

// itemOf makes an item of an extra; its rows are numbered behind those before it.
func itemOf(e *notes.ExtraWork, before int) notes.ChangeItem {
	i := notes.ChangeItem{
		Extra: record.Plain(e.ID), Work: record.Plain(e.Work), Found: e.Found, Done: e.Outcome == notes.ExtraDone,
	}
	if e.Line != "" {
		i.Where = "line " + record.Plain(e.Line)
	}
	for _, r := range e.Rows {
		r.Row = before + len(i.Rows) + 1
		r.What, r.Basis, r.Unit = record.Plain(r.What), record.Plain(r.Basis), notes.Unit(record.Plain(string(r.Unit)))
		i.Rows = append(i.Rows, r)
		i.Amount = i.Amount.Add(r.Amount)
	}
	return i
}

// AnswerRequest is what a person says when the customer has answered.
type AnswerRequest struct {
	Number   string // of the change order
	Kind     notes.AnswerKind
	Who, How string
	At       notes.Date
	Evidence string
	Rows     []int        // authorize only these rows
	Amount   *notes.Money // authorize only this amount
	By       string
}

// Answer makes the record of the customer's word on a change order. Without rows and amount all that
// is still open is authorized. What is authorized can be added to, and taken back as a whole as long
// as nothing of it is billed: what was billed is taken back with its invoice, and work that is taken
// out later is a credit of its own.
func Answer(in Input, r AnswerRequest) (notes.ChangeAnswer, error) {
	c := in.Records.Change(r.Number)
	if err := in.whole(); err != nil {
		return notes.ChangeAnswer{}, err
	}
	if c == nil {
		return notes.ChangeAnswer{}, fmt.Errorf("job %s has no change order %s", in.Job.Number, quote(r.Number))
	}
	a := notes.ChangeAnswer{
		Number: c.Number, Answer: len(c.Answers) + 1, Kind: r.Kind, Who: record.Plain(r.Who), How: record.Plain(r.How), At: r.At,
		Evidence: record.Plain(r.Evidence), By: record.Plain(r.By),
	}
	before := Authorized(c)
	open := c.Subtotal.Sub(before)
	if r.At.Compare(c.Offered) < 0 {
		return a, fmt.Errorf("%s was offered on %s and cannot be answered on %s", c.Number, c.Offered, r.At)
	}
	if r.Kind == notes.AnswerWithdrawn {
		a.Amount = before.Neg()
		return a, in.withdrawable(c, before)
	}
	if len(c.Answers) > 0 && open.IsZero() && !before.IsZero() {
		return a, fmt.Errorf("%s is authorized in full already; if the customer took that back, write it down with: jobday change withdraw %s", c.Number, c.Number)
	}
	if r.Kind == notes.AnswerDeclined {
		return a, nil
	}
	done := authorizedRows(c)
	switch {
	case len(r.Rows) > 0:
		a.Rows = slices.Compact(slices.Sorted(slices.Values(r.Rows)))
		for _, n := range a.Rows {
			if n < 1 || n > rows(c) {
				return a, fmt.Errorf("%s has no row %d; its rows go from 1 to %d", c.Number, n, rows(c))
			}
			if !done[n].IsZero() {
				return a, fmt.Errorf("row %d of %s is authorized already", n, c.Number)
			}
		}
		a.Amount = record.RowsAmount(c, a.Rows)
	case r.Amount != nil:
		a.Amount = *r.Amount
		if a.Amount.Sign() != open.Sign() || a.Amount.Sign() > 0 && a.Amount.Cmp(open) > 0 || a.Amount.Sign() < 0 && a.Amount.Cmp(open) < 0 {
			return a, fmt.Errorf("%s cannot be authorized for %s: %s of it is open", a.Amount, c.Number, open)
		}
	default:
		a.Amount = open
	}
	return a, nil
}

// withdrawable refuses to take back what nobody authorized and what stands on an invoice.
func (in *Input) withdrawable(c *notes.ChangeOrder, authorized notes.Money) error {
	if authorized.IsZero() {
		return fmt.Errorf("nothing of %s is authorized, so nothing can be taken back", c.Number)
	}
	var billed notes.Money
	number := ""
	for _, v := range in.Records.Invoices {
		for _, l := range v.Lines {
			if l.Change == c.Number {
				billed, number = billed.Add(l.Amount), v.Number
			}
		}
	}
	if !billed.IsZero() {
		return fmt.Errorf("%s of %s is billed, last with %s: take the invoice back first with: jobday invoice void %s", billed, c.Number, number, number)
	}
	return nil
}
