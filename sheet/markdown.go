package sheet

import (
	"bytes"
	"io"
	"strconv"
	"strings"
)

// Markdown writes sheets to be sent as an e-mail: readable as it stands, in the form of CommonMark
// with the tables of GFM. Pictures are named, charts are their numbers.
func Markdown(w io.Writer, first Sheet, more ...Sheet) error {
	var out bytes.Buffer
	for i, s := range append([]Sheet{first}, more...) {
		if i > 0 {
			out.WriteString("\n---\n\n")
		}
		m := letterWriter{out: &out, words: wordsIn(s.Lang)}
		m.plate(&s)
		m.blocks(s.Blocks)
		for _, f := range s.Foot {
			m.part(escapedItem(f))
		}
	}
	_, err := w.Write(out.Bytes())
	return err
}

// letterWriter writes one sheet as Markdown.
type letterWriter struct {
	out   *bytes.Buffer
	words ownWords
}

// part writes a paragraph with a blank line before it.
func (m *letterWriter) part(text string) {
	if text == "" {
		return
	}
	if b := m.out.Bytes(); len(b) > 0 && !bytes.HasSuffix(b, []byte("\n\n")) {
		m.out.WriteByte('\n')
	}
	m.out.WriteString(text + "\n")
}

func (m *letterWriter) plate(s *Sheet) {
	m.part("# " + join(" ", escaped(s.Kind), escaped(s.Number)))
	var lines []string
	add := func(line string) {
		if line != "" {
			lines = append(lines, line)
		}
	}
	if s.Mark.Word != "" {
		add("**" + escaped(s.Mark.Word) + "**")
	}
	add(escapedItem(s.Title))
	if l := s.Letterhead; l.Name != "" {
		rest := append(append([]string{}, l.Address...), l.Contact)
		add(join(", ", append([]string{"**" + escaped(l.Name) + "**"}, escapedAll(append(rest, l.TaxNumbers...))...)...))
	}
	add(escapedItem(s.Edition))
	for _, f := range s.cells() {
		add(escapedItem(f.Label) + ": " + written(f.Value))
	}
	m.part(strings.Join(lines, "  \n"))
}

func (m *letterWriter) blocks(list []Block) {
	for _, b := range list {
		m.block(b)
	}
}

func (m *letterWriter) block(b Block) {
	switch b := b.(type) {
	case Heading:
		m.part(strings.Repeat("#", 2+btoi(b.Sub)) + " " + join(": ", written(b.Text), escaped(b.Right)))
	case Para:
		m.part(item(b.Text))
	case List:
		m.list(b)
	case Facts:
		m.facts(b.Rows)
	case Table:
		m.table(&b)
	case Figures:
		m.figures(b)
	case Notice:
		m.notice(b)
	case Choice:
		m.choice(b)
	case Signature:
		m.signature(b)
	case Picture:
		m.picture(b)
	case Pictures:
		for _, p := range b.List {
			m.picture(p)
		}
	case Chart:
		m.part("### " + escaped(unit(b.Title, b.Unit)))
		m.part(escapedItem(b.Desc))
		t := b.numbers()
		m.table(&t)
	case Lines:
		m.lines(b)
	case Keep:
		m.blocks(b.Blocks)
	}
}

func (m *letterWriter) list(b List) {
	var lines []string
	for i, t := range b.Items {
		mark := "-"
		if b.Ordered {
			mark = strconv.Itoa(i+1) + "."
		}
		lines = append(lines, mark+" "+item(t))
	}
	m.part(strings.Join(lines, "\n"))
}

func (m *letterWriter) facts(rows []Fact) {
	var lines []string
	for _, f := range rows {
		lines = append(lines, "- "+join(": ", escapedItem(f.Label), written(f.Value)))
	}
	m.part(strings.Join(lines, "\n"))
}

func (m *letterWriter) figures(b Figures) {
	var lines []string
	for _, f := range b.Cells {
		lines = append(lines, "- "+join(" ", escapedItem(f.Label)+":", bold(escaped(f.Big)), escaped(f.Small)))
		for _, i := range f.Items {
			lines = append(lines, "  - "+join(": ", item(i.Text), written(i.Right)))
			if !i.Below.Empty() {
				lines = append(lines, "    "+item(i.Below))
			}
		}
		if f.None != "" {
			lines = append(lines, "  "+escapedItem(f.None))
		}
	}
	m.part(strings.Join(lines, "\n"))
}

func bold(text string) string {
	if text == "" {
		return ""
	}
	return "**" + text + "**"
}

func (m *letterWriter) notice(b Notice) {
	lines := []string{"> " + bold(join(": ", escaped(strings.ToUpper(b.Word)), escaped(b.Title)))}
	for _, t := range b.Text {
		lines = append(lines, ">", "> "+item(t))
	}
	m.part(strings.Join(lines, "\n"))
}

func (m *letterWriter) choice(b Choice) {
	lines := []string{escapedItem(b.Label), ""}
	for _, o := range b.Options {
		lines = append(lines, "- ["+[]string{" ", "x"}[btoi(o.Chosen)]+"] "+escapedItem(o.Text))
	}
	m.part(strings.Join(lines, "\n"))
}

func (m *letterWriter) signature(b Signature) {
	if b.Title != "" {
		m.part("## " + escaped(b.Title))
	}
	m.part(item(b.Statement))
	const blank = "______________________________"
	line := func(label, said string) string {
		if said == "" {
			return "- " + escaped(label) + ": " + blank
		}
		return "- " + escaped(label) + ": " + escaped(said)
	}
	for _, p := range b.Parties {
		second := line(m.words.Signature, "")
		if p.How != "" {
			second = line(m.words.How, p.How)
		}
		m.part(bold(escaped(p.Role)) + "\n\n" + line(m.words.Name, p.Name) + "\n" + second + "\n" + line(m.words.Date, p.Date))
	}
}

func (m *letterWriter) picture(p Picture) {
	text := escapedItem(p.Alt)
	if _, err := p.ready(); err != nil {
		text = escaped(m.words.NotShown) + ": " + escaped(p.Alt) + " (" + escaped(err.Error()) + ")"
	}
	m.part("- " + join(": ", text, written(p.Caption)))
}

func (m *letterWriter) lines(b Lines) {
	if b.Name != "" {
		m.part("### " + escaped(b.Name))
	}
	width := len(strconv.Itoa(len(b.Rows)))
	var lines []string
	for _, r := range b.Rows {
		line := pad(strconv.Itoa(r.N), width, Right) + "  " + shown(r.Text)
		if r.Fate != "" {
			line += "  (" + shown(r.Fate) + ")"
		}
		lines = append(lines, "    "+strings.TrimRight(line, " "))
	}
	m.part(strings.Join(lines, "\n"))
}

// table writes a table whose columns stand below each other as plain text too. How the figures of
// a row came about follows the table.
func (m *letterWriter) table(t *Table) {
	if len(t.Columns) == 0 {
		return
	}
	m.part(escapedItem(t.Caption))
	head := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		head[i] = written(Words(c.Title))
	}
	rows := [][]string{head}
	for _, r := range t.Rows {
		rows = append(rows, m.row(t, r))
	}
	width := make([]int, len(head))
	for _, r := range rows {
		for i, c := range r {
			width[i] = min(max(width[i], columns.StringWidth(c), 3), 60)
		}
	}
	var out []string
	for i, r := range rows {
		line := "|"
		for j, c := range r {
			line += " " + pad(c, width[j], t.Columns[j].Align) + " |"
		}
		out = append(out, line)
		if i == 0 {
			out = append(out, rule(t, width))
		}
	}
	m.part(strings.Join(out, "\n"))
	m.workings(t)
}

func rule(t *Table, width []int) string {
	line := "|"
	for j, c := range t.Columns {
		dash := strings.Repeat("-", width[j])
		switch c.Align {
		case Right:
			line += " " + dash + ":|"
		case Center:
			line += ":" + dash + ":|"
		default:
			line += " " + dash + " |"
		}
	}
	return line
}

func (m *letterWriter) row(t *Table, r Row) []string {
	out := make([]string, len(t.Columns))
	cells, spans := t.spread(r)
	at := 0
	for i, c := range cells {
		text := written(c.Text)
		if c.Bar != nil {
			text = join(" ", text, c.Bar.drawnBar())
		}
		if r.Kind == Total || r.Kind == Group {
			text = bold(text)
		}
		out[at] = text
		if at += spans[i]; r.Kind == Subtotal || r.Kind == Total {
			at = len(t.Columns) - 1 // the sum stands below what it sums
		}
		if i+1 == len(cells) {
			break
		}
	}
	return out
}

func (m *letterWriter) workings(t *Table) {
	var lines []string
	for _, r := range t.Rows {
		if r.Working == nil {
			continue
		}
		of := r.Working.Label
		if of == "" {
			of = m.words.Working
		}
		if len(r.Cells) > 0 && r.Working.Label == "" {
			of += ", " + r.Cells[0].Text.String()
		}
		lines = append(lines, "- "+escapedItem(of))
		for _, t := range r.Working.Lines {
			lines = append(lines, "  - "+item(t))
		}
	}
	m.part(strings.Join(lines, "\n"))
}
