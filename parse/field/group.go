package field

import (
	"slices"

	"jobday/notes"
)

// referBack takes "both", "all" and "everybody" behind people who have no time yet for those people:
// "me, Dev and Bo, everybody 7-3:30"; and "for both" behind a time for those who were named: "plus 30 min
// travel for both". The author told by name and as "me" in one breath is doubtful.
func (b *rowBuilder) referBack(a timePart, k int) bool {
	group := a.who.group || a.who.heads > 0
	if !group && a.who.self && !b.cur.timed && slices.Contains(b.cur.row.People, b.last0(a)) && k > 0 && b.parts[k-1].kind == aPerson {
		b.cur.row.Fault = "names its author twice"
		b.touch(a)
		return true
	}
	if !group || k == 0 {
		return false
	}
	if !b.cur.timed && b.cur.started && !b.cur.inherited && len(b.cur.row.People)+b.cur.unnamed > 1 && b.parts[k-1].kind == aPerson {
		b.touch(a)
		return true
	}
	if b.cur.timed && b.cur.carried && b.r.low(a.from-1) == "for" && len(b.rows) > 0 {
		b.cur.row.People, b.cur.carried = a.who.names, false
		b.touch(a)
		return true
	}
	return false
}

// last0 returns the only name of a mention, or "".
func (b *rowBuilder) last0(a timePart) string {
	if len(a.who.names) != 1 {
		return ""
	}
	return a.who.names[0]
}

// apart takes whoever is told of by name out of the row of a group he belongs to: "everyone 8, Bo 6". A time
// that is told to be for something, or to come on top, is beside the group's.
func (b *rowBuilder) apart() {
	for k := range b.rows {
		if !b.marks[k].group || b.rows[k].Travel || b.rows[k].Beside != nil {
			continue
		}
		for i := k + 1; i < min(len(b.rows), k+nearRows); i++ {
			own := &b.rows[i]
			if b.marks[i].group || own.Travel || own.Beside != nil || len(own.People) == 0 || !b.instead(own, &b.rows[k]) {
				continue
			}
			group := &b.rows[k]
			if n := len(group.People); n > len(own.People) {
				group.People = slices.DeleteFunc(slices.Clone(group.People), func(name string) bool { return slices.Contains(own.People, name) })
				group.Crew = 0
			}
		}
	}
}

// instead reports whether a person's own row stands instead of his share in the row of a group.
func (b *rowBuilder) instead(own, group *notes.TimeRow) bool {
	for _, name := range own.People {
		if !slices.Contains(group.People, name) {
			return false
		}
	}
	if own.Clock()*2 < group.Clock() {
		return false
	}
	from, to := b.r.tokenAt(own.Start), b.r.tokenAt(own.End)
	switch b.r.low(from - 1) {
	case "+", "plus", "also", "and":
		return false
	}
	return b.r.endsClause(to) || b.r.low(to) == "." || b.r.startsName(to)
}

// startsName reports whether somebody is named at token i.
func (r *reader) startsName(i int) bool {
	_, ok := r.mentionAt(i)
	return ok
}

// tokenAt returns the first token that starts at a byte offset or behind it.
func (r *reader) tokenAt(offset int) int {
	i, _ := slices.BinarySearchFunc(r.toks, offset, func(t token, at int) int { return t.start - at })
	return i
}

// madeUp holds what a duration is made up of against it: "9.5 (8 + 1.5 OT)". What does not add up to it may
// be a part of it or come on top.
func (b *rowBuilder) madeUp(a timePart, k int) {
	sum, next := notes.Minutes(0), a.to
	for ; k < len(b.parts) && b.parts[k].from-next <= 3; k++ {
		if b.parts[k].kind == aStated {
			sum += b.parts[k].minutes
		}
		next = b.parts[k].to
		if low := b.r.low(next); low == ")" || overtimeWord(low) && b.r.low(next+1) == ")" {
			break
		}
	}
	row := &b.cur.row
	if sum != row.Clock() && row.Fault == "" {
		row.Fault = "may include the " + sum.String() + " told behind it or not"
	}
	b.r.claimTokens(a.from, next)
	b.skip = next
	b.touch(a)
}

// travelAt reports whether the road is spoken of at token i.
func (r *reader) travelAt(i int) bool {
	for _, h := range r.near(i, i+2) {
		if h.sense == travelWord {
			return true
		}
	}
	return false
}
