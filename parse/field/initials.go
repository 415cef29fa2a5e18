package field

import "slices"

// initialsRun reads the initials of two or more of the crew before a time: "A/K 7-5", "bt ff 730-4",
// "D+B 10h". One alone, in small letters, is read in a text about time where the one before it has his
// time: "k 7-3 e 7-3".
func (r *reader) initialsRun(i int, list []timePart) (mention, bool) {
	m := mention{}
	j := i
	for len(m.names) < 8 {
		full := r.smallInitials(j)
		if full == "" && len(m.names) > 0 && len(r.low(j)) <= 2 && r.low(j+1) == "." && r.isNumber(j+2) && r.toks[j+2].spaced {
			full = r.lex.initials[r.low(j)] // "A + K. 7-3:30"
		}
		if full == "" || slices.Contains(m.names, full) {
			break
		}
		m.names = append(m.names, full)
		j++
		m.next = j
		if low := r.low(j); low == "/" || low == "+" || low == "&" || low == "and" || low == "n" || low == "," {
			j++
		}
	}
	switch {
	case len(m.names) == 0, r.placedBefore(i, list), r.low(i) == "i" && r.saidOfSelf(i):
		return m, false
	case len(m.names) == 1:
		if _, same := r.sameAs(timePart{from: i, to: m.next}); same && r.bold && len(list) > 0 {
			return m, true // "ez same"
		}
		return m, r.bold && (r.hoursBeside(m.next) || r.joinsPerson(m.next))
	}
	if r.low(i) == "a" && r.low(i+1) == "/" && r.low(i+2) == "c" || r.mayBePhases(i, m.next) && !r.bold {
		return m, false
	}
	if r.low(m.next) == "." && r.timesBeside(m.next+1) {
		return m, true
	}
	return m, r.timesBeside(m.next) || r.bold && r.hoursBeside(m.next)
}

// dottedInitials returns the member of the crew whose initials stand with points at token i, "G.P.", and the
// token behind them.
func (r *reader) dottedInitials(i int) (full string, next int) {
	if r.lex == nil || len(r.low(i)) != 1 || len(r.low(i+2)) != 1 || r.low(i+1) != "." || !r.close(i+1) || !r.close(i+2) || !r.capital(i) || !r.capital(i+2) {
		return "", i
	}
	next = i + 3
	if r.low(next) == "." && r.close(next) {
		next++
	}
	return r.lex.initials[r.low(i)+r.low(i+2)], next
}

// joinsPerson reports whether somebody with his hours is joined at token i: "ez n me 8".
func (r *reader) joinsPerson(i int) bool {
	switch r.low(i) {
	case "n", "and", "&", "/", "+":
		m, ok := r.mentionAt(i + 1)
		return ok && r.hoursBeside(m.next)
	}
	return false
}

// placedBefore reports whether words that are no part of a line about time stand right before token i, so
// that a letter there is the name of a thing: "panel k", "a".
func (r *reader) placedBefore(i int, list []timePart) bool {
	if i == 0 || r.low(i-1) == "." && r.sentenceEnds(i-1) {
		return false
	}
	if len(list) == 0 {
		return r.low(i-1) != ":" && !r.afterHoursLabel(i)
	}
	gap := i - list[len(list)-1].to
	return gap > 1 || gap == 1 && !joining(r.low(i-1)) && r.low(i-1) != ";" && r.low(i-1) != "."
}

// mayBePhases reports whether letters are all names of phases and legs: "A/B", "L N".
func (r *reader) mayBePhases(from, to int) bool {
	for i := from; i < to; i++ {
		switch r.low(i) {
		case "a", "b", "c", "n", "g", "l", "/", "+", "&", ",", "and":
		default:
			return false
		}
	}
	return true
}

// timesBeside reports whether a clock span or a duration that can be nothing else stands at token i.
func (r *reader) timesBeside(i int) bool {
	if r.low(i) == ":" {
		i++
	}
	if p, ok := r.pairAt(i); ok {
		return r.bold || p.strong() || !p.rises() || r.pauseFollows(p.next)
	}
	if _, ok := r.stretchAt(i); ok {
		return true
	}
	return r.bold && r.bareHours(i)
}

// hoursBeside reports whether a clock span or hours stand at token i.
func (r *reader) hoursBeside(i int) bool {
	if r.low(i) == ":" {
		i++
	}
	if _, ok := r.pairAt(i); ok {
		return true
	}
	_, ok := r.stretchAt(i)
	return ok || r.bareHours(i)
}

// joinsNamed reports whether one of ours is joined at token i: "self & Ben".
func (r *reader) joinsNamed(i int) bool {
	switch r.low(i) {
	case "and", "&", "+", "/", "n", ",":
		_, ok := r.nameAt(i + 1)
		return ok
	}
	return false
}
