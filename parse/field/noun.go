package field

import "jobday/trade"

// nouns gives words their sense as things once their neighbours are known: "3 pulls" are pull
// stations, "the drive on pump 2" is no road, and heads among horns are detectors.
// Common practice, no source.
func (s *scanner) nouns() {
	heads, alarm := 0, false
	for k := range s.out {
		a := &s.out[k]
		switch {
		case a.role == roleUnknown && a.text == "head":
			if heads++; heads == 1 {
				alarm = s.fireAlarm()
			}
			if alarm {
				a.role, a.text = roleThing, "smoke detector"
			}
		case a.role != roleVerb:
		case a.text == "pull" && s.written(a) == "pulls" && s.counted(k):
			s.thing(k, "pull station")
		case a.text == "travel" && s.isDrive(k):
			s.thing(k, "VFD")
		}
	}
}

// thing makes a thing of atom k.
func (s *scanner) thing(k int, text string) {
	a := &s.out[k]
	w := s.written(a)
	a.role, a.text, a.dim, a.word = roleThing, text, "", nil
	a.plural = w[len(w)-1] == 's'
}

// written returns the atom in lower case.
func (s *scanner) written(a *atom) string { return lower(s.text[a.from():a.to()]) }

// counted reports whether atom k has a plain number before it or heads a list.
func (s *scanner) counted(k int) bool {
	if k+1 < len(s.out) && s.out[k+1].role == roleMark && (s.out[k+1].text == ":" || s.out[k+1].text == "x") {
		return true
	}
	if k+1 < len(s.out) && s.out[k+1].role == roleCount && s.out[k+1].dim == "" && s.nums[s.out[k+1].num].form != article && s.runEnds(k+2) {
		return true // "pulls 3 in"
	}
	return k > 0 && s.out[k-1].role == roleCount && s.out[k-1].dim == "" &&
		(k+1 >= len(s.out) || s.out[k+1].role != roleGeneric && s.out[k+1].role != roleKind)
}

// isDrive reports whether "drive" at atom k is a motor's: one stands on or for something, and
// articles, counts and ratings stand before it.
func (s *scanner) isDrive(k int) bool {
	if w := s.written(&s.out[k]); w != "drive" && w != "drives" {
		return false
	}
	if k > 0 {
		switch prev := &s.out[k-1]; prev.role {
		case roleJoin:
			return prev.text != "with" && prev.text != "long"
		case roleCount:
			return prev.dim == ""
		case roleDesig:
			return prev.dim == "hp" || prev.dim == "watts" || prev.dim == "equipment" || prev.dim == "model"
		case roleThing:
			return prev.text == "motor" || prev.text == "pump" || prev.text == "fan"
		}
	}
	if k+2 >= len(s.out) || s.out[k+1].role != roleStop || s.out[k+1].text != "for" && s.out[k+1].text != "on" {
		return false
	}
	switch next := &s.out[k+2]; next.role {
	case roleThing:
		return true
	case roleDesig:
		return next.dim == "equipment"
	}
	return false
}

// fireAlarm reports whether the line speaks of a fire alarm.
func (s *scanner) fireAlarm() bool {
	for k := range s.out {
		switch s.out[k].role {
		case roleThing:
			switch s.out[k].text {
			case "smoke detector", "heat detector", "duct detector", "CO detector", "horn", "strobe", "horn strobe", "pull station":
				return true
			}
		case roleKind:
			if s.out[k].text == "fire alarm cable" {
				return true
			}
		case roleUnknown:
			switch s.out[k].text {
			case "facp", "nac", "annunciator", "alarm":
				return true
			}
		}
	}
	return false
}

// pronoun reports whether "one" at the current token stands for a thing named before: "the blue one".
func (s *scanner) pronoun() bool {
	k := len(s.out) - 1
	if k < 0 {
		return false
	}
	switch a := &s.out[k]; a.role {
	case roleColour, roleTrait:
	case roleJoin:
		switch a.text {
		case "the", "this", "other", "old", "new", "any", "last", "next", "first", "second", "third":
		default:
			return false
		}
	default:
		return false
	}
	if s.i+1 >= len(s.toks) || s.toks[s.i+1].kind == symbol {
		return true
	}
	w := s.wordAt1(s.i + 1)
	return w != nil && (w.Class == trade.StopWord || w.Class == trade.VerbWord)
}

// tally reads "18/18" and "5/12" right after a thing as so many of so many. A fraction that is a
// size, and numbers that rate or name a thing, are none.
func tally(toks []token, i int) (n, of, next int, ok bool) {
	if i+2 >= len(toks) || toks[i].kind != number || !tight(toks, i+1, "/") || toks[i+2].kind != number || toks[i+2].spaced ||
		len(toks[i].low) > 3 || len(toks[i+2].low) > 3 || i > 0 && !toks[i].spaced || !tallyEnds(toks, i+3) {
		return 0, 0, 0, false
	}
	n, of = smallInt(toks[i].low), smallInt(toks[i+2].low)
	if n < 1 || n > of {
		return 0, 0, 0, false
	}
	if n == of && n > 1 && tallyClause(toks, i-1) {
		return n, of, i + 3, true
	}
	if i == 0 {
		return 0, 0, 0, false
	}
	at := i - 1
	if toks[at].low == ":" && at > 0 {
		at--
	}
	plural := len(toks[at].low) > 3 && toks[at].low[len(toks[at].low)-1] == 's'
	if e := toks[at].ent; e == nil || !e.Known {
		if toks[at].kind != word || !plural {
			return 0, 0, 0, false
		}
	} else if !tallied(&e.Word) && !(n == of && (e.Class == trade.PlaceWord || toks[at].low == "pulls")) || !e.Plural && n != of {
		return 0, 0, 0, false
	}
	if _, size := fractionAt(toks, i); size && !plural {
		return 0, 0, 0, false
	}
	return n, of, i + 3, true
}

// tallyClause reports whether "6/6" behind token i counts: nothing is named by a number over itself
// but the spaces of a panel.
func tallyClause(toks []token, i int) bool {
	if i < 0 {
		return true
	}
	if w := toks[i]; w.kind == number || w.low == "#" || w.low == "$" || w.low == "/" || w.low == "x" || w.low == "@" {
		return false
	}
	if toks[i].ent != nil && (toks[i].ent.Text == "panel" || toks[i].ent.Text == "circuit" || toks[i].ent.Text == "breaker") {
		return false
	}
	return true
}

// tallied reports whether a word names what is counted by the piece and is not named by two numbers.
func tallied(w *trade.Word) bool {
	if w.Class == trade.PlaceWord {
		return w.Text == "room"
	}
	if w.Class != trade.ThingWord {
		return false
	}
	switch w.Text {
	case "panel", "subpanel", "breaker", "service", "transformer", "fuse", "circuit", "feeder", "home run", "multiwire branch circuit",
		"ballast", "driver", "contactor", "switch":
		return false
	}
	return true
}

// tallyEnds reports whether nothing that the numbers could belong to follows token i.
func tallyEnds(toks []token, i int) bool {
	if i >= len(toks) {
		return true
	}
	switch t := &toks[i]; t.low {
	case ",", ";", ")", "!", "(":
		return true
	case ".":
		return i+1 >= len(toks) || toks[i+1].spaced
	case "in", "up", "done", "hung", "set", "complete", "completed", "finished", "installed", "and", "today", "on", "working", "trimmed",
		"tested", "landed", "wired", "mounted", "aimed", "labeled", "terminated", "good", "ok", "swapped", "replaced", "lit", "hot", "now":
		return t.spaced
	default:
		return false
	}
}
