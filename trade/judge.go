package trade

import (
	"strconv"
	"strings"

	"jobday/notes"
)

// Verdict is what the readings of one test say against the limits the trade knows.
//
// Outside: a reading does not meet its limit, known here or stated in the text, or the words say that
// something failed.
// Within: every reading that has a limit meets it; or a yes/no test (trip button, polarity,
// continuity, rotation, a function test) is reported good; or the text says that what is required is
// met. It never means safe.
// Recorded: no limit is known, the limit depends on what is not written, or somebody's bare word
// ("tests good") stands where a figure is wanted.
type Verdict struct {
	What       string // what was tested: the words before the first reading, or the kind of test; "" when unknown
	Kind       string // the kind of test: "voltage", "GFCI trip"; "" when unknown
	Verdict    notes.Verdict
	Limit      string // the limit with its unit, or ""
	Rule       string // where the limit comes from, with "checked" or "from memory"
	Why        string // the reading held against the limit
	Caution    string
	Impossible string // why a reading cannot be right; the verdict is then Recorded
}

// Judge says what the readings of a test mean. What is the entry's text: its words say what kind
// of test it was. Readings are in the order written; pieces, where set, count from the start of
// what. It never fails; a text without any test gives Recorded.
func Judge(what string, readings []notes.Measured) Verdict {
	t := newTest(what, readings)
	var parts []Verdict
	for _, judge := range []func(*test) (Verdict, bool){
		judgeMisfit, judgeStated, judgeClaim, judgeDrop, judgeGFCI, judgeInsulation, judgeElectrode, judgePath, judgeVoltage, judgeUnbalance, judgeCurrents, judgeTorque, judgeTemperature, judgeLasted,
	} {
		if v, ok := judge(t); ok {
			parts = append(parts, v)
		}
	}
	if v, ok := judgeYesNo(t, len(parts) > 0); ok {
		parts = append(parts, v)
	}
	if v, ok := judgeRest(t); ok {
		parts = append(parts, v)
	}
	v := together(parts)
	if v.Verdict == "" {
		v.Verdict, v.Why = notes.Recorded, "no reading or result was recognized"
	}
	v.Kind = v.What
	if before := t.subject(); before != "" {
		v.What = before
	}
	if v.Caution == "" {
		v.Caution = TestCaution()
	}
	return v
}

// together joins the parts of one entry: the worst verdict counts.
func together(parts []Verdict) Verdict {
	var all Verdict
	for i, p := range parts {
		if i == 0 {
			all = p
			continue
		}
		all.Verdict = worse(all.Verdict, p.Verdict)
		all.What = join(all.What, p.What, ", ")
		all.Limit = join(all.Limit, p.Limit, "; ")
		all.Rule = join(all.Rule, p.Rule, "; ")
		all.Why = join(all.Why, p.Why, "; ")
		all.Caution = join(all.Caution, p.Caution, " ")
		all.Impossible = join(all.Impossible, p.Impossible, "; ")
	}
	if all.Impossible != "" && all.Verdict == notes.Within {
		all.Verdict = notes.Recorded
	}
	return all
}

func worse(a, b notes.Verdict) notes.Verdict {
	switch {
	case a == notes.Outside || b == notes.Outside:
		return notes.Outside
	case a == notes.Within || b == notes.Within:
		return notes.Within
	}
	return notes.Recorded
}

func join(a, b, sep string) string {
	if a == "" || b == "" || a == b {
		return a + strings.TrimPrefix(b, a)
	}
	return a + sep + b
}

// A test is one entry under judgment.
type test struct {
	text     string
	jots     []jot
	words    map[string]bool // stems
	readings []notes.Measured
	taken    []bool // readings a judge has dealt with
	held     []bool // readings that were held against a limit the text states
}

func newTest(what string, readings []notes.Measured) *test {
	t := &test{text: what, jots: jots(what), words: map[string]bool{}, readings: readings, taken: make([]bool, len(readings)), held: make([]bool, len(readings))}
	for _, j := range t.jots {
		t.words[j.stem] = true
	}
	return t
}

// has reports whether one of the words stands in the text; words are stems.
func (t *test) has(stems ...string) bool {
	for _, s := range stems {
		if t.words[s] {
			return true
		}
	}
	return false
}

// says reports whether the stems stand in the text one after the other.
func (t *test) says(stems ...string) bool {
	for i := 0; i+len(stems) <= len(t.jots); i++ {
		n := 0
		for n < len(stems) && t.jots[i+n].stem == stems[n] {
			n++
		}
		if n == len(stems) {
			return true
		}
	}
	return false
}

// take returns the readings with a value in one of the units and marks them as dealt with.
func (t *test) take(units ...string) []notes.Measured {
	var out []notes.Measured
	for i, m := range t.readings {
		for _, u := range units {
			if !t.taken[i] && m.HasVal && m.Unit == u {
				t.taken[i] = true
				out = append(out, m)
			}
		}
	}
	return out
}

// measures reports whether a reading has one of the units.
func (t *test) measures(units ...string) bool {
	for _, m := range t.readings {
		for _, u := range units {
			if m.HasVal && m.Unit == u {
				return true
			}
		}
	}
	return false
}

// subject is what stands before a colon ahead of the first reading: "GFCI prep counter left".
func (t *test) subject() string {
	colon := strings.Index(t.text, ":")
	if colon < 1 || colon > 60 || colon+1 < len(t.text) && t.text[colon+1] != ' ' {
		return ""
	}
	for _, m := range t.readings {
		if m.Found() && m.HasVal && m.Start < colon {
			return ""
		}
	}
	return strings.TrimSpace(t.text[:colon])
}

// shown writes a reading with its bound, unit and where it was taken: "L1-N 121.4 V".
func shown(m notes.Measured) string {
	s := m.Op + m.Value.String() + " " + m.Unit
	if m.Between != "" {
		s = m.Between + " " + s
	}
	return s
}

// An answer says whether a reading meets a limit; a bound may leave it open.
type answer int

const (
	open answer = iota
	meets
	fails
)

// atMost holds a reading against an upper limit. "<30" meets 30 and leaves 20 open.
func atMost(m notes.Measured, limit notes.Decimal) answer {
	c := m.Value.Cmp(limit)
	switch {
	case m.Op == "<" && c > 0, m.Op == ">" && c < 0:
		return open
	case m.Op == ">":
		return fails
	case c <= 0:
		return meets
	}
	return fails
}

// atLeast holds a reading against a lower limit. ">500" meets 500 and leaves 600 open.
func atLeast(m notes.Measured, limit notes.Decimal) answer {
	c := m.Value.Cmp(limit)
	switch {
	case m.Op == ">" && c < 0, m.Op == "<" && c > 0:
		return open
	case m.Op == "<":
		return fails
	case c >= 0:
		return meets
	}
	return fails
}

// verdictOf turns an answer into a verdict.
func verdictOf(a answer) notes.Verdict {
	switch a {
	case meets:
		return notes.Within
	case fails:
		return notes.Outside
	}
	return notes.Recorded
}

// mostOfRating is how many times its rating a circuit may be read to carry before the figure is a slip: at ten
// times any breaker opens at once (common practice, no source).
const mostOfRating = 10

// statedAmps is the rating a text gives its circuit: "on the 20 A circuit"; 0 when it gives none.
func (t *test) statedAmps() int {
	for i, j := range t.jots {
		n, ok := wholeNumber(j.stem)
		if ok && i+2 < len(t.jots) && (t.jots[i+1].stem == "a" || t.jots[i+1].stem == "amp") {
			switch t.jots[i+2].stem {
			case "circuit", "ckt", "feeder", "breaker", "brkr", "branch":
				return n
			}
		}
	}
	return 0
}

// mayBeNegative reports whether a reading in the unit may be below zero: heat, and power sent back.
func mayBeNegative(unit string) bool {
	return unit == "degC" || unit == "degF" || unit == "W" || unit == "kW" || unit == "%"
}

// direct reports whether the text speaks of direct current, which has a sign.
func (t *test) direct() bool {
	return t.has("dc", "vdc", "pv", "solar", "battery", "adc", "voc", "string", "modul", "batt")
}

// judgeRest names readings nothing here has a limit for.
func judgeRest(t *test) (Verdict, bool) {
	var list []string
	for i, m := range t.readings {
		if !t.taken[i] && m.HasVal {
			if m.Value.Sign() < 0 && !mayBeNegative(m.Unit) && !t.direct() {
				return impossible(shown(m) + " cannot be: it is below nothing"), true
			}
			if r := t.statedAmps(); r > 0 && m.Unit == "A" && m.Value.Cmp(notes.Int(mostOfRating*r)) > 0 && !t.has("inrush", "start", "fault", "short") {
				return impossible(shown(m) + " cannot run on a " + strconv.Itoa(r) + " A circuit"), true
			}
			if !t.held[i] {
				list = append(list, shown(m))
			}
		}
	}
	if list == nil {
		return Verdict{}, false
	}
	return Verdict{Verdict: notes.Recorded, Why: strings.Join(list, ", ") + ": no limit is known here"}, true
}
