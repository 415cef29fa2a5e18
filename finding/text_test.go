package finding

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// update rewrites golden files and the rule manual: go test ./finding -update
var update = flag.Bool("update", false, "rewrite golden files")

// golden compares got with a file of testdata, or rewrites it with -update.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(filepath.FromSlash(name), got, 0o644))
	}
	want, err := os.ReadFile(filepath.FromSlash(name))
	require.NoError(t, err)
	require.Equal(t, string(want), string(got), "%s is not fresh: go test ./finding -update", name)
}

// at returns the span of the first place the words stand in the file.
func at(t *testing.T, f *File, words string) Span {
	t.Helper()
	i := strings.Index(string(f.Text), words)
	require.GreaterOrEqual(t, i, 0, "%q is not in %s", words, f.Name)
	return f.Span(i, i+len(words))
}

// examples are findings of every shape.
func examples(t *testing.T) List {
	note := NewFile("jobs/2431-quay bakery/2026-03-12.md", []byte(strings.Join([]string{
		"## Materials",
		"- 52 fet 10/2 MC",
		"\t- 日本 6 fet",
		"- " + strings.Repeat("long ", 40) + "52 fet of cable " + strings.Repeat("and more ", 30),
		"- \x1b[31m 3 fet \xff 4 fot",
		"- one paragraph",
		"  over two lines",
	}, "\r\n")))
	scope := NewFile("jobs/2431-quay bakery/scope.md", []byte("| A | lights |\n| A | cabinet |"))
	empty := NewFile("company.yaml", nil)
	return List{
		{Error, "unit/unknown", `unknown unit "fet"`, `did you mean "ft"?`, at(t, note, "fet"), nil, "material on line B until this is readable"},
		{Error, "unit/unknown", `unknown unit "fet"`, "", at(t, note, "日本 6 fet").Sub(9, 12), nil, ""},
		{Warning, "unit/unknown", `unknown unit "fet"`, "", at(t, note, "fet of cable").Sub(0, 3), nil, ""},
		{Error, "unit/unknown", "a \x1b[2J screen \u202egnp", "", at(t, note, "fot"), nil, ""},
		{Note, "line/kept", "kept as narrative", "", at(t, note, "one paragraph\r\n  over two lines"), nil, ""},
		{Note, "line/end", "ends here", "", note.Span(len(note.Text), len(note.Text)), nil, ""},
		{Error, "scope/label-twice", `line "A" is booked twice`, "give each line a label of its own",
			scope.Span(17, 18), []Related{{"the first line with this label", scope.Span(2, 3)}}, ""},
		{Error, "book/no-company", "the book has no company.yaml", "", empty.Span(0, 0), nil, ""},
		{Warning, "book/place", "no place is known", "", Span{}, []Related{{"nor for this", Span{}}}, ""},
	}
}

func TestText(t *testing.T) {
	var plain, colored bytes.Buffer
	require.NoError(t, WriteText(&plain, examples(t), TextOptions{}))
	golden(t, "testdata/text.golden", plain.Bytes())
	require.NotContains(t, plain.String(), "\x1b", "the input drives no terminal, and no colour unless asked")
	require.True(t, utf8.Valid(plain.Bytes()))

	require.NoError(t, WriteText(&colored, examples(t), TextOptions{Color: true}))
	golden(t, "testdata/text-color.golden", colored.Bytes())
	bare := strings.NewReplacer(bold, "", red, "", yellow, "", blue, "", dim, "", reset, "").Replace(colored.String())
	require.Equal(t, plain.String(), bare, "colour adds nothing but colour")
}

func TestTextOfNothingIsNothing(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, WriteText(&b, nil, TextOptions{}))
	require.Empty(t, b.String())
}

// TestCaretStandsUnderTheWords measures, on the printed lines, that the run of carets begins and
// ends where the words do, for words of every width and wherever they stand in a long line.
func TestCaretStandsUnderTheWords(t *testing.T) {
	words := []string{"fet", "ft\t2", "größe", "日本語", "e\u0301te", "½", "👷 3"}
	before := []string{"", "- ", "\t- ", "日本 ", strings.Repeat("x", 95), strings.Repeat("日本 ", 60), strings.Repeat("\t", 70)}
	after := []string{"", " end", strings.Repeat(" more", 60)}
	for _, w := range words {
		for _, pre := range before {
			for _, post := range after {
				f := NewFile("n.md", []byte("first\n"+pre+w+post+"\nlast\n"))
				var b bytes.Buffer
				span := f.Span(6+len(pre), 6+len(pre)+len(w))
				require.NoError(t, WriteText(&b, List{{Severity: Error, Rule: "a/b", Message: "m", Span: span}}, TextOptions{Width: 60}))
				lines := strings.Split(b.String(), "\n")
				shown, carets := strings.TrimPrefix(lines[1], "  2 | "), strings.TrimPrefix(lines[2], "    | ")
				i := strings.LastIndex(shown, w)
				require.GreaterOrEqual(t, i, 0, "%q is cut away in %q", w, shown)
				pad := strings.TrimRight(carets, "^")
				require.Equal(t, displayWidth(shown[:i]), displayWidth(pad), "%q\n%q", shown, carets)
				require.Equal(t, strings.Count(shown[:i], "\t"), strings.Count(pad, "\t"))
				require.Equal(t, displayWidth(w), len(carets)-len(pad), "%q\n%q", shown, carets)
				require.LessOrEqual(t, displayWidth(shown), 66)
			}
		}
	}
}

func TestSummary(t *testing.T) {
	require.Equal(t, "no findings", List{}.Summary())
	require.Equal(t, "5 errors, 2 warnings, 2 notes", examples(t).Summary())
	require.Equal(t, "1 error", List{{Severity: Error}}.Summary())
}

func FuzzTextNeverLeavesTheLine(f *testing.F) {
	f.Add("a\tb\r\n日本\xff\x1b[2J", 2, 7)
	f.Add("", 0, 0)
	f.Fuzz(func(t *testing.T, text string, start, end int) {
		file := NewFile("n.md", []byte(text))
		l := List{{Severity: Error, Rule: "a/b", Message: text, Hint: text, Span: file.Span(start, end)}}
		var b bytes.Buffer
		require.NoError(t, WriteText(&b, l, TextOptions{Width: 40}))
		require.True(t, utf8.Valid(b.Bytes()))
		require.NotContains(t, b.String(), "\x1b")
		require.LessOrEqual(t, strings.Count(b.String(), "\n"), 4, "message, source, caret, hint")
		require.NoError(t, WriteJSON(&b, l))
		_, err := json.Marshal(sarifResultOf(l[0]))
		require.NoError(t, err)
	})
}
