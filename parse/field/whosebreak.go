package field

import (
	"slices"

	"jobday/notes"
)

// fullDay is the shortest day on the clock that counts as a full one. Common practice, no source.
const fullDay = 6 * 60

// breakOf says whose break the pause at parts[k] is, where it names somebody whose times are told
// already: "lunch 1/2 Ana only", "30m me", "no lunch for Bo", "Bo no lunch", "others 30", "30 lunch except
// Bo". It returns how many parts that takes, 0 where nobody is named so.
func (b *rowBuilder) breakOf(k int) int {
	var people []string
	var how mention
	n := 0
	switch a := b.parts[k]; a.kind {
	case aPause:
		if a.doubt != "" {
			return 0
		}
		people, how, n = b.clocked(k+1, a.to)
		if n == 0 || b.leads(k+n) || how.group || how.heads > 1 {
			return 0
		}
		if b.r.excluded(a.to, b.parts[k+1].from) {
			own := notes.Minutes(0)
			if next := b.part(k + n + 1); next.kind == aPause && next.from-b.parts[k+n].to <= 1 {
				own = next.minutes // "no lunch except Ben 30"
			}
			b.breakBut(people, a.minutes)
			b.takeOff(people, how, own)
			if own > 0 {
				b.claimParts(k, k+n+1)
				return n + 2
			}
		} else {
			b.takeOff(people, how, a.minutes)
		}
		if only := b.parts[k+n].to; b.r.low(only) == "only" || b.r.low(b.parts[k+1].from-1) == "only" {
			b.settle()
		}
		b.claimParts(k, k+n)
		return n + 1
	case aPerson:
		people, how, n = b.clocked(k, a.from)
		if n == 0 || k+n >= len(b.parts) || b.parts[k+n].kind != aPause || b.parts[k+n].doubt != "" || !b.r.tookWords(b.parts[k+n-1].to, b.parts[k+n].from) {
			return 0
		}
		if more, _, m := b.clocked(k+n+1, b.parts[k+n].to); m > 0 && !slices.Equal(more, people) && !b.leads(k+n+m) && !b.r.separated(b.parts[k+n+1].from) {
			return 0 // "Bo 30 lunch Ana": whose it is is not plain
		}
		b.takeOff(people, how, b.parts[k+n].minutes)
		if last := b.parts[k+n-1].to; b.r.low(last) == "only" || b.r.low(a.from-1) == "only" || b.r.low(a.from-1) == "for" && b.r.low(a.from-2) == "only" {
			b.settle()
		}
		b.claimParts(k, k+n)
		return n + 1
	}
	return 0
}

func (b *rowBuilder) claimParts(from, to int) {
	b.r.claimTokens(b.parts[from].from, b.parts[to].to)
}

// clocked collects the people named one behind the other from parts[k] on, which begin right behind token
// to, if each of them has a span already. How is the last of them.
func (b *rowBuilder) clocked(k, to int) (people []string, how mention, n int) {
	for ; n < 8 && k+n < len(b.parts) && b.parts[k+n].kind == aPerson; n++ {
		a := b.parts[k+n]
		if !b.r.forWords(to, a.from) || n > 0 && b.leads(k+n) && b.r.separated(a.from) {
			break
		}
		if !a.who.others && !b.onClock(a.who) {
			break
		}
		people, how, to = append(people, a.who.names...), a.who, a.to
	}
	return people, how, n
}

// leads reports whether a time stands right behind the person at parts[k], so that it is his.
func (b *rowBuilder) leads(k int) bool {
	if k+1 >= len(b.parts) {
		return false
	}
	next := b.parts[k+1]
	return (next.kind == aSpan || next.kind == aStated) && next.from-b.parts[k].to <= 1 ||
		(next.kind == aBegin || next.kind == aEnd) && next.from-b.parts[k].to <= 2
}

// onClock reports whether everybody of a mention has a span.
func (b *rowBuilder) onClock(m mention) bool {
	if m.me && len(m.names) == 0 {
		return len(b.mine) > 0 || b.cur.me && len(b.cur.row.Spans) > 0
	}
	for _, name := range m.names {
		if b.rowOf(name) < 0 && !(len(b.cur.row.Spans) > 0 && slices.Contains(b.cur.row.People, name)) {
			return false
		}
	}
	return len(m.names) > 0
}

// rowOf returns the last finished row with spans of a person, or -1.
func (b *rowBuilder) rowOf(name string) int {
	for k := len(b.rows) - 1; k >= max(0, len(b.rows)-nearRows); k-- {
		if len(b.rows[k].Spans) > 0 && slices.Contains(b.rows[k].People, name) {
			return k
		}
	}
	return -1
}

// own returns a person's row after parting it from those he shares it with.
func (b *rowBuilder) own(name string) int {
	k := b.rowOf(name)
	if k < 0 || len(b.rows[k].People) == 1 && b.rows[k].Crew <= 1 {
		return k
	}
	mine := b.rows[k]
	mine.People, mine.Crew, mine.Spans = []string{name}, 0, slices.Clone(mine.Spans)
	rest := &b.rows[k]
	rest.People = slices.DeleteFunc(slices.Clone(rest.People), func(other string) bool { return other == name })
	if rest.Crew--; rest.Crew <= len(rest.People) {
		rest.Crew = 0
	}
	b.rows = slices.Insert(b.rows, k+1, mine)
	b.marks = slices.Insert(b.marks, k+1, b.marks[k])
	for i := len(b.mine) - 1; i >= 0 && b.mine[i] > k; i-- {
		b.mine[i]++
	}
	return k + 1
}

// takeOff takes a break of some minutes, or none, off the people's rows and no others'.
func (b *rowBuilder) takeOff(people []string, how mention, m notes.Minutes) {
	b.flush()
	if how.others {
		for k := max(0, len(b.rows)-nearRows); k < len(b.rows); k++ {
			if len(b.rows[k].Spans) > 0 && !b.marks[k].told && (!how.full || b.rows[k].Clock() >= fullDay) {
				b.rows[k].Break, b.marks[k].told = m, true
			}
		}
	}
	if how.me && len(how.names) == 0 {
		k := b.mine[len(b.mine)-1]
		b.rows[k].Break, b.marks[k].told = m, true
		if len(b.rows[k].People) > 0 {
			b.rows[k].Fault = "has a break of one of its people, who has no name"
		}
	}
	for _, name := range people {
		k := b.rowOf(name)
		if k < 0 {
			continue
		}
		if slices.ContainsFunc(b.rows[k].People, func(other string) bool { return !slices.Contains(people, other) }) {
			k = b.own(name)
		}
		b.rows[k].Break, b.marks[k].told = m, true
	}
}

// breakBut takes a break off every row but those of the people.
func (b *rowBuilder) breakBut(people []string, m notes.Minutes) {
	b.takeOff(people, mention{}, 0)
	for k := max(0, len(b.rows)-nearRows); k < len(b.rows); k++ {
		if len(b.rows[k].Spans) > 0 && !b.marks[k].told {
			b.rows[k].Break, b.marks[k].told = m, true
		}
	}
}

// settle notes that who was not named has no break.
func (b *rowBuilder) settle() {
	for k := max(0, len(b.marks)-nearRows); k < len(b.marks); k++ {
		b.marks[k].told = true
	}
}

// excluded reports whether the words between two tokens take out who follows: "except", "not".
func (r *reader) excluded(from, to int) bool {
	for i := from; i < to; i++ {
		switch r.low(i) {
		case "except", "not", "but", "besides":
			return true
		}
	}
	return false
}

// forWords reports whether only words that say for whom stand between two tokens.
func (r *reader) forWords(from, to int) bool {
	if to-from > 4 {
		return false
	}
	for i := from; i < to; i++ {
		switch low := r.low(i); low {
		case "for", "just", "only", "except", "not", "but", "besides", "(", "on", "all", "-":
		default:
			if !joining(low) || low == "with" || low == "w" || low == "," && i == from {
				return false
			}
		}
	}
	return true
}

// tookWords reports whether only words of having a break stand between a person and it.
func (r *reader) tookWords(from, to int) bool {
	if to-from > 2 {
		return false
	}
	for i := from; i < to; i++ {
		switch r.low(i) {
		case ",", "(":
			if !r.lunchBefore(from) {
				return false
			}
		case "only", "took", "had", "with", "w", "/", ":", "-", "takes", "gets", "got", "less", "minus", "has", "did", "a":
		default:
			return false
		}
	}
	return true
}

// lunchBefore reports whether a word for a break, and for whom it was, stands right before the person that
// ends at token i: "lunch only for Ines, half an hour".
func (r *reader) lunchBefore(i int) bool {
	for j := i - 2; j >= i-5 && j >= 0; j-- {
		switch r.low(j) {
		case "for", "only", "just":
			continue
		}
		return r.breakWord(j) && (r.low(j+1) == "for" || r.low(j+1) == "only")
	}
	return false
}

// othersAt reads words for the crew without those who were told of: "the others", "the other two",
// "rest", "everybody else"; and for those of it who were there all day: "the full day guys".
func (r *reader) othersAt(i int) (mention, bool) {
	if !r.bold || i >= len(r.toks) || r.toks[i].kind != word {
		return mention{}, false
	}
	m, j := mention{others: true}, i
	if r.low(j) == "the" {
		j++
	}
	switch low := r.low(j); low {
	case "others", "rest":
		m.next = j + 1
		if r.low(m.next) == "of" && (r.low(m.next+1) == "us" || r.low(m.next+1) == "them") {
			m.next += 2
		}
	case "other":
		n, ok := r.num(j + 1)
		switch {
		case ok && n.form != article && n.small > 0 && n.small < 9:
			m.heads, m.next = n.small, n.next
		case r.personNoun(j + 1):
			m.next = j + 1
		case r.low(j+1) == "one":
			m.heads, m.next = 1, j+2
		default:
			return m, false
		}
	case "guys", "boys", "crew":
		m.next = j + 1
		return m, j > i
	case "everybody", "everyone":
		m.next = j + 2
		return m, r.low(j+1) == "else"
	case "full", "all", "whole":
		if r.low(j+1) != "day" || !r.personNoun(j+2) && r.low(j+2) != "crew" {
			return m, false
		}
		m.full, m.next = true, j+3
	default:
		return m, false
	}
	if r.personNoun(m.next) {
		m.next++
	}
	return m, true
}

// theOthers names the crew without those who were named so far. Where nobody was, or their number is not
// the one told, they have no names.
func (b *rowBuilder) theOthers(m mention) mention {
	lex := b.r.lex
	if lex == nil || len(lex.Crew) < 2 || len(b.named) == 0 {
		m.names, m.unnamed = nil, max(m.heads, 1)
		return m
	}
	for _, name := range lex.Crew {
		if full := b.r.bookName(name); !slices.Contains(b.named, full) {
			m.names = append(m.names, full)
		}
	}
	if len(m.names) == 0 || m.heads > 0 && m.heads != len(m.names) {
		m.names, m.unnamed = nil, max(m.heads, 1)
	}
	m.heads = 0
	return m
}
