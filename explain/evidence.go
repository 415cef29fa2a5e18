package explain

import (
	"fmt"
	"strings"

	"jobday/notes"
)

// evidence says what spoke for and against each line an entry may mean, in log odds as they were
// added up, and by how much the likeliest is ahead.
func (a account) evidence(e *notes.EntryResult) Part {
	p := Part{Title: "Held against the booked lines"}
	none := 1.0
	for _, r := range e.Evidence {
		none -= r.Confidence
		what := fmt.Sprintf("line %s, %.2f", r.Line, r.Confidence)
		if booked, ok := a.Job.Job.Line(r.Line); ok {
			what += ": " + booked.Work
		}
		p.say("%s", what)
		if len(r.Shared) > 0 {
			p.say("  shares %s", strings.Join(r.Shared, ", "))
		}
		if r.Veto != "" {
			p.say("  cannot be it: %s; it would be %.2f without that", r.Veto, r.Despite)
		}
		for _, w := range r.Weighed {
			p.say("    %+.2f  %s", w.By, w.What)
		}
	}
	if len(e.Evidence) == 0 {
		return p
	}
	p.say("none of these lines, %.2f", max(none, 0))
	if said := lead(e.Evidence, max(none, 0)); said != "" {
		p.say("%s", said)
	}
	return p
}

// lead says by how much the likeliest line is ahead of what comes next: another line, or none.
func lead(rows []notes.EvidenceRow, none float64) string {
	first := rows[0]
	if first.Confidence == 0 {
		return ""
	}
	rival, p := "that none of them is meant", none
	if len(rows) > 1 && rows[1].Confidence > none {
		rival, p = "line "+rows[1].Line, rows[1].Confidence
	}
	if ahead := first.Confidence - p; -0.005 < ahead && ahead < 0.005 {
		return fmt.Sprintf("line %s and its rival, %s, are level", first.Line, rival)
	}
	if first.Confidence < p {
		return fmt.Sprintf("line %s is behind its rival, %s, by %.2f", first.Line, rival, p-first.Confidence)
	}
	return fmt.Sprintf("line %s is ahead of its rival, %s, by %.2f", first.Line, rival, first.Confidence-p)
}
