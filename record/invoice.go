package record

import (
	"jobday/finding"
	"jobday/notes"
)

func invoiceForm(v *notes.Invoice) form {
	t := &v.Totals
	return form{
		kind: "invoice", number: &v.Number,
		title: func() string {
			if v.Kind == notes.InvoiceVoid {
				return v.Number + ": takes invoice " + v.Voids + " back"
			}
			return "Invoice " + v.Number + ": " + v.Title
		},
		fields: []field{
			{"number", &v.Number}, {"kind", (*string)(&v.Kind)}, {"voids", &v.Voids}, {"why", &v.Why},
			{"job", &v.Job}, {"title", &v.Title}, {"date", &v.Date}, {"due", &v.Due}, {"through", &v.Through},
			{"terms", &v.Terms}, {"by", &v.By}, {"currency", &v.Currency},
			{"seller", &v.Seller.Name}, {"seller_address", &v.Seller.Address}, {"seller_contact", &v.Seller.Contact},
			{"seller_tax_numbers", &v.Seller.TaxNumbers},
			{"buyer", &v.Buyer.Name}, {"buyer_address", &v.Buyer.Address}, {"buyer_contact", &v.Buyer.Contact},
			{"buyer_tax_numbers", &v.Buyer.TaxNumbers},
			{"site", &v.Site}, {"treatment", &v.Treatment}, {"tax_per", &v.TaxPer}, {"exempt", &v.Exempt},
			{"lines", &t.Lines}, {"allowances", &t.Allowances}, {"charges", &t.Charges}, {"without_tax", &t.WithoutTax},
			{"tax", &t.Tax}, {"with_tax", &t.WithTax}, {"paid", &t.Paid}, {"rounding", &t.Rounding}, {"to_pay", &t.Due},
		},
		tables: invoiceTables(v),
	}
}

func invoiceTables(v *notes.Invoice) []table {
	adjustment := func(title string, rows *[]notes.Adjustment) table {
		return list(title, []string{"Reason", "Percent", "On", "Amount", "Taxed"}, rows, func(a *notes.Adjustment) []any {
			return []any{&a.Reason, &a.Percent, &a.Base, &a.Amount, &a.Taxed}
		})
	}
	return []table{
		list("Lines", []string{"No", "Ref", "Change", "What", "Qty", "Unit", "Rate", "Amount", "Taxed", "Kind", "Why"}, &v.Lines, func(l *notes.BilledLine) []any {
			return []any{&l.No, &l.Ref, &l.Change, &l.What, &l.Qty, (*string)(&l.Unit), &l.Rate, &l.Amount, &l.Taxed, &l.Kind, &l.Why}
		}).placed(func(i int, at finding.Span) { v.Lines[i].Span = at }),
		adjustment("Taken off", &v.Allowances),
		adjustment("Added", &v.Charges),
		taxTable(&v.Tax),
		list("Earlier invoices", []string{"Invoice", "Date", "Total", "Voided"}, &v.Earlier, func(e *notes.EarlierInvoice) []any {
			return []any{&e.Number, &e.Date, &e.Total, &e.Voided}
		}),
		list("Attached daily reports", []string{"Day"}, &v.Attachments, func(d *notes.Date) []any { return []any{d} }),
		notesTable(&v.Notes), sourcesTable(&v.Sources),
	}
}
