package parse

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
)

// shown prints findings with their places: line:column-endcolumn severity rule: message | hint.
func shown(list finding.List) []string {
	var out []string
	for _, f := range list.Sort() {
		line, col := f.Span.Position()
		s := fmt.Sprintf("%d:%d %q %s %s: %s", line, col, f.Span.Text(), f.Severity, f.Rule, f.Message)
		if f.Hint != "" {
			s += " | " + f.Hint
		}
		for _, r := range f.Related {
			l, c := r.Span.Position()
			s += fmt.Sprintf(" | %s %d:%d", r.Message, l, c)
		}
		out = append(out, s)
	}
	return out
}

func TestYAMLFindingsPointAtTheWords(t *testing.T) {
	cases := []struct {
		name, text string
		want       []string
	}{
		{"nothing wrong", "name: Cedar & Volt\npeople: [Ines, Tobias]\n", nil},
		{"empty", "", nil},
		{"only a comment", "# nothing yet\n", nil},
		{"unknown key, near one", "nmae: X\n", []string{
			`1:1 "nmae" error key/unknown: unknown key "nmae" in the book | did you mean "name"?`}},
		{"unknown key, near none", "zebra: X\n", []string{
			`1:1 "zebra" error key/unknown: unknown key "zebra" in the book | known here: name, people, opened`}},
		{"duplicate", "name: A\npeople: [B]\nname: C\n", []string{
			`3:1 "name" error key/duplicate: "name" is written twice; the first one is used | remove one of the two | first written here 1:1`}},
		{"a list for a text", "name: [A, B]\n", []string{
			`1:7 "[A, B]" error value/kind: "name" is a list; expected text on one line`}},
		{"keys for a list", "people:\n  Ines: 3\n", []string{
			`2:3 "Ines: 3" error value/kind: "people" is a set of keys; expected a list of words, like [one, two]`}},
		{"an alias", "name: &n A\npeople: [*n]\n", []string{
			`1:7 "&n A" error yaml/alias: a value marked & or * stands for another place; expected the value itself | write the value out`,
			`2:10 "*n]" error yaml/alias: a value marked & or * stands for another place; expected the value itself | write the value out`}},
		{"a date that does not exist", "opened: 2026-02-30\n", []string{
			`1:9 "2026-02-30" error value/bad: "2026-02-30" is not a date; expected year, month and day | write it like 2026-03-12`}},
		{"after umlauts and a byte order mark", "\ufeffname: Grün\r\nöpen: x\r\n", []string{
			`2:1 "öpen" error key/unknown: unknown key "öpen" in the book | known here: name, people, opened`}},
		{"a quoted value and a comment", "opened: \"soon\" # really\n", []string{
			`1:9 "\"soon\"" error value/bad: "soon" is not a date; expected year, month and day | write it like 2026-03-12`}},
		{"text alone", "hello\n", []string{
			`1:1 "hello" error value/kind: the book is "hello"; expected keys, one a line | write each as key: value`}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var found finding.List
			f := finding.NewFile("book.yaml", []byte(c.text))
			m := loadYAML(f, f.Span(0, len(f.Text)), "the book", &found)
			m.text("name")
			m.texts("people")
			m.date("opened")
			m.done()
			assert.Equal(t, c.want, shown(found))
		})
	}
}

func TestYAMLReadsTheRestOfABrokenText(t *testing.T) {
	for name, text := range map[string]string{
		"an open list":       "name: A\npeople: [B, C\nopened: 2026-03-12\n",
		"a tab":              "name: A\npeople:\n\t- B\nopened: 2026-03-12\n",
		"a colon in a value": "name: A\npeople: B: C\nopened: 2026-03-12\n",
		"an open quote":      "name: A\npeople: \"B\nopened: 2026-03-12\n",
		"a word alone":       "name: A\npeople\nopened: 2026-03-12\n",
	} {
		t.Run(name, func(t *testing.T) {
			var found finding.List
			f := finding.NewFile("book.yaml", []byte(text))
			m := loadYAML(f, f.Span(0, len(text)), "the book", &found)
			assert.Equal(t, "A", m.text("name"))
			assert.Equal(t, "2026-03-12", m.date("opened").String())
			m.texts("people")
			m.done()
			require.Len(t, found, 1, strings.Join(shown(found), "\n"))
			line, _ := found[0].Span.Position()
			assert.Contains(t, []int{2, 3}, line)
			assert.NotEmpty(t, found[0].Hint)
		})
	}
}
