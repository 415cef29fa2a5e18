package trade

import (
	"unicode"
	"unicode/utf8"
)

// A jot is one word, number or "#" of a text, folded so that endings do not matter.
type jot struct {
	start, end int    // byte offsets in the text
	stem       string // lower case without -s, -ed, -ing, -e
	clause     int    // a full stop, semicolon or "but" begins a new clause
	comma      int    // how many commas, colons and dashes stand before it
	content    int    // how many words that carry meaning stand before it
	filler     bool   // "the", "on", "is": carries no meaning of its own
}

// maxJots bounds the work on one text: an entry longer than this is no jotted fault.
const maxJots = 400

// fewJots is how many words most entries have at most: jots that are not kept need no memory of their own.
const fewJots = 24

// jots splits text into words and numbers. Letters and digits part: "20A" is "20" and "a".
func jots(text string) []jot { return appendJots(make([]jot, 0, len(text)/5+4), text) }

func appendJots(list []jot, text string) []jot {
	var clause, comma, content int
	for i := 0; i < len(text) && len(list) < maxJots; {
		r, n := utf8.DecodeRuneInString(text[i:])
		end := jotEnd(text, i, r)
		if end == i {
			clause, comma = boundary(text, i, clause, comma)
			i += n
			continue
		}
		j := jot{start: i, end: end, stem: stem(lowerWord(text[i:end]))}
		if named(text, i) || circuitNumber(list, text[i]) {
			j.stem = "n" + j.stem
		}
		if j.stem == "but" || j.stem == "however" {
			clause++
		}
		j.clause, j.comma, j.content = clause, comma, content
		j.filler = fillers[j.stem]
		if !j.filler {
			content++
		}
		list = append(list, j)
		i = end
	}
	return list
}

// named reports whether the number at i belongs to a name, "LP2" or "LP-2", and so counts nothing.
func named(text string, i int) bool {
	if text[i] < '0' || text[i] > '9' || i == 0 {
		return false
	}
	i--
	if text[i] == '-' && i > 0 {
		i--
	}
	c := text[i] | 0x20
	return 'a' <= c && c <= 'z'
}

// circuitNumber reports whether a number that begins with c behind the words of list says which circuit
// or space, and so counts nothing: "ckts 3 and 5".
func circuitNumber(list []jot, c byte) bool {
	if c < '0' || c > '9' {
		return false
	}
	for n := len(list) - 1; n >= max(0, len(list)-6); n-- {
		switch s := list[n].stem; {
		case s == "ckt" || s == "circuit" || s == "cct" || s == "spac" || s == "slot":
			return true
		case s == "and" || s == "#" || len(s) > 1 && s[0] == 'n' && isDigit(s[1]):
		default:
			return false
		}
	}
	return false
}

// jotEnd returns the end of the word, number or "#" at i, or i when none begins there.
func jotEnd(text string, i int, r rune) int {
	switch {
	case r == '#':
		return i + 1
	case '0' <= r && r <= '9':
		for i < len(text) && '0' <= text[i] && text[i] <= '9' {
			i++
		}
		return i
	case !unicode.IsLetter(r):
		return i
	}
	for i < len(text) {
		r, n := utf8.DecodeRuneInString(text[i:])
		if !unicode.IsLetter(r) && !unicode.IsMark(r) {
			if r != '\'' && r != '’' {
				break
			}
			if next, _ := utf8.DecodeRuneInString(text[i+n:]); !unicode.IsLetter(next) {
				break
			}
		}
		i += n
	}
	return i
}

// boundary counts the mark at i: a new clause, a pause, or neither. A full stop before a lower-case
// word is taken for the end of an abbreviation ("recept. no cover"), which is only a pause.
func boundary(text string, i, clause, comma int) (int, int) {
	next := byte(' ')
	if i+1 < len(text) {
		next = text[i+1]
	}
	spaced := next == ' ' || next == '\t' || next == '\n' || next == '\r'
	switch text[i] {
	case ';', '!', '?', '\n':
		return clause + 1, comma
	case '.':
		if !spaced {
			return clause, comma
		}
		for j := i + 1; j < len(text); j++ {
			if c := text[j]; c != ' ' && c != '\t' {
				if 'a' <= c && c <= 'z' {
					return clause, comma + 1
				}
				break
			}
		}
		return clause + 1, comma
	case ',', ':', '(', ')':
		return clause, comma + 1
	case '-':
		if spaced {
			return clause, comma + 1
		}
	}
	return clause, comma
}

// fillers are words that do not count as standing between two others.
var fillers = setOf("a", "an", "the", "on", "in", "at", "of", "to", "is", "ar", "are", "wa", "was", "were", "wer", "it", "be",
	"by", "for", "from", "with", "and", "or", "thi", "this", "that", "thes", "there", "ther", "ha", "has", "have", "hav", "had", "som", "some",
	"we", "i", "very", "all", "still", "just", "also", "into", "any", "here", "her", "been", "get", "got", "ther's", "there's",
	"per", "both", "way", "found", "notic", "saw", "see", "so", "which", "where", "que", "as", "their", "my", "his")

func setOf(words ...string) map[string]bool {
	m := make(map[string]bool, len(words))
	for _, w := range words {
		m[w] = true
	}
	return m
}

// lowerWord lowers s and writes a typographic apostrophe as a plain one; it allocates only if it must.
func lowerWord(s string) string {
	plain := true
	for i := 0; i < len(s) && plain; i++ {
		plain = s[i] < utf8.RuneSelf && !('A' <= s[i] && s[i] <= 'Z')
	}
	if plain {
		return s
	}
	out := make([]rune, 0, len(s))
	for _, r := range s {
		if r == '’' {
			r = '\''
		}
		out = append(out, unicode.ToLower(r))
	}
	return string(out)
}

// stem takes the ending off a lower-case word: plural, past, -ing and a last e. It is coarser than
// a stemmer for prose: phrases and notes go through it alike, so it only has to be consistent.
func stem(w string) string {
	if s, ok := odd[w]; ok {
		return s
	}
	if n := len(w); n > 3 && w[n-2:] == "'s" {
		w = w[:n-2]
	}
	if n := len(w); n > 3 && w[n-1] == 's' && w[n-2] != 's' && w[n-2] != 'u' {
		w = w[:n-1]
		if n > 4 && w[n-3:] == "ie" {
			return w[:n-3] + "y"
		}
	}
	switch n := len(w); {
	case n > 5 && w[n-3:] == "ing" && hasVowel(w[:n-3]):
		w = undouble(w[:n-3])
	case n > 4 && w[n-2:] == "ed" && hasVowel(w[:n-2]):
		w = undouble(w[:n-2])
	}
	if n := len(w); n > 3 && w[n-1] == 'e' {
		w = w[:n-1]
	}
	return w
}

// odd are words whose stem would be another word: tape is no tap, bare is no bar.
var odd = map[string]string{
	"tape": "tape", "tapes": "tape", "taped": "tape", "taping": "tape", "bare": "bare", "bared": "bare", "none": "none",
	"rate": "rate", "rated": "rate", "rates": "rate", "rating": "rate", "fitted": "fitted", "fitting": "fitting",
	"fittings": "fitting", "during": "during", "tubed": "tube", "tube": "tube", "buried": "bury", "arcing": "arcing", "arced": "arcing", "arcs": "arcing", "tied": "tie", "tying": "tie",
}

func hasVowel(s string) bool {
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case 'a', 'e', 'i', 'o', 'u', 'y':
			return true
		}
	}
	return false
}

func undouble(s string) string {
	n := len(s)
	if n > 2 && s[n-1] == s[n-2] && s[n-1] != 's' && s[n-1] != 'l' && s[n-1] != 'e' {
		return s[:n-1]
	}
	return s
}
