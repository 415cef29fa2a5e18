package reconcile

import (
	"slices"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// unitNumber returns the number of a place told apart by three digits or more, such as "unit 204" or
// "room 1101", or "".
func unitNumber(t field.Term) string {
	if t.Class != field.PlaceTerm || t.Dim != "unit" {
		return ""
	}
	if _, n := splitNumber(t.Text); len(n) >= 3 && digitsOnly(n) {
		return n
	}
	return ""
}

func digitsOnly(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// addUnits notes the numbered places of a line, so that their numbers alone are known.
func (ix *lineIndex) addUnits(q *query) {
	for _, t := range q.terms {
		if n := unitNumber(t); n != "" && !slices.Contains(ix.units, t.Text) {
			ix.units = append(ix.units, t.Text)
		}
	}
}

// unit returns the place that a bare number names where the booking tells places apart by such numbers:
// "204" where units 204 and 207 are booked, and "206" too, which is another one. It is "" for a count.
func (ix *lineIndex) unit(number string) string {
	if len(number) < 3 || !digitsOnly(number) {
		return ""
	}
	for _, u := range ix.units {
		if word, n := splitNumber(u); len(n) == len(number) && n[0] == number[0] {
			return word + " " + number
		}
	}
	return ""
}

// readUnits makes places of the bare numbers of an entry that name one.
func (ix *lineIndex) readUnits(q *query) {
	if len(ix.units) == 0 {
		return
	}
	for i := range q.terms {
		t := &q.terms[i]
		if t.Class != field.NumberTerm || t.Dim != "" {
			continue
		}
		if u := ix.unit(t.Text); u != "" {
			t.Text, t.Class, t.Dim = u, field.PlaceTerm, "unit"
		}
	}
}

// uncounted returns the entry without counts that are numbers of places: "204 outlets" are not two hundred.
func (ix *lineIndex) uncounted(e *notes.Entry) *notes.Entry {
	counts := func(it notes.Item) bool {
		return it.Qty.Unit == notes.Each && it.Qty.Written() && ix.unit(it.Qty.Value.String()) != ""
	}
	if len(ix.units) == 0 || !slices.ContainsFunc(e.Facts.Items, counts) {
		return e
	}
	own := *e
	own.Facts.Items = slices.Clone(e.Facts.Items)
	for i := range own.Facts.Items {
		if it := &own.Facts.Items[i]; counts(*it) {
			left := slices.DeleteFunc(slices.Clone(it.Other), func(q notes.Quantity) bool { return !q.Written() })
			it.Qty, it.Other = notes.Quantity{}, nil
			if len(left) == 1 {
				it.Qty = left[0] // "204 GFIs 3": the number behind the thing counts it
			}
		}
	}
	return &own
}

// bothEnds reports whether "both" speaks of two ends or sides of one thing.
func bothEnds(low string) bool {
	for _, w := range []string{"both ends", "both sides", "both ways", "both legs", "both directions"} {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

// tidies reports whether an entry opens with what goes with any job: "swept up and hauled the fuse panel".
func tidies(text string) bool {
	first, _, _ := strings.Cut(strings.ToLower(text), " ")
	switch first {
	case "swept", "sweep", "cleaned", "hauled", "loaded", "unloaded", "vacuumed", "mopped", "mowed":
		return true
	}
	return false
}
