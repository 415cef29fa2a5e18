package field

import (
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/trade"
)

// number reads what starts with digits: a designation, a measure or a plain number.
func (s *scanner) number() {
	if s.low(s.i) == "1900" && s.phrase() || s.clockOrDate() || s.cross() || s.slashed() || s.dashed() {
		return
	}
	if s.i+2 < len(s.toks) && s.toks[s.i+1].low == "e" && !s.toks[s.i+1].spaced && s.tightNumber(s.i+2) {
		_, end := s.unitAt(s.i + 3)
		s.put(atom{role: roleSkip}, end) // "1e9 ft" is a slip of the pen, not a count
		return
	}
	n, ok := readNum(s.toks, s.i)
	if !ok {
		s.put(atom{role: roleSkip}, s.i+1)
		return
	}
	if w := s.low(n.next); n.form == fraction && (w == "a" || w == "an") {
		n.next, n.form = n.next+1, spelled // "1/2 a box"
	}
	if w := s.low(n.next + 1); n.form == fraction && s.low(n.next) == "of" && (w == "a" || w == "an") {
		n.next, n.form = n.next+2, spelled // "3/4 of a roll"
	}
	s.measured(n)
}

// clockOrDate passes 10:40, 2026-03-12, 3/12/26 and versions: numbers that count nothing.
func (s *scanner) clockOrDate() bool {
	i := s.i
	mark := s.low(i + 1)
	if !s.tightNumber(i+2) || s.toks[i+1].spaced {
		return false
	}
	switch {
	case mark == ":":
		s.put(atom{role: roleSkip, dim: "time"}, i+3)
		return true
	case (mark == "-" || mark == "/" || mark == ".") && tight(s.toks, i+3, mark) && s.tightNumber(i+4):
		end := i + 5
		for tight(s.toks, end, mark) && s.tightNumber(end+1) {
			end += 2
		}
		if mark == "/" && s.cableSet(end) {
			s.desig(s.text[s.toks[i].start:s.toks[end-1].end], "wires", end)
			return true
		}
		s.put(atom{role: roleSkip, dim: "date"}, end)
		return true
	}
	return false
}

// cableSet reports whether a run such as 2/2/2/4 names the wires of a service cable.
func (s *scanner) cableSet(end int) bool {
	w := s.wordAhead(end, 3)
	return w != nil && (w.Text == "SER" || w.Text == "SEU" || w.Text == "USE")
}

// cross reads 2x4, 12x12x6 as one size; "3x 15A" and "2x25 ft" are left to the count.
func (s *scanner) cross() bool {
	i := s.i
	if s.tileInFeet() || s.spacedTile() {
		return true
	}
	if !s.crossAt(i + 1) {
		return false
	}
	end := i + 3
	for s.crossAt(end) {
		end += 2
	}
	a, b := s.low(i), s.low(end-1)
	if end == i+3 {
		if unit, _ := s.unitAt(end); unit == "ft" && !isTile(a, b) {
			return false
		}
		if s.tightWord(end) && s.low(end) != "s" && s.low(end) != "in" || tight(s.toks, end, "/") || tight(s.toks, end, ".") {
			return false
		}
	}
	var text strings.Builder
	for j := i; j < end; j += 2 {
		if j > i {
			text.WriteByte('x')
		}
		text.WriteString(s.toks[j].low)
	}
	if u, next := s.unitAt(end); u == "ft" && isTile(a, b) {
		end = next
	} else if next := s.inchesAt(end); next > 0 && !s.toks[end].spaced {
		end = next
	}
	plural := s.tightWord(end) && s.low(end) == "s"
	if plural {
		end++
	}
	s.put(atom{role: roleDesig, text: text.String(), dim: "size", plural: plural}, end)
	return true
}

// tileInFeet reads 2'x4' as 2x4.
func (s *scanner) tileInFeet() bool {
	i := s.i
	if i+3 >= len(s.toks) || !feetMark(s.low(i+1)) || s.toks[i+1].spaced || !s.crossAt(i+2) || !isTile(s.low(i), s.low(i+3)) {
		return false
	}
	end := i + 4
	if end < len(s.toks) && feetMark(s.low(end)) && !s.toks[end].spaced {
		end++
	}
	s.desig(s.low(i)+"x"+s.low(i+3), "size", end)
	return true
}

// crossAt reports whether "x4" stands at token i with no white space.
func (s *scanner) crossAt(i int) bool {
	return i < len(s.toks) && !s.toks[i].spaced && (s.toks[i].low == "x" || s.toks[i].low == "×") && s.tightNumber(i+1)
}

// isTile reports whether a by b feet is a size ceiling fixtures come in.
func isTile(a, b string) bool {
	return len(a) == 1 && len(b) == 1 && a[0] >= '1' && a[0] <= '2' && (b[0] == '1' || b[0] == '2' || b[0] == '4')
}

// slashed reads what is written with a slash: 12/2, 120/240, 40/80, 30/2, 4/0.
func (s *scanner) slashed() bool {
	i := s.i
	if !tight(s.toks, i+1, "/") || !s.tightNumber(i+2) {
		return false
	}
	a, b, end := s.low(i), s.low(i+2), i+3
	na, errA := strconv.Atoi(a)
	nb, errB := strconv.Atoi(b)
	if errA != nil || errB != nil {
		return false
	}
	if n, _, next, ok := tally(s.toks, i); ok && !s.panelAhead(end) && !s.hasCount() {
		a := atom{role: roleMark, text: "x", num: -1, alt: -1, start: int32(s.toks[i].start), end: int32(s.toks[i].start)}
		s.out = append(s.out, a) // the thing stands before it
		s.count(spelledNum(n, next), "", next)
		return true
	}
	_, proper := fractionAt(s.toks, i)
	switch {
	case b == "0" && isAught(a):
		if last := s.aughts(end); last > end {
			s.desig(s.text[s.toks[i].start:s.toks[last-1].end], "wires", last)
			return true
		}
		s.desig(a+"/0 AWG", "gauge", s.skipGauge(end))
	case isVoltPair(na, nb):
		s.desig(voltPair(na, nb), "volts", s.skipUnit(end, "v", "volt", "volts", "vac"))
	case proper:
		return false
	case isGauge(a) && nb >= 1 && nb <= 12 && (na > nb || s.cableNear(end)):
		s.desig(a+"/"+b, "gauge-count", s.skipGround(end))
	case isAmps(na) && nb >= 1 && nb <= 3:
		s.amps(na, i+1)
		s.i++ // the slash
		s.desig(polesName(nb), "poles", s.skipUnit(end, "p", "pole", "poles"))
	case nb > na && na >= 2 && na%2 == 0 && nb <= 84 && s.panelAhead(end):
		s.desig(a+"/"+b, "spaces", s.skipUnit(end, "space", "spaces", "circuit"))
	default:
		s.put(atom{role: roleSkip, text: a + "/" + b}, end)
	}
	return true
}

// hasCount reports whether what stands before has its count: "2 disconnects 30/60".
func (s *scanner) hasCount() bool {
	for k := len(s.out) - 1; k >= 0 && s.out[k].role != roleMark; k-- {
		if s.out[k].role == roleCount && s.out[k].dim == "" && k == 0 {
			return true
		}
	}
	return false
}

// panelAhead reports whether a panel is named around: then numbers may be its spaces.
func (s *scanner) panelAhead(i int) bool {
	for k := len(s.out) - 1; k >= 0 && k >= len(s.out)-6 && (s.out[k].role != roleMark || s.out[k].text == ","); k-- {
		if t := s.out[k].text; t == "panel" || t == "subpanel" {
			return true
		}
	}
	for j := i; j < i+4; j++ {
		if w := s.wordAt1(j); w != nil && (w.Text == "panel" || w.Text == "subpanel") {
			return true
		}
		switch s.low(j) {
		case "load", "space", "spaces":
			return true
		}
	}
	return false
}

// aughts passes the further wires of a cable: the "-4/0-2/0" of 4/0-4/0-2/0.
func (s *scanner) aughts(i int) int {
	for tight(s.toks, i, "-") && s.tightNumber(i+1) {
		i += 2
		if tight(s.toks, i, "/") && s.tightNumber(i+1) {
			i += 2
		}
	}
	return i
}

func (s *scanner) amps(n, next int) { s.desig(ampsName(n), "amps", next) }

// skipUnit passes one of the words at token i, tight or not, with a hyphen or not.
func (s *scanner) skipUnit(i int, words ...string) int {
	j := i
	if tight(s.toks, j, "-") {
		j++
	}
	for _, w := range words {
		if s.low(j) == w {
			return j + 1
		}
	}
	return i
}

// skipGround passes "wg", "w/g", "w/ ground", "+g" after a conductor count: the cables of the
// trade have a ground.
func (s *scanner) skipGround(i int) int {
	j := i
	switch {
	case s.low(j) == "wg":
		return j + 1
	case s.low(j) == "w" && tight(s.toks, j+1, "/"):
		j += 2
	case s.low(j) == "with":
		j++
	case (tight(s.toks, j, "/") || tight(s.toks, j, "+")) && s.tightWord(j+1):
		j++
	default:
		return i
	}
	if next := s.passGround(j); next > j {
		return next
	}
	return i
}

// passGround passes "ground" after "with": every cable has one, so it tells nothing apart.
func (s *scanner) passGround(i int) int {
	switch s.low(i) {
	case "g", "gnd", "grd", "ground":
		return i + 1
	}
	return i
}

func isVoltPair(a, b int) bool {
	switch [2]int{a, b} {
	case [2]int{120, 240}, [2]int{240, 120}, [2]int{120, 208}, [2]int{120, 277}, [2]int{208, 120}, [2]int{277, 480},
		[2]int{480, 277}, [2]int{110, 220}, [2]int{115, 230}, [2]int{347, 600}, [2]int{208, 240}:
		return true
	}
	return false
}

func voltPair(a, b int) string {
	return strconv.Itoa(min(a, b)) + "/" + strconv.Itoa(max(a, b)) + "V"
}

// cableNear reports whether a kind of cable is named right after token i or right before s.i.
func (s *scanner) cableNear(i int) bool {
	for j := i; j < i+3; j++ {
		if j > i && s.low(j) == "x" {
			break
		}
		if w := s.wordAt1(j); w != nil {
			if isCable(w) || s.low(j) == "bx" { // a box and, after a conductor count, armored cable
				return true
			}
		}
	}
	w := s.wordAt1(s.i - 1)
	return w != nil && isCable(w)
}

// lengthBefore reports whether a length stands before the next token, or work that takes wire: "20 ft
// of 6-3", "pulled 6-3".
func (s *scanner) lengthBefore() bool {
	k := len(s.out) - 1
	if k >= 0 && s.out[k].role == roleJoin {
		k--
	}
	if k < 0 {
		return false
	}
	switch a := &s.out[k]; a.role {
	case roleCount:
		return a.dim == string(notes.Foot)
	case roleUnit:
		return a.dim == string(notes.Foot)
	case roleVerb:
		return a.dim == "pull"
	}
	return false
}

func isCable(w *trade.Word) bool {
	switch w.Text {
	case "NM", "MC", "AC", "UF", "SER", "SEU", "SO", "USE", "cable", "cord", "whip":
		return true
	}
	return false
}

// dashed reads 12-2 as cable, 14-50 as a receptacle's configuration, 1/4-20 as a thread; 2-3
// before a thing is two or three of it.
func (s *scanner) dashed() bool {
	i := s.i
	if f, ok := fractionAt(s.toks, i); ok && (tight(s.toks, f.next, "-") || tight(s.toks, f.next, "x")) &&
		s.tightNumber(f.next+1) && !tight(s.toks, f.next+2, "/") {
		s.desig(s.text[s.toks[i].start:s.toks[f.next+1].end], "thread", f.next+2)
		return true
	}
	if s.spacedCable() {
		return true
	}
	if d := s.low(i + 1); d != "-" && d != "–" || s.toks[i+1].spaced || !s.tightNumber(i+2) {
		return false
	}
	a, b, end := s.low(i), s.low(i+2), i+3
	na, _ := strconv.Atoi(a)
	nb, _ := strconv.Atoi(b)
	if _, mixed := addedFraction(s.toks, i+1); mixed {
		return false
	}
	switch {
	case na > 0 && na < 100 && !isAmps(na) && s.ratedRightAt(end): // "4-20A breakers" are four
		n, _ := wholeNum(a)
		s.count(n, "", i+1)
		s.i = i + 2
		s.number()
	case isGauge(a) && nb >= 2 && nb <= 4 && na > nb && (na == 12 || na == 14 || s.cableNear(end) || s.skipGround(end) > end || s.lengthBefore()):
		s.desig(a+"/"+b, "gauge-count", s.skipGround(end))
	case isThread(na, nb) && s.fastens(end):
		s.desig(a+"-"+b, "thread", end)
	case isNEMA(na, nb):
		s.desig(a+"-"+b+s.nemaEnd(end), "nema", s.skipUnit(end, "r", "p"))
	case na > 0 && na < nb && len(b) <= 3 && s.startsThing(end):
		s.either(na, nb, end)
	default:
		s.put(atom{role: roleSkip, text: a + "-" + b}, end)
	}
	return true
}

// ratedRightAt reports whether a rating or an inch mark stands right after a number.
func (s *scanner) ratedRightAt(i int) bool {
	if i >= len(s.toks) || s.toks[i].spaced {
		return false
	}
	switch l := s.low(i); l {
	case "a", "amp", "amps", "p", "pole", "g", "gang", "v", "w", "watt", "in", "inch":
		return true
	default:
		return inchMark(l)
	}
}

// spacedCable reads "12 2 MC" and "10 3 romex".
func (s *scanner) spacedCable() bool {
	i := s.i
	a, b := s.low(i), s.low(i+1)
	if i+2 >= len(s.toks) || s.toks[i+1].kind != number || len(b) != 1 || b < "2" || b > "4" || !isGauge(a) || len(a) < 2 {
		return false
	}
	w := s.wordAt1(i + 2)
	if w == nil || !isCable(w) || w.Class == trade.PackageWord {
		return false
	}
	s.desig(a+"/"+b, "gauge-count", s.skipGround(i+2))
	return true
}

// either reads "2-3" and "2 or 3": the first as the count, the second as another honest reading.
func (s *scanner) either(a, b, next int) {
	if len(s.nums)+2 > maxNums {
		s.put(atom{role: roleSkip}, next)
		return
	}
	s.nums = append(s.nums, spelledNum(a, 0), spelledNum(b, 0))
	unit, end := s.unitAt(next)
	if unit == "" {
		end = next
	}
	s.put(atom{role: roleCount, num: int8(len(s.nums) - 2), alt: int8(len(s.nums) - 1), guess: true, dim: unit}, end)
}

// range2 reads "2 or 3 boxes" and "20 to 25 ft" as either of two counts.
func (s *scanner) range2(n num) bool {
	if w := s.low(n.next); w != "or" && w != "to" || n.small < 1 {
		return false
	}
	m, ok := readNum(s.toks, n.next+1)
	if !ok || m.small <= n.small || !s.startsThing(m.next) {
		return false
	}
	s.either(n.small, m.small, m.next)
	return true
}

// startsThing reports whether a thing, its unit or its properties may start at token i.
func (s *scanner) startsThing(i int) bool {
	if unit, _ := s.unitAt(i); unit != "" {
		return true
	}
	w := s.wordAt1(i)
	if w == nil {
		return false
	}
	switch w.Class {
	case trade.StopWord, trade.PlaceWord, trade.VerbWord:
		return false
	}
	return true
}

// isThread reports whether a-b is a machine screw's number and threads to the inch, such as 6-32.
// ASME B1.1, from memory.
func isThread(a, b int) bool {
	switch [2]int{a, b} {
	case [2]int{4, 40}, [2]int{6, 32}, [2]int{8, 32}, [2]int{10, 24}, [2]int{10, 32}, [2]int{12, 24}:
		return true
	}
	return false
}

// isNEMA reports whether a-b is a plug and receptacle configuration, such as 14-50.
// ANSI/NEMA WD 6, from memory.
func isNEMA(a, b int) bool {
	switch b {
	case 15, 20, 30, 50, 60:
	default:
		return false
	}
	return a == 5 || a == 6 || a == 10 || a == 14
}

// nemaEnd returns the letter of a plug; that of a receptacle is what everybody means.
func (s *scanner) nemaEnd(i int) string {
	if s.tightWord(i) && s.low(i) == "p" {
		return "P"
	}
	return ""
}
