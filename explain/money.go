package explain

import (
	"fmt"
	"slices"
	"strings"

	"jobday/notes"
)

// extra explains an extra from note line to amount.
func (a account) extra(x *notes.ExtraWork) Chain {
	c := Chain{Kind: "extra", Job: a.day.Job, Date: a.day.Date.String(), What: x.Work}
	from := slices.Clone(x.From)
	taken := Part{Title: "Taken for"}
	weighed := Part{Title: "Held against the booked lines"}
	for i := range a.day.Entries {
		e := &a.day.Entries[i]
		if !a.rests(x.From, e) {
			continue
		}
		for _, s := range places(e) {
			if !slices.Contains(from, s) {
				from = append(from, s)
			}
		}
		if e.ID != x.ID {
			taken.say("entry %s:", e.ID)
		}
		taken.Rows = append(taken.Rows, a.decided(e).Rows...)
		weighed.Rows = append(weighed.Rows, a.evidence(e).Rows...)
	}
	if len(taken.Rows) == 0 {
		taken.say("extra, as found on %s", x.Found)
	}
	c.add(a.written(from))
	c.add(taken)
	c.add(weighed)
	c.add(allowed(x))
	price := a.steps(x.Pricing)
	if len(price.Rows) == 0 && !x.Amount.IsZero() {
		price.say("no working is recorded")
	}
	price.say("amount %s: %s", x.Amount, x.State)
	c.add(price)
	c.add(a.standing(func(ref string, _ []notes.Source) bool { return ref == x.ID }))
	c.add(a.tax(x.ID))
	return c
}

// allowed says on whose word an extra rests.
func allowed(x *notes.ExtraWork) Part {
	p := Part{Title: "Authorization"}
	z := x.Authorization
	text := z.State
	if z.By != "" {
		text += " by " + z.By
	}
	if z.How != "" {
		text += ", " + z.How
	}
	if z.At != "" {
		text += ", " + z.At
	}
	if z.State == "none" || z.State == "" {
		text = "nothing is written about who allowed it"
	}
	p.say("%s", text)
	return p
}

// explainLine explains a booked line over the days given.
func explainLine(j Job, booked notes.ScopeLine, days []*notes.JobDay) Chain {
	a := account{Job: j}
	c := Chain{Kind: "line", Job: j.Job.Number, What: booked.Work}
	if len(days) > 0 {
		a.day = days[len(days)-1]
		c.Date = a.day.Date.String()
	}
	b := Part{Title: "Booked"}
	b.Rows = append(b.Rows, a.at("line "+booked.Label, notes.SourceOf(booked.Span)))
	b.say("%s, price %s", booked.Qty, priceWords(booked.Price))
	c.add(b)
	c.add(a.progress(booked.Label, days))
	for _, d := range days {
		day := account{Job: j, day: d}
		for _, l := range d.Money.Ready.Lines {
			if l.Ref == booked.Label {
				p := day.steps(l.Working)
				p.Title = "Billed as of " + d.Date.String()
				p.say("%s %s at %s = %s", l.Qty, l.Unit, rate(l.Rate), l.Amount)
				if l.Why != "" {
					p.say("because %s", l.Why)
				}
				c.add(p)
				c.add(day.tax(booked.Label))
			}
		}
	}
	if a.day != nil {
		p := a.heldRows(func(ref string, _ []notes.Source) bool { return ref == booked.Label })
		c.add(Part{Title: "Not on the invoice of " + c.Date, Rows: p})
		c.add(material(booked.Label, days))
	}
	return c
}

func priceWords(p notes.LinePrice) string {
	switch {
	case p.Text != "":
		return p.Text
	case p.Kind == notes.Unpriced:
		return "none"
	}
	return string(p.Kind) + " " + p.Amount.String()
}

// progress lists what each day did to a line, with the note lines that said so.
func (a account) progress(label string, days []*notes.JobDay) Part {
	p := Part{Title: "Progress"}
	for _, d := range days {
		for _, l := range d.Scope {
			if l.Line != label {
				continue
			}
			if len(l.From) == 0 && l.Today.IsZero() {
				continue
			}
			p.say("%s: %s today, %s of %s %s to date, %s, %s of %s booked", d.Date, l.Today, l.ToDate,
				l.Booked.Qty, l.Booked.Unit, l.State, l.Hours.ToDate, l.Hours.Booked)
			day := account{Job: a.Job, day: d}
			for i := range d.Entries {
				if e := &d.Entries[i]; day.rests(l.From, e) {
					row := a.at(fmt.Sprintf("taken as %s (%.2f): %s", e.Outcome, e.Confidence, e.Why), e.Source)
					p.Rows = append(p.Rows, row)
				}
			}
		}
	}
	if len(p.Rows) == 0 {
		p.say("no note speaks of it")
	}
	return p
}

// material lists what went into a line against what its price includes.
func material(label string, days []*notes.JobDay) Part {
	p := Part{Title: "Material"}
	for _, d := range days {
		for _, m := range d.Materials {
			if m.Line == label {
				p.say("%s: %s of %s, %s allowed, %s over", d.Date, m.Qty, m.Item, m.Allowed, m.Over)
			}
		}
	}
	return p
}

// steps lays out a working: quantity times rate, and the rounding where there was one.
func (a account) steps(steps []notes.PricingStep) Part {
	p := Part{Title: "Price"}
	for _, s := range steps {
		text := s.What
		if s.Basis != "" {
			text += " (" + s.Basis + ")"
		}
		text += ": " + Product(s)
		if len(s.From) == 0 {
			p.Rows = append(p.Rows, Row{Text: text})
			continue
		}
		p.Rows = append(p.Rows, a.at(text, s.From[0]))
		for _, from := range s.From[1:] {
			p.Rows = append(p.Rows, a.at("also from", from))
		}
	}
	return p
}

// Product writes a step's multiplication with its rounding: "0.75 h x 96.00 = 72.00", or
// "6.5 ft x 1.33 = 8.645, rounded half away from zero to 8.65".
func Product(s notes.PricingStep) string {
	if m, ok := notes.Clocked(s.Qty, s.Unit); ok {
		text := m.String() + " x " + rate(s.Rate) + " = " + s.Amount.String()
		if !s.Rate.Mul(notes.Int(int(m))).Equal(s.Amount.Decimal().Mul(notes.Int(60))) {
			text += ", rounded half away from zero"
		}
		return text
	}
	exact := s.Qty.Mul(s.Rate)
	text := strings.TrimSpace(s.Qty.String()+" "+string(s.Unit)) + " x " + rate(s.Rate) + " = "
	switch {
	case exact.Equal(s.Amount.Decimal()):
		return text + s.Amount.String()
	case exact.Round(2).Equal(s.Amount.Decimal()):
		return text + exact.String() + ", rounded half away from zero to " + s.Amount.String()
	}
	return text + exact.String() + ", counted as " + s.Amount.String()
}

// rate writes a price per unit as money, with more decimals only where it has them.
func rate(r notes.Decimal) string {
	if r.Equal(r.Round(2)) {
		return r.Fixed(2)
	}
	return r.String()
}

// standing says where the money of something stands on the day: ready, held or not billed.
func (a account) standing(is func(ref string, from []notes.Source) bool) Part {
	p := Part{Title: "Where the money stands"}
	for _, l := range a.day.Money.Ready.Lines {
		if is(l.Ref, l.From) {
			p.say("ready to bill: %s%s", l.Amount, because(l.Why))
		}
	}
	p.Rows = append(p.Rows, a.heldRows(is)...)
	return p
}

// heldRows lists what of something is not on the day's invoice, and what would free it.
func (a account) heldRows(is func(ref string, from []notes.Source) bool) []Row {
	var p Part
	for _, h := range a.day.Money.Held {
		if is(h.Ref, h.From) {
			p.say("held: %s%s", h.Amount, because(h.Why))
			if h.Frees != "" {
				p.say("freed by %s", h.Frees)
			}
		}
	}
	for _, n := range a.day.Money.NotBilled {
		if is(n.Ref, n.From) {
			p.say("not billed: %s%s", n.Amount, because(n.Why))
		}
	}
	return p.Rows
}

// money lists the money of the day that rests on places.
func (a account) money(is func(from []notes.Source) bool) []Row {
	return a.standing(func(_ string, from []notes.Source) bool { return is(from) }).Rows
}

// tax says which taxes fall on a ready line, as far as they are on the day's invoice, and how.
func (a account) tax(ref string) Part {
	p := Part{Title: "Tax"}
	ready := a.day.Money.Ready
	exempt := a.Job.Job != nil && a.Job.Job.Exempt != ""
	for _, l := range ready.Lines {
		switch {
		case l.Ref != ref:
		case exempt:
			p.say("%s is not taxed: exempt, %s", l.Amount, a.Job.Job.Exempt)
		case !l.Taxed:
			p.say("%s is not taxed", l.Amount)
		default:
			for _, t := range ready.Tax {
				share := t.Rate.Quo(notes.Int(100), 12)
				p.say("%s %s %%: %s x %s = %s on this line; in all %s of %s taxed that day",
					t.Name, t.Rate, l.Amount, share, l.Amount.Decimal().Mul(share), t.Amount, t.Base)
			}
			if ready.TaxHow != "" {
				p.say("%s", ready.TaxHow)
			}
		}
	}
	return p
}

func because(why string) string {
	if why == "" {
		return ""
	}
	return ": " + why
}
