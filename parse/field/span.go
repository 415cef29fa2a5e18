package field

import (
	"jobday/trade"
)

// spanPart reads a clock span that the words around it bear out.
func (r *reader) spanPart(i int, list []timePart) (timePart, bool) {
	p, ok := r.pairAt(i)
	if !ok {
		return timePart{}, false
	}
	if s, doubt := p.span(0); doubt == "" && s.Minutes() <= 90 && r.low(p.next) == "lunch" && !r.isNumber(p.next+1) {
		return timePart{kind: aPause, from: i, to: p.next + 1, minutes: s.Minutes(), pair: p}, true
	}
	if !p.strong() && !r.borneOut(i, p, list) {
		return timePart{}, false
	}
	if len(list) == 0 && r.notWorked(i) {
		r.claimTokens(i, p.next) // "power off 10:15-10:40"
		return timePart{}, false
	}
	from := i
	if p.from24 {
		from--
	}
	return timePart{kind: aSpan, from: from, to: p.next, pair: p}, true
}

// notWorked reports whether a span at token i is when something was off or open, not when anybody
// worked: "power off 10:15-10:40", "timer set 6-10 pm".
func (r *reader) notWorked(i int) bool {
	switch r.low(i - 1) {
	case "off", "down", "out", "open", "closed":
		return i > 1 && r.low(i-2) != "call" && r.low(i-2) != "called"
	}
	for j := max(0, i-4); j < i; j++ {
		switch r.low(j) {
		case "timer", "timers", "timeclock", "photocell", "schedule", "scheduled":
			return true
		case "store", "business", "office", "opening":
			if r.low(j+1) == "hours" {
				return true
			}
		}
	}
	return false
}

// namedLast reports whether one of ours stands alone behind the last comma of the text.
func (r *reader) namedLast() bool {
	for n := 1; n <= 2; n++ {
		i := len(r.toks) - n
		if m, ok := r.nameAt(i); ok && m.next == len(r.toks) {
			return r.low(i-1) == "," && r.capital(i)
		}
	}
	return false
}

// borneOut reports whether the words around two plain numbers say that they are times of day.
func (r *reader) borneOut(i int, p clockPair, list []timePart) bool {
	if p.from.dotted && p.to.dotted && (!p.rises() || p.from.military) {
		return true
	}
	if p.from.dotted && !p.to.dotted || p.to.dotted && (p.rises() && !p.from.dotted && p.to.hour <= 12 && !r.bold || !r.bold && !r.afterPerson(i, list)) {
		return false
	}
	if r.low(i-1) == "#" || r.numbered(i-1) || oddPacked(p.from) || oddPacked(p.to) {
		return false
	}
	follow := r.pauseFollows(p.next)
	switch {
	case follow, p.from24 && r.spanMayEnd(p.next):
		return true
	case len(list) > 0 && list[len(list)-1].kind == aSpan && i-list[len(list)-1].to > 1 && r.goesOn(list[len(list)-1].to, i):
		return r.spanMayEnd(p.next) || r.endsClause(p.next+1)
	case p.rises() && !r.spanMayEnd(p.next):
		return false
	case r.bold, r.afterPerson(i, list), r.afterHoursLabel(i), r.namedAfter(p.next):
		return true
	case len(list) > 0 && list[len(list)-1].kind == aSpan && r.goesOn(list[len(list)-1].to, i):
		return true
	case len(list) == 0 && !p.rises() && r.placeWord(i-1) && r.namedLast():
		return true
	case r.low(i-1) == "travel", r.low(i-1) == "worked":
		return true
	case r.low(p.next) == "x" && r.isNumber(p.next+1):
		return !p.rises()
	}
	return false
}

// namedAfter reports whether one of ours stands right after a span: "8-12 Ines".
func (r *reader) namedAfter(i int) bool {
	m, ok := r.nameAt(i)
	return ok && !m.weak && r.endsClause(m.next)
}

// goesOn reports whether only commas and places stand between two spans: "7-12 barn, 1-4 house".
func (r *reader) goesOn(from, to int) bool {
	if to-from > 5 {
		return false
	}
	for i := from; i < to; i++ {
		if low := r.low(i); !joining(low) && !r.placeWord(i) && low != "then" && low != "on" && low != "at" && low != "the" {
			return to-from <= 2
		}
	}
	return true
}

// placeWord reports whether token i names a place in or about a building.
func (r *reader) placeWord(i int) bool {
	w, ok := trade.FindWord(r.low(i))
	return ok && w.Class == trade.PlaceWord
}

// oddPacked reports whether hour and minute in one number are no time people write: "121".
func oddPacked(c clockTime) bool { return c.packed && c.minute%5 != 0 }

// numbered reports whether the word at token i is followed by designations, not times.
func (r *reader) numbered(i int) bool {
	if !r.isWord(i) {
		return false
	}
	return runWord(r.low(i))
}

// pauseFollows reports whether a break is written at token i, past a comma or bracket.
func (r *reader) pauseFollows(i int) bool {
	for n := 0; n < 2 && (r.low(i) == "," || r.low(i) == "(" || r.low(i) == "w" || r.low(i) == "with" || r.low(i) == "/" || r.low(i) == "took"); n++ {
		i++
	}
	for n := 0; n < 2 && (r.low(i) == "/" || r.low(i) == "a"); n++ {
		i++
	}
	if i >= len(r.toks) {
		return false
	}
	_, ok := r.pauseAt(i, true)
	return ok || r.low(i+1) == "lunch"
}

// spanMayEnd reports whether what stands at token i can follow a clock span: not the noun of a
// counted thing ("7-8 boxes").
func (r *reader) spanMayEnd(i int) bool {
	if i >= len(r.toks) || r.toks[i].kind == symbol {
		return i >= len(r.toks) || r.clockStops(i) || r.toks[i].low == "(" || r.toks[i].spaced && r.toks[i].low != `"` && r.toks[i].low != "'"
	}
	if r.toks[i].kind == number {
		_, ok := r.pairAt(i)
		if !ok {
			_, ok = r.stretchAt(i)
		}
		return ok || r.pauseFollows(i)
	}
	switch low := r.low(i); low {
	case "and", "w", "with", "less", "minus", "no", "lunch", "on", "at", "each", "ea", "both", "total",
		"plus", "then", "took", "straight", "here", "there", "onsite", "other", "another", "elsewhere", "travel", "same", "today", "all", "hrs", "hours", "for", "doing", "in",
		"finishing", "working", "helping", "yesterday", "but", "x", "only", "i", "we", "again":
		return true
	default:
		_, named := r.nameAt(i)
		return named || len(low) > 5 && low[len(low)-3:] == "ing" || r.placeWord(i) && r.endsClause(i+1)
	}
}

// afterPerson reports whether the last timePart is a person, or people and a head count, and only
// small words stand between it and token i.
func (r *reader) afterPerson(i int, list []timePart) bool {
	if len(list) == 0 {
		return false
	}
	last := list[len(list)-1]
	if last.kind != aPerson && last.kind != aCrew || i-last.to > 4 {
		return false
	}
	for j := last.to; j < i; j++ {
		switch low := r.low(j); low {
		case ":", ",", "-", "–", "(", "was", "were", "worked", "here", "there", "on", "site", "from", "/":
		default:
			if !r.isNumber(j) && !commonWord(low) || r.numbered(j) {
				return false
			}
		}
	}
	return true
}

// afterHoursLabel reports whether the text begins with a label for hours and token i follows it.
func (r *reader) afterHoursLabel(i int) bool {
	switch r.low(0) {
	case "hrs", "hours", "time", "labor", "labour", "hr":
		return i <= 3 || r.low(i-1) == ","
	}
	return false
}

// hoursLabel reports whether the word or colon before token i is a label for hours.
func (r *reader) hoursLabel(i int) bool {
	low := r.low(i - 1)
	if low == ":" || low == "-" {
		low = r.low(i - 2)
	}
	return low == "hrs" || low == "hours"
}

// wholeRest reports whether the number at token i ends the text.
func (r *reader) wholeRest(i int) bool {
	n, ok := r.num(i)
	return ok && n.next >= len(r.toks)
}
