package reconcile

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"jobday/notes"
)

// mostEvidence is how many lines' evidence is kept with an entry: those a person would weigh.
const mostEvidence = 4

// leastShown is the probability below which a third line is not worth showing.
const leastShown = 0.05

// evidenceSaid say what each kind of evidence is, for people. How much of the words is shared
// counts in two of them.
var evidenceSaid = [evidenceLen]string{
	evCoverage:   "how much of the line's words the entry has",
	evPrecision:  "how much of the entry's words the line has",
	evHead:       "it is about the same thing",
	evHeadWhich:  "what it is about only says, in the line, which one",
	evHeadNone:   "what it is about is nowhere in the line",
	evNoHead:     "it names no thing",
	evOnly:       "a shared word stands in no other line",
	evWhich:      "a place, number or name that says which one is shared",
	evWhichOther: "both say which one, and it is another",
	evVerb:       "the same kind of work",
	evVerbOther:  "another kind of work",
	evOutOf:      "it counts out of as many as are booked",
	evTooMany:    "it counts more than is booked",
	evAsked:      "somebody asked for it, agreed or named a price",
	evComplete:   "the line was complete before that day",
	evProgress:   "it says how far something booked got",
	evUnit:       "it counts in the line's own unit",
	evAsBooked:   "it counts as many as are booked",
	evHeadElse:   "what it is about is what another line names",
}

// evidenceRows lays out what spoke for and against the likeliest line and its rival, every other line
// worth showing, and those that share words but are kept out by a veto.
func (d *day) evidenceRows(h held, ms []match) []notes.EvidenceRow {
	n := 0
	for i := range ms {
		if n < mostEvidence && ms[i].shown(n) {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	rows := make([]notes.EvidenceRow, 0, n)
	keep := d.tally.keep
	d.tally.keep = true
	for i := range ms {
		m := &ms[i]
		if len(rows) == mostEvidence || !m.shown(len(rows)) {
			continue
		}
		row := notes.EvidenceRow{Line: d.in.Job.Lines[m.line].Label, Shared: m.shared, Veto: m.veto, Confidence: round2(m.p), Despite: round2(m.despite)}
		if len(rows) < 2 { // the likeliest and its rival
			d.tallyLine(&d.tally, h, m, &d.entryTerms)
			row.Weighed = d.tally.strongest()
		}
		rows = append(rows, row)
	}
	d.tally.keep = keep
	return rows
}

// shown reports whether a line is worth showing after n others.
func (m *match) shown(n int) bool { return n < 2 || m.p >= leastShown || m.veto != "" }

// mostWeights is how many things that were weighed are shown one by one.
const mostWeights = 7

// strongest returns what weighed most, and the rest together: they add up to the log odds.
func (t *lineTally) strongest() []notes.Weight {
	t.order = t.order[:0]
	for i, c := range t.clues {
		if t.weights.of[c] != 0 {
			t.order = append(t.order, weighed{t.weights.of[c], i, -1})
		}
	}
	for i, by := range t.by {
		if by != 0 {
			t.order = append(t.order, weighed{by, -1, i})
		}
	}
	slices.SortStableFunc(t.order, func(a, b weighed) int { return cmp.Compare(max(b.by, -b.by), max(a.by, -a.by)) })
	n := min(len(t.order), mostWeights)
	all := make([]notes.Weight, 0, n+1)
	rest := t.sum
	for _, w := range t.order[:n] {
		what := ""
		if w.clue >= 0 {
			what = lineClueNames[t.clues[w.clue]]
		} else {
			what = t.said[w.said]
		}
		all = append(all, notes.Weight{What: what, By: float64(w.by) / 100})
		rest -= w.by
	}
	if n < len(t.order) {
		all = append(all, notes.Weight{What: strconv.Itoa(len(t.order)-n) + " smaller ones together", By: float64(rest) / 100})
	}
	return all
}

// weighed is a clue that was kept, by its place among clues or among those that have only names.
type weighed struct{ by, clue, said int }

func round2(x float64) float64 { return math.Round(x*100) / 100 }
