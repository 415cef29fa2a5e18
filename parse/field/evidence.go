package field

import (
	"slices"

	"jobday/notes"
)

// isReading reports whether a number with a unit was read from an instrument. Units that only
// instruments show need no more; volts, amperes and watts without decimals rate things too.
func (m *meter) isReading(num, next, end int, v notes.Measured) bool {
	r := m.r
	if r.ratesThing(end) && !(v.Unit == "ohm" || v.Unit == "kohm" || v.Unit == "Mohm") && !(m.between != "" || r.low(num-1) == "=") {
		return false
	}
	switch v.Unit {
	case "ohm", "kohm":
		return !r.madeWithOhms(end)
	case "fc", "ms", "in-lb", "ft-lb", "N-m":
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
		return !r.toleranceBefore(num) && r.shareMeasured(num, end)
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

// toleranceBefore reports whether the share at token i says how far off is still good: "480 +/- 10%", "give or take
// 5 percent".
func (r *reader) toleranceBefore(i int) bool {
	switch before := r.low(i - 2); r.low(i - 1) {
	case "±":
		return true
	case "take":
		return before == "or"
	case "minus":
		return before == "plus" || before == "or" || before == "/"
	case "-":
		return before == "/" || before == "+"
	}
	return false
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
			case "far", "end":
				return r.low(end) == "at"
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
		"nominal", "system", "supply", "smoke", "smokes", "control", "controls", "dryer", "oven", "cooker", "unit", "aic", "aic.", "pole", "p", "wire", "cable", "clamp", "clamps", "sub", "generator", "max", "minimum", "min", "wrench", "device", "twist":
		return true
	}
	if r.isNumber(i) && r.low(i+1) == "p" && r.close(i+1) {
		return true
	}
	return false
}

// madeWithOhms reports whether the thing at token i is named by its ohms: "8 ohm speaker".
func (r *reader) madeWithOhms(i int) bool {
	switch r.low(i) {
	case "speaker", "speakers", "resistor", "resistors", "coil", "coils", "coax", "cable", "heater", "element", "antenna", "load":
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
	heat := slices.ContainsFunc(r.seen.hits, func(h hit) bool { return h.sense == readTemp && r.low(h.from) != "vs" })
	for i := range r.toks {
		if !r.close(i) && !heat || !r.isNumber(i-1) || len(r.low(i-1)) < 2 || !r.capital(i) {
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
		case "drop", "vdrop", "unbalance", "imbalance", "humidity", "thd", "vd":
			return true
		case "load", "loaded":
			return r.measuredNear(i, end)
		}
	}
	return r.bold
}
