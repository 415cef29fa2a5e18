package field

import (
	"strconv"
	"strings"

	"jobday/trade"
)

// A numberedKind is a kind of place whose number names it. Where it is not sure the number may
// also count what follows: "office 3 recepts".
type numberedKind struct {
	name, dim string
	sure      bool
}

// placeKind returns the normal form of a word for numbered places and what it contradicts, "" for
// none. Sure says that a number after it never counts. Common practice, no source.
func placeKind(t string) (kind, dim string, sure bool) {
	switch t {
	case "unit", "units", "apt", "apts", "apartment", "apartments":
		return "unit", "unit", true
	case "suite", "suites", "ste":
		return "suite", "unit", true
	case "op", "ops", "operatory":
		return "op", "unit", true
	case "bay", "bays":
		return "bay", "unit", true
	case "bldg", "bldgs", "building", "buildings":
		return "building", "building", true
	case "room", "rooms", "rm", "rms":
		return "room", "unit", true
	case "floor", "level", "flr", "fl", "lvl":
		return "floor", "floor", true
	case "space", "spaces":
		return "space", "space", true
	case "aisle", "aisles", "slip", "slips", "pier", "berth", "lane", "lanes", "gate", "gates":
		return strings.TrimSuffix(t, "s"), "unit", true
	case "bedroom", "bed":
		return "bedroom", "bedroom", false
	case "bath":
		return "bath", "bathroom", false
	case "stall", "stalls", "door", "doors", "dock", "docks", "booth", "booths", "chairs", "offices", "zones":
		return strings.TrimSuffix(t, "s"), "unit", false
	case "house", "exam", "zone", "lot", "stair", "office", "chair", "ward", "cell", "kiosk", "station", "tower", "wing":
		return t, "unit", false
	}
	return "", "", false
}

// numberedPlace reads "unit 4", "units 4, 5 & 6", "apt 2B", "room #12", "aisle four".
func (s *scanner) numberedPlace(t string, p numberedKind) bool {
	j := skipDot(s.toks, s.i+1)
	if s.low(j) == "#" || s.low(j) == "no" {
		j++
	}
	number, end := s.placeNumber(j)
	if number == "" {
		return s.letteredPlace(p, j)
	}
	if !p.sure && s.countsThere(end) && !s.oneThere(end, number) {
		return false
	}
	first := len(s.low(j))
	if s.tightWord(end) && len(s.low(end)) == 1 {
		number += strings.ToUpper(s.low(end))
		end++
	}
	s.put(atom{role: rolePlace, text: p.name + " " + number, dim: p.dim}, end)
	if s.toks[j].kind != word {
		s.morePlaces(p, first, t[len(t)-1] == 's')
	}
	return true
}

// placeNumber reads a number in digits or words at token j and the token after it, "" for none.
func (s *scanner) placeNumber(j int) (string, int) {
	if j >= len(s.toks) {
		return "", j
	}
	switch t := &s.toks[j]; t.kind {
	case number:
		if len(t.low) > 5 || tight(s.toks, j+1, "/") || tight(s.toks, j+1, "\"") || tight(s.toks, j+1, "'") || lengthUnit(s.low(j+1)) {
			return "", j
		}
		return t.low, j + 1
	case word:
		if n, next := belowHundred(s.toks, j); n > 0 && j > s.i {
			return strconv.Itoa(n), next
		}
	}
	return "", j
}

// countsThere reports whether what follows a number makes it a count or a rating after all:
// "office 3 recepts".
func (s *scanner) countsThere(i int) bool {
	if i >= len(s.toks) || s.toks[i].kind != word {
		return false
	}
	if w := s.wordAt1(i); w != nil && w.Class != trade.StopWord && w.Class != trade.VerbWord {
		return true
	}
	return false
}

// placeThere reports whether another place stands at token i: "doors 1, 2 and 3 dock lights".
func (s *scanner) placeThere(i int) bool {
	w := s.wordAt1(i)
	return w != nil && w.Class == trade.PlaceWord
}

// oneThere reports whether a single thing follows a number above one, which then names the place:
// "stall 11 recept".
func (s *scanner) oneThere(i int, number string) bool {
	w := s.wordAt1(i)
	return number != "1" && w != nil && w.Class == trade.ThingWord && !w.Plural && len(s.low(i)) > 3
}

// letteredPlace reads "unit B" and "room A": one capital letter.
func (s *scanner) letteredPlace(p numberedKind, j int) bool {
	if p.dim != "unit" || !p.sure || j >= len(s.toks) || s.toks[j].kind != word || len(s.low(j)) != 1 || s.text[s.toks[j].start] == s.low(j)[0] {
		return false
	}
	s.put(atom{role: rolePlace, text: p.name + " " + strings.ToUpper(s.low(j)), dim: p.dim}, j+1)
	return true
}

// morePlaces reads the further numbers of "units 4, 5 & 6" and "room 505 and 506". Width is how
// many digits the first has: after one room, and before a thing, only numbers as long are rooms.
func (s *scanner) morePlaces(p numberedKind, width int, many bool) {
	for s.i+1 < len(s.toks) {
		switch s.low(s.i) {
		case ",", "&", "and", "/":
		default:
			return
		}
		n := &s.toks[s.i+1]
		alike := len(n.low) == width && width > 1
		if n.kind != number || !many && !alike || s.countsThere(s.i+2) && !(alike && width > 2) && !(many && s.placeThere(s.i+2)) || s.low(s.i+2) != ":" && s.ratedThere(s.i+2) || len(n.low) > 5 {
			return
		}
		s.i++
		s.put(atom{role: rolePlace, text: p.name + " " + s.low(s.i), dim: p.dim}, s.i+1)
	}
}

// isPlaceLabel reports whether letters right before a number name a kind of place: u4, rm505, fl2.
func isPlaceLabel(t string) bool {
	switch t {
	case "u", "rm", "apt", "unit", "bldg", "fl", "flr", "ste", "lvl":
		return true
	}
	return false
}

// tightPlace reads "u4", "rm505", "apt2B", the number standing at token j.
func (s *scanner) tightPlace(t string, j int) bool {
	if !isPlaceLabel(t) || len(s.low(j)) > 5 {
		return false
	}
	if t == "u" {
		t = "unit"
	}
	kind, dim, _ := placeKind(t)
	text, end := kind+" "+s.low(j), j+1
	if s.tightWord(end) && len(s.low(end)) == 1 {
		text += strings.ToUpper(s.low(end))
		end++
	}
	s.put(atom{role: rolePlace, text: text, dim: dim}, end)
	return true
}

// ordinalFloor reads "second floor".
func (s *scanner) ordinalFloor(t string) bool {
	n := 0
	switch t {
	case "first":
		n = 1
	case "second":
		n = 2
	case "third":
		n = 3
	case "fourth":
		n = 4
	case "fifth":
		n = 5
	default:
		return false
	}
	switch s.low(s.i + 1) {
	case "floor", "flr", "fl", "story", "level":
		s.put(atom{role: rolePlace, text: "floor " + strconv.Itoa(n), dim: "floor"}, s.i+2)
		return true
	}
	return false
}
