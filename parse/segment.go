package parse

import (
	"slices"
	"strings"

	"jobday/notes"
)

// A joint is where two clauses of a text meet.
type joint byte

const (
	noJoint   joint = iota // the start of the text
	fullStop               // a sentence ended
	semicolon              // a detail, or another thing
	comma                  // ", and", " but ", " - ", ", "
	listed                 // between things of a list
)

// A clause is a stretch of marks; to is exclusive.
type clause struct {
	from, to int
	joint    joint // before it
}

// empty reports whether a clause has nothing but signs.
func (c clause) empty(marks []mark) bool {
	for _, m := range marks[c.from:c.to] {
		if m.kind != signMark {
			return false
		}
	}
	return true
}

// clauses parts a text at semicolons and where sentences end, into the memory of cs.
func clauses(cs []clause, text string, marks []mark) []clause {
	cs = cs[:0]
	from, next := 0, noJoint
	for i := range marks {
		j := noJoint
		switch marks[i].low {
		case ";":
			j = semicolon
		case ".", "!", "?":
			if endsSentence(text, marks, i) {
				j = fullStop
			}
		}
		if j == noJoint {
			continue
		}
		to := i
		if marks[i].low == "?" {
			to = i + 1 // the judge looks for it
		}
		cs = append(cs, clause{from, to, next})
		from, next = i+1, j
	}
	cs = append(cs, clause{from, len(marks), next})
	kept := cs[:0]
	for _, c := range cs {
		if !c.empty(marks) {
			kept = append(kept, c)
		}
	}
	if len(kept) > 0 {
		kept[0].joint = noJoint
	}
	return kept
}

// endsSentence reports whether the full stop, exclamation or question mark at i ends a sentence:
// a blank follows, and it neither belongs to an abbreviation nor trails off ("...").
func endsSentence(text string, marks []mark, i int) bool {
	if i+1 >= len(marks) {
		return false
	}
	next := marks[i+1]
	if !next.spaced || i == 0 {
		return false
	}
	prev := marks[i-1]
	if prev.low == "." && marks[i].low == "." {
		return false
	}
	if marks[i].low == "." && prev.kind == wordMark && inParentheses(marks, i) && i+2 < len(marks) && marks[i+2].low == ")" {
		return false // "(maint. super)"
	}
	if marks[i].low == "." && prev.low == "in" && (i < 2 || marks[i-2].kind == wordMark) {
		return true // "surge protector in."
	}
	if marks[i].low == "." && prev.kind == wordMark && abbreviations[prev.low] {
		if durations[prev.low] && i > 1 && marks[i-2].kind == numberMark && next.kind == wordMark {
			return !afterDuration[next.low] // "40 min. box over the hall has no cover"
		}
		return startsSentence(text[next.start:]) && !neverEnds[prev.low]
	}
	return true
}

// inParentheses reports whether a parenthesis opened shortly before mark i is still open there.
func inParentheses(marks []mark, i int) bool {
	for j := i - 1; j >= 0 && j >= i-4; j-- {
		switch marks[j].low {
		case "(":
			return true
		case ")":
			return false
		}
	}
	return false
}

// abbreviations are words written with a full stop that often end no sentence; after those of
// neverEnds none ever ends.
var (
	abbreviations = wordSet("ft in approx w no nos st dr mr mrs ms vs inc co hr hrs min mins ea lb lbs misc temp incl qty ckt bldg rm apt " +
		"elec ph amp amps sq doz pcs pc mat mats ext int lt lts sw recept recep brkr pnl conn a p m fl fr rd ave jr sr sgt asst mgr " +
		"gen prot xfmr util fixt sup supt est max maj dept equip inst")
	durations     = wordSet("hr hrs min mins")
	afterDuration = wordSet("lunch lunches break travel drive driving each total for on at to of per in with labor work late early")
	neverEnds     = wordSet("mr mrs ms dr vs approx w st no nos incl supt sgt")
)

// softJoints returns the places inside a clause where another thing may begin: behind a comma, "but",
// "and" or a dash. Each is the first mark of the right part with the end of the left part.
func softJoints(marks []mark, c clause) []clause {
	const most = 100 // nobody parts one sentence more often, and each place is weighed with all of it
	var js []clause
	for i := c.from + 1; i < c.to-1 && len(js) < most; i++ {
		if behind := takesOff(marks, c.from, i); behind > 0 {
			if behind < c.to && marks[behind].low == "," {
				behind++ // what follows says why
			}
			i = behind - 1
			continue
		}
		left, right := i, i+1
		switch m := marks[i]; {
		case m.low == "," && takesOff(marks, c.from, right) > 0:
			continue
		case m.low == ",":
			if n := marks[right].low; n == "and" || n == "but" || n == "also" || n == "then" {
				right++
			}
		case m.low == "but" || m.low == "and" || m.low == "&" || m.low == "also" || m.low == "then":
		case m.low == "-" && m.spaced && marks[right].low == "-" && !marks[right].spaced:
			right++
		case (m.low == "-" || m.low == "–" || m.low == "—") && m.spaced && marks[right].spaced && !insideSpan(marks, i):
		default:
			continue
		}
		if right < c.to {
			js = append(js, clause{left, right, comma})
		}
	}
	return js
}

// takesOff returns the mark behind the number where mark i is a "but" that says how many of all were not done, "all the
// lights but one", and 0 elsewhere.
func takesOff(marks []mark, from, i int) int {
	if marks[i].low != "but" {
		return 0
	}
	next := i + 1
	for next < len(marks) && (marks[next].low == "for" || marks[next].low == "the") {
		next++
	}
	whole := func(m mark) bool { return m.low == "all" || m.low == "every" || m.low == "everything" }
	if next >= len(marks) || marks[next].kind != numberMark && !hourNames[marks[next].low] || !slices.ContainsFunc(marks[from:i], whole) {
		return 0
	}
	return next + 1
}

// cutAt looks for the places where a clause parts into things of different kinds, and returns the
// clauses, one or more, in the memory of cut. in is the section it stands in.
func cutAt(cut []clause, marks []mark, c clause, in notes.Section) []clause {
	cut = cut[:0]
	if !signsOf(marks[c.from:c.to]).has(telling) && marks[c.to-1].low != "?" {
		return append(cut, c)
	}
	rest := c
	joints := softJoints(marks, c)
	for i, j := range joints {
		if j.from <= rest.from || j.to >= rest.to {
			continue
		}
		left := evidenceOf(marks[rest.from:j.from], nil)
		right := evidenceOf(marks[j.to:rest.to], nil)
		next := rest.to // the end of the words up to the next joint
		for _, after := range joints[i+1 : min(i+3, len(joints))] {
			if after.from > j.to { // not the "and" of ", and"
				next = after.from
				break
			}
		}
		if next < rest.to && saysNothing(marks[j.to:next]) || !partsHere(left, right, in) ||
			judgeWords(evidenceOf(marks[j.to:next], nil)).kind == judge(left, in).kind {
			continue
		}
		cut = append(cut, clause{rest.from, j.from, rest.joint})
		rest = clause{j.to, rest.to, comma}
	}
	return append(cut, rest)
}

// saysNothing reports whether the words up to the next joint mean nothing by themselves, so that they
// end what stands before them: "up and working, the fourth is cracked".
func saysNothing(marks []mark) bool {
	e := evidenceOf(marks, nil)
	return !e.signs.has(thing|counted|somebody|named|foundIt) && judgeWords(e).score <= weakScore
}

// partsHere reports whether left and right of a joint are two things that both stand on their own.
func partsHere(left, right evidence, in notes.Section) bool {
	l, r := judge(left, in), judgeWords(right)
	if left.placed && left.words <= 3 {
		return false // "unit 2 - done except ..." is about the place
	}
	if l.kind == r.kind || l.kind == notes.Extra || l.kind == notes.Question || left.signs.has(soft) {
		return false
	}
	if in == "" && l.score < weakScore || !left.signs.has(workVerb|thing|counted|faulty|faultPhrase|clockSpan|looseSpan|instrument|leftOver) {
		return false
	}
	switch r.kind {
	case notes.Extra:
		return r.score >= strongScore && right.signs.has(thing) && l.kind != notes.Deficiency
	case notes.Deficiency: // with a thing of its own: "replaced two breakers, double tapped" says why
		return r.score >= strongScore && in != notes.Deficiencies && right.signs.has(thing|foundIt) && right.first.low != "which" &&
			!(right.first.kind == numberMark && right.signs.has(foundIt) && l.kind == notes.Work) // "1 to 4 in, 5 has no box"
	case notes.LeftOpen: // of another thing: "pipe up, no wire yet" is how far that thing got
		return r.score >= strongScore && l.kind != notes.Deficiency && (right.signs.has(thing) || right.words > 2 && !right.restOfIt()) && right.first.low != "need" && !right.signs.has(negated) &&
			(left.signs.has(workVerb|progressed) || l.kind == notes.TimeEntry || l.kind == notes.Test)
	case notes.Delay:
		return r.score >= strongScore && l.kind == notes.Work && l.score >= clearScore && left.signs.has(workVerb|progressed) && right.signs.has(weathered|machine)
	case notes.Question:
		return r.score >= strongScore && right.asks
	case notes.Test:
		return r.score >= 8 && l.kind == notes.Work && l.score >= clearScore && !left.signs.has(tested)
	case notes.TimeEntry:
		return (r.score >= 9 || r.score >= 8 && right.signs.has(mealBreak)) && l.kind != notes.TimeEntry
	case notes.Work:
		return (l.kind == notes.TimeEntry && l.score >= 9 || l.kind == notes.Delay && l.score >= strongScore) && r.score >= clearScore
	}
	return false
}

// restOfIt reports whether words about what is left name nothing: only how many, or "the others". They
// say how far the thing before them got: "sensors: 6 in, 10 to go".
func (e evidence) restOfIt() bool {
	return !e.signs.has(thing|workVerb|named|somebody) && (e.first.sign.has(counted) || e.signs.has(heldUp))
}

// attribute reports whether a clause only says more of what stands before it: who agreed, how long
// it took, what it cost.
func (e evidence) attribute() bool {
	s := e.signs
	if s.has(byOthers) {
		return false
	}
	if s.has(saidYes) && e.words > 12 && !e.first.sign.has(pronoun) && !theirs[e.first.low] {
		return false // who agreed to what is an extra of its own
	}
	const more = pronoun | saidYes | saidNo | duration | priceTold
	if s.has(asked|brokeDown|thing|heldUp|weathered|secured|delivered|instrument|questioned|notBooked|machine|otherTrade|travelled|faulty|faultPhrase|leftOver) ||
		e.asks || s.has(clockSpan) || s.all(looseSpan|named) {
		return false
	}
	if s.has(workVerb) && (s.has(counted) || !e.first.sign.has(more|named)) {
		return false
	}
	return s.has(more) || s.has(named)
}

// listCuts parts a clause into the things of a list, where each begins with a count: at commas,
// " / ", "+", "&" and "and". It returns the clause alone when it is no list. A designation is never
// parted: 12/2, 3/4 and 1-1/4 have no blank around their sign.
func listCuts(text string, marks []mark, c clause) []clause {
	var cut []clause
	from := c.from
	for i := c.from + 1; i < c.to; i++ {
		m, next := marks[i], i+1
		switch {
		case next >= c.to && !m.broken:
			continue
		case m.broken && m.low != "," && marks[i-1].low != ",":
			next = i
		case m.low == "," || m.low == ";" || m.low == "and":
			if marks[next].low == "and" || marks[next].low == "&" {
				next++
			}
		case m.low == "|" && !namesThing(marks, next, c.to):
			continue // a further column: "bench recepts | 7 | yes"
		case m.low == "/" && !m.spaced && marks[i-1].low == "w":
			continue // "w/ covers"
		case (m.low == "/" || m.low == "+" || m.low == "&" || m.low == "|") && (m.spaced || marks[next].spaced):
		case m.low == "." && endsSentence(text, marks, i):
		default:
			continue
		}
		if next < c.to && m.low == "and" && signsOf(marks[from:i]).has(measured) && singleName(marks, next, c.to) {
			continue // "100 ft raceway base and cover"
		}
		if next >= c.to || !startsThing(marks, next, c.to) || !standsAlone(marks[from:i]) {
			continue
		}
		cut = append(cut, clause{from, i, listed})
		from, i = next, next
	}
	cut = append(cut, clause{from, c.to, listed})
	cut[0].joint = c.joint
	return cut
}

// singleName reports whether one word without a count stands at mark i before the next comma.
func singleName(marks []mark, i, to int) bool {
	m := marks[i]
	return m.kind == wordMark && !m.sign.has(counted) && (i+1 >= to || marks[i+1].low == ",")
}

// namesThing reports whether a thing is named from mark i to the next bar.
func namesThing(marks []mark, i, to int) bool {
	for ; i < to && marks[i].low != "|"; i++ {
		if marks[i].sign.has(thing) {
			return true
		}
	}
	return false
}

// standsAlone reports whether marks name a thing or count something, so that a list may part behind
// them.
func standsAlone(marks []mark) bool {
	if len(marks) > 2 && (marks[0].low == "took" || marks[0].low == "used") {
		marks = marks[1:] // "took - 24 usb, ..."
		if marks[0].kind == signMark {
			marks = marks[1:]
		}
	}
	for i, m := range marks {
		if m.kind == wordMark && m.sign.has(thing) {
			return true
		}
		if m.sign.has(measured) || m.low == "p" && i > 0 && !m.spaced && i+1 < len(marks) && !marks[i+1].spaced {
			return true // "65'", "2p30"
		}
	}
	for _, m := range marks {
		if m.kind == wordMark && !ratingWords[m.low] && !m.sign.has(counted) {
			return marks[0].sign.has(counted)
		}
	}
	return false // "2x 15A 1P" shares the name of what follows
}

// ratingWords are the letters and words of ratings and sizes.
var ratingWords = wordSet("a amp amps v volt volts w watt watts k kw hp awg ga gauge p pole gang kcmil va x in ft")

// startsThing reports whether a thing of a list begins at mark i: a count that belongs to nothing
// before it, or a bare name of material up to the next comma.
func startsThing(marks []mark, i, to int) bool {
	m := marks[i]
	switch {
	case singleVerb(marks, i, to):
		return false
	case m.kind == numberMark:
		return m.sign.has(measured) || !rates(marks, i, to)
	case m.kind == wordMark && m.sign.has(counted):
		return i+1 < to
	case m.low == "½" || m.low == "¼" || m.low == "¾" || m.low == ".":
		return true
	case m.low == "#":
		return false
	}
	n, things := 0, 0
	for j := i; j < to && marks[j].kind == wordMark; j++ {
		n++
		if marks[j].sign.has(thing) {
			things++
		}
	}
	return (things > 0 && n <= 4 || endsCounted(marks, i, to)) && !marks[i].sign.has(negated|faulty|workVerb)
}

// endsCounted reports whether a few words and then a number stand at mark i and no more before the next comma:
// "vanities 4".
func endsCounted(marks []mark, i, to int) bool {
	j := i
	for j < to && marks[j].kind == wordMark && !marks[j].sign.has(named) {
		j++
	}
	if j == i || j-i > 3 || j >= to || marks[j].kind != numberMark {
		return false
	}
	return j+1 >= to || marks[j+1].low == "," || marks[j+1].low == ";" || marks[j+1].low == "."
}

// singleVerb reports whether one thing and what it does stand at mark i: "one trips", "1 flickers". A
// single thing takes no plural.
func singleVerb(marks []mark, i, to int) bool {
	if i+1 >= to || marks[i].low != "one" && marks[i].low != "1" {
		return false
	}
	next := marks[i+1]
	return next.kind == wordMark && !next.sign.has(thing) && strings.HasSuffix(next.low, "s") && !strings.HasSuffix(next.low, "ss") && len(next.low) > 3
}

// rates reports whether the number at i is a rating with no thing behind it, which says more of the
// thing before: "4 recepts, 20A". In "4 recepts, 20A breaker" it begins the next thing.
func rates(marks []mark, i, to int) bool {
	if i+1 >= to {
		return true
	}
	words := 0
	for j := i; j < to && marks[j].low != ","; j++ {
		if marks[j].kind == wordMark {
			words++
		}
	}
	if words == 0 {
		return true // a size alone: "8 connectors, 3/4"
	}
	if ratingWords[marks[i+1].low] {
		for j := i + 2; j < to && marks[j].low != ","; j++ {
			if marks[j].sign.has(thing) {
				return false
			}
		}
		return true
	}
	return false
}

// bytes returns the byte offsets of a clause without the signs at its ends that only part it.
func (c clause) bytes(text string, marks []mark) (start, end int) {
	from, to := c.from, c.to
	for from < to && strings.Contains(",;-–—&+/|.", marks[from].low) && marks[from].kind == signMark && !startsNumber(marks, from) {
		from++
	}
	for to > from && marks[to-1].kind == signMark && strings.Contains(",;-–—&+|", marks[to-1].low) {
		to--
	}
	if from >= to {
		return marks[c.from].start, marks[c.from].start
	}
	return marks[from].start, marks[to-1].end
}

// startsNumber reports whether the sign at i is the point of ".5", or the minus of "-3 ohms": of a resistance
// below nothing, which must not turn into one that passes. Before another number a dash may be a bullet.
func startsNumber(marks []mark, i int) bool {
	if i+1 >= len(marks) || marks[i+1].kind != numberMark || marks[i+1].spaced {
		return false
	}
	switch marks[i].low {
	case ".":
		return true
	case "-", "–", "−":
		for j := i + 2; j < len(marks) && j < i+5; j++ {
			switch marks[j].low {
			case "ohm", "ohms", "ω", "kohm", "kohms", "mohm", "mohms", "megohm", "megohms", "meg", "megs", "gohm":
				return true
			case ".":
				continue
			}
			if marks[j].kind != numberMark {
				return false
			}
		}
	}
	return false
}
