package field

import "jobday/notes"

// toAnswer reports whether "to approve" stands behind who has to: "Lena to approve", not "refused to".
func (v *verdict) toAnswer(h hit) bool {
	switch prev := v.r.low(h.from - 1); prev {
	case "has", "have", "needs", "need", "needed", "waiting", "office", "sent":
		return true
	default:
		_, end := v.r.personBefore(h.from)
		return end == h.from || v.r.low(h.to-1) == "price" || v.r.low(h.to-1) == "quote"
	}
}

// per weighs "per Ruth", which says yes, or says who refused: "hold off on the fan per owner".
func (v *verdict) per(h hit) {
	r := v.r
	end, ok := r.sayer(h.to)
	if i := h.to; !ok {
		if low := r.low(i); low == "the" || low == "her" || low == "his" || low == "an" || low == "a" || low == "their" {
			i++
		}
		if low := r.low(i + 1); r.wayOfSaying(i) && (low == "from" || low == "with" || low == "by" || low == "w") {
			end, ok = r.sayer(i + 2)
		}
	}
	if !ok || end-h.to == 1 && perUnit(r.low(h.to)) || r.negatedWithin(h.from, 1) {
		return
	}
	if v.decided == notes.Declined && !r.sentenceBetween(v.cue.to, h.from) && r.clauseStart(h.from) <= v.cue.from {
		v.cue = h
		return
	}
	if low := r.low(h.from); (low == "ordered" || low == "directed") && r.crewMember(h.to) {
		return
	}
	v.settle(h, notes.Authorized)
}

// mayRefuse weighs words that refuse only behind somebody: "the owner doesn't want", "he passed".
func (v *verdict) mayRefuse(h hit) {
	r := v.r
	from, end := r.personBefore(h.from)
	if r.low(h.from) == "passed" {
		if (end == h.from && r.low(end-1) != "inspector" || pronoun(r.low(h.from-1))) && r.endsClause(h.to) && !r.crewMember(from) {
			v.settle(h, notes.Declined)
		}
		return
	}
	if end > 0 || pronoun(r.low(h.from-1)) {
		v.settle(h, notes.Declined)
	}
}

// alone weighs a yes or no that is a clause of its own, which answers what was asked or offered before
// it: "told her 450, no", "asked Tam, yes".
func (v *verdict) alone(h hit, s notes.ConsentState) {
	r := v.r
	quoted := r.low(h.from-1) == `"` || r.low(h.from-1) == "“"
	if h.from == 0 || !quoted && !r.breaks(h.from-1) && r.low(h.from) != "pending" && r.low(h.from) != "thinking" || !r.endsClause(h.to) && !(r.low(h.from-1) == ":" && r.low(h.from) == "yes" && r.personAnywhere(h.from) != "") && !(quoted && r.low(h.to) == `"`) {
		return
	}
	switch r.low(h.from) {
	case "yes", "yep", "yeah", "no", "nope":
	case "waiting", "pending", "thinking":
		if (r.priced() || v.asked.to > 0 || r.low(h.from) == "pending" && r.changeOrder(h.from)) && v.decided == notes.NoConsent {
			v.pending, v.waiting = true, h
		}
		return
	default: // "PM: go ahead": only as somebody's answer
		if !quoted && r.low(h.from-1) != ":" || r.personAnywhere(h.from) == "" {
			return
		}
		v.settle(h, s)
		return
	}
	if v.asked.to > 0 || v.how != "" || r.priced() && (s == notes.Authorized || r.personAnywhere(h.from) != "" || pronounBefore(r, h.from) || r.offerBefore(h.from)) {
		v.settle(h, s)
	}
}

// theirs weighs whose signature or approval is had or awaited: "got Ruth's signature", "needs Ruth's
// approval".
func (v *verdict) theirs(h hit) {
	r := v.r
	from, end := r.personBefore(h.from)
	if end != h.from || !r.possessive(end-1) {
		return
	}
	switch r.low(from - 1) {
	case "got", "have", "has", "had", "with", "w", "/", "received", "":
		if low := r.low(h.from); low == "signature" || low == "initials" {
			v.signed = true
		}
		v.settle(h, notes.Authorized)
	case "need", "needs", "get", "on", "for", "without", "awaiting", "wants", "pending":
		v.pending, v.waiting = true, h
	}
}

// formAt reports whether what is signed at token i is a form of the day: "signed the JHA".
func (r *reader) formAt(i int) bool {
	for n := 0; n < 3 && i < len(r.toks) && !r.breaks(i); n, i = n+1, i+1 {
		switch r.low(i) {
		case "jha", "jsa", "card", "timesheet", "timesheets", "timecard", "log", "badge", "waiver", "register", "in", "out", "roster", "loto":
			return true
		case "time":
			return r.low(i+1) == "sheet" || r.low(i+1) == "card"
		}
	}
	return false
}

// comeAndGo reports whether what somebody wants is about our coming and going, a paper or an answer,
// and no work: "asked us to come back", "asked for a copy of the permit", "wants it done by Friday".
func (r *reader) comeAndGo(h hit) bool {
	i := h.to
	switch last := r.low(h.to - 1); {
	case r.low(h.to-1) == "if":
		for n := 0; n < 2; n++ {
			switch r.low(i + n) {
			case "we", "you", "i", "us", "it", "they", "there":
				return r.low(i) == "it" && (r.low(i+1) == "is" || r.low(i+1) == "was")
			}
		}
		return r.isWord(i) && r.low(i) != "adding" && r.low(i) != "possible"
	case last == "to" || r.low(i) == "to":
		if last != "to" {
			i++
		}
		switch r.low(i) {
		case "come", "leave", "be", "stay", "wait", "stop", "return", "hurry", "park", "see", "know", "talk", "meet", "call", "watch", "look":
			return true
		}
		return false
	}
	for n := 0; n < 2 && (r.low(i) == "a" || r.low(i) == "the" || r.low(i) == "an" || r.low(i) == "our" || r.low(i) == "my"); n++ {
		i++
	}
	switch r.low(i) {
	case "it":
		return r.low(i+1) == "done" || r.low(i+1) == "finished"
	case "us":
		return r.low(i+1) == "back" || r.low(i+1) == "out" || r.low(i+1) == "done" || r.low(i+1) == "gone"
	case "copy", "copies", "key", "keys", "invoice", "receipt", "card", "paperwork", "info", "update", "permit", "bill", "warranty":
		return true
	}
	return false
}

// changeOrder reports whether a change order or its approval is named before token i.
func (r *reader) changeOrder(i int) bool {
	for j := max(0, i-6); j < i; j++ {
		switch r.low(j) {
		case "co", "approval", "po", "authorization":
			return true
		case "change":
			return r.low(j+1) == "order"
		}
	}
	return false
}

// offerBefore reports whether something was offered or quoted before token i.
func (r *reader) offerBefore(i int) bool {
	for j := max(0, i-clauseReach); j < i; j++ {
		switch r.low(j) {
		case "offered", "quoted", "proposed", "bid", "priced", "recommended", "suggested":
			return true
		}
	}
	return false
}

// paperwork reports whether token i is a paper that is approved or signed without anybody ordering
// work: "permit approved".
func (r *reader) paperwork(i int) bool {
	switch r.low(i) {
	case "permit", "permits", "submittal", "submittals", "drawing", "drawings", "plan", "plans", "rough", "inspection", "invoice",
		"timecard", "timesheet", "sheet", "schedule", "sample", "samples", "color", "delivery", "loto":
		return true
	}
	return false
}

// otherWish reports whether what was asked is no work: "asked what the noise was", "asked the tenant to
// move the couch", "asked GC for a key".
func (r *reader) otherWish(h hit) bool {
	switch next := r.low(h.to); next {
	case "what", "why", "where", "when", "who", "how":
		return h.to-h.from == 1 && r.low(h.to+1) != "much"
	case "it", "them", "that":
		return r.low(h.to-1) == "about"
	}
	if h.to-h.from > 1 {
		return false
	}
	end, ok := r.personAt(h.to)
	if !ok {
		return false
	}
	switch r.low(end) {
	case "to":
		return r.low(end+1) != "sign" && r.low(end+1) != "approve"
	case "for", "where", "what", "if", "when":
		return r.clauseStart(h.from) == h.from && r.low(end+1) != "price" && r.low(end+1) != "approval" && r.low(end+1) != "ok"
	}
	return false
}

// perAhead reports whether "per" and a person follow in the clause at token i.
func (r *reader) perAhead(i int) bool {
	for end := r.clauseEnd(i); i < end; i++ {
		if r.low(i) == "per" {
			_, ok := r.sayer(i + 1)
			return ok
		}
	}
	return false
}

// goodsAt reports whether what is signed for at token i is goods: "signed for the delivery".
func (r *reader) goodsAt(i int) bool {
	for end := min(r.clauseEnd(i), i+4); i < end; i++ {
		switch r.low(i) {
		case "delivery", "package", "packages", "shipment", "material", "materials", "parts", "order", "boxes", "freight", "key",
			"keys", "badge", "permit", "rental", "lift", "fixtures":
			return true
		}
	}
	return false
}

// inspected reports whether an inspector signed, who accepts work but allows no extra.
func (r *reader) inspected(h hit) bool {
	for j := max(0, h.from-4); j < min(len(r.toks), h.to+4); j++ {
		switch r.low(j) {
		case "inspector", "inspection", "inspectors", "ahj", "utility", "poco", "county":
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

// priced reports whether the text names a price or speaks of one.
func (r *reader) priced() bool { return r.seen.topics&aboutPrice != 0 || r.seen.dollars }
