package report

import (
	"jobday/notes"
	"jobday/restock"
	"jobday/sheet"
)

// RestockSheet lays out what was used, to be taken to the supply house. The company may be nil.
func RestockSheet(l *restock.List, c *notes.Company) sheet.Sheet {
	f := figuresOf(c)
	s := sheet.Sheet{
		Kind: "Restock list", Title: f.dates(l.Since, l.Until), Edition: "internal, shows costs", Date: l.Until,
		Letterhead: sheet.Letters(c),
		Facts: []sheet.Fact{
			{Label: "Looked over", Value: sheet.Words(plural(l.Days, "day") + " with notes")},
		},
	}
	table := sheet.Table{}
	for i, title := range restockHead(l.Currency) {
		col := sheet.Column{Title: capital(title), Width: []int{3, 8, 3, 3, 4, 3, 3}[i]}
		if i > 1 && i < 6 {
			col.Align = sheet.Right
		}
		table.Columns = append(table.Columns, col)
	}
	for _, r := range l.Rows {
		table.Rows = append(table.Rows, sheet.Cells(f.restockCells(r)...))
	}
	if len(l.Rows) == 0 {
		s.Blocks = append(s.Blocks, sheet.Para{Text: sheet.Words("Nothing of the price list was used in these days.")})
	} else {
		s.Blocks = append(s.Blocks, table, sheet.Para{Text: sheet.Strong(f.restockSum(l))})
	}
	for _, part := range f.restockParts(l) {
		s.Blocks = append(s.Blocks, sheet.Heading{Text: sheet.Words(part.title), Sub: true}, listOf(part.lines))
	}
	return s
}
