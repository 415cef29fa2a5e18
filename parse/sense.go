package parse

import (
	"strings"
	"unicode"
)

// sense gives every mark its signs.
func (sc *scanner) sense(text string) {
	for i := range sc.marks {
		m := &sc.marks[i]
		switch m.kind {
		case wordMark:
			sc.senseWord(text, i)
		case numberMark:
			sc.senseNumber(text, i)
		case signMark:
			switch m.low {
			case "$", "€", "£":
				m.sign |= priceTold
			case "½", "¼", "¾":
				m.sign |= counted
			case "Ω":
				m.sign |= instrument
			}
		}
	}
	sc.negate()
}

func (sc *scanner) senseWord(text string, i int) {
	m := &sc.marks[i]
	low := m.low
	switch low {
	case "the", "of", "and", "with", "from", "so", "or", "as", "s", "x", "w":
		return // much of what people write, and it hints at nothing
	}
	if low == "a" && !m.spaced && i > 0 && sc.marks[i-1].kind == numberMark {
		return // amperes
	}
	if strings.Contains(low, "’") {
		low = strings.ReplaceAll(low, "’", "'")
		m.low = low
	}
	m.sign |= signWords[low] | vocabularySign(low)
	if stem, many := strings.CutSuffix(low, "'s"); many && m.sign == 0 {
		m.sign |= vocabularySign(stem) // "gfci's"
	}
	sc.senseProgress(i)
	if hourNames[low] || low == "quarter" || low == "half" {
		sc.senseSpoken(i)
	}
	for _, p := range signPhrases[low] {
		if p.sign == faultPhrase && low == "no" && (sc.at(i-1).low == "where" || sc.at(i-1).low == "if" || sc.at(i-1).low == "since" ||
			sc.at(i-2).kind == numberMark && sc.at(i-3).low == "," && strings.HasPrefix(sc.at(i-1).low, "ha")) {
			continue // "gfi protected where no ground", "1-4 in, 5 has no box"
		}
		if sc.follows(i+1, p.rest) && !(p.sign == leftOver && sc.leftToOthers(i, low)) && !(p.sign == delivered && sc.at(i-1).sign.has(weathered)) {
			m.sign |= p.sign
		}
	}
	if unicode.IsUpper(rune(text[m.start])) && sc.lex.Name(low) != "" {
		m.sign |= named
	}
	switch next := sc.at(i + 1).low; {
	case low == "did" && (next == "not" || next == "n't"),
		low == "set" && (next == "of" || i > 0 && sc.marks[i-1].sign.has(counted)),
		low == "asked" && (next == "about" || next == "whether"),
		low == "refused" && (next == "entry" || next == "access" || next == "us" || next == "to"),
		low == "wants" && (next == "their" || next == "his" || next == "her"), // people of their own
		(low == "had" || low == "wants") && next == "us" && away[sc.at(i+2).low],
		low == "missing" && i > 0 && besides[sc.marks[i-1].low],
		(low == "wants" || low == "want" || low == "wanted") && next == "to" && looking[sc.at(i+2).low]:
		m.sign &^= workVerb | asked | faulty | saidNo
	}
	if m.sign.has(needs|asked) && sc.at(i+1).low == "us" && away[sc.at(i+2).low] {
		m.sign = m.sign&^(needs|leftOver|asked) | instructed // "needs us out of the bar by Monday"
	}
	if (low == "put" || low == "set" || low == "cut") && modal[sc.at(i-1).low] {
		m.sign &^= workVerb // "asked if we can put in a bell" is no report
	}
	if low == "cut" && i == 0 || plainVerbs[low] && sc.reportsPlainly(i) {
		m.sign |= workVerb
	}
	if low == "missing" && sc.at(i+1).low == "from" && (sc.at(i+3).low == "order" || sc.at(i+3).low == "shipment" || sc.at(i+3).low == "delivery") {
		m.sign = m.sign&^faulty | delivered
	}
	if low == "box" && sc.at(i-1).low == "in" && sc.at(i-2).sign.has(faulty) || low == "box" && sc.follows(i-3, outOfThe) {
		m.sign |= delivered // "cracked in box", "dead out of the box"
		for j := max(0, i-4); j < i; j++ {
			sc.marks[j].sign &^= faulty
		}
	}
	if (low == "guys" || low == "guy" || low == "man" || low == "crew" || low == "company") && sc.trade(i-1) && !signWords[sc.at(i+1).low].has(spoken|asked) {
		m.sign |= otherTrade
		sc.marks[i-1].sign |= otherTrade
	}
	if low == "to" && i > 0 && sc.marks[i-1].sign.has(counted) && sc.at(i+1).low == "go" {
		m.sign |= leftOver // "2 to go"
	}
	sc.senseAround(text, i)
}

// leftToOthers reports whether what sounds like work left, "to do" or "need to" at mark i, is none of ours:
// asked of us, shown to us, or what somebody else has to do: "he'd need to ask his boss".
func (sc *scanner) leftToOthers(i int, low string) bool {
	before := sc.at(i - 1)
	switch low {
	case "to":
		return sc.objectBefore(i) || before.low == "how"
	case "will":
		return before.sign.has(somebody | otherTrade)
	case "need", "needs":
		return before.sign.has(somebody|otherTrade) || theirs[before.low]
	}
	return false
}

// modal are words behind which a verb tells of what may be, not of what was done.
var modal = wordSet("can could should would will to must might may")

// theirs are words that make somebody else the one who has to do it.
var theirs = wordSet("he she they he'd she'd they'd he'll she'll they'll hell")

// objectBefore reports whether "to do" at mark i is what somebody asked of us: "asked us to do those".
func (sc *scanner) objectBefore(i int) bool {
	switch sc.at(i - 1).low {
	case "us", "me", "wants", "want", "wanted", "like", "ok", "ok'd", "said", "told":
		return true
	}
	return false
}

// trade reports whether the word at mark i, before "guys" or "crew", says what they do, so that they
// are none of ours: "roof crew", not "our crew".
func (sc *scanner) trade(i int) bool {
	m := sc.at(i)
	if m.kind != wordMark || m.sign.has(counted|named|negated|pronoun|spoken|workVerb) {
		return false
	}
	switch m.low {
	case "our", "my", "us", "all", "the", "old", "new", "you", "with", "by", "and", "of", "whole", "full", "for", "night", "day", "per", "more":
		return false
	}
	return true
}

// senseAround looks at what stands around a word whose own signs are known.
func (sc *scanner) senseAround(text string, i int) {
	m := &sc.marks[i]
	low := m.low
	if m.sign.has(asked) || low == "asked" {
		sc.senseAsker(text, i)
	}
	if (low == "voc" || low == "vmp" || low == "isc") && sc.at(i+1).kind == numberMark {
		m.sign |= instrument
	}
	if low == "no" && (sc.at(i-1).low == "has" || sc.at(i-1).low == "have") && sc.at(i-2).sign.has(thing) && sc.at(i+1).sign.has(thing) && !sc.at(i+1).sign.has(whole) {
		m.sign |= faultPhrase // "disposal has no disconnect"
	}
	if low == "no" || low == "none" || low == "nope" {
		sc.senseNone(i)
	}
	if (low == "told" || low == "quoted") && i+2 < len(sc.marks) && sc.marks[i+2].kind == numberMark {
		switch sc.marks[i+1].low {
		case "her", "him", "them", "owner", "ruth":
			m.sign |= priceTold
		}
	}
	if low == "noon" || low == "midnight" {
		if i > 0 && (sc.marks[i-1].low == "-" || sc.marks[i-1].low == "to" || sc.marks[i-1].low == "–") {
			m.sign |= clockSpan
		}
	}
	if low == "l" && sc.phase(i+1) {
		m.sign |= instrument
	}
}

// senseProgress sees "two of three", "gfci in", and clock times told in words: "started at 7".
func (sc *scanner) senseProgress(i int) {
	m, next := &sc.marks[i], sc.at(i+1)
	switch m.low {
	case "in", "up":
		if m.low == "up" && sc.at(i-1).low == "wrapped" && sc.tellsTime(i+1) {
			m.sign |= clockOut
		}
		before := sc.at(i - 1)
		ends := next.kind == 0 || next.kind == signMark && next.low != "-" || next.low == "and" || next.low == "but" || m.low == "up" && (next.kind == numberMark || before.kind == wordMark && upOn[next.low] && !before.sign.has(verbal|spoken|workVerb|pronoun) && !upVerbs[before.low])
		if ends && i > 0 && before.low != "come" && before.low != "came" && (before.low != "plug" || i > 1) && before.low != "not" {
			m.sign |= progressed
		}
	case "started", "start", "arrived", "began", "here", "there":
		if sc.tellsTime(i+1) && (m.low != "there" || sc.at(i-1).low == "got") {
			m.sign |= clockIn
		}
	case "left", "finished", "done", "out", "quit", "off", "stopped", "leave", "departed":
		if sc.tellsTime(i + 1) {
			m.sign |= clockOut
		}
	}
	switch before := sc.at(i - 1); m.low {
	case "yet":
		sc.notYet(i)
	case "hour", "hours":
		if before.sign.has(counted) || before.low == "half" || before.low == "quarter" {
			m.sign |= duration
		}
	case "one":
		switch before.low {
		case "first", "second", "third", "last", "other", "that", "this", "which", "new", "old":
			m.sign &^= counted // names which one
		}
	}
	if m.sign.has(counted) && !m.sign.has(vague) && next.low == "of" && sc.counts(i+2) {
		m.sign |= outOf | progressed
	}
}

// notYet sees "no plugs yet", "none yet": it is still to be done, and no fault.
func (sc *scanner) notYet(i int) {
	for j := i - 1; j >= 0 && j >= i-4 && sc.marks[j].kind == wordMark; j-- {
		if sc.marks[j].sign.has(negated) && sc.marks[j].low != "nobody" {
			if awaited[sc.at(j+1).low] {
				return // "no price yet" waits for somebody's word, not for us
			}
			sc.marks[i].sign |= leftOver
			sc.marks[j].sign &^= faultPhrase
			return
		}
	}
}

// besides are words before "missing" that count it off from what is done: "done except missing one".
var besides = wordSet("more except but still only just minus")

// looking are verbs of which somebody wants to do them: nothing is asked of us.
var looking = wordSet("see watch look talk know check be inspect think meet come keep wait confirm approve verify witness discuss do handle")

var awaited = wordSet("price ok okay answer word po approval signature reply quote")

// counts reports whether a number or number word stands at mark i.
func (sc *scanner) counts(i int) bool {
	m := sc.at(i)
	return m.kind == numberMark || m.kind == wordMark && signWords[m.low].has(counted) && !signWords[m.low].has(vague)
}

// tellsTime reports whether a time of day stands from mark i on, "at 7", "7:30", and is not the
// count of something.
func (sc *scanner) tellsTime(i int) bool {
	said := false
	if m := sc.at(i); m.low == "at" || m.low == "around" || m.low == "about" {
		i, said = i+1, true
	}
	if m := sc.at(i); m.low == "noon" || said && sc.spokenClock(i) > 0 {
		return true
	}
	next, sure := sc.clock(i)
	return next > 0 && (said || sure || sc.at(next).kind == signMark || sc.at(next).kind == 0)
}

// phase reports whether "1-N" or "1-L2" stands from mark i on, so that the whole is "L1-N".
func (sc *scanner) phase(i int) bool {
	n, dash, other := sc.at(i), sc.at(i+1), sc.at(i+2)
	return n.kind == numberMark && !n.spaced && len(n.low) == 1 &&
		(dash.low == "-" || dash.low == "–" || dash.low == "to") && (other.low == "n" || other.low == "l" || other.low == "g")
}

// senseAsker sees who asked: a name that is none of ours, or she, he and they, is somebody with a say.
func (sc *scanner) senseAsker(text string, i int) {
	if i == 0 {
		return
	}
	sc.senseSubject(i)
	before := &sc.marks[i-1]
	switch {
	case before.low == "she" || before.low == "he" || before.low == "they":
		before.sign |= somebody
	case before.sign.has(named) || before.kind != wordMark || before.sign.has(thing):
	case unicode.IsUpper(rune(text[before.start])) && before.low != "i" && before.low != "we":
		before.sign |= somebody
	}
}

// senseNone sees "pendants no, glass is late" and "stats: none yet": how far a thing got.
func (sc *scanner) senseNone(i int) {
	before, next := sc.at(i-1), sc.at(i+1)
	if before.low == ":" {
		before = sc.at(i - 2)
	} else if before.low == "," {
		before = sc.at(i - 2)
	}
	ends := next.kind == 0 || next.kind == signMark && next.low != "." || next.low == "yet"
	if i > 0 && ends && before.kind == wordMark && !before.sign.has(spoken|asked|verbal|somebody|pronoun|named) && !told[before.low] {
		sc.marks[i].sign = sc.marks[i].sign&^(negated|faultPhrase) | outOf | progressed
	}
}

// away are words behind "wants us" and "had us" that ask for no work: "wants us out by 5".
var away = wordSet("out gone off done back there here blocked waiting stuck held locked away up")

// upOn are words that say where something is up, and upVerbs are verbs that end in "up".
var (
	upOn    = wordSet("on in at over along above by to above near behind across")
	upVerbs = wordSet("went go going come came coming get got pick picked clean cleaned hook hooked set follow wrap wrapped caught show end ended back " +
		"open opened close closed tied make made start started line lined blow blew look looked call called run put climbed drive hold held")
)

var outOfThe = []string{"out", "of", "the"}

// plainVerbs are verbs of work that some people write without an ending: "fan finish", "I fix".
var plainVerbs = wordSet("finish fix change connect install replace repair mount")

// reportsPlainly reports whether a verb without an ending tells of work: behind "I" or "we", or at the
// end of a clause that names something.
func (sc *scanner) reportsPlainly(i int) bool {
	before, next := sc.at(i-1), sc.at(i+1)
	if before.low == "i" || before.low == "we" {
		return true
	}
	return i > 1 && (next.kind == 0 || next.low == ",") && before.kind == wordMark && before.sign.has(thing) && !sc.at(0).sign.has(needs|leftOver|negated|asked)
}

// told are words before "no" that make it an answer.
var told = wordSet("her him them us me is was say a oh ground hot")

// senseSubject sees who asked by where it stands, whatever the word: what opens the clause and is
// neither one of us nor a thing. "Buyer in unit 1 asked for a dimmer", "the grower asked me to".
func (sc *scanner) senseSubject(i int) {
	if m := sc.at(i).low; m == "want" || m == "please" || m == "pls" {
		return // as often an order among ourselves
	}
	const far = 7
	at := i - 1
	for at > 0 && i-at < far && sc.marks[at-1].kind != signMark && !sc.marks[at].broken {
		at--
	}
	for at < i && (sc.marks[at].low == "the" || sc.marks[at].low == "also" || sc.marks[at].low == "and" || sc.marks[at].low == "a" || sc.marks[at].low == "new") {
		at++
	}
	m := &sc.marks[at]
	if at >= i || m.kind != wordMark || m.sign.has(named|thing|workVerb|negated|counted|asked) {
		return
	}
	switch m.low {
	case "i", "we", "it", "that", "this", "us", "code", "inspector", "as", "if", "what", "nobody", "who", "he", "she", "they", "when", "was", "were", "because", "since", "where", "which", "while":
		return
	}
	m.sign |= somebody
}

// follows reports whether the words stand from mark i on.
func (sc *scanner) follows(i int, words []string) bool {
	if i < 0 || i+len(words) > len(sc.marks) {
		return false
	}
	for j, w := range words {
		if sc.marks[i+j].low != w {
			return false
		}
	}
	return true
}

// senseNumber looks at a number with what stands behind it.
func (sc *scanner) senseNumber(text string, i int) {
	m := &sc.marks[i]
	next := sc.at(i + 1)
	if !m.spaced && i > 0 && sc.marks[i-1].kind != signMark {
		return // of a designation: "LP1"
	}
	switch next.low {
	case "h", "hr", "hrs", "hour", "hours", "min", "mins", "minutes", "minute":
		m.sign |= duration
	case "ohm", "ohms", "Ω", "megohm", "megohms", "meg", "megs", "ma", "ms", "milliamps", "hz", "fc":
		m.sign |= instrument
	case "volts", "volt", "vac":
		m.sign |= instrument
	case "in", "ft":
		if sc.follows(i+2, []string{"-", "lb"}) || sc.follows(i+2, []string{"lb"}) || sc.follows(i+2, []string{"-", "lbs"}) {
			m.sign |= instrument
		} else if next.low == "ft" {
			m.sign |= measured
		}
	case "feet", "foot", "lf", "'", "′", "roll", "rolls", "box", "boxes", "bag", "bags", "stick", "sticks", "lb", "lbs", "gal", "pair", "sets", "meters":
		m.sign |= measured
	case "pm":
		m.sign |= looseSpan
	case ".":
		if d := sc.at(i + 2); d.kind == numberMark && !d.spaced {
			sc.senseDecimal(m, i+3)
		}
	}
	sc.senseSpan(i)
	if m.sign.has(looseSpan|clockSpan) && sc.workerBefore(i) {
		m.sign |= clockSpan
	}
	if before := i - 1; m.sign.has(clockSpan|looseSpan) && before >= 0 && sc.marks[before].kind == wordMark && sc.lex.Name(sc.marks[before].low) != "" {
		sc.marks[before].sign |= named // in small letters: "sam 7-330"
	}
	if next.low == "of" && sc.counts(i+2) || sc.share(i) {
		m.sign |= outOf | progressed
	}
	clock := next.low == ":" && !next.spaced && sc.at(i+2).kind == numberMark
	if !m.sign.has(clockSpan|duration) && !clock {
		m.sign |= counted
	}
}

// share reports whether "3/5" at mark i says three of five: it is no fraction of an inch, no cable
// and no date.
func (sc *scanner) share(i int) bool {
	n, bar, of := sc.at(i), sc.at(i+1), sc.at(i+2)
	if bar.low != "/" || bar.spaced || of.kind != numberMark || of.spaced || len(n.low) > 2 || len(of.low) > 2 {
		return false
	}
	if next := sc.at(i + 3); next.low == "/" && !next.spaced || next.low == `"` {
		return false
	}
	if n.low == of.low {
		return true
	}
	switch of.low {
	case "1", "2", "3", "4", "8", "16", "32", "64":
		return false
	}
	return len(n.low) < len(of.low) || len(n.low) == len(of.low) && n.low < of.low
}

// senseDecimal looks behind a number with decimals: volts and amperes to the tenth are readings.
func (sc *scanner) senseDecimal(m *mark, behind int) {
	switch sc.at(behind).low {
	case "v", "a", "volts", "amps", "ohm", "ohms", "Ω", "ma", "meg", "megs", "fc", "k":
		m.sign |= instrument
	case "h", "hr", "hrs", "hours":
		m.sign |= duration
	}
}

func (sc *scanner) at(i int) mark {
	if i < 0 || i >= len(sc.marks) {
		return mark{}
	}
	return sc.marks[i]
}

// negate takes the signs that "no" and "not" turn round: "nothing loose", "not approved yet".
func (sc *scanner) negate() {
	const turned = faulty | faultPhrase | saidYes | asked | tested | foundIt
	for i := range sc.marks {
		if !sc.marks[i].sign.has(negated) || sc.marks[i].sign.has(faultPhrase|saidNo|notBooked) {
			continue
		}
		for j := i + 1; j < len(sc.marks) && j <= i+3 && sc.marks[j].kind != signMark; j++ {
			if sc.marks[j].sign.has(faulty) && sc.marks[i].low == "not" {
				continue // "not working, loose" stays a fault; only "no loose ..." is none
			}
			sc.marks[j].sign &^= turned
		}
	}
}

// signsOf sums the signs of marks.
func signsOf(marks []mark) sign {
	var s sign
	for i := range marks {
		s |= marks[i].sign
	}
	return s
}
