package reconcile

import "strings"

// mostListed is how many numbers a list of things by number may have.
const mostListed = 200

// listed counts things named by number: "pedestals 1 to 4" are four, "disconnects on 1, 2, 4 and 5"
// too. The numbers must rise and stand behind a word; anything else counts as nothing.
func listed(text string) int {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '#' || r == '&' })
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
