package trade

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The older layout of the table, amperes at 60 and 75 degrees C, copper then aluminum, as two
// published copies of Table 310-16 show it ("Table 310-16 NEC, size of conductors" and
// "Ampacities of insulated conductors, from NEC Table 310-16"). Rows that the layout since 2011 has
// otherwise (14, 12, 8, 300, 600, 700, 1500, 2000) are left out.
func TestAmpacityAgainstPublishedCopies(t *testing.T) {
	for _, row := range []struct {
		size                   string
		cu60, cu75, al60, al75 int
	}{
		{"10", 30, 35, 25, 30}, {"6", 55, 65, 40, 50}, {"4", 70, 85, 55, 65}, {"3", 85, 100, 65, 75}, {"2", 95, 115, 75, 90},
		{"1", 110, 130, 85, 100}, {"1/0", 125, 150, 100, 120}, {"2/0", 145, 175, 115, 135}, {"3/0", 165, 200, 130, 155},
		{"4/0", 195, 230, 150, 180}, {"250", 215, 255, 170, 205}, {"350", 260, 310, 210, 250}, {"400", 280, 335, 225, 270},
		{"500", 320, 380, 260, 310}, {"750", 400, 475, 320, 385}, {"800", 410, 490, 330, 395}, {"900", 435, 520, 355, 425},
		{"1000", 455, 545, 375, 445}, {"1250", 495, 590, 405, 485}, {"1750", 545, 650, 455, 545},
	} {
		got, ok := ampacityOf(row.size)
		require.True(t, ok, row.size)
		assert.True(t, got.checked, row.size)
		assert.Equal(t, []int{row.cu60, row.cu75, row.al60, row.al75}, []int{got.cu60, got.cu75, got.al60, got.al75}, row.size)
	}
}

// From memory, the layout since 2011.
func TestAmpacityOfTheOtherRows(t *testing.T) {
	for _, row := range []struct {
		conductor string
		terminal  int
		want      int
	}{
		{"14 AWG", 60, 15}, {"14 AWG", 75, 20}, {"12 AWG", 60, 20}, {"12 AWG", 75, 25}, {"8 AWG", 60, 40}, {"8 AWG", 75, 50},
		{"8 AWG AL", 60, 35}, {"8 AWG AL", 75, 40}, {"600 kcmil", 75, 420}, {"8/3 NM", 75, 40}, {"14 AWG AL", 75, 0},
	} {
		c, ok := ReadConductor(row.conductor)
		require.True(t, ok, row.conductor)
		assert.Equal(t, row.want, c.Ampacity(row.terminal), "%s at %d", row.conductor, row.terminal)
	}
}

func TestTheTableRises(t *testing.T) {
	for i, r := range ampacities[1:] {
		b := ampacities[i]
		assert.True(t, r.cu60 > b.cu60 && r.cu75 > b.cu75 && r.al60 >= b.al60 && r.al75 >= b.al75, r.size)
		assert.True(t, r.cu60 < r.cu75 && r.al60 <= r.al75 && r.al75 < r.cu75, r.size)
	}
	for i := range standardRatings[1:] {
		assert.Less(t, standardRatings[i], standardRatings[i+1])
	}
}

func TestBreakerAgainstConductor(t *testing.T) {
	const fits, tooBig, terminals, unknown = ProtectionOpen, ProtectionTooBig, ProtectionTerminals, ProtectionUnknown
	for _, c := range []struct {
		breaker, conductor string
		terminal           int
		want               ProtectionState
		says               string
	}{
		// NEC 240.4(D): 15 A for 14 AWG, 20 A for 12, 30 A for 10 copper, 15 for 12 and 25 for 10
		// aluminum; checked against a wire maker's copy of the footnote to Table 310-16.
		{"15A 1P", "14 AWG", 75, fits, ""},
		{"20A 1P", "14 AWG", 75, tooBig, "15 A is the most (NEC 240.4(D))"},
		{"20A 1P", "12 AWG", 75, fits, ""},
		{"25A 2P", "12/2 MC", 0, tooBig, "20 A"},
		{"30A 2P", "10 AWG", 0, fits, ""},
		{"30A 2P", "#12", 0, tooBig, "20 A"},
		{"40 amp 2P", "10/3 NM", 0, tooBig, "30 A"},
		{"15A 1P", "12 AWG AL", 0, fits, ""},
		{"20A 1P", "12 AWG AL", 0, tooBig, "15 A is the most"},
		{"30A 2P", "10 AWG aluminum", 0, tooBig, "25 A"},
		{"15A 1P", "14 AWG AL", 0, tooBig, "no breaker is listed"},
		{"15A 1P", "18 AWG", 0, tooBig, "7 A"},
		// Table 310.16 with the next standard size of 240.6(A), 240.4(B), from memory.
		{"60A 2P", "6 AWG", 60, fits, ""}, // 55 A, next is 60
		{"70A 2P", "6 AWG", 60, tooBig, "60 A is the most (NEC Table 310.16: 55 A, the next standard size up by 240.4(B), column for 60 degrees C)"},
		{"70A 2P", "6 AWG", 75, fits, ""}, // 65 A, next is 70
		{"70A 2P", "6 AWG", 0, terminals, "marked for 75 degrees C"},
		{"80A 2P", "6 AWG", 0, tooBig, "70 A is the most"},
		{"50A 2P", "8 AWG", 0, terminals, "40 A is the most"},
		{"50A 2P", "8/3 NM", 75, tooBig, "40 A is the most (NEC Table 310.16: 40 A, column for 60 degrees C)"},
		{"100A 2P", "1 AWG", 0, fits, ""},
		{"100A 2P", "1/0 AWG AL", 60, fits, ""},
		{"125A 2P", "1/0 AL", 75, fits, ""},
		{"150A 2P", "1/0 AL", 75, tooBig, "125 A is the most"},
		{"200A 2P", "3/0 AWG", 0, fits, ""}, // above 100 A: 75 degrees C
		{"225A 3P", "250 kcmil AL", 75, fits, ""},
		{"1000A 3P", "2000 kcmil", 75, tooBig, "700 A"},
		{"20A", "13 AWG", 75, unknown, `"13 AWG" is no conductor size`},
		{"20A", "purple", 75, unknown, "no conductor size"},
		{"", "14 AWG", 75, fits, ""},
		{"20A", "", 75, fits, ""},
		{"99999999999999999999A", "14 AWG", 75, fits, ""},
	} {
		state, text := Protection{c.breaker, c.conductor, c.terminal}.Check()
		assert.Equal(t, c.want, state, "%s on %s at %d: %s", c.breaker, c.conductor, c.terminal, text)
		assert.Equal(t, state != fits, text != "", c.conductor)
		assert.Contains(t, text, c.says)
	}
}

func TestReadBreaker(t *testing.T) {
	for in, want := range map[string]string{
		"30A 2P": "30A 2P", "30 A, 2-pole": "30A 2P", "20/1": "20A 1P", "60/2": "60A 2P", "2P 40A": "40A 2P", "20A GFCI": "20A GFCI",
		"single pole 15 amp AFCI": "15A 1P AFCI", "15": "15A", "100A 3P breaker": "100A 3P",
		"": "", "2P": "", "20A 5P": "", "tandem 20": "", "9A": "", "20 30": "", "9999999": "", "20A 2P 2P": "",
	} {
		b, ok := ReadBreaker(in)
		got := ""
		if ok {
			got = b.String()
		}
		assert.Equal(t, want, got, in)
		again, _ := ReadBreaker(got)
		assert.Equal(t, b, again, "%s reads back", strconv.Quote(got))
	}
}

// What is told apart by a number or a side is two loads, and two of them in one space are reported.
func TestSameLoad(t *testing.T) {
	for _, c := range []struct {
		a, b string
		same bool
	}{
		{"counter left", "prep counter", true}, {"mixer receptacle", "oven receptacle", false}, {"slip 6 lights", "slip 7 lights", false},
		{"slip 6 lights", "slip 6 lights, new LED", true}, {"bench left", "bench right", false}, {"bench left", "bench", true},
		{"bench left and right", "bench left", true}, {"front sign", "back sign", false},
	} {
		assert.Equal(t, c.same, SameLoad(c.a, c.b), "%s / %s", c.a, c.b)
	}
}

// "1/2" and "3/8" are raceways and no cable of two and eight wires.
func TestReadConductorKnowsRaceways(t *testing.T) {
	for s, size := range map[string]string{"12/2 MC": "12", "6/3": "6", "1/0 AL": "1/0", "3/8 rope": "", "1/2": "", "3/4 EMT": "", "11 AWG": ""} {
		c, ok := ReadConductor(s)
		assert.Equal(t, size != "", ok, s)
		assert.Equal(t, size, c.Size, s)
	}
}
