package trade

import (
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
)

// Leg returns the letter of the leg a space stands on in a panel of 1 or 3 phases, "" for any other
// number. Spaces are numbered odd on the left and even on the right; a row of two is on one leg,
// and the legs alternate row by row: A, B, or A, B, C (common practice, no source). What the busbar
// of the panel at hand does is for a tester to say.
func Leg(space, phases int) string {
	if space < 1 {
		return ""
	}
	row := (space - 1) / 2
	switch phases {
	case 1:
		return [...]string{"A", "B"}[row%2]
	case 3:
		return [...]string{"A", "B", "C"}[row%3]
	}
	return ""
}

// SameLeg reports whether two spaces stand on one leg. When the number of phases is not known it
// is sure only of spaces that stand on one leg in every panel.
func SameLeg(a, b, phases int) bool {
	if phases == 1 || phases == 3 {
		return Leg(a, phases) == Leg(b, phases)
	}
	return Leg(a, 1) == Leg(b, 1) && Leg(a, 3) == Leg(b, 3)
}

// MostNeutral returns the most a shared neutral may carry: the largest sum of breaker ratings on
// any one leg, in amperes, with the spaces whose ratings were added. Circuits on different legs take
// from each other; on one leg they add up. A rating that is not known counts as none.
func MostNeutral(spaces, amps []int, phases int) (most int, on []int) {
	for i := range spaces {
		sum, group := 0, []int(nil)
		for k := range spaces {
			if k == i || SameLeg(spaces[i], spaces[k], phases) {
				sum += amps[k]
				group = append(group, spaces[k])
			}
		}
		if sum > most || len(group) > len(on) && sum == most {
			most, on = sum, group
		}
	}
	return most, on
}

// Adjacent reports whether spaces, ascending, stand one below the other on one side of a panel, as
// the poles of one breaker do (common practice, no source).
func Adjacent(spaces []int) bool {
	for i := 1; i < len(spaces); i++ {
		if spaces[i] != spaces[i-1]+2 {
			return false
		}
	}
	return true
}

// UseOf says what the words beside a space mean for it, and what is left to describe: "spare",
// "blank", "removed", "reserved for the second oven".
func UseOf(serves string) (use notes.SpaceUse, rest string) {
	words := strings.Fields(strings.ToLower(strings.Trim(serves, " .()[]*_-")))
	if len(words) == 0 {
		return notes.SpaceInUse, serves
	}
	first := strings.Trim(words[0], ".,:;")
	switch first {
	case "reserved", "reserve", "future", "hold", "held":
		rest = strings.TrimLeft(serves, " *_([")
		rest = strings.Trim(rest[min(len(words[0]), len(rest)):], " ,.:;-)]*_")
		if len(rest) > 4 && strings.EqualFold(rest[:4], "for ") {
			rest = rest[4:]
		}
		return notes.SpaceReserved, rest
	case "removed", "demoed", "demo'd", "deleted", "abandoned", "gone", "disconnected":
		if strings.Contains(strings.ToLower(serves), "breaker left") || strings.Contains(strings.ToLower(serves), "breaker stays") {
			return notes.SpaceSpare, ""
		}
		return notes.SpaceBlank, ""
	case "was":
		if strings.HasSuffix(strings.ToLower(strings.TrimRight(serves, " .")), "removed") {
			return notes.SpaceBlank, ""
		}
	}
	if len(words) > 2 {
		return notes.SpaceInUse, serves
	}
	switch first {
	case "spare", "unused", "spares":
		return notes.SpaceSpare, ""
	case "blank", "blanks", "empty", "space", "open", "filler":
		return notes.SpaceBlank, ""
	case "now":
		if len(words) == 2 {
			return UseOf(words[1])
		}
	}
	return notes.SpaceInUse, serves
}

// plainLoads are descriptions that fit half the circuits of any panel (common practice, no source).
var plainLoads = setOf("light", "lights", "lighting", "plug", "plugs", "outlet", "outlets", "recept", "recepts", "receptacle",
	"receptacles", "general", "misc", "miscellaneous", "various", "equipment", "load", "power", "circuit", "ckt",
	"unknown", "tbd", "same", "other", "stuff", "room", "rooms", "device", "devices", "fixture", "fixtures", "and", "&", "+")

// Description says what keeps a circuit's description from telling it from all others, "" when
// nothing was noticed. NEC 408.4(A), 2020 text (checked): every circuit is identified as to its clear,
// evident and specific purpose, in enough detail to be told from all others, and not by conditions
// that pass, such as whose room it is. Which words say too little is common practice, no source.
func Description(serves string) string {
	const rule = " (NEC 408.4(A))"
	words := strings.FieldsFunc(strings.ToLower(serves), func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == '/' })
	letters := strings.IndexFunc(serves, func(r rune) bool { return r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r >= 0x80 }) >= 0
	switch {
	case len(words) == 0:
		return "nothing says what the circuit serves" + rule
	case !letters:
		return strconv.Quote(serves) + " is no description anybody can read" + rule
	}
	for _, w := range words {
		if !plainLoads[w] && strings.Trim(w, "?0123456789-") != "" {
			return ""
		}
	}
	return strconv.Quote(serves) + " does not tell the circuit from others of its kind: write the room or the machine" + rule
}

// DirectoryCaution returns what stands on a panel directory besides the standing words.
func DirectoryCaution() string {
	return "This card says what was written down. It does not show that anything is off or dead: test before touch. " +
		"Write a change on it the day it is made."
}

// SameLoad reports whether two descriptions speak of one load: they are alike but for case and
// marks, or share a word that names something. "counter left" and "prep counter" do; "mixer
// receptacle" and "oven receptacle", "slip 6" and "slip 7", "bench left" and "bench right" do not.
func SameLoad(a, b string) bool {
	if strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) {
		return true
	}
	if tellApart(a, b) {
		return false
	}
	words := loadWords(a)
	for _, w := range loadWords(b) {
		for _, v := range words {
			if w == v {
				return true
			}
		}
	}
	return false
}

// opposites are words of which the one says that the other is not meant.
var opposites = map[string]string{"left": "right", "right": "left", "north": "south", "south": "north", "east": "west", "west": "east",
	"upper": "lower", "lower": "upper", "front": "back", "back": "front", "up": "down", "down": "up", "upstairs": "downstairs", "downstairs": "upstairs",
	"top": "bottom", "bottom": "top", "inside": "outside", "outside": "inside"}

// tellApart reports whether two descriptions carry different numbers, or one the opposite of the other.
func tellApart(a, b string) bool {
	var numbers [2][]string
	var words [2][]string
	for n, s := range [2]string{a, b} {
		for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" ,./-#()", r) }) {
			if isDigit(w[0]) {
				numbers[n] = append(numbers[n], w)
				continue
			}
			words[n] = append(words[n], w)
		}
	}
	for _, w := range words[0] {
		if o := opposites[w]; o != "" && slices.Contains(words[1], o) && !slices.Contains(words[0], o) && !slices.Contains(words[1], w) {
			return true
		}
	}
	if len(numbers[0]) == 0 || len(numbers[1]) == 0 {
		return false
	}
	return !slices.ContainsFunc(numbers[0], func(w string) bool { return slices.Contains(numbers[1], w) })
}

// loadWords are the words of a description that name something.
func loadWords(s string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == ',' || r == '.' || r == '/' || r == '-' }) {
		if len(w) > 2 && !plainLoads[w] && !fillers[w] {
			out = append(out, strings.TrimSuffix(w, "s"))
		}
	}
	return out
}
