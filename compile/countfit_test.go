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
	type weighed struct {
		countCase
		line *notes.ScopeLine
	}
	found := map[finding.Span]weighed{}
	j.reconciled(reconcile.Input{OnCounts: func(e *notes.Entry, line int, numbers []string, clues [][]string) {
		found[e.Span] = weighed{countCase{set: j.set, text: e.Text, numbers: numbers, Choice: fit.Choice{Options: clues}}, &j.job.Lines[line]}
	}})
	var all []countCase
	for _, n := range j.days {
		for _, a := range reading.Align(entriesOf(n), j.labels[n.File.Name]) {
			c, is := found[a.Said.Span]
			if is && a.Want.Outcome == string(notes.InScope) && a.Want.Facts["lines"] == c.line.Label && c.labelled(a.Want, c.line.Qty) {
				all = append(all, c.countCase)
			}
		}
	}
	return all
}

// labelled puts the label of its entry on a case, and reports whether that tells anything of how many.
func (c *countCase) labelled(l reading.Label, booked notes.Quantity) bool {
	said, labelled := l.Facts["qty"]
	number, same := strings.CutSuffix(said, string(booked.Unit))
	switch {
	case said == "none":
		c.want = ""
	case labelled && same:
		c.want = number
	case !labelled && l.Facts["done"] != "yes" && booked.Value.Cmp(notes.Int(1)) > 0:
		c.want = unsaidCount
	default:
		return false
	}
	c.rule = slices.IndexFunc(c.Options, func(names []string) bool {
		return slices.Contains(names, "by rule") || slices.Contains(names, "none by rule")
	})
	k := slices.Index(c.numbers, c.want)
	switch {
	case c.want == unsaidCount && c.rule > 0:
		c.Accept = []int{0, c.rule} // its writer may have found nothing to say, or not cared
	case c.want == unsaidCount:
		c.Accept = []int{0}
	case k >= 0:
		c.Accept = []int{k}
	}
	return true
}

// TestFitCounts fits the model of counts, or says how well it does on writers it was not fitted to.
func TestFitCounts(t *testing.T) {
	if *fitSets == "" {
		return
	}
	parts := make([][]countCase, folds)
	for _, set := range strings.Split(*fitSets, ",") {
		for _, j := range labelledJobs(t, set) {
			parts[j.fold()] = append(parts[j.fold()], j.counts()...)
		}
	}
	if *fitApart == "" {
		all := casesBut(parts, -1)
		text := fitLines(all).Text("says", least)
		t.Logf("../reconcile/counts.model: %d cases, %d bytes", len(all), len(text))
		require.NoError(t, os.WriteFile("../reconcile/counts.model", []byte(text), 0o644))
		return
	}
	var rule, weighed rating
	missing := 0
	for k := range parts {
		w := fitLines(casesBut(parts, k))
		for _, c := range parts[k] {
			if c.want == unsaidCount {
				continue
			}
			rule.n++
			if c.numbers[c.rule] == c.want {
				rule.right++
			}
			if len(c.Accept) == 0 {
				missing++
				t.Logf("missing %s: %q: %s among %q", c.set, c.text, c.want, c.numbers)
				continue
			}
			if top := weighed.add(w.Chances(c.Options), c.Accept); top != c.Accept[0] {
				t.Logf("wrong %s: %q: want %q, weighed %q, rule %q", c.set, c.text, c.want, c.numbers[top], c.numbers[c.rule])
			}
		}
	}
	t.Logf("by rule %d right of %d; not among the options %d; weighed %s", rule.right, rule.n, missing, weighed)
}

// casesBut are what the counts of all parts but one are fitted with.
func casesBut(parts [][]countCase, out int) []fit.Choice {
	var all []fit.Choice
	for k, part := range parts {
		for _, c := range part {
			if k != out {
				all = append(all, c.cases()...)
			}
		}
	}
	return all
}
