package field

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
		if r.low(i+1) == "-" && r.close(i+1) && (r.low(i+2) == "lb" || r.low(i+2) == "lbs") {
			return "", i // "ohm-lb" is no unit
		}
		if len(t.low) == 1 && (r.low(i+1) == "-" || r.low(i+1) == "/") && r.close(i+1) && r.isWord(i+2) && r.close(i+2) {
			return "", i // "209 A-B"
		}
		if (u == "A" || u == "W") && len(t.low) == 1 && !tight && t.low == r.text[t.start:t.end] {
			return "", i // "5 a side", "3 w/ covers"
		}
		return u, i + 1
	}
	switch t.low {
	case "inlb", "inlbs":
		return "in-lb", i + 1
	case "ftlb", "ftlbs":
		return "ft-lb", i + 1
	case "nm", "n":
		if next := r.newtonMeters(i); next > i {
			return "N-m", next
		}
	case "in", "inch", "inches":
		return r.torque(i, "in-lb", "lb")
	case "ft", "foot":
		j := i + 1
		if r.low(j) == "-" && r.close(j) {
			j++
		}
		if r.low(j) == "candle" || r.low(j) == "candles" {
			return "fc", j + 1
		}
		return r.torque(i, "ft-lb", "lb")
	case "lb", "lbs", "lbf", "pound", "pounds":
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
	switch r.low(j) {
	case "-", "/", ".", "·", "*", "x":
		j++
	}
	switch low := r.low(j); {
	case second == "lb" && (low == "lb" || low == "lbs" || low == "lbf" || low == "pound" || low == "pounds"),
		second == "in" && (low == "in" || low == "inch"), second == "ft" && (low == "ft" || low == "foot"):
		return unit, j + 1
	}
	return "", i
}

// newtonMeters reads "Nm", "N-m" and "N m", written with the capital that tells them from NM cable.
func (r *reader) newtonMeters(i int) (next int) {
	switch r.text[r.toks[i].start:r.toks[i].end] {
	case "Nm":
		return i + 1
	case "N":
		j := i + 1
		if r.low(j) == "-" || r.low(j) == "·" || r.low(j) == "." {
			j++
		}
		if r.low(j) == "m" && r.text[r.toks[j].start:r.toks[j].end] == "m" {
			return j + 1
		}
	}
	return i
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
	case "mv", "millivolt", "millivolts":
		return "mV"
	case "a", "amp", "amps", "ampere", "amperes", "amper", "ampers":
		return "A"
	case "ma", "milliamp", "milliamps", "milliampere", "milliamperes":
		return "mA"
	case "ms", "msec", "milliseconds", "millisec":
		return "ms"
	case "s", "sec", "secs", "seconds":
		return "s"
	case "ohm", "ohms", "ω":
		return "ohm"
	case "kohm", "kohms", "kω", "kilohm", "kilohms":
		return "kohm"
	case "meg", "megs", "megohm", "megohms", "mohm", "mohms", "megaohm", "megaohms", "mω", "mega", "megas":
		return "Mohm"
	case "gohm", "gohms", "gigohm", "gigohms", "gigaohm", "gigaohms", "gω", "gig", "gigs":
		return gigaohm
	case "hz", "hertz":
		return "Hz"
	case "fc", "footcandles", "footcandle":
		return "fc"
	case "w", "watts", "watt":
		return "W"
	case "kw", "kilowatt", "kilowatts":
		return "kW"
	case "db", "dba", "decibels", "decibel":
		return "dB"
	case "lx", "lux":
		return "lx"
	}
	return ""
}

// betweenAt reads what a value is measured between at token i: "L1-N", "A-B", "ph-ph",
// "line to ground", "L1" in a list.
func (r *reader) betweenAt(i int) (b string, next int, ok bool) {
	if r.close(i) && (r.low(i-1) == "-" || r.low(i-1) == "/") {
		return "", i, false // the tail of "A-B-C"
	}
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
	if r.low(end) == "-" && r.close(end) {
		return "", i, false
	}
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
	listed := r.bold || r.listedValue(i, j)
	if len(a) != 2 && !(len(a) == 1 && (named || listed && r.shouting(i))) || a == "ph" {
		return "", i, false
	}
	if r.low(j) == ":" || r.low(j) == "=" {
		j++
	}
	switch r.low(i - 1) {
	case "panel", "pnl", "panelboard", "board", "subpanel", "sub":
		if len(a) == 1 {
			return "", i, false // "pnl B 103.5 V": the panel's name
		}
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

// listedValue reports whether a decimal stands at token j, in a sentence that named an instrument
// before the lone letter at token i: "Clamped the feeder: A 42.1, B 38.8".
func (r *reader) listedValue(i, j int) bool {
	if !r.isNumber(j) || r.low(j+1) != "." || !r.close(j+1) || !r.isNumber(j+2) {
		return false
	}
	for _, h := range r.near(i-24, i) {
		switch r.low(h.from) {
		case "clamped", "clamp", "measured", "amps", "meggered", "megger", "metered", "voltage", "volts":
			return !r.sentenceBetween(h.to, i)
		}
	}
	return false
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
	switch r.low(end) {
	case "reversed", "swapped", "crossed", "flipped", "wrong", "mixed", "backwards", "loose", "landed":
		return false
	}
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
	if _, _, said := r.saidNum(j); said && j > end {
		return true // "neutral to ground reads half a volt"
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
