package field

import (
	"slices"

	"jobday/notes"
)

// A loneClock is a time of day that begins no span.
type loneClock struct {
	at int // token
	clockTime
}

// A rowBuilder puts parts together to rows.
type rowBuilder struct {
	r       *reader
	parts   []timePart
	rows    []notes.TimeRow
	marks   []rowMark // of each row
	cur     draft
	last    []string      // who was named last
	moved   bool          // somebody's coming or going was read last
	movedTo int           // up to this token
	spread  bool          // the next duration is that of everybody named so far
	skip    int           // the parts before this token are read already
	sameEnd int           // the part that said "same" last
	setOut  *clockTime    // when they left for the job
	travel  bool          // "travel" stands before the time it is about
	lunch   notes.Minutes // a break written before anybody's time
	closes  bool          // the only name stands at the end of the line
	named   []string      // everybody whose name was read
	mine    []int         // rows that are also of an author whom nobody knows
}

// A rowMark is what the builder has to know of a finished row.
type rowMark struct {
	told  bool // whether there was a break was told
	group bool // it was told of a group, "both", "everyone", and of whoever is named apart not
}

// A draft is a row in the making.
type draft struct {
	row       notes.TimeRow
	from, to  int // tokens
	unnamed   int
	total     bool
	timed     bool
	trailing  bool // the person stands after the time
	lastSpan  int  // end of the last span, in minutes
	started   bool
	inherited bool          // people are carried over from the row before
	me        bool          // one of its people is the author, whom nobody knows
	we        bool          // its people are whoever "we" are
	same      bool          // "same" stands behind its time
	carried   bool          // no name stands with its time; those of the row before hold
	told      bool          // whether there was a break was told
	group     bool          // its people are a group, not named one by one
	asked     bool          // "Ben ?"
	sum       notes.Minutes // its hours, told before its times: "8 hrs (7-3:30, 30 lunch)"
	turns     int8          // 1 when only its begin was told, 2 when only its end
	begin     clockTime
	end       clockTime
}

func (b *rowBuilder) build(parts []timePart) {
	for k := 0; k < len(parts); k++ {
		a := parts[k]
		if a.from < b.skip {
			continue
		}
		if n := b.breakOf(k); n > 0 {
			k += n - 1
			continue
		}
		switch a.kind {
		case aPerson:
			b.person(a, parts, k)
		case aSpan:
			b.span(a)
		case aStated:
			b.stated(a, parts, k)
		case aPause:
			if next := b.part(k + 1); next.kind == aCrew && next.from == a.to && len(b.rows) > 0 && next.heads > 1 {
				a.flag, b.skip = true, next.to // "lunch 30 all three"
			}
			if b.absents(k) {
				b.flush()
				k += b.besideBreak(k)
				continue
			}
			b.pause(a)
		case aCrew:
			b.crew(a, parts, k)
		case aEach:
			b.each(a, k)
		case aEachWay:
			b.eachWay(a)
		case aTotal:
			b.cur.total = true
		case aTravel:
			b.travelWord(a, b.part(k+1))
		case aStop:
			b.stop(a)
		case aBegin, aEnd:
			b.turned(a)
		case aSetOut:
			b.setOut = &parts[k].pair.from
		}
	}
	b.flush()
	b.leftover()
}

// touch widens the row to the part.
func (b *rowBuilder) touch(a timePart) {
	if !b.cur.started {
		b.cur.from, b.cur.started = a.from, true
	}
	b.cur.to = a.to
}

// person adds people to the row, or begins the next one.
func (b *rowBuilder) person(a timePart, parts []timePart, k int) {
	if a.who.others {
		a.who = b.theOthers(a.who)
	}
	b.sawNames(a.who)
	b.last = a.who.names
	if b.same(a, k) || b.signed(a, parts, k) {
		return
	}
	if b.cur.turns != 0 || b.cur.told && !b.cur.timed && b.leads(k) {
		b.flush()
	}
	if b.referBack(a, k) || b.meansUs(a, k) {
		return
	}
	joined := k > 0 && parts[k-1].kind == aPerson && b.r.onlyJoins(parts[k-1].to, a.from)
	leads := b.leads(k)
	switch {
	case !b.cur.timed:
		if b.cur.inherited {
			b.cur.row.People, b.cur.inherited = nil, false
			if b.cur.me {
				b.cur.me, b.cur.unnamed = false, b.cur.unnamed-1
			}
		}
		if leads && !joined && k > 0 && parts[k-1].kind == aPerson && b.r.commaBetween(parts[k-1].to, a.from) {
			b.cur = draft{} // "Ben left at noon, Ana 7-3:30": what was said of Ben has no time
		}
		if leads && b.listsAgain(a, k) {
			b.cur = draft{}
		}
		b.cur.we = a.who.we && len(b.cur.row.People) == 0
	case b.cur.we && (a.from == b.cur.to || a.from == b.cur.to+1 && b.r.low(b.cur.to) == "," && !leads) && len(a.who.names) > 0 && !a.who.we:
		b.cur.row.People, b.cur.we, b.cur.trailing = nil, false, true
	case len(b.cur.row.People) == 0 && b.cur.unnamed == 0 && !(leads && b.r.separated(a.from)):
		b.cur.trailing = true
	case b.cur.trailing && joined && !leads:
	default:
		b.flush()
	}
	if a.who.helps && len(a.who.names) == 1 && slices.Contains(b.cur.row.People, a.who.names[0]) {
		a.who.names, a.who.unnamed = nil, 1 // "Tobias and the apprentice"
	}
	for _, name := range a.who.names {
		if !slices.Contains(b.cur.row.People, name) {
			b.cur.row.People = append(b.cur.row.People, name)
		}
	}
	if a.who.me {
		b.addMe()
	} else {
		b.cur.unnamed += a.who.unnamed
	}
	if a.who.beside && len(b.cur.row.People) == len(a.who.names) && !b.cur.timed && b.r.lex.Author != "" {
		if me := b.r.bookName(b.r.lex.Author); !slices.Contains(b.cur.row.People, me) {
			b.cur.row.People = slices.Insert(b.cur.row.People, 0, me)
		}
	}
	b.cur.row.Crew = max(b.cur.row.Crew, a.who.heads)
	b.cur.carried = false
	b.cur.group = a.who.group || a.who.we || a.who.heads > 0
	b.cur.asked = b.r.low(a.to) == "?"
	b.closes = b.cur.trailing && b.r.endsText(a.to)
	b.touch(a)
}

// inherit begins a new row for the people of the current one.
func (b *rowBuilder) inherit() {
	people, unnamed, crew, me := b.cur.row.People, b.cur.unnamed, b.cur.row.Crew, b.cur.me
	b.flush()
	b.cur.me = me
	b.cur.row.People = slices.Clone(people)
	b.cur.unnamed, b.cur.row.Crew = unnamed, crew
	b.cur.inherited = len(people) > 0
	b.cur.carried = len(people) > 0
}

func (b *rowBuilder) span(a timePart) {
	if b.cur.timed && b.cur.row.Stated > 0 && len(b.cur.row.Spans) == 0 && b.r.low(a.from-1) == "(" && !b.travel {
		b.cur.sum, b.cur.row.Stated = b.cur.row.Stated, 0 // "8 hrs (7-3:30, 30 lunch)"
	}
	if b.cur.timed && (b.cur.row.Stated > 0 && len(b.cur.row.Spans) == 0 || b.travel || b.cur.row.Travel) {
		if b.cur.trailing {
			b.flush()
		}
		b.inherit()
	}
	s, doubt := a.pair.span(b.cur.lastSpan)
	if a.pair.mayBeNight() && b.r.nightBefore(a.from) {
		s.From, s.To = s.From+halfDay, s.To+halfDay
	}
	if doubt == "" && len(b.cur.row.Spans) > 0 && int(s.From) < b.cur.lastSpan {
		doubt = "its times overlap"
	}
	if b.cur.row.Fault == "" {
		b.cur.row.Fault = doubt
	}
	if low, next := b.r.low(a.to), b.r.low(a.to+1); b.cur.row.Fault == "" && b.r.bold && (low == "elsewhere" || (low == "other" || low == "another") && (next == "job" || next == "site")) {
		b.cur.row.Fault = "is told to be on another job"
	}
	if a.minutes > 0 {
		b.cur.row.Break, b.cur.told = a.minutes, true
	}
	b.cur.row.Spans = append(b.cur.row.Spans, s)
	b.cur.lastSpan = max(b.cur.lastSpan, int(s.To))
	if b.setOut != nil && b.cur.row.Fault == "" {
		b.cur.row.Fault = "does not say whether the way to the site counts"
		b.setOut = nil
	}
	b.cur.same = b.r.low(a.to) == "same" || b.r.low(a.to) == "ditto"
	b.timed(a)
}

// timed notes that the row has its time.
func (b *rowBuilder) timed(a timePart) {
	b.cur.timed, b.cur.inherited = true, false
	b.cur.row.Travel = b.cur.row.Travel || b.travel
	b.travel = false
	b.touch(a)
	b.r.claimTokens(a.from, a.to)
}

func (r *reader) claimTokens(from, to int) {
	start, end := r.piece(from, to)
	r.claim(notes.Piece{Start: start, End: end})
}

// crew sets the head count of the row it stands in or before.
func (b *rowBuilder) crew(a timePart, parts []timePart, k int) {
	if b.cur.timed && b.cur.row.Crew > 0 {
		b.flush()
	}
	if b.cur.row.Crew > 0 && !b.cur.timed && a.from-b.cur.to <= 1 && k > 0 && parts[k-1].kind == aCrew {
		a.heads += b.cur.row.Crew // "2 electricians 1 apprentice"
	}
	leads := k+1 < len(parts) && (parts[k+1].kind == aSpan || parts[k+1].kind == aStated) && parts[k+1].from-a.to <= 1
	if b.cur.timed && leads && (len(b.cur.row.People) > 0 || b.r.separated(a.from)) {
		b.flush()
	}
	b.cur.row.Crew = a.heads
	b.touch(a)
	b.r.claimTokens(a.from, a.to)
}

// part returns the k-th part, or one of no kind.
func (b *rowBuilder) part(k int) timePart {
	if k < len(b.parts) {
		return b.parts[k]
	}
	return timePart{}
}

// travelWord says that the time beside it was spent on the road.
func (b *rowBuilder) travelWord(a, next timePart) {
	if b.cur.timed && len(b.cur.row.Spans) == 0 && a.from-b.cur.to <= 2 && !b.r.separated(a.from) && !(next.kind == aStated && next.from == a.to && b.r.onTop(b.cur.to, a.from)) {
		b.cur.row.Travel = true
		b.touch(a)
		return
	}
	if b.cur.timed && len(b.cur.row.Spans) > 0 && a.from == b.cur.to && b.r.endsClause(a.to) {
		b.travelled(a)
		return
	}
	b.travel = true
}

// travelled makes travel of the span that was read last: "7-9 travel, 9-3:30 site".
func (b *rowBuilder) travelled(a timePart) {
	row := &b.cur.row
	if n := len(row.Spans) - 1; n > 0 {
		last := row.Spans[n]
		row.Spans = row.Spans[:n:n]
		b.inherit()
		row = &b.cur.row
		row.Spans = []notes.ClockSpan{last}
		b.cur.timed, b.cur.lastSpan = true, int(last.To)
	}
	row.Travel = true
	b.touch(a)
}

// stop ends the row at the end of a sentence; people named before any time stay for what follows.
func (b *rowBuilder) stop(a timePart) {
	if !b.cur.timed {
		b.travel = b.travel && !a.flag // "driving home. Me and Gus 7-3:30"
		if a.flag && b.r.bold && b.cur.started && b.cur.turns == 0 && !b.cur.told && !b.cur.we && !b.cur.group && (b.r.isWord(b.cur.to) && a.from > b.cur.to || b.r.low(b.cur.from-1) == "no") {
			b.cur = draft{} // "Ben absent. Ana 8."
		}
		return
	}
	if a.flag {
		b.flush()
		b.travel = false
		return
	}
	b.inherit()
}

// flush finishes the row.
func (b *rowBuilder) flush() {
	d := b.cur
	b.cur = draft{}
	row := &d.row
	if !d.timed && d.turns == 0 && len(row.People) > 0 && b.r.bold && (d.asked || d.told) {
		row.Fault, d.timed = "has no time", true
		row.Beside = &notes.TimeBeside{HasBreak: d.told, Break: row.Break}
		row.Break = 0
	}
	if !d.timed && d.turns != 0 && (len(row.People) > 0 || d.me) {
		row.Fault, row.Beside, d.timed = d.halfTold(), d.beside(), true
	}
	if !d.timed {
		return
	}
	if d.unnamed > 0 && len(row.People)+d.unnamed > 1 {
		row.Crew = max(row.Crew, len(row.People)+d.unnamed)
	}
	if len(row.Spans) == 0 {
		row.Each = !d.total && (row.Heads() > 1 || row.Each && len(row.People) == 0)
		if row.Fault == "" && d.total && row.Stated > longest && row.Heads() == 1 {
			row.Fault = "is the time of several people, and does not say whose"
		}
	} else {
		row.Each = false
		if d.sum > 0 {
			b.cur = d
			b.checkSum(d.sum)
			d, b.cur = b.cur, draft{}
			row = &d.row
		}
		if d.same && !b.asBefore(row) && row.Fault == "" && row.Break == 0 && b.r.bold {
			row.Fault = "says the same, and its times differ"
		}
		if row.Break == 0 {
			row.Break = b.lunch
		}
	}
	if d.unnamed > 0 && !d.me && len(row.People) == 0 && row.Crew == 0 && row.Fault == "" && b.r.bold && b.r.lex != nil && len(b.r.lex.Crew) > 1 {
		row.Fault = "does not say who that is"
	}
	row.Start, row.End = b.r.piece(d.from, d.to)
	if d.me {
		b.mine = append(b.mine, len(b.rows))
	}
	b.rows = append(b.rows, *row)
	b.marks = append(b.marks, rowMark{told: d.told, group: d.group})
}

// finish looks for one person at two places at once.
func (b *rowBuilder) finish() []notes.TimeRow {
	b.nameMe()
	b.signAll()
	b.apart()
	for i := range b.rows {
		for j := max(0, i-16); j < i; j++ {
			if b.rows[i].Fault == "" && shared(b.rows[i].People, b.rows[j].People) && overlap(b.rows[i].Spans, b.rows[j].Spans) {
				b.rows[i].Fault = "its times overlap"
			}
		}
	}
	return b.rows
}

// signAll gives every row the name that stands alone at the end of the line: "travel 7-7:45, work
// 7:45-3:30, Ana".
func (b *rowBuilder) signAll() {
	n := len(b.rows) - 1
	if n < 1 || !b.closes || len(b.rows[n].People) != 1 {
		return
	}
	for k := range b.rows[:n] {
		if len(b.rows[k].People) > 0 || b.rows[k].Crew > 0 {
			return
		}
	}
	for k := range b.rows[:n] {
		b.rows[k].People = b.rows[n].People
	}
}

func shared(a, b []string) bool {
	return slices.ContainsFunc(a, func(name string) bool { return slices.Contains(b, name) })
}

func overlap(a, b []notes.ClockSpan) bool {
	for _, s := range a {
		for _, t := range b {
			if s.From < t.To && t.From < s.To {
				return true
			}
		}
	}
	return false
}
