package reconcile

import (
	"jobday/chance"
	"jobday/notes"
)

// fitClues are what holds of an entry beside the booking, by name: how well a line fits, and what of it.
type fitClues struct {
	of    []chance.Feature
	named bool // keep the names too
	names []string
}

func (c *fitClues) say(parts ...string) {
	f := chance.Name("")
	for _, p := range parts {
		f = f.Then(p)
	}
	c.of = append(c.of, f)
	if c.named {
		name := ""
		for _, p := range parts {
			name += p
		}
		c.names = append(c.names, name)
	}
}

func (c *fitClues) when(holds bool, name string) {
	if holds {
		c.say(name)
	}
}

// step names how high a probability is.
func step(p float64) string {
	for _, s := range []struct {
		from float64
		name string
	}{{0.99, "99"}, {0.95, "95"}, {0.85, "85"}, {0.7, "70"}, {0.5, "50"}, {0.3, "30"}, {0.1, "10"}, {0.03, "3"}} {
		if p >= s.from {
			return s.name
		}
	}
	return "0"
}

// gather puts together the clues of an entry held against the booking.
func (c *fitClues) gather(d *day, r *read) {
	c.of, c.names = c.of[:0], c.names[:0]
	in, kind := string(r.entry.Section), string(r.entry.Judged)
	best, any := 0.0, 0.0
	for _, m := range r.found {
		any += m.p
	}
	if len(r.found) > 0 {
		best = r.found[0].p
	}
	c.say("fits ", step(best))
	c.say("fits ", step(best), " in ", in)
	c.say("fits ", step(best), " as ", kind)
	c.say("any fits ", step(any))
	c.consent(r, best)
	if s := r.facts.Fault.State; s != "" {
		c.say("fault ", string(s))
	}
	c.when(r.facts.Fault.Told != "", "told somebody")
	if len(r.found) > 0 {
		c.line(d, &r.found[0])
	} else {
		c.say("shares nothing")
	}
	q := &r.query
	trade := q.namesTrade()
	c.when(trade, "names trade")
	c.when(!trade, "names no trade")
	c.when(q.tradeVerb(), "trade verb")
	c.when(q.unknown(), "unknown")
	c.when(!q.says(), "says nothing")
	c.when(q.numbered(), "numbered")
	c.when(q.head < 0, "no head")
	for _, w := range q.work {
		c.say("does ", w)
	}
	c.when(len(q.work) == 0, "does nothing")
	c.when(incidental(r.query), "incidental")
	c.when(byOtherTrade(r.entry.Text) || byOtherName(r.entry.Text), "of another trade")
	c.when(d.index.excluded(r.query) >= 0, "not included")
}

// consent adds whose word there is, and how well a line fits in spite of it.
func (c *fitClues) consent(r *read, best float64) {
	state := "none"
	switch r.facts.Consent.State {
	case notes.Asked:
		state = "asked"
	case notes.Authorized:
		state = "authorized"
	case notes.Declined:
		state = "declined"
	}
	c.say("consent ", state, ", fits ", step(best))
}

// line adds what speaks for and against the likeliest line.
func (c *fitClues) line(d *day, m *match) {
	c.when(m.veto != "", "veto")
	c.when(m.place, "veto of place")
	c.when(m.veto != "" && m.despite >= TakeAt, "fits but for the veto")
	for i, name := range evidenceClues {
		if name != "" && m.evidence[i] > 0 {
			c.say("line ", name)
		}
	}
	c.say("covers ", step(m.evidence[evCoverage]))
	c.say("is covered ", step(m.evidence[evPrecision]))
}

// evidenceClues are the names of the evidence that is there or not.
var evidenceClues = [evidenceLen]string{
	evHead: "head", evHeadWhich: "head which", evHeadNone: "head none", evNoHead: "no head", evOnly: "only", evWhich: "which",
	evWhichOther: "which other", evVerb: "verb", evVerbOther: "verb other", evOutOf: "out of", evTooMany: "too many", evComplete: "complete",
	evProgress: "progress", evUnit: "unit", evAsBooked: "as booked", evHeadElse: "head else",
}
