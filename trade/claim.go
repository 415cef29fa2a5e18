package trade

import (
	"strings"

	"jobday/notes"
)

// What a text says of a requirement without giving its figure.
var (
	required  = setOf("spec", "specification", "limit", "rang", "toleranc", "requirement", "minimum", "min", "maximum", "max", "sticker", "label", "nameplat", "fla", "band")
	asLooks   = setOf("as", "lik", "like", "what", "wher", "where", "how", "than")
	asAsked   = setOf("ask", "should", "ought", "oughta", "specify", "requir", "required", "suppos", "design", "want", "need", "call")
	whoAsks   = setOf("it", "they", "he", "sh", "she", "we", "you", "that", "thi", "the", "inspector", "owner", "customer", "engineer", "is", "wa", "print", "draw", "plan", "i")
	tooMuch   = setOf("low", "high", "hot", "dim", "slow", "loud", "weak", "little", "much", "long", "short", "quiet", "dark")
	claimStop = setOf("so", "but", "and", "whil", "becaus", "told", "wrot", "then")
)

// judgeClaim reads what the text says of how the result stands to what is required, where it names no
// figure: "torqued to the sticker", "off after 10 min as asked", "0.6 ohm, which is over", "108, too low".
// A claim is somebody's word and is told as one.
func judgeClaim(t *test) (Verdict, bool) {
	said := Verdict{Rule: "the note's own word"}
	for i := range t.jots {
		var claim notes.Verdict
		end := i + 1
		switch {
		case t.looksUndone(i):
		case t.calledBad(i):
			claim = notes.Outside
		case t.saysTooMuch(i):
			claim = notes.Outside
			end = i + 2
		default:
			claim, end = t.meets(i)
		}
		if claim == "" {
			continue
		}
		from := t.claimDenied(i)
		if from < i {
			if claim == notes.Outside {
				continue
			}
			claim = notes.Outside
		}
		if claim == notes.Outside && t.putRight(end) {
			continue
		}
		words := t.text[t.jots[from].start:t.jots[min(end, len(t.jots))-1].end]
		said.Why = join(said.Why, "the note says: "+words, "; ")
		if said.Verdict == "" {
			said.Verdict = claim
		}
		said.Verdict = worse(said.Verdict, claim)
	}
	return said, said.Verdict != ""
}

// looksUndone reports whether the words at i stand in a sentence about what nobody knows or has done yet.
func (t *test) looksUndone(i int) bool {
	for k := max(0, i-4); k < i; k++ {
		switch t.jots[k].stem {
		case "know", "unknown", "unsur", "ask", "find", "wait", "see":
			return t.jots[k].clause == t.jots[i].clause
		}
	}
	return false
}

// saysTooMuch reports whether a reading is called one-sided at i: "too low", "which is over", "out of spec".
func (t *test) saysTooMuch(i int) bool {
	if i+1 >= len(t.jots) {
		return false
	}
	j, next := t.jots[i], t.jots[i+1]
	switch j.stem {
	case "too":
		return tooMuch[next.stem]
	case "out":
		return next.stem == "of" && i+2 < len(t.jots) && required[t.jots[i+2].stem]
	case "is", "wa", "was", "read", "bit", "way":
		switch next.stem {
		case "over", "high", "low", "under", "weak", "dim":
			return t.valued() && t.clauseEnds(i+2)
		}
	}
	return false
}

// calledBad reports whether the word at i is all that a clause behind a reading says: "22.4 V loaded. Low".
func (t *test) calledBad(i int) bool {
	j := t.jots[i]
	switch j.stem {
	case "low", "high", "weak":
		return i > 0 && t.valued() && t.clauseEnds(i) && t.clauseEnds(i+1)
	}
	return false
}

// clauseEnds reports whether jot k begins something new.
func (t *test) clauseEnds(k int) bool {
	return k >= len(t.jots) || t.jots[k].clause != t.jots[k-1].clause || t.jots[k].comma != t.jots[k-1].comma || claimStop[t.jots[k].stem]
}

// valued reports whether there is a reading with a figure.
func (t *test) valued() bool {
	for _, m := range t.readings {
		if m.HasVal {
			return true
		}
	}
	return false
}

// meets reads words at i that hold the result against a requirement, and returns the jot behind them.
func (t *test) meets(i int) (claim notes.Verdict, end int) {
	k := i + 1
	for k < len(t.jots) && k < i+4 && t.jots[k].filler && t.jots[k].stem != "of" && t.jots[k].clause == t.jots[i].clause {
		k++
	}
	switch j := t.jots[i]; {
	case k >= len(t.jots) || t.jots[k].clause != j.clause || t.jots[k].comma != j.comma:
		return "", i + 1
	case asLooks[j.stem]:
		for k = i + 1; k < len(t.jots) && k < i+4 && whoAsks[t.jots[k].stem]; k++ {
		}
		if k < len(t.jots) && asAsked[t.jots[k].stem] && t.jots[k].comma == j.comma && !(j.stem == "than" || j.stem == "what" && k == i+1) {
			return notes.Within, k + 1
		}
	case !required[t.jots[k].stem], k+1 < len(t.jots) && isDigit(t.jots[k+1].stem[0]):
		// a figure behind it is judged as a figure
	case j.stem == "in" || j.stem == "within" || j.stem == "meet" || j.stem == "met" || j.stem == "per":
		return notes.Within, k + 1
	case j.stem == "to":
		switch t.jots[k].stem {
		case "spec", "specification", "sticker", "label", "nameplat":
			return notes.Within, k + 1
		}
	case j.stem == "over" || j.stem == "abov" || j.stem == "under" || j.stem == "below" || j.stem == "beat":
		return t.besideLimit(j.stem, t.jots[k].stem), k + 1
	}
	return "", i + 1
}

// besideLimit says what "under the limit", "above the minimum", "below spec" mean.
func (t *test) besideLimit(word, limit string) notes.Verdict {
	above := word == "over" || word == "abov" || word == "beat"
	want := byUnit
	switch limit {
	case "limit", "max", "maximum", "fla", "nameplat":
		want = upper
	case "min", "minimum":
		want = lower
	default:
		for _, m := range t.readings {
			if m.HasVal && want == byUnit {
				want = sideOf(m.Unit)
			}
		}
	}
	switch {
	case want == byUnit:
		return ""
	case above == (want == lower):
		return notes.Within
	}
	return notes.Outside
}

// claimDenied returns the no shortly before the claim at i that takes it back, or i: "not in spec", "doesn't
// meet".
func (t *test) claimDenied(i int) int {
	for k := i - 1; k >= 0 && k >= i-3; k-- {
		j := t.jots[k]
		if j.clause != t.jots[i].clause || j.comma != t.jots[i].comma {
			return i
		}
		if saysNot[j.stem] || strings.HasSuffix(j.stem, "n't") {
			return k
		}
	}
	return i
}

// putRight reports whether what is told from jot k on is a repair: "too low, turned it up, now 112".
func (t *test) putRight(k int) bool {
	for _, j := range t.jots[min(k, len(t.jots)):] {
		switch j.stem {
		case "now", "retest", "recheck", "fix", "fixed", "adjust", "corrected", "after", "again":
			return true
		}
	}
	return false
}
