package field

import (
	"slices"

	"jobday/notes"
	"jobday/trade"
)

var timeCues = cueTable{
	timeWord: "h|hr|hrs|hour|hours|min|mins|minute|minutes|lunch|noon|midnight|manhours|manhrs|am|pm|" +
		"half day|all day|unpaid|apiece|each way",
	crewWord:   "guys|men|man|electricians|apprentices|helpers|techs|hands|workers|people|of us|man crew|guy crew",
	clockIn:    "on site|onsite|arrived|started|start|got here|got there|showed up|in|clocked in",
	clockOut:   "off site|offsite|left|finished|finish|stopped|out|quit|done|gone|clocked out|ended|wrapped up",
	travelWord: "travel|traveling|travelling|travel time|drive|drive time|driving|drove|windshield time|windshield",
	noBreak:    "no lunch|no break|without lunch|skipped lunch|worked thru lunch|worked through lunch|thru lunch|through lunch|straight through|straight thru",
}

// partKind is what a part of a line about time is.
type partKind byte

const (
	aPerson partKind = iota + 1
	aSpan
	aStated
	aPause
	aCrew
	aEach    // "each", "apiece"
	aEachWay // "each way"
	aTotal   // "total", "together"
	aTravel
	aStop // the end of a sentence, or ";"
)

// A timePart is one part of a line about time.
type timePart struct {
	kind     partKind
	from, to int // tokens
	who      mention
	pair     clockPair
	minutes  notes.Minutes
	heads    int
	flag     bool   // of a pause: everyone; of a stretch: total; of a stop: "."
	doubt    string // of a stretch
}

// ReadTime reads a text that is known to be about time, such as a line of the time section. It is
// bolder than Read: "Ines 8-12", "Dale 8 hrs" and "Ines 7.5" are time there.
// Pieces are byte offsets in text. A row that cannot be right carries why in Fault.
func ReadTime(text string, lex *Lexicon) []notes.TimeRow {
	r := reader{text: text, toks: tokens(text), lex: lex, bold: true}
	return r.time()
}

// time reads the rows of time in the text and claims their numbers.
func (r *reader) time() []notes.TimeRow {
	s := r.look()
	if !s.timed && !(s.numbers && (r.bold || s.ranges || s.colons || s.inOut == 3)) {
		return nil
	}
	var buf [12]timePart
	parts, timed := r.timeParts(buf[:0])
	if !timed {
		return nil
	}
	b := rowBuilder{r: r}
	b.build(parts)
	return b.finish()
}

// parts cuts the text into the parts of a line about time. Timed says that a span or a duration
// is among them.
func (r *reader) timeParts(list []timePart) (_ []timePart, timed bool) {
	hit := 0
	for i := 0; i < len(r.toks); {
		for hit < len(r.seen.hits) && (r.seen.hits[hit].from < i || r.seen.hits[hit].sense.topic() != aboutTime) {
			hit++
		}
		a, ok := r.partAt(i, hit, list)
		if !ok {
			i++
			continue
		}
		timed = timed || a.kind == aSpan || a.kind == aStated
		list = append(list, a)
		i = max(a.to, i+1)
	}
	return list, timed
}

// partAt reads the part that starts at token i; the hit is the first phrase from there on.
func (r *reader) partAt(i, hit int, list []timePart) (timePart, bool) {
	t := &r.toks[i]
	if t.low == ";" || t.low == "." && r.sentenceEnds(i) && i+1 < len(r.toks) {
		return timePart{kind: aStop, from: i, to: i + 1, flag: t.low == "."}, true
	}
	inside := len(list) > 0 && afterTime(list)
	if a, ok := r.phrasePart(i, hit, inside, list); ok {
		return a, true
	}
	if t.kind == number || t.kind == symbol || numberWordAt(t.low) || inside || t.low == "lunch" {
		if p, ok := r.pauseAt(i, inside); ok {
			return timePart{kind: aPause, from: i, to: p.next, minutes: p.minutes, flag: r.forAll(i, p.next), pair: p.pair}, true
		}
	}
	if a, ok := r.headCount(i, inside); ok {
		return a, true
	}
	if t.kind == number || t.low == "noon" || t.low == "midnight" {
		if s, ok := r.rangeOfHours(i); ok && !r.tailOfSomething(i) {
			return timePart{kind: aStated, from: i, to: s.next, minutes: s.minutes, doubt: s.doubt}, true
		}
		if a, ok := r.spanPart(i, list); ok {
			return a, true
		}
	}
	if s, ok := r.stretchAt(i); ok && r.tested(i, s.next) {
		r.claimTokens(i, s.next)
		return timePart{}, false
	} else if ok {
		return timePart{kind: aStated, from: i, to: s.next, minutes: s.minutes, flag: s.total, doubt: s.doubt}, true
	}
	if t.kind == number {
		return r.loneNumber(i, list)
	}
	return r.personPart(i, list)
}

// tested reports whether the duration from token i is how long a test ran, not how long anybody
// worked: "500V 1 min", "emergency lights stayed on 90 min".
func (r *reader) tested(i, next int) bool {
	if !minuteWord(r.low(next - 1)) {
		return false
	}
	for _, h := range r.near(i-10, i) {
		switch {
		case h.sense == readMegger && i-h.to <= 6:
			return r.low(i-1) == "v" || r.low(i-1) == "for" || r.low(i-1) == "volts"
		case h.sense == readSubject && i-h.to <= 4:
			switch low := r.low(h.from); low {
			case "emergency", "em", "exit", "exits":
				return true
			}
		}
	}
	return false
}

// numberWordAt reports whether a word may begin a number: it keeps names from being tried.
func numberWordAt(low string) bool {
	return low == "a" || low == "an" || low == "couple" || len(low) <= 9 &&
		(unitWord(low) >= 0 || tensWord(low) >= 0 || low == "half" || low == "quarter")
}

// afterTime reports whether the parts of the sentence hold a span or duration already.
func afterTime(list []timePart) bool {
	for k := len(list) - 1; k >= 0 && list[k].kind != aStop; k-- {
		if list[k].kind == aSpan || list[k].kind == aStated {
			return true
		}
	}
	return false
}

// forAll reports whether a break from token i to next is everybody's: "both 30 lunch".
func (r *reader) forAll(i, next int) bool {
	return everyone(r.low(i-1)) || everyone(r.low(next))
}

func everyone(low string) bool {
	return low == "both" || low == "all" || low == "each" || low == "everybody"
}

// phrasePart reads the parts that are phrases.
func (r *reader) phrasePart(i, hit int, inside bool, list []timePart) (timePart, bool) {
	switch r.low(i) {
	case "each":
		if r.low(i+1) == "way" {
			return timePart{kind: aEachWay, from: i, to: i + 2}, true
		}
		return timePart{kind: aEach, from: i, to: i + 1}, true
	case "apiece":
		return timePart{kind: aEach, from: i, to: i + 1}, true
	case "per":
		if r.low(i+1) == "man" || r.low(i+1) == "guy" || r.low(i+1) == "person" {
			return timePart{kind: aEach, from: i, to: i + 2}, true
		}
	case "total", "together", "combined", "altogether":
		return timePart{kind: aTotal, from: i, to: i + 1}, true
	}
	if hit >= len(r.seen.hits) || r.seen.hits[hit].from != i {
		return timePart{}, false
	}
	switch h := r.seen.hits[hit]; h.sense {
	case noBreak:
		if inside {
			return timePart{kind: aPause, from: i, to: h.to}, true
		}
	case travelWord:
		if r.isTravel(h) {
			return timePart{kind: aTravel, from: i, to: h.to}, true
		}
	case clockIn:
		return r.inAndOut(h, hit, list)
	}
	return timePart{}, false
}

// isTravel reports whether "drive" and "drove" are about the road: not "the drive", a motor
// control, and not "drove two ground rods".
func (r *reader) isTravel(h hit) bool {
	if r.low(h.from) == "travel" || h.to-h.from > 1 {
		return true
	}
	switch r.low(h.from - 1) {
	case "the", "a", "vfd", "hp", "frequency", "speed", "motor", "new", "this", "that":
		return false
	}
	for j := h.to; j < h.to+5 && j < len(r.toks) && !r.breaks(j); j++ {
		switch r.low(j) {
		case "rod", "rods", "stake", "stakes", "anchor", "anchors", "screws", "lift":
			return false
		}
	}
	return true
}

// inAndOut reads "on site 7:10, off site 2:50" and "in 7:00 out 3:30" as a span.
func (r *reader) inAndOut(in hit, k int, list []timePart) (timePart, bool) {
	a, ok := r.clockAfter(in.to)
	if !ok {
		return timePart{}, false
	}
	for _, out := range r.seen.hits[k+1:] {
		if out.from > a.next+4 {
			break
		}
		if out.sense != clockOut || out.from < a.next {
			continue
		}
		b, ok := r.clockAfter(out.to)
		if !ok || !a.clear && !b.clear && !r.bold && !(r.clockStops(b.next) && len(r.low(in.from)) > 2) && !r.afterPerson(in.from, list) {
			continue
		}
		p := clockPair{from: a, to: b, next: b.next}
		return timePart{kind: aSpan, from: in.from, to: b.next, pair: p}, true
	}
	return timePart{}, false
}

// clockAfter reads a time of day at token i, past "at" or ":".
func (r *reader) clockAfter(i int) (clockTime, bool) {
	if r.low(i) == "at" || r.low(i) == "@" || r.low(i) == ":" || r.low(i) == "by" || r.low(i) == "around" {
		i++
	}
	c, ok := r.clockAt(i)
	if !ok || c.next >= len(r.toks) || c.clear {
		return c, ok
	}
	switch t := &r.toks[c.next]; {
	case t.kind == word:
		return c, t.low == "and" || r.startsOut(c.next)
	case t.kind == number:
		return c, false
	}
	return c, r.clockStops(c.next)
}

func (r *reader) startsOut(i int) bool {
	for _, h := range r.near(i, i+1) {
		if h.sense == clockOut {
			return true
		}
	}
	return false
}

// headCount reads "2 guys", "crew of 3", "x2 men", "3 of us", and "x2" after a time.
func (r *reader) headCount(i int, inside bool) (timePart, bool) {
	low := r.low(i)
	switch {
	case low == "crew" && r.low(i+1) == "of":
		if n, ok := r.num(i + 2); ok && n.small > 0 && n.small < 100 {
			return timePart{kind: aCrew, from: i, to: n.next, heads: n.small}, true
		}
		return timePart{}, false
	case (low == "x" || low == "×") && r.isNumber(i+1) && len(r.low(i+1)) < 3 && (i == 0 || !r.close(i) || inside):
		n := smallInt(r.low(i + 1))
		next := i + 2
		if r.personNoun(next) {
			return timePart{kind: aCrew, from: i, to: next + 1, heads: n}, n > 0
		}
		return timePart{kind: aCrew, from: i, to: next, heads: n}, n > 0 && inside && r.partStops(next)
	}
	if r.toks[i].kind == symbol || r.tailOfSomething(i) || !r.isNumber(i) && !numberWordAt(low) {
		return timePart{}, false
	}
	n, ok := r.num(i)
	if !ok || n.small < 1 || n.small > 99 || n.form == article {
		return timePart{}, false
	}
	a := timePart{kind: aCrew, from: i, heads: n.small}
	j := n.next
	if r.low(j) == "-" && r.close(j) {
		j++
	}
	switch {
	case r.personNoun(j):
		a.to = j + 1
		if r.low(a.to) == "crew" {
			a.to++
		}
		return a, !hourWord(r.low(a.to)) && r.low(a.to) != "-"
	case r.low(j) == "of" && r.low(j+1) == "us":
		a.to = j + 2
		return a, true
	case r.bold && (r.low(j) == "x" || r.low(j) == "@"):
		a.to = j + 1
		_, ok := r.stretchAt(j + 1)
		return a, ok
	}
	return a, false
}

// personNoun reports whether token i counts people: "guys", "men".
func (r *reader) personNoun(i int) bool {
	switch r.low(i) {
	case "guys", "guy", "men", "man", "electricians", "apprentices", "helpers", "techs", "hands",
		"workers", "people":
		return true
	}
	return false
}

// spanPart reads a clock span that the words around it bear out.
func (r *reader) spanPart(i int, list []timePart) (timePart, bool) {
	p, ok := r.pairAt(i)
	if !ok {
		return timePart{}, false
	}
	if s, doubt := p.span(0); doubt == "" && s.Minutes() <= 90 && r.low(p.next) == "lunch" && !r.isNumber(p.next+1) {
		return timePart{kind: aPause, from: i, to: p.next + 1, minutes: s.Minutes(), pair: p}, true
	}
	if !p.strong() && !r.borneOut(i, p, list) {
		return timePart{}, false
	}
	from := i
	if p.from24 {
		from--
	}
	return timePart{kind: aSpan, from: from, to: p.next, pair: p}, true
}

// borneOut reports whether the words around two plain numbers say that they are times of day.
func (r *reader) borneOut(i int, p clockPair, list []timePart) bool {
	if !p.rises() && p.from.dotted && p.to.dotted {
		return true
	}
	if p.from.dotted && !p.to.dotted || p.to.dotted && (p.rises() && !p.from.dotted || !r.bold && !r.afterPerson(i, list)) {
		return false
	}
	if r.low(i-1) == "#" || r.numbered(i-1) || oddPacked(p.from) || oddPacked(p.to) {
		return false
	}
	follow := r.pauseFollows(p.next)
	switch {
	case follow, p.from24 && r.spanMayEnd(p.next):
		return true
	case len(list) > 0 && list[len(list)-1].kind == aSpan && i-list[len(list)-1].to > 1 && r.goesOn(list[len(list)-1].to, i):
		return r.spanMayEnd(p.next) || r.endsClause(p.next+1)
	case p.rises() && !r.spanMayEnd(p.next):
		return false
	case r.bold, r.afterPerson(i, list), r.afterHoursLabel(i), r.namedAfter(p.next):
		return true
	case len(list) > 0 && list[len(list)-1].kind == aSpan && r.goesOn(list[len(list)-1].to, i):
		return true
	case r.low(i-1) == "travel":
		return true
	case r.low(p.next) == "x" && r.isNumber(p.next+1):
		return !p.rises()
	}
	return false
}

// namedAfter reports whether one of ours stands right after a span: "8-12 Ines".
func (r *reader) namedAfter(i int) bool {
	m, ok := r.nameAt(i)
	return ok && !m.weak && r.endsClause(m.next)
}

// goesOn reports whether only commas and places stand between two spans: "7-12 barn, 1-4 house".
func (r *reader) goesOn(from, to int) bool {
	if to-from > 5 {
		return false
	}
	for i := from; i < to; i++ {
		if low := r.low(i); !joining(low) && !r.placeWord(i) && low != "then" && low != "on" && low != "at" && low != "the" {
			return to-from <= 2
		}
	}
	return true
}

// placeWord reports whether token i names a place in or about a building.
func (r *reader) placeWord(i int) bool {
	w, ok := trade.FindWord(r.low(i))
	return ok && w.Class == trade.PlaceWord
}

// oddPacked reports whether hour and minute in one number are no time people write: "121".
func oddPacked(c clockTime) bool { return c.packed && c.minute%5 != 0 }

// numbered reports whether the word at token i is followed by designations, not times.
func (r *reader) numbered(i int) bool {
	if !r.isWord(i) {
		return false
	}
	return runWord(r.low(i))
}

// pauseFollows reports whether a break is written at token i, past a comma or bracket.
func (r *reader) pauseFollows(i int) bool {
	for n := 0; n < 2 && (r.low(i) == "," || r.low(i) == "(" || r.low(i) == "w" || r.low(i) == "with" || r.low(i) == "/" || r.low(i) == "took"); n++ {
		i++
	}
	for n := 0; n < 2 && (r.low(i) == "/" || r.low(i) == "a"); n++ {
		i++
	}
	if i >= len(r.toks) {
		return false
	}
	_, ok := r.pauseAt(i, true)
	return ok || r.low(i+1) == "lunch"
}

// spanMayEnd reports whether what stands at token i can follow a clock span: not the noun of a
// counted thing ("7-8 boxes").
func (r *reader) spanMayEnd(i int) bool {
	if i >= len(r.toks) || r.toks[i].kind == symbol {
		return i >= len(r.toks) || r.clockStops(i) || r.toks[i].low == "(" || r.toks[i].spaced && r.toks[i].low != `"` && r.toks[i].low != "'"
	}
	if r.toks[i].kind == number {
		_, ok := r.pairAt(i)
		if !ok {
			_, ok = r.stretchAt(i)
		}
		return ok || r.pauseFollows(i)
	}
	switch low := r.low(i); low {
	case "and", "w", "with", "less", "minus", "no", "lunch", "on", "at", "each", "both", "total",
		"plus", "then", "took", "straight", "travel", "same", "today", "all", "hrs", "hours", "for", "doing", "in",
		"finishing", "working", "helping", "yesterday", "but", "x", "only", "i", "we", "again":
		return true
	default:
		_, named := r.nameAt(i)
		return named || len(low) > 5 && low[len(low)-3:] == "ing" || r.placeWord(i) && r.endsClause(i+1)
	}
}

// afterPerson reports whether the last timePart is a person, or people and a head count, and only
// small words stand between it and token i.
func (r *reader) afterPerson(i int, list []timePart) bool {
	if len(list) == 0 {
		return false
	}
	last := list[len(list)-1]
	if last.kind != aPerson && last.kind != aCrew || i-last.to > 4 {
		return false
	}
	for j := last.to; j < i; j++ {
		switch low := r.low(j); low {
		case ":", ",", "-", "–", "(", "was", "were", "worked", "here", "there", "on", "site", "from", "/":
		default:
			if !r.isNumber(j) && !commonWord(low) || r.numbered(j) {
				return false
			}
		}
	}
	return true
}

// afterHoursLabel reports whether the text begins with a label for hours and token i follows it.
func (r *reader) afterHoursLabel(i int) bool {
	switch r.low(0) {
	case "hrs", "hours", "time", "labor", "labour", "hr":
		return i <= 3 || r.low(i-1) == ","
	}
	return false
}

// hoursLabel reports whether the word or colon before token i is a label for hours.
func (r *reader) hoursLabel(i int) bool {
	low := r.low(i - 1)
	if low == ":" || low == "-" {
		low = r.low(i - 2)
	}
	return low == "hrs" || low == "hours"
}

// wholeRest reports whether the number at token i ends the text.
func (r *reader) wholeRest(i int) bool {
	n, ok := r.num(i)
	return ok && n.next >= len(r.toks)
}

// bareHours reports whether the number at token i is hours without the word: "Ines 8".
func (r *reader) bareHours(i int) bool {
	n, ok := r.num(i)
	return ok && n.v.Cmp(notes.Int(16)) <= 0 && n.v.Sign() > 0 &&
		(n.next >= len(r.toks) || r.low(n.next) == "," || r.low(n.next) == ";" || r.low(n.next) == "." && !r.close(n.next+1))
}

// loneNumber reads hours written without the word in a text about time: "Ines 7.5", "8"; and
// "Ines 1:15". A time of day alone is claimed, so that nobody counts it.
func (r *reader) loneNumber(i int, list []timePart) (timePart, bool) {
	if r.tailOfSomething(i) {
		return timePart{}, false
	}
	person := len(list) > 0 && (list[len(list)-1].kind == aPerson || list[len(list)-1].kind == aCrew)
	if (r.bold && (person || r.hoursAlone(i)) || i <= 2 && r.hoursLabel(i) && r.wholeRest(i)) && r.bareHours(i) {
		n, _ := r.num(i)
		m, ok := wholeMinutes(n.v, 60)
		return timePart{kind: aStated, from: i, to: n.next, minutes: m}, ok
	}
	c, ok := r.clockAt(i)
	if !ok || !c.clear {
		return timePart{}, false
	}
	if r.bold && person && c.half == 0 && !c.military && c.hour <= 12 && c.next == len(r.toks) {
		a := timePart{kind: aStated, from: i, to: c.next, minutes: notes.Minutes(c.hour*60 + c.minute)}
		if c.hour > 4 {
			a.doubt = "may be a time of day or a duration"
		}
		return a, a.minutes > 0
	}
	r.lone = append(r.lone, loneClock{i, c})
	start, end := r.piece(i, c.next)
	r.claim(notes.Piece{Start: start, End: end})
	return timePart{}, false
}

// hoursAlone reports whether the number at token i is all a text about hours says.
func (r *reader) hoursAlone(i int) bool {
	return i == 0 || i <= 2 && r.afterHoursLabel(i)
}

// personPart reads a person, or people nobody knows before a clock time.
func (r *reader) personPart(i int, list []timePart) (timePart, bool) {
	m, ok := r.mentionAt(i)
	if ok && (!m.weak || r.timeBeside(m.next, list, i)) {
		return timePart{kind: aPerson, from: i, to: m.next, who: m}, true
	}
	if !r.capital(i) || r.lex == nil || commonWord(r.low(i)) {
		return timePart{}, false
	}
	begins := i == 0 || i <= 2 && r.afterHoursLabel(i)
	if len(list) > 0 {
		last := list[len(list)-1]
		begins = begins || last.to == i && (last.kind == aStop || r.bold) || last.to == i-1 && joining(r.low(i-1))
	}
	if !begins {
		return timePart{}, false
	}
	m, ok = r.strangersAt(i)
	return timePart{kind: aPerson, from: i, to: m.next, who: m}, ok
}

// timeBeside reports whether a time stands right after token next or right before token i.
func (r *reader) timeBeside(next int, list []timePart, i int) bool {
	if r.low(next) == ":" || r.low(next) == "," || r.low(next) == "-" {
		next++
	}
	if _, ok := r.pairAt(next); ok && next < len(r.toks) {
		return true
	}
	if _, ok := r.stretchAt(next); ok {
		return true
	}
	if joining(r.low(next)) {
		if _, ok := r.nameAt(next + 1); ok {
			return true
		}
	}
	if r.bold && next < len(r.toks) && r.bareHours(next) {
		return true
	}
	if len(list) == 0 {
		return false
	}
	last := list[len(list)-1]
	gap := i - last.to
	return (last.kind == aStated || last.kind == aSpan || last.kind == aPerson) && gap <= 1 && (gap == 0 || joining(r.low(i-1)) || r.low(i-1) == "(")
}

// A loneClock is a time of day that begins no span.
type loneClock struct {
	at int // token
	clockTime
}

// A rowBuilder puts parts together to rows.
type rowBuilder struct {
	r      *reader
	rows   []notes.TimeRow
	cur    draft
	travel bool // "travel" stands before the time it is about
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
	inherited bool // people are carried over from the row before
	we        bool // its people are whoever "we" are
}

func (b *rowBuilder) build(parts []timePart) {
	for k, a := range parts {
		switch a.kind {
		case aPerson:
			b.person(a, parts, k)
		case aSpan:
			b.span(a)
		case aStated:
			b.stated(a, parts, k)
		case aPause:
			b.pause(a)
		case aCrew:
			b.crew(a, parts, k)
		case aEach:
			b.cur.row.Each = true
			b.touch(a)
		case aEachWay:
			b.eachWay(a)
		case aTotal:
			b.cur.total = true
		case aTravel:
			b.travelWord(a)
		case aStop:
			b.stop(a)
		}
	}
	b.flush()
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
	joined := k > 0 && parts[k-1].kind == aPerson && b.r.onlyJoins(parts[k-1].to, a.from)
	leads := k+1 < len(parts) && (parts[k+1].kind == aSpan || parts[k+1].kind == aStated) && parts[k+1].from-a.to <= 1
	switch {
	case !b.cur.timed:
		if b.cur.inherited {
			b.cur.row.People, b.cur.inherited = nil, false
		}
		b.cur.we = a.who.we && len(b.cur.row.People) == 0
	case b.cur.we && a.from == b.cur.to && len(a.who.names) > 0 && !a.who.we:
		b.cur.row.People, b.cur.we, b.cur.trailing = nil, false, true
	case len(b.cur.row.People) == 0 && b.cur.unnamed == 0 && !(leads && b.r.separated(a.from)):
		b.cur.trailing = true
	case b.cur.trailing && joined && !leads:
	default:
		b.flush()
	}
	for _, name := range a.who.names {
		if !slices.Contains(b.cur.row.People, name) {
			b.cur.row.People = append(b.cur.row.People, name)
		}
	}
	b.cur.unnamed += a.who.unnamed
	if a.who.beside && len(b.cur.row.People) == len(a.who.names) && !b.cur.timed && b.r.lex.Author != "" {
		if me := b.r.bookName(b.r.lex.Author); !slices.Contains(b.cur.row.People, me) {
			b.cur.row.People = slices.Insert(b.cur.row.People, 0, me)
		}
	}
	b.cur.row.Crew = max(b.cur.row.Crew, a.who.heads)
	b.touch(a)
}

// onlyJoins reports whether only joining signs stand between two tokens.
func (r *reader) onlyJoins(from, to int) bool {
	for i := from; i < to; i++ {
		if !joining(r.low(i)) {
			return false
		}
	}
	return to-from <= 2
}

// separated reports whether a comma stands before token i.
func (r *reader) separated(i int) bool { return r.low(i-1) == "," || r.low(i-1) == "/" }

// inherit begins a new row for the people of the current one.
func (b *rowBuilder) inherit() {
	people, unnamed, crew := b.cur.row.People, b.cur.unnamed, b.cur.row.Crew
	b.flush()
	b.cur.row.People = slices.Clone(people)
	b.cur.unnamed, b.cur.row.Crew = unnamed, crew
	b.cur.inherited = len(people) > 0
}

func (b *rowBuilder) span(a timePart) {
	if b.cur.timed && (b.cur.row.Stated > 0 && len(b.cur.row.Spans) == 0 || b.travel || b.cur.row.Travel) {
		if b.cur.trailing {
			b.flush()
		}
		b.inherit()
	}
	s, doubt := a.pair.span(b.cur.lastSpan)
	if doubt == "" && len(b.cur.row.Spans) > 0 && int(s.From) < b.cur.lastSpan {
		doubt = "its times overlap"
	}
	if b.cur.row.Fault == "" {
		b.cur.row.Fault = doubt
	}
	b.cur.row.Spans = append(b.cur.row.Spans, s)
	b.cur.lastSpan = max(b.cur.lastSpan, int(s.To))
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

// stated adds a duration: to a row with spans it is the sum of them, else a row of its own.
func (b *rowBuilder) stated(a timePart, parts []timePart, k int) {
	if len(b.cur.row.Spans) > 0 && b.cur.row.Stated == 0 && b.isSum(a) {
		b.checkSum(a.minutes)
		b.touch(a)
		b.r.claimTokens(a.from, a.to)
		return
	}
	if b.cur.timed && b.r.low(a.from-1) == "=" {
		b.product(a)
		return
	}
	if b.cur.timed {
		if b.cur.trailing {
			b.flush()
		}
		b.inherit()
	}
	b.cur.row.Stated = a.minutes
	b.cur.total = b.cur.total || a.flag
	b.cur.row.Fault = a.doubt
	if a.doubt == "" && a.minutes > longest && !a.flag {
		b.cur.row.Fault = "runs past 16 h"
	}
	b.timed(a)
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
	case "", ")", ".", ";", "total", ",":
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
	case diff == 0:
	case row.Break == 0 && (diff == 15 || diff == 20 || diff == 30 || diff == 45 || diff == 60):
		row.Break = diff
	case row.Fault == "":
		row.Fault = "says " + sum.String() + ", its clock times give " + row.Clock().String()
	}
}

// pause takes a break off the row, or off every row of the line.
func (b *rowBuilder) pause(a timePart) {
	b.r.claimTokens(a.from, a.to)
	if a.pair.next > 0 && b.cur.timed {
		// A lunch written between two spans is off the clock already: "7-11 lunch 11-11:30".
		if s, _ := a.pair.span(0); int(s.From) >= b.cur.lastSpan {
			return
		}
	}
	if a.flag {
		for k := max(0, len(b.rows)-16); k < len(b.rows); k++ {
			if len(b.rows[k].Spans) > 0 {
				b.rows[k].Break = a.minutes
			}
		}
	}
	if b.cur.timed {
		b.cur.row.Break = a.minutes
		b.touch(a)
		return
	}
	if n := len(b.rows); n > 0 && !a.flag && len(b.rows[n-1].Spans) > 0 {
		b.rows[n-1].Break = a.minutes
	}
}

// crew sets the head count of the row it stands in or before.
func (b *rowBuilder) crew(a timePart, parts []timePart, k int) {
	if b.cur.timed && b.cur.row.Crew > 0 {
		b.flush()
	}
	leads := k+1 < len(parts) && (parts[k+1].kind == aSpan || parts[k+1].kind == aStated) && parts[k+1].from-a.to <= 1
	if b.cur.timed && leads && (len(b.cur.row.People) > 0 || b.r.separated(a.from)) {
		b.flush()
	}
	b.cur.row.Crew = a.heads
	b.touch(a)
	b.r.claimTokens(a.from, a.to)
}

// eachWay doubles a drive that is written one way.
func (b *rowBuilder) eachWay(a timePart) {
	if b.cur.timed && len(b.cur.row.Spans) == 0 {
		b.cur.row.Stated *= 2
		b.touch(a)
	}
}

// travelWord says that the time beside it was spent on the road.
func (b *rowBuilder) travelWord(a timePart) {
	if b.cur.timed && len(b.cur.row.Spans) == 0 && a.from-b.cur.to <= 2 && !b.r.separated(a.from) {
		b.cur.row.Travel = true
		b.touch(a)
		return
	}
	b.travel = true
}

// stop ends the row at the end of a sentence; people named before any time stay for what follows.
func (b *rowBuilder) stop(a timePart) {
	if !b.cur.timed {
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
	if !d.timed {
		return
	}
	row := &d.row
	if d.unnamed > 0 && len(row.People)+d.unnamed > 1 {
		row.Crew = max(row.Crew, len(row.People)+d.unnamed)
	}
	if len(row.Spans) == 0 {
		row.Each = !d.total && row.Heads() > 1
	} else {
		row.Each = false
	}
	row.Start, row.End = b.r.piece(d.from, d.to)
	b.rows = append(b.rows, *row)
}

// finish looks for one person at two places at once.
func (b *rowBuilder) finish() []notes.TimeRow {
	for i := range b.rows {
		for j := max(0, i-16); j < i; j++ {
			if b.rows[i].Fault == "" && shared(b.rows[i].People, b.rows[j].People) && overlap(b.rows[i].Spans, b.rows[j].Spans) {
				b.rows[i].Fault = "its times overlap"
			}
		}
	}
	return b.rows
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
