package field

import (
	"strings"

	"jobday/notes"
	"jobday/trade"
)

// TermClass and Term are those of notes, under the names the readers of wording know them by.
type (
	TermClass = notes.TermClass
	Term      = notes.Term
)

// The classes of terms, as notes has them.
const (
	ThingTerm       = notes.ThingTerm
	TraitTerm       = notes.TraitTerm
	VerbTerm        = notes.VerbTerm
	PlaceTerm       = notes.PlaceTerm
	DesignationTerm = notes.DesignationTerm
	NumberTerm      = notes.NumberTerm
	ColourTerm      = notes.ColourTerm
	OtherTerm       = notes.OtherTerm
)

// Terms returns the terms of a line in the order written.
func Terms(text string) []Term { return TermsIn(text, trade.Words{}) }

// TermsIn is Terms with the shop's own words.
func TermsIn(text string, words trade.Words) []Term {
	w := begin(text)
	defer w.end()
	w.atoms(words)
	return w.terms()
}

// terms appends the terms of the atoms.
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
			} else if room, ok := s.roomIn(a); ok {
				ts = append(ts, room)
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
			if a.dim == "bathroom" || a.dim == "bedroom" { // which of them: two terms, so that "bath" contradicts neither
				ts = append(ts, Term{Text: a.dim, Class: PlaceTerm, Dim: "room", Piece: t.Piece})
			}
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
	case roleDesig:
		if next.dim == "amps" || next.dim == "poles" {
			return false // "disconnect 200A" is one
		}
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

// roomIn returns the room that a name of several words begins with and its normal form leaves out:
// a bath fan is a fan of the bathroom.
func (s *scanner) roomIn(a *atom) (Term, bool) {
	first, _, several := strings.Cut(s.text[a.from():a.to()], " ")
	if !several {
		return Term{}, false
	}
	w, ok := trade.FindWord(strings.ToLower(first))
	if !ok || w.Class != trade.PlaceWord || w.Dim != "room" || strings.Contains(a.text, strings.ToLower(first)) {
		return Term{}, false
	}
	return Term{Text: w.Text, Class: PlaceTerm, Dim: w.Dim, Piece: notes.Piece{Start: a.from(), End: a.from() + len(first)}}, true
}
