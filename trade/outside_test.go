package trade

import (
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
)

// Checks against what was published outside this program, the source beside each.

// ANSI C84.1, 1995/2006 wording, from memory: service range A, service range B, least utilization
// voltage in range A for lighting and for others.
func TestVoltageRanges(t *testing.T) {
	for _, c := range []struct{ nominal, aMin, aMax, bMin, bMax, light, other int }{
		{120, 114, 126, 110, 127, 110, 108}, {208, 197, 218, 191, 220, 191, 187}, {240, 228, 252, 220, 254, 220, 216},
		{277, 263, 291, 254, 293, 254, 249}, {480, 456, 504, 440, 508, 440, 432},
	} {
		at := func(words string, volts int) notes.Verdict {
			text := strconv.Itoa(c.nominal) + " V circuit, " + words
			return Judge(text, []notes.Measured{unit(strconv.Itoa(volts), "V")}).Verdict
		}
		for volts, want := range map[int]notes.Verdict{
			c.aMin - 1: notes.Outside, c.aMin: notes.Within, c.nominal: notes.Within, c.aMax: notes.Within, c.aMax + 1: notes.Outside,
		} {
			assert.Equal(t, want, at("service", volts), "%d V on %d", volts, c.nominal)
		}
		assert.Equal(t, notes.Within, at("receptacle", c.light), c.nominal)
		assert.Equal(t, notes.Outside, at("receptacle", c.light-1), c.nominal)
		assert.Equal(t, notes.Within, at("motor", c.other), c.nominal)
		assert.Equal(t, notes.Outside, at("motor", c.other-1), c.nominal)
		for _, volts := range []int{c.bMin, c.bMax} {
			v := Judge(strconv.Itoa(c.nominal)+" V circuit, service", []notes.Measured{unit(strconv.Itoa(volts), "V")})
			assert.Contains(t, v.Why, "range B, for short times only, is "+strconv.Itoa(c.bMin)+" to "+strconv.Itoa(c.bMax)+" V")
			assert.Contains(t, v.Rule, "from memory")
		}
	}
}

// NETA Table 100.1, 2019 maintenance edition (a published copy of the standard): rated volts, least
// DC test volts, least megohms.
func TestInsulationMinimums(t *testing.T) {
	for _, c := range []struct{ rated, testDC, megohm int }{
		{250, 500, 25}, {600, 1000, 100}, {1000, 1000, 100}, {2500, 1000, 500}, {5000, 2500, 1500}, {8000, 2500, 2500}, {15000, 2500, 5000},
	} {
		for volts, want := range map[int]notes.Verdict{c.megohm: notes.Within, c.megohm - 1: notes.Outside} {
			v := Judge("megger gear "+strconv.Itoa(c.rated)+" V rated", []notes.Measured{unit(strconv.Itoa(volts), "Mohm")})
			assert.Equal(t, want, v.Verdict, "%d Mohm at %d V: %s", volts, c.rated, v.Why)
			assert.Contains(t, v.Limit, "at "+strconv.Itoa(c.testDC)+" V")
			assert.Contains(t, v.Rule, "checked")
		}
	}
}

// NEC chapter 9, Table 8, as "NEC Chapter 9 Table 8, annotated" prints it: circular mils, and ohms per
// 1000 ft at 75 degrees C. The page calls every row stranded; 14 to 8 AWG are the solid ones.
func TestTable8(t *testing.T) {
	for _, c := range []struct {
		size             string
		mils             int
		copper, aluminum string
	}{
		{"14", 4110, "3.07", "5.06"}, {"12", 6530, "1.93", "3.18"}, {"10", 10380, "1.21", ""}, {"8", 16510, "0.764", "1.26"},
		{"6", 26240, "0.491", "0.808"}, {"4", 41740, "0.308", "0.508"}, {"3", 52620, "0.245", "0.403"}, {"2", 66360, "0.194", "0.319"},
		{"1", 83690, "0.154", "0.253"}, {"1/0", 105600, "0.122", "0.201"}, {"2/0", 133100, "0.0967", "0.159"}, {"3/0", 167800, "0.0766", "0.126"},
		{"4/0", 211600, "0.0608", "0.100"},
	} {
		w, ok := wireOf(c.size)
		require.True(t, ok, c.size)
		assert.Equal(t, c.mils, w.mils, c.size)
		assert.Equal(t, c.copper, w.ohms(Run{Solid: true}), c.size)
		if c.aluminum != "" {
			assert.Equal(t, c.aluminum, w.ohms(Run{Aluminum: true}), c.size)
		}
	}
}

// Common practice, no source: a 100 A service takes 1-1/4 in raceway in new work, which holds its three
// conductors with room to spare; a service conduit body is sealed inside and around; what interrupts ground
// faults or arcs is tried right after it went in.
func TestCommonPractice(t *testing.T) {
	for _, wires := range []string{"3 #3 THHN", "3 #4 THHN", "3 #1 THHN"} { // copper, copper for a dwelling, aluminum
		f, ok := FindFill("1-1/4 EMT, "+wires, "2020")
		require.True(t, ok, wires)
		assert.False(t, f.Over, f.Working)
	}
	k, _, ok := FindKind("the LB on the service is not sealed")
	require.True(t, ok)
	assert.Equal(t, "raceway-unsealed", k.Slug)
	assert.Contains(t, k.Correction, "inside")
	assert.Contains(t, k.Correction, "around")
	for _, device := range []string{"GFCI receptacle set at the sink", "AFCI breaker installed for bedroom"} {
		wanted := MissingTests([]string{device}, nil, nil)
		require.NotEmpty(t, wanted, device)
		assert.Contains(t, wanted[0].Test, "button")
		assert.Equal(t, "common practice, no source", wanted[0].Source)
	}
}

// A section is marked as checked exactly where SOURCES.md says on which page it was read.
func TestCheckedSectionsAreInSources(t *testing.T) {
	src, err := os.ReadFile("SOURCES.md")
	require.NoError(t, err)
	_, table, ok := strings.Cut(string(src), "| sections | seen in |\n|---|---|\n")
	require.True(t, ok)
	var seen, checked []string
	for row := range strings.Lines(table) {
		if !strings.HasPrefix(row, "| ") {
			break
		}
		for s := range strings.SplitSeq(strings.Split(row, "|")[1], ",") {
			seen = append(seen, strings.TrimSpace(s))
		}
	}
	for _, k := range Kinds() {
		for _, r := range k.Code {
			if r.Checked && !slices.Contains(checked, r.Section) {
				checked = append(checked, r.Section)
			}
		}
	}
	slices.Sort(seen)
	slices.Sort(checked)
	for _, s := range checked {
		found := slices.ContainsFunc(seen, func(p string) bool { return s == p || strings.HasPrefix(s, p+"(") })
		assert.True(t, found, "%s is marked checked, and SOURCES.md names no page", s)
	}
	for _, p := range seen {
		found := slices.ContainsFunc(checked, func(s string) bool { return s == p || strings.HasPrefix(s, p+"(") })
		assert.True(t, found, "SOURCES.md says %s was seen, and no rule is marked", p)
	}
}
