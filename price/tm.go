package price

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// timeAndMaterial makes ready the time and material that went into the line today, as far as its
// ceiling goes. What is held counts against the ceiling too, so that freeing it never goes over.
func (b *bill) timeAndMaterial(l *lineMoney, s *notes.LineStanding) {
	p, from, work := b.hourlyParts(l, s)
	b.missingTime(l, s, work)
	total := p.sum()
	if total.IsZero() {
		return
	}
	b.value(l.title, total)
	if max := l.Price.Max; max != nil {
		if over := total.Sub(max.Sub(l.spent)); over.Sign() > 0 {
			p.cut(over, "less what is over the ceiling", "time and material, at most "+max.String()+" in all")
			b.overCeiling(l, over, from)
		}
		l.spent = l.spent.Add(p.sum())
	}
	switch {
	case p.sum().IsZero():
		return
	case s.Unclear:
		b.holdUnclear(l, s, p.sum())
		return
	case b.rules == nil:
		b.holdOn(notes.MoneyNote{
			What: l.title, Amount: p.sum(), Why: "the pricing rules " + quote(b.Job.Pricing) + " of the job are not known",
			From: unique(from), Ref: l.Label, Frees: "a name of known rules in the scope",
		}, rulesUnknown, l)
		return
	}
	s.Ready = p.sum()
	b.readyParts(notes.InvoiceLine{
		Ref: l.Label, What: l.title, Why: "time and material of the day", From: unique(from),
	}, p, kindScope)
}

// hourlyParts prices what went into a line by time and material today.
func (b *bill) hourlyParts(l *lineMoney, s *notes.LineStanding) (p *parts, from []notes.Source, work labor) {
	p = &parts{}
	work = b.priceLabor(b.usesOn(s.Line), s.Line)
	p.direct[ofLabor] = work.steps
	from = slices.Concat(s.From, work.from)
	for i := range b.quotes {
		q := &b.quotes[i]
		if q.line != l {
			continue
		}
		if q.missing != "" {
			b.holdMaterial(l, q)
			continue
		}
		p.add(ofMaterial, q.step())
		from = append(from, q.use.From...)
	}
	for _, h := range b.hiredToday {
		if b.line(h.key) != l {
			continue
		}
		if h.missing != "" {
			b.holdHired(l, h)
			continue
		}
		p.add(h.kind, h.step)
		from = append(from, h.step.From...)
	}
	if b.rules != nil {
		p.markUp(b.rules)
	}
	return p, from, work
}

func unique(from []notes.Source) []notes.Source {
	var out []notes.Source
	for _, s := range from {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

func (b *bill) overCeiling(l *lineMoney, over notes.Money, from []notes.Source) {
	why := "over the ceiling of " + l.Price.Max.String()
	b.tell(finding.Finding{
		Severity: finding.Warning, Rule: "price/over-ceiling",
		Message: "line " + quote(l.Label) + " is " + over.String() + " " + why + " today",
		Hint:    "agree on a higher ceiling before more work is done, or leave it at " + l.Price.Max.String(),
	}, unique(from))
	b.notBilled(notes.MoneyNote{
		What: l.title, Amount: over, Why: why, From: unique(from), Ref: l.Label, Frees: "a higher ceiling",
	})
}

// holdMaterial holds material on the line that has no price.
func (b *bill) holdMaterial(l *lineMoney, q *materialQuote) {
	b.tellNoPrice(q)
	what := q.use.Item + " on line " + l.Label
	b.value(what, notes.Money{})
	b.holdOn(notes.MoneyNote{
		What: what, Why: "no price is known; missing: " + q.missing, From: q.use.From, Ref: l.Label, Frees: q.missing,
	}, materialUnpriced, l)
}

// tellNoPrice says that something that is to be billed has no price.
func (j *job) tellNoPrice(q *materialQuote) {
	if q.use.Item == "" {
		return // there is nothing a price could be found for; what it went into says so
	}
	j.tell(finding.Finding{
		Severity: finding.Warning, Rule: "price/no-price",
		Message: quote(q.use.Item) + " cannot be priced; missing: " + q.missing,
		Hint:    j.priceHint(q.use), Holds: quote(q.use.Item),
	}, q.use.From)
}

// missingTime holds what is not known of the time on a line: whose it was, or that there was any.
func (b *bill) missingTime(l *lineMoney, s *notes.LineStanding, work labor) {
	if work.minutes > 0 {
		l.timed = true
	}
	for _, m := range work.missing {
		what := "time on line " + l.title
		b.value(what, notes.Money{})
		b.holdOn(notes.MoneyNote{
			What: what, Why: "no price is known; missing: " + m, From: unique(work.from), Ref: l.Label, Frees: m,
		}, timeUnpriced, l)
	}
	if work.minutes > 0 || s.Today.Sign() <= 0 && !s.Finished {
		return
	}
	l.timed = false
	what := "time on line " + l.title
	b.tell(finding.Finding{
		Severity: finding.Warning, Rule: "price/time-missing",
		Message: "line " + quote(l.Label) + " is billed by the hour and no time is written for it",
		Hint:    "write under Time who worked on it and how long, like " + quote(b.timeExample(l)),
		Holds:   "time on line " + l.Label,
	}, s.From)
	b.value(what, notes.Money{})
	b.holdOn(notes.MoneyNote{
		What: what, Why: "no time is written for it", From: l.from(s), Ref: l.Label, Frees: "the time it took",
	}, noTime, l)
}

func (b *bill) timeExample(l *lineMoney) string {
	who := "Ines"
	if len(b.day.Crew) > 0 {
		who = b.day.Crew[0]
	}
	return l.Label + ": " + who + " 1 h 30"
}

// findHourly notes the lines billed by time and material that today's notes speak of.
func (b *bill) findHourly() {
	b.hourly = b.hourly[:0]
	for i := range b.day.Scope {
		s := &b.day.Scope[i]
		l := b.line(s.Line)
		if l != nil && l.Price.Kind == notes.TimeAndMaterial && b.touched(s) {
			b.hourly = append(b.hourly, l.Label)
		}
	}
	if len(b.hourly) == 1 {
		b.byHour = "line " + b.hourly[0] + " is billed by"
	} else if len(b.hourly) > 1 {
		b.byHour = "lines " + strings.Join(b.hourly, ", ") + " are billed by"
	}
}

// touched reports whether today's notes speak of the line.
func (b *bill) touched(s *notes.LineStanding) bool {
	return len(s.From) > 0 || s.Today.Sign() > 0 ||
		slices.ContainsFunc(b.day.Labor, func(r notes.LaborRow) bool { return minutesOn(&r, s.Line) > 0 })
}

// unassigned holds time that is on no line and no extra on a day when a line billed by the hour was
// worked on: some of it may be that line's. Where work at a fixed price was done too, nobody can
// tell how much, and so what is held has no amount.
func (b *bill) unassigned() {
	if len(b.hourly) == 0 {
		return
	}
	amount, minutes, from := b.laborWorth(b.usesOn(notes.Unassigned))
	if minutes == 0 {
		return
	}
	n := notes.MoneyNote{
		What: minutes.String() + " on no line", Amount: amount, From: unique(from),
		Why: nowhere + "; " + b.byHour + " the hour", Frees: "the line it was worked on",
	}
	for i := range b.day.Scope {
		s := &b.day.Scope[i]
		if l := b.line(s.Line); l != nil && l.Price.Kind != notes.TimeAndMaterial && b.touched(s) {
			n.Amount = notes.Money{}
			n.Why += ", and how much of it is in the price of line " + l.Label + " is not known"
			break
		}
	}
	b.tell(finding.Finding{
		Severity: finding.Warning, Rule: "price/time-unplaced",
		Message: minutes.String() + " of the day are on no line, and " + b.byHour + " the hour",
		Hint:    "write the line in front of the time, like " + quote(b.hourly[0]+": "+minutes.String()),
		Holds:   n.What,
	}, n.From)
	b.value(n.What, n.Amount)
	b.holdOn(n, timeNowhere, nil)
}
