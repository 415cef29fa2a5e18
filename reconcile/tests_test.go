package reconcile_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
)

// The tests of a day carry what was read with its unit, also where it was said in words, and what the note
// itself says of limits and results.
func TestVerdictsOfADay(t *testing.T) {
	for _, c := range []struct {
		line, readings string
		want           notes.Verdict
	}{
		{"meggered all of it at a thousand volts, everything over five hundred meg", ">500 Mohm", notes.Within},
		{"oven pulled forty one amps at start and settled at twenty eight", "41 A; 28 A", notes.Recorded},
		{"fan motor pulls twenty two amps against a nameplate of twenty six", "22 A", notes.Within},
		{"bench 0.3 fc, minimum is 0.5", "0.3 fc", notes.Outside},
		{"bond at the window read point six ohm which is over", "0.6 ohm", notes.Outside},
		{"plug tester on all twelve, no reversed no open ground", "ok", notes.Within},
		{"alarms: pressed one, all 3 sounded", "", notes.Within},
		{"lugs torqued to the sticker, two hundred fifty inch pounds", "250 in-lb", notes.Within},
		{"megger ok", "ok", notes.Recorded},
	} {
		out, _ := days(t, bakery, "## Tests\n- "+c.line+"\n")
		require.Len(t, out[0].Tests, 1, c.line)
		got := out[0].Tests[0]
		var list []string
		for _, r := range got.Readings {
			list = append(list, strings.TrimSpace(r.Value+" "+r.Unit))
		}
		assert.Equal(t, c.readings, strings.Join(list, "; "), c.line)
		assert.Equal(t, c.want, got.Verdict, "%s: %s", c.line, got.Why)
		assert.NotContains(t, strings.ToLower(got.Why+got.Limit), "safe", c.line)
	}
}
