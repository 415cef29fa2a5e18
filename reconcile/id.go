package reconcile

import (
	"strconv"

	"jobday/notes"
	"jobday/parse/field"
)

// slugWords is how many words make an id: enough to recognise, few enough to type.
const slugWords = 3

// id returns a readable name for an entry that is unique in the day: the date and the first words
// that carry meaning. The same note gives the same ids; a second entry with the same words gets "-2".
func (d *day) id(q *query, e *notes.Entry) string {
	var buf [96]byte
	b := append(append(buf[:0], d.date...), '/')
	from := len(b)
	if b = q.appendSlug(b); len(b) == from {
		b = appendSlug(b, e.Text)
	}
	base := string(b)
	id := base
	for d.used[id] > 0 { // the second time; also "circuit" after a "circuit-2"
		d.used[base]++
		id = base + "-" + strconv.Itoa(d.used[base])
	}
	d.used[id]++
	return id
}

// appendSlug appends the first words of the query that name things, in the order written.
func (q *query) appendSlug(b []byte) []byte {
	words := 0
	for _, t := range q.terms {
		if words == slugWords || !named(t) && t.Class != field.DesignationTerm && t.Class != field.PlaceTerm {
			continue
		}
		if words++; words > 1 {
			b = append(b, '-')
		}
		b = appendSlug(b, t.Text)
	}
	return b
}

// slugOf writes text in lower-case ASCII letters, digits and dashes, at most four words of it.
func slugOf(text string) string { return string(appendSlug(nil, text)) }

// appendSlug appends what slugOf returns.
func appendSlug(b []byte, text string) []byte {
	words, dash, from := 1, false, len(b)
	for i := range len(text) {
		c := text[i]
		if 'A' <= c && c <= 'Z' {
			c += 'a' - 'A'
		}
		if (c < 'a' || c > 'z') && (c < '0' || c > '9') {
			dash = true
			continue
		}
		if dash && len(b) > from {
			if words++; words > 4 {
				return b
			}
			b = append(b, '-')
		}
		dash = false
		b = append(b, c)
	}
	if len(b) == from {
		return append(b, "entry"...)
	}
	return b
}
