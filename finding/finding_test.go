package finding

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSortIsATotalOrderAndMergesEquals(t *testing.T) {
	a, b := NewFile("a.md", []byte("one two\n")), NewFile("b.md", []byte("one two\n"))
	want := List{
		{Severity: Error, Rule: "a/a", Message: "m"}, // no place: first
		{Severity: Error, Rule: "a/a", Message: "m", Span: a.Span(0, 3)},
		{Severity: Error, Rule: "a/b", Message: "l", Span: a.Span(0, 3)},
		{Severity: Error, Rule: "a/b", Message: "m", Span: a.Span(0, 3)},
		{Severity: Warning, Rule: "a/a", Message: "m", Span: a.Span(0, 3)},
		{Severity: Error, Rule: "a/a", Message: "m", Span: a.Span(0, 7)},
		{Severity: Error, Rule: "a/a", Message: "m", Span: a.Span(4, 7)},
		{Severity: Error, Rule: "a/a", Message: "m", Span: b.Span(0, 3)},
	}
	for range 20 {
		got := append(append(List(nil), want...), want...)
		rand.Shuffle(len(got), func(i, j int) { got[i], got[j] = got[j], got[i] })
		require.Equal(t, want, got.Sort())
	}
}

func TestPositionsCountCodePointsFromOne(t *testing.T) {
	f := NewFile("n.md", []byte("é½x\r\n\xff\xfe日y\n\nlast"))
	tests := []struct{ offset, line, column int }{
		{0, 1, 1}, {2, 1, 2}, {4, 1, 3}, {5, 1, 4}, {7, 2, 1}, {8, 2, 2}, {9, 2, 3}, {12, 2, 4},
		{14, 3, 1}, {15, 4, 1}, {19, 4, 5}, {-5, 1, 1}, {99, 4, 5},
	}
	for _, tt := range tests {
		line, column := f.Position(tt.offset)
		require.Equal(t, [2]int{tt.line, tt.column}, [2]int{line, column}, "offset %d", tt.offset)
	}
	require.Equal(t, 4, f.Lines())
	require.Equal(t, "é½x", f.LineSpan(1).Text())
	require.Equal(t, "", f.LineSpan(3).Text())
	require.Equal(t, "last", f.LineSpan(4).Text())
	require.Equal(t, "", f.LineSpan(5).Text())
	require.Zero(t, NewFile("e.md", nil).Lines())
}

func TestAConsequenceOnTheSameWordsIsLeftOut(t *testing.T) {
	f := NewFile("a.md", []byte("wire nuts, tape\n"))
	nuts, tape := f.Span(0, 9), f.Span(11, 15)
	unplaced := Finding{Severity: Note, Rule: "price/material-unplaced", Message: "nuts", Span: nuts}
	noCost := Finding{Severity: Note, Rule: "price/no-cost", Message: "nuts", Span: nuts}
	elsewhere := Finding{Severity: Note, Rule: "price/no-cost", Message: "tape", Span: tape}
	nowhere := Finding{Severity: Note, Rule: "price/no-cost", Message: "tape"}
	require.Equal(t, List{nowhere, unplaced, elsewhere}, List{noCost, elsewhere, unplaced, nowhere}.Sort())
	require.Equal(t, List{noCost}, List{noCost}.Sort(), "alone it stands")
}

// TestOffsetIsPositionTheOtherWayRound walks a text of several scripts, blank lines and all.
func TestOffsetIsPositionTheOtherWayRound(t *testing.T) {
	f := NewFile("n.md", []byte("Søren\n\n½ in EMT, 30′\nلوحة ok"))
	for at := range string(f.Text) {
		line, column := f.Position(at)
		require.Equal(t, at, f.Offset(line, column), "%d:%d", line, column)
	}
	require.Equal(t, len("Søren"), f.Offset(1, 99), "beyond the line is its end")
}
