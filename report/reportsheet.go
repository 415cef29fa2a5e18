package report

import (
	"cmp"
	"io"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/sheet"
	"jobday/trade"
)

// DaySheet lays out the office's edition of a day for paper: all that its page shows, in the same
// order and words, with costs, held money and the notes.
func DaySheet(in Input) (sheet.Sheet, error) {
	v, err := newView(in)
	if err != nil {
		return sheet.Sheet{}, err
	}
	d := dayView{v}
	s := sheet.Sheet{
		Kind: "Daily report", Number: strconv.Itoa(v.Day.Number), Title: v.Job.Title, Edition: "office copy, shows costs", Date: v.Day.Date,
		Letterhead: sheet.Letters(v.Company), To: sheet.Addressee{Name: cmp.Or(v.Job.Customer, "none named"), Site: cmp.Or(v.Job.Site, "none named")},
		Facts: []sheet.Fact{
			{Label: "Date", Value: sheet.Words(v.longDate(v.Day.Date))}, {Label: "Job", Value: sheet.Words(v.Day.Job)},
			{Label: "Crew", Value: sheet.Words(cmp.Or(list(v.Day.Crew), "none named"))},
		},
		Ref: v.Foot(), Paper: in.paper(),
		Foot: append(trade.Footer(), keptApart(), `Where a part says "none", the notes of the day report none. Amounts are in `+v.Currency()+"."),
	}
	if v.Day.Final {
		s.Mark.Word = "FINAL"
	}
	s.Blocks = append(s.Blocks, d.answers())
	for _, part := range [][]sheet.Block{
		d.bill(), d.moneyNotes("Held, and what frees it", "held", v.Day.Money.Held), d.moneyNotes("Not billed", "notbilled", v.Day.Money.NotBilled),
		d.extras(), d.unclear(), d.scope(), d.work(), d.faults(), d.tests(), d.circuits(), d.materials(), d.hours(), d.carried(), d.findings(), d.lines(),
		{d.signature()},
	} {
		s.Blocks = append(s.Blocks, part...)
	}
	return s, nil
}

// DaysPDF writes the office's edition of days as PDF, each beginning on a new page.
func DaysPDF(w io.Writer, ins []Input) error {
	var sheets []sheet.Sheet
	for _, in := range ins {
		s, err := DaySheet(in)
		if err != nil {
			return err
		}
		sheets = append(sheets, s)
	}
	if len(sheets) == 0 {
		return errNoDay
	}
	return sheet.PDF(w, sheets[0], sheets[1:]...)
}

// dayView lays out a day's parts.
type dayView struct{ *View }

// refs is the lines something stands on, leading there.
func (d dayView) refs(from []notes.Source) sheet.Text {
	var out sheet.Text
	for i, g := range d.Refs(from) {
		if i > 0 {
			out = append(out, sheet.Piece{Words: "; ", Look: sheet.Soft})
		}
		if g.Before != "" {
			out = append(out, sheet.Piece{Words: g.Before + " ", Look: sheet.Soft})
		}
		for j, r := range g.Refs {
			if j > 0 {
				out = append(out, sheet.Piece{Words: ", ", Look: sheet.Soft})
			}
			out = append(out, sheet.Piece{Words: r.Label, Href: r.Href, Look: sheet.Soft})
		}
	}
	return out
}

// with is words with the lines they stand on.
func (d dayView) with(words string, from []notes.Source) sheet.Text {
	return sheet.Join(" ", sheet.Words(words), d.refs(from))
}

func part(title, id string) sheet.Heading {
	return sheet.Heading{Text: sheet.Words(title), ID: id}
}

// none is a part of the day that has nothing in it.
func none(title, id string) []sheet.Block {
	return []sheet.Block{sheet.Keep{Blocks: []sheet.Block{part(title, id), sheet.Para{Text: sheet.Words("None.")}}}}
}

// answers are the office's four questions.
func (d dayView) answers() sheet.Block {
	ready := d.Day.Money.Ready
	bill := sheet.Figure{Label: "Bill now", Href: "#bill", Big: d.money(ready.Total), Small: d.Currency(), Tone: sheet.Go}
	if len(ready.Tax) > 0 {
		bill.Small += ", with tax"
	}
	for _, l := range ready.Lines {
		bill.Items = append(bill.Items, sheet.Item{Text: sheet.Words(strings.Join(filled(d.Ref(l.Ref), d.What(l)), " ")), Right: sheet.Words(d.money(l.Amount))})
	}
	held := sheet.Figure{Label: "Held", Href: "#held", Big: d.money(d.HeldSum()), Small: d.Currency() + " in " + plural(len(d.Day.Money.Held), "item"), Tone: sheet.Hold}
	for _, n := range d.Day.Money.Held {
		held.Items = append(held.Items, sheet.Item{Text: sheet.Words(n.What), Right: sheet.Words(d.valued(n.Amount)), Below: sheet.Words(cmp.Or(after("Freed by: ", n.Frees), n.Why))})
	}
	return sheet.Figures{Cells: []sheet.Figure{
		atMost6(bill, "Nothing to bill from this day."), atMost6(held, "Nothing is held."), d.toSend(), d.dangers(),
	}}
}

// atMost6 shows the first six items of a figure and counts the rest; the whole stands below.
func atMost6(f sheet.Figure, nothing string) sheet.Figure {
	const most = 6
	switch n := len(f.Items); {
	case n == 0:
		f.None, f.Tone = nothing, sheet.Calm
	case n > most:
		f.Items = append(f.Items[:most:most], sheet.Item{Text: sheet.Link(strconv.Itoa(n-most)+" more", f.Href)})
	}
	return f
}

func (d dayView) toSend() sheet.Figure {
	send, confirm := d.ToSend(), d.ToConfirm()
	f := sheet.Figure{Label: "Change orders to send", Href: "#extras", Big: strconv.Itoa(len(send)), Tone: sheet.Send}
	if len(confirm) > 0 {
		f.Small = "and " + strconv.Itoa(len(confirm)) + " to confirm in writing"
	}
	for _, x := range append(send, confirm...) {
		f.Items = append(f.Items, sheet.Item{Text: sheet.Words(x.Work), Right: sheet.Words(d.Amount(x)), Below: sheet.Words(NextStep(x))})
	}
	return atMost6(f, "None to send.")
}

func (d dayView) dangers() sheet.Figure {
	hazards, outside := d.Hazards(), d.Outside()
	f := sheet.Figure{Label: "Dangerous", Href: "#deficiencies", Big: strconv.Itoa(len(hazards)), Small: "open", Tone: sheet.Stop}
	if len(outside) > 0 {
		f.Small = "open, and " + plural(len(outside), "test") + " outside limits"
	}
	for _, h := range hazards {
		f.Items = append(f.Items, sheet.Item{Text: sheet.Link(strings.Join(filled(h.Title, h.Where), ", "), h.Href), Right: sheet.Label(string(h.Severity), toneOfSeverity(h.Severity)), Below: sheet.Words(faultWords(h.State))})
	}
	for _, t := range outside {
		f.Items = append(f.Items, sheet.Item{Text: sheet.Words(t.What), Right: sheet.Label("outside limits", sheet.Stop)})
	}
	return atMost6(f, "None reported. That is no finding that there is none.")
}

// bill is the lines to bill, each with its working, and the sums.
func (d dayView) bill() []sheet.Block {
	ready := d.Day.Money.Ready
	if len(ready.Lines) == 0 {
		return none("To bill now", "bill")
	}
	t := sheet.Table{Columns: []sheet.Column{
		{Title: "Line"}, {Title: "Work", Width: 8}, {Title: "Quantity", Align: sheet.Right}, {Title: "Rate", Align: sheet.Right}, {Title: "Tax", Width: 2}, {Title: "Amount", Align: sheet.Right},
	}}
	for _, l := range ready.Lines {
		taxed := "not taxed"
		if l.Taxed {
			taxed = "taxed"
		}
		row := sheet.Cells(cmp.Or(d.Ref(l.Ref), "-"), "", d.number(l.Qty)+" "+string(l.Unit), d.rate(l.Rate), taxed, d.money(l.Amount))
		row.Cells[1].Text = d.with(d.What(l), l.From)
		row.Working = d.working(d.LineWorking(l))
		t.Rows = append(t.Rows, row)
	}
	t.Rows = append(t.Rows, sheet.Sum(sheet.Subtotal, "Subtotal", d.money(ready.Subtotal)))
	for _, x := range ready.Tax {
		t.Rows = append(t.Rows, sheet.Sum(sheet.Subtotal, x.Name+", "+d.number(x.Rate)+" % of "+d.money(x.Base), d.money(x.Amount)))
	}
	t.Rows = append(t.Rows, sheet.Sum(sheet.Total, "Total in "+d.Currency(), d.money(ready.Total)))
	blocks := []sheet.Block{part("To bill now", "bill"), t}
	if len(ready.Tax) > 0 {
		blocks = append(blocks, sheet.Para{Text: sheet.Aside("Tax: " + d.TaxWorking() + ".")})
	}
	return blocks
}

// working is how an amount came about, for the lines below its row.
func (d dayView) working(w Working) *sheet.Working {
	out := &sheet.Working{Label: "What it rests on"}
	if len(w.Steps) > 0 {
		out.Label = "Working of " + w.Of
	}
	for _, s := range w.Said {
		line := d.refs(s.From)
		if s.Text != "" {
			line = sheet.Join(" ", line, sheet.Quote(s.Text))
		}
		out.Lines = append(out.Lines, sheet.Join(" ", line, sheet.Words(s.How)))
	}
	for _, s := range w.Steps {
		what := s.What
		if s.Basis != "" {
			what += " (" + s.Basis + ")"
		}
		out.Lines = append(out.Lines, d.with(what+": "+s.Sum, s.From))
	}
	for _, said := range filled(after("Why: ", w.Why), after("Tax: ", w.Tax)) {
		out.Lines = append(out.Lines, sheet.Words(said))
	}
	if len(out.Lines) == 0 {
		return nil
	}
	return out
}

// moneyNotes is amounts that are held or not billed, with why.
func (d dayView) moneyNotes(title, id string, list []notes.MoneyNote) []sheet.Block {
	if len(list) == 0 {
		return none(title, id)
	}
	t := sheet.Table{Columns: []sheet.Column{{Title: "What", Width: 5}, {Title: "Why", Width: 5}, {Title: "Amount", Align: sheet.Right}}}
	for _, n := range list {
		row := sheet.Cells("", "", d.valued(n.Amount))
		row.Cells[0].Text = d.with(n.What, n.From)
		row.Cells[1].Text = sheet.Words(strings.Join(filled(n.Why, after("Freed by: ", n.Frees)), ". "))
		row.Working = d.working(d.NoteWorking(n))
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{part(title, id), t}
}

// extras is the work beyond the booking.
func (d dayView) extras() []sheet.Block {
	if len(d.Day.Extras) == 0 {
		return none("Change orders and extras", "extras")
	}
	t := sheet.Table{Columns: []sheet.Column{{Title: "Work", Width: 5}, {Title: "State", Width: 3}, {Title: "Whose word, and what is next", Width: 5}, {Title: "Amount", Align: sheet.Right}}}
	for _, x := range d.Day.Extras {
		row := sheet.Cells("", strings.Join(filled(string(x.State), cmp.Or(x.Number, "not numbered yet")), "; "), Consent(x.Authorization)+". Next: "+NextStep(x), d.Amount(x))
		row.Cells[0].Text = d.with(x.Work, x.From)
		w := d.working(d.ExtraWorking(x))
		done := []string{shortID(x.ID), string(x.Outcome)}
		if x.Minutes > 0 {
			done = append(done, x.Minutes.String())
		}
		for _, m := range x.Materials {
			done = append(done, strings.TrimSpace(d.quantity(m.Qty)+" "+m.Item))
		}
		if w == nil {
			w = &sheet.Working{Label: "What it is"}
		}
		w.Lines = append([]sheet.Text{sheet.Words(strings.Join(filled(done...), ", "))}, w.Lines...)
		row.Working = w
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{part("Change orders and extras", "extras"), t}
}

// unclear is what the office has to settle.
func (d dayView) unclear() []sheet.Block {
	entries := d.Unclear()
	if len(entries) == 0 {
		return none("Unclear, to settle", "unclear")
	}
	blocks := []sheet.Block{part("Unclear, to settle", "unclear")}
	for _, e := range entries {
		n := sheet.Notice{Tone: sheet.Hold, Title: "\u201c" + e.Text + "\u201d", Text: []sheet.Text{d.with(e.Why, []notes.Source{e.Source})}}
		for _, c := range e.Candidates {
			n.Text = append(n.Text, sheet.Words("Perhaps line "+c.Line+", "+d.WorkOf(c.Line)+", confidence "+confidence(c.Confidence)))
		}
		n.Text = append(n.Text, sheet.Words("To settle it: "+Settle(e)+". Until then nothing of it is billed."))
		blocks = append(blocks, n)
	}
	return blocks
}
