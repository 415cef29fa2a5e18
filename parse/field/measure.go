package field

import "jobday/notes"

// value reads a number with its unit at token i and returns the token after it, or 0 when it is
// no reading: a rating, a count, a size.
func (m *meter) value(i int) int {
	r := m.r
	op, j := r.bound(i)
	if r.isNumber(j) && r.claimed(r.toks[j].start) {
		return 0
	}
	if j >= len(r.toks) || op == "" && r.tailOfReading(j) {
		return 0
	}
	if next := m.row(j); next > 0 && op == "" {
		return next
	}
	n, ok := r.num(j)
	if !ok || n.form != digits && n.form != fraction {
		return 0
	}
	next := n.next
	if r.low(next) == "+" && r.close(next) && op == "" {
		op, next = ">", next+1
	}
	unit, end := r.unitAt(next, r.close(next))
	if unit == "" && r.low(next) == "m" && r.capital(next) && (m.between != "" || r.megger()) {
		unit, end = "Mohm", next+1
	}
	if unit == "" && r.low(next) == "g" && r.close(next) && r.capital(next) && (m.between != "" || r.seen.megger) {
		unit, end = gigaohm, next+1
	}
	v := notes.Measured{Value: n.v, HasVal: true, Op: op, Unit: unit}
	if unit == gigaohm {
		v.Value, v.Unit = n.v.Mul(notes.Int(1000)), "Mohm"
	}
	if unit == "" {
		return m.bareValue(i, j, next, v)
	}
	if !m.isReading(j, next, end, v) {
		return 0
	}
	return m.add(i, end, v)
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
	if b, end, ok := r.betweenAt(next); ok && m.between == "" && len(b) > 5 && !m.valueFollows(end) {
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
	case m.open && m.lastEnd > 0 && j-m.lastEnd <= 1 && stops && m.out[len(m.out)-1].Between != "":
		v.Between = m.out[len(m.out)-1].Between
		return m.addOpen(i, next, v)
	case m.unit != "" && stops && (r.compared(i) || m.open && r.low(j+1) == "." && r.close(j+1) &&
		(j == m.lastEnd || j == m.lastEnd+1 && r.low(j-1) == "/" || r.low(next) == "at" && r.low(i-1) == ",")):
		v.Unit = m.unit
		return m.add(i, next, v)
	case v.Op != "" && stops && r.megger() && !r.bold:
		v.Unit = "Mohm"
		return m.add(i, next, v)
	case stops && r.implied(i) != "":
		v.Unit = r.implied(i)
		return m.add(i, next, v)
	}
	return 0
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
	}
	return false
}

// valueMayEnd reports whether a word after a bare value cannot be what the value counts.
func (r *reader) valueMayEnd(i int) bool {
	switch r.low(i) {
	case "at", "on", "and", "under", "with", "to", "ok", "good", "no", "when", "vs", "after", "before", "from", "l", "a", "b", "c", "n", "h":
		return true
	}
	return false
}

// implied returns the unit that the words right before token i give a bare number: "voltage 239",
// "amp draw 6.2".
func (r *reader) implied(i int) string {
	switch low := r.low(i - 1); {
	case low == "voltage", low == "volts":
		return "V"
	case low == "draw" && r.low(i-2) == "amp", low == "amps" && i > 1:
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
	if m.tripped && (v.Unit == "mA" || v.Unit == "ms" || v.Unit == "s") && m.tripAt >= 0 {
		v.Result, from, m.tripAt = "tripped", min(from, m.tripAt), -1
	}
	if at, b, next := r.placeAfter(end); at && v.Between == "" {
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
	for _, h := range m.r.seen.hits {
		if h.sense == readWord && (m.r.low(h.from) == "amps" || m.r.low(h.from) == "amp") {
			unit = "A"
		}
	}
	for _, k := range m.missing {
		m.out[k].Unit = unit
	}
}

// row reads three or more numbers parted by slashes: "122/121/243". Two are a reading only in a
// text about tests, and never a system's name such as "120/240".
func (m *meter) row(i int) int {
	r := m.r
	if next := m.pointedRow(i); next > 0 {
		return next
	}
	if !r.isNumber(i) || r.low(i+1) != "/" || !r.close(i+1) || !r.isNumber(i+2) || !r.close(i+2) {
		return 0
	}
	var at [6]int
	n, next := 0, i
	for n < len(at) && r.isNumber(next) && len(r.low(next)) == 3 {
		at[n] = next
		n++
		next++
		if r.low(next) != "/" || !r.close(next) || !r.isNumber(next+1) || !r.close(next+1) {
			break
		}
		next++
	}
	unit, end := r.unitAt(next, r.close(next))
	if n < 2 || m.between != "" || r.low(next) == "/" || unit != "" && unit != "V" && unit != "A" {
		return 0
	}
	if r.systemName(at[:n], end) || n == 2 && !r.bold && !r.measuredBefore(i) {
		return 0
	}
	if unit == "" {
		unit = "V"
	}
	for _, k := range at[:n] {
		d, err := notes.ParseDecimal(r.low(k))
		if err != nil {
			return 0
		}
		m.add(k, k+1, notes.Measured{Value: d, HasVal: true, Unit: unit})
	}
	r.claimTokens(i, end)
	m.lastEnd = end
	return end
}

// pointedRow reads "12.1/12.3/12.0 A": numbers with decimals parted by slashes, the unit once.
func (m *meter) pointedRow(i int) int {
	r := m.r
	if r.low(i+1) != "." || r.low(i+3) != "/" || !r.close(i+3) || m.between != "" {
		return 0
	}
	var at [6]int
	n, next := 0, i
	for n < len(at) {
		v, ok := r.num(next)
		if !ok || v.form != digits {
			return 0
		}
		at[n] = next
		n++
		next = v.next
		if r.low(next) != "/" || !r.close(next) || !r.isNumber(next+1) {
			break
		}
		next++
	}
	unit, end := r.unitAt(next, r.close(next))
	if n < 2 || unit != "A" && unit != "V" {
		return 0
	}
	for _, k := range at[:n] {
		v, _ := r.num(k)
		m.add(k, v.next, notes.Measured{Value: v.v, HasVal: true, Unit: unit})
	}
	r.claimTokens(i, end)
	m.lastEnd = end
	return end
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

// isReading reports whether a number with a unit was read from an instrument. Units that only
// instruments show need no more; volts, amperes and watts without decimals rate things too.
func (m *meter) isReading(num, next, end int, v notes.Measured) bool {
	r := m.r
	if r.ratesThing(end) && !(m.between != "" || r.low(num-1) == "=") {
		return false
	}
	switch v.Unit {
	case "ohm", "kohm", "fc", "ms", "in-lb", "ft-lb":
		return true
	case "Mohm":
		return true
	case "mA":
		return true
	case "s":
		return m.tripped || r.bold
	case "degC", "degF":
		return r.degrees(next) || r.temperature(num, end) || len(m.out) > 0 && m.out[len(m.out)-1].Unit == v.Unit
	case "%":
		return r.shareMeasured(num, end)
	}
	if v.Unit == "V" && r.testVoltage(num) {
		r.claimTokens(num, end)
		return false
	}
	if m.between != "" || v.Op != "" || v.Value.IsZero() {
		return true
	}
	if _, _, ok := r.betweenAt(end); ok && !m.valueFollows(end+3) {
		return true
	}
	if r.bold {
		return true
	}
	pointed := r.low(num+1) == "." && r.close(num+1)
	return pointed && !(v.Unit == "kV" || v.Unit == "kW" && !r.measuredNear(num, end)) || r.measuredNear(num, end) ||
		len(m.out) > 0 && num-m.lastEnd <= 2 && m.out[len(m.out)-1].HasVal
}

// measuredNear reports whether an instrument is named around the value from token i to end.
func (r *reader) measuredNear(i, end int) bool {
	for _, h := range r.near(i-8, end+4) {
		if h.sense != readWord {
			continue
		}
		if h.to <= i && i-h.to <= 3 && !r.sentenceBetween(h.to, i) {
			switch r.low(h.from) {
			case "running", "load", "meter", "meters", "drop", "tested", "checked", "test", "loaded", "volts", "amps", "torque":
				continue
			}
			return !r.isWord(i-1) || r.valueVerb(i-1) || h.to == i
		}
		if h.from >= end && h.from-end <= 2 {
			switch r.low(h.from) {
			case "running", "load", "under", "measured", "inrush", "drop", "reading":
				return true
			}
		}
		if h.from >= i && h.from < end && (r.low(h.from) == "amps" || r.low(h.from) == "volts") {
			if r.readVerbBefore(i) {
				return true
			}
		}
	}
	return false
}

// valueVerb reports whether a word may stand between the instrument and the value.
func (r *reader) valueVerb(i int) bool {
	switch r.low(i) {
	case "at", "to", "is", "was", "of", "about", "only", "it", "a", "around", "got", "reads", "measured", "pulling", "draws", "voltage", "drawing", "draw", "reading", "read", "pulls", "still", "meter", "getting":
		return true
	}
	return false
}

func (r *reader) readVerbBefore(i int) bool {
	switch r.low(i - 1) {
	case "at", "pulling", "draws", "drawing", "reads", "read", "got", "measured":
		return true
	}
	return false
}

// ratesThing reports whether the word at token i is a thing that the value before it rates.
func (r *reader) ratesThing(i int) bool {
	switch r.low(i) {
	case "breaker", "breakers", "brkr", "receptacle", "receptacles", "recept", "recepts", "outlet", "outlets", "circuit",
		"circuits", "panel", "feeder", "heater", "heaters", "lamp", "lamps", "bulb", "bulbs", "range", "ballast", "ballasts",
		"driver", "drivers", "disconnect", "disco", "fuse", "fuses", "gfci", "gfi", "gfpe", "afci", "mb", "main", "service", "transformer",
		"motor", "speaker", "speakers", "resistor", "switch", "plug", "cord", "fixture", "fixtures", "flood", "floods", "led",
		"leds", "light", "lights", "rated", "rating", "contactor", "coil", "relay", "spa", "tub", "charger", "inlet", "welder",
		"smoke", "smokes", "control", "controls", "dryer", "oven", "cooker", "unit", "aic", "aic.", "pole", "p", "wire", "cable", "clamp", "clamps", "sub", "generator", "max", "minimum", "min", "wrench", "device", "twist":
		return true
	}
	if r.isNumber(i) && r.low(i+1) == "p" && r.close(i+1) {
		return true
	}
	return false
}

// testVoltage reports whether volts at token i are what a megger applied, not what was read.
func (r *reader) testVoltage(i int) bool {
	for _, h := range r.near(i-20, i+9) {
		if h.sense != readMegger {
			continue
		}
		if h.to <= i && i-h.to <= 5 || h.from > i && h.from-i <= 8 || h.to <= i && (r.low(i-1) == "at" || r.low(i-1) == "@") {
			return true
		}
	}
	return false
}

// megger reports whether a lone "M" can be megohms here.
func (r *reader) megger() bool { return r.bold || r.seen.megger }

// degrees reports whether a degree sign or word stands at token i.
func (r *reader) degrees(i int) bool {
	switch r.low(i) {
	case "°", "º", "deg", "degrees", "degree", "℃", "℉":
		return true
	}
	return false
}

// temperature reports whether the words around a value in C or F speak of heat at a connection.
func (r *reader) temperature(i, end int) bool {
	for _, h := range r.near(i-8, end+3) {
		if h.sense == readTemp && (h.to <= i && i-h.to <= 5 || h.from >= end && h.from-end <= 2) {
			return true
		}
	}
	return r.bold || r.twoDegrees() || (r.low(end) == "at" || r.low(end) == "on") && (r.low(end+1) == "the" || r.low(end+1) == "a") && r.hotPlace(end+2)
}

// twoDegrees reports whether two numbers of two or more digits stand right before "C", or before
// "F": one is compared with the other.
func (r *reader) twoDegrees() bool {
	c, f := 0, 0
	for i := range r.toks {
		if !r.close(i) || !r.isNumber(i-1) || len(r.low(i-1)) < 2 || !r.capital(i) {
			continue
		}
		switch r.low(i) {
		case "c":
			c++
		case "f":
			f++
		}
	}
	return c > 1 || f > 1
}

func (r *reader) hotPlace(i int) bool {
	switch r.low(i) {
	case "lug", "lugs", "breaker", "bus", "neighbor", "neutral", "terminal", "connection", "splice", "main", "panel", "phase":
		return true
	}
	return false
}

// shareMeasured reports whether a percentage is an instrument's: "voltage drop 2.1 %".
func (r *reader) shareMeasured(i, end int) bool {
	for j := max(0, i-4); j < min(len(r.toks), end+3); j++ {
		switch r.low(j) {
		case "drop", "unbalance", "imbalance", "humidity", "thd", "vd":
			return true
		case "load", "loaded":
			return r.measuredNear(i, end)
		}
	}
	return r.bold
}

// unitAt reads the unit at token i; tight says that it stands right after its number.
func (r *reader) unitAt(i int, tight bool) (unit string, next int) {
	if i >= len(r.toks) {
		return "", i
	}
	t := &r.toks[i]
	if t.low == "-" && r.close(i) && r.isWord(i+1) && r.close(i+1) {
		if unit, next = r.unitAt(i+1, true); unit != "" {
			return unit, next
		}
		return "", i
	}
	if u := electricUnit(t.low, r.text[t.start:t.end]); u != "" {
		if len(t.low) == 1 && (r.low(i+1) == "-" || r.low(i+1) == "/") && r.close(i+1) && r.isWord(i+2) && r.close(i+2) {
			return "", i // "209 A-B"
		}
		if (u == "A" || u == "W") && len(t.low) == 1 && !tight && t.low == r.text[t.start:t.end] {
			return "", i // "5 a side", "3 w/ covers"
		}
		return u, i + 1
	}
	switch t.low {
	case "in", "inch", "inches":
		return r.torque(i, "in-lb", "lb")
	case "ft", "foot":
		if r.low(i+1) == "candle" || r.low(i+1) == "candles" {
			return "fc", i + 2
		}
		return r.torque(i, "ft-lb", "lb")
	case "lb", "lbs", "pound":
		if u, next := r.torque(i, "in-lb", "in"); u != "" {
			return u, next
		}
		return r.torque(i, "ft-lb", "ft")
	case "°", "º", "deg", "degrees", "degree":
		return r.degreeUnit(i)
	case "%", "percent":
		return "%", i + 1
	case "c", "f":
		if r.text[t.start:t.end] == "C" || r.text[t.start:t.end] == "F" {
			if r.close(i+1) && r.low(i+1) == "-" || r.isNumber(i+1) && !tight {
				return "", i // "C-G", "B 900 C 880"
			}
			return "deg" + r.text[t.start:t.end], i + 1
		}
	}
	return "", i
}

// torque reads "in-lb", "in lbs", "in/lb", "inch pounds", "lb-in".
func (r *reader) torque(i int, unit, second string) (string, int) {
	j := i + 1
	if r.low(j) == "-" || r.low(j) == "/" || r.low(j) == "." || r.low(j) == "·" {
		j++
	}
	switch low := r.low(j); {
	case second == "lb" && (low == "lb" || low == "lbs" || low == "pound" || low == "pounds"),
		second == "in" && (low == "in" || low == "inch"), second == "ft" && (low == "ft" || low == "foot"):
		return unit, j + 1
	}
	return "", i
}

// degreeUnit reads "°C", "deg F", "degrees C".
func (r *reader) degreeUnit(i int) (string, int) {
	switch r.low(i + 1) {
	case "c", "celsius":
		return "degC", i + 2
	case "f", "fahrenheit":
		return "degF", i + 2
	}
	return "", i
}

// gigaohm is read and turned into megohms.
const gigaohm = "Gohm"

// electricUnit returns the short name of a unit, written being the word with its capitals:
// "MΩ" and "Meg" are megohms, "mA" is milliamperes.
func electricUnit(low, written string) string {
	switch low {
	case "v", "volt", "volts", "vac", "vdc":
		return "V"
	case "kv":
		return "kV"
	case "a", "amp", "amps", "ampere", "amperes":
		return "A"
	case "ma", "milliamp", "milliamps":
		return "mA"
	case "ms", "msec", "milliseconds", "millisec":
		return "ms"
	case "s", "sec", "secs", "seconds":
		return "s"
	case "ohm", "ohms", "ω":
		return "ohm"
	case "kohm", "kohms", "kω":
		return "kohm"
	case "meg", "megs", "megohm", "megohms", "mohm", "mohms", "megaohm", "megaohms", "mω":
		return "Mohm"
	case "gohm", "gohms", "gigohm", "gigohms", "gigaohm", "gigaohms", "gω", "gig", "gigs":
		return gigaohm
	case "hz":
		return "Hz"
	case "fc", "footcandles", "footcandle":
		return "fc"
	case "w", "watts", "watt":
		return "W"
	case "kw":
		return "kW"
	}
	return ""
}

// betweenAt reads what a value is measured between at token i: "L1-N", "A-B", "ph-ph",
// "line to ground", "L1" in a list.
func (r *reader) betweenAt(i int) (b string, next int, ok bool) {
	a, j, ok := r.conductorAt(i)
	if !ok {
		return "", i, false
	}
	k := j
	switch r.low(k) {
	case "-", "–", "/", "to":
		k++
	default:
		return r.packedPair(i, a, j)
	}
	c, end, ok := r.conductorAt(k)
	if !ok || r.low(j) == "/" && !r.close(j) {
		return r.packedPair(i, a, j)
	}
	b = pairName(a, c)
	if b == "" || !r.pairMeasured(i, end, b) {
		return "", i, false
	}
	return b, end, true
}

// packedPair reads "AB" and a single conductor before its value: "L1 12.4 A".
func (r *reader) packedPair(i int, a string, j int) (string, int, bool) {
	switch r.low(i) {
	case "ab", "bc", "ca", "ac", "an", "bn", "cn":
		if r.shouting(i) && r.isNumber(j) && len(r.low(j)) == 3 {
			two := r.text[r.toks[i].start:r.toks[i].end]
			if two == "CA" {
				two = "AC"
			}
			return two[:1] + "-" + two[1:], j, true
		}
		return "", i, false
	}
	named := r.low(i+1) == "phase" || r.low(i+1) == "ph"
	if len(a) != 2 && !(len(a) == 1 && (named || r.bold && r.shouting(i))) || a == "ph" {
		return "", i, false
	}
	if r.low(j) == ":" || r.low(j) == "=" {
		j++
	}
	if !r.isNumber(j) || !r.toks[j].spaced && j == i+1 {
		return "", i, false
	}
	n, ok := r.num(j)
	if !ok {
		return "", i, false
	}
	unit, _ := r.unitAt(n.next, r.close(n.next))
	return a, j, unit == "V" || unit == "A" || unit == "Mohm" || unit == "ohm" || unit == "" && (r.bold || !n.v.IsWhole())
}

// conductorAt reads a conductor's name: "L1", "N", "ph", "line", "hot".
func (r *reader) conductorAt(i int) (name string, next int, ok bool) {
	if !r.isWord(i) {
		return "", i, false
	}
	switch low := r.low(i); low {
	case "l":
		if r.isNumber(i+1) && r.close(i+1) && len(r.low(i+1)) == 1 && r.low(i+1) >= "1" && r.low(i+1) <= "3" {
			return "L" + r.low(i+1), i + 2, true
		}
		return "line", i + 1, true
	case "n", "neutral", "neut":
		return "N", i + 1, true
	case "g", "ground", "gnd":
		return "G", i + 1, true
	case "h", "hot", "line":
		return "line", i + 1, true
	case "ph", "phase", "leg", "p":
		return "ph", i + 1, low != "p" || r.low(i+1) == "-"
	case "a", "b", "c":
		if (r.low(i+1) == "phase" || r.low(i+1) == "ph") && r.isNumber(i+2) {
			return string(low[0] - 'a' + 'A'), i + 2, r.capital(i)
		}
		return string(low[0] - 'a' + 'A'), i + 1, r.capital(i) || r.low(i+1) == "-"
	case "ab", "bc", "ca", "ac", "an", "bn", "cn":
		return low, i + 1, true
	case "x":
		return "", i, false
	}
	return "", i, false
}

// pairName names two conductors in the way every report does, or returns "".
func pairName(a, b string) string {
	if len(b) > 2 && b != "line" || len(a) > 2 && a != "line" {
		return ""
	}
	if phaseRank(a) > phaseRank(b) {
		a, b = b, a
	}
	switch {
	case (a == "ph" || a == "line") && (b == "ph" || b == "line"):
		return "line to line"
	case (a == "ph" || a == "line") && b == "N":
		return "line to neutral"
	case (a == "ph" || a == "line") && b == "G":
		return "line to ground"
	case a == "N" && b == "G":
		return "neutral to ground"
	case a == b, a == "ph", a == "line", b == "ph", b == "line":
		return ""
	}
	return a + "-" + b
}

// phaseRank orders conductors: phases before neutral before ground.
func phaseRank(s string) int {
	switch s {
	case "N":
		return 100
	case "G":
		return 101
	case "ph", "line":
		return 50
	}
	if len(s) == 2 {
		return int(s[1] - '0')
	}
	return int(s[0] - 'A')
}

// pairMeasured reports whether a pair of conductors is followed or preceded by a value: "L1-L2
// swapped" is no reading.
func (r *reader) pairMeasured(i, end int, b string) bool {
	j := end
	for n := 0; n < 3 && j < len(r.toks); n++ {
		switch r.low(j) {
		case ":", "=", ">", "<", "is", "was", "at", "reads", "read", "reading", "volts", "~", "(":
			j++
		default:
			n = 3
		}
	}
	if r.isNumber(j) || r.low(j) == "open" || r.low(j) == "ok" || r.low(j) == "good" || r.low(j) == "." && r.isNumber(j+1) || r.low(j) == "ol" {
		return !r.isNumber(j) || !r.ratedNumber(j)
	}
	if r.bold {
		return true
	}
	return i > 0 && (electricUnit(r.low(i-1), r.low(i-1)) != "" || r.isNumber(i-1) && r.toks[i].spaced && len(b) > 3)
}

// ratedNumber reports whether the number at token j rates a thing: "line to 20A breaker".
func (r *reader) ratedNumber(j int) bool {
	n, ok := r.num(j)
	if !ok {
		return true
	}
	_, end := r.unitAt(n.next, r.close(n.next))
	return r.ratesThing(end) && end > n.next || r.low(n.next) == "/" && r.close(n.next) && n.small >= 0 && n.small < 90
}
