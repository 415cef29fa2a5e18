package price

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// parts is an amount by time and material with its working.
type parts struct {
	labor, material           notes.Money
	laborSteps, materialSteps []notes.PricingStep
	cutWhat, cutBasis         string // what a cut is called in the working
}

func (p parts) sum() notes.Money { return p.labor.Add(p.material) }

// cut takes an amount off, from the labor first and then from the material, and shows it in the
// working of the part it comes off.
func (p parts) cut(amount notes.Money) parts {
	labor := amount
	if labor.Cmp(p.labor) > 0 {
		labor = p.labor
	}
	if material := amount.Sub(labor); material.Sign() > 0 {
		p.material = p.material.Sub(material)
		p.materialSteps = append(slices.Clip(p.materialSteps), single(p.cutWhat, p.cutBasis, material.Neg(), nil))
	}
	if labor.Sign() > 0 {
		p.labor = p.labor.Sub(labor)
		p.laborSteps = append(slices.Clip(p.laborSteps), single(p.cutWhat, p.cutBasis, labor.Neg(), nil))
	}
	return p
}

// readyParts makes time and material ready: as one line, or as labor and material apart where the
// tax treatment tells them apart. whole is the kind that taxes both.
func (b *bill) readyParts(l notes.InvoiceLine, p parts, whole string) {
	line := func(kind, suffix string, amount notes.Money, working []notes.PricingStep, taxed bool) {
		l := l
		l.Kind, l.Amount, l.Rate, l.Working, l.Taxed = kind, amount, amount.Decimal(), working, taxed
		l.Qty, l.Unit = notes.Int(1), notes.Lot
		l.What += suffix
		b.ready(l)
	}
	all := b.taxed(whole)
	labor, material := all || b.taxed(kindLabor), all || b.taxed(kindMaterial)
	if labor == material || p.labor.IsZero() || p.material.IsZero() {
		taxed := labor
		if p.labor.IsZero() {
			taxed = material
		}
		kind := kindMixed
		if whole == kindExtra {
			kind = kindExtra
		}
		line(kind, "", p.sum(), slices.Concat(p.laborSteps, p.materialSteps), taxed)
		return
	}
	line(kindLabor, ", labor", p.labor, p.laborSteps, labor)
	line(kindMaterial, ", material", p.material, p.materialSteps, material)
}

// timeAndMaterial makes ready the time and material that went into the line today, as far as its
// ceiling goes. What is held counts against the ceiling too, so that freeing it never goes over.
func (b *bill) timeAndMaterial(l *lineMoney, s *notes.LineStanding) {
	work := b.priceLabor(b.usesOn(s.Line), s.Line)
	p := parts{labor: work.amount, laborSteps: work.steps}
	from := slices.Concat(s.From, work.from)
	for i := range b.quotes {
		q := &b.quotes[i]
		if q.line != l {
			continue
		}
		if q.missing != "" {
			b.holdMaterial(l, q)
			continue
		}
		p.material = p.material.Add(q.amount)
		p.materialSteps = append(p.materialSteps, q.step())
		from = append(from, q.use.From...)
	}
	b.missingTime(l, s, work)
	total := p.sum()
	if total.IsZero() {
		return
	}
	b.value(l.title, total)
	if max := l.Price.Max; max != nil {
		if over := total.Sub(max.Sub(l.spent)); over.Sign() > 0 {
			p.cutWhat, p.cutBasis = "less what is over the ceiling", "time and material, at most "+max.String()+" in all"
			p = p.cut(over)
			b.overCeiling(l, over, from)
		}
		l.spent = l.spent.Add(p.sum())
	}
	if p.sum().IsZero() {
		return
	}
	if s.Unclear {
		b.holdUnclear(l, s, p.sum())
		return
	}
	s.Ready = p.sum()
	b.readyParts(notes.InvoiceLine{
		Ref: l.Label, What: l.title, Why: "time and material of the day", From: unique(from),
	}, p, kindScope)
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
