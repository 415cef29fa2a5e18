package compile_test

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/chance/fit"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
	"jobday/reconcile"
	"jobday/testdata/reading"
)

var lineAgainst = flag.String("against", "", "")

func lineChoices(t testing.TB, set string) []fit.Choice {
	archives, err := reading.Archives(set)
	require.NoError(t, err)
	var all []fit.Choice
	for _, a := range archives {
		var job *notes.Job
		var days []*notes.DayNote
		labels := map[string]map[int][]reading.Label{}
		held := func(days []*notes.DayNote) {
			all = append(all, choicesOf(set, job, days, labels)...)
		}
		note := func(name string, text []byte, want map[int][]reading.Label) *notes.DayNote {
			labels[name] = want
			n, _ := parse.Note(finding.NewFile(name, text), parse.NoteContext{People: shopPeople, Named: true})
			return n
		}
		for _, f := range a.Files {
			switch {
			case strings.HasSuffix(f.Name, "scope.md"):
				job, _ = parse.Scope(finding.NewFile(f.Name, f.Data))
			case reading.IsNote(f.Name):
				text, want, err := reading.Unlabel(f.Data)
				require.NoError(t, err)
				days = append(days, note(f.Name, text, want))
			case reading.IsEntries(f.Name):
				entries, err := reading.Entries(f.Data)
				require.NoError(t, err)
				for _, e := range entries {
					text := fmt.Sprintf("---\ncrew: [Ana, Bo]\n---\n%s\n\n%s\n", e.Heading, e.Text)
					held([]*notes.DayNote{note("jobs/1-x/2026-03-16.md", []byte(text), map[int][]reading.Label{6: e.Want})})
				}
			}
		}
		if len(days) > 0 {
			held(days)
		}
	}
	return all
}

func choicesOf(set string, job *notes.Job, days []*notes.DayNote, labels map[string]map[int][]reading.Label) []fit.Choice {
	company := &notes.Company{}
	for _, p := range shopPeople {
		company.People = append(company.People, notes.Person{Name: p})
	}
	clues := map[int]map[string][][]string{}
	_ = clues
	byEntry := map[string][][]string{}
	key := func(e *notes.Entry) string { return fmt.Sprint(e.Span.File.Name, e.Span.Start) }
	reconcile.Job(reconcile.Input{Company: company, Prices: &notes.PriceList{}, Job: job, Notes: days, Named: true, OnLines: func(e *notes.Entry, c [][]string) {
		byEntry[key(e)] = c
	}})
	var all []fit.Choice
	for _, n := range days {
		var got []reading.Read[*notes.Entry]
		want := labels[n.File.Name]
		for i := range n.Entries {
			e := &n.Entries[i]
			got = append(got, reading.Read[*notes.Entry]{Line: n.File.LineAt(e.Span.Start), Start: e.Span.Start, Said: e})
		}
		for _, a := range reading.Align(got, want) {
			options := byEntry[key(a.Said)]
			if options == nil {
				continue
			}
			c := fit.Choice{Options: options, Group: a.Said.Text + "  |" + fmt.Sprint(a.Said.Place)}
			for _, l := range job.Lines { c.Group += "\n      " + l.Label + " " + l.Qty.String() + " " + l.Work }
			switch {
			case a.Want.Outcome == "in-scope" && a.Want.Facts["lines"] != "":
				for l := range strings.FieldsFuncSeq(a.Want.Facts["lines"], func(r rune) bool { return r == ',' || r == '|' }) {
					if i := slices.IndexFunc(job.Lines, func(x notes.ScopeLine) bool { return x.Label == l }); i >= 0 {
						c.Accept = append(c.Accept, i)
					}
				}
			case a.Want.Outcome == "extra":
				c.Accept = []int{len(options) - 1}
			}
			if len(c.Accept) > 0 {
				all = append(all, c)
			}
		}
	}
	return all
}

func TestFitLines(t *testing.T) {
	if *fitSets == "" {
		return
	}
	var train, test []fit.Choice
	for set := range strings.SplitSeq(*fitSets, ",") {
		train = append(train, lineChoices(t, set)...)
	}
	o := fit.Options{Least: *fitLeast, Hold: *fitHold, Rounds: 20}
	w := fit.FitChoices(train, o)
	t.Logf("%d cases, %d weights", len(train), len(w))
	if *lineAgainst == "" {
		require.NoError(t, os.WriteFile("../reconcile/lines.model", []byte(w.Text("means", 0.05)), 0o644))
		return
	}
	for set := range strings.SplitSeq(*lineAgainst, ",") {
		test = append(test, lineChoices(t, set)...)
	}
	old := fit.Scores{"fits 99": 8, "fits 95": 6, "fits 85": 4.5, "fits 70": 3, "fits 50": 2, "fits 30": 1, "fits 10": -1, "fits 3": -2, "fits 0": -4, "shares nothing": -9, "veto": -9}
	for name, m := range map[string]fit.Scores{"old": old, "new": w} {
		right, n := 0, 0
		topLine, lines := 0, 0
		bins := [6][2]int{}
		for _, c := range test {
			ps := m.Chances(c.Options)
			best := 0
			for i := range ps {
				if ps[i] > ps[best] {
					best = i
				}
			}
			n++
			ok := slices.Contains(c.Accept, best)
			if ok {
				right++
			}
			b := 0
			for _, at := range []float64{0.5, 0.7, 0.8, 0.9, 0.97} {
				if ps[best] >= at {
					b++
				}
			}
			bins[b][0]++
			if ok {
				bins[b][1]++
			}
			if c.Accept[0] < len(ps)-1 {
				lines++
				top := 0
				for i := range ps[:len(ps)-1] {
					if ps[i] > ps[top] {
						top = i
					}
				}
				if slices.Contains(c.Accept, top) {
					topLine++
				} else if name == "new" {
					t.Logf("WRONG %v top %d %.2f right %.2f none %.2f: %s", c.Accept, top, ps[top], ps[c.Accept[0]], ps[len(ps)-1], c.Group)
				}
			}
		}
		t.Logf("%s: right %d of %d; line on top %d of %d; %v", name, right, n, topLine, lines, bins)
	}
}
