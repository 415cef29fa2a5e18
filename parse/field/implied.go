package field

import (
	"jobday/notes"
)

// What the words around a bare number say of it: its sign, what it is measured in, between what, and
// whether it is a difference.

// minusBefore returns 1 + the token of a minus sign, or of "minus", that belongs to the number at token
// i; 0 when there is none. "L1 -120" and "10-12" have none: a dash behind a number parts.
func (r *reader) minusBefore(i int) int {
	switch r.low(i - 1) {
	case "-", "−", "–":
		if !r.close(i) || i > 1 && !r.toks[i-1].spaced && r.low(i-2) != "(" && r.low(i-2) != ":" && r.low(i-2) != "=" ||
			r.isNumber(i-2) || r.low(i-2) == "l" {
			return 0
		}
		return i
	case "minus", "negative":
		return i
	}
	return 0
}

// beside reports whether a bare number is a second voltage beside one just read: of like size, said
// of another place or load. "VD: 120v src 115.2 at load"
func (m *meter) beside(i int, v notes.Measured) bool {
	if m.unit != "V" || len(m.out) == 0 || v.Op != "" {
		return false
	}
	last := &m.out[len(m.out)-1]
	if !last.HasVal || last.Unit != "V" || m.r.sentenceBetween(m.lastEnd, i) || !nearly(v.Value, last.Value) {
		return false
	}
	return m.r.low(i+1) == "." && m.r.close(i+1) || otherPlace(m.r.low(i+1)) || otherPlace(m.r.low(i-1))
}

// nearly reports whether two voltages are of one system: the smaller is at least four fifths of the larger.
func nearly(a, b notes.Decimal) bool {
	if a.Cmp(b) > 0 {
		a, b = b, a
	}
	return a.Sign() > 0 && a.Mul(notes.Int(5)).Cmp(b.Mul(notes.Int(4))) >= 0
}

// otherPlace reports whether a word beside a value says where or under what it was read.
func otherPlace(low string) bool {
	switch low {
	case "at", "src", "source", "load", "loaded", "unloaded", "under", "end":
		return true
	}
	return false
}

// impliedByQuantity reports whether the sentence named a voltage before the bare number at token i,
// which can be one: "voltage at the panel, 121.4 on each leg".
func (r *reader) impliedByQuantity(i int, v notes.Measured) bool {
	if v.Op != "" || !likeVolts([]notes.Measured{v}) {
		return false
	}
	pointed := r.low(i+1) == "." && r.close(i+1)
	for j := i - 1; j >= max(0, i-16); j-- {
		if r.low(j) == ";" || r.low(j) == "." && r.sentenceEnds(j) {
			return false
		}
		switch r.low(j) {
		case "voltage", "voltages":
			return pointed
		case "vd", "drop":
			return pointed && r.bold
		case "unloaded", "loaded":
			return pointed && j == i-1
		}
	}
	return false
}

// andOn reports whether a bare number goes on with what was read before it: "200 megohms on the red and
// 180 on the black".
func (m *meter) andOn(i, next int, v notes.Measured) bool {
	r := m.r
	if m.unit == "" || len(m.out) == 0 || r.low(next) != "on" || r.low(i-1) != "and" && r.low(i-1) != "," || i-m.lastEnd > 6 || r.sentenceBetween(m.lastEnd, i) {
		return false
	}
	a, b := v.Value, m.out[len(m.out)-1].Value
	if a.Cmp(b) > 0 {
		a, b = b, a
	}
	return a.Sign() > 0 && a.Mul(notes.Int(5)).Cmp(b) >= 0
}

// listGoesOn reports whether a decimal without a unit is the next of a list: "18.2, 17.9 and 18.8".
func (m *meter) listGoesOn(i int, v notes.Measured) bool {
	r := m.r
	if m.unit == "" || !m.open || len(m.out) == 0 || i-m.lastEnd != 1 || r.low(i+1) != "." || !r.close(i+1) || r.low(i-1) != "," && r.low(i-1) != "and" {
		return false
	}
	last := &m.out[len(m.out)-1]
	return last.HasVal && last.Between == "" && last.Result == "" && nearly(v.Value, last.Value)
}

// ampsBefore reports whether the sentence spoke of amperes before token i: "amps on the legs were 18.2".
func (r *reader) ampsBefore(i int) bool {
	for j := i - 1; j >= max(0, i-9) && r.low(j) != "."; j-- {
		if r.low(j) == "amps" || r.low(j) == "currents" || r.low(j) == "amperage" {
			return true
		}
	}
	return false
}

// farConductor reads the conductor a value was measured to, when only that is named: "300 kohm to
// ground", "277.1 to neut". Ohms to ground are a path and no insulation, and name nothing.
func (r *reader) farConductor(i int, unit string) (b string, next int) {
	if r.low(i) == "across" && unit == "V" && (r.endsClause(i+1) || r.low(i+1) == "the" && r.low(i+2) == "legs") {
		return "line to line", i + 1
	}
	if unit == "V" && (r.low(i) == "between" || r.low(i) == "across") && (r.low(i+1) == "phase" || r.low(i+1) == "phases" || r.low(i+1) == "legs" || r.low(i+1) == "lines") {
		return "line to line", i + 2
	}
	if r.low(i) != "to" || unit != "V" && unit != "Mohm" && unit != "kohm" {
		return "", i
	}
	switch r.low(i + 1) {
	case "neutral", "neut", "n":
		return "line to neutral", i + 2
	case "ground", "gnd", "grd", "g", "earth":
		return "line to ground", i + 2
	}
	return "", i
}

// difference reads words that make a temperature a difference: "12 C above ambient", "delta T 4 C".
func (r *reader) difference(i, end int) (b string, next int) {
	switch r.low(end) {
	case "above", "over", "rise", "hotter", "warmer", "higher", "difference", "diff", "below":
		next = end + 1
		for r.low(next) == "than" || r.low(next) == "the" || r.low(next) == "over" || r.low(next) == "above" {
			next++
		}
		switch r.low(next) {
		case "ambient", "amb", "air", "room":
			return "above ambient", next + 1
		}
		return "difference", end + 1
	}
	for j := i - 1; j >= max(0, i-3); j-- {
		switch r.low(j) {
		case "dt", "δt", "rise", "difference", "diff", "delta":
			return "difference", end
		case "t":
			if r.low(j-1) == "delta" || r.low(j-1) == "δ" || r.low(j-1) == "∆" {
				return "difference", end
			}
		}
	}
	return "", end
}
