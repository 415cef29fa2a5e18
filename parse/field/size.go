package field

import (
	"strconv"

	"jobday/notes"
	"jobday/trade"
)

// measured reads what follows a number and says what it is a number of.
func (s *scanner) measured(n num) {
	j := n.next
	if j >= len(s.toks) {
		s.plain(n)
		return
	}
	if s.toks[j].kind == symbol {
		s.marked(n)
		return
	}
	if s.rating(n, j) || s.inches(n) {
		return
	}
	if unit, next := s.unitAt(j); unit != "" {
		s.unitOf(n, unit, next)
		return
	}
	s.plain(n)
}

// marked reads a number with a mark after it: 4", 40', 50 %, 90°, 2-pole, 6-outlet.
func (s *scanner) marked(n num) {
	j := n.next
	t := s.toks[j]
	if s.inches(n) {
		return
	}
	switch {
	case feetMark(t.low) && !t.spaced && s.tightWord(j+1) && s.low(j+1) == "s" && (n.small == 90 || n.small == 45) && s.numberPlural(n, j+1): // "2 90's"
	case feetMark(t.low) && !t.spaced && s.tightWord(j+1) && s.low(j+1) == "s" && s.ratedOnes(n, j+2): // "six 50's"
	case feetMark(t.low) && !t.spaced:
		s.unitOf(n, "ft", j+1)
	case t.low == "#" && !t.spaced && !s.tightNumber(j+1):
		s.count(n, "lb", j+1)
	case t.low == "%" && s.low(j+1) == "of" && (s.low(j+2) == "a" || s.low(j+2) == "the") && n.small > 0 && n.small <= 100:
		n.v, n.small, n.form = n.v.Quo(notes.Int(100), 2), -1, spelled // "75% of a roll"
		s.count(n, "", j+3)
	case t.low == "%":
		s.put(atom{role: roleSkip, dim: "percent"}, j+1)
	case t.low == "°":
		s.desig(strconv.Itoa(max(n.small, 0))+"°", "angle", j+1)
	case (t.low == "-" || t.low == "–") && !t.spaced && s.tightWord(j+1):
		s.hyphened(n, j+1)
	default:
		s.plain(n)
	}
}

// inches reads a number with inches after it as a size. "4 in squares" is a size, "4 in kitchen"
// is not.
func (s *scanner) inches(n num) bool {
	j := n.next
	next := s.inchesAt(j)
	if tight(s.toks, j, "-") {
		if next = s.inchesAt(j + 1); next == 0 && s.low(j+1) == "in" {
			next = skipDot(s.toks, j+2)
		}
	}
	if next == 0 && s.low(j) == "in" {
		switch w := s.wordAt1(skipDot(s.toks, j+1)); {
		case n.form == fraction, tight(s.toks, j+1, ".") && j+2 < len(s.toks):
			next = skipDot(s.toks, j+1)
		case w != nil && n.v.Cmp(notes.Int(12)) <= 0 && sizedWord(w):
			next = j + 1
		}
	}
	if next == 0 && s.low(j) == "in" && (s.sizeWanted() || s.racewayBefore()) && (j+1 >= len(s.toks) || s.low(j+1) == "," || s.low(j+1) == ";" || s.low(j+1) == ")") {
		next = j + 1 // a preposition would have its object here
	}
	if next == 0 || n.form == article {
		return false
	}
	s.size(n, next)
	return true
}

// sizeWanted reports whether what was named last comes in inches and has its count: then "1 in" at
// the end is a size and not "one is in".
func (s *scanner) sizeWanted() bool {
	sized, counted := false, false
	for k := len(s.out) - 1; k >= 0 && k > len(s.out)-8; k-- {
		switch a := &s.out[k]; a.role {
		case rolePart, roleKind, roleGeneric:
			sized = true
		case roleThing:
			return false
		case roleCount:
			counted = true
		}
	}
	return sized && counted
}

// racewayBefore reports whether a raceway was named right before: nobody says that one EMT is in.
func (s *scanner) racewayBefore() bool {
	k := len(s.out) - 1
	return k >= 0 && (isRaceway(s.out[k].text) || s.out[k].text == "conduit" || s.out[k].text == "cable tray")
}

// sizedWord reports whether what a word names comes in inches, so that "in" before it is a size.
func sizedWord(w *trade.Word) bool {
	switch w.Class {
	case trade.MaterialWord, trade.PartWord, trade.GenericWord:
		return true
	case trade.TraitWord:
		return w.Text == "square" || w.Text == "octagon" || w.Text == "round" || w.Text == "deep"
	case trade.PackageWord:
		return w.Text == "box"
	case trade.MeansWord:
		return w.Text == "recessed fixture"
	case trade.ThingWord:
		return w.Text == "box" || w.Text == "gutter" || w.Text == "wafer"
	}
	return false
}

// unitOf reads a measure; feet may have inches after them, and a hyphen or a whip makes a length
// of the thing of them.
func (s *scanner) unitOf(n num, unit string, next int) {
	if unit == "ft" {
		n, next = s.feetAndInches(n, next)
	}
	s.count(n, unit, next)
}

// sizedAt reports whether what stands at token i comes in inches: "10' 1\" EMT" is ten feet.
func (s *scanner) sizedAt(i int) bool {
	w := s.wordAt1(i)
	return w != nil && sizedWord(w)
}

// plain enters a number with nothing after it that says what it is.
func (s *scanner) plain(n num) {
	if n.form == fraction && s.bareSize(n) {
		return
	}
	if n.form == digits && s.bareGauge(n) || s.range2(n) {
		return
	}
	if n.form == digits && n.small >= 60 && isAmps(n.small) && s.mainAhead(s.i) {
		s.amps(n.small, n.next) // "200 main"
		return
	}
	s.count(n, "", n.next)
}

// bareSize reads a fraction without an inch mark: "3/4 EMT", "1 1/2 strap". It is a size unless a
// package follows it.
func (s *scanner) bareSize(n num) bool {
	if s.low(n.next) == "of" {
		return false
	}
	if w := s.wordAt1(n.next); w != nil && w.Class == trade.PackageWord && !s.setScrew(n.next) {
		if many := s.wordAt1(n.next + 1); w.Text != "box" || s.low(n.next+1) == "of" || many != nil && many.Plural {
			return false // half a box of them
		}
	}
	if n.next < len(s.toks) && notCounted(s.low(n.next)) {
		return false
	}
	s.size(n, n.next)
	return true
}

// setScrew reports whether "set screw" stands at token i.
func (s *scanner) setScrew(i int) bool {
	if s.low(i) != "set" {
		return false
	}
	if s.low(i+1) == "-" {
		i++
	}
	return s.low(i+1) == "screw"
}

// size enters a size that ends before token next. A whole number and a fraction parted by white
// space are one size when such a size exists, else a count and a size: "4 1/2 connectors" are
// four. Where both can be meant the count is kept as the other reading.
func (s *scanner) size(n num, next int) {
	i := s.i
	text := sizeText(n.v)
	dash := tight(s.toks, i+1, "-") && s.tightNumber(i+2) && tight(s.toks, i+3, "/")
	if n.form != fraction || i+1 >= len(s.toks) || s.toks[i].kind != number || !dash && s.toks[i+1].kind != number {
		s.desig(text+" in", "size", next)
		return
	}
	whole, _ := wholeNum(s.low(i))
	at := i + 1
	if dash {
		at = i + 2
	}
	f, ok := fractionAt(s.toks, at)
	switch {
	case dash && (!ok || s.fastens(next) || isTradeSize(text) || text == "4-11/16" || !isTradeSize(sizeText(f.v))):
		s.desig(text+" in", "size", next)
	case ok && (tight(s.toks, f.next, "x") || tight(s.toks, f.next, "-")) && s.tightNumber(f.next+1):
		s.count(whole, "", i+1) // four of a thread: "4 1/4-20"
	case ok && !isMixedSize(text) && !s.fastens(next):
		s.count(whole, "", i+1)
		s.i = at
		s.desig(sizeText(f.v)+" in", "size", next)
	case len(s.nums) < maxNums && (text == "1-1/2" || text == "2-1/2" || text == "3-1/2"):
		s.nums = append(s.nums, whole)
		s.put(atom{role: roleDesig, text: text + " in", dim: "size", guess: true, alt: int8(len(s.nums) - 1)}, next)
	default:
		s.desig(text+" in", "size", next)
	}
}

// isMixedSize reports whether a whole number and a fraction are a size boxes or raceways come in.
// Common practice, no source.
func isMixedSize(text string) bool {
	switch text {
	case "4-11/16", "2-1/8", "1-5/8", "1-7/8":
		return true
	}
	return isTradeSize(text)
}

// fastens reports whether a fastener is named around a size: they come in all lengths.
func (s *scanner) fastens(i int) bool {
	if k := len(s.out) - 1; k >= 0 && s.out[k].role == roleMark && s.out[k].text == "x" {
		return true
	}
	w := s.wordAhead(i, 3)
	return w != nil && isFastener(w.Text)
}

func isFastener(text string) bool {
	switch text {
	case "screw", "bolt", "anchor", "lag", "nail", "toggle bolt", "staple":
		return true
	}
	return false
}

// bareGauge reads "12 THHN", "10 stranded" and ".75 EMT".
func (s *scanner) bareGauge(n num) bool {
	w := s.wordAt1(n.next)
	if w == nil {
		return false
	}
	switch {
	case n.small > 0 && n.next == s.i+1 && isGauge(s.low(s.i)) && bareWire(w) && (s.countElsewhere(n.next) || s.wireBefore()):
		s.desig(gaugeName(s.low(s.i)), "gauge", n.next)
		return true
	case n.small < 0 && w.Class == trade.MaterialWord && isTradeSize(sizeText(n.v)):
		s.desig(sizeText(n.v)+" in", "size", n.next)
		return true
	}
	return false
}

// wireBefore reports whether wire was named right before: "wire 12 solid".
func (s *scanner) wireBefore() bool {
	k := len(s.out) - 1
	return k >= 0 && s.out[k].text == "wire"
}

func bareWire(w *trade.Word) bool {
	switch w.Text {
	case "THHN", "XHHW", "MTW", "stranded", "solid", "bare", "copper":
		return true
	}
	return false
}

// countElsewhere reports whether another number can be the count of what starts at token i, before
// the next comma: then the one before it belongs to the thing.
func (s *scanner) countElsewhere(i int) bool {
	if k := len(s.out) - 1; k >= 0 && s.out[k].role == roleCount {
		return true
	}
	if k := len(s.out) - 1; k >= 1 && s.out[k].role == roleStop || s.low(s.i-1) == "of" {
		return true
	}
	for j := i; j < len(s.toks) && j < i+8; j++ {
		switch t := s.toks[j]; {
		case t.low == "," || t.low == ";" || t.low == ".":
			return false
		case t.kind == number:
			return true
		}
	}
	return s.i == 0 || s.toks[s.i-1].kind == symbol
}
