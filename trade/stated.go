package trade

import (
	"slices"
	"strings"

	"jobday/notes"
)

// A direction says on which side of a stated limit a reading has to be.
type direction int

const (
	byUnit direction = iota // the word only asks; what is measured says which side
	upper
	lower
)

// A stated is a limit the text itself gives: "minimum is 0.5", "FLA 4.8", "spec asks 30".
type stated struct {
	figure statedFigure
	from   int // the jot that announces it
	to     int // the jot behind the figure
	dir    direction
	unit   string // as written behind the figure, in the spelling of readings; "" when none is
	amps   bool   // what a plate gives: full load current
	ranged bool   // the figure is the least, high the most: "should be 24 to 28"
	high   statedFigure

	tolerance bool // the range was told as a figure and how far off it may be
}

var (
	mostWords   = setOf("max", "maximum", "limit", "allow")
	leastWords  = setOf("min", "minimum", "least")
	askWords    = setOf("spec", "specification", "requir", "requirement", "ask", "asked", "call", "want", "need", "target", "should", "supposed", "must", "cod")
	rangeWords  = setOf("normal", "rang") // they state a limit only by two figures
	plateWords  = setOf("fla", "rla", "flc", "mca", "nameplat", "plat", "np")
	wantedWords = setOf("normal", "nominal", "usual", "spec", "rate", "design", "should", "limit", "label", "plat")
	// what may stand between the word and its figure
	statedBetween = setOf("say", "said", "stay", "giv", "show", "read", "allow", "only", "about", "than", "no", "not", "out", "list", "rate", "rat", "current",
		"full", "load", "amp", "a", "limit", "valu", "value", "minimum", "min", "maximum", "max", "least", "mor", "less", "under", "below", "over", "abov", "most", "up", "exc", "between", "from")
)

// statedLimits finds the limits a text gives, in the order written.
func (t *test) statedLimits() []stated {
	var list []stated
	for i, j := range t.jots {
		s := stated{from: i}
		switch {
		case mostWords[j.stem]:
			s.dir = upper
		case t.bounds(i, &s):
		case j.stem == "min" && i > 0 && isDigit(t.jots[i-1].stem[0]):
			continue // minutes
		case leastWords[j.stem]:
			s.dir = lower
		case plateWords[j.stem]:
			s.dir, s.amps = upper, true
		case askWords[j.stem], rangeWords[j.stem]:
		case j.stem == "against" && t.measures("A") && i+1 < len(t.jots) && isDigit(t.jots[i+1].stem[0]): // "draws 9 A against 2.5"
			s.dir = upper
		default:
			continue
		}
		if n := len(list); n > 0 && i <= list[n-1].to {
			continue // "spec minimum 30" is one limit
		}
		if s.amps || s.dir == byUnit {
			if !t.limitBehind(&s, furthest) && !t.limitBefore(&s) {
				continue
			}
		} else if !t.limitBehind(&s, 2) && !t.limitBefore(&s) && !t.limitBehind(&s, furthest) {
			continue // "25 ohm max, got 31" states what stands before
		}
		list = append(list, s)
	}
	return list
}

// bounds reads a bound at jot i that no other word announces: "no more than 5", "not to exceed 5".
func (t *test) bounds(i int, s *stated) bool {
	if i == 0 {
		return false
	}
	before := t.jots[i-1].stem
	switch j := t.jots[i].stem; {
	case j == "mor" && (before == "no" || before == "not"), j == "most" && before == "at", j == "exc": // "exceed"
		s.dir = upper
	case j == "less" && (before == "no" || before == "not"):
		s.dir = lower
	default:
		return false
	}
	return true
}

// furthest is how many words may stand between a limit's figure and the word that announces it.
const furthest = 6

// limitBehind reads the figure behind the word that announces it, and the words between that say which
// side is meant: "spec asks at least 30", "should be under 25".
func (t *test) limitBehind(s *stated, reach int) bool {
	at := t.jots[s.from]
	not := false
	for k := s.from + 1; k < len(t.jots) && k <= s.from+reach; k++ {
		j := t.jots[k]
		if j.clause != at.clause || j.comma > at.comma+1 || reach < furthest && j.comma != at.comma {
			return false
		}
		if v, next, ok := t.figureAt(k); ok {
			s.figure, s.to = v, next
			t.rangeTo(s)
			if s.tolerance {
				return true
			}
			s.unit = t.unitOfJot(s.to)
			return (s.ranged || !rangeWords[at.stem]) && (s.unit != "" || t.endsFigure(s.to))
		}
		switch j.stem {
		case "no", "not":
			not = true
		case "min", "minimum", "least", "over", "abov", "mor":
			s.dir = side(lower, not)
		case "max", "maximum", "most", "under", "below", "less", "limit":
			s.dir = side(upper, not)
		case "exc": // "not to exceed"
			s.dir = upper
		}
		if !j.filler && !statedBetween[j.stem] && !askWords[j.stem] && !plateWords[j.stem] {
			return false
		}
	}
	return false
}

// rangeTo reads the upper end of a range behind its lower one: "24 to 28", "110-126", "between 4 and 6".
func (t *test) rangeTo(s *stated) {
	k := s.to
	if k >= len(t.jots) || t.toleranceBehind(s) {
		return
	}
	switch mark := strings.TrimSpace(t.text[s.figure.End:t.jots[k].start]); {
	case mark == "-" || mark == "–":
	case mark == "" && (t.jots[k].stem == "to" || t.jots[k].stem == "and" && t.has("between")):
		k++
	default:
		return
	}
	if k >= len(t.jots) {
		return
	}
	if v, next, ok := t.figureAt(k); ok && v.value.Cmp(s.figure.value) > 0 {
		s.high, s.to, s.ranged = v, next, true
	}
}

// endsFigure reports whether what stands at jot k does not make the figure before it a count: "they want 2
// more lights" states no limit.
func (t *test) endsFigure(k int) bool {
	if k >= len(t.jots) {
		return true
	}
	switch j, last := t.jots[k], t.jots[k-1]; {
	case j.clause != last.clause, j.comma != last.comma, strings.ContainsAny(t.text[last.end:j.start], "/-"):
		return true
	default:
		return j.filler || statedBetween[j.stem] && j.stem != "mor" && j.stem != "less" || askWords[j.stem] || j.stem == "averag" || j.stem == "so" || j.stem == "then"
	}
}

// side turns a direction round where "no more than" stands for at most.
func side(d direction, not bool) direction {
	if !not {
		return d
	}
	return upper + lower - d
}

// limitBefore reads the figure right before its word: "30 fc minimum", "25 ohm max", "4.8 FLA".
func (t *test) limitBefore(s *stated) bool {
	if at := t.jots[s.from].stem; s.dir == byUnit && !((at == "requir" || at == "required") && t.clauseEnds(s.from+1)) {
		return false
	}
	for k := s.from - 1; k >= 0 && k >= s.from-4; k-- {
		if t.jots[k].clause != t.jots[s.from].clause || t.jots[k].comma != t.jots[s.from].comma {
			return false
		}
		v, next, ok := t.figureAt(k)
		if !ok || next > s.from {
			continue
		}
		if next < s.from && (t.unitOfJot(next) == "" || t.unitEnd(next) < s.from) {
			return false
		}
		for k > 0 && t.jots[k-1].end == t.jots[k].start-1 && t.text[t.jots[k-1].end] == '.' { // the digits before the point
			k--
			if v, _, ok = t.figureAt(k); !ok {
				return false
			}
		}
		s.figure, s.to, s.unit = v, s.from, t.unitOfJot(next)
		return true
	}
	return false
}

// figureAt reads the number at jot k, in digits or words, and returns the jot behind it.
func (t *test) figureAt(k int) (statedFigure, int, bool) {
	j := t.jots[k]
	if isDigit(j.stem[0]) {
		end := digitsEnd(t.text, j.start)
		next := k + 1
		for next < len(t.jots) && t.jots[next].start < end {
			next++
		}
		start := j.start
		if start > 0 && t.text[start-1] == '.' && (start == 1 || t.text[start-2] == ' ') {
			start-- // ".5"
		}
		d, err := notes.ParseDecimal(t.text[start:end])
		return statedFigure{notes.Piece{Start: start, End: end}, d}, next, err == nil
	}
	n, next := t.saidNumber(k)
	if next == k {
		return statedFigure{}, k, false
	}
	return statedFigure{notes.Piece{Start: j.start, End: t.jots[next-1].end}, notes.Int(n)}, next, true
}

// numberWords are the words a figure is said with, by their stems.
var numberWords = func() map[string]int {
	m := map[string]int{}
	for i, w := range strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen") {
		m[stem(w)] = i
	}
	for i, w := range strings.Fields("twenty thirty forty fifty sixty seventy eighty ninety") {
		m[stem(w)] = 20 + 10*i
	}
	return m
}()

// saidNumber reads a whole number in words from jot k on: "twenty six", "two hundred fifty". It returns k
// when there is none.
func (t *test) saidNumber(k int) (n, next int) {
	next = k
	for next < len(t.jots) && next < k+5 {
		j := t.jots[next]
		w, ok := numberWords[j.stem]
		switch {
		case ok && n%10 == 0 && (n == 0 || w < 10 && n%100 != 0 || n%100 == 0 && w > 0):
			n += w
		case j.stem == stem("hundred") && n > 0 && n < 100:
			n *= 100
		case j.stem == stem("thousand") && n > 0 && n < 1000:
			n *= 1000
		default:
			return n, next
		}
		next++
	}
	return n, next
}

// unitOfJot returns the unit the word at jot k writes, as readings spell it.
func (t *test) unitOfJot(k int) string {
	if k >= len(t.jots) {
		if end := len(strings.TrimRight(t.text, " .")); end > 0 && t.text[end-1] == '%' {
			return "%"
		}
		return ""
	}
	if k > 0 && strings.HasPrefix(strings.TrimLeft(t.text[t.jots[k-1].end:], " "), "%") {
		return "%"
	}
	switch j := t.jots[k]; j.stem {
	case "v", "volt":
		return "V"
	case "a", "amp", "amper":
		return "A"
	case "ma", "milliamp":
		return "mA"
	case "mv", "millivolt":
		return "mV"
	case "ohm", "ω":
		return "ohm"
	case "meg", "megohm", "mohm", "mega":
		return "Mohm"
	case "fc", "foot", "footcandl":
		return "fc"
	case "hz", "hertz":
		return "Hz"
	case "kw":
		return "kW"
	case "w", "watt":
		return "W"
	case "db", "dba":
		return "dB"
	case "lx", "lux":
		return "lx"
	case "percent":
		return "%"
	case "m", "min", "minut", "hr", "h", "hour", "day", "ft", "feet", "psi", "rpm":
		return "other"
	}
	return ""
}

// unitEnd returns the jot behind the unit at jot k.
func (t *test) unitEnd(k int) int {
	if t.jots[k].stem == "foot" && k+1 < len(t.jots) && strings.HasPrefix(t.jots[k+1].stem, "candl") {
		return k + 2
	}
	return k + 1
}

// sideOf is on which side of a value that is asked for a reading in the unit has to be: light, insulation
// and sound are asked for at least, resistance, current, a drop and heat at most.
func sideOf(unit string) direction {
	switch unit {
	case "fc", "lx", "Mohm", "Gohm", "dB":
		return lower
	case "ohm", "kohm", "A", "mA", "mV", "%", "ms", "s", "degC", "degF":
		return upper
	}
	return byUnit
}

// judgeStated holds readings against the limits the text itself states. A torque has no side; judgeTorque
// holds it.
func judgeStated(t *test) (Verdict, bool) {
	var parts []Verdict
	for _, s := range t.statedLimits() {
		for i, m := range t.readings {
			if s.states(m) {
				t.taken[i] = true // the limit is no reading
			}
		}
		for _, m := range t.heldBy(s) {
			if v, ok := s.hold(m); ok {
				parts = append(parts, v)
				t.markHeld(m)
			}
		}
	}
	if parts == nil {
		return Verdict{}, false
	}
	return together(parts), true
}

// states reports whether what was taken for a reading is the limit itself.
func (s stated) states(m notes.Measured) bool {
	return m.HasVal && m.Found() && (s.figure.Start >= m.Start && s.figure.Start < m.End || s.ranged && s.high.Start >= m.Start && s.high.Start < m.End)
}

// markHeld notes that a reading was held against a limit, so that no judge calls it one without.
func (t *test) markHeld(m notes.Measured) {
	for i := range t.readings {
		if t.readings[i].Piece == m.Piece && t.readings[i].Unit == m.Unit {
			t.held[i] = true
		}
	}
}

// heldBy returns the readings a stated limit is for: those in its unit, else in the unit of the reading
// nearest before it, else of the first.
func (t *test) heldBy(s stated) []notes.Measured {
	unit := s.unit
	var list []notes.Measured
	for _, m := range t.readings {
		if !m.HasVal || s.states(m) {
			continue
		}
		list = append(list, m)
	}
	if s.amps && unit == "" {
		unit = "A"
	}
	if unit == "" {
		for _, m := range list {
			if unit == "" || m.Start < t.jots[s.from].start {
				unit = m.Unit
			}
		}
	}
	if list == nil && (unit == "" || s.amps) {
		return t.bareReading(s)
	}
	return slices.DeleteFunc(list, func(m notes.Measured) bool { return m.Unit != unit })
}

// bareReading is the figure without a unit that the text says something reads, before the limit: "phase B
// is 108, minimum 110".
func (t *test) bareReading(s stated) []notes.Measured {
	for k := s.from - 1; k > 0; k-- {
		switch t.jots[k-1].stem {
		case "is", "wa", "was", "read", "got", "measur", "only", "tak", "pull", "draw":
		default:
			continue
		}
		if k > 1 && wantedWords[t.jots[k-2].stem] {
			continue // "normal is 115"
		}
		if v, next, ok := t.figureAt(k); ok && next <= s.from && (next == len(t.jots) || t.unitOfJot(next) == "") {
			return []notes.Measured{{Value: v.value, HasVal: true, Piece: v.Piece}}
		}
	}
	return nil
}

// hold holds one reading against the limit.
func (s stated) hold(m notes.Measured) (Verdict, bool) {
	dir := s.dir
	switch m.Unit {
	case "in-lb", "ft-lb", "N-m":
		return Verdict{}, false
	}
	if s.ranged {
		return s.holdRange(m), true
	}
	if dir == byUnit {
		dir = sideOf(m.Unit)
	}
	if s.amps && m.Unit != "A" && m.Unit != "" {
		return Verdict{}, false
	}
	limit := s.figure.value.String()
	if m.Unit != "" {
		limit += " " + m.Unit
	}
	v := Verdict{Rule: "the limit the note states"}
	var a answer
	met, missed := "", ""
	switch dir {
	case upper:
		v.Limit, met, missed = "at most "+limit+", as stated in the note", " is at most ", " is more than "
		a = atMost(m, s.figure.value)
	case lower:
		v.Limit, met, missed = "at least "+limit+", as stated in the note", " is at least ", " is less than "
		a = atLeast(m, s.figure.value)
	default:
		return Verdict{}, false
	}
	v.Verdict = verdictOf(a)
	v.Why = strings.TrimSpace(shown(m)) + map[notes.Verdict]string{
		notes.Within: met, notes.Outside: missed, notes.Recorded: " is only a bound beside ",
	}[v.Verdict] + "the " + limit + " the note states"
	return v, true
}

// holdRange holds one reading against a stated range.
func (s stated) holdRange(m notes.Measured) Verdict {
	limit := strings.TrimSpace(s.figure.value.String() + " to " + s.high.value.String() + " " + m.Unit)
	v := Verdict{Rule: "the limit the note states", Limit: limit + ", as stated in the note"}
	low, high := atLeast(m, s.figure.value), atMost(m, s.high.value)
	how := " is only a bound beside "
	switch v.Verdict = notes.Recorded; {
	case low == fails || high == fails:
		v.Verdict, how = notes.Outside, " is outside "
	case low == meets && high == meets:
		v.Verdict, how = notes.Within, " is within "
	}
	v.Why = strings.TrimSpace(shown(m)) + how + "the " + limit + " the note states"
	return v
}
