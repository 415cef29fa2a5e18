package reconcile

import (
	"slices"

	"jobday/notes"
)

// longDay is the shortest time on the clock that a break told of nobody by name is taken off. Common
// practice, no source.
const longDay = 5 * 60

// repeated returns the rows that a row of an entry stands for: itself, or where it says "same" those of
// whoever was told of before in the note, and nothing where it has no time of its own.
func (d *day) repeated(r *read, row notes.TimeRow) []notes.TimeRow {
	b := &d.labor
	if row.Beside == nil {
		if b.told != r.note || len(b.last) == 0 || !slices.Equal(b.last[0].People, row.People) {
			b.last = nil
		}
		b.last, b.told = append(b.last, row), r.note
		return []notes.TimeRow{row}
	}
	if !row.Beside.Same || b.told != r.note {
		return nil
	}
	var rows []notes.TimeRow
	for i, same := range b.last {
		if same.Fault != "" || same.Stated > 0 && !same.Each && same.Heads() > 1 {
			return nil
		}
		same.Piece, same.People, same.Crew, same.Each = row.Piece, row.People, 0, len(row.People) > 1
		if less := row.Beside.Less; i == 0 && less > 0 {
			if same.Stated, same.Spans, same.Break = same.Clock()-less, nil, 0; same.Stated <= 0 {
				return nil
			}
		}
		rows = append(rows, same)
	}
	if n := len(rows) - 1; n >= 0 && len(rows[n].Spans) > 0 && !turned(rows, row.Beside) {
		return nil
	}
	return rows
}

// turned moves the start of the first or the end of the last of rows to when whoever had the same came or
// left. It reports whether that lies within them.
func turned(rows []notes.TimeRow, said *notes.TimeBeside) bool {
	last := &rows[len(rows)-1]
	if said.From != nil && len(rows[0].Spans) > 0 {
		spans := slices.Clone(rows[0].Spans)
		at := inSpan(*said.From, spans[0])
		if at < spans[0].From || at >= spans[0].To {
			return false
		}
		spans[0].From, rows[0].Spans = at, spans
	}
	if said.To != nil {
		spans := slices.Clone(last.Spans)
		s := &spans[len(spans)-1]
		at := inSpan(*said.To, *s)
		if at <= s.From || at > s.To {
			return false
		}
		s.To, last.Spans = at, spans
	}
	return true
}

// clockBeside takes what an entry says of times that stand elsewhere in its note into account: breaks,
// and when somebody came or left.
func (d *day) clockBeside(r *read) {
	for _, row := range r.entry.Facts.Time {
		said := row.Beside
		if said == nil {
			continue
		}
		why := row.Fault
		switch {
		case said.Same && d.onTheDay(r, row.People):
			why = ""
		case said.From != nil || said.To != nil:
			why = d.turnBeside(r, row)
		case said.HasBreak:
			why = d.breakBeside(r, row)
		}
		if why != "" {
			d.implausible(r, row, why)
		}
	}
}

// onTheDay reports whether people have time on the clock of a note.
func (d *day) onTheDay(r *read, people []string) bool {
	for _, name := range people {
		a := d.labor.rows[name]
		if a == nil || !slices.Contains(a.from, r.result.Source) {
			return false
		}
	}
	return len(people) > 0
}

// breakBeside takes a break off the spans of those it is for and returns why it cannot, or "".
func (d *day) breakBeside(r *read, row notes.TimeRow) string {
	people := row.People
	if len(people) == 0 || row.Beside.But {
		people = nil
		for _, name := range d.labor.names {
			if d.dayOf(r, name) != nil && !(row.Beside.But && slices.Contains(row.People, name)) {
				people = append(people, name)
			}
		}
	}
	if len(people) == 0 {
		return row.Fault
	}
	for _, name := range people {
		c := d.dayOf(r, name)
		switch {
		case c == nil:
			return row.Fault
		case c.row.Break > 0 && c.row.Break != row.Beside.Break && len(row.People) == 0 && !row.Beside.All:
			return "does not say whose break it is beside those told already"
		case len(row.People) == 0 && !row.Beside.All && c.row.Clock() < longDay && len(people) > 1:
			return "does not say whether it is also the break of the shorter day"
		}
	}
	for _, name := range people {
		c, a := d.dayOf(r, name), d.labor.rows[name]
		a.clock += c.row.Break - row.Beside.Break
		c.row.Break = row.Beside.Break
		if !slices.Contains(a.from, r.result.Source) {
			a.from = append(a.from, r.result.Source)
		}
	}
	return ""
}

// turnBeside moves the start or the end of somebody's last span and returns why it cannot, or "".
func (d *day) turnBeside(r *read, row notes.TimeRow) string {
	for _, name := range row.People {
		c := d.dayOf(r, name)
		if c == nil {
			return row.Fault
		}
		s := c.row.Spans[len(c.row.Spans)-1]
		moved, end := s, row.Beside.To
		if row.Beside.From != nil {
			moved.From = inSpan(*row.Beside.From, s)
		} else {
			moved.To = inSpan(*end, s)
		}
		if moved == s {
			continue
		}
		if moved.From < s.From || moved.To > s.To || moved.From >= moved.To {
			return "does not fit the times told before"
		}
		a := d.labor.rows[name]
		c.row.Spans = append(slices.Clone(c.row.Spans[:len(c.row.Spans)-1]), moved)
		if i := slices.Index(a.spans, s); i >= 0 {
			a.spans[i] = moved
		}
		a.clock += moved.Minutes() - s.Minutes()
		if row.Beside.HasBreak {
			a.clock += c.row.Break - row.Beside.Break
			c.row.Break = row.Beside.Break
		} else if c.row.Break > 0 && c.row.Clock()+c.row.Break <= longDay {
			return "does not say whether the break is taken off the shorter day too"
		}
	}
	return ""
}

// inSpan returns the time of day that falls into a span, half a day later where only that does.
func inSpan(at notes.Clock, s notes.ClockSpan) notes.Clock {
	if at < s.From && at < 12*60 {
		at += 12 * 60
	}
	return at
}

// dayOf returns the last spans of a person in an entry's note, or nil.
func (d *day) dayOf(r *read, name string) *clocked {
	a := d.labor.rows[name]
	if a == nil || name == "" {
		return nil
	}
	for i := len(a.days) - 1; i >= 0; i-- {
		if a.days[i].note == r.note {
			return &a.days[i]
		}
	}
	return nil
}
