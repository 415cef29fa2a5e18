package reconcile

import "jobday/notes"

// writeScope closes the day on every line: progress to date, what is left, what is over, and the
// state that follows.
func (d *day) writeScope() {
	d.out.Scope = make([]notes.LineStanding, 0, len(d.in.Job.Lines))
	for i, line := range d.in.Job.Lines {
		ls, lt := &d.standing.lines[i], &d.lines[i]
		booked := line.Qty.Value
		ls.toDate = ls.toDate.Add(lt.today)
		ls.hours += lt.minutes
		over := notes.Max(notes.Decimal{}, ls.toDate.Sub(booked))
		s := notes.LineStanding{
			Line: line.Label, Work: line.Work, Booked: notes.BookedQty{Qty: booked, Unit: line.Qty.Unit},
			Today: lt.today, ToDate: ls.toDate, Over: over,
			Left:      notes.Max(notes.Decimal{}, booked.Sub(ls.toDate)),
			BlockedBy: ls.blockedBy,
			Hours:     notes.LineHours{Booked: line.Hours, Today: lt.minutes, ToDate: ls.hours},
			From:      list(lt.from),
			Dropped:   ls.dropped, DroppedBy: ls.droppedBy, Finished: lt.finished, Unclear: lt.unclear,
			Thing: d.index.lines[i].about,
		}
		s.State = stateOf(*ls, *lt, s)
		d.out.Scope = append(d.out.Scope, s)
	}
}

// stateOf names how a line stands. What happened on earlier days outlives a day without a word.
func stateOf(ls lineStanding, lt lineDay, s notes.LineStanding) notes.LineState {
	switch {
	case s.Over.Sign() > 0:
		return notes.Over
	case ls.complete:
		return notes.Complete
	case ls.blocked:
		return notes.Blocked
	case ls.begun || s.ToDate.Sign() > 0:
		return notes.UnderWay
	case lt.touched:
		return notes.NotStarted
	}
	return notes.NotReported
}
