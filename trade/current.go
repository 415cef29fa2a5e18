package trade

import (
	"slices"
	"strings"

	"jobday/notes"
)

// The custom for running currents: 10 % unbalance at a motor is looked into. From memory; NEMA
// MG 1 gives the formula for voltage (checked) and says that current unbalance is 6 to 10 times
// that of the voltage (from memory).
const ruleCurrents = "formula of NEMA MG 1; 10 % is trade custom (from memory)"

// judgeCurrents judges the unbalance of three running currents. Of a motor 10 % is looked into; of
// a panel's legs it is figured and recorded, for single loads make it what it is.
func judgeCurrents(t *test) (Verdict, bool) {
	var three []notes.Decimal
	for _, m := range t.readings {
		if m.HasVal && m.Unit == "A" && m.Op == "" && m.Value.Sign() >= 0 {
			three = append(three, m.Value)
		}
	}
	motor := t.has("motor", "compressor", "comp", "pump", "fan", "blower", "running")
	said := t.has("unbalanc", "imbalanc", "unbal", "imbal")
	legs := t.has("leg", "phas", "l1", "l", "a", "b", "c", "line")
	if len(three) != 3 || !motor && !said && !legs || t.has("gfci", "gfi") {
		return Verdict{}, false
	}
	percent, ok := Unbalance(three[0], three[1], three[2])
	if !ok {
		return Verdict{}, false
	}
	t.take("A")
	average := three[0].Add(three[1]).Add(three[2]).Quo(notes.Int(3), 2)
	v := Verdict{What: "current unbalance", Rule: ruleCurrents, Verdict: notes.Recorded,
		Why: "largest deviation from the average of " + average.String() + " A is " + percent.String() + " %"}
	if !motor && !said {
		v.Rule = "formula of NEMA MG 1"
		v.Why += "; the legs of a panel have no limit, the loads make it"
		return v, true
	}
	v.Limit = "at most 10 % at a motor"
	switch {
	case percent.Cmp(notes.Int(10)) > 0:
		v.Verdict, v.Why = notes.Outside, v.Why+"; check the voltage unbalance, the connections and the windings"
	default:
		v.Verdict = notes.Within
	}
	return v, true
}

// A quantity is what a word says is measured, and the units that fit it.
type quantity struct {
	name  string
	stems []string
	units []string
}

// quantities are the measured things whose word leaves no doubt about the unit.
var quantities = []quantity{
	{"torque", []string{"torqu", "torqued"}, []string{"in-lb", "ft-lb", "N-m"}},
	{"insulation resistance", []string{"megger", "megg", "meggered", "insulation"}, []string{"Mohm", "Gohm", "kohm", "ohm", "V"}},
	{"resistance of an electrode", []string{"electrod", "ufer", "rod"}, []string{"ohm", "A", "mA", "in", "ft"}},
	{"voltage", []string{"voltag"}, []string{"V", "mV", "kV", "%", "Hz"}},
	{"frequency", []string{"frequency"}, []string{"Hz"}},
	{"temperature", []string{"temp", "temperatur", "thermal"}, []string{"degC", "degF"}},
	{"continuity", []string{"continuity"}, []string{"ohm", "kohm", "Mohm"}},
	{"current", []string{"ampacity", "current"}, []string{"A", "mA", "%", "ms", "s", "V"}},
}

// judgeMisfit finds readings whose units cannot be what their words say is measured: "ground rod
// electrode 12 V", "torque 250 V". It says so only where the text names one quantity and no
// reading of it has a fitting unit.
func judgeMisfit(t *test) (Verdict, bool) {
	var named *quantity
	for i := range quantities {
		if q := &quantities[i]; t.has(q.stems...) {
			if named != nil {
				return Verdict{}, false
			}
			named = q
		}
	}
	if v, ok := t.misfitTrip(); ok {
		return v, true
	}
	if named == nil || t.has("gfci", "gfi", "drop", "vdrop", "trip", "tripped") {
		return Verdict{}, false
	}
	var units []string
	for _, m := range t.readings {
		switch {
		case !m.HasVal:
		case slices.Contains(named.units, m.Unit):
			return Verdict{}, false
		case m.Unit != "":
			units = append(units, shown(m))
		}
	}
	if units == nil {
		return Verdict{}, false
	}
	for i := range t.taken {
		t.taken[i] = true
	}
	v := impossible(strings.Join(units, ", ") + " does not fit: " + named.name + " is measured in " + strings.Join(named.units, ", "))
	v.What = named.name
	return v, true
}

// misfitTrip finds a trip test whose only figures are of units no trip is measured in ("gfci 25 ohm,
// tripped"): the word alone must not pass it. A text that also names a path or a screw is left alone.
func (t *test) misfitTrip() (Verdict, bool) {
	if !t.has(gfciWords...) || t.has("ground", "egc", "bond", "continuity", "rod", "torqu", "lug", "loop", "megger", "insulation") {
		return Verdict{}, false
	}
	var units []string
	for _, m := range t.readings {
		switch {
		case !m.HasVal || m.Unit == "":
		case slices.Contains([]string{"ohm", "kohm", "Mohm", "Gohm", "in-lb", "ft-lb", "N-m", "degC", "degF"}, m.Unit):
			units = append(units, shown(m))
		default:
			return Verdict{}, false
		}
	}
	if units == nil {
		return Verdict{}, false
	}
	for i := range t.taken {
		t.taken[i] = true
	}
	v := impossible(strings.Join(units, ", ") + " does not fit: a trip is measured in mA and ms")
	v.What, v.Rule, v.Limit = "GFCI trip", ruleGFCI, limitGFCI
	return v, true
}
