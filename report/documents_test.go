package report_test

import (
	"bytes"
	"errors"
	"fmt"
	"image/png"
	"io"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/hours"
	"jobday/notes"
	"jobday/report"
	"jobday/restock"
	"jobday/review"
	"jobday/sheet"
)

// A shop is a compiled book with the last day of its last job as reports see it.
type shop struct {
	*compile.Result
	job    *compile.JobResult
	last   report.Input
	photos report.Pictures
}

// shopOf compiles a book of files by name.
func shopOf(t *testing.T, photos report.Pictures, files ...*finding.File) shop {
	t.Helper()
	r := compile.Book(files, compile.Options{})
	require.NotEmpty(t, r.Jobs)
	s := shop{Result: r, job: &r.Jobs[len(r.Jobs)-1], photos: photos}
	require.NotEmpty(t, s.job.Days)
	s.last = report.Input{Day: s.job.Days[len(s.job.Days)-1], Job: s.job.Job, Company: r.Company, Photos: photos}
	return s
}

// documents is one of each kind of document of a shop that is laid out as a sheet.
func (s shop) documents(t *testing.T) map[string]sheet.Sheet {
	t.Helper()
	office, err := report.DaySheet(s.last)
	require.NoError(t, err)
	customer, err := report.Customer(s.last)
	require.NoError(t, err)
	notice, err := report.NewNotice(s.Company, report.FaultJob{Job: s.job.Job, Days: s.job.Days, Photos: s.photos}, s.last.Day.Date)
	require.NoError(t, err)
	since, until := s.job.Days[0].Date, s.last.Day.Date
	over := review.Input{Since: since, Until: until}
	stock := restock.Input{Company: s.Company, Prices: s.Prices, Since: since, Until: until}
	for _, j := range s.Jobs {
		over.Jobs = append(over.Jobs, review.Job{Job: j.Job, Days: j.Days})
		stock.Jobs = append(stock.Jobs, restock.Job{Job: j.Job, Days: j.Days})
	}
	change, invoice := s.records()
	return map[string]sheet.Sheet{
		"office": office, "customer": customer, "notice": notice.Sheet(),
		"review":  report.Review(report.ReviewInput{Review: review.Of(over), Company: s.Company}),
		"hours":   report.HoursSheet(hours.Sheet(hours.Input{Company: s.Company, Jobs: s.Worked(), Since: since, Until: until}), s.Company),
		"restock": report.RestockSheet(restock.Make(stock), s.Company),
		"change":  report.ChangeOrderSheet(change, s.Company), "invoice": report.InvoiceSheet(invoice, false, s.Company),
	}
}

// records is a change order and an invoice with the words of the shop in them.
func (s shop) records() (*notes.ChangeOrder, *notes.Invoice) {
	m := notes.MustMoney
	words := s.job.Job.Customer
	c := &notes.ChangeOrder{
		Number: "co-1", Job: s.job.Job.Number, Company: s.Company.Name, Customer: words, Site: s.job.Job.Site, Currency: "USD",
		Offered: s.last.Day.Date, By: words, Reason: words, Effect: words, Excluded: []string{words}, Subtotal: m("1039.90"), Total: m("1039.90"),
		Items: []notes.ChangeItem{{Extra: "x", Work: words, Amount: m("1039.90"), Rows: []notes.ChangeRow{
			{Row: 1, What: words, Qty: notes.Int(26), Unit: "ea", Rate: notes.MustDecimal("39.996"), Amount: m("1039.90")},
		}}},
	}
	i := &notes.Invoice{
		Number: "7-1", Kind: notes.InvoiceBill, Job: s.job.Job.Number, Buyer: notes.Party{Name: words}, Currency: "USD", Date: s.last.Day.Date, Title: words, Terms: words,
		Lines:  []notes.BilledLine{{No: 1, Ref: "A", What: words, Qty: notes.Int(2), Unit: "ea", Rate: notes.Int(50), Amount: m("100"), Why: words}},
		Totals: notes.InvoiceTotals{Lines: m("100"), WithoutTax: m("100"), WithTax: m("100"), Due: m("100")},
	}
	return c, i
}

// Words a note may hold, from anybody's keyboard.
var rough = map[string]string{
	"markup":        `<script>alert(1)</script><img src=x onerror=alert(2)> & **stars** | [x](javascript:alert(3)) {{.Title}}`,
	"right to left": "שלום (עולם) 12 מפסק, مرحبا بالعالم 45",
	"emoji":         "⚡ panel 😀👩‍🔧 done ✓ 日本語",
	"one word":      strings.Repeat("x", 400),
	"steering":      "red\x1b[31m turned\u202eback",
}

// roughShop is a shop in whose every place such words stand: 200 booked lines, a note with photographs
// of all kinds, and, when it is empty, a last day with nothing in it.
func roughShop(t *testing.T, words string, empty bool) shop {
	t.Helper()
	files := roughFiles(words)
	if empty {
		files = append(files, finding.NewFile("jobs/7-rough/2026-03-03.md", nil))
	}
	return shopOf(t, roughPhotos(t), files...)
}

func roughFiles(words string) []*finding.File {
	var scope strings.Builder
	quoted := strings.ReplaceAll(strings.Map(func(r rune) rune {
		if r < ' ' || r == '\u202e' {
			return -1
		}
		return r
	}, words), "'", "''")
	fmt.Fprintf(&scope, "---\njob: 7\ntitle: '%s'\ncustomer: '%s'\nsite: '%s'\nbooked: 2026-03-01\n---\n\n## Scope\n\n| Line | Work | Qty | Unit | Price | Hours |\n|---|---|---|---|---|---|\n", quoted, quoted, quoted)
	for n := range 200 {
		fmt.Fprintf(&scope, "| %d | receptacles in room %d %s | 4 | ea | 25.00 each | 1 |\n", n+1, n+1, strings.ReplaceAll(quoted, "|", `\|`))
	}
	note := "---\ncrew: [Ada]\n---\n\n" + words + "\n\n## Done\n- 7: 2 of 4 receptacles, " + words + "\n\n## Extras\n- added a disconnect " + words + ", 1 h\n\n## Materials\n- 3 " + words +
		"\n\n## Deficiencies\n- panel has no cover, live parts " + words + "\n  - ![good](photos/good.png)\n  - ![lost](photos/lost.jpg)\n  - ![page](photos/page.jpg)\n  - ![torn](photos/torn.png)\n  - ![vast](photos/vast.jpg)\n\n## Time\n- Ada 7-15\n\n## Questions\n- " + words + "?\n"
	return []*finding.File{
		finding.NewFile("company.yaml", []byte("name: '"+quoted+"'\npeople: {Ada: journeyman}\nclasses: {journeyman: {cost: 40.00, rate: 90.00}}\n")),
		finding.NewFile("prices.csv", []byte("code,item,unit,cost,price\nX,cable,ft,1.00,2.00\n")),
		finding.NewFile("jobs/7-rough/scope.md", []byte(scope.String())),
		finding.NewFile("jobs/7-rough/2026-03-02.md", []byte(note)),
	}
}

// roughPhotos reads one picture that is well and others that are not: not there, a page under a
// picture's name, broken off, with more pixels than there is memory.
func roughPhotos(t *testing.T) report.Pictures {
	t.Helper()
	var good bytes.Buffer
	require.NoError(t, png.Encode(&good, scene(60, 40)))
	vast := append([]byte(nil), good.Bytes()...)
	copy(vast[16:24], []byte{0, 1, 0, 0, 0, 1, 0, 0}) // 65536 by 65536; the check value is wrong as well
	return func(name string) ([]byte, error) {
		switch path.Base(name) {
		case "good.png":
			return good.Bytes(), nil
		case "page.jpg":
			return []byte("<html><script>alert(1)</script></html>"), nil
		case "torn.png":
			return good.Bytes()[:good.Len()/2], nil
		case "vast.jpg":
			return vast, nil
		}
		return nil, errors.New("no such file")
	}
}

// asWritten is a line of a note in a letter, which stands in a block of code with its number.
var asWritten = regexp.MustCompile(`(?m)^ {4} *\d+  .*$`)

// TestRoughInputGivesCleanPages writes every document of rough days as page, letter, summary and
// paper: nothing runs, nothing steers a terminal, no picture but the good one is drawn, and each that
// is not says so.
func TestRoughInputGivesCleanPages(t *testing.T) {
	for name, words := range rough {
		t.Run(name, func(t *testing.T) {
			s := roughShop(t, words, false)
			pages := map[string][]byte{"report": render(t, report.HTML, s.last), "report md": render(t, report.Markdown, s.last)}
			var drawn []string
			for kind, doc := range s.documents(t) {
				for form, write := range map[string]func(io.Writer, sheet.Sheet, ...sheet.Sheet) error{"html": sheet.HTML, "md": sheet.Markdown, "pdf": sheet.PDF} {
					var b bytes.Buffer
					require.NoError(t, write(&b, doc), kind)
					if form == "pdf" {
						assert.True(t, bytes.HasPrefix(b.Bytes(), []byte("%PDF-")) && bytes.HasSuffix(bytes.TrimSpace(b.Bytes()), []byte("%%EOF")), kind)
						continue
					}
					pages[kind+" "+form] = b.Bytes()
					if n := strings.Count(b.String(), "<img"); form == "html" && n > 0 {
						drawn = append(drawn, kind)
						assert.Equal(t, 1, n, "%s: only the good picture", kind)
						assert.Equal(t, 4, strings.Count(b.String(), `class="gone"`), kind)
					}
				}
			}
			assert.ElementsMatch(t, []string{"office", "customer", "notice"}, drawn)
			for kind, page := range pages {
				live := asWritten.ReplaceAll(page, nil)
				assert.False(t, regexp.MustCompile(`(^|[^\\])<(script|img src=x)`).Match(live), "%s: markup of a note", kind)
				assert.False(t, bytes.ContainsAny(page, "\x1b\u202e"), "%s: a character that steers", kind)
				assert.False(t, bytes.Contains(page, []byte(`href="javascript:`)), kind)
			}
		})
	}
}

// TestADayWithNothingInItGivesCleanPages writes every document of a day whose note is empty.
func TestADayWithNothingInItGivesCleanPages(t *testing.T) {
	s := roughShop(t, "plain", true)
	require.Empty(t, s.last.Day.Entries)
	assert.Contains(t, string(render(t, report.HTML, s.last)), "Nothing to bill from this day.")
	for kind, doc := range s.documents(t) {
		for _, write := range []func(io.Writer, sheet.Sheet, ...sheet.Sheet) error{sheet.HTML, sheet.Markdown, sheet.PDF} {
			var b bytes.Buffer
			require.NoError(t, write(&b, doc), kind)
			assert.NotEmpty(t, b.Bytes(), kind)
		}
	}
}
