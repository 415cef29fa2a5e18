package field

import (
	"slices"

	"jobday/notes"
)

// longBreak is the longest unpaid break that is taken from a bare figure behind a span, and
// breakAfter the shortest span that has one. Common practice, no source.
const (
	longBreak  = 60
	breakAfter = 5 * 60
)

// asLast marks a pause as long as the one told before it.
const asLast = -1

// lastBreak gives "same lunch" its minutes.
func (b *rowBuilder) lastBreak(a timePart) timePart {
	for k := len(b.rows) - 1; k >= max(0, len(b.rows)-nearRows); k-- {
		if b.marks[k].told {
			a.minutes = b.rows[k].Break
			return a
		}
	}
	a.doubt = "has the same break as nothing before it"
	return a
}

// pausePart reads an unpaid break at token i, where one may stand.
func (r *reader) pausePart(i int, inside bool, list []timePart) (timePart, bool) {
	t := &r.toks[i]
	if inside {
		if a, ok := r.figurePause(i, list); ok {
			return a, true
		}
		if a, ok := r.figureSum(i, list); ok {
			return a, true
		}
		if a, ok := r.unpriced(i, list); ok {
			return a, true
		}
		if a, ok := r.bareBreak(i, list); ok {
			return a, true
		}
	}
	if a, ok := r.ownPause(i, inside); ok {
		return a, true
	}
	if (t.low == "took" || t.low == "had") && len(list) > 0 && everyone(r.low(i-1)) {
		if p, ok := r.pauseAmount(i+1, true); ok && (r.endsClause(p.next) || r.breakWord(p.next-1)) {
			return timePart{kind: aPause, from: i, to: p.next, minutes: p.minutes, flag: true}, true // "Both took 30."
		}
	}
	if t.kind != number && t.kind != symbol && !inside && t.low != "lunch" && !numberWordAt(t.low) {
		return timePart{}, false
	}
	if t.low == "-" && inside && list[len(list)-1].kind == aPerson {
		return timePart{}, false // "Ines - 8 / Tobias - 8"
	}
	p, ok := r.pauseAt(i, inside)
	if last := len(list) - 1; !ok && inside && r.breakWord(i) && list[last].kind == aSpan && i-list[last].to <= 3 && (r.endsClause(i+1) || r.low(i+1) == "off" || r.low(i+1) == "out") && r.tookLunch(list[last].to, i) && !r.spanBehind(i+1) {
		return timePart{kind: aPause, from: i, to: i + 1, doubt: "does not say how long the lunch was"}, true
	}
	if t.low == "none" && r.bold && r.lunchTold() {
		return timePart{kind: aPause, from: i, to: i + 1}, true // "30 lunch for Ines, none for Ben"
	}
	return timePart{kind: aPause, from: i, to: p.next, minutes: p.minutes, flag: r.forAll(i, p.next), pair: p.pair}, ok
}

// spanBehind reports whether a span stands at token i, past a mark: "7-11, lunch, 12-4".
func (r *reader) spanBehind(i int) bool {
	for r.softMark(i) || r.low(i) == ";" {
		i++
	}
	_, ok := r.pairAt(i)
	return ok
}

// tookLunch reports whether what stands between a span and "lunch" says that there was one: "w/ lunch".
func (r *reader) tookLunch(from, to int) bool {
	for i := from; i < to; i++ {
		switch r.low(i) {
		case "w", "/", "with", "less", "minus", "took", "had", ",", "(", "-":
		default:
			return false
		}
	}
	return true
}

// figureSum reads the hours in all that stand behind a span without a unit: "7-3:30 (8)", "7-4 = 8.5".
func (r *reader) figureSum(i int, list []timePart) (timePart, bool) {
	last := list[len(list)-1]
	if low := r.low(i); last.kind != aSpan && last.kind != aPause || last.to != i || low != "(" && low != "=" && low != "|" && !((low == "/" || low == "-" || low == "–") && r.toks[i].spaced && last.kind == aPause) {
		return timePart{}, false
	}
	n, ok := r.num(i + 1)
	if !ok || n.form == article || n.v.Cmp(notes.Int(2)) < 0 || n.v.Cmp(notes.Int(24)) > 0 {
		return timePart{}, false
	}
	if r.low(i) == "(" && r.low(n.next) != ")" || (r.low(i) == "=" || r.low(i) == "-" || r.low(i) == "–") && !r.endsClause(n.next) {
		return timePart{}, false
	}
	m, ok := wholeMinutes(n.v, 60)
	return timePart{kind: aStated, from: i + 1, to: n.next, minutes: m}, ok
}

// figurePause reads a break that is only a figure right behind a span: "7-3:30 (.5)", "7-3:30 1/2",
// "0600-1430 L30".
func (r *reader) figurePause(i int, list []timePart) (timePart, bool) {
	last := list[len(list)-1]
	if last.kind != aSpan || last.to != i {
		return timePart{}, false
	}
	s, doubt := last.pair.span(0)
	if doubt != "" || s.Minutes() < breakAfter {
		return timePart{}, false
	}
	from, open := i, ""
	switch low := r.low(i); {
	case low == "(":
		open, i = ")", i+1
	case low == "w" && r.low(i+1) == "/" && r.close(i+1):
		i += 2
	case low == "|":
		i++
	case low == "with", (low == "/" || low == "–" || low == "—") && r.toks[i].spaced:
		i++
	case (low == "l" || low == "ln") && (r.close(i+1) || r.low(i+1) == ":" || r.low(i+1) == "="):
		open, i = "l", i+1
	}
	if low := r.low(i); open == ")" && (low == "l" || low == "lunch") {
		i++
	}
	for r.low(i) == "-" || (r.low(i) == ":" || r.low(i) == "=") && open == "l" {
		i++
	}
	if c, timed := r.breakDigits(i); timed && open == ")" && r.low(c.next) == ")" {
		return timePart{kind: aPause, from: from, to: c.next + 1, minutes: notes.Minutes(c.minute)}, true // "(0:30)"
	}
	n, ok := r.num(i)
	if !ok || n.form == article || r.tailOfSomething(i) && open != "l" && r.low(i-1) != "-" && !(r.low(i-1) == "/" && r.low(i-2) == "w") {
		return timePart{}, false
	}
	a := timePart{kind: aPause, from: from, to: n.next}
	a.minutes, ok = r.breakFigure(&a, n)
	switch {
	case !ok:
		return a, false
	case open == ")":
		if r.low(a.to) == "lunch" {
			a.to++
		}
		a.flag = everyone(r.low(a.to))
		if a.flag {
			a.to++
		}
		a.to++
		return a, r.low(a.to-1) == ")"
	}
	if r.low(a.to) == "l" && r.close(a.to) {
		a.to++ // "30L"
	}
	_, named := r.nameAt(a.to)
	a.flag = everyone(r.low(a.to))
	return a, named || a.flag || r.endsClause(a.to) || r.low(a.to) == "|" || r.low(a.to) == "/" && r.toks[a.to].spaced
}

// breakDigits reads a break as digits of a clock: "0:30".
func (r *reader) breakDigits(i int) (clockTime, bool) {
	if !r.isNumber(i) || r.low(i+1) != ":" {
		return clockTime{}, false
	}
	c, ok := r.clockDigits(i)
	return c, ok && c.clear && c.hour == 0 && c.minute >= 15
}

// breakFigure returns the minutes of a break written as n, with or without a unit behind it.
func (r *reader) breakFigure(a *timePart, n num) (notes.Minutes, bool) {
	if s, ok := r.unitOfTime(n.v, n.next); ok {
		a.to = s.next
		return s.minutes, s.minutes <= longBreak
	}
	if n.v.Cmp(one) <= 0 {
		return wholeMinutes(n.v, 60)
	}
	switch n.small {
	case 15, 20, 30, 45, 60:
		return notes.Minutes(n.small), n.v.IsWhole()
	}
	return 0, false
}

// forAll reports whether a break from token i to next is everybody's: "both 30 lunch", "1/2 hr
// lunch ea", "all took 30 for lunch".
func (r *reader) forAll(i, next int) bool {
	if everyone(r.low(i-1)) || everyone(r.low(next)) || r.low(next) == "for" && (everyone(r.low(next+1)) || r.low(next+1) == "the" && everyone(r.low(next+2))) {
		return true
	}
	for j := i + 1; j < next-1; j++ {
		if everyone(r.low(j)) {
			return true // "30 min each for lunch"
		}
	}
	switch r.low(i - 1) {
	case "took", "had", "with", "w", "less", "minus":
		return everyone(r.low(i - 2))
	}
	return false
}

func everyone(low string) bool {
	switch low {
	case "both", "all", "each", "ea", "apiece", "everybody", "everyone":
		return true
	}
	return false
}

// pause takes a break off the row, or off every row it is meant for.
func (b *rowBuilder) pause(a timePart) {
	b.r.claimTokens(a.from, a.to)
	if a.heads == asLast {
		a = b.lastBreak(a)
	}
	if a.doubt != "" {
		if b.cur.timed && b.cur.row.Break == 0 && b.cur.row.Fault == "" {
			b.cur.row.Fault = a.doubt
		}
		return
	}
	if b.turnedBreak(a) || b.lastSentence(a) || b.byTheClock(a) {
		return
	}
	if a.pair.next > 0 && b.cur.timed {
		// A lunch written between two spans is off the clock already: "7-11 lunch 11-11:30".
		if s, _ := a.pair.span(0); int(s.From) >= b.cur.lastSpan {
			return
		}
	}
	if !b.cur.timed && len(b.rows) == 0 {
		b.lunch = a.minutes // "30 lunch: Ana 7-3:30, Ben 7-3:30"
		return
	}
	if a.flag || b.unparted(a) || b.closing(a) {
		for k := max(0, len(b.rows)-nearRows); k < len(b.rows); k++ {
			if len(b.rows[k].Spans) > 0 && !b.marks[k].told {
				b.rows[k].Break, b.marks[k].told = a.minutes, true
			}
		}
	}
	if b.cur.timed {
		b.breakNow(a)
		return
	}
	if len(b.cur.row.People) > 0 && b.cur.started && !b.cur.inherited && !b.cur.group && !a.flag && !b.haveTime(b.cur.row.People) {
		b.cur.told = true // his time may follow
		b.cur.row.Break = a.minutes
		return
	}
	if n := len(b.rows); n > 0 && !a.flag && len(b.rows[n-1].Spans) > 0 {
		b.rows[n-1].Break, b.marks[n-1].told = a.minutes, true
		for k := max(0, n-nearRows); k < n-1 && b.sameEnd >= 0 && b.closesText(a); k++ {
			if !b.marks[k].told && slices.Equal(b.rows[k].Spans, b.rows[n-1].Spans) {
				b.rows[k].Break, b.marks[k].told = a.minutes, true // "Ana 6:30-2:30, Ben same, twenty minute lunch"
			}
		}
	}
}

// lastSentence takes a break that is a sentence of its own, the last one, off everybody's day: "Ines 7-3:30. Ben
// 7-4. Half hour lunch." Whether it is also that of a day too short to have one has to be asked.
func (b *rowBuilder) lastSentence(a timePart) bool {
	if !b.r.bold || b.cur.timed || len(b.rows) < 2 || !b.r.endsText(a.to) || b.r.low(a.from-1) != "." || b.cur.started {
		return false
	}
	for k := max(0, len(b.rows)-nearRows); k < len(b.rows); k++ {
		row := &b.rows[k]
		switch {
		case len(row.Spans) == 0 || b.marks[k].told:
		case row.Clock() < breakAfter && a.minutes > 0 && row.Fault == "":
			row.Fault = "does not say whether the break is taken off the shorter day too"
		default:
			row.Break, b.marks[k].told = a.minutes, true
		}
	}
	return true
}

// byTheClock takes a break told by its times, last in the text, off every day that it lies in.
func (b *rowBuilder) byTheClock(a timePart) bool {
	if a.pair.next == 0 || len(b.rows) == 0 || !b.r.endsText(a.to) {
		return false
	}
	s, _ := a.pair.span(0)
	lies := func(row *notes.TimeRow) bool {
		return slices.ContainsFunc(row.Spans, func(day notes.ClockSpan) bool { return day.From < s.From && s.To < day.To })
	}
	for k := max(0, len(b.rows)-nearRows); k < len(b.rows); k++ {
		if !b.marks[k].told && lies(&b.rows[k]) {
			b.rows[k].Break, b.marks[k].told = a.minutes, true
		}
	}
	if b.cur.timed && !b.cur.told && lies(&b.cur.row) {
		b.breakNow(a)
	}
	return true
}

// closesText reports whether a break is the last that a text says, behind a comma.
func (b *rowBuilder) closesText(a timePart) bool {
	return b.r.endsText(a.to) && b.r.low(a.from-1) == ","
}

// haveTime reports whether each of the people has a row already.
func (b *rowBuilder) haveTime(people []string) bool {
	for _, name := range people {
		if !slices.ContainsFunc(b.rows[max(0, len(b.rows)-nearRows):], func(row notes.TimeRow) bool { return slices.Contains(row.People, name) }) {
			return false
		}
	}
	return true
}

// breakNow takes a break off the row in the making; off a duration only where it says so.
func (b *rowBuilder) breakNow(a timePart) {
	row := &b.cur.row
	if len(row.Spans) == 0 && (lessWord(b.r.low(a.from)) || lessWord(b.r.low(a.from-1))) && row.Break == 0 && row.Stated > a.minutes {
		row.Stated -= a.minutes
		a.minutes = 0
	}
	if a.flag && len(row.Spans) > 0 && len(b.rows) == 0 {
		b.everybody()
	}
	if row.Break > 0 && a.minutes > 0 && row.Break != a.minutes && row.Fault == "" && b.r.bold {
		row.Fault = "tells two breaks, of " + row.Break.String() + " and " + a.minutes.String()
	}
	row.Break, b.cur.told = a.minutes, true
	b.touch(a)
}

func lessWord(low string) bool { return low == "less" || low == "minus" || low == "-" }

// everybody makes a row that names nobody the whole crew's: "7-3:30, 30 lunch each".
func (b *rowBuilder) everybody() {
	row := &b.cur.row
	if len(row.People) > 0 || row.Crew > 0 || b.cur.unnamed > 0 || !b.r.bold || b.r.lex == nil || len(b.r.lex.Crew) < 2 {
		return
	}
	for _, name := range b.r.lex.Crew {
		row.People = append(row.People, b.r.bookName(name))
	}
}

// unpriced reads what is said of a break that takes nothing off, or that does not say how much it takes
// off: "paid lunch", "short lunch", "two 15 min breaks".
func (r *reader) unpriced(i int, list []timePart) (timePart, bool) {
	switch low := r.low(i); {
	case low == "paid" && r.breakWord(i+1), r.breakWord(i) && r.low(i+1) == "paid":
		return timePart{kind: aPause, from: i, to: i + 2}, true
	case (low == "short" || low == "quick" || low == "long" || low == "late") && r.breakWord(i+1) && r.endsClause(i+2) && r.spanned(list):
		return timePart{kind: aPause, from: i, to: i + 2, doubt: "does not say how long the lunch was"}, true
	case (low == "incl" || low == "including") && r.breakWord(i+1) && r.endsClause(i+2), r.breakWord(i) && (r.low(i+1) == "incl" || r.low(i+1) == "included"):
		return timePart{kind: aPause, from: i, to: i + 2, doubt: "does not say whether the lunch is taken off"}, true
	case low == "breaks" && (minuteWord(r.low(i-1)) || r.isNumber(i-1)):
		return timePart{kind: aPause, from: i, to: i + 1, doubt: "does not say whether the breaks are paid"}, true
	}
	if r.low(i) == "same" && (r.breakWord(i+1) || r.low(i+1) == "half" && r.endsClause(i+2)) {
		return timePart{kind: aPause, from: i, to: i + 2, heads: asLast}, true
	}
	if !r.bold {
		return timePart{}, false
	}
	n, ok := r.num(i)
	if !ok || n.small < 2 || n.small > 4 {
		return timePart{}, false
	}
	for j := n.next; j < n.next+3; j++ {
		if r.low(j) == "breaks" {
			return timePart{kind: aPause, from: i, to: j + 1, doubt: "does not say whether the breaks are paid"}, true
		}
	}
	return timePart{}, false
}

// lunchless reports whether every row so far is a span of somebody without a break.
func (b *rowBuilder) lunchless() bool {
	if len(b.rows) == 0 || len(b.rows) > 16 || !b.cur.timed || b.cur.row.Break > 0 || len(b.cur.row.Spans) == 0 {
		return false
	}
	for k := range b.rows {
		if b.rows[k].Break > 0 || len(b.rows[k].Spans) == 0 {
			return false
		}
	}
	return true
}

// unparted reports whether a break ends a line of several people whose times are written without
// any mark between them, so that it is everybody's: "sam 7-330 lou 7-3:30 1/2 hr lunch".
func (b *rowBuilder) unparted(a timePart) bool {
	if !b.lunchless() || a.to < len(b.r.toks) {
		return false
	}
	for i := range b.r.toks {
		switch b.r.low(i) {
		case ",", ";", ".", "/", "&", "and", "+":
			if !b.r.close(i + 1) {
				return false
			}
		}
	}
	return true
}

// closing reports whether a break behind a comma ends a line of several people who all worked long
// enough to have one: "Ana 7:30-4 / Ben 7:30-4, lunch 30".
func (b *rowBuilder) closing(a timePart) bool {
	if !b.lunchless() || !b.r.endsText(a.to) || b.cur.row.Clock() < breakAfter {
		return false
	}
	i := a.from - 1
	for low := b.r.low(i); low == "w" || low == "with" || low == "/" && b.r.low(i-1) == "w"; low = b.r.low(i) {
		i--
	}
	low := b.r.low(i)
	if low != "," && low != "(" && low != "-" && low != "–" && low != ";" && !(low == "/" && b.r.toks[i].spaced) {
		return false
	}
	for k := range b.rows {
		if b.rows[k].Clock() < breakAfter {
			return false
		}
	}
	for i := range b.r.toks {
		if b.r.low(i) == ";" && low != ";" {
			return false
		}
	}
	return true
}

// endsText reports whether nothing but a closing mark stands from token i on.
func (r *reader) endsText(i int) bool {
	for ; i < len(r.toks); i++ {
		if low := r.low(i); low != "." && low != ")" {
			return false
		}
	}
	return true
}

// asBefore gives a row that says "same" the break of the row before, when its times are the same:
// "Ana: 7-3:30, 30 lunch. Ben: 7-3:30 same." It reports whether they are.
func (b *rowBuilder) asBefore(row *notes.TimeRow) bool {
	n := len(b.rows)
	if n == 0 || len(row.Spans) != len(b.rows[n-1].Spans) {
		return n == 0
	}
	for k, s := range row.Spans {
		if s != b.rows[n-1].Spans[k] {
			return false
		}
	}
	if row.Break == 0 {
		row.Break = b.rows[n-1].Break
	}
	return true
}
