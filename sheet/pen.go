package sheet

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/text/unicode/bidi"
)

// pen draws on the pages of a PDF. Lengths are points, from the top left corner.
type pen struct {
	pdf *fpdf.Fpdf
	measure
	w, h    float64 // of the page
	margin  float64
	k       float64 // size of letters against a whole sheet
	loaded  map[face]bool
	anchors map[string]int // links by the id they lead to
}

// style is how letters look on paper: always black.
type style struct {
	face
	size float64
	box  bool   // in a box
	href string // where they lead
}

// inked is a character with its look.
type inked struct {
	r    rune
	s    *style
	glue bool // a blank at which no line ends
}

// textLine is characters that stand in one line, as they are read.
type textLine struct {
	ink []inked
	w   float64
	rtl bool // begins at the right
}

// size is width, height and margin of a paper in points, and how large its letters are.
func (p Paper) size() (w, h, margin, k float64) {
	switch p {
	case A4:
		return 595.28, 841.89, 40, 1
	case A5:
		return 419.53, 595.28, 28, 0.86
	}
	return 612, 792, 40, 1
}

// newPen starts a PDF whose bytes depend on nothing but what is drawn: fixed dates, sorted catalogs.
func newPen(s *Sheet) (*pen, error) {
	m, err := newMeasure()
	if err != nil {
		return nil, err
	}
	p := &pen{measure: m, loaded: map[face]bool{}, anchors: map[string]int{}}
	p.w, p.h, p.margin, p.k = s.Paper.size()
	p.pdf = fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: fpdf.SizeType{Wd: p.w, Ht: p.h}})
	made := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	if d := s.Date; d.Known() {
		made = time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
	}
	p.pdf.SetCatalogSort(true)
	p.pdf.SetCreationDate(made)
	p.pdf.SetModificationDate(made)
	p.pdf.SetProducer("jobday", true)
	p.pdf.SetTitle(shown(s.title()), true)
	author := s.Author
	if author == "" {
		author = s.Letterhead.Name
	}
	p.pdf.SetAuthor(shown(author), true)
	p.pdf.SetSubject(shown(s.Title), true)
	p.pdf.SetLang(s.lang())
	p.pdf.SetAutoPageBreak(false, 0)
	p.pdf.SetMargins(0, 0, 0)
	p.pdf.SetCellMargin(0)
	return p, nil
}

func (p *pen) use(f face, size float64) {
	family, weight := f.name()
	if !p.loaded[f] {
		p.pdf.AddUTF8FontFromBytes(family, weight, slices.Clone(f.file())) // it writes into what it is given
		p.loaded[f] = true
	}
	p.pdf.SetFont(family, weight, size)
}

// set turns a text into characters with their looks.
func (p *pen) set(t Text, base style) []inked {
	var out []inked
	for _, piece := range t {
		s := base
		s.href = piece.Href
		words := p.printable(piece.said())
		switch piece.Look {
		case Bold:
			s.bold = true
		case Soft:
			s.size *= 0.9
		case Tag:
			s.bold, s.box, s.size = true, true, s.size*0.86
			words = " " + words + " "
		}
		runes := []rune(words)
		for i, r := range runes {
			end := i == 0 || i == len(runes)-1
			c := inked{r, &s, s.box && end}
			if r == hardBlank {
				c.r, c.glue = ' ', true
			}
			out = append(out, c)
		}
	}
	return out
}

// width is how wide a character is.
func (p *pen) width(c inked) float64 { return p.measure.rune(c.r, p.pick(c.r, c.s.face)) * c.s.size }

// lines sets a text in lines no wider than w; a word that is wider is broken.
func (p *pen) lines(t Text, w float64, s style) []textLine {
	ink := p.set(t, s)
	rtl := startsRight(ink)
	var out []textLine
	emit := func(part []inked) {
		for len(part) > 0 && part[0].r == ' ' && !part[0].glue {
			part = part[1:]
		}
		for len(part) > 0 && part[len(part)-1].r == ' ' && !part[len(part)-1].glue {
			part = part[:len(part)-1]
		}
		if len(part) == 0 {
			return
		}
		l := textLine{ink: part, rtl: rtl}
		for _, c := range part {
			l.w += p.width(c)
		}
		out = append(out, l)
	}
	from, blank, wide, beyond := 0, -1, 0.0, 0.0 // beyond is what stands after the last blank
	for i := 0; i < len(ink); i++ {
		c := p.width(ink[i])
		if ink[i].r == ' ' && !ink[i].glue {
			blank, beyond = i, 0
			wide += c
			continue
		}
		for wide+c > w+0.01 && i > from {
			if blank >= from {
				emit(ink[from:blank])
				from, wide = blank+1, beyond
			} else {
				emit(ink[from:i])
				from, wide, beyond = i, 0, 0
			}
			blank = -1
		}
		wide += c
		beyond += c
	}
	emit(ink[from:])
	return out
}

// startsRight reports whether the first letter that has a direction is written from right to left.
func startsRight(ink []inked) bool {
	for _, c := range ink {
		switch p, _ := bidi.LookupRune(c.r); p.Class() {
		case bidi.R, bidi.AL:
			return true
		case bidi.L:
			return false
		}
	}
	return false
}

// visual puts the characters of a line in the order they stand from left to right, by the Unicode
// Bidirectional Algorithm (UAX 9).
func (l textLine) visual() []inked {
	var b strings.Builder
	turn := l.rtl
	for _, c := range l.ink {
		b.WriteRune(c.r)
		p, _ := bidi.LookupRune(c.r)
		turn = turn || p.Class() == bidi.R || p.Class() == bidi.AL
	}
	if !turn {
		return l.ink
	}
	var para bidi.Paragraph
	base := bidi.DefaultDirection(bidi.LeftToRight)
	if l.rtl {
		base = bidi.DefaultDirection(bidi.RightToLeft)
	}
	if _, err := para.SetString(b.String(), base); err != nil {
		return l.ink
	}
	order, err := para.Order()
	if err != nil {
		return l.ink
	}
	runs := make([]wayRun, order.NumRuns())
	for i := range runs {
		run := order.Run(i)
		from, to := run.Pos() // places of characters, the last one included
		runs[i] = wayRun{l.ink[from : to+1], run.Direction() == bidi.RightToLeft}
	}
	return inOrder(runs, l.rtl)
}

// wayRun is characters that are written one way.
type wayRun struct {
	ink []inked
	rtl bool
}

// within reports whether a run from left to right holds no letter: figures among words that are
// written from right to left stand among them (UAX 9, rules W2 to W7 and L2).
func (r wayRun) within() bool {
	for _, c := range r.ink {
		if p, _ := bidi.LookupRune(c.r); p.Class() == bidi.L {
			return false
		}
	}
	return true
}

// inOrder puts runs, given as they are read, in the order they stand from left to right (UAX 9, rule
// L2), and turns those written from right to left.
func inOrder(runs []wayRun, rtl bool) []inked {
	for from := 0; from < len(runs); {
		to := from + 1
		switch {
		case rtl:
			to = len(runs)
		case runs[from].rtl:
			for to < len(runs) && (runs[to].rtl || runs[to].within()) {
				to++
			}
		}
		slices.Reverse(runs[from:to])
		from = to
	}
	var out []inked
	for _, r := range runs {
		if !r.rtl {
			out = append(out, r.ink...)
			continue
		}
		for i := len(r.ink) - 1; i >= 0; i-- {
			c := r.ink[i]
			c.r = mirrored(c.r)
			out = append(out, c)
		}
	}
	return out
}

// mirrored is the bracket that stands for another where writing goes from right to left.
func mirrored(r rune) rune {
	const pairs = "()[]{}<>«»"
	for i, c := range []rune(pairs) {
		if c == r {
			return []rune(pairs)[i^1]
		}
	}
	return r
}

// write draws a line with its baseline at y, between x and x+w.
func (p *pen) write(l textLine, at box, align Align) {
	x := at.x
	switch {
	case align == Right || (align == Left && l.rtl):
		x += at.w - l.w
	case align == Center:
		x += (at.w - l.w) / 2
	}
	ink := l.visual()
	for from := 0; from < len(ink); {
		f, s := p.pick(ink[from].r, ink[from].s.face), ink[from].s
		to, w := from, 0.0
		var run strings.Builder
		for to < len(ink) && ink[to].s == s && (p.pick(ink[to].r, s.face) == f) {
			run.WriteRune(ink[to].r)
			w += p.width(ink[to])
			to++
		}
		p.use(f, s.size)
		p.pdf.Text(x, at.y, run.String())
		if s.box {
			p.rect(box{x + s.size*0.1, at.y - s.size*0.88, w - s.size*0.2, s.size * 1.16}, 0.6)
		}
		p.link(s.href, box{x, at.y - s.size, w, s.size * 1.25})
		x += w
		from = to
	}
}

// box is a part of a page.
type box struct{ x, y, w, h float64 }

// link makes a part of a page lead somewhere: to a place in the sheet or an address.
func (p *pen) link(href string, at box) {
	switch {
	case strings.HasPrefix(href, "#"):
		if id, ok := p.anchors[href[1:]]; ok {
			p.pdf.Link(at.x, at.y, at.w, at.h, id)
		}
	case strings.HasPrefix(href, "https://"), strings.HasPrefix(href, "http://"), strings.HasPrefix(href, "mailto:"):
		p.pdf.LinkString(at.x, at.y, at.w, at.h, href)
	}
}

func (p *pen) rule(x1, y1, x2, y2, thick float64) {
	p.pdf.SetLineWidth(thick)
	p.pdf.Line(x1, y1, x2, y2)
}

func (p *pen) rect(b box, thick float64) {
	p.pdf.SetLineWidth(thick)
	p.pdf.Rect(b.x, b.y, b.w, b.h, "D")
}

func (p *pen) fill(b box) { p.pdf.Rect(b.x, b.y, b.w, b.h, "F") }

// image draws a picture.
func (p *pen) image(r readyPicture, b box) {
	sum := sha256.Sum256(r.bytes) // the same picture stands in the file once
	name, opt := hex.EncodeToString(sum[:]), fpdf.ImageOptions{ImageType: r.kind}
	p.pdf.RegisterImageOptionsReader(name, opt, bytes.NewReader(r.bytes))
	p.pdf.ImageOptions(name, b.x, b.y, b.w, b.h, false, opt, 0, "")
}

// one is a single line of plain words, cut where it is too long.
func (p *pen) one(words string, w float64, s style) textLine {
	all := p.lines(Words(words), 1e9, s)
	if len(all) == 0 {
		return textLine{}
	}
	l := all[0]
	if l.w <= w {
		return l
	}
	dots := inked{'…', l.ink[0].s, true}
	l.w = p.width(dots)
	for i, c := range l.ink {
		if l.w += p.width(c); l.w > w {
			l.w -= p.width(c)
			l.ink = append(l.ink[:i:i], dots)
			break
		}
	}
	return l
}
