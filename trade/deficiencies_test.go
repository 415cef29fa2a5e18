package trade

import (
	"bufio"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// labelled reads a table of words and the kind they announce, parted by a tab.
func labelled(t testing.TB, name string) [][2]string {
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	var rows [][2]string
	for sc := bufio.NewScanner(f); sc.Scan(); {
		line := sc.Text()
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		text, kind, ok := strings.Cut(line, "\t")
		require.True(t, ok, line)
		_, known := KindOf(kind)
		require.True(t, known || kind == "none", "%s: no kind %s", line, kind)
		rows = append(rows, [2]string{text, kind})
	}
	return rows
}

// score counts the rows decided rightly, decided wrongly and left open; "none" is right when open.
func score(t testing.TB, rows [][2]string, show bool) (right, wrong, open int) {
	for _, r := range rows {
		k, _, ok := FindKind(r[0])
		got := "none"
		if ok {
			got = k.Slug
		}
		switch {
		case got == r[1]:
			right++
		case !ok:
			open++
		default:
			wrong++
		}
		if show && got != r[1] {
			var seen []string
			for _, f := range FindKinds(r[0]) {
				seen = append(seen, f.Kind.Slug+" ("+f.Words+")")
			}
			t.Logf("%-60s want %s, got %s of %s", r[0], r[1], got, strings.Join(seen, ", "))
		}
	}
	return right, wrong, open
}

func TestReadingDeficiencies(t *testing.T) {
	rows := labelled(t, "testdata/deficiencies.txt")
	require.GreaterOrEqual(t, len(rows), 120)
	right, wrong, open := score(t, rows, true)
	t.Logf("development: %d right, %d wrong, %d left open of %d", right, wrong, open, len(rows))
	assert.Zero(t, wrong)
	assert.Zero(t, open)
}

// The held-out table is only counted, so that nobody is led to tune on its rows.
func TestReadingDeficienciesHeldOut(t *testing.T) {
	rows := labelled(t, "testdata/deficiencies-heldout.txt")
	right, wrong, open := score(t, rows, os.Getenv("SHOW") != "")
	t.Logf("held out: %d right, %d wrong, %d left open of %d", right, wrong, open, len(rows))
	assert.LessOrEqual(t, wrong*25, len(rows), "more than 1 in 25 decided wrongly")
	assert.GreaterOrEqual(t, right*10, len(rows)*9, "fewer than 9 in 10 decided rightly")
}
