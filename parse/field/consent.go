package field

import (
	"strings"

	"jobday/notes"
)

var consentCues = cueTable{
	sayAsked: "would love|shed like|hed like|theyd like|id like them to|asked for|asked if|asked us to|asked us|asked me to|asked me|asked|asks for|wants|wanted|want|would like|requested|requests|request|looking for|" +
		"asked about|wondering if|inquired|wants a price|wants a quote|also wants",
	sayYes: "will cover it|will cover the cost|covering the cost|gave the nod|gave us the nod|gave a nod|email approval from|email approval|approval email|approval from|approval by|written approval|approval in writing|text approval|po received|po issued|got a po|got po|have a po|po in hand|received po|received a po|his nickel|her nickel|their nickel|his dime|her dime|their dime|go - ahead from|the go - ahead|got the go - ahead|gave the go - ahead|gave us the go - ahead|gave go - ahead|gave us up to|gave me up to|waved us on|waved us through|yes from|yes per|yes by|yes to it|yes to both|shell pay|hell pay|theyll pay|will pay|will pay for it|willing to pay|happy to pay|agreed to pay|offered to pay|says to bill it|say yes|say ok|say do it|say go ahead|insisted|gave a yes|gave his ok|gave her ok|gave their ok|gave verbal|says bill it|said bill it|said to bill it|told us to bill it|says go ahead|says go for it|said go for it|says ok|says okay|says yes|says do it|says its fine|okd|okayed|oked|ok ' d|approved|approves|approve|authorized|authorised|said go ahead|said to go ahead|said yes|said ok|said okay|said do it|said to do it|said go|" +
		"told us to go ahead|told me to go ahead|told us to do it|told us to|told me to|directed us to|directed me to|instructed us to|gave the ok|gave ok|gave us the ok|gave the go ahead|gave us the go ahead|gave go ahead|" +
		"gave approval|go ahead from|green light|greenlit|agreed|agrees|agreed to|texted yes|texted ok|texted back yes|texted go ahead|emailed yes|emailed ok|replied yes|ok verbally|at owners request|at customers request|per owners request|per customers request|at the owners request|at the customers request|per the owners request|verbal go ahead|" +
		"ok from|okay from|the ok from|ok by|ok per|got the ok|got ok|got approval|got an ok|confirmed by|accepted|accepts|accepted by|thumbs up|said fine|said sure|said that's fine|said thats fine|said its fine|said its good|said its ok|said it's ok|had us|go ahead per",
	sayYesBy:  "per|as per|instructed by|directed by|ordered by|at the request of",
	sayYesIf:  "ok w /|okay w /|took it|directed|instructed|proceed|cool with it|good w /|good with|fine w /|cool with|cool w /|works for|bill it|fine with it|is fine with|good with it|ok with it|okay with it|ok w / it|ok|okay|fine with|ok with|okay with|is fine|was fine|is ok|is okay|to proceed|directive",
	sayTheirs: "signature|approval|blessing|initials|go - ahead",
	sayBare:   "yes|yep|yeah|no|nope|fine|sure|do it|go for it|go ahead|add it|waiting|pending|thinking",
	saySaid:   "said|says|say|told us|told me|replied|answered|texted|texted back|emailed|emailed back|wrote|wrote back",
	saySigned: "her initials|his initials|their initials|sig|sig by|initialed|initialled|initials from|initialed it|initialed the ticket|signed ticket|signed the ticket|signed the slip|signed t & m|signed|signed off|sign off|signed off on|signed for it|signed for|signature from",
	sayNo: "has no money|has no budget|no money for it|not in the budget|told her no|told him no|told them no|said no way|went with another|going with another|went with somebody else|using another|not in the budget|no budget|out of budget|over budget|changed her mind|changed his mind|changed their mind|changed their minds|backed out|but not today|but not now|not right now|maybe later|maybe next|too high|too steep|too rich|hold off|hold off on|holding off|wants to hold off|wants to wait|doesnt want to spend|doesnt want to pay|not willing to pay|shot it down|nixed|killed it|balked|lives with it|will live with it|leave it as is per|decided not to|decided not|decided against it|decided against|says skip it|wont approve|will not approve|wont sign|would not sign|wouldnt sign|refuses|too much money|too pricey|cant afford|costs too much|declined|declines|declined it|said no|told us no|told me no|dont bother|dont bother with|not now|turned it down|turned us down|refused|rejected|passed on it|passed on|not interested|" +
		"no thanks|too expensive|vetoed|wont pay|will not pay|said leave it|said to leave it|said forget it|said not to|told us not to|told me not to|opted out|said skip it|said to skip it|not this year|said not this time|not this time|said not today|said maybe later|said hold off|said to hold off|would rather not|rather not",
	sayDropBy: "doesnt need|does not need|didnt need|no longer needs|dont need|cancelled|canceled|cancelled it|cancels|said skip|says skip|said to skip|took it out",
	sayNoIf:   "no go|passed|doesnt want|does not want|did not want|didnt want|dont want|turned down|no longer wants|not going to pay|against it|said nope|nope",
	sayPending: "never got back to us|never got back to me|hasnt gotten back|waiting for answer|waiting for an answer|waiting on an answer|waiting to hear|awaiting answer|no word yet on|will sign|shell sign|hell sign|theyll sign|signature to follow|ticket to follow|wasnt sure|isnt sure|was not sure|is not sure|talk it over|discuss it with|run it by|run it past|think it over|look it over|waiting on po|waiting on a po|waiting for po|waiting for a po|need po|need a po|needs a po|needs po|no po|no po yet|po to follow|has to ok|have to ok|has to okay|needs to ok|need to ok|needs to okay|did not get a signature|didnt get a signature|could not get a signature|couldnt get a signature|didnt get it signed|did not get it signed|couldnt get it signed|could not get it signed|never got it signed|shell think|hell think|theyll think|going to think|cant reach|cannot reach|could not reach|couldnt reach|couldnt get hold of|could not get hold of|couldnt get ahold of|cant get hold of|cant get ahold of|nobody to sign|no one to sign|nobody there to sign|no one there to sign|wants to think|wanted to think|has to think|needs to think|co sent|sent co|sent the co|sent a co|co submitted|co pending|change order sent|change order submitted|change order pending|sent change order|sent a change order|not back yet|to approve|to authorize|to sign|to initial|to ok it|to okay it|left message|left a message|left her a message|left him a message|left msg|left voicemail|left a voicemail|left vm|lvm|i would price|would price it|would price|will price it|will price|office to price|office to quote|office will price|to office for a price|to the office for a price|office for price|office for pricing|wants pricing|wants price|wants a number|asked the price|how much|price first|price it first|work up a price|get her a price|get him a price|get them a price|needs a price|need a price|needs price|need price|needs pricing|to be priced|hasnt decided|has not decided|undecided|on the fence|sleep on it|mull it over|thinking it over|think about it|still deciding|talking to|has to clear it|will ask|would ask|asking his|asking her|asking the|no price yet|send price|send a price|send her a price|send him a price|send them a price|would email|will email|to confirm|will quote|office will quote|call the builder|call the office|call office|ask boss|ask the boss|needs to talk to|has to talk to|will talk to|wants to talk to|going to check with|has to check with|needs to check with|will check with|has to ask|needs to ask|needs to run it by|never got an answer|never heard back|no reply|no response|hasnt answered|hasnt replied|no ok yet|no ok|no okay|not authorized|not authorised|not approved|not okd|not yet approved|not yet authorized|waiting for approval|waiting on approval|awaiting approval|pending approval|pending ok|" +
		"will let us know|let us know|lets us know|thinking about it|thinks about it|will think|get back to us|get back to me|not signed|unsigned|no answer|no answer yet|no signature|" +
		"needs approval|need approval|needs ok|needs an ok|need ok|need an ok|to be approved|before approval|havent heard|haven't heard back|needs owner approval|needs owners ok|not sure yet|no word from|nobody approved|nobody okd|nobody signed|needs authorization|need authorization|no approval|without approval|without ok",
	howVerbal: "verbal only|got a verbal|got verbal|have verbal|have a verbal|verbally ok|verbally okd|verbally okayed|verbally approved|verbally authorized|verbally agreed|verbal|verbally|verbal ok|verbal okay|verbal yes|verbal approval|verbal from|verbal per|verbal by|by word of mouth",
	howOnSite: "on site|onsite|in person|on the spot|at the site",
	howPhone:  "am call|pm call|by call|on a call|by phone|over the phone|on the phone|phone|phoned|via phone|called|phone call|by telephone",
	howText:   "texted|by text|via text|text message|text msg|text|sms|by message|texts",
	howMail:   "emailed|by email|via email|email|e-mail|by e-mail|e - mail|mailed",
}

// verdict collects what the phrases about consent say.
type verdict struct {
	r       *reader
	c       notes.Consent
	decided notes.ConsentState // the last yes or no
	pending bool               // the last word leaves it open
	cue     hit                // what decided
	asked   hit
	dropped hit // takes booked work out, which is no answer to a question
	waiting hit
	how     string
	signed  bool
	verbal  bool // nothing written says yes
}

// consent reads who allowed or refused something.
func (r *reader) consent() notes.Consent {
	if r.look().topics&aboutConsent == 0 {
		return notes.Consent{}
	}
	v := verdict{r: r}
	r.about(aboutConsent, v.take)
	return v.decide()
}

// take weighs one phrase.
func (v *verdict) take(h hit) {
	r := v.r
	switch h.sense {
	case sayAsked:
		v.ask(h)
	case sayYes, saySigned:
		v.yes(h)
	case sayYesBy:
		v.per(h)
	case sayYesIf:
		v.agreed(h)
	case sayNo:
		v.no(h)
	case sayNoIf:
		v.mayRefuse(h)
	case sayDropBy:
		if _, end := r.personBefore(h.from); end > 0 && v.dropped.to == 0 && !r.negatedWithin(h.from, 2) {
			v.dropped = h
		}
	case sayTheirs:
		v.theirs(h)
	case sayBare:
		switch r.low(h.from) {
		case "no", "nope":
			v.alone(h, notes.Declined)
		case "waiting", "pending", "thinking":
			v.alone(h, notes.Asked)
		default:
			v.alone(h, notes.Authorized)
		}
	case saySaid:
		v.answer(h)
	case howVerbal:
		v.verbal = true
		if h.to-h.from > 1 {
			v.yes(h)
		}
	case sayPending:
		v.open(h)
	case howOnSite:
		v.means("on site")
	case howPhone:
		v.means("phone")
	case howText:
		v.means("text message")
	case howMail:
		v.means("e-mail")
	}
}

// agreed weighs "ok" right after a person: "owner ok with it", but "waiting on Ruth's ok".
func (v *verdict) agreed(h hit) {
	r := v.r
	from, end := r.personBefore(h.from)
	if end > 0 && r.low(from-1) == "told" && r.crewMember(from) {
		return // "told Ana ok"
	}
	switch r.low(h.from) {
	case "took":
		if !r.priced() || !r.endsClause(h.to) {
			return
		}
	case "is", "was":
		if r.dealWord(h.from-1) && (end > 0 || pronounBefore(r, h.from)) {
			v.settle(h, notes.Authorized)
		}
		return
	case "ok", "okay", "fine", "good", "cool":
		if last := r.low(h.to - 1); end == 0 && (last == "with" || last == "/") && r.clauseStart(h.from) == h.from {
			if _, ok := r.sayer(h.to); ok {
				v.settle(hit{h.from, h.to, sayYesBy}, notes.Authorized) // "added one, ok w/ Jean"
			}
			return
		}
	case "proceed":
		if prev := r.low(h.from - 1); prev == ":" || prev == `"` || prev == "“" || prev == "-" || prev == "," || end == h.from {
			v.settle(h, notes.Authorized)
		}
		return
	case "works":
		if low := r.low(h.to); low == "him" || low == "her" || low == "them" {
			v.settle(h, notes.Authorized)
		}
		return
	case "go", "to":
		if (end > 0 || r.low(h.from-1) == `"` || r.low(h.from-1) == "“") && !r.conditional(h.from) && !r.negatedWithin(h.from, 4) {
			v.settle(h, notes.Authorized)
		}
		return
	}
	if end == 0 && h.to-h.from > 1 && pronoun(r.low(h.from-1)) {
		end = h.from
	}
	if (end > 0 || v.asked.to > 0 || pronounBefore(r, h.from)) && r.afterAmount(h.from) && r.endsClause(h.to) {
		end = h.from // "Sal said 60 bucks ok"
	}
	if low := r.low(h.from); end == 0 && (low == "ok" || low == "okay") && h.to-h.from == 1 && v.asked.to > 0 && r.priced() && r.clauseStart(h.from) == h.from && r.endsClause(h.to) {
		end = h.from // "would like two cans, told her 180, ok"
	}
	at := h.from
	for at > 0 && (r.low(at-1) == "is" || r.low(at-1) == "was" || r.low(at-1) == "seems") {
		at-- // "she is good with 95"
	}
	if at < h.from && (end == at || pronoun(r.low(at-1))) && h.to-h.from > 1 {
		end = h.from
	}
	switch {
	case end == 0 || end != h.from || !r.notAResult(h):
	case r.conditional(h.from) || r.negatedWithin(h.from, 3):
		v.pending, v.waiting = true, h
	default:
		v.settle(h, notes.Authorized)
	}
}

// afterAmount reports whether an amount of money ends right before token i: "60 bucks ok", "$60 ok".
func (r *reader) afterAmount(i int) bool {
	switch r.low(i - 1) {
	case "bucks", "dollars":
		return r.isNumber(i - 2)
	}
	return r.isNumber(i-1) && r.low(i-2) == "$"
}

// dealWord reports whether token i stands for what was offered: "180 is fine", "the price is ok".
func (r *reader) dealWord(i int) bool {
	switch r.low(i) {
	case "price", "amount", "number", "quote", "that", "it", "cost":
		return true
	}
	return r.isNumber(i) && smallInt(r.low(i)) >= 20
}

// notAResult reports whether "ok" after a person is a consent: the line may go on with a reading.
func (r *reader) notAResult(h hit) bool {
	if r.isNumber(h.to) && h.to+1 < len(r.toks) {
		switch r.low(h.to + 1) {
		case "bucks", "dollars", ":", "am", "pm":
			return true // "ok 45 bucks", "ok 1:30"
		}
	}
	return r.low(h.to) == "$" || h.to-h.from > 1 || r.endsClause(h.to) || r.low(h.to) == "w" || r.low(h.to) == "with" || r.low(h.to) == "to"
}

// means notes how consent was given; the first way written counts.
func (v *verdict) means(how string) {
	if v.how == "" {
		v.how = how
	}
}

func (v *verdict) settle(h hit, s notes.ConsentState) {
	v.decided, v.cue, v.pending = s, h, false
	v.r.refused = v.r.refused || s == notes.Declined
}

// open notes that an answer is still due. "Not signed" takes back no verbal yes.
func (v *verdict) open(h hit) {
	low := v.r.low(h.from)
	if low == "to" && !v.toAnswer(h) {
		return
	}
	v.waiting = h
	if last := v.r.low(h.to - 1); v.decided == notes.Authorized && (low == "unsigned" || last == "signed" || last == "signature" || last == "sign" || last == "follow") {
		return
	}
	if v.r.low(h.to-1) == "sure" {
		if _, end := v.r.personBefore(h.from); end != h.from && !pronoun(v.r.low(h.from-1)) && low != "not" {
			return
		}
	}
	if prev := v.r.low(h.from - 1); low == "let" && prev != "will" && prev != "to" && !strings.HasSuffix(prev, "ll") {
		return
	}
	if last := v.r.low(h.to - 1); last == "reach" || last == "of" {
		if _, ok := v.r.personAt(h.to); !ok {
			return // "can't reach the box"
		}
	}
	v.pending = true
}

// ask notes a wish. "We want", "want to" and a plain imperative are none of a customer's.
func (v *verdict) ask(h hit) {
	r := v.r
	if r.negatedWithin(h.from, 2) {
		return
	}
	if r.low(h.from) == "request" && (r.possessive(h.from-1) || r.low(h.from-1) == "owners" || r.low(h.from-1) == "customers") {
		v.settle(h, notes.Authorized)
		return
	}
	if strings.HasPrefix(r.low(h.from), "want") || r.low(h.from) == "request" {
		if _, end := r.personBefore(h.from); end == 0 && !pronounBefore(r, h.from) {
			return
		}
	}
	if strings.HasPrefix(r.low(h.from), "want") && h.to-h.from == 1 && r.low(h.to) == "to" {
		switch r.low(h.to + 1) {
		case "see", "watch", "look", "talk", "know", "check", "be", "inspect", "think", "meet", "come", "keep", "witness", "verify":
			return // nothing is asked of us
		}
	}
	if r.low(h.from) == "asked" && r.otherWish(h) || r.comeAndGo(h) {
		return
	}
	if from, end := r.personBefore(h.from); end > 0 && (r.low(end-1) == "inspector" || r.low(from) == "ahj") {
		return // what an inspector wants is no extra anybody ordered
	}
	if v.asked.to == 0 {
		v.asked = h
	}
}

func pronounBefore(r *reader, i int) bool {
	for j := i - 1; j >= max(0, i-3); j-- {
		if pronoun(r.low(j)) {
			return true
		}
	}
	return false
}

func pronoun(low string) bool {
	switch low {
	case "she", "he", "they", "she's", "he's", "they're":
		return true
	}
	return false
}

// yes weighs a word of consent: a "not", "if" or "needs to" before it leaves the answer open.
func (v *verdict) yes(h hit) {
	r := v.r
	if h.sense == saySigned {
		switch r.low(h.to) {
		case "sign", "the":
			if r.low(h.to+1) == "in" || r.low(h.to+1) == "sign" || r.low(h.to) == "sign" {
				return
			}
		case "in", "up", "out":
			return
		}
		if low := r.low(h.from); low == "sig" && r.low(h.to) != ":" && r.low(h.to-1) != "by" {
			return
		}
		if r.low(h.to-1) == "for" && r.goodsAt(h.to) || r.formAt(h.to) {
			return
		}
		switch r.low(h.from - 1) {
		case "it", "that", "this", "them", "ticket", "co", "slip":
			if g := r.low(h.from - 2); g == "get" || g == "getting" || g == "have" || g == "need" || g == "needs" || g == "gets" {
				return // "said do it, get it signed later"
			}
		case "get", "getting", "be":
			return
		}
		v.signed = true
	}
	if prev := r.low(h.from - 1); r.inspected(h) || (prev == "i" || prev == "we") && h.sense != saySigned {
		return // an inspector allows no extra, and neither do we
	}
	switch {
	case r.negatedWithin(h.from, 4):
		v.pending, v.waiting = true, h
		v.signed = false
	case r.conditional(h.from):
		v.pending, v.waiting = true, h
		v.signed = false
	case r.paperwork(h.from - 1):
	case r.low(h.from) == "agreed" && r.low(h.to) == "on", r.low(h.from) == "had" && r.low(h.to) == "all",
		r.low(h.from) == "accepted" && r.low(h.from-1) == "delivery":
	default:
		v.settle(h, notes.Authorized)
		switch low := r.low(h.from); {
		case low == "texted", low == "text":
			v.means("text message")
		case low == "emailed", low == "email", r.low(h.to-1) == "email":
			v.means("e-mail")
		}
	}
}

// no weighs a word of refusal.
func (v *verdict) no(h hit) {
	r := v.r
	switch r.low(h.from) {
	case "rejected", "refused":
		switch r.low(h.to) {
		case "to":
			if v := r.low(h.to + 1); v == "sign" || v == "pay" || v == "approve" {
				break
			}
			return
		case "delivery", "shipment", "entry", "access", "us":
			return // no extra was refused
		}
	case "hold", "holding":
		if from, to := r.personBefore(h.from); to == 0 && !pronounBefore(r, h.from) && !r.perAhead(h.to) || to > 0 && r.crewMember(from) {
			return
		}
	case "too", "but", "maybe", "leave":
		if (r.low(h.to) != "for" || r.low(h.to-1) == "high") && r.low(h.to-1) != "much" && r.low(h.to-1) != "expensive" && r.low(h.to-1) != "pricey" && v.asked.to == 0 && !pronounBefore(r, h.from) && !r.seen.money {
			return
		}
	case "told":
		if r.low(h.to-1) == "no" && h.to-h.from == 3 {
			break // "told her no": we did
		}
		if from, to := r.personBefore(h.from); to == 0 && !pronounBefore(r, h.from) || r.crewMember(from) {
			return
		}
	case "passed":
		if r.low(h.to) == "inspection" {
			return
		}
	case "not":
		if r.low(h.to) == "working" {
			return
		}
	}
	if r.negatedWithin(h.from, 2) && r.low(h.from) != "no" && r.low(h.from) != "not" {
		return
	}
	v.settle(h, notes.Declined)
}

// decide takes the last yes or no; a question still open after it leaves it open.
func (v *verdict) decide() notes.Consent {
	h := v.cue
	switch {
	case v.pending:
		v.c.State, h = notes.Asked, v.waiting
	case v.decided != notes.NoConsent:
		v.c.State = v.decided
	case v.asked.to > 0:
		v.c.State, h = notes.Asked, v.asked
	case v.dropped.to > 0:
		h = v.dropped
	default:
		return notes.Consent{}
	}
	end := h.to
	if v.c.State == notes.Authorized && v.signed && (v.how == "" || v.how == "on site" || h.sense == saySigned) {
		v.how = "signed"
	}
	if v.c.State == notes.Authorized && v.how == "" && v.verbal {
		v.how = "verbal"
	}
	if v.c.State != notes.Asked {
		v.c.How = v.how
	}
	v.c.By, end = v.r.whoSaid(h, end)
	v.c.Start, v.c.End = v.r.piece(h.from, end)
	if v.c.State != notes.Asked {
		v.when()
	} else if v.c.By == "" && v.asked.to > 0 {
		if end, ok := v.r.personAt(v.asked.to); ok {
			v.c.By = v.r.words(v.asked.to, end) // "not authorized yet, asked Kim"
		}
	}
	return v.c
}
