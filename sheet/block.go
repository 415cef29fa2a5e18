package sheet

// Block is a part of a sheet: Heading, Para, List, Facts, Table, Figures, Notice, Choice, Signature,
// Picture, Pictures, Chart, Lines, Keep or PageBreak.
type Block interface{ block() }

// Heading begins a part. It never stands at the foot of a page.
type Heading struct {
	Text  Text
	Sub   bool   // a heading below another
	ID    string // where links lead, unique in the sheet; "" for none
	Right string // at the other end of the line: an amount, a state; "" for none
}

// Para is a paragraph.
type Para struct {
	Text Text
	ID   string
}

// List is items, one below the other.
type List struct {
	Items   []Text
	Ordered bool
}

// Facts is labels with what each says, one below the other.
type Facts struct{ Rows []Fact }

// Table is rows and columns. Its head is repeated on every page, and a sum never stands alone there.
type Table struct {
	Caption string
	Columns []Column
	Rows    []Row
	// Close writes the rows in small letters: many columns, or rows to look things up in.
	Close bool
}

// Column is a column of a table.
type Column struct {
	Title string
	Align Align
	Width int // share of the line against the other columns; 0 is 1
}

// Align is where the words of a column stand.
type Align int

// The alignments.
const (
	Left  Align = iota
	Right       // figures
	Center
)

// RowKind says what a row of a table is.
type RowKind int

// The kinds of row.
const (
	Body     RowKind = iota
	Group            // names the rows below it; its first cell has the whole line
	Subtotal         // a sum on the way; all cells but the last are one
	Total            // the sum; all cells but the last are one
)

// Row is a row of a table, with a cell for each column. Missing cells are empty. A Subtotal or
// Total has two cells: what is summed, and the sum.
type Row struct {
	Kind  RowKind
	ID    string
	Cells []Cell
	// Working is how the figures of the row came about. On screen it unfolds; on paper it is small
	// lines below the row.
	Working *Working
}

// Cell is a cell of a table.
type Cell struct {
	Text Text
	Bar  *Bar // a small drawn bar below the words; nil for none
}

// Bar is progress: of the whole, so much was there before, so much came now, so much is beyond.
// All are shares in percent of the whole, which is 100; 0 for none.
type Bar struct{ Before, Now, Over int }

// Working is how a figure came about.
type Working struct {
	Label string // what it unfolds from: "Working of 128.40"
	Lines []Text
}

// Cells is a row of plain words.
func Cells(words ...string) Row {
	r := Row{Cells: make([]Cell, len(words))}
	for i, w := range words {
		r.Cells[i].Text = Words(w)
	}
	return r
}

// Sum is a row with a sum: what is summed, and the sum.
func Sum(kind RowKind, what, sum string) Row {
	r := Cells(what, sum)
	r.Kind = kind
	return r
}

// Figures is a few figures to be seen first, side by side in ruled cells.
type Figures struct{ Cells []Figure }

// Figure is one of them, and what it is made of.
type Figure struct {
	Label string
	Href  string // where the rest is, or ""
	Big   string // "1,284.60"
	Small string // "USD, with tax"
	Tone  Tone
	Items []Item
	None  string // a sentence instead of items
}

// Item is a line of a list with a figure at its end and words below it.
type Item struct {
	Text  Text
	Right Text
	Below Text
}

// Notice is something the reader must not miss.
type Notice struct {
	Tone  Tone
	Word  string // how grave: "danger"
	Title string
	Text  []Text // paragraphs
	ID    string
}

// Choice is answers to mark with a pen, or marked already.
type Choice struct {
	Label   string
	Options []Option
}

// Option is one answer.
type Option struct {
	Text   string
	Chosen bool
}

// Signature is where parties put their names. It is never parted, nor alone on a page.
type Signature struct {
	Title     string // "Agreed"
	Statement Text   // what a signature means
	Parties   []Party
}

// Party is one who signs. Name and Date are blank lines to be filled by hand when they are "".
type Party struct {
	Role string // "For Amsel Bakery"
	Name string
	Date string
	How  string // how it was given when it was not by hand: "text message, 11:20"
}

// Picture is a photograph or drawing, PNG or JPEG, at most maxPixels. One that cannot be shown is
// named in words instead.
type Picture struct {
	Bytes   []byte
	Alt     string // what is to be seen; required
	Caption Text
	Missing string // why there are no bytes: "file not found"; "" when there are
}

// Pictures is photographs side by side.
type Pictures struct{ List []Picture }

// Lines is a text as it was written, line by line, with numbers, so that a figure can lead to its line.
type Lines struct {
	Name string // of the file
	ID   string
	Rows []Line
}

// Line is one line of it.
type Line struct {
	N    int
	ID   string
	Text string
	Fate string // what became of it, in the margin
}

// Keep is blocks that stay together on a page where they fit on one.
type Keep struct{ Blocks []Block }

// PageBreak begins a new page on paper.
type PageBreak struct{}

func (Heading) block()   {}
func (Para) block()      {}
func (List) block()      {}
func (Facts) block()     {}
func (Table) block()     {}
func (Figures) block()   {}
func (Notice) block()    {}
func (Choice) block()    {}
func (Signature) block() {}
func (Picture) block()   {}
func (Pictures) block()  {}
func (Lines) block()     {}
func (Keep) block()      {}
func (PageBreak) block() {}

// spread returns the cells of a row, one for each column, and how many columns each takes.
func (t *Table) spread(r Row) (cells []Cell, spans []int) {
	n := len(t.Columns)
	switch {
	case n == 0:
		return nil, nil
	case r.Kind == Group && len(r.Cells) > 0:
		return r.Cells[:1], []int{n}
	case (r.Kind == Subtotal || r.Kind == Total) && len(r.Cells) == 2 && n > 2:
		return r.Cells, []int{n - 1, 1}
	}
	for i := range n {
		c := Cell{}
		if i < len(r.Cells) {
			c = r.Cells[i]
		}
		cells, spans = append(cells, c), append(spans, 1)
	}
	return cells, spans
}
