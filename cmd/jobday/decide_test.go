package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/book"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
)

// TestNoDecisionIsLostWhenManyDecideAtOnce runs the command in twenty processes on one entry.
func TestNoDecisionIsLostWhenManyDecideAtOnce(t *testing.T) {
	dir := demoCopy(t)
	self, err := os.Executable()
	require.NoError(t, err)
	var all sync.WaitGroup
	said := make([]bytes.Buffer, 20)
	failed := make([]error, 20)
	for i := range 20 {
		all.Go(func() {
			cmd := exec.Command(self)
			cmd.Args = []string{
				"jobday", "decide", "2026-03-12/disconnect-dough-mixer", "price", fmt.Sprintf("%d.00", 100+i),
				"--book", dir, "--job", "2431", "--by", "Hanna", "--why", "one of many",
			}
			cmd.Stderr = &said[i]
			failed[i] = cmd.Run()
		})
	}
	all.Wait()
	for i, err := range failed {
		require.NoError(t, err, said[i].String())
	}
	name := filepath.Join(dir, "jobs", "2431-quay-bakery", "decisions.md")
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	rows, found := parse.Decisions(finding.NewFile("decisions.md", text))
	require.Empty(t, found)
	require.Len(t, rows, 20)
	prices := map[string]bool{}
	for _, r := range rows {
		prices[r.Price.String()] = true
	}
	require.Len(t, prices, 20)
}

// What is written is what is read again, whatever the words are.
func TestADecisionIsReadAsItWasWritten(t *testing.T) {
	for _, words := range []string{
		"2 of 3 GFCIs", "a | b", `a \| b`, `ends in \`, "two\nlines", "  spaced   out ", "café, 25 Ω", "|", `\`, "`x` *y* <b>",
	} {
		d := notes.Decision{
			Entry: "2026-03-12/x", Words: words, Kind: notes.DecideAuthorized, Who: "Ruth | Amsel", By: "Hanna " + words,
			When: notes.MustDate("2026-03-13"), Why: words,
		}
		rows, found := parse.Decisions(finding.NewFile("decisions.md", book.AddDecision(nil, d)))
		require.Empty(t, found, words)
		require.Len(t, rows, 1)
		got, folded := rows[0], strings.Join(strings.Fields(words), " ")
		require.Equal(t, folded, got.Words)
		require.Equal(t, folded, got.Why)
		require.Equal(t, d.String(), got.String())
	}
}

func TestDecideHelpStatesTheExitStatusAndHasExamples(t *testing.T) {
	var out, said bytes.Buffer
	require.Equal(t, fineStatus, run(t.Context(), []string{"decide", "--help"}, desk(t.TempDir(), &out, &said)))
	require.Contains(t, out.String(), "Examples:\n  jobday decide")
	require.Contains(t, out.String(), "Exit status: 0 fine, 1 the input has errors, 2 wrong usage, 3 the system failed.")
}

// A decision that cannot be written is a failure of the system, and leaves the file as it was.
func TestADecisionThatCannotBeWritten(t *testing.T) {
	dir := demoCopy(t)
	job := filepath.Join(dir, "jobs", "2431-quay-bakery")
	require.NoError(t, os.Mkdir(filepath.Join(dir, ".jobday-lock"), 0o777))
	var out, said bytes.Buffer
	args := []string{"decide", "2026-03-12/helped-ine-fixture", "narrative", "--by", "Hanna", "--why", "help is no work of its own"}
	require.Equal(t, systemStatus, run(t.Context(), args, desk(dir, &out, &said)))
	require.Contains(t, said.String(), "decisions.md")
	require.NoFileExists(t, filepath.Join(job, "decisions.md"))
	require.Empty(t, out.String())
}
