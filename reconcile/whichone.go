package reconcile

import (
	"strings"

	"jobday/notes"
)

// roomNumbers is the least number that is taken for a room, a circuit or a time rather than a count where the two
// cannot be told apart.
const roomNumbers = 100

// saysWhich reports whether the bare number of an item says which, where or when, and not how many of what is
// booked: it stands beside the word for a single thing, or is as high as room numbers are, and lies far beyond the
// booking, or both. Work on a line of several that counts nothing else is then asked how many.
func (r *read) saysWhich(it *notes.Item, booked notes.Quantity) bool {
	if it.Qty.Unit != notes.Each || booked.Unit != notes.Each {
		return false
	}
	low := strings.ToLower(it.Text)
	single := low != "" && !strings.HasSuffix(low, "s")
	high := it.Qty.Value.Cmp(notes.Int(roomNumbers)) >= 0
	beyond := it.Qty.Value.Cmp(booked.Value.Mul(notes.Int(3)).Add(notes.Int(9))) > 0
	return beyond && (high || single) || high && single
}

// remains reports whether what stands behind an item in its clause says that so many are still to come: "9 receptacles
// to go", "four not in yet". What is left was not done.
func (r *read) remains(it *notes.Item) bool {
	text := r.query.low()
	if it.End > len(text) {
		return false
	}
	rest := text[it.End:]
	if i := strings.IndexAny(rest, ",.;("); i >= 0 {
		rest = rest[:i]
	}
	words := strings.Fields(rest)
	for i, w := range words {
		next := ""
		if i+1 < len(words) {
			next = words[i+1]
		}
		switch {
		case w[0] >= '0' && w[0] <= '9':
			return false // "2 fans up 2 to go" is about the others
		case w == "to" && next == "go", w == "not" && (next == "in" || next == "up" || next == "done" || next == "yet"), w == "remaining", w == "remain":
			return true
		case (w == "left" || w == "short" || w == "missing") && next == "":
			return true
		}
	}
	return false
}
