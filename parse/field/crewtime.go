package field

import (
	"slices"
)

// wholeCount reads words that count people who all worked the same hours: "all four", "all 3 of us",
// "both men", "the pair of us", "us two".
func (r *reader) wholeCount(i int, inside bool) (timePart, bool) {
	a := timePart{kind: aCrew, from: i}
	switch low := r.low(i); low {
	case "all":
		n, ok := r.num(i + 1)
		if !ok || n.small < 2 || n.small > 20 || n.form == article {
			return a, false
		}
		a.heads, a.to = n.small, n.next
		if next, ok := r.ofUs(a.to); ok {
			a.to = next
			return a, true
		}
		if r.personNoun(a.to) {
			a.to++
			return a, true
		}
		if low := r.low(a.to); r.bold && (low == "-" || low == "," || low == "–" || low == "/") && r.timeFollows(a.to+1) {
			return a, true
		}
		return a, r.timeFollows(a.to) || inside && r.bold && (r.endsClause(a.to) || r.low(a.to) == "/") && r.lex != nil && len(r.lex.Crew) == a.heads
	case "both":
		a.heads, a.to = 2, i+2
		return a, r.personNoun(i+1) || r.low(i+1) == "electricians"
	case "pair", "two", "three", "four":
		next, ok := r.ofUs(i + 1)
		a.heads, a.to = 2, next
		if n := unitWord(low); n > 0 {
			a.heads = n
		}
		return a, ok
	case "us":
		n, ok := r.num(i + 1)
		if !ok || n.small < 2 || n.small > 9 || n.form == article || r.low(i-1) == "gave" || r.low(i-1) == "cost" {
			return a, false
		}
		a.heads, a.to = n.small, n.next
		return a, a.to >= len(r.toks) || r.clockStops(a.to) || r.timeFollows(a.to)
	}
	return a, false
}

// ofUs passes "of us" and "of them" at token i.
func (r *reader) ofUs(i int) (int, bool) {
	return i + 2, r.low(i) == "of" && (r.low(i+1) == "us" || r.low(i+1) == "them")
}

// addMe counts the author once in a row of people, and not beside "we".
func (b *rowBuilder) addMe() {
	if b.cur.me || b.hasCrew() {
		return
	}
	b.cur.me = true
	b.cur.unnamed++
}

// hasCrew reports whether the row is of the whole crew already: "we had me and Ezra".
func (b *rowBuilder) hasCrew() bool {
	if b.r.lex == nil || len(b.r.lex.Crew) < 2 {
		return false
	}
	for _, name := range b.r.lex.Crew {
		if !slices.Contains(b.cur.row.People, b.r.bookName(name)) {
			return false
		}
	}
	return true
}

// nameMe gives "me" in a note that does not say who wrote it the name of the only one of its crew who is
// not named in the text.
func (b *rowBuilder) nameMe() {
	if len(b.mine) == 0 || b.r.lex == nil {
		return
	}
	me, at := "", 0
	for k, name := range b.r.lex.Crew {
		full := b.r.bookName(name)
		if slices.Contains(b.named, full) {
			continue
		}
		if me != "" {
			return
		}
		me, at = full, k
	}
	if me == "" {
		return
	}
	for _, k := range b.mine {
		row := &b.rows[k]
		if row.Crew > len(row.People)+1 || slices.Contains(row.People, me) {
			continue
		}
		if len(row.People) > 0 && b.crewPlace(row.People[0]) < at {
			row.People = append(slices.Clone(row.People), me)
		} else {
			row.People = append([]string{me}, row.People...)
		}
		row.Crew = 0
		row.Each = len(row.Spans) == 0 && (row.Each || len(row.People) > 1)
	}
}

// listsAgain reports whether the person at parts[k] is one of those a sentence before only listed: "Ines, Ben.
// Ines 7-3:30, Ben 7-2".
func (b *rowBuilder) listsAgain(a timePart, k int) bool {
	if k == 0 || b.parts[k-1].kind != aStop || len(b.cur.row.People) <= len(a.who.names) || b.cur.turns != 0 {
		return false
	}
	for _, name := range a.who.names {
		if !slices.Contains(b.cur.row.People, name) {
			return false
		}
	}
	return len(a.who.names) > 0
}

// meansUs takes "we" right behind two people or more for those: "me and Gus, we were here at seven".
func (b *rowBuilder) meansUs(a timePart, k int) bool {
	if !a.who.we || k == 0 || b.cur.timed || b.cur.inherited || b.parts[k-1].kind != aPerson || len(b.cur.row.People)+b.cur.unnamed < 2 || a.from-b.parts[k-1].to > 1 {
		return false
	}
	b.touch(a)
	return true
}

// crewPlace returns where a person stands in the note's crew, or behind all of it.
func (b *rowBuilder) crewPlace(full string) int {
	for k, name := range b.r.lex.Crew {
		if b.r.bookName(name) == full {
			return k
		}
	}
	return len(b.r.lex.Crew)
}

// sawNames keeps who was named in the text by name.
func (b *rowBuilder) sawNames(m mention) {
	if m.we || m.group || m.heads > 0 || len(m.names) > 8 {
		return
	}
	b.named = append(b.named, m.names...)
}
