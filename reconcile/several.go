package reconcile

import (
	"slices"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// several returns the lines an entry serves together, when it says so: "both circuits", "all three
// panels". It asks for exactly as many lines with that thing as the words say.
func (d *day) several(r *read) []int {
	if lines := d.byNumbers(r); len(lines) > 1 {
		return lines
	}
	if lines := d.tied(r); len(lines) > 1 {
		return lines
	}
	want := 0
	if saysBoth(r.low()) {
		want = 2
	} else if p := r.facts.Progress; p.All && p.Count != nil {
		want, _ = p.Count.Int()
	}
	if want < 2 || r.query.head < 0 || d.holdsAll(r, want) {
		return nil
	}
	head := r.query.terms[r.query.head].Text
	var lines []int
	for i := range d.index.lines {
		l := &d.index.lines[i]
		if veto, _ := r.query.contradicts(l); l.has(head) && veto == "" {
			if d.in.Job.Lines[i].Qty.Value.Cmp(notes.Int(want)) == 0 {
				return nil // one line of that many: "all three" is its quantity
			}
			lines = append(lines, i)
		}
	}
	if len(lines) != want {
		return nil
	}
	return lines
}

// saysBoth reports whether words speak of two of a kind, not of the ends or sides of one.
func saysBoth(low string) bool {
	return (strings.HasPrefix(low, "both ") || strings.Contains(low, " both ")) && !bothEnds(low)
}

// tied returns the lines that "all chargers" or "both drives" speak of: those that fit equally well,
// when together they fit beyond doubt; or when the words count as many as those lines have together.
func (d *day) tied(r *read) []int {
	if len(r.found) < 2 || r.found[0].p >= TakeAt {
		return nil
	}
	both := saysBoth(r.low())
	var lines []int
	sum, booked := 0.0, notes.Decimal{}
	for _, m := range r.found {
		if m.p < 0.8*r.found[0].p {
			break
		}
		lines, sum = append(lines, m.line), sum+m.p
		booked = booked.Add(d.in.Job.Lines[m.line].Qty.Value)
	}
	of := r.facts.Progress.Of
	if sum < sureDespite || both && len(lines) != 2 || !both && !r.facts.Progress.All && (of == nil || !of.Equal(booked)) {
		return nil
	}
	slices.Sort(lines)
	return lines
}

// holdsAll reports whether the likeliest line alone is booked for as many as the words speak of:
// "both brewer circuits" on a line of three.
func (d *day) holdsAll(r *read, want int) bool {
	if len(r.found) == 0 || r.found[0].p < sureDespite {
		return false
	}
	line := d.in.Job.Lines[r.found[0].line]
	return line.Qty.Unit == notes.Each && line.Qty.Value.Cmp(notes.Int(want)) >= 0
}

// oneOf reports whether an entry speaks of a single one of line i: it says so, or it names one in the
// singular at a place narrower than the line's: "exit sign over the rear door".
func (d *day) oneOf(r *read, i int) bool {
	q, l := r.query, &d.index.lines[i]
	if oneOf(&q) {
		return true
	}
	if !singular(&q) || q.terms[q.head].Class != field.ThingTerm || d.in.Job.Lines[i].Qty.Unit != notes.Each {
		return false
	}
	places := 0
	for _, t := range l.query.terms {
		if t.Class == field.PlaceTerm {
			places++
		}
	}
	for k, t := range q.terms[:q.clause] {
		if t.Class == field.PlaceTerm && (places > 1 || !l.has(t.Text)) || q.qualifies[k] && named(t) && !l.has(t.Text) {
			return true
		}
	}
	return false
}

// oneOf reports whether the words speak of a single one: "the ...", "a ...", or a numbered place,
// with a noun that is not plural.
func oneOf(q *query) bool {
	if q.head < 0 {
		return numbered(q)
	}
	if !singular(q) {
		return false
	}
	low := q.low()
	if first, _, _ := strings.Cut(low, " "); ordinals[first] {
		return true
	}
	if strings.HasPrefix(low, "the ") || strings.HasPrefix(low, "a ") || strings.HasPrefix(low, "an ") || strings.HasPrefix(low, "another ") {
		return true
	}
	return numbered(q)
}

// numbered reports whether the words name a place or a thing by its number.
func numbered(q *query) bool {
	for i := range q.terms {
		t := &q.terms[i]
		if t.Class == field.PlaceTerm && t.Dim == "unit" || identifiesNumber(t) >= 0 {
			return true
		}
	}
	return false
}

var ordinals = map[string]bool{
	"first": true, "second": true, "third": true, "fourth": true, "fifth": true, "sixth": true, "last": true,
	"1st": true, "2nd": true, "3rd": true, "4th": true, "5th": true, "6th": true,
}
