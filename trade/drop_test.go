package trade

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
)

func amps(s string) notes.Measured { return unit(s, "A") }

func unit(s, u string) notes.Measured {
	return notes.Measured{Value: notes.MustDecimal(s), HasVal: true, Unit: u}
}

// Worked examples seen on published pages, and the same figured by hand to three places:
//   - "Voltage drop calculation explained": 20 A, 10 AWG copper, 100 ft, 120 V: 51 600 / 10 380 =
//     4.97 V = 4.1 %; with 8 AWG about 3.1 V = 2.6 %
//   - "How to calculate voltage drop": 15 A, 12 AWG, 100 ft, 120 V prints 5.94 V, 4.95 %, the answer
//     by Table 8 for stranded wire (by K it is 5.926 V)
//   - a learning site's problem: 16 A, 12 AWG, 150 ft, 120 V; the answer is figured by hand
//
// The others are figured by hand from the rows of the table as marked there.
func TestVoltageDrop(t *testing.T) {
	for _, c := range []struct {
		size, feet, amperes, volts           string
		aluminum, solid, three               bool
		byK, kPercent, byTable, tablePercent string
	}{
		{"10", "100", "20", "120", false, false, false, "4.971", "4.14", "4.96", "4.13"},
		{"8", "100", "20", "120", false, false, false, "3.125", "2.6", "3.112", "2.59"},
		{"12", "100", "15", "120", false, false, false, "5.926", "4.94", "5.94", "4.95"},
		{"12", "100", "15", "120", false, true, false, "5.926", "4.94", "5.79", "4.83"},
		{"12", "150", "16", "120", false, false, false, "9.482", "7.9", "9.504", "7.92"},
		{"1/0", "200", "100", "240", true, false, false, "8.03", "3.35", "8.04", "3.35"},
		{"4", "250", "60", "208", false, false, true, "8.029", "3.86", "8.002", "3.85"},
	} {
		d, ok := VoltageDrop(Run{
			Feet: notes.MustDecimal(c.feet), Size: c.size, Aluminum: c.aluminum, Solid: c.solid, ThreePhase: c.three,
			Amperes: notes.MustDecimal(c.amperes), Volts: notes.MustDecimal(c.volts),
		})
		require.True(t, ok, c.size)
		assert.Equal(t, []string{c.byK, c.kPercent, c.byTable, c.tablePercent},
			[]string{d.ByK.String(), d.ByKPercent.String(), d.ByTable.String(), d.ByTablePercent.String()}, "%+v", c)
	}
}

// K is what the table comes to: 1.98 x 6530 / 1000 = 12.93, 0.491 x 26 240 / 1000 = 12.88. Every
// row is within 2.1 % of it, so a slip in a figure from memory would show.
func TestTableAndKAgree(t *testing.T) {
	for _, w := range wireRows {
		for ohms, k := range map[string]notes.Decimal{w.stranded: kCopper, w.alumi: kAluminum} {
			product := notes.MustDecimal(ohms).Mul(notes.Int(w.mils)).Quo(notes.Int(1000), 6)
			off := product.Sub(k).Mul(notes.Int(100)).Quo(k, 2)
			assert.True(t, off.Cmp(notes.Ratio(21, 10)) <= 0 && off.Cmp(notes.Ratio(-21, 10)) >= 0, "%s: %s is %s %% off %s", w.size, ohms, off, k)
		}
	}
}

func TestJudgeVoltageDropAndCurrents(t *testing.T) {
	for _, c := range []struct {
		text     string
		readings []notes.Measured
		verdict  notes.Verdict
		says     string
	}{
		{"150 ft 12 AWG 16 A 120 V", []notes.Measured{amps("16"), unit("120", "V")}, notes.Outside, "9.482 V, 7.9 % of 120 V"},
		{"voltage drop: 60' of #10, 20 amps at 120 V", nil, notes.Within, "2.983 V, 2.49 %"},
		{"total drop, 100 ft of 10 AWG, 20 A, 120 V", nil, notes.Within, "4.14 %"},
		{"vd 200 ft 1/0 al 100 A 240 V", nil, notes.Outside, "aluminum"},
		{"250 ft 4 AWG 60 A 208 V 3 phase", nil, notes.Outside, "1.732 x 12.9"},
		{"30 m 12 AWG, 1200 W, 120 V", nil, notes.Outside, "98.4252 ft"},
		{"100 ft 13 AWG 20 A 120 V", []notes.Measured{amps("20"), unit("120", "V")}, notes.Recorded, `"13" is no size of conductor`},
		{"0 ft 12 AWG 20 A 120 V", nil, notes.Recorded, "nothing"},
		{"99999999999999999 ft 12 AWG 20 A 120 V", nil, notes.Recorded, "beyond what is built"},
		{"voltage drop 2.4 %", []notes.Measured{unit("2.4", "%")}, notes.Within, "3 % recommended"},
		{"voltage drop 3.1%", []notes.Measured{unit("3.1", "%")}, notes.Outside, "3 % recommended"},
		{"voltage drop under load: 121 at the panel, 114 at the far end", []notes.Measured{unit("121", "V"), unit("114", "V")}, notes.Outside, "5.79 %"},
		{"pump amps A 10, B 11.5, C 12.5", []notes.Measured{amps("10"), amps("11.5"), amps("12.5")}, notes.Outside, "11.765 %"},
		{"motor running 10.2 10.4 10.1 A", []notes.Measured{amps("10.2"), amps("10.4"), amps("10.1")}, notes.Within, "1.629 %"},
		{"legs of LP1: A 43 A, B 41 A, C 12 A", []notes.Measured{amps("43"), amps("41"), amps("12")}, notes.Recorded, "the loads make it"},
		{"lug torque 250 V", []notes.Measured{unit("250", "V")}, notes.Recorded, "torque is measured in in-lb"},
		{"gfci bath 25 ohm, tripped", []notes.Measured{unit("25", "ohm")}, notes.Recorded, "a trip is measured in mA and ms"},
		{"gfci bath ok, egc 0.3 ohm", []notes.Measured{unit("0.3", "ohm")}, notes.Recorded, "short ground path"},
		{"rev polarity at office rec 3", nil, notes.Outside, "not passed"},
		{"electrode 12 V", []notes.Measured{unit("12", "V")}, notes.Recorded, "measured in ohm"},
		{"N-G 0.8 V under load", []notes.Measured{{Value: notes.MustDecimal("0.8"), HasVal: true, Unit: "V", Between: "N-G"}}, notes.Within, "at most 2 V"},
	} {
		v := Judge(c.text, c.readings)
		assert.Equal(t, c.verdict, v.Verdict, "%s: %s", c.text, v.Why)
		assert.Contains(t, v.Why, c.says, c.text)
		assert.NotContains(t, v.Why, "safe", c.text)
	}
}

// What cannot be right is a finding, never a verdict.
func TestJudgeImpossible(t *testing.T) {
	for _, c := range []struct {
		text string
		m    notes.Measured
	}{
		{"GFCI tripped at 5 A", amps("5")}, {"900 V on a 120 V circuit", unit("900", "V")}, {"rod -3 ohm", unit("-3", "ohm")},
		{"continuity -0.2 ohm", unit("-0.2", "ohm")}, {"megger -5 Mohm", unit("-5", "Mohm")}, {"torque 0 in-lb", unit("0", "in-lb")},
		{"voltage drop 140 %", unit("140", "%")}, {"lug torque 250 V", unit("250", "V")},
	} {
		v := Judge(c.text, []notes.Measured{c.m})
		assert.NotEmpty(t, v.Impossible, c.text)
		assert.Equal(t, notes.Recorded, v.Verdict, c.text)
	}
}
