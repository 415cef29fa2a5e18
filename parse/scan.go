package parse

import (
	"unicode"
	"unicode/utf8"

	"jobday/parse/field"
)

// A mark is a word, number or sign of an item's text with what it hints at.
type mark struct {
	start, end int    // byte offsets in the text
	low        string // in lower case
	sign       sign
	spaced     bool // a blank or the start stands before it
	broken     bool // a line break does
	kind       markKind
}

type markKind byte

const (
	wordMark markKind = iota + 1
	numberMark
	signMark
)

// A scanner turns texts into marks, reusing its memory.
type scanner struct {
	lex   *field.Lexicon
	low   string // the whole file in lower case
	marks []mark
	part  []mark // of a part of text, with offsets in the part
	text  string // what marks were made of
	base  int
}

// scan reads a text that stands at the file offset base. The marks are valid until another text is
// read. Of a part of the text read last, the marks are those of the whole: words keep the signs
// that their neighbours gave them.
func (sc *scanner) scan(text string, base int) []mark {
	if n := base - sc.base; len(sc.marks) > 0 && n >= 0 && n+len(text) <= len(sc.text) && sc.text[n:n+len(text)] == text {
		return sc.within(n, n+len(text))
	}
	sc.marks, sc.text, sc.base = sc.marks[:0], text, base
	low := sc.low[base : base+len(text)]
	spaced, broken := true, false
	for i := 0; i < len(text); {
		c := text[i]
		m := mark{start: i, spaced: spaced, broken: broken}
		switch {
		case isBlank(c):
			spaced, broken = true, broken || c == '\n'
			i++
			continue
		case isDigit(c):
			for i < len(text) && isDigit(text[i]) {
				i++
			}
			m.kind = numberMark
		case isLetter(c) || c >= utf8.RuneSelf && letterAt(text, i):
			i = wordEnd(text, i)
			m.kind = wordMark
		default:
			_, n := utf8.DecodeRuneInString(text[i:])
			if text[i:i+n] == "\u00a0" {
				spaced = true
				i += n
				continue
			}
			i += n
			m.kind = signMark
		}
		m.end, m.low = i, low[m.start:i]
		spaced, broken = false, false
		sc.marks = append(sc.marks, m)
	}
	sc.sense(text)
	return sc.marks
}

// within returns the marks between two offsets of the text, counted from the first.
func (sc *scanner) within(from, to int) []mark {
	if from == 0 && to == len(sc.text) {
		return sc.marks
	}
	sc.part = sc.part[:0]
	for _, m := range sc.marks {
		if m.start >= from && m.end <= to {
			m.start, m.end = m.start-from, m.end-from
			sc.part = append(sc.part, m)
		}
	}
	return sc.part
}

func letterAt(text string, i int) bool {
	r, _ := utf8.DecodeRuneInString(text[i:])
	return unicode.IsLetter(r)
}

// wordEnd returns the end of the word that starts at i; an apostrophe between letters belongs to it.
func wordEnd(text string, i int) int {
	for i < len(text) {
		c := text[i]
		switch {
		case isLetter(c):
			i++
		case c == '\'' && i+1 < len(text) && isLetter(text[i+1]):
			i++
		case c >= utf8.RuneSelf:
			r, n := utf8.DecodeRuneInString(text[i:])
			if r == '’' && i+n < len(text) && isLetter(text[i+n]) || unicode.IsLetter(r) || unicode.IsMark(r) {
				i += n
				continue
			}
			return i
		default:
			return i
		}
	}
	return i
}

// lowerASCII lowers the letters A to Z, so that offsets stay the same.
func lowerASCII(s string) string {
	for i := 0; i < len(s); i++ {
		if 'A' <= s[i] && s[i] <= 'Z' {
			b := []byte(s)
			for j := i; j < len(b); j++ {
				if 'A' <= b[j] && b[j] <= 'Z' {
					b[j] += 'a' - 'A'
				}
			}
			return string(b)
		}
	}
	return s
}
