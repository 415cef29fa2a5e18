package field

import (
	"strconv"

	"jobday/notes"
	"jobday/trade"
)

// spoken reads sizes as people say them: "inch and a quarter", "two by four", "four aught",
// "number ten".
func (s *scanner) spoken(t string) bool {
	switch t {
	case "inch":
		return s.inchAnd()
	case "number", "no":
		return s.numberGauge()
	}
	n := unitWord(t)
	return n > 0 && n <= 4 && (s.saidAught(n) || s.saidTile(n))
}

// inchAnd reads "inch and a quarter" as 1-1/4 in.
func (s *scanner) inchAnd() bool {
	if l := s.low(s.i + 1); l != "and" && l != "&" && l != "n" {
		return false
	}
	n, ok := partOf(s.toks, s.i+2)
	if !ok {
		return false
	}
	s.desig(sizeText(n.v.Add(one))+" in", "size", n.next)
	return true
}

// numberGauge reads "number ten thhn" and "number 12 green" as a wire's gauge.
func (s *scanner) numberGauge() bool {
	n, ok := readNum(s.toks, s.i+1)
	if !ok || n.small < 1 || n.form == article || !isGauge(strconv.Itoa(n.small)) {
		return false
	}
	w := s.wordAt1(n.next)
	if w == nil || !bareWire(w) && w.Class != trade.ColourWord && w.Text != "wire" && w.Text != "ground" {
		return false
	}
	s.desig(gaugeName(strconv.Itoa(n.small)), "gauge", n.next)
	return true
}

// saidAught reads "four aught" as 4/0 AWG, however people spell it.
func (s *scanner) saidAught(n int) bool {
	switch s.low(s.i + 1) {
	case "aught", "aughts", "ought", "oughts", "ott", "otts", "naught":
		s.desig(strconv.Itoa(n)+"/0 AWG", "gauge", s.skipGauge(s.i+2))
		return true
	}
	return false
}

// saidTile reads "two by four troffers" as 2x4.
func (s *scanner) saidTile(n int) bool {
	if l := s.low(s.i + 1); l != "by" && l != "x" {
		return false
	}
	b := unitWord(s.low(s.i + 2))
	if b < 0 || !isTile(strconv.Itoa(n), strconv.Itoa(b)) {
		return false
	}
	s.desig(strconv.Itoa(n)+"x"+strconv.Itoa(b), "size", s.i+3)
	return true
}

// spacedTile reads "2 x 4 troffers" and "2 by 4 lay-ins" as a size where such a fixture follows.
func (s *scanner) spacedTile() bool {
	i := s.i
	mark := s.low(i + 1)
	if mark != "x" && mark != "×" && mark != "by" || i+3 >= len(s.toks) || s.toks[i+2].kind != number || !isTile(s.low(i), s.low(i+2)) {
		return false
	}
	if !s.layInAhead(i + 3) {
		return false
	}
	s.desig(s.low(i)+"x"+s.low(i+2), "size", i+3)
	return true
}

// layInAhead reports whether a fixture that lies in a ceiling grid is named from token i on.
func (s *scanner) layInAhead(i int) bool {
	for j := i; j < i+4; j++ {
		switch s.low(j) {
		case "flat", "panel", "panels", "lay", "grid":
			return true
		}
		if w := s.wordAt1(j); w != nil && (w.Text == "troffer" || w.Text == "fixture") {
			return true
		}
	}
	return false
}

// feetAndInches reads the inches behind feet: 6'6", 22'-6", eleven feet six inches.
func (s *scanner) feetAndInches(n num, next int) (num, int) {
	at := next
	if tight(s.toks, at, "-") && s.tightNumber(at+1) {
		at++
	}
	if at >= len(s.toks) || s.toks[at].kind == symbol {
		return n, next
	}
	in, ok := readNum(s.toks, at)
	if !ok || in.form == article || in.v.Cmp(notes.Int(12)) >= 0 {
		return n, next
	}
	end := s.inchesAt(in.next)
	if end == 0 && s.low(in.next) == "in" && in.form == spelled {
		end = in.next + 1
	}
	if end == 0 && s.low(in.next) == "in" && s.low(in.next+1) == "of" {
		end = in.next + 1 // "8ft 6in of strut"
	}
	if end > 0 && !(s.toks[at].spaced && s.sizedAt(end)) {
		n.v, n.small = n.v.Add(in.v.Quo(notes.Int(12), 6)), -1
		return n, end
	}
	return n, next
}

// isTube reports whether the tube at atom k is a lamp: "T8 LED tubes", and not one of caulk.
func (s *scanner) isTube(k int) bool {
	for j := k - 1; j >= 0 && j >= k-3; j-- {
		switch a := &s.out[j]; {
		case a.role == roleTrait && (a.text == "LED" || a.text == "fluorescent"):
			return true
		case a.role == roleDesig && len(a.text) <= 3 && (a.text[0] == 'T' || a.text[0] == 't'):
			return true
		case a.role != roleTrait && a.role != roleDesig && a.role != roleColour:
			return false
		}
	}
	return false
}
