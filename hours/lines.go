package hours

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"jobday/notes"
)

// Line is the labor on one booked line or extra, or on nothing in particular, against what was booked.
type Line struct {
	Job    string        `json:"job"`
	Ref    string        `json:"ref"` // label of the line, id of the extra, "unassigned"
	Work   string        `json:"work"`
	Booked notes.Minutes `json:"booked_minutes"` // 0 when no hours are booked
	Here   notes.Minutes `json:"minutes"`        // in the days shown
	ToDate notes.Minutes `json:"to_date_minutes"`
	// Cost and CostToDate are without the time that has no cost, whose minutes are CostlessToDate.
	Cost           notes.Money   `json:"cost"`
	CostToDate     notes.Money   `json:"cost_to_date"`
	CostlessToDate notes.Minutes `json:"costless_to_date_minutes"`
}

// Over returns by how much the line has more hours than were booked, negative for less; and false
// when none were booked.
func (l Line) Over() (notes.Minutes, bool) { return l.ToDate - l.Booked, l.Booked > 0 }

// lines adds up the labor of every job that has hours in the days shown.
func lines(all []*stretch, in Input) []Line {
	by := map[[2]string]*Line{}
	shown := map[string]bool{}
	for _, t := range all {
		if in.shows(t) {
			shown[t.job.Number] = true
		}
	}
	for _, t := range all {
		if shown[t.job.Number] && t.date.Compare(in.Until) <= 0 {
			spread(t, in.shows(t), by)
		}
	}
	out := []Line{}
	for _, j := range in.Jobs {
		if shown[j.Job.Number] {
			out = append(out, jobLines(j, by)...)
		}
	}
	return out
}

// spread puts a stretch on the things it was for, and its cost by their minutes.
func spread(t *stretch, here bool, by map[[2]string]*Line) {
	keys := slices.Sorted(maps.Keys(t.row.On))
	var on []notes.Minutes
	for _, k := range keys {
		on = append(on, t.row.On[k])
	}
	for i, cost := range Shares(t.cost, on) {
		at := [2]string{t.job.Number, keys[i]}
		if by[at] == nil {
			by[at] = &Line{Job: t.job.Number, Ref: keys[i]}
		}
		l := by[at]
		l.ToDate += on[i]
		l.CostToDate = l.CostToDate.Add(cost)
		if !t.costed {
			l.CostlessToDate += on[i]
		}
		if here {
			l.Here += on[i]
			l.Cost = l.Cost.Add(cost)
		}
	}
}

// jobLines are the lines of one job: those booked with hours or worked on, as booked; the extras by
// id; last what is on nothing.
func jobLines(j Job, by map[[2]string]*Line) []Line {
	var booked, rest []Line
	known := map[string]bool{}
	for _, s := range j.Job.Lines {
		l := by[[2]string{j.Job.Number, s.Label}]
		known[s.Label] = true
		if l == nil && s.Hours == 0 {
			continue
		}
		if l == nil {
			l = &Line{Job: j.Job.Number, Ref: s.Label}
		}
		l.Work, l.Booked = s.Work, s.Hours
		booked = append(booked, *l)
	}
	work := extraWork(j)
	for at, l := range by {
		if at[0] == j.Job.Number && !known[at[1]] {
			l.Work = work[l.Ref]
			rest = append(rest, *l)
		}
	}
	slices.SortFunc(rest, func(a, b Line) int {
		return cmp.Or(order(a.Ref == notes.Unassigned, b.Ref == notes.Unassigned), strings.Compare(a.Ref, b.Ref))
	})
	return append(booked, rest...)
}

func order(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

func extraWork(j Job) map[string]string {
	work := map[string]string{notes.Unassigned: "on no line and no extra"}
	for _, d := range j.Days {
		for _, x := range d.Extras {
			work[x.ID] = x.Work
		}
	}
	return work
}
