package trade

import (
	"slices"
	"strings"
)

// Mend is what words say of putting a deficiency right.
type Mend int

// The answers of Mends.
const (
	MendUnsaid   Mend = iota
	MendPending       // ordered, wanted, not done, still there: nothing is closed
	MendForNow        // made safe: taped, tagged, switched off
	MendBySupply      // something was put in: closes what was missing
	MendDone          // repaired, replaced, tightened, or said to be right again: closes anything
)

// Stems of what crews write. Custom of the trade, no source.
var (
	mendSupply = setOf("put", "fit", "fitted", "install", "add", "set", "mount", "hung", "ran", "run", "pul", "land", "made", "drov", "drive", "ti", "tie",
		"provid", "gav", "got", "instal", "attach", "driv", "lai", "wire", "wir")
	mendRepair = setOf("fix", "repair", "replac", "swap", "swapped", "clos", "plug", "fill", "seal", "stapl", "strap", "secur", "support", "tighten", "snug",
		"torqu", "retorqu", "retighten", "correct", "rewir", "reland", "remad", "redid", "redon", "reterminat", "mend", "bond", "label", "relabel", "typ", "type",
		"cap", "cover", "recover", "clean", "clear", "remov", "tore", "separat", "split", "reconnect", "reattach", "remount", "rehung", "unbond",
		"splic", "resplic", "rebuilt", "patch", "mark", "remark", "bush", "boxed", "box", "enclos", "sleev", "reset", "upsiz", "downsiz", "isolat", "relocat", "straighten", "resolv", "weld", "ground", "blank", "caulk", "putty", "foam", "firestop", "trac", "mov", "move", "unload", "print", "post", "wrot", "wrote", "written", "writ")
	mendGood    = setOf("tight", "ok", "okay", "good", "again", "right", "solid", "work", "clos", "shut", "gon", "done", "don", "on", "trip", "bond", "dry", "cover")
	mendNow     = setOf("now", "again", "back", "finally")
	mendPending = setOf("order", "need", "want", "should", "will", "tomorrow", "monday", "tuesday", "wednesday", "thursday", "friday", "still", "wait", "later",
		"price", "quot", "quote", "recommend", "plan", "schedul", "if", "can", "could", "would", "yet", "coming", "backorder", "half", "try", "going", "gonna", "hop", "must", "ask", "who", "when", "bring", "next")
	mendForNow = setOf("temporar", "temporarily", "temporary", "temp", "tag", "lock", "barricad", "off", "kill", "tape", "unplug")
)

// A deed is what a stem may say of mending; most say nothing.
type deed uint8

const (
	deedSupply deed = 1 << iota
	deedRepair
	deedGood
	deedNow
	deedPending
	deedForNow
	deedNot // it denies
	deedBad // it names a fault
)

// is reports whether the stem may say any of what is asked.
func (d deed) is(asked deed) bool { return d&asked != 0 }

// deeds holds all stems of these lists, so that one look tells what a word may say.
var deeds = func() map[string]deed {
	m := map[string]deed{}
	for _, list := range []struct {
		says  deed
		stems map[string]bool
	}{
		{deedSupply, mendSupply}, {deedRepair, mendRepair}, {deedGood, mendGood}, {deedNow, mendNow}, {deedPending, mendPending},
		{deedForNow, mendForNow}, {deedNot, saysNot}, {deedBad, saysBad}, {deedBad, faulty},
	} {
		for s := range list.stems {
			m[s] |= list.says
		}
	}
	return m
}()

// Mends reads what a later note's words say of putting something right: "put the cover on the
// cooler disco", "that open KO is closed now". It judges no kind and no place: what the words are
// about is for Telling.
func Mends(text string) Mend {
	var few [fewJots]jot
	t := appendJots(few[:0], text)
	past, good, now, pending, forNow, supply := false, false, false, false, false, false
	var says, last, before deed // of the word, of the last one, of the one before that
	for i, j := range t {
		before, last, says = last, says, deeds[j.stem]
		word := lowerWord(text[j.start:j.end])
		denied := last.is(deedNot) || before.is(deedNot) && t[i-1].filler
		switch {
		case says.is(deedPending) && !(j.stem == "want" && denied) && !(j.stem == "schedul" && i > 0 && namesSchedule(t[i-1].stem)), strings.HasSuffix(word, "'ll"):
			pending = true
			continue
		case j.stem == "for" && i+1 < len(t) && t[i+1].stem == "now":
			forNow = true
			continue
		case says.is(deedForNow) && !(j.stem == "off" && i+1 < len(t) && t[i+1].stem == "the") && !denied:
			forNow = forNow || j.stem != "off" || switchedOff(t[:i])
		}
		if says.is(deedRepair) && isPast(word) || tookAway(t, i) {
			past, pending = past || !denied, pending || denied
		} else if says.is(deedSupply) && isPast(word) {
			supply, pending = supply || !denied, pending || denied
		}
		if says.is(deedGood) && i > 0 {
			good = good || !denied && isState(t, i)
			pending = pending || denied && (j.stem == "don" || j.stem == "work")
		}
		now = now || says.is(deedNow) && !(i > 0 && t[i-1].stem == "for")
	}
	switch {
	case forNow && !past:
		return MendForNow
	case pending && !(past && now):
		return MendPending
	case past, good && (now || !supply && !past):
		return MendDone
	case supply, putInWithoutVerb(t, text):
		return MendBySupply
	}
	return MendUnsaid
}

// putInWithoutVerb reads what is jotted without a verb: "new lid on fryer box", "LP1: new directory", "plate on
// the mop sink outlet". A word of fault or denial, or a question, tells of something else.
func putInWithoutVerb(t []jot, text string) bool {
	if strings.Contains(text, "?") {
		return false
	}
	for _, j := range t {
		if deeds[j.stem].is(deedNot|deedBad) || j.stem == "miss" || j.stem == "missing" || j.stem == "gon" || j.stem == "found" || j.stem == "for" {
			return false
		}
	}
	for i := 0; i < len(t) && i < 4; i++ {
		switch {
		case t[i].stem == "new":
			return i == 0 || t[i].comma > t[i-1].comma || t[i-1].filler
		case i == 1 && (t[i].stem == "on" || t[i].stem == "in") && len(t) > 2:
			return true
		}
	}
	return false
}

// namesSchedule reports whether the word before "schedule" makes it the list on a panel's door, and no plan.
func namesSchedule(before string) bool {
	switch before {
	case "panel", "circuit", "ckt", "pnl", "breaker", "new", "typed", "typ", "the":
		return true
	}
	return false
}

// isPast reports whether a verb stands in the past, in which notes tell what was done.
func isPast(word string) bool {
	switch word {
	case "put", "set", "ran", "hung", "made", "drove", "gave", "got", "laid", "fit", "tore", "redid", "redone", "remade", "rebuilt", "rehung", "split", "reset", "wired", "foamed", "tied", "done", "wrote", "written":
		return true
	}
	return strings.HasSuffix(word, "ed") || strings.HasSuffix(word, "'d")
}

// tookAway reports whether "got rid of", "changed out", "swapped out", "took out", "no more" or
// "no longer" stands at i.
func tookAway(t []jot, i int) bool {
	next := ""
	if i+1 < len(t) {
		next = t[i+1].stem
	}
	switch t[i].stem {
	case "got":
		return next == "rid"
	case "chang", "took", "pul", "tore", "cut":
		return next == "out" || next == "down"
	case "no":
		return next == "mor" || next == "longer"
	}
	return false
}

// isState reports whether the word at i says how a thing is: "is closed now", "works ok", "tight again".
func isState(t []jot, i int) bool {
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		switch t[k].stem {
		case "is", "are", "ar", "was", "been", "be", "it", "all", "they", "now", "that's", "it's":
			return true
		case "trip", "test", "read", "work", "hold", "reset", "com", "tested":
			return true
		}
	}
	return i+1 < len(t) && mendNow[t[i+1].stem] || i+1 == len(t)
}

// switchedOff reports whether the words before "off" switch something off, as against "got it off".
func switchedOff(before []jot) bool {
	for k := len(before) - 1; k >= 0 && k >= len(before)-3; k-- {
		switch before[k].stem {
		case "turn", "shut", "switch", "tape", "lock", "cap", "cut", "kill", "block", "rop", "left", "breaker":
			return true
		}
	}
	return false
}

// tellsNoFault are words that tell no two faults apart.
var tellsNoFault = func() map[string]bool {
	m := setOf("new", "now", "again", "back", "it", "they", "them", "up", "out", "off", "down", "over", "own", "that", "one", "two", "ok", "good", "tight",
		"work", "works", "done", "don", "today", "mor", "rid", "charg", "live", "part", "told", "l", "properly", "proper", "fine", "right", "left", "old", "bad", "did",
		"owner", "customer", "us", "our", "he", "she", "not", "no", "miss", "none", "need", "side", "min", "hour", "h", "double", "doubl", "lost", "fin", "longer", "for", "through", "feed", "do", "doe",
		"must", "should", "still", "see", "look", "thing", "place", "hav", "himself", "gon", "wont", "won't", "don't", "can't", "isn't", "#", "than", "then", "before", "after", "between", "instead",
		"abov", "behind", "under", "near", "below", "besid", "insid", "around", "its")
	for _, list := range []map[string]bool{mendSupply, mendRepair, mendNow} {
		for w := range list {
			switch w { // these are things as often as deeds
			case "cover", "label", "bond", "ground", "seal", "splic", "box", "stapl", "strap", "support", "blank", "plug", "tie", "ti", "wire", "wir", "bush", "mark", "cap", "firestop", "schedul":
			default:
				m[w] = true
			}
		}
	}
	return m
}()

// sameThing joins words of the catalogue that name one thing when a fault is spoken of again.
var sameThing = map[string]string{"pipe": "conduit", "raceway": "conduit", "plug": "knockout", "blank": "knockout", "hol": "knockout", "unlabel": "label", "directory": "label",
	"wirenut": "splice", "retorqu": "torqu", "lug": "terminal", "screw": "terminal", "bury": "buri", "subpanel": "panel", "untied": "tie", "supported": "support",
	"stapl": "support", "strap": "support", "missing_support": "support", "unsealed": "seal", "unbonded": "bond", "deadfront": "cover"}

// Telling returns the words that say which fault a text is about, folded as the catalogue folds
// them and each once: "LP1 has two open KOs" and "the knockouts in panel LP1" share "panel", "n1"
// and "knockout". Words of doing, denying and counting are left out.
func (c Catalogue) Telling(text string) []string {
	x := c.all()
	var few [fewJots]jot
	var some [fewJots]term
	t := look{x: x, jots: appendJots(few[:0], text)}
	t.terms = x.terms(some[:0], t.jots)
	var out []string
	add := func(w string) {
		if w == "blank" && slices.Contains(out, "label") {
			return // a directory left blank, not a filler
		}
		if same, ok := sameThing[w]; ok {
			w = same
		}
		if !tellsNoFault[w] && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	run := t.longestRuns()
	for i := 0; i < len(t.jots); i++ {
		j := t.jots[i]
		if m := run[i]; m.to > i+1 && !tooBroad[x.names[m.id]] {
			add(x.names[m.id])
			i = m.to - 1
			continue
		}
		if j.filler || tellsNoFault[j.stem] || mendForNow[j.stem] { // "tagged the splice": what was done, not which
			continue
		}
		if id, ok := x.ids[j.stem]; ok && !tooBroad[x.names[id]] {
			add(x.names[id])
			continue
		}
		add(j.stem)
	}
	return out
}

// tooBroad are words of the catalogue that stand for several things, or for a "no": a water heater
// and a pump are both "motor", which does for a kind of fault and not for telling two apart.
var tooBroad = setOf("motor", "kitchen", "outdoor", "bathroom", "drywall", "miss", "no", "not", "fin", "ourcheck", "double", "doubl", "wet", "fixtur", "equipm")

// longestRuns returns, for each word that begins one, the longest run of words that stand for one.
func (t *look) longestRuns() []term {
	run := make([]term, len(t.jots))
	for _, m := range t.terms {
		if m.to > run[m.from].to {
			run[m.from] = m
		}
	}
	return run
}
