package reconcile

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
)

// panelCase is one or more days of circuits in a panel, with how it stands after them and what is
// found. A day is its lines; a line of the layout is "spaces: serves, breaker, conductor".
type panelCase struct {
	name   string
	layout string // "spaces phases terminal", "" for none
	before []string
	days   []string
	stands string
	finds  string
}

var panelCases = []panelCase{
	{
		name: "a circuit on two spaces without poles said is one breaker", days: []string{"2,4: proofing cabinet, 10 AWG"},
		stands: "2,4 proofing cabinet, 10 AWG",
	},
	{
		name: "spaces that share a neutral are a breaker each, one of two poles is one", days: []string{"16/18: sign and lights, share a neutral, tied | 20,22: bench, MWBC, 20A 2P"},
		stands: "16 sign and lights =18; 18 sign and lights =16; 20,22 bench, 20A 2P",
		finds:  `panel/description: spaces 16 and 18 have one description`,
	},
	{
		name: "one space and two poles take the space below", days: []string{"2: dryer, 30A 2P, 10 AWG"},
		stands: "2,4 dryer, 30A 2P, 10 AWG",
	},
	{
		name: "single poles are a breaker each", days: []string{"1,3: hall sconces, 20A 1P"},
		stands: "1 hall sconces, 20A 1P; 3 hall sconces, 20A 1P", finds: "panel/description: spaces 1 and 3 have one description",
	},
	{
		name: "a later day corrects the same spaces", days: []string{"7: cooler, 20A 1P", "7: mixer, 15A 1P"},
		stands: "7 mixer, 15A 1P",
	},
	{
		name: "a later word adds what was not said", days: []string{"7: walk-in cooler", "7: cooler, 20A 1P, 12 AWG", "7: 20A 1P GFCI"},
		stands: "7 cooler, 20A 1P GFCI, 12 AWG",
	},
	{
		name: "two circuits in one space on one day", days: []string{"7: cooler, 20A 1P | 7: mixer, 20A 1P"},
		stands: "7 mixer, 20A 1P", finds: `panel/space-twice: two circuits in one space: space 7 holds "cooler" already, and now "mixer"`,
	},
	{
		name: "a later circuit in half of a two-pole breaker", days: []string{"2,4: oven, 50A 2P, 6 AWG", "4: hood fan, 15A 1P"},
		stands: "2 oven, 50A 2P, 6 AWG; 4 hood fan, 15A 1P", finds: `panel/space-twice: two circuits in one space: space 4 holds "oven"`,
	},
	{
		name: "half of it said again is the whole", days: []string{"2,4: deck oven, 50A 2P, 6 AWG", "2: oven, 6 AWG"},
		stands: "2,4 oven, 50A 2P, 6 AWG",
	},
	{
		name: "replaced in words", days: []string{"2,4: oven, 50A 2P", "4: hood fan, 15A 1P, replaces the oven"}, stands: "4 hood fan, 15A 1P",
	},
	{
		name: "spare, blank, removed, reserved", days: []string{"1: spare, 20A 1P | 3: blank | 5,7: range, 50A 2P | 9: reserved for the sign", "5: removed"},
		stands: "1 spare, 20A 1P; 3 blank; 5,7 blank; 9 reserved for the sign",
	},
	{
		name: "a spare gives its breaker", days: []string{"1: spare, 20A 1P", "1: counter left, 12 AWG"}, stands: "1 counter left, 20A 1P, 12 AWG",
	},
	{
		name: "was 7 now 9", days: []string{"7: cooler, 20A 1P, 12 AWG", "was 7 now 9"}, stands: "9 cooler, 20A 1P, 12 AWG",
	},
	{
		name: "moved onto another", days: []string{"7: cooler, 20A 1P | 9: mixer, 20A 1P", "cooler moved from 7 to 9"}, stands: "9 cooler, 20A 1P",
	},
	{
		name: "outside the panel", layout: "12 1 75", days: []string{"14: sign, 20A 1P | 1: counter left, 20A 1P"},
		stands: "1 counter left, 20A 1P", finds: "panel/space-outside: space 14 is outside the panel P, which has 12 spaces",
	},
	{
		name: "the layout holds it already", layout: "12 1 75", before: []string{"7: cooler, 20A 1P, 12 AWG"}, days: []string{"7: mixer, 20A 1P"},
		stands: "7 mixer, 20A 1P", finds: `panel/space-twice: two circuits in one space: space 7 holds "cooler" already, and now "mixer"`,
	},
	{
		name: "two rows of the layout on one space", layout: "12 1 75", before: []string{"7: cooler, 20A 1P", "7: mixer, 20A 1P"},
		days: []string{"1: blank"}, stands: "1 blank; 7 mixer, 20A 1P", finds: `panel/space-twice: two circuits in one space: space 7 holds "cooler"`,
	},
	{
		name: "reserved", layout: "12 1 75", before: []string{"7: reserved for second oven"}, days: []string{"7: sign, 20A 1P"},
		stands: "7 sign, 20A 1P", finds: `panel/space-reserved: space 7 was held for "second oven"`,
	},
	{
		name: "reserved for what comes", layout: "12 1 75", before: []string{"7: reserved for second oven"}, days: []string{"7: second oven, 20A 1P"},
		stands: "7 second oven, 20A 1P",
	},
	{
		// NFPA 70 210.4(B): all ungrounded conductors of a multiwire circuit are disconnected at once.
		name: "multiwire on single poles", layout: "12 1 75", days: []string{"1: sign, 20A 1P, shares a neutral with 3 | 3: lights north, 20A 1P"},
		stands: "1 sign, 20A 1P =3; 3 lights north, 20A 1P =1",
		finds:  "panel/handles: spaces 1 and 3 share a neutral on single-pole breakers, and no handle tie is written",
	},
	{
		name: "multiwire with separate handles", layout: "12 1 75", days: []string{"1,3: sign, share a neutral, handles not tied"},
		stands: "1 sign =3; 3 sign =1",
		finds:  "panel/description: spaces 1 and 3 have one description\npanel/handles: spaces 1 and 3 share a neutral and their handles are separate",
	},
	{
		name: "multiwire tied, on two legs", layout: "12 1 75", days: []string{"1: sign, 20A 1P, shares a neutral with 3, tied | 3: lights north, 20A 1P"},
		stands: "1 sign, 20A 1P =3; 3 lights north, 20A 1P =1",
	},
	{
		name: "multiwire on one leg of one phase", layout: "12 1 75", days: []string{"1: sign, 20A 1P, 12 AWG, shares a neutral with 5, tied | 5: lights north, 15A 1P, 12 AWG"},
		stands: "1 sign, 20A 1P, 12 AWG =5; 5 lights north, 15A 1P, 12 AWG =1",
		finds:  "panel/one-leg: spaces 1 and 5 stand on one leg, A, and share a neutral, which then carries the sum, up to 20 + 15 = 35 A; 12 AWG copper carries 25 A at 75 degrees C",
	},
	{
		name: "the same spaces on three phases are two legs", layout: "12 3 75", days: []string{"1: sign, 20A 1P, shares a neutral with 5, tied | 5: lights north, 15A 1P"},
		stands: "1 sign, 20A 1P =5; 5 lights north, 15A 1P =1",
	},
	{
		name: "across the panel is one leg in every panel", days: []string{"1: sign, 20A 1P, shares a neutral with 2, tied | 2: lights north, 20A 1P"},
		stands: "1 sign, 20A 1P =2; 2 lights north, 20A 1P =1", finds: "panel/one-leg: spaces 1 and 2 stand on one leg and share a neutral, which then carries the sum, up to 20 + 20 = 40 A",
	},
	{
		name: "one of two on a leg moves to the other", layout: "12 1 75",
		days:   []string{"1: sign, 20A 1P, 12 AWG, shares a neutral with 5, tied | 5: lights north, 15A 1P, 12 AWG", "moved the lights north from 5 to 3"},
		stands: "1 sign, 20A 1P, 12 AWG =3; 3 lights north, 15A 1P, 12 AWG =1",
		finds:  "panel/one-leg: spaces 1 and 5 stand on one leg, A, and share a neutral, which then carries the sum, up to 20 + 15 = 35 A",
	},
	{
		name: "a neutral shared with a space nobody described", layout: "12 1 75", days: []string{"1: sign, 20A 1P, shares a neutral with 3"},
		stands: "1 sign, 20A 1P =3", finds: "panel/handles-unsaid: space 1 shares a neutral with 3, and nothing says what is there",
	},
	{
		name: "a two-pole breaker across the panel", layout: "12 1 75", days: []string{"1,2: oven, 50A 2P"},
		stands: "1,2 oven, 50A 2P", finds: "panel/poles: a 2-pole breaker takes 2 spaces one below the other on one side, not 1 and 2",
	},
	{
		name: "two two-pole breakers on one line", layout: "12 1 75", days: []string{"1,2,3,4: ranges, 50A 2P"},
		stands: "1,3 ranges, 50A 2P; 2,4 ranges, 50A 2P", finds: "panel/description: spaces 1, 2, 3 and 4 have one description",
	},
	{
		// NFPA 70 240.4(D) and Table 310.16; the figures are checked in package trade.
		name: "breaker against conductor by the terminals", layout: "12 1 60", days: []string{"1: pump, 25A 1P, 12 AWG | 2,4: range, 50A 2P, 8 AWG | 6: sign, 20A 1P, 13 AWG"},
		stands: "1 pump, 25A 1P, 12 AWG; 2,4 range, 50A 2P, 8 AWG; 6 sign, 20A 1P, 13 AWG",
		finds:  "panel/breaker: 25 A breaker on 12 AWG copper: 20 A is the most (NEC 240.4(D))\npanel/breaker: 50 A breaker on 8 AWG copper: 40 A is the most\npanel/conductor: \"13 AWG\" is no conductor size",
	},
	{
		name: "75 degree terminals carry more", layout: "12 1 75", days: []string{"2,4: range, 50A 2P, 8 AWG"}, stands: "2,4 range, 50A 2P, 8 AWG",
	},
	{
		name: "terminals nobody read", layout: "12 1 0", days: []string{"2,4: range, 50A 2P, 8 AWG"}, stands: "2,4 range, 50A 2P, 8 AWG",
		finds: "panel/terminals: 50 A breaker on 8 AWG copper: 40 A is the most",
	},
	{
		// NFPA 70 408.4(A), 2020 text.
		name: "descriptions", layout: "12 1 75", days: []string{"1: lights, 20A 1P | 2: ???, 20A 1P | 3: 15A 1P"},
		stands: "1 lights, 20A 1P; 2 ???, 20A 1P; 3 not described, 15A 1P",
		finds:  "panel/description: \"lights\" does not tell the circuit from others\npanel/description: \"???\" is no description anybody can read\npanel/description: nothing says what the circuit serves",
	},
}

func TestPanelsStand(t *testing.T) {
	for _, c := range panelCases {
		t.Run(c.name, func(t *testing.T) {
			job := &notes.Job{}
			if c.layout != "" {
				p := notes.Panel{Name: "P"}
				fmt.Sscan(c.layout, &p.Spaces, &p.Phases, &p.Terminal)
				f := finding.NewFile("panels.md", []byte(strings.Join(c.before, "\n")))
				for i, row := range c.before {
					at := f.LineSpan(i + 1)
					p.Circuits = append(p.Circuits, notes.PanelRow{CircuitWords: field.Circuit(row, nil), At: notes.PanelPlaces{Row: at, Space: at, Breaker: at, Conductor: at, Serves: at}})
				}
				job.Panels = append(job.Panels, p)
			}
			in := Input{Company: &notes.Company{}, Prices: &notes.PriceList{}, Job: job}
			for i, day := range c.days {
				in.Notes = append(in.Notes, circuitDay(i, day))
			}
			days, found := Job(in)
			require.Len(t, days, len(c.days))
			last := days[len(days)-1]
			require.Len(t, last.Panels, 1)
			assert.Equal(t, c.stands, stands(last.Panels[0]))
			wantFindings(t, c.finds, found)
			require.NoError(t, notes.CheckJob(days))
		})
	}
}

// circuitDay is a note whose lines stand below Circuits.
func circuitDay(i int, lines string) *notes.DayNote {
	text := strings.Join(strings.Split(lines, " | "), "\n")
	f := finding.NewFile(fmt.Sprintf("2026-03-%02d.md", i+1), []byte(text))
	n := &notes.DayNote{File: f, Date: notes.Date{Year: 2026, Month: 3, Day: i + 1}}
	for line := 1; line <= f.Lines(); line++ {
		span := f.LineSpan(line)
		n.Entries = append(n.Entries, notes.Entry{
			Section: notes.Circuits, Kind: notes.Circuit, Sure: 1, Text: span.Text(), Span: span, Facts: notes.Facts{Circuit: field.Circuit(span.Text(), nil)},
		})
	}
	return n
}

// stands writes a standing on one line; "=18" is the neutral it shares.
func stands(p notes.PanelStanding) string {
	var all []string
	for _, c := range p.Standing {
		s := strings.Trim(strings.ReplaceAll(fmt.Sprint(c.Spaces), " ", ","), "[]") + " " + c.Says()
		for _, n := range c.Neutral {
			s += fmt.Sprintf(" =%d", n)
		}
		all = append(all, s)
	}
	return strings.Join(all, "; ")
}

// wantFindings wants exactly the findings of the panels, each beginning as given, in any order.
func wantFindings(t *testing.T, want string, found finding.List) {
	t.Helper()
	var got []string
	for _, f := range found {
		if strings.HasPrefix(f.Rule, "panel/") {
			got = append(got, f.Rule+": "+f.Message)
			assert.True(t, f.Span.Known() && f.Hint != "", f.Message)
		}
	}
	lines := strings.Split(want, "\n")
	if want == "" {
		lines = nil
	}
	if !assert.Len(t, got, len(lines), strings.Join(got, "\n")) {
		return
	}
	for _, l := range lines {
		at := -1
		for i, g := range got {
			if strings.HasPrefix(g, l) {
				at = i
			}
		}
		if assert.GreaterOrEqual(t, at, 0, "wanted %q of\n%s", l, strings.Join(got, "\n")) {
			got = append(got[:at], got[at+1:]...)
		}
	}
}

// TestPanelsOfAJob: which panel a note means, and that a detail may be a circuit of its own.
func TestPanelsOfAJob(t *testing.T) {
	two := []notes.Panel{{Name: "LP1", Spaces: 42}, {Name: "2A", Spaces: 24}}
	for _, c := range []struct {
		panels      []notes.Panel
		day, stands string
		finds       string
	}{
		{nil, "LP1 7: cooler | 2A 9,11: pump | lp-1 9: mixer", "LP1: 7 cooler; 9 mixer / 2A: 9,11 pump", ""},
		{two[:1], "7: cooler", "LP1: 7 cooler", ""},
		{two, "7: cooler | panel 2A 7: sign | LP-1 9: mixer", "LP1: 9 mixer / 2A: 7 sign", "panel/unsaid: nothing says which panel"},
		{two, "LP9 7: cooler", "LP1:  / 2A:  / LP9: 7 cooler", `panel/not-laid-out: the panel "LP9" is not among`},
	} {
		days, found := Job(Input{
			Company: &notes.Company{}, Prices: &notes.PriceList{}, Job: &notes.Job{Panels: c.panels}, Notes: []*notes.DayNote{circuitDay(0, c.day)},
		})
		var all []string
		for _, p := range days[0].Panels {
			all = append(all, p.Name+": "+stands(p))
		}
		assert.Equal(t, c.stands, strings.Join(all, " / "), c.day)
		wantFindings(t, c.finds, found)
	}
	n := circuitDay(0, "7: cooler, 20A 1P")
	n.Entries[0].Details = []notes.Detail{
		{Text: "12 AWG"}, {Text: "9: plugs at the till", Facts: notes.Facts{Circuit: field.Circuit("9: plugs at the till", nil)}}, {Text: "15A 1P, shares a neutral with 7, tied"},
	}
	days, _ := Job(Input{Company: &notes.Company{}, Prices: &notes.PriceList{}, Job: &notes.Job{}, Notes: []*notes.DayNote{n}})
	assert.Equal(t, "7 cooler, 20A 1P, 12 AWG =9; 9 plugs at the till, 15A 1P =7", stands(days[0].Panels[0]))
	require.Len(t, days[0].Circuits, 2)
}

func FuzzPanels(f *testing.F) {
	for _, c := range panelCases {
		f.Add(strings.Join(c.days, " | "), strings.Join(c.before, " | "), uint8(12), uint8(1))
	}
	f.Fuzz(func(t *testing.T, day, before string, spaces, phases uint8) {
		job := &notes.Job{Panels: []notes.Panel{{Name: "P", Spaces: int(spaces), Phases: int(phases)}}}
		for _, row := range strings.Split(before, " | ") {
			job.Panels[0].Circuits = append(job.Panels[0].Circuits, notes.PanelRow{CircuitWords: field.Circuit(row, nil)})
		}
		days, _ := Job(Input{Company: &notes.Company{}, Prices: &notes.PriceList{}, Job: job, Notes: []*notes.DayNote{circuitDay(0, day), circuitDay(1, before)}})
		for _, d := range days {
			for _, p := range d.Panels {
				taken := map[int]bool{}
				for _, c := range p.Standing {
					require.NotEmpty(t, c.Spaces)
					for _, s := range c.Spaces {
						require.False(t, taken[s], "space %d stands twice", s)
						taken[s] = true
						require.True(t, s >= 1 && s <= notes.MaxSpaces && (p.Spaces == 0 || s <= p.Spaces))
					}
				}
			}
			p := d.Panels[0]
			require.Empty(t, p.ChangesSince(&p))
		}
	})
}
