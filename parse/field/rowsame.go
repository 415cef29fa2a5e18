package field

import (
	"slices"

	"jobday/notes"
)

// same gives somebody the times of whoever was told of before: "Sam 7-3:30, Tobias same", "helper same less
// 1 hr", "Bo & Cass same", "Bo 1 hr less".
func (b *rowBuilder) same(a timePart, k int) bool {
	if len(a.who.names) == 0 && !a.who.me {
		return false
	}
	at, says := b.r.sameAs(a)
	joined := !says && b.joinsSame(k)
	less, next, isLess := b.r.lessAt(at)
	if isLess && !says {
		isLess = b.r.low(next-1) == "less" || b.r.low(next-1) == "more"
	}
	if !says && !joined && !isLess || says && b.r.ownTime(at) {
		return false
	}
	b.flush()
	if len(b.rows) == 0 {
		if !isLess {
			less = 0
		} else {
			b.skip = next
		}
		return b.nothingBefore(a, at, less)
	}
	from := len(b.rows)
	b.copyLast(a.who.names)
	for k := from; k < len(b.rows) && a.who.me; k++ {
		b.mine = append(b.mine, k)
	}
	n := len(b.rows) - 1
	b.rows[n].Start, b.rows[n].End = b.r.piece(a.from, max(at, a.to))
	if isLess {
		b.shorten(&b.rows[n], less)
		b.skip = next
	}
	b.sameEnd = k
	return true
}

// copyLast gives people all the time of those of the last row.
func (b *rowBuilder) copyLast(names []string) {
	last := b.rows[len(b.rows)-1].People
	from, to := max(0, len(b.rows)-nearRows), len(b.rows)
	for k := from; k < to; k++ {
		if row := b.rows[k]; slices.Equal(row.People, last) {
			row.People, row.Crew, row.Spans = names, 0, slices.Clone(row.Spans)
			if len(row.Spans) == 0 {
				row.Each = len(names) > 1
			}
			b.rows = append(b.rows, row)
			b.marks = append(b.marks, b.marks[k])
		}
	}
}

// shorten takes minutes off a row. When they were missed is not told, so that its hours stand without
// clock times.
func (b *rowBuilder) shorten(row *notes.TimeRow, m notes.Minutes) {
	clock := row.Clock()
	row.Spans, row.Break, row.Stated = nil, 0, clock-m
	if row.Stated <= 0 {
		row.Stated, row.Fault = clock, "has less time than is taken off"
	}
	row.Each = len(row.People) > 1
}

// nothingBefore keeps somebody who has the same as nobody, so that he is asked for.
func (b *rowBuilder) nothingBefore(a timePart, at int, less notes.Minutes) bool {
	if !b.r.bold || len(a.who.names) == 0 {
		return false
	}
	row := notes.TimeRow{
		People: a.who.names, Fault: "says the same, with nothing before it",
		Beside: &notes.TimeBeside{Same: true, Less: less},
	}
	row.Start, row.End = b.r.piece(a.from, max(at, a.to))
	b.rows, b.marks = append(b.rows, row), append(b.marks, rowMark{})
	return true
}

// joinsSame reports whether the person at parts[k] is joined to one who has the same: "Bo & Cass same".
func (b *rowBuilder) joinsSame(k int) bool {
	if k > 0 && b.sameEnd == k-1 && b.parts[k-1].kind == aPerson && b.r.onlyJoins(b.parts[k-1].to, b.parts[k].from) && !b.leads(k) && b.parts[k].from-b.parts[k-1].to == 1 && b.r.low(b.parts[k-1].to) != "," {
		return true
	}
	for n := 0; n < 8 && k+1 < len(b.parts) && b.parts[k+1].kind == aPerson && b.r.onlyJoins(b.parts[k].to, b.parts[k+1].from); n++ {
		k++
		if _, says := b.r.sameAs(b.parts[k]); says {
			return true
		}
	}
	return false
}

// ownTime reports whether a time stands at token i.
func (r *reader) ownTime(i int) bool {
	_, ok := r.pairAt(i)
	if !ok && i < len(r.toks) {
		_, ok = r.stretchAt(i)
	}
	return ok || r.bold && i < len(r.toks) && r.bareHours(i)
}

// sameAs reports whether "same" or "ditto" stands beside a person: "Tobias same", "Ben the same",
// "same for Ben". It returns the token behind all that.
func (r *reader) sameAs(a timePart) (next int, says bool) {
	i := a.to
	if low := r.low(i); low == "did" || low == "had" || low == "worked" || low == "was" {
		i++
	}
	if low := r.low(i); low == "the" || low == ":" || low == "-" {
		i++
	}
	before := r.low(a.from - 1)
	if before == "for" || before == "with" || before == "/" {
		before = r.low(a.from - 2)
		if before == "w" {
			before = r.low(a.from - 3)
		}
	}
	if r.low(i) == "same" || r.low(i) == "ditto" {
		if i++; r.low(i) == "hrs" || r.low(i) == "hours" || r.low(i) == "time" || r.low(i) == "times" {
			i++
		}
		return i, !r.breakWord(i)
	}
	if next, says = r.alsoAt(a.to); says {
		return next, true
	}
	return a.to, before == "same" || before == "ditto"
}

// alsoAt passes other words for the same that end a clause behind a person: "Ben also", "Ben as well".
func (r *reader) alsoAt(i int) (next int, ok bool) {
	for r.low(i) == "-" || r.low(i) == ":" {
		i++
	}
	switch r.low(i) {
	case "also", "too", "likewise", "idem", "similar":
		i++
	case "as":
		if r.low(i+1) != "well" && r.low(i+1) != "above" {
			return i, false
		}
		i += 2
	default:
		return i, false
	}
	return i, (r.endsClause(i) || r.low(i) == ".") && (r.bold || r.low(i) != "but") // what differs is read boldly only
}

// signed gives a row without people to the name that stands alone at the end: "50 mins. Tobias".
func (b *rowBuilder) signed(a timePart, parts []timePart, k int) bool {
	if b.cur.timed || k == 0 || k+1 != len(parts) || parts[k-1].kind != aStop || parts[k-1].to != a.from || len(b.rows) == 0 ||
		a.to < len(b.r.toks)-1 || len(a.who.names) == 0 {
		return false
	}
	row := &b.rows[len(b.rows)-1]
	if len(row.People) > 0 || row.Crew > 0 {
		return false
	}
	row.People = a.who.names
	_, row.End = b.r.piece(a.from, a.to)
	return true
}

// onlyJoins reports whether only joining signs stand between two tokens.
func (r *reader) onlyJoins(from, to int) bool {
	for i := from; i < to; i++ {
		if low := r.low(i); !joining(low) && low != "an" && low != "n" {
			return false
		}
	}
	return to-from <= 2
}

// commaBetween reports whether a clause ends between two tokens.
func (r *reader) commaBetween(from, to int) bool {
	for i := from; i < to && i < from+clauseReach; i++ {
		if r.breaks(i) {
			return true
		}
	}
	return false
}

// separated reports whether a comma stands before token i.
func (r *reader) separated(i int) bool { return r.low(i-1) == "," || r.low(i-1) == "/" }
