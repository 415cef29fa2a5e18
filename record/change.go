package record

import (
	"jobday/finding"
	"jobday/notes"
)

// changeForm is the layout of an offer. The rows of all items stand in one table; distribute puts
// them where they belong after reading.
func changeForm(c *notes.ChangeOrder) form {
	rows := rowsOf(c)
	return form{
		kind: "change order", number: &c.Number,
		title: func() string { return "Change order " + c.Number + ", job " + c.Job + ": " + c.Title },
		fields: []field{
			{"number", &c.Number}, {"company", &c.Company}, {"job", &c.Job}, {"title", &c.Title},
			{"customer", &c.Customer}, {"site", &c.Site}, {"currency", &c.Currency}, {"offered", &c.Offered},
			{"by", &c.By}, {"valid", &c.Valid}, {"reason", &c.Reason}, {"effect", &c.Effect},
			{"excluded", &c.Excluded}, {"subtotal", &c.Subtotal}, {"total", &c.Total},
		},
		tables: []table{
			list("Items", []string{"Extra", "Work", "Where", "Found", "Done", "Amount"}, &c.Items, func(i *notes.ChangeItem) []any {
				return []any{&i.Extra, &i.Work, &i.Where, &i.Found, &i.Done, &i.Amount}
			}).placed(func(i int, at finding.Span) { c.Items[i].Span = at }),
			list("Price", []string{"Row", "Item", "What", "Basis", "Qty", "Unit", "Rate", "Amount", "Taxed"}, rows, func(r *itemRow) []any {
				return []any{&r.Row, &r.extra, &r.What, &r.Basis, &r.Qty, (*string)(&r.Unit), &r.Rate, &r.Amount, &r.Taxed}
			}).placed(func(i int, at finding.Span) { (*rows)[i].Span = at }),
			taxTable(&c.Tax), notesTable(&c.Notes), sourcesTable(&c.Sources),
		},
		finish: func() { distribute(c, *rows) },
	}
}

// itemRow is a row of a price with the extra it belongs to.
type itemRow struct {
	notes.ChangeRow
	extra string
}

func rowsOf(c *notes.ChangeOrder) *[]itemRow {
	var rows []itemRow
	for _, i := range c.Items {
		for _, r := range i.Rows {
			rows = append(rows, itemRow{r, i.Extra})
		}
	}
	return &rows
}

// distribute puts the rows read where they belong. A row of no item is left out, so that the sums
// no longer add up.
func distribute(c *notes.ChangeOrder, rows []itemRow) {
	for i := range c.Items {
		c.Items[i].Rows = nil
		for _, r := range rows {
			if r.extra == c.Items[i].Extra {
				c.Items[i].Rows = append(c.Items[i].Rows, r.ChangeRow)
			}
		}
	}
}

func answerForm(a *notes.ChangeAnswer) form {
	return form{
		kind: "answer to a change order", number: &a.Number,
		title: func() string { return "Change order " + a.Number + ": " + string(a.Kind) + " by " + a.Who },
		fields: []field{
			{"number", &a.Number}, {"answer", &a.Answer}, {"kind", (*string)(&a.Kind)}, {"who", &a.Who},
			{"how", &a.How}, {"at", &a.At}, {"evidence", &a.Evidence}, {"rows", &a.Rows},
			{"amount", &a.Amount}, {"by", &a.By},
		},
	}
}

func taxTable(tax *[]notes.TaxAmount) table {
	return list("Tax", []string{"Tax", "Percent", "On", "Amount"}, tax, func(t *notes.TaxAmount) []any {
		return []any{&t.Name, &t.Rate, &t.Base, &t.Amount}
	})
}

func notesTable(rows *[]notes.RecordNote) table {
	return list("Notes", []string{"Note", "SHA-256"}, rows, func(n *notes.RecordNote) []any {
		return []any{&n.File, &n.SHA256}
	})
}

func sourcesTable(rows *[]notes.SourceLine) table {
	return list("Lines it rests on", []string{"For", "Note", "Line", "Words"}, rows, func(s *notes.SourceLine) []any {
		return []any{&s.Ref, &s.File, &s.Line, &s.Text}
	})
}
