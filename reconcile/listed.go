package reconcile

import (
	"strings"

	"jobday/parse/field"
)

// mostListed is how many numbers a list of things by number may have.
const mostListed = 200

// listed counts things named by number: "pedestals 1 to 4" are four, "disconnects on 1, 2, 4 and 5"
// too. The numbers must rise and stand behind a word; anything else counts as nothing.
func listed(text string) int {
	if !strings.ContainsAny(text, "0123456789") && !strings.Contains(text, " of ") && !strings.Contains(text, " in all") && !strings.Contains(text, "total") {
		return 0
	}
	words := listWords(text)
	if n := inAll(words); n > 0 {
		return n
	}
	for i := 0; i+2 < len(words); i++ {
		if n := someOf(words[i]); n > 0 && words[i+1] == "of" && (words[i+2] == "the" || words[i+2] == "them" || words[i+2] == "em") {
			return n // "moved two of the desk receptacles"
		}
	}
	for i := 1; i < len(words); i++ {
		if _, isNumber := smallNumber(words[i-1]); isNumber {
			continue
		}
		if n := run(words[i:]); n >= 2 {
			return n
		}
	}
	return 0
}

// listWords parts a text at what stands between the things of a list.
func listWords(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '#' || r == '&' || r == '+' })
}

// someOf reads a small number in digits or in words.
func someOf(w string) int {
	if n, ok := smallNumber(w); ok {
		return n
	}
	for i, name := range []string{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"} {
		if w == name {
			return i + 1
		}
	}
	return 0
}

// run counts the numbers a list begins with.
func run(words []string) int {
	n, last, span := 0, 0, false
	for _, w := range words {
		if a, b, ok := strings.Cut(w, "-"); ok {
			from, ok1 := smallNumber(a)
			to, ok2 := smallNumber(b)
			if !ok1 || !ok2 || from <= last || to <= from {
				break
			}
			n, last = n+to-from+1, to
			continue
		}
		switch v, isNumber := smallNumber(w); {
		case isNumber && v <= last:
			return 0
		case isNumber && span:
			n, last, span = n+v-last, v, false
		case isNumber:
			n, last = n+1, v
		case n > 0 && (w == "to" || w == "thru" || w == "through" || w == "till"):
			span = true
		case n > 0 && w == "and":
		default:
			return ended(n, span)
		}
		if n > mostListed {
			return 0
		}
		if n > 0 && strings.HasSuffix(w, ".") {
			break // "GFI 1 and 2. 3 is not set"
		}
	}
	return ended(n, span)
}

// ended returns the count of a list, or 0 when it broke off after "to".
func ended(n int, span bool) int {
	if span {
		return 0
	}
	return n
}

// smallNumber reads a whole number of up to three digits.
func smallNumber(w string) (int, bool) {
	w = strings.TrimRight(w, ".;:)")
	if len(w) == 0 || len(w) > 3 {
		return 0, false
	}
	n := 0
	for _, c := range w {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	return n, n > 0
}

// listed returns how many things the entry lists by number, or sums up.
func (r *read) listed() int {
	if r.list < 0 {
		r.list = listed(r.entry.Text)
	}
	return r.list
}

// summed returns the sum an entry gives itself, or 0.
func (r *read) summed() int {
	low := strings.ToLower(r.entry.Text)
	if strings.Contains(low, "total") || strings.Contains(low, " in all") {
		return inAll(strings.Fields(low))
	}
	if strings.Contains(low, "that") || strings.Contains(low, "=") || strings.Contains(low, "together") {
		return saidSum(strings.Fields(low))
	}
	return 0
}

// saidSum reads "that's 9", "that is 14 of them", "4 + 3 = 7", "so five all together"; 0 where something else is
// counted by it or lacking.
func saidSum(words []string) int {
	for i, w := range words {
		n := 0
		switch w = strings.TrimRight(w, ".;:),"); {
		case i == 0:
		case w == "together" && i > 1 && words[i-1] == "all":
			return someOf(words[i-2])
		case w == "altogether":
			return someOf(words[i-1])
		case words[i-1] == "that's", words[i-1] == "thats", words[i-1] == "that\u2019s", words[i-1] == "=":
			n = someOf(w)
		case words[i-1] == "is" && i > 1 && words[i-2] == "that":
			n = someOf(w)
		}
		if n > 0 && endsSum(words[i:]) {
			return n
		}
	}
	return 0
}

// endsSum reports whether the number that words open with ends its clause, or is of "them".
func endsSum(words []string) bool {
	if len(words) == 1 || strings.ContainsAny(words[0][len(words[0])-1:], ".,;)") {
		return true
	}
	switch words[1] {
	case "of":
		return len(words) > 2 && (strings.HasPrefix(words[2], "them") || strings.HasPrefix(words[2], "em") || strings.HasPrefix(words[2], "those"))
	case "all", "altogether", "in", "up", "hung", "done", "(dust)", "and", "today":
		return true
	}
	return false
}

// placeSum adds up counts given place by place: "north side 2, south side 1", "row 1: 5, row 2: 5". Every
// part has to open with the word for a place and end with its number; anything else adds up to 0.
func placeSum(text string) int {
	if !strings.ContainsAny(text, ",;") {
		return 0
	}
	if head, rest, ok := strings.Cut(text, ": "); ok && !placeWords[lastButNumber(head)] {
		text = rest
	}
	parts := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ',' || r == ';' })
	if len(parts) < 2 {
		return 0
	}
	sum := 0
	for i, part := range parts {
		words := strings.Fields(placeMarks.Replace(part))
		if len(words) < 2 || i > 0 && !placeWords[words[0]] {
			return 0
		}
		n, ok := smallNumber(words[len(words)-1])
		before := words[len(words)-2]
		_, numbered := smallNumber(before)
		if !ok || n > 99 || numbered && !placeWords[words[max(0, len(words)-3)]] || !numbered && (!placeWords[before] || !plainPlaces[before]) {
			return 0
		}
		sum += n
	}
	return sum
}

// placeMarks are what may stand between a place and its number.
var placeMarks = strings.NewReplacer(":", " ", " - ", " ")

// lastButNumber returns the last word of a text in lower case, or the one before a number at its end.
func lastButNumber(text string) string {
	words := strings.Fields(strings.ToLower(text))
	for i := len(words) - 1; i >= 0; i-- {
		if _, number := smallNumber(words[i]); !number {
			return words[i]
		}
	}
	return ""
}

// placeWords are those a part of such a sum opens with; behind those that are in plainPlaces too, a
// number alone counts: "south side 1", not "row 1".
var (
	placeWords = map[string]bool{
		"north": true, "south": true, "east": true, "west": true, "front": true, "back": true, "rear": true, "left": true, "right": true,
		"upper": true, "lower": true, "side": true, "wall": true, "end": true, "row": true, "bay": true, "room": true, "rm": true,
		"floor": true, "aisle": true, "unit": true, "apt": true, "kitchen": true, "bath": true, "hall": true, "corridor": true,
	}
	plainPlaces = map[string]bool{
		"north": true, "south": true, "east": true, "west": true, "front": true, "back": true, "rear": true, "left": true, "right": true,
		"upper": true, "lower": true, "side": true, "wall": true, "end": true, "kitchen": true, "bath": true, "hall": true, "corridor": true,
	}
)

// inAll reads the sum people give themselves: "8 total", "six in all", "total of 8"; 0 when they do not.
func inAll(words []string) int {
	for i, w := range words {
		w = strings.TrimRight(w, ".;:)")
		switch {
		case w == "total" && i > 0 && someOf(words[i-1]) > 0:
			return someOf(words[i-1])
		case w == "total" && i+2 < len(words) && (words[i+1] == "of" || words[i+1] == "is"):
			return someOf(words[i+2])
		case w == "total" && i+1 < len(words):
			return someOf(strings.TrimRight(words[i+1], ".;:)"))
		case w == "in" && i > 0 && i+1 < len(words) && strings.TrimRight(words[i+1], ".;:)") == "all":
			return someOf(words[i-1])
		}
	}
	return 0
}

// firstListed returns the number a list of things by number begins with, or 0.
func firstListed(text string) int {
	words := listWords(text)
	for i := 1; i < len(words); i++ {
		if n, ok := smallNumber(words[i]); ok && run(words[i:]) >= 2 {
			return n
		}
	}
	return 0
}

// standsAlone returns the count that stands behind what it counts: "heads 20 aimed", "dimmers all 4 in",
// "plugs - five done". A number right behind a word for one thing is that thing's name: "heater 3".
func (q *query) standsAlone() int {
	for i, t := range q.terms[:q.spread] {
		if i == 0 || t.Class != field.NumberTerm || t.Dim != "" {
			continue
		}
		n, ok := smallNumber(t.Text)
		prev := q.terms[i-1]
		if !ok || q.risesAt(i) || t.Start < prev.End || strings.Contains(q.text[t.Start:t.End], " ") {
			continue // "1 to 4" is a run
		}
		if last := strings.TrimRight(q.text[t.End:], " .)") == ""; !(last && strings.ContainsAny(q.text[prev.End:t.Start], ",:")) &&
			!named(prev) && prev.Class != field.PlaceTerm && prev.Class != field.TraitTerm && prev.Class != field.DesignationTerm {
			continue
		}
		between := strings.ToLower(strings.TrimSpace(q.text[prev.End:t.Start]))
		switch between {
		case "-", "–", ":", ",", "all", "- all", ", all":
		case "", "up", "done", "down":
			if !strings.HasSuffix(strings.ToLower(q.text[prev.Start:prev.End]), "s") {
				continue
			}
		default:
			continue
		}
		if q.endsCount(i) {
			return n
		}
	}
	return 0
}

// risesAt reports whether a higher number goes on behind the number at term i, and nothing else: then both
// say which, as in "clocks 5, 6 set".
func (q *query) risesAt(i int) bool {
	if i+1 >= q.spread || q.terms[i+1].Class != field.NumberTerm || q.terms[i+1].Dim != "" {
		return false
	}
	a, _ := smallNumber(q.terms[i].Text)
	b, ok := smallNumber(q.terms[i+1].Text)
	switch q.between(i, i+1) {
	case ",", "and", "&", "+", "/", ", and":
		return ok && b > a && (i+2 >= q.spread || q.terms[i+2].Class == field.VerbTerm)
	}
	return false
}

// endsCount reports whether what stands behind the number at term i is none of its own thing.
func (q *query) endsCount(i int) bool {
	rest := strings.TrimLeft(q.text[q.terms[i].End:], " ")
	if rest == "" || strings.ContainsRune(",;.-/()", rune(rest[0])) {
		return true
	}
	if i+1 < q.spread && q.terms[i+1].Class == field.VerbTerm && q.between(i, i+1) == "" {
		return true
	}
	word, _, _ := strings.Cut(strings.ToLower(rest), " ")
	switch strings.TrimRight(word, ",.;:") {
	case "in", "up", "done", "on", "out", "so", "today", "finished", "complete", "working", "left", "set", "hung", "wired", "mounted", "down", "hot", "lit", "all":
		return true
	}
	return false
}
