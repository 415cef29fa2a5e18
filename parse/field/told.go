package field

import (
	"jobday/notes"
	"jobday/trade"
)

// told reads counts whose thing is not said again: "terminated 12", "converted 10 today", "two at the
// host stand", "balcony 5 more". The first one counts; a number of a list, a time or a size is none.
func (st *standing) told() {
	r := st.r
	for i := range r.toks {
		n, next, ok := r.headNumber(i)
		if !ok || n > mostTold || r.claimed(r.toks[i].start) || r.listsOn(i, next) {
			continue
		}
		if r.otherVerb(i-1, n) && r.endsTold(next) {
			return // "pulled 24, punched 10": which of them counts is not said
		}
		if r.low(next) == "more" && !r.wanting(i) && r.endsTold(next+1) || (tellingVerb(r.low(i-1)) || runVerb(r.low(i-1), n)) && r.endsTold(next) || r.startsTold(i, next) {
			v := notes.Int(n)
			st.p.Told = &v
			st.touch(i, next)
			return
		}
	}
}

// mostTold is the largest count read without its thing; a larger number is a circuit, a room or a price.
const mostTold = 499

// more reads the day's own number where a sum follows it: "6 more makes all twelve" are six.
func (st *standing) more() {
	r := st.r
	for i := range r.toks {
		if r.low(i) != "more" {
			continue
		}
		n, from := r.numberBefore(i - 1)
		if n < 1 || r.wanting(from) || !r.sumAfter(i+1) {
			continue
		}
		st.count(n, 0)
		st.touch(from, i+1)
		return
	}
}

// sumAfter reports whether the words from token i on tell what the number makes in all: "makes all
// twelve", "thats all 8".
func (r *reader) sumAfter(i int) bool {
	for j := i; j < len(r.toks) && j < i+8; j++ {
		switch r.low(j) {
		case "makes", "making", "thats", "that's", "thatll", "that'll":
			for k := j + 1; k < j+4; k++ {
				if _, _, ok := r.headNumber(k); ok {
					return true
				}
			}
		}
	}
	return false
}

// wanting reports whether the clause of token i says before it that something is not there yet.
func (r *reader) wanting(i int) bool {
	for j := r.clauseStart(i); j < i; j++ {
		switch r.low(j) {
		case "need", "needs", "needed", "want", "wants", "wanted", "short", "missing", "order", "ordered", "owe", "still", "bring", "get", "buy",
			"send", "add", "maybe", "asked", "asking", "about", "tomorrow", "next", "only":
			return true
		}
	}
	return false
}

// listsOn reports whether a number beside the one at token i makes a list or a designation of it.
func (r *reader) listsOn(i, next int) bool {
	switch r.low(next) {
	case ",", "&", "and", "-", "/", "thru", "through", "to", "or", ".":
		if _, end, ok := r.headNumber(next + 1); ok && r.lackFollows(end) && r.low(next) == "," {
			return false // "installed 9, 5 short"
		}
		if r.isNumber(next + 1) {
			return true
		}
	}
	switch r.low(i - 1) {
	case "#", "/", "$", "-", ".":
		return r.low(i-1) != "-" || r.close(i)
	case ",", "&", "and":
		return r.isNumber(i - 2)
	}
	return r.isNumber(i-1) || r.isNumber(next)
}

// lackFollows reports whether the words from token i on say that the number before them is not done.
func (r *reader) lackFollows(i int) bool {
	switch r.low(i) {
	case "short", "left", "missing", "remaining", "tomorrow":
		return true
	case "to":
		return r.low(i+1) == "go"
	}
	return false
}

// endsTold reports whether nothing that a number could count follows at token i.
func (r *reader) endsTold(i int) bool {
	if r.endsClause(i) {
		return true
	}
	switch r.low(i) {
	case "today", "now", "so":
		return r.low(i) != "so" || r.low(i+1) == "far"
	case "of":
		return r.low(i+1) == "them" || r.low(i+1) == "em" || r.low(i+1) == "those"
	}
	return false
}

// startsTold reports whether the number from token i to next opens its clause and is followed by what
// was done or where: "two at the host stand", "six hung". Digits that open the text may be a label.
func (r *reader) startsTold(i, next int) bool {
	if i > 0 && r.clauseStart(i) != i || i == 0 && r.isNumber(i) {
		return false
	}
	if low := r.low(next); low == "are" || low == "is" || low == "were" {
		next++
	}
	switch r.low(next) {
	case "done", "up", "hung", "installed", "mounted", "working", "swapped", "replaced", "complete", "finished", "trimmed", "converted":
		return r.endsClause(next+1) || r.low(next+1) == "today"
	case "at", "by", "over", "along", "behind", "under":
		return r.low(next+1) == "the" && r.low(next+2) != "end" && r.low(next+2) != "most" && r.low(next+2) != "shop"
	}
	return false
}

// otherVerb reports whether token i is work of which the number n after it may be a circuit's.
func (r *reader) otherVerb(i, n int) bool {
	if i < 0 || tellingVerb(r.low(i)) || runVerb(r.low(i), n) {
		return false
	}
	w, ok := trade.FindWord(r.low(i))
	return ok && w.Class == trade.VerbWord
}

// runVerb reports whether a word tells of n feet or runs: circuits have lower numbers.
func runVerb(low string, n int) bool {
	return n >= 25 && (low == "pulled" || low == "ran")
}

// tellingVerb reports whether a word tells of work on things by the piece. What is landed, pulled or
// traced is often a circuit by its number.
func tellingVerb(low string) bool {
	switch low {
	case "terminated", "converted", "swapped", "hung", "did", "installed", "mounted", "replaced", "changed", "aimed", "finished", "relocated",
		"added", "trimmed", "relamped", "retrofitted", "programmed", "punched", "rehung", "reset", "demoed":
		return true
	}
	return false
}
