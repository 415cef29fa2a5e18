package sheet

import (
	"bytes"
	"encoding/base64"
	"html/template"
	"io"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"jobday/templates"
)

// page parses the shipped template once. Text is always escaped: nothing but style sheets enters a
// page as anything but text.
var page = sync.OnceValues(func() (*template.Template, error) { return parsePage(nil) })

func parsePage(set *templates.Set) (*template.Template, error) {
	t := template.New("").Funcs(template.FuncMap{
		"kind": kindOf, "style": func() (template.CSS, error) { return styles(set) }, "shown": shown, "grid": gridOf, "picture": pictureOf, "graph": graphOf,
		"pack": func(v *view, what any) packed { return packed{v, what} },
		"row":  func(r htmlRow, columns int) numberedRow { return numberedRow{r, columns} },
	})
	return parseInto(t, set, "sheet.html.tmpl")
}

// HTML writes sheets as one self-contained page, each on paper of its own when it is printed: no
// script, no request to anywhere. The first sheet names the page.
func HTML(w io.Writer, first Sheet, more ...Sheet) error {
	t, err := first.Pages.of(first.Kind)
	if err != nil {
		return err
	}
	d := htmlPage{Lang: first.lang(), Title: shown(first.title()), Paper: first.Paper, Ref: shown(first.ref())}
	for i, s := range append([]Sheet{first}, more...) {
		d.Views = append(d.Views, &view{Sheet: s, W: wordsIn(s.Lang), N: i})
	}
	d.W = d.Views[0].W
	var out bytes.Buffer
	if err := t.ExecuteTemplate(&out, "sheet", d); err != nil {
		return err
	}
	_, err = w.Write(harmless(out.Bytes()))
	return err
}

// harmless takes control characters out of a page; words are without them already, ids are not.
func harmless(page []byte) []byte {
	return bytes.Map(func(r rune) rune {
		if steers(r) && r != '\n' && r != '\t' {
			return utf8.RuneError
		}
		return r
	}, page)
}

// htmlPage is what the template is given.
type htmlPage struct {
	Lang, Title, Ref string
	Paper            Paper
	W                ownWords
	Views            []*view
}

// Size is the name CSS has for the paper.
func (p htmlPage) Size() template.CSS { return template.CSS(p.Paper.CSS()) }

// view is a sheet with what only its page needs.
type view struct {
	Sheet
	W ownWords
	N int // of the sheet in the page, for ids that nobody else gives

	ids  int
	part bool // a heading of a part has been written
}

// Cells are the cells of the title block.
func (v *view) Cells() []Fact { return v.Sheet.cells() }

// Part notes that a heading of a part is written.
func (v *view) Part() string {
	v.part = true
	return ""
}

// Level is the level of a heading below a part: where there is no part yet it takes its place.
func (v *view) Level() int {
	if v.part {
		return 3
	}
	return 2
}

// NextID is an id no other element of the page has.
func (v *view) NextID() string {
	v.ids++
	return "s" + strconv.Itoa(v.N+1) + "-" + strconv.Itoa(v.ids)
}

// packed hands a part of the template the view beside what it shows.
type packed struct {
	V *view
	B any
}

// kindOf names a block for the template, which writes each kind its own way.
func kindOf(b Block) string {
	switch b.(type) {
	case Heading:
		return "heading"
	case Para:
		return "para"
	case List:
		return "list"
	case Facts:
		return "facts"
	case Table:
		return "table"
	case Figures:
		return "figures"
	case Notice:
		return "notice"
	case Choice:
		return "choice"
	case Signature:
		return "signature"
	case Picture:
		return "picture"
	case Pictures:
		return "pictures"
	case Chart:
		return "chart"
	case Lines:
		return "lines"
	case Keep:
		return "keep"
	}
	return "break"
}

// styles are the style sheets of a page: the tokens all pages share, and ours.
func styles(set *templates.Set) (template.CSS, error) {
	var all strings.Builder
	for _, name := range []string{"base.css", "sheet.css"} {
		css, err := set.Text(name)
		if err != nil {
			return "", err
		}
		all.WriteString(css)
	}
	return template.CSS(all.String()), nil // our own files or the shop's, not text from a note
}

// htmlGrid is a table cell by cell. The sums at its end stand in its foot.
type htmlGrid struct {
	Head       []htmlCell
	Rows, Foot []htmlRow
	Columns    int
	Class      string
	Shares     []int // of the line in percent, for columns of words; 0 for those of figures
}

type htmlRow struct {
	Class, ID string
	Cells     []htmlCell
	Working   *Working
}

// htmlCell is a cell with how it stands: its class, the columns it takes, the title of its column.
type htmlCell struct {
	Text  Text
	Bar   *htmlBar
	Class string
	Span  int
	Label string
	Head  bool // the head of its row
}

func gridOf(t Table) htmlGrid {
	g := htmlGrid{Columns: len(t.Columns), Class: "stack", Shares: t.shares()}
	if t.Close {
		g.Class += " close"
	}
	for _, c := range t.Columns {
		head := htmlCell{Text: Words(c.Title), Class: c.Align.class(), Span: 1}
		g.Head = append(g.Head, t.fitting(head, true))
	}
	last := len(t.Rows)
	for last > 0 && (t.Rows[last-1].Kind == Subtotal || t.Rows[last-1].Kind == Total) {
		last--
	}
	for i, r := range t.Rows {
		if row := htmlRowOf(&t, r); i < last {
			g.Rows = append(g.Rows, row)
		} else {
			g.Foot = append(g.Foot, row)
		}
	}
	return g
}

// shares are how much of the line each column of words has, where the table says so.
func (t *Table) shares() []int {
	sum, figures, said := 0, 0, false
	for _, c := range t.Columns {
		if c.Align == Right {
			figures++
		} else {
			sum += max(c.Width, 1)
		}
		said = said || c.Width > 0
	}
	if !said {
		return nil
	}
	out := make([]int, len(t.Columns))
	for i, c := range t.Columns {
		if c.Align != Right {
			out[i] = max(40, 100-11*figures) * max(c.Width, 1) / sum
		}
	}
	return out
}

// fitting marks a cell with a word so long that it may be broken for the table to fit. Other words
// stay whole, and figures stay on their line; the title of a column may take several.
func (t *Table) fitting(c htmlCell, title bool) htmlCell {
	const line = 72 // characters side by side that fit everywhere
	words, limit := c.Text.String(), max(8, line/len(t.Columns))
	if c.Span > 1 {
		limit = 28
	}
	wide := longest(words)
	if strings.HasPrefix(c.Class, Right.class()) && c.Span == 1 && !title {
		wide = columns.StringWidth(words)
	}
	if wide > limit {
		c.Class = strings.TrimSpace(c.Class + " long")
	}
	return c
}

func htmlRowOf(t *Table, r Row) htmlRow {
	row := htmlRow{ID: r.ID, Working: r.Working}
	row.Class = [...]string{"", "group", "subtotal", "total"}[r.Kind]
	if r.Working != nil {
		row.Class = strings.TrimSpace(row.Class + " has")
	}
	cells, spans := t.spread(r)
	at := 0
	for i, c := range cells {
		at += spans[i]
		column := t.Columns[at-1]
		cell := htmlCell{Text: c.Text, Span: spans[i], Class: column.Align.class(), Bar: htmlBarOf(c.Bar), Head: i == 0 && !c.Text.Empty()}
		switch {
		case r.Kind == Group:
			cell.Class = "all"
		case i > 0 && r.Kind == Body:
			cell.Label = shown(column.Title)
			if column.Align != Right && columns.StringWidth(c.Text.String()) > 24 {
				cell.Class = strings.TrimSpace(cell.Class + " wordy")
			}
		case spans[i] > 1:
			cell.Class = Right.class()
		}
		row.Cells = append(row.Cells, t.fitting(cell, false))
	}
	return row
}

func (a Align) class() string {
	switch a {
	case Right:
		return "n"
	case Center:
		return "mid"
	}
	return ""
}

// htmlBar is a drawn bar in units of which the whole is 100.
type htmlBar struct {
	Bar
	Box   int // width of the drawing, with what is beyond the whole
	Words string
}

func htmlBarOf(b *Bar) *htmlBar {
	if b == nil {
		return nil
	}
	c := b.within()
	return &htmlBar{Bar: c, Box: 102 + c.Over, Words: c.words()}
}

// within brings shares into what can be drawn: none below 0, no more than the whole, and no more
// than half of it beyond.
func (b Bar) within() Bar {
	b.Before = min(max(b.Before, 0), 100)
	b.Now = min(max(b.Now, 0), 100-b.Before)
	b.Over = min(max(b.Over, 0), 50)
	return b
}

// words says what a bar shows.
func (b Bar) words() string {
	said := strconv.Itoa(b.Before+b.Now) + " %"
	if b.Now > 0 && b.Before > 0 {
		said += ", " + strconv.Itoa(b.Now) + " % now"
	}
	if b.Over > 0 {
		said += ", more than booked"
	}
	return said
}

// htmlPicture is a picture as a page carries it.
type htmlPicture struct {
	Src           template.URL
	Alt, Missing  string
	Width, Height int
	Caption       Text
}

func pictureOf(p Picture) htmlPicture {
	h := htmlPicture{Alt: shown(p.Alt), Caption: p.Caption}
	ready, err := p.ready()
	if err != nil {
		h.Missing = err.Error()
		return h
	}
	h.Width, h.Height = ready.w, ready.h
	h.Src = template.URL("data:" + ready.mime() + ";base64," + base64.StdEncoding.EncodeToString(ready.bytes))
	return h
}

// numberedRow is a row with how many columns its table has.
type numberedRow struct {
	htmlRow
	Columns int
}

// graph is a chart as a page shows it: drawn for a wide screen and for a narrow one, and as a table.
type graph struct {
	ID, Title, Desc, Told string
	Drawn                 bool
	Wide, Narrow          drawing
	Table                 Table
}

// pageLetters is how much wider the letters of the widest font a page may get are than those measured.
const pageLetters = 1.2

func graphOf(c Chart) (graph, error) {
	m, err := newMeasure()
	if err != nil {
		return graph{}, err
	}
	g := graph{ID: c.ID, Title: shown(unit(c.Title, c.Unit)), Desc: shown(c.Desc), Told: c.told(), Table: c.numbers(), Drawn: c.drawn()}
	if g.Drawn {
		g.Wide, g.Narrow = c.draw(640, pageLetters, m), c.draw(350, pageLetters, m)
	}
	return g, nil
}
