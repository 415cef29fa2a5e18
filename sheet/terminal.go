package sheet

import (
	"bytes"
	"io"
	"strconv"
	"strings"
)

// TextOptions says how a sheet looks on a terminal.
type TextOptions struct {
	Color bool // bold and dim letters
	Width int  // columns of the terminal; 0 for 80, at least 40
}

// TextTo writes sheets for a terminal or any place without form: aligned columns, no line wider
// than Width.
func TextTo(w io.Writer, opt TextOptions, sheets ...Sheet) error {
	if opt.Width == 0 {
		opt.Width = 80
	}
	var out bytes.Buffer
	for i, s := range sheets {
		if i > 0 {
			out.WriteString("\n" + strings.Repeat("=", max(opt.Width, 40)) + "\n\n")
		}
		t := terminal{out: &out, opt: opt, width: max(opt.Width, 40), words: wordsIn(s.Lang)}
		t.plate(&s)
		t.blocks(s.Blocks)
		for _, f := range s.Foot {
			t.gap()
			t.wrapped("", shown(f))
		}
	}
	_, err := w.Write(out.Bytes())
	return err
}

// terminal writes one sheet.
type terminal struct {
	out   *bytes.Buffer
	opt   TextOptions
	width int
	words ownWords
}

func (t *terminal) line(s string) { t.out.WriteString(strings.TrimRight(s, " ") + "\n") }

func (t *terminal) gap() {
	if b := t.out.Bytes(); len(b) > 0 && !bytes.HasSuffix(b, []byte("\n\n")) {
		t.out.WriteByte('\n')
	}
}

func (t *terminal) strong(s string) string {
	if !t.opt.Color || s == "" {
		return s
	}
	return "\x1b[1m" + s + "\x1b[0m"
}

// wrapped writes words behind a lead, further lines below the first word.
func (t *terminal) wrapped(lead, words string) {
	in := columns.StringWidth(lead)
	for i, l := range Wrap(words, max(t.width-in, 12)) {
		if i > 0 {
			lead = strings.Repeat(" ", in)
		}
		t.line(lead + l)
	}
}

// ends writes words at both ends of a line, or below each other where it is too short.
func (t *terminal) ends(left, right string, loud bool) {
	paint := func(s string) string {
		if loud {
			return t.strong(s)
		}
		return s
	}
	if room := t.width - columns.StringWidth(left) - columns.StringWidth(right); room >= 2 && right != "" {
		t.line(paint(left) + strings.Repeat(" ", room) + paint(right))
		return
	}
	for _, s := range []string{left, right} {
		if s != "" {
			for _, l := range Wrap(s, t.width) {
				t.line(paint(l))
			}
		}
	}
}

func (t *terminal) plate(s *Sheet) {
	t.ends(shown(join(" ", s.Kind, s.Number)), shown(join(", ", s.Mark.Word, s.Edition)), true)
	if s.Title != "" {
		t.wrapped("", shown(s.Title))
	}
	if l := s.Letterhead; l.Name != "" {
		rest := append(append([]string{l.Name}, l.Address...), l.Contact)
		t.wrapped("", shown(join(", ", append(rest, l.TaxNumbers...)...)))
	}
	t.facts(s.cells())
}

func (t *terminal) facts(list []Fact) {
	wide := 0
	for _, f := range list {
		wide = max(wide, columns.StringWidth(shown(f.Label)))
	}
	wide = min(wide, t.width/3)
	for _, f := range list {
		label := Wrap(shown(f.Label), wide)
		for _, l := range label[:len(label)-1] {
			t.line(l)
		}
		t.wrapped(pad(label[len(label)-1], wide, Left)+"  ", f.Value.String())
	}
}

func (t *terminal) blocks(list []Block) {
	for _, b := range list {
		t.block(b)
	}
}

func (t *terminal) block(b Block) {
	if k, ok := b.(Keep); ok {
		t.blocks(k.Blocks)
		return
	}
	if _, ok := b.(PageBreak); !ok {
		t.gap()
	}
	switch b := b.(type) {
	case Heading:
		t.heading(b)
	case Para:
		t.wrapped("", b.Text.String())
	case List:
		t.list(b)
	case Facts:
		t.facts(b.Rows)
	case Table:
		t.table(&b)
	case Figures:
		t.figures(b)
	case Notice:
		t.wrapped("! ", join(": ", strings.ToUpper(shown(b.Word)), shown(b.Title)))
		for _, p := range b.Text {
			t.wrapped("  ", p.String())
		}
	case Choice:
		t.choice(b)
	case Signature:
		t.signature(b)
	case Picture:
		t.picture(b)
	case Pictures:
		for _, p := range b.List {
			t.picture(p)
		}
	case Chart:
		t.chart(&b)
	case Lines:
		t.lines(b)
	}
}

func (t *terminal) heading(b Heading) {
	t.ends(b.Text.String(), shown(b.Right), true)
	if !b.Sub {
		t.line(strings.Repeat("-", min(t.width, max(columns.StringWidth(b.Text.String()), t.width*btoi(b.Right != "")))))
	}
}

func (t *terminal) list(b List) {
	for i, item := range b.Items {
		mark := "- "
		if b.Ordered {
			mark = strconv.Itoa(i+1) + ". "
		}
		t.wrapped(mark, item.String())
	}
}

func (t *terminal) figures(b Figures) {
	for i, f := range b.Cells {
		if i > 0 {
			t.gap()
		}
		t.ends(shown(f.Label), shown(join(" ", f.Big, f.Small)), true)
		for _, item := range f.Items {
			t.item(item)
		}
		if f.None != "" {
			t.wrapped("  ", shown(f.None))
		}
	}
}

// item writes a line of a list with its figure at the end of the line.
func (t *terminal) item(i Item) {
	right := i.Right.String()
	if columns.StringWidth(right) > t.width/2 {
		t.wrapped("  ", i.Text.String())
		t.wrapped("    ", right)
		right, i.Text = "", nil
	}
	room := max(t.width-4-columns.StringWidth(right), 12)
	for n, l := range Wrap(i.Text.String(), room) {
		if l == "" && right == "" {
			break
		}
		if n > 0 || right == "" {
			t.line("  " + l)
			continue
		}
		t.line("  " + pad(l, room, Left) + "  " + right)
	}
	if !i.Below.Empty() {
		t.wrapped("    ", i.Below.String())
	}
}

func (t *terminal) choice(b Choice) {
	if b.Label != "" {
		t.wrapped("", shown(b.Label))
	}
	for _, o := range b.Options {
		t.wrapped([]string{"[ ] ", "[x] "}[btoi(o.Chosen)], shown(o.Text))
	}
}

func (t *terminal) signature(b Signature) {
	if b.Title != "" {
		t.heading(Heading{Text: Words(b.Title)})
	}
	if !b.Statement.Empty() {
		t.wrapped("", b.Statement.String())
	}
	for _, p := range b.Parties {
		t.gap()
		t.wrapped("", shown(p.Role))
		rows := []Fact{{t.words.Name, blank(p.Name)}, {t.words.Signature, blank("")}, {t.words.Date, blank(p.Date)}}
		if p.How != "" {
			rows[1] = Fact{t.words.How, Words(p.How)}
		}
		t.facts(rows)
	}
}

// blank is what was filled in, or a line to fill in.
func blank(said string) Text {
	if said == "" {
		return Words("________________________")
	}
	return Words(said)
}

func (t *terminal) picture(p Picture) {
	if _, err := p.ready(); err != nil {
		t.wrapped("", shown(t.words.NotShown+": "+p.Alt+" ("+err.Error()+")"))
	} else {
		t.wrapped("", shown(p.Alt))
	}
	if !p.Caption.Empty() {
		t.wrapped("  ", p.Caption.String())
	}
}

// chart writes the numbers of a chart, with bars of characters where it is bars.
func (t *terminal) chart(c *Chart) {
	t.heading(Heading{Text: Words(unit(c.Title, c.Unit)), Sub: true})
	if c.Desc != "" {
		t.wrapped("", shown(c.Desc))
	}
	table := c.numbers()
	t.table(&table)
}

func (t *terminal) lines(b Lines) {
	if b.Name != "" {
		t.ends(shown(b.Name), "", true)
	}
	for _, r := range b.Rows {
		t.wrapped(pad(strconv.Itoa(r.N), 4, Right)+"  ", join("  ", shown(r.Text), inParentheses(shown(r.Fate))))
	}
}

func inParentheses(s string) string {
	if s == "" {
		return ""
	}
	return "(" + s + ")"
}
