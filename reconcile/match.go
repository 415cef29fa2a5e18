package reconcile

import (
	"math"
	"slices"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// Two thresholds part what is taken, asked and left out. They follow from what each mistake costs
// the office, in money of the same kind (our estimate; the ratio matters, not the unit):
//
//	ask        a person settles an unclear entry: two minutes,            3
//	wrong line work that was an extra goes unbilled, or a line is billed
//	           early and has to be put right with the customer:          15
//	wrong extra a change order is drafted for booked work; it waits for
//	           authorization anyway, so somebody sees it:                10
//
// Taking a match with probability p of being right costs 15(1-p): cheaper than asking from
// p = 1 - 3/15 = 0.80. Calling it an extra costs 10p: cheaper than asking below p = 3/10 = 0.30.
const (
	TakeAt  = 0.80 // from here a match is taken
	ExtraAt = 0.30 // below here no line is meant
)

// A match is one line an entry may serve.
type match struct {
	line    int
	p       float64 // probability, 0 to 1
	shared  []string
	veto    string  // why it cannot be, or ""
	place   bool    // the veto is of a place
	despite float64 // what p would be without the veto
}

// lineIndex is the lines of a job prepared for matching.
type lineIndex struct {
	lines []query
	not   []query         // what the booking leaves out
	count map[string]int  // in how many lines a term stands
	inner []notes.Decimal // how many things a line booked as one names in its words ("Two ground rods"), else 1
}

func newLineIndex(j *notes.Job, words trade.Words) *lineIndex {
	ix := &lineIndex{count: map[string]int{}}
	for _, l := range j.Lines {
		q := newQuery(l.Work, words)
		ix.lines = append(ix.lines, q)
		ix.inner = append(ix.inner, innerCount(l))
		for i, t := range q.terms {
			if !repeated(q.terms, i) {
				ix.count[t.Text]++
			}
		}
	}
	for _, x := range j.NotIncluded {
		ix.not = append(ix.not, newQuery(x.Text, words))
	}
	return ix
}

// innerCount returns how many things the words of a line booked as one piece count.
func innerCount(l notes.ScopeLine) notes.Decimal {
	one := notes.Int(1)
	if !l.Qty.Value.Equal(one) || l.Qty.Unit != notes.Each && l.Qty.Unit != notes.Lot {
		return one
	}
	for _, it := range field.Read(l.Work, nil).Items {
		if it.Qty.Unit == notes.Each && len(it.Other) == 0 && it.Qty.Value.Cmp(one) > 0 {
			return it.Qty.Value
		}
	}
	return one
}

// match returns every line that shares something with q, likeliest first; equal ones in the order
// of the scope.
func (ix *lineIndex) match(q query) []match {
	var ms []match
	for i := range ix.lines {
		if m, ok := ix.against(q, i); ok {
			ms = append(ms, m)
		}
	}
	ix.lessRivals(ms)
	slices.SortStableFunc(ms, func(a, b match) int {
		switch {
		case a.p > b.p:
			return -1
		case a.p < b.p:
			return 1
		}
		return a.line - b.line
	})
	return ms
}

// lessRivals lowers a match that another line fits nearly as well: two lines cannot both be the
// likely one. What is shared by all rivals tells nothing.
func (ix *lineIndex) lessRivals(ms []match) {
	if len(ms) < 2 {
		return
	}
	odds := 0.0
	for _, m := range ms {
		odds += m.p / (1.0001 - m.p)
	}
	for i := range ms {
		mine := ms[i].p / (1.0001 - ms[i].p)
		if odds > 0 {
			ms[i].p *= mine / odds
		}
	}
}

// Weights of the evidence, in log odds. They were set by hand and checked on labelled notes.
const (
	priorOdds     = -2.2
	perCoverage   = 3.0  // all of the line's words are in the entry
	perPrecision  = 2.0  // all of the entry's words are in the line
	headShared    = 1.0  // the thing itself is the line's
	headForeign   = -1.5 // the thing itself is none of the line's
	onlyHere      = 0.8  // the shared thing stands in no other line
	whichShared   = 0.6  // a word that says which one is shared
	whichForeign  = -2.0 // both say which one, and nothing of it is shared
	verbShared    = 0.6
	verbConflicts = -1.8
	exactShared   = 0.7 // a designation is shared
)

// against weighs q against line i; ok is false when they share no thing, place or designation.
func (ix *lineIndex) against(q query, i int) (match, bool) {
	l := ix.lines[i]
	m := match{line: i}
	shared, all := ix.shared(q, l, &m)
	if shared == 0 {
		return m, false
	}
	z := priorOdds + perCoverage*min(1, shared/all*1.25) + perPrecision*precision(q, l)
	z += ix.headOdds(q, l) + whichOdds(q, l) + verbOdds(q, l) + exactOdds(q, l)
	m.p = 1 / (1 + math.Exp(-z))
	m.p = math.Round(m.p*1000) / 1000
	if m.veto, m.place = q.contradicts(l); m.veto != "" {
		m.p, m.despite = 0, m.p
	}
	return m, true
}

// shared returns the weight of the line's words that q has, and of all of them. A word that stands
// in many lines weighs less.
func (ix *lineIndex) shared(q, l query, m *match) (shared, all float64) {
	for i, t := range l.terms {
		w := termWeight(t.Class)
		if w == 0 || repeated(l.terms, i) {
			continue
		}
		w *= 0.4 + 0.6/float64(max(1, ix.count[t.Text]))
		if l.qualifies[i] {
			w *= 0.7
		}
		all += w
		if q.names(l, t) {
			shared += w
			m.shared = append(m.shared, t.Text)
		}
	}
	return shared, all
}

// precision returns how much of the entry's first words, up to eight, is in the line.
func precision(q, l query) float64 {
	hit, all := 0.0, 0.0
	for i, t := range q.terms {
		w := termWeight(t.Class)
		if w == 0 || repeated(q.terms, i) {
			continue
		}
		if i >= 8 {
			break
		}
		w /= 1 + float64(i)/4 // what comes first is what it is about
		all += w
		if l.means(t) {
			hit += w
		}
	}
	if all == 0 {
		return 0
	}
	return hit / all
}

// identifies reports whether a dimension names one certain thing, not a kind of thing.
func identifies(dim string) bool {
	return dim == "panel" || dim == "equipment" || dim == "circuit" || strings.HasPrefix(dim, "which ")
}

func (ix *lineIndex) headOdds(q, l query) float64 {
	for _, t := range q.terms[:q.clause] {
		if t.Class == field.DesignationTerm && identifies(t.Dim) && l.has(t.Text) {
			if ix.count[t.Text] <= 1 {
				return headShared + onlyHere // "LP1" is what it is about, whatever else is counted
			}
			return headShared
		}
	}
	if q.head < 0 {
		return 0
	}
	head := q.terms[q.head]
	if !l.means(head) {
		return headForeign
	}
	if ix.count[head.Text] <= 1 {
		return headShared + onlyHere
	}
	return headShared
}

// whichOdds compares the words that say which one. A line that says which one and an entry that
// says another are about two things; an entry that does not say may be either.
func whichOdds(q, l query) float64 {
	mine, foreign := false, false
	for i, t := range q.terms {
		if !q.qualifies[i] && t.Class != field.PlaceTerm || termWeight(t.Class) == 0 {
			continue
		}
		if i >= q.clause && !l.means(t) {
			continue // said in passing
		}
		if l.means(t) {
			return whichShared
		}
		mine = true
	}
	for i, t := range l.terms {
		if !l.qualifies[i] && t.Class != field.PlaceTerm || termWeight(t.Class) == 0 {
			continue
		}
		if q.names(l, t) {
			return whichShared
		}
		foreign = true
	}
	if mine && foreign {
		return whichForeign
	}
	return 0
}

func exactOdds(q, l query) float64 {
	for _, t := range l.terms {
		if t.Class == field.DesignationTerm && q.has(t.Text) {
			return exactShared
		}
	}
	return 0
}

// verbOdds compares the kinds of work. Removing is part of replacing; installing, repairing,
// relocating and removing are different work.
func verbOdds(q, l query) float64 {
	mine, theirs := q.verbs(), l.verbs()
	if len(mine) == 0 || len(theirs) == 0 {
		return 0
	}
	conflict := false
	for _, v := range mine {
		for _, w := range theirs {
			if v == w {
				return verbShared
			}
			conflict = conflict || differentWork(v, w)
		}
	}
	if conflict {
		return verbConflicts
	}
	return 0
}

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
	}
	return false
}

// excluded returns the index of the exclusion the words fall under, or -1.
func (ix *lineIndex) excluded(q query) int {
	for i, x := range ix.not {
		hit, all := 0.0, 0.0
		for k, t := range x.terms {
			if repeated(x.terms, k) || t.Class == field.NumberTerm {
				continue
			}
			w := 1.0
			if t.Class == field.VerbTerm {
				w = 0.8 // "patching and painting" is all verbs
			}
			all += w
			if q.has(t.Text) {
				hit += w
			}
		}
		if all > 0 && hit/all >= 0.5 {
			return i
		}
	}
	return -1
}
