package field

import (
	"strings"

	"jobday/notes"
	"jobday/trade"
)

// A role is the part an atom plays in a line.
type role byte

const (
	roleCount   role = iota + 1 // a number that may count something, or a measure: 52 ft, 5 lb
	roleDesig                   // a number that belongs to the thing: 12/2, 30A, 2P, 3/4 in, LP1
	roleThing                   // device, fixture, machine
	rolePart                    // what holds, joins or covers
	roleKind                    // a kind of cable, wire or raceway
	roleGeneric                 // cable, wire, conduit
	roleTrait                   // LED, sealed, old work
	roleColour
	roleVerb
	rolePlace
	roleUnit // a package or unit word that stands alone: box, roll, stick
	roleStop
	roleJoin
	roleUnknown
	roleAbout // about, +/-, approx
	roleSkip  // a number that counts nothing: date, clock time, money, percent, reading
	roleMark  // punctuation
)

// An atom is the smallest piece of a line that means something to the trade.
type atom struct {
	role       role
	plural     bool // written as more than one
	guess      bool // a designation that could also be a count: "1 1/2" before conduit
	ones       bool // a rating that stands for things nobody names: "50's"
	spaced     bool // white space stands before it
	num        int8 // for a count its number's index, else -1
	alt        int8 // index of the number in the other honest reading, or -1
	start, end int32
	text       string      // normal form
	dim        string      // of a designation, verb, place or unit
	word       *trade.Word // what the vocabulary knows, or nil
}

// verb returns the word as a verb, "" when it cannot be one.
func (a *atom) verb() string {
	if a.word == nil {
		return ""
	}
	return a.word.Verb
}

// from and to are the byte offsets of the atom in the text.
func (a *atom) from() int { return int(a.start) }
func (a *atom) to() int   { return int(a.end) }

// A scanner makes atoms of tokens.
type scanner struct {
	text  string
	toks  []token
	words trade.Words
	out   []atom
	nums  []num
	i     int
	depth int // 0 in a line, 1 in the meaning of a shop's word, 2 in a built-in one
}

// maxNums bounds the numbers of one line; past it a number counts nothing.
const maxNums = 120

// run makes atoms of a text. It never fails and takes time linear in the text.
func (s *scanner) run() {
	s.all()
	s.settle()
	s.nouns()
}

func (s *scanner) all() {
	for s.i < len(s.toks) {
		before := s.i
		s.step()
		s.i = max(s.i, before+1)
	}
}

func (s *scanner) step() {
	if !s.words.None() && s.own() {
		return
	}
	switch s.toks[s.i].kind {
	case number:
		if !s.plantTag() {
			s.number()
		}
	case word:
		s.word()
	default:
		s.symbol()
	}
}

// own reads one of the shop's own words: what it stands for is read in its place.
func (s *scanner) own() bool {
	if s.depth > 0 {
		return false
	}
	meaning, n := s.words.Meaning(func(o int) string {
		if s.i+o < len(s.toks) {
			return s.toks[s.i+o].low
		}
		return ""
	})
	if n == 0 {
		return false
	}
	s.stand(meaning, s.i+n, 1)
	return true
}

// stand puts the atoms of a meaning in the place of the tokens up to next.
// Depth says what it may stand for in turn: 1 for the shop's words, which may use the built-in
// ones, 2 for those.
func (s *scanner) stand(meaning string, next, depth int) {
	inner := scanner{text: meaning, toks: tokens(meaning), depth: depth}
	inner.all()
	start, end := int32(s.toks[s.i].start), int32(s.toks[next-1].end)
	plural := len(s.toks[next-1].low) > 2 && s.toks[next-1].low[len(s.toks[next-1].low)-1] == 's'
	for k, a := range inner.out {
		a.start, a.end, a.word = start, end, nil
		a.plural = a.plural || plural && k == len(inner.out)-1
		if a.num >= 0 {
			a.role, a.num, a.alt = roleDesig, -1, -1
		}
		s.out = append(s.out, a)
	}
	s.i = next
}

// put appends an atom that covers the tokens from s.i up to next, and moves on.
func (s *scanner) put(a atom, next int) {
	a.spaced = s.toks[s.i].spaced
	a.start, a.end = int32(s.toks[s.i].start), int32(s.toks[next-1].end)
	if a.role != roleCount {
		a.num = -1
	}
	if !a.guess {
		a.alt = -1
	}
	s.out = append(s.out, a)
	s.i = next
}

// desig appends a designation.
func (s *scanner) desig(text, dim string, next int) {
	s.put(atom{role: roleDesig, text: text, dim: dim}, next)
}

// count appends a number with its unit, "" for a plain one.
func (s *scanner) count(n num, unit string, next int) {
	if len(s.nums) >= maxNums {
		s.put(atom{role: roleSkip}, next)
		return
	}
	s.nums = append(s.nums, n)
	s.put(atom{role: roleCount, num: int8(len(s.nums) - 1), dim: unit}, next)
}

// low returns the token at offset from the current one, or "".
func (s *scanner) low(i int) string {
	if i < 0 || i >= len(s.toks) {
		return ""
	}
	return s.toks[i].low
}

// tightNumber reports whether token i is a run of digits right after what precedes it.
func (s *scanner) tightNumber(i int) bool {
	return i < len(s.toks) && s.toks[i].kind == number && !s.toks[i].spaced
}

// tightWord reports whether token i is a word right after what precedes it.
func (s *scanner) tightWord(i int) bool {
	return i < len(s.toks) && s.toks[i].kind == word && !s.toks[i].spaced
}

// symbol reads a mark.
func (s *scanner) symbol() {
	if n, ok := readNum(s.toks, s.i); ok {
		s.measured(n)
		return
	}
	i, t := s.i, s.toks[s.i].low
	switch t {
	case "#":
		if s.hash() {
			return
		}
	case "$", "€", "£":
		if n, ok := readNum(s.toks, i+1); ok {
			s.put(atom{role: roleSkip, dim: "money"}, n.next)
			return
		}
	case "~", "±", "≈":
		s.put(atom{role: roleAbout}, i+1)
		return
	case "+":
		switch {
		case tight(s.toks, i+1, "/") && tight(s.toks, i+2, "-"):
			s.put(atom{role: roleAbout}, i+3)
			return
		case tight(s.toks, i+1, "-"):
			s.put(atom{role: roleAbout}, i+2)
			return
		}
	case "-":
		if !s.toks[i].spaced && s.tightWord(i+1) && i > 0 && s.toks[i-1].kind == word {
			s.i++ // a hyphen inside a word parts nothing
			return
		}
	}
	s.put(atom{role: roleMark, text: markOf(t)}, i+1)
}

// markOf writes marks that mean the same as one.
func markOf(t string) string {
	switch t {
	case "–", "—":
		return "-"
	case "×":
		return "x"
	case "•", "|", "·":
		return ";"
	}
	return t
}

// hash reads "#6", "#10", "# 12": the gauge of a wire, the size of a screw.
func (s *scanner) hash() bool {
	i := s.i
	if i+1 >= len(s.toks) || s.toks[i+1].kind != number {
		return false
	}
	n := s.low(i + 1)
	if isAught(n) && tight(s.toks, i+2, "/") && s.tightNumber(i+3) && s.low(i+3) == "0" {
		s.desig(n+"/0 AWG", "gauge", s.skipGauge(i+4))
		return true
	}
	if !isGauge(n) || tight(s.toks, i+2, "/") {
		s.put(atom{role: roleSkip, dim: "number"}, i+2)
		return true
	}
	if w := s.wordAhead(i+2, 3); w != nil && (w.Text == "screw" || w.Text == "anchor" || w.Text == "bolt") {
		s.desig("#"+n, "size", i+2)
		return true
	}
	s.desig(gaugeName(n), "gauge", s.skipGauge(i+2))
	return true
}

// skipGauge passes "AWG" or "ga" after a gauge.
func (s *scanner) skipGauge(i int) int {
	switch s.low(i) {
	case "awg", "ga", "gauge":
		return i + 1
	}
	return i
}

// wordAhead returns the first thing, part, material or trait among the next n tokens.
func (s *scanner) wordAhead(i, n int) *trade.Word {
	for j := i; j < len(s.toks) && j < i+n; j++ {
		if s.toks[j].kind != word {
			if l := s.toks[j].low; l == "," || l == ";" {
				break
			}
			continue
		}
		if w := s.wordAt1(j); w != nil {
			switch w.Class {
			case trade.ThingWord, trade.PartWord, trade.MaterialWord, trade.GenericWord:
				return w
			}
		}
	}
	return nil
}

// wordAt1 returns the word of the trade at token i, or nil.
func (s *scanner) wordAt1(i int) *trade.Word {
	if i < 0 || i >= len(s.toks) || s.toks[i].ent == nil || !s.toks[i].ent.Known {
		return nil
	}
	return &s.toks[i].ent.Word
}

// settle looks at the atoms once more, now that their neighbours are known.
func (s *scanner) settle() {
	for k := range s.out {
		a := &s.out[k]
		if a.role == roleUnit && a.text == "tube" && s.isTube(k) {
			a.role, a.text, a.dim, a.word = roleThing, "lamp", "", nil
		}
		if a.role == roleMark && a.text == "x" && s.sizedBy(k) {
			b := &s.out[k+1]
			by := strings.TrimSuffix(b.text, " in")
			if b.role == roleCount {
				by = s.value(b).String()
			}
			s.out[k-1].text = strings.TrimSuffix(s.out[k-1].text, " in") + "x" + by
			a.role, b.role = roleJoin, roleJoin
			continue
		}
		if a.role != roleCount || a.dim != "" {
			continue
		}
		if v := s.nums[a.num].small; (v == 90 || v == 45) && k > 0 && isRaceway(s.out[k-1].text) && s.lastOf(k) {
			a.role, a.text, a.num = rolePart, "elbow", -1 // "1/2 EMT 90"
			continue
		}
		n := s.nums[a.num]
		if n.form == digits && isAmps(n.small) && (s.polesAt(k-1) || s.polesAt(k+1)) {
			a.role, a.dim, a.text, a.guess = roleDesig, "amps", ampsName(n.small), true
			a.alt, a.num = a.num, -1
			if s.polesAt(k - 1) {
				a.guess, a.alt = false, -1 // "2-pole 30" counts nothing
			}
		}
	}
}

// lastOf reports whether nothing that could be counted follows atom k.
func (s *scanner) lastOf(k int) bool {
	return k+1 >= len(s.out) || s.out[k+1].role == roleMark || s.out[k+1].role == roleStop
}

// sizedBy reports whether the x at atom k joins the two sizes of a screw, a rod or the like:
// "#8 x 1 screws", "5/8 x 8 ground rod".
func (s *scanner) sizedBy(k int) bool {
	if k == 0 || k+2 >= len(s.out) || s.out[k-1].role != roleDesig || s.out[k-1].dim != "size" {
		return false
	}
	if b := &s.out[k+1]; b.role != roleDesig && b.role != roleCount || b.role == roleCount && b.dim != "" && b.dim != "ft" {
		return false
	}
	switch t := s.out[k+2].text; t {
	case "ground rod", "nipple", "threaded rod":
		return true
	default:
		return isFastener(t)
	}
}

func (s *scanner) polesAt(k int) bool {
	return k >= 0 && k < len(s.out) && (s.out[k].role == roleDesig && s.out[k].dim == "poles" || s.out[k].text == "tandem")
}

// value returns the number of a count.
func (s *scanner) value(a *atom) notes.Decimal { return s.nums[a.num].v }
