package reconcile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// decide gives every entry its outcome. Extras that the note names as such come first, so that
// work described a second time elsewhere finds them.
func (d *day) decide() {
	for _, r := range d.reads {
		d.decideOne(r)
		r.found = nil
		r.result.Outcome = finalOutcome(r)
		r.result.Why = r.why
		r.result.Confidence = math.Round(r.result.Confidence*100) / 100
	}
}

func finalOutcome(r *read) notes.Outcome {
	if r.result.Outcome == "" || r.result.Outcome == notes.Work {
		return notes.Unclear
	}
	return r.result.Outcome
}

func (d *day) decideOne(r *read) {
	r.result.Confidence = r.entry.Sure
	if d.settle(r) {
		return
	}
	d.features = d.features[:0]
	if d.labelAhead(r) {
		return
	}
	if r.entry.Nothing || !d.decideWeighed(r) {
		d.decideByRule(r)
	}
	if len(d.features) > 0 {
		d.weighAnswers(r)
	}
}

func (d *day) decideByRule(r *read) {
	switch e := r.entry; {
	case e.Nothing:
		r.set(notes.Narrative, 1, "says there is nothing to report")
	case e.Sure < notes.SureEnough || e.Kind == notes.Unclear:
		d.unclearKind(r)
	case e.Kind == notes.Work:
		d.decideWork(r)
	case e.Kind == notes.Extra:
		d.decideExtra(r)
	case e.Kind == notes.Deficiency && e.Label != "" && d.byLabel(r):
		r.fault = true // a fault found in doing booked work: both are kept
	case e.Kind == notes.Material && (e.Section == "" || e.Section == notes.Done):
		d.decideThings(r)
	case e.Kind == notes.Question && e.Section != notes.Questions && r.facts.Consent.State == notes.Asked && r.query.says() && !asksUs(r.entry.Text):
		d.decideExtra(r) // somebody asked us for work: a price is wanted, not an answer
	case e.Kind == notes.Delivery && (e.Section == notes.Done || e.Section == "" && r.facts.Progress.Blocked) && d.sureLine(r):
	case e.Kind == notes.Delay && e.Section == "" && strings.HasPrefix(r.low(), "no ") && d.sureLine(r):
		r.facts.Progress.Complete = notes.No // "no freezer today, product in the way"
	case e.Kind == notes.LeftOpen:
		d.decideLeft(r)
	case e.Kind == notes.Narrative && e.Section == "":
		d.decideJotted(r)
	default:
		r.set(e.Kind, e.Sure, r.why)
	}
}

// counts reports whether any item has a quantity.
func counts(items []notes.Item) bool {
	return slices.ContainsFunc(items, func(it notes.Item) bool { return it.Qty.Written() })
}

// addWhy adds to why an entry is what it is, once it is decided.
func (r *read) addWhy(more string) {
	r.why += "; " + more
	r.result.Why = r.why
}

func (r *read) set(o notes.Outcome, p float64, why string) {
	r.result.Outcome, r.result.Confidence, r.why = o, p, why
}

// unclearKind keeps an entry open whose words do not say what it is.
func (d *day) unclearKind(r *read) {
	may := make([]string, 0, len(r.entry.MayBe))
	for _, k := range r.entry.MayBe {
		may = append(may, string(k))
	}
	why := "the words do not say what this is"
	if len(may) > 0 {
		why += ": " + strings.Join(may, " or ")
	}
	r.set(notes.Unclear, r.entry.Sure, why)
	d.hold(r)
	d.candidates(r)
	d.add(finding.Finding{
		Severity: finding.Warning, Rule: "entry/unclear",
		Message: "cannot tell what " + quote(r.entry.Text) + " is",
		Hint:    "put it under a heading such as ## Done or ## Extras, or start it with a scope label and a colon; or settle it: jobday decide " + r.result.ID,
		Span:    r.entry.Span, Holds: "whatever money it stands for",
	})
}

// hold finds the lines an entry may serve, once while it is decided. Who changes its words or facts forgets them.
func (d *day) hold(r *read) {
	if r.found == nil {
		r.found = d.match(r)
	}
}

// match holds an entry against every line, with what it counts and who asked for it, and keeps the
// evidence of the likeliest. What it returns stands until the next entry is matched.
func (d *day) match(r *read) []match {
	h := held{&r.query, &r.facts, r}
	d.fitting, r.noLine = d.weighLines(d.fitting, h)
	r.result.Evidence = d.evidenceRows(h, d.fitting)
	return d.fitting
}

// likeliestLine returns the line that a thing an entry counts fits best by its own words, and how well; -1 when none may
// be meant.
func (d *day) likeliestLine(q *query, it notes.Item) (line int, p float64) {
	d.fittingPart, _ = d.weighLines(d.fittingPart, held{query: q, facts: &notes.Facts{Items: []notes.Item{it}}})
	if len(d.fittingPart) == 0 {
		return -1, 0
	}
	return d.fittingPart[0].line, d.fittingPart[0].p
}

// candidates lists the lines an entry may belong to, as far as they are worth showing.
func (d *day) candidates(r *read) {
	for _, m := range r.found {
		if m.p >= 0.05 && len(r.result.Candidates) < 4 {
			r.result.Candidates = append(r.result.Candidates, notes.Candidate{
				Line: d.in.Job.Lines[m.line].Label, Confidence: math.Round(m.p*100) / 100,
			})
		}
	}
}

// decideWork holds work against the scope.
func (d *day) decideWork(r *read) {
	if d.byLabel(r) {
		return
	}
	if len(d.in.Job.Lines) == 0 {
		r.set(notes.Unclear, 0, "nothing is booked to hold it against")
		return
	}
	if strings.HasPrefix(r.low(), "no ") {
		r.facts.Progress.NotDone = true // "unit 7: 2 heads, no horn"
		r.found = nil
	}
	if d.samePlaces(r) {
		return
	}
	d.hold(r)
	best, any := r.fits()
	if lines := d.several(r); len(lines) > 1 {
		r.serve(d, lines, best, "is about several lines")
		return
	}
	if x := d.index.excluded(&r.query); x >= 0 && !(best >= TakeAt && d.besideExcluded(r, x)) {
		d.extraWork(r, 0.95, "is under Not included: "+d.in.Job.NotIncluded[x].Text)
		return
	}
	if i, p := d.byItem(r); best < TakeAt && i >= 0 && r.mayBe(i) {
		r.serve(d, []int{i}, p, "counts what line "+d.in.Job.Lines[i].Label+" is booked for")
		return
	}
	if (best < TakeAt || tidies(r.entry.Text)) && d.judgedApart(r, best) {
		return
	}
	switch {
	case best >= TakeAt, r.facts.Progress.Dropped && r.standsOut():
		r.serve(d, []int{r.found[0].line}, best, r.found[0].fits())
	case any >= ExtraAt:
		d.candidates(r)
		r.set(notes.Unclear, best, d.mayBelong(r))
		d.askWhichLine(r)
	case d.despiteRating(r):
	default:
		d.onNoLine(r, any)
	}
}

// sureDespite is how surely a line has to fit for words that an exclusion shares by the way.
const sureDespite = 0.9

// besideExcluded reports whether what an exclusion shares with an entry only says where or for what,
// while the likeliest line is about the same thing: "trench from the well", where the well pump is not
// included.
func (d *day) besideExcluded(r *read, x int) bool {
	if r.found[0].evidence[evHead] == 0 {
		return false
	}
	for i, t := range r.query.terms {
		if !r.query.qualifies[i] && d.index.not[x].has(t.Text) {
			return false
		}
	}
	return true
}

// byItem returns the one line that something the entry counts belongs to, in the line's own unit:
// "4 elbows glued up, 60 ft of the 2 in PVC in" is about the conduit. It is -1 when no line or
// several fit.
func (d *day) byItem(r *read) (line int, p float64) {
	line = -1
	if len(r.entry.Facts.Items) < 2 {
		return line, 0
	}
	for i := range r.found {
		if ev := &r.found[i].evidence; ev[evWhichOther] > 0 || ev[evAsked] > 0 {
			return line, 0 // it says which one, and it is another
		}
	}
	for _, it := range r.entry.Facts.Items {
		if !it.Qty.Written() || len(it.Other) > 0 || it.Name == "" {
			continue
		}
		words := d.item(it.Name)
		at, fits := d.likeliestLine(&words.query, it)
		if fits < TakeAt {
			continue
		}
		if _, same := it.Qty.In(d.in.Job.Lines[at].Qty.Unit); !same {
			continue
		}
		if line >= 0 && line != at {
			return -1, 0
		}
		line, p = at, fits
	}
	return line, p
}

// leastByItem is how well the whole entry has to fit a line that one of its items fits.
const leastByItem = 0.15

// mayBe reports whether nothing in the entry as a whole speaks against a line that one of its items
// fits: other work, another place, somebody who asked for it.
func (r *read) mayBe(line int) bool {
	for _, m := range r.found {
		if m.line == line {
			ev := m.evidence
			return m.veto == "" && m.p >= leastByItem && ev[evVerbOther] == 0 && ev[evWhichOther] == 0 && ev[evAsked] == 0
		}
	}
	return false
}

// despiteRating asks about work that fits a line in all but a rating or a size: booked for 30 A and
// reported with 20 A is a slip of the pen or another circuit, and only a person can say which.
func (d *day) despiteRating(r *read) bool {
	for _, m := range r.found {
		if m.veto == "" || m.place || m.despite < TakeAt {
			continue
		}
		label := d.in.Job.Lines[m.line].Label
		r.result.Candidates = append(r.result.Candidates, notes.Candidate{Line: label, Confidence: ExtraAt})
		r.set(notes.Unclear, ExtraAt, "fits line "+label+" but for "+m.veto)
		r.found = []match{m}
		d.askWhichLine(r)
		return true
	}
	return false
}

// decideLeft judges what is still to be done. Said of a booked line where work is reported, it is
// that line's progress: none. Elsewhere it stands as left, and the line has at least been spoken of.
func (d *day) decideLeft(r *read) {
	if r.entry.Label != "" && r.facts.Progress.NotDone && r.entry.Section != notes.Left && d.byLabel(r) {
		return
	}
	r.set(notes.LeftOpen, r.entry.Sure, r.why)
	d.hold(r)
	if len(r.found) == 0 || r.found[0].p < TakeAt {
		return
	}
	if r.entry.Section == notes.Done || r.entry.Section == "" && (r.facts.Progress.NotDone || r.facts.Progress.Blocked || strings.HasPrefix(r.low(), "no ")) {
		if r.facts.Progress.Complete == notes.Unsaid {
			r.facts.Progress.Complete = notes.No
		}
		r.serve(d, []int{r.found[0].line}, r.found[0].p, "is not all done; shares "+join(r.found[0].shared))
		return
	}
	d.lines[r.found[0].line].touched = true
}

// samePlaces lets "unit 8 no access" speak of what the list by place it stands in is about: the
// lines of the entry above it.
func (d *day) samePlaces(r *read) bool {
	p := r.facts.Progress
	if r.query.namesTrade() || !p.Blocked && !p.NotDone || r.query.places() == "" {
		return false
	}
	at := slices.Index(d.reads, r)
	for i := at - 1; i >= 0 && i >= at-4; i-- {
		above := d.reads[i]
		if above.note != r.note || above.entry.Section != r.entry.Section {
			break
		}
		if len(above.lines) > 0 && above.query.places() != "" {
			r.serve(d, above.lines, 0.85, "goes on from the entry above")
			return true
		}
	}
	return false
}

// judgedApart decides, where no line fits well, what other words decide: what others did, what goes
// with any job, a fault that is described, and work somebody asked for.
func (d *day) judgedApart(r *read, best float64) bool {
	p, c := r.facts.Progress, r.facts.Consent.State
	switch {
	case c == notes.NoConsent && (p.ByOthers || byOtherTrade(r.low()) || byOtherName(r.low())):
		r.set(notes.Condition, 0.8, "was done by others")
	case c == notes.NoConsent && incidental(&r.query) && !d.countsBooked(r):
		r.set(notes.Narrative, 0.8, "is part of every job: nothing to bill apart")
	case c == notes.NoConsent && r.facts.Fault.Named && !fixes(&r.query) && d.announcesFault(r):
		r.set(notes.Deficiency, 0.8, "describes a fault")
	case c != notes.NoConsent && (c != notes.Asked || !doneWords(r)):
		d.candidates(r)
		d.extraWork(r, 1-best, "somebody was asked or agreed, and no booked line fits well")
	default:
		return false
	}
	return true
}

// announcesFault reports whether the words are those of a kind of deficiency. It is the dearest
// question to ask of an entry.
func (d *day) announcesFault(r *read) bool {
	_, _, ok := d.in.Kinds.FindKind(r.entry.Text)
	return ok
}

// onNoLine judges work that no booked line is about.
func (d *day) onNoLine(r *read, best float64) {
	p := r.facts.Progress
	switch {
	case p.NotDone:
		r.set(notes.LeftOpen, 0.8, "was not done, and no booked line is about it")
	case !r.query.says() && r.facts.Consent.State == notes.NoConsent && len(r.facts.Items) == 0:
		r.set(notes.Narrative, 0.8, "names no work that could be billed")
	case !r.query.namesTrade() && r.entry.Section != "" && d.sharesOwn(r):
		d.unknownWork(r)
	case !r.query.namesTrade() && !(r.entry.Section == notes.Done && r.facts.Consent.State == notes.NoConsent && measures(r.entry.Facts.Items)) && (r.entry.Section == "" || !r.query.tradeVerb() && !pastVerb(&r.query)):
		r.set(notes.Narrative, 0.75, "names nothing of the trade")
	case r.query.unknown() && r.facts.Consent.State == notes.NoConsent:
		d.unknownWork(r)
	default:
		d.candidates(r)
		d.extraWork(r, min(1-best, mostSureExtra), d.aboutNoLine(r))
	}
}

// sharesOwn reports whether the entry has a word that only one booked line has: then it may be about
// that line, though the trade knows none of its words.
func (d *day) sharesOwn(r *read) bool {
	for i := range r.found {
		if r.found[i].veto == "" && r.found[i].evidence[evOnly] > 0 {
			return true
		}
	}
	return false
}

// mostSureExtra is how sure it can be that work sharing no word with the booking is an extra: the
// words may still be another name for a booked thing. From the labelled entries.
const mostSureExtra = 0.9

func (d *day) extraWork(r *read, p float64, why string) {
	r.set(notes.Extra, math.Round(p*1000)/1000, why)
}

// decideExtra judges what the note itself calls an extra. A label still names the line it goes
// with. Words that fit a booked line well are pointed out: it could be billed twice.
func (d *day) decideExtra(r *read) {
	if (r.facts.Progress.Dropped || r.refusesBooked()) && d.dropped(r) {
		r.facts.Progress.Dropped = true
		return
	}
	if r.refusesBooked() && len(r.found) > 0 && r.found[0].p >= ExtraAt {
		d.candidates(r)
		r.set(notes.Unclear, r.found[0].p, "may take out booked line "+d.in.Job.Lines[r.found[0].line].Label+", or refuse an extra")
		d.askWhichLine(r)
		return
	}
	r.set(notes.Extra, r.entry.Sure, r.why)
	d.hold(r)
	d.candidates(r)
	d.looksBooked(r)
}

// ofTrade reports whether words name a thing or a designation the trade knows.
func (d *day) ofTrade(words string) bool {
	q := newQuery(words, d.in.Words)
	return q.namesTrade()
}

func (d *day) labels() string {
	var ls []string
	for _, l := range d.in.Job.Lines {
		ls = append(ls, l.Label)
	}
	if len(ls) > 12 {
		ls = append(ls[:12], "...")
	}
	return strings.Join(ls, ", ")
}

// serve records that an entry is work on lines.
func (r *read) serve(d *day, lines []int, p float64, why string) {
	r.lines = lines
	for _, i := range lines {
		r.result.Lines = append(r.result.Lines, d.in.Job.Lines[i].Label)
	}
	if len(lines) == 1 {
		d.hear(&r.query, lines[0])
	}
	r.set(notes.InScope, p, why)
	if len(r.found) > 1 {
		d.candidates(r)
	}
}

// rivalShown is the probability from which a second line is named beside the likeliest.
const rivalShown = 0.15

// mayBelong says where an unclear entry may belong: to one of two lines that fit about as well, or to
// one line or none.
func (d *day) mayBelong(r *read) string {
	label := d.in.Job.Lines[r.found[0].line].Label
	if len(r.found) > 1 && r.found[1].p > rivalShown {
		return "may belong to line " + label + " or line " + d.in.Job.Lines[r.found[1].line].Label
	}
	return "may belong to line " + label + ", or be an extra"
}

// askWhichLine raises the question an unclear match leaves.
func (d *day) askWhichLine(r *read) {
	m := r.found[0]
	line := d.in.Job.Lines[m.line]
	message := fmt.Sprintf("may be line %s (%s), or an extra", line.Label, line.Work)
	related := []finding.Related{{Message: "the likeliest line", Span: line.Span}}
	if len(r.found) > 1 && r.found[1].p > rivalShown {
		rival := d.in.Job.Lines[r.found[1].line]
		message = fmt.Sprintf("may be line %s (%s) or line %s (%s)", line.Label, line.Work, rival.Label, rival.Work)
		related = append(related, finding.Related{Message: "the next likely", Span: rival.Span})
	}
	d.add(finding.Finding{
		Severity: finding.Warning, Rule: "entry/which-line",
		Message: message, Hint: "start the entry with the label: " + line.Label + ": " + r.entry.Text + "; or settle it: jobday decide " + r.result.ID,
		Span: r.entry.Span, Holds: "what this work is worth",
		Related: related,
	})
	if lt := &d.lines[m.line]; !lt.touched {
		lt.unclear = true
	}
}

func quote(s string) string {
	if r := []rune(s); len(r) > 60 {
		s = string(r[:57]) + "..."
	}
	return `"` + s + `"`
}
