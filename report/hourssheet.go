package report

import (
	"jobday/hours"
	"jobday/notes"
	"jobday/sheet"
)

// HoursSheet lays out a time sheet: each week's people and jobs by day, the labor of every line
// against its booked hours, what to look at, and the place to sign. The company may be nil.
func HoursSheet(t *hours.TimeSheet, c *notes.Company) sheet.Sheet {
	f := figuresOf(c)
	s := sheet.Sheet{
		Kind: "Time sheet", Title: f.dates(t.Since, t.Until), Edition: "internal, shows costs", Date: t.Until,
		Letterhead: sheet.Letters(c),
	}
	if len(t.Weeks) == 0 {
		s.Blocks = append(s.Blocks, sheet.Para{Text: sheet.Words("No hours are written in these days.")})
	}
	for _, w := range t.Weeks {
		s.Blocks = append(s.Blocks, sheet.Heading{Text: sheet.Words(weekName(f.dates(w.Starts, w.Ends), w.Cut))}, f.weekTable(w, t.Currency))
	}
	if len(t.Lines) > 0 {
		s.Blocks = append(s.Blocks, sheet.Heading{Text: sheet.Words("Labor against booked hours")}, f.lineTable(t))
	}
	for _, part := range hoursRemarks(t) {
		s.Blocks = append(s.Blocks, sheet.Keep{Blocks: []sheet.Block{
			sheet.Heading{Text: sheet.Words(part.title), Sub: true}, listOf(part.lines),
		}})
	}
	s.Blocks = append(s.Blocks, sheet.Signature{
		Title: "Checked", Statement: sheet.Words("These are the hours worked."),
		Parties: []sheet.Party{{Role: "Foreman"}, {Role: "Office"}},
	})
	return s
}

func listOf(lines []string) sheet.List {
	l := sheet.List{}
	for _, line := range lines {
		l.Items = append(l.Items, sheet.Words(line))
	}
	return l
}

// weekTable is one week; its days and sums are figures.
func (f figures) weekTable(w hours.Week, currency string) sheet.Table {
	rows := dropEmpty(f.weekRows(w, currency), 9, 10)
	t := sheet.Table{Close: true}
	for i, title := range rows[0].cells {
		c := sheet.Column{Title: capital(title), Align: sheet.Right, Width: 3}
		switch {
		case i == 0:
			c.Align, c.Width = sheet.Left, 10
		case i > 7:
			c.Width = 4
		}
		t.Columns = append(t.Columns, c)
	}
	for _, r := range rows[1:] {
		row := sheet.Row{}
		for _, c := range r.cells {
			text := sheet.Words(c)
			if r.sum && c != "" {
				text = sheet.Strong(c)
			}
			row.Cells = append(row.Cells, sheet.Cell{Text: text})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (f figures) lineTable(t *hours.TimeSheet) sheet.Table {
	table := sheet.Table{Close: true}
	for i, title := range lineHead(t.Currency) {
		c := sheet.Column{Title: capital(title), Align: sheet.Right, Width: 3}
		if i < 3 {
			c.Align, c.Width = sheet.Left, []int{2, 8, 8}[i]
		}
		table.Columns = append(table.Columns, c)
	}
	for _, l := range t.Lines {
		table.Rows = append(table.Rows, sheet.Cells(f.lineCells(l)...))
	}
	return table
}
