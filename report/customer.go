package report

import (
	"cmp"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/sheet"
	"jobday/trade"
)

// Customer lays out the customer's edition of a day: what was done of what was booked, what was done
// or asked for beyond it, what is wrong with the installation, tests, circuits and material.
//
// It is put together from what a customer may see and not from the office's page with parts taken
// out, so that what is added there never shows here. It holds no cost, no margin, no money that is
// held, no price nobody told the customer, no narrative, question, finding or reason of the
// program's, and no entry that is marked for the office.
func Customer(in Input) (sheet.Sheet, error) {
	v, err := newView(in)
	if err != nil {
		return sheet.Sheet{}, err
	}
	c := customerView{v}
	s := sheet.Sheet{
		Kind: "Record of the day", Number: strconv.Itoa(v.Day.Number), Title: v.Job.Title, Edition: "for the customer", Date: v.Day.Date,
		Letterhead: sheet.Letters(v.Company), To: sheet.Addressee{Name: v.Job.Customer, Site: v.Job.Site},
		Facts: []sheet.Fact{
			{Label: "Date", Value: sheet.Words(placeOf(v.Company).Day(v.Day.Date))}, {Label: "Job", Value: sheet.Words(v.Day.Job)},
			{Label: "Crew", Value: sheet.Words(cmp.Or(list(v.Day.Crew), "not written"))},
		},
		Ref:  strings.Join(filled(v.Day.Company, "job "+v.Day.Job, v.Day.Date.String(), "for the customer"), " | "),
		Foot: trade.Footer(),
	}
	for _, part := range [][]sheet.Block{
		{c.first()}, c.scope(), c.extras(), c.faults(), c.tests(), c.circuits(), c.materials(), c.time(), {c.signature()},
	} {
		s.Blocks = append(s.Blocks, part...)
	}
	return s, nil
}

type customerView struct{ *View }

// first answers what a customer asks standing up: how far, what wants an answer, what is dangerous.
func (c customerView) first() sheet.Block {
	complete := 0
	for _, l := range c.Day.Scope {
		if l.Left.IsZero() {
			complete++
		}
	}
	ask := sheet.Figure{Label: "Wants your answer", Tone: sheet.Calm, Href: "#extras", None: "nothing"}
	for _, x := range c.ToSend() {
		ask.Items = append(ask.Items, sheet.Item{Text: sheet.Words(c.work(x)), Right: sheet.Words(c.amount(x))})
	}
	ask.Big = strconv.Itoa(len(ask.Items))
	if len(ask.Items) > 0 {
		ask.Tone, ask.None = sheet.Hold, ""
	}
	hurt := sheet.Figure{Label: "Can hurt, and stands open", Tone: sheet.Calm, Href: "#deficiencies", None: "nothing we saw and wrote down"}
	for _, h := range c.Hazards() {
		hurt.Items = append(hurt.Items, sheet.Item{
			Text: sheet.Words(strings.Join(filled(h.Title, h.Where), ", ")), Right: sheet.Label(string(h.Severity), toneOfSeverity(h.Severity)),
		})
	}
	hurt.Big = strconv.Itoa(len(hurt.Items))
	if len(hurt.Items) > 0 {
		hurt.Tone, hurt.None = sheet.Stop, ""
	}
	return sheet.Figures{Cells: []sheet.Figure{
		{Label: "Booked lines complete", Big: strconv.Itoa(complete), Small: "of " + strconv.Itoa(len(c.Day.Scope)), Tone: sheet.Go, Href: "#scope"},
		ask, hurt,
	}}
}

func toneOfSeverity(s notes.Severity) sheet.Tone {
	if s == notes.Maintenance {
		return sheet.Hold
	}
	return sheet.Stop
}

// scope is how the booked lines stand. What blocks one is in the crew's words and stays in the office.
func (c customerView) scope() []sheet.Block {
	if len(c.Day.Scope) == 0 {
		return nil
	}
	t := sheet.Table{Columns: []sheet.Column{
		{Title: "Line"}, {Title: "Booked work", Width: 6}, {Title: "How far", Width: 4}, {Title: "Stands", Width: 2},
	}}
	for _, l := range c.Day.Scope {
		row := sheet.Cells(l.Line, l.Work, c.howFar(l), string(l.State))
		row.Cells[2].Bar = barOf(l)
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{sheet.Heading{Text: sheet.Words("Booked work"), ID: "scope"}, t}
}

// howFar says a line's progress; a part of a line booked as one is told in percent.
func (c customerView) howFar(l notes.LineStanding) string {
	if l.ToDate.IsWhole() || !l.Booked.Qty.Equal(notes.Int(1)) {
		return c.progressWords(l)
	}
	return percentWords(l.ToDate) + " to date, " + percentWords(l.Today) + " today"
}

func percentWords(part notes.Decimal) string {
	return part.Mul(notes.Int(100)).Round(0).String() + " %"
}

// barOf is the drawn progress of a line in percent of its whole.
func barOf(l notes.LineStanding) *sheet.Bar {
	b := Progress(l)
	over := b.Over()
	return &sheet.Bar{Before: max(0, b.Before) / 10, Now: max(0, b.Today-over) / 10, Over: over / 10}
}

// extras is work beyond the booking, with the amounts a customer was told or agreed to.
func (c customerView) extras() []sheet.Block {
	if len(c.Day.Extras) == 0 {
		return nil
	}
	t := sheet.Table{Columns: []sheet.Column{
		{Title: "What", Width: 6}, {Title: "Stands", Width: 4}, {Title: c.Currency() + ", before tax", Align: sheet.Right, Width: 3},
	}}
	for _, x := range c.Day.Extras {
		row := sheet.Cells(c.work(x), c.standing(x), c.amount(x))
		row.Cells[0].Text = sheet.Quote(c.work(x))
		if x.Outcome == notes.ExtraCredit || x.Line != "" {
			row.Cells[0].Text = sheet.Words(c.work(x)) // worded by the program
		}
		t.Rows = append(t.Rows, row)
	}
	return []sheet.Block{
		sheet.Heading{Text: sheet.Words("Beyond what was booked"), ID: "extras"},
		sheet.Para{Text: sheet.Words("Work beyond the booking is charged only once it is agreed. A change order names its price.")}, t,
	}
}

// kept is what stands for words that are marked for the office.
const kept = "described in a change order"

// work is an extra in the words of the note.
func (c customerView) work(x notes.ExtraWork) string {
	if ForOffice(x.Work) {
		return kept
	}
	return x.Work
}

// officeWords mark a text that is meant for the office, wherever they stand in it.
var officeWords = []string{
	"internal", "office only", "for the office", "not for the customer", "dont tell", "don't tell", "between us", "our cost", "costs us",
	"cost us", "cost me", "margin", "mark up", "markup", "mark-up",
}

// ForOffice reports whether words are marked for the office: "internal", "our cost", "do not tell".
func ForOffice(text string) bool {
	low := strings.ToLower(strings.ReplaceAll(text, "\u2019", "'"))
	for _, w := range officeWords {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

// standing is whose word an extra rests on.
func (c customerView) standing(x notes.ExtraWork) string {
	said := Consent(x.Authorization)
	switch {
	case x.State == notes.ExtraNoCharge:
		said = "at no charge"
	case x.State == notes.ExtraBilled:
		said = "on an invoice"
	case x.Authorization.State == "" || x.Authorization.State == "none":
		said = "waits for your answer"
	}
	if x.Outcome == notes.ExtraNotDone && x.State != notes.ExtraDeclined {
		said += "; not done yet"
	}
	return strings.Join(filled(said, x.Number), "; ")
}

// amount is the price of an extra where the customer was told it, and that one follows otherwise.
func (c customerView) amount(x notes.ExtraWork) string {
	told := x.Number != "" || x.State == notes.ExtraAuthorized || x.State == notes.ExtraBilled ||
		x.Outcome == notes.ExtraCredit || x.Price.Quoted != nil
	switch {
	case x.State == notes.ExtraNoCharge:
		return "no charge"
	case x.State == notes.ExtraDeclined:
		return "none"
	case told && x.State != notes.NeedsPrice:
		return placeOf(c.Company).Money(x.Amount)
	}
	return "a price follows"
}

// faults is what is wrong with the installation, in plain words and with its photographs.
func (c customerView) faults() []sheet.Block {
	if len(c.Day.Deficiencies) == 0 {
		return nil
	}
	blocks := []sheet.Block{}
	lead := []sheet.Block{ // stays with the first
		sheet.Heading{Text: sheet.Words("What we found wrong"), ID: "deficiencies"},
		sheet.Para{Text: sheet.Words("Seen while working for you. We were not asked to inspect the rest of the installation and did not.")},
	}
	for _, d := range c.Day.Deficiencies {
		n := sheet.Notice{
			Tone: toneOfSeverity(d.Severity), Word: string(d.Severity), Title: strings.Join(filled(cmp.Or(d.Title, "Found"), d.Where), ", "),
		}
		if d.State == notes.FaultCorrected {
			n.Tone = sheet.Go
		}
		if d.Text != "" && !ForOffice(d.Text) {
			n.Text = append(n.Text, sheet.Quote(d.Text))
		}
		for _, said := range c.advice(d) {
			n.Text = append(n.Text, sheet.Words(said))
		}
		var pointers []string
		for _, r := range d.Rules {
			pointers = append(pointers, Rule(r))
		}
		if len(pointers) > 0 {
			n.Text = append(n.Text, sheet.Aside("Code pointers: "+strings.Join(pointers, "; ")))
		}
		blocks = append(blocks, sheet.Keep{Blocks: append(append(lead, n), c.pictures(d)...)})
		lead = nil
	}
	return blocks
}

// advice says why a deficiency matters, how it stands and, while it does, what to do.
func (c customerView) advice(d notes.DeficiencyRecord) []string {
	said := filled(whyItMatters(d), after("As it stands: ", faultStanding(d)))
	if d.State == notes.FaultCorrected {
		return said
	}
	return append(said, filled(after("We recommend: ", cmp.Or(d.Correction, d.FollowUp)), after("Until then: ", d.Caution))...)
}

// pictures is the photographs of a deficiency, or what kept one from being shown.
func (c customerView) pictures(d notes.DeficiencyRecord) []sheet.Block {
	shown := c.photos.shown(d)
	if len(shown.List) == 0 {
		return nil
	}
	return []sheet.Block{shown}
}

func (c customerView) tests() []sheet.Block {
	if len(c.Day.Tests) == 0 {
		return nil
	}
	t := sheet.Table{Columns: []sheet.Column{{Title: "Tested", Width: 4}, {Title: "Reading", Width: 4}, {Title: "Says", Width: 3}, {Title: "Limit", Width: 3}}}
	for _, x := range c.Day.Tests {
		var readings []string
		for _, r := range x.Readings {
			readings = append(readings, TestReading(r))
		}
		t.Rows = append(t.Rows, sheet.Cells(x.What, list(readings), verdictWords(x.Verdict), x.Limit))
	}
	return []sheet.Block{sheet.Heading{Text: sheet.Words("Tests"), ID: "tests"}, t, sheet.Para{Text: sheet.Aside(trade.TestCaution())}}
}

func (c customerView) circuits() []sheet.Block {
	if len(c.Day.Circuits) == 0 {
		return nil
	}
	t := sheet.Table{Columns: []sheet.Column{
		{Title: "Panel", Width: 2}, {Title: "Spaces", Width: 2}, {Title: "Serves", Width: 5}, {Title: "Breaker", Width: 2}, {Title: "Conductor", Width: 2},
	}}
	for _, x := range c.Day.Circuits {
		t.Rows = append(t.Rows, sheet.Cells(x.Panel, ints(x.Spaces), x.Serves, x.Breaker, x.Conductor))
	}
	return []sheet.Block{sheet.Heading{Text: sheet.Words("Circuits"), ID: "circuits"}, t}
}

// materials is what went in, without a word on money.
func (c customerView) materials() []sheet.Block {
	if len(c.Day.Materials) == 0 {
		return nil
	}
	t := sheet.Table{Columns: []sheet.Column{{Title: "Quantity", Align: sheet.Right}, {Title: "Material", Width: 5}}}
	for _, m := range c.Day.Materials {
		if !ForOffice(m.Item) {
			t.Rows = append(t.Rows, sheet.Cells(c.quantity(m.Qty), m.Item))
		}
	}
	return []sheet.Block{sheet.Heading{Text: sheet.Words("Material used"), ID: "materials"}, t}
}

// time is the hours a customer pays by the hour: on lines booked so, and on extras.
func (c customerView) time() []sheet.Block {
	t := sheet.Table{Columns: []sheet.Column{{Title: "Name", Width: 3}, {Title: "On", Width: 5}, {Title: "Time", Align: sheet.Right, Width: 2}}}
	for _, row := range c.Day.Labor {
		for _, l := range c.Job.Lines {
			if m := row.On[l.Label]; m > 0 && l.Price.Kind == notes.TimeAndMaterial {
				t.Rows = append(t.Rows, sheet.Cells(row.Name, "line "+l.Label+", "+l.Work, m.String()))
			}
		}
		for _, x := range c.Day.Extras {
			if m := row.On[x.ID]; m > 0 && x.State != notes.ExtraNoCharge {
				t.Rows = append(t.Rows, sheet.Cells(row.Name, c.work(x), m.String()))
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []sheet.Block{sheet.Heading{Text: sheet.Words("Time charged by the hour"), ID: "time"}, t}
}

func (c customerView) signature() sheet.Block {
	return sheet.Signature{
		Title: "Received", Statement: sheet.Words(statement()),
		Parties: []sheet.Party{
			{Role: "For " + cmp.Or(c.Job.Customer, "the customer")}, {Role: "For " + cmp.Or(c.Company.Name, "the contractor")},
		},
	}
}
