package report

import (
	"cmp"
	"strconv"

	"jobday/notes"
	"jobday/review"
	"jobday/sheet"
)

// hours is booked labor against the clock, and the days whose note tells half.
func (v *reviewView) hours() []sheet.Block {
	var blocks []sheet.Block
	if len(v.Hours) > 0 {
		t := sheet.Table{Caption: "Booked labor against the clock, to the end of this time", Columns: []sheet.Column{
			{Title: "Job", Width: 4}, {Title: "Booked", Align: sheet.Right, Width: 2}, {Title: "Clock", Align: sheet.Right, Width: 2},
			{Title: "On booked lines", Align: sheet.Right, Width: 2}, {Title: "On extras", Align: sheet.Right, Width: 2},
			{Title: "On neither", Align: sheet.Right, Width: 2}, {Title: "Stands", Width: 2},
		}}
		for _, h := range v.Hours {
			stands := "under way"
			if h.Complete {
				stands = "complete"
			}
			t.Rows = append(t.Rows, sheet.Cells(h.Job+" "+h.Title, h.Booked.String(), h.Clock.String(),
				h.OnLines.String(), h.OnExtras.String(), h.Elsewhere.String(), stands))
		}
		blocks = append(blocks, sheet.Heading{Text: sheet.Words("Hours"), ID: "hours"}, t)
	}
	if len(v.Thin) == 0 {
		return blocks
	}
	t := sheet.Table{Caption: "Days whose note tells half", Columns: []sheet.Column{
		{Title: "Day", Width: 2}, {Title: "What is missing", Width: 4}, {Title: "Hours", Align: sheet.Right}, {Title: "Crew", Width: 3},
	}}
	for _, d := range v.Thin {
		row := sheet.Cells("", d.Why, d.Minutes.String(), list(d.Crew))
		row.Cells[0].Text = v.day(d.Job, d.Date)
		t.Rows = append(t.Rows, row)
	}
	return append(blocks, t)
}

// wordings is what was booked that extras keep growing from.
func (v *reviewView) wordings() []sheet.Block {
	if len(v.Wordings) == 0 {
		return nil
	}
	t := sheet.Table{Caption: "What was booked that extras grow from: word these lines closer next time", Columns: []sheet.Column{
		{Title: "About", Width: 2}, {Title: "Booked as", Width: 5}, {Title: "Extras", Align: sheet.Right},
		{Title: v.unit, Align: sheet.Right, Width: 2}, {Title: "Made of", Width: 3},
	}}
	for _, w := range v.Wordings {
		row := sheet.Cells(w.Thing, joined(w.Booked), strconv.Itoa(w.Extras), v.money(w.Amount))
		row.Cells = append(row.Cells, sheet.Cell{Text: v.days(w.Of)})
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{sheet.Heading{Text: sheet.Words("Booked wording"), ID: "wordings"}, t}
}

// joined puts booked lines in a row, at most five.
func joined(lines []string) string {
	const most = 5
	if len(lines) > most {
		return joined(lines[:most]) + "; and " + strconv.Itoa(len(lines)-most) + " more"
	}
	out := ""
	for i, l := range lines {
		if i > 0 {
			out += "; "
		}
		out += l
	}
	return out
}

// trend is the weeks; one week alone is none.
func (v *reviewView) trend() []sheet.Block {
	if len(v.Weeks) < 2 {
		return nil
	}
	c := sheet.Chart{
		Kind: sheet.Trend, ID: "weeks", Title: "Week by week", Unit: v.unit,
		Desc:   "What was found beyond scope in each week, and how much of it is billed or agreed by now.",
		Series: []sheet.Series{{Name: "found", Tone: sheet.Send}, {Name: "billed or agreed", Tone: sheet.Go}, {Name: "lost", Tone: sheet.Stop}},
	}
	t := &sheet.Table{Close: true, Columns: []sheet.Column{
		{Title: "Week from", Width: 2}, {Title: "Job-days", Align: sheet.Right}, {Title: "Clock", Align: sheet.Right, Width: 2},
		{Title: "Found", Align: sheet.Right, Width: 2}, {Title: "Billed or agreed", Align: sheet.Right, Width: 2},
		{Title: "Lost", Align: sheet.Right, Width: 2}, {Title: "Made of", Width: 4},
	}}
	for i, w := range v.Weeks {
		anchor := "week" + strconv.Itoa(i+1)
		value := func(m notes.Money) sheet.Value { return sheet.Value{Amount: m.Decimal(), Text: v.money(m)} }
		c.Groups = append(c.Groups, sheet.ChartGroup{Label: v.ShortDate(w.Monday), Href: "#" + anchor,
			Values: []sheet.Value{value(w.Found), value(w.Secured), value(w.Lost)}})
		row := sheet.Cells(v.longDate(w.Monday), strconv.Itoa(w.Days), w.Minutes.String(), v.money(w.Found), v.money(w.Secured), v.money(w.Lost))
		row.Cells = append(row.Cells, sheet.Cell{Text: v.days(w.Of)})
		row.ID = anchor
		t.Rows = append(t.Rows, row)
	}
	c.Numbers = t
	return []sheet.Block{sheet.Heading{Text: sheet.Words("Trend")}, c}
}

// everything is the extras the amounts are made of, the credits, and material billed to nobody.
func (v *reviewView) everything() []sheet.Block {
	blocks := []sheet.Block{sheet.Heading{Text: sheet.Words("Every extra"), ID: "extras"}}
	if len(v.Extras) == 0 {
		blocks = append(blocks, sheet.Para{Text: sheet.Words("None was written in this time.")})
	} else {
		blocks = append(blocks, v.extras())
	}
	if len(v.Loose) == 0 {
		return blocks
	}
	t := sheet.Table{Caption: "Material that no line and no extra took", Columns: []sheet.Column{
		{Title: "Day", Width: 2}, {Title: "What", Width: 4}, {Title: "Why", Width: 5}, {Title: v.unit, Align: sheet.Right, Width: 2},
	}}
	for _, l := range v.Loose {
		row := sheet.Cells("", l.What, l.Why, v.valued(l.Amount))
		row.Cells[0].Text = v.day(l.Job, l.Date)
		t.Rows = append(t.Rows, row)
	}
	return append(blocks, t)
}

func (v *reviewView) extras() sheet.Table {
	t := sheet.Table{Close: true, Columns: []sheet.Column{
		{Title: "Day", Width: 2}, {Title: "What", Width: 6}, {Title: "Brought about by", Width: 3},
		{Title: "Stands", Width: 3}, {Title: v.unit, Align: sheet.Right, Width: 2},
	}}
	for i, x := range v.Extras {
		row := sheet.Cells("", x.Work, x.Cause, v.stands(x), v.money(x.Amount))
		row.ID = extraAnchor(i)[1:]
		row.Cells[0].Text = v.day(x.Job, x.Found)
		t.Rows = append(t.Rows, row)
	}
	if v.Credits.Count > 0 {
		t.Rows = append(t.Rows, sheet.Sum(sheet.Subtotal, "Credits for booked work that was dropped", "-"+v.money(v.Credits.Amount)))
	}
	t.Rows = append(t.Rows, sheet.Sum(sheet.Total, "Found beyond scope, credits left out", v.money(v.Found)))
	return t
}

// stands says where an extra went, and that it was not done where that is so.
func (v *reviewView) stands(x review.Extra) string {
	said := string(x.Fate)
	if x.Cause == review.Dropped {
		said = cmp.Or(string(x.State), said)
	}
	if !x.Done && x.Cause != review.Dropped {
		said += ", not done"
	}
	return said
}
