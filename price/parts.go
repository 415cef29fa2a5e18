package price

import (
	"slices"

	"jobday/notes"
)

// A kind is one of notes.CostKinds, by its place there.
type kind int

const (
	ofLabor kind = iota
	ofMaterial
	ofEquipment
	ofSubcontract
	kinds
)

func (k kind) String() string { return notes.CostKinds[k] }

// byKind is an amount of each kind of cost.
type byKind [kinds]notes.Money

func (a byKind) sum() notes.Money {
	var sum notes.Money
	for _, m := range a {
		sum = sum.Add(m)
	}
	return sum
}

// parts is an amount by time and material with its working: what each kind costs, and then what is
// added to or cut off all of it.
type parts struct {
	direct [kinds][]notes.PricingStep
	added  []addition
}

// An addition is a markup, a minimum or a cut, with what of it falls to each kind of cost.
type addition struct {
	name  string // of a markup
	step  notes.PricingStep
	share byKind
}

func (p *parts) add(k kind, s notes.PricingStep) { p.direct[k] = append(p.direct[k], s) }

// costs returns what each kind comes to before anything is added.
func (p *parts) costs() byKind {
	var a byKind
	for k, steps := range p.direct {
		for _, s := range steps {
			a[k] = a[k].Add(s.Amount)
		}
	}
	return a
}

// totals returns what each kind comes to with its share of what was added.
func (p *parts) totals() byKind {
	a := p.costs()
	for _, x := range p.added {
		for k := range a {
			a[k] = a[k].Add(x.share[k])
		}
	}
	return a
}

func (p *parts) sum() notes.Money { return p.totals().sum() }

// working returns all steps, kind by kind and then what was added.
func (p *parts) working() []notes.PricingStep {
	var all []notes.PricingStep
	for _, steps := range p.direct {
		all = append(all, steps...)
	}
	for _, x := range p.added {
		all = append(all, x.step)
	}
	return all
}

// workingOf returns the steps of one kind with its share of what was added.
func (p *parts) workingOf(k kind) []notes.PricingStep {
	all := slices.Clip(p.direct[k])
	for _, x := range p.added {
		switch share := x.share[k]; {
		case share.IsZero():
		case share.Equal(x.step.Amount):
			all = append(all, x.step)
		default:
			basis := "share of " + x.step.Amount.String() + " in proportion, to the cent; " + x.step.Basis
			all = append(all, single(x.step.What+", on "+k.String(), basis, share, x.step.From))
		}
	}
	return all
}

// addTo adds a step that belongs to one kind.
func (p *parts) addTo(k kind, s notes.PricingStep) {
	x := addition{step: s}
	x.share[k] = s.Amount
	p.added = append(p.added, x)
}

// markUp adds the markups of the rules, each on what it says it is on. A markup is rounded once, half
// away from zero to the cent, and then allocated to the kinds it is on.
func (p *parts) markUp(rules *notes.PricingRules) {
	for _, m := range rules.Markups {
		on := p.base(m.On)
		step := markupStep(m, on.sum())
		if step.Amount.IsZero() {
			continue
		}
		if rules.Name != "" {
			step.Basis += ", by the rules " + quote(rules.Name)
		}
		if rules.Source != "" {
			step.Basis += " (" + rules.Source + ")"
		}
		p.added = append(p.added, addition{name: m.Name, step: step, share: allocate(step.Amount, on)})
	}
}

// markupStep figures one markup on a sum.
func markupStep(m notes.Markup, base notes.Money) notes.PricingStep {
	what := "all before it"
	if len(m.On) > 0 {
		what = andList(m.On)
	}
	for _, band := range m.Bands {
		if band.UpTo != nil && base.Cmp(*band.UpTo) > 0 || base.IsZero() {
			continue
		}
		amount := band.Fixed.Add(percentOf(base.Sub(band.From), band.Percent))
		basis := band.Fixed.String() + " + " + band.Percent.String() + " % of what goes over " + band.From.String() + ", on " + what + " of " + base.String()
		if band.AtMost != nil && amount.Cmp(*band.AtMost) > 0 {
			amount = *band.AtMost
			basis += ", at most " + band.AtMost.String()
		}
		return single(m.Name, basis, amount, nil)
	}
	return notes.PricingStep{
		What: m.Name, Basis: m.Percent.String() + " % of " + what, Qty: base.Decimal(),
		Rate: m.Percent.Quo(notes.Int(100), ratePlaces), Amount: percentOf(base, m.Percent), From: sources(nil),
	}
}

// base returns what a markup is on: kinds of cost and markups before it by name, or everything.
func (p *parts) base(on []string) byKind {
	if len(on) == 0 {
		return p.totals()
	}
	var a byKind
	costs := p.costs()
	for _, name := range on {
		if k := slices.Index(notes.CostKinds, name); k >= 0 {
			a[k] = a[k].Add(costs[k])
			continue
		}
		for _, x := range p.added {
			if x.name != name || name == "" {
				continue
			}
			for k := range a {
				a[k] = a[k].Add(x.share[k])
			}
		}
	}
	return a
}

// allocate divides an amount in proportion to weights of one sign, exactly: each part is what the
// sum of parts so far, rounded half away from zero to the cent, has over the sum before.
func allocate(amount notes.Money, weights byKind) byKind {
	var out byKind
	total := weights.sum()
	if total.IsZero() {
		out[ofLabor] = amount
		return out
	}
	var weight, before notes.Money
	for k, w := range weights {
		weight = weight.Add(w)
		upTo := notes.Cents(amount.Decimal().Mul(weight.Decimal()).Quo(total.Decimal(), 2))
		out[k] = upTo.Sub(before)
		before = upTo
	}
	return out
}

// cut takes an amount off, from the labor first and then from each other kind in order, as one step.
func (p *parts) cut(amount notes.Money, what, basis string) {
	x := addition{step: single(what, basis, amount.Neg(), nil)}
	rest := amount
	for k, have := range p.totals() {
		off := rest
		if off.Cmp(have) > 0 {
			off = have
		}
		x.share[k] = off.Neg()
		rest = rest.Sub(off)
	}
	p.added = append(p.added, x)
}

func andList(words []string) string {
	s := ""
	for i, w := range words {
		switch {
		case i > 0 && i == len(words)-1:
			s += " and "
		case i > 0:
			s += ", "
		}
		s += w
	}
	return s
}

// readyParts makes time and material ready: as one line, or kind by kind where the tax treatment
// tells them apart. whole is the kind of line that taxes all of them.
func (b *bill) readyParts(l notes.InvoiceLine, p *parts, whole string) {
	line := func(kind, suffix string, amount notes.Money, working []notes.PricingStep, taxed bool) {
		l := l
		l.Kind, l.Amount, l.Rate, l.Working, l.Taxed = kind, amount, amount.Decimal(), working, taxed
		l.Qty, l.Unit = notes.Int(1), notes.Lot
		l.What += suffix
		b.ready(l)
	}
	all := b.taxed(whole)
	totals := p.totals()
	differ, taxed, first := false, all, true
	for k, m := range totals {
		if m.IsZero() {
			continue
		}
		t := all || b.taxed(kind(k).String())
		differ = differ || !first && t != taxed
		taxed, first = t, false
	}
	if !differ {
		name := kindMixed
		if whole == kindExtra {
			name = kindExtra
		}
		line(name, "", totals.sum(), p.working(), taxed)
		return
	}
	for k, m := range totals {
		if k := kind(k); !m.IsZero() {
			line(k.String(), ", "+k.String(), m, p.workingOf(k), all || b.taxed(k.String()))
		}
	}
}
