package field

import "slices"

// takeBack passes words that take back what was told right before token i, as people do who dictate: "no
// sorry", "I mean", "make that", "strike that". It returns i when there are none. "No" alone is one only
// in a text about time, and only before a number or a name.
func (r *reader) takeBack(i int, list []timePart) int {
	last := &list[len(list)-1]
	if i-last.to > 1 || last.kind == aStop && i > last.to || i-last.to == 1 && !r.softMark(last.to) {
		return i
	}
	j, words := i, 0
	for n := 0; n < 6; n++ {
		next, sure := r.regret(j)
		if next == j {
			break
		}
		if words++; sure {
			words++
		}
		for j = next; r.softMark(j); j++ {
		}
	}
	if words == 0 || words == 1 && !r.bold {
		return i
	}
	if m, ok := r.mentionAt(j); ok && words == 1 && r.low(j-1) == "no" && !r.ownTime(m.next) {
		return i // "no Ben today"
	}
	if j >= len(r.toks) {
		if words > 1 {
			return j
		}
		return i
	}
	if r.isNumber(j) || r.toks[j].kind == symbol || r.toldOf(j) {
		return j
	}
	return i
}

// toldOf reports whether a time or a person stands at token i.
func (r *reader) toldOf(i int) bool {
	if numberWordAt(r.low(i)) || r.low(i) == "noon" {
		return true
	}
	_, ok := r.mentionAt(i)
	return ok
}

// softMark reports whether token i is a mark that parts words of one thought.
func (r *reader) softMark(i int) bool {
	switch r.low(i) {
	case ",", "-", "–", "—", "…", ".", "(":
		return !r.isNumber(i+1) || r.low(i) == "," || r.toks[i+1].spaced
	}
	return false
}

// regret passes one word or two that take back what was said. Sure is false for those that say
// something else as often.
func (r *reader) regret(i int) (next int, sure bool) {
	second := r.low(i + 1)
	switch r.low(i) {
	case "no", "nope":
		return i + 1, false
	case "wait", "actually", "rather", "oops", "hold", "well":
		return i + 1, false
	case "sorry", "correction", "whoops":
		return i + 1, true
	case "i":
		if second == "mean" || second == "meant" {
			return i + 2, true
		}
	case "i'm", "im":
		if second == "sorry" {
			return i + 2, true
		}
	case "make", "call":
		if second == "that" || second == "it" {
			return i + 2, true
		}
	case "scratch", "strike":
		if second == "that" || second == "it" {
			return i + 2, true
		}
	case "it":
		if second == "was" {
			return i + 2, false
		}
	}
	return i, false
}

// corrected puts what stands at token i, behind words that take something back, in the place of what was
// told before: of a span its end alone, if only a time of day is said. Who was told wrong goes with his
// time. What cannot be put right is doubtful.
func (r *reader) corrected(i int, list []timePart) ([]timePart, int) {
	k := len(list) - 1
	if list[k].kind == aStop && k > 0 {
		k--
	}
	old := list[k]
	if a, ok := r.insteadOf(i, old); ok {
		a.from = old.from
		list[k] = a
		return list[:k+1], a.to
	}
	if m, ok := r.mentionAt(i); ok && len(m.names) > 0 {
		if old.kind == aPerson {
			return list[:k], i // "Ines, no, Ben 7-3:30"
		}
		n := k
		for n >= 0 && list[n].kind != aPerson {
			n--
		}
		if n >= 0 && slices.Equal(list[n].who.names, m.names) {
			r.claimTokens(list[n].from, i)
			return list[:n], i
		}
	}
	if old.kind == aSpan || old.kind == aStated {
		list[k].doubt = "is taken back, or what follows is"
	}
	return list, i
}

// insteadOf reads at token i what may stand for the part before it.
func (r *reader) insteadOf(i int, old timePart) (timePart, bool) {
	switch old.kind {
	case aSpan:
		if p, ok := r.pairAt(i); ok {
			return timePart{kind: aSpan, to: p.next, pair: p}, true
		}
		if c, ok := r.clockAt(i); ok {
			if s, timed := r.stretchAt(i); timed {
				return timePart{kind: aStated, to: s.next, minutes: s.minutes, doubt: s.doubt}, true
			}
			p := old.pair
			p.to, p.next = c, c.next
			return timePart{kind: aSpan, to: c.next, pair: p}, true
		}
	case aStated:
		if p, ok := r.pairAt(i); ok && r.bold {
			return timePart{kind: aSpan, to: p.next, pair: p}, true
		}
		if s, ok := r.stretchAt(i); ok {
			return timePart{kind: aStated, to: s.next, minutes: s.minutes, flag: s.total, doubt: s.doubt}, true
		}
		if n, ok := r.hoursFigure(i); ok && old.minutes >= 60 && r.bold {
			m, ok := wholeMinutes(n.v, 60)
			return timePart{kind: aStated, to: n.next, minutes: m}, ok
		}
	case aPause:
		if p, ok := r.pauseAmount(i, true); ok {
			a := old
			a.minutes, a.to = p.minutes, p.next
			return a, true
		}
	}
	return timePart{}, false
}

// alternative reads a second amount of hours told as well: "8 or 9", "8 maybe 9". Which of them it is has
// to be asked.
func (r *reader) alternative(i int) (n num, ok bool) {
	j := i
	for k := 0; k < 4; k++ {
		switch r.low(j) {
		case "or", "maybe", "perhaps", "possibly":
			j++
			continue
		case "was", "is":
			if j > i && r.low(j+1) == "it" {
				j += 2
				continue
			}
		}
		break
	}
	if j == i || r.namesThing(j) {
		return n, false
	}
	n, ok = r.hoursFigure(j)
	if ok && hourWord(r.low(n.next)) {
		n.next++
	}
	return n, ok && (r.endsClause(n.next) || r.low(n.next) == ".")
}
