package field

import (
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/trade"
)

// rating reads a number with a word after it that makes a designation of it: 30A, 2 pole, 277V,
// 1-gang, 3 way, 12 AWG, 3000K, 2 hole, 42 space. j is the word's token.
func (s *scanner) rating(n num, j int) bool {
	t := s.toks[j]
	if t.kind != word || n.form == article {
		return false
	}
	joined := !t.spaced
	w := t.low
	capital := s.text[t.start] != w[0] && !s.tightNumber(j+1) // written as a unit is, not as in A19
	if s.tightNumber(j+1) && !joined {
		return false
	}
	switch w {
	case "a":
		return (joined || capital) && n.form == digits && s.rated(n, "A", "amps", j+1)
	case "amp", "amps", "ampere", "amperes":
		return s.rated(n, "A", "amps", skipDot(s.toks, j+1))
	case "p":
		return (joined || capital) && n.small > 0 && n.small < 5 && s.rated(n, "P", "poles", j+1)
	case "pole", "poles", "pl":
		return n.small < 5 && s.rated(n, "P", "poles", j+1)
	case "v", "volt", "volts", "vac", "vdc":
		return s.rated(n, "V", "volts", j+1)
	case "w", "watt", "watts":
		return !(w == "w" && tight(s.toks, j+1, "/")) && s.rated(n, "W", "watts", j+1)
	case "kw":
		return s.rated(n, "kW", "watts", j+1)
	case "kva":
		return s.rated(n, "kVA", "kva", j+1)
	case "hp":
		return s.rated(n, "HP", "hp", j+1)
	case "k":
		return n.small >= 1500 && s.rated(n, "K", "kelvin", j+1)
	case "g":
		return joined && n.small > 0 && n.small < 7 && s.rated(n, "-gang", "gang", j+1)
	case "gang", "gangs", "gng":
		return s.rated(n, "-gang", "gang", j+1)
	case "sq", "square":
		if joined && n.small == 4 {
			s.desig("4 in", "size", j)
			return true
		}
		return false
	case "ga", "gauge", "awg":
		return n.small > 0 && s.rated(n, " AWG", "gauge", skipDot(s.toks, j+1))
	case "mcm", "kcmil":
		return s.rated(n, " kcmil", "gauge", j+1)
	}
	return s.rating2(n, j, joined)
}

// rating2 goes on with the rarer words.
func (s *scanner) rating2(n num, j int, joined bool) bool {
	switch w := s.toks[j].low; w {
	case "way", "ways":
		return (n.small == 3 || n.small == 4) && s.rated(n, "-way", "way", j+1)
	case "hole", "holes":
		return n.small > 0 && n.small < 9 && s.rated(n, "-hole", "holes", j+1)
	case "ph", "phase":
		return n.small > 0 && n.small < 4 && s.rated(n, "-phase", "phase", j+1)
	case "space", "spc", "spaces":
		return n.small > 1 && (w != "spaces" && s.panelAhead(j+1) || s.mainAhead(j+1)) && s.rated(n, "-space", "spaces", j+1)
	case "circuit", "ckt":
		return n.small > 1 && s.panelAhead(j+1) && s.rated(n, "-space", "spaces", j+1)
	case "conductor", "cond", "wire":
		return n.small > 1 && n.small < 8 && s.cableNear(j+1) && s.rated(n, "-wire", "wires", j+1)
	case "lamp", "bulb", "head", "tube":
		if w := s.wordAt1(j + 1); n.small > 1 && n.small < 9 && !joined && (w != nil && w.Class == trade.ThingWord || s.thingBefore()) {
			s.desig(strconv.Itoa(n.small)+"-"+s.low(j), "", j+1)
			return true
		}
	case "cfm", "lm", "lumens", "lumen":
		s.put(atom{role: roleSkip, dim: "other"}, j+1)
		return true
	case "mm", "cm":
		return s.rated(n, " "+w, "size", j+1)
	case "deg", "degree", "degrees":
		return s.rated(n, "°", "angle", j+1)
	case "st", "nd", "rd", "th":
		if joined {
			s.ordinal(n, j+1)
		}
		return joined
	case "f", "c":
		if x := s.wordAt1(j + 1); x != nil && x.Class == trade.PartWord {
			return false // "1 C condulet"
		}
		if s.text[s.toks[j].start] != w[0] && !s.tightNumber(j+1) { // degrees
			s.put(atom{role: roleSkip, dim: "other"}, j+1)
			return true
		}
	case "s":
		return joined && s.numberPlural(n, j)
	}
	return s.notACount(n, j) || joined && s.model(n, j)
}

// mainAhead reports whether a main's rating stands at token i: "40 space 200 main".
func (s *scanner) mainAhead(i int) bool {
	if s.low(i) == "," {
		i++
	}
	if i >= len(s.toks) || s.toks[i].kind != number || !isAmps(smallInt(s.low(i))) {
		return false
	}
	j := i + 1
	if l := s.low(j); l == "a" || l == "amp" || l == "amps" {
		j++
	}
	return s.low(j) == "main" || s.low(j) == "mb" || s.low(j) == "mlo"
}

// thingBefore reports whether a thing without a count was named right before.
func (s *scanner) thingBefore() bool {
	for k := len(s.out) - 1; k >= 0; k-- {
		switch s.out[k].role {
		case roleThing:
			return true
		case roleDesig, roleTrait:
		default:
			return false
		}
	}
	return false
}

// rated enters a designation made of the number and what it is a number of.
func (s *scanner) rated(n num, unit, dim string, next int) bool {
	text := ""
	switch {
	case dim == "amps" && n.small >= 0:
		text = ampsName(n.small)
	case dim == "poles" && n.small >= 0:
		text = polesName(n.small)
	case dim == "gauge" && unit == " AWG":
		text = gaugeName(strconv.Itoa(n.small))
	default:
		text = n.v.String() + unit
	}
	s.desig(text, dim, next)
	return true
}

// ordinal reads "2nd floor" as a place; any other ordinal counts nothing.
func (s *scanner) ordinal(n num, next int) {
	switch s.low(next) {
	case "floor", "flr", "fl", "story", "level":
		s.put(atom{role: rolePlace, text: "floor " + n.v.String(), dim: "floor"}, next+1)
	default:
		s.put(atom{role: roleSkip, dim: "ordinal"}, next)
	}
}

// numberPlural reads "90s" as elbows and "20s" as things rated so.
func (s *scanner) numberPlural(n num, j int) bool {
	switch {
	case n.small == 90 || n.small == 45:
		s.put(atom{role: rolePart, text: "elbow", plural: true}, j+1)
		last := s.out[len(s.out)-1]
		s.out = append(s.out, atom{role: roleDesig, num: -1, alt: -1, text: strconv.Itoa(n.small) + "°", dim: "angle", start: last.start, end: last.end})
		return true
	case isAmps(n.small):
		s.put(atom{role: roleDesig, text: ampsName(n.small), dim: "amps", plural: true}, j+1)
		return true
	}
	return false
}

// ratedOnes reads "50's": things rated so, whatever they are.
func (s *scanner) ratedOnes(n num, next int) bool {
	if !isAmps(n.small) {
		return false
	}
	s.put(atom{role: roleDesig, text: ampsName(n.small), dim: "amps", plural: true, ones: true}, next)
	return true
}

// notACount passes a number whose word says it is time, a reading or money.
func (s *scanner) notACount(n num, j int) bool {
	if !notCounted(s.low(j)) || s.low(j) == "h" && tight(s.toks, j+1, "/") && s.low(j+2) == "s" {
		return false
	}
	s.put(atom{role: roleSkip, dim: "other"}, j+1)
	return true
}

// model reads digits with a letter or two right after them, "3R", as a designation of a thing.
func (s *scanner) model(n num, j int) bool {
	w := s.toks[j].low
	if len(w) > 2 || n.form != digits || n.next != s.i+1 || w == "x" || w == "in" || w == "ft" || w == "m" {
		return false
	}
	if s.wordAt1(j) != nil {
		return false
	}
	s.desig(s.low(s.i)+strings.ToUpper(w), "model", j+1)
	return true
}

// hyphened reads a number joined by a hyphen to word j: 2-pole, 3-way, 25-foot, 6-outlet.
func (s *scanner) hyphened(n num, j int) {
	if s.toks[j].low == "a" && n.form == digits && s.rated(n, "A", "amps", j+1) {
		return
	}
	if s.toks[j].low == "g" && n.small > 0 && n.small < 7 && s.rated(n, "-gang", "gang", j+1) {
		return
	}
	if s.rating(n, j) {
		return
	}
	if unit, next := s.unitAt(j); unit != "" {
		s.count(n, unit, next)
		return
	}
	if n.small < 0 || len(s.toks[j].low) > 12 {
		s.plain(n)
		return
	}
	switch s.toks[j].low {
	case "wire", "conductor":
		s.desig(strconv.Itoa(n.small)+"-wire", "wires", j+1)
	case "lamp", "bulb", "light", "head", "outlet", "port", "jaw", "terminal", "tube", "lug", "button",
		"zone", "speed", "position", "point", "conductors", "slot", "socket", "line", "ton", "step":
		s.desig(strconv.Itoa(n.small)+"-"+s.toks[j].low, "", j+1)
	default:
		s.plain(n)
	}
}

// lengthText writes a length as part of a thing's name: "6 ft".
func lengthText(v notes.Decimal) string { return v.String() + " ft" }
