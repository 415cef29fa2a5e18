package reconcile

import (
	"slices"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// sureLine serves the line the words fit beyond doubt, and reports whether there is one: "occ sensors:
// 4 in, 2 backordered" is progress, whatever else it tells of.
func (d *day) sureLine(r *read) bool {
	d.hold(r)
	if len(r.found) == 0 || r.found[0].p < 0.9 {
		return false
	}
	r.serve(d, []int{r.found[0].line}, r.found[0].p, r.found[0].fits())
	return true
}

// dropped serves the booked line that somebody took out of the work, and reports whether the words
// name one.
func (d *day) dropped(r *read) bool {
	if d.byLabel(r) {
		return true
	}
	d.hold(r)
	if len(r.found) == 0 || r.found[0].p < TakeAt && !r.standsOut() {
		return false
	}
	m := r.found[0]
	r.serve(d, []int{m.line}, m.p, "shares "+strings.Join(m.shared, ", "))
	return true
}

// decideThings judges things named outside the material section: with words that fit a booked line
// well and say where or how far, they are work reported in few words ("four more 50 A recepts");
// without a count they say nothing.
func (d *day) decideThings(r *read) {
	d.hold(r)
	best, _ := r.fits()
	switch alone := !d.inList(r); {
	case alone && best < TakeAt && len(d.several(r)) > 1:
		r.serve(d, d.several(r), best, "is about several lines")
		return
	case alone && best >= TakeAt && d.asWork(r):
		r.serve(d, []int{r.found[0].line}, best, r.found[0].fits())
		return
	case alone && best >= 0.5 && r.entry.Section == notes.Done:
		d.candidates(r)
		r.set(notes.Unclear, best, d.mayBelong(r))
		d.askWhichLine(r)
		return
	}
	if !counts(r.entry.Facts.Items) {
		r.set(notes.Narrative, 0.75, "counts nothing")
		return
	}
	r.set(notes.Material, r.entry.Sure, r.why)
}

// decideJotted judges a few words under no heading whose meaning hangs on what is booked: they are
// work where they name a booked line beyond doubt and say how far or how many, else narrative.
func (d *day) decideJotted(r *read) {
	d.hold(r)
	p := r.facts.Progress
	says := p.Complete != notes.Unsaid || p.Blocked || p.NotDone || p.ByOthers || p.Placed || p.All || p.Of != nil || counts(r.entry.Facts.Items) || r.query.numbered()
	if (says || p.Dropped) && len(r.found) > 0 && (r.found[0].p >= TakeAt || p.Dropped && r.standsOut()) {
		r.serve(d, []int{r.found[0].line}, r.found[0].p, r.found[0].fits())
		return
	}
	if p.ByOthers && len(r.query.terms) > 2 {
		r.set(notes.Condition, 0.8, "was done by others")
		return
	}
	r.set(notes.Narrative, 0.75, "says nothing that is counted")
}

// leastDropped is how well a line has to fit words that take booked work out: they name something
// that was booked, and the question is only which.
const leastDropped = 0.4

// countsBooked reports whether an entry counts something whose name a booked line has: "9 buckets vacuumed"
// is booked where the cleaning of buckets is, and no sweeping up.
func (d *day) countsBooked(r *read) bool {
	return counts(r.entry.Facts.Items) && d.sharesOwn(r)
}

// standsOut reports whether the likeliest line is twice as likely as all others together.
func (r *read) standsOut() bool {
	if len(r.found) == 0 || r.found[0].p < leastDropped {
		return false
	}
	others := 0.0
	for _, m := range r.found[1:] {
		others += m.p
	}
	return r.found[0].p >= 2*others
}

// plainTalk reports whether an entry was kept only to hold it against the booking, and is talk.
func (r *read) plainTalk() bool {
	return r.kind == notes.Narrative && r.entry.Section == "" && r.result.Outcome == notes.Narrative && !r.entry.Nothing && len(r.entry.Photos) == 0
}

// asWork reports whether things that fit a line are named as the work done on it, and not as what
// was used.
func (d *day) asWork(r *read) bool {
	ev := r.found[0].evidence
	if r.entry.Section == notes.Done || ev[evWhich] > 0 || ev[evProgress] > 0 || goesOn(r.entry.Text) || ev[evUnit] > 0 {
		return true
	}
	if nameFirst(r.entry.Text) {
		return true
	}
	return r.found[0].p >= sureDespite && ev[evHead] > 0 && len(r.facts.Items) == 1 && !d.amongMaterial(r)
}

// nameFirst reports whether words name a thing before they count it, as people write progress: "tv
// plugs 5". A list of material begins with the count.
func nameFirst(text string) bool {
	first, _, _ := strings.Cut(strings.ToLower(text), " ")
	return first != "" && (first[0] < '0' || first[0] > '9') && someOf(first) == 0
}

// amongMaterial reports whether the entries around r in its note list material too.
func (d *day) amongMaterial(r *read) bool {
	at := slices.Index(d.reads, r)
	for _, i := range []int{at - 1, at + 1} {
		if i >= 0 && i < len(d.reads) && d.reads[i].note == r.note && d.reads[i].entry.Section == r.entry.Section && d.reads[i].kind == notes.Material {
			return true
		}
	}
	return false
}

// goesOn reports whether the words go on with something: "more", "another".
func goesOn(text string) bool {
	for _, w := range strings.Fields(strings.ToLower(text)) {
		if w == "more" || w == "another" || w == "other" {
			return true
		}
	}
	return false
}

// inList reports whether other material stands on the same line of the note.
func (d *day) inList(r *read) bool {
	for _, o := range d.reads {
		if o != r && o.note == r.note && o.result.Source.Line == r.result.Source.Line && o.kind == notes.Material {
			return true
		}
	}
	return false
}

// numbered reports whether a bare number stands among the words, which counts or tells apart.
func (q *query) numbered() bool {
	for _, t := range q.terms {
		if t.Class == field.NumberTerm {
			return true
		}
	}
	return false
}

// asksUs reports whether a question opens like one: "do they want the dryer on its own GFCI?" asks the
// office, "Ruth asked can we add one?" asks for work.
func asksUs(text string) bool {
	first, _, _ := strings.Cut(strings.ToLower(text), " ")
	switch first {
	case "do", "does", "did", "is", "are", "can", "should", "who", "what", "why", "where", "when", "which", "how", "will", "would", "could":
		return true
	}
	return false
}

// refusesBooked reports whether somebody says no and nothing was asked or offered, so that what is
// refused may be booked work: "owner says no fan in 19".
func (r *read) refusesBooked() bool {
	if r.facts.Consent.State != notes.Declined || r.facts.Price.Quoted != nil || r.entry.Section == notes.Extras {
		return false
	}
	for _, w := range strings.FieldsFunc(r.low(), func(c rune) bool { return c < 'a' || c > 'z' }) {
		switch w {
		case "asked", "ask", "offered", "offer", "wanted", "wants", "price", "quote", "quoted", "told", "too", "extra", "add", "adding", "expensive", "much", "bucks", "suggested", "recommended":
			return false
		}
	}
	return true
}

// measures reports whether a length was written: work that was measured is no talk, whatever it names.
func measures(items []notes.Item) bool {
	return slices.ContainsFunc(items, func(it notes.Item) bool { return it.Qty.Written() && it.Qty.Unit == notes.Foot })
}
