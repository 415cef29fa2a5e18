package field

// blocked notes an obstacle and what it is.
func (st *standing) blocked(h hit) {
	r := st.r
	if h.sense == sayNoWay && r.low(h.from) == "blocked" && (r.low(h.to) == "out" || r.low(h.to) == "off") {
		return
	}
	if r.low(h.from) == "locked" && h.to-h.from == 1 && !r.lockedPlace(h) {
		return
	}
	if (r.low(h.from) == "held" || r.low(h.from) == "hold") && r.low(h.to) == "up" && r.low(h.to+1) == "with" {
		return
	}
	if r.pastObstacle(h) {
		return
	}
	st.p.Blocked = true
	st.touch(h.from, h.to)
	if st.p.BlockedBy != "" {
		return
	}
	switch {
	case h.sense == sayBlocked:
		st.p.BlockedBy = r.obstacle(h.to)
	case r.low(h.from) == "no":
		st.p.BlockedBy = r.text[r.toks[h.from].start:r.toks[h.to-1].end]
	default:
		st.p.BlockedBy = r.reason(h.to)
	}
	if st.p.BlockedBy != "" && h.sense == sayBlocked {
		st.touch(h.from, min(r.obstacleEnd(h.to), len(r.toks)))
	}
}

// lockedPlace reports whether "locked" ends its clause and a place stands before it: "unit 7 locked".
func (r *reader) lockedPlace(h hit) bool {
	i := h.from - 1
	if low := r.low(i); low == "is" || low == "was" || low == "still" {
		i--
	}
	return r.endsClause(h.to) && (r.placeWord(i) || r.isNumber(i) || r.low(i) == "gate")
}

// pastObstacle reports whether the obstacle is over ("were in our way", "had to wait on the lift")
// or stands before a panel, which is a fault and stops no work.
func (r *reader) pastObstacle(h hit) bool {
	switch prev := r.low(h.from - 1); r.low(h.from) {
	case "in":
		return prev == "was" || prev == "were"
	case "wait":
		return prev == "to" && r.low(h.from-2) == "had"
	case "blocked":
		for j := max(0, h.from-3); j < h.from; j++ {
			if low := r.low(j); low == "panel" || low == "disconnect" || low == "door" {
				return true
			}
		}
	}
	return false
}

// obstacle returns what stands after "waiting on", as written.
func (r *reader) obstacle(from int) string {
	start, end := r.piece(from, r.obstacleEnd(from))
	return r.text[start:end]
}

func (r *reader) obstacleEnd(from int) int {
	i := from
	for n := 0; i < len(r.toks) && n < 10 && !r.breaks(i); n++ {
		switch r.low(i) {
		case "before", "so", "until", "to", "and", "since", "because":
			if i > from {
				return i
			}
		}
		i++
	}
	return i
}

// reason returns what stands after "because" or "due to" in the clause at token i, as written.
func (r *reader) reason(i int) string {
	for end := r.clauseEnd(i); i < end; i++ {
		switch r.low(i) {
		case "because":
			if r.low(i+1) == "of" {
				i++
			}
			return r.obstacle(i + 1)
		case "until", "till", "til":
			return r.obstacle(i + 1)
		case "due":
			if r.low(i+1) == "to" {
				return r.obstacle(i + 2)
			}
		}
	}
	return ""
}

// dropped notes what the customer took out.
func (st *standing) dropped(h hit) {
	r := st.r
	switch low := r.low(h.from); {
	case r.negatedWithin(h.from, 2) && low != "not" && low != "no":
		return
	case (low == "don't" || low == "dont" || low == "do" || low == "doesn't" || low == "does" || low == "doesnt") && (r.low(h.to) == "to" || r.low(h.to) == "a" && r.low(h.to+1) == "permit"):
		return
	case low == "dont" || low == "don't" || low == "do":
		if r.low(h.from-1) == "we" || r.low(h.from-1) == "i" {
			return
		}
	case low == "scrapped" && h.to < len(r.toks) && !r.breaks(h.to) && !r.customerBefore(h.from):
		return
	case low == "cancel" && r.low(h.from-1) == "to":
		return
	}
	st.p.Dropped = true
	st.touch(h.from, h.to)
}

// customerBefore reports whether a customer or pronoun stands before token i in its clause.
func (r *reader) customerBefore(i int) bool {
	for n := 0; n < 4 && i > 0 && !r.breaks(i-1); n++ {
		i--
		if r.isCustomer(i) || r.low(i) == "she" || r.low(i) == "he" || r.low(i) == "they" {
			return true
		}
	}
	return false
}

// customerAfter reports whether a customer stands after token i in its clause.
func (r *reader) customerAfter(i int) bool {
	for end := r.clauseEnd(i); i < end; i++ {
		if r.isCustomer(i) {
			return true
		}
	}
	return false
}

// isCustomer reports whether token i is a word for someone with a say.
func (r *reader) isCustomer(i int) bool {
	switch plainOwner(r.low(i)) {
	case "owner", "owners", "customer", "client", "gc", "tenant", "landlord", "manager", "super":
		return true
	}
	return false
}
