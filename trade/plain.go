package trade

import (
	"strings"

	"jobday/notes"
)

// judgeTorque holds a torque against the value the text states for it ("spec 275", "label says
// 35"). Without one it is recorded: the maker's value decides (NEC 110.14(D), checked).
func judgeTorque(t *test) (Verdict, bool) {
	if !t.measures("in-lb", "ft-lb", "N-m") {
		return Verdict{}, false
	}
	v := Verdict{What: "torque", Rule: "NEC 110.14(D): the value marked or given by the maker (checked)", Verdict: notes.Recorded,
		Caution: "Terminals are tightened on dead equipment only; checking again later does not show what the torque was."}
	spec, stated := t.statedValue()
	for _, m := range t.take("in-lb", "ft-lb", "N-m") {
		switch {
		case stated && m.Found() && spec.Start >= m.Start && spec.Start < m.End:
			continue // this figure is the required one
		case m.Value.Sign() <= 0:
			p := impossible(shown(m) + " is no torque: it must be more than nothing")
			v.Why, v.Impossible = join(v.Why, p.Why, "; "), join(v.Impossible, p.Impossible, "; ")
		case !stated:
			v.Why = join(v.Why, shown(m)+": the required value is not written beside it", "; ")
		default:
			v.Limit = spec.value.String() + " " + m.Unit + ", as stated in the note"
			p := Verdict{Verdict: notes.Within, Why: shown(m) + " is the " + spec.value.String() + " required"}
			switch c := m.Value.Cmp(spec.value); {
			case m.Op != "":
				p = Verdict{Verdict: notes.Recorded, Why: shown(m) + " is only a bound"}
			case c < 0:
				p = Verdict{Verdict: notes.Outside, Why: shown(m) + " is less than the " + spec.value.String() + " required"}
			case c > 0:
				p = Verdict{Verdict: notes.Outside, Why: shown(m) + " is more than the " + spec.value.String() + " required"}
			}
			v.Verdict, v.Why = worse(v.Verdict, p.Verdict), join(v.Why, p.Why, "; ")
		}
	}
	return v, true
}

// A statedFigure is a required value written in the text.
type statedFigure struct {
	notes.Piece
	value notes.Decimal
}

var statesValue = setOf("spec", "specification", "requir", "required", "label", "marked", "mark", "nameplat", "call", "target", "maker", "manufacturer",
	"mfr", "mfg", "listed", "limit")

// statedValue finds the number a word such as "spec" or "label" announces.
func (t *test) statedValue() (statedFigure, bool) {
	for i, j := range t.jots {
		if !statesValue[j.stem] {
			continue
		}
		for _, k := range t.jots[i+1 : min(len(t.jots), i+5)] {
			if k.stem[0] < '0' || k.stem[0] > '9' {
				continue
			}
			end := k.end
			for end < len(t.text) && (t.text[end] == '.' || '0' <= t.text[end] && t.text[end] <= '9') {
				end++
			}
			d, err := notes.ParseDecimal(strings.TrimRight(t.text[k.start:end], "."))
			return statedFigure{notes.Piece{Start: k.start, End: end}, d}, err == nil
		}
	}
	return statedFigure{}, false
}

const ruleTemperature = "NETA suggested actions by temperature difference, similar parts under similar load (checked)"

// judgeTemperature judges the difference of two temperatures of similar parts under similar load:
// from 1 to 3 degrees C possible, from 4 to 15 probable, above 15 a major discrepancy. Between the
// steps the higher one counts.
func judgeTemperature(t *test) (Verdict, bool) {
	if !t.measures("degC", "degF") {
		return Verdict{}, false
	}
	unit := "degC"
	if t.measures("degF") {
		unit = "degF"
	}
	list := t.take("degC", "degF")
	if len(list) == 1 && (list[0].Between == "difference" || list[0].Between == aboveAir) {
		return judgeDifference(list[0]), true
	}
	v := Verdict{What: "temperature", Verdict: notes.Recorded}
	compared := t.has("vs", "versu", "than", "neighbor", "neighbour", "other", "next", "differenc", "delta", "similar", "ambient", "adjacent", "rise")
	if len(list) != 2 || !compared || list[0].Unit != list[1].Unit || list[0].Op+list[1].Op != "" {
		v.Why = shownAll(list) + ": judged only beside a similar part under similar load; write both"
		return v, true
	}
	diff := list[0].Value.Sub(list[1].Value)
	if diff.Sign() < 0 {
		diff = diff.Neg()
	}
	text, celsius := differenceOf(diff, unit)
	return holdDifference(v, celsius, list[0].Value.String()+" against "+list[1].Value.String()+": a difference of "+text, t.has("ambient", "air")), true
}

// aboveAir is what a temperature is measured between when it is one above the air.
const aboveAir = "above ambient"

// differenceOf writes a difference of temperatures and returns it in degrees C, rounded to a tenth.
func differenceOf(diff notes.Decimal, unit string) (text string, celsius notes.Decimal) {
	text = diff.String() + " " + unit
	if unit == "degF" {
		diff = diff.Mul(notes.Int(5)).Quo(notes.Int(9), 1)
		text += " = " + diff.String() + " degC"
	}
	return text, diff
}

// judgeDifference judges a difference that was written as one: "12 C above ambient", "delta T 4 C".
func judgeDifference(m notes.Measured) Verdict {
	v := Verdict{What: "temperature", Verdict: notes.Recorded}
	if m.Op != "" {
		v.Why = shown(m) + " is only a bound"
		return v
	}
	diff := m.Value
	if diff.Sign() < 0 {
		diff = diff.Neg()
	}
	text, celsius := differenceOf(diff, m.Unit)
	return holdDifference(v, celsius, "a difference of "+text, m.Between == aboveAir)
}

// holdDifference holds a difference in degrees C against the steps; against the air there are none
// without the load.
func holdDifference(v Verdict, diff notes.Decimal, working string, air bool) Verdict {
	if air {
		v.Why = working + "; against the air the load must be known too"
		return v
	}
	v.Rule, v.Limit = ruleTemperature, "above 3 degC probable deficiency, above 15 degC repair at once"
	switch {
	case diff.Cmp(notes.Int(15)) > 0:
		v.Verdict, v.Why = notes.Outside, working+", a major discrepancy"
		v.Caution = "Switch it off or relieve it as soon as that can be done, and repair it at once."
	case diff.Cmp(notes.Int(3)) > 0:
		v.Verdict, v.Why = notes.Outside, working+", a probable deficiency"
	default:
		v.Why = working + "; look into it when it lasts"
	}
	return v
}

func shownAll(list []notes.Measured) string {
	var s []string
	for _, m := range list {
		s = append(s, shown(m))
	}
	return strings.Join(s, ", ")
}
