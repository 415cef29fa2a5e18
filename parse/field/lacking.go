package field

import "jobday/trade"

// without reads what a "no" says is not there: "no pit yet" leaves work open, "no horn" says that
// the horn was not done.
func (st *standing) without() {
	r := st.r
	for i := range r.toks {
		if none := r.low(i) == "no" || r.low(i) == "none" || r.low(i) == "nope"; none && st.noneOf(i) {
			continue
		}
		if r.low(i) != "no" {
			continue
		}
		if prev := r.low(i - 1); (prev == "has" || prev == "have" || prev == "had") && i > 1 && r.isNumber(i-2) && r.clauseStart(i) == i-2 {
			st.no = true // "1-4 in, 5 has no box"
			st.touch(i-2, r.clauseEnd(i))
			continue
		}
		if end := r.clauseEnd(i); end-i > 2 && end-i <= 5 && r.low(end-1) == "yet" && !answerWord(r.low(end-2)) {
			st.no = true // "two pockets in, no covers yet", "womens no heater yet"
			st.touch(i, end)
			continue
		}
		if r.spokenFor(i) || i > 0 && !r.breaks(i-1) && r.clauseStart(i) != i {
			continue
		}
		end := r.clauseEnd(i)
		if end-i > 5 || end-i < 2 {
			continue
		}
		last := r.low(end - 1)
		switch {
		case last == "yet" && !answerWord(r.low(end-2)):
			st.no = true
		case end-i == 2 && r.putIn(i+1):
			st.no = true
			st.p.NotDone = st.p.NotDone || i == 0 && end == len(r.toks)
		default:
			continue
		}
		st.touch(i, end)
	}
}

// noneOf reads "pendants no, glass is late" and "stats: none yet": nothing of what stands before.
func (st *standing) noneOf(i int) bool {
	r := st.r
	if i == 0 && r.low(i) == "none" && r.low(1) == "of" {
		st.no, st.p.NotDone = true, true // "none of the wall packs, rain"
		st.touch(0, 2)
		return true
	}
	at := i - 1
	if r.low(at) == ":" || r.low(at) == "," {
		at--
	}
	if at < 0 || !r.isWord(at) || r.crewMember(at) || r.isCustomer(at) || r.cueWord(at) || !(r.endsClause(i+1) || r.low(i+1) == "yet") {
		return false
	}
	switch r.low(at) {
	case "her", "him", "them", "us", "me", "is", "was", "say", "said", "told", "a", "oh", "and", "there":
		return false
	}
	st.no = true
	if at <= 3 {
		st.p.NotDone = true
	}
	st.touch(at, i+1)
	return true
}

// putIn reports whether token i is a thing of the trade that somebody puts in.
func (r *reader) putIn(i int) bool {
	e := r.toks[i].ent
	if e == nil || !e.Known || e.Class != trade.ThingWord {
		return false
	}
	switch e.Text {
	case "circuit", "service", "switch", "panel", "disconnect", "receptacle", "GFCI", "AFCI", "breaker", "ground wire", "data drop", "motor":
		return false // what is missing there is a fault, or nothing of ours
	}
	return true
}

// answerWord reports whether "no ... yet" is about a word from somebody or a trouble, not work.
func answerWord(low string) bool {
	switch low {
	case "ok", "okay", "answer", "word", "response", "reply", "signature", "approval", "issue", "issues", "problem", "problems", "luck", "news", "one", "price", "quote", "inspection":
		return true
	}
	return false
}
