package reconcile

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

func TestTheLastDecisionStands(t *testing.T) {
	d := &day{standing: &standing{in: Input{Job: &notes.Job{Lines: []notes.ScopeLine{{Label: "B"}}}}}}
	r := &read{entry: &notes.Entry{}}
	for _, step := range []struct {
		decided notes.Decision
		outcome notes.Outcome
		lines   []string
	}{
		{notes.Decision{Kind: notes.DecideLine, Line: "b", By: "Hanna"}, notes.InScope, []string{"B"}},
		{notes.Decision{Kind: notes.DecideExtra, By: "Hanna"}, notes.Extra, nil},
		{notes.Decision{Kind: notes.DecideNarrative, By: "Hanna"}, notes.Narrative, nil},
		{notes.Decision{Kind: notes.DecideLine, Line: "B", By: "Hanna"}, notes.InScope, []string{"B"}},
	} {
		r.decided = append(r.decided, step.decided)
		require.True(t, d.settle(r))
		require.Equal(t, step.outcome, r.result.Outcome)
		require.Equal(t, step.lines, r.result.Lines)
	}
}

func TestAPriceDecidedAfterNoChargeIsAPrice(t *testing.T) {
	x := &openExtra{}
	x.decide([]notes.Decision{{Kind: notes.DecideNoCharge}, {Kind: notes.DecidePrice, Price: notes.MustMoney("180.00")}})
	require.False(t, x.work.Price.NoCharge)
	require.Equal(t, "180.00", x.work.Price.Quoted.String())
}

func TestADecisionMayQuoteTheLabelThatWasTold(t *testing.T) {
	note := finding.NewFile("n.md", []byte("Z: circuit"))
	decided := finding.NewFile("decisions.md", []byte("a\nb\nc\n"))
	s := &standing{met: map[finding.Span]bool{}, in: Input{Job: &notes.Job{}, Decisions: []notes.Decision{
		{Entry: "2026-03-12/circuit", Words: "Z: circuit", Span: decided.LineSpan(1)},
		{Entry: "2026-03-12/Circuit", Words: "Circuit ", Span: decided.LineSpan(2)},
		{Entry: "2026-03-12/circuit", Words: "K: circuit", Span: decided.LineSpan(3)},
	}}}
	d := &day{standing: s}
	r := &read{
		entry:  &notes.Entry{Label: "Z", Text: "circuit", Span: note.LineSpan(1)},
		result: notes.EntryResult{ID: "2026-03-12/circuit", Text: "circuit"},
	}
	require.Len(t, d.decisionsFor(r), 2)
	require.Len(t, s.found, 1)
	require.Equal(t, "decision/stale", s.found[0].Rule)
	require.Equal(t, decided.LineSpan(3), s.found[0].Span)
}

func TestIdsOfADayAreUnique(t *testing.T) {
	d := &day{used: map[string]int{}, date: "2026-03-12"}
	seen := map[string]bool{}
	for _, text := range []string{"!", "!", "! 2", "!", "! 2", "entry 2", "entry 2 2", "!", "entry"} {
		id := d.id(&query{}, &notes.Entry{Text: text})
		require.False(t, seen[id], id)
		seen[id] = true
	}
}

// The evidence of a match names the words shared, what else counted, and the rival.
func TestTheEvidenceOfAMatchIsKept(t *testing.T) {
	d := &day{lines: make([]lineDay, 2), standing: newStanding(Input{Job: &notes.Job{Lines: []notes.ScopeLine{
		{Label: "A", Work: "GFCI receptacles in the kitchen", Qty: notes.Quantity{Value: notes.Int(3), Unit: notes.Each}},
		{Label: "B", Work: "GFCI receptacles in the bathroom", Qty: notes.Quantity{Value: notes.Int(2), Unit: notes.Each}},
	}}})}
	r := &read{entry: &notes.Entry{}, query: newQuery("2 2 kitchen GFCI receptacles in", d.in.Words)}
	ms := d.match(r)
	require.Len(t, r.result.Evidence, 2)
	first, rival := r.result.Evidence[0], r.result.Evidence[1]
	require.Equal(t, "A", first.Line)
	require.Contains(t, first.Shared, "kitchen")
	require.NotContains(t, rival.Shared, "kitchen")
	require.Greater(t, first.Confidence, rival.Confidence)
	require.NotEmpty(t, rival.Veto, "the kitchen is not the bathroom")
	sum := 0.0
	for _, w := range first.Weighed {
		require.NotEmpty(t, w.What)
		sum += w.By
	}
	require.InDelta(t, math.Log(ms[0].odds), sum, 0.05, "the weights add up to the odds, each rounded")
}
