package reconcile

import (
	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// recordFills figures raceway fill and box volume where an entry gives the numbers, also outside
// the tests. What is only used or counted as material says nothing of what is inside what.
func (d *day) recordFills() {
	for _, r := range d.reads {
		switch r.result.Outcome {
		case notes.Material, notes.TimeEntry, notes.Delivery, notes.Test, notes.Question:
		default:
			d.recordFill(r)
		}
	}
}

// recordFill enters the fill an entry gives the numbers for, beside the tests, and reports whether
// it gives any.
func (d *day) recordFill(r *read) (notes.TestReading, bool) {
	f, ok := trade.FindFill(r.entry.Text, d.in.Company.NEC)
	if !ok {
		return notes.TestReading{}, false
	}
	if f.Unknown != "" {
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "fill/unknown", Message: "the " + f.What + " cannot be figured: " + f.Unknown,
			Hint: "write it like 3/4 EMT, 9 #12 THHN or 4x1-1/2 square, 6 #12, 2 devices", Span: r.entry.Span,
		})
		return notes.TestReading{}, false
	}
	rec := notes.TestRecord{
		What: f.What, Readings: []notes.TestValue{{Value: f.Value.String(), Unit: f.Unit}}, Limit: f.Limit, Rule: f.Rule, Verdict: notes.Within, Why: f.Working,
		From: []notes.Source{r.result.Source},
	}
	if f.Over {
		rec.Verdict = notes.Outside
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "fill/over", Message: "the " + f.What + " is more than the tables allow: " + f.Working,
			Hint: "look before it is closed: a larger one, or less in it; local code and the authority having jurisdiction decide",
			Span: r.entry.Span,
		})
	}
	d.out.Tests = append(d.out.Tests, rec)
	return notes.TestReading{Readings: rec.Readings, Verdict: rec.Verdict}, true
}
