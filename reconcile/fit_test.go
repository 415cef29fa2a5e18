package reconcile

import (
	"flag"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
	"jobday/testdata/reading"
	"jobday/trade"
)

var fit = flag.Bool("fit", false, "fit the weights of the evidence to the labelled entries and print them")

// A labelled case is an entry's evidence for each line it shares a word with, and which of them it
// means: an index into lines, or -1 for none.
type labelledCase struct {
	lines []evidence
	want  int
}

// TestWeights says how well the weights foretell the labelled entries: the mean of -log of the
// probability given to what is right. Fitting them anew (-fit) must not do much better; when it
// does, the set or the evidence has changed and the weights should follow.
func TestWeights(t *testing.T) {
	cases := labelledCases(t)
	now := loss(cases, bias, weights)
	t.Logf("%d entries, loss %.3f", len(cases), now)
	require.Less(t, now, 0.75, "loss of the weights in match.go")
	if !*fit {
		return
	}
	b, w := fitted(cases, bias, weights)
	t.Logf("fitted: loss %.3f\nbias = %.2f\n%s", loss(cases, b, w), b, formatted(w))
}

var evidenceNames = []string{
	"evCoverage", "evPrecision", "evHead", "evHeadWhich", "evHeadNone", "evNoHead", "evOnly", "evWhich", "evWhichOther",
	"evVerb", "evVerbOther", "evOutOf", "evTooMany", "evAsked", "evComplete", "evProgress", "evUnit", "evAsBooked", "evWired", "evHeadElse",
}

func formatted(w evidence) string {
	var b strings.Builder
	for i, x := range w {
		fmt.Fprintf(&b, "%s: %.2f, ", evidenceNames[i], x)
	}
	return b.String()
}

// chances returns the probability of each line of a case and of none, which comes last.
func chances(c labelledCase, b float64, w evidence) []float64 {
	ps, total := make([]float64, len(c.lines)+1), 1.0
	for i, ev := range c.lines {
		z := b
		for k, x := range ev {
			z += w[k] * x
		}
		ps[i] = math.Exp(z)
		total += ps[i]
	}
	ps[len(c.lines)] = 1
	for i := range ps {
		ps[i] /= total
	}
	return ps
}

func loss(cases []labelledCase, b float64, w evidence) float64 {
	sum := 0.0
	for _, c := range cases {
		ps := chances(c, b, w)
		sum -= math.Log(ps[(c.want+len(ps))%len(ps)])
	}
	return sum / float64(len(cases))
}

// fitted climbs from the weights given, held back from going far from them: the set is small.
func fitted(cases []labelledCase, b float64, w evidence) (float64, evidence) {
	b0, w0 := b, w
	const rate, hold, steps = 0.3, 0.003, 4000
	for range steps {
		gb, gw := 0.0, evidence{}
		for _, c := range cases {
			ps := chances(c, b, w)
			for i, ev := range c.lines {
				d := -ps[i]
				if i == c.want {
					d++
				}
				gb += d
				for k, x := range ev {
					gw[k] += d * x
				}
			}
		}
		n := float64(len(cases))
		b += rate * (gb/n - hold*(b-b0))
		for k := range w {
			w[k] += rate * (gw[k]/n - hold*(w[k]-w0[k]))
		}
		w[evProgress] = min(w[evProgress], mostProgress)
		w[evHeadNone], w[evHeadElse] = min(w[evHeadNone], leastKnown), min(w[evHeadElse], leastKnown)
	}
	return b, w
}

// leastKnown bounds what it speaks against a line that it does not name what the entry is about: the set
// has few cases where that alone decides, and in most of those the line was meant all the same.
const leastKnown = -1.5

// mostProgress bounds what "done" and "in" speak for a line: people say them of extras too, which the
// set has few of.
const mostProgress = 3

// devSets are the labelled entries the weights are held against.
var devSets = []string{"dev", "dev2", "dev3", "dev4", "dev5", "dev6"}

// labelledCases reads the dev sets: entries that are one piece of work, with one line or none.
func labelledCases(t *testing.T) []labelledCase {
	t.Helper()
	var cases []labelledCase
	for _, set := range devSets {
		archives, err := reading.Archives("entries/" + set)
		require.NoError(t, err)
		for _, a := range archives {
			cases = append(cases, casesOf(t, a)...)
		}
	}
	return cases
}

func casesOf(t *testing.T, a reading.Archive) []labelledCase {
	t.Helper()
	var job *notes.Job
	var entries []reading.Entry
	for _, f := range a.Files {
		switch {
		case strings.HasSuffix(f.Name, "scope.md"):
			job, _ = parse.Scope(finding.NewFile(f.Name, f.Data))
		case reading.IsEntries(f.Name):
			var err error
			entries, err = reading.Entries(f.Data)
			require.NoError(t, err, a.Name)
		}
	}
	require.NotNil(t, job, a.Name)
	var cases []labelledCase
	for _, e := range entries {
		if len(e.Want) != 1 {
			continue
		}
		if c, ok := caseOf(job, e); ok {
			cases = append(cases, c)
		}
	}
	return cases
}

func caseOf(job *notes.Job, entry reading.Entry) (labelledCase, bool) {
	c := labelledCase{want: -1}
	want := entry.Want[0]
	if strings.Contains(want.Outcome, "|") {
		return c, false
	}
	line := want.Facts["lines"]
	switch want.Outcome {
	case "in-scope":
	case "extra", "narrative", "condition":
		line = ""
	default:
		return c, false
	}
	note, _ := parse.Note(finding.NewFile("jobs/x/2026-03-12.md", []byte(entry.Heading+"\n"+entry.Text+"\n")), parse.NoteContext{})
	if len(note.Entries) != 1 || note.Entries[0].Kind != notes.Work || note.Entries[0].Label != "" || strings.ContainsAny(line, ",|") {
		return c, false
	}
	e := &note.Entries[0]
	ix := newLineIndex(job, trade.Words{})
	facts := merged(e)
	q, more := newQuery(e.Text, trade.Words{}), another(strings.ToLower(e.Text))
	for _, m := range ix.match(nil, &q, func(ev *evidence, i int) {
		ev.fromFacts(more, &facts, &job.Lines[i], &lineStanding{})
	}) {
		if m.veto != "" {
			continue
		}
		if strings.EqualFold(job.Lines[m.line].Label, line) {
			c.want = len(c.lines)
		}
		c.lines = append(c.lines, m.evidence)
	}
	// A line that shares no word cannot be found by weighing; what none shares has nothing to weigh.
	return c, len(c.lines) > 0 && (c.want >= 0 || want.Outcome != "in-scope")
}
