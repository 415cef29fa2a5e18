package explain

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/notes"
)

func evidenceText(t *testing.T, rows ...notes.EvidenceRow) string {
	t.Helper()
	j := jobWithExtra()
	e := &j.Days[0].Entries[0]
	e.Evidence, e.Candidates = rows, []notes.Candidate{{Line: "A", Confidence: 0.5}}
	var b bytes.Buffer
	require.NoError(t, WriteText(&b, []Chain{Entry(Place{j, j.Days[0], e})}))
	return b.String()
}

func TestTheEvidenceNamesWordsVetoAndRival(t *testing.T) {
	require.Contains(t, evidenceText(t,
		notes.EvidenceRow{
			Line: "A", Shared: []string{"hood", "fixture"}, Confidence: 0.62,
			Weighed: []notes.Weight{{What: "the same kind of work", By: 0.3}, {What: "another kind of work", By: -3.8}},
		},
		notes.EvidenceRow{Line: "B", Shared: []string{"fixture"}, Confidence: 0.3},
		notes.EvidenceRow{Line: "C", Veto: "kitchen against bathroom", Despite: 0.41},
	), `
Held against the booked lines
  line A, 0.62: Hood lights
    shares hood, fixture
      +0.30  the same kind of work
      -3.80  another kind of work
  line B, 0.30
    shares fixture
  line C, 0.00
    cannot be it: kitchen against bathroom; it would be 0.41 without that
  none of these lines, 0.08
  line A is ahead of its rival, line B, by 0.32
`)
}

func TestTheRivalMayBeNoLineAtAll(t *testing.T) {
	for want, rows := range map[string][]notes.EvidenceRow{
		"line A is ahead of its rival, that none of them is meant, by 0.20": {{Line: "A", Confidence: 0.6}},
		"line A is behind its rival, that none of them is meant, by 0.40":   {{Line: "A", Confidence: 0.3}},
		"line A and its rival, line B, are level":                           {{Line: "A", Confidence: 0.45}, {Line: "B", Confidence: 0.45}},
		"none of these lines, 1.00\n":                                       {{Line: "A", Veto: "20 A against 30 A", Despite: 0.9}},
		"confidence 1.00 of 1\n  line A was booked as\n":                    nil,
		"line A is ahead of its rival, line B, by 0.50":                     {{Line: "A", Confidence: 0.72}, {Line: "B", Confidence: 0.22}, {Line: "C", Confidence: 0.01}},
	} {
		require.Contains(t, evidenceText(t, rows...), want)
	}
	require.NotContains(t, evidenceText(t, notes.EvidenceRow{Line: "A", Veto: "20 A against 30 A"}), "rival")
	require.NotContains(t, evidenceText(t), "Held against")
}

func TestEntriesAreFoundByIdAndPlace(t *testing.T) {
	j := jobWithExtra()
	j.Days[0].Entries[0].Outcome = notes.Unclear
	in := Input{Jobs: []Job{j, jobWithExtra()}}
	for ref, n := range map[string]int{
		"2026-03-12/DISCONNECT": 2, "2026-03-12.md:6": 2, "7-shop/2026-03-12.md:2": 2,
	} {
		places, err := Entries(in, ref)
		require.NoError(t, err, ref)
		require.Len(t, places, n, ref)
	}
	for ref, want := range map[string]string{
		"2026-03-12/nothing":        `nothing is called "2026-03-12/nothing"; there is 2026-03-12/lights`,
		"2026-03-11/the-disconnect": `nothing is called "2026-03-11/the-disconnect"; there is 2026-03-12/disconnect`,
		"2026-03-12.md:8":           "no entry stands at 2026-03-12.md:8; there is 2026-03-12.md:2, 2026-03-12.md:5, 2026-03-12.md:2, 2026-03-12.md:5",
	} {
		_, err := Entries(in, ref)
		require.EqualError(t, err, want)
	}
}
