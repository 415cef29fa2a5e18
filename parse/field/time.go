package field

import (
	"jobday/notes"
)

var timeCues = cueTable{
	timeWord: "h|hr|hrs|hour|hours|min|mins|minute|minutes|lunch|noon|midnight|manhours|manhrs|am|pm|" +
		"half day|all day|unpaid|apiece|each way|crew|everybody|everyone",
	crewWord:   "guys|men|man|electricians|apprentices|helpers|techs|hands|workers|people|of us|man crew|guy crew",
	clockIn:    "on site|onsite|arrived|started|start|arr|arrive|got here|got there|showed up|in|clocked in|clock in|on at",
	clockOut:   "departed|depart|dep|off site|offsite|left|finished|finish|stopped|out|quit|done|gone|clocked out|clock out|off at|stop|end|ended|wrapped up|knocked off",
	travelWord: "travel|traveling|travelling|travel time|drive|drive time|driving|drove|trvl|trav|windshield time|windshield|shop to site|shop to job|to site|to the site|to and from site|site to shop|site to site|from the shop|from shop|job to job|on the road",
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
	aStop   // the end of a sentence, or ";"
	aBegin  // "started at 8", without an end beside it
	aEnd    // "left at 2", "till noon", without a start beside it
	aSetOut // "left shop 6:15"
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
	sum      bool   // of a stretch: told as what the times before it come to
	doubt    string // of a stretch
}

// ReadTime reads a text that is known to be about time, such as a line of the time section. It is
// bolder than Read: "Ines 8-12", "Dale 8 hrs" and "Ines 7.5" are time there.
// Pieces are byte offsets in text. A row that cannot be right carries why in Fault.
func ReadTime(text string, lex *Lexicon) []notes.TimeRow {
	w := begin(text)
	defer w.end()
	w.lex, w.bold = lex, true
	return w.time()
}

// time reads the rows of time in the text and claims their numbers.
func (r *reader) time() []notes.TimeRow {
	s := r.look()
	if s.numbers && !r.bold && r.onlyHours() {
		r.bold = true
		defer func() { r.bold = false }()
	}
	if !r.bold && !s.timed && !((s.numbers || s.ranges) && (s.ranges || s.colons || s.inOut == 3)) {
		return nil
	}
	bold := r.bold
	parts, timed := r.boldParts(r.parts[:0])
	r.parts = parts
	defer func() { r.bold = bold }()
	b := rowBuilder{r: r, parts: parts, sameEnd: -1}
	if !timed {
		if !r.bold {
			return nil
		}
		return b.besides()
	}
	b.build(parts)
	r.rows = len(b.rows) > 0
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
		if len(list) > 0 {
			if to := r.takeBack(i, list); to > i {
				list, i = r.corrected(to, list)
				continue
			}
		}
		a, ok := r.partAt(i, hit, list)
		if !ok {
			i++
			continue
		}
		if a.kind == aStated && r.bold {
			a.to = r.pastIncluded(a.to)
		}
		timed = timed || a.kind == aSpan || a.kind == aStated || a.kind == aBegin && len(list) > 0 && list[len(list)-1].kind == aEnd
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
	if a, ok := r.sumPart(i, list); ok {
		return a, true
	}
	inside := len(list) > 0 && (afterTime(list) || r.bold && anyTime(list))
	if a, ok := r.phrasePart(i, hit, inside, list); ok {
		return a, true
	}
	if a, ok := r.pausePart(i, inside, list); ok {
		return a, true
	}
	if a, ok := r.endOrBegin(i, hit, list); ok {
		return a, true
	}
	if a, ok := r.headCount(i, inside); ok {
		return a, true
	}
	if t.kind == number || t.low == "noon" || t.low == "midnight" || r.hourWord(i) > 0 || partOfHour(t.low) > 0 {
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
	if t.low == "." && !r.close(i) {
		if m, to, ok := r.bareTravel(i, list); ok {
			return timePart{kind: aStated, from: i, to: to, minutes: m}, true
		}
		return r.travelBehind(i)
	}
	if t.kind == word && numberWordAt(t.low) && r.hoursFor(i, list) {
		return r.hoursPart(i)
	}
	if t.kind == word && numberWordAt(t.low) && len(list) > 0 && list[len(list)-1].kind == aPerson && r.besidePerson(i, list) &&
		(r.bold || r.goesOnInHours(list)) && r.bareHours(i) && !r.toldClock(i, list) {
		return r.hoursPart(i)
	}
	if t.kind == word && numberWordAt(t.low) && r.hoursInTurn(i, list) {
		return r.hoursPart(i)
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
	for k := len(list) - 1; k >= max(0, len(list)-nearParts) && list[k].kind != aStop; k-- {
		if list[k].kind == aSpan || list[k].kind == aStated {
			return true
		}
	}
	return false
}

// anyTime reports whether the parts hold a span or duration.
func anyTime(list []timePart) bool {
	for k := max(0, len(list)-nearParts); k < len(list); k++ {
		if list[k].kind == aSpan || list[k].kind == aStated {
			return true
		}
	}
	return false
}

// nearParts bounds how many parts, and nearRows how many rows, are looked back over, so that work on a long
// text stays in proportion to its length.
const (
	nearParts = 32
	nearRows  = 16
)

// phrasePart reads the parts that are phrases.
func (r *reader) phrasePart(i, at int, inside bool, list []timePart) (timePart, bool) {
	switch r.low(i) {
	case "each":
		if r.low(i+1) == "way" {
			return timePart{kind: aEachWay, from: i, to: i + 2}, true
		}
		return timePart{kind: aEach, from: i, to: i + 1}, true
	case "both":
		if r.low(i+1) == "ways" && len(list) > 0 && list[len(list)-1].kind == aStated {
			return timePart{kind: aEachWay, from: i, to: i + 2}, true
		}
	case "same", "ditto":
		if to := r.wayBack(i); to > i && r.bold && anyTime(list) {
			return timePart{kind: aEachWay, from: i, to: to}, true
		}
	case "apiece":
		return timePart{kind: aEach, from: i, to: i + 1}, true
	case "left":
		if a, ok := r.setOut(i); ok {
			return a, true
		}
	case "here", "come", "came", "there":
		if r.bold {
			return r.inAndOut(hit{from: i, to: i + 1}, at-1, list)
		}
	case "ea":
		if n := len(list); n > 0 && list[n-1].to == i && (list[n-1].kind == aStated || list[n-1].kind == aTravel) {
			return timePart{kind: aEach, from: i, to: i + 1}, true
		}
	case "per":
		if r.low(i+1) == "man" || r.low(i+1) == "guy" || r.low(i+1) == "person" {
			return timePart{kind: aEach, from: i, to: i + 2}, true
		}
	case "total", "together", "combined", "altogether":
		return timePart{kind: aTotal, from: i, to: i + 1}, true
	}
	if at >= len(r.seen.hits) || r.seen.hits[at].from != i {
		return timePart{}, false
	}
	switch h := r.seen.hits[at]; h.sense {
	case noBreak:
		if inside || r.bold {
			return timePart{kind: aPause, from: i, to: h.to}, true
		}
	case travelWord:
		if r.isTravel(h) {
			return timePart{kind: aTravel, from: i, to: h.to}, true
		}
	case clockIn:
		return r.inAndOut(h, at, list)
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

// headCount reads "2 guys", "crew of 3", "x2 men", "3 of us", and "x2" after a time.
func (r *reader) headCount(i int, inside bool) (timePart, bool) {
	low := r.low(i)
	if a, ok := r.wholeCount(i, inside); ok {
		return a, true
	}
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
	case "apprentice", "helper", "electrician", "tech":
		return (r.low(i-1) == "1" || r.low(i-1) == "one") && i > 1 && (r.personNoun(i-2) || i > 2 && joining(r.low(i-2)) && r.personNoun(i-3))
	case "guys", "guy", "men", "man", "electricians", "apprentices", "helpers", "techs", "hands",
		"workers", "people":
		return true
	}
	return false
}

// personPart reads a person, or people nobody knows before a clock time.
func (r *reader) personPart(i int, list []timePart) (timePart, bool) {
	if m, ok := r.initialsRun(i, list); ok {
		return timePart{kind: aPerson, from: i, to: m.next, who: m}, true
	}
	if r.low(i) == "all" && r.bold && (i == 0 || i <= 2 && r.afterHoursLabel(i)) && !afterTime(list) && r.ownTime(i+1) && !r.countsAll(i+1) && r.lex != nil && len(r.lex.Crew) > 1 {
		m := r.wholeCrew(i + 1)
		m.group = true
		return timePart{kind: aPerson, from: i, to: i + 1, who: m}, true // "all 8"
	}
	if r.low(i) == "crew" && r.bold && i <= 1 && r.lex != nil && len(r.lex.Crew) > 1 && r.ownTime(i+1) {
		m := r.wholeCrew(i + 1)
		m.group = true
		return timePart{kind: aPerson, from: i, to: i + 1, who: m}, true // "crew 7-3:30"
	}
	if m, ok := r.othersAt(i); ok && (r.timeBeside(m.next, list, i) || anyTime(list)) {
		return timePart{kind: aPerson, from: i, to: m.next, who: m}, true
	}
	m, ok := r.mentionAt(i)
	if ok && m.weak && m.next == len(r.toks) && r.low(i-1) == "," && r.capital(i) && afterTime(list) {
		m.weak = false // "30 min load up at shop, Will"
	}
	if ok && (!m.weak || r.timeBeside(m.next, list, i)) {
		return timePart{kind: aPerson, from: i, to: m.next, who: m}, true
	}
	if m, ok := r.nextStranger(i, list); ok {
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
	if joining(r.low(next)) && r.low(next) != "," {
		if _, ok := r.nameAt(next + 1); ok {
			return true
		}
	}
	if r.low(next) == ":" || r.low(next) == "," || r.low(next) == "-" {
		if _, ok := r.nameAt(next + 1); ok && r.low(next) == "," && i == 0 {
			return true
		}
		next++
	}
	if r.low(next) == "same" || r.low(next) == "ditto" {
		return i > 0
	}
	if r.bold && r.capital(i) && r.comesOrGoes(next) {
		return true
	}
	for n := 0; n < 3 && r.beforeTime(next); n++ {
		next++
	}
	if _, ok := r.pairAt(next); ok && next < len(r.toks) {
		return true
	}
	if _, ok := r.stretchAt(next); ok {
		return true
	}
	if r.bold && next < len(r.toks) && r.bareHours(next) {
		return true
	}
	if len(list) == 0 {
		return false
	}
	last := list[len(list)-1]
	gap := i - last.to
	if r.bold && gap <= 1 && (last.kind == aEachWay || last.kind == aTravel || last.kind == aStated) && r.low(i-1) == "for" && r.endsText(next) {
		return true // "30 min travel each way for both"
	}
	if low := r.low(i); r.bold && (low == "both" || low == "all") && last.kind == aSpan && gap <= 2 && r.endsClause(next) && (r.low(i-1) == "site" || r.low(i-1) == "here") {
		return true // "7:45-3:30 on site both"
	}
	if r.bold && gap == 0 && last.kind == aTravel && r.isNumber(next) {
		return true // "travel both 30"
	}
	if r.bold && gap <= 1 && (last.kind == aPause && (r.endsClause(next) || joining(r.low(next)) || r.low(next) == "only") || last.kind == aStop && r.endsText(next)) {
		return true // "lunch 1/2 D only", "7 to 3, no lunch. Both."
	}
	return (last.kind == aStated || last.kind == aSpan || last.kind == aPerson || last.kind == aTotal) && gap <= 1 && (gap == 0 || joining(r.low(i-1)) || r.low(i-1) == "(" || r.bold && r.low(i-1) == "for")
}

// beforeTime reports whether the word at token i may stand between a person and a time.
func (r *reader) beforeTime(i int) bool {
	switch r.low(i) {
	case "was", "were", "worked", "here", "there", "on", "site", "from", "did", "in", "at", "onsite", "all", "both":
		return true
	}
	return false
}
