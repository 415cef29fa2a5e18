package reconcile

import (
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// evidence is what the words and counts of an entry say for and against its meaning a line, each from 0 to 1.
type evidence [evidenceLen]float64

// The kinds of evidence.
const (
	evCoverage   = iota // how much of the line's words the entry has
	evPrecision         // how much of the entry's first words the line has
	evHead              // what the entry is about is what the line is about
	evHeadWhich         // what the entry is about only says, in the line, which one
	evHeadNone          // what the entry is about is nowhere in the line
	evNoHead            // the entry names no thing at all
	evOnly              // a shared word stands in no other line
	evWhich             // a place, designation or number that says which one is shared
	evWhichOther        // both say which one, and nothing of it is shared
	evVerb              // the same class of work
	evVerbOther         // work that the line cannot be
	evOutOf             // "3 of 6" on a line of six, "all six"
	evTooMany           // counts more than the line has left
	evAsked             // somebody asked, agreed or named a price
	evComplete          // the line was complete before today
	evProgress          // it speaks of how far something known got: done, the last one, waiting on
	evUnit              // it counts in the line's own unit, other than pieces
	evAsBooked          // it counts exactly as many as are booked, more than one
	evHeadElse          // what the entry is about is what other lines name, and this one does not
	evidenceLen
)

// weigh fills in the evidence that q, which was aligned last, means line i, and appends the words they
// share to ix.shared.
func (ix *lineIndex) weigh(ev *evidence, q *query, i int) {
	l := &ix.lines[i]
	shared, all := 0.0, 0.0
	for k := range l.terms {
		t := &l.terms[k]
		all += t.weight
		s := ix.sure[t.id]
		if s == 0 {
			continue
		}
		shared += s * t.weight
		ix.shared = append(ix.shared, ix.terms[t.id].text)
		if ix.terms[t.id].lines == 1 && s >= alikeTerm {
			ev[evOnly] = max(ev[evOnly], s)
		}
		if t.which {
			ev[evWhich] = max(ev[evWhich], s)
		}
	}
	if all > 0 {
		ev[evCoverage] = shared / all
	}
	ev[evPrecision] = ix.precision(q, l)
	ix.weighHead(ev, q, l)
	ix.weighWhich(ev, q, l)
	ev[evVerb], ev[evVerbOther] = verbEvidence(q, l)
	if l.act >= 0 && ix.sure[l.terms[l.act].id] > 0 && (l.actOnly() || q.head < 0) {
		ev[evHead], ev[evHeadNone], ev[evNoHead], ev[evPrecision] = 1, 0, 0, max(ev[evPrecision], partOfTerm)
	}
}

// actOnly reports whether a line is booked as an act and names no thing of its own: "Trench from house
// to barn". Then the act is what it is about.
func (l *indexedLine) actOnly() bool {
	q := l.query
	return len(q.terms) > 0 && q.terms[0].Class == field.VerbTerm && (q.head < 0 || q.qualifies[q.head])
}

// inLine returns how surely the i-th term of the entry means any term of the line, and which.
func inLine(hs []hit, l *indexedLine) (best float64, at int) {
	at = -1
	for _, h := range hs {
		for k := range l.terms {
			if l.terms[k].id == h.id && h.sure > best {
				best, at = h.sure, k
			}
		}
	}
	return best, at
}

// precision returns how much of the entry's first clause, up to eight words, the line has. What
// comes first is what it is about.
func (ix *lineIndex) precision(q *query, l *indexedLine) float64 {
	got, all := 0.0, 0.0
	for i := range q.terms[:min(q.clause, 8)] {
		t := &q.terms[i]
		w := termWeight(t.Class)
		if w == 0 && len(ix.hits[i]) > 0 {
			w = lineWeight(t.Class)
		}
		if w == 0 || repeated(q.terms, i) {
			continue
		}
		s, _ := inLine(ix.hits[i], l)
		if s == 0 && t.Class == field.PlaceTerm && len(ix.hits[i]) == 0 && (passing(t.Dim) && !l.placed || (t.Dim == "unit" || t.Dim == "floor") && !l.placedBy(t.Dim) || !l.placed && slices.Contains(ix.site, t.Text)) {
			continue // a line that names no such place is booked for all units
		}
		if s == 0 && t.Class == field.VerbTerm {
			continue // the act of another line: verbs are judged apart
		}
		w /= 1 + float64(i)/4
		all += w
		got += w * s
	}
	if all == 0 {
		return 0
	}
	return got / all
}

// placedBy reports whether the line names a place of the dimension.
func (l *indexedLine) placedBy(dim string) bool {
	for _, t := range l.query.terms {
		if t.Class == field.PlaceTerm && t.Dim == dim {
			return true
		}
	}
	return false
}

// passing reports whether a place of this dimension only elaborates where a line names no place.
func passing(dim string) bool {
	return dim == "unit" || dim == "floor" || dim == "spot" || dim == "side"
}

func (ix *lineIndex) weighHead(ev *evidence, q *query, l *indexedLine) {
	if q.head < 0 {
		ev[evNoHead] = 1
		for i, t := range q.terms[:q.clause] {
			if t.Class == field.DesignationTerm && identifies(t.Dim) {
				if s, at := inLine(ix.hits[i], l); s > 0 && !l.terms[at].behind {
					ev[evHead], ev[evNoHead] = s, 0 // "BP1 hung"
				}
			}
		}
		return
	}
	s, at := inLine(ix.hits[q.head], l)
	if at < 0 && len(ix.hits[q.head]) > 0 {
		ev[evHeadElse] = 1
	}
	switch {
	case at < 0 && q.terms[q.head].Class == field.ThingTerm:
		ev[evHeadNone] = 1
	case at < 0:
		ev[evHeadNone] = 0.5 // a word the trade does not know may be another name
	case l.terms[at].head || !l.terms[at].which:
		ev[evHead] = s
	default:
		ev[evHeadWhich] = s
	}
	for i, t := range q.terms[:q.clause] {
		if t.Class == field.DesignationTerm && identifies(t.Dim) {
			if s, at := inLine(ix.hits[i], l); s > 0 && ev[evHeadNone] > 0 {
				ev[evHeadNone], ev[evHeadWhich] = 0, s // "LP1, 14 spaces traced" is about LP1
				if !l.terms[at].behind {
					ev[evHead], ev[evHeadWhich] = s, 0
				}
			}
		}
	}
}

// weighWhich compares the words and numbers that say which one.
func (ix *lineIndex) weighWhich(ev *evidence, q *query, l *indexedLine) {
	mine := false
	for i := range q.terms {
		t := &q.terms[i]
		if termWeight(t.Class) == 0 || !q.qualifies[i] && t.Class != field.PlaceTerm && !identifies(t.Dim) {
			continue
		}
		if s, _ := inLine(ix.hits[i], l); s > 0 {
			ev[evWhich] = max(ev[evWhich], s)
			return
		}
		mine = mine || i < q.clause
	}
	for _, n := range q.numbers {
		for k := range l.query.terms {
			if identifiesNumber(&l.query.terms[k]) == n || l.covers(n) {
				ev[evWhich] = max(ev[evWhich], partOfTerm)
				return
			}
		}
	}
	if !mine {
		return
	}
	for k := range l.terms {
		t := &l.terms[k]
		if t.which && ix.sure[t.id] == 0 {
			ev[evWhichOther] = 1
		}
		if t.which && ix.sure[t.id] > 0 {
			ev[evWhichOther] = 0
			return
		}
	}
}

// identifies reports whether a dimension names one certain thing, not a kind of thing.
func identifies(dim string) bool {
	return dim == "panel" || dim == "equipment" || dim == "circuit" || strings.HasPrefix(dim, "which ")
}

// identifiesNumber returns the number of a term such as "heater 3", "unit 5" or "room 101", or -1.
func identifiesNumber(t *field.Term) int {
	if t.Class != field.PlaceTerm && !identifies(t.Dim) {
		return -1
	}
	last := t.Text[strings.LastIndexByte(t.Text, ' ')+1:]
	if last == "" || last[0] < '0' || last[0] > '9' {
		return -1 // most have none, and an error costs memory
	}
	n, err := strconv.Atoi(last)
	if err != nil {
		return -1
	}
	return n
}

// verbEvidence compares the kinds of work. Removing is part of replacing; installing, repairing,
// relocating and removing are different work.
func verbEvidence(q *query, l *indexedLine) (same, other float64) {
	if l.wired {
		for _, v := range q.verbs() {
			switch v {
			case "pull", "land", "connect", "energize", "rough", "makeup":
				return 1, 0 // a circuit is pulled and landed, not hung
			}
		}
	}
	for _, v := range q.verbs() {
		for _, w := range l.verbs() {
			if v == w {
				return 1, 0
			}
			if differentWork(v, w) {
				other = 1
			}
		}
	}
	switch l.query.act() {
	case "label", "trace", "dig", "test", "program", "seal":
		other = max(other, 0.5) // what such a line names is there: only the act makes it
	}
	if other == 0 && len(l.verbs()) == 0 {
		for _, v := range q.verbs() {
			switch v {
			case "repair", "relocate", "troubleshoot":
				other = 1 // a line that names a thing only is booked to be put in
			case "remove", "replace":
				other = max(other, 0.5)
			}
		}
	}
	return 0, other
}

// wired are the things a line may be about that are pulled and landed.
var wired = map[string]bool{"circuit": true, "feeder": true, "home run": true, "homerun": true, "branch circuit": true, "wire": true}

// differentWork reports whether work of class v cannot be what a line of class w asks for.
func differentWork(v, w string) bool {
	switch w {
	case "install":
		return v == "remove" || v == "repair" || v == "relocate" || v == "replace"
	case "replace":
		return v == "relocate" || v == "repair"
	case "remove":
		return v == "install" || v == "repair" || v == "relocate" || v == "replace"
	case "relocate":
		return v == "replace" || v == "repair"
	case "repair":
		return v == "relocate" || v == "install"
	case "trim":
		return v == "rough" || v == "pull"
	case "rough":
		return v == "trim"
	}
	return false
}

// fromFacts adds what the entry's counts and consents say about a line; another when its words speak of one
// more than there was.
func (ev *evidence) fromFacts(another bool, f *notes.Facts, line *notes.ScopeLine, ls *lineStanding) {
	p := &f.Progress
	if p.Of != nil && p.Of.Equal(line.Qty.Value) && line.Qty.Value.Cmp(notes.Int(1)) > 0 {
		ev[evOutOf] = 1
	}
	if p.Complete != notes.Unsaid || p.Of != nil || p.All || p.Rest || p.NotDone || p.Blocked || p.Fraction != nil {
		ev[evProgress] = 1
	}
	for i := range f.Items {
		it := &f.Items[i]
		q, ok := it.Qty.In(line.Qty.Unit)
		if ok && it.Qty.Written() && line.Qty.Unit != notes.Each {
			ev[evUnit] = 1
		}
		if ok && len(it.Other) == 0 && q.Value.Cmp(line.Qty.Value) > 0 {
			ev[evTooMany] = 1
		}
		if ok && it.Qty.Written() && q.Value.Equal(line.Qty.Value) && q.Value.Cmp(notes.Int(1)) > 0 {
			ev[evAsBooked] = 1
		}
	}
	switch c := f.Consent.State; {
	case p.Dropped: // what is dropped was booked, whoever said so
	case p.Beyond, c == notes.Authorized || f.Price.Quoted != nil || f.Price.NotOver != nil:
		ev[evAsked] = 1
	case c == notes.Asked || c == notes.Declined:
		ev[evAsked] = 0.7
	}
	if one := notes.Int(1); line.Qty.Unit == notes.Each && line.Qty.Value.Equal(one) && p.Of == nil && another {
		ev[evAsked] = max(ev[evAsked], 0.7) // there is only one booked
	}
	if ls.complete {
		ev[evComplete] = 1
	}
}

// another reports whether the words speak of one more than there was: "second pole light too".
func another(low string) bool {
	first, _, _ := strings.Cut(low, " ")
	switch first {
	case "second", "2nd", "another", "other", "additional", "extra":
		return true
	}
	return strings.HasSuffix(low, " too") || strings.Contains(low, " too,") || strings.Contains(low, " too ") && strings.Contains(low, " while ")
}
