package sheet

import "strings"

// table writes aligned columns. Columns of figures get what they need; the others share the rest
// and break their words.
func (t *terminal) table(b *Table) {
	if len(b.Columns) == 0 {
		return
	}
	if b.Caption != "" {
		t.wrapped("", shown(b.Caption))
	}
	width := t.widths(b)
	head := make([]Cell, len(b.Columns))
	ones := make([]int, len(head))
	for i, c := range b.Columns {
		head[i].Text, ones[i] = Words(c.Title), 1
	}
	t.row(b, width, head, ones)
	total := len(width)*2 - 2
	for _, w := range width {
		total += w
	}
	t.line(strings.Repeat("-", min(total, t.width)))
	for i, r := range b.Rows {
		cells, spans := b.spread(r)
		if r.Kind == Total || (r.Kind == Subtotal && i > 0 && b.Rows[i-1].Kind == Body) {
			t.line(strings.Repeat(" ", total-width[len(width)-1]) + strings.Repeat("-", width[len(width)-1]))
		}
		if r.Kind == Group {
			t.gap()
			t.wrapped("", cells[0].words())
			continue
		}
		t.row(b, width, cells, spans)
		if r.Working != nil {
			t.working(r.Working)
		}
	}
}

func (t *terminal) working(w *Working) {
	label := w.Label
	if label == "" {
		label = t.words.Working
	}
	t.wrapped("    ", shown(label)+":")
	for _, l := range w.Lines {
		t.wrapped("      ", l.String())
	}
}

// row writes the cells of a row beside each other, broken into lines where they are too long.
func (t *terminal) row(b *Table, width []int, cells []Cell, spans []int) {
	set, wide, align := make([][]string, len(cells)), make([]int, len(cells)), make([]Align, len(cells))
	most, at := 1, 0
	for i, c := range cells {
		for range spans[i] {
			wide[i] += width[at] + 2
			at++
		}
		wide[i] -= 2
		align[i] = b.Columns[at-1].Align
		if spans[i] > 1 {
			align[i] = Right
		}
		set[i] = Wrap(c.words(), wide[i])
		most = max(most, len(set[i]))
	}
	for n := range most {
		var line strings.Builder
		for i := range cells {
			if i > 0 {
				line.WriteString("  ")
			}
			word := ""
			if n < len(set[i]) {
				word = set[i][n]
			}
			line.WriteString(pad(word, wide[i], align[i]))
		}
		t.line(line.String())
	}
}

// widths measures the columns and brings them down to the width of the terminal: the widest column of
// words gives way first, then any.
func (t *terminal) widths(b *Table) []int {
	width := make([]int, len(b.Columns))
	for i, c := range b.Columns {
		width[i] = longest(shown(c.Title))
	}
	for _, r := range b.Rows {
		cells, spans := b.spread(r)
		for i, c := range cells {
			if spans[i] == 1 && len(cells) == len(width) {
				width[i] = max(width[i], columns.StringWidth(c.words()))
			} else if i == len(cells)-1 && r.Kind != Group {
				width[len(width)-1] = max(width[len(width)-1], columns.StringWidth(c.words()))
			}
		}
	}
	over := 2*len(width) - 2 - t.width
	for _, w := range width {
		over += w
	}
	for ; over > 0; over-- {
		give := widest(width, 12, func(i int) bool { return b.Columns[i].Align != Right })
		if give < 0 {
			give = widest(width, 2, func(int) bool { return true })
		}
		if give < 0 {
			break
		}
		width[give]--
	}
	return width
}

// widest is the widest column above a width among those that may give way, or -1.
func widest(width []int, above int, may func(int) bool) int {
	give := -1
	for i, w := range width {
		if w > above && may(i) && (give < 0 || w > width[give]) {
			give = i
		}
	}
	return give
}

// longest is the width of the longest word.
func longest(words string) int {
	most := 0
	for _, w := range strings.FieldsFunc(words, isBlank) {
		most = max(most, columns.StringWidth(w))
	}
	return most
}
