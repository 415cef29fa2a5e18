package compile_test

import (
	"flag"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/testdata/demo"
	"jobday/testdata/reading"
)

var score = flag.Bool("score", false, "also score testdata/reading/score; record the result in SCORES.md")

// TestReading compares what the program reads in the labelled notes with their labels and prints
// for each kind of fact how many were decided right, decided wrong and left unclear. It fails where
// a wrong decision is made more often than the floor below allows; the floor only rises.
func TestReading(t *testing.T) {
	sets := []string{"dev", "dev2", "dev3", "dev4", "dev5", "dev6", "dev7", "dev8", "dev9", "dev10"}
	if *score {
		sets = append(sets, "score", "score2", "score3", "score4", "score5", "score6", "score7", "score8")
	}
	for _, set := range sets {
		t.Run(set, func(t *testing.T) {
			archives, err := reading.Archives(set)
			require.NoError(t, err)
			all := tally{}
			for _, a := range archives {
				all.archive(t, a)
			}
			t.Logf("%d notes\n%s", len(archives), all)
			if c := all["outcome"]; set == "dev" {
				assert.GreaterOrEqual(t, 100*c.right, leastRight*c.all(), "outcomes decided right, of 100")
			}
		})
	}
}

// leastRight is how many outcomes in 100 of dev have to be decided right.
const leastRight = 90

// A count says how often a kind of fact was decided right, decided wrong, left unclear.
type count struct{ right, wrong, unclear int }

func (c count) all() int { return c.right + c.wrong + c.unclear }

// A tally counts by the kind of fact: "outcome", "qty", "min" and so on.
type tally map[string]count

func (y tally) add(kind, want, got string, unclear bool) (ok bool) {
	c := y[kind]
	ok = slices.Contains(strings.Split(want, "|"), got)
	switch {
	case ok:
		c.right++
	case unclear:
		c.unclear++
	default:
		c.wrong++
	}
	y[kind] = c
	return ok
}

func (y tally) String() string {
	kinds := make([]string, 0, len(y))
	for k := range y {
		kinds = append(kinds, k)
	}
	slices.Sort(kinds)
	var out strings.Builder
	fmt.Fprintf(&out, "%-10s %6s %6s %8s %8s\n", "", "right", "wrong", "unclear", "right %")
	for _, k := range kinds {
		c := y[k]
		fmt.Fprintf(&out, "%-10s %6d %6d %8d %8.1f\n", k, c.right, c.wrong, c.unclear, 100*float64(c.right)/float64(c.all()))
	}
	return out.String()
}

func (y tally) archive(t *testing.T, a reading.Archive) {
	labels := map[string]map[int][]reading.Label{}
	for i, f := range a.Files {
		if reading.IsNote(f.Name) {
			var err error
			a.Files[i].Data, labels[f.Name], err = reading.Unlabel(f.Data)
			require.NoError(t, err, a.Name)
		}
	}
	require.NotEmpty(t, labels, "%s has no note", a.Name)
	r := compile.Book(input(&txtar.Archive{Files: a.Files}, readingShop(t)), compile.Options{})
	require.NoError(t, invariants(r))
	for _, f := range r.Findings {
		assert.NotEqual(t, finding.Error, f.Severity, "%s: %s %s", a.Name, f.Rule, f.Message)
	}
	for file, byLine := range labels {
		got := entriesByLine(r, file)
		for line, want := range byLine {
			y.line(t, fmt.Sprintf("%s %s:%d", a.Name, path.Base(file), line), want, got[line])
			delete(got, line)
		}
		for line, more := range got {
			for _, e := range more {
				if e.Outcome == string(notes.Narrative) || e.Outcome == string(notes.Condition) {
					continue // prose may be either, and no money hangs on it
				}
				y.add("invented", "", string(e.Outcome), e.Outcome == string(notes.Unclear))
				t.Logf("%s:%d: invented %s", a.Name, line, e.Outcome)
			}
		}
	}
}

// readingShop is the company and prices that the labelled texts are compiled with.
func readingShop(t testing.TB) *txtar.Archive {
	t.Helper()
	shop := archive(t, "../testdata/reading/shop.txtar")
	prices, err := demo.FS.ReadFile("prices.csv")
	require.NoError(t, err)
	shop.Files = append(shop.Files, txtar.File{Name: "prices.csv", Data: prices})
	return shop
}

// entriesByLine returns what was read in the file, by line: entries, and narrative that is no entry.
func entriesByLine(r *compile.Result, file string) map[int][]reading.Label {
	got := map[int][]reading.Label{}
	for _, day := range r.Days() {
		for _, e := range day.Entries {
			if e.Source.File != file {
				continue
			}
			l := reading.Label{Outcome: string(e.Outcome), Facts: map[string]string{}}
			for _, f := range factsOf(e) {
				l.Facts[f.key] = f.value
			}
			l.Facts["auth"] = authOf(day, e.Source)
			got[e.Source.Line] = append(got[e.Source.Line], l)
		}
	}
	return got
}

// authOf returns the authorization of the extra that begins at the place, or "".
func authOf(day *notes.JobDay, at notes.Source) string {
	for _, x := range day.Extras {
		if slices.Contains(x.From, at) {
			return x.Authorization.State
		}
	}
	return ""
}

// line scores what was expected of one line against what was read in it, in order.
func (y tally) line(t *testing.T, where string, want, got []reading.Label) {
	got = together(want, got)
	if len(got) == 1 && got[0].Outcome == string(notes.TimeEntry) {
		want = together(got, want) // "Ana and Bo nine each" is one row of two people
	}
	for i, w := range want {
		g := reading.Label{Outcome: "narrative"}
		if i < len(got) {
			g = got[i]
		} else if w.Outcome != "narrative" {
			g.Outcome = "nothing"
		}
		unclear := g.Outcome == string(notes.Unclear)
		if !y.add("outcome", w.Outcome, g.Outcome, unclear) {
			t.Logf("%s: %s, read as %s", where, w.Outcome, g.Outcome)
			continue
		}
		for _, k := range reading.FactKeys {
			value, labelled := w.Facts[k]
			if !labelled {
				continue
			}
			if value == "none" && k != "auth" {
				value = ""
			}
			read := g.Facts[k]
			if k == "who" || k == "lines" && !strings.Contains(value, "|") {
				value, read = inOrder(value), inOrder(read)
			}
			if !y.add(k, value, read, unclear) {
				t.Logf("%s: %s=%s, read as %q", where, k, value, read)
			}
		}
	}
	for _, g := range got[min(len(want), len(got)):] {
		y.add("invented", "", g.Outcome, g.Outcome == string(notes.Unclear))
		t.Logf("%s: invented %s", where, g.Outcome)
	}
}

// inOrder puts a list, parted by commas, in the order of the alphabet.
func inOrder(list string) string {
	all := strings.Split(list, ",")
	slices.Sort(all)
	return strings.Join(all, ",")
}

// together makes one of all that was read in a line whose one label sums them up: three things of a list under
// "material", the hours of two people under one "time". Their minutes add up and their people are listed.
func together(want, got []reading.Label) []reading.Label {
	if len(want) != 1 || len(got) < 2 || slices.ContainsFunc(got, func(g reading.Label) bool { return g.Outcome != want[0].Outcome }) {
		return got
	}
	one := reading.Label{Outcome: want[0].Outcome, Facts: map[string]string{}}
	minutes := 0
	for _, g := range got {
		for k, v := range g.Facts {
			switch old := one.Facts[k]; {
			case v == "" || v == old:
			case old == "":
				one.Facts[k] = v
			case k == "who" || k == "lines":
				one.Facts[k] = old + "," + v
			}
		}
		n, _ := strconv.Atoi(g.Facts["min"])
		minutes += n
	}
	if minutes > 0 {
		one.Facts["min"] = strconv.Itoa(minutes)
	}
	return []reading.Label{one}
}
