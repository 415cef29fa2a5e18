package record

import (
	"strconv"

	"jobday/finding"
	"jobday/notes"
)

// sum reports a figure that is not what its parts make. An amount that does not add up may be a
// slip or a fraud; either way it is not used until somebody settles it.
func (r *reader) sum(at finding.Span, what string, written, made notes.Money) {
	if written.Equal(made) {
		return
	}
	r.wrong("record/sum", at, what+" is written as "+written.String()+", but its parts make "+made.String(),
		"put the figures back as they were written, from your version control or backup")
}

// sumAt is sum of a key of the front matter.
func (r *reader) sumAt(key string, written, made notes.Money) {
	r.sum(r.keys[key], quote(key), written, made)
}

func (r *reader) checkChange(c *notes.ChangeOrder) {
	var subtotal notes.Money
	rows := 0
	for _, i := range c.Items {
		var sum notes.Money
		for _, row := range i.Rows {
			rows++
			r.sum(row.Span, "the amount of row "+strconv.Itoa(row.Row), row.Amount, notes.Cents(row.Qty.Mul(row.Rate)))
			if row.Row != rows {
				r.wrong("record/value", row.Span, "the rows of the price are not numbered from 1", "number them in their order")
			}
			sum = sum.Add(row.Amount)
		}
		r.sum(i.Span, "the amount of "+quote(i.Extra), i.Amount, sum)
		subtotal = subtotal.Add(i.Amount)
	}
	r.sumAt("subtotal", c.Subtotal, subtotal)
	r.sumAt("total", c.Total, c.Subtotal.Add(taxes(c.Tax)))
}

func taxes(list []notes.TaxAmount) notes.Money {
	var sum notes.Money
	for _, t := range list {
		sum = sum.Add(t.Amount)
	}
	return sum
}

// checkInvoice holds an invoice against the rules for totals of EN 16931, each named beside its
// line. Source: EN 16931-1, business rules BR-CO-10 to BR-CO-17.
func (r *reader) checkInvoice(v *notes.Invoice) {
	if v.Kind != notes.InvoiceBill && v.Kind != notes.InvoiceVoid {
		r.wrong("record/value", r.keys["kind"], quote(string(v.Kind))+" is no kind of invoice", "write invoice or void")
	}
	if (v.Kind == notes.InvoiceVoid) != (v.Voids != "") {
		r.wrong("record/value", r.keys["voids"], "a void names the invoice it takes back, and an invoice takes none back", "set kind and voids as they were written")
	}
	for i, l := range v.Lines {
		r.sum(l.Span, "the amount of line "+strconv.Itoa(l.No), l.Amount, notes.Cents(l.Qty.Mul(l.Rate)))
		if l.No != i+1 {
			r.wrong("record/value", l.Span, "the lines are not numbered from 1", "number them in their order")
		}
	}
	t, made := v.Totals, Totals(v)
	r.sumAt("lines", t.Lines, made.Lines)
	r.sumAt("allowances", t.Allowances, made.Allowances)
	r.sumAt("charges", t.Charges, made.Charges)
	r.sumAt("without_tax", t.WithoutTax, t.Lines.Sub(t.Allowances).Add(t.Charges))
	r.sumAt("tax", t.Tax, made.Tax)
	r.sumAt("with_tax", t.WithTax, t.WithoutTax.Add(t.Tax))
	r.sumAt("to_pay", t.Due, t.WithTax.Sub(t.Paid).Add(t.Rounding))
	r.checkTax(v)
}

// checkTax holds each tax against its rate on its base (BR-CO-17). Rates that are added before the
// tax is rounded make one tax, which is allocated to them; tax by line is rounded line by line and
// cannot be held against the sum.
func (r *reader) checkTax(v *notes.Invoice) {
	if v.TaxPer == "line" || len(v.Tax) == 0 {
		return
	}
	var rates notes.Decimal
	apart := true
	for _, x := range v.Tax {
		rates = rates.Add(x.Rate)
		apart = apart && x.Amount.Equal(percent(x.Base, x.Rate))
	}
	if !apart {
		r.sumAt("tax", taxes(v.Tax), percent(v.Tax[0].Base, rates))
	}
}

func percent(base notes.Money, rate notes.Decimal) notes.Money {
	return notes.Cents(base.Decimal().Mul(rate).Quo(notes.Int(100), 2))
}

// Totals adds an invoice up from its lines, allowances, charges and taxes; Paid and Rounding are
// taken as they stand.
func Totals(v *notes.Invoice) notes.InvoiceTotals {
	t := notes.InvoiceTotals{Paid: v.Totals.Paid, Rounding: v.Totals.Rounding}
	for _, l := range v.Lines {
		t.Lines = t.Lines.Add(l.Amount) // BR-CO-10
	}
	for _, a := range v.Allowances {
		t.Allowances = t.Allowances.Add(a.Amount) // BR-CO-11
	}
	for _, a := range v.Charges {
		t.Charges = t.Charges.Add(a.Amount) // BR-CO-12
	}
	t.WithoutTax = t.Lines.Sub(t.Allowances).Add(t.Charges) // BR-CO-13
	t.Tax = taxes(v.Tax)                                    // BR-CO-14
	t.WithTax = t.WithoutTax.Add(t.Tax)                     // BR-CO-15
	t.Due = t.WithTax.Sub(t.Paid).Add(t.Rounding)           // BR-CO-16
	return t
}
