package reconcile

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
)

// byLabel serves the lines an entry names by label, and reports whether it did.
func (d *day) byLabel(r *read) bool {
	if r.entry.Label == "" {
		return false
	}
	var lines []int
	for _, label := range splitLabels(r.entry.Label) {
		i := slices.IndexFunc(d.in.Job.Lines, func(l notes.ScopeLine) bool { return strings.EqualFold(l.Label, label) })
		if i < 0 {
			d.unknownLabel(r)
			return false
		}
		lines = append(lines, i)
	}
	r.serve(d, lines, 1, "names line "+r.entry.Label)
	return true
}

// sureAhead is how surely a label ahead of a number is one.
const sureAhead = 0.9

// labelAhead serves the line whose label, as the scope writes it, stands ahead of a number and nothing that is named:
// "A 3", "B - 6/6, aimed", "E 4 ea rms 201-204".
func (d *day) labelAhead(r *read) bool {
	label, rest, _ := strings.Cut(r.entry.Text, " ")
	rest = strings.TrimLeft(rest, "-–= ")
	if r.entry.Label != "" || rest == "" || rest[0] < '0' || rest[0] > '9' || r.entry.Section != "" && r.entry.Section != notes.Done {
		return false
	}
	i := slices.IndexFunc(d.in.Job.Lines, func(l notes.ScopeLine) bool { return l.Label == label })
	if i < 0 {
		return false
	}
	for _, t := range r.query.terms {
		switch t.Class {
		case field.ThingTerm, field.TraitTerm, field.DesignationTerm, field.OtherTerm:
			if t.Start >= len(label) {
				return false
			}
		}
	}
	r.serve(d, []int{i}, sureAhead, "opens with the label of line "+label)
	return true
}

// splitLabels parts "A, B" and "A/B" and "A & B"; a label that is one word stays whole.
func splitLabels(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(",/&+ ", r) })
}

// unknownLabel gives the words before the colon back to the text: they were no label.
func (d *day) unknownLabel(r *read) {
	written := r.entry.Label + ": " + r.entry.Text
	r.result.Text = written
	if len(r.entry.Label) <= 3 && len(d.in.Job.Lines) > 0 && !d.ofTrade(r.entry.Label) {
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "entry/unknown-label",
			Message: "no booked line is called " + quote(r.entry.Label),
			Hint:    "the lines are " + d.labels() + "; without a label the words decide",
			Span:    r.entry.Span,
		})
	}
	r.query, r.found = newQuery(written, d.in.Words), nil
}
