package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/notes"
)

// TestNothingIsLostAndWhatBelongsTogetherStays places slips of any height and looks that each stands
// on one page, in its order, within the page, and beside what it keeps to where that is possible.
func TestNothingIsLostAndWhatBelongsTogetherStays(t *testing.T) {
	const high = 100
	rapid.Check(t, func(t *rapid.T) {
		list := make([]slip, rapid.IntRange(1, 60).Draw(t, "slips"))
		head := &slip{h: 5}
		for i := range list {
			list[i] = slip{h: rapid.Float64Range(0, 40).Draw(t, "h"), gap: rapid.Float64Range(0, 10).Draw(t, "gap"), keep: rapid.Bool().Draw(t, "keep"), turn: rapid.IntRange(0, 20).Draw(t, "turn") == 0}
			if rapid.Bool().Draw(t, "row") {
				list[i].head = head
			}
		}
		on, next := make([]int, len(list)), 0
		for n, page := range place(list, high) {
			y := 0.0
			for i, p := range page {
				require.GreaterOrEqual(t, p.y+1e-9, y, "slips do not overlap")
				y = p.y + p.h
				if p.slip == head {
					require.Zero(t, i, "a head stands at the top")
					continue
				}
				require.Same(t, &list[next], p.slip, "in order, none lost")
				require.False(t, p.turn && i > 0 && page[i-1].slip != head, "a new page begins with what asks for it")
				on[next] = n
				next++
			}
			require.LessOrEqual(t, y, float64(high)+1e-9, "nothing stands below the page")
		}
		require.Equal(t, len(list), next)
		for from := 0; from < len(list); {
			to, need := from, 5+list[from].gap+list[from].h
			for list[to].keep && to+1 < len(list) && !list[to+1].turn {
				to++
				need += list[to].gap + list[to].h
			}
			if need <= high {
				require.Equal(t, on[from], on[to], "what keeps together is on one page")
			}
			from = to + 1
		}
	})
}

// pagesOf lays a sheet out.
func pagesOf(t *testing.T, s Sheet) [][]placed {
	t.Helper()
	p, err := newPen(&s)
	require.NoError(t, err)
	return p.lay(&s)
}

// TestLongTablesRepeatTheirHeadAndKeepTheirSum sets a table of any length up to 200 rows on each
// paper, with a place to sign below it.
func TestLongTablesRepeatTheirHeadAndKeepTheirSum(t *testing.T) {
	for _, paper := range Papers {
		for rows := 1; rows <= 200; rows += 7 {
			table := Table{Columns: []Column{{Title: "Work"}, {Title: "Qty", Align: Right}, {Title: "Amount", Align: Right}}}
			for range rows {
				table.Rows = append(table.Rows, Cells("a circuit", "1 ea", "10.00"))
			}
			table.Rows = append(table.Rows, Sum(Subtotal, "Subtotal", "10.00"), Sum(Total, "Total", "10.00"))
			s := Sheet{Kind: "Invoice", Paper: paper, Date: notes.MustDate("2026-03-12"), Foot: []string{"By the way."},
				Blocks: []Block{table, Signature{Title: "Received", Statement: Words("It was handed over."), Parties: []Party{{Role: "A"}, {Role: "B"}}}}}
			pages := pagesOf(t, s)
			for _, page := range pages[1:] {
				assert.True(t, page[0].keep || page[0].head != nil, "%s, %d rows: a page begins with the head of the table or with the sum", paper, rows)
			}
			last := pages[len(pages)-1]
			height := 0.0
			for _, p := range last {
				height += p.h
			}
			assert.Greater(t, len(last), 6, "%s, %d rows: the sum, the place to sign and the foot stand together, with a row of the table above", paper, rows)
			assert.NotNil(t, rowOn(last), "%s, %d rows: a row stands above the sum", paper, rows)
		}
	}
}

// rowOn is the first row of a table on a page.
func rowOn(page []placed) *slip {
	for _, p := range page {
		if p.head != nil {
			return p.slip
		}
	}
	return nil
}

func TestWordsKeepToTheirLine(t *testing.T) {
	s := Sheet{}
	p, err := newPen(&s)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.OneOf(rapid.String(), rapid.StringOf(rapid.RuneFrom([]rune("אבجد ab12.,()[]%$-+:/\u0300\u0661\u2029\u202b\u2067\U0001F600")))).Draw(t, "words")
		w := rapid.Float64Range(60, 500).Draw(t, "width")
		var said strings.Builder
		for _, l := range p.lines(Words(words), w, style{size: 9}) {
			require.LessOrEqual(t, l.w, w+0.1)
			require.Len(t, l.visual(), len(l.ink), "no character is lost when writing turns")
			for _, c := range l.ink {
				if c.r != ' ' && c.r != hardBlank {
					said.WriteRune(c.r)
				}
				require.True(t, p.has(c.r, face{}) || p.has(c.r, face{wide: true}), "%U would be an empty box", c.r)
			}
		}
		require.Equal(t, strings.NewReplacer(" ", "", string(hardBlank), "").Replace(p.printable(words)), said.String(), "no word is lost")
	})
}

// TestArabicLettersJoin takes the shapes of the Unicode Character Database: beh alone, at the
// beginning, between and at the end (U+FE8F, FE91, FE92, FE90); alef never joins what follows.
func TestArabicLettersJoin(t *testing.T) {
	assert.Equal(t, "\ufe8f", shaped("\u0628"))
	assert.Equal(t, "\ufe91\ufe92\ufe90", shaped("\u0628\u0628\u0628"))
	assert.Equal(t, "\ufe8d\ufe8f", shaped("\u0627\u0628"))
	assert.Equal(t, "abc ✓", shaped("abc ✓"))
}

// The forms are those the Unicode Bidirectional Algorithm (UAX 9) gives, worked out by hand.
func TestWritingFromRightToLeftIsTurned(t *testing.T) {
	s := Sheet{}
	p, err := newPen(&s)
	require.NoError(t, err)
	for words, want := range map[string]string{
		"שלום (עולם) 12":     "12 (םלוע) םולש",
		"job שלום 12 עולם x": "job םלוע 12 םולש x",
		"שלום abc עולם":      "םלוע abc םולש",
		"plain (12)":         "plain (12)",
	} {
		var seen strings.Builder
		for _, c := range p.lines(Words(words), 500, style{size: 9})[0].visual() {
			seen.WriteRune(c.r)
		}
		assert.Equal(t, want, seen.String())
	}
}

// TestFiguresStayOnTheirLine sets sums in tables of two and more columns: bold letters and blanks
// between thousands need their room.
func TestFiguresStayOnTheirLine(t *testing.T) {
	for _, sum := range []string{"5\u00a0865,00", "12,345,678.90", "0.00"} {
		for _, table := range []Table{
			{Columns: []Column{{Title: "What", Width: 9}, {Title: "USD", Align: Right}}, Rows: []Row{Sum(Total, "to pay", sum)}},
			{Columns: []Column{{Title: "What"}, {Title: "Qty", Align: Right}, {Title: "USD", Align: Right}}, Rows: []Row{Cells("a", "1", "1"), Sum(Total, "to pay", sum)}},
		} {
			s := Sheet{Paper: A5}
			p, err := newPen(&s)
			require.NoError(t, err)
			d := layout{pen: p, sheet: &s, width: p.w - 2*p.margin, k: p.k}
			widths := d.columns(&table, d.body())
			r := table.Rows[len(table.Rows)-1]
			cells, spans := table.spread(r)
			set := d.setCells(&table, cells, spans, widths, total(d.body()))
			assert.Len(t, set[len(set)-1].lines, 1, sum)
		}
	}
	assert.Equal(t, []string{"due", "5\u00a0865,00"}, Wrap("due 5\u00a0865,00", 9))
}
