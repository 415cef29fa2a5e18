package trade

import (
	"math"
	"math/big"
	"strings"

	"jobday/notes"
)

// Limits of a Class A ground-fault circuit interrupter, UL 943 (checked: the curve and its range;
// 4 and 6 mA): it must not trip below 4 mA, must trip at 6 mA and more, and from 6 to 264 mA
// within T = (20 / I)^1.43 seconds, I in milliamperes.
var (
	gfciLeast   = notes.Int(4)
	gfciMost    = notes.Int(6)
	gfciCurve   = notes.Int(264)
	gfciAbsurd  = notes.Int(1000)
	thousand    = notes.Int(1000)
	ruleGFCI    = "UL 943 Class A (checked)"
	limitGFCI   = "4 to 6 mA"
	longestGFCI = notes.MustDecimal("5593.7") // ms at 6 mA, cut: 5.5937... s
	surelyGFCI  = notes.MustDecimal("24.9")   // ms: within the curve at any current up to 264 mA
)

// GFCITripTime returns the longest time a Class A device may take to trip at a current from 6 to
// 264 mA, in milliseconds rounded to the whole, below 100 ms to 3 digits, for showing; false outside that
// range.
// Where a decision hangs on the last digit WithinTripTime decides exactly.
func GFCITripTime(milliamperes notes.Decimal) (milliseconds notes.Decimal, ok bool) {
	if milliamperes.Cmp(gfciMost) < 0 || milliamperes.Cmp(gfciCurve) > 0 {
		return notes.Decimal{}, false
	}
	ms := 1000 * math.Pow(20/float(milliamperes), 1.43)
	// Rounded so coarsely, a difference in the last bit of Pow between machines cannot show.
	switch {
	case ms >= 100:
		return notes.Int(int(math.Round(ms))).Quo(notes.Int(1), 0), true
	case ms >= 10:
		return notes.Ratio(int(math.Round(ms*10)), 10), true
	}
	return notes.Ratio(int(math.Round(ms*100)), 100), true
}

func float(d notes.Decimal) float64 {
	f, _ := new(big.Rat).SetString(d.String())
	if f == nil {
		return 0
	}
	v, _ := f.Float64()
	return v
}

// WithinTripTime reports whether a trip time in milliseconds is at most (20/I)^1.43 seconds.
// It compares t^100 with (20/I)^143 in whole numbers, so every machine decides alike.
func WithinTripTime(milliseconds, milliamperes notes.Decimal) bool {
	t, okT := new(big.Rat).SetString(milliseconds.String())
	i, okI := new(big.Rat).SetString(milliamperes.String())
	if !okT || !okI || i.Sign() <= 0 {
		return false
	}
	t.Quo(t, big.NewRat(1000, 1))
	i.Quo(i, big.NewRat(20, 1))
	return t.Sign() <= 0 || ratPower(t, 100).Cmp(new(big.Rat).Inv(ratPower(i, 143))) <= 0
}

func ratPower(r *big.Rat, n int64) *big.Rat {
	e := big.NewInt(n)
	return new(big.Rat).SetFrac(new(big.Int).Exp(r.Num(), e, nil), new(big.Int).Exp(r.Denom(), e, nil))
}

var gfciWords = []string{"gfci", "gfi", "gfcis", "gfic", "rcd", "groundfault", "gfis"}

// judgeGFCI judges trip current and time.
func judgeGFCI(t *test) (Verdict, bool) {
	timed := t.measures("ms") && t.has("trip") && !t.has("afci", "afi", "arc", "breaker")
	named := t.has(gfciWords...) || t.says("ground", "fault") && !t.has("relay")
	if !named && !timed && !(t.measures("mA") && (t.has("trip") || t.measures("ms")) && !t.has("relay", "leakag", "leak")) {
		return Verdict{}, false // milliamperes are as often a leak, or the signal of a transmitter
	}
	if bad := t.writtenAmperes(); bad != "" {
		v := impossible(bad)
		v.What, v.Rule, v.Limit = "GFCI trip", ruleGFCI, limitGFCI
		return v, true
	}
	currents, times := t.take("mA"), t.take("ms")
	for _, m := range t.take("s", "sec") {
		m.Value, m.Unit = m.Value.Mul(thousand), "ms"
		times = append(times, m)
	}
	for _, m := range t.ampereTrips(len(currents) > 0) {
		if m.Value.Cmp(one) >= 0 {
			v := impossible(notATrip(shown(m)))
			v.What, v.Rule, v.Limit = "GFCI trip", ruleGFCI, limitGFCI
			return v, true
		}
		m.Value, m.Unit = m.Value.Mul(thousand), "mA"
		currents = append(currents, m)
	}
	if len(currents)+len(times) == 0 {
		return Verdict{}, false
	}
	v := Verdict{What: "GFCI trip", Rule: ruleGFCI, Limit: limitGFCI, Verdict: notes.Recorded}
	if bad := gfciImpossible(append(append([]notes.Measured(nil), currents...), times...)); bad != "" {
		v.Impossible, v.Why = bad, bad
		return v, true
	}
	if t.has("gfp", "gfpe", "equipm") && t.has("gfp", "gfpe", "protection") {
		v.Limit, v.Rule = "", ""
		v.Why = "equipment protection trips at its own setting, which is not written"
		return v, true
	}
	return t.judgeTrips(v, currents, times), true
}

// judgeTrips judges currents and times in the order written, a time with the current of its place.
func (t *test) judgeTrips(v Verdict, currents, times []notes.Measured) Verdict {
	for n := range max(len(currents), len(times)) {
		var p Verdict
		switch {
		case n < len(currents) && n < len(times) && t.tripsAt(currents[n]):
			p = tripCurrent(currents[n])
		case n < len(currents) && n < len(times):
			p = tripAt(currents[n], times[n])
		case n < len(currents):
			p = tripCurrent(currents[n])
		default:
			p = tripTime(times[n])
		}
		v.Verdict = worse(v.Verdict, p.Verdict)
		v.Limit = join(v.Limit, p.Limit, "; ")
		v.Why = join(v.Why, p.Why, "; ")
	}
	return v
}

// ampereTrips returns trip currents written in amperes, which only a slip does. The rating of the
// device ("20 A GFCI") is none, and beside milliamperes an ampere figure is something else.
func (t *test) ampereTrips(milli bool) []notes.Measured {
	for _, m := range t.readings {
		if m.HasVal && m.Unit == "A" && (milli || m.Value.IsWhole() && m.Value.Cmp(notes.Int(10)) >= 0) {
			return nil
		}
	}
	return t.take("A")
}

// writtenAmperes finds a trip current in amperes that nobody took for a reading: "GFCI trip 5 A".
func (t *test) writtenAmperes() string {
	for i := 1; i+1 < len(t.jots); i++ {
		j := t.jots[i]
		unit := t.jots[i+1].stem
		if len(j.stem) != 1 || j.stem[0] < '1' || j.stem[0] > '9' || unit != "a" && unit != "amp" || t.measures("mA", "ms", "A") {
			continue
		}
		before := t.jots[i-1].stem
		if before == "trip" || before == "at" && i > 1 && t.jots[i-2].stem == "trip" {
			return notATrip(j.stem + " A")
		}
	}
	return ""
}

func notATrip(current string) string {
	return current + " cannot be the trip current of a Class A GFCI, which trips at 4 to 6 mA"
}

func gfciImpossible(list []notes.Measured) string {
	for _, m := range list {
		switch {
		case m.Value.Sign() < 0, m.Value.IsZero() && m.Op == "":
			return shown(m) + " is no trip reading: it must be more than nothing"
		case m.Unit == "mA" && m.Value.Cmp(gfciAbsurd) >= 0 && m.Op != "<":
			return notATrip(shown(m))
		}
	}
	return ""
}

// tripsAt reports whether a current above 6 mA beside a time is where the device tripped, as in
// "tripped at 8.2 mA, 31 ms", and not what the tester put through. Testers put through whole
// milliamperes from 10 up, so such a current is held against the curve.
func (t *test) tripsAt(m notes.Measured) bool {
	if m.Value.Cmp(gfciMost) <= 0 || m.Value.IsWhole() && m.Value.Cmp(notes.Int(10)) >= 0 || t.has("inject", "appli", "apply", "put") {
		return false
	}
	figure := m.Value.String()
	for i, j := range t.jots {
		if j.stem != "trip" {
			continue
		}
		for k := i + 1; k < len(t.jots) && k <= i+2; k++ {
			if strings.HasPrefix(t.text[t.jots[k].start:], figure) {
				return true
			}
		}
	}
	return false
}

// tripCurrent judges a trip current without a time.
func tripCurrent(m notes.Measured) Verdict {
	low, high := atLeast(m, gfciLeast), atMost(m, gfciMost)
	switch {
	case low == fails:
		return Verdict{Verdict: notes.Outside, Why: shown(m) + " is below 4 mA: it trips where it must not"}
	case high == fails:
		return Verdict{Verdict: notes.Outside, Why: shown(m) + " is above 6 mA: it must trip at 6 mA"}
	case low == meets && high == meets:
		return Verdict{Verdict: notes.Within, Why: shown(m) + " is from 4 to 6 mA"}
	}
	return Verdict{Verdict: notes.Recorded, Why: shown(m) + " is only a bound and leaves 4 to 6 mA open"}
}

// tripTime judges a time without a current: only what holds at every current can be said.
func tripTime(m notes.Measured) Verdict {
	switch {
	case atMost(m, longestGFCI) == fails:
		return Verdict{
			Verdict: notes.Outside, Limit: "5.59 s at 6 mA, less at more", Why: shown(m) + " is longer than 5.59 s, the most allowed at any current from 6 mA",
		}
	case atMost(m, surelyGFCI) == meets:
		return Verdict{
			Verdict: notes.Within, Limit: "25.0 ms at 264 mA, more at less", Why: shown(m) + " is shorter than 25.0 ms, which is allowed at every current from 6 to 264 mA",
		}
	}
	return Verdict{Verdict: notes.Recorded, Why: shown(m) + " depends on the tester's current, which is not written"}
}

// tripAt judges a time with the current beside it: a trip current up to 6 mA, or what the tester put through.
func tripAt(i, ms notes.Measured) Verdict {
	if i.Value.Cmp(gfciMost) < 0 {
		v := tripCurrent(i)
		v.Why += "; " + shown(ms) + ": the time limit begins at 6 mA"
		if atMost(ms, longestGFCI) == fails {
			v.Verdict, v.Limit = notes.Outside, "5.59 s at 6 mA, less at more"
			v.Why = shown(i) + ", " + shown(ms) + " is longer than 5.59 s, the most allowed from 6 mA"
		}
		return v
	}
	longest, ok := GFCITripTime(i.Value)
	if !ok || i.Op != "" {
		return Verdict{Verdict: notes.Recorded, Why: shown(i) + ", " + shown(ms) + ": the curve is known from 6 to 264 mA only"}
	}
	limit := "(20/" + i.Value.String() + ")^1.43 s = " + longest.String() + " ms"
	v := Verdict{Limit: limit, Verdict: notes.Outside, Why: shown(ms) + " at " + shown(i) + " is longer than " + longest.String() + " ms"}
	switch within := WithinTripTime(ms.Value, i.Value); {
	case ms.Op == ">" && within, ms.Op == "<" && !within:
		v.Verdict, v.Why = notes.Recorded, shown(ms)+" at "+shown(i)+" is only a bound and leaves "+longest.String()+" ms open"
	case within:
		v.Verdict, v.Why = notes.Within, shown(ms)+" at "+shown(i)+" is at most "+longest.String()+" ms"
	}
	return v
}
