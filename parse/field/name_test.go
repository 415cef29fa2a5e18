package field

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The same thing jotted in several ways has one name.
func TestName(t *testing.T) {
	cases := map[string][]string{
		"20A 1P breaker":        {"20A 1P breaker", "breaker 20 amp 1 pole", "1-pole 20A brkr", "20/1 bkr", "single pole 20a breaker", "20A single-pole", "1P20 breaker"},
		"30A 2P breaker":        {"30 amp 2-pole breaker", "2-pole 30", "30/2 brkr", "double pole 30A breaker", "breaker, 2P, 30A"},
		"12/2 MC":               {"12/2 MC", "12-2 MC cable", "MC 12/2", "MC cable, 12/2", "12 2 mc", "12/2 mc-lite"},
		"12/2 NM":               {"12/2 romex", "12-2 NM-B w/g", "NM 12/2 w/ ground", "12-2 NM cable"},
		"10/2 MC":               {"10/2 MC cable", "10-2 mc"},
		"3/4 in EMT":            {"3/4 EMT", `3/4" emt`, "¾ EMT", "3/4in EMT conduit", "EMT 3/4", ".75 EMT", "EMT, 3/4 inch"},
		"1-1/4 in EMT":          {`1 1/4" EMT`, "1-1/4 EMT", "1¼ EMT", "EMT 1-1/4 in."},
		"4 in square box":       {"4in squares", "4 in square box", `4" sq bx`, "4 inch sq. box", "box, 4 in square", "1900 box"},
		"4-11/16 in square box": {"4-11/16 sq bx", "4 11/16 square box", `4-11/16" square boxes`},
		"15A receptacle":        {"15A dup recept", "15 amp duplex receptacle", "outlet 15A", "recept, 15 A"},
		"20A GFCI receptacle":   {"20A GFCI recepts", "20 amp GFI", "GFCI receptacle, 20A", "gfci outlet 20a"},
		"wire nut":              {"wirenuts", "wire nuts", "wire-nut"},
		"red wire nut":          {"red wirenuts", "wire nuts, red"},
		"6 AWG green THHN":      {"#6 THHN grn", "6 AWG THHN green", "THHN #6 green", "#6 green THHN wire"},
		"1-gang old work box":   {"1-gang old work boxes", "old-work box 1G", "single gang old work box", "1 gang cut-in box"},
		"sealed LED fixture":    {"sealed LED fixtures", "sealed LED light fixture", "sealed LED lights", "LED luminaire, sealed"},
		"30A unfused disconnect": {"30A unfused disconnect", "30 amp non-fused disco", "disconnect, 30A, non-fusible",
			"unfused 30A safety switch"},
		"3/4 in EMT connector":            {"3/4 EMT conn", "EMT connector 3/4", `conn 3/4" emt`, "3/4 in. EMT connectors"},
		"1/2 in EMT strap":                {"1/2 EMT straps", "strap, EMT, 1/2 in", "1/2 emt one strap"},
		"3-way switch":                    {"3-way switch", "3 way sw", "three-way switches", "3-ways"},
		"40/80 panel":                     {"40/80 panel", "panel 40/80", "40/80 load center"},
		"2x4 LED troffer":                 {"2x4 LED troffer", "LED lay-in 2x4", "2x4 LED troffer fixture", "2'x4' LED troffer"},
		"MC connector":                    {"MC conn", "MC cable connectors", "connector, MC"},
		"8 ft ground rod":                 {"8' ground rod", "ground rod 8 ft", "8 foot gnd rod"},
		"4/0 AWG aluminum SER":            {"4/0 AL SER", "SER 4/0 alum"},
		"14-50 receptacle":                {"14-50R", "14-50 receptacle", "NEMA 14-50 outlet"},
		"junction box":                    {"j-box", "jbox", "junction boxes", "J box"},
		"1 in PVC sch 40":                 {},
		"receptacle plate":                {"receptacle plate", "duplex plate", "recept cover plate"},
		"weatherproof in-use cover":       {"WP in-use cover", "weatherproof bubble cover"},
		"15A tamper resistant receptacle": {"15A TR recept", "TR duplex 15A", "tamper-resistant receptacle, 15 A"},
		"occupancy sensor":                {"occ sensors", "occupancy sensor", "occ. sensor", "motion sensor"},
		"12 AWG black stranded THHN":      {"#12 stranded THHN black", "12 AWG THHN stranded blk"},
		"set screw EMT connector":         {"EMT set-screw connector", "set screw EMT conn"},
	}
	for want, ways := range cases {
		for _, way := range ways {
			assert.Equal(t, want, Name(way), way)
		}
	}
}
