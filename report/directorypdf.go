package report

import (
	"bytes"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"jobday/notes"
)

// pdfMeta is what a PDF says of itself.
type pdfMeta struct {
	title string
	made  time.Time
}

// A paperSize is the size of a paper in points, with the margin printers need.
type paperSize struct{ w, h, margin float64 }

func (p Paper) size() paperSize {
	switch p {
	case A4:
		return paperSize{595.28, 841.89, 28}
	case Half:
		return paperSize{396, 612, 20}
	}
	return paperSize{612, 792, 28}
}

// DirectoryPDF writes the cards of panels, each on a page of its own, with a further page for the
// file where there is something to say that is not for the door. All cards are on the paper of the
// first. The same input gives the same bytes.
func DirectoryPDF(w io.Writer, ins []DirectoryInput) error {
	var cards []*Card
	var names []string
	for _, in := range ins {
		c, err := newCard(in)
		if err != nil {
			return err
		}
		cards, names = append(cards, c), append(names, c.Panel)
	}
	paper := Letter
	made := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	if len(cards) > 0 {
		paper = cards[0].Paper
		if d := cards[0].Date; d.Known() {
			made = time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
		}
	}
	s := paper.size()
	p := newPen(s.w, s.h, pdfMeta{"Circuit directory, " + strings.Join(names, ", "), made})
	for _, c := range cards {
		d := drawing{pen: p, card: c, m: s.margin, k: 1}
		if paper == Half {
			d.k = 0.74
		}
		d.draw()
	}
	if len(cards) == 0 {
		p.pdf.AddPage()
		p.write(s.margin, s.margin+12, "No panel.", style{regular, 11, 0})
	}
	var out bytes.Buffer
	if err := p.pdf.Output(&out); err != nil {
		return err
	}
	_, err := w.Write(out.Bytes())
	return err
}

// A drawing puts one card on pages.
type drawing struct {
	*pen
	card *Card
	m    float64     // margin
	k    float64     // size of everything against a whole sheet
	cut  []CardSpace // whose words were too long for their cell
}

// mostRows is how many rows stand on one page: 84 spaces.
const mostRows = 42

func (d *drawing) draw() {
	rows := len(d.card.Rows)
	for from := 0; from == 0 || from < rows; from += mostRows {
		d.pdf.AddPage()
		top := d.head(d.m)
		bottom := d.foot()
		d.grid(from, min(from+mostRows, rows), top, bottom)
	}
	d.behind()
}

// head draws the title block and returns where it ends.
func (d *drawing) head(y float64) float64 {
	c, k, left, right := d.card, d.k, d.m, d.w-d.m
	h1, h2 := 44*k, 24*k
	day := printable(c.Day)
	dayW := d.width(day, style{regular, 9 * k, 0}) + 14*k
	nameW := min(max(d.width(printable(c.Panel), style{bold, 24 * k, 0})+18*k, 90*k), (right-left)*0.45)
	d.pdf.SetDrawColor(0, 0, 0)
	d.line(left, y, right, y, 1.4)
	d.write(left+6*k, y+11*k, "Circuit directory", style{regular, 7 * k, 70})
	lines, s, _ := d.fit(printable(c.Panel), box{left + 6*k, y + 13*k, nameW - 10*k, 28 * k}, style{bold, 24 * k, 0})
	d.block(lines, box{left + 6*k, y + 13*k, nameW - 10*k, 28 * k}, s)
	d.line(left+nameW, y, left+nameW, y+h1, 0.5)
	x, w := left+nameW+6*k, right-dayW-left-nameW-10*k
	for i, t := range []struct {
		text string
		s    style
	}{{c.Customer, style{bold, 9.5 * k, 0}}, {c.Site, style{regular, 9 * k, 0}}, {c.By(), style{regular, 7.5 * k, 70}}} {
		at := box{x, y + 3*k + float64(i)*13*k, w, 13 * k}
		lines, s, _ := d.fit(printable(t.text), at, t.s)
		d.block(lines, at, s)
	}
	d.line(right-dayW, y, right-dayW, y+h1, 0.5)
	d.write(right-dayW+7*k, y+11*k, "As of", style{regular, 7 * k, 70})
	d.write(right-dayW+7*k, y+25*k, day, style{regular, 9 * k, 0})
	d.line(left, y+h1, right, y+h1, 0.5)
	d.facts(y+h1, h2)
	bottom := y + h1 + h2
	d.line(left, y, left, bottom, 1.4)
	d.line(right, y, right, bottom, 1.4)
	return bottom
}

// By says who made the card and for which job.
func (c *Card) By() string {
	job := ""
	if c.Number != "" {
		job = "Job " + c.Number
	}
	return strings.Join(filled(job, c.Company), ", ")
}

// facts draws the cells below the title: volts, phases, main, terminals, feeder.
func (d *drawing) facts(y, h float64) {
	k, left, right := d.k, d.m, d.w-d.m
	shares := []float64{0.15, 0.10, 0.27, 0.14, 0.34}
	x := left
	for i, f := range d.card.Facts {
		w := (right - left) * shares[i]
		if i > 0 {
			d.line(x, y, x, y+h, 0.5)
		}
		d.write(x+6*k, y+8*k, f.Label, style{regular, 6.5 * k, 70})
		at := box{x + 6*k, y + 9*k, w - 9*k, h - 10*k}
		lines, s, _ := d.fit(printable(f.Text), at, style{regular, 9 * k, 0})
		d.block(lines, at, s)
		x += w
	}
}

// foot draws the foot of the page and returns where it begins.
func (d *drawing) foot() float64 {
	k, left, w := d.k, d.m, d.w-2*d.m
	small := style{regular, max(5, 6.6*k), 60}
	var lines []string
	for _, t := range d.card.Cautions {
		lines = append(lines, d.lines(printable(t), w, small)...)
	}
	y := d.h - d.m - float64(len(lines))*small.size*leading
	begin := y - 15*k
	for _, l := range lines {
		y += small.size * leading
		d.write(left, y, l, small)
	}
	count, s := printable(d.card.Counts+"."), style{regular, 8.2 * k, 0}
	d.write(left, begin+10.5*k, count, s)
	if since := d.card.sinceWords(); since != "" {
		x := left + d.width(count, s) + 8*k
		if len(d.card.Changes) > 0 {
			d.pdf.SetFillColor(0, 0, 0)
			d.pdf.Rect(x, begin+4*k, 2.2, 7.5*k, "F")
			x += 6
		}
		d.write(x, begin+10.5*k, printable(since), s)
	}
	return begin
}

// sinceWords says at the foot of a card what its marks mean.
func (c *Card) sinceWords() string {
	switch {
	case c.Since == "":
		return ""
	case len(c.Changes) == 0:
		return c.Since + ": nothing."
	}
	return c.Since + "."
}

// grid draws rows from one to another between two heights.
func (d *drawing) grid(from, to int, top, bottom float64) {
	k, left, right := d.k, d.m, d.w-d.m
	if to == from {
		d.write(left+6*k, top+24*k, "No circuit is described.", style{regular, 9 * k, 70})
		return
	}
	headH := 11 * k
	pitch := min((bottom-top-headH-2*k)/float64(to-from), 30*k)
	g := gridSheet{drawing: d, from: from, to: to, y: top + headH, pitch: pitch}
	g.measure()
	g.titles(top)
	for i := from; i < to; i++ {
		g.row(i)
	}
	end := g.y + pitch*float64(to-from)
	d.line(left, top, left, end, 1.4)
	d.line(right, top, right, end, 1.4)
	d.line(left, end, right, end, 1.4)
	d.line(left, g.y, right, g.y, 0.6)
	for _, x := range []float64{g.bus, g.bus + g.busW, g.bus - g.noW, g.bus + g.busW + g.noW} {
		d.line(x, g.y, x, end, 0.6)
	}
}

// gridSheet is the rows of one page.
type gridSheet struct {
	*drawing
	from, to         int
	y, pitch         float64
	bus, busW        float64 // the strip in the middle, with the legs
	noW, breakerW    float64
	letters, figures style
}

func (g *gridSheet) measure() {
	k := g.k
	size := min(10*k, g.pitch*0.72)
	g.letters, g.figures = style{bold, size, 0}, style{regular, size * 0.9, 60}
	g.busW, g.noW = 12*k, 20*k
	g.bus = g.w/2 - g.busW/2
	g.breakerW = 44 * k
	for _, r := range g.card.Rows {
		for _, s := range []CardSpace{r.Left, r.Right} {
			g.breakerW = min(max(g.breakerW, g.width(printable(s.Breaker), g.figures)+8*k), 72*k)
		}
	}
}

func (g *gridSheet) titles(top float64) {
	k, s := g.k, style{regular, 6.5 * g.k, 70}
	y := top + 8*k
	g.write(g.m+6*k, y, "Serves", s)
	g.write(g.bus-g.noW-g.breakerW+2*k, y, "Breaker", s)
	g.write(g.bus+g.busW+g.noW+4*k, y, "Breaker", s)
	g.write(g.bus+g.busW+g.noW+g.breakerW+4*k, y, "Serves", s)
}

func (g *gridSheet) row(i int) {
	r := g.card.Rows[i]
	y := g.y + g.pitch*float64(i-g.from)
	if g.card.Legs {
		s := style{regular, min(7.5*g.k, g.pitch*0.6), 60}
		g.write(g.bus+(g.busW-g.width(r.Leg, s))/2, y+g.pitch/2+s.size*0.35, r.Leg, s)
	}
	g.number(r.Left, g.bus-g.noW, y)
	g.number(r.Right, g.bus+g.busW, y)
	for side := range 2 {
		g.space(i, side)
	}
}

// number draws the number of a space beside the bus, with a bar at its outer edge where it changed.
func (g *gridSheet) number(s CardSpace, x, y float64) {
	if s.N == 0 {
		return
	}
	n, st := strconv.Itoa(s.N), style{bold, min(9.5*g.k, g.pitch*0.72), 0}
	g.write(x+(g.noW-g.width(n, st))/2, y+g.pitch/2+st.size*0.35, n, st)
	if g.card.changed[s.N] {
		g.pdf.SetFillColor(0, 0, 0)
		bar := x + 0.4
		if x > g.bus {
			bar = x + g.noW - 2.6
		}
		g.pdf.Rect(bar, y+0.6, 2.2, g.pitch-1.2, "F")
	}
}

// space draws what a breaker serves over the rows it takes. A breaker that began on the page before
// is drawn again at the top of this one.
func (g *gridSheet) space(i, side int) {
	at := func(i int) CardSpace {
		if side == 0 {
			return g.card.Rows[i].Left
		}
		return g.card.Rows[i].Right
	}
	s, first := at(i), i
	if s.Span == 0 && i == g.from {
		for first > 0 && at(first).Span == 0 && at(first).N > 0 {
			first--
		}
		s = at(first)
	}
	if s.Span == 0 {
		return
	}
	rows := min(first+s.Span, g.to) - i
	y, h := g.y+g.pitch*float64(i-g.from), g.pitch*float64(rows)
	x, w := g.m, g.bus-g.noW-g.breakerW-g.m
	bx := g.bus - g.noW - g.breakerW
	if side == 1 {
		bx = g.bus + g.busW + g.noW
		x, w = bx+g.breakerW, g.w-g.m-bx-g.breakerW
	}
	g.pdf.SetDrawColor(150, 150, 150)
	g.line(min(x, bx), y+h, max(x+w, bx+g.breakerW), y+h, 0.4)
	for j := 1; j <= rows; j++ { // the numbers stay apart
		nx := g.bus - g.noW
		if side == 1 {
			nx = g.bus + g.busW
		}
		g.line(nx, y+g.pitch*float64(j), nx+g.noW, y+g.pitch*float64(j), 0.4)
	}
	g.pdf.SetDrawColor(0, 0, 0)
	b := box{bx + 2*g.k, y, g.breakerW - 4*g.k, h}
	if side == 1 {
		b.x += 2 * g.k
	}
	lines, st, _ := g.fit(printable(s.Breaker), b, g.figures)
	g.block(lines, b, st)
	g.words(s, box{x + 4*g.k, y, w - 7*g.k, h})
}

// words draws what a space serves, and below or behind it the conductor where there is room.
func (g *gridSheet) words(s CardSpace, b box) {
	if s.Serves == "" {
		return
	}
	st := g.letters
	if s.Use != notes.SpaceInUse {
		st.weight, st.grey = regular, 60
	}
	lines, used, whole := g.fit(printable(s.Serves), b, st)
	if !whole && !slices.ContainsFunc(g.cut, func(c CardSpace) bool { return c.N == s.N }) {
		g.cut = append(g.cut, s)
	}
	more, small := printable(s.More), style{regular, used.size * 0.82, 70}
	if more == "" || !whole {
		g.block(lines, b, used)
		return
	}
	last := g.width(lines[len(lines)-1], used)
	beside := last+4*g.k+g.width(more, small) <= b.w
	height := float64(len(lines)) * used.size * leading
	switch {
	case beside:
		g.block(lines, b, used)
		y := b.y + (b.h-height)/2 + used.size*0.9 + float64(len(lines)-1)*used.size*leading
		g.write(b.x+last+4*g.k, y, more, small)
	case height+small.size*leading <= b.h && g.width(more, small) <= b.w:
		up := box{b.x, b.y - small.size*leading/2, b.w, b.h}
		g.block(lines, up, used)
		g.write(b.x, up.y+(up.h+height)/2+small.size*0.9, more, small)
	default:
		g.block(lines, b, used)
	}
}

// behind draws the page for the file: words cut on the card, changes, what is to be looked at.
func (d *drawing) behind() {
	c := d.card
	if len(c.Changes) == 0 && len(c.Findings) == 0 && len(d.cut) == 0 {
		return
	}
	f := filePage{drawing: d}
	f.open()
	if len(d.cut) > 0 {
		f.title("In full")
		for _, s := range d.cut {
			f.item(ints(s.Spaces()) + ": " + s.Serves)
		}
	}
	if len(c.Changes) > 0 {
		f.title(c.Since)
		for _, x := range c.Changes {
			f.item(ChangeWords(x))
		}
	}
	if len(c.Findings) > 0 {
		f.title("To be looked at")
		for _, x := range c.Findings {
			f.item(ints(x.Spaces) + ": " + x.Text)
		}
	}
}

// filePage writes lines down pages for the file.
type filePage struct {
	*drawing
	y float64
}

func (f *filePage) open() {
	f.pdf.AddPage()
	s := style{bold, 11 * f.k, 0}
	f.y = f.m + s.size
	for _, l := range f.lines(printable(f.card.Panel+", for the file"), f.w-2*f.m, s) {
		f.write(f.m, f.y, l, s)
		f.y += s.size * leading
	}
	f.line(f.m, f.y-s.size*0.5, f.w-f.m, f.y-s.size*0.5, 1.4)
	f.y += 4 * f.k
}

// room goes to a new page when there is less than a height left.
func (f *filePage) room(h float64) {
	if f.y+h > f.h-f.m {
		f.open()
	}
}

func (f *filePage) title(text string) {
	s := style{bold, 9 * f.k, 0}
	f.room(5 * s.size)
	f.y += s.size * 1.6
	f.write(f.m, f.y, printable(text), s)
	f.y += s.size * 0.5
}

func (f *filePage) item(text string) {
	s := style{regular, 8.5 * f.k, 0}
	lines := f.lines(printable(text), f.w-2*f.m, s)
	f.room(min(float64(len(lines)), 3) * s.size * leading)
	for _, l := range lines {
		f.room(s.size * leading)
		f.y += s.size * leading
		f.write(f.m, f.y, l, s)
	}
	f.y += 2 * f.k
}
