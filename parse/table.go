package parse

import (
	"bytes"
	"slices"
	"strings"

	"jobday/finding"
)

// A cell is one cell of a table: its text with escaped bars put back, and where it stands.
type cell struct {
	text string
	span finding.Span
}

// written reports whether the cell has any text.
func (c cell) written() bool { return c.text != "" }

// cellsOf splits a row of a table at its bars. A bar after a backslash belongs to the text. The
// bars at both ends part nothing.
func cellsOf(f *finding.File, start, end int) []cell {
	text := f.Text[start:end]
	if len(text) > 0 && text[0] == '|' {
		start, text = start+1, text[1:]
	}
	if n := len(text); n > 0 && text[n-1] == '|' && (n < 2 || text[n-2] != '\\') {
		text = text[:n-1]
	}
	var cells []cell
	from := 0
	for i := 0; i <= len(text); i++ {
		if i < len(text) && (text[i] != '|' || i > 0 && text[i-1] == '\\') {
			continue
		}
		a, b := trimBlanks(f.Text, start+from, start+i)
		c := cell{text: fold(string(f.Text[a:b])), span: f.Span(a, b)}
		if strings.Contains(c.text, `\|`) {
			c.text = strings.ReplaceAll(c.text, `\|`, "|")
		}
		cells = append(cells, c)
		from = i + 1
	}
	return cells
}

// mostColumns is how many columns a table may have: rows are filled up to the header's width, so
// the time to read a table grows with columns times rows.
const mostColumns = 64

// tooManyBars returns where a line with more bars than a table may have stands, and false when
// there is none.
func tooManyBars(f *finding.File) (finding.Span, bool) {
	at := 0
	for l := range bytes.Lines(f.Text) {
		if bytes.Count(l, []byte("|")) > mostColumns+1 {
			return f.Span(at, at+firstLineEnd(l)), true
		}
		at += len(l)
	}
	return finding.Span{}, false
}

// A columns says which column of a table holds what, by its header; -1 where there is none.
type columns struct {
	index map[string]int
	width int
}

// columnNames are the plain names of the columns, in lower case, and what each stands for.
var columnNames = map[string]string{
	"line": "line", "label": "line", "#": "line", "no": "line", "no.": "line", "item no": "line", "ref": "line",
	"work": "work", "description": "work", "task": "work", "scope": "work", "what": "work",
	"item": "item", "material": "item", "thing": "item",
	"qty": "qty", "quantity": "qty", "count": "qty", "qty.": "qty", "amount": "qty",
	"unit": "unit", "units": "unit", "u/m": "unit", "uom": "unit",
	"price": "price", "charge": "price",
	"hours": "hours", "hrs": "hours", "labor": "hours", "labour": "hours", "h": "hours",
}

// readHeader finds the columns wanted in the header of a table. A name that is none of them gives a
// finding; a name that stands twice holds where it stood first.
func readHeader(cells []cell, wanted []string, found *finding.List) columns {
	c := columns{index: map[string]int{}, width: len(cells)}
	for i, h := range cells {
		name := columnNames[strings.ToLower(strings.Trim(h.text, "*_:"))]
		if name == "item" && wanted[1] == "work" {
			name = "work"
		}
		if name == "work" && wanted[1] == "item" {
			name = "item"
		}
		if !slices.Contains(wanted, name) {
			if h.written() {
				found.Add(unknownColumn(h, wanted))
			}
			continue
		}
		if _, twice := c.index[name]; !twice {
			c.index[name] = i
		}
	}
	return c
}

func unknownColumn(h cell, wanted []string) finding.Finding {
	hint := "columns: " + strings.Join(wanted, ", ")
	if near := nearest(h.text, wanted); near != "" {
		hint = "did you mean " + quote(near) + "?"
	}
	return finding.Finding{
		Severity: finding.Error, Rule: "table/column", Span: h.span,
		Message: "unknown column " + quote(h.text), Hint: hint,
	}
}

// cell returns the cell of a row in the named column; an empty one when row or table have none.
func (c columns) cell(row []cell, name string) cell {
	if i, ok := c.index[name]; ok && i < len(row) {
		return row[i]
	}
	return cell{}
}

// checkWidth reports a row with another number of cells than the header.
func (c columns) checkWidth(row []cell, where finding.Span, found *finding.List) {
	if len(row) == c.width {
		return
	}
	what := "fewer"
	if len(row) > c.width {
		what = "more"
	}
	found.Add(finding.Finding{
		Severity: finding.Error, Rule: "table/cells", Span: where,
		Message: "this row has " + what + " cells than the header: " + count(len(row)) + " instead of " + count(c.width),
		Hint:    `part cells with |, and write \| for a bar inside one`,
	})
}
