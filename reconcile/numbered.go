package reconcile

import (
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// number reads which of several things are meant: "heater 1", "heaters 1 and 3",
// "aisle 4", "dock B", "IP1". Each gets a dimension of its own, so that another one contradicts.
func (q *query) number() {
	for i := range q.terms {
		if t := &q.terms[i]; t.Class == field.DesignationTerm && t.Dim == "model" {
			if stem, n := splitStem(t.Text); n != "" {
				t.Dim = "which " + stem
			}
		}
	}
	n := len(q.terms)
	q.spread = n
	for i := 0; i < n; i++ {
		t := q.terms[i]
		switch {
		case t.Class == field.PlaceTerm && t.Dim == "unit":
			if word, first := splitNumber(t.Text); first != "" {
				q.members(i, i+1, word)
			}
		case !named(t) && t.Class != field.PlaceTerm:
		case i+1 < n && q.numberAt(i+1) && q.between(i, i+1) == "":
			q.member(i, t.Text, q.terms[i+1].Text)
			q.members(i, i+2, t.Text)
		default:
			q.letter(i)
		}
	}
}

// numberAt reports whether term k is a bare number of up to three digits.
func (q *query) numberAt(k int) bool {
	t := q.terms[k]
	return t.Class == field.NumberTerm && t.Dim == "" && len(t.Text) <= 3
}

// between returns what stands between two terms, without blanks and number signs.
func (q *query) between(i, k int) string {
	if q.terms[k].Start < q.terms[i].End {
		return "?"
	}
	return strings.ToLower(strings.Trim(q.text[q.terms[i].End:q.terms[k].Start], " #"))
}

// members reads what a list goes on with behind its first number.
func (q *query) members(thing, k int, word string) {
	last := k - 1
	for ; k < q.spread && q.numberAt(k); k++ {
		switch q.between(last, k) {
		case ",", "and", "&", "+", "/", ", and", ",and", ", &", "n":
			q.member(thing, word, q.terms[k].Text)
		default:
			return
		}
		last = k
	}
}

// member adds one numbered thing or place.
func (q *query) member(i int, word, number string) {
	t := q.terms[i]
	add := field.Term{
		Text: word + " " + number, Class: field.DesignationTerm, Dim: "which " + word,
		Piece: notes.Piece{Start: t.Start, End: t.End},
	}
	if t.Class == field.PlaceTerm {
		add.Class, add.Dim = field.PlaceTerm, "which "+word
		if t.Dim == "unit" || numberedPlace[word] {
			add.Dim = "unit"
		}
	}
	q.terms = append(q.terms, add)
	q.qualifies = append(q.qualifies, q.qualifies[i])
}

// numberedPlace are places whose first number the reading of words makes one term with them.
var numberedPlace = map[string]bool{"door": true, "unit": true, "room": true, "stall": true, "bay": true, "cabin": true, "suite": true}

// letter reads "dock B": a place with a single capital behind it.
func (q *query) letter(i int) {
	t := q.terms[i]
	rest := q.text[t.End:]
	if t.Text == "building" && len(rest) > 1 && rest[0] == ' ' && 'a' <= rest[1] && rest[1] <= 'z' && (len(rest) == 2 || !isWord(rest[2])) {
		q.member(i, t.Text, strings.ToUpper(rest[1:2])) // "bldg b"
		return
	}
	if t.Class != field.PlaceTerm || len(rest) < 2 || rest[0] != ' ' || rest[1] < 'A' || rest[1] > 'Z' || rest[1] == 'I' {
		return
	}
	if len(rest) > 2 && (rest[2] == ' ' && rest[1] == 'A' && strings.ToUpper(q.text) == q.text || isWord(rest[2])) {
		return
	}
	q.member(i, t.Text, rest[1:2])
}

func isWord(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || '0' <= c && c <= '9' || c == '\'' || c == '-' || c >= 0x80
}

// toldApart reports whether a term is one of several told apart by a number.
func toldApart(t field.Term) bool {
	return (t.Class == field.DesignationTerm || t.Class == field.PlaceTerm) && (t.Dim == "unit" || strings.HasPrefix(t.Dim, "which "))
}

// splitNumber parts "stall 12" into its word and its number, which is "" where there is none.
func splitNumber(s string) (word, number string) {
	i := strings.LastIndexByte(s, ' ')
	if i < 0 || i+1 >= len(s) || s[i+1] < '0' || s[i+1] > '9' {
		return s, ""
	}
	return s[:i], s[i+1:]
}

// splitStem parts "IP12" into letters and digits.
func splitStem(s string) (stem, number string) {
	i := len(s)
	for i > 0 && '0' <= s[i-1] && s[i-1] <= '9' {
		i--
	}
	if i == 0 || i == len(s) || len(s)-i > 3 {
		return s, ""
	}
	return s[:i], s[i:]
}

// hasNumber reports whether q names the numbered thing, or any with that number alone.
func (q *query) hasNumber(n string) bool {
	for _, t := range q.terms {
		if !toldApart(t) {
			continue
		}
		if _, number := splitNumber(t.Text); t.Text == n || number == n {
			return true
		}
	}
	return false
}

// byNumbers returns the lines of things an entry lists by number, one line each: "circuits for heaters
// 1 and 3". It is nil when a number has no line of its own.
func (d *day) byNumbers(r *read) []int {
	var numbers []string
	for i, t := range r.query.terms {
		if toldApart(t) && (i >= r.query.spread || t.Class == field.PlaceTerm) && !slices.Contains(numbers, t.Text) {
			numbers = append(numbers, t.Text)
		}
	}
	if len(numbers) == 0 && len(r.query.numbers) > 1 { // "circuits to 11 and 12"
		for _, n := range r.query.numbers {
			numbers = append(numbers, strconv.Itoa(n))
		}
	}
	var lines []int
	for _, n := range numbers {
		line := -1
		for _, m := range r.found {
			if m.veto != "" || !d.index.lines[m.line].hasNumber(n) {
				continue
			}
			if h := m.evidence[evHead]; m.evidence[evHeadNone] == 1 || h > 0 && h < partOfTerm {
				continue
			}
			if about := m.evidence[evHead] > 0; line < 0 || about {
				line = m.line // the conduit to stall 11, not the charger there
				if about {
					break
				}
			}
		}
		if line < 0 || slices.Contains(lines, line) {
			return nil
		}
		lines = append(lines, line)
	}
	slices.Sort(lines)
	return lines
}
