package field

import (
	"strings"

	"jobday/trade"
)

// whoSaid returns the person behind the phrase, as written, and the token after phrase and name.
func (r *reader) whoSaid(h hit, end int) (string, int) {
	i := h.to
	last := r.low(h.to - 1)
	linked := last == "by" || last == "from" || last == "per" || last == "of" || h.sense == sayYesBy || last == "reach"
	if h.sense == sayYesIf {
		linked = false
	}
	const reach = 6
	for n := 0; n < reach && !linked && i+n < len(r.toks); n++ {
		switch low := r.low(i + n); low {
		case ":":
			linked, i, n = h.sense == saySigned, i+n+1, reach
		case "by", "from", "per", "w", "with":
			if low == "by" && r.wayOfSaying(i+n+1) {
				continue
			}
			linked, i = true, i+n+1
			if r.low(i) == "/" {
				i++
			}
			n = reach
		case "it", "yet", "that", "this", "verbally", "on", "site", "co", "the", "ticket", "change", "order", "extra", "slip", "over",
			"via", "phone", "in", "person", "#", "as", "them", "these", "those", "verbal", "text", "email":
		default:
			if !r.isNumber(i + n) {
				n = reach
			}
		}
	}
	if linked {
		if who, ok := r.sayer(i); ok {
			return r.words(i, who), who
		}
		switch r.low(i) {
		case "the", "her", "his", "an", "a", "their":
			i++
		}
		if r.wayOfSaying(i) {
			for j := i + 1; j < min(len(r.toks), i+5); j++ {
				if who, ok := r.sayer(j + 1); ok && (r.low(j) == "from" || r.low(j) == "with" || r.low(j) == "by") {
					return r.words(j+1, who), who
				}
			}
		}
	}
	if from, to := r.beforeBracket(h.from); to > 0 {
		return r.words(from, to), end
	}
	if from, to := r.personBefore(h.from); to > 0 && !r.crewMember(from) {
		return r.words(from, to), end
	}
	if owner := r.ownersWord(h); owner != "" {
		return owner, end
	}
	if who := r.personAnywhere(h.from); who != "" {
		return who, end
	}
	if from, to := r.personBehind(h); to > 0 {
		return r.words(from, to), to
	}
	return r.lowerName(h.from), end
}

// beforeBracket returns the person before a bracket that says who that is: "Lon (super) ok'd it".
func (r *reader) beforeBracket(i int) (from, to int) {
	if r.low(i-1) != ")" {
		return 0, 0
	}
	for k := i - 2; k > 0 && k > i-7; k-- {
		if r.low(k) == "(" {
			if from, to = r.personBefore(k); to == k && r.capital(from) {
				return from, to
			}
			break
		}
	}
	return 0, 0
}

// wayOfSaying reports whether token i is how something was said, not who said it: "ok'd by phone".
func (r *reader) wayOfSaying(i int) bool {
	switch r.low(i) {
	case "phone", "text", "email", "mail", "call", "voicemail", "conversation", "discussion", "talk", "convo", "e", "message", "sms", "telephone":
		return true
	}
	return false
}

// personBehind returns the name that stands behind a signature or a yes, with nothing but a mark or
// the number of a ticket between: "signed ticket 114, Odile 9:20", "ok'd - Ruth Amsel".
func (r *reader) personBehind(h hit) (from, to int) {
	i := h.to
	for n := 0; n < 8 && i < len(r.toks); n++ {
		switch low := r.low(i); {
		case low == "," || low == "-" || low == "(" || low == "–" || low == "#" || low == "$" || low == "co" || low == "ticket" || low == "slip" || low == "on" || low == "by" && r.wayOfSaying(i+1) || r.wayOfSaying(i) || low == "my" || low == "the" || low == "tablet" || low == "paper" || r.isNumber(i):
			i++
			continue
		}
		break
	}
	if i == h.to || i >= len(r.toks) || !r.capital(i) && !roleWord(r.low(i)) || r.crewMember(i) {
		return 0, 0
	}
	end, ok := r.personAt(i)
	if !ok || !r.endsClause(end) && !r.isNumber(end) && r.low(end) != "at" {
		return 0, 0
	}
	return i, end
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
			if !r.crewMember(j) {
				from, to = j, end
			}
			j = end - 1
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
