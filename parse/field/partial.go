package field

import (
	"strings"

	"jobday/notes"
)

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
		if r.low(h.to-1) == "be" {
			if !r.endsClause(h.to+1) || !r.isWord(h.to) {
				return // "whip to be made"
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
	case "need", "needs":
		if h.to-h.from == 1 && !(strings.HasSuffix(r.low(h.to), "ing") && r.endsClause(h.to+1)) || !r.partialVerb(h) {
			return // "still flashing, need commissioning"
		}
	case "have", "has", "come", "coming", "still", "working", "remaining":
		if !r.partialVerb(h) {
			return
		}
	case "only":
		if !r.endsClause(h.to) || h.to < len(r.toks) && !r.onlyPart(h.from) {
			return
		}
	case "minus":
		if r.isNumber(h.to) && r.close(h.to) {
			return
		}
	case "missing", "short":
		if n, _ := r.numberBefore(h.from - 1); n < 1 || h.from == 0 || r.clauseEnd(h.to) == h.to && n > 0 && r.clauseStart(h.from) == 0 {
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
	if n, from := r.numberBefore(h.from - 1); n > 0 {
		return !r.close(from)
	}
	return r.thingLeft(h.from)
}

// thingLeft reports whether a word or two about a thing stand before "left" in a clause of their own:
// "landed, controls left", not "Jun left".
func (r *reader) thingLeft(i int) bool {
	from := r.clauseStart(i)
	if from == 0 || i-from < 1 || i-from > 2 {
		return false
	}
	for j := from; j < i; j++ {
		if !r.isWord(j) || r.capital(j) && !r.shouting(j) || r.crewMember(j) || r.isCustomer(j) || pronoun(r.low(j)) || r.cueWord(j) {
			return false
		}
		switch r.low(j) {
		case "i", "we", "all", "both", "crew", "then", "guys", "and", "it", "that", "was":
			return false
		}
	}
	return true
}

// onlyPart reports whether "only" at token i limits work to a part: "did kitchen only", "landed at the
// panel end only".
func (r *reader) onlyPart(i int) bool {
	switch r.low(r.clauseStart(i)) {
	case "did", "got", "done", "finished", "roughed":
		return true
	}
	switch r.low(i - 1) {
	case "end", "side", "half", "floor", "wall", "row", "leg":
		return true
	}
	return false
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
