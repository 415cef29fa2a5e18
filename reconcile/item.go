package reconcile

import "jobday/parse/field"

// itemWords is the name of an item ready for matching, and the term that names the item itself.
type itemWords struct {
	query query
	head  field.Term
	named bool // there is such a term
}

// item reads the name of an item. The same names come up every day: each is read once a job.
func (s *standing) item(name string) itemWords {
	if it, known := s.items[name]; known {
		return it
	}
	it := itemWords{query: newQuery(name, s.in.Words)}
	it.head, it.named = itemHead(it.query.terms)
	s.items[name] = it
	return it
}

// itemHead returns the term that names an item itself, and false when nothing does. In a normal form
// the head noun stands last.
func itemHead(terms []field.Term) (field.Term, bool) {
	for i := len(terms) - 1; i >= 0; i-- {
		if named(terms[i]) {
			return terms[i], true
		}
	}
	if i := firstThing(terms); i >= 0 {
		return terms[i], true
	}
	return field.Term{}, false
}
