package field

import (
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/unicode/norm"
	"golang.org/x/text/unicode/runenames"

	"jobday/notes"
)

// Fraction characters against Unicode: the compatibility decomposition of UnicodeData.txt, field 5,
// as golang.org/x/text/unicode/norm carries it, writes each as digits around U+2044.
func TestVulgarFractionsAreUnicodes(t *testing.T) {
	checked := 0
	for r := rune(0x80); r <= 0x2FFF; r++ {
		above, below, ok := strings.Cut(norm.NFKD.String(string(r)), "⁄")
		a, b := vulgar(r)
		if !ok || below == "" { // U+215F has no denominator
			assert.Zero(t, b, "%U", r)
			continue
		}
		wantA, _ := strconv.Atoi(above)
		wantB, _ := strconv.Atoi(below)
		assert.Equal(t, [2]int{wantA, wantB}, [2]int{a, b}, "%U", r)
		checked++
	}
	assert.Equal(t, 19, checked)
}

// Number words against Unicode: the names of the circled numbers, as
// golang.org/x/text/unicode/runenames carries them, spell what the characters decompose to.
func TestNumberWordsAreUnicodes(t *testing.T) {
	checked := 0
	for r := rune(0x2460); r <= 0x32BF; r++ {
		name := runenames.Name(r)
		words, ok := strings.CutPrefix(name, "CIRCLED NUMBER ")
		if !ok {
			words, ok = strings.CutPrefix(name, "CIRCLED DIGIT ")
		}
		if !ok || strings.Contains(words, " ON ") || !unicode.Is(unicode.No, r) {
			continue
		}
		v, next, ok := numberAt(tokens(words), 0, words)
		require.True(t, ok, words)
		assert.Equal(t, norm.NFKD.String(string(r)), v.String(), words)
		assert.Equal(t, len(tokens(words)), next, words)
		checked++
	}
	assert.Equal(t, 51, checked)
}

// NIST SP 811 (2008), appendix B.8: 1 in = 25.4 mm and 1 ft = 0.3048 m, both exactly.
func TestFeetAndMetresAreNISTs(t *testing.T) {
	inch := notes.MustDecimal("25.4")
	for text, want := range map[string]string{
		"1 ft 12/2": "0.3048", `10' 12/2`: "3.048", `5'6" flex`: "1.6764", "1,000 ft cat6": "304.8", "6½ ft flex": "1.9812",
	} {
		items := Read(text, nil).Items
		require.Len(t, items, 1, text)
		m, ok := items[0].Qty.In(notes.Meter)
		require.True(t, ok, text)
		assert.Equal(t, want, m.Value.String(), text)
		mm := items[0].Qty.Value.Mul(notes.Int(12)).Mul(inch)
		assert.True(t, m.Value.Mul(notes.Int(1000)).Equal(mm), text)
	}
}
