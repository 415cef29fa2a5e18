package parse

import (
	"bytes"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

// ruleNames lists the rules found, sorted by place.
func ruleNames(found finding.List) []string {
	var out []string
	for _, f := range found.Sort() {
		out = append(out, f.Rule)
	}
	return out
}

func TestBadNotes(t *testing.T) {
	cases := []struct {
		name      string
		text      string
		rules     []string
		entries   int
		narrative int
	}{
		{"empty file", "", []string{"note/empty"}, 0, 0},
		{"only blanks", " \n\t\n", []string{"note/empty"}, 0, 0},
		{"no front matter", "## Done\n- hung 2 fans\n", nil, 1, 0},
		{"empty front matter", "---\n---\n## Done\n- hung 2 fans\n", nil, 1, 0},
		{"broken front matter", "---\ncrew: [Ines\ndate: 2026-03-12\n---\n- hung 2 fans\n", []string{"yaml/syntax"}, 1, 0},
		{"tab in front matter", "---\ncrew:\n\t- Ines\n---\n- hung 2 fans\n", []string{"yaml/syntax"}, 1, 0},
		{"a rule first", "---\nhung 2 fans\n---\nswapped a switch\n", nil, 2, 0},
		{"CRLF", "---\r\ndate: 2026-03-12\r\n---\r\n## Done\r\n- hung 2 fans\r\n", nil, 1, 0},
		{"CR alone", "hung 2 fans\rswapped a switch", nil, 1, 0},
		{"byte order mark", "\ufeff---\ndate: 2026-03-12\n---\n## Done\n- hung 2 fans\n", nil, 1, 0},
		{"byte order mark, no front matter", "\ufeff## Done\n- hung 2 fans\n", nil, 1, 0},
		{"no line break at the end", "## Done\n- hung 2 fans", nil, 1, 0},
		{"invalid UTF-8", "## Done\n- hung \xff fans\n", []string{"file/encoding"}, 0, 1},
		{"invalid UTF-8 in front matter", "---\ndate: \xff\n---\n- hung 2 fans\n", []string{"file/encoding"}, 0, 1},
		{"a NUL", "## Done\n- hung \x00 fans\n", []string{"file/encoding"}, 0, 1},
		{"UTF-16", "\xff\xfe#\x00#\x00", []string{"file/encoding"}, 0, 1},
		{"a long line", "## Done\n- " + strings.Repeat("fan ", 2000) + "\n", []string{"note/size"}, 0, 1},
		{"bullets on one line", strings.Repeat("- ", 1000) + "fan\n", []string{"note/nesting"}, 0, 1},
		{"nested lists", nestedLists(60), []string{"note/nesting"}, 0, 1},
		{"nested quotes", strings.Repeat(">", 90) + " fan\n", []string{"note/nesting"}, 0, 1},
		{"10,000 nested lists", nestedLists(10_000), []string{"note/size"}, 0, 1},
		{"50 MB", strings.Repeat("- hung 2 fans\n", 50<<20/14), []string{"note/size"}, 0, 1},
		{"front matter that never ends", "---\n" + strings.Repeat("a: b\n", 20_000), []string{"note/size"}, 0, 1},
		{"a comment to the end", "<!-- hung 2 fans\n- 3\n", []string{"note/comment-open"}, 0, 1},
		{"a fence to the end", "```\nhung 2 fans\n", nil, 0, 1},
		{"emoji", "## 🔧 Done ✅\n- 🔌 swapped 2 recepts 👍🏽\n", nil, 1, 0},
		{"only bullets", "-\n*\n+\n1.\n", nil, 0, 0},
		{"only marks", "***\n---\n...\n!!!\n", nil, 0, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			n, found := Note(finding.NewFile("jobs/1-a/2026-03-12.md", []byte(c.text)), NoteContext{People: testPeople})
			assertSound(t, n, found)
			assert.Equal(t, c.rules, ruleNames(found))
			assert.Equal(t, "2026-03-12", n.Date.String())
			assert.Len(t, n.Entries, c.entries)
			assert.Len(t, n.Narrative, c.narrative)
		})
	}
}

func nestedLists(depth int) string {
	var b strings.Builder
	for i := range depth {
		b.WriteString(strings.Repeat("  ", min(i, 1000)) + "- fan\n")
	}
	return b.String()
}

func TestNoteWithoutADate(t *testing.T) {
	n, found := Note(finding.NewFile("jobs/1-a/notes.md", []byte("---\ncrew: [Ines]\n---\nhung 2 cans\n")), NoteContext{})
	assert.False(t, n.Date.Known())
	assert.Equal(t, []string{"note/date-missing"}, ruleNames(found))
	n, found = Note(finding.NewFile("jobs/1-a/notes.md", []byte("---\ndate: 2026-03-12\n---\nhung 2 cans\n")), NoteContext{})
	assert.Equal(t, "2026-03-12", n.Date.String())
	assert.Empty(t, found)
	_, found = Note(finding.NewFile("jobs/1-a/2026-13-40.md", []byte("---\ndate: tomorrow\n---\nhung 2 cans\n")), NoteContext{})
	assert.Equal(t, []string{"value/bad"}, ruleNames(found))
}

func TestAuthorAndCrewAreNamedAsTheBookDoes(t *testing.T) {
	n, _ := Note(finding.NewFile("jobs/1-a/2026-03-12-tobias.md", []byte("---\ncrew: ines & Jo\n---\n")), NoteContext{People: testPeople})
	assert.Equal(t, "Tobias Reed", n.Author)
	assert.Equal(t, []string{"Ines Marlow", "Jo"}, n.Crew)
}

func TestBadScopes(t *testing.T) {
	table := "## Scope\n| Line | Work | Price |\n|---|---|---|\n| A | fan | 5.00 |\n"
	cases := []struct {
		name, text string
		rules      []string
		lines      int
	}{
		{"empty file", "", []string{"scope/empty"}, 0},
		{"CRLF and byte order mark", "\ufeff---\r\njob: 7\r\n---\r\n" + strings.ReplaceAll(table, "\n", "\r\n"), nil, 1},
		{"invalid UTF-8 in a cell", strings.ReplaceAll(table, "fan", "f\xffn"), []string{"file/encoding"}, 1},
		{"a NUL", table + "\n\x00", []string{"file/encoding"}, 1},
		{"a broken key", "---\ntitle: [x\n---\n" + table, []string{"yaml/syntax"}, 1},
		{"10,000 columns", strings.Repeat("|a", 10_000) + "\n" + strings.Repeat("|-", 10_000) + "\n" + strings.Repeat("|\n", 10_000), []string{"scope/empty", "table/wide"}, 0},
		{"1,000 bullets on one line", table + strings.Repeat("- ", 1000), []string{"scope/size", "scope/empty"}, 0},
		{"nested lists", table + "\n" + nestedLists(60), []string{"scope/size", "scope/empty"}, 0},
		{"large", table + strings.Repeat("fan\n", 200_000), []string{"scope/size", "scope/empty"}, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			j, found := Scope(finding.NewFile("jobs/7-a/scope.md", []byte(c.text)))
			assert.ElementsMatch(t, c.rules, ruleNames(found))
			assert.Len(t, j.Lines, c.lines)
			assert.Equal(t, "7", j.Number)
		})
	}
}

func TestWords(t *testing.T) {
	w, found := Words(finding.NewFile("words.yaml", []byte("skinny: tandem 20A breaker\nblue box:\nskinny: x\nlist: [a, b]\n")))
	require.False(t, w.None())
	assert.Equal(t, []string{"words/empty", "key/duplicate", "words/empty", "value/kind"}, ruleNames(found))
}

// A note costs in line with its size: ten times the text may not cost anywhere near a hundred times
// as much. Memory is counted, because a clock on a busy machine proves nothing; that time does not
// run away either is checked with a bound only a runaway reaches.
func TestNoteIsLinear(t *testing.T) {
	for name, unit := range hostileUnits {
		t.Run(name, func(t *testing.T) {
			small, large := noteCost(t, unit, 6_000), noteCost(t, unit, 60_000)
			assert.Less(t, large, 20*small, "bytes allocated for 60 KB against 6 KB")
		})
	}
}

// hostileUnits are texts that cost some parsers the square of their number.
var hostileUnits = map[string]string{
	"items": "- hung 2 fans; 45 min, and found a loose neutral\n", "sentences": "hung 2 fans. ",
	"details": "- hung 2 fans\n  - 3 plates\n", "bare lines": "hung 2 fans\n", "joints": "a, b and c - d; ",
	"photos": "![a](b) ", "open photos": "![a](", "stars": "*a_ ", "links": "[a](", "slashes": "1 fan / ", "bars": "|a",
	"html": "<b>\n", "underlines": "fan\n---\n", "commas": "4 recepts, ", "prose": "nice people here\n", "same": "unit 6: same\n",
}

// noteCost reads a note of n bytes made of unit, in lines of up to 4,000 bytes, and returns the
// bytes allocated.
func noteCost(t *testing.T, unit string, n int) uint64 {
	var text bytes.Buffer
	for text.Len() < n {
		for line := 0; text.Len() < n && line < 4000; line += len(unit) {
			text.WriteString(unit)
		}
		if !strings.HasSuffix(unit, "\n") {
			text.WriteByte('\n')
		}
	}
	file := finding.NewFile("2026-03-12.md", text.Bytes())
	start := time.Now()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	got, found := Note(file, NoteContext{})
	runtime.ReadMemStats(&after)
	assert.Less(t, time.Since(start), 10*time.Second)
	assertSound(t, got, found)
	return after.TotalAlloc - before.TotalAlloc
}

func TestSectionNamesAreOneSectionEach(t *testing.T) {
	seen := map[notes.Section]bool{}
	for name, s := range sectionNames {
		assert.Equal(t, name, plainName(name))
		seen[s] = true
	}
	assert.Len(t, seen, len(notes.Sections))
	for _, s := range notes.Sections {
		assert.NotEmpty(t, s.Kind(), s)
	}
	assert.Len(t, overrides, len(notes.Sections))
}
