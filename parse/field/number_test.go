package field

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
)

func TestNumberAt(t *testing.T) {
	cases := []struct{ text, value, rest string }{
		{"52", "52", ""},
		{"52 ft", "52", " ft"},
		{"1,200 ft", "1200", " ft"},
		{"1,200,000", "1200000", ""},
		{"2,4: panel", "2", ",4: panel"},
		{"1.25 hrs", "1.25", " hrs"},
		{".5 gal", "0.5", " gal"},
		{"3. next", "3", ". next"},
		{"1/2 box", "0.5", " box"},
		{"3/4 EMT", "0.75", " EMT"},
		{"12/2 MC", "12", "/2 MC"},
		{"40/80 panel", "40", "/80 panel"},
		{"1 1/4 EMT", "1.25", " EMT"},
		{"1-1/4 EMT", "1.25", " EMT"},
		{"4-11/16 sq", "4.6875", " sq"},
		{"1 and 1/2", "1.5", ""},
		{"½ box", "0.5", " box"},
		{"1¼ in", "1.25", " in"},
		{"1 ¼ in", "1.25", " in"},
		{"2-½", "2.5", ""},
		{"⅞", "0.875", ""},
		{"1⁄2", "0.5", ""},
		{"six boxes", "6", " boxes"},
		{"twenty-two", "22", ""},
		{"Twenty two straps", "22", " straps"},
		{"a hundred feet", "100", " feet"},
		{"two hundred and fifty ft", "250", " ft"},
		{"a dozen nuts", "12", " nuts"},
		{"doz. nuts", "12", " nuts"},
		{"2 doz nuts", "24", " nuts"},
		{"half a dozen", "6", ""},
		{"1/2 dozen", "6", ""},
		{"a couple of", "2", " of"},
		{"a box", "1", " box"},
		{"an LB", "1", " LB"},
		{"half a box", "0.5", " box"},
		{"half the box", "0.5", " the box"},
		{"one and a half", "1.5", ""},
		{"three quarters", "0.75", ""},
		{"one-half", "0.5", ""},
		{"one", "1", ""},
	}
	for _, c := range cases {
		toks := tokens(c.text)
		v, next, ok := numberAt(toks, 0, c.text)
		if !assert.True(t, ok, c.text) {
			continue
		}
		end := 0
		if next > 0 {
			end = toks[next-1].end
		}
		assert.Equal(t, c.value, v.String(), c.text)
		assert.Equal(t, c.rest, c.text[end:], c.text)
	}
}

func TestNumberAtNone(t *testing.T) {
	for _, text := range []string{"", "panel", "-", "/2", "3.12.2026", "99999999999999999999", ".", "of"} {
		_, _, ok := numberAt(tokens(text), 0, text)
		require.False(t, ok, text)
	}
}

// How much each line counts, whatever its things are called. A number read wrong is worse than none.
// Rows still read otherwise are kept: the floors hold how many.
func TestReadingQuantities(t *testing.T) {
	right, wrong, all := 0, 0, 0
	for _, s := range samples(t, "testdata/quantities.txt") {
		all++
		switch got := quantities(Read(s.text, nil).Items); got {
		case s.want:
			right++
		case "none":
			t.Logf("unread: %-44s want %s", s.text, s.want)
		default:
			wrong++
			t.Logf("wrong: %-44s want %s, got %s", s.text, s.want, got)
		}
	}
	t.Logf("%d of %d lines read, %d wrong", right, all, wrong)
	assert.GreaterOrEqual(t, right, leastQuantities)
	assert.LessOrEqual(t, wrong, mostQuantitiesWrong)
}

// How many lines have to be read, which only rises, and may be read wrong, which only falls.
const (
	leastQuantities     = 62
	mostQuantitiesWrong = 28
)

// quantities writes what items count, in order.
func quantities(items []notes.Item) string {
	var parts []string
	for _, it := range items {
		if it.Qty.Written() {
			q := it.Qty.String()
			for _, o := range it.Other {
				q += " / " + o.String()
			}
			parts = append(parts, q)
		}
	}
	if len(parts) == 0 {
		return "none"
	}
	return strings.Join(parts, " ; ")
}
