package field

import (
	"strconv"

	"jobday/notes"
)

// saidStart reports whether a word can begin a number as it is said.
func saidStart(low string) bool {
	switch low {
	case "a", "point", "half":
		return true
	}
	return unitWord(low) >= 0 || tensWord(low) > 0 || hundred(low)
}

// saidNum reads a figure as it is said of an instrument: "forty one", "five hundred", "two point one",
// "point six", "a thousand". Paired is one of hundreds without the word: "one twenty one",
// "two-oh-eight".
func (r *reader) saidNum(i int) (n num, paired, ok bool) {
	if !r.isWord(i) || !saidStart(r.low(i)) {
		return num{}, false, false
	}
	if r.low(i) == "point" {
		n, ok = r.saidDecimals(i, num{form: spelled})
		return n, false, ok
	}
	if n, ok = r.saidPair(i); ok {
		return n, true, true
	}
	n, ok = r.num(i)
	if !ok || n.form != spelled || n.about || r.claimed(r.toks[i].start) {
		return num{}, false, false
	}
	if n.next < len(r.toks) && r.low(n.next) == "point" {
		if d, ok := r.saidDecimals(n.next, n); ok {
			return d, false, true
		}
	}
	return n, false, true
}

// mostDecimals is how many decimals are said one by one at most.
const mostDecimals = 3

// saidDecimals adds to n what is said behind "point" at token i: "point six", "point oh five",
// "point twenty five".
func (r *reader) saidDecimals(i int, n num) (num, bool) {
	s, j := ".", i+1
	for len(s) <= mostDecimals {
		d := unitWord(r.low(j))
		if r.low(j) == "oh" || r.low(j) == "o" {
			d = 0
		}
		if d < 0 || d > 9 {
			break
		}
		s, j = s+strconv.Itoa(d), j+1
	}
	if s == "." {
		d, next := belowHundred(r.toks, j)
		if d < 10 {
			return num{}, false
		}
		s, j = s+strconv.Itoa(d), next
	}
	d, err := notes.ParseDecimal(s)
	return num{v: n.v.Add(d), small: -1, next: j, form: spelled}, err == nil
}

// saidPair reads hundreds without the word: "two forty two", "one-twenty", "two oh eight".
func (r *reader) saidPair(i int) (num, bool) {
	first := unitWord(r.low(i))
	if first < 1 || first > 9 {
		return num{}, false
	}
	j := i + 1
	if tight(r.toks, j, "-") {
		j++
	}
	rest, next := belowHundred(r.toks, j)
	if r.low(j) == "oh" || r.low(j) == "o" {
		j++
		if tight(r.toks, j, "-") {
			j++
		}
		rest, next = unitWord(r.low(j)), j+1
		if rest < 1 || rest > 9 {
			return num{}, false
		}
	} else if rest < 10 {
		return num{}, false
	}
	return spelledNum(first*100+rest, next), true
}

// saidValue keeps a figure that was said without a unit: volts said by hundreds where an instrument is
// spoken of ("I read one twenty one each leg"), or one beside the reading before it ("settled at
// twenty eight").
func (m *meter) saidValue(i, j, next int, paired bool, v notes.Measured) int {
	r := m.r
	switch {
	case r.compared(j) && m.unit != "" && (r.endsClause(next) || r.valueMayEnd(next)):
		v.Unit = m.unit
	case paired && likeVolts([]notes.Measured{v}) && (m.unit == "V" || m.unit == "" && r.measuredBefore(j)) && (r.endsClause(next) || r.valueMayEnd(next)):
		v.Unit = "V"
	default:
		return 0
	}
	return m.add(i, next, v)
}

// pairAhead reports whether the values from token i on are followed by the conductor they were all
// measured to: "and 121 to neutral", "/122 to N", "across", "each leg".
func (r *reader) pairAhead(i int) bool {
	for n := 0; n < 6; n++ {
		if low := r.low(i); low == "each" || low == "every" || low == "a" && r.low(i+1) == "leg" {
			return true
		}
		if b, _ := r.farConductor(i, "V"); b != "" {
			return true
		}
		if low := r.low(i); !r.isNumber(i) && low != "and" && low != "," && low != "/" && low != "." {
			return false
		}
		i++
	}
	return false
}

// listedRow reads values told one after the other with the unit, or the conductor they were measured to,
// behind the last: "209, 208 and 209 volts", "6.1 and 6.3 amps", "120 and 121 to neutral".
func (m *meter) listedRow(i int) int {
	r := m.r
	if m.between != "" || !r.isNumber(i) || r.close(i) {
		return 0
	}
	var list [mostInRow]notes.Measured
	n, next, pointed := 0, i, true
	for n < mostInRow && r.isNumber(next) {
		v, ok := r.num(next)
		if !ok || v.form != digits || n > 0 && !nearly(v.v, list[0].Value) {
			return 0
		}
		pointed = pointed && v.next > next+1
		list[n] = notes.Measured{Value: v.v, HasVal: true, Piece: notes.Piece{Start: next, End: v.next}}
		n++
		next = v.next
		j := next
		if r.low(j) == "," {
			j++
		}
		if r.low(j) == "and" || r.low(j) == "&" {
			j++
		}
		if j == next || !r.isNumber(j) {
			break
		}
		next = j
	}
	if n < 2 {
		return 0
	}
	unit, end := r.unitAt(next, r.close(next))
	if b, _ := r.farConductor(next, "V"); unit == "" && b != "" {
		unit, end = "V", next
	}
	named := r.bold && unit == "" && r.endsClause(next) && quantityUnit(r.low(i-1)) != ""
	if named {
		unit = quantityUnit(r.low(i - 1)) // "phase amps 21, 22, 20"
	}
	switch {
	case unit == "V" && likeVolts(list[:n]), unit == "A" && (pointed || named):
	default:
		return 0
	}
	if first := list[0]; end > next && !m.isReading(first.Start, first.End, end, notes.Measured{Value: first.Value, HasVal: true, Unit: unit}) {
		return 0
	}
	for k := range n {
		v := list[k]
		v.Piece, v.Unit = notes.Piece{}, unit
		to := list[k].End
		if k == n-1 {
			to = end
		}
		m.add(list[k].Start, to, v)
	}
	// what the last was measured to holds for all of them
	if far := m.out[len(m.out)-1].Between; far != "" {
		for k := len(m.out) - n; k < len(m.out); k++ {
			m.out[k].Between = far
		}
	}
	return m.lastEnd
}
