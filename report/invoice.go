package report

import (
	"bytes"
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"jobday/locale"
	"jobday/notes"
	"jobday/sheet"
)

// InvoiceSheet is an invoice as the customer gets it; voided says that a later record
// takes it back. The company says how dates and amounts are written.
func InvoiceSheet(v *notes.Invoice, voided bool, company *notes.Company) sheet.Sheet {
	w := placeOf(company)
	s := sheet.Sheet{
		Kind: "Invoice", Number: v.Number, Title: v.Title, Date: v.Date,
		Letterhead: sheet.Letterhead{Name: v.Seller.Name, Address: v.Seller.Address, Contact: v.Seller.Contact, TaxNumbers: v.Seller.TaxNumbers},
		To:         sheet.Addressee{Name: v.Buyer.Name, Address: v.Buyer.Address, Site: v.Site},
		Facts: []sheet.Fact{
			{Label: "Job", Value: sheet.Words(v.Job)}, {Label: "Invoice date", Value: sheet.Words(w.Date(v.Date))},
			{Label: "Work up to", Value: sheet.Words(w.Date(v.Through))},
		},
	}
	switch {
	case v.Kind == notes.InvoiceVoid:
		s.Kind = "Invoice taken back"
		s.Facts = append(s.Facts, sheet.Fact{Label: "Takes back", Value: sheet.Words(v.Voids)})
		s.Blocks = append(s.Blocks, sheet.Notice{Title: "This takes invoice " + v.Voids + " back", Text: []sheet.Text{sheet.Words(v.Why)}})
	default:
		s.Facts = append(s.Facts, sheet.Fact{Label: "Due", Value: sheet.Strong(w.Date(v.Due))})
		s.Blocks = append(s.Blocks, sheet.Figures{Cells: []sheet.Figure{{Label: "To pay", Big: w.Money(v.Totals.Due), Small: v.Currency + ", due " + w.Date(v.Due)}}})
	}
	if voided {
		s.Mark = sheet.Mark{Word: "VOID", Strike: true}
	}
	s.Blocks = append(s.Blocks, invoiceLines(v, w), invoiceSums(v, w))
	if v.Terms != "" && v.Kind == notes.InvoiceBill {
		s.Blocks = append(s.Blocks, sheet.Para{Text: sheet.Words(v.Terms)})
	}
	s.Blocks = append(s.Blocks, invoiceBehind(v, w)...)
	if v.Exempt != "" {
		s.Foot = append(s.Foot, "No tax: "+v.Exempt)
	}
	if v.TaxPer == "line" && len(v.Tax) > 0 {
		s.Foot = append(s.Foot, "Tax is rounded line by line.")
	}
	return s
}

func invoiceLines(v *notes.Invoice, w locale.Locale) sheet.Block {
	t := sheet.Table{Columns: []sheet.Column{
		{Title: "No"}, {Title: "What", Width: 9}, {Title: "Qty", Align: sheet.Right, Width: 2}, {Title: "Rate", Align: sheet.Right, Width: 2},
		{Title: "Amount, " + v.Currency, Align: sheet.Right, Width: 3},
	}}
	for _, l := range v.Lines {
		what := sheet.Words(l.What)
		if l.Change != "" && !strings.Contains(l.What, l.Change) {
			what = sheet.Join(", ", what, sheet.Words(l.Change))
		}
		qty := countOf(w, l.Qty, l.Unit)
		t.Rows = append(t.Rows, sheet.Row{Cells: []sheet.Cell{
			{Text: sheet.Words(strconv.Itoa(l.No))}, {Text: sheet.Join("; ", what, sheet.Aside(l.Why))},
			{Text: sheet.Words(qty)}, {Text: sheet.Words(w.Rate(l.Rate))}, {Text: sheet.Words(w.Money(l.Amount))},
		}})
	}
	return t
}

func invoiceSums(v *notes.Invoice, w locale.Locale) sheet.Block {
	t := sheet.Table{Columns: []sheet.Column{{Title: "", Width: 5}, {Title: v.Currency, Align: sheet.Right, Width: 2}}}
	add := func(what string, m notes.Money) { t.Rows = append(t.Rows, sheet.Cells(what, w.Money(m))) }
	add("lines", v.Totals.Lines)
	for _, a := range v.Allowances {
		add(adjustment(a, w), a.Amount.Neg())
	}
	for _, a := range v.Charges {
		add(adjustment(a, w), a.Amount)
	}
	if len(v.Allowances)+len(v.Charges) > 0 {
		t.Rows = append(t.Rows, sheet.Sum(sheet.Subtotal, "before tax", w.Money(v.Totals.WithoutTax)))
	}
	for _, x := range v.Tax {
		add(x.Name+", "+w.Percent(x.Rate)+" of "+w.Money(x.Base), x.Amount)
	}
	t.Rows = append(t.Rows, sheet.Sum(sheet.Subtotal, "with tax", w.Money(v.Totals.WithTax)))
	if !v.Totals.Paid.IsZero() {
		add("less deposit", v.Totals.Paid.Neg())
	}
	if !v.Totals.Rounding.IsZero() {
		add("rounding", v.Totals.Rounding)
	}
	t.Rows = append(t.Rows, sheet.Sum(sheet.Total, "to pay", w.Money(v.Totals.Due)))
	return sheet.Keep{Blocks: []sheet.Block{t}}
}

func adjustment(a notes.Adjustment, w locale.Locale) string {
	if a.Percent.IsZero() {
		return a.Reason
	}
	return a.Reason + ", " + w.Percent(a.Percent) + " of " + w.Money(a.Base)
}

// invoiceBehind is what an invoice stands on: those before it, and the daily reports.
func invoiceBehind(v *notes.Invoice, w locale.Locale) []sheet.Block {
	var blocks []sheet.Block
	if len(v.Earlier) > 0 {
		t := sheet.Table{Columns: []sheet.Column{{Title: "Invoices before", Width: 3}, {Title: "Date", Width: 2}, {Title: "With tax", Align: sheet.Right, Width: 2}}}
		for _, e := range v.Earlier {
			name := e.Number
			if e.Voided {
				name += ", taken back"
			}
			t.Rows = append(t.Rows, sheet.Cells(name, w.Date(e.Date), w.Money(e.Total)))
		}
		blocks = append(blocks, sheet.Keep{Blocks: []sheet.Block{sheet.Heading{Text: sheet.Words("Billed before")}, sheet.Para{Text: sheet.Aside("What was billed before is taken off line by line and is not in the amounts above.")}, t}})
	}
	if len(v.Attachments) > 0 {
		list := sheet.List{}
		for _, d := range v.Attachments {
			list.Items = append(list.Items, sheet.Words("daily report of "+w.Date(d)))
		}
		blocks = append(blocks, sheet.Keep{Blocks: []sheet.Block{sheet.Heading{Text: sheet.Words("Attached")}, list}})
	}
	return blocks
}

// booksHeader is the first record of an invoice for the office's books.
var booksHeader = []string{
	"invoice", "kind", "date", "due", "customer", "job", "row", "ref", "change", "what", "qty", "unit", "rate", "amount", "taxed", "currency",
}

// BooksCSV writes invoices for the office's books as RFC 4180 records: one a line, adjustment, tax
// and part of the deposit used, so that the amounts of one invoice add up to what is to be paid.
// Texts that a spreadsheet would take for a formula are neutralized as in InvoiceCSV.
func BooksCSV(w io.Writer, list []notes.Invoice) error {
	var page bytes.Buffer
	out := csv.NewWriter(&page)
	out.UseCRLF = true
	records := [][]string{booksHeader}
	for i := range list {
		records = append(records, bookRows(&list[i])...)
	}
	if err := out.WriteAll(records); err != nil {
		return err
	}
	_, err := w.Write(page.Bytes())
	return err
}

func bookRows(v *notes.Invoice) [][]string {
	var rows [][]string
	add := func(kind string, l notes.BilledLine) {
		rows = append(rows, []string{
			csvText(v.Number), string(v.Kind), v.Date.String(), v.Due.String(), csvText(v.Buyer.Name), csvText(v.Job), kind, csvText(l.Ref),
			csvText(l.Change), csvText(l.What), l.Qty.String(), csvText(string(l.Unit)), l.Rate.String(), l.Amount.String(), yesNo(l.Taxed), csvText(v.Currency),
		})
	}
	for _, l := range v.Lines {
		add("line", l)
	}
	one := func(what string, amount notes.Money, taxed bool) notes.BilledLine {
		l := notes.BilledLine{What: what, Qty: notes.Int(1), Unit: notes.Lot, Rate: amount.Decimal(), Amount: amount, Taxed: taxed}
		if amount.Sign() < 0 {
			l.Qty, l.Rate = notes.Int(-1), amount.Neg().Decimal()
		}
		return l
	}
	for _, a := range v.Allowances {
		add("taken off", one(a.Reason, a.Amount.Neg(), a.Taxed))
	}
	for _, a := range v.Charges {
		add("added", one(a.Reason, a.Amount, a.Taxed))
	}
	for _, t := range v.Tax {
		add("tax", notes.BilledLine{What: t.Name, Qty: t.Base.Decimal(), Unit: "%", Rate: t.Rate, Amount: t.Amount})
	}
	if !v.Totals.Paid.IsZero() {
		add("deposit", one("deposit", v.Totals.Paid.Neg(), false))
	}
	return rows
}
