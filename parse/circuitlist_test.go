package parse

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/notes"
)

// A line that lists circuits is one entry a circuit, all of the panel named first; a breaker rating, a second thing that
// is served and a list of spaces part nothing.
func TestCircuitLists(t *testing.T) {
	for line, want := range map[string][]string{
		"RP 1,3 = kiln, RP 5,7 = wheel, RP 9 = sink":             {"RP [1 3] kiln", "RP [5 7] wheel", "RP [9] sink"},
		"6B pnl: 2 = counter, 4 = bath, 6 = bedrooms":            {"6B [2] counter", "6B [4] bath", "6B [6] bedrooms"},
		"1/3 kiln, 2/4 compressor, 5 plugs + opener":             {" [1 3] kiln", " [2 4] compressor", " [5] plugs + opener"},
		"RP-2: 1,3 lot / 5 canopy":                               {"RP-2 [1 3] lot", "RP-2 [5] canopy"},
		"RP-2 circuit 18 is the dryer and circuit 20 is the fan": {"RP-2 [18] the dryer", "RP-2 [20] the fan"},
		"2,4: kiln, 30A 2P, 10 AWG":                              {" [2 4] kiln"},
		"8: front sign and shop lights":                          {" [8] front sign and shop lights"},
		"12: recepts, 20A":                                       {" [12] recepts"},
	} {
		n, _ := Note(testFile("2026-03-04", []byte("## Circuits\n\n- "+line+"\n")), NoteContext{})
		var got []string
		for i := range n.Entries {
			e := &n.Entries[i]
			assert.Equal(t, notes.Circuit, e.Kind, "%s: %s", line, e.Text)
			c := e.Facts.Circuit
			got = append(got, fmt.Sprintf("%s %v %s", c.Panel, c.Spaces, c.Serves))
		}
		assert.Equal(t, want, got, line)
	}
}
