package trade

// maxGap is how many words may stand between those of a phrase: a few, or another thing is meant.
const maxGap = 4

// fit looks for the words of p around one that stands at a, nearest first, and returns how many
// other words stand between them.
func (t *look) fit(p *phrase, a term, chosen []term) (gap int, ok bool) {
	for n := range chosen {
		chosen[n] = term{from: -1}
	}
	chosen[p.anchor] = a
	// From the last word to the first, so that a "no" comes after what it says is missing.
	for n := len(p.words) - 1; n >= 0; n-- {
		if int8(n) == p.anchor {
			continue
		}
		c, ok := t.nearest(p, n, a, chosen)
		if !ok {
			return 0, false
		}
		chosen[n] = c
	}
	first, last := reach(chosen)
	if t.jots[first].clause != t.jots[last].clause {
		return 0, false
	}
	between := 0
	for j := first; j <= last; j++ {
		if !t.jots[j].filler && !t.jots[j].which() && !covers(chosen, j) {
			between++
		}
	}
	between += t.jots[last].comma - t.jots[first].comma
	limit := maxGap
	if len(p.words) == 2 {
		limit = maxGap - 1
	}
	return between, between <= limit
}

// which reports whether a word is a number that tells one from another, as in "ckts 1/5", and is no further thought.
func (j jot) which() bool {
	return isDigit(j.stem[0]) || len(j.stem) > 1 && j.stem[0] == 'n' && isDigit(j.stem[1]) || j.stem == "#" || j.stem == "ckt" || j.stem == "circuit"
}

// nearest returns the term for word n of the phrase that stands nearest to a and overlaps none
// chosen before. What "no" or "not" says is missing must follow it.
func (t *look) nearest(p *phrase, n int, a term, chosen []term) (term, bool) {
	var best term
	least := 1 << 30
	for _, id := range p.words[n] {
		if t.byID[id] == 0 {
			continue
		}
		for _, c := range t.terms[t.byID[id]-1:] {
			if c.id != id || overlaps(chosen, c) {
				continue
			}
			if (id == t.x.none || id == t.x.not) && !t.denies(p, n, c, chosen) {
				continue
			}
			if d := distance(c, a); d < least {
				best, least = c, d
			}
		}
	}
	return best, least < 1<<30
}

// denies reports whether "no" or "not" at c can belong to the word after it in the phrase: that
// word stands behind it, in the same breath and close by, with no other "no" between.
func (t *look) denies(p *phrase, n int, c term, chosen []term) bool {
	o := chosen[0] // "knockout missing": the last word says so of the first
	if n+1 < len(chosen) {
		o = chosen[n+1]
	}
	if o.from < c.to || t.jots[o.from].content-t.jots[c.to-1].content > 3 || t.jots[o.from].comma != t.jots[c.from].comma {
		return false
	}
	if n := t.next(c.to); t.spent(c) && (n < o.from || n >= o.to) {
		return false
	}
	if t.through(c.to, o.from, furtherOnes) {
		return false
	}
	for j := c.to; j < o.from; j++ {
		if faulty[t.jots[j].stem] && !covers(chosen, j) {
			return false // "no open knockouts": what is denied is the fault
		}
	}
	for _, m := range t.terms {
		if (m.id == t.x.none || m.id == t.x.not || m.id == t.x.missing) && m.from >= c.to && m.to <= o.from {
			return false
		}
	}
	return true
}

// faulty are words for what is wrong with a thing; a "no" before them says that nothing is.
var faulty = setOf("open", "loos", "burnt", "burn", "expos", "exposed", "damag", "broken", "rust", "crack", "bad", "dead")

// furtherOnes tell of more that is wanted, not of one that is missing: "need 3 more covers".
var furtherOnes = setOf("mor", "another", "extra", "additional")

func distance(c, a term) int {
	if c.from >= a.to {
		return 2 * (c.from - a.to)
	}
	return 2*(a.from-c.to) + 1
}

func overlaps(chosen []term, c term) bool {
	for _, d := range chosen {
		if d.from >= 0 && c.from < d.to && d.from < c.to {
			return true
		}
	}
	return false
}

func covers(chosen []term, j int) bool {
	for _, c := range chosen {
		if c.from <= j && j < c.to {
			return true
		}
	}
	return false
}

// reach returns the first and last word the terms take.
func reach(chosen []term) (first, last int) {
	first = chosen[0].from
	for _, c := range chosen {
		first, last = min(first, c.from), max(last, c.to-1)
	}
	return first, last
}

// notFault are words that take a "no" before them for themselves: "no power at the burnt outlet"
// denies the power.
var notFault = setOf("power", "voltag", "volt", "acces", "read", "work", "issu", "problem", "sur", "know", "key", "answer",
	"time", "charg", "money", "on", "one", "permiss", "luck", "room", "light", "heat", "cool", "our", "part", "spar", "long",
	"longer", "only", "bill", "us", "use", "turn", "start", "run", "com", "reset", "hold", "trip")

// spent reports whether the word after the "no" at c takes it.
func (t *look) spent(c term) bool {
	j := t.next(c.to)
	return j < len(t.jots) && t.jots[j].clause == t.jots[c.from].clause && notFault[t.jots[j].stem]
}

// next returns the first word from j on that carries meaning.
func (t *look) next(j int) int {
	for j < len(t.jots) && t.jots[j].filler {
		j++
	}
	return j
}

// because ends what a "no" before it denies: "no light due to a burnt socket".
var because = setOf("becaus", "due", "caus", "caused", "found", "but", "except", "account", "sinc", "then")

// denied reports whether a "no" outside the chosen words says that they do not hold, or whether
// they are only what was looked for.
func (t *look) denied(chosen []term) bool {
	first, last := reach(chosen)
	if t.takenOff(chosen, first) {
		return true
	}
	own := t.deniesItself(chosen, first)
	looked := false
	for _, m := range t.terms {
		if t.jots[m.from].clause != t.jots[first].clause {
			continue
		}
		switch {
		case m.id == t.x.check && m.to <= first && t.jots[first].content-t.jots[m.to-1].content <= 8:
			looked = looked || !t.through(m.to, first, because)
		case m.id == t.x.fine && m.from > last && t.jots[m.from].content-t.jots[last].content <= 3 && t.emptyHanded(m):
			return true
		case (m.id != t.x.none && m.id != t.x.not) || covers(chosen, m.from):
		case m.from > first && m.to <= last:
			if !t.spent(m) {
				return true
			}
		case m.to <= first && t.reaches(m, first, own):
			return true
		}
	}
	return looked
}

// tookOff are words for taking a cover off to look behind it.
var tookOff = setOf("took", "tak", "take", "pull", "pop", "lift", "unscrew", "with", "when")

// takenOff reports whether something is off only because somebody took it off to look: "pulled the
// cover off the panel".
func (t *look) takenOff(chosen []term, first int) bool {
	for j := max(0, first-3); j < first; j++ {
		if tookOff[t.jots[j].stem] && t.jots[j].clause == t.jots[first].clause {
			for _, c := range chosen {
				if t.jots[c.to-1].stem == "off" || t.jots[c.from].stem == "off" {
					return true
				}
			}
		}
	}
	return false
}

// deniesItself reports whether the phrase begins with its own "no": "no cover".
func (t *look) deniesItself(chosen []term, first int) bool {
	for _, c := range chosen {
		if c.from == first && (c.id == t.x.none || c.id == t.x.not || c.id == t.x.missing) {
			return true
		}
	}
	return false
}

// emptyHanded reports whether the words at m say that nothing was found, rather than that
// something is fine.
func (t *look) emptyHanded(m term) bool {
	switch t.jots[m.from].stem {
	case "none", "rul", "not", "nop", "negativ", "no", "didn't", "did":
		return true
	}
	return false
}

// reaches reports whether the "no" at m denies what begins at first.
func (t *look) reaches(m term, first int, own bool) bool {
	limit := 4
	if own {
		limit = 1
	}
	if t.jots[first].content-t.jots[m.to-1].content > limit || t.spent(m) || t.through(m.to, first, because) {
		return false
	}
	return t.jots[first].comma == t.jots[m.from].comma || t.listed(m, first)
}

// listed reports whether a list of denied things goes on past commas: "no burns, rust or loose lugs".
func (t *look) listed(m term, first int) bool {
	for j := m.to; j < len(t.jots) && t.jots[j].clause == t.jots[first].clause; j++ {
		if s := t.jots[j].stem; s == "or" || s == "nor" {
			return j > m.to
		}
	}
	return false
}

// through reports whether one of the words stands from jot a to before jot b.
func (t *look) through(a, b int, words map[string]bool) bool {
	for j := a; j < b; j++ {
		if words[t.jots[j].stem] {
			return true
		}
	}
	return false
}

// leastSpelled is how long a word must be before one wrong letter is forgiven.
const leastSpelled = 6

// misspelled returns the word s is one letter away from, if exactly one is.
func (x *phraseIndex) misspelled(s string) (id int16, ok bool) {
	if len(s) < leastSpelled {
		return 0, false
	}
	for _, w := range x.spell[s[0]] {
		if oneOff(s, w) {
			if ok && x.ids[w] != id {
				return 0, false
			}
			id, ok = x.ids[w], true
		}
	}
	return id, ok
}

// oneOff reports whether one letter added, left out, changed or swapped with its neighbor turns
// a into b.
func oneOff(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) < len(b) {
		return a[i:] == b[i+1:]
	}
	if i == len(a) || a[i+1:] == b[i+1:] {
		return true
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}
