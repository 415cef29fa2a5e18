package field

import "jobday/notes"

// longestSum is the most hours a line may say its people come to together. Common practice, no source.
const longestSum = 100

// sumPart reads hours that are told as what the times before them come to: "so 8", "makes eight hours each",
// "that's nine and a half". It is read in a text about time only.
func (r *reader) sumPart(i int, list []timePart) (timePart, bool) {
	if !r.bold {
		return timePart{}, false
	}
	j := r.sumWords(i)
	if j == i || j >= len(r.toks) {
		return timePart{}, false
	}
	a := timePart{kind: aStated, from: i, sum: true}
	if s, ok := r.stretchAt(j); ok {
		a.minutes, a.to, a.doubt = s.minutes, s.next, s.doubt
	} else if n, ok := r.num(j); ok && n.form != article && n.v.Cmp(notes.Int(longestSum)) <= 0 {
		a.minutes, ok = wholeMinutes(n.v, 60)
		if a.to = n.next; !ok || a.minutes < 60 {
			return a, false
		}
	} else {
		return a, false
	}
	if r.low(a.to) == "for" && everyone(r.low(a.to+1)) {
		a.to++
	}
	if everyone(r.low(a.to)) {
		if a.to++; r.low(a.to) == "one" || r.low(a.to) == "man" {
			a.to++
		}
	}
	if r.low(a.to) == "in" && (r.low(a.to+1) == "all" || r.low(a.to+1) == "total") {
		a.to += 2
	}
	if low := r.low(a.to); low == "total" || low == "altogether" {
		a.to++
	}
	if m, ok := r.mentionAt(a.to + 1); ok && r.low(a.to) == "for" && len(list) > 0 && len(m.names) > 0 {
		return a, false // "that's nine for me and eight for Ben"
	}
	return a, r.endsClause(a.to) || r.low(a.to) == "." || r.low(a.to) == "on"
}

// sumWords passes words at token i that say what something comes to.
func (r *reader) sumWords(i int) int {
	j := i
	if r.low(j) == "so" {
		j++
	}
	switch r.low(j) {
	case "that's", "thats", "makes", "making", "it's":
		return j + 1
	case "that", "it", "which":
		if low := r.low(j + 1); low == "is" && j > i || low == "makes" || low == "made" {
			return j + 2
		}
	case "comes", "came", "adds":
		if low := r.low(j + 1); low == "to" {
			return j + 2
		}
		if r.low(j) == "adds" && r.low(j+1) == "up" && r.low(j+2) == "to" {
			return j + 3
		}
	}
	return j
}

// sumUp holds what is told to be the sum of times against them. It is the time of whoever told only when he
// came or went, "Ana came at noon so 4", and of a day without times.
func (b *rowBuilder) sumUp(a timePart) {
	b.r.claimTokens(a.from, a.to)
	row := &b.cur.row
	switch {
	case a.minutes == b.allMinutes() && (b.cur.timed || !b.cur.started):
	case b.cur.timed && len(row.Spans) > 0:
		b.checkSum(a.minutes)
	case b.cur.timed:
		if a.minutes != row.Clock() && row.Fault == "" {
			row.Fault = "says " + a.minutes.String() + " in all, its parts give " + row.Clock().String()
		}
	case b.cur.started && !b.cur.inherited || len(b.rows) == 0 || b.cur.turns != 0:
		b.cur.turns, row.Break, row.Stated, row.Fault = 0, 0, a.minutes, a.doubt
		if a.minutes > longest && row.Fault == "" {
			row.Fault = "runs past 16 h"
		}
		b.timed(a)
		return
	default:
		return
	}
	b.touch(a)
}

// allMinutes returns the person-minutes of every row so far.
func (b *rowBuilder) allMinutes() notes.Minutes {
	all := notes.Minutes(0)
	for k := max(0, len(b.rows)-nearRows); k < len(b.rows); k++ {
		all += b.rows[k].PersonMinutes()
	}
	if b.cur.timed {
		row := b.cur.row
		row.Each = row.Each || row.Heads() > 1
		all += row.PersonMinutes()
	}
	return all
}

// pastIncluded passes words that say hours told before are among those that end at token i: "Ines 8 incl the
// 2.5". What is told with a unit, or to be travel, may have to be parted from them.
func (r *reader) pastIncluded(i int) int {
	if !r.inclWord(i) {
		return i
	}
	switch r.low(i + 1) {
	case "the", "that", "his", "her", "my", "their", "those":
	default:
		return i
	}
	n, ok := r.num(i + 2)
	if !ok || n.form == article {
		return i
	}
	next := n.next
	if hourWord(r.low(next)) {
		next++
	}
	if r.travelAt(next) || payWord(r.low(next)) {
		return i
	}
	return next
}

func (r *reader) inclWord(i int) bool {
	switch r.low(i) {
	case "incl", "inc", "including", "includes", "counting", "countin":
		return true
	}
	return false
}

// includes reports whether hours that end at token i are told to hold something done, which is no break.
func (r *reader) includes(i int) bool {
	if !r.inclWord(i) {
		return false
	}
	j := i + 1
	switch r.low(j) {
	case "the", "that", "his", "her", "my", "their", "those":
		j++
	case "drive", "travel", "driving":
		return true
	default:
		return false
	}
	return j < len(r.toks) && !r.breakWord(j) && (!r.isNumber(j) || r.pastIncluded(i) > i)
}

// moreHours reads hours that come on top of those right before: "Ines 8 + 1.5 on the alcove".
func (r *reader) moreHours(i int, list []timePart) bool {
	n := len(list) - 1
	if !r.bold || n < 0 || list[n].kind != aStated || list[n].to != i-1 || r.low(i-1) != "+" && r.low(i-1) != "plus" {
		return false
	}
	f, ok := r.hoursFigure(i)
	if !ok || f.form == article {
		return false
	}
	switch r.low(f.next) {
	case "on", "for", "at", "more", "extra":
		return true
	}
	return r.endsClause(f.next) || r.low(f.next) == "."
}

// othersTurn reports whether somebody and his coming or going stand at token i, so that the number before it
// ends what was told of the one before: "Ines 8 and Ben went home at noon".
func (r *reader) othersTurn(i int) bool {
	if low := r.low(i); low == "and" || low == "&" {
		i++
	}
	m, ok := r.mentionAt(i)
	if !ok || len(m.names) != 1 && !m.me {
		return false
	}
	if i = m.next; r.low(i) == "i" || r.low(i) == "he" || r.low(i) == "she" {
		i++
	}
	switch r.low(i) {
	case "left", "came", "went", "knocked", "was", "only", "stayed", "got", "out", "off", "in":
		return true
	}
	return false
}
