package explain

import (
	"strconv"
	"strings"

	"jobday/notes"
)

// records returns the accounts of the invoices and change orders with a number. A change order's
// number stands in several jobs.
func (in Input) records(ref string) []Chain {
	var chains []Chain
	for _, j := range in.Jobs {
		for i := range j.Invoices {
			if v := &j.Invoices[i]; strings.EqualFold(v.Number, ref) {
				chains = append(chains, invoice(v))
			}
		}
		for i := range j.Changes {
			if c := &j.Changes[i]; strings.EqualFold(c.Number, ref) {
				chains = append(chains, change(j, c))
			}
		}
	}
	return chains
}

func invoice(v *notes.Invoice) Chain {
	c := Chain{Kind: "invoice", Job: v.Job, Date: v.Date.String(), What: string(v.Kind) + " " + v.Number}
	for _, l := range v.Lines {
		p := Part{Title: "Line " + strconv.Itoa(l.No) + ": " + l.What}
		p.say("%s%s", Product(notes.PricingStep{Qty: l.Qty, Unit: l.Unit, Rate: l.Rate, Amount: l.Amount}), taxedWords(l.Taxed))
		if l.Why != "" {
			p.say("because %s", l.Why)
		}
		if l.Change != "" {
			p.say("agreed in %s: jobday explain %s --job %s", l.Change, l.Change, v.Job)
		}
		p.rests(l.Ref, v.Sources)
		p.say("rates, rules and rounding: jobday explain %s --job %s", l.Ref, v.Job)
		c.add(p)
	}
	var kept Part
	kept.Title = "Taken off and added"
	for _, a := range v.Allowances {
		kept.say("-%s %s%s", a.Amount, a.Reason, percentWords(a)+taxedWords(a.Taxed))
	}
	for _, a := range v.Charges {
		kept.say("%s %s%s", a.Amount, a.Reason, percentWords(a)+taxedWords(a.Taxed))
	}
	c.add(kept)
	c.add(taxes(v.Tax, v.TaxPer))
	t := v.Totals
	sums := Part{Title: "Sums"}
	sums.say("lines %s - taken off %s + added %s = %s without tax", t.Lines, t.Allowances, t.Charges, t.WithoutTax)
	sums.say("%s + tax %s = %s", t.WithoutTax, t.Tax, t.WithTax)
	sums.say("%s - deposit %s = %s to pay by %s", t.WithTax, t.Paid, t.Due, v.Due)
	c.add(sums)
	return c
}

func change(j Job, x *notes.ChangeOrder) Chain {
	c := Chain{Kind: "change order", Job: j.Job.Number, Date: x.Offered.String(), What: "change order " + x.Number}
	for _, i := range x.Items {
		p := Part{Title: i.Work}
		for _, r := range i.Rows {
			step := notes.PricingStep{Qty: r.Qty, Unit: r.Unit, Rate: r.Rate, Amount: r.Amount}
			basis := ""
			if r.Basis != "" {
				basis = " (" + r.Basis + ")"
			}
			p.say("row %d: %s%s: %s%s", r.Row, r.What, basis, Product(step), taxedWords(r.Taxed))
		}
		p.say("amount %s", i.Amount)
		p.rests(i.Extra, x.Sources)
		p.say("as the notes are now: jobday explain %s --job %s", i.Extra, j.Job.Number)
		c.add(p)
	}
	c.add(taxes(x.Tax, ""))
	sums := Part{Title: "Sums"}
	sums.say("offered %s, with tax %s", x.Subtotal, x.Total)
	c.add(sums)
	said := Part{Title: "Answers"}
	for _, a := range x.Answers {
		words := string(a.Kind) + " by " + a.Who + ", " + a.How + ", " + a.At.String()
		if a.Kind != notes.AnswerDeclined {
			words += ": " + a.Amount.String()
		}
		if a.Evidence != "" {
			words += "; shown by " + a.Evidence
		}
		said.say("%s", words)
	}
	c.add(said)
	return c
}

// rests shows the lines of notes a part of a record rests on, as they read when it was written.
func (p *Part) rests(ref string, sources []notes.SourceLine) {
	for _, s := range sources {
		if s.Ref == ref {
			p.Rows = append(p.Rows, Row{Source: &notes.Source{File: s.File, Line: s.Line, Column: 1, EndLine: s.Line, EndColumn: 1}, Quote: s.Text})
		}
	}
}

func taxes(list []notes.TaxAmount, per string) Part {
	p := Part{Title: "Tax"}
	for _, t := range list {
		exact := t.Base.Decimal().Mul(t.Rate).Quo(notes.Int(100), 6)
		words := t.Name + " " + t.Rate.String() + " %: " + t.Base.String() + " x " + t.Rate.Quo(notes.Int(100), 6).String() + " = " + exact.String()
		switch {
		case exact.Equal(t.Amount.Decimal()):
		case exact.Round(2).Equal(t.Amount.Decimal()):
			words += ", rounded half up at the third decimal to " + t.Amount.String()
		default:
			words += ", counted as " + t.Amount.String() + roundedPer(per)
		}
		p.say("%s", words)
	}
	return p
}

func roundedPer(per string) string {
	if per == "line" {
		return ": each line by itself is rounded"
	}
	return ": all rates together are rounded"
}

func percentWords(a notes.Adjustment) string {
	if a.Percent.IsZero() {
		return ""
	}
	return ", " + a.Percent.String() + " % of " + a.Base.String()
}

func taxedWords(taxed bool) string {
	if taxed {
		return ", taxed"
	}
	return ", not taxed"
}
