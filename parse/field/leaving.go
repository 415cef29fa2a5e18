package field

import "jobday/notes"

// endOrBegin reads when somebody came or went, where only one of the two is told: "Bo left at 2", "Bo in
// at 9", "Gus till ten". It is read in a text about time only, behind a person.
func (r *reader) endOrBegin(i, hit int, list []timePart) (timePart, bool) {
	if !r.bold || len(list) == 0 {
		return timePart{}, false
	}
	last := list[len(list)-1]
	if gap := i - last.to; gap > 4 || last.kind != aPerson && last.kind != aEnd && last.kind != aBegin || !r.leadsTo(last.to, i) {
		return timePart{}, false
	}
	k, to := partKind(0), i+1
	switch r.low(i) {
	case "till", "til", "until":
		k = aEnd
	case "came", "come":
		k = aBegin
	case "went", "go":
		k = aEnd
	case "since", "from":
		k = aBegin
	}
	if r.low(to) == "in" || r.low(to) == "home" {
		to++
	}
	if hit < len(r.seen.hits) && r.seen.hits[hit].from == i {
		switch h := r.seen.hits[hit]; h.sense {
		case clockIn:
			k, to = aBegin, h.to
		case clockOut:
			k, to = aEnd, h.to
		}
	}
	for r.low(to) == "early" || r.low(to) == "late" {
		to++
	}
	if k == 0 {
		return timePart{}, false
	}
	if _, span := r.pairAt(r.pastAt(to)); span {
		return timePart{}, false // "on site 7-3:30"
	}
	c, ok := r.clockAfter(to)
	if !ok {
		c, ok = r.clockAt(r.pastAt(to))
		ok = ok && r.comingFollows(c.next)
	}
	if !ok {
		return timePart{}, false
	}
	p := clockPair{from: c, to: c, next: c.next}
	return timePart{kind: k, from: i, to: c.next, pair: p}, true
}

// comesOrGoes reports whether a word of coming or going and a time of day stand at token i.
func (r *reader) comesOrGoes(i int) bool {
	for _, h := range r.near(i, i+1) {
		if h.sense == clockIn || h.sense == clockOut {
			_, ok := r.clockAt(r.pastAt(h.to))
			return ok
		}
	}
	return false
}

// pastAt passes the words that may stand before a time of day.
func (r *reader) pastAt(i int) int {
	for n := 0; n < 2; n++ {
		switch r.low(i) {
		case "at", "@", "by", "around", "about":
			i++
		}
	}
	return i
}

// comingFollows reports whether a reason or another coming or going stands at token i, so that a number
// before it may be a time of day.
func (r *reader) comingFollows(i int) bool {
	switch r.low(i) {
	case "for", "started", "start", "in", "due", "sick", "he", "she", "they":
		return true
	}
	return false
}

// leadsTo reports whether only small words stand between a person and what he did.
func (r *reader) leadsTo(from, to int) bool {
	for i := from; i < to; i++ {
		switch r.low(i) {
		case "same", "also", "too", "but", "was", "had", "he", "she", "they", "i", "only", "just", ",", "not", "didn't", "did", "here", "and", "to", "there", "stayed", "-", "(":
		default:
			return false
		}
	}
	return true
}

// turned takes a coming or going into the day of whoever was named last: it changes the span he has
// already, or makes one with its other end. What has no other end is doubtful.
func (b *rowBuilder) turned(a timePart) {
	b.r.claimTokens(a.from, a.to)
	if !b.cur.timed && b.changes(a) {
		b.cur = draft{}
		b.moved, b.movedTo = true, a.to
		return
	}
	if n := len(b.rows) - 1; n >= 0 && !b.cur.started && b.rows[n].Beside != nil && b.rows[n].Beside.Same && b.rows[n].Beside.Less == 0 {
		turnTold(b.rows[n].Beside, a.kind == aBegin, a.pair.from) // "Bo same but left at 3"
		return
	}
	if b.cur.timed {
		return // said of a day that has its times: "Ana 7 - 1, left for dentist"
	}
	b.touch(a)
	if a.kind == aBegin {
		b.cur.begin = a.pair.from
	} else {
		b.cur.end = a.pair.to
	}
	b.cur.turns |= 1 << (a.kind - aBegin)
	if b.cur.turns == 3 {
		p := clockPair{from: b.cur.begin, to: b.cur.end, next: a.to}
		b.span(timePart{kind: aSpan, from: b.cur.from, to: a.to, pair: p})
		b.cur.turns = 0
	}
}

// changes moves one end of the span of the people named last, where each of them has one already.
func (b *rowBuilder) changes(a timePart) bool {
	people := b.cur.row.People
	if len(people) == 0 && !b.cur.started {
		people = b.last
	}
	if len(people) == 0 || len(b.rows) == 0 {
		return false
	}
	for _, name := range people {
		if b.rowOf(name) < 0 {
			return false
		}
	}
	for _, name := range people {
		row := &b.rows[b.own(name)]
		s := &row.Spans[len(row.Spans)-1]
		if a.kind == aBegin {
			s = &row.Spans[0]
		}
		moved := *s
		if a.kind == aBegin {
			moved.From = within(a.pair.from, *s)
		} else {
			moved.To = within(a.pair.to, *s)
		}
		if moved.From >= moved.To || moved.From < s.From || moved.To > s.To {
			row.Fault = "does not fit the times told before"
			continue
		}
		*s = moved
		if row.Break > 0 && row.Clock()+row.Break <= breakAfter {
			row.Fault = shorterDay
		}
	}
	return true
}

// turnedBreak takes a break told behind somebody's coming or going off his day.
func (b *rowBuilder) turnedBreak(a timePart) bool {
	if b.cur.turns != 0 {
		b.cur.row.Break, b.cur.told = a.minutes, true
		b.touch(a)
		return true
	}
	if b.cur.timed || !b.moved || a.from-b.movedTo > 2 || a.flag {
		return false
	}
	for _, name := range b.last {
		if k := b.rowOf(name); k >= 0 {
			b.rows[k].Break, b.marks[k].told = a.minutes, true
			if b.rows[k].Fault == shorterDay {
				b.rows[k].Fault = ""
			}
		}
	}
	return true
}

// shorterDay is what is doubtful of a break told before somebody's day became shorter.
const shorterDay = "does not say whether the break is taken off the shorter day too"

// within returns the time of day inside a span that a clock time stands for, or as it is written.
func within(c clockTime, s notes.ClockSpan) notes.Clock {
	m := c.minutes()
	for n := 0; n < 4 && !c.fixed() && m < int(s.From); n++ {
		m += halfDay
	}
	return notes.Clock(m)
}

// halfTold returns why a row that tells only when somebody came or went has no time.
func (d *draft) halfTold() string {
	if d.turns == 1 {
		return "says when it began, not when it ended"
	}
	return "says when it ended, not when it began"
}
