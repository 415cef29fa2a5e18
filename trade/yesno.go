package trade

import (
	"strings"

	"jobday/notes"
)

// A yesNo is a test whose result is a word: what tells it and what a good result shows.
type yesNo struct {
	name, rule string
	stems      []string
}

// yesNoTests are tried in order. Rules: the trip button is the test of record where a plug-in
// tester has no ground (from memory); polarity NEC 200.11 (from memory).
var yesNoTests = []yesNo{
	{"GFCI trip", "trip button or tester, yes or no; " + ruleGFCI, gfciWords},
	{"AFCI trip", "trip button, yes or no (from memory)", []string{"afci", "afi", "cafi", "arc", "arcfault", "dual"}},
	{"rotation", "direction of turning, yes or no (common practice, no source)", []string{"rotation", "phasing", "sequenc", "rotat"}},
	{"polarity", "NEC 200.11 (from memory)", []string{"polarity", "reversed", "revers", "wired", "tester", "swap", "plug"}},
	{"continuity", "an unbroken path, yes or no (common practice, no source)", []string{"continuity", "continu", "cont"}},
	{"polarity", "NEC 200.11 (from memory)", []string{"recept", "receptacl", "outlet"}},
	{"function", "function test, yes or no (common practice, no source)",
		[]string{"smok", "alarm", "emergency", "egress", "exit", "interlock", "transfer", "horn", "strob", "detector", "button", "trip", "estop", "shunt"}},
}

// judgeYesNo judges a bare result: "GFI ok", "no continuity", "rotation reversed". Measured says
// whether figures were judged already: then only a bad result adds anything.
func judgeYesNo(t *test, measured bool) (Verdict, bool) {
	good, bad := t.results()
	if !good && !bad {
		return Verdict{}, false
	}
	kind, known := t.yesNoKind()
	v := Verdict{What: kind.name, Rule: kind.rule}
	switch {
	case bad && kind.name == "continuity" && t.isolation():
		v.Verdict, v.Why = notes.Recorded, "no path between live parts and ground or neutral is what is wanted; a figure would show it"
	case bad:
		v.Verdict, v.Limit, v.Why = notes.Outside, kind.passes(), "reported as not passed"
	case measured:
		return Verdict{}, false
	case known:
		v.Verdict, v.Limit, v.Why = notes.Within, kind.passes(), "reported as passed; a yes or no, without a figure"
	default:
		v.Verdict, v.Why = notes.Recorded, "somebody's word; write the reading to have it judged"
	}
	return v, true
}

func (k yesNo) passes() string {
	if k.name == "" {
		return ""
	}
	return "passes"
}

// yesNoKind finds which yes/no test the words are about.
func (t *test) yesNoKind() (yesNo, bool) {
	for _, k := range yesNoTests {
		if t.has(k.stems...) {
			return k, true
		}
	}
	for _, m := range t.readings {
		switch m.Result {
		case "continuity", "no continuity":
			return yesNoTests[4], true
		}
	}
	for _, part := range []string{"ground", "neutral", "hot"} {
		if t.says("open", part) {
			return yesNoTests[3], true
		}
	}
	return yesNo{}, false
}

// isolation reports whether continuity was looked for where there must be none.
func (t *test) isolation() bool {
	return t.has("hot", "phas", "l1", "l2", "l", "lin", "line", "between") && t.has("ground", "neutral", "g", "n", "between") && !t.has("egc", "bond")
}

var (
	saysNot  = setOf("no", "not", "won't", "wont", "didn't", "didnt", "doesn't", "doesnt", "never", "isn't", "can't", "cannot", "nothing", "wouldn't", "without", "none")
	saysGood = setOf("ok", "okay", "good", "pas", "pass", "trip", "reset", "correct", "match", "work", "normal", "fin", "verify", "continuity", "function")
	saysBad  = setOf("fail", "failed", "bad", "revers", "reversed", "wrong", "defectiv", "dead", "stuck", "backward", "swap", "swapped", "open", "failur", "broken", "faulty", "inoperativ", "nfg")
	saysNow  = setOf("now", "retest", "replac", "swapped", "fixed", "correct", "corrected", "repair", "after", "then", "rewir", "again")
)

// results reports whether the words and bare results say good or bad. A good result after a
// repair ("failed, replaced, retest ok") outweighs the bad one before it.
func (t *test) results() (good, bad bool) {
	after := false // a repair stands between the bad result and here
	for i, j := range t.jots {
		denied := t.deniedAt(i)
		switch {
		case j.stem == "rev" && t.has("polarity", "pol"):
			bad, after = !denied, false
			good = good || denied
		case saysGood[j.stem] && denied:
			bad, after = true, false
		case (j.stem == "swap" || j.stem == "swapped") && !t.has("hot", "neut", "neutral", "polarity", "leg", "phas", "lead", "line", "wire", "wir"):
			// a thing was changed for another
		case j.stem == "dead" && (t.measures("V") || t.has("voltag", "loto", "lockout", "absenc", "feed", "conductor", "wir", "wire", "abandon", "disconnect")):
			// "tested dead" is what a voltage was read for
		case saysBad[j.stem] && denied:
			good = true
		case saysBad[j.stem] && !(j.stem == "open" && !t.opens(i)):
			bad, after = true, false
		case saysNow[j.stem] && bad:
			after = true
		case saysGood[j.stem] && !t.namesTest(j):
			good = true
			if after {
				bad = false
			}
		}
	}
	if after && good && !bad {
		return good, false
	}
	for _, m := range t.readings {
		switch m.Result {
		case "ok", "tripped", "reset", "continuity", "pass":
			good = true
		case "fail", "no continuity", "open":
			bad = bad || !t.mended()
		}
	}
	return good, bad
}

// namesTest reports whether a word only names the test: "trip 5 mA", "continuity 0.3 ohm".
func (t *test) namesTest(j jot) bool {
	return j.stem == "continuity" || j.stem == "trip" && j.end-j.start == len("trip")
}

// mended reports whether the text says that what failed was put right and passed.
func (t *test) mended() bool {
	for i := len(t.jots) - 1; i > 0; i-- {
		if saysBad[t.jots[i].stem] {
			return false
		}
		if saysGood[t.jots[i].stem] && !t.deniedAt(i) {
			for _, j := range t.jots[:i] {
				if saysNow[j.stem] {
					return true
				}
			}
			return false
		}
	}
	return false
}

// opens reports whether the "open" at i is a fault: an open ground, neutral, hot or circuit.
func (t *test) opens(i int) bool {
	if i+1 == len(t.jots) {
		return true
	}
	switch t.jots[i+1].stem {
	case "ground", "neutral", "hot", "circuit", "leg", "phas", "gnd", "neut":
		return true
	}
	return strings.HasPrefix(strings.TrimSpace(t.text[t.jots[i].end:]), ",")
}

// deniedAt reports whether one of the two words before i that carry meaning says no to it.
func (t *test) deniedAt(i int) bool {
	for n, k := 0, i-1; k >= 0 && n < 2; k-- {
		if saysNot[t.jots[k].stem] {
			return t.jots[k].clause == t.jots[i].clause && t.jots[k].comma == t.jots[i].comma
		}
		if !t.jots[k].filler {
			n++
		}
	}
	return false
}
