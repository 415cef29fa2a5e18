package parse

import (
	"strings"

	"jobday/notes"
)

// scopeLabel reads the label of a scope line before a colon or dash: "A: ...", "B1 - ...",
// "line 1.2: ...". A note is read without the scope, so anything short that looks like a label is
// one, until the scope says otherwise. at is where the words behind it start, 0 without a label.
func (r *noteReader) scopeLabel(text string, in notes.Section) (label string, at int) {
	i := 0
	said := false
	if rest, ok := cutLine(text); ok {
		i, said = len(text)-len(rest), true
	}
	from := i
	for i < len(text) && (isLetter(text[i]) || isDigit(text[i]) || text[i] == '.' || text[i] == '-') && i-from < 13 {
		i++
	}
	label = text[from:i]
	if label == "" || i >= len(text) || strings.Trim(label, ".-") == "" {
		return "", 0
	}
	end := i
	for i < len(text) && text[i] == ' ' {
		i++
	}
	if i >= len(text) {
		return "", 0
	}
	switch {
	case text[i] == ':' && (i+1 >= len(text) || isBlank(text[i+1]) || said || !isDigit(text[i+1])):
		if !said && (!labelLike(label) || r.noLabel(label, in)) {
			return "", 0
		}
	case strings.HasPrefix(text[i:], "- ") && end < i || strings.HasPrefix(text[i:], "– ") || strings.HasPrefix(text[i:], "— "):
		if !said && (!shortLabel(label) || r.noLabel(label, in)) {
			return "", 0
		}
		i += strings.IndexByte(text[i:], ' ') - 1
	default:
		return "", 0
	}
	for i++; i < len(text) && isBlank(text[i]); i++ {
	}
	if i >= len(text) {
		return "", 0
	}
	return label, i
}

// cutLine cuts the word "line" or "item" before a label.
func cutLine(text string) (rest string, ok bool) {
	for _, word := range []string{"line ", "Line ", "LINE ", "item ", "Item ", "scope line ", "Scope line "} {
		if rest, ok := strings.CutPrefix(text, word); ok {
			return rest, true
		}
	}
	return text, false
}

// labelLike reports whether a word of 1 to 6 letters, digits, dots and dashes may be a label: not a
// small word of letters alone, which is a place or a remark ("hall: ..."), and not a sign of speech.
func labelLike(s string) bool {
	if len(s) > 6 {
		return false
	}
	digits, upper := false, false
	for i := 0; i < len(s); i++ {
		digits = digits || isDigit(s[i])
		upper = upper || 'A' <= s[i] && s[i] <= 'Z'
	}
	if digits {
		return true
	}
	return len(s) <= 2 || upper && strings.ToUpper(s) == s && !spokenLabels[strings.ToLower(s)]
}

// shortLabel reports whether a word before a dash may be a label: a dash also parts things and
// stands in "3 - recepts", so it takes a capital.
func shortLabel(s string) bool {
	return len(s) <= 3 && 'A' <= s[0] && s[0] <= 'Z' && (len(s) == 1 || isDigit(s[len(s)-1]))
}

// spokenLabels stand before a colon and name nothing.
var spokenLabels = wordSet("note fyi btw ps re todo ok no yes nb pm am gc gfci gfi lp mdp rtu ahu hvac ups co ask eta eod")

// noLabel reports whether what stands before the colon is a name, a section word, or something that
// is usual in its section.
func (r *noteReader) noLabel(label string, in notes.Section) bool {
	switch in {
	case notes.Time, notes.Circuits, notes.Tests, notes.Safety, notes.Conditions, notes.Subcontractors:
		return true
	}
	low := strings.ToLower(label)
	if _, section := sectionNames[low]; section || spokenLabels[low] {
		return true
	}
	return r.lex.Name(label) != ""
}
