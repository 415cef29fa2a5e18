package parse

import (
	"bytes"
	"unicode/utf8"

	"jobday/finding"
)

// Up to these bounds a note is parsed in time linear in its size. Past one of them it is kept whole
// as narrative, with a finding.
const (
	largestNote = 64 << 10 // bytes of a note
	longestLine = 4 << 10  // bytes of one line of a note
	mostBullets = 100      // bullets and quote marks at the start of one line
)

// beyondLimits says why a note whose body starts at start is kept whole, and where; why is "" for a
// note that is read.
func beyondLimits(f *finding.File, start int) (why, rule, hint string, where finding.Span) {
	switch {
	case len(f.Text) > largestNote:
		return "the note is larger than 64 KB", "note/size", "write one note a day and a person", f.LineSpan(1)
	case !utf8.Valid(f.Text) || bytes.IndexByte(f.Text, 0) >= 0:
		bad := invalidUTF8(f, 0, len(f.Text))
		return bad.Message, bad.Rule, bad.Hint, bad.Span
	}
	for at := start; at < len(f.Text); {
		l, next := lineAt(f.Text, at)
		where = f.Span(at, at+min(firstLineEnd(l), 80))
		for where.End > at && !utf8.RuneStart(at80(f.Text, where.End)) {
			where.End--
		}
		if len(l) > longestLine {
			return "this line is longer than 4 KB", "note/size", "part it into lines", where
		}
		if bullets(l) > mostBullets {
			return "this line begins with more than 100 bullets", "note/nesting", "write one bullet a line", where
		}
		at = next
	}
	return "", "", "", finding.Span{}
}

// at80 returns the byte at i, or 0 at the end of the text, which is the start of a rune.
func at80(text []byte, i int) byte {
	if i < len(text) {
		return text[i]
	}
	return 0
}

// tooNested reports whether a line behind start begins with more bullets than anyone writes.
func tooNested(f *finding.File, start int) bool {
	for l := range bytes.Lines(f.Text[start:]) {
		if bullets(l) > mostBullets {
			return true
		}
	}
	return false
}

// bullets counts the list bullets and quote marks a line begins with, one inside the other.
func bullets(l []byte) int {
	n, i := 0, 0
	for i < len(l) {
		c := l[i]
		switch {
		case c == ' ' || c == '\t':
			i++
			continue
		case c == '>':
			i++
		case c == '-' || c == '+' || c == '*':
			if i+1 < len(l) && !isBlank(l[i+1]) {
				return n
			}
			i++
		case isDigit(c):
			j := i
			for j < len(l) && isDigit(l[j]) {
				j++
			}
			if j+1 >= len(l) || l[j] != '.' && l[j] != ')' || !isBlank(l[j+1]) {
				return n
			}
			i = j + 1
		default:
			return n
		}
		n++
	}
	return n
}
