package field

import "jobday/notes"

// regularDay is the day that overtime is told beside. Common practice, no source.
const regularDay = 8 * 60

// overtimeWord reports whether a word says that hours are paid as overtime.
func overtimeWord(low string) bool {
	switch low {
	case "ot", "overtime", "dt", "doubletime":
		return true
	}
	return false
}

// overtime takes hours of overtime told behind the hours of the day. They are a part of those where it
// says so, or where eight hours and they make them up: "10 hrs, 2 OT"; they come on top of those where it
// says so, or of a day of eight hours at most: "8 reg 2 OT". Of others it has to be asked: "9 hrs, 2 OT".
// It returns false where the duration is no overtime of the row in the making, or comes on top.
func (b *rowBuilder) overtime(a timePart) bool {
	r := b.r
	if !overtimeWord(r.low(a.to)) && !overtimeWord(r.low(a.from-1)) && !(r.low(a.to) == "of" && overtimeWord(r.low(a.to+2))) || !b.cur.timed || b.cur.row.Travel {
		return false
	}
	row := &b.cur.row
	if b.cur.sum > 0 {
		b.cur.sum += a.minutes // "6-4, 8 reg 2 OT"
		b.touch(a)
		r.claimTokens(a.from, a.to)
		return true
	}
	day := row.Stated
	if len(row.Spans) > 0 {
		day = row.Clock()
	}
	bracket := r.low(b.cur.to) == "("
	switch {
	case !bracket && r.onTop(b.cur.to, a.from), r.regular(b.cur.to), day < regularDay && len(row.Spans) == 0, day == regularDay && len(row.Spans) == 0:
		return false
	case day == regularDay+a.minutes, len(row.Spans) == 0 && (r.partOf(a.from) || bracket):
	case row.Fault == "":
		row.Fault = "may include the " + a.minutes.String() + " of overtime or not"
	}
	b.touch(a)
	r.claimTokens(a.from, a.to)
	return true
}

// onTop reports whether a sign between two tokens adds what follows.
func (r *reader) onTop(from, to int) bool {
	for i := from; i < to; i++ {
		switch r.low(i) {
		case "+", "plus", "then", "and":
			return true
		}
	}
	return false
}

// regular reports whether the hours that end before token i are told to be the regular ones.
func (r *reader) regular(i int) bool {
	for j := i - 3; j <= i; j++ {
		if low := r.low(j); payWord(low) && !overtimeWord(low) {
			return true
		}
	}
	return false
}

// partOf reports whether the words before token i make what follows a part of what was told.
func (r *reader) partOf(i int) bool {
	switch r.low(i - 1) {
	case "(", "incl", "including", "includes", "w", "with", "/", "of":
		return true
	}
	return false
}

// lessAt reads how much less than another somebody worked, at token i: "less 1 hr", "minus 30", "1 hr
// less". A figure alone is hours below 5, else minutes.
func (r *reader) lessAt(i int) (m notes.Minutes, next int, ok bool) {
	before := r.low(i) == "less" || r.low(i) == "minus" || r.low(i) == "but"
	if before {
		i++
	}
	if s, timed := r.stretchAt(i); timed {
		if !before && r.low(s.next) == "more" {
			s.minutes, s.next = -s.minutes, s.next+1
			return s.minutes, s.next, r.endsClause(s.next) || r.low(s.next) == "."
		}
		if !before && r.low(s.next) != "less" {
			return 0, i, false
		}
		if !before {
			s.next++
		}
		return s.minutes, s.next, r.low(s.next) == "" || r.endsClause(s.next) || r.low(s.next) == "."
	}
	n, ok := r.num(i)
	if !ok || !before || r.low(i-1) == "but" {
		return 0, i, false
	}
	unit := 60
	if n.v.Cmp(notes.Int(5)) >= 0 {
		unit = 1
	}
	m, ok = wholeMinutes(n.v, unit)
	return m, n.next, ok && (r.endsClause(n.next) || r.low(n.next) == ".")
}

// inclBehind reports whether what stands at token i says that the time before it is a part of what was
// told: "(1/2 hr travel incl)".
func (r *reader) inclBehind(i int) bool {
	for j := i; j < i+3; j++ {
		switch r.low(j) {
		case "travel", "drive", "driving", "time", "lunch":
		case "incl", "included", "inc":
			return true
		default:
			return false
		}
	}
	return false
}
