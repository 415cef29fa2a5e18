package reconcile_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
)

// A number read wrong bills wrong money. Rows still read otherwise are kept: the floors hold how many.
func TestCountsOfALine(t *testing.T) {
	right, wrong, all := 0, 0, 0
	for _, row := range countRows(t) {
		all++
		switch got := countedOn(t, row.scope, row.text); got {
		case row.want:
			right++
		case "":
			t.Logf("unread: %s: want %s", row.text, row.want)
		default:
			wrong++
			t.Logf("wrong: %s: want %q, read %s", row.text, row.want, got)
		}
	}
	t.Logf("%d of %d read, %d wrong", right, all, wrong)
	assert.GreaterOrEqual(t, right, leastCounted)
	assert.LessOrEqual(t, wrong, mostCountedWrong)
}

// How many rows have to be read right, which only rises, and may be read wrong, which only falls.
const (
	leastCounted     = 105
	mostCountedWrong = 10
)

type countRow struct{ scope, text, want string }

// countRows reads testdata/counts.txt.
func countRows(t *testing.T) []countRow {
	b, err := os.ReadFile("testdata/counts.txt")
	require.NoError(t, err)
	var rows []countRow
	scope := ""
	for line := range strings.Lines(string(b)) {
		line = strings.TrimSpace(line)
		text, want, is := strings.Cut(line, " => ")
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, "@ "):
			scope = fmt.Sprintf("---\njob: 7\ntitle: %s\ncustomer: Fenwick Trust\n---\n\n## Scope\n\n"+
				"| Line | Work | Qty | Unit | Price | Hours |\n|------|------|-----|------|-------|-------|\n", line[2:])
		case is:
			rows = append(rows, countRow{scope, text, strings.TrimPrefix(want, "none")})
		default:
			scope += "| " + line + " | 10.00 each | 1 |\n"
		}
	}
	return rows
}

// countedOn returns what the entry counts of booked lines.
func countedOn(t *testing.T, scope, text string) string {
	out, _ := days(t, scope, "## Done\n\n- "+text+"\n")
	sum := notes.Quantity{}
	for _, e := range out[0].Entries {
		w, is := e.Reading.(notes.WorkReading)
		if e.Outcome != notes.InScope || !is || w.Qty == nil {
			continue
		}
		if sum.Unit != "" && sum.Unit != w.Qty.Unit {
			return "two units"
		}
		sum = notes.Quantity{Value: sum.Value.Add(w.Qty.Value), Unit: w.Qty.Unit}
	}
	if sum.Unit == "" {
		return ""
	}
	return sum.String()
}
