package reconcile

import (
	"slices"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// partSum adds up counts given part by part with where each is: "heads 11 hall A, 2 gym", "strips 5: 12,
// 6: 12", "packs rear 5 and the side 2". Every part has to give one count and one place of its own; a
// part with another number or another thing makes nothing of the whole.
func (q *query) partSum() int {
	if len(q.numbers) < 2 && q.numbersIn(0, q.spread) < 2 || lacks(q.text) {
		return 0
	}
	sum, parts, keys := 0, 0, []string{}
	from, first := 0, -1
	for from < q.spread {
		end := q.partEnd(from)
		if n, key := q.part(from, end, first); n >= 0 {
			if slices.Contains(keys, key) {
				return 0
			}
			sum, parts, keys = sum+n, parts+1, append(keys, key)
		} else if first >= 0 && (q.numbersIn(from, end) > 0 || parts == 0) || first < 0 && q.numbersIn(from, end) > 0 {
			return 0
		}
		if first < 0 {
			first = end
		}
		if end < q.spread && sentenceEnds(q.text[q.terms[end-1].End:q.terms[end].Start]) {
			break
		}
		from = end
	}
	if parts < 2 || sum > 999 {
		return 0
	}
	return sum
}

// lacks reports whether the words say that some are not done: then a sum of their numbers says nothing.
func lacks(text string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == ';' }) {
		switch w {
		case "still", "short", "left", "behind", "missing", "waiting", "waits", "not", "go", "cant", "can't", "needs", "need", "until", "no", "broken", "without":
			return true
		}
	}
	return false
}

// partEnd returns the term after the part that begins at term from.
func (q *query) partEnd(from int) int {
	for i := from + 1; i < q.spread; i++ {
		if q.terms[i].Start < q.terms[i-1].End {
			continue
		}
		if between := strings.ToLower(q.text[q.terms[i-1].End:q.terms[i].Start]); strings.ContainsAny(between, ",;+&") || sentenceEnds(between) || strings.Contains(between, " and ") {
			return i
		}
	}
	return q.spread
}

// sentenceEnds reports whether a sentence ends in what stands between two terms.
func sentenceEnds(between string) bool { return strings.Contains(between, ". ") }

func (q *query) numbersIn(from, end int) int {
	n := 0
	for i := from; i < end; i++ {
		if q.terms[i].Class == field.NumberTerm {
			n++
		}
	}
	return n
}

// part reads one part, from term from to end: its count and what tells it from the others; -1 when it is
// none. First is the end of the opening part, whose things later parts may only name again; -1 in it.
func (q *query) part(from, end, first int) (n int, key string) {
	n, at := -1, -1
	for i := from; i < end; i++ {
		switch t := q.terms[i]; t.Class {
		case field.NumberTerm:
			v, ok := smallNumber(t.Text)
			if !ok || t.Dim != "" || v > 99 || strings.ContainsAny(q.text[t.Start:t.End], "/-\"") {
				return -1, ""
			}
			if at == i-1 && at >= from && q.between(at, i) == ":" && !strings.HasSuffix(q.text[:t.Start], ":") {
				key = q.terms[at].Text
			} else if at >= 0 {
				return -1, ""
			}
			n, at = v, i
		case field.PlaceTerm, field.DesignationTerm:
			if t.Class == field.DesignationTerm && t.Dim != "model" {
				return -1, ""
			}
			key += " " + t.Text
		case field.TraitTerm, field.VerbTerm:
			if first >= 0 {
				return -1, ""
			}
		default:
			if first >= 0 && !slices.ContainsFunc(q.terms[:first], func(u field.Term) bool { return u.Text == t.Text }) {
				return -1, ""
			}
		}
	}
	if at < 0 || key == "" || !q.countThere(at, from) {
		return -1, ""
	}
	return n, key
}

// countThere reports whether the number at term i counts, as far as the word before it goes: right behind
// a place it is that place's number, unless the place is a side or has its number already.
func (q *query) countThere(i, from int) bool {
	if i == from || q.between(i-1, i) != "" {
		return i == from || q.between(i-1, i) != "?"
	}
	return q.placed(i-1) || named(q.terms[i-1]) && q.writtenPlural(i-1) || q.terms[i-1].Class == field.DesignationTerm
}

// placed reports whether term i is a place that a number behind it does not name: a side, or one that has
// its own number or letter.
func (q *query) placed(i int) bool {
	t := q.terms[i]
	if t.Class == field.DesignationTerm {
		return t.Dim == "model"
	}
	if t.Class != field.PlaceTerm {
		return false
	}
	_, number := splitNumber(t.Text)
	return number != "" || t.Dim == "side" || t.Text == "side" || t.Text == "wall" || t.Text == "end"
}

// writtenPlural reports whether term i is written as more than one.
func (q *query) writtenPlural(i int) bool {
	return plural(strings.ToLower(q.text[q.terms[i].Start:q.terms[i].End]))
}

// plural reports whether a word in small letters is written as more than one.
func plural(w string) bool {
	return len(w) > 2 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss")
}

// countBehind returns the count that ends its clause behind the line's things and where they are: "horns
// hall B 17", "bug eyes 2nd flr 8"; or that is a clause of its own: "put in at 302 and 418, 2 pcs".
func (q *query) countBehind(l *query) int {
	for i := 1; i < q.spread; i++ {
		t := q.terms[i]
		n, ok := smallNumber(strings.TrimSuffix(t.Text, " ea"))
		if !ok || t.Class != field.NumberTerm || !q.clauseEndsAt(i) || t.Start < q.terms[i-1].End {
			continue
		}
		between := strings.ToLower(q.text[q.terms[i-1].End:t.Start])
		switch {
		case t.Dim == "ea" && (strings.TrimSpace(between) == "," || strings.TrimSpace(between) == "-"):
			return n
		case t.Dim != "" || strings.Contains(q.text[t.Start:t.End], "-"):
		case strings.TrimSpace(between) == "" && q.placed(i-1) && q.ownThing(i-1, l):
			return n
		case q.letterBefore(i) && q.ownThing(i-1, l):
			return n
		case strings.TrimSpace(between) == "done" && i == q.spread-1 && q.writtenPlural(i-1):
			return n
		}
	}
	return 0
}

// letterBefore reports whether the word right before the number at term i is a single capital that names
// a place: "hall B 17".
func (q *query) letterBefore(i int) bool {
	text := strings.TrimRight(q.text[:q.terms[i].Start], " ")
	k := len(text)
	if k < 3 || text[k-1] < 'A' || text[k-1] > 'H' || text[k-2] != ' ' {
		return false
	}
	for j := i - 1; j >= 0; j-- {
		switch t := q.terms[j]; {
		case t.Class == field.PlaceTerm:
			return true
		case t.End-t.Start > 1:
			return false
		}
	}
	return false
}

// ownThing reports whether a thing of the line, written as more than one, stands at or before term i.
func (q *query) ownThing(i int, l *query) bool {
	for k := 0; k <= i; k++ {
		if t := q.terms[k]; (named(t) || t.Class == field.TraitTerm) && q.writtenPlural(k) && !toldApart(t) && l.speaksOf(t) {
			return true
		}
	}
	return false
}

// clauseEndsAt reports whether the clause ends behind the number at term i.
func (q *query) clauseEndsAt(i int) bool {
	rest := q.text[q.terms[i].End:]
	trimmed := strings.TrimLeft(rest, " ")
	if trimmed == "" || strings.ContainsRune(",;(", rune(trimmed[0])) {
		return true
	}
	if rest[0] == '.' {
		return len(rest) == 1 || rest[1] == ' '
	}
	word, _, _ := strings.Cut(strings.ToLower(trimmed), " ")
	return word == "w/" || word == "with" || word == "w"
}

// countAhead returns the count that opens the entry, or a clause behind a place, with what the line is
// about behind it, written as more than one: "22 desk runs pulled", "4 occs up".
func (q *query) countAhead(l *query) int {
	if q.spread < 2 {
		return 0
	}
	t := q.terms[0]
	n, ok := smallNumber(t.Text)
	if !ok || n < 2 || t.Class != field.NumberTerm || t.Dim != "" || t.Start != 0 {
		return 0
	}
	words := strings.Fields(strings.ToLower(q.text[t.End:]))
	if len(words) == 0 || strings.ContainsRune(".)-:/,", rune(q.text[t.End])) {
		return 0
	}
	at := t.End
	for k, w := range words[:min(3, len(words))] {
		at += strings.Index(strings.ToLower(q.text[at:]), w) + len(w)
		bare := strings.TrimRight(w, ",.;:")
		if len(bare) > 3 && plural(bare) {
			return q.sharedUpTo(at, l, n)
		}
		if bare != w || k == 2 {
			return 0
		}
	}
	return 0
}

// sharedUpTo returns n when the line names one of the words up to the offset, and no other number stands
// among them.
func (q *query) sharedUpTo(at int, l *query, n int) int {
	for _, t := range q.terms[1:q.spread] {
		if t.Start >= at {
			break
		}
		if t.Class == field.NumberTerm || t.Class == field.DesignationTerm {
			return 0
		}
		if l.speaksOf(t) {
			return n
		}
	}
	return 0
}

// lastOfList reports whether the number is that of the last thing of a list, in front of a word for a single
// one: the 5 of "rooms 4 and 5 exam", the 7 of "doors 5 6 7 heater".
func (q *query) lastOfList(n notes.Decimal) bool {
	for i := 1; i+1 < q.spread; i++ {
		t, next := q.terms[i], q.terms[i+1]
		if v, ok := smallNumber(t.Text); !ok || t.Class != field.NumberTerm || t.Dim != "" || !n.Equal(notes.Int(v)) || !named(next) {
			continue
		}
		before := q.terms[i-1]
		_, placed := splitNumber(before.Text)
		if !numberOrPlace(before, placed) || q.between(i, i+1) != "" {
			continue
		}
		switch q.between(i-1, i) {
		case "", "and", "&", "+":
			return !q.writtenPlural(i + 1)
		}
	}
	return false
}

// numberOrPlace reports whether a term is a number, or a place with one.
func numberOrPlace(t field.Term, number string) bool {
	return t.Class == field.NumberTerm && t.Dim == "" || t.Class == field.PlaceTerm && number != ""
}

// leads reports whether the number is the first the entry gives.
func (q *query) leads(n notes.Decimal) bool {
	for _, t := range q.terms[:q.spread] {
		if t.Class == field.NumberTerm {
			v, ok := smallNumber(t.Text)
			return ok && t.Dim == "" && n.Equal(notes.Int(v))
		}
	}
	return false
}

// speaksOf reports whether the words of q name what t names, or a thing whose name has its word: "strobes"
// of horn strobes, "occs" of occupancy sensors.
func (q *query) speaksOf(t field.Term) bool {
	return q.means(t) || slices.ContainsFunc(q.terms, func(u field.Term) bool {
		return u.Class == field.ThingTerm && (strings.HasPrefix(u.Text, t.Text+" ") || strings.HasSuffix(u.Text, " "+t.Text))
	})
}

// inBrackets returns the same length said again in the unit, in brackets: "40 m (131 ft)".
func (q *query) inBrackets(unit notes.Unit) (notes.Quantity, bool) {
	for _, t := range q.terms {
		if t.Class != field.NumberTerm || t.Dim != string(unit) || unit != notes.Foot || t.Start == 0 || q.text[t.Start-1] != '(' {
			continue
		}
		number, _, _ := strings.Cut(t.Text, " ")
		if v, err := notes.ParseDecimal(number); err == nil {
			return notes.Quantity{Value: v, Unit: unit}, true
		}
	}
	return notes.Quantity{}, false
}

// loose returns a count that stands beside no thing of its own; more than is booked is none.
func loose(q, l *query, booked notes.Decimal) (notes.Decimal, bool) {
	if n := q.standsAlone(); n > 0 && (n < roomNumbers || notes.Int(n).Cmp(booked) <= 0) {
		return notes.Int(n), true
	}
	for _, n := range [...]int{q.countBehind(l), q.countAhead(l)} {
		if n > 0 && notes.Int(n).Cmp(booked) <= 0 {
			return notes.Int(n), true
		}
	}
	return notes.Decimal{}, false
}

// apiece returns for how many units a count is meant: "rooms 101 and 102: six receptacles each" is six in each
// of two. It is 1 where the words do not end with that.
func (q *query) apiece() int {
	low := strings.TrimRight(q.low(), ". ")
	if !strings.HasSuffix(low, " each") && !strings.HasSuffix(low, " apiece") {
		return 1
	}
	n := 0
	for _, t := range q.terms {
		if t.Class == field.PlaceTerm && t.Dim == "unit" {
			n++
		}
	}
	return max(n, 1)
}
