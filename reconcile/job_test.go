package reconcile_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
	"jobday/reconcile"
)

const bakery = `---
job: 7
title: Bakery
customer: Mill Lane Bakery
---

## Scope

| Line | Work | Qty | Unit | Price | Hours |
|------|------|-----|------|-------|-------|
| A | Replace hood lights with sealed LED fixtures | 4 | ea | 640.00 | 3 |
| B | Circuit for proofing cabinet, 30 A 2-pole | 1 | ea | 585.00 | 4 |
| C | GFCI receptacles at prep counter | 3 | ea | 118.00 each | 2 |
| D | Trench from shop to shed | 120 | ft | 9.00 each | 6 |

## Not included

- Patching and painting
`

// days reconciles notes, one a day from 12 March on, of a crew of two, and checks the invariants that hold before
// there is money.
func days(t *testing.T, scope string, texts ...string) ([]*notes.JobDay, finding.List) {
	t.Helper()
	job, found := parse.Scope(finding.NewFile("jobs/7-x/scope.md", []byte(scope)))
	require.Empty(t, found)
	in := reconcile.Input{Company: &notes.Company{Name: "Ours", NEC: "2020"}, Prices: &notes.PriceList{}, Job: job}
	for i, text := range texts {
		name := fmt.Sprintf("jobs/7-x/2026-03-%d.md", 12+i)
		n, _ := parse.Note(finding.NewFile(name, []byte("---\ncrew: [Ines, Tobias]\nauthor: Ines\n---\n"+text)),
			parse.NoteContext{People: []string{"Ines", "Tobias"}})
		in.Notes = append(in.Notes, n)
	}
	slices.Reverse(in.Notes) // the order of the notes must not matter
	out, raised := reconcile.Job(in)
	require.Len(t, out, len(texts))
	for _, d := range out {
		for _, n := range d.Notes {
			assert.Empty(t, n.Unaccounted(), "%s: lines not accounted for", n.File)
		}
		require.NoError(t, d.Check())
	}
	return out, raised
}

func standings(d *notes.JobDay) string {
	var b strings.Builder
	for _, s := range d.Scope {
		if s.State != notes.NotReported {
			fmt.Fprintf(&b, "%s %s: %s today, %s to date, %s left", s.Line, s.State, s.Today, s.ToDate, s.Left)
			if s.Over.Sign() > 0 {
				fmt.Fprintf(&b, ", %s over", s.Over)
			}
			b.WriteString("; ")
		}
	}
	return strings.TrimSuffix(b.String(), "; ")
}

func TestProgressAddsUpOverDays(t *testing.T) {
	for _, c := range []struct {
		name  string
		notes []string
		want  []string
	}{
		{"a count out of the whole is to date", []string{"## Done\n- 2 of 3 GFCIs at the prep counter", "## Done\n- C: 3 of 3"},
			[]string{"C under way: 2 today, 2 to date, 1 left", "C complete: 1 today, 3 to date, 0 left"}},
		{"a plain count adds up", []string{"## Done\n- C: 2 GFCIs", "## Done\n- C: 1 GFCI"},
			[]string{"C under way: 2 today, 2 to date, 1 left", "C complete: 1 today, 3 to date, 0 left"}},
		{"done is the rest", []string{"## Done\n- C: 1 GFCI", "## Done\n- [x] C: prep counter GFCIs"},
			[]string{"C under way: 1 today, 1 to date, 2 left", "C complete: 2 today, 3 to date, 0 left"}},
		{"a day without a word changes nothing", []string{"## Done\n- C: 1 GFCI", "## Time\n- Ines 7-3"},
			[]string{"C under way: 1 today, 1 to date, 2 left", "C under way: 0 today, 1 to date, 2 left"}},
		{"beyond the booked is over", []string{"## Done\n- C: 2 GFCIs", "## Done\n- C: 2 GFCIs"},
			[]string{"C under way: 2 today, 2 to date, 1 left", "C over: 2 today, 4 to date, 0 left, 1 over"}},
		{"a complete total is not counted on top", []string{"## Done\n- D: 50 ft of trench", "## Done\n- D: trench all open, 120 ft complete"},
			[]string{"D under way: 50 today, 50 to date, 70 left", "D complete: 70 today, 120 to date, 0 left"}},
		{"metres count on a line of feet, exactly by the inch", []string{"## Done\n- D: 30.48 m of trench"},
			[]string{"D under way: 100 today, 100 to date, 20 left"}},
		{"what is not done is reported", []string{"## Done\n- C: did not get to it"},
			[]string{"C not started: 0 today, 0 to date, 3 left"}},
		{"roughed is begun, not done", []string{"## Done\n- C: 3 of 3 roughed, not trimmed"},
			[]string{"C under way: 0 today, 0 to date, 3 left"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, _ := days(t, bakery, c.notes...)
			var got []string
			for _, d := range out {
				got = append(got, standings(d))
			}
			assert.Equal(t, c.want, got)
		})
	}
}

func TestWhatIsOpenStandsUntilClosed(t *testing.T) {
	out, _ := days(t, bakery,
		"## Deficiencies\n- cooler disconnect has no cover, made safe with tape\n\n## Left\n- land the proofing cabinet circuit\n\n## Questions\n- is the cooler disconnect ours to replace?\n",
		"## Done\n- A: 2 of 4 hood lights\n",
		"## Done\n- B: proofing cabinet circuit landed and energized\n- put a new cover on the cooler disconnect\n\n## Instructions\n- Ruth: the cooler disconnect is ours to replace\n",
		"## Done\n- A: 4 of 4\n",
	)
	count := func(d *notes.JobDay) string {
		state := ""
		if len(d.Deficiencies) > 0 {
			state = " " + string(d.Deficiencies[0].State)
		}
		return fmt.Sprintf("%d%s, %d left, %d asked", len(d.Deficiencies), state, len(d.Left), len(d.Questions))
	}
	assert.Equal(t, "1 made safe, 1 left, 1 asked", count(out[0]))
	assert.Equal(t, "1 made safe, 1 left, 1 asked", count(out[1]), "it stands in the next day's report")
	assert.Equal(t, "1 corrected, 0 left, 0 asked", count(out[2]), "the report of the day that closes it says so")
	assert.Equal(t, "0, 0 left, 0 asked", count(out[3]))
	assert.Equal(t, 12, int(out[1].Left[0].Since.Day))
	assert.Equal(t, "jobs/7-x/2026-03-12.md", out[1].Deficiencies[0].From[0].File)
}

func TestAnExtraIsFoundOnceAndAuthorizedLater(t *testing.T) {
	out, _ := days(t, bakery,
		"## Done\n- mounted a disconnect for the dough mixer\n\n## Extras\n- Added a disconnect for the dough mixer\n  - 45 min, Ines\n",
		"## Done\n- C: 1 GFCI\n",
		"## Instructions\n- Ruth Amsel approved the dough mixer disconnect by text\n",
		"## Done\n- C: 1 GFCI\n",
	)
	for i, d := range out[:3] {
		require.Len(t, d.Extras, 1, "day %d", i+1)
		assert.Equal(t, "2026-03-12/disconnect-dough-mixer", d.Extras[0].ID[:33])
		assert.Equal(t, notes.Minutes(45), d.Extras[0].Minutes)
	}
	assert.Equal(t, notes.NeedsAuthorization, out[0].Extras[0].State)
	assert.Equal(t, notes.NeedsAuthorization, out[1].Extras[0].State)
	assert.Equal(t, notes.ExtraAuthorized, out[2].Extras[0].State)
	assert.Equal(t, "Ruth Amsel", out[2].Extras[0].Authorization.By)
	assert.Empty(t, out[3].Extras, "what was ready on one day is not carried to the next")
}

func TestMinutesGoToLinesExtrasAndNobody(t *testing.T) {
	out, found := days(t, bakery,
		"## Done\n- A: 4 hood lights, 2 h Ines\n- B: circuit pulled, 90 min\n\n## Extras\n- Added a switch for the mixer, 30 min Tobias, ok'd by Ruth on site\n\n## Time\n- Ines 7-3:30, 30 lunch\n- Tobias 8-12\n")
	byName := map[string]notes.LaborRow{}
	for _, r := range out[0].Labor {
		byName[r.Name] = r
	}
	assert.Equal(t, notes.Minutes(480), byName["Ines"].Minutes)
	assert.Equal(t, map[string]notes.Minutes{"A": 120, "B": 90, notes.Unassigned: 270}, byName["Ines"].On,
		"time without a name is the author's")
	assert.Equal(t, notes.Minutes(240), byName["Tobias"].Minutes)
	assert.Equal(t, notes.Minutes(210), byName["Tobias"].On[notes.Unassigned])
	assert.True(t, slices.ContainsFunc(found, func(f finding.Finding) bool { return f.Rule == "time/unnamed" }))
}

func TestVetoes(t *testing.T) {
	scope := strings.Replace(bakery, "| D |", "| E | 20 A receptacles in the kitchen | 4 | ea | 90.00 each | 2 |\n| F | Label panel LP1 | 1 | ea | 50.00 | 1 |\n| D |", 1)
	for _, c := range []struct {
		entry string
		want  notes.Outcome
		why   string
	}{
		{"installed a 20 A receptacle in the bathroom", notes.Extra, "another room"},
		{"installed 2 receptacles in the kitchen", notes.InScope, "the same room"},
		{"labeled panel LP2", notes.Extra, "another panel"},
		{"labeled panel LP1", notes.InScope, "the same panel"},
		{"patched the wall by the prep counter", notes.Extra, "under Not included"},
	} {
		out, _ := days(t, scope, "## Done\n- "+c.entry+"\n")
		assert.Equal(t, c.want, out[0].Entries[0].Outcome, "%s: %s (%s)", c.entry, c.why, out[0].Entries[0].Why)
	}
}

func TestDecisionsSettleWhatIsUnclear(t *testing.T) {
	job, _ := parse.Scope(finding.NewFile("jobs/7-x/scope.md", []byte(bakery)))
	n, _ := parse.Note(finding.NewFile("jobs/7-x/2026-03-12.md", []byte("## Done\n- labeled panel LP2\n")), parse.NoteContext{})
	in := reconcile.Input{Company: &notes.Company{}, Prices: &notes.PriceList{}, Job: job, Notes: []*notes.DayNote{n}}
	out, _ := reconcile.Job(in)
	id := out[0].Entries[0].ID
	file := "| Entry | Words | Decision | By | When | Why |\n|---|---|---|---|---|---|\n"
	decide := func(words, what string) ([]*notes.JobDay, finding.List) {
		ds, found := parse.Decisions(finding.NewFile("jobs/7-x/decisions.md",
			[]byte(file+"| "+id+" | "+words+" | "+what+" | Mara | 2026-03-13 | asked Ines |\n")))
		require.Empty(t, found)
		in.Decisions = ds
		return reconcile.Job(in)
	}
	out, found := decide("labeled panel LP2", "line B")
	assert.Equal(t, []string{"B"}, out[0].Entries[0].Lines)
	assert.Contains(t, out[0].Entries[0].Why, "decided by Mara")
	assert.Empty(t, found)

	out, found = decide("labeled panel LP1", "line B")
	assert.NotEqual(t, notes.InScope, out[0].Entries[0].Outcome, "the entry says something else by now")
	assert.True(t, slices.ContainsFunc(found, func(f finding.Finding) bool { return f.Rule == "decision/stale" }))
}

func TestAnAuthorizedExtraWaitsForWhatItTook(t *testing.T) {
	out, _ := days(t, bakery,
		"## Extras\n- Added lights over the loading dock, ok'd by Ruth Amsel on site\n",
		"## Extras\n- lights over the loading dock took 2 h, Ines\n",
	)
	require.Len(t, out[0].Extras, 1)
	require.Len(t, out[1].Extras, 1, "the same extra, not a second one")
	assert.Equal(t, out[0].Extras[0].ID, out[1].Extras[0].ID)
	assert.Equal(t, notes.Minutes(120), out[1].Extras[0].Minutes)
	assert.Equal(t, notes.ExtraAuthorized, out[1].Extras[0].State)
}

func TestTravelIsKeptApart(t *testing.T) {
	out, _ := days(t, bakery, "## Done\n- A: 4 hood lights, 2 h Ines\n\n## Time\n- Ines 7-3:30, 30 lunch\n- Ines 1 h travel\n")
	require.Len(t, out[0].Labor, 1)
	r := out[0].Labor[0]
	assert.Equal(t, notes.Minutes(540), r.Minutes)
	assert.Equal(t, notes.Minutes(60), r.Travel)
	assert.Equal(t, map[string]notes.Minutes{notes.Unassigned: 60}, r.TravelOn)
}

// A wish is no work, and the yes of another day finds the extra it is for: nothing is offered twice or taken for done.
func TestAnAnswerFindsTheExtraThatWaits(t *testing.T) {
	out, _ := days(t, bakery,
		"## Extras\n- Ruth wants the mixer switch moved to the left, told her 140, she asks her husband\n",
		"## Extras\n- husband said ok do the switch, signed on my phone. took 50 min and an old work box, Ines\n")
	first := out[0].Extras[0]
	assert.Equal(t, notes.ExtraNotDone, first.Outcome, "wanted, not moved")
	assert.Equal(t, "asked", first.Authorization.State)
	assert.Len(t, out[1].Extras, 1)
	assert.Equal(t, first.ID, out[1].Extras[0].ID)
	assert.Equal(t, "authorized", out[1].Extras[0].Authorization.State)
	assert.Equal(t, notes.ExtraDone, out[1].Extras[0].Outcome)
	assert.Equal(t, "140.00", out[1].Extras[0].Price.Quoted.String())

	out, _ = days(t, bakery,
		"## Extras\n- Ruth wants a switch by the mixer, told her 90\n- Ruth wants a switch by the back door, told her 120\n",
		"## Extras\n- Ruth said ok to the switch, put it in\n")
	assert.Len(t, out[1].Extras, 3, "which of the two is not for us to guess")
}
