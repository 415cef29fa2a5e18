package trade

import (
	"strconv"
	"strings"

	"jobday/notes"
)

// nominal is a row of the voltage table of ANSI C84.1: service and utilization voltage, ranges A
// and B, in volts. From memory, 1995/2006 wording; range A of the service is 5 % either way.
// Utilization has the maxima of the service, and a higher least where lighting is supplied.
type nominal struct {
	volts                  int
	aMin, aMax, bMin, bMax int
	lightA, otherA         int // least utilization voltage, range A
	lightB, otherB         int
}

var nominals = []nominal{
	{120, 114, 126, 110, 127, 110, 108, 106, 104},
	{208, 197, 218, 191, 220, 191, 187, 184, 180},
	{240, 228, 252, 220, 254, 220, 216, 212, 208},
	{277, 263, 291, 254, 293, 254, 249, 245, 240},
	{480, 456, 504, 440, 508, 440, 432, 424, 416},
}

const ruleVoltage = "ANSI C84.1 range A (from memory)"

// A pair says between what kinds of conductor a voltage was read.
type pair int

const (
	anyPair pair = iota
	lineLine
	lineNeutral // or line to ground
	neutralGround
)

// pairOf reads "L1-N", "A-B", "line to ground".
func pairOf(between string) pair {
	s := strings.ToLower(strings.NewReplacer(" to ", "-", " ", "", "/", "-", "–", "-").Replace(between))
	a, b, ok := strings.Cut(s, "-")
	if !ok {
		return anyPair
	}
	ca, cb := conductorOf(a), conductorOf(b)
	switch {
	case ca == 'L' && cb == 'L':
		return lineLine
	case ca == 'L' && (cb == 'N' || cb == 'G'), cb == 'L' && (ca == 'N' || ca == 'G'):
		return lineNeutral
	case ca == 'N' && cb == 'G', ca == 'G' && cb == 'N':
		return neutralGround
	}
	return anyPair
}

func conductorOf(s string) byte {
	switch {
	case s == "":
		return 0
	case strings.HasPrefix(s, "n"):
		return 'N'
	case strings.HasPrefix(s, "g"), strings.HasPrefix(s, "e"):
		return 'G'
	case strings.HasPrefix(s, "l"), strings.HasPrefix(s, "h"), strings.HasPrefix(s, "ph"), strings.HasPrefix(s, "x"),
		s == "a", s == "b", s == "c", s == "t1", s == "t2", s == "t3":
		return 'L'
	}
	return 0
}

// judgeVoltage holds volts against the range of their nominal voltage.
func judgeVoltage(t *test) (Verdict, bool) {
	volts := t.takeVolts()
	if len(volts) == 0 {
		return Verdict{}, false
	}
	v := Verdict{What: "voltage"}
	for _, m := range volts {
		var p Verdict
		switch {
		case m.Value.Sign() < 0 && !t.direct():
			p = impossible(shown(m) + " cannot be an AC voltage: it is below nothing")
		case t.has("dead", "absenc", "loto", "deenergiz") || t.says("de", "energiz") || t.says("locked", "out"):
			p = judgeDead(m)
		case pairOf(m.Between) == neutralGround:
			p = judgeNeutralGround(m)
		case t.direct():
			p = Verdict{Verdict: notes.Recorded, Why: shown(m) + ": no limit is known for direct current"}
		default:
			p = t.judgeVolts(m, volts)
		}
		if v.Verdict == "" {
			p.What = v.What
			v = p
			continue
		}
		v = together([]Verdict{v, p})
	}
	return v, true
}

// takeVolts returns the voltages read; "120 V circuit" names the circuit and is no reading.
func (t *test) takeVolts() []notes.Measured {
	var out []notes.Measured
	for _, m := range t.take("V") {
		if !t.namesSystem(m) {
			out = append(out, m)
		}
	}
	return out
}

func (t *test) namesSystem(m notes.Measured) bool {
	if !m.Found() {
		return false
	}
	for _, j := range t.jots {
		if j.start < m.End {
			continue
		}
		switch j.stem {
		case "circuit", "ckt", "system", "servic", "feeder", "supply", "nominal", "rat", "rate", "panel", "branch":
			return strings.TrimSpace(t.text[m.End:j.start]) == ""
		}
		return false
	}
	return false
}

func impossible(why string) Verdict {
	return Verdict{Verdict: notes.Recorded, Why: why, Impossible: why}
}

var one = notes.Int(1)

// judgeDead judges a voltage taken to show that something is dead. It is never more than recorded.
func judgeDead(m notes.Measured) Verdict {
	if atMost(m, one) == fails {
		return Verdict{
			Verdict: notes.Outside, Limit: "less than 1 V", Rule: "common practice, no source",
			Why: shown(m) + " where none was to be left", Caution: DeadCaution(),
		}
	}
	return Verdict{Verdict: notes.Recorded, Why: shown(m) + ": one reading does not show that it is dead", Caution: DeadCaution()}
}

// judgeNeutralGround judges neutral to ground: up to 2 V under load is usual, over 5 V is looked
// into, exactly 0 may be a joint nearby. From memory.
func judgeNeutralGround(m notes.Measured) Verdict {
	v := Verdict{Limit: "up to 2 V under load; above 5 V look for the cause", Rule: "trade custom (from memory)", Verdict: notes.Recorded}
	switch {
	case m.Value.IsZero() && m.Op == "":
		v.Why = shown(m) + ": exactly nothing may mean that neutral and ground are joined nearby"
	case atMost(m, notes.Int(2)) == meets:
		v.Verdict, v.Why = notes.Within, shown(m)+" is at most 2 V"
	case atMost(m, notes.Int(5)) == fails:
		v.Verdict, v.Why = notes.Outside, shown(m)+" is above 5 V: a long or loaded neutral, or a poor joint"
	default:
		v.Why = shown(m) + " is from 2 to 5 V: read it again with the usual load"
	}
	return v
}

// judgeVolts judges one voltage between lines or from line to neutral.
func (t *test) judgeVolts(m notes.Measured, all []notes.Measured) Verdict {
	if s := t.statedNominal(); s > 0 && m.Value.Cmp(notes.Int(2*s)) > 0 && pairOf(m.Between) != lineLine {
		return impossible(shown(m) + " cannot be on a " + strconv.Itoa(s) + " V circuit")
	}
	if m.Value.Cmp(notes.Int(660)) > 0 && m.Value.Cmp(notes.Int(2000)) < 0 {
		return impossible(shown(m) + " is near no system voltage up to 600 V")
	}
	n, why := t.nominalOf(m, all)
	if why != "" {
		return Verdict{Verdict: notes.Recorded, Why: shown(m) + ": " + why}
	}
	least, most, place := n.aMin, n.aMax, "service"
	leastB, mostB := n.bMin, n.bMax
	switch {
	case t.has("light", "receptacl", "recept", "outlet", "plug", "fixtur", "luminair"):
		least, leastB, place = n.lightA, n.lightB, "point of use"
	case t.has("motor", "equipment", "machin", "terminal", "compressor", "pump", "condenser", "rtu", "oven", "cabinet"):
		least, leastB, place = n.otherA, n.otherB, "point of use"
	}
	v := Verdict{
		Rule:  ruleVoltage,
		Limit: strconv.Itoa(least) + " to " + strconv.Itoa(most) + " V at a " + strconv.Itoa(n.volts) + " V " + place,
	}
	low, high := atLeast(m, notes.Int(least)), atMost(m, notes.Int(most))
	switch {
	case low == fails || high == fails:
		v.Verdict, v.Why = notes.Outside, shown(m)+" is outside "+strconv.Itoa(least)+" to "+strconv.Itoa(most)+" V"
		if atLeast(m, notes.Int(leastB)) == meets && atMost(m, notes.Int(mostB)) == meets {
			v.Why += "; range B, for short times only, is " + strconv.Itoa(leastB) + " to " + strconv.Itoa(mostB) + " V"
		}
	case low == meets && high == meets:
		v.Verdict, v.Why = notes.Within, shown(m)+" is within "+strconv.Itoa(least)+" to "+strconv.Itoa(most)+" V"
	default:
		v.Verdict, v.Why = notes.Recorded, shown(m)+" is only a bound"
	}
	return v
}

// statedNominal is the voltage a text gives its circuit: "on a 120 V circuit"; 0 when it gives none.
func (t *test) statedNominal() int {
	for i, j := range t.jots {
		n, err := strconv.Atoi(j.stem)
		if err != nil || i+2 >= len(t.jots) || t.jots[i+1].stem != "v" && t.jots[i+1].stem != "volt" {
			continue
		}
		switch t.jots[i+2].stem {
		case "circuit", "ckt", "system", "servic", "feeder", "supply", "nominal", "panel", "branch":
			if n > 0 && n < 100000 {
				return n
			}
		}
	}
	return 0
}

// nominalOf finds the nominal voltage a reading belongs to, or says why it cannot.
func (t *test) nominalOf(m notes.Measured, all []notes.Measured) (nominal, string) {
	best, found := nominal{}, false
	stated := t.statedNominal()
	for _, n := range nominals {
		if n.volts == stated && nearStated(m.Value, stated) && !(pairOf(m.Between) == lineLine && (stated == 120 || stated == 277)) {
			return n, "" // the text says which; 220 V on a 240 V circuit is low, and no 208 V
		}
		if !t.mayBe(n, m, all) {
			continue
		}
		if !found || nearer(m.Value, n.volts, best.volts) {
			best, found = n, true
		}
	}
	switch {
	case !found && m.Value.IsZero():
		return nominal{}, "no voltage there, and the nominal voltage is not written"
	case !found:
		return nominal{}, "near no nominal voltage up to 480 V"
	case t.between208And240(m, all):
		return nominal{}, "it could belong to a 208 V or a 240 V system; write which, as 120/208 or 120/240"
	}
	return best, ""
}

// nearStated reports whether a reading is within a quarter of the voltage the text states.
func nearStated(v notes.Decimal, stated int) bool {
	hundred := v.Mul(notes.Int(100))
	return hundred.Cmp(notes.Int(75*stated)) >= 0 && hundred.Cmp(notes.Int(125*stated)) <= 0
}

// mayBe reports whether a reading may belong to the nominal voltage: within 15 % of it, between
// the right conductors, on the system the text names.
func (t *test) mayBe(n nominal, m notes.Measured, all []notes.Measured) bool {
	if s := t.statedNominal(); s == n.volts {
		return true
	}
	hundred := m.Value.Mul(notes.Int(100))
	if hundred.Cmp(notes.Int(n.volts*85)) < 0 || hundred.Cmp(notes.Int(n.volts*115)) > 0 {
		return false
	}
	switch p := pairOf(m.Between); {
	case p == lineNeutral && (n.volts == 208 || n.volts == 240 || n.volts == 480):
		return false
	case p == lineLine && (n.volts == 120 || n.volts == 277):
		return false
	}
	low := strings.ToLower(t.text)
	switch named := systemOf(low); {
	case named == 208 && n.volts == 240, named == 240 && n.volts == 208:
		return false
	case named == 0 && (n.volts == 208 || n.volts == 240):
		if r := ratioSystem(all); r != 0 && r != n.volts {
			return false
		}
	}
	return true
}

// systemOf reads the system a text names: 208, 240, 480 or 0.
func systemOf(low string) int {
	for _, s := range []struct {
		name  string
		volts int
	}{
		{"120/208", 208}, {"208/120", 208}, {"208y", 208}, {"120/240", 240}, {"240/120", 240}, {"277/480", 480}, {"480/277", 480}, {"480y", 480},
	} {
		if strings.Contains(low, s.name) {
			return s.volts
		}
	}
	return 0
}

// ratioSystem tells 208 from 240 V by the voltage between lines against that from line to neutral:
// 1.73 for three phases, 2 for one. It is 0 when the ratio is near neither.
func ratioSystem(all []notes.Measured) int {
	var ll, ln notes.Decimal
	for _, m := range all {
		switch pairOf(m.Between) {
		case lineLine:
			ll = m.Value
		case lineNeutral:
			ln = m.Value
		}
	}
	if ll.Sign() <= 0 || ln.Sign() <= 0 {
		return 0
	}
	switch r := ll.Quo(ln, 2); {
	case r.Cmp(notes.MustDecimal("1.66")) >= 0 && r.Cmp(notes.MustDecimal("1.8")) <= 0:
		return 208
	case r.Cmp(notes.MustDecimal("1.93")) >= 0 && r.Cmp(notes.MustDecimal("2.07")) <= 0:
		return 240
	}
	return 0
}

// between208And240 reports whether a reading lies between the range A of both and nothing tells which.
func (t *test) between208And240(m notes.Measured, all []notes.Measured) bool {
	return m.Value.Cmp(notes.Int(218)) > 0 && m.Value.Cmp(notes.Int(228)) < 0 && pairOf(m.Between) != lineNeutral &&
		t.statedNominal() == 0 && systemOf(strings.ToLower(t.text)) == 0 && ratioSystem(all) == 0
}

// nearer reports whether v is nearer to a than to b in proportion.
func nearer(v notes.Decimal, a, b int) bool {
	return off(v, a).Mul(notes.Int(b)).Cmp(off(v, b).Mul(notes.Int(a))) < 0
}

func off(v notes.Decimal, n int) notes.Decimal {
	d := v.Sub(notes.Int(n))
	if d.Sign() < 0 {
		return d.Neg()
	}
	return d
}

// Unbalance returns the voltage unbalance of three readings in percent, NEMA MG 1 (checked): the
// largest deviation from the average, over the average, times 100, rounded to 3 decimals.
// It is false when the average is not above 0.
func Unbalance(a, b, c notes.Decimal) (percent notes.Decimal, ok bool) {
	sum := a.Add(b).Add(c)
	if sum.Sign() <= 0 {
		return notes.Decimal{}, false
	}
	var most notes.Decimal // three times the largest deviation
	for _, v := range []notes.Decimal{a, b, c} {
		d := v.Mul(notes.Int(3)).Sub(sum)
		if d.Sign() < 0 {
			d = d.Neg()
		}
		most = notes.Max(most, d)
	}
	return most.Mul(notes.Int(100)).Quo(sum, 3), true
}

// judgeUnbalance judges three voltages between lines, or a percentage written as unbalance:
// 1 % at motor terminals (NEMA MG 1), 3 % at the meter without load (ANSI C84.1).
func judgeUnbalance(t *test) (Verdict, bool) {
	var three []notes.Decimal
	for _, m := range t.readings {
		if m.HasVal && m.Unit == "V" && m.Op == "" && pairOf(m.Between) == lineLine {
			three = append(three, m.Value)
		}
	}
	var percent notes.Decimal
	working := ""
	switch said := t.has("unbalanc", "imbalanc", "unbal", "imbal"); {
	case len(three) == 3:
		p, ok := Unbalance(three[0], three[1], three[2])
		if !ok {
			return Verdict{}, false
		}
		percent = p
		average := three[0].Add(three[1]).Add(three[2]).Quo(notes.Int(3), 2)
		working = "largest deviation from the average of " + average.String() + " V is " + p.String() + " %"
	case said && t.measures("%"):
		m := t.take("%")[0]
		percent, working = m.Value, "unbalance of "+shown(m)
	default:
		return Verdict{}, false
	}
	limit, rule := notes.Int(3), "ANSI C84.1, at the meter without load (checked)"
	if t.has("motor", "compressor", "pump") {
		limit, rule = one, "NEMA MG 1, at motor terminals (checked)"
	}
	v := Verdict{What: "voltage unbalance", Limit: "at most " + limit.String() + " %", Rule: rule, Verdict: notes.Within, Why: working}
	if percent.Cmp(limit) > 0 {
		v.Verdict = notes.Outside
		if percent.Cmp(notes.Int(5)) > 0 {
			v.Why += ", above the 5 % at which a motor is not to be run"
		}
	}
	return v, true
}
