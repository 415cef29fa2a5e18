package review

import (
	"cmp"
	"slices"

	"jobday/notes"
)

// FaultKind is a kind of deficiency with how often it was found in the time.
type FaultKind struct {
	Kind    string         `json:"kind"` // slug of the catalogue, "" for what no kind fits
	Title   string         `json:"title"`
	Count   int            `json:"count"`
	Open    int            `json:"open"` // of them, at the end of the time
	Gravest notes.Severity `json:"gravest"`
	Percent notes.Decimal  `json:"percent"` // of all that were found, by count
	Running notes.Decimal  `json:"running"`
	Of      []string       `json:"of"` // job and id
}

// OpenHazard is a deficiency that stands open and is more than maintenance.
type OpenHazard struct {
	Job      string           `json:"job"`
	ID       string           `json:"id"`
	Title    string           `json:"title"`
	Where    string           `json:"where"`
	Hazard   string           `json:"hazard"`
	Severity notes.Severity   `json:"severity"`
	State    notes.FaultState `json:"state"`
	Found    notes.Date       `json:"found"`
	Days     int              `json:"days"` // since it was found
	Told     string           `json:"told"` // who of the customer's knows, "" for nobody
	From     []notes.Source   `json:"from"`
}

// severities in order of weight.
var severities = []notes.Severity{notes.Danger, notes.Hazard, notes.Maintenance}

func weight(s notes.Severity) int {
	if i := slices.Index(severities, s); i >= 0 {
		return i
	}
	return len(severities)
}

// faults adds the deficiencies: kinds of those found in the time, and what stands open at its end.
func (in Input) faults(r *Review, jobs []Job) {
	at := map[string]int{}
	for _, j := range jobs {
		for _, rec := range notes.LatestDeficiencies(j.Days) {
			open := rec.State != notes.FaultCorrected
			if open && weight(rec.Severity) < weight(notes.Maintenance) {
				r.Hazards = append(r.Hazards, in.openHazard(j, rec))
			}
			if !in.within(rec.Found) {
				continue
			}
			i, known := at[rec.Kind]
			if !known {
				i = len(r.Faults)
				at[rec.Kind] = i
				r.Faults = append(r.Faults, newFaultKind(rec))
			}
			r.Faults[i].add(j, rec, open)
		}
	}
	sortFaults(r)
}

func newFaultKind(rec *notes.DeficiencyRecord) FaultKind {
	k := FaultKind{Kind: rec.Kind, Title: rec.Title, Gravest: rec.Severity}
	if rec.Kind == "" {
		k.Title = "of no known kind"
	}
	return k
}

func (k *FaultKind) add(j Job, rec *notes.DeficiencyRecord, open bool) {
	k.Count++
	k.Of = append(k.Of, j.Job.Number+" "+rec.ID)
	if open {
		k.Open++
	}
	if weight(rec.Severity) < weight(k.Gravest) {
		k.Gravest = rec.Severity
	}
}

func (in Input) openHazard(j Job, rec *notes.DeficiencyRecord) OpenHazard {
	return OpenHazard{j.Job.Number, rec.ID, rec.Title, rec.Where, rec.Hazard, rec.Severity, rec.State,
		rec.Found, in.Until.DaysSince(rec.Found), rec.Told, rec.From}
}

func sortFaults(r *Review) {
	slices.SortStableFunc(r.Faults, func(a, b FaultKind) int {
		return cmp.Or(cmp.Compare(b.Count, a.Count), cmp.Compare(weight(a.Gravest), weight(b.Gravest)), cmp.Compare(a.Title, b.Title))
	})
	slices.SortStableFunc(r.Hazards, func(a, b OpenHazard) int {
		return cmp.Or(cmp.Compare(weight(a.Severity), weight(b.Severity)), cmp.Compare(b.Days, a.Days),
			cmp.Compare(a.Job, b.Job), cmp.Compare(a.ID, b.ID))
	})
	total, running := 0, 0
	for _, k := range r.Faults {
		total += k.Count
	}
	for i := range r.Faults {
		k := &r.Faults[i]
		running += k.Count
		k.Percent, k.Running = percent(notes.Int(k.Count), notes.Int(total)), percent(notes.Int(running), notes.Int(total))
	}
}

// JobHours is a job's booked labor against the clock, from its first note to the end of the time.
// On lines, on extras and elsewhere add up to the clock.
type JobHours struct {
	Job       string        `json:"job"`
	Title     string        `json:"title"`
	Booked    notes.Minutes `json:"booked"`
	Clock     notes.Minutes `json:"clock"`
	OnLines   notes.Minutes `json:"on_lines"`
	OnExtras  notes.Minutes `json:"on_extras"`
	Elsewhere notes.Minutes `json:"elsewhere"` // no line and no extra is named
	Complete  bool          `json:"complete"`  // every booked line is
}

func jobHours(j Job) JobHours {
	h := JobHours{Job: j.Job.Number, Title: j.Job.Title, Complete: true}
	for _, l := range j.Job.Lines {
		h.Booked += l.Hours
	}
	for _, l := range j.Days[len(j.Days)-1].Scope {
		h.Complete = h.Complete && l.Left.IsZero()
	}
	for _, d := range j.Days {
		for _, row := range d.Labor {
			h.Clock += row.Minutes
			for on, m := range row.On {
				switch _, booked := j.Job.Line(on); {
				case on == notes.Unassigned:
					h.Elsewhere += m
				case booked:
					h.OnLines += m
				default:
					h.OnExtras += m
				}
			}
		}
	}
	return h
}

// ThinDay is a day whose note tells half of it.
type ThinDay struct {
	Job     string        `json:"job"`
	Date    notes.Date    `json:"date"`
	Crew    []string      `json:"crew"`
	Minutes notes.Minutes `json:"minutes"`
	Why     string        `json:"why"`
	Files   []string      `json:"files"`
}

// thinDay tells a day with hours and no word on the work, or with work and no hours.
func thinDay(d *notes.JobDay) (ThinDay, bool) {
	t := ThinDay{Job: d.Job, Date: d.Date, Crew: d.Crew}
	for _, n := range d.Notes {
		t.Files = append(t.Files, n.File)
	}
	told := false
	for _, row := range d.Labor {
		t.Minutes += row.Minutes
	}
	for _, e := range d.Entries {
		switch e.Outcome {
		case notes.TimeEntry, notes.Narrative:
		default:
			told = true
		}
	}
	switch {
	case t.Minutes > 0 && !told:
		t.Why = "hours, and no word on what was done"
	case t.Minutes == 0 && told:
		t.Why = "work, and no hours"
	default:
		return t, false
	}
	return t, true
}

// Wording is a thing that was booked, in all the words it was booked with, and the extras that grew
// from it.
type Wording struct {
	Thing  string      `json:"thing"`
	Booked []string    `json:"booked"` // "2431 C: GFCI receptacles at prep counter"
	Extras int         `json:"extras"`
	Amount notes.Money `json:"amount"`
	Of     []string    `json:"of"`
}

// wordings groups the booked lines of all jobs by what they are about and adds the extras that grew
// from them; a thing without extras is left out.
func (in Input) wordings(jobs []Job, extras []Extra) []Wording {
	at := map[string]int{}
	list := []Wording{}
	for _, e := range extras {
		if e.Line == "" || e.Cause == Dropped {
			continue
		}
		name := cmp.Or(e.scope.Thing, e.scope.Work)
		i, known := at[name]
		if !known {
			i = len(list)
			at[name] = i
			list = append(list, Wording{Thing: name})
		}
		w := &list[i]
		w.Extras++
		w.Amount = w.Amount.Add(e.Amount)
		w.Of = append(w.Of, e.ref())
	}
	for _, j := range jobs {
		for _, l := range j.Days[len(j.Days)-1].Scope {
			if i, known := at[cmp.Or(l.Thing, l.Work)]; known {
				list[i].Booked = append(list[i].Booked, j.Job.Number+" "+l.Line+": "+l.Work)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Wording) int {
		return cmp.Or(cmp.Compare(b.Extras, a.Extras), b.Amount.Cmp(a.Amount), cmp.Compare(a.Thing, b.Thing))
	})
	return list
}

// Week is seven days from a Monday. The first and the last may be cut short by the time looked at.
type Week struct {
	Monday  notes.Date    `json:"monday"`
	Days    int           `json:"days"` // job-days with a note
	Minutes notes.Minutes `json:"minutes"`
	Found   notes.Money   `json:"found"`
	Secured notes.Money   `json:"secured"` // of it, authorized or billed by the end of the time
	Lost    notes.Money   `json:"lost"`    // of it, given away or declined after it was done
	Of      []string      `json:"of"`
}

// weeks tells the trend from the first note in the time to its end, also of weeks without a note.
func (in Input) weeks(jobs []Job, extras []Extra) []Week {
	var days []*notes.JobDay
	for _, j := range jobs {
		for _, d := range j.Days {
			if in.within(d.Date) {
				days = append(days, d)
			}
		}
	}
	list := []Week{}
	if len(days) == 0 {
		return list
	}
	first := slices.MinFunc(days, func(a, b *notes.JobDay) int { return a.Date.Compare(b.Date) }).Date
	for m := monday(first); m.Compare(in.Until) <= 0 && len(list) < maxWeeks; m = m.AddDays(7) {
		list = append(list, Week{Monday: m, Of: []string{}})
	}
	week := func(d notes.Date) *Week {
		i := d.DaysSince(monday(first)) / 7
		if i < 0 || i >= len(list) {
			return nil
		}
		return &list[i]
	}
	for _, d := range days {
		if w := week(d.Date); w != nil {
			w.Days++
			for _, row := range d.Labor {
				w.Minutes += row.Minutes
			}
		}
	}
	for _, e := range extras {
		if w := week(e.Found); w != nil && e.Cause != Dropped {
			w.add(e)
		}
	}
	return list
}

// maxWeeks bounds the trend: two years. A longer time is told without its last weeks.
const maxWeeks = 106

func (w *Week) add(e Extra) {
	w.Found = w.Found.Add(e.Amount)
	w.Of = append(w.Of, e.ref())
	switch {
	case e.Fate == Billed || e.Fate == Authorized:
		w.Secured = w.Secured.Add(e.Amount)
	case e.Fate == GivenAway || e.Fate == Declined && e.Done:
		w.Lost = w.Lost.Add(e.Amount)
	}
}

// monday returns the Monday of a day's week (ISO 8601: weeks begin on Monday).
func monday(d notes.Date) notes.Date {
	if !d.Known() {
		return d
	}
	return d.AddDays(-(int(d.Weekday()) + 6) % 7)
}
