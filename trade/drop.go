package trade

import (
	"strings"

	"jobday/notes"
)

// A wireRow is one size of NEC chapter 9, Table 8: circular mils, and the direct-current resistance
// at 75 degrees C in ohms per 1000 ft of uncoated copper, stranded and solid, and of aluminum; "" where the
// table has none. Circular mils, the copper rows but for the kind marked below, and aluminum up to
// 4/0 without 10 AWG: checked on a published copy of the table. Stranded 14 to 8, aluminum 10 and
// everything in kcmil: from memory.
type wireRow struct {
	size                   string
	mils                   int
	stranded, solid, alumi string
}

var wireRows = []wireRow{
	{"14", 4110, "3.14", "3.07", "5.06"}, {"12", 6530, "1.98", "1.93", "3.18"}, {"10", 10380, "1.24", "1.21", "2.00"},
	{"8", 16510, "0.778", "0.764", "1.26"}, {"6", 26240, "0.491", "", "0.808"}, {"4", 41740, "0.308", "", "0.508"},
	{"3", 52620, "0.245", "", "0.403"}, {"2", 66360, "0.194", "", "0.319"}, {"1", 83690, "0.154", "", "0.253"},
	{"1/0", 105600, "0.122", "", "0.201"}, {"2/0", 133100, "0.0967", "", "0.159"}, {"3/0", 167800, "0.0766", "", "0.126"},
	{"4/0", 211600, "0.0608", "", "0.100"}, {"250", 250000, "0.0515", "", "0.0847"}, {"300", 300000, "0.0429", "", "0.0707"},
	{"350", 350000, "0.0367", "", "0.0605"}, {"400", 400000, "0.0321", "", "0.0529"}, {"500", 500000, "0.0258", "", "0.0424"},
	{"600", 600000, "0.0214", "", "0.0353"}, {"750", 750000, "0.0171", "", "0.0282"},
}

// K is the resistance of one circular mil-foot, ohms: 12.9 copper, 21.2 aluminum (checked).
var kCopper, kAluminum = notes.MustDecimal("12.9"), notes.MustDecimal("21.2")

const ruleDrop = "recommended and not required: informational notes to NEC 210.19 and 215.2 (checked; the numbers of the notes moved with the editions)"

// A Run is a circuit whose voltage drop can be figured.
type Run struct {
	Feet       notes.Decimal // one way
	Size       string        // "12", "1/0", "250"
	Aluminum   bool
	Solid      bool // else stranded
	ThreePhase bool
	Amperes    notes.Decimal
	Volts      notes.Decimal
}

// Drop is the voltage drop of a run by both methods in use: with K and circular mils, and with the
// resistance of Table 8. Volts are rounded to 3 decimals, percent to 2, half away from zero.
type Drop struct {
	ByK, ByTable               notes.Decimal // V
	ByKPercent, ByTablePercent notes.Decimal
	Working                    string
	top, low                   notes.Decimal // the larger and the smaller drop, not rounded
}

// VoltageDrop figures 2 x K x I x L / CM and 2 x R x I x L / 1000, with 1.732 in place of 2 for
// three phases; L is one way in feet. It is false for a size the table does not have, or figures
// that are not above 0 or absurd.
func VoltageDrop(r Run) (Drop, bool) {
	row, ok := wireOf(r.Size)
	ohms := row.ohms(r)
	if !ok || !plausible(r.Feet, 100000) || !plausible(r.Amperes, 100000) || !plausible(r.Volts, 100000) {
		return Drop{}, false
	}
	factor, k := notes.Int(2), kCopper
	if r.ThreePhase {
		factor = notes.MustDecimal("1.732")
	}
	if r.Aluminum {
		k = kAluminum
	}
	load := factor.Mul(r.Amperes).Mul(r.Feet)
	byK, byTable := load.Mul(k).Quo(notes.Int(row.mils), 12), load.Mul(notes.MustDecimal(ohms)).Quo(thousand, 12)
	d := Drop{
		ByK: byK.Round(3), ByTable: byTable.Round(3),
		ByKPercent: byK.Mul(notes.Int(100)).Quo(r.Volts, 2), ByTablePercent: byTable.Mul(notes.Int(100)).Quo(r.Volts, 2),
		top: notes.Max(byK, byTable), low: notes.Min(byK, byTable),
	}
	times := factor.String() + " x "
	across := " x " + r.Amperes.String() + " A x " + r.Feet.String() + " ft / "
	d.Working = times + k.String() + across + notes.Int(row.mils).String() + " circular mils = " + d.ByK.String() + " V, " + d.ByKPercent.String() +
		" % of " + r.Volts.String() + " V; by Table 8, " + r.metal() + ": " + times + ohms + across + "1000 = " + d.ByTable.String() + " V, " +
		d.ByTablePercent.String() + " %"
	return d, true
}

func (r Run) metal() string {
	switch {
	case r.Aluminum:
		return "aluminum"
	case r.Solid:
		return "solid copper"
	}
	return "stranded copper"
}

func (w wireRow) ohms(r Run) string {
	switch {
	case r.Aluminum:
		return w.alumi
	case r.Solid && w.solid != "":
		return w.solid
	}
	return w.stranded
}

// plausible reports whether a figure is above 0, at most most and not finer than anybody measures.
func plausible(d notes.Decimal, most int) bool {
	return d.Sign() > 0 && d.Cmp(notes.Int(most)) <= 0 && d.Equal(d.Round(6))
}

func wireOf(size string) (wireRow, bool) {
	for _, w := range wireRows {
		if w.size == size {
			return w, true
		}
	}
	return wireRow{}, false
}

// judgeDrop figures the voltage drop where a text gives run, conductor and load ("150 ft 12 AWG
// 16 A 120 V"), or holds a measured one against the recommendation: 3 % for a branch circuit or a
// feeder, 5 % for both together.
func judgeDrop(t *test) (Verdict, bool) {
	v := Verdict{What: "voltage drop", Rule: ruleDrop, Verdict: notes.Recorded}
	most := notes.Int(3)
	v.Limit = "at most 3 % on a branch circuit or a feeder"
	if t.has("total", "overall", "combin", "both", "altogether") {
		most, v.Limit = notes.Int(5), "at most 5 % on feeder and branch circuit together"
	}
	says := t.has("drop", "vd", "vdrop") || t.has("unload", "unloaded") && t.has("load", "loaded") || t.says("no", "load") && t.says("full", "load") ||
		t.has("load", "loaded") && (t.says("far", "end") || t.says("end", "of", "run") || t.says("end", "of", "the", "run"))
	r, bad, ok := runOf(t.text)
	switch {
	case ok:
		return t.judgeRun(v, r, most), true
	case bad != "":
		t.take("A", "V", "W")
		v.Impossible, v.Why = bad, bad
		return v, true
	case !says:
		return Verdict{}, false
	case t.measures("%"):
		m := t.take("%")[0]
		t.take("V", "A")
		if m.Value.Sign() < 0 || m.Value.Cmp(notes.Int(100)) > 0 {
			v.Impossible = shown(m) + " cannot be a voltage drop"
			v.Why = v.Impossible
			return v, true
		}
		v.Verdict, v.Why = verdictOf(atMost(m, most)), shown(m)+" beside the "+most.String()+" % recommended"
		return v, true
	}
	return t.judgeMeasuredDrop(v, most)
}

func (t *test) judgeRun(v Verdict, r Run, most notes.Decimal) Verdict {
	t.take("A", "V", "W", "%")
	d, ok := VoltageDrop(r)
	if !ok {
		v.Impossible = "the figures given for the voltage drop are beyond what is built; nothing is figured"
		v.Why = v.Impossible
		return v
	}
	limit := most.Mul(r.Volts)
	v.Why = d.Working
	hundred := notes.Int(100)
	switch {
	case d.top.Mul(hundred).Cmp(limit) <= 0:
		v.Verdict = notes.Within
	case d.low.Mul(hundred).Cmp(limit) > 0:
		v.Verdict = notes.Outside
		v.Why += "; look at the size of the wire, the length of the run and the load"
	default:
		v.Why += "; the two methods fall on either side of " + most.String() + " %"
	}
	return v
}

// judgeMeasuredDrop compares two voltages read at the two ends of a run under load.
func (t *test) judgeMeasuredDrop(v Verdict, most notes.Decimal) (Verdict, bool) {
	var volts []notes.Measured
	for _, m := range t.readings {
		if m.HasVal && m.Unit == "V" && m.Op == "" && !t.namesSystem(m) {
			volts = append(volts, m)
		}
	}
	if len(volts) != 2 || volts[0].Value.Sign() <= 0 || volts[1].Value.Sign() <= 0 {
		return Verdict{}, false
	}
	if volts[0].Value.Cmp(volts[1].Value) < 0 { // the far end was written first
		volts[0], volts[1] = volts[1], volts[0]
	}
	t.take("V")
	drop := volts[0].Value.Sub(volts[1].Value)
	percent := drop.Mul(notes.Int(100)).Quo(volts[0].Value, 2)
	v.Why = volts[0].Value.String() + " - " + volts[1].Value.String() + " = " + drop.String() + " V, " + percent.String() + " % of " + volts[0].Value.String() + " V"
	v.Verdict = notes.Outside
	if drop.Mul(notes.Int(100)).Cmp(most.Mul(volts[0].Value)) <= 0 {
		v.Verdict = notes.Within
	}
	return v, true
}

// runOf reads run, conductor and load out of a text. Bad says what is there and cannot be right;
// the run is false unless all of it is there.
func runOf(text string) (r Run, bad string, ok bool) {
	low := strings.ToLower(text)
	var watts notes.Decimal
	var feet, amps, volts, sizes int
	size := ""
	for _, f := range figures(text) {
		switch f.unit {
		case "ft", "feet", "foot", "'":
			r.Feet, feet = f.value, feet+1
		case "m", "meters", "metres":
			r.Feet, feet = f.value.Quo(notes.MustDecimal("0.3048"), 4), feet+1
		case "a", "amp", "amps":
			if f.after != "breaker" && f.after != "circuit" && f.after != "ckt" && f.after != "brkr" && f.after != "p" && f.after != "rated" {
				r.Amperes, amps = f.value, amps+1
			}
		case "v", "volt", "volts":
			r.Volts, volts = f.value, volts+1
		case "w", "watt", "watts":
			watts = f.value
		case "kw":
			watts = f.value.Mul(thousand)
		case "awg", "ga", "gauge", "kcmil", "mcm":
			size, sizes = f.text, sizes+1
		default:
			if s, is := sizeOf(f); is {
				size, sizes = s, sizes+1
			}
		}
	}
	if feet != 1 || sizes != 1 || volts != 1 || amps > 1 || amps == 0 && watts.IsZero() {
		return r, "", false
	}
	r.Size = size
	if _, known := wireOf(size); !known {
		return r, quoted(size) + " is no size of conductor in Table 8", false
	}
	if r.Volts.Sign() <= 0 || r.Feet.Sign() <= 0 || amps == 1 && r.Amperes.Sign() <= 0 {
		return r, "a run, load or voltage of nothing has no voltage drop to figure", false
	}
	if amps == 0 {
		r.Amperes = watts.Quo(r.Volts, 4)
	}
	words := " " + strings.NewReplacer("-", " ", ",", " ", ".", " ", ";", " ").Replace(low) + " "
	r.Aluminum = strings.Contains(words, " al ") || strings.Contains(words, " alum") || strings.Contains(words, "/al")
	r.Solid = strings.Contains(words, " solid ") || strings.Contains(words, " nm ") || strings.Contains(words, "romex")
	for _, p := range []string{" 3 phase", " 3 ph ", " 3ph ", " three phase", " 3ø", " 3 ø", " 3phase"} {
		r.ThreePhase = r.ThreePhase || strings.Contains(words, p)
	}
	return r, "", true
}

// sizeOf reads a figure that is a conductor's size without a unit: "#12", "12/2", "1/0", "No. 12".
func sizeOf(f figure) (string, bool) {
	if f.before == "#" || f.before == "no" {
		return f.text, true
	}
	gauge, wires, cable := strings.Cut(f.text, "/")
	switch {
	case !cable:
		return "", false
	case wires == "0":
		return f.text, true
	case wires == "2" || wires == "3" || wires == "4":
		_, known := wireOf(gauge)
		return gauge, known && len(gauge) > 1 || gauge == "8" && known || gauge == "6" && known
	}
	return "", false
}

func quoted(s string) string { return `"` + s + `"` }
