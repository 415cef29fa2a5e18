package field

import (
	"strings"

	"jobday/notes"
	"jobday/trade"
)

var progressCues = cueTable{
	sayDone: "running|ok now|good now|fed and running|in and running|and running|are running|is running|up, running|energized|energised|and hot|hot and running|is running now|fires|fires up|fired up|charging|charges|lit|lit up|all lit|on and working|on and running|on and lit|done|complete|completed|finished|up and working|up, working|in and working|up and running|hot and working|live and working|" +
		"all working|working|is working|are working|works|now working|and working|buttoned up|wrapped up|all set|good to go|closed out|" +
		"landed and working|installed and working|tested and working|all wrapped up|energized and working|working now|runs|finished up",
	sayPartial: "came with the wrong|came in wrong|came broken|came cracked|came damaged|came in broken|came in cracked|wrong voltage|stopped at|stopped short|minus|to be|only|missing|short|need|needs|not ready|not hauled|off till|off until|open till|open until|till inspection|until inspection|till insp|till the inspection|still behind|still boxed|still in the box|still in box|still missing|still on order|still out|still off|still wrapped|no power yet|no wire|no wires|no pipe|no conduit|no cable|no trim|no devices|conduit only|pipe only|boxes only|box only|line side only|load side only|rough only|rough in only|wire only|cable only|raceway only|to follow|tmw|tmrw|tomorrow|started|started on|began|begun|under way|underway|in progress|roughed|roughed in|rough in done|rough done|rough is done|partial|partially|partly|mostly|almost|nearly|" +
		"left|most of|all but|everything but|all except|everything except|done except|complete except|finished except|finished all but|to go|left but|only left|thats left|left is|finished rough|finished roughing|finished the rough|rough finished|rough complete|rough is complete|rough in done|rough in complete|halfway|part way|still need|still needs|still have to|still has to|still to|still missing|" +
		"left to do|to do|no trim yet|no labels yet|need to|needs to|not all|not landed|not trimmed|not terminated|" +
		"not energized|not connected|not hooked up|not tied in|not tested|not finished|not complete|not completed|not labeled|not on yet|not on|not in yet|" +
		"not made up|not wired|not live|not hot|not up yet|arent landed|isnt landed|isnt terminated|isnt finished|arent finished|isnt complete|" +
		"come back|coming back|will finish|finish tomorrow|to be trimmed|needs trim|need trim|remaining to|yet to|not quite|working on",
	sayUntouched: "n / s|not today|nothing on the|nothing done on|nothing on|did not get to|didnt get to|never got to|not get to|not started|didnt start|did not start|hasnt started|havent started|not begun|" +
		"skipped|skip|not touched|havent touched|ran out of time|out of time|no time for|no time to|didnt have time|did not have time|didnt do|did not do|no progress|nothing done|" +
		"didnt touch|did not touch|no work on|postponed|put off|held off|pushed to|didnt make it to|did not make it to|didnt get around to|did not get around to|untouched|not yet started|didnt finish nothing",
	sayUntouchedIf: "not done|isnt done|arent done|wasnt done|werent done|not installed|not pulled|not run|not set|not hung|not mounted|not up|not in|not ran|didnt install|didnt pull|did not install|did not pull|not yet done|not roughed",
	sayBlocked: "waiting on|waiting for|waits on|waits for|wait on|wait for|awaiting|blocked by|held up by|hold up by|holding for|stuck on|stuck behind|delayed by|" +
		"on hold for|on hold until|hold for|held for|held up waiting on",
	sayNoWay: "no answer at|not ready for us|didnt come in|did not come in|didnt come|did not come|never came|hasnt come|never showed|refused entry|no lift|lifts not here|not here yet|not here|isnt here|arent here|not on site|not on site yet|not delivered|didnt show|did not show|no show|not in stock|no key|no keys|locked|nobody home|no one home|nobody was home|no entry|could not|couldnt|cant|cannot|unable to|not able to|no access|wasnt able to|werent able to|hung up on|holding up|holding us up|blocked|on hold|locked out of|room locked|door locked|locked up|in our way|in the way|" +
		"back ordered|backordered|on back order|on backorder|on order|held up|could not get in|couldnt get in|no room to work",
	sayNoBlocker: "could not find any|couldnt find any|could not find anything|couldnt find anything|cant find any|could not reproduce|couldnt reproduce|could not believe|cant complain|no longer waiting on|cant be seen|cant tell|cant see|cant say|cant remember",
	sayDropped: "not in contract|not in the contract|no longer in the job|out of the job|decided not to|decided not|took the fan off|deleted|cancelled|canceled|cancels|cancel|nixed|scrapped|scrap that|no longer needed|no longer wanted|no longer wants|not needed|not wanted|not needed anymore|" +
		"took it out of the job|took it out of the scope|took it off the list|off the list|taken off the list|out of the contract|" +
		"changed their mind|changed her mind|changed his mind|doesnt want|does not want|didnt want|did not want|dont want|doesnt need|does not need|dont need|do not need|" +
		"decided against|backed out|no need for|off the job|dropped from|was dropped|got dropped|is dropped|deleted from|descoped|omitted",
	sayDropIf:   "said skip|says skip|said to skip|said leave out|said to leave out|said leave off|pulled it|pulled that|killed it|took it out|took out|dropped|took that out|took this out|dropped it|took it off|pulled it from|delete|deletes",
	sayByOthers: "not ours|not us|not our job|not our work|not ours to|someone elses problem|somebody elses problem|by others|by other|by somebody else|by someone else|by another",
	sayAlready:  "himself|herself|themselves|will do it|will do it himself|will do it herself|will do it themselves|will do that|will do them|doing it himself|doing it themselves|do it himself|do it themselves|is doing it|are doing it|will handle it|will handle that|will install it|already did|already|did it|did that|did this|did theirs|did those|did ours|took care of|handled it|handled",
	sayAll:      "all|every|everything|each of the",
	sayBoth:     "both",
	sayRest:     "rest|rest of|the rest|last|the other|other|remaining|the remainder|remainder of|final",
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
	if s.topics&aboutProgress == 0 && !lacking && !s.negations && !s.ofs && !s.placed && !s.telling && !(s.numbers && (s.percent || s.slashes > 0)) {
		return notes.Progress{}
	}
	st := standing{r: r, doneAt: -1}
	if s.numbers || s.ofs {
		st.counts()
	}
	if s.telling {
		st.more()
		st.told()
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
		switch low := r.low(j); {
		case r.endsClause(j) && i > 0 && low != "not" && strings.HasSuffix(strings.ReplaceAll(r.low(i), "'", ""), "nt"), low == "in" || low == "up" || low == "on" || low == "hot":
			st.no = true // "camera doesn't", "plug ain't in"
			st.touch(i, j)
			continue
		}
		if low := r.low(j); strings.HasSuffix(low, "ed") && len(low) > 3 && !noWork[low] && r.low(i) == "not" {
			st.no = true // "not tied to the relay"
			st.touch(i, j+1)
			continue
		}
		if w, ok := trade.FindWord(r.low(j)); !ok || w.Class != trade.VerbWord || w.Dim == "test" || w.Dim == "repair" {
			continue
		}
		st.no, st.untouchedIf = true, true
		st.touch(i, j+1)
	}
}

// noWork are participles that tell of no work of ours: "not needed".
var noWork = map[string]bool{
	"needed": true, "wanted": true, "allowed": true, "required": true, "included": true, "used": true, "asked": true, "expected": true,
	"damaged": true, "listed": true, "grounded": true, "bonded": true, "supported": true, "strapped": true, "rated": true, "sealed": true,
	"covered": true, "labeled": true, "labelled": true, "secured": true, "marked": true, "protected": true, "approved": true, "authorized": true,
	"signed": true, "booked": true, "quoted": true, "priced": true, "related": true, "interested": true, "involved": true, "billed": true,
	"charged": true, "tested": true, "energized": true, "delivered": true, "arrived": true, "locked": true, "decided": true, "fused": true,
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
	case r.low(h.from) == "running" && h.to-h.from == 1 && !addsOn(r.low(h.from-1)):
		return
	case (r.low(h.from) == "energized" || r.low(h.from) == "energised" || r.low(h.to-1) == "hot" || r.low(h.to-1) == "running") && !r.endsClause(h.to):
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

// addsOn reports whether a sign joins what follows to what was done: "cut in + ducted + running".
func addsOn(low string) bool {
	switch low {
	case "+", "&", ",", "n", "/":
		return true
	}
	return false
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
