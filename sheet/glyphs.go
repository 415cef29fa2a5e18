package sheet

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"github.com/go-fonts/dejavu/dejavusans"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"
)

// face is one of the fonts: the Go fonts, and for what they lack (Hebrew, Arabic, marks) DejaVu Sans.
type face struct {
	bold, mono, wide bool // wide: of the larger set of characters
}

// name is what a PDF calls the font.
func (f face) name() (family, style string) {
	switch {
	case f.wide:
		return "wide", ""
	case f.mono:
		return "mono", ""
	case f.bold:
		return "go", "B"
	}
	return "go", ""
}

// file is the bytes of the font.
func (f face) file() []byte {
	switch {
	case f.wide:
		return dejavusans.TTF
	case f.mono:
		return gomono.TTF
	case f.bold:
		return gobold.TTF
	}
	return goregular.TTF
}

// fonts are the fonts, read once.
var fonts = sync.OnceValues(func() (map[face]*sfnt.Font, error) {
	all := map[face]*sfnt.Font{}
	for _, f := range []face{{}, {bold: true}, {mono: true}, {wide: true}} {
		parsed, err := sfnt.Parse(f.file())
		if err != nil {
			return nil, err
		}
		all[f] = parsed
	}
	return all, nil
})

// measure knows how wide characters are. It is made anew for every document.
type measure struct {
	fonts map[face]*sfnt.Font
	known map[glyph]float64
	buf   *sfnt.Buffer
}

type glyph struct {
	f face
	r rune
}

func newMeasure() (measure, error) {
	all, err := fonts()
	return measure{all, map[glyph]float64{}, &sfnt.Buffer{}}, err
}

// normal drops what a font does not come in.
func (f face) normal() face {
	switch {
	case f.wide:
		return face{wide: true}
	case f.mono:
		return face{mono: true}
	}
	return f
}

// rune returns how wide a character is for letters of height 1, and 0 when the font lacks it.
func (m measure) rune(r rune, f face) float64 {
	f = f.normal()
	g := glyph{f, r}
	if w, ok := m.known[g]; ok {
		return w
	}
	w := 0.0
	if at, err := m.fonts[f].GlyphIndex(m.buf, r); err == nil && at != 0 {
		per := m.fonts[f].UnitsPerEm()
		if a, err := m.fonts[f].GlyphAdvance(m.buf, at, fixed.I(int(per)), font.HintingNone); err == nil {
			w = max(float64(a.Round())/float64(per), 1e-6)
		}
	}
	m.known[g] = w
	return w
}

// has reports whether a character can be printed in a face, a blank among them.
func (m measure) has(r rune, f face) bool { return r >= ' ' && r <= 0xffff && m.rune(r, f) > 0 }

// pick is the face that has a character: the one asked for, or the wide one.
func (m measure) pick(r rune, f face) face {
	if !m.has(r, f) {
		f.wide = true
	}
	return f.normal()
}

// of returns how wide words are for letters of height 1.
func (m measure) of(words string, f face) float64 {
	w := 0.0
	for _, r := range words {
		w += m.rune(r, m.pick(r, f))
	}
	return w
}

// hardBlank is a blank at which no line ends.
const hardBlank = '\u00a0'

// printable returns words as the fonts can print them, on one line. A character that no font has is
// written as its number, "[U+1F600]": printed as it is, it would be an empty box or nothing at all.
// Marks that only tell how the character before is drawn are left out.
func (m measure) printable(words string) string {
	var b strings.Builder
	for _, r := range shaped(norm.NFC.String(shown(words))) {
		switch {
		case r == '\u00a0' || r == '\u202f' || r == '\u2009' || r == '\u2007':
			b.WriteRune(hardBlank)
		case r == '\u2011':
			b.WriteByte('-')
		case unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r):
		case m.has(r, face{}) || m.has(r, face{wide: true}):
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, "[U+%04X]", r)
		}
	}
	return b.String()
}

// joins are the shapes of an Arabic letter by the letters beside it: alone, after one, before one, between.
type joins struct{ alone, after, before, between rune }

// arabic is the shapes of each Arabic letter, from the decompositions of the Unicode Character
// Database (Arabic Presentation Forms-B, FE80 to FEF4), where they stand in that order.
var arabic = sync.OnceValue(func() map[rune]joins {
	all := map[rune]joins{}
	for r := rune(0xfe80); r <= 0xfef4; {
		base := []rune(norm.NFKC.String(string(r)))
		n := rune(1)
		for r+n <= 0xfef4 && norm.NFKC.String(string(r+n)) == string(base) {
			n++
		}
		if len(base) == 1 {
			j := joins{alone: r}
			if n >= 2 {
				j.after = r + 1
			}
			if n == 4 {
				j.before, j.between = r+2, r+3
			}
			all[base[0]] = j
		}
		r += n
	}
	return all
})

// shaped puts Arabic letters into the shapes they have beside each other; fonts in a PDF do not
// do it by themselves. Other text stays as it is.
func shaped(words string) string {
	if strings.IndexFunc(words, func(r rune) bool { return r >= 0x0621 && r <= 0x064a }) < 0 {
		return words
	}
	table, in := arabic(), []rune(words)
	neighbour := func(i, step int) joins {
		for i += step; i >= 0 && i < len(in) && unicode.Is(unicode.Mn, in[i]); i += step {
		}
		if i < 0 || i >= len(in) {
			return joins{}
		}
		return table[in[i]]
	}
	out := make([]rune, len(in))
	for i, r := range in {
		out[i] = r
		j, ok := table[r]
		if !ok {
			continue
		}
		after := j.after != 0 && neighbour(i, -1).before != 0
		before := j.before != 0 && neighbour(i, 1).after != 0
		switch {
		case after && before:
			out[i] = j.between
		case after:
			out[i] = j.after
		case before:
			out[i] = j.before
		default:
			out[i] = j.alone
		}
	}
	return string(out)
}
