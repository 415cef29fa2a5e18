package report_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"

	"jobday/notes"
	"jobday/report"
)

// readCSV reads by the letter of RFC 4180: CRLF after every record, the same number of fields in
// each, no quote where none may stand.
func readCSV(t *testing.T, page []byte) []map[string]string {
	t.Helper()
	require.True(t, bytes.HasSuffix(page, []byte("\r\n")))
	assert.Equal(t, bytes.Count(page, []byte("\r\n")), bytes.Count(page, []byte("\n")), "a bare line feed")
	r := csv.NewReader(bytes.NewReader(page))
	records, err := r.ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, rec := range records[1:] {
		row := map[string]string{}
		for i, name := range records[0] {
			row[name] = rec[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func TestInvoiceCSVAddsUp(t *testing.T) {
	in := fullDay(t)
	var page bytes.Buffer
	require.NoError(t, report.InvoiceCSV(&page, []report.Input{in, emptyDay(t)}))
	var sum notes.Money
	for _, row := range readCSV(t, page.Bytes()) {
		amount, err := notes.ParseMoney(row["amount"])
		require.NoError(t, err)
		sum = sum.Add(amount)
		assert.Contains(t, []string{"line", "tax"}, row["kind"])
		assert.Equal(t, "2431", row["job"])
	}
	assert.Equal(t, in.Day.Money.Ready.Total.String(), sum.String())
}

// TestInvoiceCSVHoldsNoFormula: OWASP ASVS 5.0, requirement 1.2.10, and the OWASP page on CSV
// injection: a leading = + - @ or tab is disarmed by a single quote; a number stays a number.
func TestInvoiceCSVHoldsNoFormula(t *testing.T) {
	rows := readCSV(t, render(t, writers["csv"], hostileDay(t)))
	want := map[string]string{
		`=HYPERLINK("http://x.example","a, b")`: `'=HYPERLINK("http://x.example","a, b")`,
		"-12V lead":                             "'-12V lead", "+1": "'+1", "@sum": "'@sum", "\ttab first": "'\ttab first",
		`say "when", then`: `say "when", then`,
	}
	seen := 0
	for i, row := range rows {
		if w, ok := want[hostile[i]]; ok {
			seen++
			assert.Equal(t, w, row["what"])
		}
		assert.Equal(t, "-12.50", row["amount"])
		assert.Equal(t, "-12.5", row["rate"])
	}
	assert.Equal(t, len(want), seen)
}

// TestJSONKeys holds the output to the keys that were agreed, in order.
func TestJSONKeys(t *testing.T) {
	keys := map[string]string{
		"":             "jobday company job date crew number final notes scope entries extras deficiencies tests circuits materials labor left questions narrative deliveries equipment delays instructions safety conditions subcontractors money findings",
		"notes":        "file sha256 lines accounted",
		"scope":        "line work booked today to_date left over state blocked_by hours price ready from",
		"entries":      "id section text source outcome lines reading confidence candidates why details photos",
		"extras":       "id work outcome minutes materials authorization pricing amount state number from",
		"deficiencies": "kind title where hazard severity rules state caution follow_up from",
		"tests":        "what readings limit rule verdict why from",
		"circuits":     "panel spaces serves breaker conductor shared_neutral_with findings from",
		"materials":    "qty item code line allowed over cost price from",
		"labor":        "name class spans minutes on cost from",
		"findings":     "severity rule message hint source",
	}
	var days []map[string]json.RawMessage
	page := render(t, writers["json"], fullDay(t))
	require.NoError(t, json.Unmarshal(page, &days))
	for part, want := range keys {
		object := page[bytes.IndexByte(page, '{'):]
		if part != "" {
			object = days[0][part][bytes.IndexByte(days[0][part], '{'):]
		}
		assert.Equal(t, strings.Fields(want), objectKeys(t, object), part)
	}
	for _, fixture := range fixtures {
		assert.NotRegexp(t, `: null`, withoutReadings(t, render(t, writers["json"], fixture(t))))
	}
}

// withoutReadings drops the readings, the only part where null has a meaning.
func withoutReadings(t *testing.T, page []byte) string {
	t.Helper()
	reading := regexp.MustCompile(`(?s)"reading": \{.*?"confidence"`)
	return reading.ReplaceAllString(string(page), `"confidence"`)
}

// objectKeys lists the keys of the JSON object that text begins with.
func objectKeys(t *testing.T, text []byte) []string {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(text))
	_, err := d.Token()
	require.NoError(t, err)
	var keys []string
	for d.More() {
		key, err := d.Token()
		require.NoError(t, err)
		keys = append(keys, key.(string))
		var value json.RawMessage
		require.NoError(t, d.Decode(&value))
	}
	return keys
}

// TestMarkdownShowsTextAsWritten reads the letter with a CommonMark parser we did not write.
func TestMarkdownShowsTextAsWritten(t *testing.T) {
	page := render(t, report.Markdown, hostileDay(t))
	md := goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList))
	doc := md.Parser().Parse(text.NewReader(page))
	var plain strings.Builder
	require.NoError(t, ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Link, *ast.Image, *ast.AutoLink, *ast.RawHTML, *ast.HTMLBlock, *ast.CodeSpan, *ast.FencedCodeBlock,
			*ast.Blockquote:
			t.Errorf("%s from the words of a note", n.Kind())
		case *ast.Emphasis:
			assert.Equal(t, 2, n.Level, "only the letter's own bold")
		case *ast.Heading, *ast.ThematicBreak:
			assert.Equal(t, doc, n.Parent(), "%s inside an item", n.Kind())
		case *ast.List:
			depth := 0
			for p := n.Parent(); p != nil; p = p.Parent() {
				depth++
			}
			assert.LessOrEqual(t, depth, 3, "a list below the letter's own")
		case *ast.Text:
			plain.Write(n.Segment.Value(page))
			plain.WriteByte('\n')
		case *ast.String:
			plain.Write(n.Value)
		}
		return ast.WalkContinue, nil
	}))
	assert.Contains(t, strings.ReplaceAll(plain.String(), "\n", ""), `alert(1)`)
	var html bytes.Buffer
	require.NoError(t, md.Convert(page, &html))
	assert.Contains(t, html.String(), "T&amp;M, file_name, ~45 ft")
	assert.Contains(t, html.String(), `](javascript:alert(1)) **bold** _it_ `+"`code`"+` &lt;b&gt;x&lt;/b&gt; | a | &amp;copy; [l](http://x.example)`)
}

func TestTextFitsTheTerminal(t *testing.T) {
	measure := &runewidth.Condition{StrictEmojiNeutral: true}
	for _, width := range []int{40, 80, 120} {
		for name, fixture := range fixtures {
			page := render(t, func(w io.Writer, in report.Input) error {
				return report.Text(w, in, report.TextOptions{Width: width})
			}, fixture(t))
			for _, line := range strings.Split(string(page), "\n") {
				assert.LessOrEqual(t, measure.StringWidth(line), width, "%s: %q", name, line)
				assert.False(t, strings.ContainsAny(line, "\x1b\u202e\u009b"), "%s: %q", name, line)
			}
		}
	}
}

func TestTextColourSaysNothingWordsDoNot(t *testing.T) {
	for _, fixture := range fixtures {
		colored := render(t, func(w io.Writer, in report.Input) error {
			return report.Text(w, in, report.TextOptions{Color: true})
		}, fixture(t))
		bare := regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAll(colored, nil)
		assert.Equal(t, string(render(t, writers["txt"], fixture(t))), string(bare))
		assert.True(t, slices.Contains(colored, '\x1b'))
	}
}

func TestProgress(t *testing.T) {
	line := func(booked, toDate, today, left, over string) notes.LineStanding {
		return notes.LineStanding{
			Booked: notes.BookedQty{Qty: dec(booked), Unit: notes.Each}, ToDate: dec(toDate), Today: dec(today), Left: dec(left), Over: dec(over),
		}
	}
	// a character is drawn as what its middle falls on
	for _, c := range []struct {
		line notes.LineStanding
		text string
		alt  string
	}{
		{line("4", "0", "0", "4", "0"), "..........", "0 of 4 ea to date, 4 left"},
		{line("4", "3", "1", "1", "0"), "=====##...", "3 of 4 ea to date, 1 today, 1 left"},
		{line("4", "4", "4", "0", "0"), "##########", "4 of 4 ea to date, 4 today"},
		{line("3", "4", "1", "0", "1"), "=======!!!", "4 of 3 ea to date, 1 today, 1 over"},
		{line("0", "0", "0", "0", "0"), "..........", "0 of 0 ea to date"},
		{line("0", "2", "2", "0", "2"), "!!!!!!!!!!", "2 of 0 ea to date, 2 today, 2 over"},
		{line("1", "1", "3", "0", "0"), "##########", "1 of 1 ea to date, 3 today"}, // today may not draw past the end
		{line("99999999999999999999", "0", "0", "99999999999999999999", "0"), "..........", "0 of 99,999,999,999,999,999,999 ea to date, 99,999,999,999,999,999,999 left"},
	} {
		bar := report.Progress(c.line)
		assert.Equal(t, c.text, bar.Text(10))
		assert.Equal(t, c.alt, bar.Alt)
	}
}
