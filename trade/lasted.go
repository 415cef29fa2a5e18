package trade

import "jobday/notes"

const (
	// ruleEmergency is how long emergency lights and signs have to stay lit on their own.
	ruleEmergency = "NFPA 101 7.9.2.1: 1 1/2 hours (NEC 700.12 from memory)"
	// leastEmergency is that in minutes.
	leastEmergency = 90
)

var (
	ranDown = setOf("only", "died", "die", "dead", "quit", "out", "drop", "dropped", "gav", "just", "dim", "fail", "short", "dark")
	ranOn   = setOf("held", "hold", "last", "stay", "lit", "ran", "run", "burn", "good", "ok", "pas", "pass", "up", "full", "on")
)

// judgeLasted holds how long an emergency light or sign ran on its battery against what it has to: "held 90 min",
// "died at 40 min". A shorter test that it stood is recorded: the monthly one takes half a minute.
func judgeLasted(t *test) (Verdict, bool) {
	if !t.has("emergency", "egres", "egress", "exit", "em", "bugey") && !(t.has("battery", "batt", "unit") && t.has("light", "sign", "head")) {
		return Verdict{}, false
	}
	minutes, ok := t.longest()
	if !ok {
		return Verdict{}, false
	}
	v := Verdict{What: "emergency lighting", Limit: "at least 90 min", Rule: ruleEmergency, Verdict: notes.Recorded, Why: minutes.String() + " min"}
	down, on := t.hasAny(ranDown), t.hasAny(ranOn)
	switch long := minutes.Cmp(notes.Int(leastEmergency)) >= 0; {
	case long && on && !t.hasAny(saysBad):
		v.Verdict = notes.Within
	case !long && down:
		v.Verdict = notes.Outside
	case !long && on:
		v.Why += ", which is no test of the whole time"
	default:
		return Verdict{}, false
	}
	return v, true
}

// longest returns the longest time told in minutes or hours, in minutes.
func (t *test) longest() (most notes.Decimal, ok bool) {
	for i := 0; i < len(t.jots); i++ {
		figure, next, isFigure := t.figureAt(i)
		if !isFigure || next >= len(t.jots) {
			continue
		}
		i = next
		v := figure.value
		switch t.jots[next].stem {
		case "min", "minut":
		case "hr", "hrs", "hour", "h":
			v = v.Mul(notes.Int(60))
		default:
			continue
		}
		if !ok || v.Cmp(most) > 0 {
			most, ok = v, true
		}
	}
	return most, ok
}

// hasAny reports whether one of the stems stands in the text, and is not denied.
func (t *test) hasAny(stems map[string]bool) bool {
	for i, j := range t.jots {
		if stems[j.stem] && !t.deniedAt(i) {
			return true
		}
	}
	return false
}
