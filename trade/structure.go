package trade

import (
	"strings"

	"jobday/notes"
)

// What figures say by themselves: a breaker beyond the wire it protects, a lamp beyond what its
// fixture takes. Phrases cannot tell 14 gauge on 20 A from 14 gauge on 15 A.

// byFigures returns the kinds of fault the numbers of a text announce.
func (t *look) byFigures(text string) []Found {
	if !strings.ContainsAny(text, "0123456789") && !t.spells() {
		return nil
	}
	var out []Found
	if f, ok := t.breakerBeyondWire(); ok {
		out = append(out, f)
	}
	if f, ok := t.lampBeyondFixture(); ok {
		out = append(out, f)
	}
	if f, ok := t.loadBeyondRating(); ok {
		out = append(out, f)
	}
	return out
}

// figureScore is what a fault told by its figures weighs: as much as a phrase of three telling words.
const figureScore = 44

// ratings spells the ratings of breakers as people write them.
var ratings = map[string]int{
	"15": 15, "20": 20, "25": 25, "30": 30, "35": 35, "40": 40, "45": 45, "50": 50, "60": 60, "70": 70, "80": 80, "90": 90, "100": 100,
	"fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60,
}

func (t *look) spells() bool {
	for _, j := range t.jots {
		if len(j.stem) > 5 && ratings[j.stem] > 0 {
			return true
		}
	}
	return false
}

var gauges = map[string]string{"14": "14", "12": "12", "10": "10", "fourteen": "14", "fourteens": "14", "twelve": "12", "twelv": "12", "ten": "10"}

// breakerBeyondWire finds a size of wire and a larger breaker than 15, 20 or 30 A for 14, 12 or
// 10 AWG (NEC 240.4(D)) where the words speak of one protecting the other.
func (t *look) breakerBeyondWire() (Found, bool) {
	wire, wireAt, rating, ratingAt, protects := "", -1, 0, -1, false
	for i, j := range t.jots {
		switch j.stem {
		case "breaker", "brkr", "bkr", "fus", "fuse", "fed", "protect", "cb", "feed", "ocpd":
			protects = true
		}
		if size, ok := gauges[j.stem]; ok && t.isWire(i) {
			if wire != "" && wire != size {
				return Found{}, false
			}
			wire, wireAt = size, i
			continue
		}
		if amps := ratings[j.stem]; amps > 0 && t.isRating(i) {
			if rating != 0 && rating != amps {
				return Found{}, false
			}
			rating, ratingAt = amps, i
		}
	}
	if wire == "" || rating == 0 || !protects || t.jots[wireAt].clause != t.jots[ratingAt].clause || rating <= smallConductors[wire].copper {
		return Found{}, false
	}
	return t.foundBy("breaker-too-big", "figures", wireAt, ratingAt)
}

// isWire reports whether the number at i is a size of wire: "14 gauge", "#12", "number 14", "12 wire".
func (t *look) isWire(i int) bool {
	if i > 0 {
		switch t.jots[i-1].stem {
		case "#", "number", "no":
			return true
		}
	}
	if i+1 < len(t.jots) {
		switch t.jots[i+1].stem {
		case "awg", "ga", "gaug", "gag", "guag", "wir", "wire", "thhn", "cu", "romex", "nm":
			return true
		case "2", "3":
			return t.jots[i+1].start == t.jots[i].end+1 // "12/2"
		}
	}
	return false
}

// isRating reports whether the number at i is a breaker's: "30 A", "a 20", "30s", "forty amp", "20 breaker".
func (t *look) isRating(i int) bool {
	if i > 0 && t.jots[i-1].stem == "#" {
		return false
	}
	if i+1 < len(t.jots) {
		switch t.jots[i+1].stem {
		case "a", "amp", "breaker", "brkr", "bkr", "fus", "fuse", "s":
			return true
		case "awg", "ga", "gaug", "wir", "ft", "min", "h", "v", "of", "more", "mor":
			return false
		}
	}
	return i > 0 && (t.jots[i-1].stem == "a" || t.jots[i-1].stem == "singl") && (i+1 == len(t.jots) || t.jots[i+1].clause != t.jots[i].clause || t.jots[i+1].comma != t.jots[i].comma)
}

// lampBeyondFixture finds two figures in watts, the first of a lamp and larger than the second, of a fixture.
func (t *look) lampBeyondFixture() (Found, bool) {
	var watts, at []int
	lamp, fixture := false, false
	for i, j := range t.jots {
		switch j.stem {
		case "bulb", "lamp":
			lamp = true
		case "can", "fixtur", "max", "rate", "light", "globe", "glob", "socket", "luminair":
			fixture = true
		}
		n, isNumber := wholeNumber(j.stem)
		if isNumber && i+1 < len(t.jots) && (t.jots[i+1].stem == "w" || t.jots[i+1].stem == "watt") {
			watts, at = append(watts, n), append(at, i)
		}
	}
	if len(watts) != 2 || watts[0] <= watts[1] || !lamp || !fixture || t.jots[at[0]].clause != t.jots[at[1]].clause {
		return Found{}, false
	}
	return t.foundBy("lamp-too-strong", "figures", at[0], at[1])
}

// loadBeyondRating finds a circuit or panel of a rating that draws more: "20 A circuit pulling 24".
func (t *look) loadBeyondRating() (Found, bool) {
	rating, ratingAt, load, loadAt, thing := 0, -1, 0, -1, false
	for i, j := range t.jots {
		switch j.stem {
		case "panel", "circuit", "ckt", "breaker", "subpanel", "servic", "feeder", "main":
			thing = true
		}
		n, isNumber := wholeNumber(j.stem)
		switch {
		case !isNumber:
		case i > 0 && drawing[t.jots[i-1].stem] || i > 1 && drawing[t.jots[i-2].stem]:
			load, loadAt = n, i
		case rating == 0 && i+1 < len(t.jots) && (t.jots[i+1].stem == "a" || t.jots[i+1].stem == "amp"):
			rating, ratingAt = n, i
		}
	}
	if !thing || rating < 10 || load <= rating || load > 10*rating || t.jots[ratingAt].clause != t.jots[loadAt].clause {
		return Found{}, false
	}
	return t.foundBy("circuit-overloaded", "figures", ratingAt, loadAt)
}

var drawing = setOf("carry", "draw", "pul", "pull", "read", "load", "loaded", "hitt", "run")

func wholeNumber(s string) (n int, ok bool) {
	if len(s) == 0 || len(s) > 6 {
		return 0, false
	}
	for i := range len(s) {
		if !isDigit(s[i]) {
			return 0, false
		}
		n = n*10 + int(s[i]-'0')
	}
	return n, true
}

// foundBy makes a Found of a kind from the words at two places and what stands between.
func (t *look) foundBy(slug, words string, a, b int) (Found, bool) {
	for i := range t.x.kinds {
		if t.x.kinds[i].Slug != slug {
			continue
		}
		a, b = min(a, b), max(a, b)
		f := Found{Kind: t.x.kinds[i], Words: words, score: figureScore, Piece: notes.Piece{Start: t.jots[a].start, End: t.jots[b].end}}
		for j := a; j <= b; j++ {
			f.jots = append(f.jots, j)
		}
		return f, true
	}
	return Found{}, false
}
