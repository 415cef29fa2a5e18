package sheet

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Text is words in a row, pieces of which stand out or lead somewhere. Pieces follow each other
// without a blank of their own.
type Text []Piece

// Piece is a stretch of words of one look.
type Piece struct {
	Words string
	Look  Look
	// Href is where the words lead: "#n1-L23" in this sheet, or an address. PDF and HTML follow it,
	// Markdown and text do not show it. Only #, http, https, mailto and relative paths are followed.
	Href string
	Tone Tone
}

// Look is how words stand out.
type Look int

// The looks.
const (
	Usual  Look = iota
	Bold        // what counts in the line
	Soft        // said by the way; smaller
	Quoted      // somebody's own words, put in quotation marks
	Tag         // one or two words in a box: a severity, a state
)

// Words is text without anything that stands out. It is nil for "".
func Words(words string) Text {
	if words == "" {
		return nil
	}
	return Text{{Words: words}}
}

// Strong is text that counts.
func Strong(words string) Text { return Text{{Words: words, Look: Bold}} }

// Aside is text said by the way.
func Aside(words string) Text { return Text{{Words: words, Look: Soft}} }

// Quote is somebody's own words.
func Quote(words string) Text { return Text{{Words: words, Look: Quoted}} }

// Link is words that lead somewhere.
func Link(words, href string) Text { return Text{{Words: words, Href: href}} }

// Label is one or two words in a box.
func Label(words string, tone Tone) Text { return Text{{Words: words, Look: Tag, Tone: tone}} }

// Join puts texts in a row with a separator between those that are not empty.
func Join(sep string, texts ...Text) Text {
	var out Text
	for _, t := range texts {
		if t.Empty() {
			continue
		}
		if len(out) > 0 && sep != "" {
			out = append(out, Piece{Words: sep})
		}
		out = append(out, t...)
	}
	return out
}

// Empty reports whether there is nothing to read in t.
func (t Text) Empty() bool { return strings.TrimSpace(t.raw()) == "" }

func (t Text) raw() string {
	var b strings.Builder
	for _, p := range t {
		b.WriteString(p.Words)
	}
	return b.String()
}

// String is the words as they are read: on one line, quotations in quotation marks.
func (t Text) String() string {
	var b strings.Builder
	for _, p := range t {
		b.WriteString(p.said())
	}
	return b.String()
}

// said is the words of a piece on one line, with the quotation marks it stands in.
func (p Piece) said() string {
	if p.Look == Quoted {
		return "\u201c" + shown(p.Words) + "\u201d"
	}
	return shown(p.Words)
}

// shown makes text harmless to whatever shows it, on one line: broken bytes, control characters
// and what turns the direction of writing become U+FFFD, line breaks and tabs a blank.
func shown(text string) string {
	if !utf8.ValidString(text) {
		text = strings.ToValidUTF8(text, "\uFFFD")
	}
	if strings.IndexFunc(text, steers) < 0 {
		return text
	}
	text = strings.ReplaceAll(text, "\r\n", " ")
	return strings.Map(func(r rune) rune {
		switch {
		case !steers(r):
			return r
		case r == '\n' || r == '\r' || r == '\t' || r == '\u2028' || r == '\u2029' || r == '\u0085':
			return ' '
		}
		return '\uFFFD'
	}, text)
}

// steers reports whether a character acts on what shows it instead of being shown.
func steers(r rune) bool {
	return unicode.Is(unicode.Cc, r) || r == '\u2028' || r == '\u2029' || unicode.Is(unicode.Bidi_Control, r)
}

// join puts the words that are not empty in a row.
func join(sep string, words ...string) string {
	var kept []string
	for _, w := range words {
		if strings.TrimSpace(w) != "" {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, sep)
}
