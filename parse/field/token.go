package field

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"jobday/trade"
)

// A kind says what a token is made of.
type kind byte

const (
	word   kind = iota + 1 // letters, with inner apostrophes: "ok'd"
	number                 // decimal digits only
	symbol                 // one other code point
)

// A token is a run of letters, a run of digits or one other code point of a text. What they mean
// together ("12/2", "7-3:30", "4-11/16") is for the grammars to say.
type token struct {
	low        string       // lower case; for a symbol as written
	ent        *trade.Entry // what the vocabulary knows of a word, or nil
	start, end int          // byte offsets in the text
	kind       kind
	spaced     bool // white space, or the start of the text, stands before it
}

// tokens splits text; it never fails and leaves out white space only.
func tokens(text string) []token { return appendTokens(make([]token, 0, len(text)/3+4), text) }

func appendTokens(ts []token, text string) []token {
	low := lowered(text)
	spaced := true
	for i := 0; i < len(text); {
		r, n := rune(text[i]), 1
		if r >= utf8.RuneSelf {
			r, n = utf8.DecodeRuneInString(text[i:])
		}
		start := i
		switch {
		case unicode.IsSpace(r):
			spaced = true
			i += n
			continue
		case '0' <= r && r <= '9':
			for i < len(text) && '0' <= text[i] && text[i] <= '9' {
				i++
			}
			ts = append(ts, token{kind: number, start: start, end: i, low: text[start:i], spaced: spaced})
		case unicode.IsLetter(r):
			i = wordEnd(text, i)
			t := token{kind: word, start: start, end: i, spaced: spaced}
			if low != "" {
				t.low = low[start:i]
			} else {
				t.low = lower(text[start:i])
			}
			t.ent = trade.Look(t.low)
			if t.ent == nil && len(t.low) > 3 && strings.HasSuffix(t.low, "'s") && t.low != "lb's" {
				if e := trade.Look(t.low[:len(t.low)-2] + "s"); e != nil { // "recpt's"
					t.ent = e
				}
			}
			ts = append(ts, t)
		default:
			i += n
			ts = append(ts, token{kind: symbol, start: start, end: i, low: text[start:i], spaced: spaced})
		}
		spaced = false
	}
	return ts
}

// lowered returns a text of plain letters in lower case, byte for byte; "" when it has others.
func lowered(text string) string {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return ""
		}
	}
	return strings.ToLower(text)
}

// wordEnd returns the end of the word that starts at i. Combining marks belong to it, and so does
// an apostrophe between letters.
func wordEnd(text string, i int) int {
	for i < len(text) {
		if c := text[i] | 0x20; 'a' <= c && c <= 'z' {
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(text[i:])
		switch {
		case unicode.IsLetter(r), unicode.IsMark(r):
		case r == '\'' || r == '’':
			if next, _ := utf8.DecodeRuneInString(text[i+n:]); !unicode.IsLetter(next) {
				return i
			}
		default:
			return i
		}
		i += n
	}
	return i
}

// lower lowers s, writes a typographic apostrophe as a plain one, and allocates only if it must.
func lower(s string) string {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= utf8.RuneSelf || 'A' <= c && c <= 'Z' {
			return lowerSlow(s)
		}
	}
	return s
}

func lowerSlow(s string) string {
	out := make([]rune, 0, len(s))
	for _, r := range s {
		if r == '’' {
			r = '\''
		}
		out = append(out, unicode.ToLower(r))
	}
	return string(out)
}
