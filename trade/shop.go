package trade

import "strings"

// Words are the shop's own words for things: "skinny" for "tandem 20A breaker". They come before
// the built-in vocabulary. The zero value knows none; once made it is read-only.
type Words struct {
	byFirst map[string][]ownWord
}

type ownWord struct {
	rest    []string
	meaning string
}

// NewWords returns the shop's words from pairs of a way of writing and what it stands for, in the
// order of the file: the first of two equal ways wins. Empty ways are left out.
func NewWords(pairs [][2]string) Words {
	w := Words{byFirst: make(map[string][]ownWord, len(pairs))}
	for _, p := range pairs {
		for _, way := range [2]string{p[0], Plural(p[0])} {
			parts := splitWords(strings.ToLower(way))
			if len(parts) == 0 || strings.TrimSpace(p[1]) == "" {
				continue
			}
			own := ownWord{parts[1:], strings.TrimSpace(p[1])}
			w.byFirst[parts[0]] = insertLongest(w.byFirst[parts[0]], own)
		}
	}
	return w
}

// insertLongest keeps longer ways before shorter ones and drops a way that is already there.
func insertLongest(list []ownWord, own ownWord) []ownWord {
	at := len(list)
	for i, have := range list {
		if equalWords(have.rest, own.rest) {
			return list
		}
		if at == len(list) && len(have.rest) < len(own.rest) {
			at = i
		}
	}
	list = append(list, ownWord{})
	copy(list[at+1:], list[at:])
	list[at] = own
	return list
}

// None reports whether the shop has no words of its own.
func (w Words) None() bool { return len(w.byFirst) == 0 }

// Meaning returns what the longest way of writing at the start of parts stands for, and how many
// parts it takes; 0 when there is none. Parts are words, digit runs and marks in lower case; at
// returns the one at an offset, or "" past the end.
func (w Words) Meaning(at func(offset int) string) (meaning string, n int) {
	for _, own := range w.byFirst[at(0)] {
		ok := true
		for i, part := range own.rest {
			if at(i+1) != part {
				ok = false
				break
			}
		}
		if ok {
			return own.meaning, 1 + len(own.rest)
		}
	}
	return "", 0
}
