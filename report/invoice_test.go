package report

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/sheet"
)

// An offer in each detail shows what the company chose, and never what things cost it.
func TestAnOfferShowsAsMuchAsTheCompanyChose(t *testing.T) {
	m := notes.MustMoney
	c := &notes.ChangeOrder{
		Number: "co-1", Customer: "Quay Lane Bakery", Currency: "USD", Offered: notes.MustDate("2026-03-13"), Effect: "none", Reason: "the mixer needs one",
		Excluded: []string{"painting"}, Subtotal: m("1039.90"), Total: m("1039.90"),
		Items: []notes.ChangeItem{{Extra: "x", Work: "a disconnect", Amount: m("1039.90"), Rows: []notes.ChangeRow{
			{Row: 1, What: "disconnects", Basis: "cost 28.50 + 40 %", Qty: notes.MustDecimal("26"), Unit: "ea", Rate: notes.MustDecimal("39.996"), Amount: m("1039.90")},
		}}},
	}
	for detail, want := range map[notes.OfferDetail]struct{ shown, hidden string }{
		notes.OfferTotal: {"a disconnect", "disconnects"},
		notes.OfferParts: {"disconnects", "39.996"},
		notes.OfferFull:  {"39.996", "28.50"},
	} {
		var page bytes.Buffer
		company := &notes.Company{Name: "x", Offer: notes.OfferRules{Detail: detail}}
		require.NoError(t, sheet.Markdown(&page, ChangeOrderSheet(c, company)))
		require.Contains(t, page.String(), want.shown, detail)
		require.NotContains(t, page.String(), want.hidden, detail)
		for _, always := range []string{"1,039.90", "painting", "the mixer needs one", "Quay Lane Bakery", "declined"} {
			require.Contains(t, page.String(), always, detail)
		}
		require.NotContains(t, page.String(), "28.50", "what it costs the company is nobody else's business")
	}
}

// The rows of an invoice for the books add up to what is to be paid, and no text is a formula.
// Source: OWASP ASVS 5.0, 1.2.10 (formula injection).
func TestTheRowsForTheBooksAddUp(t *testing.T) {
	m := notes.MustMoney
	v := notes.Invoice{
		Number: "7-1", Kind: notes.InvoiceBill, Buyer: notes.Party{Name: "=cmd|' /C calc'!A0"}, Currency: "USD",
		Lines: []notes.BilledLine{
			{No: 1, Ref: "+A", What: "@SUM(A1)", Qty: notes.Int(2), Unit: "ea", Rate: notes.Int(50), Amount: m("100"), Taxed: true},
			{No: 2, Ref: "B", What: "-12V lead", Qty: notes.Int(-1), Unit: "lot", Rate: notes.Int(20), Amount: m("-20")},
		},
		Allowances: []notes.Adjustment{{Reason: "retainage withheld", Amount: m("10"), Taxed: true}},
		Charges:    []notes.Adjustment{{Reason: "retainage on what is credited", Amount: m("2")}},
		Tax:        []notes.TaxAmount{{Name: "state", Rate: notes.Int(6), Base: m("90"), Amount: m("5.40")}},
		Totals:     notes.InvoiceTotals{Paid: m("50"), Due: m("27.40")},
	}
	var page bytes.Buffer
	require.NoError(t, BooksCSV(&page, []notes.Invoice{v}))
	rows, err := csv.NewReader(&page).ReadAll()
	require.NoError(t, err)
	var sum notes.Money
	for _, r := range rows[1:] {
		require.Len(t, r, len(booksHeader))
		sum = sum.Add(m(r[13]))
		for i, cell := range r {
			if booksHeader[i] != "qty" && booksHeader[i] != "rate" && booksHeader[i] != "amount" {
				require.False(t, strings.ContainsAny(cell[:min(1, len(cell))], "=+-@\t\r"), cell)
			}
		}
	}
	require.Equal(t, "27.40", sum.String())
}
