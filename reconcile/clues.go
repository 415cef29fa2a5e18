package reconcile

import (
	"jobday/chance"
	"jobday/notes"
)

// fitClues are what holds of an entry beside the booking, by name: how well a line fits, and what of it.
type fitClues struct{ chance.Clues }

// gather puts together the clues of an entry held against the booking.
func (c *fitClues) gather(d *day, r *read) {
	c.Reset()
	in, kind := string(r.entry.Section), string(r.entry.Judged)
	best, any := r.fits()
	c.Say("fits ", step(best))
	c.Say("fits ", step(best), " in ", in)
	c.Say("fits ", step(best), " as ", kind)
	c.Say("any fits ", step(any))
	c.Say("none fits ", step(r.noLine))
	c.Say("none fits ", step(r.noLine), " as ", kind)
	c.When(best >= clearLead*any, "one stands out")
	c.Say("consent ", r.facts.Consent.State.String(), ", fits ", step(best)) // whose word there is, and how well a line fits in spite of it
	if s := r.facts.Fault.State; s != "" {
		c.Say("fault ", string(s))
	}
	c.When(r.facts.Fault.Told != "", "told somebody")
	if len(r.found) > 0 {
		c.line(d, &r.found[0])
		c.count(d, r)
	} else {
		c.Say("shares nothing")
	}
	q := &r.query
	trade := q.namesTrade()
	c.When(trade, "names trade")
	c.When(!trade, "names no trade")
	c.When(q.tradeVerb(), "trade verb")
	c.When(q.unknown(), "unknown")
	c.When(!q.says(), "says nothing")
	c.When(q.numbered(), "numbered")
	c.When(q.head < 0, "no head")
	for _, w := range q.work {
		c.Say("does ", w)
	}
	c.When(len(q.work) == 0, "does nothing")
	c.When(incidental(&r.query), "incidental")
	c.When(byOtherTrade(r.low()) || byOtherName(r.low()), "of another trade")
	c.When(d.index.excluded(&r.query) >= 0, "not included")
}

// line adds what speaks for and against the likeliest line.
func (c *fitClues) line(d *day, m *match) {
	c.When(m.veto != "", "veto")
	c.When(m.place, "veto of place")
	c.When(m.veto != "" && m.despite >= TakeAt, "fits but for the veto")
	for i, name := range evidenceClues {
		if name != "" && m.evidence[i] > 0 {
			c.Say("line ", name)
		}
	}
	c.Say("covers ", step(m.evidence[evCoverage]))
	c.Say("is covered ", step(m.evidence[evPrecision]))
}

// count adds how the first number of an entry stands to what is left of the likeliest line.
func (c *fitClues) count(d *day, r *read) {
	i := r.found[0].line
	line, ls := &d.in.Job.Lines[i], &d.standing.lines[i]
	one := line.Qty.Value.Equal(notes.Int(1))
	c.When(one, "one is booked")
	c.When(ls.begun, "the line is begun")
	for k := range r.entry.Facts.Items {
		it := &r.entry.Facts.Items[k]
		if q, same := it.Qty.In(line.Qty.Unit); same && it.Qty.Written() {
			c.Say("first counts ", countNames[countState(q.Value, line.Qty.Value.Sub(ls.toDate).Sub(d.lines[i].today), ls.begun)])
			return
		}
	}
	c.Say("counts nothing booked")
	c.When(one, "counts nothing, one is booked")
}

// countNames are the names of how a count stands to what is left.
var countNames = [countStates]string{countMore: "more", countRest: "the rest", countAll: "all", countOne: "the only one", countSome: "some"}

// evidenceClues are the names of the evidence that is there or not.
var evidenceClues = [evidenceLen]string{
	evHead: "head", evHeadWhich: "head which", evHeadNone: "head none", evNoHead: "no head", evOnly: "only", evWhich: "which",
	evWhichOther: "which other", evVerb: "verb", evVerbOther: "verb other", evOutOf: "out of", evTooMany: "too many", evComplete: "complete",
	evProgress: "progress", evUnit: "unit", evAsBooked: "as booked", evHeadElse: "head else",
}
