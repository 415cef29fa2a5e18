package field

import (
	"math/bits"
	"slices"
)

// A survey is what one pass over the tokens found, so that a grammar without anything to read
// costs nothing.
type survey struct {
	done      bool
	hits      []hit
	topics    topic // those a telling phrase was found of
	numbers   bool  // a run of digits
	ranges    bool  // "-", "to" and the like between two numbers
	colons    bool  // ":" between two numbers
	timed     bool  // "hr", "lunch", "noon"
	lunch     int8  // 1 when a break is spoken of, -1 when none is, 0 before anyone asked
	inOut     int   // 1 for "on site", 2 for "off site"
	megger    bool  // insulation was tested
	negations bool  // "not", "never", "didn't"
	money     bool  // a currency sign
	percent   bool
	bounds    bool // ">" or "<"
	slashes   int
	ofs       bool // "of", as in "2 of 3"
	dollars   bool // "dollars", "bucks"
	lacking   bool // "no"
	telling   bool // "more", "swapped", "two": a count may stand without its thing
	placed    bool // "in", "up", "on" at the end of a clause
}

// survey looks the text over once.
func (r *reader) look() *survey {
	if r.seen.done {
		return &r.seen
	}
	s := &r.seen
	s.done = true
	for i := range r.toks {
		switch t := &r.toks[i]; t.kind {
		case number:
			s.numbers = true
		case word:
			r.lookUp(i, t.low)
		default:
			r.lookAt(i, t.low)
		}
	}
	return s
}

// lookAt notes the signs that some grammar needs to have anything to read.
func (r *reader) lookAt(i int, low string) {
	s := &r.seen
	switch low {
	case "-", "–", "—", "→", "~", "−":
		s.ranges = s.ranges || r.clockSide(i-1) && r.clockSide(i+1)
	case ">":
		s.bounds = true
		s.ranges = s.ranges || r.low(i-1) == "-" && r.clockSide(i-2) && r.clockSide(i+1)
	case ":":
		s.colons = s.colons || r.isNumber(i-1) && r.isNumber(i+1)
	case "$", "€", "£":
		s.money = true
		s.topics |= aboutPrice
	case "%":
		s.percent = true
	case "<", "≥", "≤":
		s.bounds = true
	case "/":
		s.slashes++
	case "½", "¼", "¾", "⅓", "⅔":
		s.numbers = true
	}
}

// lookUp notes the phrases that start at token i, of one topic only the longest. One phrase may
// have two senses in a topic: "live parts" is a fault and says how grave it is.
func (r *reader) lookUp(i int, low string) {
	s := &r.seen
	var buf [24]byte
	key := plainKey(low, &buf)
	var list []cue
	if key == nil {
		list = cues[low]
	} else {
		list = cues[string(key)]
	}
	var length [8]int // of the phrase taken, by topic
	for k := range list {
		c := &list[k]
		t := c.sense.topic()
		n := &length[bits.TrailingZeros8(uint8(t))]
		if *n > len(c.rest)+1 || !r.follows(i+1, c.rest) {
			continue
		}
		*n = len(c.rest) + 1
		if !c.sense.quiet() {
			s.topics |= t
		}
		if s.hits == nil {
			s.hits = make([]hit, 0, 8)
		}
		s.hits = append(s.hits, hit{i, i + 1 + len(c.rest), c.sense})
		s.note(c.sense)
	}
	if len(low) > 3 && low[len(low)-1] == 't' && negation(low) {
		s.negations = true
	}
	switch low {
	case "to", "till", "til", "until", "thru", "through", "or":
		s.ranges = s.ranges || r.clockSide(i-1) && r.clockSide(i+1)
	case "past":
		s.ranges = s.ranges || partOfHour(r.low(i-1)) > 0
	case "at":
		s.ranges = s.ranges || r.hourWord(i+1) > 0
	case "of":
		s.ofs = true
	case "percent":
		s.percent = true
	case "more", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve":
		s.telling = true
	case "not", "never":
		s.negations = true
	case "no", "none", "nope":
		s.lacking = true
	case "in", "up", "on", "down", "out", "hot":
		s.placed = s.placed || i > 0 && r.placedAt(i)
	case "dollars", "bucks":
		s.dollars = true
	default:
		s.telling = s.telling || tellingVerb(low) || low == "pulled" || low == "ran"
	}
}

// cueWord reports whether a phrase of these grammars begins with the word at token i.
func (r *reader) cueWord(i int) bool {
	var buf [24]byte
	if key := plainKey(r.low(i), &buf); key != nil {
		_, ok := cues[string(key)]
		return ok
	}
	_, ok := cues[r.low(i)]
	return ok
}

// note keeps what some grammar asks of the whole text.
func (s *survey) note(x sense) {
	switch x {
	case timeWord:
		s.timed = true
	case othersWord:
		s.topics |= aboutProgress
	case clockIn:
		s.inOut |= 1
	case clockOut:
		s.inOut |= 2
	case readMegger:
		s.megger = true
	}
}

// clockSide reports whether one side of a range may end or begin at token i.
func (r *reader) clockSide(i int) bool {
	if r.isNumber(i) {
		return true
	}
	switch r.low(i) {
	case "a", "p", "am", "pm", "m", ".", "noon", "midnight", "'", "lunch":
		return true
	}
	return i >= 0 && i < len(r.toks) && (r.hourWord(i) > 0 || tensWord(r.low(i)) > 0 || partOfHour(r.low(i)) > 0)
}

// plainKey copies a word without its apostrophes into buf, or returns nil when it has none or is
// longer than any word of a phrase.
func plainKey(low string, buf *[24]byte) []byte {
	if len(low) > len(buf) {
		return nil
	}
	n := 0
	for i := 0; i < len(low); i++ {
		if low[i] != '\'' {
			buf[n] = low[i]
			n++
		}
	}
	if n == len(low) {
		return nil
	}
	return buf[:n]
}

// follows reports whether the words stand at token i.
func (r *reader) follows(i int, words []string) bool {
	if i+len(words) > len(r.toks) {
		return false
	}
	for k, w := range words {
		if !samePlain(r.toks[i+k].low, w) {
			return false
		}
	}
	return true
}

// samePlain reports whether low without apostrophes is plain.
func samePlain(low, plain string) bool {
	if low == plain {
		return true
	}
	if len(low) <= len(plain) {
		return false
	}
	n := 0
	for i := 0; i < len(low); i++ {
		if low[i] == '\'' {
			continue
		}
		if n == len(plain) || low[i] != plain[n] {
			return false
		}
		n++
	}
	return n == len(plain)
}

// about returns the hits of one topic, leftmost first, that do not overlap.
func (r *reader) about(t topic, yield func(h hit)) {
	end := 0
	for _, h := range r.seen.hits {
		if h.sense.topic() == t && h.from >= end {
			end = h.to
			yield(h)
		}
	}
}

// near returns the hits that begin from token lo to before token hi. The grammars look around a
// value through it, so that work on a long text stays in proportion to its length.
func (r *reader) near(lo, hi int) []hit {
	hits := r.seen.hits
	a, _ := slices.BinarySearchFunc(hits, lo, func(h hit, at int) int { return h.from - at })
	b := a
	for b < len(hits) && hits[b].from < hi {
		b++
	}
	return hits[a:b]
}
