package field

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/trade"
)

// show writes terms as "class:text" with a letter for the class.
func show(ts []Term) string {
	letters := map[TermClass]string{
		ThingTerm: "t", TraitTerm: "a", VerbTerm: "v", PlaceTerm: "p", DesignationTerm: "d",
		NumberTerm: "n", ColourTerm: "c", OtherTerm: "o",
	}
	var parts []string
	for _, t := range ts {
		part := letters[t.Class] + ":" + t.Text
		if t.Class == VerbTerm || t.Class == PlaceTerm || t.Class == DesignationTerm {
			part += "(" + t.Dim + ")"
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, " ")
}

func TestTerms(t *testing.T) {
	cases := []struct{ text, want string }{
		{"Replace hood lights with sealed LED fixtures", "v:replace(replace) t:hood t:fixture a:sealed a:LED t:fixture"},
		{"Circuit for proofing cabinet, 30 A 2-pole, to box", "t:circuit o:proofing t:cabinet d:30A(amps) d:2P(poles) t:box"},
		{"GFCI receptacles at prep counter", "t:GFCI t:receptacle p:prep(spot) p:counter(spot)"},
		{"2 of 3 GFCIs at the counter", "n:2 n:3 t:GFCI p:counter(spot)"},
		{"GFI", "t:GFCI"},
		{"Trace and label panel LP1", "v:trace(trace) v:label(label) t:panel d:LP1(panel)"},
		{"LP-1 labelled", "d:LP1(panel) v:label(label)"},
		{"panel HP, label and balance", "t:panel d:HP(panel) v:label(label) o:balance"},
		{"Panel CP-1 directory", "t:panel d:CP1(panel) t:directory card"},
		{"panel OK", "t:panel"},
		{"PANEL IS HOT", "t:panel"},
		{"EMT 1 in, mezzanine", "t:EMT d:1 in(size) p:mezzanine(spot)"},
		{"GFCI 1 in, 2 to go", "t:GFCI n:1 n:2"},
		{"troffers 3 of em", "t:troffer n:3"},
		{"2 em at the stair", "n:2 a:emergency p:stairwell(room)"},
		{"panel A directory", "t:panel d:A(panel) t:directory card"},
		{"pulled 52 ft of 10/2 MC", "v:pull(pull) n:52 ft d:10/2(gauge-count) t:MC"},
		{"10-2 romex", "d:10/2(gauge-count) t:NM"},
		{"unit 4 bath fan", "p:unit 4(unit) p:bathroom(room) t:fan"},
		{"units 4, 5 & 6: same", "p:unit 4(unit) p:unit 5(unit) p:unit 6(unit) o:same"},
		{"apt 2B kitchen", "p:unit 2B(unit) p:kitchen(room)"},
		{"hall bath GFCI", "p:bathroom(room) p:hall bath(bathroom) t:GFCI"},
		{"mstr bath fan", "p:bathroom(room) p:primary bath(bathroom) t:fan"},
		{"powder room", "p:bathroom(room) p:powder room(bathroom)"},
		{"bath recept", "p:bathroom(room) t:receptacle"},
		{"room 505 and 506", "p:room 505(unit) p:room 506(unit)"},
		{"aisle four", "p:aisle 4(unit)"},
		{"slip 9", "p:slip 9(unit)"},
		{"door 3", "p:door 3(unit)"},
		{"fl 2", "p:floor 2(floor)"},
		{"second floor", "p:floor 2(floor)"},
		{"u4 heads", "p:unit 4(unit) o:head"},
		{"office 3 recepts", "p:office(room) n:3 t:receptacle"},
		{"vapor-tight lights", "a:sealed t:fixture"},
		{"2nd floor hall lights", "p:floor 2(floor) p:hallway(room) t:fixture"},
		{"north wall outlets", "p:north(side) p:wall(spot) t:receptacle"},
		{"3-way sw at stairs", "d:3-way(way) t:switch p:stairwell(room)"},
		{"roughed in 2-gang box", "v:rough(rough) d:2-gang(gang) t:box"},
		{"land ckt 14 and 16", "v:land(land) t:circuit d:ckt 14(circuit) d:ckt 16(circuit)"},
		{"set 4 boxes", "v:set(install) n:4 t:box"},
		{"box set", "t:box v:set(install)"},
		{"label panel", "v:label(label) t:panel"},
		{"4 labels", "n:4 t:label"},
		{"switch dead in garage", "t:switch p:garage(room)"},
		{"4000K 2x4 LED troffers 40W", "d:4000K(kelvin) d:2x4(size) a:LED t:troffer d:40W(watts)"},
		{"120/240V 1 ph service", "d:120/240V(volts) d:1-phase(phase) t:service"},
		{"#6 THHN grn", "d:6 AWG(gauge) t:THHN c:green"},
		{"cans in living room", "a:recessed t:fixture p:living room(room)"},
		{"14-50 for the range", "d:14-50(nema) t:range"},
		{"RTU-3 disconnect", "d:RTU3(equipment) t:disconnect"},
		{"recepticle and flourescent fixure", "t:receptacle a:fluorescent t:fixture"},
	}
	for _, c := range cases {
		assert.Equal(t, c.want, show(Terms(c.text)), c.text)
	}
}

func TestTermsShopWords(t *testing.T) {
	words := trade.NewWords([][2]string{{"skinny", "tandem 20A breaker"}})
	assert.Equal(t, "n:2 a:tandem d:20A(amps) t:breaker", show(TermsIn("2 skinnies", words)))
}
