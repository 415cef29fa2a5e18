package trade

import (
	"strings"

	"jobday/notes"
)

// toleranceBehind reads how far off a stated figure is still good, "480 give or take 5%", "208 +/- 10 percent", and
// makes a range of the two.
func (t *test) toleranceBehind(s *stated) bool {
	k := s.to
	if t.unitOfJot(k) != "" {
		k = t.unitEnd(k)
	}
	if k >= len(t.jots) {
		return false
	}
	gap := strings.TrimSpace(t.text[t.jots[k-1].end:t.jots[k].start])
	marked := strings.HasSuffix(gap, "±") || strings.HasSuffix(gap, "+/-") || strings.HasSuffix(gap, "+-")
	for from := k; k < len(t.jots) && k < from+3 && toleranceWords[t.jots[k].stem]; k++ {
		marked = marked || k > from // two of them: "give or take", "plus minus"
	}
	if !marked || k >= len(t.jots) {
		return false
	}
	share, next, ok := t.figureAt(k)
	percent := strings.HasPrefix(strings.TrimSpace(t.text[share.End:]), "%") || next < len(t.jots) && (t.jots[next].stem == "percent" || t.jots[next].stem == "pct")
	if !ok || !percent || share.value.Sign() <= 0 || share.value.Cmp(notes.Int(100)) >= 0 {
		return false
	}
	off := s.figure.value.Mul(share.value).Quo(notes.Int(100), 6)
	s.high = statedFigure{share.Piece, s.figure.value.Add(off)}
	s.figure.value = s.figure.value.Sub(off)
	s.unit = t.unitOfJot(s.to)
	s.to, s.ranged, s.tolerance = next, true, true
	return true
}

var toleranceWords = setOf("giv", "or", "tak", "plus", "minus")
