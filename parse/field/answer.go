package field

import "jobday/notes"

// answer weighs what somebody said: "Sal said just do it", "says it's too much", "said send a price".
// What we said ourselves, and what a code or a label says, is no answer.
func (v *verdict) answer(h hit) {
	r := v.r
	switch r.low(h.from - 1) {
	case "i", "we", "i've", "we've", "code", "label", "sign", "drawing", "drawings", "print", "prints", "plan", "plans", "nec",
		"manual", "tag", "nameplate", "schedule", "spec", "specs", "and", "me", "not", "never", "to":
		return
	}
	if from, to := r.personBefore(h.from); to > 0 && r.crewMember(from) {
		return
	}
	i := h.to
	if r.low(i) == "to" && r.endsClause(i+1) {
		v.yes(hit{h.from, i + 1, sayYes}) // "Neil said to"
		return
	}
	for n := 0; n < 5 && sayFiller(r.low(i)); n++ {
		i++
	}
	switch r.answerAt(i) {
	case notes.Authorized:
		v.yes(hit{h.from, i + 1, sayYes})
	case notes.Declined:
		v.settle(hit{h.from, i + 1, sayNo}, notes.Declined)
	case notes.Asked:
		if from, _ := r.personBefore(h.from); from == 0 && r.clauseStart(h.from) == h.from && r.low(h.from) != "said" && r.low(h.from) != "says" {
			return // "emailed price to owner" is what we did
		}
		v.pending, v.waiting = true, hit{h.from, i + 1, sayPending}
	}
}

// sayFiller reports whether a word may stand between "said" and the answer itself.
func sayFiller(low string) bool {
	switch low {
	case "to", "just", "please", "pls", "that", "that's", "thats", "we", "can", "could", "should", "it", "its", "it's", "is", "was",
		"would", "be", "back", ",", ":", `"`, "“", "us", "me", "he", "she", "they", "he'd", "she'd", "they'd", "he'll", "she'll",
		"they'll", "hed", "theyd", "theyll", "will", "sounds", "looks", "all", "very", "well", "then", "oh":
		return true
	}
	return false
}

// answerAt says what answer starts at token i.
func (r *reader) answerAt(i int) notes.ConsentState {
	next := r.low(i + 1)
	switch r.low(i) {
	case "yes", "yep", "yeah", "yup", "ok", "okay", "sure", "fine", "absolutely", "proceed", "definitely", "alright", "cool", "deal":
		return notes.Authorized
	case "good", "great", "right":
		if next == "luck" || next == "question" {
			return notes.NoConsent
		}
		return notes.Authorized
	case "go", "works", "work":
		if next == "" || next == "ahead" || next == "for" || r.endsClause(i+1) {
			return notes.Authorized
		}
	case "pay":
		return notes.Authorized
	case "bill", "charge":
		return notes.Authorized
	case "do", "add", "fix", "swap", "move", "replace", "change", "run", "install", "relocate", "finish", "put", "hang", "get", "take", "make":
		return r.orderAt(i)
	case "no", "nope", "nah":
		switch next {
		case "problem", "issue", "worries", "objection":
			return notes.Authorized
		case "charge", "rush", "hurry", "power", "one", "later", "more", "sooner", "need", "big":
			return notes.NoConsent
		}
		return notes.Declined
	case "keep", "max":
		if next == "it" || next == "under" || r.isNumber(i+1) || next == "$" {
			return notes.Authorized
		}
	case "not", "never", "don't", "dont":
		if next == "exceed" || next == "go" && r.low(i+2) == "over" || next == "to" && r.low(i+2) == "exceed" {
			return notes.Authorized
		}
		if next == "to" || next == "now" || next == "today" || next == "this" || next == "mind" || next == "bother" || next == "do" || next == "worth" || next == "interested" {
			return notes.Declined
		}
	case "too":
		switch next {
		case "much", "high", "expensive", "pricey", "steep":
			return notes.Declined
		}
	case "skip", "forget", "pass", "nevermind":
		return notes.Declined
	case "next":
		if next == "time" || next == "year" || next == "month" {
			return notes.Declined
		}
	case "maybe", "price", "quote", "depends", "think":
		return notes.Asked
	case "wait", "hold":
		if r.endsClause(i + 1) {
			return notes.Asked
		}
	case "send", "email", "call", "check", "ask", "let":
		switch next {
		case "price", "quote", "a", "the", "me", "her", "him", "them", "us", "it", "with", "office", "back", "over":
			return notes.Asked
		}
	}
	return notes.NoConsent
}

// orderAt reports whether the verb at token i orders what was talked of: "do it", "add them", "put it
// in", "do the other one too". "Move the truck" orders nothing of ours.
func (r *reader) orderAt(i int) notes.ConsentState {
	switch r.low(i + 1) {
	case "it", "them", "one", "both", "that", "this", "those", "these", "what", "whatever":
		return notes.Authorized
	case "so":
		return notes.Authorized
	}
	if r.seen.topics&aboutPrice != 0 {
		return notes.Authorized // "said move the panel, T&M"
	}
	return notes.NoConsent
}
