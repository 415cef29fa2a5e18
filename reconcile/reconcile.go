// Package reconcile holds what the day did against what was booked: it matches entries to scope
// lines, adds up progress, and finds the extras, deficiencies, tests, circuits, hours and open
// points of each day. It formats nothing, reads no files and knows no prices.
package reconcile

import (
	"cmp"
	"slices"

	"jobday/chance"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// Input is one job with all its notes. Company and Prices may be empty but not nil.
type Input struct {
	Company *notes.Company
	Prices  *notes.PriceList
	Job     *notes.Job
	Notes   []*notes.DayNote // in any order
	Words   trade.Words
	Kinds   trade.Catalogue // of deficiencies; the zero value is the built-in ones
	// Decisions is what the office settled, in the order written.
	Decisions []notes.Decision
	// Named keeps the names of the clues to each outcome on the entries, to fit weights by.
	Named bool
	// OnLines, where set, is told the clues that an entry means each line, and none: to fit weights by.
	OnLines func(e *notes.Entry, clues [][]string)
	// OnCounts, where set, is told the clues that an entry did each number of a line, "" for none: to fit weights by.
	OnCounts func(e *notes.Entry, line int, numbers []string, clues [][]string)
	// Lines, where set, is used in place of the built-in model of which line an entry means: to fit others by.
	Lines *chance.Model
}

// Job returns one JobDay for each date that has notes, in order of date, with all money still
// empty. Each day stands on the ones before it: progress to date, and what they left open.
// The findings are those of the join; what is wrong with a note's text was found by the parser.
func Job(in Input) ([]*notes.JobDay, finding.List) {
	s := newStanding(in)
	s.layOut()
	dated := slices.Clone(in.Notes)
	slices.SortStableFunc(dated, func(a, b *notes.DayNote) int {
		return cmp.Or(a.Date.Compare(b.Date), cmp.Compare(a.File.Name, b.File.Name))
	})
	var days []*notes.JobDay
	for len(dated) > 0 {
		n := 1
		for n < len(dated) && dated[n].Date == dated[0].Date {
			n++
		}
		days = append(days, s.day(dated[:n]))
		dated = dated[n:]
	}
	if len(days) > 0 {
		days[len(days)-1].Final = true
	}
	s.unmet()
	return days, s.found
}

// standing is how a job stands between two days.
type standing struct {
	in      Input
	index   *lineIndex
	lines   []lineStanding // one a line of the job, in its order
	extras  []*openExtra   // every extra so far
	faults  []*openFault   // every deficiency so far
	left    []*openPoint
	asked   []*openPoint // questions
	panels  panelBook
	reports int
	found   finding.List
	items   map[string]itemWords  // what was read of item names, by name
	met     map[finding.Span]bool // decisions whose entry exists
	spoken  map[string][]int      // the lines that work was on which was told of with a word

	// Memory used again from entry to entry.
	fitting, fittingPart []match // of an entry, of a part of it
	fit                  fitClues
	lineWeights          *lineWeights
	tally                lineTally
	counting             counting
	entryTerms           entryTerms
	termsByLine          map[meant]*termByLine
	worksByLine          map[string][]int
	anyTouched           bool // what was matched last shares a word with a line
	features             []chance.Feature
	chances              []float64
	lex                  *field.Lexicon // of the note last read again
	lexOf                *notes.DayNote
}

// lineStanding is how one line stands.
type lineStanding struct {
	toDate    notes.Decimal // may go beyond the booked quantity
	hours     notes.Minutes
	complete  bool
	dropped   notes.Decimal
	droppedBy string
	blockedBy string
	blocked   bool
	begun     bool // something was done on it, however little
}

func newStanding(in Input) *standing {
	return &standing{
		in: in, index: newLineIndex(in.Job, in.Words), lines: make([]lineStanding, len(in.Job.Lines)),
		met: map[finding.Span]bool{}, spoken: map[string][]int{}, items: map[string]itemWords{}, termsByLine: map[meant]*termByLine{}, worksByLine: map[string][]int{},
		fit: fitClues{chance.Clues{Named: in.Named}}, tally: lineTally{keep: in.OnLines != nil}, lineWeights: weightsOf(in.Lines),
	}
}

// A day is one date under compilation. Its steps run in the order of compile.
type day struct {
	*standing
	out   *notes.JobDay
	reads []*read
	room  []read    // for reads to come: memory is taken for several at once
	lines []lineDay // one a line of the job
	labor laborBook
	used  map[string]int // slugs taken, for ids
	date  string         // of the day, as ids begin
}

// lineDay is what today did to one line.
type lineDay struct {
	today    notes.Decimal
	minutes  notes.Minutes
	touched  bool // a note speaks of it
	finished bool
	unclear  bool
	from     []notes.Source
}

// read is one entry with what was made of it so far.
type read struct {
	at      int // its place among the day's
	note    *notes.DayNote
	entry   *notes.Entry
	result  notes.EntryResult
	facts   notes.Facts // of the entry and its details together; of the entry above for "same"
	query   query
	found   []match // lines it may serve, likeliest first, while it is decided
	noLine  float64 // the chance that it means none of them
	lines   []int   // lines it does serve
	extra   *openExtra
	why     string
	kind    notes.Kind // of the words, until the booking says better
	decided []notes.Decision
	fault   bool       // work on a line that also names a deficiency
	list    int        // how many things the entry lists by number, once asked; -1 before
	lower   string     // see low
	mend    trade.Mend // what it says of putting a deficiency right, once asked; -1 before
	telling []string   // its words that tell which deficiency it is about, once asked
}

func (s *standing) day(dayNotes []*notes.DayNote) *notes.JobDay {
	s.reports++
	d := &day{
		standing: s,
		lines:    make([]lineDay, len(s.in.Job.Lines)),
		used:     map[string]int{},
		date:     dayNotes[0].Date.String(),
		out: &notes.JobDay{
			Version: notes.Version, Company: s.in.Company.Name, Job: s.in.Job.Number,
			Date: dayNotes[0].Date, Number: s.reports,
		},
	}
	for _, n := range dayNotes {
		d.takeNote(n)
	}
	d.decide()
	d.applyWork()
	d.overs()
	d.recordFaults()
	d.recordTests()
	d.recordFills()
	d.recordCircuits()
	d.recordRemarks()
	d.recordLabor()
	d.recordMaterials()
	d.closePoints()
	d.writeExtras()
	d.writeScope()
	d.fillEmpty()
	return d.out
}

// takeNote enters a note and its entries.
func (d *day) takeNote(n *notes.DayNote) {
	ref := notes.NoteRef{File: n.File.Name, SHA256: n.SHA256, Source: n.File}
	ref.Covered = make([]finding.Span, 0, len(n.Structure)+len(n.Narrative)+2*len(n.Entries))
	ref.Covered = append(ref.Covered, n.Structure...)
	for _, r := range n.Narrative {
		ref.Covered = append(ref.Covered, r.Span)
		d.out.Narrative = append(d.out.Narrative, d.point(r.Text, r.Span))
	}
	d.reads = slices.Grow(d.reads, len(n.Entries))
	for i := range n.Entries {
		e := &n.Entries[i]
		ref.Covered = append(ref.Covered, e.Span)
		for _, det := range e.Details {
			ref.Covered = append(ref.Covered, det.Span)
		}
		for _, p := range e.Photos {
			ref.Covered = append(ref.Covered, p.Span)
		}
		d.takeEntry(n, e)
	}
	for _, name := range n.Crew {
		if !slices.Contains(d.out.Crew, name) {
			d.out.Crew = append(d.out.Crew, name)
		}
	}
	d.out.Notes = append(d.out.Notes, ref)
}

// takeEntry enters one entry: as one read, as one for each line when it counts things of several
// lines ("unit 5: 3 heads, horn"), or as those of the entry above for another place ("unit 6: same").
func (d *day) takeEntry(n *notes.DayNote, e *notes.Entry) {
	if e.Again && len(d.reads) > 0 {
		d.takeAgain(n, e)
		return
	}
	e = d.index.uncounted(e)
	facts, q := merged(d.ownWork(e)), d.query(e)
	if parts := d.partsByLine(e, &q); len(parts) > 1 {
		for _, p := range parts {
			d.takeRead(n, p, merged(p), newQuery(p.Text+" "+q.places(), d.in.Words))
		}
		return
	}
	d.takeRead(n, e, facts, q)
}

// ownWork returns the entry without the details that are equipment or a subcontractor's work: their
// hours are nobody's time. The price stage reads them.
func (d *day) ownWork(e *notes.Entry) *notes.Entry {
	if !slices.ContainsFunc(e.Details, d.in.Company.HiredDetail) {
		return e
	}
	own := *e
	own.Details = slices.DeleteFunc(slices.Clone(e.Details), d.in.Company.HiredDetail)
	return &own
}

// query reads the words of an entry, with the place its heading gives when it names none itself.
func (d *day) query(e *notes.Entry) query {
	q := queryOf(e.Span.Text(), withoutNames(e.Facts), d.in.Words)
	if e.Place == "" || q.places() != "" {
		return q
	}
	return newQuery(e.Text+" in "+e.Place, d.in.Words)
}

// takeAgain enters an entry that says the one above holds here too.
func (d *day) takeAgain(n *notes.DayNote, e *notes.Entry) {
	first := len(d.reads) - 1
	for line := d.reads[first].result.Source.Line; first > 0 && d.reads[first-1].note == n && d.reads[first-1].result.Source.Line == line; {
		first--
	}
	for _, above := range d.reads[first:] {
		again := *e
		again.Kind, again.Sure = above.kind, above.entry.Sure
		again.Facts = above.entry.Facts
		d.takeRead(n, &again, above.facts, above.query.elsewhere(e.Text))
	}
}

// partsByLine parts an entry whose counted things belong to different lines. A thing named once
// without a number beside others that have one is one: "3 heads, horn".
func (d *day) partsByLine(e *notes.Entry, q *query) []*notes.Entry {
	if e.Kind != notes.Work || e.Label != "" || len(e.Facts.Items) < 2 || len(d.index.lines) < 2 {
		return nil
	}
	unfit := func(it notes.Item) bool { return it.Text == "" || len(it.Other) > 0 }
	if !counts(e.Facts.Items) || slices.ContainsFunc(e.Facts.Items, unfit) {
		return nil
	}
	var parts []*notes.Entry
	lines, sure := map[int]bool{}, false
	for _, it := range e.Facts.Items {
		text := it.Text
		words := newQuery(text+" "+q.places(), d.in.Words)
		line, p := d.likeliestLine(&words, it)
		if p < likelyPart {
			return nil
		}
		sure = sure || p >= SureAt
		if !it.Qty.Written() {
			it.Qty = notes.Quantity{Value: notes.Int(1), Unit: notes.Each}
		}
		lines[line] = true
		part := *e
		part.Text, part.Span = text, e.Span.Sub(it.Start, it.End)
		part.Facts.Items = []notes.Item{it}
		parts = append(parts, &part)
	}
	if len(lines) < 2 || !sure {
		return nil
	}
	return parts
}

// likelyPart is how well each thing an entry counts has to fit a line for the entry to be parted by line, where one of
// them fits well. What is doubtful is then asked of that thing, not of all.
const likelyPart = 0.5

// readsAtOnce is for how many entries memory is taken at once.
const readsAtOnce = 16

func (d *day) takeRead(n *notes.DayNote, e *notes.Entry, facts notes.Facts, q query) {
	if len(d.room) == 0 {
		d.room = make([]read, min(len(n.Entries), readsAtOnce))
	}
	r := &d.room[0]
	d.room = d.room[1:]
	*r = read{at: len(d.reads), note: n, entry: e, facts: facts, query: q, why: e.Why, kind: e.Kind, list: -1, mend: -1}
	r.result = notes.EntryResult{
		ID: d.id(&q, e), Section: e.Section, Text: e.Text, Source: notes.SourceOf(e.Span), Entry: e,
		Reading: notes.NoReading{},
	}
	for _, det := range e.Details {
		r.result.Details = append(r.result.Details, notes.DetailResult{Text: det.Text, Source: notes.SourceOf(det.Span)})
	}
	for _, p := range e.Photos {
		r.result.Photos = append(r.result.Photos, p.Path)
	}
	if len(d.in.Decisions) > 0 {
		r.decided = d.decisionsFor(r)
	}
	d.reads = append(d.reads, r)
}

// merged returns the facts of an entry with those of its details behind them. Where both speak of
// one thing the entry's own word stands, except that a detail may supply what the entry left out.
func merged(e *notes.Entry) notes.Facts {
	f := e.Facts
	for _, det := range e.Details {
		g := det.Facts
		f.Items = append(f.Items[:len(f.Items):len(f.Items)], g.Items...)
		f.Time = append(f.Time[:len(f.Time):len(f.Time)], g.Time...)
		f.Readings = append(f.Readings[:len(f.Readings):len(f.Readings)], g.Readings...)
		if f.Consent.State <= notes.Asked && g.Consent.State > f.Consent.State {
			f.Consent = g.Consent
		}
		if f.Price.Quoted == nil && f.Price.NotOver == nil && !f.Price.NoCharge {
			f.Price = g.Price
		}
		if f.Fault.State == "" {
			f.Fault.State = g.Fault.State
		}
		if f.Fault.Told == "" {
			f.Fault.Told = g.Fault.Told
		}
		if f.Progress == (notes.Progress{}) {
			f.Progress = g.Progress
		}
	}
	return f
}

// fillEmpty makes every list of the day a list, so that JSON shows [] and never null.
func (d *day) fillEmpty() {
	o := d.out
	o.Entries = make([]notes.EntryResult, 0, len(d.reads))
	for i := range d.reads {
		r := &d.reads[i].result
		if d.reads[i].plainTalk() {
			continue // stands in the narrative
		}
		r.Lines, r.Candidates = list(r.Lines), list(r.Candidates)
		r.Details, r.Photos = list(r.Details), list(r.Photos)
		o.Entries = append(o.Entries, *r)
	}
	o.Crew, o.Notes, o.Scope = list(o.Crew), list(o.Notes), list(o.Scope)
	o.Extras, o.Deficiencies, o.Tests = list(o.Extras), list(o.Deficiencies), list(o.Tests)
	o.Circuits, o.Materials, o.Labor = list(o.Circuits), list(o.Materials), list(o.Labor)
	for _, l := range []*[]notes.Standing{
		&o.Left, &o.Questions, &o.Narrative, &o.Deliveries, &o.Equipment, &o.Delays,
		&o.Instructions, &o.Safety, &o.Conditions, &o.Subcontractors,
	} {
		*l = list(*l)
	}
	o.Money.Ready.Lines, o.Money.Ready.Tax = list(o.Money.Ready.Lines), list(o.Money.Ready.Tax)
	o.Money.Held, o.Money.NotBilled = list(o.Money.Held), list(o.Money.NotBilled)
	o.Findings = list(o.Findings)
}

func list[T any](l []T) []T {
	if l == nil {
		return []T{}
	}
	return l
}

// point returns a remark of today as it is carried.
func (d *day) point(text string, span finding.Span) notes.Standing {
	return notes.Standing{Text: text, Since: d.out.Date, From: []notes.Source{notes.SourceOf(span)}}
}

// add raises a finding of the join.
func (d *day) add(f finding.Finding) { d.found.Add(f) }
