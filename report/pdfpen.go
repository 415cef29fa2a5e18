package report

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// glyphs tells which characters the embedded fonts have: the Go fonts, Latin, Greek and Cyrillic.
var glyphs = sync.OnceValues(func() (*sfnt.Font, error) { return sfnt.Parse(goregular.TTF) })

// standIns are plain ways to write common characters the fonts lack.
var standIns = map[rune]string{
	'✓': "v", '✔': "v", '✗': "x", '✘': "x", '⚡': "!", '⚠': "!", '→': "->", '←': "<-", '⌀': "dia", '′': "'", '″': `"`, '−': "-",
	'\u00a0': " ", '\u2007': " ", '\u2009': " ", '\u202f': " ", '\u2011': "-", '\ufeff': "", '\ufffd': "?",
}

// printable returns text as the fonts can print it, on one line: a character they lack becomes a
// plain one, a mark that belongs to the letter before it is left out, and "?" stands for the rest.
// Printed as it is, such a character would be an empty box, with no error.
func printable(text string) string {
	f, err := glyphs()
	if err != nil {
		return text
	}
	var b strings.Builder
	var buf sfnt.Buffer
	missing := false
	for _, r := range shown(text) {
		if i, err := f.GlyphIndex(&buf, r); err == nil && i != 0 && r != unicode.ReplacementChar && r >= ' ' {
			b.WriteRune(r)
			missing = false
			continue
		}
		if s, ok := standIns[r]; ok {
			b.WriteString(s)
			continue
		}
		if !missing && !unicode.Is(unicode.M, r) && !unicode.Is(unicode.Cf, r) {
			b.WriteByte('?') // one for a whole word of them
			missing = true
		}
	}
	return b.String()
}

// A pen draws on the pages of a PDF. Lengths are points, from the top left corner.
type pen struct {
	pdf  *fpdf.Fpdf
	w, h float64 // of the page
}

const (
	regular = ""
	bold    = "B"
)

// newPen starts a PDF whose bytes depend on nothing but what is drawn: fixed dates, sorted catalogs.
func newPen(w, h float64, meta pdfMeta) *pen {
	pdf := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: fpdf.SizeType{Wd: w, Ht: h}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(meta.made)
	pdf.SetModificationDate(meta.made)
	pdf.SetProducer("jobday", true)
	pdf.SetTitle(printable(meta.title), true)
	pdf.SetLang("en")
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	pdf.SetCellMargin(0)
	pdf.AddUTF8FontFromBytes("go", regular, slices.Clone(goregular.TTF)) // it writes into what it is given
	pdf.AddUTF8FontFromBytes("go", bold, slices.Clone(gobold.TTF))
	return &pen{pdf: pdf, w: w, h: h}
}

// A style is how text looks: weight, size in points, and grey from 0 (black) to 255.
type style struct {
	weight string
	size   float64
	grey   int
}

func (p *pen) use(s style) {
	p.pdf.SetFont("go", s.weight, s.size)
	p.pdf.SetTextColor(s.grey, s.grey, s.grey)
}

// width is how wide text is, which is printable already.
func (p *pen) width(text string, s style) float64 {
	p.use(s)
	return p.pdf.GetStringWidth(text)
}

// write draws text, printable already, with its baseline at y.
func (p *pen) write(x, y float64, text string, s style) {
	if text == "" {
		return
	}
	p.use(s)
	p.pdf.Text(x, y, text)
}

// line draws a line of so many points' thickness.
func (p *pen) line(x1, y1, x2, y2, thick float64) {
	p.pdf.SetLineWidth(thick)
	p.pdf.Line(x1, y1, x2, y2)
}

// lines breaks text, printable already, into lines no wider than w; a word that is wider is broken.
func (p *pen) lines(text string, w float64, s style) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		if next := strings.TrimLeft(line+" "+word, " "); p.width(next, s) <= w {
			line = next
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		for p.width(word, s) > w {
			n := p.most(word, w, s)
			out = append(out, word[:n])
			word = word[n:]
		}
		line = word
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// most is how many bytes of a word fit, at least one character.
func (p *pen) most(word string, w float64, s style) int {
	n := 0
	for i, r := range word {
		end := i + len(string(r))
		if n > 0 && p.width(word[:end], s) > w {
			break
		}
		n = end
	}
	return n
}

// A box is where text has to fit.
type box struct{ x, y, w, h float64 }

// leading is the height of a line as a multiple of the letters' size.
const leading = 1.14

// smallest is the smallest size of letters that is printed, in points.
const smallest = 4.6

// fit finds the largest size, from that of the style down to smallest, at which text fits the box,
// and its lines. When even the smallest is too large the lines are cut, and whole is false.
func (p *pen) fit(text string, b box, s style) (lines []string, used style, whole bool) {
	for {
		lines = p.lines(text, b.w, s)
		room := max(1, int(b.h/(s.size*leading)))
		if len(lines) <= room {
			return lines, s, true
		}
		if s.size <= smallest {
			lines = lines[:room]
			last := lines[room-1] + "…"
			for p.width(last, s) > b.w && len([]rune(last)) > 2 {
				r := []rune(last)
				last = string(r[:len(r)-2]) + "…"
			}
			lines[room-1] = last
			return lines, s, false
		}
		s.size = max(smallest, s.size-0.4)
	}
}

// block draws lines in the middle of the height of a box.
func (p *pen) block(lines []string, b box, s style) {
	height := float64(len(lines)) * s.size * leading
	y := b.y + (b.h-height)/2 + s.size*0.9
	for _, l := range lines {
		p.write(b.x, y, l, s)
		y += s.size * leading
	}
}
