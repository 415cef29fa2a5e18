package ubl

import (
	"encoding/xml"
	"fmt"
	"strings"

	"jobday/notes"
)

// document builds the whole document.
func (w *writer) document() any {
	d := xmlDocument{
		Common:        "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2",
		Aggregate:     "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2",
		Customization: customization,
		ID:            oneLine(w.inv.Number), Issued: w.inv.Date.String(),
		Notes: w.notes(), Currency: w.inv.Currency, Reference: w.buyer.Reference,
		Seller: xmlHolder{w.party(w.seller, true)}, Buyer: xmlHolder{w.party(w.buyer, false)},
		Terms: &xmlText{w.terms()}, Totals: w.money(),
		Tax: xmlTaxTotal{Amount: w.amount(w.totals().Tax)},
	}
	if w.inv.Through.Known() {
		d.Period = &xmlPeriod{w.inv.Through.String()}
	}
	if w.buyer.Order != "" {
		d.Order = &xmlID{oneLine(w.buyer.Order)}
	}
	for _, e := range w.earlier() {
		d.Earlier = append(d.Earlier, xmlEarlier{xmlReference{ID: oneLine(e.Number), Issued: e.Date.String()}})
	}
	for _, day := range w.inv.Attachments {
		d.Attached = append(d.Attached, xmlReference{
			ID: oneLine(w.inv.Job) + " " + day.String(), Description: "daily report of " + day.String(),
		})
	}
	allowances, charges := w.adjustments()
	d.Adjustments = append(w.adjusted(allowances, false), w.adjusted(charges, true)...)
	for _, b := range w.rows {
		c := w.rest
		if b.Code == w.taxed.code {
			c = w.taxed
		}
		d.Tax.Rows = append(d.Tax.Rows, xmlSubtotal{Base: w.amount(b.Base), Tax: w.amount(b.Tax), Category: categoryElement(c, true)})
	}
	if w.turn {
		return w.creditNote(d)
	}
	return w.invoice(d)
}

func (w *writer) invoice(d xmlDocument) any {
	d.XMLName = xml.Name{Local: "Invoice"}
	d.Space = "urn:oasis:names:specification:ubl:schema:xsd:Invoice-2"
	d.InvoiceType = commercialInvoice
	if w.inv.Due.Known() {
		d.Due = w.inv.Due.String()
	}
	if w.inv.Job != "" {
		d.Project = &xmlID{oneLine(w.inv.Job)}
	}
	for i := range w.inv.Lines {
		l, qty := w.line(&w.inv.Lines[i])
		l.Invoiced = qty
		d.InvoiceLines = append(d.InvoiceLines, l)
	}
	return d
}

// creditNote has neither a due date nor a project of its own: the job is an attached document of
// type 50, as the binding has it.
func (w *writer) creditNote(d xmlDocument) any {
	d.XMLName = xml.Name{Local: "CreditNote"}
	d.Space = "urn:oasis:names:specification:ubl:schema:xsd:CreditNote-2"
	d.CreditType = creditNote
	if w.inv.Job != "" {
		d.Attached = append(d.Attached, xmlReference{ID: oneLine(w.inv.Job), Type: "50"})
	}
	for i := range w.inv.Lines {
		l, qty := w.line(&w.inv.Lines[i])
		l.Credited = qty
		d.CreditLines = append(d.CreditLines, l)
	}
	return d
}

// notes are what stands nowhere else: what a credit note is for, the site, and the taxes one by one.
func (w *writer) notes() []string {
	var out []string
	add := func(format string, words ...any) {
		if text := oneLine(fmt.Sprintf(format, words...)); text != "" {
			out = append(out, text)
		}
	}
	if w.inv.Voids != "" {
		add("Takes back invoice %s. %s", w.inv.Voids, w.inv.Why)
	}
	if w.inv.Title != "" {
		add("%s", w.inv.Title)
	}
	if w.inv.Site != "" {
		add("Site: %s", w.inv.Site)
	}
	if len(w.inv.Tax) > 1 {
		var parts []string
		for _, t := range w.inv.Tax {
			parts = append(parts, fmt.Sprintf("%s %s %% of %s: %s", t.Name, t.Rate, w.sign(t.Base), w.sign(t.Amount)))
		}
		add("Tax by rate: %s", strings.Join(parts, "; "))
	}
	return out
}

// terms are the terms of payment (BT-20), which may never be missing where something is due and no
// date is given (BR-CO-25).
func (w *writer) terms() string {
	switch {
	case w.turn:
		return "Credit; nothing is to be paid."
	case w.inv.Terms != "":
		return oneLine(w.inv.Terms)
	case w.inv.Due.Known():
		return "Due " + w.inv.Due.String()
	}
	return "Due on receipt"
}

func (w *writer) amount(m notes.Money) xmlAmount {
	return xmlAmount{Currency: w.inv.Currency, Value: m.String()}
}

// some is an amount that is left out when it is nothing.
func (w *writer) some(m notes.Money) *xmlAmount {
	if m.IsZero() {
		return nil
	}
	a := w.amount(m)
	return &a
}

func (w *writer) money() xmlTotals {
	t := w.totals()
	return xmlTotals{
		Lines: w.amount(t.Lines), WithoutTax: w.amount(t.WithoutTax), WithTax: w.amount(t.WithTax),
		Allowances: w.some(t.Allowances), Charges: w.some(t.Charges), Paid: w.some(t.Paid),
		Rounding: w.some(t.Rounding), Due: w.amount(t.Due),
	}
}

func (w *writer) adjusted(list []notes.Adjustment, charge bool) []xmlAdjustment {
	var out []xmlAdjustment
	for _, a := range list {
		x := xmlAdjustment{
			Charge: charge, Reason: oneLine(a.Reason), Amount: w.amount(a.Amount),
			Category: categoryElement(w.categoryOf(a.Taxed), false),
		}
		if x.Reason == "" {
			x.Reason = map[bool]string{false: "taken off", true: "added"}[charge] // BR-33, BR-38
		}
		if a.Percent.Sign() > 0 && a.Base.Sign() != 0 {
			base := a.Base
			if base.Sign() < 0 {
				base = base.Neg()
			}
			x.Percent, x.Base = a.Percent.String(), w.some(base)
		}
		out = append(out, x)
	}
	return out
}

// line is one line with its quantity, whose element has a name of its own in each document.
func (w *writer) line(l *notes.BilledLine) (xmlLine, *xmlQuantity) {
	code, known := UnitCode(l.Unit)
	qty := l.Qty
	if w.turn {
		qty = qty.Neg()
	}
	x := xmlLine{
		ID: notes.Int(l.No).String(), Amount: w.amount(w.sign(l.Amount)),
		Item: xmlItem{
			Name: oneLine(l.What), Description: oneLine(l.Why), Category: categoryElement(w.categoryOf(l.Taxed), false),
		},
		Price: xmlPrice{xmlAmount{Currency: w.inv.Currency, Value: l.Rate.String()}},
	}
	if x.Item.Name == "" {
		x.Item.Name = oneLine(l.Ref)
	}
	if l.Ref != "" {
		x.Item.Ref = &xmlID{oneLine(l.Ref)}
	}
	if !known && l.Unit != "" {
		x.Note = "counted in: " + oneLine(string(l.Unit))
	}
	return x, &xmlQuantity{Unit: code, Value: qty.String()}
}

// categoryElement is the element of a category. Only a breakdown gives the reason; what is not
// subject to tax has no rate (BR-O-05, BR-48).
func categoryElement(c category, reason bool) xmlCategory {
	x := xmlCategory{ID: c.code, Scheme: xmlScheme{"VAT"}}
	if c.code != "O" {
		rate := c.rate.String()
		x.Percent = &rate
	}
	if reason {
		x.Reason = oneLine(c.reason)
	}
	return x
}
