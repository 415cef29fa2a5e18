package field

import (
	"jobday/notes"
	"jobday/trade"
)

var progressCues = cueTable{
	sayDone: "hot and running|is running now|fires|fires up|fired up|charging|charges|lit|lit up|all lit|on and working|on and running|on and lit|done|complete|completed|finished|up and working|up, working|in and working|up and running|hot and working|live and working|" +
		"all working|working|is working|are working|works|now working|and working|buttoned up|wrapped up|all set|good to go|closed out|" +
		"landed and working|installed and working|tested and working|all wrapped up|energized and working|working now|runs|finished up",
	sayPartial: "only|still behind|still boxed|still in the box|still in box|still missing|still on order|still out|still off|still wrapped|no power yet|no wire|no wires|no pipe|no conduit|no cable|no trim|no devices|conduit only|pipe only|boxes only|box only|line side only|load side only|rough only|rough in only|wire only|cable only|raceway only|to follow|tmw|tmrw|tomorrow|started|started on|began|begun|under way|underway|in progress|roughed|roughed in|rough in done|rough done|rough is done|partial|partially|partly|mostly|almost|nearly|" +
		"left|most of|all but|everything but|all except|everything except|done except|complete except|finished except|finished all but|to go|left but|only left|thats left|left is|finished rough|finished roughing|finished the rough|rough finished|rough complete|rough is complete|rough in done|rough in complete|halfway|part way|still need|still needs|still have to|still has to|still to|still missing|" +
		"left to do|to do|no trim yet|no labels yet|need to|needs to|not all|not landed|not trimmed|not terminated|" +
		"not energized|not connected|not hooked up|not tied in|not tested|not finished|not complete|not completed|not labeled|not on yet|not on|not in yet|" +
		"not made up|not wired|not live|not hot|not up yet|arent landed|isnt landed|isnt terminated|isnt finished|arent finished|isnt complete|" +
		"come back|coming back|will finish|finish tomorrow|to be trimmed|needs trim|need trim|remaining to|yet to|not quite|working on",
	sayUntouched: "not today|nothing on the|nothing done on|nothing on|did not get to|didnt get to|never got to|not get to|not started|didnt start|did not start|hasnt started|havent started|not begun|" +
		"skipped|skip|not touched|havent touched|ran out of time|out of time|no time for|no time to|didnt have time|did not have time|didnt do|did not do|no progress|nothing done|" +
		"didnt touch|did not touch|no work on|postponed|put off|held off|pushed to|didnt make it to|did not make it to|didnt get around to|did not get around to|untouched|not yet started|didnt finish nothing",
	sayUntouchedIf: "not done|isnt done|arent done|wasnt done|werent done|not installed|not pulled|not run|not set|not hung|not mounted|not up|not in|not ran|didnt install|didnt pull|did not install|did not pull|not yet done|not roughed",
	sayBlocked: "waiting on|waiting for|waits on|waits for|wait on|wait for|awaiting|blocked by|held up by|hold up by|holding for|stuck on|stuck behind|delayed by|" +
		"on hold for|on hold until|hold for|held for|held up waiting on",
	sayNoWay: "didnt come in|did not come in|didnt come|did not come|never came|hasnt come|never showed|refused entry|no lift|lifts not here|not here yet|not here|isnt here|arent here|not on site|not on site yet|not delivered|didnt show|did not show|no show|not in stock|no key|no keys|locked|nobody home|no one home|nobody was home|no entry|could not|couldnt|cant|cannot|unable to|not able to|no access|wasnt able to|werent able to|hung up on|holding up|holding us up|blocked|on hold|locked out of|room locked|door locked|locked up|in our way|in the way|" +
		"back ordered|backordered|on back order|on backorder|on order|held up|could not get in|couldnt get in|no room to work",
	sayNoBlocker: "could not find any|couldnt find any|could not find anything|couldnt find anything|cant find any|could not reproduce|couldnt reproduce|could not believe|cant complain|no longer waiting on|cant be seen|cant tell|cant see|cant say|cant remember",
	sayDropped: "not in contract|not in the contract|no longer in the job|out of the job|decided not to|decided not|took the fan off|deleted|cancelled|canceled|cancels|cancel|nixed|scrapped|scrap that|no longer needed|no longer wanted|no longer wants|not needed|not wanted|not needed anymore|" +
		"took it out of the job|took it out of the scope|took it off the list|off the list|taken off the list|out of the contract|" +
		"changed their mind|changed her mind|changed his mind|doesnt want|does not want|didnt want|did not want|dont want|doesnt need|does not need|dont need|do not need|" +
		"decided against|backed out|no need for|off the job|dropped from|was dropped|got dropped|is dropped|deleted from|descoped|omitted",
	sayDropIf:   "said skip|says skip|said to skip|said leave out|said to leave out|said leave off|pulled it|pulled that|killed it|took it out|took out|dropped|took that out|took this out|dropped it|took it off|pulled it from|delete|deletes",
	sayByOthers: "not ours|not us|not our job|not our work|not ours to|someone elses problem|somebody elses problem|by others|by other|by somebody else|by someone else|by another",
	sayAlready:  "will do it|will do it himself|will do it herself|will do it themselves|will do that|will do them|doing it himself|doing it themselves|do it himself|do it themselves|is doing it|are doing it|will handle it|will handle that|will install it|already did|already|did it|did that|did this|did theirs|did those|did ours|took care of|handled it|handled",
	sayAll:      "all|every|everything|each of the",
	sayBoth:     "both",
	sayRest:     "rest of|the rest|last|the other|other|remaining|the remainder|remainder of|final",
	sayHalf:     "half",
	workDone: "pulled|set|landed|mounted|ran|run|hung|installed|put in|wired|terminated|made up|fished|bent|trenched|glued|traced|" +
		"labeled|labelled|trimmed|moved|replaced|relocated|swapped|cut in|demoed|removed|connected|tied in|in|up|bored|drilled|dug|added",
	futureWord: "to be|needs to be|need to be|will be|should be|has to be|have to be|must be|can be|when|once|until|till|before|if|ready to be|want it|wants it|get it|getting|be",
	sayBeyond: "not on our sheet|not on the sheet|not on sheet|not on our list|not on the list|not on list|not in our scope|not in the scope|not in scope|not part of our scope|" +
		"not on our ticket|not on the ticket|not on ticket|not on our order|not on the order|not on the work order|not on our work order|out of scope|outside our scope|outside the scope|beyond scope|beyond our scope|" +
		"not in our contract|wasnt on the list|wasnt on our list|wasnt on our sheet|wasnt in our scope|isnt on our sheet|isnt on our list|isnt in our scope|not booked|wasnt booked|not on scope|not on the scope",
	othersWord: "pool crew|pool guy|pool guys|pool company|roof crew|concrete crew|steel crew|paint crew|drywall crew|sign crew|hvac crew|ceiling crew|floor crew|other crew|solar crew|homeowner|homeowners|sparky|plumber|plumbers|gc|gcs|hvac|tinner|tinners|drywaller|drywallers|carpenter|carpenters|painter|painters|owner|owners|customer|" +
		"tenant|tenants|landlord|roofer|roofers|fitters|fitter|installers|installer|framers|framer|masons|mason|maintenance|others|utility|" +
		"contractor|contractors|sprinkler|excavator|electrician|electricians|supplier|vendor|guys|somebody|someone|client|handyman|tilers|tiler|sheetrockers|mechanical|alarm",
}

// standing collects what the phrases about progress say.
type standing struct {
	r           *reader
	p           notes.Progress
	yes, no     bool
	untouchedIf bool
	worked      bool
	others      int // token after the last word for somebody else, or 0
	doneAt      int // token of the last "done", or -1
}

// progress reads how far the words say something got.
func (r *reader) progress() notes.Progress {
	s := r.look()
	lacking := s.lacking
	if s.topics&aboutProgress == 0 && !lacking && !s.negations && !s.ofs && !s.placed && !(s.numbers && (s.percent || s.slashes > 0)) {
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
	if lacking {
		st.without()
	}
	st.p.Placed = s.placed
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
	st.r.widen(&st.p.Piece, from, to)
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
		if r.low(h.from) == "nothing" && (r.low(h.to) == "site" || r.low(h.to) == "it" || r.endsClause(h.to)) {
			return
		}
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
		if _, by := r.personBefore(h.from); r.customerBefore(h.from) && r.low(h.to) != "of" || by > 0 && r.low(h.to-1) == "skip" || r.isCustomer(h.to+1) && r.low(h.to) == "by" {
			st.p.Dropped = true
			st.touch(h.from, h.to)
		} else if r.low(h.from) == "took" {
			st.worked = true
		}
	case sayAll, sayBoth, sayRest, sayHalf:
		st.share(h)
	case sayBeyond:
		st.p.Beyond = true
		st.touch(h.from, h.to)
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
	case h.to-h.from == 1 && litWord(r.low(h.from)) && (!r.endsClause(h.to) || h.from == 0 || poorly(r.low(h.from-1))):
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

// litWord reports whether a word says that what stands before it works, when it ends its clause.
func litWord(low string) bool {
	switch low {
	case "fires", "charging", "charges", "lit":
		return true
	}
	return false
}

func poorly(low string) bool {
	switch low {
	case "poorly", "dimly", "not", "isn't", "isnt", "half", "still", "keeps", "for", "ev", "car", "no", "the", "a", "never":
		return true
	}
	return false
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
		if h.to-h.from == 1 {
			st.leaves(h.from - 1)
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
		if r.low(h.to-1) == "follow" {
			if !r.endsClause(h.to) {
				return
			}
			break
		}
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
	case "only":
		if low := r.low(r.clauseStart(h.from)); !r.endsClause(h.to) || low != "did" && low != "got" && low != "done" && !r.isCustomer(r.clauseStart(h.from)-1) {
			return
		}
	case "no":
		if !r.endsClause(h.to) {
			return // "no wire needed"
		}
	case "tmw", "tmrw", "tomorrow":
		if !r.waitsForMorning(h) {
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
	if st.allBut(h) {
		return
	}
	if r.low(h.from) == "not" && r.low(h.from+1) == "all" && r.low(h.to) == "done" {
		st.untouchedIf = false
	}
	st.touch(h.from, h.to)
}

// leaves reads "plug ins: one left": all but one, where no other number says how many were done.
func (st *standing) leaves(i int) {
	n, from := st.r.numberBefore(i)
	if n < 1 || st.p.Count != nil || st.p.But != nil {
		return
	}
	for j := range st.r.toks {
		if v, ok := st.r.num(j); ok && v.form != article && (j < from || j > i) {
			return
		}
	}
	but := notes.Int(n)
	st.p.But = &but
	st.touch(from, i+1)
}

// waitsForMorning reports whether "tomorrow" ends a few words about a thing, which is put off to it:
// "duct tmw", not "inspection tomorrow" and not what somebody else will do.
func (r *reader) waitsForMorning(h hit) bool {
	from := r.clauseStart(h.from)
	if !r.endsClause(h.to) || h.from-from > 4 || h.from == from {
		return false
	}
	for i := from; i < h.from; i++ {
		switch r.low(i) {
		case "inspection", "inspector", "delivery", "call", "meeting", "will", "coming", "is", "i", "we", "rain", "off", "see", "be", "are", "deliver", "here":
			return false
		}
	}
	return true
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
		if r.othersDid(h) {
			st.p.ByOthers = true
			st.touch(h.from, h.to+1)
		}
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

// othersDid reports whether a clause ends in what somebody else did: "vendor terminated".
func (r *reader) othersDid(h hit) bool {
	switch r.low(h.from) {
	case "guys", "electrician", "electricians", "contractor", "contractors", "maintenance", "alarm", "mechanical", "gc":
		return false
	}
	if r.isCustomer(h.from) && r.low(h.to) == "pulled" {
		return false // taken out, not put in
	}
	if r.low(h.from-1) == "by" || r.low(h.from-1) == "for" || r.negatedWithin(h.from, 3) {
		return false
	}
	switch r.low(h.to) {
	case "terminated", "landed", "wired", "installed", "ran", "hung", "set", "pulled", "connected", "mounted", "bonded", "trenched", "dug", "supplied":
	default:
		return false
	}
	switch r.low(h.to + 1) {
	case "it", "them", "those", "that", "himself", "themselves", "already":
		return r.endsClause(h.to + 2)
	}
	return r.endsClause(h.to+1) || !r.isCustomer(h.from) && r.low(h.to+1) == "the" && r.clauseEnd(h.to) == len(r.toks) && h.from <= 1
}

// byOther notes "done by the plumber".
func (st *standing) byOther(h hit) {
	r := st.r
	by := h.from - 1
	if r.low(by) != "by" {
		by--
	}
	switch low := r.low(by - 1); low {
	case "already", "bonded", "grounded", "terminated", "trenched", "dug", "roughed", "bored", "trimmed", "done", "installed", "finished", "completed", "pulled", "wired", "hung", "set", "handled", "run", "ran",
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
			if r.low(h.to) != "had" || r.low(h.to+2) != "done" {
				return
			}
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
