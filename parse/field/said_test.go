package field

import (
	"bufio"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/notes"
)

// testLexicon is the crew that the tables under testdata are written by.
func testLexicon() *Lexicon {
	return NewLexicon([]string{"Ines Varga", "Tobias Lund", "Ana Reyes", "Ben Okafor", "Will Tran"},
		"Ines Varga", []string{"Ines Varga", "Tobias Lund"})
}

// A row of a table: the line and what it says.
type tableRow struct {
	at         int
	line, want string
}

func readTable(t testing.TB, path string) []tableRow {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	var rows []tableRow
	sc := bufio.NewScanner(f)
	for n := 1; sc.Scan(); n++ {
		if s := sc.Text(); s != "" && !strings.HasPrefix(s, "# ") && s != "#" && !strings.HasPrefix(s, "## ") {
			line, want, ok := strings.Cut(s, " => ")
			if !ok {
				line, ok = strings.CutSuffix(s, " =>")
			}
			require.True(t, ok, "%s:%d: no =>", path, n)
			rows = append(rows, tableRow{n, line, strings.TrimSpace(want)})
		}
	}
	require.NoError(t, sc.Err())
	return rows
}

// scoreTable reads every line of a table and counts: exact; wrong, when something else was read; and
// unclear, when nothing was read or the reading is marked as doubtful where something else was
// wanted. A want of "?" asks for doubt or for nothing.
func scoreTable(t *testing.T, path string, floor float64, read func(line string) string) {
	t.Helper()
	rows := readTable(t, path)
	exact, wrong, unclear := 0, 0, 0
	for _, row := range rows {
		got := read(row.line)
		doubtful := got == "-" || strings.Contains(got, "!")
		switch {
		case got == row.want, row.want == "?" && doubtful:
			exact++
			continue
		case doubtful:
			unclear++
		default:
			wrong++
		}
		t.Logf("%s:%d: %s\n    got  %s\n    want %s", path, row.at, row.line, got, row.want)
	}
	t.Logf("%s: %d lines: %d exact, %d wrong, %d unclear", path, len(rows), exact, wrong, unclear)
	require.GreaterOrEqual(t, float64(exact)/float64(len(rows)), floor, "exact share of %s", path)
}

func TestReadingTime(t *testing.T) {
	lex := testLexicon()
	scoreTable(t, "testdata/time.txt", 0.98, func(line string) string { return showTime(Read(line, lex).Time) })
	scoreTable(t, "testdata/time_jotted.txt", 1, func(line string) string { return showTime(Read(line, lex).Time) })
	scoreTable(t, "testdata/time_more.txt", 0.85, func(line string) string { return showTime(Read(line, lex).Time) })
	scoreTable(t, "testdata/time_voices.txt", 0.80, func(line string) string { return showTime(Read(line, lex).Time) })
	scoreTable(t, "testdata/time_section.txt", 0.98, func(line string) string { return showTime(ReadTime(line, lex)) })
}

// TestReadingGrammar holds every way of writing that the grammar was made for; none may be lost.
func TestReadingGrammar(t *testing.T) {
	lex := testLexicon()
	scoreTable(t, "testdata/grammar.txt", 1, func(line string) string {
		kind, text, _ := strings.Cut(line, "\t")
		switch f := Read(text, lex); kind {
		case "items":
			return written(f.Items)
		case "time":
			return showTime(f.Time)
		case "said":
			return showSaid(f)
		}
		return showReadings(ReadReadings(text, lex))
	})
}

func TestReadingInstruments(t *testing.T) {
	lex := testLexicon()
	scoreTable(t, "testdata/reading.txt", 0.98, func(line string) string { return showReadings(Read(line, lex).Readings) })
	scoreTable(t, "testdata/reading_more.txt", 0.85, func(line string) string { return showReadings(Read(line, lex).Readings) })
	scoreTable(t, "testdata/reading_section.txt", 0.98, func(line string) string { return showReadings(ReadReadings(line, lex)) })
}

func TestReadingWhatIsSaid(t *testing.T) {
	lex := testLexicon()
	scoreTable(t, "testdata/said.txt", 0.98, func(line string) string { return showSaid(Read(line, lex)) })
	scoreTable(t, "testdata/said_jotted.txt", 1, func(line string) string { return showSaid(Read(line, lex)) })
	scoreTable(t, "testdata/said_more.txt", 0.85, func(line string) string { return showSaid(Read(line, lex)) })
}

func TestReadingCircuits(t *testing.T) {
	lex := testLexicon()
	scoreTable(t, "testdata/circuit.txt", 0.98, func(line string) string { return showCircuit(Circuit(line, lex)) })
}

// TestReadingHeldOut scores the tables that are scored rarely; each score stands at their top.
func TestReadingHeldOut(t *testing.T) {
	lex := testLexicon()
	dir := "testdata/heldout/"
	scoreTable(t, dir+"time.txt", heldOutFloor, func(line string) string { return showTime(Read(line, lex).Time) })
	scoreTable(t, dir+"reading.txt", heldOutFloor, func(line string) string { return showReadings(Read(line, lex).Readings) })
	scoreTable(t, dir+"said.txt", heldOutFloor, func(line string) string { return showSaid(Read(line, lex)) })
	scoreTable(t, dir+"time3.txt", heldOutFloor, func(line string) string { return showTime(Read(line, lex).Time) })
	scoreTable(t, dir+"reading3.txt", heldOutFloor, func(line string) string { return showReadings(Read(line, lex).Readings) })
	scoreTable(t, dir+"said3.txt", heldOutFloor, func(line string) string { return showSaid(Read(line, lex)) })
	scoreTable(t, dir+"circuit.txt", heldOutFloor, func(line string) string { return showCircuit(Circuit(line, lex)) })
}

const heldOutFloor = 0.9

func showTime(rows []notes.TimeRow) string {
	var out []string
	for _, row := range rows {
		var w []string
		if len(row.People) > 0 {
			names := make([]string, len(row.People))
			for i, p := range row.People {
				names[i], _, _ = strings.Cut(p, " ")
			}
			w = append(w, strings.Join(names, " & "))
		}
		if row.Crew > max(1, len(row.People)) {
			w = append(w, fmt.Sprintf("x%d", row.Crew))
		}
		for _, s := range row.Spans {
			w = append(w, s.From.String()+"-"+s.To.String())
		}
		if row.Break > 0 {
			w = append(w, fmt.Sprintf("break %d", row.Break))
		}
		if row.Stated > 0 {
			w = append(w, fmt.Sprintf("%d min", row.Stated))
		}
		if row.Each {
			w = append(w, "each")
		}
		if row.Travel {
			w = append(w, "travel")
		}
		if row.Fault != "" {
			w = append(w, "! "+row.Fault)
		}
		out = append(out, strings.Join(w, " "))
	}
	return orDash(strings.Join(out, "; "))
}

func orDash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

func showReadings(list []notes.Measured) string {
	var out []string
	for _, m := range list {
		var w []string
		if m.HasVal {
			w = append(w, strings.TrimSpace(m.Op+m.Value.String()+" "+m.Unit))
		}
		if m.Result != "" {
			w = append(w, m.Result)
		}
		if m.Between != "" {
			w = append(w, "@"+m.Between)
		}
		out = append(out, strings.Join(w, " "))
	}
	return orDash(strings.Join(out, "; "))
}

func showCircuit(c notes.CircuitWords) string {
	var spaces []string
	for _, n := range c.Spaces {
		spaces = append(spaces, fmt.Sprint(n))
	}
	shared := ""
	if c.Shared {
		shared = "shared"
	}
	s := strings.Join([]string{c.Panel, strings.Join(spaces, ","), c.Serves, c.Breaker, c.Conductor, shared}, " | ")
	return strings.TrimSpace(strings.ReplaceAll(strings.ReplaceAll(s, "  ", " "), "  ", " "))
}

// showSaid lists in a fixed order what a line says about progress, consent, price and faults.
func showSaid(f notes.Facts) string {
	out := slices.Concat(progressSaid(f.Progress), consentSaid(f.Consent), priceSaid(f.Price), faultSaid(f.Fault))
	return orDash(strings.Join(out, "; "))
}

func progressSaid(p notes.Progress) []string {
	var out []string
	say := func(on bool, s string) {
		if on {
			out = append(out, s)
		}
	}
	say(p.All, "all")
	say(p.Rest, "rest")
	if p.Count != nil {
		s := "count " + p.Count.String()
		if p.Of != nil {
			s += " of " + p.Of.String()
		}
		say(true, s)
	}
	if p.Fraction != nil {
		say(true, "fraction "+p.Fraction.String())
	}
	if p.But != nil {
		say(true, "all but "+p.But.String())
	}
	say(p.Complete == notes.Yes, "complete")
	say(p.Complete == notes.No, "not complete")
	say(p.NotDone, "not done")
	say(p.Blocked && p.BlockedBy == "", "blocked")
	say(p.BlockedBy != "", fmt.Sprintf("blocked by %q", p.BlockedBy))
	say(p.ByOthers, "by others")
	say(p.Dropped, "dropped")
	say(p.Beyond, "beyond")
	return out
}

func consentSaid(c notes.Consent) []string {
	if c.State == notes.NoConsent && c.By == "" {
		return nil
	}
	s := [...]string{"word", "asked", "authorized", "declined"}[c.State]
	if c.By != "" {
		s += fmt.Sprintf(" by %q", c.By)
	}
	if c.How != "" {
		s += " " + c.How
	}
	if c.At != "" {
		s += " at " + c.At
	}
	return []string{s}
}

func priceSaid(p notes.PriceWords) []string {
	var out []string
	if p.Quoted != nil {
		s := "quoted " + p.Quoted.String()
		if p.Each {
			s += " each"
		}
		out = append(out, s)
	}
	if p.NotOver != nil {
		out = append(out, "nte "+p.NotOver.String())
	}
	if p.NoCharge {
		s := "no charge"
		if p.Why != "" {
			s += fmt.Sprintf(" %q", p.Why)
		}
		out = append(out, s)
	}
	if p.TimeAndMaterial {
		out = append(out, "t&m")
	}
	return out
}

func faultSaid(f notes.FaultWords) []string {
	var out []string
	if f.Named {
		out = append(out, "fault")
	}
	if f.State != "" {
		out = append(out, "state "+string(f.State))
	}
	if f.Told != "" {
		out = append(out, fmt.Sprintf("told %q", f.Told))
	}
	if f.Severity != "" {
		out = append(out, string(f.Severity))
	}
	return out
}
