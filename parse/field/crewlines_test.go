package field

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
)

// TestHoursOnEachClock reads lines of several people and holds what comes on each one's clock against
// the table. Outside a section about time the same has to be read, or nothing.
func TestHoursOnEachClock(t *testing.T) {
	f, err := os.Open("testdata/time_crews.txt")
	require.NoError(t, err)
	defer f.Close()
	var lex *Lexicon
	right, wrong, open, elsewhere := 0, 0, 0, 0
	sc := bufio.NewScanner(f)
	for n := 1; sc.Scan(); n++ {
		text := sc.Text()
		if crew, is := strings.CutPrefix(text, "@ "); is {
			lex = crewLexicon(t, crew)
			continue
		}
		line, want, ok := strings.Cut(text, " => ")
		if !ok || strings.HasPrefix(text, "#") {
			continue
		}
		got := onClocks(ReadTime(line, lex), lex)
		switch {
		case got == want, want == "?" && (got == "-" || strings.Contains(got, "?")):
			right++
		case got == "-" || strings.Contains(got, "?"):
			open++
			t.Logf("%d open: %s\n    got  %s\n    want %s\n    %s", n, line, got, want, showTime(ReadTime(line, lex)))
		default:
			wrong++
			t.Logf("%d wrong: %s\n    got  %s\n    want %s\n    %s", n, line, got, want, showTime(ReadTime(line, lex)))
		}
		if plain := onClocks(Read(line, lex).Time, lex); plain != "-" && plain != got && !strings.Contains(plain, "?") {
			elsewhere++
			t.Logf("%d elsewhere: %s\n    got  %s\n    want %s", n, line, plain, want)
		}
	}
	require.NoError(t, sc.Err())
	t.Logf("%d right, %d wrong, %d open; %d read otherwise elsewhere", right, wrong, open, elsewhere)
	assert.GreaterOrEqual(t, float64(right), 0.98*float64(right+wrong+open))
	assert.LessOrEqual(t, elsewhere, 6, "lines read otherwise without a heading")
}

// crewLexicon knows who wrote the lines, or "-", and the crew, written as "Ana Reyes: Ana Reyes, Bo Tarnow".
func crewLexicon(t *testing.T, s string) *Lexicon {
	author, names, ok := strings.Cut(s, ": ")
	require.True(t, ok, s)
	crew := strings.Split(names, ", ")
	if author == "-" {
		author = ""
	}
	return NewLexicon(append(crew, "Fern Osgood", "Ezra Quint"), author, crew)
}

// onClocks sums rows by person, as the day's labor does: "Ana 480 + 45 travel; Bo ?".
func onClocks(rows []notes.TimeRow, lex *Lexicon) string {
	type clock struct {
		work, travel notes.Minutes
		doubt        bool
	}
	var order []string
	clocks := map[string]*clock{}
	for _, row := range rows {
		people := row.People
		extra := row.Crew - len(people)
		switch {
		case len(people) > 0:
		case row.Crew > 1 && row.Crew == len(lex.Crew), row.Crew == 0 && row.Each && len(lex.Crew) > 1:
			people, extra = lex.Crew, 0
		case row.Crew > 1:
		case lex.Author != "":
			people, extra = []string{lex.Author}, 0
		default:
			extra = 1
		}
		n := notes.Minutes(len(people) + max(extra, 0))
		for k := range int(n) {
			name := "nobody"
			if k < len(people) {
				name, _, _ = strings.Cut(people[k], " ")
			}
			if clocks[name] == nil {
				clocks[name] = &clock{}
				order = append(order, name)
			}
			c, m := clocks[name], row.Clock()
			if len(row.Spans) == 0 && !row.Each {
				m = row.Stated / n
			}
			if row.Travel {
				c.travel += m
			} else {
				c.work += m
			}
			c.doubt = c.doubt || row.Fault != ""
		}
	}
	var out []string
	for _, name := range order {
		switch c := clocks[name]; {
		case c.doubt, name == "nobody":
			out = append(out, name+" ?")
		case c.travel > 0:
			out = append(out, fmt.Sprintf("%s %d + %d travel", name, c.work, c.travel))
		default:
			out = append(out, fmt.Sprintf("%s %d", name, c.work))
		}
	}
	return orDash(strings.Join(out, "; "))
}
