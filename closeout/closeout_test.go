package closeout

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
)

// points returns "kind: what" of the list for one day.
func points(d *notes.JobDay) []string {
	var all []string
	for _, p := range List(Input{Job: &notes.Job{Number: "7"}, Days: []*notes.JobDay{d}}) {
		all = append(all, string(p.Kind)+": "+p.What)
	}
	return all
}

// written is a day on which the hours of the crew are written and nothing else is open.
func written() *notes.JobDay {
	return &notes.JobDay{
		Date: notes.MustDate("2026-03-12"), Crew: []string{"Ines"},
		Labor: []notes.LaborRow{{Name: "Ines Haldane", Minutes: 480}},
	}
}

// A test of an earlier day was of something else: what went in later wants its own, and one asked for twice is asked once.
func TestTestsBelongToWhatWasInBefore(t *testing.T) {
	in := func(work, tested string) *notes.JobDay {
		d := written()
		d.Extras = []notes.ExtraWork{{Work: work, Outcome: notes.ExtraDone, State: notes.ExtraAuthorized, From: []notes.Source{{}}}}
		if tested != "" {
			d.Entries = []notes.EntryResult{{Text: tested, Outcome: notes.Test}}
		}
		return d
	}
	ask := func(off []string, days ...*notes.JobDay) (got []string) {
		for _, p := range missingTests(Input{Days: days, Company: &notes.Company{TestsOff: off}}) {
			got = append(got, p.What)
		}
		return got
	}
	require.Equal(t, []string{"GFCI at slip 2"}, ask(nil, in("GFCI at slip 1", "slip 1 GFCI 5.1 mA 24 ms"), in("GFCI at slip 2", "")))
	require.Empty(t, ask(nil, in("GFCI at slip 1", ""), in("GFCI at slip 2", "both GFCIs trip ok")))
	require.Equal(t, []string{"GFCI at slip 2"}, ask(nil, in("GFCI at slip 1", ""), in("GFCI at slip 2", "")))
	require.Empty(t, ask([]string{"gfci"}, in("GFCI at slip 1", "")), "switched off by the company")

	slip := in("GFCI at slip 1", "slip 1 GFCI 5 A")
	slip.Tests = []notes.TestRecord{{From: []notes.Source{{}}, Impossible: true}}
	require.Equal(t, []string{"GFCI at slip 1"}, ask(nil, slip), "a reading that cannot be right tests nothing")
}

func TestNothingIsOpenWhenAllIsSettled(t *testing.T) {
	d := written()
	d.Scope = []notes.LineStanding{
		{Line: "A", State: notes.Complete}, {Line: "B", State: notes.Over},
		{Line: "C", State: notes.Blocked, Dropped: notes.Int(1)},
	}
	d.Extras = []notes.ExtraWork{
		{Work: "a", State: notes.ExtraAuthorized}, {Work: "b", State: notes.ExtraDeclined}, {Work: "c", State: notes.ExtraNoCharge},
		{Work: "d", State: notes.NeedsPrice, Minutes: 30, Authorization: notes.Authorization{State: "authorized"}},
	}
	d.Deficiencies = []notes.DeficiencyRecord{
		{Title: "a", State: notes.FaultCorrected}, {Title: "b", State: notes.FaultDeclined},
		{Title: "c", State: notes.FaultLeft, Told: "Ruth"},
	}
	require.Empty(t, points(d))
	var b bytes.Buffer
	in := Input{Job: &notes.Job{Number: "7"}, Days: []*notes.JobDay{d}}
	require.NoError(t, WriteText(&b, in, List(in)))
	require.Equal(t, "Job 7, as of 2026-03-12\nnothing open\n", b.String())
}

func TestEachOpenThingIsAPoint(t *testing.T) {
	tests := map[string]struct {
		open func(*notes.JobDay)
		want string
	}{
		"a line nobody wrote about": {
			func(d *notes.JobDay) {
				d.Scope = []notes.LineStanding{{Line: "A", Work: "lights", State: notes.NotReported}}
			},
			"no word: line A: lights",
		},
		"a line under way": {
			func(d *notes.JobDay) {
				d.Scope = []notes.LineStanding{{Line: "A", Work: "lights", State: notes.UnderWay}}
			},
			"work: line A: lights",
		},
		"a line that is blocked": {
			func(d *notes.JobDay) {
				d.Scope = []notes.LineStanding{{Line: "A", Work: "lights", State: notes.Blocked}}
			},
			"work: line A: lights",
		},
		"somebody on site without hours": {
			func(d *notes.JobDay) { d.Crew = append(d.Crew, "Tobias") }, "hours: Tobias was on site",
		},
		"nobody known to be there": {
			func(d *notes.JobDay) { d.Crew, d.Labor = nil, nil }, "hours: nobody's hours",
		},
		"hours of zero": {
			func(d *notes.JobDay) { d.Labor[0].Minutes = 0 }, "hours: Ines was on site",
		},
		"an extra nobody authorized": {
			func(d *notes.JobDay) {
				d.Extras = []notes.ExtraWork{{Work: "disconnect", State: notes.NeedsAuthorization}}
			},
			"extra: disconnect",
		},
		"an extra without time or price": {
			func(d *notes.JobDay) {
				d.Extras = []notes.ExtraWork{{
					Work: "disconnect", Outcome: notes.ExtraDone, State: notes.NeedsPrice,
					Authorization: notes.Authorization{State: "authorized"},
				}}
			},
			"hours: extra: disconnect",
		},
		"a deficiency made safe for now": {
			func(d *notes.JobDay) {
				d.Deficiencies = []notes.DeficiencyRecord{{Title: "no cover", Where: "cooler", State: notes.FaultMadeSafe, Told: "Ruth"}}
			},
			"deficiency: no cover, cooler",
		},
		"a deficiency left and nobody told": {
			func(d *notes.JobDay) {
				d.Deficiencies = []notes.DeficiencyRecord{{Title: "no cover", State: notes.FaultLeft}}
			},
			"deficiency: no cover",
		},
		"a device without its test": {
			func(d *notes.JobDay) {
				d.Entries = []notes.EntryResult{{Text: "2 GFCI receptacles in", Outcome: notes.InScope, Reading: notes.WorkReading{}}}
			},
			"test: 2 GFCI receptacles in",
		},
		"an unclear entry": {
			func(d *notes.JobDay) {
				d.Entries = []notes.EntryResult{{Text: "the other one", Outcome: notes.Unclear}}
			},
			"unclear: the other one",
		},
		"a question": {
			func(d *notes.JobDay) { d.Questions = []notes.Standing{{Text: "ours to replace?"}} }, "question: ours to replace?",
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			d := written()
			tt.open(d)
			require.Equal(t, []string{tt.want}, points(d))
		})
	}
}

func TestATestOnALaterDayAnswersForADeviceOfAnEarlierOne(t *testing.T) {
	first, second := written(), written()
	first.Entries = []notes.EntryResult{{Text: "2 GFCI receptacles in", Outcome: notes.InScope, Reading: notes.WorkReading{}}}
	in := Input{Job: &notes.Job{}, Days: []*notes.JobDay{first, second}}
	require.Len(t, List(in), 1, "asked for on every day until it is there")
	second.Entries = []notes.EntryResult{{Text: "GFCI tripped at 5 mA", Outcome: notes.Test}}
	require.Empty(t, List(in))
}

// TestAFreshNoteSaysNothing reads fresh notes with the parser, whatever stands in the job: no
// entry, no narrative, no finding.
func TestAFreshNoteSaysNothing(t *testing.T) {
	hostile := "-->\n## Done\n- [x] A: all done <!-- --\x00 `x`"
	d := written()
	d.Scope = []notes.LineStanding{{Line: hostile, Work: hostile, State: notes.Blocked, BlockedBy: hostile}, {Line: "B", State: notes.UnderWay}}
	d.Extras = []notes.ExtraWork{{Work: hostile, State: notes.NeedsAuthorization}}
	d.Deficiencies = []notes.DeficiencyRecord{{Title: hostile, State: notes.FaultFound}}
	d.Left = []notes.Standing{{Text: hostile}}
	d.Questions = []notes.Standing{{Text: hostile}}
	job := &notes.Job{Number: hostile, Title: hostile, Lines: []notes.ScopeLine{{Label: hostile, Work: hostile}}}
	long := written()
	for range 500 {
		long.Questions = append(long.Questions, notes.Standing{Text: strings.Repeat("why? ", 2000)})
	}
	for _, days := range [][]*notes.JobDay{nil, {d}, {written()}, {long}} {
		text := DayNote(Input{Job: job, Days: days}, notes.MustDate("2026-03-13"))
		n, found := parse.Note(finding.NewFile("jobs/7/2026-03-13.md", text), parse.NoteContext{})
		require.Empty(t, found, "%s", text)
		require.Empty(t, n.Entries, "%s", text)
		require.Empty(t, n.Narrative, "%s", text)
		require.Equal(t, "2026-03-13", n.Date.String())
		require.Empty(t, n.Crew)
	}
}
