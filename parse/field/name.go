package field

import (
	"strings"

	"jobday/trade"
)

// Name returns the normal form of a thing's name: "12/2 MC", "20A 1P breaker", "3/4 in EMT".
// Designations come first, then colours and properties, then what it is, in the singular.
// It is the same for a price row, an allowance and a jotted line; "" when text names nothing.
func Name(text string) string { return NameIn(text, trade.Words{}) }

// NameIn is Name with the shop's own words.
func NameIn(text string, words trade.Words) string {
	w := begin(text)
	defer w.end()
	w.atoms(words)
	var keep [40]int
	return w.scan.nameOf(w.scan.whole(keep[:0]))
}

// whole picks the atoms of a text that is nothing but a name: a number at its start and the size
// of a package are left out, and so is what follows "for" or "in" once the thing is named.
func (s *scanner) whole(keep []int) []int {
	headed, on := false, true
	for k := range s.out {
		a := &s.out[k]
		switch a.role {
		case roleMark:
			on = on || a.text == "," || a.text == "("
		case roleStop:
			on = on && !headed
		case roleCount:
			if on && s.lengthOf(k) {
				a.role, a.text, a.dim = roleDesig, lengthText(s.value(a)), "length"
				keep = append(keep, k)
			} else if on && a.dim == "" && k > 0 && s.nums[a.num].form == digits && !s.packSize(k) {
				a.role, a.text = roleUnknown, s.value(a).String()
				keep = append(keep, k)
			}
		case roleJoin, roleAbout, roleSkip:
		default:
			if on {
				keep = append(keep, k)
				headed = headed || a.isHead()
			}
		}
	}
	return keep
}

// packSize reports whether a number says how many a package holds: "box of 100", "100 pk".
func (s *scanner) packSize(k int) bool {
	if k+1 < len(s.out) && s.out[k+1].role == roleUnit {
		return true
	}
	return s.out[k-1].role == roleUnit || s.out[k-1].role == roleJoin
}

// lengthOf reports whether a measure in feet is the length of a thing that is bought by the piece.
func (s *scanner) lengthOf(k int) bool {
	if s.out[k].dim != "ft" {
		return false
	}
	for j := range s.out {
		switch a := &s.out[j]; a.role {
		case roleUnit:
			return false
		case roleThing, rolePart:
			if isPiece(a.text) {
				return true
			}
		}
	}
	return false
}

// isPiece reports whether a thing has a length of its own and is bought by the piece.
// Common practice, no source.
func isPiece(text string) bool {
	switch text {
	case "whip", "ground rod", "lamp", "troffer", "strip light", "fixture", "gutter", "jumper",
		"bonding jumper", "pigtail", "post", "pole light", "nipple", "tie", "high bay", "wall pack":
		return true
	}
	return false
}

func (a *atom) isHead() bool {
	switch a.role {
	case roleThing, rolePart, roleKind, roleGeneric:
		return true
	case roleUnit:
		return a.text == "box"
	}
	return false
}

// rank says how strongly an atom heads a name.
func (a *atom) rank() int {
	switch a.role {
	case rolePart:
		return 6
	case roleThing:
		if a.text == "GFCI" || a.text == "AFCI" {
			return 3
		}
		return 4
	case roleUnit:
		return 4
	case roleKind:
		return 2
	case roleGeneric:
		return 1
	}
	return 0
}

// nameOf builds the normal form from the atoms picked.
func (s *scanner) nameOf(keep []int) string {
	head, kind, place := -1, false, -1
	for _, k := range keep {
		a := &s.out[k]
		kind = kind || a.role == roleKind || a.dim == "gauge-count"
		switch {
		case a.role == rolePlace:
			place = k
		case a.role == roleUnit && a.text != "box":
		case a.isHead() && (head < 0 || a.rank() >= s.out[head].rank() && !s.says(head, a.text)):
			head = k
		}
	}
	if head >= 0 && kind && s.out[head].role == roleGeneric && s.out[head].text != "conduit" || head >= 0 && kind && s.out[head].text == "conduit" && s.kindOf(keep) {
		head = -1
		for _, k := range keep {
			if s.out[k].role == roleKind {
				head = k
			}
		}
	}
	b := make([]byte, 0, 48)
	for _, k := range keep {
		if a := &s.out[k]; a.role == roleVerb {
			b = add(b, a.text)
		}
	}
	b = s.designations(b, keep)
	b = s.attributes(b, keep, head, kind)
	switch {
	case head >= 0:
		b = add(b, s.out[head].text)
		b = s.implied(b, keep, head)
		for _, k := range keep {
			if k > head && s.out[k].role == roleUnknown {
				b = add(b, s.out[k].text) // "doorbell button"
			}
		}
	case len(keep) > 0:
		b = s.implied(b, keep, head)
	}
	if len(b) == 0 && place >= 0 {
		return s.out[place].text
	}
	return string(b)
}

// kindOf reports whether a kind of cable or raceway was picked.
func (s *scanner) kindOf(keep []int) bool {
	for _, k := range keep {
		if s.out[k].role == roleKind {
			return true
		}
	}
	return false
}

// add appends a word unless it is there already.
func add(b []byte, word string) []byte {
	if word == "" {
		return b
	}
	if len(b) > 0 {
		b = append(b, ' ')
	}
	return append(b, word...)
}

// designationOrder is the order designations stand in; those of one row keep the order written.
func designationOrder(dim string) int {
	switch dim {
	case "amps":
		return 0
	case "poles":
		return 1
	case "volts", "phase", "watts":
		return 2
	case "gauge", "gauge-count", "wires", "nema":
		return 3
	case "size", "thread", "length":
		return 4
	case "gang", "way", "holes", "angle", "":
		return 5
	case "panel", "circuit", "equipment", "unit":
		return -1
	}
	return 6
}

func (s *scanner) designations(b []byte, keep []int) []byte {
	for order := 0; order <= 6; order++ {
		for n, k := range keep {
			if a := &s.out[k]; a.role == roleDesig && designationOrder(a.dim) == order && !s.repeated(keep[:n], a) {
				b = add(b, a.text)
			}
		}
	}
	return b
}

// repeated reports whether an atom of the same text was picked before.
func (s *scanner) repeated(before []int, a *atom) bool {
	for _, k := range before {
		if s.out[k].text == a.text && s.out[k].role == a.role {
			return true
		}
	}
	return false
}

// attributes appends colours, then properties in alphabetical order with the light source last,
// then the further things that tell it from others in the order written.
func (s *scanner) attributes(b []byte, keep []int, head int, kind bool) []byte {
	keep = s.sortTraits(keep)
	for pass := range 3 {
		for n, k := range keep {
			a := &s.out[k]
			if k == head || head >= 0 && k > head && a.role == roleUnknown || s.repeated(keep[:n], a) || attributePass(a) != pass {
				continue
			}
			if a.text == "circuit" && k+1 < len(s.out) && s.out[k+1].dim == "circuit" {
				continue // "ckt 14 breaker" says which one
			}
			if a.role == roleGeneric && kind || head >= 0 && (a.text == s.out[head].text || s.says(head, a.text)) {
				continue
			}
			b = add(b, a.text)
		}
	}
	return b
}

// sortTraits orders the properties among the atoms; "LED sealed" and "sealed LED" are one name.
func (s *scanner) sortTraits(keep []int) []int {
	for i := 1; i < len(keep); i++ {
		for j := i; j > 0 && s.traitAfter(keep[j-1], keep[j]); j-- {
			keep[j-1], keep[j] = keep[j], keep[j-1]
		}
	}
	return keep
}

func (s *scanner) traitAfter(i, j int) bool {
	a, b := &s.out[i], &s.out[j]
	if a.role != roleTrait || b.role != roleTrait {
		return b.role == roleTrait && a.role != roleTrait
	}
	if la, lb := isSource(a.text), isSource(b.text); la != lb {
		return la
	}
	return a.text > b.text
}

func isSource(text string) bool { return text == "LED" || text == "fluorescent" }

func attributePass(a *atom) int {
	switch a.role {
	case roleColour:
		return 0
	case roleTrait:
		return 1
	case roleThing, rolePart, roleKind, roleGeneric, roleUnknown:
		return 2
	case roleUnit:
		if a.text == "box" {
			return 2
		}
	}
	return -1
}

// says reports whether the head's own name already holds a wider word: a troffer is a fixture.
func (s *scanner) says(head int, wider string) bool {
	switch s.out[head].text {
	case "troffer", "sconce", "pendant", "chandelier", "high bay", "wall pack", "strip light", "vanity light",
		"flood light", "exit sign", "emergency light", "wafer":
		return wider == "fixture"
	case "subpanel":
		return wider == "panel"
	case "ground rod", "ground bar", "ground clamp":
		return wider == "ground"
	}
	return false
}

// implied appends the head a crew leaves out: a GFCI is a receptacle, 20A 1P a breaker.
// Common practice, no source.
func (s *scanner) implied(b []byte, keep []int, head int) []byte {
	if head >= 0 {
		switch s.out[head].text {
		case "GFCI":
			return add(b, "receptacle")
		case "AFCI":
			return add(b, "breaker")
		case "wafer":
			return add(b, "fixture")
		}
		return b
	}
	word := ""
	for _, k := range keep {
		switch a := &s.out[k]; {
		case a.role == roleUnknown, a.ones:
			return b
		case a.dim == "spaces":
			return add(b, "panel")
		case a.dim == "poles" || a.dim == "amps" || a.text == "tandem" || a.text == "main":
			word = "breaker"
		case a.dim == "way":
			word = "switch"
		case a.dim == "nema":
			word = "receptacle"
		case word != "":
		case a.text == "square" || a.text == "octagon" || a.text == "old work" || a.text == "new work":
			word = "box"
		case a.text == "quad":
			word = "receptacle"
		case a.text == "recessed" || a.text == "sealed":
			word = "fixture"
		}
	}
	return add(b, strings.TrimSpace(word))
}
