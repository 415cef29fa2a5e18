package compile_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
)

// A later note closes a deficiency in other words, or speaks of something else and must not. Each
// row: what was found, what a later day says, and how the deficiency stands then.
func TestDeficienciesCloseInOtherWords(t *testing.T) {
	src, err := os.ReadFile("testdata/closing.txt")
	require.NoError(t, err)
	rows, right := 0, 0
	for line := range strings.Lines(string(src)) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		part := strings.Split(line, " | ")
		require.Len(t, part, 3, line)
		rows++
		got := standing(t, part[0], part[1])
		if assert.Equal(t, notes.FaultState(part[2]), got, line) {
			right++
		}
	}
	assert.GreaterOrEqual(t, rows, 30)
	t.Logf("%d of %d", right, rows)
}

// What is found and put right in one note, told in two entries in either order, is closed that
// evening; another thing of the same kind, or work that is only planned, closes nothing.
func TestDeficienciesCloseTheSameDay(t *testing.T) {
	src, err := os.ReadFile("testdata/closing_sameday.txt")
	require.NoError(t, err)
	for line := range strings.Lines(string(src)) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		part := strings.Split(line, " | ")
		require.Len(t, part, 3, line)
		found, other := "## Deficiencies\n- "+part[0]+"\n", "## Done\n- "+part[1]+"\n"
		if strings.HasPrefix(part[1], "## ") {
			other = strings.Replace(part[1], ": ", "\n- ", 1) + "\n"
		}
		for order, text := range map[string]string{"found first": found + "\n" + other, "done first": other + "\n" + found} {
			day := twoDays(t, text, "## Done\n- swept\n")[0]
			require.NotEmpty(t, day.Deficiencies, line)
			assert.Equal(t, notes.FaultState(part[2]), day.Deficiencies[0].State, "%s: %s", order, line)
		}
	}
}

// standing compiles a book of two days and returns how the deficiency of the first stands on the
// second.
func standing(t *testing.T, first, second string) notes.FaultState {
	t.Helper()
	if !strings.HasPrefix(second, "## ") {
		second = "## Done\n- " + second
	} else {
		second = strings.Replace(second, ": ", "\n- ", 1)
	}
	days := twoDays(t, "## Deficiencies\n- "+first+"\n", second+"\n")
	require.NotEmpty(t, days[0].Deficiencies, first)
	id := days[0].Deficiencies[0].ID
	for _, d := range days[1].Deficiencies {
		if d.ID == id {
			return d.State
		}
	}
	t.Errorf("%q does not stand in the second report", first)
	return ""
}

func twoDays(t *testing.T, first, second string) []*notes.JobDay {
	t.Helper()
	r := compile.Book([]*finding.File{
		finding.NewFile("company.yaml", []byte("name: Reed and Marl Electric\nnec: 2020\npeople: {Ines: journeyman}\nclasses: {journeyman: {rate: 98.00}}\n")),
		finding.NewFile("prices.csv", nil),
		finding.NewFile("jobs/7-quay/scope.md", []byte("---\njob: 7\ntitle: Quay\n---\n\n## Scope\n\n| Line | Work | Qty | Unit | Price | Hours |\n|--|--|--|--|--|--|\n"+
			"| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |\n| B | GFCI receptacles at prep counter | 3 | ea | 118.00 each | 2 |\n"+
			"| C | New cover on the cooler disconnect | 1 | ea | 45.00 | 0.5 |\n")),
		finding.NewFile("jobs/7-quay/2026-03-12.md", []byte(first)),
		finding.NewFile("jobs/7-quay/2026-03-13.md", []byte(second)),
	}, compile.Options{})
	require.Len(t, r.Jobs, 1)
	require.Len(t, r.Jobs[0].Days, 2)
	for _, d := range r.Jobs[0].Days {
		require.NoError(t, d.Check())
	}
	return r.Jobs[0].Days
}

// The minus of a resistance is no bullet: below nothing is a slip to report, never a figure that passes.
func TestMinusOfAResistanceIsKept(t *testing.T) {
	for _, line := range []string{"- -3 ohms", "- - -3 ohms", "- -3.5 ohm at the rod", "-3 ohms on the ground rod", "- ground rod: -3 ohms"} {
		day := twoDays(t, "## Tests\n"+line+"\n", "## Done\n- swept\n")[0]
		require.Len(t, day.Tests, 1, line)
		assert.Equal(t, notes.Recorded, day.Tests[0].Verdict, line)
		require.Len(t, day.Tests[0].Readings, 1, line)
		assert.True(t, strings.HasPrefix(day.Tests[0].Readings[0].Value, "-3"), "%s: %s", line, day.Tests[0].Readings[0].Value)
	}
}
