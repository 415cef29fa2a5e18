package reconcile

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"jobday/chance"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
)

// outcomesText is the fitted model of outcomes: what each clue of the words and of the booking speaks for.
// TestFit writes it.
//
//go:embed outcomes.model
var outcomesText string

var outcomes = sync.OnceValue(func() *chance.Model { return chance.MustParse("outcomes.model", outcomesText) })

// An opinion is what the clues of an entry say it is.
type opinion struct {
	outcome, next notes.Outcome
	sure          float64 // 1 less what it is expected to cost to take it for that
	answers       []string
	chances       []float64 // of each answer, until the next is weighed
}

// p returns the chance of an outcome.
func (o opinion) p(outcome notes.Outcome) float64 {
	return o.chances[slices.Index(o.answers, string(outcome))]
}

// weigh puts together what the words and the booking say of an entry.
func (d *day) weigh(r *read) opinion {
	m := outcomes()
	d.features = d.features[:0]
	for _, c := range r.entry.Clues {
		d.features = append(d.features, chance.Feature(c))
	}
	d.features = append(d.features, d.fit.Of...)
	d.chances = m.Weigh(d.chances, d.features)
	c := m.Choose(d.chances, notes.IsWeighty)
	return opinion{
		outcome: notes.Outcome(m.Answers[c.Answer]), next: notes.Outcome(m.Answers[c.Next]), sure: 1 - c.Cost,
		answers: m.Answers, chances: d.chances,
	}
}

// open reports whether what an entry is has to be asked.
func (o opinion) open() bool {
	return o.sure < SureAt && (o.weighty() || o.sure < talkAt)
}

func (o opinion) weighty() bool { return notes.IsWeighty(string(o.outcome)) }

// booking reports whether an entry is, or where that is open may be, booked work or an extra.
func (o opinion) booking() bool {
	switch {
	case o.outcome == notes.InScope || o.outcome == notes.Extra:
		return true
	case !o.open():
		return false
	}
	return o.next == notes.InScope || o.next == notes.Extra && o.weighty()
}

// decideWeighed gives an entry the outcome its clues speak for, and reports false where other rules have to.
func (d *day) decideWeighed(r *read) bool {
	if len(r.entry.Clues) == 0 || r.entry.Label != "" || len(d.in.Job.Lines) == 0 {
		return false
	}
	d.hold(r)
	d.fit.gather(d, r)
	if d.fit.Named {
		r.entry.ClueNames = append(r.entry.ClueNames, d.fit.Names...)
	}
	o := d.weigh(r)
	if headed(r.entry) && (o.sure < overHeading || r.plainly(o.outcome)) {
		return false
	}
	switch {
	case o.booking():
		d.booked(r, o)
	case o.open():
		d.openKind(r, o)
	default:
		d.told(r, o)
	}
	return true
}

// overHeading is how surely an entry has to be something else to win over the heading it stands beneath.
const overHeading = 0.85

// headed reports whether an entry stands beneath a heading, other than Done, that says what it is.
func headed(e *notes.Entry) bool {
	return e.Section != "" && e.Section != notes.Done && e.Kind == e.Section.Kind()
}

// plainly reports whether an entry says in so many words what its heading is for, whatever else it may look like:
// hours under Time, a count of something and no work under Materials, a thing that came under Deliveries.
func (r *read) plainly(looks notes.Outcome) bool {
	switch r.entry.Section {
	case notes.Deliveries:
		return looks == notes.Material
	case notes.Time:
		return len(r.facts.Time) > 0
	case notes.Materials:
		return counts(r.facts.Items) && len(r.query.work) == 0
	}
	return false
}

// SureAt is how sure the outcome of an entry has to be to be taken without asking.
const SureAt = 0.7

// talkAt is that of an entry on which neither money nor danger hangs: nobody wants to be asked about small talk.
const talkAt = 0.6

// openKind keeps an entry open that may be one of two kinds.
func (d *day) openKind(r *read, o opinion) {
	e := *r.entry // the note is not ours to change
	e.MayBe = []notes.Kind{kindOf(o.outcome), kindOf(o.next)}
	r.entry, r.result.Entry = &e, &e
	d.unclearKind(r)
	r.result.Confidence = o.sure
}

// kindOf is the kind of words that an outcome is made of.
func kindOf(o notes.Outcome) notes.Kind {
	if o == notes.InScope {
		return notes.Work
	}
	return o
}

// told gives an entry an outcome that no booked line and no extra is concerned with.
func (d *day) told(r *read, o opinion) {
	why := r.why
	if r.kind != o.outcome {
		why = "its words speak for it"
		r.kind = o.outcome
		d.reread(r)
	}
	r.set(o.outcome, o.sure, why)
	if best, _ := r.fits(); o.outcome == notes.LeftOpen && best >= TakeAt {
		d.lines[r.found[0].line].touched = true
	}
}

// reread reads what an entry says of its kind where its words were first taken for another.
func (d *day) reread(r *read) {
	switch text := r.entry.Span.Text(); {
	case r.kind == notes.TimeEntry && len(r.facts.Time) == 0:
		r.facts.Time = field.ReadTime(text, d.lexicon(r))
	case r.kind == notes.Test && len(r.facts.Readings) == 0:
		r.facts.Readings = field.ReadReadings(text, d.lexicon(r))
	case r.kind == notes.Circuit && !r.facts.Circuit.Found():
		r.facts.Circuit = field.Circuit(text, d.lexicon(r))
	}
}

// lexicon returns the names and words an entry is read with.
func (d *day) lexicon(r *read) *field.Lexicon {
	if d.lex != nil && d.lexOf == r.note {
		return d.lex
	}
	people := make([]string, 0, len(d.in.Company.People))
	for _, p := range d.in.Company.People {
		people = append(people, p.Name)
	}
	d.lex, d.lexOf = field.NewLexicon(people, r.note.Author, r.note.Crew), r.note
	d.lex.Words = d.in.Words
	return d.lex
}

// booked decides between booked work, an extra, and what has to be asked.
func (d *day) booked(r *read, o opinion) {
	if (r.facts.Progress.Dropped || r.refusesBooked()) && r.kind == notes.Extra && d.dropped(r) {
		r.facts.Progress.Dropped = true
		return
	}
	work, extra := o.p(notes.InScope), o.p(notes.Extra)
	best, any := r.fits()
	if o.outcome == notes.InScope || o.outcome == notes.Extra {
		if x := d.index.excluded(&r.query); x >= 0 && !(best >= TakeAt && d.besideExcluded(r, x)) {
			r.kind = notes.Work
			d.extraWork(r, max(extra, 0.9), "is under Not included: "+d.in.Job.NotIncluded[x].Text)
			return
		}
	}
	switch {
	case o.outcome == notes.Extra && o.sure >= SureAt:
		d.takeExtra(r, o)
	case o.outcome == notes.InScope && o.sure >= TakeAt:
		d.takeWork(r, work, best, any)
		d.isBooked(r)
	case work+extra >= SureAt && best >= rivalShown:
		d.candidates(r)
		r.set(notes.Unclear, work*best/max(any, 0.01), d.mayBelong(r))
		d.askWhichLine(r)
	case work+extra >= SureAt && work > rivalShown:
		d.unknownWork(r)
	case extra >= SureAt:
		d.takeExtra(r, o)
	default:
		d.openKind(r, o)
	}
}

// takeExtra takes an entry for an extra.
func (d *day) takeExtra(r *read, o opinion) {
	if d.fitsButFor(r) {
		return
	}
	why := r.why
	if r.kind == notes.Extra {
		r.set(notes.Extra, o.sure, why)
	} else {
		r.kind = notes.Work
		if r.facts.Consent.State != notes.NoConsent {
			why = "somebody was asked or agreed, and no booked line fits well"
		} else {
			why = d.aboutNoLine(r)
		}
		d.extraWork(r, o.sure, why)
	}
	d.candidates(r)
	d.looksBooked(r)
}

// fitsButFor asks about work that nobody asked for and that fits a line in all but a rating.
func (d *day) fitsButFor(r *read) bool {
	return r.facts.Consent.State == notes.NoConsent && r.kind != notes.Extra && d.despiteRating(r)
}

// takeWork serves the line that booked work is about, if one stands out.
func (d *day) takeWork(r *read, work, best, any float64) {
	r.kind = notes.Work
	lines := d.several(r)
	i, p := d.byItem(r)
	switch {
	case len(lines) > 1:
		r.serve(d, lines, work, "is about several lines")
	case best >= rivalShown && best >= clearLead*any:
		r.serve(d, []int{r.found[0].line}, round3(work*best/any), r.found[0].fits())
	case i >= 0 && r.mayBe(i):
		r.serve(d, []int{i}, p, "counts what line "+d.in.Job.Lines[i].Label+" is booked for")
	case d.samePlaces(r):
	case best > 0:
		d.candidates(r)
		r.set(notes.Unclear, best, d.mayBelong(r))
		d.askWhichLine(r)
	default:
		d.unknownWork(r)
	}
}

// clearLead is how much of what speaks for any line has to speak for one, for it to be the line that is meant.
const clearLead = 0.8

// lookAt is how well a booked line has to fit what is written as an extra for that to be pointed out. Under that heading
// everything is less likely booked.
const lookAt = 0.7

// looksBooked points out an extra nobody asked for whose words fit a booked line well: it could be billed twice.
func (d *day) looksBooked(r *read) {
	if best, _ := r.fits(); best < lookAt || r.facts.Consent.State != notes.NoConsent {
		return
	}
	line := &d.in.Job.Lines[r.found[0].line]
	d.askBooked(r, line, "written as an extra, but it reads like booked line "+line.Label, "if it is the booked work, write: "+line.Label+": "+r.entry.Text)
}

// isBooked points out what stands under the heading of extras and was taken for booked work: it might never be billed.
func (d *day) isBooked(r *read) {
	if r.entry.Section != notes.Extras || r.result.Outcome != notes.InScope || len(r.result.Lines) == 0 {
		return
	}
	for i := range d.in.Job.Lines {
		if line := &d.in.Job.Lines[i]; line.Label == r.result.Lines[0] {
			d.askBooked(r, line, "written as an extra, and taken for booked line "+line.Label,
				"if that is right, write: "+line.Label+": "+r.entry.Text+"; if not, settle it: jobday decide "+r.result.ID+" extra")
			return
		}
	}
}

func (d *day) askBooked(r *read, line *notes.ScopeLine, message, hint string) {
	d.add(finding.Finding{
		Severity: finding.Warning, Rule: "extra/looks-booked", Message: message, Hint: hint, Span: r.entry.Span,
		Related: []finding.Related{{Message: "the booked line", Span: line.Span}},
	})
}

func join(words []string) string { return strings.Join(words, ", ") }

// fits returns how well the likeliest line fits, and all of them together: where several fit as well, one of them is
// meant and nobody can tell which.
func (r *read) fits() (best, any float64) {
	for i := range r.found {
		p := r.found[i].p
		if i == 0 {
			best = p
		}
		any += p
	}
	return best, any
}

// aboutNoLine says why an entry is taken for work that no line is booked for.
func (d *day) aboutNoLine(r *read) string {
	why := "no booked line is about it"
	if len(r.found) > 0 && r.found[0].veto != "" {
		why += " (line " + d.in.Job.Lines[r.found[0].line].Label + ": " + r.found[0].veto + ")"
	}
	return why
}
