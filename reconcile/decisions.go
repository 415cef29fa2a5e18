package reconcile

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// decisionsFor returns what the office settled about an entry, in the order written. A decision
// made about other words is reported and left out.
func (d *day) decisionsFor(r *read) []notes.Decision {
	var fresh []notes.Decision
	for _, dec := range d.in.Decisions {
		if !strings.EqualFold(dec.Entry, r.result.ID) {
			continue
		}
		d.met[dec.Span] = true
		if fold(dec.Words) != fold(r.result.Text) {
			d.add(finding.Finding{
				Severity: finding.Warning, Rule: "decision/stale",
				Message: "was decided about other words: " + quote(dec.Words),
				Hint:    "the entry now says " + quote(r.result.Text) + "; decide again",
				Span:    dec.Span,
				Related: []finding.Related{{Message: "the entry as it stands", Span: r.entry.Span}},
				Holds:   "this decision is not applied",
			})
			continue
		}
		fresh = append(fresh, dec)
	}
	return fresh
}

func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// settle applies what was decided about what an entry is, and reports whether something was.
func (d *day) settle(r *read) bool {
	settled := false
	for _, dec := range r.decided {
		why := "decided by " + dec.By
		if dec.Why != "" {
			why += ": " + dec.Why
		}
		switch dec.Kind {
		case notes.DecideLine:
			i := slices.IndexFunc(d.in.Job.Lines, func(l notes.ScopeLine) bool { return strings.EqualFold(l.Label, dec.Line) })
			if i < 0 {
				d.add(finding.Finding{
					Severity: finding.Error, Rule: "decision/unknown-line",
					Message: "no booked line is called " + quote(dec.Line), Hint: "the lines are " + d.labels(), Span: dec.Span,
				})
				continue
			}
			r.result.Lines = nil
			r.serve(d, []int{i}, 1, why)
			settled = true
		case notes.DecideExtra:
			r.set(notes.Extra, 1, why)
			settled = true
		case notes.DecideNarrative:
			r.set(notes.Narrative, 1, why)
			settled = true
		}
	}
	return settled
}

// decide applies what was decided about an extra's price and authorization.
func (x *openExtra) decide(decided []notes.Decision) {
	for _, dec := range decided {
		a := notes.Authorization{By: dec.Who, How: "office record", At: dec.When.String()}
		switch dec.Kind {
		case notes.DecideNoCharge:
			x.work.Price.NoCharge, x.work.Price.Why = true, dec.Why
		case notes.DecidePrice:
			p := dec.Price
			x.work.Price.Quoted = &p
		case notes.DecideAuthorized:
			a.State = "authorized"
			x.work.Authorization = a
		case notes.DecideDeclined:
			a.State = "declined"
			x.work.Authorization = a
		}
	}
}

// unmet reports decisions about entries that no longer exist.
func (s *standing) unmet() {
	for _, dec := range s.in.Decisions {
		if !s.met[dec.Span] {
			s.found.Add(finding.Finding{
				Severity: finding.Warning, Rule: "decision/no-entry",
				Message: "no entry of this job is called " + quote(dec.Entry),
				Hint:    "its note was edited or moved; decide again under the entry's present id",
				Span:    dec.Span,
			})
		}
	}
}
