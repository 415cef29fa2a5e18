package book

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"

	"jobday/notes"
)

// decisionsHead begins a file of decisions.
const decisionsHead = `# Decisions

What the office settled about entries of this job's notes. The notes stay as written.

`

// decisionsTable is the header of the table of decisions.
var decisionsTable = []string{
	"| Entry | Words | Decision | By | When | Why |",
	"|-------|-------|----------|----|------|-----|",
}

// AddDecision returns the text of a decisions.md with one more row at the end of its last table of
// decisions. All else stays byte for byte; a text without such a table gets one at its end.
func AddDecision(old []byte, d notes.Decision) []byte {
	row := decisionRow(d)
	nl := lineBreak(old)
	if at := decisionsEnd(old); at > 0 {
		text := append([]byte{}, old[:at]...)
		if old[at-1] != '\n' {
			text = append(text, nl...)
		}
		return append(append(text, row+nl...), old[at:]...)
	}
	text := append([]byte{}, old...)
	switch {
	case len(bytes.TrimSpace(old)) == 0:
		text = append(text, strings.ReplaceAll(decisionsHead, "\n", nl)...)
	case !bytes.HasSuffix(old, []byte("\n")):
		text = append(text, nl+nl...)
	default:
		text = append(text, nl...)
	}
	return append(text, strings.Join(append(decisionsTable[:2:2], row, ""), nl)...)
}

// decisionRow writes a decision as a row of the table.
func decisionRow(d notes.Decision) string {
	cells := []string{d.Entry, d.Words, d.String(), d.By, d.When.String(), d.Why}
	for i, c := range cells {
		cells[i] = strings.ReplaceAll(strings.Join(strings.Fields(c), " "), "|", `\|`)
	}
	return "| " + strings.Join(cells, " | ") + " |"
}

// decisionsEnd returns the offset behind the last row of the last table whose header names an entry
// and a decision, 0 when there is none.
func decisionsEnd(text []byte) int {
	end, at := 0, 0
	inside, ours := false, false
	for line := range bytes.Lines(text) {
		at += len(line)
		line = bytes.TrimSpace(line)
		if len(line) == 0 || line[0] != '|' {
			inside = false
			continue
		}
		if !inside {
			low := bytes.ToLower(line)
			inside, ours = true, bytes.Contains(low, []byte("entry")) && bytes.Contains(low, []byte("decision"))
		}
		if ours {
			end = at
		}
	}
	return end
}

// lineBreak returns how the lines of a text end.
func lineBreak(text []byte) string {
	if bytes.Contains(text, []byte("\r\n")) {
		return "\r\n"
	}
	return "\n"
}

// AddWord returns the text of a words.yaml with one more line at its end: the way the shop writes
// a thing, and what it stands for. The note behind it, such as who said so, may be empty.
func AddWord(old []byte, word, meaning, note string) []byte {
	text := append([]byte{}, old...)
	nl := lineBreak(old)
	if len(old) > 0 && !bytes.HasSuffix(old, []byte("\n")) {
		text = append(text, nl...)
	}
	line := plainYAML(word) + ": " + plainYAML(meaning)
	if note = strings.Join(strings.Fields(note), " "); note != "" {
		line += "  # " + note
	}
	return append(text, line+nl...)
}

// plainWords are texts that YAML reads as they stand: words, figures and the marks of the trade,
// none of which means anything to it there.
var plainWords = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9]*([ ./'"+-]+[A-Za-z0-9/."']+)*$`)

// taken are the words that YAML reads as something else than text.
var taken = regexp.MustCompile(`(?i)^(y|n|yes|no|on|off|true|false|null)$`)

// plainYAML writes a text so that YAML reads that text: as it stands where it can, else in quotes.
func plainYAML(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if plainWords.MatchString(s) && !taken.MatchString(s) {
		return s
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b) // its strings are strings of YAML as well (YAML 1.2, section 1.3)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		panic("book: " + err.Error()) // a string is always encoded
	}
	return strings.TrimSpace(b.String())
}
