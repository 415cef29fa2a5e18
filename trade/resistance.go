package trade

import (
	"strconv"
	"strings"

	"jobday/notes"
)

// insulation is a row of NETA Table 100.1 (checked, 2019 maintenance edition): equipment that does
// not rotate. The values are suggestions and depend on temperature and humidity.
type insulation struct {
	rated  int // V, largest
	testDC int // V, least
	megohm int // least
}

var insulations = []insulation{
	{250, 500, 25}, {600, 1000, 100}, {1000, 1000, 100}, {2500, 1000, 500}, {5000, 2500, 1500}, {8000, 2500, 2500}, {15000, 2500, 5000},
}

const ruleInsulation = "NETA Table 100.1 (checked)"

// judgeInsulation judges megohms.
func judgeInsulation(t *test) (Verdict, bool) {
	meggered := t.has("megger", "megg", "meg", "insulation") && !t.has("rod", "electrod", "earth")
	if !t.measures("Mohm", "Gohm") && !(meggered && t.measures("ohm", "kohm")) && !t.leaks() {
		return Verdict{}, false
	}
	var list []notes.Measured
	units := []string{"Mohm", "Gohm", "ohm", "kohm"}
	if t.has("continuity", "continu", "bond", "loop") {
		units = units[:2] // the ohms are of a path
	}
	for _, m := range t.take(units...) {
		switch m.Unit {
		case "kohm":
			m.Value, m.Unit = m.Value.Quo(thousand, 6), "Mohm"
		case "Gohm":
			m.Value, m.Unit = m.Value.Mul(thousand), "Mohm"
		case "ohm":
			m.Value, m.Unit = m.Value.Quo(notes.Int(1000000), 6), "Mohm"
		}
		list = append(list, m)
	}
	t.take("V") // the test voltage
	v := Verdict{What: "insulation resistance", Rule: ruleInsulation, Verdict: notes.Recorded}
	if t.has("motor", "winding", "generator", "rotor", "stator") {
		v.Rule, v.Why = "", "the table is not for motors and other rotating machines"
		return v, true
	}
	rated := t.ratedVolts()
	for _, m := range list {
		p := judgeMegohms(m, rated)
		v.Verdict, v.Impossible = worse(v.Verdict, p.Verdict), join(v.Impossible, p.Impossible, "; ")
		v.Limit, v.Why = join(v.Limit, p.Limit, "; "), join(v.Why, p.Why, "; ")
	}
	return v, true
}

// leaks reports whether kilohms were read to ground, which is insulation and no path.
func (t *test) leaks() bool {
	for _, m := range t.readings {
		if m.HasVal && m.Unit == "kohm" && strings.HasSuffix(m.Between, "ground") {
			return true
		}
	}
	return false
}

func judgeMegohms(m notes.Measured, rated int) Verdict {
	if m.Value.Sign() < 0 {
		return impossible(shown(m) + " cannot be a resistance: it is below nothing")
	}
	for _, row := range insulations {
		if rated > 0 && rated <= row.rated {
			limit := "at least " + strconv.Itoa(row.megohm) + " Mohm at " + strconv.Itoa(row.testDC) + " V for equipment rated up to " +
				strconv.Itoa(row.rated) + " V"
			v := Verdict{Limit: limit, Verdict: verdictOf(atLeast(m, notes.Int(row.megohm)))}
			v.Why = shown(m) + map[notes.Verdict]string{
				notes.Within: " is at least ", notes.Outside: " is less than ", notes.Recorded: " is only a bound beside ",
			}[v.Verdict] + strconv.Itoa(row.megohm) + " Mohm"
			return v
		}
	}
	if rated > 0 {
		return Verdict{Verdict: notes.Recorded, Why: shown(m) + ": the table ends at 15000 V"}
	}
	limit := "at least 25 Mohm for equipment rated 250 V, 100 Mohm for 600 V"
	switch {
	case atLeast(m, notes.Int(100)) == meets:
		return Verdict{Verdict: notes.Within, Limit: limit, Why: shown(m) + " is at least 100 Mohm"}
	case atLeast(m, notes.Int(25)) == fails:
		return Verdict{Verdict: notes.Outside, Limit: limit, Why: shown(m) + " is less than 25 Mohm"}
	}
	return Verdict{Verdict: notes.Recorded, Limit: limit, Why: shown(m) + ": write the rated voltage, the limit depends on it"}
}

// ratedVolts is the rated voltage a text states for what was tested: "600 V rated", or a wire type
// that is made for 600 V; 0 when it states none.
func (t *test) ratedVolts() int {
	for i, j := range t.jots {
		n, err := strconv.Atoi(j.stem)
		if err != nil || n < 50 || n > 100000 {
			continue
		}
		after := t.jots[i+1 : min(len(t.jots), i+4)]
		for k, a := range after {
			switch a.stem {
			case "rate", "rat", "class", "insulation", "insul", "equipment", "gear":
				if k == 0 || after[0].stem == "v" || after[0].stem == "volt" {
					return n
				}
			}
		}
	}
	if t.has("thhn", "thwn", "xhhw", "nm", "mc", "romex", "use") {
		return 600
	}
	return 0
}

// countsElectrodes reports whether a figure says that there are two or more: "2 rods", "3 ground rods".
// The 2 of "rod 2" and of "18.2 ohm" says no such thing.
func (t *test) countsElectrodes() bool {
	for i, j := range t.jots {
		if n, ok := wholeNumber(j.stem); !ok || n < 2 || n > 20 || j.start > 0 && (t.text[j.start-1] == '.' || t.text[j.start-1] == '#') {
			continue
		}
		for _, k := range t.jots[i+1 : min(len(t.jots), i+3)] {
			switch t.text[k.start:k.end] {
			case "rods", "electrodes", "plates", "RODS", "Rods":
				return true
			}
		}
	}
	return false
}

// judgePath records the resistance of a ground path or of continuity. About 1 ohm or less is usual
// for a short path (from memory), which is no limit.
func judgePath(t *test) (Verdict, bool) {
	if !t.measures("ohm") || !t.has("continuity", "egc", "path", "bond", "ground") {
		return Verdict{}, false
	}
	v := Verdict{What: "continuity", Verdict: notes.Recorded}
	for _, m := range t.take("ohm") {
		if m.Value.Sign() < 0 {
			p := impossible(shown(m) + " cannot be a resistance: it is below nothing")
			p.What = v.What
			return p, true
		}
		v.Why = join(v.Why, shown(m)+": no limit is known; about 1 ohm or less is usual for a short ground path (from memory)", "; ")
	}
	return v, true
}

// ohmsOneRod is the most one rod, pipe or plate may have without a second: NEC 250.53(A)(2),
// exception (checked).
var ohmsOneRod = notes.Int(25)

// judgeElectrode judges the resistance of a grounding electrode.
func judgeElectrode(t *test) (Verdict, bool) {
	if !t.measures("ohm") || !(t.has("rod", "electrod", "ufer", "earth", "ges", "gec", "plat") ||
		t.says("ground", "resistanc") || t.says("fall", "of", "potential")) {
		return Verdict{}, false
	}
	v := Verdict{What: "ground electrode resistance", Rule: "NEC 250.53(A)(2) exception (checked)", Limit: "25 ohm for a single rod, pipe or plate"}
	several := t.has("two", "both", "pair", "second", "three", "triad", "grid", "ring", "system", "array") || t.says("2", "nd") || t.countsElectrodes()
	for _, m := range t.take("ohm") {
		p := Verdict{Verdict: verdictOf(atMost(m, ohmsOneRod))}
		switch {
		case m.Value.Sign() < 0:
			p = impossible(shown(m) + " cannot be a resistance: it is below nothing")
		case m.Value.IsZero() && m.Op == "":
			p = impossible(shown(m) + " cannot be a rod's resistance to earth: the leads may have met")
		case several:
			p = Verdict{Verdict: notes.Recorded, Why: shown(m) + ": with two or more electrodes no value is required"}
		case p.Verdict == notes.Within:
			p.Why = shown(m) + " is at most 25 ohm"
		case p.Verdict == notes.Outside:
			p.Why = shown(m) + " is more than 25 ohm: a second electrode is needed, at least 6 ft away"
		default:
			p.Why = shown(m) + " is only a bound beside 25 ohm"
		}
		if v.Verdict == "" {
			v.Verdict = p.Verdict
		}
		v.Verdict = worse(v.Verdict, p.Verdict)
		v.Why, v.Impossible = join(v.Why, p.Why, "; "), join(v.Impossible, p.Impossible, "; ")
	}
	return v, true
}
