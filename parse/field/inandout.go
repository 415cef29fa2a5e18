package field

import "jobday/notes"

// inAndOut reads "on site 7:10, off site 2:50" and "in 7:00 out 3:30" as a span.
func (r *reader) inAndOut(in hit, k int, list []timePart) (timePart, bool) {
	a, ok := r.clockAfter(in.to)
	if !ok {
		return timePart{}, false
	}
	out0 := a.next
	if r.softMark(out0) {
		out0++
	}
	if out := out0; r.bold && (r.low(out) == "off" || r.low(out) == "go" || r.low(out) == "went") {
		if b, ok := r.clockAfter(out + 1); ok {
			return timePart{kind: aSpan, from: in.from, to: b.next, pair: clockPair{from: a, to: b, next: b.next}}, true
		}
	}
	lunch, from := r.between(a.next)
	for _, out := range r.seen.hits[k+1:] {
		if out.from > from+4 || r.someoneIn(a.next, out.from) {
			break
		}
		if out.sense != clockOut || out.from < a.next {
			continue
		}
		b, ok := r.clockAfter(out.to)
		said := r.low(in.to) == "at" && r.low(out.to) == "at" || a.military && b.military
		if r.low(in.from) == "on" && r.low(in.to-1) == "at" && !r.afterPerson(in.from, list) {
			return timePart{}, false // "lights on at 7, off at 3:30"
		}
		if !ok || !a.clear && !b.clear && !r.bold && !said && !(r.clockStops(b.next) && len(r.low(in.from)) > 2) && !r.afterPerson(in.from, list) {
			continue
		}
		p := clockPair{from: a, to: b, next: b.next}
		return timePart{kind: aSpan, from: in.from, to: b.next, pair: p, minutes: lunch}, true
	}
	return timePart{}, false
}

// between reads what stands between a coming and a going: a break, "in 645 lunch 1130-12 out 315". It is
// ended by somebody else.
func (r *reader) between(i int) (lunch notes.Minutes, next int) {
	next = i
	if !r.bold {
		return 0, next
	}
	for r.softMark(next) {
		next++
	}
	if p, ok := r.pauseAt(next, true); ok && r.breakWord(next) {
		return p.minutes, p.next
	}
	return 0, i
}

// someoneIn reports whether somebody of ours is named from token i to token to.
func (r *reader) someoneIn(i, to int) bool {
	for ; i < to; i++ {
		if m, ok := r.nameAt(i); ok && !m.weak {
			return true
		}
	}
	return false
}

// countsAll reports whether the number at token i counts people: "all 3 7-3:30".
func (r *reader) countsAll(i int) bool {
	n, ok := r.num(i)
	return ok && r.ownTime(n.next)
}

// clockAfter reads a time of day at token i, past "at" or ":".
func (r *reader) clockAfter(i int) (clockTime, bool) {
	for n := 0; n < 2 && (r.low(i) == "at" || r.low(i) == "@" || r.low(i) == ":" || r.low(i) == "by" || r.low(i) == "around" || r.low(i) == "about"); n++ {
		i++
	}
	c, ok := r.clockAt(i)
	if !ok || c.next >= len(r.toks) || c.clear {
		return c, ok
	}
	switch t := &r.toks[c.next]; {
	case t.kind == word:
		return c, t.low == "and" || r.startsOut(c.next) || r.bold && (t.low == "off" || t.low == "go" || t.low == "went" || r.breakFollows(c.next))
	case t.kind == number:
		return c, r.bold && r.pauseFollows(c.next)
	}
	return c, r.clockStops(c.next)
}

// breakFollows reports whether a break, or that there was none, is told at token i.
func (r *reader) breakFollows(i int) bool {
	for _, h := range r.near(i, i+1) {
		if h.sense == noBreak {
			return true
		}
	}
	return r.pauseFollows(i)
}

// setOut reads when somebody left for the job: "left shop 6:15".
func (r *reader) setOut(i int) (timePart, bool) {
	j := i + 1
	if r.low(j) == "the" {
		j++
	}
	switch r.low(j) {
	case "shop", "yard", "home", "house", "office":
	default:
		return timePart{}, false
	}
	c, ok := r.clockAfter(j + 1)
	return timePart{kind: aSetOut, from: i, to: c.next, pair: clockPair{from: c, to: c, next: c.next}}, ok && r.bold
}

func (r *reader) startsOut(i int) bool {
	for _, h := range r.near(i, i+1) {
		if h.sense == clockOut {
			return true
		}
	}
	return false
}

// wayBack passes words at token i that say the way back took as long: "ditto home", "the same going back".
func (r *reader) wayBack(i int) int {
	j := i + 1
	for r.low(j) == "going" || r.low(j) == "coming" || r.low(j) == "way" || r.low(j) == "on" || r.low(j) == "the" {
		j++
	}
	if low := r.low(j); (low == "home" || low == "back") && (r.endsClause(j+1) || r.low(j+1) == ".") {
		return j + 1
	}
	return i
}
