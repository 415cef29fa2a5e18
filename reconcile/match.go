package reconcile

import (
	"math"
	"strings"

	"jobday/parse/field"
)

// Two thresholds part what is taken, asked and left out. They follow from what each mistake costs
// the office, in money of the same kind (our estimate; the ratio matters, not the unit):
//
//	ask        a person settles an unclear entry: two minutes,            3
//	wrong line work that was an extra goes unbilled, or a line is billed
//	           early and has to be put right with the customer:          20
//	wrong extra a change order is drafted for booked work; it waits for
//	           authorization anyway, so somebody sees it:                10
//
// Taking a match with probability p of being right costs 20(1-p): cheaper than asking from
// p = 1 - 3/20 = 0.85. Calling it an extra costs 10p: cheaper than asking below p = 3/10 = 0.30.
const (
	TakeAt  = 0.85 // from here a match is taken
	ExtraAt = 0.30 // below here no line is meant
)

// A match is one line an entry may serve.
type match struct {
	line     int
	p        float64 // probability, 0 to 1; 0 under a veto
	odds     float64
	touched  bool // they share a word
	evidence evidence
	shared   []string // the scope's words the entry has
	veto     string   // why it cannot be, or ""
	place    bool     // the veto is of a place
	despite  float64  // what p would be without the veto
}

// fits says by what an entry fits the line.
func (m *match) fits() string {
	if len(m.shared) == 0 {
		return "its words go with the line, though they share none"
	}
	return "shares " + join(m.shared)
}

// touch marks the lines that share a word with what was aligned last, and returns how many there are.
func (ix *lineIndex) touch() int {
	clear(ix.touched)
	n := 0
	for _, hs := range ix.hits {
		for _, h := range hs {
			for _, line := range ix.terms[h.id].in {
				if !ix.touched[line] {
					ix.touched[line] = true
					n++
				}
			}
		}
	}
	return n
}

// round3 keeps what is shown and compared the same on every machine.
func round3(p float64) float64 { return math.Round(p*1000) / 1000 }

// onlyVerb returns the verb an exclusion begins with when it is its only one, or "".
func (q *query) onlyVerb() string {
	if len(q.terms) == 0 || q.terms[0].Class != field.VerbTerm || strings.Contains(q.text, " and ") || strings.Contains(q.text, ",") {
		return ""
	}
	return q.terms[0].Text
}

// hasShort reports whether a word the trade does not know stands for t cut short: "conc" of "concrete".
func (q *query) hasShort(t field.Term) bool {
	if t.Class != field.OtherTerm {
		return false
	}
	for _, u := range q.terms {
		if u.Class == field.OtherTerm && len(u.Text) >= 4 && shortFor(u.Text, t.Text) {
			return true
		}
	}
	return false
}

// excluded returns the index of the exclusion the words fall under, or -1: what they are about, or
// the kind of work, has to be the exclusion's.
func (ix *lineIndex) excluded(q *query) int {
	for i := range ix.not {
		x := &ix.not[i]
		hit, all := 0.0, 0.0
		if act := x.onlyVerb(); act != "" && !q.has(act) {
			continue // backfilling a trench is left out, not the trench
		}
		low := x.low()
		about := x.head < 0 || strings.HasPrefix(low, "work ") || strings.HasPrefix(low, "anything ")
		for k, t := range x.terms {
			if repeated(x.terms, k) || t.Class == field.NumberTerm {
				continue
			}
			w := 1.0
			if t.Class == field.VerbTerm {
				w = 0.8 // "patching and painting" is all verbs
			}
			all += w
			if q.has(t.Text) || q.hasShort(t) {
				hit += w
				about = about || t.Class == field.VerbTerm || q.head >= 0 && q.terms[q.head].Text == t.Text
			}
		}
		if about && all > 0 && (hit/all > 0.5 || hit/all == 0.5 && (q.namesTrade() || len(q.work) > 0)) {
			return i
		}
	}
	return -1
}
