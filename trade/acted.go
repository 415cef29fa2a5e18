package trade

// A function test is told by what was done to a thing and what it did then: "pressed one, all 3 sounded",
// "pulled every rope, line stops", "doesn't turn".

var (
	// what a thing does in a function test
	acts = setOf("sound", "held", "hold", "lit", "light", "respond", "report", "start", "ring", "rang", "unlock", "releas", "answer", "beep", "shut", "stop", "drop", "trip",
		"strob", "flash", "clear", "nois", "holler", "map", "operat", "alarm", "transfer", "dropped", "alternat", "stay", "pull", "call", "charg", "reset", "run", "ran", "spin", "turn", "rotat", "respons")
	// what it does only with a word behind it: "came on", "go off together", "kicks on"
	actsWith   = setOf("went", "go", "going", "goe", "cam", "com", "kick", "turn", "switch", "set", "lit", "shut")
	actsBehind = setOf("off", "on", "up", "in", "together", "back", "through", "out", "dead", "dark", "down", "clean")
	// what is denied only of a thing that should do it
	actsFail = setOf("turn", "spin", "run", "light", "sound", "respond", "hold", "ring", "stop", "drop", "call", "releas", "unlock", "clear", "charg", "transfer", "report", "start", "respons", "happen")
	// who all did it
	everyOne = setOf("all", "every", "everyth", "everyon", "both", "each", "whol", "they", "any")
	// what was done to try it
	stimuli = setOf("push", "press", "hit", "cover", "gass", "gas", "smok", "flip", "bump", "tri", "try", "simulat", "walk", "swip", "badg", "dump", "pull", "lift", "test", "trigger", "block", "card", "eye", "kill", "unplug")
	// what a thing answers to
	answered = setOf("button", "badg", "tester", "float", "level", "smok", "alarm", "key", "eye", "photocell", "timer", "clock", "station", "sensor", "motion", "remot", "signal", "ats", "panel", "epo", "mushroom", "switch")
	// what makes "run" behind it a length of wire
	runIsNoun = setOf("the", "this", "that", "a", "long", "home", "cabl", "cable", "conduit", "feed", "feeder", "pip", "pipe", "branch")
	// what is good when it is looked for and not found
	troubles = setOf("fault", "flicker", "error", "wobbl", "blink", "problem", "issu", "troubl", "hum", "buzz", "leak", "leakag", "miswir", "revers", "breakdown", "dip", "hiccup")
)

// acted reports whether the word at i tells that what was tried did what it should: all of them did, or it
// did so upon what was done to it.
func (t *test) acted(i int) bool {
	j := t.jots[i]
	plain := acts[j.stem] && !(j.stem == "run" && (j.end-j.start > len("runs") || i > 0 && runIsNoun[t.jots[i-1].stem])) // "with everything running" is a load
	if !plain && !(actsWith[j.stem] && i+1 < len(t.jots) && actsBehind[t.jots[i+1].stem]) &&
		!(j.stem == "open" && j.end-j.start > len("open")) {
		return false
	}
	return t.quantified(i) || t.stimulated(i) || t.upon(i)
}

// upon reports whether what the thing at i answered to is told behind it: "unlocks on badge", "starts with
// the float", "lit by the test button".
func (t *test) upon(i int) bool {
	for k := i + 1; k+1 < len(t.jots) && k < i+4; k++ {
		if t.jots[k].clause != t.jots[i].clause || t.jots[k].comma != t.jots[i].comma {
			return false
		}
		switch t.jots[k].stem {
		case "on", "with", "w", "by", "when", "if", "at", "upon", "from":
		default:
			continue
		}
		for n := k + 1; n < len(t.jots) && n <= k+3 && t.jots[n].clause == t.jots[i].clause; n++ {
			if s := t.jots[n].stem; stimuli[s] || answered[s] {
				return true
			}
		}
	}
	return false
}

// quantified reports whether the thing at i was told of all that were tried: "all 3 sounded", "drops out
// each time".
func (t *test) quantified(i int) bool {
	for k := i - 1; k >= max(0, i-5); k-- {
		if t.jots[k].clause != t.jots[i].clause || t.jots[k].comma != t.jots[i].comma {
			break
		}
		if s := t.jots[k].stem; everyOne[s] && !(s == "any" || s == "they" && i-k > 2) {
			return true
		}
	}
	for k := i + 1; k+1 < len(t.jots) && k < i+6 && t.jots[k].clause == t.jots[i].clause; k++ {
		switch t.jots[k].stem {
		case "each", "every":
			if t.jots[k+1].stem == "tim" {
				return true
			}
			fallthrough
		case "all", "both":
			if before := t.jots[k-1].stem; before == "on" || before == "at" || before == "in" {
				return true
			}
		}
	}
	of, whole := t.countBefore(i)
	return of && whole
}

// countBefore reports whether the word at i is told of so many of so many, and whether of all: "8 of 8 ok",
// "5/5".
func (t *test) countBefore(i int) (of, whole bool) {
	for k := i - 1; k > 1 && k >= i-4; k-- {
		if t.jots[k].clause != t.jots[i].clause || t.jots[k].comma != t.jots[i].comma {
			return false, false
		}
		all, ok := wholeNumber(t.jots[k].stem)
		if !ok || all == 0 {
			continue
		}
		part := k - 1
		if t.jots[part].stem == "of" {
			part--
		} else if t.text[t.jots[part].end:t.jots[k].start] != "/" {
			continue
		}
		n, ok := wholeNumber(t.jots[max(0, part)].stem)
		return ok && n <= all, ok && n == all
	}
	return false, false
}

// stimulated reports whether something was done to try the thing before the word at i, behind a pause or
// an "and": "pushed the button and it went off".
func (t *test) stimulated(i int) bool {
	if i > 0 && answered[t.jots[i-1].stem] && t.jots[i-1].comma == t.jots[i].comma && t.jots[i-1].clause == t.jots[i].clause {
		return true // "button drops it", "low float starts pump 1"
	}
	for k := i - 1; k >= max(0, i-14); k-- {
		if !stimuli[t.jots[k].stem] {
			continue
		}
		if t.jots[k].comma != t.jots[i].comma || t.jots[k].clause != t.jots[i].clause {
			return true
		}
		for _, m := range t.jots[k+1 : i] {
			if m.stem == "and" || m.stem == "it" || m.stem == "they" {
				return true
			}
		}
	}
	return false
}

// failsToAct reports whether the word at i, denied, tells that a thing does not do what it should. Nothing
// that tripped or dropped under load is what is wanted, and "not started yet" is no test.
func (t *test) failsToAct(i int) bool {
	withWord := actsWith[t.jots[i].stem] && i+1 < len(t.jots) && actsBehind[t.jots[i+1].stem]
	if !actsFail[t.jots[i].stem] && !withWord || t.deniedBy(i) == "noth" && t.jots[i].stem != "happen" {
		return false
	}
	for k := i + 1; k < len(t.jots) && k < i+4; k++ {
		if t.jots[k].stem == "yet" {
			return false
		}
	}
	return true
}

// deniedBy returns the word that denies the word at i, as deniedAt finds it.
func (t *test) deniedBy(i int) string {
	for n, k := 0, i-1; k >= 0 && n < 2; k-- {
		if saysNot[t.jots[k].stem] {
			if t.jots[k].clause == t.jots[i].clause && t.jots[k].comma == t.jots[i].comma {
				return t.jots[k].stem
			}
			return ""
		}
		if !t.jots[k].filler {
			n++
		}
	}
	return ""
}

// excepts reports whether the word at i takes some out of what passed: "all pass but 9", "62 respond, 2 not",
// "the low one doesn't".
func (t *test) excepts(i int) bool {
	j := t.jots[i]
	ends := i+1 == len(t.jots) || t.jots[i+1].clause != j.clause || t.jots[i+1].comma != j.comma
	switch j.stem {
	case "not", "doesn't", "didn't", "don't", "won't", "isn't", "wasn't", "doesnt", "didnt", "dont", "wont", "isnt":
		return ends && i > 0 && t.jots[i-1].stem != "or" && t.jots[i-1].stem != "if"
	case "except":
		return i+1 < len(t.jots)
	case "but":
		if i+1 < len(t.jots) && i > 0 {
			next := t.jots[i+1]
			_, counted := numberWords[next.stem]
			return (counted || isDigit(next.stem[0])) && (i+2 == len(t.jots) || t.jots[i+2].comma != next.comma || t.jots[i+2].clause != next.clause)
		}
	}
	return false
}

// wantedDead reports whether "dead" at i is what a button, a shunt or a transfer was tried for.
func (t *test) wantedDead(i int) bool {
	return t.has("button", "epo", "estop", "shunt", "interlock", "mushroom", "stop", "link", "contactor") && !t.has("batt", "battery") && i > 0
}

// provedDead reports whether "dead" at i is what conductors were proved to be before work on them: "checked dead",
// "verified all phases dead". A device that was tried and is dead has failed.
func (t *test) provedDead(i int) bool {
	for k := i - 1; k >= max(0, i-4) && t.jots[k].clause == t.jots[i].clause; k-- {
		switch t.jots[k].stem {
		case "prov", "proven", "verify", "verifi", "confirm", "made":
			return true
		case "check", "test":
			return k == i-1 && t.jots[k].stem == "check" || t.has("phas", "leg", "bus", "lug", "befor", "circuit", "ckt", "line", "panel", "cabl", "cable")
		}
	}
	return false
}

// nuisance reports whether the trip at i came by itself or by use, where nobody tried the device: "trips every time
// the vacuum starts", "keeps tripping".
func (t *test) nuisance(i int) bool {
	if t.has("test", "tester", "button", "push", "press") || t.measures("mA", "ms") {
		return false
	}
	for k := max(0, i-3); k < i; k++ {
		switch t.jots[k].stem {
		case "keep", "kept", "nuisanc", "still", "alway", "random", "randomly":
			return true
		}
	}
	for k := i + 1; k < min(len(t.jots), i+4); k++ {
		switch t.jots[k].stem {
		case "every", "each", "whenever", "random", "randomly", "overnight", "constantly", "itself":
			return true
		}
	}
	return false
}

// trippedOn reports whether the trip at i came upon a trouble of what was run: "tripped on high coolant temperature".
func (t *test) trippedOn(i int) bool {
	if i+2 >= len(t.jots) || t.jots[i+1].stem != "on" && t.jots[i+1].stem != "from" {
		return false
	}
	switch t.jots[i+2].stem {
	case "high", "low", "overload", "overcurrent", "overtemp", "overheat", "coolant", "thermal", "short", "inrush", "its":
		return true
	}
	return false
}

// noTrip reports whether a trip that did not come is what load was put on for.
func (t *test) noTrip() bool {
	return t.has("load", "heater", "inrush", "start", "ran", "run", "running") && !t.has(gfciWords...) && !t.has("afci", "afi", "button", "tester", "shunt")
}

// wantsFigure reports whether what was tested is told by a figure, so that a bare word does not pass it.
func (t *test) wantsFigure() bool {
	return t.has("megger", "megg", "meg", "insulation", "torqu", "torqued", "voltag", "resistanc", "ohm", "amp", "current", "rod", "ground", "impedanc")
}
