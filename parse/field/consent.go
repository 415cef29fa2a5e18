package field

import (
	"strings"

	"jobday/notes"
	"jobday/trade"
)

var consentCues = cueTable{
	sayAsked: "shed like|hed like|theyd like|id like them to|asked for|asked if|asked us to|asked us|asked me to|asked me|asked|asks for|wants|wanted|want|would like|requested|requests|request|looking for|" +
		"wondering if|inquired|wants a price|wants a quote|also wants",
	sayYes: "says bill it|said bill it|said to bill it|told us to bill it|says go ahead|says go for it|said go for it|says ok|says okay|says yes|says do it|says its fine|okd|okayed|oked|ok ' d|approved|approves|approve|authorized|authorised|said go ahead|said to go ahead|said yes|said ok|said okay|said do it|said to do it|said go|" +
		"told us to go ahead|told me to go ahead|told us to do it|told us to|told me to|directed us to|directed me to|instructed us to|gave the ok|gave ok|gave us the ok|gave the go ahead|gave us the go ahead|gave go ahead|" +
		"gave approval|go ahead from|green light|greenlit|agreed|agrees|agreed to|texted yes|texted ok|texted back yes|texted go ahead|emailed yes|emailed ok|replied yes|verbal ok|verbal from|verbal per|verbal by|at owners request|at customers request|per owners request|per customers request|at the owners request|at the customers request|per the owners request|verbal okay|verbal approval|verbal go ahead|verbal yes|" +
		"ok from|okay from|the ok from|ok by|ok per|got the ok|got ok|got approval|got an ok|confirmed by|accepted|accepts|accepted by|thumbs up|said fine|said sure|said that's fine|said thats fine|said its fine|said its good|said its ok|said it's ok|had us|go ahead per|verbally ok|verbally approved",
	sayYesBy:  "per|as per|instructed by|directed by|at the request of",
	sayYesIf:  "fine with it|is fine with|good with it|ok with it|okay with it|ok w / it|ok|okay|fine with|ok with|okay with|is fine|was fine|is ok|is okay|go ahead|to proceed|directive",
	saySigned: "signed|signed off|sign off|signed off on|signed for it|signed for|signature from",
	sayNo: "says skip it|wont approve|will not approve|wont sign|would not sign|wouldnt sign|refuses|too much money|too pricey|cant afford|costs too much|declined|declines|declined it|said no|told us no|told me no|dont bother|dont bother with|not now|turned it down|turned us down|refused|rejected|passed on it|passed on|not interested|" +
		"no thanks|too expensive|vetoed|wont pay|will not pay|said leave it|said to leave it|said forget it|said not to|told us not to|told me not to|no go|opted out|said skip it|said to skip it|not this year|said not this time|not this time|said not today|said maybe later|said hold off|said to hold off|would rather not|rather not",
	sayDropBy: "doesnt need|does not need|didnt need|no longer needs|dont need|cancelled|canceled|cancelled it|cancels|said skip|says skip|said to skip|took it out",
	sayNoIf:   "doesnt want|does not want|did not want|didnt want|dont want|turned down|no longer wants|not going to pay|against it|said nope|nope",
	sayPending: "needs to talk to|has to talk to|will talk to|wants to talk to|going to check with|has to check with|needs to check with|will check with|has to ask|needs to ask|needs to run it by|never got an answer|never heard back|no reply|no response|hasnt answered|hasnt replied|no ok yet|no ok|no okay|not authorized|not authorised|not approved|not okd|not yet approved|not yet authorized|waiting for approval|waiting on approval|awaiting approval|pending approval|pending ok|" +
		"will let us know|let us know|lets us know|thinking about it|thinks about it|will think|get back to us|get back to me|not signed|unsigned|no answer|no answer yet|no signature|" +
		"needs approval|need approval|needs ok|needs an ok|need ok|need an ok|to be approved|before approval|havent heard|haven't heard back|needs owner approval|needs owners ok|not sure yet|no word from|nobody approved|nobody okd|nobody signed|needs authorization|need authorization|no approval|without approval|without ok",
	howOnSite: "on site|onsite|in person|on the spot|at the site",
	howPhone:  "by phone|over the phone|on the phone|phone|phoned|via phone|called|phone call|by telephone",
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
		if end, ok := r.sayer(h.to); ok && !(end-h.to == 1 && perUnit(r.low(h.to))) && !r.negatedWithin(h.from, 1) {
			v.settle(h, notes.Authorized)
		}
	case sayYesIf:
		v.agreed(h)
	case sayNo:
		v.no(h)
	case sayNoIf:
		if _, end := r.personBefore(h.from); end > 0 {
			v.settle(h, notes.Declined)
		}
	case sayDropBy:
		if _, end := r.personBefore(h.from); end > 0 && v.dropped.to == 0 && !r.negatedWithin(h.from, 2) {
			v.dropped = h
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
	_, end := r.personBefore(h.from)
	switch r.low(h.from) {
	case "is", "was":
		if r.dealWord(h.from-1) && (end > 0 || pronounBefore(r, h.from)) {
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
	switch {
	case end == 0 || end != h.from || !r.notAResult(h):
	case r.conditional(h.from) || r.negatedWithin(h.from, 3):
		v.pending, v.waiting = true, h
	default:
		v.settle(h, notes.Authorized)
	}
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
	return h.to-h.from > 1 || r.endsClause(h.to) || r.low(h.to) == "w" || r.low(h.to) == "with" || r.low(h.to) == "to"
}

// means notes how consent was given; the first way written counts.
func (v *verdict) means(how string) {
	if v.how == "" {
		v.how = how
	}
}

func (v *verdict) settle(h hit, s notes.ConsentState) {
	v.decided, v.cue, v.pending = s, h, false
}

// open notes that an answer is still due. "Not signed" takes back no verbal yes.
func (v *verdict) open(h hit) {
	low := v.r.low(h.from)
	v.waiting = h
	if v.decided == notes.Authorized && (low == "unsigned" || v.r.low(h.to-1) == "signed" || v.r.low(h.to-1) == "signature") {
		return
	}
	if low == "let" && v.r.low(h.from-1) != "will" && v.r.low(h.from-1) != "to" && v.r.low(h.from-1) != "ll" {
		return
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
		if r.inspected(h) {
			return
		}
		v.signed = true
	}
	switch {
	case r.negatedWithin(h.from, 4):
		v.pending, v.waiting = true, h
		v.signed = false
	case r.conditional(h.from):
		v.pending, v.waiting = true, h
		v.signed = false
	case r.low(h.from) == "agreed" && r.low(h.to) == "on", r.low(h.from) == "had" && r.low(h.to) == "all",
		r.low(h.from) == "accepted" && r.low(h.from-1) == "delivery":
	default:
		v.settle(h, notes.Authorized)
		switch r.low(h.from) {
		case "texted":
			v.means("text message")
		case "emailed":
			v.means("e-mail")
		}
	}
}

// inspected reports whether an inspector signed, who accepts work but allows no extra.
func (r *reader) inspected(h hit) bool {
	for j := max(0, h.from-4); j < min(len(r.toks), h.to+4); j++ {
		switch r.low(j) {
		case "inspector", "inspection", "inspectors", "ahj":
			return true
		}
	}
	return false
}

// conditional reports whether consent at token i is only hoped for.
func (r *reader) conditional(i int) bool {
	for n := 0; n < 4 && i > 0 && !r.breaks(i-1); n++ {
		i--
		switch r.low(i) {
		case "if", "once", "when", "needs", "need", "must", "should", "will", "until", "till", "before", "waiting", "yet", "to":
			return r.low(i) != "to" || r.low(i-1) == "has" || r.low(i-1) == "have" || r.low(i-1) == "needs"
		}
	}
	return false
}

// no weighs a word of refusal.
func (v *verdict) no(h hit) {
	r := v.r
	switch r.low(h.from) {
	case "rejected", "refused":
		if r.low(h.to) == "delivery" || r.low(h.to) == "shipment" {
			return
		}
	case "told":
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
	if v.c.State != notes.Asked {
		v.c.How = v.how
	}
	v.c.By, end = v.r.whoSaid(h, end)
	v.c.Start, v.c.End = v.r.piece(h.from, end)
	if v.c.State != notes.Asked {
		v.when()
	}
	return v.c
}

// whoSaid returns the person behind the phrase, as written, and the token after phrase and name.
func (r *reader) whoSaid(h hit, end int) (string, int) {
	i := h.to
	last := r.low(h.to - 1)
	linked := last == "by" || last == "from" || last == "per" || last == "of"
	if h.sense == sayYesIf {
		linked = false
	}
	for n := 0; n < 3 && !linked && i+n < len(r.toks); n++ {
		switch r.low(i + n) {
		case ":":
			linked, i, n = h.sense == saySigned, i+n+1, 3
		case "by", "from", "per", "w", "with":
			linked, i = true, i+n+1
			if r.low(i) == "/" {
				i++
			}
			n = 3
		case "it", "yet", "that", "this", "verbally", "on", "site", "co", "the", "ticket", "change", "order", "extra", "slip":
		default:
			n = 3
		}
	}
	if linked {
		if who, ok := r.sayer(i); ok {
			return r.words(i, who), who
		}
		if r.low(i) == "email" || r.low(i) == "text" || r.low(i) == "phone" {
			for j := i + 1; j < min(len(r.toks), i+5); j++ {
				if who, ok := r.sayer(j + 1); ok && (r.low(j) == "from" || r.low(j) == "with" || r.low(j) == "by") {
					return r.words(j+1, who), who
				}
			}
		}
	}
	if from, to := r.personBefore(h.from); to > 0 {
		return r.words(from, to), end
	}
	if owner := r.ownersWord(h); owner != "" {
		return owner, end
	}
	if who := r.personAnywhere(h.from); who != "" {
		return who, end
	}
	return r.lowerName(h.from), end
}

// lowerName returns the word before token i when it opens its clause and can only be a name in
// lower case: "lena said yes".
func (r *reader) lowerName(i int) string {
	j := i - 1
	for j > 0 && (r.low(j) == "has" || r.low(j) == "just" || r.low(j) == "also") {
		j--
	}
	if j < 0 || !r.isWord(j) || r.capital(j) || r.clauseStart(i) != j || len(r.low(j)) < 3 || len(r.low(j)) > 12 {
		return ""
	}
	low := r.low(j)
	if _, known := trade.FindWord(low); known || pronoun(low) || notAPerson(low) || commonWord(low) || thingWord(low) || r.cueWord(j) {
		return ""
	}
	return r.words(j, j+1)
}

// ownersWord finds "needs owner approval": the person inside the phrase. It is left to the text
// around it when there is none.
func (r *reader) ownersWord(h hit) string {
	for i := h.from; i < h.to; i++ {
		if r.isCustomer(i) && h.sense != sayPending {
			return r.words(i, i+1)
		}
	}
	return ""
}

// personAnywhere looks for the person a pronoun stands for, in the clauses before token i.
func (r *reader) personAnywhere(i int) string {
	from, to := 0, 0
	for j := max(0, i-2*clauseReach); j < i; j++ {
		if end, ok := r.personAt(j); ok && end <= i {
			from, to, j = j, end, end-1
		}
	}
	if to == 0 {
		return ""
	}
	return r.words(from, to)
}

// words returns tokens from to to as written.
func (r *reader) words(from, to int) string {
	start, end := r.piece(from, to)
	s := strings.TrimSuffix(r.text[start:end], "'s")
	return strings.TrimSuffix(s, "’s")
}

// when finds the time of day or the date beside the phrase.
func (v *verdict) when() {
	r := v.r
	for _, c := range r.lone {
		v.c.At = clockOfDay(c.clockTime).String()
	}
	for i := 0; v.c.At == "" && i+1 < len(r.toks); i++ {
		if (r.low(i) == "at" || r.low(i) == "@") && r.isNumber(i+1) && i >= r.firstWord(v.c.Start) {
			if c, ok := r.clockAt(i + 1); ok && !c.packed && r.clockStops(c.next) && (c.next >= len(r.toks) || !r.isWord(c.next)) {
				v.c.At = clockOfDay(c).String()
				r.claimTokens(i+1, c.next)
			}
		}
	}
	if date, from, to := r.dateNear(); date != "" {
		r.claimTokens(from, to)
		if v.c.At != "" {
			date += "T" + v.c.At
		}
		v.c.At = date
	}
}

// firstWord returns the token at the byte offset or after it.
func (r *reader) firstWord(offset int) int {
	for i := range r.toks {
		if r.toks[i].start >= offset {
			return i
		}
	}
	return len(r.toks)
}

// clockOfDay decides a time of day alone by the working day: 5 to 11 is in the morning.
func clockOfDay(c clockTime) notes.Clock {
	m := c.minutes()
	if !c.fixed() && m < 5*60 {
		m += halfDay
	}
	return notes.Clock(m % wholeDay)
}

// dateNear finds an ISO date, or month/day/year. A date without a year is not guessed.
func (r *reader) dateNear() (date string, from, to int) {
	for i := 0; i+4 < len(r.toks); i++ {
		a, b, c := r.low(i), r.low(i+2), r.low(i+4)
		s := r.low(i + 1)
		if !r.isNumber(i) || !r.isNumber(i+2) || !r.isNumber(i+4) || s != r.low(i+3) ||
			!r.close(i+1) || !r.close(i+2) || !r.close(i+3) || !r.close(i+4) || r.close(i) {
			continue
		}
		var iso string
		switch {
		case s == "-" && len(a) == 4 && len(b) == 2 && len(c) == 2:
			iso = a + "-" + b + "-" + c
		case s == "/" && len(a) <= 2 && len(b) <= 2 && len(c) == 4:
			iso = c + "-" + twoDigits(a) + "-" + twoDigits(b)
		case s == "/" && len(a) <= 2 && len(b) <= 2 && len(c) == 2:
			iso = "20" + c + "-" + twoDigits(a) + "-" + twoDigits(b)
		default:
			continue
		}
		if d, err := notes.ParseDate(iso); err == nil {
			return d.String(), i, i + 5
		}
	}
	return "", 0, 0
}

func twoDigits(s string) string {
	if len(s) == 1 {
		return "0" + s
	}
	return s
}
