package reconcile

import (
	"strings"

	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// A query is the words of an entry or of a line, ready to be held against one another.
type query struct {
	text  string
	words trade.Words
	terms []field.Term
	// qualifies says, for each term, that it stands behind a preposition: "at the PREP COUNTER",
	// "for the PROOFING CABINET". Such words say which one, not what.
	qualifies []bool
	head      int // index of the term that names the thing itself, -1 when there is none
}

// newQuery reads the words of text, the shop's own among them.
func newQuery(text string, words trade.Words) query {
	q := query{text: text, words: words, terms: field.TermsIn(text, words), head: -1}
	q.qualifies = make([]bool, len(q.terms))
	behind, last := false, 0
	for i, t := range q.terms {
		between := text[last:t.Start]
		last = t.End
		switch {
		case strings.ContainsAny(between, ",;.:()"), joins(between):
			behind = false
		case t.Class == field.VerbTerm:
			behind = false
		}
		if preposition(between) {
			behind = true
		}
		q.qualifies[i] = behind
		if q.head < 0 && !behind && named(t) {
			q.head = i
		} else if q.head == i-1 && i > 0 && !behind && named(t) && strings.TrimSpace(between) == "" {
			q.head = i // "hood lights": the last noun of the run is the thing, the others say which
		}
	}
	if q.head < 0 {
		q.head = firstThing(q.terms)
	}
	return q
}

// named reports whether a term names something: a thing of the trade, or a word the trade does not
// know, such as what a customer's machine is called.
func named(t field.Term) bool { return t.Class == field.ThingTerm || t.Class == field.OtherTerm }

func firstThing(terms []field.Term) int {
	for i, t := range terms {
		if named(t) {
			return i
		}
	}
	return -1
}

// elsewhere returns the query of an entry that repeats this one for another place ("unit 6: same"):
// the things of q with the places of text.
func (q query) elsewhere(text string) query {
	var b strings.Builder
	b.WriteString(text)
	for i, t := range q.terms {
		if t.Class != field.PlaceTerm && !q.qualifies[i] {
			b.WriteByte(' ')
			b.WriteString(t.Text)
		}
	}
	return newQuery(b.String(), q.words)
}

// says reports whether the query has anything to match by.
func (q query) says() bool {
	for _, t := range q.terms {
		if named(t) || t.Class == field.DesignationTerm {
			return true
		}
	}
	return false
}

// verbs returns the classes of work the words name, without repeats.
func (q query) verbs() []string {
	var vs []string
	for _, t := range q.terms {
		if t.Class == field.VerbTerm && !contains(vs, t.Dim) {
			vs = append(vs, t.Dim)
		}
	}
	return vs
}

// places returns the places and other words that say which one.
func (q query) places() string {
	var ps []string
	for i, t := range q.terms {
		if t.Class == field.PlaceTerm || q.qualifies[i] && t.Class != field.VerbTerm {
			if w := strings.TrimSpace(q.text[t.Start:t.End]); !contains(ps, w) {
				ps = append(ps, w)
			}
		}
	}
	return strings.Join(ps, " ")
}

// overlap returns how much of the smaller of two word sets stands in the other, 0 to 1. It asks
// for at least one shared thing.
func (q query) overlap(o query) float64 {
	shared, mine, theirs := 0.0, 0.0, 0.0
	thing := false
	for i, t := range q.terms {
		w := termWeight(t.Class)
		if w == 0 || repeated(q.terms, i) {
			continue
		}
		mine += w
		if o.has(t.Text) {
			shared += w
			thing = thing || named(t)
		}
	}
	for i, t := range o.terms {
		if w := termWeight(t.Class); w != 0 && !repeated(o.terms, i) {
			theirs += w
		}
	}
	if veto, _ := q.contradicts(o); !thing || veto != "" {
		return 0
	}
	return shared / max(0.5, min(mine, theirs))
}

func (q query) has(text string) bool {
	for _, t := range q.terms {
		if t.Text == text {
			return true
		}
	}
	return false
}

func repeated(terms []field.Term, i int) bool {
	for _, t := range terms[:i] {
		if t.Text == terms[i].Text {
			return true
		}
	}
	return false
}

// contradicts returns the designations or places in which two texts cannot be about the same
// thing ("30A against 20A"), or "". Only a dimension that both name can contradict.
func (q query) contradicts(o query) string {
	for _, t := range q.terms {
		if !exclusive(t) || o.agrees(t, q) {
			continue
		}
		for _, u := range o.terms {
			if u.Dim == t.Dim && u.Class == t.Class {
				return t.Text + " against " + u.Text, t.Class == field.PlaceTerm
			}
		}
	}
	return "", false
}

// exclusive reports whether two different values of a term's dimension cannot be one thing.
func exclusive(t field.Term) bool {
	switch t.Class {
	case field.DesignationTerm:
		return t.Dim != "" && t.Dim != "model"
	case field.PlaceTerm:
		return t.Dim != "" && t.Dim != "spot"
	}
	return false
}

// agrees reports whether o names the dimension of t not at all, or shares one of q's values of it.
func (o query) agrees(t field.Term, q query) bool {
	named := false
	for _, u := range o.terms {
		if u.Dim != t.Dim || u.Class != t.Class {
			continue
		}
		named = true
		for _, v := range q.terms {
			if v.Dim == u.Dim && v.Text == u.Text {
				return true
			}
		}
	}
	return !named
}

// termWeight says how much a class of word tells which line is meant; verbs are judged apart.
func termWeight(c field.TermClass) float64 {
	switch c {
	case field.ThingTerm:
		return 1
	case field.DesignationTerm, field.PlaceTerm:
		return 0.9
	case field.OtherTerm:
		return 0.8
	case field.TraitTerm, field.ColourTerm:
		return 0.4
	}
	return 0
}

// preposition reports whether the words between two terms say that the second one says which.
func preposition(between string) bool {
	for _, w := range strings.Fields(between) {
		switch strings.ToLower(w) {
		case "at", "in", "by", "on", "near", "behind", "above", "under", "over", "outside", "inside",
			"for", "to", "from", "of", "into", "beside", "around", "across", "along", "next", "@":
			return true
		}
	}
	return false
}

// joins reports whether the words between two terms begin a new phrase.
func joins(between string) bool {
	for _, w := range strings.Fields(between) {
		switch strings.ToLower(w) {
		case "and", "then", "with", "w/", "plus", "but":
			return true
		}
	}
	return false
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// itemHead returns the term that names an item itself.
func itemHead(it notes.Item) string {
	q := newQuery(it.Name, trade.Words{})
	if q.head < 0 {
		return ""
	}
	// In a normal form the head noun stands last.
	for i := len(q.terms) - 1; i >= 0; i-- {
		if named(q.terms[i]) {
			return q.terms[i].Text
		}
	}
	return ""
}
