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
		[]string{"smok", "alarm", "emergency", "egress", "exit", "interlock", "transfer", "horn", "strob", "detector", "button", "trip", "estop", "shunt",
			"em", "pack", "station", "rop", "cord", "photocell", "vacancy", "occ", "occupancy", "sensor", "dimmer", "dim", "float", "reader", "card", "badg", "jack", "cat",
			"fiber", "ats", "xfer", "generator", "gen", "genset", "duct", "maglock", "loop", "bell", "beacon", "interlocked", "timer", "probe", "relay", "micro", "contactor",
			"press", "push", "work", "delay"}},
}

// judgeYesNo judges a bare result: "GFI ok", "no continuity", "rotation reversed". Measured says
// whether figures were judged already: then only a bad result adds anything.
func judgeYesNo(t *test, measured bool) (Verdict, bool) {
	good, bad, acted := t.results()
	if !good && !bad {
		return Verdict{}, false
	}
	kind, known := t.yesNoKind()
	if !known && acted {
		kind, known = yesNoTests[len(yesNoTests)-1], true
	}
	if known && kind.name == "function" && !acted && t.wantsFigure() {
		known = false
	}
	v := Verdict{What: kind.name, Rule: kind.rule}
	switch {
	case bad && kind.name == "continuity" && t.isolation():
		v.Verdict, v.Why = notes.Recorded, "no path between live parts and ground or neutral is what is wanted; a figure would show it"
	case bad:
		v.Verdict, v.Limit, v.Why = notes.Outside, kind.passes(), "reported as not passed"
	case measured:
		return Verdict{}, false
	case !known && t.valued() && t.has("pass"):
		v.Verdict, v.Why = notes.Within, "reported as passed beside its figure"
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
	saysNot = setOf("no", "not", "won't", "wont", "didn't", "didnt", "doesn't", "doesnt", "never", "isn't", "can't", "cannot", "noth", "wouldn't", "without", "none",
		"don't", "dont", "isnt", "wasn't", "aren't", "couldn't", "neither", "nor")
	saysGood = setOf("ok", "okay", "good", "pas", "pass", "trip", "reset", "correct", "match", "work", "normal", "fin", "verify", "continuity", "function", "correctly",
		"clean", "smooth", "cleanly", "smoothly", "perfect", "accept", "accepted", "satisfi", "satisfied")
	saysBad = setOf("fail", "failed", "bad", "revers", "reversed", "wrong", "defectiv", "dead", "stuck", "backward", "swap", "swapped", "open", "failur", "broken", "faulty", "inoperativ", "nfg", "died", "quit", "faulted")
	turns   = setOf("cw", "ccw", "clockwis", "counterclockwis", "forward", "abc", "cba")
	saysNow = setOf("now", "retest", "replac", "swapped", "fixed", "correct", "corrected", "repair", "after", "then", "rewir", "again", "recheck", "redid", "repunch", "flip", "flipped", "turned")
)

// results reports whether the words and bare results say good or bad, and whether the good is something
// the tested thing did. A good result after a repair ("failed, replaced, retest ok") outweighs the bad
// one before it.
func (t *test) results() (good, bad, acted bool) {
	after := false // a repair stands between the bad result and here
	for i, j := range t.jots {
		denied := t.deniedAt(i)
		switch {
		case j.stem == "rev" && t.has("polarity", "pol"):
			bad, after = !denied, false
			good = good || denied
		case t.excepts(i) && (good || i > 1 && isDigit(t.jots[i-1].stem[0])):
			bad, after = true, false
		case denied && troubles[j.stem] && !(i > 0 && t.kindOfFault(i)):
			good, acted = true, true
		case denied && j.stem == "trip" && (t.deniedBy(i) == "noth" || t.noTrip()):
			good = true
		case j.stem == "trip" && !denied && (t.nuisance(i) || t.trippedOn(i)):
			bad, after = true, false
		case j.stem == "way" && i > 0 && t.jots[i-1].stem == "right" && !t.deniedAt(i-1):
			good, bad, acted = true, false, true // "both went the right way"
		case saysGood[j.stem] && denied, denied && t.failsToAct(i):
			bad, after = true, false
		case (j.stem == "swap" || j.stem == "swapped") && bad:
			after = true // what was wrong was changed round
		case (j.stem == "swap" || j.stem == "swapped") && !t.has("hot", "neut", "neutral", "polarity", "leg", "phas", "lead", "line", "wire", "wir"):
			// a thing was changed for another
		case j.stem == "dead" && t.wantedDead(i):
			good, acted = true, true
		case j.stem == "dead" && t.provedDead(i), j.stem == "work" && i > 0 && t.jots[i-1].stem == "befor":
			// "checked dead before working"
		case j.stem == "dead" && (t.measures("V") || t.has("voltag", "loto", "lockout", "absenc", "feed", "conductor", "wir", "wire", "abandon", "disconnect")):
			// "tested dead" is what a voltage was read for
		case !denied && j.stem == "fault" && i > 0 && t.threwFault(i):
			bad, after = true, false
		case !denied && (acts[j.stem] || j.stem == "pass") && t.countShort(i):
			bad, after = true, false // "2 of 3 lit"
		case !denied && t.acted(i):
			good, acted = true, true
			if after {
				bad = false
			}
		case turns[j.stem] && i > 0 && t.jots[i-1].stem == "now" && t.has("rotat", "rotation", "rot"):
			good, bad, acted = true, false, true // "CCW, swapped leads, now CW"
		case saysBad[j.stem] && denied:
			good = true
		case saysBad[j.stem] && !(j.stem == "open" && !t.opens(i)):
			bad, after = true, false
		case saysNow[j.stem] && bad:
			after = true
		case saysGood[j.stem] && !t.namesTest(j):
			good = true
			if of, whole := t.countBefore(i); of && whole {
				acted = true
			}
			if after {
				bad = false
			}
		}
	}
	if after && good && !bad {
		return good, false, acted
	}
	for _, m := range t.readings {
		switch m.Result {
		case "ok", "tripped", "reset", "continuity", "pass":
			good = true
		case "open":
			bad = bad || !t.mended() && !t.directOpen()
		case "fail", "no continuity":
			bad = bad || !t.mended()
		}
	}
	return good, bad, acted
}

// countShort reports whether fewer than all did what the word at i tells.
func (t *test) countShort(i int) bool {
	of, whole := t.countBefore(i)
	return of && !whole
}

// kindOfFault reports whether "fault" at i names a kind of protection and no trouble: "ground fault", "arc
// fault".
func (t *test) kindOfFault(i int) bool {
	switch t.jots[i-1].stem {
	case "ground", "arc", "earth":
		return t.jots[i].stem == "fault" && i+1 < len(t.jots) && t.jots[i+1].comma == t.jots[i].comma && !saysNot[t.jots[max(0, i-2)].stem]
	}
	return false
}

// threwFault reports whether a device told of a fault: "threw isolation fault 3x".
func (t *test) threwFault(i int) bool {
	for k := max(0, i-4); k < i; k++ {
		switch t.jots[k].stem {
		case "threw", "throw", "thrown", "show", "got", "giv", "gav", "fault", "goe", "went":
			return t.jots[k].clause == t.jots[i].clause && t.jots[k].comma == t.jots[i].comma
		}
	}
	return false
}

// directOpen reports whether "open" says under what a voltage was read: "string one 412 volt open".
func (t *test) directOpen() bool { return t.direct() && t.measures("V") }

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
	if t.directOpen() || i > 1 && t.jots[i-2].stem == "to" && (t.jots[i-1].stem == "ground" || t.jots[i-1].stem == "gnd") {
		return false // "lead to ground open" is what is wanted
	}
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
func (t *test) deniedAt(i int) bool { return t.deniedBy(i) != "" }
