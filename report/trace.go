package report

import (
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
)

// Working is how an amount came about: the words it rests on, then the steps of the sum.
type Working struct {
	Of    string // "585.00"
	Why   string
	Said  []Said
	Steps []Step
	Tax   string
}

// Said is a note line that bears an amount, with how it was read.
type Said struct {
	Text string
	How  string // "taken for work on line B, confidence 0.93: says proofing cabinet"
	From []notes.Source
}

// Step is one step of a sum.
type Step struct {
	notes.PricingStep
	Sum string // "0.75 h x 96.00 = 72.00"
}

// LineWorking is the working of a line to bill.
func (v *View) LineWorking(l notes.InvoiceLine) Working {
	w := Working{
		Of: v.money(l.Amount), Why: l.Why, Said: v.said(l.Ref, l.From), Steps: v.steps(l.Working), Tax: v.taxWords(l),
	}
	if len(w.Steps) == 0 {
		w.Steps = []Step{{
			PricingStep: notes.PricingStep{What: v.What(l)},
			Sum:         v.product(l.Qty, l.Unit, l.Rate, l.Amount),
		}}
	}
	return w
}

// ExtraWorking is the working of an extra's amount.
func (v *View) ExtraWorking(x notes.ExtraWork) Working {
	return Working{Of: v.money(x.Amount), Said: v.said(x.ID, x.From), Steps: v.steps(x.Pricing)}
}

// NoteWorking is the working of an amount that is held or not billed: the words it rests on and,
// when it is an extra's, the steps of its price.
func (v *View) NoteWorking(n notes.MoneyNote) Working {
	w := Working{Of: v.money(n.Amount), Said: v.said(n.Ref, n.From)}
	for _, x := range v.Day.Extras {
		if x.ID == n.Ref && n.Ref != "" {
			w.Steps = v.steps(x.Pricing)
		}
	}
	return w
}

// TaxWorking says how the taxes of the day were figured.
func (v *View) TaxWorking() string {
	name := v.Job.Tax
	if name == "" && len(v.Company.Treatments) > 0 {
		name = v.Company.Treatments[0].Name
	}
	t, ok := v.Company.Treatment(name)
	if !ok {
		return "each tax is rounded half away from zero to the cent"
	}
	per := "on the sum of the taxed lines"
	if t.Per == "line" {
		per = "line by line"
	}
	taxed := "nothing"
	if len(t.Taxed) > 0 {
		taxed = strings.Join(t.Taxed, ", ")
	}
	return "treatment \"" + t.Name + "\" taxes " + taxed + "; each tax is figured " + per +
		" and rounded half away from zero to the cent"
}

// said collects the lines an amount rests on. Entries that went to something else are left out
// where one that went to ref stands on the same line.
func (v *View) said(ref string, from []notes.Source) []Said {
	var list []Said
	for _, p := range places(from) {
		here := v.entryAt[p]
		mine := slices.DeleteFunc(slices.Clone(here), func(i int) bool {
			e := v.Day.Entries[i]
			return e.ID != ref && !slices.Contains(e.Lines, ref)
		})
		if len(mine) == 0 {
			mine = here
		}
		for _, i := range mine {
			e := v.Day.Entries[i]
			list = append(list, Said{e.Text, howRead(e), []notes.Source{e.Source}})
		}
		if len(here) == 0 {
			list = append(list, Said{v.lineText(p), "", []notes.Source{{File: p.file, Line: p.line}}})
		}
	}
	return list
}

// lineText is a line of the day's notes as written, or "" for another file's.
func (v *View) lineText(p place) string {
	n, shown := v.noteAt[p.file]
	if !shown || p.line > len(v.Notes[n].Lines) {
		return ""
	}
	return strings.TrimSpace(v.Notes[n].Lines[p.line-1].Text)
}

// howRead says what an entry was taken for, how surely and why.
func howRead(e notes.EntryResult) string {
	how := "taken for " + outcomeWord(e.Outcome)
	if on := onLines(e.Lines); on != "" {
		how += ", " + on
	}
	how += ", confidence " + strconv.FormatFloat(e.Confidence, 'f', 2, 64)
	if e.Why != "" {
		how += ": " + e.Why
	}
	return how
}

func (f figures) steps(list []notes.PricingStep) []Step {
	var out []Step
	for _, s := range list {
		out = append(out, Step{s, f.product(s.Qty, s.Unit, s.Rate, s.Amount)})
	}
	return out
}

// product prints one multiplication and says so when the cent was rounded.
func (f figures) product(qty notes.Decimal, unit notes.Unit, r notes.Decimal, amount notes.Money) string {
	left := f.count(qty, unit) + " x " + f.rate(r)
	if m, ok := notes.Clocked(qty, unit); ok {
		if r.Mul(notes.Int(int(m))).Equal(amount.Decimal().Mul(notes.Int(60))) {
			return left + " = " + f.money(amount)
		}
		return left + " = " + f.money(amount) + ", to the cent"
	}
	exact := qty.Mul(r)
	switch {
	case exact.Equal(amount.Decimal()):
		return left + " = " + f.money(amount)
	case exact.Round(2).Equal(amount.Decimal()):
		return left + " = " + f.number(exact) + ", to the cent " + f.money(amount)
	}
	return left + ", comes to " + f.money(amount)
}

// taxWords says which of the day's taxes a line bears.
func (v *View) taxWords(l notes.InvoiceLine) string {
	if !l.Taxed {
		return "not taxed"
	}
	var names []string
	for _, t := range v.Day.Money.Ready.Tax {
		names = append(names, t.Name+" "+v.number(t.Rate)+" %")
	}
	if len(names) == 0 {
		return "taxed"
	}
	return "taxed: " + strings.Join(names, ", ")
}
