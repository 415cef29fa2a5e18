package trade

import (
	"cmp"
	"slices"
	"strings"

	"jobday/notes"
)

// Found is a kind of deficiency that a text announces.
type Found struct {
	Kind  Kind
	Piece notes.Piece // from the first to the last word that announced it
	Sure  float64     // 0 to 1: how sure the kind is, as far as its rivals in the text go
	Words string      // the phrase of the catalogue that fitted

	score int
	jots  []int // which words it took
}

// Shares reports whether two kinds rest on a word they share, so that they may be two readings of
// one fault. Kinds that share none are two faults.
func (f Found) Shares(o Found) bool {
	return slices.ContainsFunc(f.jots, func(j int) bool { return slices.Contains(o.jots, j) })
}

// FindKind looks in the built-in catalogue; see Catalogue.FindKind.
func FindKind(text string) (Kind, notes.Piece, bool) { return Catalogue{}.FindKind(text) }

// FindKinds looks in the built-in catalogue; see Catalogue.FindKinds.
func FindKinds(text string) []Found { return Catalogue{}.FindKinds(text) }

// FindKind returns the kind of deficiency that text announces and where. It is false when nothing
// in the text does, when all that does is denied ("no loose connections found"), or when two kinds
// fit about as well: FindKinds then has both.
func (c Catalogue) FindKind(text string) (Kind, notes.Piece, bool) {
	found := c.FindKinds(text)
	if len(found) == 0 || !found[0].IsSure() {
		return Kind{}, notes.Piece{}, false
	}
	return found[0].Kind, found[0].Piece, true
}

// IsSure reports whether FindKind takes the kind, the surest of its text.
func (f Found) IsSure() bool { return f.Sure >= sureKind }

// sureKind is the least Sure for which FindKind takes a kind.
const sureKind = 0.7

// FindKinds returns every kind text announces, the surest first. What another, longer phrase over
// the same words explains better is left out.
func (c Catalogue) FindKinds(text string) []Found {
	x := c.all()
	var few [fewJots]jot
	var some [fewJots]term
	t := look{x: x, jots: appendJots(few[:0], text)}
	t.terms = x.terms(some[:0], t.jots)
	t.index()
	best := t.best()
	for _, f := range t.byFigures(text) {
		best = slices.DeleteFunc(best, func(b Found) bool { return b.Kind.Slug == f.Kind.Slug })
		best = append(best, f)
	}
	if len(best) == 0 {
		return nil
	}
	t.preferCause(best)
	slices.SortStableFunc(best, func(a, b Found) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.Piece.Start, b.Piece.Start))
	})
	kept := best[:0]
	for _, f := range best {
		if !slices.ContainsFunc(kept, func(k Found) bool { return explains(k, f) }) {
			kept = append(kept, f)
		}
	}
	for i := range kept {
		kept[i].Sure = sureness(kept, i)
	}
	return kept
}

// causeScore is what a fault named as the cause of another gains on it.
const causeScore = 12

// preferCause raises what stands behind "traced to", "due to" and the like: of lights that flicker
// because of a loose neutral, the neutral is the fault.
func (t *look) preferCause(found []Found) {
	for i, j := range t.jots {
		switch j.stem {
		case "trac", "trace", "becaus", "due", "caus":
		default:
			continue
		}
		for n := range found {
			if found[n].jots[0] > i {
				found[n].score += causeScore
			}
		}
		return
	}
}

// explains reports whether the words of f are among those of the better k.
func explains(k, f Found) bool {
	for _, j := range f.jots {
		if !slices.Contains(k.jots, j) {
			return false
		}
	}
	return true
}

// sureness is how far kept[i] stands above its best rival, by the score of both. One announced
// alone is as sure as its phrase is long.
func sureness(kept []Found, i int) float64 {
	alone := 0.85
	if len(kept[i].jots) > 1 {
		alone = 0.95
	}
	rival := 0
	for n := range kept {
		if n != i {
			rival = max(rival, kept[n].score)
		}
	}
	switch score := kept[i].score; {
	case rival == 0:
		return alone
	case score*10 >= rival*13:
		return 0.9
	case score-rival >= 4:
		return 0.75
	case score >= rival:
		return 0.55
	default:
		return 0.4
	}
}

// A term is a word of the catalogue that stands in a text, over one or more of its words.
type term struct {
	id       int16
	from, to int // jots, to exclusive
}

// A look is one text under comparison.
type look struct {
	x     *phraseIndex
	jots  []jot
	terms []term
	byID  [maxWords]uint8 // 1 + the first term of a word
	has   uint64          // a bit for each word, several words to a bit
}

const maxTerms = 250

// terms puts the words of the catalogue that stand among the jots in the memory of terms. A stretch may be read in several ways: "no label"
// is "no", "label" and "unlabeled".
func (x *phraseIndex) terms(terms []term, jots []jot) []term {
	for i := range jots {
		s := jots[i].stem
		for _, r := range x.multi[s] {
			if follows(jots, i+1, r) {
				terms = append(terms, term{r.id, i, i + 1 + r.n})
			}
		}
		id, ok := x.ids[s]
		if !ok && isYear(s) {
			id, ok = x.ids["year"]
		}
		if !ok {
			id, ok = x.misspelled(s)
		}
		if ok && !(i > 0 && jots[i-1].stem == "to" && toDo[s]) {
			terms = append(terms, term{id, i, i + 1})
		}
	}
	return terms[:min(len(terms), maxTerms)]
}

// isYear reports whether a number is a year things were made in: "smokes from 2009".
func isYear(s string) bool {
	return len(s) == 4 && (s[:2] == "19" || s[:2] == "20") && isDigit(s[2]) && isDigit(s[3])
}

// toDo are words that tell of a deed behind "to" and of a fault elsewhere: "had to open the ceiling".
var toDo = setOf("open", "cut", "splic", "tap", "cover", "block", "bury", "strip", "break")

// index notes where the terms of each word begin.
func (t *look) index() {
	for i, m := range t.terms {
		t.has |= 1 << (m.id % 64)
		if t.byID[m.id] == 0 {
			t.byID[m.id] = uint8(i + 1)
		}
	}
}

// follows reports whether the stems of the run stand from word i on, in the clause of the word before.
func follows(jots []jot, i int, r run) bool {
	if i+r.n > len(jots) {
		return false
	}
	rest := r.rest
	for n := range r.n {
		s := jots[i+n].stem
		if jots[i+n].clause != jots[i-1].clause || !strings.HasPrefix(rest, s) {
			return false
		}
		rest = rest[len(s):]
		if rest != "" && rest[0] != ' ' {
			return false
		}
		rest = strings.TrimPrefix(rest, " ")
	}
	return rest == ""
}

// best returns the best fit of each kind.
func (t *look) best() []Found {
	var out []Found
	var chosen [8]term
	for i := range t.terms {
		if t.byID[t.terms[i].id] == uint8(i+1) {
			for _, n := range t.x.anchor[t.terms[i].id] {
				p := &t.x.phrase[n]
				if p.needs&^t.has != 0 {
					continue
				}
				for _, a := range t.terms {
					if a.id == t.terms[i].id {
						if gap, ok := t.fit(p, a, chosen[:len(p.words)]); ok {
							out = t.keep(out, p, chosen[:len(p.words)], p.weight*2-gap)
						}
					}
				}
			}
		}
	}
	return out
}

// keep enters a fit unless the kind has a better one.
func (t *look) keep(out []Found, p *phrase, chosen []term, score int) []Found {
	for i := range out {
		if out[i].score >= score && out[i].Kind.Slug == t.x.kinds[p.kind].Slug {
			return out
		}
	}
	if t.denied(chosen) {
		return out
	}
	f := Found{Kind: t.x.kinds[p.kind], Words: p.text, score: score}
	for _, c := range chosen {
		for j := c.from; j < c.to; j++ {
			f.jots = append(f.jots, j)
		}
	}
	slices.Sort(f.jots)
	f.Piece = notes.Piece{Start: t.jots[f.jots[0]].start, End: t.jots[f.jots[len(f.jots)-1]].end}
	for i := range out {
		if out[i].Kind.Slug == f.Kind.Slug {
			out[i] = f
			return out
		}
	}
	return append(out, f)
}
