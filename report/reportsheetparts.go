package report

import (
	"cmp"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/sheet"
	"jobday/trade"
)

// scope is how every booked line stands.
func (d dayView) scope() []sheet.Block {
	if len(d.Day.Scope) == 0 {
		return none("Scope standing", "scope")
	}
	t := sheet.Table{Close: true, Columns: []sheet.Column{
		{Title: "Line"}, {Title: "Work", Width: 6}, {Title: "Progress", Width: 3}, {Title: "Booked", Align: sheet.Right}, {Title: "Today", Align: sheet.Right},
		{Title: "To date", Align: sheet.Right}, {Title: "Left", Align: sheet.Right}, {Title: "Over", Align: sheet.Right}, {Title: "Price", Align: sheet.Right}, {Title: "Ready", Align: sheet.Right},
	}}
	for _, l := range d.Day.Scope {
		row := sheet.Cells(l.Line, "", LineState(l), strings.TrimSpace(d.number(l.Booked.Qty)+" "+string(l.Booked.Unit)), d.number(l.Today), d.number(l.ToDate),
			d.number(l.Left), d.number(l.Over), d.PriceOf(l), d.money(l.Ready))
		row.Cells[1].Text = sheet.Join(" ", d.with(l.Work, l.From), sheet.Aside(after("Hours: ", LineHours(l.Hours))))
		row.Cells[2].Bar = barOf(l)
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{part("Scope standing", "scope"), t}
}

func (d dayView) work() []sheet.Block {
	var items []sheet.Text
	for _, e := range d.Work() {
		items = append(items, sheet.Join(" ", sheet.Strong(list(e.Lines)), sheet.Words(e.Text), sheet.Aside(workBy(e)), d.refs([]notes.Source{e.Source})))
	}
	return listed("Work done today", "work", items)
}

// listed is a part that is a list.
func listed(title, id string, items []sheet.Text) []sheet.Block {
	if len(items) == 0 {
		return none(title, id)
	}
	return []sheet.Block{part(title, id), sheet.List{Items: items}}
}

// faults is what is wrong with the installation, with its photographs.
func (d dayView) faults() []sheet.Block {
	if len(d.Day.Deficiencies) == 0 {
		return none("Deficiencies", "deficiencies")
	}
	blocks := []sheet.Block{part("Deficiencies", "deficiencies")}
	for i, f := range d.Day.Deficiencies {
		state := sheet.Hold
		if f.State == notes.FaultCorrected {
			state = sheet.Go
		}
		title := sheet.Join(" ", sheet.Words(strconv.Itoa(i+1)+". "+cmp.Or(f.Title, f.Text)), sheet.Label(string(f.Severity), toneOfSeverity(f.Severity)),
			sheet.Label(cmp.Or(string(f.State), "found"), state), d.refs(f.From))
		blocks = append(blocks, sheet.Heading{Sub: true, ID: "def-" + strconv.Itoa(i+1), Text: title}, sheet.Facts{Rows: faultFacts(f)})
		if c := (customerView(d)); len(f.Photo) > 0 {
			blocks = append(blocks, c.pictures(f)...)
		}
	}
	return blocks
}

func faultFacts(f notes.DeficiencyRecord) []sheet.Fact {
	var rules []string
	for _, r := range f.Rules {
		rules = append(rules, Rule(r))
	}
	said := ""
	if f.Text != "" {
		said = "\u201c" + f.Text + "\u201d"
	}
	var rows []sheet.Fact
	for _, row := range []struct{ label, text string }{
		{"Where", cmp.Or(f.Where, "place not said")}, {"As written", said}, {"Why it matters", whyItMatters(f)},
		{"Hazard", cmp.Or(f.Hazard, "to be judged") + "; " + severityWords(f.Severity)}, {"Standing", faultStanding(f)},
		{"Code pointers", cmp.Or(strings.Join(rules, "; "), "none")}, {"Caution", f.Caution}, {"Follow-up", f.FollowUp},
	} {
		if row.text != "" {
			rows = append(rows, sheet.Fact{Label: row.label, Value: sheet.Words(row.text)})
		}
	}
	return rows
}

func (d dayView) tests() []sheet.Block {
	if len(d.Day.Tests) == 0 {
		return none("Tests", "tests")
	}
	t := sheet.Table{Columns: []sheet.Column{{Title: "What", Width: 4}, {Title: "Readings", Width: 4}, {Title: "Limit and rule", Width: 4}, {Title: "Verdict", Width: 4}}}
	tones := map[notes.Verdict]sheet.Tone{notes.Within: sheet.Go, notes.Outside: sheet.Stop}
	for _, x := range d.Day.Tests {
		var readings []string
		for _, r := range x.Readings {
			readings = append(readings, TestReading(r))
		}
		row := sheet.Cells("", cmp.Or(strings.Join(readings, "; "), "none"), strings.Join(filled(cmp.Or(x.Limit, "none known"), x.Rule), "; "), "")
		row.Cells[0].Text = d.with(x.What, x.From)
		row.Cells[3].Text = sheet.Join(" ", sheet.Label(verdictWords(x.Verdict), tones[x.Verdict]), sheet.Aside(x.Why))
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{part("Tests", "tests"), t, sheet.Para{Text: sheet.Aside(trade.TestCaution())}}
}

func (d dayView) circuits() []sheet.Block {
	var below []sheet.Block
	for _, p := range d.Panels() {
		below = append(below, sheet.Para{Text: sheet.Aside(p)})
	}
	if len(d.Day.Circuits) == 0 {
		return append(none("Circuits", "circuits"), below...)
	}
	t := sheet.Table{Columns: []sheet.Column{{Title: "Panel", Width: 2}, {Title: "Spaces", Width: 2}, {Title: "Serves", Width: 6}, {Title: "Breaker", Width: 3}, {Title: "Conductor", Width: 3}, {Title: "Shared neutral with", Width: 3}}}
	for _, c := range d.Day.Circuits {
		row := sheet.Cells(cmp.Or(c.Panel, "panel not said"), ints(c.Spaces), "", cmp.Or(c.Breaker, "not said"), cmp.Or(c.Conductor, "not said"), cmp.Or(d.Shared(c), "none"))
		row.Cells[2].Text = d.with(c.Serves, c.From)
		for _, f := range c.Findings {
			row.Cells[2].Text = sheet.Join(" ", row.Cells[2].Text, sheet.Strong(f))
		}
		t.Rows = append(t.Rows, row)
	}
	return append([]sheet.Block{part("Circuits", "circuits"), t}, below...)
}

func (d dayView) materials() []sheet.Block {
	if len(d.Day.Materials) == 0 {
		return none("Materials", "materials")
	}
	t := sheet.Table{Close: true, Columns: []sheet.Column{
		{Title: "Item", Width: 5}, {Title: "Quantity", Align: sheet.Right}, {Title: "Code", Width: 2}, {Title: "Went into", Width: 3}, {Title: "Allowed", Align: sheet.Right},
		{Title: "Over", Align: sheet.Right}, {Title: "Cost", Align: sheet.Right}, {Title: "Price", Align: sheet.Right},
	}}
	for _, m := range d.Day.Materials {
		cost, price := "no price", "no price"
		if m.Priced {
			cost, price = d.money(m.Cost), d.money(m.Price)
		}
		row := sheet.Cells("", cmp.Or(d.quantity(m.Qty), "not said"), cmp.Or(m.Code, "not listed"), cmp.Or(d.Target(m.Line), "not known"), d.number(m.Allowed), d.number(m.Over), cost, price)
		row.Cells[0].Text = d.with(cmp.Or(m.Item, "item not named"), m.From)
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{part("Materials", "materials"), t}
}

func (d dayView) hours() []sheet.Block {
	if len(d.Day.Labor) == 0 {
		return none("Hours", "hours")
	}
	t := sheet.Table{Caption: "Trades on site: " + d.Trades(), Columns: []sheet.Column{
		{Title: "Name", Width: 3}, {Title: "Class", Width: 2}, {Title: "On the clock", Width: 3}, {Title: "Went to", Width: 5}, {Title: "Time", Align: sheet.Right}, {Title: "Cost", Align: sheet.Right},
	}}
	for _, r := range d.Day.Labor {
		var uses []string
		for _, u := range d.On(r) {
			uses = append(uses, u.What+" "+u.Minutes.String())
		}
		clock := cmp.Or(spans(r.Spans), "no clock times")
		if r.Travel > 0 {
			clock += ", of it " + r.Travel.String() + " travel"
		}
		row := sheet.Cells("", cmp.Or(r.Class, "none"), clock, cmp.Or(strings.Join(uses, ", "), "nothing"), r.Minutes.String(), d.money(r.Cost))
		row.Cells[0].Text = d.with(cmp.Or(r.Name, "nobody named"), r.From)
		if r.Author {
			row.Cells[0].Text = sheet.Join(" ", row.Cells[0].Text, sheet.Aside("assumed: the writer of the note"))
		}
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{part("Hours", "hours"), t, sheet.Para{Text: sheet.Words("All together " + d.Clocked().String() + ".")}}
}

// carried is the parts that are words, and the photographs no deficiency shows.
func (d dayView) carried() []sheet.Block {
	var blocks []sheet.Block
	var empty []string
	for _, p := range d.Parts() {
		var items []sheet.Text
		for _, r := range p.Rows {
			more := filled(after("by ", r.By))
			if r.Minutes > 0 {
				more = append(more, r.Minutes.String())
			}
			if d.Earlier(r.Since) {
				more = append(more, "since "+r.Since.String())
			}
			items = append(items, sheet.Join(" ", sheet.Words(r.Text), sheet.Aside(strings.Join(more, ", ")), d.refs(r.From)))
		}
		if len(items) == 0 {
			empty = append(empty, p.Title)
			continue
		}
		blocks = append(blocks, listed(p.Title, p.ID, items)...)
	}
	blocks = append(blocks, d.photographs()...)
	if len(empty) > 0 {
		blocks = append(blocks, sheet.Keep{Blocks: []sheet.Block{part("None reported", "none"), sheet.Para{Text: sheet.Words(strings.Join(empty, "; ") + ".")}}})
	}
	return blocks
}

func (d dayView) photographs() []sheet.Block {
	var shown sheet.Pictures
	for _, p := range d.Photos() {
		if p.At > 0 {
			continue
		}
		pic := sheet.Picture{Alt: cmp.Or(p.Of, p.Path), Caption: d.with(p.Path+": "+p.Of, p.From), Missing: "not attached"}
		if d.photos != nil {
			data, err := d.photos(p.Path)
			if pic.Bytes, pic.Missing = data, ""; err != nil {
				pic.Missing = err.Error()
			}
		}
		shown.List = append(shown.List, pic)
	}
	if len(shown.List) == 0 {
		return nil
	}
	return []sheet.Block{part("Photographs", "photos"), shown}
}

func (d dayView) findings() []sheet.Block {
	var items []sheet.Text
	for _, f := range d.Day.Findings {
		tone := sheet.Hold
		if f.Severity == "error" {
			tone = sheet.Stop
		}
		items = append(items, sheet.Join(" ", sheet.Label(f.Severity, tone), sheet.Words(f.Message), sheet.Aside(f.Rule), d.refs([]notes.Source{f.Source}), sheet.Aside(after("What to write: ", f.Hint))))
	}
	return listed("Findings on the notes and the booking", "findings", items)
}

// lines is the notes as written, to which everything leads.
func (d dayView) lines() []sheet.Block {
	if len(d.Notes) == 0 {
		return none("The notes as written", "notes")
	}
	blocks := []sheet.Block{part("The notes as written", "notes")}
	for _, n := range d.Notes {
		l := sheet.Lines{Name: n.Name, ID: n.ID}
		for _, line := range n.Lines {
			l.Rows = append(l.Rows, sheet.Line{N: line.N, ID: line.ID, Text: line.Text, Fate: line.Fate})
		}
		blocks = append(blocks, l)
		if n.SHA256 != "" {
			blocks = append(blocks, sheet.Para{Text: sheet.Aside("SHA-256 " + n.SHA256)})
		}
	}
	return blocks
}

func (d dayView) signature() sheet.Block {
	return sheet.Signature{Title: "Statement and signatures", Statement: sheet.Words(statement()), Parties: []sheet.Party{
		{Role: "For " + cmp.Or(d.Company.Name, d.Day.Company, "the contractor")}, {Role: "For " + cmp.Or(d.Job.Customer, "the customer")},
	}}
}
