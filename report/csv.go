package report

import (
	"bytes"
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"jobday/notes"
)

// csvHeader is the first record of the invoice lines.
var csvHeader = []string{
	"company", "job", "title", "customer", "site", "date", "report", "kind", "ref", "what",
	"qty", "unit", "rate", "amount", "currency", "taxed", "why", "from",
}

// InvoiceCSV writes what may be billed now as RFC 4180 records, one a line to bill and one a tax
// (kind "line" or "tax"), so that the amounts of a report add up to its total. Records end in
// CRLF. Amounts, rates and quantities are plain numbers; a text that a spreadsheet would take for
// a formula gets a single quote in front, as OWASP ASVS 5.0 asks (requirement 1.2.10).
func InvoiceCSV(w io.Writer, inputs []Input) error {
	var page bytes.Buffer
	out := csv.NewWriter(&page)
	out.UseCRLF = true
	records := [][]string{csvHeader}
	for _, in := range inputs {
		v, err := newView(in)
		if err != nil {
			return err
		}
		records = append(records, v.records()...)
	}
	if err := out.WriteAll(records); err != nil {
		return err
	}
	_, err := w.Write(page.Bytes())
	return err
}

// records are the lines and taxes of one report.
func (v *View) records() [][]string {
	var list [][]string
	ready := v.Day.Money.Ready
	for _, l := range ready.Lines {
		list = append(list, v.record(csvRow{
			kind: "line", ref: l.Ref, what: v.What(l), qty: l.Qty.String(), unit: string(l.Unit),
			rate: l.Rate.String(), amount: l.Amount, taxed: yesNo(l.Taxed), why: l.Why, from: l.From,
		}))
	}
	for _, t := range ready.Tax {
		list = append(list, v.record(csvRow{
			kind: "tax", what: t.Name, qty: t.Base.String(), unit: "%", rate: t.Rate.String(),
			amount: t.Amount, taxed: "no", why: v.TaxWorking(),
		}))
	}
	return list
}

// csvRow is what differs from record to record of a report.
type csvRow struct {
	kind, ref, what, qty, unit, rate string
	amount                           notes.Money
	taxed, why                       string
	from                             []notes.Source
}

func (v *View) record(r csvRow) []string {
	return []string{
		csvText(v.Day.Company), csvText(v.Day.Job), csvText(v.Job.Title), csvText(v.Job.Customer),
		csvText(v.Job.Site), v.Day.Date.String(), strconv.Itoa(v.Day.Number), r.kind, csvText(r.ref),
		csvText(r.what), r.qty, csvText(r.unit), r.rate, r.amount.String(), csvText(v.Currency()),
		r.taxed, csvText(r.why), csvText(Where(r.from)),
	}
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// csvText makes a text safe to open in a spreadsheet. Quoting alone does not stop a formula.
func csvText(text string) string {
	text = string(clean([]byte(oneLine(text))))
	first, _ := utf8.DecodeRuneInString(text)
	if text != "" && strings.ContainsRune("=+-@\t＝＋－＠", first) {
		return "'" + text
	}
	return text
}
