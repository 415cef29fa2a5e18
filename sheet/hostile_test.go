package sheet_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/sheet"
)

// hostile are words as a note may hold them.
var hostile = []string{
	"", " ", "plain", strings.Repeat("x", 400), strings.Repeat("word ", 300),
	`<script>alert(1)</script> & "quotes" <b>`, "| pipe | `code` *stars* [link](javascript:alert(1))", "# head", "1. one", "- item",
	"\x1b[31mred\x00\u202eturned", "bro\xffken", "שלום (עולם) 123 abc", "مرحبا بالعالم 45", "tick ✓ cross ✗ bolt ⚡ 😀👩‍🔧 日本語 e\u0301", "line\nbreak\ttab\u2028x",
}

// everything is a sheet with one word in every place a word may stand.
func everything(w string) sheet.Sheet {
	t := sheet.Join(" ", sheet.Words(w), sheet.Strong(w), sheet.Aside(w), sheet.Quote(w), sheet.Link(w, "javascript:alert(1)"), sheet.Link(w, "#"+w), sheet.Label(w, sheet.Stop))
	v := sheet.Value{Amount: notes.MustDecimal("12.5"), Text: w}
	table := sheet.Table{Caption: w, Columns: []sheet.Column{{Title: w}, {Title: w, Align: sheet.Right}, {Title: w, Align: sheet.Center}}, Rows: []sheet.Row{
		{Kind: sheet.Group, Cells: []sheet.Cell{{Text: t}}},
		{ID: w, Cells: []sheet.Cell{{Text: t}, {Text: t}, {Text: t, Bar: &sheet.Bar{Before: 500, Now: -3, Over: 900}}}, Working: &sheet.Working{Label: w, Lines: []sheet.Text{t, nil}}},
		{}, sheet.Sum(sheet.Subtotal, w, w), sheet.Sum(sheet.Total, w, w)}}
	series, groups := []sheet.Series{{Name: w, Tone: sheet.Go}, {Name: w}}, []sheet.ChartGroup{{Label: w, Href: w, Values: []sheet.Value{v, v, v}}, {Label: w, Values: []sheet.Value{{Amount: notes.MustDecimal("-3"), Text: w}}}, {}}
	return sheet.Sheet{Kind: w, Number: w, Title: w, Edition: w, Lang: w, Letterhead: sheet.Letterhead{Name: w, Address: []string{w, w}, Contact: w, TaxNumbers: []string{w}},
		To: sheet.Addressee{Name: w, Address: []string{w}, Site: w}, Facts: []sheet.Fact{{Label: w, Value: t}}, Foot: []string{w}, Mark: sheet.Mark{Word: w, Strike: true}, Ref: w, Author: w,
		Blocks: []sheet.Block{
			sheet.Heading{Text: t, Right: w, ID: w}, sheet.Heading{Text: t, Right: w, Sub: true}, sheet.Para{Text: t}, sheet.Para{},
			sheet.List{Items: []sheet.Text{t, nil}}, sheet.List{Ordered: true, Items: []sheet.Text{t}}, sheet.Facts{Rows: []sheet.Fact{{Label: w, Value: t}, {}}}, table, sheet.Table{},
			sheet.Figures{Cells: []sheet.Figure{{Label: w, Href: "#" + w, Big: w, Small: w, None: w, Items: []sheet.Item{{Text: t, Right: t, Below: t}, {}}}, {}}}, sheet.Figures{},
			sheet.Notice{Tone: sheet.Tone(w), Word: w, Title: w, Text: []sheet.Text{t, nil}}, sheet.Notice{}, sheet.Choice{Label: w, Options: []sheet.Option{{Text: w}, {Text: w, Chosen: true}}}, sheet.Choice{},
			sheet.Picture{Bytes: []byte("no picture"), Alt: w, Caption: t}, sheet.Pictures{List: []sheet.Picture{{Alt: w, Missing: w}, {Bytes: drawing(3, 900), Alt: w}}}, sheet.Pictures{},
			sheet.Chart{Kind: sheet.Bars, Title: w, Desc: w, Unit: w, Series: series[:1], Groups: groups}, sheet.Chart{Kind: sheet.Stacked, Title: w, Series: series, Groups: groups},
			sheet.Chart{Kind: sheet.Trend, Title: w, Series: series, Groups: groups}, sheet.Chart{Kind: sheet.Flowing, Title: w, Flows: []sheet.Flow{{From: w, To: "b", Value: v}, {From: "b", To: w, Value: v}, {From: w, To: w, Value: v}, {}}}, sheet.Chart{},
			sheet.Lines{Name: w, ID: w, Rows: []sheet.Line{{N: 1, ID: w, Text: w, Fate: w}, {}}}, sheet.Keep{}, sheet.Keep{Blocks: []sheet.Block{sheet.Para{Text: t}}}, sheet.PageBreak{}, sheet.PageBreak{},
			sheet.Signature{Title: w, Statement: t, Parties: []sheet.Party{{Role: w, Name: w, Date: w, How: w}, {}, {}}}, sheet.Signature{}, nil,
		}}
}

// written writes a sheet in every form and checks that a second time gives the same bytes.
func written(t *testing.T, s sheet.Sheet) (html, md, text string, pdf []byte) {
	t.Helper()
	var forms [4][]byte
	for range 2 {
		for i, write := range []func(*bytes.Buffer) error{
			func(b *bytes.Buffer) error { return sheet.HTML(b, s, s) }, func(b *bytes.Buffer) error { return sheet.Markdown(b, s) },
			func(b *bytes.Buffer) error { return sheet.TextTo(b, sheet.TextOptions{Width: 60}, s, s) }, func(b *bytes.Buffer) error { return sheet.PDF(b, s, s) },
		} {
			var b bytes.Buffer
			require.NoError(t, write(&b))
			if forms[i] != nil {
				require.Equal(t, forms[i], b.Bytes(), "the same bytes")
			}
			forms[i] = b.Bytes()
		}
	}
	return string(forms[0]), string(forms[1]), string(forms[2]), forms[3]
}

func TestHostileWordsAreShownAndDoNothing(t *testing.T) {
	for i, w := range hostile {
		s := everything(w)
		s.Paper = sheet.Papers[i%len(sheet.Papers)]
		html, md, text, _ := written(t, s)
		assert.NotContains(t, html, "<script", "%q", w)
		assert.NotContains(t, html, `href="javascript:`, "%q", w)
		assert.NotContains(t, html+md+text, "\x1b", "%q", w)
		for _, line := range strings.Split(text, "\n") {
			assert.LessOrEqual(t, len([]rune(line)), 62, "%q", line)
		}
	}
}
