package hours_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/finding"
	"jobday/hours"
	"jobday/notes"
)

// 29 CFR 785.48(b) names 5 minutes, a tenth and a quarter of an hour; what is half-way goes up.
func TestTheClockIsRoundedToTheNearestStep(t *testing.T) {
	for _, c := range []struct {
		at, want notes.Clock
		step     notes.Minutes
	}{
		{7*60 + 7, 7 * 60, 15}, {7*60 + 8, 7*60 + 15, 15}, {7*60 + 3, 7*60 + 6, 6}, {7*60 + 2, 7 * 60, 6},
		{7*60 + 2, 7 * 60, 5}, {7*60 + 3, 7*60 + 5, 5}, {7*60 + 3, 7*60 + 3, 1}, {7*60 + 3, 7*60 + 3, 0},
	} {
		assert.Equal(t, c.want, hours.Nearest(c.at, c.step), "%s to %s", c.at, c.step)
	}
}

// Rounding must not run one way: "averages out so that the employees are fully compensated" (29 CFR
// 785.48(b)). Over every start and end within the hour what is gained and lost is nothing or, where
// the half-way minute goes up at both ends, also nothing.
func TestRoundingIsNeutral(t *testing.T) {
	for _, step := range []notes.Minutes{5, 6, 15} {
		drift := notes.Minutes(0)
		for from := range notes.Clock(60) {
			for to := range notes.Clock(60) {
				r := notes.LaborRow{Spans: []notes.ClockSpan{{From: 420 + from, To: 900 + to}}, Minutes: notes.Minutes(480 + to - from)}
				drift += hours.Paid(r, step) - r.Minutes
			}
		}
		assert.Zero(t, drift, "steps of %s", step)
	}
}

// 7:00 to 15:30 with a meal of 30 minutes: 8 h paid (29 CFR 785.19). A duration stands as written.
func TestPaidKeepsBreaksAndDurations(t *testing.T) {
	span := []notes.ClockSpan{{From: 420, To: 930}}
	assert.Equal(t, notes.Minutes(480), hours.Paid(notes.LaborRow{Spans: span, Minutes: 480}, 15))
	assert.Equal(t, notes.Minutes(47), hours.Paid(notes.LaborRow{Minutes: 47}, 15))
}

func company() *notes.Company {
	return &notes.Company{
		Name: "Reed and Marl Electric", Currency: "USD",
		People:   []notes.Person{{Name: "Ines Marrow", Class: "journeyman"}},
		Classes:  []notes.LaborClass{{Name: "journeyman", Cost: notes.MustMoney("12.00")}},
		Rounding: notes.TimeRounding{Clock: 1, Billed: 15},
		Overtime: notes.Overtime{WeeklyOver: 40 * 60}, Workweek: time.Monday,
	}
}

// day is a day of Ines on a job from seven.
func day(date string, minutes notes.Minutes, on map[string]notes.Minutes) *notes.JobDay {
	return &notes.JobDay{Date: notes.MustDate(date), Labor: []notes.LaborRow{{
		Name: "Ines Marrow", Class: "journeyman", Minutes: minutes, On: on,
		Spans: []notes.ClockSpan{{From: 420, To: 420 + notes.Clock(minutes)}},
	}}}
}

func job(number string, days ...*notes.JobDay) hours.Job {
	j := &notes.Job{Number: number, Lines: []notes.ScopeLine{{Label: "A", Work: "Lights", Hours: 600}, {Label: "B", Work: "Labels"}}}
	return hours.Job{Job: j, Days: days}
}

// The week of 29 CFR 778.110(a) over two jobs: 46 h at $12, six of them overtime, are $588. The
// overtime falls to the job worked on last, and every line gets its part of the cost.
func TestAWeekOverTwoJobs(t *testing.T) {
	a := map[string]notes.Minutes{"A": 480}
	in := hours.Input{
		Company: company(), Since: notes.MustDate("2026-03-09"), Until: notes.MustDate("2026-03-15"),
		Jobs: []hours.Job{
			job("1", day("2026-03-09", 480, a), day("2026-03-10", 480, a), day("2026-03-11", 480, a)),
			job("2", day("2026-03-12", 480, a), day("2026-03-13", 480, a), day("2026-03-14", 360, map[string]notes.Minutes{"B": 300, notes.Unassigned: 60})),
		},
	}
	s := hours.Sheet(in)
	require.Len(t, s.Weeks, 1)
	p := s.Weeks[0].People[0]
	assert.Equal(t, hours.Hours{Clock: 2760, Regular: 2400, Overtime: 360, Cost: p.Total.Cost}, p.Total)
	assert.Equal(t, "588.00", p.Total.Cost.String())
	require.Len(t, p.Jobs, 2)
	assert.Equal(t, notes.Minutes(360), p.Jobs[1].Total.Overtime)
	assert.Equal(t, [7]notes.Minutes{0, 0, 0, 480, 480, 360, 0}, p.Jobs[1].ByDay)
	var cost notes.Money
	var refs []string
	for _, l := range s.Lines {
		cost = cost.Add(l.Cost)
		refs = append(refs, l.Job+l.Ref)
	}
	assert.Equal(t, "588.00", cost.String())
	assert.Equal(t, []string{"1A", "2A", "2B", "2unassigned"}, refs)
	over, booked := s.Lines[0].Over()
	assert.True(t, booked)
	assert.Equal(t, notes.Minutes(3*480-600), over)

	in.Only, in.Since = "2", notes.MustDate("2026-03-14")
	s = hours.Sheet(in)
	assert.True(t, s.Weeks[0].Cut)
	assert.Equal(t, notes.Minutes(360), s.Weeks[0].People[0].Total.Overtime, "a week cut short is worked out whole")
	assert.Equal(t, "108.00", s.Weeks[0].People[0].Total.Cost.String(), "6 h at 18.00")
	assert.Equal(t, notes.Minutes(960), s.Lines[0].ToDate)
	assert.Equal(t, notes.Minutes(0), s.Lines[0].Here)
}

// Time of somebody without a cost is never free: it is counted apart and named.
func TestTimeWithoutACostIsNamed(t *testing.T) {
	c := company()
	c.Classes[0].Cost = notes.Money{}
	s := hours.Sheet(hours.Input{
		Company: c, Since: notes.MustDate("2026-03-09"), Until: notes.MustDate("2026-03-15"),
		Jobs: []hours.Job{job("1", day("2026-03-09", 480, map[string]notes.Minutes{"A": 480}))},
	})
	assert.Equal(t, notes.Minutes(480), s.Weeks[0].People[0].Total.Costless)
	assert.Equal(t, []string{"the class journeyman has no cost"}, s.Costless)
	assert.Equal(t, notes.Minutes(480), s.Lines[0].CostlessToDate)
}

// Over any days: whatever part of them is shown, the parts add up to the whole, to the minute and
// the cent, and regular and overtime are the clock and its rounding.
func TestPartsOfAPeriodAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := company()
		c.Rounding.Clock = notes.Minutes(rapid.SampledFrom([]int{1, 5, 6, 15}).Draw(t, "clock"))
		c.Overtime.DailyOver = notes.Minutes(rapid.SampledFrom([]int{0, 480}).Draw(t, "daily"))
		c.Classes[0].Cost = notes.Cents(notes.Ratio(rapid.IntRange(1, 9999).Draw(t, "cost"), 100))
		first := notes.MustDate("2026-03-09")
		var jobs []hours.Job
		for _, n := range []string{"1", "2"} {
			var days []*notes.JobDay
			for i := range 14 {
				if m := notes.Minutes(rapid.IntRange(-200, 700).Draw(t, "minutes")); m > 0 {
					days = append(days, day(first.AddDays(i).String(), m, map[string]notes.Minutes{"A": m / 3, "B": m - m/3}))
				}
			}
			jobs = append(jobs, job(n, days...))
		}
		cut := first.AddDays(rapid.IntRange(0, 12).Draw(t, "cut"))
		last := first.AddDays(13)
		all := total(hours.Sheet(hours.Input{Company: c, Jobs: jobs, Since: first, Until: last}), t)
		parts := total(hours.Sheet(hours.Input{Company: c, Jobs: jobs, Since: first, Until: cut}), t).
			Add(total(hours.Sheet(hours.Input{Company: c, Jobs: jobs, Since: cut.AddDays(1), Until: last}), t))
		require.Equal(t, all.Cost.String(), parts.Cost.String())
		all.Cost, parts.Cost = notes.Money{}, notes.Money{}
		require.Equal(t, all, parts)
	})
}

// total adds up a sheet and holds its tables against each other.
func total(s *hours.TimeSheet, t *rapid.T) (all hours.Hours) {
	for _, w := range s.Weeks {
		for _, p := range w.People {
			var days, jobs hours.Hours
			for _, d := range p.Days {
				days = days.Add(d.Hours)
			}
			for _, j := range p.Jobs {
				jobs = jobs.Add(j.Total)
			}
			require.Equal(t, p.Total.Cost.String(), days.Cost.String())
			require.Equal(t, p.Total.Clock+p.Total.Rounding, p.Total.Regular+p.Total.Overtime)
			require.Equal(t, days.Clock, jobs.Clock)
			all = all.Add(days)
		}
	}
	var cost notes.Money
	for _, l := range s.Lines {
		cost = cost.Add(l.Cost)
	}
	require.Equal(t, all.Cost.String(), cost.String())
	return all
}

// entry is a line of the time section that says span and break.
func entry(d *notes.JobDay, text string, row notes.TimeRow) *notes.JobDay {
	f := finding.NewFile("jobs/"+d.Job+"/"+d.Date.String()+".md", []byte(text))
	row.Piece = notes.Piece{End: len(text)}
	d.Notes = []notes.NoteRef{{File: f.Name, Source: f}}
	d.Entries = append(d.Entries, notes.EntryResult{
		Outcome: notes.TimeEntry,
		Entry:   &notes.Entry{Text: text, Span: f.Span(0, len(text)), Facts: notes.Facts{Time: []notes.TimeRow{row}}},
	})
	return d
}

func TestAnOverlapAcrossJobsAndOverMidnight(t *testing.T) {
	row := func(from, to notes.Clock) notes.TimeRow {
		return notes.TimeRow{People: []string{"Ines Marrow"}, Spans: []notes.ClockSpan{{From: from, To: to}}}
	}
	night := day("2026-03-08", 900, nil)
	night.Labor[0].Spans = []notes.ClockSpan{{From: 1200, To: 1890}} // to 7:30 of the 9th
	first := entry(night, "Ines 20-7:30", row(1200, 1890))
	a := entry(day("2026-03-09", 300, nil), "Ines 7-12", row(420, 720))
	b := entry(day("2026-03-09", 120, nil), "Ines 7-9", row(420, 540))
	found := hours.Check(company(), []hours.Job{job("1", first, a), job("2", b)})
	var text []string
	for _, f := range found {
		if f.Rule == "hours/overlap" {
			text = append(text, f.Message)
		}
	}
	assert.Equal(t, []string{
		"Ines Marrow is on the clock of job 2 from 07:00 to 09:00, and of job 1 on 2026-03-08 from 20:00 to 07:30+1",
		"Ines Marrow is on the clock of job 1 from 07:00 to 12:00, and of job 2 on 2026-03-09 from 07:00 to 09:00",
	}, text)
	apart := entry(day("2026-03-09", 120, nil), "Ines 12-2", row(720, 840))
	apart.Labor[0].Spans = []notes.ClockSpan{{From: 720, To: 840}}
	for _, f := range hours.Check(company(), []hours.Job{job("1", a), job("2", apart)}) {
		assert.NotEqual(t, "hours/overlap", f.Rule, f.Message)
	}
}
