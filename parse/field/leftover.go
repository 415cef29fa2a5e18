package field

import "jobday/notes"

// leftover makes a row doubtful when a number beside it that may be hours, a break or a time of day was
// read as nothing: what a line of hours says is never passed over. Numbers that count or name a thing are
// no part of that.
func (b *rowBuilder) leftover() {
	r := b.r
	if !r.bold || len(b.rows) == 0 {
		return
	}
	k, row := 0, 0
	for i := 0; i < len(r.toks); i++ {
		for k < len(b.parts) && b.parts[k].to <= i {
			k++
		}
		if k < len(b.parts) && b.parts[k].from <= i || r.toks[i].start < b.skipped(i) {
			continue
		}
		for row+1 < len(b.rows) && b.rows[row+1].Start <= r.toks[i].start {
			row++
		}
		next, ok := r.looseNumber(i)
		if !ok && k > 0 && b.parts[k-1].kind == aPerson && b.parts[k-1].to == i {
			next, ok = r.maybeHours(i) // "Ana 8 Bo 6 boxes"
		}
		if !ok || r.listNumber(i) || len(b.rows[row].People) == 0 && b.rows[row].Crew == 0 && b.parts[0].from > 2 {
			continue
		}
		if r.claimed(r.toks[i].start) {
			i = next - 1
			continue
		}
		if b.rows[row].Fault == "" && !b.explained(i, row) {
			b.rows[row].Fault = "leaves " + r.text[r.toks[i].start:r.toks[next-1].end] + " unread"
		}
		i = next - 1
	}
}

// explained reports whether the number at token i only says once more what a row or all rows come to: its
// hours, those of all its people, or how many those are.
func (b *rowBuilder) explained(i, row int) bool {
	switch b.r.low(i - 1) {
	case "at", "in", "out", "till", "until", "by":
		return false // a time of day
	}
	n, _ := b.r.num(i)
	if n.small == b.rows[row].Heads() && n.v.IsWhole() {
		return true
	}
	m, ok := wholeMinutes(n.v, 60)
	if !ok {
		return false
	}
	all := notes.Minutes(0)
	for k := max(0, len(b.rows)-nearRows); k < len(b.rows); k++ {
		all += b.rows[k].PersonMinutes()
	}
	return m == b.rows[row].Clock() || m == b.rows[row].PersonMinutes() || m == all
}

// skipped returns up to which byte the text was read by rows themselves.
func (b *rowBuilder) skipped(i int) int {
	if i < b.skip && b.skip <= len(b.r.toks) {
		return b.r.toks[b.skip-1].end
	}
	return 0
}

// maybeHours reports whether the number at token i, right behind somebody, may be his hours, and where it ends.
func (r *reader) maybeHours(i int) (next int, ok bool) {
	n, ok := r.hoursFigure(i)
	return n.next, ok && n.form == digits && !r.close(n.next)
}

// looseNumber reports whether a number that may be about time stands alone at token i, and where it ends.
func (r *reader) looseNumber(i int) (next int, ok bool) {
	t := &r.toks[i]
	if t.kind != number && !numberWordAt(t.low) && !partSign(t.low) && !(t.low == "." && r.isNumber(i+1) && r.close(i+1)) {
		return i, false
	}
	if r.low(i-1) == "/" && r.close(i) && r.close(i-1) && r.isNumber(i-2) {
		return i, false // "10/6" is a day
	}
	if t.low == "a" || t.low == "an" || t.low == "couple" || t.low == "one" || r.tailOfSomething(i) && r.low(i-1) != "/" {
		return i, false
	}
	n, ok := r.num(i)
	if !ok || n.v.Sign() <= 0 || n.form == article {
		return i, false
	}
	switch r.low(i - 1) {
	case "till", "until", "by", "at", "about", "around":
		if low := r.low(i - 2); low != "in" && low != "out" && low != "left" && low != "came" && low != "here" {
			return i, false // when something else was
		}
	}
	c, timed := r.clockAt(i)
	if timed && c.next > n.next {
		n.next = c.next
	}
	if low := r.low(n.next); timed && (c.clear || c.packed) && (low == "off" || low == "out") && r.hoursEach(n.next+2) {
		return i, false // "1530 off. 9 each"
	}
	if i > 0 && (r.numbered(i-1) || r.placeWord(i-1) || r.low(i-1) == "#" || r.low(i-1) == "job" || r.low(i-1) == "of") {
		return i, false
	}
	switch r.low(n.next) {
	case "", ",", ";", ".", ")", "|", "/", "off", "same", "each", "ea", "both", "all", "hrs", "hr", "h", "min":
		return n.next, n.next >= len(r.toks) || r.low(n.next) != "." || !r.close(n.next+1)
	}
	m, ok := r.nameAt(n.next)
	return n.next, ok && r.endsClause(m.next) && n.v.Cmp(notes.Int(16)) <= 0
}
