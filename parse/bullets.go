package parse

import (
	"unicode"
	"unicode/utf8"

	"jobday/notes"
)

// ownBullet returns where the words of a line start behind bullets Markdown does not know, or
// does not see in the middle of a paragraph: "! lost the key", "• 4 recepts", "2) panel".
func ownBullet(text []byte, start, end int) int {
	for range 3 {
		r, n := utf8.DecodeRune(text[start:end])
		next := start + n
		if (r == '-' || r == '=') && next+1 < end && text[next] == '>' && isBlank(text[next+1]) {
			next++ // an arrow
			r = '→'
		}
		switch r {
		case '!', '•', '·', '◦', '▪', '■', '●', '○', '‣', '–', '—', '→', '➢', '✓', '✔', '-', '*', '+', '>', '~', '=':
			if r == '!' && next < end && text[next] == '[' {
				return start // a picture
			}
			blank := next < end && isBlank(text[next])
			if !blank && (r != '!' && r < utf8.RuneSelf || r == '–' || r == '—') {
				return start
			}
		default:
			if n > 1 && unicode.Is(unicode.So, r) {
				if tick, _ := tickBox(text, start, end); tick != notes.NoBox {
					return start
				}
				next = symbolEnd(text, next, end)
				if next < end && !isBlank(text[next]) {
					return start
				}
				break
			}
			if next = numberBullet(text, start, end); next == start {
				return start
			}
		}
		for next < end && isBlank(text[next]) {
			next++
		}
		if next >= end {
			return start
		}
		start = next
	}
	return start
}

// symbolEnd returns the end of an emoji that goes on at next: its variation selector and what is
// joined to it.
func symbolEnd(text []byte, next, end int) int {
	for next < end {
		r, n := utf8.DecodeRune(text[next:end])
		if r < utf8.RuneSelf || unicode.IsLetter(r) || unicode.IsDigit(r) {
			break
		}
		next += n
	}
	return next
}

// numberBullet returns the place behind "2) " or "(2) ", or start.
func numberBullet(text []byte, start, end int) int {
	i := start
	if i < end && text[i] == '(' {
		i++
	}
	j := i
	for j < end && j-i < 3 && isDigit(text[j]) {
		j++
	}
	if j == i || j+1 >= end || text[j] != ')' || !isBlank(text[j+1]) || i > start {
		return start
	}
	return j + 1
}

// tickBox reads "[x]", "[ ]", "( )", "☑" at the start of an item and returns where its words start.
func tickBox(text []byte, start, end int) (notes.TickBox, int) {
	s := text[start:end]
	box, n := notes.NoBox, 0
	switch {
	case len(s) >= 4 && (s[0] == '[' && s[2] == ']' || s[0] == '(' && s[2] == ')') && isBlank(s[3]):
		switch s[1] {
		case 'x', 'X':
			box = notes.CheckedBox
		case ' ':
			box = notes.OpenBox
		default:
			return notes.NoBox, start
		}
		n = 3
	case len(s) >= 3 && s[0] == '[' && s[1] == ']' && isBlank(s[2]):
		box, n = notes.OpenBox, 2
	default:
		switch r, size := utf8.DecodeRune(s); r {
		case '☑', '☒', '✅', '✓', '✔':
			box, n = notes.CheckedBox, size
		case '☐', '⬜', '◻', '□', '❌', '✗', '✘', '✖':
			box, n = notes.OpenBox, size
		default:
			return notes.NoBox, start
		}
	}
	at := start + n
	for at < end && (isBlank(text[at]) || text[at] == 0xEF && at+2 < end && text[at+1] == 0xB8) {
		if text[at] == 0xEF {
			at += 2 // the variation selector of an emoji
		}
		at++
	}
	if at >= end {
		return notes.NoBox, start
	}
	return box, at
}
