package field

import "strings"

// somebody weighs the words for somebody else and what they did.
func (st *standing) somebody(h hit) {
	r := st.r
	switch h.sense {
	case sayByOthers:
		if st.worked && r.low(h.from) == "not" {
			return // "cut in a box for them, not ours": we did it
		}
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
	if strings.HasSuffix(r.low(h.from), "self") || r.low(h.from) == "themselves" {
		if st.others > 0 && r.clauseStart(h.from) <= st.others && !r.negatedWithin(h.from, 4) {
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
