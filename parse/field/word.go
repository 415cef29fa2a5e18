package field

import (
	"strconv"
	"strings"

	"jobday/trade"
)

// word reads what starts with letters.
func (s *scanner) word() {
	i := s.i
	t := s.toks[i].low
	if s.lettered() || s.numbered(t) || s.polesInWords(t) || s.phrase() || s.little(t) || s.spokenCable(t) || s.spoken(t) {
		return
	}
	w := s.wordAt1(i)
	if (t == "one" || t == "ones") && s.pronoun() {
		s.put(atom{role: roleStop, text: "one"}, i+1)
		return
	}
	if w == nil || len(t) <= 2 { // no word of the trade is a number, but "a" is
		if n, ok := readNum(s.toks, i); ok {
			s.spelled(n)
			return
		}
	}
	switch {
	case isAbout(t):
		s.put(atom{role: roleAbout}, skipDot(s.toks, i+1))
	case w == nil:
		s.unknown(t)
	case w.Class == trade.MeansWord && s.depth < 2:
		s.stand(w.Text, i+1, 2)
	default:
		s.entered(w, i+1)
	}
}

// little reads the small words whose meaning hangs on what stands beside them.
func (s *scanner) little(t string) bool {
	i := s.i
	switch t {
	case "w", "with":
		return s.with(t)
	case "x":
		s.put(atom{role: roleMark, text: "x"}, i+1)
	case "and", "plus":
		s.put(atom{role: roleMark, text: "&"}, i+1)
	case "so", "use":
		if s.text[s.toks[i].start] != t[0] {
			return false // the cables of that name are written in capitals
		}
		s.put(atom{role: roleStop, text: t}, i+1)
	case "or":
		if s.low(i+1) == "so" {
			s.put(atom{role: roleAbout}, i+2)
		} else {
			s.put(atom{role: roleMark, text: "/"}, i+1)
		}
	case "em":
		if s.low(i-1) != "of" {
			return false // emergency
		}
		s.put(atom{role: roleStop, text: t}, i+1)
	case "lb", "lbs", "lb's":
		s.put(atom{role: rolePart, text: "conduit body", plural: t != "lb"}, i+1)
	case "both":
		w := s.wordAt1(i + 1)
		if w == nil || w.Class == trade.StopWord || w.Class == trade.JoinWord {
			return false
		}
		s.count(spelledNum(2, i+1), "", i+1)
	case "give":
		if s.low(i+1) != "or" || s.low(i+2) != "take" {
			return false
		}
		s.put(atom{role: roleAbout}, i+3)
	case "around", "say", "like":
		if i+1 >= len(s.toks) || s.toks[i+1].kind != number {
			return false
		}
		s.put(atom{role: roleAbout}, i+1)
	default:
		return false
	}
	return true
}

// with reads "w/", "with" and "w/o".
func (s *scanner) with(t string) bool {
	i := s.i
	slash := tight(s.toks, i+1, "/")
	switch {
	case t == "w" && slash && s.low(i+2) == "o":
		s.put(atom{role: roleStop, text: "no"}, i+3)
	case t == "w" && slash:
		s.put(atom{role: roleJoin, text: "with"}, s.passGround(i+2))
	case t == "with":
		s.put(atom{role: roleJoin, text: "with"}, s.passGround(i+1))
	default:
		return false
	}
	return true
}

// spokenCable reads "twelve two romex" and "of ten two".
func (s *scanner) spokenCable(t string) bool {
	switch t {
	case "fourteen", "twelve", "ten", "eight", "six":
	default:
		return false
	}
	b := unitWord(s.low(s.i + 1))
	if b < 2 || b > 4 {
		return false
	}
	end := s.i + 2
	k := len(s.out) - 1
	ofIt := k >= 1 && s.out[k].role == roleJoin && s.out[k].text == "of" && s.out[k-1].role == roleCount && s.out[k-1].dim == "ft"
	if w := s.wordAt1(end); (w == nil || !isCable(w)) && !ofIt {
		return false
	}
	s.desig(strconv.Itoa(unitWord(t))+"/"+strconv.Itoa(b), "gauge-count", s.skipGround(end))
	return true
}

// entered appends a word of the trade.
func (s *scanner) entered(w *trade.Word, next int) {
	a := atom{text: w.Text, dim: w.Dim, plural: w.Plural, word: w}
	switch w.Class {
	case trade.ThingWord:
		a.role = roleThing
	case trade.PartWord:
		a.role = rolePart
	case trade.MaterialWord:
		a.role = roleKind
	case trade.GenericWord:
		a.role = roleGeneric
	case trade.TraitWord:
		a.role = roleTrait
	case trade.ColourWord:
		a.role = roleColour
	case trade.VerbWord:
		a.role = roleVerb
	case trade.PlaceWord:
		a.role = rolePlace
	case trade.UnitWord, trade.PackageWord:
		a.role = roleUnit
		if w.Text == "box" && s.afterCable() && s.toks[s.i].low == "bx" {
			a = atom{role: roleKind, text: "AC"}
		}
	case trade.JoinWord:
		a.role = roleJoin
	default:
		a.role = roleStop
	}
	if l := s.low(next); l == "." && len(s.toks[next-1].low) <= 5 && a.role != roleStop && a.role != roleVerb {
		next = s.abbreviation(next)
	}
	s.put(a, next)
}

// abbreviation passes the point after a shortened word when the line goes on in lower case or with
// a number: "recept. white", not "4 boxes. Pulled wire".
func (s *scanner) abbreviation(dot int) int {
	if s.toks[dot].spaced || dot+1 >= len(s.toks) {
		return dot
	}
	switch s.toks[dot-1].low {
	case "brkr", "conn", "recept", "rec", "sw", "lt", "fixt", "sq", "oct", "bx", "ckt", "disc", "coup", "pnl", "grn", "blk",
		"wht", "alum", "cu", "galv", "dup", "comp", "ins", "xfmr", "conds", "fluor", "emerg", "str", "pr", "pkg", "pc", "pcs", "qt", "btl", "ctn", "rl", "bdl":
		return dot + 1
	}
	return dot
}

func (s *scanner) afterCable() bool {
	k := len(s.out) - 1
	return k >= 0 && s.out[k].role == roleDesig && s.out[k].dim == "gauge-count"
}

// phrase reads a way of writing of more than one word.
func (s *scanner) phrase() bool {
	e := s.toks[s.i].ent
	if e == nil {
		if s.toks[s.i].kind != number {
			return false
		}
		e = trade.Look(s.toks[s.i].low)
	}
	if e == nil {
		return false
	}
	for k := range e.Phrases {
		p := &e.Phrases[k]
		next := s.follows(p.Rest)
		if next == 0 {
			continue
		}
		if p.Class == trade.MeansWord {
			if s.depth > 1 {
				continue
			}
			s.stand(p.Text, next, 2)
			return true
		}
		s.entered(&p.Word, next)
		return true
	}
	return false
}

// follows returns the token after the words, when they stand after the current token, or 0. A
// hyphen may stand between them; any other mark must be part of the phrase.
func (s *scanner) follows(rest []string) int {
	j := s.i + 1
	for _, want := range rest {
		if want != "-" && tight(s.toks, j, "-") && s.tightWord(j+1) {
			j++
		}
		if j >= len(s.toks) || s.toks[j].low != want {
			return 0
		}
		j++
	}
	return j
}

// unknown appends a word the vocabulary lacks, as a singular.
func (s *scanner) unknown(t string) {
	one := trade.Singular(t)
	s.put(atom{role: roleUnknown, text: one, plural: one != t}, s.i+1)
}

func isAbout(t string) bool {
	switch t {
	case "about", "abt", "approx", "approximately", "roughly", "maybe", "circa", "est", "almost", "nearly", "ish", "most", "part":
		return true
	}
	return false
}

// spelled reads a number in words: "two-gang", "twenty amp", "six ft", or a plain one.
func (s *scanner) spelled(n num) {
	switch {
	case n.form == article && wordAt(s.toks, n.next, "few"):
		s.put(atom{role: roleAbout}, n.next+1)
	case n.form == article:
		s.count(n, "", n.next)
	default:
		s.measured(n)
	}
}

// polesInWords reads "single pole", "double-pole", "single gang", "three phase".
func (s *scanner) polesInWords(t string) bool {
	n := 0
	if t == "sp" || t == "dp" {
		if w := s.wordAt1(s.i + 1); w == nil || w.Text != "switch" && w.Text != "breaker" {
			return false
		}
		s.desig(polesName(1+strings.Count(t, "d")), "poles", s.i+1)
		return true
	}
	switch t {
	case "single":
		n = 1
	case "double":
		n = 2
	case "triple":
		n = 3
	default:
		return false
	}
	j := s.i + 1
	if tight(s.toks, j, "-") {
		j++
	}
	switch s.low(j) {
	case "pole", "p":
		s.desig(polesName(n), "poles", j+1)
	case "gang":
		s.desig(strconv.Itoa(n)+"-gang", "gang", j+1)
	case "phase", "ph":
		s.desig(strconv.Itoa(n)+"-phase", "phase", j+1)
	default:
		return false
	}
	return true
}
