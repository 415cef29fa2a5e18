package field

import "jobday/notes"

// bareTravel reads "travel 45" in a text about time: hours below 4, else minutes.
func (r *reader) bareTravel(i int, list []timePart) (notes.Minutes, int, bool) {
	last := len(list) - 1
	if last > 0 && list[last].kind == aPerson && list[last-1].kind == aTravel && list[last].from-list[last-1].to <= 1 && list[last].to == i {
		last-- // "travel both 30"
	} else if last >= 0 && (list[last].to < i-1 || list[last].to == i-1 && r.low(i-1) == "and") {
		return 0, i, false
	}
	if !r.bold || last < 0 || list[last].kind != aTravel {
		return 0, i, false
	}
	if m, to, ok := r.thereAndBack(i); ok {
		return m, to, true
	}
	n, ok := r.num(i)
	if !ok || r.tailOfSomething(i) || !r.spanMayEnd(n.next) {
		return 0, i, false
	}
	unit := 60
	if n.v.Cmp(notes.Int(4)) >= 0 {
		unit = 1
	}
	m, ok := wholeMinutes(n.v, unit)
	return m, n.next, ok && m <= 4*60 && m >= 5
}

// thereAndBack reads a way told both ways: "45 in 45 out", "30 there 40 back".
func (r *reader) thereAndBack(i int) (notes.Minutes, int, bool) {
	a, ok := r.num(i)
	if !ok {
		return 0, i, false
	}
	switch r.low(a.next) {
	case "in", "there", "out", "over", "up":
	default:
		return 0, i, false
	}
	j := a.next + 1
	if joining(r.low(j)) {
		j++
	}
	b, ok := r.num(j)
	if !ok || a.small < 5 || b.small < 5 || a.small+b.small > 4*60 {
		return 0, i, false
	}
	switch r.low(b.next) {
	case "out", "back", "in", "home", "down":
		return notes.Minutes(a.small + b.small), b.next + 1, true
	}
	return 0, i, false
}

// travelBehind reads ".5 travel" in a text about time: hours below 4, else minutes.
func (r *reader) travelBehind(i int) (timePart, bool) {
	n, ok := r.num(i)
	if !r.bold || !ok {
		return timePart{}, false
	}
	if low := r.low(n.next); low != "travel" && low != "drive" && low != "driving" {
		return timePart{}, false
	}
	unit := 60
	if n.v.Cmp(notes.Int(4)) >= 0 {
		unit = 1
	}
	m, ok := wholeMinutes(n.v, unit)
	return timePart{kind: aStated, from: i, to: n.next, minutes: m}, ok && m >= 5 && m <= 4*60
}

// payHours reads hours that stand beside how they are paid, in a text about time: "reg 8 OT 2", "8 reg".
func (r *reader) payHours(i int) (timePart, bool) {
	n, ok := r.num(i)
	if !r.bold || !ok || n.v.Cmp(notes.Int(16)) > 0 || (!payWord(r.low(i-1)) || r.low(i-1) == "st") && !payWord(r.low(n.next)) && !(r.low(n.next) == "on" && r.low(n.next+1) == "site") || r.low(n.next) == ":" ||
		r.low(n.next) == "straight" && !r.isNumber(n.next+1) && !r.endsClause(n.next+1) {
		return timePart{}, false
	}
	m, ok := wholeMinutes(n.v, 60)
	return timePart{kind: aStated, from: i, to: n.next, minutes: m}, ok
}

func payWord(low string) bool {
	switch low {
	case "std", "normal", "base", "work", "labor", "labour", "onsite", "reg", "regular", "st", "straight", "ot", "overtime", "dt", "doubletime":
		return true
	}
	return false
}

// payBehind reports whether hours that are paid otherwise are told behind token i: "10 w/ 2 OT".
func (r *reader) payBehind(i int) bool {
	for j := i; j < i+3; j++ {
		switch r.low(j) {
		case "w", "/", "with", "incl", "including", "of":
			continue
		}
		n, ok := r.hoursFigure(j)
		return ok && j > i && payWord(r.low(n.next))
	}
	return false
}
