package field

import (
	"strconv"
	"unicode/utf8"

	"jobday/notes"
)

// numForm says how a number was written. The zero value is invalid.
type numForm byte

const (
	digits   numForm = iota + 1 // "12", "1,200", "1.25"
	fraction                    // "3/4", "1-1/4", "½"
	spelled                     // "six", "twenty-two", "a dozen", "half a"
	article                     // "a", "an"
)

// A num is a number as read.
type num struct {
	v     notes.Decimal
	small int  // the value when it is whole and below a million, else -1
	next  int  // the token after it
	about bool // "a couple", "a few" style words that do not claim to be exact
	form  numForm
}

// numberAt reads the number that starts at token i of text: "1,200", "1.25", ".5", "3/4",
// "1 1/4", "4-11/16", "1¼", "twenty-two", "a dozen", "half a", "a". It returns the token after
// it, and false when none starts there.
func numberAt(toks []token, i int, text string) (v notes.Decimal, next int, ok bool) {
	n, ok := readNum(toks, i)
	return n.v, n.next, ok
}

// readNum reads the number that starts at token i.
func readNum(toks []token, i int) (num, bool) {
	if i >= len(toks) {
		return num{}, false
	}
	switch toks[i].kind {
	case number:
		n, ok := readDigits(toks, i)
		if ok && n.next < len(toks) && toks[n.next].kind == word && dozen(toks[n.next].low) {
			return dozens(toks, n), true
		}
		return n, ok
	case symbol:
		if n, ok := vulgarAt(toks, i); ok {
			return n, true
		}
		return pointFirst(toks, i)
	}
	return readSpelled(toks, i)
}

// readDigits reads a number that starts with digits.
func readDigits(toks []token, i int) (num, bool) {
	if n, ok := fractionAt(toks, i); ok {
		return n, true
	}
	whole, next, ok := wholeAt(toks, i)
	if !ok {
		return num{}, false
	}
	if tight(toks, next, ".") && next+1 < len(toks) && toks[next+1].kind == number && !toks[next+1].spaced {
		return pointed(toks, i, next)
	}
	if f, ok := addedFraction(toks, next); ok {
		f.v = f.v.Add(whole.v)
		f.small = -1
		return f, true
	}
	whole.next = next
	return whole, true
}

// wholeAt reads digits with or without thousands commas.
func wholeAt(toks []token, i int) (num, int, bool) {
	s := toks[i].low
	next := i + 1
	if len(s) <= 3 && s[0] != '0' {
		for groupAt(toks, next) {
			s += toks[next+1].low
			next += 2
		}
	}
	n, ok := wholeNum(s)
	return n, next, ok
}

// groupAt reports whether ",ddd" stands at token i and no digit follows: "1,200".
func groupAt(toks []token, i int) bool {
	return tight(toks, i, ",") && i+1 < len(toks) && toks[i+1].kind == number &&
		!toks[i+1].spaced && len(toks[i+1].low) == 3
}

// wholeNum makes a number of a run of digits; one of absurd length is none.
func wholeNum(s string) (num, bool) {
	if len(s) <= 6 {
		n, _ := strconv.Atoi(s)
		return num{v: notes.Int(n), small: n, form: digits}, true
	}
	d, err := notes.ParseDecimal(s)
	return num{v: d, small: -1, form: digits}, err == nil && len(s) <= 15
}

// pointed reads a decimal whose point is at token dot. "3.12.2026" is a date or a version, no number.
func pointed(toks []token, i, dot int) (num, bool) {
	end := dot + 2
	if tight(toks, end, ".") && end+1 < len(toks) && toks[end+1].kind == number && !toks[end+1].spaced {
		return num{}, false
	}
	s := ""
	for _, t := range toks[i:end] {
		if t.low != "," {
			s += t.low
		}
	}
	d, err := notes.ParseDecimal(s)
	return num{v: d, small: -1, next: end, form: digits}, err == nil && len(s) <= 20
}

// pointFirst reads ".5".
func pointFirst(toks []token, i int) (num, bool) {
	if toks[i].low != "." || i+1 >= len(toks) || toks[i+1].kind != number || toks[i+1].spaced {
		return num{}, false
	}
	if i > 0 && !toks[i].spaced && (toks[i-1].kind != symbol || toks[i-1].low == ".") {
		return num{}, false
	}
	if len(toks[i+1].low) > 12 {
		return num{}, false
	}
	d, err := notes.ParseDecimal("." + toks[i+1].low)
	return num{v: d, small: -1, next: i + 2, form: digits}, err == nil
}

// addedFraction reads the fraction of a mixed number, token i being what follows the whole part:
// "1 1/4", "1-1/4", "1¼", "1 and 1/4", "1 and a half".
func addedFraction(toks []token, i int) (num, bool) {
	if i >= len(toks) {
		return num{}, false
	}
	if n, ok := vulgarAt(toks, i); ok {
		return n, true
	}
	switch t := toks[i]; {
	case t.low == "-" && !t.spaced, t.low == "–" && !t.spaced:
		if i+1 < len(toks) && !toks[i+1].spaced {
			if n, ok := vulgarAt(toks, i+1); ok {
				return n, true
			}
			return fractionAt(toks, i+1)
		}
	case t.kind == number && t.spaced:
		return fractionAt(toks, i)
	case t.low == "and" || t.low == "&":
		return partOf(toks, i+1)
	}
	return num{}, false
}

// partOf reads a fraction after "and": "1/4", "½", "a half", "three quarters".
func partOf(toks []token, i int) (num, bool) {
	if n, ok := vulgarAt(toks, i); ok {
		return n, true
	}
	if n, ok := fractionAt(toks, i); ok {
		return n, true
	}
	if wordAt(toks, i, "a") {
		i++
	}
	if i >= len(toks) {
		return num{}, false
	}
	if a, b := fractionWord(toks[i].low); b > 0 {
		return num{v: notes.Ratio(a, b), small: -1, next: i + 1, form: spelled}, true
	}
	if n := unitWord(toks[i].low); n == 3 && (wordAt(toks, i+1, "quarters") || wordAt(toks, i+1, "quarter")) {
		return num{v: notes.Ratio(3, 4), small: -1, next: i + 2, form: spelled}, true
	}
	return num{}, false
}

var (
	one  = notes.Int(1)
	half = notes.Ratio(1, 2)
)

// fractionAt reads a typed proper fraction whose denominator a rule or a trade size uses: "3/4",
// "11/16", "1⁄3". "12/2", "40/80" and "2/5" are not fractions.
func fractionAt(toks []token, i int) (num, bool) {
	if i+2 >= len(toks) || toks[i].kind != number || toks[i+2].kind != number ||
		toks[i+1].spaced || toks[i+2].spaced {
		return num{}, false
	}
	if s := toks[i+1].low; s != "/" && s != "⁄" && s != "∕" {
		return num{}, false
	}
	if len(toks[i].low) > 2 || len(toks[i+2].low) > 2 || tight(toks, i+3, "/") {
		return num{}, false
	}
	a, _ := strconv.Atoi(toks[i].low)
	b, _ := strconv.Atoi(toks[i+2].low)
	if a <= 0 || a >= b {
		return num{}, false
	}
	switch b {
	case 2, 3, 4, 8, 16, 32, 64:
		return num{v: notes.Ratio(a, b), small: -1, next: i + 3, form: fraction}, true
	}
	return num{}, false
}

// vulgarAt reads a fraction written as one character: "½".
func vulgarAt(toks []token, i int) (num, bool) {
	if i >= len(toks) || toks[i].kind != symbol || len(toks[i].low) == 1 {
		return num{}, false
	}
	r, _ := utf8.DecodeRuneInString(toks[i].low)
	a, b := vulgar(r)
	if b == 0 {
		return num{}, false
	}
	return num{v: notes.Ratio(a, b), small: -1, next: i + 1, form: fraction}, true
}

// vulgar returns numerator and denominator of a vulgar fraction character, or 0, 0.
// Source: the property Numeric_Value of Unicode, UnicodeData.txt field 8.
func vulgar(r rune) (int, int) {
	switch r {
	case '¼':
		return 1, 4
	case '½':
		return 1, 2
	case '¾':
		return 3, 4
	case '⅐':
		return 1, 7
	case '⅑':
		return 1, 9
	case '⅒':
		return 1, 10
	case '↉':
		return 0, 3
	}
	if r >= '⅓' && r <= '⅞' {
		f := eighths[r-'⅓']
		return int(f[0]), int(f[1])
	}
	return 0, 0
}

// eighths holds U+2153 to U+215E in order.
var eighths = [...][2]byte{
	{1, 3}, {2, 3}, {1, 5}, {2, 5}, {3, 5}, {4, 5}, {1, 6}, {5, 6}, {1, 8}, {3, 8}, {5, 8}, {7, 8},
}

// tight reports whether token i is the symbol s and stands right after what precedes it.
func tight(toks []token, i int, s string) bool {
	return i < len(toks) && toks[i].low == s && !toks[i].spaced
}
