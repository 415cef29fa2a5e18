package compile_test

import (
	"bytes"
	"flag"
	"fmt"
	"path/filepath"
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
)

var score = flag.Bool("score", false, "also score testdata/reading/score; record the result in SCORES.md")

// TestReading compares what the program reads in the labelled notes with their labels and prints
// for each kind of fact how many were decided right, decided wrong and left unclear. It fails where
// a wrong decision is made more often than the floor below allows; the floor only rises.
func TestReading(t *testing.T) {
	sets := []string{"dev", "dev2", "dev3", "dev4", "dev5", "dev6", "dev7"}
	if *score {
		sets = append(sets, "score", "score2", "score3", "score4", "score5", "score6")
	}
	for _, set := range sets {
		t.Run(set, func(t *testing.T) {
			paths, err := filepath.Glob("../testdata/reading/" + set + "/*.txtar")
			require.NoError(t, err)
			require.NotEmpty(t, paths)
			all := tally{}
			for _, p := range paths {
				all.archive(t, p)
			}
			t.Logf("%d notes\n%s", len(paths), all)
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
	switch {
	case want == got:
		c.right++
	case unclear:
		c.unclear++
	default:
		c.wrong++
	}
	y[kind] = c
	return want == got
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

// A label is what a line is expected to say.
type label struct {
	outcome string
	facts   map[string]string
}

// unlabel splits a note into its text and the labels by line.
func unlabel(t testing.TB, data []byte) (text []byte, labels map[int][]label) {
	t.Helper()
	labels = map[int][]label{}
	line := 0
	for part := range bytes.Lines(data) {
		said, is := bytes.CutPrefix(part, []byte("=>"))
		if !is {
			line++
			text = append(text, part...)
			continue
		}
		words := strings.Fields(string(said))
		require.NotEmpty(t, words)
		l := label{words[0], map[string]string{}}
		for _, w := range words[1:] {
			key, value, ok := strings.Cut(w, "=")
			require.True(t, ok && slices.Contains(factKeys, key), "%q is no fact in %q", w, part)
			l.facts[key] = strings.ReplaceAll(value, "_", " ")
		}
		labels[line] = append(labels[line], l)
	}
	return text, labels
}

// factKeys are the facts a label may name, in the order they are scored.
var factKeys = []string{"lines", "qty", "done", "min", "who", "kind", "state", "verdict", "auth"}

func (y tally) archive(t *testing.T, path string) {
	a, shop := archive(t, path), archive(t, "../testdata/reading/shop.txtar")
	labels := map[string]map[int][]label{}
	for i, f := range a.Files {
		if base := filepath.Base(f.Name); strings.HasPrefix(base, "20") {
			a.Files[i].Data, labels[f.Name] = unlabel(t, f.Data)
		}
	}
	require.NotEmpty(t, labels, "%s has no note", path)
	prices, err := demo.FS.ReadFile("prices.csv")
	require.NoError(t, err)
	shop.Files = append(shop.Files, txtar.File{Name: "prices.csv", Data: prices})
	r := compile.Book(input(a, shop), compile.Options{})
	require.NoError(t, invariants(r))
	for _, f := range r.Findings {
		assert.NotEqual(t, finding.Error, f.Severity, "%s: %s %s", path, f.Rule, f.Message)
	}
	for file, byLine := range labels {
		got := entriesByLine(r, file)
		for line, want := range byLine {
			y.line(t, fmt.Sprintf("%s:%d", filepath.Base(path), line), want, got[line])
			delete(got, line)
		}
		for line, more := range got {
			for _, e := range more {
				if e.outcome == string(notes.Narrative) || e.outcome == string(notes.Condition) {
					continue // prose may be either, and no money hangs on it
				}
				y.add("invented", "", string(e.outcome), e.outcome == string(notes.Unclear))
				t.Logf("%s:%d: invented %s", filepath.Base(path), line, e.outcome)
			}
		}
	}
}

// entriesByLine returns what was read in the file, by line: entries, and narrative that is no entry.
func entriesByLine(r *compile.Result, file string) map[int][]label {
	got := map[int][]label{}
	for _, day := range r.Days() {
		for _, e := range day.Entries {
			if e.Source.File != file {
				continue
			}
			l := label{string(e.Outcome), map[string]string{}}
			for _, f := range factsOf(e) {
				l.facts[f.key] = f.value
			}
			l.facts["auth"] = authOf(day, e.Source)
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
func (y tally) line(t *testing.T, where string, want, got []label) {
	got = together(want, got)
	for i, w := range want {
		g := label{outcome: "narrative"}
		if i < len(got) {
			g = got[i]
		} else if w.outcome != "narrative" {
			g.outcome = "nothing"
		}
		unclear := g.outcome == string(notes.Unclear)
		if !y.add("outcome", w.outcome, g.outcome, unclear) {
			t.Logf("%s: %s, read as %s", where, w.outcome, g.outcome)
			continue
		}
		for _, k := range factKeys {
			value, labelled := w.facts[k]
			if !labelled {
				continue
			}
			if value == "none" && k != "auth" {
				value = ""
			}
			if !y.add(k, value, g.facts[k], unclear) {
				t.Logf("%s: %s=%s, read as %q", where, k, value, g.facts[k])
			}
		}
	}
	for _, g := range got[min(len(want), len(got)):] {
		y.add("invented", "", g.outcome, g.outcome == string(notes.Unclear))
		t.Logf("%s: invented %s", where, g.outcome)
	}
}

// together makes one of all that was read in a line whose one label sums them up: three things of a list under
// "material", the hours of two people under one "time". Their minutes add up and their people are listed.
func together(want, got []label) []label {
	if len(want) != 1 || len(got) < 2 || slices.ContainsFunc(got, func(g label) bool { return g.outcome != want[0].outcome }) {
		return got
	}
	one := label{want[0].outcome, map[string]string{}}
	minutes := 0
	for _, g := range got {
		for k, v := range g.facts {
			switch old := one.facts[k]; {
			case v == "" || v == old:
			case old == "":
				one.facts[k] = v
			case k == "who" || k == "lines":
				one.facts[k] = old + "," + v
			}
		}
		n, _ := strconv.Atoi(g.facts["min"])
		minutes += n
	}
	if minutes > 0 {
		one.facts["min"] = strconv.Itoa(minutes)
	}
	return []label{one}
}
