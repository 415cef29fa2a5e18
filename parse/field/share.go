package field

import (
	"jobday/notes"
)

// share weighs "all", "both", "the rest", "half".
func (st *standing) share(h hit) {
	switch r := st.r; h.sense {
	case sayAll:
		st.all(h)
	case sayBoth:
		if !r.pairOfPlaces(h.to) {
			st.p.All = true
			st.count(2, 2)
			st.touch(h.from, h.to)
		}
	case sayRest:
		st.rest(h)
	case sayHalf:
		if r.halfOfWork(h) {
			f := half
			st.p.Fraction = &f
			st.touch(h.from, h.to)
			if r.low(h.to) == "roughed" || r.low(h.to) == "done" || r.low(h.to) == "way" {
				st.no = true
			}
		}
	}
}

// pairOfPlaces reports whether "both" before token i is not about things done.
func (r *reader) pairOfPlaces(i int) bool {
	switch r.low(i) {
	case "of":
		return r.low(i+1) == "us"
	case "end", "side", "way", "ends", "sides", "ways", "legs", "hots", "men", "guys", "days", "hands", "times":
		return true
	case "":
		return r.low(i-2) != "," // "box plugs, both"
	}
	switch r.low(i - 2) {
	case "in", "at", "on": // "9 in both barns"
		if n, _ := r.numberBefore(i - 3); n > 0 {
			return true
		}
	}
	return r.isNumber(i) || r.low(i-2) == "us"
}

func (st *standing) count(n, of int) {
	if st.p.Count != nil {
		return
	}
	a := notes.Int(n)
	st.p.Count = &a
	if of > 0 {
		b := notes.Int(of)
		st.p.Of = &b
	}
}

// all weighs "all": of things, with their number if it is written.
func (st *standing) all(h hit) {
	r := st.r
	switch r.low(h.to) {
	case "day", "night", "morning", "afternoon", "week", "weekend", "set", "good", "right", "ok", "of", "over",
		"thread", "weather", "hours", "the", "in", "around", "my", "our", "out", "along", "about", "that", "this", "done", "but", "we", "i", "":
		if !(r.low(h.to) == "the" && r.low(h.to+1) != "way" && r.low(h.to+1) != "time") && !(r.low(h.to) == "of" && (r.low(h.to+1) == "the" || r.low(h.to+1) == "them") || r.low(h.to) == "in" && r.endsClause(h.to+1) && !hourWord(r.low(h.from-1))) {
			return
		}
	}
	if r.low(h.from) == "every" && (r.low(h.to) == "day" || r.low(h.to) == "time" || r.isNumber(h.to)) {
		return
	}
	if prev := r.low(h.from - 1); prev == "at" || prev == "after" || prev == "not" || prev == "call" || prev == "above" || prev == "-" && r.close(h.from) || r.low(h.to) == "-" && r.close(h.to) {
		return
	}
	st.p.All = true
	st.touch(h.from, h.to)
	j := h.to
	if r.low(j) == "of" {
		j++
	}
	if r.low(j) == "the" {
		j++
	}
	if n, next, ok := r.headNumber(j); ok {
		st.count(n, n)
		st.touch(h.from, next)
	}
}

// headNumber reads a whole number at token i that counts things, not one that sizes or rates them.
func (r *reader) headNumber(i int) (n, next int, ok bool) {
	if i >= len(r.toks) {
		return 0, 0, false
	}
	v, ok := r.num(i)
	if !ok || v.form == article || v.small < 1 || v.small > 9999 {
		return 0, 0, false
	}
	if r.close(v.next) {
		switch r.low(v.next) {
		case ",", ";", ".", ")", ":":
		default:
			return 0, 0, false
		}
	}
	return v.small, v.next, !ratingUnit(r.low(v.next))
}

// ratingUnit reports whether a word makes the number before it a size or rating.
func ratingUnit(low string) bool {
	switch low {
	case "a", "amp", "amps", "v", "volt", "volts", "w", "watt", "watts", "in", "inch", "ft", "feet", "ga",
		"gang", "gauge", "awg", "kcmil", "pole", "p", "hp", "k", "kw", "kva", "x", `"`, "'", "/", "phase",
		"hr", "hrs", "hour", "hours", "min", "mins", "minutes", "%", "percent":
		return true
	}
	return false
}

// rest weighs "the rest", "last one", "the other two".
func (st *standing) rest(h hit) {
	r := st.r
	first, j := r.low(h.from), h.to
	switch first {
	case "last", "final":
		if at := r.low(h.from - 1); at == "at" || at == "from" || at == "past" || r.low(h.from-2) == "at" && at == "the" {
			return
		}
		switch r.low(j) {
		case "week", "night", "time", "visit", "day", "year", "trip", "month", "monday", "tuesday", "wednesday",
			"thursday", "friday", "inspection", "walk", "minute", "summer", "winter", "spring", "fall", "job", "":
			return
		}
	case "other", "the":
		if first == "other" || r.low(h.from+1) == "other" {
			n, next, ok := r.headNumber(j)
			if !ok && r.low(j) != "one" && r.low(j) != "ones" || first == "other" && !ok {
				return
			}
			if ok && r.stillDue(next) {
				st.no = true // "the other 3 are behind the stove"
				st.touch(h.from, next)
				return
			}
			if ok {
				st.count(n, 0)
				j = next
			}
			st.p.Rest = true
			st.touch(h.from, j)
			return
		}
	}
	if r.low(h.to-1) == "of" && r.low(j) == "the" && r.low(j+1) == "day" || r.low(h.to-1) == "of" && r.low(j) == "day" {
		return
	}
	switch r.low(j) {
	case "when", "after", "once", "tomorrow", "tmw", "tmrw", "later", "next", "on", "monday", "tuesday", "wednesday", "thursday", "friday", "to", "as", "if", "wait", "waits":
		if first != "last" && first != "final" {
			st.no = true // "16 done, rest when the scaffold moves"
			st.touch(h.from, j)
			return
		}
	}
	if first == "rest" && h.to-h.from == 1 {
		return
	}
	st.p.Rest = true
	n, next, ok := r.headNumber(j)
	switch {
	case ok:
		st.count(n, 0)
		j = next
	case r.isNumber(j):
	case first == "last" || first == "final":
		st.count(1, 0)
	}
	st.touch(h.from, j)
}

// stillDue reports whether the words from token i on say that what was just counted is not done.
func (r *reader) stillDue(i int) bool {
	switch r.low(i) {
	case "need", "needs", "wait", "waits", "came", "left", "still", "not", "tomorrow", "when", "missing", "broken", "cracked", "behind":
		return true
	case "are", "is", "were", "have", "has", "will":
		low := r.low(i + 1)
		return !doneWord(low) && low != "in" && low != "up" && low != "on" && low != "hung" && low != "set" && low != "also" && low != "installed" && low != "working"
	}
	return false
}

// halfOfWork reports whether "half" is about how far work got: not a half hour, box or inch.
func (r *reader) halfOfWork(h hit) bool {
	switch r.low(h.from - 1) {
	case "north", "south", "east", "west", "back", "front", "top", "bottom", "upper", "lower", "first", "second", "other",
		"left", "right", "far":
		return false
	}
	if r.low(h.from-1) == "a" || r.low(h.from-1) == "and" || r.low(h.from-1) == "-" && r.close(h.from) {
		return false
	}
	switch r.low(h.to) {
	case "done", "finished", "complete", "completed", "roughed", "trimmed", "pulled", "way", "hung", "in", "up", "installed", "set", "landed":
		return r.low(h.to) != "in" || r.endsClause(h.to+1)
	case "of":
		return r.low(h.to+1) == "the" || r.low(h.to+1) == "them" || r.low(h.to+1) == "it"
	case "the", "are", "were":
		return true
	case "":
		switch r.low(h.from - 1) {
		case "on", "up", "in", "about", "is", "are", "roughly":
			return true // "guards on half"
		}
	}
	return false
}

// counts reads "2 of 3", "50 %" and "2/3 done", which no phrase announces.
func (st *standing) counts() {
	r := st.r
	for i := range r.toks {
		switch low := r.low(i); {
		case low == "of":
			st.ofCount(i)
		case low == "%", low == "percent":
			st.percent(i)
		case low == "/" && r.isNumber(i-1) && r.isNumber(i+1):
			if n, of, next, ok := tally(r.toks, i-1); ok {
				st.count(n, of)
				st.touch(i-1, next)
				continue
			}
			st.slashed(i)
		}
	}
}

// ofCount reads "2 of 3", "two of the three", "2 out of 3" around the "of" at token i.
func (st *standing) ofCount(i int) {
	r := st.r
	j := i - 1
	switch r.low(j) {
	case "out", "up", "in", "done", "hung", "set", "installed", "on", "mounted", "pulled":
		if r.isNumber(j - 1) {
			j-- // "2 out of 3", "9 up of 14"
		}
	}
	n, from := r.numberBefore(j)
	if n < 0 || st.p.Count != nil {
		return
	}
	switch r.low(from - 1) {
	case "page", "day", "sheet", "visit", "trip", "pg", "phase", "part", "/", "-", "#", ".", "week", "crew", "step":
		return
	}
	k := i + 1
	for r.low(k) == "the" || r.low(k) == "those" || r.low(k) == "our" || r.low(k) == "these" {
		k++
	}
	of, next, ok := r.headNumber(k)
	if !ok && of > 0 && lengthUnit(r.low(next)) {
		ok = true // "100 of 160 ft"
	}
	if !ok || of < n {
		return
	}
	st.count(n, of)
	st.touch(from, next)
}

func lengthUnit(low string) bool {
	switch low {
	case "ft", "feet", "foot", "lf", "'":
		return true
	}
	return false
}

// numberBefore returns the whole number that ends with token i and where it starts, or -1.
func (r *reader) numberBefore(i int) (n, from int) {
	if i < 0 {
		return -1, i
	}
	if r.isNumber(i) && len(r.low(i)) <= 4 {
		if r.close(i) && r.low(i-1) != "(" {
			return -1, i
		}
		return smallInt(r.low(i)), i
	}
	for from := max(0, i-2); from <= i; from++ {
		if v, ok := r.num(from); ok && v.next == i+1 && v.small >= 0 && v.form == spelled {
			return v.small, from
		}
	}
	return -1, i
}

// allBut reads how many "all but two" leaves out, and claims the number.
func (st *standing) allBut(h hit) bool {
	r := st.r
	if last := r.low(h.to - 1); last != "but" && last != "except" {
		return false
	}
	n, next, ok := r.headNumber(h.to)
	if !ok || r.low(h.from) == "done" || r.low(h.from) == "left" {
		return false
	}
	but := notes.Int(n)
	st.p.But = &but
	st.touch(h.from, next)
	r.claimTokens(h.to, next)
	return true
}

// percent reads a share of the work: "50 %", "75 percent done". A percentage of an instrument,
// a dimmer or a discount is none.
func (st *standing) percent(i int) {
	r := st.r
	from, v, ok := r.decimalBefore(i)
	if !ok || v.Cmp(notes.Int(100)) > 0 || v.Sign() < 0 {
		return
	}
	switch next := r.low(i + 1); next {
	case "", "done", "complete", "completed", "finished", "there", "of", "in", "roughed", "trimmed", "pulled", "on", ",", ".", ";", ")", "traced", "hung", "set", "installed", "landed", "labeled", "wired":
	default:
		return
	}
	for j := max(0, from-5); j < min(len(r.toks), i+5); j++ {
		switch r.low(j) {
		case "drop", "load", "unbalance", "imbalance", "humidity", "thd", "dimmed", "dim", "dimmer", "slope", "markup", "discount", "off", "deposit", "tax", "vd", "level":
			return
		}
	}
	f := v.Quo(notes.Int(100), 6)
	st.p.Fraction = &f
	if !f.Equal(one) && i+1 < len(r.toks) && doneWord(r.low(i+1)) {
		st.no = true
	}
	st.touch(from, i+1)
	r.claimTokens(from, i+1)
}

func doneWord(low string) bool {
	return low == "done" || low == "complete" || low == "completed" || low == "finished"
}

// decimalBefore reads the number that ends right before token i.
func (r *reader) decimalBefore(i int) (from int, v notes.Decimal, ok bool) {
	for from := max(0, i-3); from < i; from++ {
		if !r.isNumber(from) || r.close(from) && r.isNumber(from-2) {
			continue
		}
		if n, ok := r.num(from); ok && n.next == i {
			return from, n.v, true
		}
	}
	return 0, notes.Decimal{}, false
}

// slashed reads "2/3 done" around the slash at token i. "12/2 done to the island" is a cable.
func (st *standing) slashed(i int) {
	r := st.r
	if r.close(i-1) || !r.close(i) || !r.close(i+1) || r.low(i+2) == "/" {
		return
	}
	a, b := smallInt(r.low(i-1)), smallInt(r.low(i+1))
	next := r.low(i + 2)
	if len(r.low(i-1)) > 2 || len(r.low(i+1)) > 2 || a <= 0 || a >= b || !doneWord(next) && !(next == "of" && r.low(i+3) == "the" && r.low(i+4) == "way") {
		return
	}
	f := notes.Ratio(a, b)
	st.p.Fraction = &f
	st.no = true
	st.touch(i-1, i+3)
	r.claimTokens(i-1, i+2)
}
