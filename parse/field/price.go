package field

import (
	"strings"

	"jobday/notes"
)

var priceCues = cueTable{
	sayQuoted:    "gave her a number|gave him a number|gave them a number|charge|charged|gave her a price of|gave him a price of|quoted|quote|quoted at|priced at|priced|price|bid|estimated at|estimate|told her|told him|told them|told owner|told the owner|told customer|told the customer|gave a price of|price of|agreed on|flat|lump sum",
	sayQuotedIf:  "for|at|to|w /|with|told|offered|said",
	sayNotOver:   "as long as its under|as long as it is under|if its under|gave us up to|gave me up to|cap of|limit of|max of|nte|not to go over|dont go over|do not go over|keep it under|stay under|not to exceed|not over|not more than|ceiling of|no more than|dont exceed|do not exceed|capped at",
	sayNotOverIf: "max|cap|ceiling|up to|limit",
	sayFree: "free swap|free replacement|free repair|free fix|comp it|comping it|no charge|n / c|no cost|on us|on the house|freebie|for free|free of charge|gratis|no bill|dont bill|do not bill|not billing|wont charge|wont bill|didnt charge|not charging|eat it|eating it|" +
		"comped|no extra charge|not charged|free",
	sayFreeWhy: "warranty|under warranty|our fault|our mistake|our screw up|our error|our bad|our miss|goodwill|good will|courtesy|as a courtesy|as a favor|callback on our work",
	sayTM:      "t & m|t and m|tm|time and material|time and materials|time & material|time & materials",
	sayCost:    "paid|cost|costs|bought|receipt|permit|spent|deposit|fee|value|supply house|store|rental|rented|reimbursed|reimburse|out of pocket|invoice from|cost me|cost us|was $|were $|shipping|freight",
}

// price reads what the words say about money, and claims its numbers.
func (r *reader) price() notes.PriceWords {
	if l := r.look(); l.topics&aboutPrice == 0 && !l.dollars && !(l.numbers && l.topics&aboutConsent != 0) {
		return notes.PriceWords{}
	}
	s := sum{r: r}
	r.about(aboutPrice, s.take)
	if r.seen.money || r.seen.dollars {
		s.bareMoney()
	}
	if r.seen.numbers && r.seen.topics&aboutConsent != 0 {
		s.agreedAmount()
	}
	if s.p.NoCharge && s.p.Why == "" {
		s.p.Why = r.reason(s.freeTo)
		if s.p.Why == "" {
			s.p.Why = r.sinceReason(s.freeTo)
		}
	}
	return s.p
}

// A sum collects what is said about money.
type sum struct {
	r      *reader
	p      notes.PriceWords
	freeTo int
	spent  bool // what was paid, not asked
	taken  int  // token after the last amount read
}

func (s *sum) touch(from, to int) {
	s.r.widen(&s.p.Piece, from, to)
}

// take weighs one phrase.
func (s *sum) take(h hit) {
	r := s.r
	switch h.sense {
	case sayQuoted:
		s.quoted(h)
	case sayQuotedIf:
		s.offered(h)
	case sayNotOver:
		s.ceiling(h, true)
	case sayNotOverIf:
		s.ceiling(h, s.p.TimeAndMaterial)
	case sayTM:
		s.p.TimeAndMaterial = true
		s.touch(h.from, h.to)
	case sayFree, sayFreeWhy:
		s.free(h)
	case sayCost:
		if _, end := r.personBefore(h.from); end == h.from && end > 0 {
			return // "fans the owner bought" cost us nothing
		}
		s.spent = !(r.low(h.from) == "cost" && r.low(h.from-1) == "no")
	}
}

// quoted reads the amount after "quoted", "told her", "price".
func (s *sum) quoted(h hit) {
	r := s.r
	if r.negatedWithin(h.from, 2) {
		return
	}
	if r.low(h.from) == "charge" {
		if a, ok := r.amountAt(h.to, false); ok && !a.rate && r.endsClause(a.next) {
			s.quote(a, h.from)
		}
		return
	}
	told := r.low(h.from) == "told"
	if a, ok := r.amountAt(h.to+1, false); ok && r.low(h.to) == "," && r.low(h.from) == "gave" && r.endsClause(a.next) {
		s.quote(a, h.from) // "gave her a number, 340"
		return
	}
	for i := h.to; i < min(len(r.toks), h.to+6) && !r.breaks(i); i++ {
		a, ok := r.amountAt(i, false)
		if !ok {
			if told && i > h.to || r.low(i) == "to" {
				return
			}
			continue
		}
		if !a.sign && (told && i > h.to || r.countedThing(a.next) && !r.amountAhead(a.next)) {
			continue
		}
		if !a.sign && r.amountAhead(a.next) {
			continue
		}
		s.quote(a, h.from)
		return
	}
}

// amountAhead reports whether another amount follows in the clause after "at" or "for".
func (r *reader) amountAhead(i int) bool {
	for n := 0; n < 5 && i < len(r.toks) && !r.breaks(i); n, i = n+1, i+1 {
		if r.low(i) == "at" || r.low(i) == "@" || r.low(i) == "for" {
			_, ok := r.amountAt(i+1, false)
			return ok
		}
	}
	return false
}

// countedThing reports whether a noun right after token i makes the number before it a count.
func (r *reader) countedThing(i int) bool {
	if !r.isWord(i) {
		return false
	}
	switch r.low(i) {
	case "each", "ea", "total", "for", "and", "plus", "by", "on", "to", "she", "he", "they", "ok", "dollars", "bucks", "flat", "apiece", "per", "with", "w", "incl", "including", "tax", "but", "if", "already", "yesterday", "today", "he's", "cash", "check", "accepted", "approved", "agreed", "declined", "ok'd", "okd", "waiting":
		return false
	}
	return true
}

func (s *sum) quote(a amount, from int) {
	if a.rate {
		s.r.claimTokens(a.from, a.next)
		return
	}
	if s.p.Quoted == nil {
		m := a.m
		s.p.Quoted, s.p.Each = &m, a.each
	}
	s.taken = a.next
	s.touch(from, a.next)
	s.r.claimTokens(a.from, a.next)
}

// offered reads "for 180" where it can only be money: with a sign, or at the end of a clause that
// speaks of a deal.
func (s *sum) offered(h hit) {
	r := s.r
	if h.from < s.taken {
		return
	}
	i := h.to
	if r.low(i) == "the" && r.low(h.from) == "to" {
		i++
	}
	a, ok := r.amountAt(i, false)
	if !ok || a.rate {
		return
	}
	if !a.sign {
		small, whole := a.m.Decimal().Int()
		if !whole || small < 20 || !r.endsClause(a.next) && !a.each && r.low(a.next) != "for" || !(a.each && r.yesEnds(h.from)) && !r.dealAround(h) {
			return
		}
	}
	if !s.spent {
		s.quote(a, h.from)
	}
}

// dealAround reports whether the word of h may stand between a deal and its amount.
func (r *reader) dealAround(h hit) bool {
	prev := r.low(h.from - 1)
	switch r.low(h.from) {
	case "told", "offered", "said":
		for _, k := range r.near(h.to, h.to+clauseReach) {
			if k.sense.topic() == aboutConsent && !k.sense.quiet() {
				return true
			}
		}
		return false
	case "to":
		return prev == "yes" || prev == "agreed" || prev == "agrees"
	case "w", "with":
		return prev == "good" || prev == "fine" || prev == "ok" || prev == "okay" || prev == "cool" || prev == "happy"
	case "at":
		for _, k := range r.near(h.from-3, h.from) {
			if k.to == h.from && k.sense.topic() == aboutConsent && k.sense != sayNo && k.sense != sayNoIf {
				return false // "ok'd at 1040"
			}
		}
	}
	for _, k := range r.near(h.to, h.to+clauseReach) {
		if k.sense == sayYes || k.sense == sayYesIf || k.sense == sayNo || k.sense == saySigned {
			return true
		}
	}
	return r.dealBefore(h.from)
}

// dealBefore reports whether a word of agreement stands in the clause before token i.
func (r *reader) dealBefore(i int) bool {
	for _, h := range r.near(i-2*clauseReach, i) {
		if h.sense == sayYes || h.sense == sayYesIf || h.sense == saySigned || h.sense == sayAsked || h.sense == sayQuoted || h.sense == sayNo || h.sense == sayNoIf {
			return true
		}
	}
	for j := r.clauseStart(i); j < i; j++ {
		if low := r.low(j); (low == "did" || low == "do") && r.low(j+1) == "it" || low == "sold" || low == "offered" {
			return true
		}
	}
	return false
}

// ceiling reads the amount after "NTE"; plain says that it needs no sign.
func (s *sum) ceiling(h hit, plain bool) {
	r := s.r
	i := h.to
	for n := 0; n < 2 && (r.low(i) == "of" || r.low(i) == ":" || r.low(i) == "at" || r.low(i) == "is" || r.low(i) == "="); n++ {
		i++
	}
	a, ok := r.amountAt(i, false)
	if low := r.low(a.next); ok && (low == "per" || low == "by") && r.seen.topics&aboutConsent != 0 {
		plain = true // "cap 500 per Jo"
	}
	if !ok || !plain && !a.sign || !a.sign && r.countedThing(a.next) && r.low(a.next) != `"` {
		return
	}
	m := a.m
	if s.p.NotOver == nil {
		s.p.NotOver = &m
	}
	s.taken = a.next
	s.touch(h.from, a.next)
	r.claimTokens(a.from, a.next)
}

// free notes that nothing is charged, and why.
func (s *sum) free(h hit) {
	r := s.r
	if r.low(h.from) == "free" && h.to-h.from == 1 && !(r.low(h.from-1) == "did" || r.low(h.from-2) == "did" || r.low(h.from-1) == "it") {
		return
	}
	if h.sense == sayFreeWhy && !r.freeReason(h) || r.negatedWithin(h.from, 3) && r.low(h.from) != "no" {
		return
	}
	s.p.NoCharge = true
	s.freeTo = h.to
	if h.sense == sayFreeWhy && s.p.Why == "" {
		start, end := r.piece(h.from, h.to)
		s.p.Why = strings.TrimPrefix(strings.TrimPrefix(r.text[start:end], "under "), "as a ")
	}
	s.touch(h.from, h.to)
}

// freeReason reports whether a word such as "warranty" says that nothing is charged: not "5 yr
// warranty", "out of warranty", "warranty card", "warranty?".
func (r *reader) freeReason(h hit) bool {
	if r.low(h.from) == "under" && r.low(h.to) == "" {
		return true
	}
	if prev := r.low(h.from - 2); r.low(h.from-1) == "be" && (prev == "may" || prev == "might" || prev == "could" || prev == "should") {
		return false
	}
	switch r.low(h.from - 1) {
	case "of", "yr", "year", "manufacturer", "manufacturers", "factory", "by", "void", "the", "extended", "for", "lamp":
		return false
	}
	switch r.low(h.to) {
	case "card", "paperwork", "info", "sheet", "expired", "void", "voided", "period", "?", "registration", "papers", "light", "lights", "lighting":
		return false
	}
	return true
}

// sinceReason reads "since ..." and "for ..." after "no charge".
func (r *reader) sinceReason(i int) string {
	if r.low(i) == "," || r.low(i) == "-" {
		i++
	}
	switch r.low(i) {
	case "since", "as":
		return r.obstacle(i + 1)
	case "our", "we":
		return r.obstacle(i)
	case "to":
		if r.low(i+1) == "make" || r.low(i+1) == "keep" {
			return "to " + r.obstacle(i+1)
		}
	}
	return r.reasonBehind(i)
}

// reasonBehind reads the clause behind "no charge" that says why: "won't bill this one, came back for
// our own miss". A clause that tells of work or of somebody's word is no reason.
func (r *reader) reasonBehind(i int) string {
	for n := 0; n < 4 && i < len(r.toks) && !r.breaks(i) && !(r.low(i) == "," || r.low(i) == "-"); n++ {
		switch r.low(i) {
		case "this", "one", "it", "that", "them", "him", "her", "for", "visit", "call", "the", "trip", "today":
			i++
		default:
			return ""
		}
	}
	if low := r.low(i); low == "," || low == "-" || low == "–" || low == ":" || low == "(" {
		i++
	}
	end, why := r.obstacleEnd(i), false
	for j := i; j < end; j++ {
		if r.isNumber(j) {
			return ""
		}
		why = why || excuse(r.low(j))
	}
	for _, h := range r.near(i, end) {
		if h.sense.topic() == aboutConsent && !h.sense.quiet() {
			return ""
		}
	}
	if !why || end-i < 2 || end-i > 9 {
		return ""
	}
	start, stop := r.piece(i, end)
	return r.text[start:stop]
}

// excuse reports whether a word says why somebody charges nothing.
func excuse(low string) bool {
	switch low {
	case "our", "we", "us", "my", "mistake", "miss", "missed", "own", "good", "courtesy", "favor", "favour", "warranty", "callback",
		"nicked", "broke", "forgot", "wrong", "damaged", "promised", "quick", "easy", "small", "little", "goodwill", "regular", "owed":
		return true
	}
	return false
}

// bareMoney reads amounts with a sign or word of money that no phrase took.
func (s *sum) bareMoney() {
	r := s.r
	for i := 0; i < len(r.toks); i++ {
		if t := &r.toks[i]; t.kind == word || r.claimed(t.start) {
			continue
		}
		a, ok := r.amountAt(i, true)
		if !ok || !a.sign {
			continue
		}
		if a.rate || s.spent || s.p.NotOver != nil {
			r.claimTokens(a.from, a.next)
		} else {
			s.quote(a, a.from)
		}
		i = a.next - 1
	}
}

// agreedAmount reads an amount without a sign that stands right behind a yes, "ok'd 95", or that has
// cents and ends a clause of a text about consent: "proceed, 425.00".
func (s *sum) agreedAmount() {
	r := s.r
	if s.p.Quoted != nil || s.p.NotOver != nil || s.spent {
		return
	}
	for i := range r.toks {
		if !r.isNumber(i) || r.claimed(r.toks[i].start) {
			continue
		}
		a, ok := r.amountAt(i, false)
		if !ok || a.sign || a.rate || !r.endsClause(a.next) && !(r.low(a.next) == "for" || (r.low(a.next) == "by" || r.low(a.next) == "on") && r.yesEnds(i)) {
			continue
		}
		whole, even := a.m.Decimal().Int()
		cents := r.low(i+1) == "." && a.next == i+3 && len(r.low(i+2)) == 2
		if cents && (r.endsClause(a.next) || r.low(a.next) == "for") || even && whole >= 20 && whole < 100_000 && r.yesEnds(i) {
			s.quote(a, i)
			return
		}
	}
}

// yesEnds reports whether a word of consent ends right before token i.
func (r *reader) yesEnds(i int) bool {
	for _, h := range r.near(i-4, i) {
		if h.to == i && (h.sense == sayYes || h.sense == sayYesIf) {
			return true
		}
	}
	return false
}

// An amount is money as written.
type amount struct {
	m          notes.Money
	from, next int
	sign       bool // a currency sign or word stands with it
	each       bool
	rate       bool // "$95/hr"
}

// amountAt reads money at token i: "$1,250.00", "180", "220 dollars", "1.2k".
// Fresh skips a number that only carries on what stands before it.
func (r *reader) amountAt(i int, fresh bool) (amount, bool) {
	a := amount{from: i}
	switch r.low(i) {
	case "$", "€", "£", "usd", "eur", "gbp", "cad":
		a.sign = true
		i++
	}
	if !r.isNumber(i) || !a.sign && r.tailOfSomething(i) {
		return a, false
	}
	n, ok := r.num(i)
	if !ok || n.form != digits {
		return a, false
	}
	v, next := n.v, n.next
	if r.low(next) == "k" && r.close(next) && a.sign {
		v, next = v.Mul(notes.Int(1000)), next+1
	}
	if !v.Equal(v.Round(2)) || v.Cmp(notes.Int(10_000_000)) > 0 {
		return a, false
	}
	switch r.low(next) {
	case "dollars", "bucks", "dollar", "usd", "eur", "cad":
		a.sign, next = true, next+1
	}
	a.m, a.next = notes.Cents(v), next
	r.amountTail(&a)
	if a.next == next && !a.sign && r.close(next) && !r.clockStops(next) && r.low(next) != `"` && r.low(next) != "”" {
		return a, false
	}
	return a, true
}

// amountTail reads "each" and "/hr" after an amount.
func (r *reader) amountTail(a *amount) {
	i := a.next
	per := r.low(i) == "/" || r.low(i) == "per" || r.low(i) == "an" || r.low(i) == "a"
	if per {
		switch r.low(i + 1) {
		case "hr", "hour", "h", "ft", "foot", "day", "mile", "man", "min":
			a.rate, a.next = true, i+2
		case "ea", "each", "unit", "head":
			a.each, a.next = true, i+2
		}
		return
	}
	switch r.low(i) {
	case "each", "ea", "apiece":
		a.each, a.next = true, i+1
	}
}
