package field

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestReadingSecondSet reports how the tables of a second writer are read. The half named dev2 is for
// working on; the other half is counted only when HELDOUT is set and its misses are never printed.
func TestReadingSecondSet(t *testing.T) {
	lex := testLexicon()
	readers := []struct {
		name  string
		floor float64 // the share read exactly when first counted, in the lesser half
		read  func(line string) string
	}{
		{"items", 0.48, func(line string) string { return written(Read(line, nil).Items) }},
		{"time", 0.75, func(line string) string { return showTime(Read(line, lex).Time) }},
		{"said", 0.47, func(line string) string { return showSaid(Read(line, lex)) }},
	}
	for _, r := range readers {
		exact, all := countTable(t, "testdata/"+r.name+"_dev2.txt", true, r.read)
		assert.GreaterOrEqual(t, float64(exact), r.floor*float64(all), r.name)
		if os.Getenv("HELDOUT") != "" {
			countTable(t, "testdata/"+r.name+"_score2.txt", false, r.read)
		}
	}
}

// countTable counts as scoreTable does, and prints the misses only if asked.
func countTable(t *testing.T, path string, misses bool, read func(line string) string) (exact, all int) {
	t.Helper()
	rows := readTable(t, path)
	var wrong, unclear int
	for _, row := range rows {
		got := read(row.line)
		doubtful := got == "-" || strings.Contains(got, "!") || strings.Contains(got, " / ")
		switch {
		case got == row.want, row.want == "?" && doubtful:
			exact++
			continue
		case doubtful:
			unclear++
		default:
			wrong++
		}
		if misses {
			t.Logf("%s:%d: %q expected %q, got %q", path, row.at, row.line, row.want, got)
		}
	}
	t.Logf("%s: %d lines: %d exact, %d wrong, %d unclear", path, len(rows), exact, wrong, unclear)
	return exact, len(rows)
}
