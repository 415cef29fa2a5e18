package record

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/finding"
	"jobday/notes"
)

// words are texts people write, with everything that means something to Markdown, YAML or a table.
func words(t *rapid.T, label string) string {
	return Plain(rapid.OneOf(
		rapid.SampledFrom([]string{"", "a | b", `ends in \`, `\|`, "# not a heading", "- no", "yes", "null", "1e3", "0x1F", "2026-03-12",
			"café 25 Ω", `"quoted"`, "'", "a: b", "<b>x</b>", "`x`", "|", "---", "End of record x", "{a: [", "\u2028", "=1+1", "&x *y !z"}),
		rapid.String(),
	).Draw(t, label))
}

func money(t *rapid.T) notes.Money {
	return notes.Cents(notes.Int(rapid.IntRange(-500000, 500000).Draw(t, "cents")).Quo(notes.Int(100), 2))
}

func date(t *rapid.T) notes.Date {
	return notes.MustDate("2026-01-01").AddDays(rapid.IntRange(0, 900).Draw(t, "day"))
}

func drawChange(t *rapid.T) *notes.ChangeOrder {
	c := &notes.ChangeOrder{
		Number: "co-1", Company: words(t, "company"), Job: words(t, "job"), Title: words(t, "title"), Customer: words(t, "customer"),
		Site: words(t, "site"), Currency: "USD", Offered: date(t), By: words(t, "by"), Reason: words(t, "reason"), Effect: words(t, "effect"),
		Excluded: drawList(t, words), Notes: []notes.RecordNote{{File: words(t, "file"), SHA256: "ab"}},
		Sources: []notes.SourceLine{{Ref: words(t, "ref"), File: "x.md", Line: 3, Text: words(t, "text")}},
	}
	row := 0
	for n := range rapid.IntRange(1, 3).Draw(t, "items") {
		i := notes.ChangeItem{Extra: words(t, "extra") + strings.Repeat("i", n), Work: words(t, "work"), Found: date(t), Done: n == 0}
		for range rapid.IntRange(0, 3).Draw(t, "rows") {
			row++
			r := notes.ChangeRow{
				Row: row, What: words(t, "what"), Basis: words(t, "basis"), Qty: notes.Ratio(rapid.IntRange(0, 999).Draw(t, "qty"), 8),
				Unit: notes.Unit(words(t, "unit")), Rate: money(t).Decimal(), Taxed: rapid.Bool().Draw(t, "taxed"),
			}
			r.Amount = notes.Cents(r.Qty.Mul(r.Rate))
			i.Amount = i.Amount.Add(r.Amount)
			i.Rows = append(i.Rows, r)
		}
		c.Items = append(c.Items, i)
		c.Subtotal = c.Subtotal.Add(i.Amount)
	}
	c.Tax = []notes.TaxAmount{{Name: words(t, "tax"), Rate: notes.MustDecimal("6.25"), Base: money(t), Amount: money(t)}}
	c.Total = c.Subtotal.Add(c.Tax[0].Amount)
	return c
}

func drawList(t *rapid.T, draw func(*rapid.T, string) string) []string {
	var list []string
	for range rapid.IntRange(0, 3).Draw(t, "n") {
		list = append(list, draw(t, "of a list"))
	}
	return list
}

func drawInvoice(t *rapid.T) *notes.Invoice {
	v := &notes.Invoice{
		Number: "7-1", Kind: notes.InvoiceBill, Job: words(t, "job"), Title: words(t, "title"), Date: date(t), Due: date(t), Through: date(t),
		Terms: words(t, "terms"), Currency: "USD", Seller: notes.Party{Name: words(t, "seller"), Address: drawList(t, words)},
		Buyer: notes.Party{Name: words(t, "buyer")}, TaxPer: "invoice", Attachments: []notes.Date{date(t)},
		Earlier: []notes.EarlierInvoice{{Number: "7-0", Date: date(t), Total: money(t), Voided: true}},
	}
	for n := range rapid.IntRange(0, 4).Draw(t, "lines") {
		l := notes.BilledLine{No: n + 1, Ref: words(t, "ref"), What: words(t, "what"), Qty: notes.Int(n), Rate: money(t).Decimal(), Why: words(t, "why")}
		l.Amount = notes.Cents(l.Qty.Mul(l.Rate))
		v.Lines = append(v.Lines, l)
	}
	v.Allowances = []notes.Adjustment{{Reason: words(t, "reason"), Percent: notes.Int(5), Base: money(t), Amount: money(t)}}
	base := money(t)
	v.Tax = []notes.TaxAmount{{Name: words(t, "tax"), Rate: notes.Int(7), Base: base, Amount: notes.Cents(base.Decimal().Mul(notes.Int(7)).Quo(notes.Int(100), 2))}}
	v.Totals.Paid = money(t)
	v.Totals = Totals(v)
	return v
}

func file(name string, text []byte) *finding.File { return finding.NewFile("jobs/7-x/"+name, text) }

// What is written is read again, whatever the words are, also with other line breaks.
func TestARecordIsReadAsItWasWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, v := drawChange(t), drawInvoice(t)
		a := &notes.ChangeAnswer{Number: "co-1", Answer: 1, Kind: notes.AnswerAuthorized, Who: words(t, "who"), At: date(t), Evidence: words(t, "evidence"), Amount: c.Subtotal}
		breaks := "\n"
		if rapid.Bool().Draw(t, "CRLF") {
			breaks = "\r\n"
		}
		as := func(b []byte) []byte { return bytes.ReplaceAll(b, []byte("\n"), []byte(breaks)) }
		set, found := Read([]*finding.File{
			file(InvoiceName("7-1"), as(Invoice(v))), file(ChangeName("co-1"), as(Change(c))), file(AnswerName("co-1", 1), as(Answer(a))),
		}, nil)
		for _, f := range found {
			if f.Rule != "record/line-changed" {
				t.Fatal(f.Rule, f.Message)
			}
		}
		gotC, gotV := set.Change("co-1"), set.Invoice("7-1")
		require.NotNil(t, gotC)
		require.NotNil(t, gotV)
		require.Len(t, gotC.Answers, 1)
		require.Equal(t, string(Change(c)), string(Change(gotC)))
		require.Equal(t, string(Invoice(v)), string(Invoice(gotV)))
		require.Equal(t, string(Answer(a)), string(Answer(&gotC.Answers[0])))
		require.Equal(t, c.Excluded, gotC.Excluded)
		require.Equal(t, c.Items[0].Work, gotC.Items[0].Work)
	})
}

// A record that lost its end, wherever it was cut, is never taken for a whole one; neither is one
// with a figure changed.
func TestHalfARecordOrAChangedFigureIsNeverUsed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := drawInvoice(t)
		text := Invoice(v)
		cut := rapid.IntRange(0, len(text)-2).Draw(t, "cut")
		set, found := Read([]*finding.File{file(InvoiceName("7-1"), text[:cut])}, nil)
		if len(set.Invoices) > 0 { // cut inside the hash of the last line: all figures are there
			require.Equal(t, "record/edited", found[0].Rule)
			return
		}
		require.Len(t, set.Broken, 1)
		require.NotEmpty(t, found)
	})
}

func TestFindings(t *testing.T) {
	v := &notes.Invoice{
		Number: "7-1", Kind: notes.InvoiceBill, Job: "7", Currency: "USD", TaxPer: "invoice",
		Lines:   []notes.BilledLine{{No: 1, Ref: "A", What: "lights", Qty: notes.Int(2), Unit: "ea", Rate: notes.Int(40), Amount: notes.MustMoney("80")}},
		Notes:   []notes.RecordNote{{File: "jobs/7-x/2026-03-12.md", SHA256: "00"}},
		Sources: []notes.SourceLine{{Ref: "A", File: "jobs/7-x/2026-03-12.md", Line: 2, Text: "- all lights up"}},
	}
	v.Totals = Totals(v)
	whole := string(Invoice(v))
	day := func(text string) []*finding.File {
		return []*finding.File{finding.NewFile("jobs/7-x/2026-03-12.md", []byte(text))}
	}
	for name, tt := range map[string]struct {
		name, text string
		days       []*finding.File
		rules      string
	}{
		"a line was edited":     {"7-1", whole, day("# Done\n- all but one light up\n"), "record/line-changed"},
		"a line only moved":     {"7-1", whole, day("\n\n- all lights up\n"), "record/note-changed"},
		"the note is gone":      {"7-1", whole, nil, "record/line-changed"},
		"the total was raised":  {"7-1", strings.Replace(whole, "lines: 80.00", "lines: 90.00", 1), nil, "record/sum record/sum record/edited"},
		"one word was changed":  {"7-1", strings.Replace(whole, "| lights |", "| lamps |", 1), nil, "record/line-changed record/edited"},
		"a key nobody knows":    {"7-1", strings.Replace(whole, "why:", "wy:", 1), nil, "record/key record/key record/edited"},
		"under another name":    {"7-2", whole, nil, "record/name"},
		"no front matter":       {"7-1", "# Invoice\n", nil, "record/half record/half"},
		"nothing in it":         {"7-1", "", nil, "record/half record/half"},
		"an amount with letter": {"7-1", strings.Replace(whole, "| 80.00 |", "| 8O.00 |", 1), nil, "record/value record/edited"},
	} {
		t.Run(name, func(t *testing.T) {
			_, found := Read([]*finding.File{file(InvoiceName(tt.name), []byte(tt.text))}, tt.days)
			var rules []string
			for _, f := range found {
				rules = append(rules, f.Rule)
				require.True(t, f.Span.Known())
				require.NotEmpty(t, f.Hint)
			}
			require.ElementsMatch(t, strings.Fields(tt.rules), rules, "%v", found)
		})
	}
}

// An answer that was edited, or copied, authorizes no more than was offered.
func TestAnAnswerFitsItsOffer(t *testing.T) {
	row := func(n int, amount string) notes.ChangeRow {
		m := notes.MustMoney(amount)
		return notes.ChangeRow{Row: n, What: "work", Qty: notes.Int(1), Unit: notes.Lot, Rate: m.Decimal(), Amount: m}
	}
	c := notes.ChangeOrder{Number: "co-1", Job: "7", Currency: "USD", Subtotal: notes.MustMoney("130"), Total: notes.MustMoney("130")}
	c.Items = []notes.ChangeItem{
		{Extra: "a", Work: "a", Rows: []notes.ChangeRow{row(1, "180")}, Amount: notes.MustMoney("180")},
		{Extra: "b", Work: "b", Rows: []notes.ChangeRow{row(2, "-50")}, Amount: notes.MustMoney("-50")},
	}
	yes := func(amount string, rows ...int) notes.ChangeAnswer {
		return notes.ChangeAnswer{Kind: notes.AnswerAuthorized, Who: "Ruth", Rows: rows, Amount: notes.MustMoney(amount)}
	}
	back := func(amount string) notes.ChangeAnswer {
		return notes.ChangeAnswer{Kind: notes.AnswerWithdrawn, Who: "Ruth", Amount: notes.MustMoney(amount)}
	}
	for name, tt := range map[string]struct {
		answers []notes.ChangeAnswer
		broken  int
	}{
		"all":                             {[]notes.ChangeAnswer{yes("130")}, 0},
		"a cent more than was offered":    {[]notes.ChangeAnswer{yes("130.01")}, 1},
		"below nothing":                   {[]notes.ChangeAnswer{yes("-1")}, 1},
		"the rows apart, one is a credit": {[]notes.ChangeAnswer{yes("180", 1), yes("-50", 2)}, 0},
		"a row, then the rest":            {[]notes.ChangeAnswer{yes("180", 1), yes("-50")}, 0},
		"one row twice":                   {[]notes.ChangeAnswer{yes("180", 1), yes("180", 1)}, 1},
		"a part, then a row of it":        {[]notes.ChangeAnswer{yes("20"), yes("180", 1)}, 1},
		"two parts that are too much":     {[]notes.ChangeAnswer{yes("100"), yes("30.01")}, 1},
		"taken back and said again":       {[]notes.ChangeAnswer{yes("180", 1), back("-180"), yes("180", 1)}, 0},
		"half of it taken back":           {[]notes.ChangeAnswer{yes("130"), back("-60")}, 1},
	} {
		t.Run(name, func(t *testing.T) {
			files := []*finding.File{file(ChangeName("co-1"), Change(&c))}
			for i, a := range tt.answers {
				a.Number, a.Answer = "co-1", i+1
				files = append(files, file(AnswerName("co-1", i+1), Answer(&a)))
			}
			set, found := Read(files, nil)
			require.Len(t, set.Broken, tt.broken, "%v", found)
			require.Len(t, found, tt.broken, "%v", found)
		})
	}
}

func TestNumbersHaveNoGaps(t *testing.T) {
	one, three := notes.Invoice{Number: "7-1", Kind: notes.InvoiceBill}, notes.Invoice{Number: "7-3", Kind: notes.InvoiceBill}
	_, found := Read([]*finding.File{file(InvoiceName("7-3"), Invoice(&three))}, nil)
	require.Len(t, found, 1)
	require.Contains(t, found[0].Message, "7-1 to 7-2")
	_, found = Read([]*finding.File{file(InvoiceName("7-3"), Invoice(&three)), file(InvoiceName("7-1"), Invoice(&one))}, nil)
	require.Len(t, found, 1)
	require.Equal(t, "record/gap", found[0].Rule)
	require.Contains(t, found[0].Message, "7-2")
}

// The totals of the two worked samples of EN 16931.
// Source: the official sample invoices of CEN/TC 434 for UBL, sample A (lines 4000.00) and
// sample B (lines 1436.50).
func TestTotalsOfTheWorkedSamples(t *testing.T) {
	m := notes.MustMoney
	for name, tt := range map[string]struct {
		lines         []string
		taxes         []string
		off, on, paid string
		tax, all, due string
	}{
		"A": {[]string{"4000.00"}, []string{"375.00", "300.00"}, "150", "150", "2337.50", "675.00", "4675.00", "2337.50"},
		"B": {[]string{"1273.00", "-3.96", "4.96", "-25.00", "187.50"}, []string{"365.13", "0.15", "0.00"}, "100", "100", "1000.00", "365.28", "1801.78", "801.78"},
	} {
		v := &notes.Invoice{
			Allowances: []notes.Adjustment{{Amount: m(tt.off)}}, Charges: []notes.Adjustment{{Amount: m(tt.on)}},
			Totals: notes.InvoiceTotals{Paid: m(tt.paid)},
		}
		for _, l := range tt.lines {
			v.Lines = append(v.Lines, notes.BilledLine{Amount: m(l)})
		}
		for _, x := range tt.taxes {
			v.Tax = append(v.Tax, notes.TaxAmount{Amount: m(x)})
		}
		got := Totals(v)
		require.Equal(t, []string{tt.tax, tt.all, tt.due}, []string{got.Tax.String(), got.WithTax.String(), got.Due.String()}, name)
	}
}

// FuzzRead looks for a text that makes the reader panic, or a whole record that it writes another way.
func FuzzRead(f *testing.F) {
	one := notes.Invoice{Number: "7-1", Kind: notes.InvoiceBill, Lines: []notes.BilledLine{{No: 1, Ref: "A"}}}
	f.Add("invoices/7-1.md", Invoice(&one))
	f.Add("changes/co-1.md", Change(&notes.ChangeOrder{Number: "co-1", Items: []notes.ChangeItem{{Extra: "x"}}}))
	f.Add("changes/co-1-answer-1.md", Answer(&notes.ChangeAnswer{Number: "co-1", Answer: 1, Kind: notes.AnswerDeclined}))
	f.Add("changes/co-1.md", []byte("---\nrecord: change order\n---\n## Items\n|"))
	f.Fuzz(func(t *testing.T, name string, text []byte) {
		set, found := Read([]*finding.File{file(name, text)}, nil)
		for _, v := range set.Invoices {
			if again, more := Read([]*finding.File{file(InvoiceName(v.Number), Invoice(&v))}, nil); len(again.Invoices) != 1 && len(found) == 0 {
				t.Fatal(more)
			}
		}
	})
}
