package field

import "slices"

// same gives somebody the times of the row before: "Sam 7-3:30, Tobias same".
func (b *rowBuilder) same(a timePart) bool {
	if len(a.who.names) == 0 || !b.r.sameAs(a) {
		return false
	}
	b.flush()
	if len(b.rows) == 0 {
		return false
	}
	row := b.rows[len(b.rows)-1]
	row.People, row.Crew, row.Spans = a.who.names, 0, slices.Clone(row.Spans)
	row.Start, row.End = b.r.piece(a.from, a.to+1)
	b.rows = append(b.rows, row)
	b.told = append(b.told, b.told[len(b.told)-1])
	return true
}

// sameAs reports whether "same" or "ditto" stands beside a person: "Tobias same", "Ben the same",
// "same for Ben".
func (r *reader) sameAs(a timePart) bool {
	i := a.to
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
	return r.low(i) == "same" || r.low(i) == "ditto" || before == "same" || before == "ditto"
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
