package field

import (
	"slices"

	"jobday/notes"
)

// stated adds a duration: to a row with spans it is the sum of them, else a row of its own.
func (b *rowBuilder) stated(a timePart, parts []timePart, k int) {
	if a.sum {
		b.sumUp(a)
		return
	}
	if b.overtime(a) {
		return
	}
	if b.aBreak(a) {
		b.breakNow(a)
		return
	}
	if len(b.cur.row.Spans) > 0 && b.cur.row.Stated == 0 && b.isSum(a) {
		b.checkSum(a.minutes)
		b.touch(a)
		b.r.claimTokens(a.from, a.to)
		return
	}
	if len(b.cur.row.Spans) > 0 && b.r.bold && !b.travel && (b.cur.sum > 0 || b.r.regularAt(a)) {
		b.cur.sum += a.minutes // "6-4, 8 reg 2 OT"
		b.touch(a)
		b.r.claimTokens(a.from, a.to)
		return
	}
	if low := b.r.low(a.from - 1); b.cur.timed && (b.r.inclBehind(a.to) || low == "that" && b.r.low(a.from-2) == "of" || low == "incl" || low == "including" || low == "includes" || low == "(" && len(b.cur.row.Spans) > 0 || low == "." && b.r.low(a.from-2) == "incl") {
		if b.cur.row.Fault == "" {
			b.cur.row.Fault = "includes what is told behind it"
		}
		b.touch(a)
		b.r.claimTokens(a.from, a.to)
		return
	}
	if b.cur.timed && b.r.low(a.from-1) == "=" {
		b.product(a)
		return
	}
	if b.cur.timed && b.r.low(a.from-1) == "(" && b.r.bold && !b.cur.row.Travel && !b.r.travelAt(a.to) {
		b.madeUp(a, k)
		return
	}
	if b.cur.timed {
		if b.cur.trailing {
			b.flush()
		}
		b.inherit()
	}
	if a.heads > 1 {
		b.cur.row.Crew = a.heads
	}
	if b.spread {
		b.spread, b.cur.row.People = false, b.allNamed()
	}
	b.cur.row.Stated = a.minutes
	b.cur.total = b.cur.total || a.flag
	if b.cur.row.Fault == "" || a.doubt != "" {
		b.cur.row.Fault = a.doubt
	}
	if r := b.r; a.doubt == "" && b.cur.row.Crew == 0 && (r.low(a.from-1) == "x" || r.low(a.from-1) == "×") && r.isNumber(a.from-2) {
		b.cur.row.Fault = "may be " + r.low(a.from-2) + " people or " + r.low(a.from-2) + " times"
	}
	if a.doubt == "" && a.minutes > longest && !a.flag {
		b.cur.row.Fault = "runs past 16 h"
	}
	b.timed(a)
}

// aBreak reports whether a short time behind a long span is its break: "7 to 3:30, with a half hour".
func (b *rowBuilder) aBreak(a timePart) bool {
	row := &b.cur.row
	if len(row.Spans) == 0 || row.Break > 0 || a.minutes > longBreak || a.minutes < 15 || row.Clock() < breakAfter || b.travel {
		return false
	}
	low := b.r.low(a.from - 1)
	return (low == "with" || low == "w" || low == "less" || low == "minus" || low == "/" && b.r.low(a.from-2) == "w") && b.r.endsClause(a.to)
}

// regularAt reports whether a duration is told to be of the regular hours.
func (r *reader) regularAt(a timePart) bool {
	before, after := r.low(a.from-1), r.low(a.to)
	return payWord(before) && !overtimeWord(before) || payWord(after) && !overtimeWord(after)
}

// product holds the sum written after a head count and a duration against both: "2 men x 4 hrs = 8 hrs".
func (b *rowBuilder) product(a timePart) {
	row := &b.cur.row
	if heads := notes.Minutes(row.Heads()); row.Stated*heads != a.minutes && row.Stated != a.minutes && row.Fault == "" {
		row.Fault = "says " + a.minutes.String() + " in all, its parts give " + (row.Stated * heads).String()
	}
	b.touch(a)
	b.r.claimTokens(a.from, a.to)
}

// isSum reports whether a duration after spans sums them up: "7-3:30, 8 hrs", "7-3 (8 hrs)".
func (b *rowBuilder) isSum(a timePart) bool {
	r := b.r
	if b.travel || a.from-b.cur.to > 2 {
		return false
	}
	switch next := r.low(a.to); next {
	case "", ")", ".", ";", "total", ",", "apiece", "each", "ea":
	case "in":
		if low := r.low(a.to + 1); low != "total" && low != "all" {
			return false
		}
	default:
		if _, named := r.nameAt(a.to); !named {
			return false
		}
	}
	return !(r.low(a.to+1) == "travel" || r.low(a.to+1) == "drive")
}

// checkSum holds a written sum against the spans. A difference that is a usual break and is not
// written otherwise is one; any other is a fault.
func (b *rowBuilder) checkSum(sum notes.Minutes) {
	row := &b.cur.row
	row.Stated = 0
	switch diff := row.Clock() - sum; {
	case diff == 0, row.Heads() > 1 && sum == row.PersonMinutes():
	case row.Break == 0 && (diff == 15 || diff == 20 || diff == 30 || diff == 45 || diff == 60):
		row.Break = diff
	case row.Fault == "":
		row.Fault = "says " + sum.String() + ", its clock times give " + row.Clock().String()
	}
}

// each says that a time is everybody's: where no name was written with it, that of all named so far.
func (b *rowBuilder) each(a timePart, k int) {
	if next := b.part(k + 1); next.kind == aStated && next.from == a.to && b.cur.timed && next.minutes < 4*60 {
		b.flush() // "Ana 7.5, Ben 8, plus each 35 min driving"
		b.spread = true
		return
	}
	b.cur.row.Each = true
	if row := &b.cur.row; len(row.People) == 0 && row.Crew == 0 && row.Fault == "" && b.countBefore() {
		row.Fault = "does not say each of whom" // "2 trips, 35 min each"
	}
	b.touch(a)
	if !b.cur.carried || len(b.rows) > 16 {
		return
	}
	all := b.allNamed()
	b.cur.row.People = append(all, slices.DeleteFunc(b.cur.row.People, func(name string) bool { return slices.Contains(all, name) })...)
}

// allNamed returns everybody who has a row.
func (b *rowBuilder) allNamed() []string {
	var all []string
	for k := max(0, len(b.rows)-16); k < len(b.rows); k++ {
		for _, name := range b.rows[k].People {
			if !slices.Contains(all, name) {
				all = append(all, name)
			}
		}
	}
	return all
}

// countBefore reports whether a number stands in the text before the row's time, so that "each" may be
// said of what it counts.
func (b *rowBuilder) countBefore() bool {
	for i := max(0, b.cur.from-clauseReach); i < b.cur.from; i++ {
		if c, timed := b.r.clockAt(i); timed && (c.clear || c.packed) {
			continue // "1530 off. 9 each"
		}
		if _, ok := b.r.num(i); ok && b.r.toks[i].kind != symbol && b.r.low(i) != "a" && b.r.low(i) != "an" && !b.r.breaks(i) {
			return len(b.rows) == 0
		}
	}
	return false
}

// eachWay doubles a drive that is written one way.
func (b *rowBuilder) eachWay(a timePart) {
	if b.cur.timed && len(b.cur.row.Spans) == 0 {
		b.cur.row.Stated *= 2
		if len(b.rows) > 0 && len(b.cur.row.People) > 0 {
			b.cur.row.Travel = true
		}
		b.touch(a)
	}
}
