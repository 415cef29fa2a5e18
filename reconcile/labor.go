package reconcile

import (
	"fmt"
	"slices"

	"jobday/finding"
	"jobday/notes"
)

// laborBook is everybody's day, in the order people were first named.
type laborBook struct {
	names []string
	rows  map[string]*laborAccount
	last  []notes.TimeRow // of whoever was told of last, for "Bo same"
	told  *notes.DayNote  // the note they stand in
}

// laborAccount is one person's day: what the clock says, and what the work says.
type laborAccount struct {
	spans    []notes.ClockSpan
	clock    notes.Minutes // spans less breaks, and durations given under Time
	travel   notes.Minutes
	keys     []string // of on, in the order first used
	on       map[string]notes.Minutes
	travelOn map[string]notes.Minutes // travel that an entry puts on a line or extra
	from     []notes.Source
	place    finding.Span // where a finding about the day belongs
	days     []clocked
}

// clocked is one row of spans on somebody's clock.
type clocked struct {
	note *notes.DayNote
	row  notes.TimeRow
}

func (b *laborBook) row(name string) *laborAccount {
	if b.rows == nil {
		b.rows = map[string]*laborAccount{}
	}
	if b.rows[name] == nil {
		b.names = append(b.names, name)
		b.rows[name] = &laborAccount{on: map[string]notes.Minutes{}, travelOn: map[string]notes.Minutes{}}
	}
	return b.rows[name]
}

// recordLabor reads the clock, puts minutes on lines and extras, and writes everybody's row.
func (d *day) recordLabor() {
	for _, r := range d.reads {
		if r.result.Outcome == notes.TimeEntry {
			d.clockIn(r)
		}
	}
	for _, r := range d.reads {
		if r.result.Outcome == notes.TimeEntry {
			d.clockBeside(r)
		}
	}
	for _, r := range d.reads {
		switch {
		case r.extra != nil:
			d.assign(r, r.extra.work.ID)
		case len(r.lines) == 1:
			d.assign(r, d.in.Job.Lines[r.lines[0]].Label)
		case len(r.lines) > 1 && len(r.facts.Time) > 0:
			d.add(finding.Finding{
				Severity: finding.Warning, Rule: "time/several-lines",
				Message: "gives one time for work on several lines: it is on none of them",
				Hint:    "write the time of each line apart",
				Span:    r.entry.Span,
			})
		}
	}
	d.onlyLine()
	for _, name := range d.labor.names {
		d.out.Labor = append(d.out.Labor, d.writeRow(name))
	}
}

// clockIn enters an entry of the time section.
func (d *day) clockIn(r *read) {
	reading := notes.TimeReading{People: []string{}, Spans: []notes.ClockSpan{}}
	for _, row := range r.entry.Facts.Time {
		rows := d.repeated(r, row)
		if row.Beside != nil && len(rows) == 0 {
			continue // it changes a time told elsewhere
		}
		for _, row := range rows {
			d.clockRow(r, row, &reading)
		}
	}
	r.result.Reading = reading
	if len(r.entry.Facts.Time) == 0 {
		r.set(notes.Unclear, 0.5, "no time could be read")
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "time/unread",
			Message: "no time could be read from " + quote(r.entry.Text),
			Hint:    "write: NAME 7:00-15:30, 30 lunch",
			Span:    r.entry.Span,
		})
	}
}

// clockRow enters one row of an entry of the time section.
func (d *day) clockRow(r *read, row notes.TimeRow, reading *notes.TimeReading) {
	people := d.who(r, row)
	d.nameless(r, row, people)
	reading.Spans = append(reading.Spans, row.Spans...)
	for i, name := range people {
		reading.Minutes += share(row, people, i)
		if name != "" && !slices.Contains(reading.People, name) {
			reading.People = append(reading.People, name)
		}
		d.clockPerson(r, row, name, share(row, people, i))
	}
	if row.Fault != "" {
		d.implausible(r, row, row.Fault)
	}
}

// implausible says why a row of hours cannot stand as it is.
func (d *day) implausible(r *read, row notes.TimeRow, why string) {
	d.add(finding.Finding{
		Severity: finding.Warning, Rule: "time/implausible",
		Message: quote(r.entry.Text) + ": " + why,
		Hint:    "write start and end as 7:00-15:30, and the unpaid break as: 30 lunch",
		Span:    r.entry.Span.Sub(row.Start, row.End), Holds: "the labor of this row",
	})
}

// nameless says that time on the clock is nobody's by name, so that it can be neither priced nor paid.
func (d *day) nameless(r *read, row notes.TimeRow, people []string) {
	n := 0
	for _, name := range people {
		if name == "" {
			n++
		}
	}
	switch {
	case n == 0:
	case row.Crew == 0 && len(row.People) == 0:
		d.unnamed(r, "")
	default:
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "time/unnamed",
			Message: fmt.Sprintf("counts %d people, %d of them without a name", len(people), n),
			Hint:    "name them: NAME, NAME 7:00-15:30", Span: r.entry.Span, Holds: "the labor of those without a name",
		})
	}
}

func (d *day) clockPerson(r *read, row notes.TimeRow, name string, m notes.Minutes) {
	a := d.labor.row(name)
	if name != "" && repeats(a.spans, row.Spans) {
		a.from = append(a.from, r.result.Source)
		return // both of the crew wrote the same hours down
	}
	for _, s := range row.Spans {
		if name != "" && slices.ContainsFunc(a.spans, func(o notes.ClockSpan) bool { return s.From < o.To && o.From < s.To }) {
			d.add(finding.Finding{
				Severity: finding.Warning, Rule: "time/overlap",
				Message: fmt.Sprintf("%s is on the clock twice between %s and %s", orNobody(name), s.From, s.To),
				Hint:    "correct one of the two spans", Span: r.entry.Span,
			})
		}
	}
	a.spans = append(a.spans, row.Spans...)
	if len(row.Spans) > 0 {
		a.days = append(a.days, clocked{r.note, row})
	}
	a.clock += m
	if row.Travel {
		a.travel += m
	}
	a.from = append(a.from, r.result.Source)
	a.place = r.entry.Span
}

// repeats reports whether a person's row says only what is known already.
func repeats(known, spans []notes.ClockSpan) bool {
	if len(spans) == 0 {
		return false
	}
	for _, s := range spans {
		if !slices.Contains(known, s) {
			return false
		}
	}
	return true
}

func orNobody(name string) string {
	if name == "" {
		return "somebody unnamed"
	}
	return name
}

// who returns whose time a row is: those named, else the whole crew when the head count or "each" says so,
// else the note's author, else the only one of the crew, else "".
func (d *day) who(r *read, row notes.TimeRow) []string {
	crew := r.note.Crew
	switch {
	case len(row.People) > 0 && row.Crew > len(row.People):
		return append(slices.Clone(row.People), make([]string, row.Crew-len(row.People))...)
	case len(row.People) > 0:
		return row.People
	case row.Crew > 1 && row.Crew == len(crew), row.Crew == 0 && row.Each && len(crew) > 1:
		return crew
	case row.Crew > 1:
		return make([]string, row.Crew)
	case r.note.Author != "":
		return []string{r.note.Author}
	case len(crew) == 1:
		return crew
	}
	return []string{""}
}

// share returns what of a row's minutes falls to the i-th of people. What is for all together is
// divided evenly; a minute that does not divide goes to the first.
func share(row notes.TimeRow, people []string, i int) notes.Minutes {
	if len(row.Spans) > 0 || row.Each {
		return row.Clock()
	}
	n := notes.Minutes(len(people))
	m := row.Stated / n
	if i == 0 {
		m += row.Stated % n
	}
	return m
}

// assign puts an entry's minutes on a line or an extra.
func (d *day) assign(r *read, key string) {
	for _, row := range r.facts.Time {
		people := d.who(r, row)
		for i, name := range people {
			m := share(row, people, i)
			if m <= 0 {
				continue
			}
			d.put(name, key, m, r)
			if row.Travel {
				d.labor.row(name).travelOn[key] += m
			}
			if r.extra != nil {
				r.extra.work.Labor = append(r.extra.work.Labor, notes.LaborUse{
					Person: name, Minutes: m, Travel: row.Travel, From: r.result.Source,
				})
			}
		}
		if len(row.People) == 0 && row.Crew == 0 && len(people) == 1 {
			d.unnamed(r, people[0])
		}
	}
}

func (d *day) put(name, key string, m notes.Minutes, r *read) {
	a := d.labor.row(name)
	if _, ok := a.on[key]; !ok {
		a.keys = append(a.keys, key)
	}
	a.on[key] += m
	if r != nil {
		a.from = append(a.from, r.result.Source)
		if !a.place.Known() {
			a.place = r.entry.Span
		}
		for i := range d.in.Job.Lines {
			if d.in.Job.Lines[i].Label == key && len(r.lines) == 1 && r.lines[0] == i {
				d.lines[i].minutes += m
			}
		}
	}
}

// unnamed says whose time was assumed where nobody is named.
func (d *day) unnamed(r *read, name string) {
	if len(r.note.Crew) < 2 && name != "" {
		return
	}
	f := finding.Finding{
		Severity: finding.Note, Rule: "time/unnamed",
		Message: "gives a time but no name; it is counted as the note's author, " + name,
		Hint:    "add the name: 45 min, NAME", Span: r.entry.Span,
	}
	if name == "" {
		f.Severity, f.Message = finding.Warning, "gives a time but no name, and the note does not say who wrote it"
		f.Holds = "the labor of this entry"
	}
	d.add(f)
}

// onlyLine puts hours that no entry claims on the job's line when it has one line only and that is
// time and material: there is nothing else they could be for.
func (d *day) onlyLine() {
	if len(d.in.Job.Lines) != 1 || d.in.Job.Lines[0].Price.Kind != notes.TimeAndMaterial {
		return
	}
	for _, name := range d.labor.names {
		a := d.labor.rows[name]
		if open := a.clock - a.assigned(); open > 0 {
			d.put(name, d.in.Job.Lines[0].Label, open, nil)
			d.lines[0].minutes += open
		}
	}
}

func (a *laborAccount) assigned() notes.Minutes {
	sum := notes.Minutes(0)
	for _, k := range a.keys {
		sum += a.on[k]
	}
	return sum
}

// writeRow closes a person's day. When the work claims more than the clock has, the work's minutes
// stand and a finding says so; without any clock they are all there is.
func (d *day) writeRow(name string) notes.LaborRow {
	a := d.labor.rows[name]
	row := notes.LaborRow{
		Name: name, Spans: list(a.spans), Minutes: a.clock, On: a.on, From: dedupe(a.from), Travel: a.travel,
	}
	if c, ok := d.in.Company.Class(name); ok {
		row.Class = c.Name
	}
	sum := a.assigned()
	switch {
	case sum > a.clock && a.clock > 0:
		d.add(finding.Finding{
			Severity: finding.Warning, Rule: "time/over-clock",
			Message: fmt.Sprintf("%s has %s on lines and extras, but %s on the clock", orNobody(name), sum, a.clock),
			Hint:    "correct the hours under ## Time, or the minutes of the entries",
			Span:    a.place,
		})
		row.Minutes = sum
	case sum > a.clock:
		row.Minutes = sum
	case sum < a.clock:
		row.On[notes.Unassigned] = a.clock - sum
	}
	row.Travel, row.TravelOn = a.travels(row.On)
	return row
}

// travels returns a person's travel, in all and by what it was for. What the clock has and no entry
// claims is unassigned, or on the one thing the whole day was for.
func (a *laborAccount) travels(on map[string]notes.Minutes) (all notes.Minutes, by map[string]notes.Minutes) {
	claimed := notes.Minutes(0)
	for _, m := range a.travelOn {
		claimed += m
	}
	if rest := a.travel - claimed; rest > 0 {
		key := notes.Unassigned
		if len(on) == 1 && len(a.keys) == 1 {
			key = a.keys[0]
		}
		if m := min(rest, on[key]-a.travelOn[key]); m > 0 {
			a.travelOn[key] += m
		}
	}
	if a.travel == 0 && claimed == 0 {
		return 0, nil
	}
	return max(a.travel, claimed), a.travelOn
}

func dedupe(from []notes.Source) []notes.Source {
	out := []notes.Source{}
	for _, s := range from {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}
