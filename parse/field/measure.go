package field

import (
	"strings"

	"jobday/notes"
)

// value reads a number with its unit at token i and returns the token after it, or 0 when it is
// no reading: a rating, a count, a size.
func (m *meter) value(i int) int {
	r := m.r
	if r.low(i) == ">" && r.low(i-1) == "-" && r.close(i) {
		return 0 // an arrow
	}
	op, j := r.bound(i)
	minus := r.minusBefore(j)
	if r.isNumber(j) && r.claimed(r.toks[j].start) {
		return 0
	}
	if j >= len(r.toks) || op == "" && minus == 0 && r.tailOfReading(j) {
		return 0
	}
	if next := m.row(j); next > 0 && op == "" {
		return next
	}
	if next := m.spacedRow(j); next > 0 && op == "" {
		return next
	}
	if next := m.listedRow(j); next > 0 && op == "" {
		return next
	}
	n, ok := r.num(j)
	saidN, paired, said := r.saidNum(j)
	if said {
		n = saidN
	} else if !ok || n.form != digits && n.form != fraction {
		return 0
	}
	n = r.commaValue(j, n)
	next := n.next
	if r.low(next) == "+" && r.close(next) && op == "" {
		op, next = ">", next+1
	}
	unit, end := r.unitAt(next, r.close(next))
	if unit == "" && r.low(next) == "m" && r.capital(next) && (m.between != "" || r.megger()) {
		unit, end = "Mohm", next+1
	}
	if unit == "Mohm" && (r.low(next) == "megs" || r.low(next) == "meg") && r.isNumber(end) && !r.close(next) {
		unit = "" // "pump 3 megs 1200": what was done
	}
	if unit == "" && r.low(next) == "g" && (r.close(next) || r.endsClause(next+1) && r.seen.megger) && r.capital(next) && (m.between != "" || r.seen.megger) {
		unit, end = gigaohm, next+1
	}
	v := notes.Measured{Value: n.v, HasVal: true, Op: op, Unit: unit}
	if minus > 0 {
		v.Value, i = n.v.Neg(), minus-1
	}
	if unit == gigaohm {
		v.Value, v.Unit = v.Value.Mul(notes.Int(1000)), "Mohm"
	}
	switch {
	case unit == "" && said:
		return m.saidValue(i, j, next, paired, v)
	case unit == "":
		return m.bareValue(i, j, next, v)
	case paired && unit != "V":
		return 0 // "four twenty amp breakers" are four
	}
	if v.Unit == "kV" && r.testVoltage(j) {
		r.claimTokens(j, end)
		return 0
	}
	if !m.isReading(j, next, end, v) {
		return 0
	}
	return m.add(i, end, v)
}

// commaValue reads the number at token i with a decimal comma where its unit stands behind: "18,4 ohms". "12,4,6 A"
// is a list.
func (r *reader) commaValue(i int, n num) num {
	hundredths, ok := r.behindComma(n.next)
	end := n.next + 2
	if !ok || n.form != digits || n.next != i+1 || r.low(i-1) == "," || r.low(end) == "," || r.low(end) == "/" {
		return n
	}
	if unit, _ := r.unitAt(end, r.close(end)); unit == "" {
		return n
	}
	n.v, n.small, n.next = n.v.Add(notes.Ratio(hundredths, 100)), -1, end
	return n
}

// bound reads ">", "over", "less than" at token i and returns the token of the number.
func (r *reader) bound(i int) (op string, next int) {
	switch r.low(i) {
	case ">", "≥":
		op, next = ">", i+1
	case "<", "≤":
		op, next = "<", i+1
	case "over", "above":
		op, next = ">", i+1
	case "under", "below":
		op, next = "<", i+1
	case "more", "greater", "less":
		if r.low(i+1) != "than" {
			return "", i
		}
		op, next = ">", i+2
		if r.low(i) == "less" {
			op = "<"
		}
	case "better", "at", "north":
		second := r.low(i + 1)
		if low := r.low(i); !(low == "better" && second == "than" || low == "at" && second == "least" || low == "north" && second == "of") {
			return "", i
		}
		op, next = ">", i+2
	case "better'n", "bettern":
		op, next = ">", i+1
	default:
		return "", i
	}
	if r.low(next) == "=" {
		next++
	}
	return op, next
}

// tailOfReading reports whether the number at token i carries on a designation.
func (r *reader) tailOfReading(i int) bool {
	if !r.close(i) {
		return r.low(i-1) == "#" || r.low(i-1) == "$"
	}
	switch r.low(i - 1) {
	case "=", ":", "(", "@", "~", ",", ";", ">", "<":
		return false
	}
	return true
}

// bareValue reads a number without unit where the words before it make it a reading: after
// "L1-N", in a list, after "vs".
func (m *meter) bareValue(i, j, next int, v notes.Measured) int {
	r := m.r
	if r.close(next) && !r.clockStops(next) && r.low(next) != "/" {
		return 0
	}
	if timeOrSize(r.low(next)) {
		return 0
	}
	if b, end, ok := r.betweenAt(next); ok && m.between == "" && len(b) > 5 && (m.trails || !m.valueFollows(end)) {
		v.Unit = "V"
		return m.add(i, next, v)
	}
	stops := next >= len(r.toks) || !r.isWord(next) || r.valueMayEnd(next)
	switch {
	case m.between != "":
		if r.low(next) == "/" && r.close(next) {
			return m.list(i, j, v)
		}
		return m.addOpen(i, next, v)
	case m.open && m.lastEnd > 0 && j-m.lastEnd <= 1 && stops && m.out[len(m.out)-1].Between != "" && !r.pairAhead(next):
		v.Between = m.out[len(m.out)-1].Between
		return m.addOpen(i, next, v)
	case m.unit != "" && stops && (r.compared(i) || m.open && r.low(j+1) == "." && r.close(j+1) &&
		(j == m.lastEnd || j == m.lastEnd+1 && r.low(j-1) == "/" || r.low(next) == "at" && r.low(i-1) == ",")):
		v.Unit = m.unit
		return m.add(i, next, v)
	case m.open && m.unit == "V" && m.between == "" && likeVolts([]notes.Measured{v}) && r.pairAhead(next):
		v.Unit = "V" // "..., 121 each leg"
		return m.add(i, next, v)
	case v.Op != "" && stops && r.megger() && !r.bold:
		v.Unit = "Mohm"
		return m.add(i, next, v)
	case stops && (m.andOn(i, next, v) || m.listGoesOn(i, v) || m.besideAmbient(i)):
		v.Unit = m.unit
		return m.add(i, next, v)
	case stops && r.implied(i) != "":
		v.Unit = r.implied(i)
		return m.add(i, next, v)
	case stops && (m.beside(i, v) || r.impliedByQuantity(i, v)):
		v.Unit = "V"
		return m.add(i, next, v)
	}
	return 0
}

// besideAmbient reports whether the number at token i is the air's temperature beside one just read.
func (m *meter) besideAmbient(i int) bool {
	before := m.r.low(i - 1)
	return strings.HasPrefix(m.unit, "deg") && (before == "ambient" || before == "amb")
}

// timeOrSize reports whether a unit makes the number before it a time or a size.
func timeOrSize(low string) bool {
	return minuteWord(low) || hourWord(low) && low != "h" || low == "in" || low == "ft" || low == "ga" || low == "gang" || low == "pole" || low == "phase" || low == "ph" || low == "p"
}

// compared reports whether a bare value at token i stands beside the one before it.
func (r *reader) compared(i int) bool {
	switch r.low(i - 1) {
	case "vs", "others", "rest", "loaded", "neighbor", "versus":
		return true
	case "one":
		return r.low(i-2) == "next"
	case "at", "to":
		switch r.low(i - 2) {
		case "settled", "down", "up", "rose", "fell", "came", "went", "dropped":
			return true
		}
	}
	return false
}

// valueMayEnd reports whether a word after a bare value cannot be what the value counts.
func (r *reader) valueMayEnd(i int) bool {
	switch r.low(i) {
	case "at", "on", "and", "under", "with", "to", "ok", "good", "no", "when", "vs", "after", "before", "from", "end", "src", "load", "loaded", "unloaded", "across", "each", "l", "a", "b", "c", "n", "h":
		return true
	}
	return false
}

// implied returns the unit that the words right before token i give a bare number: "voltage 239",
// "amp draw 6.2".
func (r *reader) implied(i int) string {
	switch low := r.low(i - 1); {
	case low == "voltage", low == "volts", low == "voc", (low == "is" || low == "was") && r.low(i-2) == "voltage":
		return "V"
	case (low == "were" || low == "was" || low == "are") && r.low(i+1) == "." && r.ampsBefore(i):
		return "A"
	case low == "draw" && r.low(i-2) == "amp", low == "amps" && (i > 1 || r.bold || r.low(i+1) == "."):
		return "A"
	case (low == "draws" || low == "drawing" || low == "pulls" || low == "pulling") && r.low(i+1) == ".":
		return "A"
	}
	return ""
}

// list reads "480/479/481" after "ph-ph".
func (m *meter) list(i, j int, v notes.Measured) int {
	r := m.r
	between := m.between
	next := j
	for n := 0; n < 6 && r.isNumber(next); n++ {
		d, err := notes.ParseDecimal(r.low(next))
		if err != nil || len(r.low(next)) > 6 {
			break
		}
		m.between = between
		w := v
		w.Value = d
		m.addOpen(next, next+1, w)
		next++
		if r.low(next) != "/" || !r.isNumber(next+1) {
			break
		}
		next++
	}
	_ = i
	return next
}

// addOpen adds a value whose unit may follow later: "L1 12.4, L2 13.1 A".
func (m *meter) addOpen(i, end int, v notes.Measured) int {
	if m.unit != "" {
		v.Unit = m.unit
		return m.add(i, end, v)
	}
	m.missing = append(m.missing, len(m.out))
	return m.add(i, end, v)
}

// add keeps a reading and claims its words.
func (m *meter) add(i, end int, v notes.Measured) int {
	r := m.r
	from := i
	if m.between != "" {
		v.Between, m.between = m.between, ""
		from = m.betweenT
	}
	if m.tripped && (v.Unit == "mA" || v.Unit == "ms" || v.Unit == "s" || v.Unit == "A") && m.tripAt >= 0 {
		v.Result, from, m.tripAt = "tripped", min(from, m.tripAt), -1
	}
	if at, b, next := r.placeAfter(end); at && v.Between == "" {
		v.Between, end = b, next
	}
	if b, next := r.farConductor(end, v.Unit); b != "" && v.Between == "" {
		v.Between, end = b, next
	}
	if b, next := r.difference(i, end); b != "" && v.Between == "" && (v.Unit == "degC" || v.Unit == "degF") {
		v.Between, end = b, next
	}
	if v.Unit != "" {
		for _, k := range m.missing {
			m.out[k].Unit = v.Unit
		}
		m.missing = nil
		m.unit = v.Unit
	}
	v.Start, v.End = r.piece(from, end)
	r.claim(notes.Piece{Start: v.Start, End: v.End})
	m.out = append(m.out, v)
	m.lastEnd, m.open = end, true
	return end
}

// placeAfter reads "on L1" after a value.
func (r *reader) placeAfter(i int) (ok bool, b string, next int) {
	if r.low(i) != "on" || r.low(i+1) != "l" || !r.isNumber(i+2) || !r.close(i+2) || len(r.low(i+2)) != 1 {
		return false, "", i
	}
	return true, "L" + r.low(i+2), i + 3
}

// finish gives values still without unit volts, which is what a pair of conductors is measured in
// when nothing else is said (common practice, no source).
func (m *meter) finish() {
	if len(m.missing) == 0 {
		return
	}
	unit := "V"
	for i := range m.r.toks {
		if low := m.r.low(i); low == "amp" || quantityUnit(low) == "A" {
			unit = "A"
		}
	}
	for _, k := range m.missing {
		m.out[k].Unit = unit
		if m.out[k].Op != "" && m.r.seen.megger {
			m.out[k].Unit = "Mohm" // "meggered phase to phase, over 1000"
		}
	}
}

// systemName reports whether numbers parted by slashes name a system or rating, not readings.
func (r *reader) systemName(at []int, end int) bool {
	for _, k := range at {
		if n := smallInt(r.low(k)); n < 90 || n > 640 {
			return true
		}
	}
	if len(at) == 2 {
		switch r.low(at[0]) + "/" + r.low(at[1]) {
		case "120/240", "120/208", "277/480", "347/600", "127/220", "115/230", "110/220", "120/277", "208/240", "208/120", "480/277", "240/120", "200/100":
			return true
		}
	}
	if len(at) == 3 && r.low(at[0]) == "120" && (r.low(at[1]) == "208" || r.low(at[1]) == "240") {
		return true
	}
	switch r.low(end) {
	case "rated", "panel", "ballast", "ballasts", "driver", "multi", "transformer":
		return true
	}
	return false
}

// measuredBefore reports whether an instrument is named in the words before token i.
func (r *reader) measuredBefore(i int) bool {
	for _, h := range r.near(i-12, i) {
		if (h.sense == readWord || h.sense == readTemp) && i-h.to <= 6 && !r.sentenceBetween(h.to, i) && !notInstrument(r.low(h.from)) {
			return true
		}
	}
	return false
}

// notInstrument reports whether a word of measuring is as often about work: "running pipe".
func notInstrument(low string) bool {
	switch low {
	case "running", "meter", "meters", "pulling", "pulls", "drop", "amps", "volts", "load", "got", "getting", "draw", "drawing", "torque", "loaded", "checked", "dropped", "measure":
		return true
	}
	return false
}
