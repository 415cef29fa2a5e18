package reconcile

import (
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// A countWord is a word or mark of an entry, as it matters to how many are counted.
type countWord struct {
	text       string // in lower case
	as         string // what it stands for beside a number: "#", "own things", "place", or the text itself
	n          int    // its number; 0 where it has none
	through    int    // the last number of "6-10"; 0 where it is no range
	unit       string // of the number
	inside     string // what the number is part of: a place or a designation
	start, end int
}

// counts reports whether the number may count what is booked in the unit.
func (w *countWord) counts(unit notes.Unit) bool {
	return w.n > 0 && w.inside == "" && w.through == 0 && (w.unit == "" || w.unit == "ea" || w.unit == string(unit))
}

// joins reports whether the word only joins one thing of a list to the next.
func (w *countWord) joins() bool {
	switch w.text {
	case ",", "and", "&", "n", "+":
		return true
	}
	return false
}

// countWords parts a text into words, marks and numbers, in the memory of ws. What was read as one number is one word.
func countWords(ws []countWord, q *query, line *query) []countWord {
	ws = ws[:0]
	text, terms := q.low(), q.terms[:q.spread]
	at := 0
	for i := 0; i < len(text); {
		for at < len(terms) && terms[at].End <= i {
			at++
		}
		var t *field.Term
		if at < len(terms) && terms[at].Start <= i {
			t = &terms[at]
		}
		if t != nil && t.Class == field.NumberTerm && t.Start == i {
			ws = append(ws, numberWord(t, text))
			i = t.End
			continue
		}
		if strings.HasPrefix(text[i:], enDash) {
			ws = append(ws, countWord{text: "-", as: "-", start: i, end: i + len(enDash)})
			i += len(enDash)
			continue
		}
		end := wordEnd(text, i)
		if end == i {
			if c := text[i]; c > ' ' && c < 0x80 {
				ws = append(ws, countWord{text: text[i : i+1], as: text[i : i+1], start: i, end: i + 1})
			}
			i++
			continue
		}
		ws = append(ws, plainWord(text[i:end], t, line, i))
		i = end
	}
	return ws
}

// enDash stands between the ends of a range, as a hyphen does.
const enDash = "–"

// wordEnd returns where the word that begins at i ends; i where a mark stands there.
func wordEnd(text string, i int) int {
	for i < len(text) && !strings.HasPrefix(text[i:], enDash) && (text[i] >= 'a' && text[i] <= 'z' || text[i] >= '0' && text[i] <= '9' || text[i] == '\'' || text[i] >= 0x80) {
		i++
	}
	return i
}

func numberWord(t *field.Term, text string) countWord {
	w := countWord{text: text[t.Start:t.End], as: "#", start: t.Start, end: t.End}
	number, unit, _ := strings.Cut(t.Text, " ")
	d, err := notes.ParseDecimal(number)
	if n, whole := d.Int(); err == nil && whole && n > 0 {
		w.n, w.unit = n, unit
	}
	if from, to, is := strings.Cut(w.text, "-"); is {
		a, ok := smallNumber(from)
		if b, ok2 := smallNumber(to); ok && ok2 && b > a {
			w.n, w.through = a, b
		}
	}
	if w.unit != "" && w.unit != "ea" {
		w.as = "# " + w.unit
	}
	return w
}

func plainWord(word string, t *field.Term, line *query, start int) countWord {
	w := countWord{text: word, as: word, start: start, end: start + len(word)}
	if n, ok := smallNumber(word); ok {
		w.n, w.as = n, "#"
	}
	if n, ok := smallNumber(strings.Trim(word, "x")); ok && w.n == 0 {
		w.n, w.as = n, "# times" // "x8"
		return w
	}
	if t == nil || w.end > t.End {
		if w.n > 0 {
			w.inside = "nothing read"
		}
		return w
	}
	own := line.speaksOf(*t)
	switch t.Class {
	case field.ThingTerm, field.TraitTerm:
		w.as = ownOr(own, "thing")
		if plural(word) {
			w.as += "s"
		}
	case field.PlaceTerm:
		w.as = ownOr(own, "place")
	case field.DesignationTerm:
		w.as = ownOr(own, "label "+t.Dim)
	case field.VerbTerm:
		w.as = "verb"
	case field.OtherTerm:
		if own {
			w.as = "own word"
		}
	}
	if w.n > 0 {
		w.inside, w.as = w.as, "#"
	}
	return w
}

func ownOr(own bool, class string) string {
	if own {
		return "own " + class
	}
	return class
}
