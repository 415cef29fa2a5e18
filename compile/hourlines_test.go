package compile_test

import (
	"bufio"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
	"jobday/testdata/demo"
)

// TestHoursOfALineReachTheClock compiles lines about time below a heading and holds the hours of the
// day against the rows of the line: cutting a line into entries loses no lunch, no each and nobody
// who is only counted.
func TestHoursOfALineReachTheClock(t *testing.T) {
	people := []string{"Ines Varga", "Tobias Lund", "Ana Reyes", "Ben Okafor", "Will Tran"}
	lex := field.NewLexicon(people, "Ines Varga", people[:2])
	n := 0
	for _, name := range []string{"time_blind", "time_blind_section"} {
		for _, line := range linesOf(t, "../parse/field/testdata/"+name+".txt") {
			rows := field.ReadTime(line, lex)
			if len(rows) == 0 {
				continue
			}
			if want, clear := onTheClock(rows); clear {
				assert.Equal(t, want, hoursOfNote(t, people, line), line)
				n++
			}
		}
	}
	assert.Greater(t, n, 300)
}

// What a line under Time tells behind ";", or in lines indented below it, are hours of their own; what may be hours
// and could not be read is asked about.
func TestHoursBehindHours(t *testing.T) {
	people := []string{"Ines Varga", "Tobias Lund"}
	for note, want := range map[string]notes.Minutes{
		"ines 8 hrs; tobias 7 hrs":                    900,
		"8 hrs ines; 7 hrs tobias":                    900,
		"Ines 8 hrs; Tobias 7 hrs; Ines 1 hr travel":  960,
		"7-3:30; 30 lunch; both":                      960,
		"- crew hours\n  - Ines 8\n  - Tobias 7:30-4": 990,
		"- Ines 1 hr\n  - Tobias 2 hrs":               180,
		"tobias 8 hrs minus the 45 min dentist":       435,
	} {
		assert.Equal(t, want, hoursOfNote(t, people, strings.TrimPrefix(note, "- ")), note)
	}
	for _, note := range []string{"ines 4 on panel 4 on pump", "half day tobias, full day me", "Ines out sick"} {
		assert.Zero(t, hoursOfNote(t, people, note), note)
		assert.True(t, slices.ContainsFunc(noteOf(t, people, note).Findings, func(f finding.Finding) bool { return f.Rule == "time/unread" }), note)
	}
}

// linesOf returns the lines of a table that are labelled with a reading, not "?" or "-".
func linesOf(t *testing.T, path string) []string {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	var lines []string
	for sc := bufio.NewScanner(f); sc.Scan(); {
		line, want, ok := strings.Cut(sc.Text(), " => ")
		if ok && !strings.HasPrefix(line, "#") && want != "?" && want != "-" {
			lines = append(lines, line)
		}
	}
	return lines
}

// onTheClock sums rows, of a crew of two; clear is false where one of them cannot be right.
func onTheClock(rows []notes.TimeRow) (sum notes.Minutes, clear bool) {
	for _, r := range rows {
		heads := notes.Minutes(r.Heads())
		switch {
		case r.Fault != "":
			return 0, false
		case r.Each && len(r.People) == 0 && r.Crew == 0:
			sum += 2 * r.Clock()
		case len(r.Spans) > 0 || r.Each:
			sum += heads * r.Clock()
		default:
			sum += r.Stated
		}
	}
	return sum, true
}

// hoursOfNote compiles a note of one line below Time and returns the hours of all its people.
func hoursOfNote(t *testing.T, people []string, line string) notes.Minutes {
	t.Helper()
	sum := notes.Minutes(0)
	for _, day := range noteOf(t, people, "- "+line).Days() {
		require.NoError(t, day.Check(), line)
		for _, l := range day.Labor {
			sum += l.Minutes
		}
	}
	return sum
}

// noteOf compiles a day of two with what is written under Time.
func noteOf(t *testing.T, people []string, time string) *compile.Result {
	t.Helper()
	prices, err := demo.FS.ReadFile("prices.csv")
	require.NoError(t, err)
	company := "name: Copperline Electric\npeople:\n  " + strings.Join(people, ": hand\n  ") + ": hand\nclasses:\n  hand: {cost: 38.00, rate: 95.00}\n"
	scope := "---\njob: 1\ntitle: Hall\ncustomer: Invented Customer\n---\n\n## Scope\n\n| Line | Work | Qty | Unit | Price | Hours |\n" +
		"|--|--|--|--|--|--|\n| A | Vent motors | 4 | ea | 420.00 each | 12 |\n| B | Panel | 1 | ea | 420.00 | 12 |\n"
	return compile.Book([]*finding.File{
		finding.NewFile("company.yaml", []byte(company)), finding.NewFile("prices.csv", prices),
		finding.NewFile("jobs/1-hall/scope.md", []byte(scope)),
		finding.NewFile("jobs/1-hall/2026-03-12-ines.md", []byte("---\ncrew: [Ines, Tobias]\n---\n## Time\n"+time+"\n")),
	}, compile.Options{})
}
