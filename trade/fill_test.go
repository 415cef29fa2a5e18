package trade

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Sources: "NEC conduit and EMT fill tables" (a tube makers' institute's question and answer):
// 3 of 12, 4 of 10 and 8 of 8 AWG THWN take 0.4171 in2 and need 1-1/4 EMT (0.598 in2), 1 in has
// 0.346. 24 in nipples: 60 %, notes on chapter 9, note 4. Box: "Box fill calculator" works two 14/2
// and one 12/2 with clamps and a duplex as 21.5 in3 against 21; "Code calculations" gives nine 12 AWG
// in a 4 x 1-1/2 square box and seven 14 AWG in the round one; three 14-2 with clamps and a device
// are 10 volumes of 2.00, figured by hand. The others are figured by hand from the tables.
func TestFindFill(t *testing.T) {
	for _, c := range []struct {
		text string
		over bool
		says string
	}{
		{"3/4 EMT, 9 #12 THHN", false, "9 x 0.0133 in2 (12 THHN) = 0.1197 in2, 22.46 % of 0.533 in2; allowed 40 % of 0.533 in2 = 0.2132 in2"},
		{`1-1/4" EMT with 3 #12, 4 #10, 8 #8 THWN`, false, "= 0.4171 in2, 27.88 % of 1.496 in2; allowed 40 % of 1.496 in2 = 0.5984 in2"},
		{"1 in EMT with 3 #12, 4 #10, 8 #8 THWN", true, "= 0.4171 in2, 48.28 % of 0.864 in2"},
		{"1/2 emt 10 #12 thhn", true, "10 x 0.0133 in2 (12 THHN) = 0.133 in2"},
		{"1/2 EMT nipple, 10 #12 THHN", false, "60 % of 0.304 in2 = 0.1824 in2"},
		{"pulled three 3/0 THHN in 2\" PVC, 1 #4 ground", false, "1 x 0.0824"},
		{"2 in PVC, 3 3/0 XHHW and 1 #6", false, "3 x 0.2642 in2 (3/0 XHHW) + 1 x 0.059 in2"},
		{"3/4 EMT, 6 #8 THHN", false, "note 7"},
		{"3/4 EMT 4 #12", false, "taken as THHN"},
		{"3/4 EMT, 3 #13 THHN", false, ""},
		{"4x1-1/2 square, 6 #12, 2 devices", true, "6 x 2.25 (12 AWG) + 4 x 2.25 (two for each device) = 22.50 in3; a 4 square x 1-1/2 box has 21.0 in3"},
		{"4 x 2-1/8 square box, 6 #12, 2 devices", false, "= 22.50 in3; a 4 square x 2-1/8 box has 30.3 in3"},
		{"4x4x2-1/8 box: 13 #12", false, "= 29.25 in3"},
		{"4x1-1/2 square: 9 #12", false, "= 20.25 in3"},
		{"4x1-1/2 square: 10 #12", true, "= 22.50 in3"},
		{"4x1-1/2 octagon, 7 #14", false, "= 14.00 in3; a 4 octagon x 1-1/2 box has 15.5 in3"},
		{"4x1-1/2 octagon, 8 #14", true, "= 16.00 in3"},
		{"18 cu in box, three 14/2, clamps, a device", true, "6 x 2 (14 AWG of 3 cables) + 2 x 2 (two for each device) + 1 x 2 (clamps) + 1 x 2 (3 grounds) = 20.00 in3"},
		{"20 cubic inch box: three 14/2 with clamps, 1 device", false, "= 20.00 in3"},
		{"4x1-1/2 square, two 14/2 and one 12/2, clamps, 1 receptacle", true, "= 21.50 in3"},
		{"4x2-1/8 square, 6 #12, 1 device, clamps, 4 grounds", false, "+ 1 x 2.25 (4 grounds) = 22.50 in3; a 4 square x 2-1/8 box has 30.3 in3"},
		{"4 square x 2-1/8 deep, 6 #12, 1 device", false, "= 18.00 in3; a 4 square x 2-1/8 box has 30.3 in3"},
		{"3x2x3-1/2 device box: 4 #12, 6 grounds, 1 switch", false, "1.5 x 2.25 (6 grounds) = 16.88 in3"},
	} {
		f, ok := FindFill(c.text, "2020")
		require.True(t, ok, c.text)
		assert.Equal(t, c.over, f.Over, "%s: %s", c.text, f.Working)
		assert.Contains(t, f.Working, c.says, c.text)
		assert.Equal(t, c.says == "", f.Unknown != "", c.text)
	}
}

func TestFindFillLeavesOtherTextAlone(t *testing.T) {
	for _, text := range []string{
		"10 3/4 EMT connectors, 500 ft #12 THHN", "60 ft 3/4 EMT", "3/4 EMT and 1/2 EMT, 9 #12", "52 ft 10/2 MC", "2,4: proofing cabinet, 30A 2P, 10 AWG",
		"4 square boxes, 6 #12 pigtails", "GFCI tripped at 5.1 mA, 28 ms", "cut in 2 3/4 EMT runs, 9 #12", "four 4x1-1/2 square boxes", "", "#", "3/4", "cu 12 in", "4x1-1/2 square and 4x2-1/8 square, 6 #12",
		"20 ft #12 in 3/4 EMT", "9999999999999999999999 #12 in 3/4 EMT",
	} {
		f, ok := FindFill(text, "2020")
		assert.False(t, ok, "%s: %s", text, f.Working)
	}
}

// Before 2020 all grounding conductors together took one volume.
func TestGroundsByEdition(t *testing.T) {
	text := "3x2x2-3/4 device box, 2 #12, 10 grounds, 1 switch"
	old, _ := FindFill(text, "2017")
	now, _ := FindFill(text, "2023")
	assert.Contains(t, old.Working, "1 x 2.25 (10 grounds) = 11.25 in3")
	assert.Contains(t, now.Working, "2.5 x 2.25 (10 grounds) = 14.63 in3")
	assert.False(t, old.Over)
	assert.True(t, now.Over)
}

// NEC Annex C, Table C.1 as a page on sizing raceways shows it: the most THHN of one size in EMT of
// 1/2, 3/4, 1, 1-1/4, 1-1/2 and 2. Our tables must come to the same counts and refuse one more.
func TestFillAgreesWithAnnexC(t *testing.T) {
	trades := []string{"1/2", "3/4", "1", "1-1/4", "1-1/2", "2"}
	for size, counts := range map[string][]int{
		"14": {12, 22, 35, 61, 84, 138}, "12": {9, 16, 26, 45, 61, 101}, "10": {5, 10, 16, 28, 38, 63}, "8": {3, 6, 9, 16, 22, 36},
		"6": {2, 4, 7, 12, 16, 26}, "4": {1, 2, 4, 7, 10, 16}, "3": {1, 1, 3, 6, 8, 13}, "2": {1, 1, 3, 5, 7, 11}, "1": {1, 1, 1, 4, 5, 8},
	} {
		for i, n := range counts {
			for extra, over := range []bool{false, true} {
				f, ok := FindFill(trades[i]+" in EMT, "+strconv.Itoa(n+extra)+" #"+size+" THHN", "2020")
				require.True(t, ok)
				assert.Equal(t, over, f.Over, "%d of %s in %s: %s", n+extra, size, trades[i], f.Working)
			}
		}
	}
}

func FuzzFindFill(f *testing.F) {
	f.Add("4x1-1/2 square, 6 #12, 2 devices")
	f.Add("3/4 EMT, 9 #12 THHN 1/0 4x4x2-1/8 cu in #")
	f.Fuzz(func(t *testing.T, text string) {
		FindFill(text, "2020")
		runOf(text)
	})
}
