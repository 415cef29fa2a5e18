package price

import (
	"strings"
	"unicode/utf8"

	"jobday/finding"
	"jobday/notes"
)

// tell raises a finding at the first of the sources, once: what is carried to later days is not
// told again.
func (j *job) tell(f finding.Finding, from []notes.Source) {
	said := told{rule: f.Rule, message: f.Message}
	if len(from) > 0 {
		said.at = from[0]
		f.Span = j.span(from[0])
	}
	if j.told[said] {
		return
	}
	j.told[said] = true
	j.found.Add(f)
}

// told is a finding that was given.
type told struct {
	rule, message string
	at            notes.Source
}

// span returns the place of a source in its note, or no place when the note is not at hand.
func (j *job) span(s notes.Source) finding.Span {
	f := j.notes[s.File].file
	if f == nil || s.Line < 1 {
		return finding.Span{}
	}
	start, end := f.Offset(s.Line, s.Column), f.Offset(s.EndLine, s.EndColumn)
	return f.Span(start, end)
}

// quote puts a text as written into a message, shortened where it is long.
func quote(s string) string { return `"` + shortened(s) + `"` }

func shortened(s string) string {
	const longest = 60
	for i, n := 0, 0; i < len(s) && len(s) > longest; n++ {
		if n == longest {
			return s[:i] + "..."
		}
		_, size := utf8.DecodeRuneInString(s[i:])
		i += size
	}
	return s
}

// quoteSome quotes the first few of several texts and counts the rest.
func quoteSome(texts []string) string {
	const most = 6
	var b strings.Builder
	for i, s := range texts {
		switch {
		case i == most && len(texts) > most+1:
			b.WriteString(" and " + notes.Int(len(texts)-most).String() + " more")
			return b.String()
		case i > 0 && i == len(texts)-1:
			b.WriteString(" and ")
		case i > 0:
			b.WriteString(", ")
		}
		b.WriteString(`"`)
		b.WriteString(shortened(s))
		b.WriteString(`"`)
	}
	return b.String()
}
