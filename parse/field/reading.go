package field

import (
	"strings"

	"jobday/notes"
)

var readingCues = cueTable{
	readWord: "measured|measures|measure|measuring|reads|reading|read|got|getting|metered|meter|meters|voltage|volts|amps|amp draw|draw|draws|drawing|pulling|pulls|running|clamped|clamp meter|" +
		"drop|dropped to|dropped|tested|test|tests|checked|insulation|insulation resistance|resistance|ir test|torqued|torque|retorqued|trip time|under load|load|loaded|unbalance|imbalance|humidity|thd|inrush|fla|verified|far end|end of the run|end of run",
	readSubject: "gfci|gfcis|gfi|gfis|afci|afcis|polarity|continuity|rotation|phase rotation|ring out|rang out|tester|test button|button|emergency lights|emergency light|em lights|emergency battery|discharge|exit signs|exits|ground rod|rods|insulation|bonding|smokes|smoke alarms|detectors|pull test|receptacle tester|functional test|function test|load test|test",
	readOK:      "ok|okay|good|pass|passed|passes|fine|checks out|check out|checked out|correct|verified|confirmed|all sound|all sounded|went off together|all went off|sound together|sounded together|checks good|checked good|tested good|tests good|test good|tested ok|tests ok|tested fine|meggered ok|meggered good|megger ok|megged ok|megged good|meggers good|checks ok|checked ok|o . k",
	readFail: "open gnd|open ground|open grnd|open neutral|open neut|open hot|fail|failed|fails|failing|did not trip|didnt trip|wont trip|would not trip|wouldnt trip|no trip|does not trip|doesnt trip|wont reset|will not reset|would not reset|wouldnt reset|did not reset|not tripping|tested bad|tests bad|test failed|failed test|" +
		"reversed|wrong|incorrect|not ok|no good|bad",
	readOpen:         "reads open|read open|reading open|tests open|tested open|ol|o . l|open circuit",
	readTrip:         "tripped|trips|tripping at|trip|tripped at",
	readReset:        "reset|resets|reset ok|resets ok|reset fine|resets fine|reset good",
	readNoContinuity: "no continuity|without continuity|lost continuity",
	readContinuity:   "has continuity|have continuity|rings through|rings out",
	readTemp:         "ambient|scanner|ir gun|temp gun|heat gun|temp|temperature|thermal|hot spot|hotspot|ir scan|infrared|scan|vs|camera|imager|degrees|deg",
	readMegger:       "megger|meggered|megged|meg|megs|hipot|ir|insulation|insulation resistance|megger test|ir test",
}

// ReadReadings reads a text that is known to be about tests, such as a line of the tests section.
// It is bolder than Read: "120/241", "12 A" and "all good" are readings there.
// Pieces are byte offsets in text.
func ReadReadings(text string, lex *Lexicon) []notes.Measured {
	w := begin(text)
	defer w.end()
	w.lex, w.bold = lex, true
	return w.readings()
}

// A meter reads values one after the other.
type meter struct {
	r        *reader
	out      []notes.Measured
	unit     string // of the value before, for a list that writes it once
	between  string // what the next value is measured between
	betweenT int    // where that was written
	lastEnd  int    // token after the last value
	missing  []int  // values that wait for a unit written after them
	tripped  bool
	tripAt   int
	open     bool // a list of values may go on
	trails   bool // the conductors stand behind their values
}

// readings reads what instruments showed, and claims its numbers.
func (r *reader) readings() []notes.Measured {
	s := r.look()
	about := s.topics&aboutReading != 0
	if !about && !s.numbers || !r.mayMeasure(about) {
		return nil
	}
	m := meter{r: r}
	hit := 0
	for i := 0; i < len(r.toks); {
		for hit < len(s.hits) && (s.hits[hit].from < i || s.hits[hit].sense.topic() != aboutReading) {
			hit++
		}
		next := m.step(i, hit)
		i = max(next, i+1)
	}
	m.finish()
	return m.out
}

// mayMeasure reports whether a text can hold a reading at all: a phrase about one, a unit that
// only instruments have, "L1-N", a bound, or a row of voltages.
func (r *reader) mayMeasure(about bool) bool {
	if about || r.bold || r.seen.bounds || r.seen.percent || r.seen.slashes > 1 {
		return true
	}
	for i := range r.toks {
		t := &r.toks[i]
		if t.kind == number {
			continue
		}
		if len(t.low) <= 9 && (measuringWord(t.low) || t.kind == symbol && measuringWord(t.low)) {
			return true
		}
	}
	return false
}

// measuringWord reports whether a word can begin a unit or a pair of conductors.
func measuringWord(low string) bool {
	switch low {
	case "v", "volt", "kv", "a", "amp", "ma", "nm", "ms", "ohm", "ohms", "kohm", "mohm", "megohm", "megohms", "meg", "megs", "gohm", "ω", "mω",
		"c", "f", "°", "hz", "fc", "foot", "lb", "w", "kw", "watts", "l", "n", "h", "ph", "phase", "line", "hot", "neutral",
		"leg", "ab", "bc", "ca", "bn", "cn", "footcandles", "inch", "ft", "percent", "mv", "millivolts", "hertz", "kilowatts", "db", "lux", "megas":
		return true
	}
	return false
}

// step reads what starts at token i and returns the token to go on with.
func (m *meter) step(i, hit int) int {
	r := m.r
	t := &r.toks[i]
	if t.low == "." && r.sentenceEnds(i) || t.low == ";" {
		m.between, m.open, m.tripped = "", false, false
		return i + 1
	}
	if b, next, ok := r.betweenAt(i); ok {
		return m.setBetween(i, b, next)
	}
	for ; hit < len(r.seen.hits) && r.seen.hits[hit].from == i; hit++ {
		if next := m.phrase(r.seen.hits[hit]); next > i {
			return next
		}
	}
	if t.kind == number || t.low == ">" || t.low == "<" || t.low == "≥" || t.low == "≤" || t.low == "." || boundWord(t.low) || t.kind == word && saidStart(t.low) {
		if next := m.value(i); next > i {
			return next
		}
	}
	return i + 1
}

func boundWord(low string) bool {
	switch low {
	case "over", "under", "above", "below", "less", "more", "greater", "better", "better'n", "bettern", "at", "north":
		return true
	}
	return false
}

// setBetween keeps what the next value is measured between, or gives it to the value before:
// "121 V hot to ground".
func (m *meter) setBetween(i int, b string, next int) int {
	r := m.r
	after := m.lastEnd
	if low := r.low(after); after == i-1 && (low == "each" || low == "every" || low == "any" || low == "all") {
		after = i
	}
	if n := len(m.out); n > 0 && after == i && m.out[n-1].HasVal && m.out[n-1].Between == "" && (m.trails || !m.valueFollows(next)) {
		m.out[n-1].Between, m.trails = b, true
		_, m.out[n-1].End = r.piece(i, next)
		r.claimTokens(i, next)
		m.lastEnd = next
		return next
	}
	m.between, m.betweenT = b, i
	r.claimTokens(i, next)
	return next
}

// valueFollows reports whether a value starts at token i.
func (m *meter) valueFollows(i int) bool {
	r := m.r
	for n := 0; n < 2 && (r.low(i) == ":" || r.low(i) == "=" || r.low(i) == ">" || r.low(i) == "<"); n++ {
		i++
	}
	return r.isNumber(i)
}

// phrase reads results said in words.
func (m *meter) phrase(h hit) int {
	r := m.r
	switch h.sense {
	case readNoContinuity:
		m.result(h, "no continuity")
	case readContinuity:
		m.result(h, "continuity")
	case readSubject:
		if r.low(h.from) != "continuity" {
			return 0
		}
		return m.plainContinuity(h)
	case readOpen:
		if r.low(h.from) == "open" && !r.bold {
			return 0
		}
		m.result(h, "open")
	case readTrip:
		return m.trip(h)
	case readReset:
		if !m.aboutTest(h) {
			return 0
		}
		m.result(h, "reset")
	case readOK:
		if !m.aboutTest(h) || r.negatedWithin(h.from, 2) ||
			(r.low(h.from) == "verified" || r.low(h.from) == "confirmed") && (!r.endsClause(h.to) || h.from == 0) {
			return 0
		}
		m.result(h, "ok")
	case readFail:
		if !m.failCounts(h) {
			return 0
		}
		if r.negatedWithin(h.from, 1) {
			m.result(h, "ok") // "no open ground" was looked for and not found
			break
		}
		m.result(h, "fail")
	default:
		return 0
	}
	return h.to
}

// plainContinuity reads "continuity ok" and "continuity" in a text about tests.
func (m *meter) plainContinuity(h hit) int {
	r := m.r
	for i := h.to; i < min(len(r.toks), h.to+5); i++ {
		if r.isNumber(i) && i-h.to < 5 && !r.sentenceBetween(h.to, i) {
			if n, ok := r.num(i); ok {
				if unit, _ := r.unitAt(n.next, r.close(n.next)); unit != "" {
					return 0 // the value is the result
				}
			}
		}
		if i >= h.to+3 {
			continue
		}
		switch r.low(i) {
		case "ok", "good", "fine", "okay", "checked", "checks", "tested", "tests", "passed", "on", "test", "all":
			return 0
		}
	}
	if !r.bold || r.negatedWithin(h.from, 2) {
		return 0
	}
	m.result(h, "continuity")
	return h.to
}

// result adds a yes or no result.
func (m *meter) result(h hit, res string) {
	if n := len(m.out); n > 0 && !m.out[n-1].HasVal && m.out[n-1].Result == res && m.r.piece1(h.from)-m.out[n-1].End < 12 {
		return
	}
	v := notes.Measured{Result: res, Between: m.between}
	m.between = ""
	v.Start, v.End = m.r.piece(h.from, h.to)
	m.out = append(m.out, v)
}

func (r *reader) piece1(i int) int {
	start, _ := r.piece(i, i+1)
	return start
}

// aboutTest reports whether "ok" or "reset" is the result of a test: something that is tested by
// yes or no, or the word test, stands in the same sentence before it.
func (m *meter) aboutTest(h hit) bool {
	r := m.r
	if h.to-h.from > 1 && (strings.HasPrefix(r.low(h.from), "test") || strings.HasPrefix(r.low(h.from), "check") || strings.HasPrefix(r.low(h.from), "meg")) {
		return true
	}
	if m.tripped || len(m.out) > 0 && m.lastEnd > 0 && h.from-m.lastEnd <= 4 {
		return true
	}
	if r.bold {
		return true
	}
	for _, k := range r.near(h.from-12, h.from) {
		if h.from-k.to > 6 {
			continue
		}
		switch k.sense {
		case readSubject:
			if r.low(k.from) != "test" || h.from-k.to <= 2 {
				return !r.sentenceBetween(k.to, h.from) && !r.installed(k.from)
			}
		case readWord:
			switch r.low(k.from) {
			case "tested", "test", "tests", "checked", "torqued":
				if !r.sentenceBetween(k.to, h.from) {
					return true
				}
			}
		}
	}
	return false
}

// installed reports whether the device at token i was fitted here, so that "ok" may be a
// customer's.
func (r *reader) installed(i int) bool {
	for j := max(0, i-4); j < i; j++ {
		switch r.low(j) {
		case "installed", "added", "wants", "asked", "quoted", "replace", "install", "add", "said":
			return true
		}
	}
	return false
}

// sentenceBetween reports whether a sentence ends between two tokens.
func (r *reader) sentenceBetween(from, to int) bool {
	for i := from; i < to; i++ {
		if r.low(i) == ";" || r.low(i) == "." && r.sentenceEnds(i) {
			return true
		}
	}
	return false
}

// failCounts reports whether a word of failure is a test result.
func (m *meter) failCounts(h hit) bool {
	r := m.r
	if h.to-h.from > 1 && (strings.HasSuffix(r.low(h.to-1), "trip") || r.low(h.to-1) == "reset" || strings.HasPrefix(r.low(h.from), "test") || r.low(h.to-1) == "test") {
		return true
	}
	switch r.low(h.from) {
	case "bad", "wrong", "reversed", "incorrect":
		return r.bold && m.aboutTest(h) && len(r.toks) <= 6 || r.bold && r.low(h.from-1) == "tests"
	}
	return m.aboutTest(h)
}

// trip reads "tripped at 5.1 mA" and "trips and resets". "Trip" alone is a journey.
func (m *meter) trip(h hit) int {
	r := m.r
	last := r.low(h.to - 1)
	if n := len(m.out); n > 0 && m.lastEnd == h.from && m.out[n-1].Unit == "mA" && m.out[n-1].Result == "" && !m.valueSoon(h.to) {
		m.out[n-1].Result = "tripped" // "5.0 mA trip"
		_, m.out[n-1].End = r.piece(h.from, h.to)
		m.tripped, m.tripAt = true, -1
		return h.to
	}
	if last == "trip" && !r.bold && !m.valueSoon(h.to) {
		return 0
	}
	if r.negatedWithin(h.from, 2) {
		return 0
	}
	if m.valueSoon(h.to) {
		m.tripped, m.tripAt = true, h.from
		return h.to
	}
	if r.resetSoon(h.to) || r.bold || m.testedDevice(h.from) {
		m.result(h, "tripped")
		m.tripped = true
		return h.to
	}
	return 0
}

// testedDevice reports whether a device that trips in a test stands before token i.
func (m *meter) testedDevice(i int) bool {
	r := m.r
	for j := max(0, i-5); j < i; j++ {
		switch r.low(j) {
		case "keeps", "kept", "breaker", "main", "always":
			return false
		}
	}
	for j := i; j < min(len(r.toks), i+8) && !r.sentenceBetween(i, j); j++ {
		switch r.low(j) {
		case "tester", "button", "test":
			return true
		}
	}
	return false
}

// resetSoon reports whether "reset" follows token i.
func (r *reader) resetSoon(i int) bool {
	for j := i; j < min(len(r.toks), i+4); j++ {
		if strings.HasPrefix(r.low(j), "reset") {
			return !r.negatedWithin(j, 1)
		}
	}
	return false
}

// valueSoon reports whether a value in mA, ms or s follows token i.
func (m *meter) valueSoon(i int) bool {
	r := m.r
	for n := 0; n < 3 && i < len(r.toks) && !r.isNumber(i) && r.toks[i].low != ","; n++ {
		i++
	}
	n, ok := r.num(i)
	if !ok {
		return false
	}
	switch unit, _ := r.unitAt(n.next, true); unit {
	case "mA", "ms", "s", "A":
		return true
	}
	return false
}
