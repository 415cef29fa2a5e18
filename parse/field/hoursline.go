package field

// boldParts cuts a text into its parts, and boldly so where it proves to be a line of hours.
func (r *reader) boldParts(buf []timePart) (list []timePart, timed bool) {
	if r.bold || r.lex == nil || len(r.toks) > longestHoursLine {
		return r.timeParts(buf)
	}
	used, lone := len(r.used), len(r.lone)
	if r.personFirst() {
		r.bold = true
		if list, timed = r.timeParts(buf); timed && r.hoursLine(list) {
			return list, true
		}
		r.bold, r.used, r.lone = false, r.used[:used], r.lone[:lone]
	}
	list, timed = r.timeParts(buf)
	if timed && r.hoursLine(list) {
		r.bold, r.used, r.lone = true, r.used[:used], r.lone[:lone]
		return r.timeParts(buf)
	}
	return list, timed
}

// longestHoursLine is how many tokens a line of hours may have; few enough that what it claims is
// kept one by one.
const longestHoursLine = 60

// personFirst reports whether a text begins with one of ours, or with the author.
func (r *reader) personFirst() bool {
	i := 0
	if r.afterHoursLabel(1) {
		for i = 1; r.low(i) == ":" || r.low(i) == "-"; i++ {
		}
		if full := r.smallInitials(i); full != "" {
			return true // "hrs: E 8 I 8"
		}
	}
	if (r.initialsAt(i) != "" || r.low(i) == "crew") && r.plainSpan(i+1) {
		return true // "J 7-330 F 7-330"
	}
	m, ok := r.mentionAt(i)
	return ok && !m.strange && (!m.weak || r.low(i) == "both")
}

// plainSpan reports whether a clock span that is no run of numbers stands close behind token i.
func (r *reader) plainSpan(i int) bool {
	for j := i; j < i+8 && j < len(r.toks); j++ {
		if p, ok := r.pairAt(j); ok {
			return p.strong() || p.from.packed || p.to.packed || !p.rises()
		}
	}
	return false
}

// hoursLine reports whether a text is a line of hours and next to nothing else, so that it may be read as
// boldly as one that stands below a heading for time: it begins with somebody or his time, somebody known
// is named in it, and what else it says has no word of the trade and no deed.
func (r *reader) hoursLine(list []timePart) bool {
	if len(list) < 2 || list[0].from > 2 {
		return false
	}
	person, time, at, loose := false, false, 0, 0
	for k := 0; k <= len(list); k++ {
		to := len(r.toks)
		if k < len(list) {
			to = list[k].from
		}
		for ; at < to; at++ {
			switch r.looseWord(at) {
			case plainThing:
				return false
			case looseOne:
				loose++
			}
		}
		if k < len(list) {
			at = max(at, list[k].to)
			person = person || list[k].kind == aPerson && !list[k].who.strange
			time = time || list[k].kind == aSpan || list[k].kind == aStated && list[k].minutes >= 60
		}
	}
	person = person || list[0].kind == aSpan && list[0].from == 0 && loose == 0
	return person && time && loose <= 3
}

// The kinds of words in a line of hours.
const (
	smallWord = iota
	looseOne
	plainThing
)

// looseWord says whether token i, which no grammar of time has read, is a small word of a line of hours, one
// that may be about anything, or a thing or a deed.
func (r *reader) looseWord(i int) int {
	t := &r.toks[i]
	if t.kind != word {
		return smallWord
	}
	switch {
	case joining(t.low), r.beforeTime(i), r.breakWord(i), everyone(t.low), numberWordAt(t.low), hourWord(t.low), minuteWord(t.low), overtimeWord(t.low), r.initialsAt(i) != "":
		return smallWord
	case r.toldOf(i):
		return smallWord
	}
	switch t.low {
	case "for", "to", "of", "the", "a", "an", "no", "not", "but", "he", "she", "they", "same", "only", "just", "took", "ate", "left", "till", "until",
		"at", "less", "minus", "plus", "off", "out", "others", "other", "rest", "home", "early", "late", "m", "l", "came", "w", "truck", "desk", "hrs", "time", "sorry", "mean":
		return smallWord
	}
	if t.ent != nil {
		return plainThing
	}
	for _, h := range r.near(i, i+1) {
		if h.sense == workDone || h.sense == sayQuoted || h.sense == sayFault {
			return plainThing
		}
	}
	return looseOne
}
