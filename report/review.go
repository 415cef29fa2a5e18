package report

import (
	"cmp"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/review"
	"jobday/sheet"
	"jobday/trade"
)

// ReviewInput is what the owner's review is made from.
type ReviewInput struct {
	*review.Review // required
	Company        *notes.Company
	// Href leads to the report of a job on a day, relative to the review; nil for no links.
	Href func(job string, day notes.Date) string
}

// Review lays out the owner's review: first what was found and where it went, then what waits, what
// brings extras about, what stands open and can hurt, hours, and every extra the figures are made of.
func Review(in ReviewInput) sheet.Sheet {
	v := &reviewView{figures: figuresOf(in.Company), ReviewInput: in, unit: "USD", at: map[string]int{}}
	s := sheet.Sheet{
		Kind: "Review", Title: "Work beyond scope", Edition: "internal, shows amounts",
		Date: in.Until, Letterhead: sheet.Letters(in.Company), Foot: []string{trade.CodePointer()},
	}
	if in.Company != nil {
		v.unit = in.Company.Currency
	}
	for i, x := range in.Extras {
		v.at[x.Job+" "+x.ID] = i
	}
	s.Facts = []sheet.Fact{
		{Label: "Time", Value: sheet.Words(v.span(in.Since, in.Until))},
		{Label: "Looked over", Value: sheet.Words(plural(in.Jobs, "job") + ", " + plural(in.Days, "job-day"))},
	}
	s.Blocks = append(s.Blocks, v.first(), v.flow())
	s.Blocks = append(s.Blocks, v.waiting()...)
	s.Blocks = append(s.Blocks, v.kinds()...)
	s.Blocks = append(s.Blocks, v.hazards()...)
	s.Blocks = append(s.Blocks, v.hours()...)
	s.Blocks = append(s.Blocks, v.wordings()...)
	s.Blocks = append(s.Blocks, v.trend()...)
	s.Blocks = append(s.Blocks, v.everything()...)
	return s
}

// span names a stretch of days; an open end says so.
func (f figures) span(since, until notes.Date) string {
	if !since.Known() {
		return "up to " + f.longDate(until)
	}
	return f.longDate(since) + " to " + f.longDate(until)
}

type reviewView struct {
	figures
	ReviewInput
	unit string
	at   map[string]int // place of an extra in Extras by its ref
}

// fates says of each fate what it asks of the owner, in his words.
var fates = map[string]struct {
	tone sheet.Tone
	says string
}{
	"billed":       {sheet.Go, "on an invoice"},
	"authorized":   {sheet.Go, "agreed, not on an invoice yet"},
	"awaiting":     {sheet.Hold, "priced, no word from the customer"},
	"declined":     {sheet.Calm, "the customer said no"},
	"given away":   {sheet.Stop, "done at no charge"},
	"never priced": {sheet.Stop, "nobody put a figure on it"},
}

// first is the figures to be seen first.
func (v *reviewView) first() sheet.Block {
	secured, exposed, given := v.sum("billed", "authorized"), v.exposed(), v.sum("given away")
	hurt := 0
	for _, h := range v.Hazards {
		if h.Severity == notes.Danger {
			hurt++
		}
	}
	return sheet.Figures{Cells: []sheet.Figure{
		{Label: "Found beyond scope", Big: v.money(v.Found), Small: v.unit + ", before tax", Href: "#extras",
			None: plural(len(v.Extras)-v.Credits.Count, "extra") + " and " + plural(v.Credits.Count, "credit")},
		{Label: "Billed or agreed", Big: v.money(secured), Small: v.share(secured), Tone: sheet.Go, Href: "#flow", None: "of what was found"},
		{Label: "Done on nobody's word", Big: v.money(exposed), Small: v.unit, Tone: toneOf(exposed.IsZero(), sheet.Hold), Href: "#exposure", None: v.oldest()},
		{Label: "Given away", Big: v.money(given), Small: v.unit, Tone: toneOf(given.IsZero(), sheet.Stop), Href: "#flow", None: v.unpriced()},
		{Label: "Open and can hurt", Big: strconv.Itoa(len(v.Hazards)), Small: plural(hurt, "danger"), Tone: toneOf(len(v.Hazards) == 0, sheet.Stop), Href: "#hazards",
			None: "as of " + v.longDate(v.Until)},
	}}
}

// toneOf is calm where there is nothing.
func toneOf(nothing bool, otherwise sheet.Tone) sheet.Tone {
	if nothing {
		return sheet.Calm
	}
	return otherwise
}

func (v *reviewView) sum(names ...string) (total notes.Money) {
	for _, s := range v.Flow {
		for _, n := range names {
			if s.Name == n {
				total = total.Add(s.Amount)
			}
		}
	}
	return total
}

func (v *reviewView) exposed() (total notes.Money) {
	for _, a := range v.Exposure {
		total = total.Add(a.Amount)
	}
	return total
}

// share says how much of what was found an amount is.
func (v *reviewView) share(m notes.Money) string {
	if v.Found.Sign() == 0 {
		return v.unit
	}
	return v.percentOf(m.Decimal().Mul(notes.Int(100)).Quo(v.Found.Decimal(), 6).Round(1))
}

func (f figures) percentOf(d notes.Decimal) string { return f.Percent(d) }

func (v *reviewView) oldest() string {
	for i := len(v.Exposure) - 1; i >= 0; i-- {
		if a := v.Exposure[i]; a.Count > 0 {
			return plural(a.Count, "extra") + ": " + a.Name
		}
	}
	return "nothing waits"
}

func (v *reviewView) unpriced() string {
	for _, s := range v.Flow {
		if s.Name == string(review.Unpriced) && s.Count > 0 {
			return plural(s.Count, "extra") + " without a price besides"
		}
	}
	return "every extra has a price"
}

// flow draws where what was found went.
func (v *reviewView) flow() sheet.Block {
	c := sheet.Chart{Kind: sheet.Flowing, ID: "flow", Title: "From found to billed", Unit: v.unit}
	var said []string
	for _, s := range v.Flow {
		if s.Count == 0 {
			continue
		}
		f := fates[s.Name]
		c.Flows = append(c.Flows, sheet.Flow{
			From: "found", To: s.Name, Value: sheet.Value{Amount: s.Amount.Decimal(), Text: v.money(s.Amount)}, Tone: f.tone, Href: "#of-flow",
		})
		said = append(said, v.money(s.Amount)+" "+s.Name+" ("+f.says+")")
	}
	if len(c.Flows) == 0 {
		return sheet.Para{ID: "flow", Text: sheet.Words("Nothing was found beyond scope in this time.")}
	}
	c.Desc = "Of " + v.money(v.Found) + " found: " + strings.Join(said, ", ") + "."
	c.Numbers = v.madeOf("of-flow", v.Flow)
	return c
}

// madeOf lists shares with the extras each is made of.
func (v *reviewView) madeOf(id string, list []review.Share) *sheet.Table {
	t := &sheet.Table{Close: true, Columns: []sheet.Column{
		{Title: "", Width: 3}, {Title: "Count", Align: sheet.Right}, {Title: v.unit, Align: sheet.Right, Width: 2},
		{Title: "%", Align: sheet.Right}, {Title: "% so far", Align: sheet.Right}, {Title: "Made of", Width: 5},
	}}
	for i, s := range list {
		if s.Count == 0 {
			continue
		}
		row := sheet.Cells(s.Name, strconv.Itoa(s.Count), v.money(s.Amount), v.Number(s.Percent), v.Number(s.Running))
		row.Cells = append(row.Cells, sheet.Cell{Text: v.days(s.Of)})
		row.ID = id + "-" + strconv.Itoa(i+1)
		if len(t.Rows) == 0 {
			row.ID = id
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// days links to the extras by job and day, to the first of a day.
func (v *reviewView) days(refs []string) sheet.Text {
	var all []sheet.Text
	seen := map[string]bool{}
	for _, ref := range refs {
		i, ok := v.at[ref]
		if !ok { // found before the time: only its name is known here
			job, id, _ := strings.Cut(ref, " ")
			day, _, _ := strings.Cut(id, "/")
			if name := job + " " + day; !seen[name] {
				seen[name] = true
				all = append(all, sheet.Words(name))
			}
			continue
		}
		x := v.Extras[i]
		if name := x.Job + " " + v.ShortDate(x.Found); !seen[name] {
			seen[name] = true
			all = append(all, sheet.Link(name, extraAnchor(i)))
		}
	}
	return firstDays(all)
}

// mostDays is how many of the days a figure is made of are named beside it; all extras stand below.
const mostDays = 8

// firstDays puts days in a row, and says how many there are beyond the first.
func firstDays(all []sheet.Text) sheet.Text {
	if len(all) <= mostDays {
		return sheet.Join(", ", all...)
	}
	more := sheet.Words("and " + plural(len(all)-mostDays, "more day"))
	return sheet.Join(", ", append(all[:mostDays:mostDays], more)...)
}

func extraAnchor(i int) string { return "#x" + strconv.Itoa(i+1) }

// waiting is what was done on nobody's confirmed word, by age.
func (v *reviewView) waiting() []sheet.Block {
	c := sheet.Chart{
		Kind: sheet.Bars, ID: "exposure", Title: "Done on nobody's confirmed word, by age, also from before this time", Unit: v.unit,
		Desc: "What is older is harder to get agreed, and notice periods run.", Series: []sheet.Series{{Name: "exposed", Tone: sheet.Hold}},
	}
	var list []review.Share
	for _, a := range v.Exposure {
		c.Groups = append(c.Groups, v.bar(a.Share, "#of-exposure"))
		list = append(list, a.Share)
	}
	if v.exposed().Sign() == 0 && v.oldest() == "nothing waits" {
		return []sheet.Block{sheet.Para{ID: "exposure", Text: sheet.Words("No work stands done without the customer's word.")}}
	}
	c.Numbers = v.madeOf("of-exposure", list)
	return []sheet.Block{c}
}

func (v *reviewView) bar(s review.Share, href string) sheet.ChartGroup {
	return sheet.ChartGroup{Label: s.Name, Href: href, Values: []sheet.Value{{Amount: s.Amount.Decimal(), Text: v.money(s.Amount)}}}
}

// kinds is extras and deficiencies by kind, the weightiest first.
func (v *reviewView) kinds() []sheet.Block {
	var blocks []sheet.Block
	for _, k := range []struct {
		id, title string
		list      []review.Share
	}{{"causes", "What brings extras about", v.Causes}, {"things", "What extras are about", v.Things}} {
		if len(k.list) == 0 {
			continue
		}
		c := sheet.Chart{Kind: sheet.Bars, ID: k.id, Title: k.title, Unit: v.unit, Series: []sheet.Series{{Name: "found", Tone: sheet.Send}},
			Desc: "First: " + k.list[0].Name + ", " + v.percentOf(k.list[0].Percent) + " of it."}
		for _, s := range k.list[:min(len(k.list), mostBars)] {
			c.Groups = append(c.Groups, v.bar(s, "#of-"+k.id))
		}
		c.Numbers = v.madeOf("of-"+k.id, k.list)
		blocks = append(blocks, c)
	}
	return append(blocks, v.faults()...)
}

// mostBars is how many bars a chart shows; the table beside it has them all.
const mostBars = 10

func (v *reviewView) faults() []sheet.Block {
	if len(v.Faults) == 0 {
		return nil
	}
	c := sheet.Chart{
		Kind: sheet.Stacked, ID: "faults", Title: "Deficiencies by kind", Unit: "found",
		Series: []sheet.Series{{Name: "still open", Tone: sheet.Stop}, {Name: "corrected", Tone: sheet.Go}},
		Desc:   "First: " + v.Faults[0].Title + ", found " + plural(v.Faults[0].Count, "time") + ".",
	}
	t := &sheet.Table{Close: true, Columns: []sheet.Column{
		{Title: "", Width: 4}, {Title: "Found", Align: sheet.Right}, {Title: "Open", Align: sheet.Right},
		{Title: "%", Align: sheet.Right}, {Title: "% so far", Align: sheet.Right}, {Title: "Gravest", Width: 2}, {Title: "Where", Width: 5},
	}}
	for i, k := range v.Faults {
		if i < mostBars {
			c.Groups = append(c.Groups, sheet.ChartGroup{Label: k.Title, Href: "#of-faults", Values: []sheet.Value{
				{Amount: notes.Int(k.Open), Text: strconv.Itoa(k.Open)}, {Amount: notes.Int(k.Count - k.Open), Text: strconv.Itoa(k.Count - k.Open)},
			}})
		}
		row := sheet.Cells(k.Title, strconv.Itoa(k.Count), strconv.Itoa(k.Open), v.Number(k.Percent), v.Number(k.Running), severityWords(k.Gravest))
		row.Cells = append(row.Cells, sheet.Cell{Text: v.dayLinks(k.Of)})
		if i == 0 {
			row.ID = "of-faults"
		}
		t.Rows = append(t.Rows, row)
	}
	c.Numbers = t
	return []sheet.Block{c}
}

// dayLinks leads from "2431 2026-03-12/open-knockout" to that day's report.
func (v *reviewView) dayLinks(refs []string) sheet.Text {
	var all []sheet.Text
	seen := map[string]bool{}
	for _, ref := range refs {
		job, id, _ := strings.Cut(ref, " ")
		day, _, _ := strings.Cut(id, "/")
		if d, err := notes.ParseDate(day); err == nil && !seen[job+day] {
			seen[job+day] = true
			all = append(all, v.day(job, d))
		}
	}
	return firstDays(all)
}

// day names a job-day and leads to its report where there is one.
func (v *reviewView) day(job string, d notes.Date) sheet.Text {
	name := job + " " + v.ShortDate(d)
	if v.Href == nil {
		return sheet.Words(name)
	}
	return sheet.Link(name, v.Href(job, d))
}

// hazards is what stands open and can hurt.
func (v *reviewView) hazards() []sheet.Block {
	blocks := []sheet.Block{sheet.Heading{Text: sheet.Words("Open hazards"), ID: "hazards", Right: "as of " + v.longDate(v.Until)}}
	if len(v.Hazards) == 0 {
		return append(blocks, sheet.Para{Text: sheet.Words("None is on record. That says what was written, not that an installation is without fault.")})
	}
	t := sheet.Table{Columns: []sheet.Column{
		{Title: "Severity", Width: 2}, {Title: "What", Width: 5}, {Title: "Stands", Width: 2}, {Title: "Told", Width: 2},
		{Title: "Days", Align: sheet.Right}, {Title: "Found", Width: 2},
	}}
	for _, h := range v.Hazards {
		tone := sheet.Hold
		if h.Severity == notes.Danger {
			tone = sheet.Stop
		}
		t.Rows = append(t.Rows, sheet.Row{Cells: []sheet.Cell{
			{Text: sheet.Label(string(h.Severity), tone)},
			{Text: sheet.Words(strings.Join(filled(cmp.Or(h.Title, shortID(h.ID)), h.Where, h.Hazard), ", "))},
			{Text: sheet.Words(faultWords(h.State))}, {Text: sheet.Words(cmp.Or(h.Told, "nobody on record"))},
			{Text: sheet.Words(strconv.Itoa(h.Days))}, {Text: v.day(h.Job, h.Found)},
		}})
	}
	return append(blocks, t)
}
