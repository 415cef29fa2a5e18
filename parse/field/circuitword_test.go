package field

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/notes"
)

func TestCircuitsThatMovedAndNeutrals(t *testing.T) {
	for in, want := range map[string]string{
		"LP1 was 7 now 9: walk-in cooler":                  "LP1 [9] was [7] walk-in cooler",
		"was 7 now 9":                                      "[9] was [7]",
		"7 now 9: cooler, 20A":                             "[9] was [7] cooler 20A",
		"7 -> 9: cooler":                                   "[9] was [7] cooler",
		"7,9 moved to 11,13: oven":                         "[11 13] was [7 9] oven",
		"cooler moved from 7 to 9":                         "[9] was [7] cooler",
		"PP2 4: moved the bench right from 8 to 4":         "PP2 [4] was [8] bench right",
		"LP1 moved the saw from 7 to 9":                    "LP1 [9] was [7] saw",
		"moved the saw from 7,9 to 11,13":                  "[11 13] was [7 9] saw",
		"moved the truck from 8 to 4 pm":                   "",
		"circuit 7 is now 9":                               "[9] was [7]",
		"9 (was 7): cooler, 20A 1P":                        "[9] was [7] cooler 20A 1P",
		"9: cooler, was 7":                                 "[9] was [7] cooler",
		"panel A was 2,4 now 6,8: range":                   "A [6 8] was [2 4] range",
		"14 -> dishwasher":                                 "[14] dishwasher",
		"7 -> 2 offices":                                   "[7] 2 offices",
		"16/18: sign and lights, share a neutral, tied":    "[16 18] sign and lights shared tied",
		"16: sign, shares a neutral with 18":               "[16] sign shared with [18]",
		"8,10: bench, MWBC, no handle tie":                 "[8 10] bench shared separate",
		"8,10: bench, shared neutral, two single poles":    "[8 10] bench shared separate",
		"8,10: bench, shared neutral, separate handles":    "[8 10] bench shared separate",
		"PP1 1/3: handle tie put on, shared neutral":       "PP1 [1 3] shared tied",
		"PP1 1/3: put a handle tie on":                     "PP1 [1 3] tied",
		"7: mixer, replaces cooler":                        "[7] mixer instead",
		"5: 2 offices and the hall, 20A":                   "[5] 2 offices and the hall 20A",
		"3: lights from 7 to 9 pm":                         "[3] lights from 7 to 9 pm",
		"12 & 14 - bench, common trip, 20A 2P":             "[12 14] bench 20A 2P tied",
		"21: removed":                                      "[21] removed instead",
		"40,42: car charger 60A 2P 4 AWG":                  "[40 42] car charger 60A 2P 4 AWG",
		"moved the switch to the left of the door 3 times": "",
	} {
		assert.Equal(t, want, say(Circuit(in, nil)), in)
	}
	assert.Equal(t, "20A 1P 12 AWG shared with [9] separate", say(CircuitDetail("20A 1P, #12, share neutral with 9, handles not tied", nil)))
}

// say writes what was read in words.
func say(c notes.CircuitWords) string {
	s := c.Panel
	add := func(format string, v ...any) {
		if s != "" {
			s += " "
		}
		s += fmt.Sprintf(format, v...)
	}
	if len(c.Spaces) > 0 {
		add("%v", c.Spaces)
	}
	if len(c.Was) > 0 {
		add("was %v", c.Was)
	}
	for _, w := range []string{c.Serves, c.Breaker, c.Conductor} {
		if w != "" {
			add("%s", w)
		}
	}
	if c.Shared {
		add("shared")
	}
	if len(c.With) > 0 {
		add("with %v", c.With)
	}
	switch c.Tied {
	case notes.Yes:
		add("tied")
	case notes.No:
		add("separate")
	}
	if c.Instead && len(c.Was) == 0 {
		add("instead")
	}
	return s
}
