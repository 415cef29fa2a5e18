package field

import (
	"jobday/notes"
)

// mostInRow bounds the values of one row.
const mostInRow = 6

// row reads values parted by slashes, the unit once behind or before them: "122/121/243",
// "12.1/12.3/12.0 A", "AMPS 28.1 / 27.6 / 28.3", "277.1 / 276.8 / 277.5 to neut". Two whole numbers are a
// reading only in a text about tests, and never a system's name such as "120/240".
func (m *meter) row(i int) int {
	r := m.r
	var list [mostInRow]notes.Measured
	var at [mostInRow]int
	n, next, pointed := m.rowValues(i, &list, &at)
	if n < 2 || m.between != "" {
		return 0
	}
	unit, end := r.unitAt(next, r.close(next))
	if unit != "" && r.isNumber(end) && r.rowUnit(i) != "" {
		unit, end = "", next // "volts 480/481/479 amps 12/12/13"
	}
	if unit == "" {
		unit = r.rowUnit(i)
	}
	named := unit != ""
	switch {
	case unit == "ohm" || unit == "Mohm":
		if !pointed && n < 3 {
			return 0
		}
	case unit != "" && unit != "V" && unit != "A", unit == "" && !likeVolts(list[:n]):
		return 0
	case pointed:
		if !named && n < 3 && !r.bold && !r.measuredBefore(i) {
			return 0
		}
	case named && unit == "A" && r.rowUnit(i) != "":
	case r.systemName(at[:n], end) || n == 2 && !r.bold && !r.measuredBefore(i) && !r.pairAhead(end):
		return 0
	}
	if unit == "" {
		unit = "V"
	}
	for k := range n {
		list[k].Unit = unit
		m.add(at[k], list[k].End, list[k])
	}
	return m.endRow(n, end, unit)
}

// spacedRow reads three voltages without a unit and parted by blanks, in a text about tests, behind a
// word that says where: "xfmr sec 207 208 208". Rooms 101, 102 and 103 are none.
func (m *meter) spacedRow(i int) int {
	r := m.r
	if !r.bold || m.between != "" || !r.voltagePlace(r.low(i-1)) {
		return 0
	}
	var list [mostInRow]notes.Measured
	n, next := 0, i
	for n < mostInRow && r.isNumber(next) {
		v, ok := r.num(next)
		if !ok || v.form != digits || v.next == next+1 && len(r.low(next)) != 3 || n > 0 && !nearly(v.v, list[0].Value) {
			return 0
		}
		list[n] = notes.Measured{Value: v.v, HasVal: true, Unit: "V", Piece: notes.Piece{Start: next, End: v.next}}
		n++
		next = v.next
		if r.low(next) == "," {
			next++
		}
	}
	ends := next >= len(r.toks) || !r.isWord(next) || r.valueMayEnd(next) || r.low(next-1) == ","
	if n < 3 || !likeVolts(list[:n]) || !ends {
		return 0
	}
	for k := range n {
		v := list[k]
		v.Piece = notes.Piece{}
		m.add(list[k].Start, list[k].End, v)
	}
	return m.lastEnd
}

// voltagePlace reports whether a word names a place where the voltages of a system are read.
func (r *reader) voltagePlace(low string) bool {
	switch low {
	case "sec", "secondary", "pri", "primary", "main", "mains", "lugs", "legs", "xfmr", "transformer", "gen", "generator", "disco", "disconnect",
		"line", "load", "phases", "ph", ":":
		return true
	}
	return false
}

// endRow claims a row and gives all its values the conductors named behind it.
func (m *meter) endRow(n, end int, unit string) int {
	r := m.r
	if b, next, ok := r.betweenAt(end); ok && !m.valueFollows(next) {
		for k := len(m.out) - n; k < len(m.out); k++ {
			m.out[k].Between = b
		}
		end = next
	} else if b, next := r.farConductor(end, unit); b != "" {
		for k := len(m.out) - n; k < len(m.out); k++ {
			m.out[k].Between = b
		}
		end = next
	}
	_, m.out[len(m.out)-1].End = r.piece(end-1, end)
	r.claimTokens(end-1, end)
	m.lastEnd = end
	return end
}

// rowValues reads numbers parted by slashes from token i on. End of a value is the token after it.
// Whole numbers stand close to the slash and have three digits, unless a word before says what they are.
func (m *meter) rowValues(i int, list *[mostInRow]notes.Measured, at *[mostInRow]int) (n, next int, pointed bool) {
	r := m.r
	loose := r.rowUnit(i) != ""
	for next = i; n < mostInRow; {
		v, ok := r.num(next)
		if !ok || v.form != digits && !(loose && v.form == fraction) {
			return 0, i, false
		}
		if v.form == fraction { // "28/27" is read as one
			v.v, v.next = notes.Int(smallInt(r.low(next))), next+1
		}
		whole := v.next == next+1
		if whole && !loose && len(r.low(next)) != 3 && !pointed {
			return 0, i, false
		}
		pointed = pointed || !whole
		at[n], list[n] = next, notes.Measured{Value: v.v, HasVal: true, Piece: notes.Piece{End: v.next}}
		n++
		next = v.next
		ahead := r.low(next+2) == "." && r.close(next+2) && r.close(next+3) && r.isNumber(next+3) // "209 / 120.5"
		if r.low(next) != "/" || !r.isNumber(next+1) || !(pointed || loose || ahead) && !(r.close(next) && r.close(next+1)) {
			break
		}
		next++
	}
	if r.low(next) == "/" && (r.close(next) || pointed) && r.isNumber(next+1) {
		return 0, i, false
	}
	return n, next, pointed
}

// rowUnit is the unit that the word before token i gives all values of a row.
func (r *reader) rowUnit(i int) string {
	if r.low(i-1) == ":" || r.low(i-1) == "=" {
		i--
		// "Voltage at the main:" names what follows it, at the head of the text or of a sentence
		head := i
		for head > max(0, i-7) && (r.isWord(head-1) || r.isNumber(head-1) && !r.close(head-1)) {
			head--
		}
		if unit := quantityUnit(r.low(i - 1)); unit == "" && (head == 0 || !r.isWord(head-1)) {
			return quantityUnit(r.low(head))
		}
	}
	return quantityUnit(r.low(i - 1))
}

// quantityUnit is the unit of the quantity a word names.
func quantityUnit(low string) string {
	switch low {
	case "amps", "amperes", "currents", "current", "amperage":
		return "A"
	case "volts", "voltage", "voltages":
		return "V"
	}
	return ""
}

// likeVolts reports whether values without unit can be the voltages of one system: all of them
// between 90 and 640.
func likeVolts(list []notes.Measured) bool {
	for _, v := range list {
		if v.Value.Cmp(notes.Int(90)) < 0 || v.Value.Cmp(notes.Int(640)) > 0 {
			return false
		}
	}
	return true
}
