package trade

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestMissingTests(t *testing.T) {
	for _, c := range []struct {
		installed, tests []string
		want             []string
	}{
		{[]string{"2 of 3 GFCIs at the counter"}, nil, []string{"GFCI trip, by button and by tester where there is a ground: mA and ms"}},
		{[]string{"2 of 3 GFCIs at the counter"}, []string{"GFCI prep left: tripped at 5.1 mA"}, nil},
		{[]string{"six duplex receptacles in the office"}, nil, []string{"polarity and ground at the receptacle"}},
		{[]string{"set new 200 A panel"}, []string{"L1-N 121 V"}, []string{"torque of the terminals, beside the marked value"}},
		{[]string{"set new 200 A panel"}, []string{"L1-N 121 V", "lugs torqued 250 in-lb"}, nil},
		{[]string{"proofing cabinet circuit pulled, not landed yet"}, nil, nil},
		{[]string{"circuit for the oven landed, working"}, nil, []string{"polarity and voltage of the circuit"}},
		{[]string{"labeled the panel"}, nil, nil},
		{[]string{"hung four hood lights"}, nil, nil},
		{[]string{"blank covers in the panel room"}, nil, nil},
		{[]string{"two ground rods driven"}, nil, []string{"resistance of the electrode, or a second electrode"}},
		{[]string{"exit signs, 3"}, nil, []string{"light on battery, by its button"}},
		{nil, nil, nil},
	} {
		var got []string
		for _, w := range MissingTests(c.installed, c.tests, nil) {
			got = append(got, w.Test)
			assert.Equal(t, "common practice, no source", w.Source)
			assert.Contains(t, c.installed, w.Installed)
		}
		assert.Equal(t, c.want, got, "%v", c.installed)
	}
}

func TestMissingTestsThatACompanySwitchedOff(t *testing.T) {
	installed := []string{"2 of 3 GFCIs at the counter", "set new 200 A panel"}
	assert.Len(t, MissingTests(installed, nil, nil), 3)
	var got []string
	for _, w := range MissingTests(installed, nil, []string{"gfci", "torque"}) {
		got = append(got, w.Test)
	}
	assert.Equal(t, []string{"voltage on all legs, to neutral and between"}, got)
	assert.Contains(t, UsualTests(), "shared_neutral")
}
