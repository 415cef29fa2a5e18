package price

import (
	"slices"
	"strings"
	"unicode"

	"jobday/trade"
)

// key returns the words of a name in a fixed order.
func key(name string) string { return strings.Join(wordsOf(name), " ") }

// small reports whether a word tells no two things apart.
func small(w string) bool {
	switch w {
	case "", "a", "an", "and", "at", "by", "for", "from", "in", "of", "on", "the", "to", "with", "w":
		return true
	}
	return false
}

// wordsOf returns the words of text in lower case, in the trade's usual word for each, sorted,
// each once and without small words. A size such as 12/2 or 1.5 is one word.
func wordsOf(text string) []string {
	if text == "" {
		return nil
	}
	low := strings.ToLower(text)
	words := make([]string, 0, 1+strings.Count(low, " "))
	for len(low) > 0 {
		start := strings.IndexFunc(low, inWord)
		if start < 0 {
			break
		}
		low = low[start:]
		end := strings.IndexFunc(low, notInWord)
		if end < 0 {
			end = len(low)
		}
		if w := strings.Trim(low[:end], "./"); !small(w) {
			words = append(words, canon(w))
		}
		low = low[end:]
	}
	slices.Sort(words)
	return slices.Compact(words)
}

func inWord(r rune) bool {
	return 'a' <= r && r <= 'z' || '.' <= r && r <= '9' || r >= 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

func notInWord(r rune) bool { return !inWord(r) }

// canon returns the trade's usual word for w, or w in the singular.
func canon(w string) string {
	if c, known := canonical(w); known {
		return c
	}
	c, _ := canonical(singular(w))
	return c
}

// canonical is trade.Canon, which parts a word into its runs, without that for a word of letters.
func canonical(w string) (string, bool) {
	for i := range len(w) {
		if w[i] < 'a' || w[i] > 'z' {
			return trade.Canon(w)
		}
	}
	e := trade.Look(w)
	if e == nil || !e.Known || e.Word.Class == trade.StopWord || e.Word.Class == trade.JoinWord {
		return w, false
	}
	return e.Word.Text, true
}

// singular cuts a plural ending, as far as that is safe without a dictionary.
func singular(w string) string {
	if len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") {
		return w[:len(w)-1]
	}
	return w
}

// several reports whether a word says more than one without saying how many.
func several(w string) bool {
	switch w {
	case "all", "both", "couple", "dozen", "each", "every", "few", "more",
		"others", "pair", "remaining", "rest", "several", "some":
		return true
	}
	return false
}

// namesOne reports whether the words of a work name the things, sorted, in the singular, and have no
// word such as "both". A number in front of a thing is for whoever counts; others are of time.
func namesOne(work string, things []string) bool {
	words := strings.FieldsFunc(strings.ToLower(work), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for _, w := range words {
		if several(w) {
			return false
		}
		known, ok := trade.FindWord(w)
		many := ok && known.Plural || !ok && singular(w) != w
		if _, thing := slices.BinarySearch(things, canon(w)); thing && many {
			return false
		}
	}
	return true
}
