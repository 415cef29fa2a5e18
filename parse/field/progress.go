package field

import (
	"jobday/notes"
	"jobday/trade"
)

var progressCues = cueTable{
	sayDone: "done|complete|completed|finished|up and working|up, working|in and working|up and running|hot and working|live and working|" +
		"all working|working|is working|are working|works|now working|and working|buttoned up|wrapped up|all set|good to go|closed out|" +
		"landed and working|installed and working|tested and working|all wrapped up|energized and working|working now|runs|finished up",
	sayPartial: "started|started on|began|begun|under way|underway|in progress|roughed|roughed in|rough in done|rough done|rough is done|partial|partially|partly|mostly|almost|nearly|" +
		"left|most of|all but|everything but|all except|everything except|done except|complete except|finished except|finished all but|to go|left but|only left|thats left|left is|finished rough|finished roughing|finished the rough|rough finished|rough complete|rough is complete|rough in done|rough in complete|halfway|part way|still need|still needs|still have to|still has to|still to|still missing|" +
		"left to do|to do|no trim yet|no labels yet|need to|needs to|not all|not landed|not trimmed|not terminated|" +
		"not energized|not connected|not hooked up|not tied in|not tested|not finished|not complete|not completed|not labeled|not on yet|not on|not in yet|" +
		"not made up|not wired|not live|not hot|not up yet|arent landed|isnt landed|isnt terminated|isnt finished|arent finished|isnt complete|" +
		"come back|coming back|will finish|finish tomorrow|to be trimmed|needs trim|need trim|remaining to|yet to|not quite|working on",
	sayUntouched: "did not get to|didnt get to|never got to|not get to|not started|didnt start|did not start|hasnt started|havent started|not begun|" +
		"skipped|skip|not touched|havent touched|ran out of time|out of time|no time for|didnt do|did not do|no progress|nothing done|" +
		"didnt touch|did not touch|no work on|postponed|put off|held off|pushed to|didnt make it to|did not make it to|didnt get around to|did not get around to|untouched|not yet started|didnt finish nothing",
	sayUntouchedIf: "not done|isnt done|arent done|wasnt done|werent done|not installed|not pulled|not run|not set|not hung|not mounted|not up|not in|not ran|didnt install|didnt pull|did not install|did not pull|not yet done|not roughed",
	sayBlocked: "waiting on|waiting for|waits on|waits for|wait on|wait for|awaiting|blocked by|held up by|hold up by|holding for|stuck on|stuck behind|delayed by|" +
		"on hold for|on hold until|hold for|held for|held up waiting on",
	sayNoWay: "could not|couldnt|cant|cannot|unable to|not able to|no access|wasnt able to|werent able to|hung up on|holding up|holding us up|blocked|on hold|locked out of|room locked|door locked|locked up|in our way|in the way|" +
		"back ordered|backordered|on backorder|on order|held up|could not get in|couldnt get in|no room to work",
	sayNoBlocker: "could not find any|couldnt find any|could not find anything|couldnt find anything|cant find any|could not reproduce|couldnt reproduce|could not believe|cant complain|no longer waiting on|cant be seen|cant tell|cant see|cant say|cant remember",
	sayDropped: "not in contract|not in the contract|no longer in the job|out of the job|decided not to|decided not|took the fan off|deleted|cancelled|canceled|cancels|cancel|nixed|scrapped|scrap that|no longer needed|no longer wanted|no longer wants|not needed|not wanted|not needed anymore|" +
		"took it out of the job|took it out of the scope|took it off the list|off the list|taken off the list|out of the contract|" +
		"changed their mind|changed her mind|changed his mind|doesnt want|does not want|didnt want|did not want|dont want|doesnt need|does not need|dont need|do not need|" +
		"decided against|backed out|no need for|off the job|dropped from|was dropped|got dropped|is dropped|deleted from|descoped|omitted",
	sayDropIf:   "pulled it|pulled that|killed it|took it out|took out|dropped|took that out|took this out|dropped it|took it off|pulled it from|delete|deletes",
	sayByOthers: "by others|by other|by somebody else|by someone else|by another",
	sayAlready:  "already did|already|did it|did that|did this|did theirs|did those|did ours|took care of|handled it|handled",
	sayAll:      "all|every|everything|each of the",
	sayBoth:     "both",
	sayRest:     "rest of|the rest|last|the other|other|remaining|the remainder|remainder of|final",
	sayHalf:     "half",
	workDone: "pulled|set|landed|mounted|ran|run|hung|installed|put in|wired|terminated|made up|fished|bent|trenched|glued|traced|" +
		"labeled|labelled|trimmed|moved|replaced|relocated|swapped|cut in|demoed|removed|connected|tied in|in|up|bored|drilled|dug|added",
	futureWord: "to be|needs to be|need to be|will be|should be|has to be|have to be|must be|can be|when|once|until|till|before|if|ready to be|want it|wants it|get it|getting|be",
	othersWord: "homeowner|homeowners|sparky|plumber|plumbers|gc|gcs|hvac|tinner|tinners|drywaller|drywallers|carpenter|carpenters|painter|painters|owner|owners|customer|" +
		"tenant|tenants|landlord|roofer|roofers|fitters|fitter|installers|installer|framers|framer|masons|mason|maintenance|others|utility|" +
		"contractor|contractors|sprinkler|excavator|electrician|electricians|supplier|vendor|guys|somebody|someone|client|handyman|tilers|tiler|sheetrockers|mechanical|alarm",
}

// standing collects what the phrases about progress say.
type standing struct {
	r                *reader
	p                notes.Progress
	yes, no          bool
	untouchedIf      bool
	worked           bool
	others           int // token after the last word for somebody else, or 0
	already, did     int // token after "already", after "did it"
	alreadyDone      bool
	doneAt           int // token of the last "done", or -1
	blockAt, blockTo int
}

// progress reads how far the words say something got.
func (r *reader) progress() notes.Progress {
	s := r.look()
	if s.topics&aboutProgress == 0 && !s.negations && !s.ofs && !(s.numbers && (s.percent || s.slashes > 0)) {
		return notes.Progress{}
	}
	st := standing{r: r, doneAt: -1}
	if s.numbers || s.ofs {
		st.counts()
	}
	r.about(aboutProgress, st.take)
	if s.negations {
		st.undone()
	}
	st.decide()
	return st.p
}

// undone looks for "not" and "didn't" right before a verb of the trade: "didn't land them".
func (st *standing) undone() {
	r := st.r
	for i := range r.toks {
		if r.toks[i].kind != word || !negation(r.low(i)) || r.low(i) == "no" || r.low(i) == "nothing" {
			continue
		}
		if r.spokenFor(i) {
			continue
		}
		j := i + 1
		if r.low(j) == "yet" || r.low(j) == "been" || r.low(j) == "all" {
			j++
		}
		if w, ok := trade.FindWord(r.low(j)); !ok || w.Class != trade.VerbWord || w.Dim == "test" || w.Dim == "repair" {
			continue
		}
		st.no, st.untouchedIf = true, true
		st.touch(i, j+1)
	}
}

// spokenFor reports whether a phrase about progress or a fault begins with the word at token i.
func (r *reader) spokenFor(i int) bool {
	for _, h := range r.near(i, i+1) {
		if h.sense.topic() == aboutProgress || h.sense == sayFault {
			return true
		}
	}
	return false
}

// touch widens the piece to tokens from to to.
func (st *standing) touch(from, to int) {
	start, end := st.r.piece(from, to)
	if !st.p.Found() {
		st.p.Start, st.p.End = start, end
		return
	}
	st.p.Start, st.p.End = min(st.p.Start, start), max(st.p.End, end)
}

// take weighs one phrase.
func (st *standing) take(h hit) {
	r := st.r
	switch h.sense {
	case sayDone:
		st.done(h)
	case sayPartial:
		st.partial(h)
	case sayUntouched:
		if r.low(h.to) != "lunch" && r.low(h.to) != "break" {
			st.p.NotDone = true
			st.p.Dropped = st.p.Dropped || r.low(h.from) == "skip" && r.customerAfter(h.to)
			st.touch(h.from, h.to)
		}
	case sayUntouchedIf:
		st.no, st.untouchedIf = true, true
		st.touch(h.from, h.to)
	case sayBlocked, sayNoWay:
		st.blocked(h)
	case sayDropped:
		st.dropped(h)
	case sayDropIf:
		if r.customerBefore(h.from) && r.low(h.to) != "of" || r.isCustomer(h.to+1) && r.low(h.to) == "by" {
			st.p.Dropped = true
			st.touch(h.from, h.to)
		} else if r.low(h.from) == "took" {
			st.worked = true
		}
	case sayAll, sayBoth, sayRest, sayHalf:
		st.share(h)
	case workDone:
		st.worked = st.worked || !r.negatedWithin(h.from, 2)
	default:
		st.somebody(h)
	}
}

// done weighs a word that says complete.
func (st *standing) done(h hit) {
	r := st.r
	switch {
	case r.low(h.from) == "working" && h.to-h.from == 1 && (!r.endsClause(h.to) || r.negatedWithin(h.from, 2)):
		return
	case r.low(h.from) == "runs" && h.to-h.from == 1 && !r.machineBefore(h.from):
		return
	case r.low(h.to) == "but", r.low(h.to) == "except":
		st.no = true
	case r.low(h.from) == "works" && r.low(h.from-1) == "the", r.low(h.from) == "runs" && !r.endsClause(h.to),
		r.low(h.from) == "complete" && (r.low(h.to) == "with" || r.low(h.from-1) == "a"),
		r.low(h.from) == "finished" && (r.low(h.to) == "ceiling" || r.low(h.to) == "wall" || r.low(h.to) == "grade" || r.low(h.to) == "floor" || r.low(h.to) == "basement"):
		return
	case r.negatedWithin(h.from, 3), r.future(h.from):
		st.no = true
	case r.almost(h.from):
		st.no = true
	default:
		st.yes, st.doneAt = true, h.from
	}
	st.touch(h.from, h.to)
}

// machineBefore reports whether a thing that can run stands before "runs" at token i, not a number
// of home runs.
func (r *reader) machineBefore(i int) bool {
	switch r.low(i - 1) {
	case "home", "pipe", "conduit", "cable", "wire", "both", "all", "the", "two", "three", "long", "short", "mc", "emt", "of", "":
		return false
	}
	return r.isWord(i - 1)
}

// endsClause reports whether nothing of the clause follows token i.
func (r *reader) endsClause(i int) bool {
	return i >= len(r.toks) || r.breaks(i) || r.low(i) == "and" || r.low(i) == "now"
}

// future reports whether the words before token i say that what follows has yet to happen.
func (r *reader) future(i int) bool {
	for n := 0; n < 4 && i > 0 && !r.breaks(i-1); n++ {
		i--
		switch r.low(i) {
		case "be", "will", "should", "must", "when", "once", "until", "till", "before", "if", "get",
			"getting", "gets", "wants", "want":
			return true
		}
	}
	return false
}

// almost reports whether the word before token i makes less of it.
func (r *reader) almost(i int) bool {
	switch r.low(i - 1) {
	case "almost", "nearly", "mostly", "half", "about", "partially", "partly":
		return true
	}
	return false
}

// partial weighs a phrase that says something is under way.
func (st *standing) partial(h hit) {
	r := st.r
	switch r.low(h.from) {
	case "left":
		if h.to-h.from == 1 && !r.onlyLeft(h) {
			return
		}
	case "most":
		switch r.low(h.to) {
		case "the":
			if low := r.low(h.to + 1); low == "day" || low == "morning" || low == "afternoon" || low == "time" {
				return
			}
		case "an", "a":
			return
		}
	case "to":
		if r.low(h.to-1) == "go" {
			if !r.isNumber(h.from-1) && unitWord(r.low(h.from-1)) < 0 || !r.endsClause(h.to) {
				return
			}
			break
		}
		if !r.partialVerb(h) {
			return
		}
	case "need", "needs", "have", "has", "come", "coming", "still", "working", "remaining":
		if !r.partialVerb(h) {
			return
		}
	case "started":
		if r.isNumber(h.to) || r.low(h.to) == "at" {
			return
		}
	}
	if r.negatedWithin(h.from, 2) && r.low(h.from) != "no" && r.low(h.from) != "not" && r.low(h.from) != "left" {
		return
	}
	st.no = true
	if r.low(h.from) == "not" && r.low(h.from+1) == "all" && r.low(h.to) == "done" {
		st.untouchedIf = false
	}
	st.touch(h.from, h.to)
}

// onlyLeft reports whether "left" at the end of its clause says what remains: "just trim left".
func (r *reader) onlyLeft(h hit) bool {
	if !r.endsClause(h.to) {
		return false
	}
	for i := r.clauseStart(h.from); i < h.from; i++ {
		if low := r.low(i); low == "just" || low == "only" || low == "still" {
			return true
		}
	}
	return r.isNumber(h.from-1) && !r.close(h.from-1)
}

// partialVerb reports whether "need to" and the like is about work of ours that remains.
func (r *reader) partialVerb(h hit) bool {
	switch r.low(h.from - 1) {
	case "don't", "dont", "not", "doesn't", "doesnt", "no", "nothing", "didn't", "didnt", "who", "they", "owner", "customer":
		return false
	}
	if r.low(h.from) == "to" {
		return r.low(h.from-1) == "left" || r.low(h.from-1) == "still"
	}
	switch r.low(h.to) {
	case "know", "ask", "see", "order", "call", "talk", "approve", "ok", "sign":
		return false
	}
	return true
}

// blocked notes an obstacle and what it is.
func (st *standing) blocked(h hit) {
	r := st.r
	if h.sense == sayNoWay && r.low(h.from) == "blocked" && (r.low(h.to) == "out" || r.low(h.to) == "off") {
		return
	}
	if (r.low(h.from) == "held" || r.low(h.from) == "hold") && r.low(h.to) == "up" && r.low(h.to+1) == "with" {
		return
	}
	if r.pastObstacle(h) {
		return
	}
	st.p.Blocked = true
	st.touch(h.from, h.to)
	if st.p.BlockedBy != "" {
		return
	}
	switch {
	case h.sense == sayBlocked:
		st.p.BlockedBy = r.obstacle(h.to)
	case r.low(h.from) == "no":
		st.p.BlockedBy = r.text[r.toks[h.from].start:r.toks[h.to-1].end]
	default:
		st.p.BlockedBy = r.reason(h.to)
	}
	if st.p.BlockedBy != "" && h.sense == sayBlocked {
		st.touch(h.from, min(r.obstacleEnd(h.to), len(r.toks)))
	}
}

// pastObstacle reports whether the obstacle is over ("were in our way", "had to wait on the lift")
// or stands before a panel, which is a fault and stops no work.
func (r *reader) pastObstacle(h hit) bool {
	switch prev := r.low(h.from - 1); r.low(h.from) {
	case "in":
		return prev == "was" || prev == "were"
	case "wait":
		return prev == "to" && r.low(h.from-2) == "had"
	case "blocked":
		for j := max(0, h.from-3); j < h.from; j++ {
			if low := r.low(j); low == "panel" || low == "disconnect" || low == "door" {
				return true
			}
		}
	}
	return false
}

// obstacle returns what stands after "waiting on", as written.
func (r *reader) obstacle(from int) string {
	start, end := r.piece(from, r.obstacleEnd(from))
	return r.text[start:end]
}

func (r *reader) obstacleEnd(from int) int {
	i := from
	for n := 0; i < len(r.toks) && n < 10 && !r.breaks(i); n++ {
		switch r.low(i) {
		case "before", "so", "until", "to", "and", "since", "because":
			if i > from {
				return i
			}
		}
		i++
	}
	return i
}

// reason returns what stands after "because" or "due to" in the clause at token i, as written.
func (r *reader) reason(i int) string {
	for end := r.clauseEnd(i); i < end; i++ {
		switch r.low(i) {
		case "because":
			if r.low(i+1) == "of" {
				i++
			}
			return r.obstacle(i + 1)
		case "until", "till", "til":
			return r.obstacle(i + 1)
		case "due":
			if r.low(i+1) == "to" {
				return r.obstacle(i + 2)
			}
		}
	}
	return ""
}

// dropped notes what the customer took out.
func (st *standing) dropped(h hit) {
	r := st.r
	switch low := r.low(h.from); {
	case r.negatedWithin(h.from, 2) && low != "not" && low != "no":
		return
	case (low == "don't" || low == "dont" || low == "do" || low == "doesn't" || low == "does" || low == "doesnt") && (r.low(h.to) == "to" || r.low(h.to) == "a" && r.low(h.to+1) == "permit"):
		return
	case low == "dont" || low == "don't" || low == "do":
		if r.low(h.from-1) == "we" || r.low(h.from-1) == "i" {
			return
		}
	case low == "scrapped" && h.to < len(r.toks) && !r.breaks(h.to) && !r.customerBefore(h.from):
		return
	case low == "cancel" && r.low(h.from-1) == "to":
		return
	}
	st.p.Dropped = true
	st.touch(h.from, h.to)
}

// customerBefore reports whether a customer or pronoun stands before token i in its clause.
func (r *reader) customerBefore(i int) bool {
	for n := 0; n < 4 && i > 0 && !r.breaks(i-1); n++ {
		i--
		if r.isCustomer(i) || r.low(i) == "she" || r.low(i) == "he" || r.low(i) == "they" {
			return true
		}
	}
	return false
}

// customerAfter reports whether a customer stands after token i in its clause.
func (r *reader) customerAfter(i int) bool {
	for end := r.clauseEnd(i); i < end; i++ {
		if r.isCustomer(i) {
			return true
		}
	}
	return false
}

// isCustomer reports whether token i is a word for someone with a say.
func (r *reader) isCustomer(i int) bool {
	switch plainOwner(r.low(i)) {
	case "owner", "owners", "customer", "client", "gc", "tenant", "landlord", "manager", "super":
		return true
	}
	return false
}

// share weighs "all", "both", "the rest", "half".
func (st *standing) share(h hit) {
	switch r := st.r; h.sense {
	case sayAll:
		st.all(h)
	case sayBoth:
		if !r.pairOfPlaces(h.to) {
			st.p.All = true
			st.count(2, 2)
			st.touch(h.from, h.to)
		}
	case sayRest:
		st.rest(h)
	case sayHalf:
		if r.halfOfWork(h) {
			f := half
			st.p.Fraction = &f
			st.touch(h.from, h.to)
			if r.low(h.to) == "roughed" || r.low(h.to) == "done" || r.low(h.to) == "way" {
				st.no = true
			}
		}
	}
}

// pairOfPlaces reports whether "both" before token i is not about things done.
func (r *reader) pairOfPlaces(i int) bool {
	switch r.low(i) {
	case "of":
		return r.low(i+1) == "us"
	case "ends", "sides", "ways", "legs", "hots", "men", "guys", "days", "hands", "times", "":
		return true
	}
	return r.isNumber(i) || r.low(i-2) == "us"
}

func (st *standing) count(n, of int) {
	if st.p.Count != nil {
		return
	}
	a := notes.Int(n)
	st.p.Count = &a
	if of > 0 {
		b := notes.Int(of)
		st.p.Of = &b
	}
}

// all weighs "all": of things, with their number if it is written.
func (st *standing) all(h hit) {
	r := st.r
	switch r.low(h.to) {
	case "day", "night", "morning", "afternoon", "week", "weekend", "set", "good", "right", "ok", "of", "over",
		"thread", "weather", "hours", "the", "in", "around", "my", "our", "out", "along", "about", "that", "this", "done", "but", "we", "i", "":
		if !(r.low(h.to) == "the" && r.low(h.to+1) != "way" && r.low(h.to+1) != "time") && !(r.low(h.to) == "of" && (r.low(h.to+1) == "the" || r.low(h.to+1) == "them") || r.low(h.to) == "in" && r.endsClause(h.to+1) && !hourWord(r.low(h.from-1))) {
			return
		}
	}
	if r.low(h.from) == "every" && (r.low(h.to) == "day" || r.low(h.to) == "time" || r.isNumber(h.to)) {
		return
	}
	if prev := r.low(h.from - 1); prev == "at" || prev == "after" || prev == "not" || prev == "call" || prev == "above" || prev == "-" && r.close(h.from) || r.low(h.to) == "-" && r.close(h.to) {
		return
	}
	st.p.All = true
	st.touch(h.from, h.to)
	j := h.to
	if r.low(j) == "of" {
		j++
	}
	if r.low(j) == "the" {
		j++
	}
	if n, next, ok := r.headNumber(j); ok {
		st.count(n, n)
		st.touch(h.from, next)
	}
}

// headNumber reads a whole number at token i that counts things, not one that sizes or rates them.
func (r *reader) headNumber(i int) (n, next int, ok bool) {
	if i >= len(r.toks) {
		return 0, 0, false
	}
	v, ok := r.num(i)
	if !ok || v.form == article || v.small < 1 || v.small > 9999 {
		return 0, 0, false
	}
	if r.close(v.next) {
		switch r.low(v.next) {
		case ",", ";", ".", ")", ":":
		default:
			return 0, 0, false
		}
	}
	return v.small, v.next, !ratingUnit(r.low(v.next))
}

// ratingUnit reports whether a word makes the number before it a size or rating.
func ratingUnit(low string) bool {
	switch low {
	case "a", "amp", "amps", "v", "volt", "volts", "w", "watt", "watts", "in", "inch", "ft", "feet", "ga",
		"gang", "gauge", "awg", "kcmil", "pole", "p", "hp", "k", "kw", "kva", "x", `"`, "'", "/", "phase",
		"hr", "hrs", "hour", "hours", "min", "mins", "minutes", "%", "percent":
		return true
	}
	return false
}

// rest weighs "the rest", "last one", "the other two".
func (st *standing) rest(h hit) {
	r := st.r
	first, j := r.low(h.from), h.to
	switch first {
	case "last", "final":
		if at := r.low(h.from - 1); at == "at" || at == "from" || at == "past" || r.low(h.from-2) == "at" && at == "the" {
			return
		}
		switch r.low(j) {
		case "week", "night", "time", "visit", "day", "year", "trip", "month", "monday", "tuesday", "wednesday",
			"thursday", "friday", "inspection", "walk", "minute", "summer", "winter", "spring", "fall", "job", "":
			return
		}
	case "other", "the":
		if first == "other" || r.low(h.from+1) == "other" {
			n, next, ok := r.headNumber(j)
			if !ok && r.low(j) != "one" && r.low(j) != "ones" || first == "other" && !ok {
				return
			}
			if ok {
				st.count(n, 0)
				j = next
			}
			st.p.Rest = true
			st.touch(h.from, j)
			return
		}
	}
	if r.low(h.to-1) == "of" && r.low(j) == "the" && r.low(j+1) == "day" || r.low(h.to-1) == "of" && r.low(j) == "day" {
		return
	}
	st.p.Rest = true
	n, next, ok := r.headNumber(j)
	switch {
	case ok:
		st.count(n, 0)
		j = next
	case r.isNumber(j):
	case first == "last" || first == "final":
		st.count(1, 0)
	}
	st.touch(h.from, j)
}

// halfOfWork reports whether "half" is about how far work got: not a half hour, box or inch.
func (r *reader) halfOfWork(h hit) bool {
	switch r.low(h.from - 1) {
	case "north", "south", "east", "west", "back", "front", "top", "bottom", "upper", "lower", "first", "second", "other",
		"left", "right", "far":
		return false
	}
	if r.low(h.from-1) == "a" || r.low(h.from-1) == "and" || r.low(h.from-1) == "-" && r.close(h.from) {
		return false
	}
	switch r.low(h.to) {
	case "done", "finished", "complete", "completed", "roughed", "trimmed", "pulled", "way", "hung", "in", "up", "installed", "set", "landed":
		return r.low(h.to) != "in" || r.endsClause(h.to+1)
	case "of":
		return r.low(h.to+1) == "the" || r.low(h.to+1) == "them" || r.low(h.to+1) == "it"
	case "the", "are", "were":
		return true
	}
	return false
}

// somebody weighs the words for somebody else and what they did.
func (st *standing) somebody(h hit) {
	r := st.r
	switch h.sense {
	case sayByOthers:
		if r.low(h.from-1) != "damaged" && r.low(h.from-1) != "caused" {
			st.p.ByOthers = true
			st.touch(h.from, h.to)
		}
	case othersWord:
		if r.low(h.from) == "guys" && (r.low(h.from-1) == "our" || r.low(h.from-1) == "my" || r.isNumber(h.from-1)) {
			return
		}
		if r.low(h.from-1) == "by" || r.low(h.from-2) == "by" {
			st.byOther(h)
		}
		st.others = h.to
	case sayAlready:
		st.otherDid(h)
	}
}

// byOther notes "done by the plumber".
func (st *standing) byOther(h hit) {
	r := st.r
	by := h.from - 1
	if r.low(by) != "by" {
		by--
	}
	switch low := r.low(by - 1); low {
	case "done", "installed", "finished", "completed", "pulled", "wired", "hung", "set", "handled", "run", "ran",
		"landed", "provided", "furnished", "patched", "connected", "mounted", "supplied", "in", "made":
		if r.negatedWithin(by-1, 2) || r.future(by-1) {
			return
		}
		st.p.ByOthers = true
		st.touch(by-1, h.to)
	}
}

// otherDid notes "plumber already did it", "already done", "owner did it himself".
func (st *standing) otherDid(h hit) {
	r := st.r
	if st.others > 0 && h.from-st.others <= 2 && r.clauseStart(h.from) <= st.others {
		switch r.low(h.to) {
		case "told", "knows", "knew", "asked", "ok'd", "okd", "approved", "said", "signed", "paid", "has", "have", "had", "left", "you", "wants":
			return
		}
		if !r.negatedWithin(h.from, 3) {
			st.p.ByOthers = true
			st.touch(h.from, h.to)
		}
		return
	}
	if r.low(h.from) != "already" {
		return
	}
	if st.others > 0 && r.endsClause(h.to) && r.clauseStart(h.from) <= st.others && st.worked {
		st.p.ByOthers = true
		st.touch(h.from, h.to)
		return
	}
	switch r.low(h.to) {
	case "done", "installed", "there", "in", "wired", "pulled", "landed", "hung", "existing", "up", "ran", "run", "set", "mounted":
		if prev := r.low(h.from - 1); prev != "we" && prev != "i" && prev != "had" && prev != "have" {
			st.p.ByOthers = true
			st.touch(h.from, h.to)
		}
	}
}

// decide weighs the phrases against each other: a "not" outweighs a "done", and what is untouched
// is untouched only when no work is reported beside it.
func (st *standing) decide() {
	p := &st.p
	if st.untouchedIf && !st.worked && !st.yes && !p.Blocked {
		p.NotDone = true
	}
	if p.Fraction != nil {
		switch p.Fraction.Cmp(one) {
		case 0:
			st.yes = true
		default:
			st.yes = false
		}
	}
	part := p.Count != nil && p.Of != nil && p.Count.Cmp(*p.Of) < 0
	switch {
	case st.no:
		p.Complete = notes.No
	case st.yes && !part: // "2 of 3 done" says how many, not that all is done
		p.Complete = notes.Yes
	}
}

// counts reads "2 of 3", "50 %" and "2/3 done", which no phrase announces.
func (st *standing) counts() {
	r := st.r
	for i := range r.toks {
		switch low := r.low(i); {
		case low == "of":
			st.ofCount(i)
		case low == "%", low == "percent":
			st.percent(i)
		case low == "/" && r.isNumber(i-1) && r.isNumber(i+1):
			st.slashed(i)
		}
	}
}

// ofCount reads "2 of 3", "two of the three", "2 out of 3" around the "of" at token i.
func (st *standing) ofCount(i int) {
	r := st.r
	j := i - 1
	if r.low(j) == "out" {
		j--
	}
	n, from := r.numberBefore(j)
	if n < 0 || st.p.Count != nil {
		return
	}
	switch r.low(from - 1) {
	case "page", "day", "sheet", "visit", "trip", "pg", "phase", "part", "/", "-", "#", ".", "week", "crew", "step":
		return
	}
	k := i + 1
	for r.low(k) == "the" || r.low(k) == "those" || r.low(k) == "our" || r.low(k) == "these" {
		k++
	}
	of, next, ok := r.headNumber(k)
	if !ok || of < n {
		return
	}
	st.count(n, of)
	st.touch(from, next)
}

// numberBefore returns the whole number that ends with token i and where it starts, or -1.
func (r *reader) numberBefore(i int) (n, from int) {
	if i < 0 {
		return -1, i
	}
	if r.isNumber(i) && len(r.low(i)) <= 4 {
		if r.close(i) && r.low(i-1) != "(" {
			return -1, i
		}
		return smallInt(r.low(i)), i
	}
	for from := max(0, i-2); from <= i; from++ {
		if v, ok := r.num(from); ok && v.next == i+1 && v.small >= 0 && v.form == spelled {
			return v.small, from
		}
	}
	return -1, i
}

// percent reads a share of the work: "50 %", "75 percent done". A percentage of an instrument,
// a dimmer or a discount is none.
func (st *standing) percent(i int) {
	r := st.r
	from, v, ok := r.decimalBefore(i)
	if !ok || v.Cmp(notes.Int(100)) > 0 || v.Sign() < 0 {
		return
	}
	switch next := r.low(i + 1); next {
	case "", "done", "complete", "completed", "finished", "there", "of", "in", "roughed", "trimmed", "pulled", "on", ",", ".", ";", ")", "traced", "hung", "set", "installed", "landed", "labeled", "wired":
	default:
		return
	}
	for j := max(0, from-5); j < min(len(r.toks), i+5); j++ {
		switch r.low(j) {
		case "drop", "load", "unbalance", "imbalance", "humidity", "thd", "dimmed", "dim", "dimmer", "slope", "markup", "discount", "off", "deposit", "tax", "vd", "level":
			return
		}
	}
	f := v.Quo(notes.Int(100), 6)
	st.p.Fraction = &f
	if !f.Equal(one) && i+1 < len(r.toks) && doneWord(r.low(i+1)) {
		st.no = true
	}
	st.touch(from, i+1)
	r.claimTokens(from, i+1)
}

func doneWord(low string) bool {
	return low == "done" || low == "complete" || low == "completed" || low == "finished"
}

// decimalBefore reads the number that ends right before token i.
func (r *reader) decimalBefore(i int) (from int, v notes.Decimal, ok bool) {
	for from := max(0, i-3); from < i; from++ {
		if !r.isNumber(from) || r.close(from) && r.isNumber(from-2) {
			continue
		}
		if n, ok := r.num(from); ok && n.next == i {
			return from, n.v, true
		}
	}
	return 0, notes.Decimal{}, false
}

// slashed reads "2/3 done" around the slash at token i. "12/2 done to the island" is a cable.
func (st *standing) slashed(i int) {
	r := st.r
	if r.close(i-1) || !r.close(i) || !r.close(i+1) || r.low(i+2) == "/" {
		return
	}
	a, b := smallInt(r.low(i-1)), smallInt(r.low(i+1))
	next := r.low(i + 2)
	if len(r.low(i-1)) > 2 || len(r.low(i+1)) > 2 || a <= 0 || a >= b || !doneWord(next) && !(next == "of" && r.low(i+3) == "the" && r.low(i+4) == "way") {
		return
	}
	f := notes.Ratio(a, b)
	st.p.Fraction = &f
	st.no = true
	st.touch(i-1, i+3)
	r.claimTokens(i-1, i+2)
}
