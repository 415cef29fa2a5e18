package field

import (
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/trade"
)

// A sample is a line of a reading table: what people jot and what it says.
type sample struct{ text, want string }

func samples(t testing.TB, file string) []sample {
	b, err := os.ReadFile(file)
	require.NoError(t, err)
	var out []sample
	for line := range strings.Lines(string(b)) {
		line = strings.TrimRight(line, "\n")
		if line == "" || strings.HasPrefix(line, "# ") || line == "#" {
			continue
		}
		text, want, ok := strings.Cut(line, " => ")
		require.True(t, ok, line)
		out = append(out, sample{text, want})
	}
	return out
}

// written writes items as the tables do.
func written(items []notes.Item) string {
	if len(items) == 0 {
		return "-"
	}
	var parts []string
	for _, it := range items {
		q := "?"
		if it.Qty.Written() {
			q = it.Qty.String()
		}
		if it.About && it.Qty.Written() {
			q = "~" + q
		}
		for _, o := range it.Other {
			if o.Written() {
				q += " / " + o.String()
			} else {
				q += " / 0"
			}
		}
		parts = append(parts, strings.TrimSpace(q+" | "+it.Name))
	}
	return strings.Join(parts, " ; ")
}

// score reads every sample and counts exact, wrong and unclear ones.
func score(t *testing.T, file string) (exact, all int) {
	var wrong, unclear int
	for _, s := range samples(t, file) {
		all++
		items := Read(s.text, nil).Items
		got := written(items)
		switch {
		case got == s.want:
			exact++
		case strings.Contains(got, "/ "):
			unclear++
			t.Logf("unclear: %-44s got  %s\n%64s want %s", s.text, got, "", s.want)
		default:
			wrong++
			t.Logf("wrong:   %-44s got  %s\n%64s want %s", s.text, got, "", s.want)
		}
	}
	t.Logf("%s: %d exact, %d wrong, %d unclear of %d", file, exact, wrong, unclear, all)
	return exact, all
}

func TestReadingItems(t *testing.T) {
	exact, all := score(t, "testdata/items.txt")
	assert.GreaterOrEqual(t, exact*1000, all*990, "%d of %d lines read exactly", exact, all)
}

// Things as crews call them, and numbers that only seem to count.
func TestReadingJottedItems(t *testing.T) {
	exact, all := score(t, "testdata/items_jotted.txt")
	assert.Equal(t, all, exact)
}

// Lines in more voices, of which some are still read otherwise.
func TestReadingItemVoices(t *testing.T) {
	exact, all := score(t, "testdata/items_voices.txt")
	assert.GreaterOrEqual(t, exact*100, all*90, "%d of %d lines read exactly", exact, all)
}

// The held-out lines are scored only on request, so that nobody tunes on them by accident.
func TestReadingHeldOutItems(t *testing.T) {
	if os.Getenv("HELDOUT") == "" {
		all := samples(t, "testdata/items_heldout.txt")
		require.GreaterOrEqual(t, len(all), 30)
		return
	}
	exact, all := score(t, "testdata/items_heldout.txt")
	assert.GreaterOrEqual(t, exact*100, all*75, "%d of %d lines read exactly", exact, all)
}

func FuzzRead(f *testing.F) {
	for _, file := range []string{"testdata/items.txt", "testdata/items_heldout.txt"} {
		for _, s := range samples(f, file) {
			f.Add(s.text)
		}
	}
	f.Add("\xff 4 \xc3(")
	f.Add("99999999999999999999999999 ft 12/2")
	lex := NewLexicon([]string{"Ines Vale", "Tobias Renn"}, "Ines Vale", []string{"Tobias"})
	f.Fuzz(func(t *testing.T, text string) {
		facts := Read(text, lex)
		inBounds := func(p notes.Piece) {
			require.True(t, 0 <= p.Start && p.Start <= p.End && p.End <= len(text), "%v of %d", p, len(text))
			if utf8.ValidString(text) {
				require.True(t, utf8.ValidString(text[p.Start:p.End]), "%v cuts a character", p)
			}
		}
		for _, it := range facts.Items {
			inBounds(it.Piece)
			require.True(t, it.Found())
			require.Contains(t, text[it.Start:it.End], it.Text)
			require.False(t, it.Qty.Value.Sign() < 0)
			require.True(t, it.Qty.Written() || it.Name != "", "an item says something")
		}
		for _, r := range facts.Time {
			inBounds(r.Piece)
		}
		for _, r := range facts.Readings {
			inBounds(r.Piece)
		}
		inBounds(facts.Progress.Piece)
		inBounds(facts.Consent.Piece)
		inBounds(facts.Price.Piece)
		inBounds(facts.Fault.Piece)
		for _, term := range Terms(text) {
			inBounds(term.Piece)
		}
		require.Equal(t, facts, Read(text, lex), "read twice")
		require.Equal(t, Name(text), Name(text))
	})
}

var typical = "pulled 60 ft of 12/2 MC to the prep counter, set 2 4in squares"

func BenchmarkItems(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		w := begin(typical)
		w.atoms(trade.Words{})
		w.items()
		w.end()
	}
}

func BenchmarkRead(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Read(typical, nil)
	}
}

func BenchmarkTerms(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Terms(typical)
	}
}

func BenchmarkName(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Name("20 amp 2-pole GFCI breaker")
	}
}

// The number of a tag counts nothing; one behind a word of the trade may.
func TestTagsCountNothing(t *testing.T) {
	for text, want := range map[string]string{
		"KX-204 KX-207 swapped": "",
		"31-Q-118 drive landed": "",
		"KX-12 controls":        "",
	} {
		got := ""
		for _, it := range Read(text, nil).Items {
			if it.Qty.Written() {
				got += it.Qty.String() + " " + it.Name
			}
		}
		require.Equal(t, want, got, text)
	}
}

// Cable alone is never counted by the piece; what goes on it is, and a low number may be anything.
func TestBareFeetOfCable(t *testing.T) {
	for text, want := range map[string]string{
		"MC 10-3 600":            "600 ft",
		"12/2 MC connectors 100": "100 ea",
		"12/2 MC 4":              "4 ea",
		"aisle 6 ft of 12/2 MC":  "6 ft",
	} {
		items := Read(text, nil).Items
		require.Len(t, items, 1, text)
		require.Equal(t, want, items[0].Qty.String(), text)
	}
}
