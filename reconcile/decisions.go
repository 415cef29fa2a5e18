package reconcile

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// decisionsFor returns what the office settled about an entry, in the order written. Its words may
// be those before a label was told from them.
func (d *day) decisionsFor(r *read) []notes.Decision {
	words := []string{r.result.Text}
	if r.entry.Label != "" {
		words = append(words, r.entry.Label+": "+r.result.Text)
	}
	return d.decisionsAbout(r.result.ID, r.entry.Span, words...)
}

// decisionsAbout returns the decisions about what has the id and stands at the place. One made about
// other words is reported and left out.
func (d *day) decisionsAbout(id string, at finding.Span, words ...string) []notes.Decision {
	var fresh []notes.Decision
	for _, dec := range d.in.Decisions {
		if !strings.EqualFold(dec.Entry, id) {
			continue
		}
		d.met[dec.Span] = true
		same := func(w string) bool { return fold(w) == fold(dec.Words) }
		if !slices.ContainsFunc(words, same) {
			d.add(finding.Finding{
				Severity: finding.Warning, Rule: "decision/stale",
				Message: "was decided about other words: " + quote(dec.Words),
				Hint:    "the entry now says " + quote(words[0]) + "; look at it and decide again: jobday decide " + id,
				Span:    dec.Span,
				Related: []finding.Related{{Message: "the entry as it stands", Span: at}},
				Holds:   "this decision is not applied",
			})
			continue
		}
		fresh = append(fresh, dec)
	}
	return fresh
}

func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// settle applies what was decided about what an entry is, and reports whether something was. The
// last decision stands.
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
			r.lines, r.result.Lines = nil, nil
			r.serve(d, []int{i}, 1, why)
			settled = true
		case notes.DecideExtra, notes.DecideNarrative:
			r.lines, r.result.Lines = nil, nil
			r.set(notes.Outcome(dec.Kind), 1, why)
			settled = true
		}
	}
	return settled
}

// idle reports decisions about the price or the authorization of an entry that is no extra.
func (d *day) idle() {
	for _, r := range d.reads {
		if r.extra != nil {
			continue
		}
		for _, dec := range r.decided {
			if !dec.Kind.OfExtra() {
				continue
			}
			d.add(finding.Finding{
				Severity: finding.Warning, Rule: "decision/no-extra",
				Message: quote(dec.String()) + " is decided about an entry that is no extra: it is " + string(r.result.Outcome),
				Hint:    "if it is work beyond scope, decide that as well: jobday decide " + r.result.ID + " extra",
				Span:    dec.Span,
				Related: []finding.Related{{Message: "the entry", Span: r.entry.Span}},
				Holds:   "this decision is not applied",
			})
		}
	}
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
			x.work.Price.Quoted, x.work.Price.NoCharge = &p, false
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
