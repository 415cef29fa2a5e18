package book

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/notes"
)

var settled = notes.Decision{
	Entry: "2026-03-12/mixer", Words: "circuit | mixer", Kind: notes.DecidePrice, Price: notes.MustMoney("180"),
	By: "Hanna", When: notes.MustDate("2026-03-13"), Why: "asked\n Ines",
}

const settledRow = `| 2026-03-12/mixer | circuit \| mixer | price 180.00 | Hanna | 2026-03-13 | asked Ines |`

func TestADecisionGoesToTheEndOfItsTableAndAllElseStays(t *testing.T) {
	head := strings.Join(decisionsTable, "\n") + "\n"
	const other = "| e | w | extra | H | 2026-03-12 | why |"
	tests := map[string]struct{ old, want string }{
		"no file":            {"", decisionsHead + head + settledRow + "\n"},
		"blank":              {"\n", "\n" + decisionsHead + head + settledRow + "\n"},
		"table at the end":   {head + other + "\n", head + other + "\n" + settledRow + "\n"},
		"no last line break": {head + other, head + other + "\n" + settledRow + "\n"},
		"only a header":      {head, head + settledRow + "\n"},
		"text behind it":     {"# x\n\n" + head + other + "\n\n  text  \n", "# x\n\n" + head + other + "\n" + settledRow + "\n\n  text  \n"},
		"the last of two":    {head + "\n" + head + other + "\n", head + "\n" + head + other + "\n" + settledRow + "\n"},
		"another table":      {head + other + "\n\n| a | b |\n", head + other + "\n" + settledRow + "\n\n| a | b |\n"},
		"CRLF":               {strings.ReplaceAll(head+other+"\n", "\n", "\r\n"), strings.ReplaceAll(head+other+"\n"+settledRow+"\n", "\n", "\r\n")},
		"only text":          {"We settle things here.", "We settle things here.\n\n" + head + settledRow + "\n"},
		"indented":           {"  | Entry | Decision |\n  " + other + "\t \n", "  | Entry | Decision |\n  " + other + "\t \n" + settledRow + "\n"},
	}
	for name, tt := range tests {
		old := []byte(tt.old)
		require.Equal(t, tt.want, string(AddDecision(old, settled)), name)
		require.Equal(t, tt.old, string(old), "what was given is not changed: %s", name)
	}
}

func TestAWordIsWrittenAsYAMLReadsIt(t *testing.T) {
	for _, tt := range []struct{ word, meaning, line string }{
		{"skinny", "tandem  20A\nbreaker", "skinny: tandem 20A breaker"},
		{"bell box", "3/4 in box", `bell box: "3/4 in box"`},
		{"no", "true", `"no": "true"`},
		{"a: b", `#6 <wire> & "x"`, `"a: b": "#6 <wire> & \"x\""`},
		{"kö", "x - y", `"kö": x - y`},
		{"x", "y #z", `x: "y #z"`},
	} {
		require.Equal(t, tt.line+"\n", string(AddWord(nil, tt.word, tt.meaning, "")))
	}
	require.Equal(t, "a: b\r\nskinny: x  # Hanna: why\r\n", string(AddWord([]byte("a: b\r\n"), "skinny", "x", "Hanna:\n why")))
	require.Equal(t, "a: b\nskinny: x\n", string(AddWord([]byte("a: b"), "skinny", "x", "")))
}

// Twenty people add at once: every row is there once, and no lock is left.
func TestNoRowIsLostWhenManyAddAtOnce(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, lockName), nil, 0o600), "left behind by a program that was killed")
	var all sync.WaitGroup
	failed := make(chan error, 20)
	for i := range 20 {
		all.Go(func() {
			d := settled
			d.Entry = fmt.Sprintf("entry-%d", i)
			failed <- Append(dir, "jobs/7/decisions.md", func(old []byte) ([]byte, error) { return AddDecision(old, d), nil })
		})
	}
	all.Wait()
	close(failed)
	for err := range failed {
		require.NoError(t, err)
	}
	text, err := os.ReadFile(filepath.Join(dir, "jobs", "7", "decisions.md"))
	require.NoError(t, err)
	for i := range 20 {
		require.Equal(t, 1, strings.Count(string(text), fmt.Sprintf("| entry-%d |", i)))
	}
	require.Equal(t, 1, strings.Count(string(text), "| Entry |"))
	require.NoFileExists(t, filepath.Join(dir, lockName))
}

func TestNothingIsWrittenWhenAddingFails(t *testing.T) {
	dir := t.TempDir()
	wrong := errors.New("no")
	require.ErrorIs(t, Append(dir, "words.yaml", func(old []byte) ([]byte, error) {
		require.Nil(t, old)
		return []byte("half"), wrong
	}), wrong)
	require.NoFileExists(t, filepath.Join(dir, "words.yaml"))
	require.NoFileExists(t, filepath.Join(dir, lockName))
	require.NoError(t, os.Symlink(filepath.Join(t.TempDir(), "far"), filepath.Join(dir, lockName)))
	require.Error(t, Append(dir, "words.yaml", func(old []byte) ([]byte, error) { return old, nil }), "a lock that leads out of the book")
}
