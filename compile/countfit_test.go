package compile_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/chance/fit"
	"jobday/finding"
	"jobday/notes"
	"jobday/reconcile"
	"jobday/testdata/reading"
)

// A countCase is an entry about one booked line, with the numbers it may have done of it.
type countCase struct {
	set, text string
	fit.Choice
	numbers []string
	want    string
	rule    int // the option the rules chose
}

// cases are what a labelled count is fitted with. That a number counts nothing is seldom labelled, and dear to miss: it
// counts threefold.
func (c countCase) cases() []fit.Choice {
	switch {
	case len(c.Accept) == 0:
		return nil
	case c.want == "":
		return []fit.Choice{c.Choice, c.Choice, c.Choice}
	}
	return []fit.Choice{c.Choice}
}

// unsaidCount stands where a label does not say how many.
const unsaidCount = "?"

// counts are the entries of a job about one booked line whose label says how many, or that nobody can say.
func (j labelledJob) counts() []countCase {
	found := map[finding.Span]countCase{}
	j.reconciled(reconcile.Input{OnCounts: func(e *notes.Entry, line int, numbers []string, clues [][]string) {
		c := countCase{set: j.set, text: e.Text, numbers: numbers, want: j.job.Lines[line].Label}
		c.Options = clues
		found[e.Span] = c
	}})
	var all []countCase
	for _, n := range j.days {
		var got []reading.Read[*notes.Entry]
		for i := range n.Entries {
			e := &n.Entries[i]
			got = append(got, reading.Read[*notes.Entry]{Line: n.File.LineAt(e.Span.Start), Start: e.Span.Start, Said: e})
		}
		for _, a := range reading.Align(got, j.labels[n.File.Name]) {
			c, weighed := found[a.Said.Span]
			if !weighed || a.Want.Outcome != string(notes.InScope) || a.Want.Facts["lines"] != c.want {
				continue
			}
			said, labelled := a.Want.Facts["qty"]
			k := slices.IndexFunc(j.job.Lines, func(l notes.ScopeLine) bool { return l.Label == c.want })
			unit := string(j.job.Lines[k].Qty.Unit)
			many := j.job.Lines[k].Qty.Value.Cmp(notes.Int(1)) > 0
			switch {
			case said == "none":
				c.want = ""
			case !labelled && many && a.Want.Facts["done"] != "yes":
				c.want = unsaidCount
			case !labelled || !strings.HasSuffix(said, unit):
				continue
			default:
				c.want = strings.TrimSuffix(said, unit)
			}
			c.rule = slices.IndexFunc(c.Options, func(names []string) bool {
				return slices.Contains(names, "by rule") || slices.Contains(names, "none by rule")
			})
			if k := slices.Index(c.numbers, c.want); k >= 0 {
				c.Accept = []int{k}
			}
			if c.want == unsaidCount {
				c.Accept = []int{0} // its writer may have found nothing to say, or not cared
				if c.rule > 0 {
					c.Accept = append(c.Accept, c.rule)
				}
			}
			all = append(all, c)
		}
	}
	return all
}

// TestFitCounts fits the model of counts, or says how well it does on writers it was not fitted to.
func TestFitCounts(t *testing.T) {
	if *fitSets == "" {
		return
	}
	parts := make([][]countCase, folds)
	var all []fit.Choice
	for _, set := range strings.Split(*fitSets, ",") {
		for _, j := range labelledJobs(t, set) {
			cs := j.counts()
			parts[j.fold()] = append(parts[j.fold()], cs...)
			for _, c := range cs {
				all = append(all, c.cases()...)
			}
		}
	}
	if *fitApart == "" {
		text := fitLines(all).Text("says", least)
		t.Logf("../reconcile/counts.model: %d cases, %d bytes", len(all), len(text))
		require.NoError(t, os.WriteFile("../reconcile/counts.model", []byte(text), 0o644))
		return
	}
	n, rule, weighed, none, missing := 0, 0, 0, 0, 0
	bins := [4][2]int{}
	for k := range parts {
		var others []fit.Choice
		for o := range parts {
			if o != k {
				for _, c := range parts[o] {
					others = append(others, c.cases()...)
				}
			}
		}
		w := fitLines(others)
		for _, c := range parts[k] {
			if c.want == unsaidCount {
				continue
			}
			n++
			if c.rule >= 0 && c.numbers[c.rule] == c.want {
				rule++
			}
			if len(c.Accept) == 0 {
				missing++
				t.Logf("missing %s: %q: %s among %q", c.set, c.text, c.want, c.numbers)
				continue
			}
			ps := w.Chances(c.Options)
			top := 0
			for i := range ps {
				if ps[i] > ps[top] {
					top = i
				}
			}
			b := min(3, int(max(0, ps[top]-0.5)*8))
			bins[b][0]++
			if top == c.Accept[0] {
				weighed++
				bins[b][1]++
			} else {
				said := ""
				if c.rule >= 0 {
					said = c.numbers[c.rule]
				}
				t.Logf("wrong %s: %q: want %q, weighed %q %.2f, rule %q", c.set, c.text, c.want, c.numbers[top], ps[top], said)
			}
			if c.want == "" {
				none++
			}
		}
	}
	t.Logf("%d counts (%d of none): rule %d, weighed %d, not among the options %d; from 0, .625, .75, .875: %v", n, none, rule, weighed, missing, bins)
}
