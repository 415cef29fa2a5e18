package field

import "jobday/notes"

// A pause is an unpaid break as read.
type pause struct {
	minutes notes.Minutes
	next    int
	pair    clockPair // "lunch 12-12:30"; next is 0 for none
}

// pauseAt reads the break that starts at token i: "30 lunch", "w/ 30 lunch", "less 1/2",
// "lunch 30", "no lunch". Inside says that a span stands before it, so that "less 30" is one.
func (r *reader) pauseAt(i int, inside bool) (pause, bool) {
	switch low := r.low(i); {
	case low == "lunch" || low == "break", (low == "unpaid" || low == "pause") && inside && (r.isNumber(i+1) || r.low(i+1) == ":"):
		return r.pauseAfterWord(i + 1)
	case inside && low == "took":
		p, ok := r.pauseAmount(i+1, true)
		return p, ok && r.endsClause(p.next)
	case inside && (low == "less" || low == "minus") && r.breakWord(i+1):
		if r.low(i+2) == "(" {
			i++
		}
		return r.pauseAfterWord(i + 2)
	case inside && (low == "less" || low == "minus") && ownWord(r.low(i+1)):
		return r.pauseAmount(i+2, true) // "less the 45 min dentist"
	case inside && (low == "less" || low == "minus" || low == "-" && !r.close(i) && (r.isNumber(i+1) || r.low(i+1) == ".") && r.bold):
		return r.pauseAmount(i+1, true)
	case (low == "hour" || low == "hr") && r.breakWord(i+1):
		return pause{minutes: 60, next: i + 2}, true
	case inside && r.bold && (low == "hour" || low == "hr") && r.low(i+1) == "for" && r.breakWord(i+2):
		return pause{minutes: 60, next: i + 3}, true
	case (low == "a" || low == "an") && !hourWord(r.low(i+1)) && r.low(i+1) != "half" && r.low(i+1) != "quarter":
		return pause{}, false
	}
	p, ok := r.pauseAmount(i, false)
	if !ok && inside && r.bold {
		return r.pauseOut(i)
	}
	return p, ok
}

// ownWord reports whether a word tells whose or which: "the", "his".
func ownWord(low string) bool {
	switch low {
	case "the", "my", "his", "her", "their", "our", "about":
		return true
	}
	return false
}

// pauseOut reads an amount of time that is told to be off the clock, without a word for the break: "half hour
// out", "an hour off at noon".
func (r *reader) pauseOut(i int) (pause, bool) {
	p, ok := r.pauseAmount(i, true)
	if !ok || p.minutes > longBreak || r.low(p.next) != "out" && r.low(p.next) != "off" {
		return p, false
	}
	if p.next++; r.low(p.next) == "at" && (r.low(p.next+1) == "noon" || r.low(p.next+1) == "midday") {
		p.next += 2
	}
	return p, r.endsClause(p.next) || everyone(r.low(p.next))
}

// pauseAmount reads "30", "1/2", "half hr", and the word "lunch" after it; without the word only
// when bare is allowed.
func (r *reader) pauseAmount(i int, bare bool) (pause, bool) {
	if i >= len(r.toks) || r.tailOfSomething(i) && r.low(i-1) != "-" && r.low(i-1) != "/" {
		return pause{}, false
	}
	n, ok := r.num(i)
	if !ok {
		return pause{}, false
	}
	if c, next, ok := r.commaFigure(i); ok {
		n.v, n.next = c, next
	}
	p := pause{next: n.next}
	if s, timed := r.unitOfTime(n.v, n.next); timed {
		p.minutes, p.next = s.minutes, s.next
	} else if p.minutes, ok = bareMinutes(n.v); !ok {
		return pause{}, false
	}
	j := p.next
	if r.low(j) == "min" || r.low(j) == "m" {
		j++
	}
	if everyone(r.low(j)) && r.low(j+1) == "for" {
		j++
	}
	if r.low(j) == "off" || r.low(j) == "out" || r.low(j) == "taken" {
		j++
	}
	if (r.low(j) == "all" || r.low(j) == "in") && (r.low(j+1) == "up" || r.low(j+1) == "told" || r.low(j+1) == "all") && r.low(j+2) == "for" {
		j += 2
	}
	if r.low(j) == "for" || r.low(j) == "of" || r.low(j) == "at" || r.low(j) == "to" {
		j++
	}
	if r.low(j) == "breaks" && r.low(j-1) == "for" {
		p.next = j + 1
		return p, p.minutes <= 4*60
	}
	if r.low(j) == "unpaid" || r.low(j) == "a" {
		j++
	}
	if r.breakWord(j) || r.low(j-1) == "unpaid" {
		if r.breakWord(j) {
			j++
		}
		if (r.low(j) == "out" || r.low(j) == "off") && r.endsClause(j+1) {
			j++
		}
		p.next = j
		return p, p.minutes <= 4*60
	}
	return p, bare && p.minutes <= 4*60
}

// bareMinutes reads a break without unit: below 3 it is hours, from 5 on minutes.
func bareMinutes(v notes.Decimal) (notes.Minutes, bool) {
	switch {
	case v.Cmp(notes.Int(3)) < 0:
		return wholeMinutes(v, 60)
	case v.Cmp(notes.Int(5)) >= 0 && v.Cmp(notes.Int(120)) <= 0 && v.IsWhole():
		return wholeMinutes(v, 1)
	}
	return 0, false
}

// pauseAfterWord reads what follows "lunch": "30", "12-12:30", "was 30 min".
func (r *reader) pauseAfterWord(i int) (pause, bool) {
	for r.low(i) == "was" || r.low(i) == "of" || r.low(i) == ":" || r.low(i) == "from" || r.low(i) == "=" || r.low(i) == "break" {
		i++
	}
	if i >= len(r.toks) {
		return pause{}, false
	}
	if low := r.low(i); low == "none" || low == "skipped" {
		return pause{next: i + 1}, true
	}
	if p, ok := r.pairAt(i); ok {
		s, doubt := p.span(0)
		return pause{minutes: s.Minutes(), next: p.next, pair: p}, doubt == "" && s.Minutes() <= 4*60
	}
	return r.pauseAmount(i, true)
}

// ownPause reads a break as the usual one of those who had it: "we took our half hour", "with the usual half
// hour".
func (r *reader) ownPause(i int, inside bool) (timePart, bool) {
	if !inside || !r.bold {
		return timePart{}, false
	}
	switch r.low(i) {
	case "our", "their", "his", "her", "my", "usual":
	default:
		return timePart{}, false
	}
	j := i + 1
	if r.low(j) == "usual" {
		j++
	}
	p, ok := r.pauseAmount(j, true)
	if !ok || p.minutes < 15 || p.minutes > longBreak || !r.endsClause(p.next) {
		return timePart{}, false
	}
	for r.low(i-1) == "took" || r.low(i-1) == "had" || r.low(i-1) == "with" || r.low(i-1) == "the" {
		i--
	}
	return timePart{kind: aPause, from: i, to: p.next, minutes: p.minutes, flag: r.low(j-1) == "our" || r.low(j-1) == "their"}, true
}
