package field

import (
	"jobday/notes"
	"jobday/trade"
)

// TermClass says what a term of a line is. The zero value is invalid.
type TermClass byte

// The classes of terms.
const (
	ThingTerm       TermClass = iota + 1 // receptacle, fixture, EMT, connector
	TraitTerm                            // LED, sealed, old work
	VerbTerm                             // pull, land; Dim is the class of work
	PlaceTerm                            // kitchen, north, unit 4; Dim is what it contradicts
	DesignationTerm                      // 12/2, 30A, LP1; Dim is what it measures
	NumberTerm                           // 4, 52 ft; Dim is the unit, "" for none
	ColourTerm
	OtherTerm // a word the vocabulary does not know
)

// A Term is one word or designation of a line in normal form, for holding lines against each other.
// Words that say nothing are left out.
//
// Dim of a designation is "amps", "poles", "volts", "gauge", "gauge-count", "size", "gang", "way",
// "watts", "kelvin", "panel", "circuit", "spaces", "nema", "phase", "equipment", "model" or "":
// two designations of one Dim that differ contradict each other. Dim of a place is "room", "unit",
// "side", "floor", "building", or "spot", which contradicts nothing.
type Term struct {
	Text  string
	Class TermClass
	Dim   string
	notes.Piece
}

// Terms returns the terms of a line in the order written.
func Terms(text string) []Term { return TermsIn(text, trade.Words{}) }

// TermsIn is Terms with the shop's own words.
func TermsIn(text string, words trade.Words) []Term {
	s := atomsOf(text, tokens(text), words)
	return s.terms(make([]Term, 0, len(s.out)))
}

func (s *scanner) terms(ts []Term) []Term {
	for k := range s.out {
		a := &s.out[k]
		t := Term{Text: a.text, Dim: a.dim, Piece: notes.Piece{Start: a.from(), End: a.to()}}
		switch a.role {
		case roleCount:
			if s.nums[a.num].form == article {
				continue
			}
			t.Class, t.Text = NumberTerm, s.value(a).String()
			if a.dim != "" {
				t.Text += " " + a.dim
			}
		case roleDesig:
			t.Class = DesignationTerm
			if a.dim == "unit" {
				t.Class = PlaceTerm
			}
		case roleThing, rolePart, roleKind, roleGeneric:
			t.Class, t.Dim = ThingTerm, ""
			if a.verb() != "" && s.verbHere(k) {
				t.Class, t.Text, t.Dim = VerbTerm, a.verb(), a.word.Work
			}
		case roleUnit:
			if s.countBefore(k) && a.text != "box" {
				continue
			}
			t.Class, t.Dim = ThingTerm, ""
			if a.verb() != "" {
				t.Class, t.Text, t.Dim = VerbTerm, a.verb(), a.word.Work
			}
		case roleTrait:
			t.Class, t.Dim = TraitTerm, ""
			if a.verb() != "" && s.verbHere(k) {
				t.Class, t.Text, t.Dim = VerbTerm, a.verb(), a.word.Work
			}
		case roleColour:
			t.Class = ColourTerm
		case roleVerb:
			t.Class = VerbTerm
		case rolePlace:
			t.Class = PlaceTerm
		case roleUnknown:
			t.Class = OtherTerm
		default:
			continue
		}
		ts = append(ts, t)
	}
	return ts
}

// verbHere reports whether a word that may be noun or verb stands where a verb does: at the start
// of the line or a clause with something to do it to after it, or after "to" or "and".
func (s *scanner) verbHere(k int) bool {
	if k+1 >= len(s.out) || s.out[k].plural {
		return false
	}
	switch next := &s.out[k+1]; next.role {
	case roleMark, roleStop, roleUnit, roleAbout, roleVerb:
		if !(next.role == roleMark && (next.text == "&" || next.text == "+" || next.text == "/")) {
			return false
		}
	case roleCount:
		if next.dim != "" || k+2 >= len(s.out) || s.out[k+2].role == roleUnit && k+3 >= len(s.out) {
			return false // "tape 2 rolls"
		}
		if s.out[k+2].role == roleMark || s.out[k+2].role == roleUnit {
			return false
		}
	}
	if k == 0 {
		return true
	}
	switch prev := &s.out[k-1]; prev.role {
	case roleMark:
		return prev.text != "(" && prev.text != "@" && prev.text != "x" && prev.text != "-"
	case roleStop:
		switch prev.text {
		case "to", "then", "also", "i", "we", "did", "will", "need":
			return true
		}
	}
	return false
}

func (s *scanner) countBefore(k int) bool {
	return k > 0 && s.out[k-1].role == roleCount
}
