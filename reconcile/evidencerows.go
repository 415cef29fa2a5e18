package reconcile

import (
	"math"

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
	evWired:      "wire is pulled and landed, things are hung",
}

// evidenceRows lays out what spoke for and against the likeliest line and its rival, every other line
// worth showing, and those that share words but are kept out by a veto.
func (d *day) evidenceRows(ms []match) []notes.EvidenceRow {
	n, weights := 0, 0
	for i := range ms {
		if n < mostEvidence && ms[i].shown(n) {
			n++
			weights += ms[i].weighs()
		}
	}
	if n == 0 {
		return nil
	}
	rows := make([]notes.EvidenceRow, 0, n)
	weighed := make([]notes.Weight, 0, weights)
	for i := range ms {
		m := &ms[i]
		if len(rows) == n || !m.shown(len(rows)) {
			continue
		}
		from := len(weighed)
		weighed = m.weigh(weighed)
		rows = append(rows, notes.EvidenceRow{
			Line: d.in.Job.Lines[m.line].Label, Shared: m.shared, Weighed: weighed[from:len(weighed):len(weighed)],
			Veto: m.veto, Confidence: round2(m.p), Despite: round2(m.despite),
		})
	}
	return rows
}

// shown reports whether a line is worth showing after n others.
func (m *match) shown(n int) bool { return n < 2 || m.p >= leastShown || m.veto != "" }

// weighs returns how many weights there are.
func (m *match) weighs() int {
	n := 1
	for i, x := range m.evidence {
		if x*weights[i] != 0 {
			n++
		}
	}
	return n
}

// weigh appends what a line that shares a word begins with, and the kinds of evidence that counted.
func (m *match) weigh(to []notes.Weight) []notes.Weight {
	to = append(to, notes.Weight{What: "to begin with, for a line that shares a word", By: bias})
	for i, x := range m.evidence {
		if by := x * weights[i]; by != 0 {
			to = append(to, notes.Weight{What: evidenceSaid[i], By: round2(by)})
		}
	}
	return to
}

func round2(x float64) float64 { return math.Round(x*100) / 100 }
