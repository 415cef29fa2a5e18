package ubl

import (
	"fmt"

	"jobday/finding"
	"jobday/notes"
)

// category is a tax category of UNTDID 5305 with its rate, and why there is no tax.
//
// EN 16931 knows one tax with the scheme "VAT", and each line and breakdown carries one rate. A sales
// tax is stated in that frame: the rates of state, county and city together are the rate of category
// S. The parts stand in a note. What the treatment does not tax is E with the reason; an invoice on
// which nobody charges or names a tax is O, not subject to it.
type category struct {
	code   string // "S", "Z", "E", "O"
	rate   notes.Decimal
	reason string // BT-120
}

// categories settles what taxed and untaxed lines are.
func (w *writer) categories() {
	var rate notes.Decimal
	for _, t := range w.inv.Tax {
		rate = rate.Add(t.Rate)
	}
	w.taxed = category{code: "S", rate: rate}
	if rate.IsZero() {
		w.taxed = category{code: "Z"}
	}
	w.rest = category{code: "E", reason: w.inv.Exempt}
	if w.rest.reason == "" {
		w.rest.reason = "not taxed under the tax treatment " + w.inv.Treatment
		if w.inv.Treatment == "" {
			w.rest.reason = "no tax treatment applies"
		}
	}
	if w.inv.Exempt == "" && !w.anyTaxed() && w.seller.VATID == "" && w.buyer.VATID == "" {
		w.rest = category{code: "O", reason: w.rest.reason}
	}
}

func (w *writer) anyTaxed() bool {
	for _, l := range w.inv.Lines {
		if l.Taxed {
			return true
		}
	}
	for _, a := range append(append([]notes.Adjustment{}, w.inv.Allowances...), w.inv.Charges...) {
		if a.Taxed {
			return true
		}
	}
	return false
}

func (w *writer) categoryOf(taxed bool) category {
	if taxed {
		return w.taxed
	}
	return w.rest
}

// figured is the record worked out anew, with the signs of the document.
func (w *writer) figured() Sums {
	part := func(m notes.Money, taxed bool) Part {
		c := w.categoryOf(taxed)
		return Part{Amount: m, Code: c.code, Rate: c.rate}
	}
	var lines, off, on []Part
	for _, l := range w.inv.Lines {
		lines = append(lines, part(w.sign(l.Amount), l.Taxed))
	}
	allowances, charges := w.adjustments()
	for _, a := range allowances {
		off = append(off, part(a.Amount, a.Taxed))
	}
	for _, c := range charges {
		on = append(on, part(c.Amount, c.Taxed))
	}
	t := w.inv.Totals
	return Calculate(lines, off, on, w.sign(t.Paid), w.sign(t.Rounding))
}

// slack is how far the tax of a breakdown may be from its base times its rate: less than one unit
// of the currency, as the published rule set checks BR-CO-17 and BR-S-09.
var slack = notes.MustMoney("1.00")

// sums holds the record against the calculation rules of EN 16931, and settles the breakdown. Its
// tax is that of the record: what was billed is what is stated.
func (w *writer) sums() {
	s := w.figured()
	for _, l := range w.inv.Lines {
		if l.Rate.Sign() < 0 {
			w.wrong("BR-27", fmt.Sprintf("line %d has the price %s, and a price is never negative", l.No, l.Rate))
		}
	}
	if len(w.inv.Lines) == 0 {
		w.wrong("BR-16", "there is no line")
	}
	var billed notes.Money
	for _, t := range w.inv.Tax {
		billed = billed.Add(w.sign(t.Amount))
	}
	w.settleTax(&s, billed)
	t := w.totals()
	same := func(rule, what string, stated, figured notes.Money) {
		if !stated.Equal(figured) {
			w.wrong(rule, fmt.Sprintf("%s is stated as %s and comes to %s", what, stated, figured))
		}
	}
	same("BR-CO-10", "the sum of the lines", t.Lines, s.Lines)
	same("BR-CO-13", "the total without tax", t.WithoutTax, s.WithoutTax)
	same("BR-CO-14", "the tax", t.Tax, billed)
	same("BR-CO-15", "the total with tax", t.WithTax, t.WithoutTax.Add(t.Tax))
	same("BR-CO-16", "the amount due", t.Due, t.WithTax.Sub(t.Paid).Add(t.Rounding))
	w.rows = s.Breakdown
}

// settleTax puts the tax as billed into the breakdown and holds it against the rate on the base.
func (w *writer) settleTax(s *Sums, billed notes.Money) {
	for i := range s.Breakdown {
		b := &s.Breakdown[i]
		if b.Code != "S" {
			continue
		}
		figured := b.Tax
		b.Tax = billed
		off := billed.Sub(figured)
		switch {
		case off.IsZero():
		case off.Cmp(slack) < 0 && off.Neg().Cmp(slack) < 0:
			w.found.Add(finding.Finding{
				Severity: finding.Note, Rule: "einvoice/tax-rounding", Span: w.span(),
				Message: fmt.Sprintf("the tax as billed is %s, and %s %% of %s are %s; the electronic invoice carries the tax as billed",
					billed, b.Rate, b.Base, figured),
				Hint: `where your rules allow it, compute the tax of all rates together and per invoice, under "taxes" in company.yaml`,
			})
		default:
			w.wrong("BR-CO-17", fmt.Sprintf("the tax is %s, and %s %% of %s are %s", billed, b.Rate, b.Base, figured))
		}
		return
	}
	if !billed.IsZero() {
		w.wrong("BR-CO-14", fmt.Sprintf("a tax of %s is stated, and nothing is taxed", billed))
	}
}

// wrong reports a record that breaks a rule.
func (w *writer) wrong(rule, what string) {
	w.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "einvoice/sums", Span: w.span(),
		Message: fmt.Sprintf("invoice %s cannot go out as an electronic invoice: %s (%s of EN 16931)", w.inv.Number, what, rule),
		Hint:    "void the invoice and make a new one",
	})
}

// span is where findings about the record belong.
func (w *writer) span() finding.Span {
	if w.inv.File == nil {
		return finding.Span{}
	}
	return w.inv.File.Span(0, 0)
}
