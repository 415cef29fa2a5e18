package reconcile

import (
	"strings"

	"jobday/notes"
)

// sureLine serves the line the words fit beyond doubt, and reports whether there is one: "occ sensors:
// 4 in, 2 backordered" is progress, whatever else it tells of.
func (d *day) sureLine(r *read) bool {
	r.found = d.match(r)
	if len(r.found) == 0 || r.found[0].p < 0.9 {
		return false
	}
	r.serve(d, []int{r.found[0].line}, r.found[0].p, "shares "+strings.Join(r.found[0].shared, ", "))
	return true
}

// dropped serves the booked line that somebody took out of the work, and reports whether the words
// name one.
func (d *day) dropped(r *read) bool {
	if d.byLabel(r) {
		return true
	}
	r.found = d.match(r)
	if len(r.found) == 0 || r.found[0].p < TakeAt {
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
	r.found = d.match(r)
	if len(r.found) > 0 && r.found[0].p >= TakeAt && !d.inList(r) {
		ev := r.found[0].evidence
		if r.entry.Section == notes.Done || ev[evWhich] > 0 || ev[evProgress] > 0 || goesOn(r.entry.Text) || ev[evUnit] > 0 {
			r.serve(d, []int{r.found[0].line}, r.found[0].p, "shares "+strings.Join(r.found[0].shared, ", "))
			return
		}
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
	r.found = d.match(r)
	p := r.facts.Progress
	says := p.Complete != notes.Unsaid || p.Blocked || p.NotDone || p.ByOthers || p.Placed || p.All || p.Of != nil || counts(r.entry.Facts.Items)
	if says && len(r.found) > 0 && r.found[0].p >= TakeAt {
		r.serve(d, []int{r.found[0].line}, r.found[0].p, "shares "+strings.Join(r.found[0].shared, ", "))
		return
	}
	r.set(notes.Narrative, 0.75, "says nothing that is counted")
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
		if o != r && o.note == r.note && o.result.Source.Line == r.result.Source.Line && o.entry.Kind == notes.Material {
			return true
		}
	}
	return false
}
