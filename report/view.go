package report

import (
	"html/template"
	"path"
	"slices"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/sheet"
)

// View is what a template is given: the day, who and what it is about, its notes line by line,
// and methods that pick and word what is in the day. It never holds a nil pointer.
type View struct {
	figures
	Day     *notes.JobDay
	Job     *notes.Job
	Company *notes.Company
	Notes   []NoteText

	paper   sheet.Paper
	photos  Pictures
	noteAt  map[string]int  // index of a note in Notes by file name
	entryAt map[place][]int // indexes of the day's entries by the line they stand on
}

// NoteText is one note as written, with what became of each line.
type NoteText struct {
	ID     string // "n1"
	Title  string // "note 1"
	Name   string // "2026-03-12.md"
	SHA256 string
	Lines  []NoteLine
}

// NoteLine is one line of a note.
type NoteLine struct {
	N    int    // from 1
	ID   string // "n1-L23", unique in the page
	Text string
	Fate string // what the entries that begin here became: "in scope, line A", or ""
}

// newView indexes a day for its templates.
func newView(in Input) (*View, error) {
	if in.Day == nil {
		return nil, errNoDay
	}
	v := &View{
		figures: figuresOf(in.Company), Day: in.Day, Job: in.Job, Company: in.Company, paper: in.paper(), photos: in.Photos,
		noteAt: map[string]int{}, entryAt: map[place][]int{},
	}
	if v.Job == nil {
		v.Job = &notes.Job{Number: in.Day.Job}
	}
	if v.Company == nil {
		v.Company = &notes.Company{Name: in.Day.Company}
	}
	for i, e := range in.Day.Entries {
		p := place{e.Source.File, e.Source.Line}
		v.entryAt[p] = append(v.entryAt[p], i)
	}
	for i, f := range in.files() {
		v.noteAt[f.Name] = i
		v.Notes = append(v.Notes, v.noteText(i, f))
	}
	return v, nil
}

// files returns the texts of the day's notes in the order the day names them.
func (in Input) files() []*finding.File {
	if len(in.Notes) > 0 {
		return in.Notes
	}
	var list []*finding.File
	for _, n := range in.Day.Notes {
		if n.Source != nil {
			list = append(list, n.Source)
		}
	}
	return list
}

func (v *View) noteText(i int, f *finding.File) NoteText {
	n := NoteText{
		ID: "n" + strconv.Itoa(i+1), Title: "note " + strconv.Itoa(i+1), Name: path.Base(f.Name),
	}
	for _, ref := range v.Day.Notes {
		if ref.File == f.Name {
			n.SHA256 = ref.SHA256
		}
	}
	for l := 1; l <= f.Lines(); l++ {
		n.Lines = append(n.Lines, NoteLine{
			N: l, ID: n.ID + "-L" + strconv.Itoa(l), Text: f.LineSpan(l).Text(), Fate: v.fate(f.Name, l),
		})
	}
	return n
}

// fate says what the entries that begin on a line became.
func (v *View) fate(file string, line int) string {
	var said []string
	for _, i := range v.entryAt[place{file, line}] {
		e := v.Day.Entries[i]
		word := strings.Join(filled(outcomeWord(e.Outcome), onLines(e.Lines)), ", ")
		if !slices.Contains(said, word) {
			said = append(said, word)
		}
	}
	return strings.Join(said, "; ")
}

// Title names the report in a browser's tab and an e-mail's subject.
func (v *View) Title() string {
	return strings.Join(filled(v.Day.Job, v.Job.Title), " ") + ", " + v.Day.Date.String() +
		", daily report " + strconv.Itoa(v.Day.Number)
}

// Foot names the report on every printed page.
func (v *View) Foot() string {
	return strings.Join(filled(v.Day.Company, "job "+v.Day.Job, v.Day.Date.String(),
		"daily report "+strconv.Itoa(v.Day.Number), "office copy, shows costs"), " | ")
}

// PageSize is the name style sheets have for the paper.
func (v *View) PageSize() template.CSS { return template.CSS(v.paper.CSS()) }

// Currency is the code of all amounts, "USD".
func (v *View) Currency() string {
	if v.Company.Currency == "" {
		return "USD"
	}
	return v.Company.Currency
}

// HeldSum is the sum of the held amounts as listed.
func (v *View) HeldSum() notes.Money { return sum(v.Day.Money.Held) }

// NotBilledSum is the sum of the amounts that are not billed, as listed.
func (v *View) NotBilledSum() notes.Money { return sum(v.Day.Money.NotBilled) }

func sum(list []notes.MoneyNote) notes.Money {
	var total notes.Money
	for _, n := range list {
		total = total.Add(n.Amount)
	}
	return total
}

// ToSend is the extras the customer has not settled yet: they need a price or a yes.
func (v *View) ToSend() []notes.ExtraWork {
	return v.extras(func(x notes.ExtraWork) bool {
		return x.State == notes.NeedsAuthorization || x.State == notes.NeedsPrice
	})
}

// ToConfirm is the extras that rest on a spoken word and have no change order yet.
func (v *View) ToConfirm() []notes.ExtraWork {
	return v.extras(func(x notes.ExtraWork) bool {
		return x.State == notes.ExtraAuthorized && x.Number == "" && !inWriting(x.Authorization.How)
	})
}

// Billed reports whether an extra is among the lines to bill now.
func (v *View) Billed(id string) bool {
	return slices.ContainsFunc(v.Day.Money.Ready.Lines, func(l notes.InvoiceLine) bool { return l.Ref == id })
}

// extras picks the extras to keep, in the order of the day.
func (v *View) extras(keep func(notes.ExtraWork) bool) []notes.ExtraWork {
	var list []notes.ExtraWork
	for _, x := range v.Day.Extras {
		if keep(x) {
			list = append(list, x)
		}
	}
	return list
}

func inWriting(how string) bool {
	for _, word := range []string{"sign", "text", "mail", "writing", "written", "message"} {
		if strings.Contains(strings.ToLower(how), word) {
			return true
		}
	}
	return false
}

// Hazard is one open thing that may hurt somebody, as the first screen shows it.
type Hazard struct {
	Severity notes.Severity
	Title    string
	Where    string
	State    notes.FaultState
	Href     string
}

// Hazards lists deficiencies of severity danger and hazard that are not corrected, danger first.
func (v *View) Hazards() []Hazard {
	var list []Hazard
	for _, severity := range []notes.Severity{notes.Danger, notes.Hazard} {
		for i, d := range v.Day.Deficiencies {
			if d.Severity == severity && d.State != notes.FaultCorrected {
				list = append(list, Hazard{severity, d.Title, d.Where, d.State, "#def-" + strconv.Itoa(i+1)})
			}
		}
	}
	return list
}

// Outside lists the tests with a reading outside its limit.
func (v *View) Outside() []notes.TestRecord {
	var list []notes.TestRecord
	for _, t := range v.Day.Tests {
		if t.Verdict == notes.Outside {
			list = append(list, t)
		}
	}
	return list
}

// With returns the entries with one of the outcomes, in the order written.
func (v *View) With(outcomes ...notes.Outcome) []notes.EntryResult {
	var list []notes.EntryResult
	for _, e := range v.Day.Entries {
		if slices.Contains(outcomes, e.Outcome) {
			list = append(list, e)
		}
	}
	return list
}

// Work is what was done on booked lines.
func (v *View) Work() []notes.EntryResult { return v.With(notes.InScope) }

// Unclear is what could not be settled from the words.
func (v *View) Unclear() []notes.EntryResult { return v.With(notes.Unclear) }

// Trades says how many people of each class worked: "2 journeyman, 1 apprentice".
func (v *View) Trades() string {
	var names []string
	heads := map[string]int{}
	for _, r := range v.Day.Labor {
		class := r.Class
		if class == "" {
			class = "without a class"
		}
		if heads[class]++; heads[class] == 1 {
			names = append(names, class)
		}
	}
	for i, n := range names {
		names[i] = strconv.Itoa(heads[n]) + " " + n
	}
	return strings.Join(names, ", ")
}

// Clocked is the minutes of all people together, as listed.
func (v *View) Clocked() notes.Minutes {
	total := notes.Minutes(0)
	for _, r := range v.Day.Labor {
		total += r.Minutes
	}
	return total
}

// On lists what a person's minutes went to, in the order of the scope, then the extras.
func (v *View) On(r notes.LaborRow) []Use {
	var list []Use
	taken := map[string]bool{}
	take := func(key, what string) {
		if m, ok := r.On[key]; ok && !taken[key] && m != 0 {
			list = append(list, Use{what, m})
			taken[key] = true
		}
	}
	for _, l := range v.Day.Scope {
		take(l.Line, "line "+l.Line)
	}
	for _, x := range v.Day.Extras {
		take(x.ID, "extra "+shortID(x.ID))
	}
	var rest []string
	for key := range r.On {
		if !taken[key] && key != notes.Unassigned {
			rest = append(rest, key)
		}
	}
	slices.Sort(rest)
	for _, key := range rest {
		take(key, shortID(key))
	}
	take(notes.Unassigned, "no line named")
	return list
}

// Use is minutes on one thing.
type Use struct {
	What    string
	Minutes notes.Minutes
}

// shortID leaves the date out of an extra's id: "mixer-disconnect".
func shortID(id string) string {
	if _, after, ok := strings.Cut(id, "/"); ok {
		return after
	}
	return id
}

// Target names what something was for: "line B", "extra mixer-disconnect", or "".
func (v *View) Target(ref string) string {
	switch {
	case ref == "":
		return ""
	case strings.Contains(ref, "/"):
		return "extra " + shortID(ref)
	}
	return "line " + ref
}

// Ref names what a line to bill is for: the label of its scope line, or "extra".
func (v *View) Ref(ref string) string {
	if strings.Contains(ref, "/") {
		return "extra"
	}
	return ref
}

// What is the work of a line to bill without the label that already stands beside it.
func (v *View) What(l notes.InvoiceLine) string { return strings.TrimPrefix(l.What, l.Ref+": ") }

// Shared says whom a circuit shares its neutral with: other spaces, or those of the line itself
// with each other; "" for nobody.
func (v *View) Shared(c notes.CircuitRecord) string {
	var others []int
	for _, space := range c.SharedWith {
		if !slices.Contains(c.Spaces, space) {
			others = append(others, space)
		}
	}
	if len(others) == 0 && len(c.SharedWith) > 0 {
		return "each other"
	}
	return ints(others)
}

// Amount is an extra's price as far as it goes: "121.60", "136.96 so far", "no price".
func (v *View) Amount(x notes.ExtraWork) string {
	switch {
	case x.State != notes.NeedsPrice:
		return v.valued(x.Amount)
	case x.Amount.IsZero():
		return "no price"
	}
	return v.money(x.Amount) + " so far"
}

// WorkOf is the booked work of a scope line, or "".
func (v *View) WorkOf(label string) string {
	for _, l := range v.Day.Scope {
		if l.Line == label {
			return l.Work
		}
	}
	return ""
}

// PriceOf is a scope line's price as booked: "640.00", "T&M, max 300.00", "open".
func (v *View) PriceOf(l notes.LineStanding) string {
	booked, _ := v.Job.Line(l.Line)
	switch {
	case booked.Price.Kind == notes.TimeAndMaterial && l.Price.IsZero():
		return "T&M"
	case booked.Price.Kind == notes.TimeAndMaterial:
		return "T&M, max " + v.money(l.Price)
	case l.Price.IsZero():
		return "open"
	}
	return v.money(l.Price)
}

// Earlier reports whether something was first written on an earlier day.
func (v *View) Earlier(since notes.Date) bool {
	return since.Known() && since.Compare(v.Day.Date) < 0
}

// Part is a part of the day that is carried as words.
type Part struct {
	ID, Title string
	Rows      []notes.Standing
}

// Parts lists the carried parts in the order of the report.
func (v *View) Parts() []Part {
	d := v.Day
	return []Part{
		{"left", "Left to do", d.Left},
		{"questions", "Questions", d.Questions},
		{"deliveries", "Deliveries", d.Deliveries},
		{"equipment", "Equipment", d.Equipment},
		{"delays", "Delays", d.Delays},
		{"instructions", "Instructions given and received", d.Instructions},
		{"safety", "Safety", d.Safety},
		{"conditions", "Weather and conditions", d.Conditions},
		{"subcontractors", "Subcontractors and other trades", d.Subcontractors},
		{"narrative", "Narrative", d.Narrative},
	}
}
