package sheet

import "strings"

// markup is what CommonMark and GFM read as markup anywhere in a line. "&" and "_" are looked at
// where they stand, so that T&M and a file_name stay as they are.
const markup = "\\`*_[<~&|"

// escaped makes words show as they were written, in the middle of a line.
func escaped(words string) string {
	return Escape(strings.TrimSpace(shown(words)), markup)
}

// Escape puts a backslash before each of the marks where it means something to CommonMark in the
// middle of a line.
func Escape(words, marks string) string {
	if !strings.ContainsAny(words, marks) {
		return words
	}
	var b strings.Builder
	for i, c := range words {
		if strings.ContainsRune(marks, c) && acts(words, i) {
			b.WriteByte('\\')
		}
		b.WriteRune(c)
	}
	return b.String()
}

func escapedAll(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = escaped(s)
	}
	return out
}

// acts reports whether the character of markup at i means something there: "&" where a character
// reference may follow, "_" except inside a word.
func acts(words string, i int) bool {
	switch words[i] {
	case '&':
		end := strings.IndexByte(words[i:], ';')
		return end > 1 && strings.Trim(words[i+1:i+end], alphanumeric+"#") == ""
	case '_':
		return i == 0 || i+1 == len(words) ||
			!strings.Contains(alphanumeric, words[i-1:i]) || !strings.Contains(alphanumeric, words[i+1:i+2])
	}
	return true
}

const alphanumeric = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"

// escapedItem is escaped for words that begin a line or an item, where a number sign, a dash or "1."
// would open something.
func escapedItem(words string) string { return opening(escaped(words)) }

func opening(text string) string {
	digits := len(text) - len(strings.TrimLeft(text, "0123456789"))
	switch {
	case text == "":
		return text
	case strings.ContainsRune("#>+-=:", rune(text[0])):
		return "\\" + text
	case digits > 0 && digits < len(text) && strings.ContainsRune(".)", rune(text[digits])) && (digits+1 == len(text) || text[digits+1] == ' '):
		return text[:digits] + "\\" + text[digits:]
	}
	return text
}

// written is a text as Markdown, in the middle of a line.
func written(t Text) string {
	var b strings.Builder
	for _, p := range t {
		words := p.Words
		text := escaped(words)
		switch {
		case text == "":
			b.WriteString(strings.Repeat(" ", btoi(words != "")))
			continue
		case p.Look == Bold || p.Look == Tag:
			text = bold(text)
		case p.Look == Quoted:
			text = "\u201c" + text + "\u201d"
		}
		lead, trail := words != strings.TrimLeft(words, " "), words != strings.TrimRight(words, " ")
		b.WriteString(strings.Repeat(" ", btoi(lead)) + text + strings.Repeat(" ", btoi(trail)))
	}
	return strings.TrimSpace(b.String())
}

// item is a text as Markdown at the beginning of a line.
func item(t Text) string { return opening(written(t)) }
