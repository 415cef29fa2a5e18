package reconcile

import (
	"strconv"
	"strings"
	"unicode"

	"jobday/notes"
	"jobday/parse/field"
)

// slugWords is how many words make an id: enough to recognise, few enough to type.
const slugWords = 3

// id returns a readable name for an entry that is unique in the day: the date and the first words
// that carry meaning. The same note gives the same ids; a second entry with the same words gets "-2".
func (d *day) id(q query, e *notes.Entry) string {
	slug := q.slug()
	if slug == "" {
		slug = slugOf(e.Text)
	}
	base := d.out.Date.String() + "/" + slug
	id := base
	for d.used[id] > 0 { // the second time; also "circuit" after a "circuit-2"
		d.used[base]++
		id = base + "-" + strconv.Itoa(d.used[base])
	}
	d.used[id]++
	return id
}

// slug returns the first words of the query that name things, in the order written.
func (q query) slug() string {
	var words []string
	for _, t := range q.terms {
		if named(t) || t.Class == field.DesignationTerm || t.Class == field.PlaceTerm {
			if w := slugOf(t.Text); w != "" && len(words) < slugWords {
				words = append(words, w)
			}
		}
	}
	return strings.Join(words, "-")
}

// slugOf writes text in lower-case ASCII letters, digits and dashes, at most four words of it.
func slugOf(text string) string {
	var b strings.Builder
	words, dash := 1, false
	for _, r := range strings.ToLower(text) {
		switch {
		case r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			if dash && b.Len() > 0 {
				if words++; words > 4 {
					return b.String()
				}
				b.WriteByte('-')
			}
			dash = false
			b.WriteRune(r)
		default:
			dash = true
		}
	}
	if b.Len() == 0 {
		return "entry"
	}
	return b.String()
}
