package price

import (
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// treatment returns the tax treatment of the job: the one it names, or the company's first. A name
// nobody knows gives a finding and false: then nothing is ready, because it would be billed without
// its tax.
func (j *job) treatment() (notes.TaxTreatment, bool) {
	t, ok := TreatmentOf(j.Company, j.Job)
	if ok {
		return t, true
	}
	hint := `remove "tax", or add the treatment under "taxes" in company.yaml`
	if len(j.Company.Treatments) > 0 {
		hint = hintOf(j.Job.Tax, "known treatments", treatmentNames(j.Company))
	}
	j.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "price/tax-unknown", Span: j.headSpan("tax", j.Job.Tax),
		Message: "unknown tax treatment " + quote(j.Job.Tax) + "; nothing on this job is ready until it is known",
		Hint:    hint, Holds: "all that would be ready on this job",
	})
	return notes.TaxTreatment{}, false
}

func treatmentNames(c *notes.Company) []string {
	var names []string
	for _, t := range c.Treatments {
		names = append(names, t.Name)
	}
	return names
}

// hintOf asks for the nearest of the names known, or lists them where none is near.
func hintOf(word, what string, known []string) string {
	if near := finding.Nearest(word, known); near != "" {
		return "did you mean " + quote(near) + "?"
	}
	return what + ": " + strings.Join(known, ", ")
}

// untaxed holds what would be ready today as long as nobody knows how the job is taxed.
func (b *bill) untaxed() {
	if b.taxKnown {
		return
	}
	for _, l := range b.rows.ready {
		b.holdOn(notes.MoneyNote{
			What: l.What, Amount: l.Amount, From: l.From, Ref: l.Ref,
			Why: taxUnknownWhy(b.Job), Frees: "a tax treatment of company.yaml in the scope",
		}, taxUnknown, nil)
	}
	b.rows.ready = b.rows.ready[:0]
	for i := range b.day.Scope {
		b.day.Scope[i].Ready = notes.Money{}
	}
}

func taxUnknownWhy(j *notes.Job) string { return "the tax treatment " + quote(j.Tax) + " is not known" }

// taxed reports whether the job's treatment taxes a kind of line.
func (j *job) taxed(kind string) bool { return slices.Contains(j.tax.Taxed, kind) }

// total adds up the ready lines and puts the taxes on them.
func (b *bill) total() {
	r := &b.day.Money.Ready
	r.Subtotal = notes.Money{}
	for _, l := range r.Lines {
		r.Subtotal = r.Subtotal.Add(l.Amount)
	}
	r.Tax, r.Total = TaxOn(r.Lines, b.tax, b.Job.Exempt), r.Subtotal
	if len(r.Tax) > 0 && b.Job.Exempt == "" {
		r.TaxHow = howTaxed(b.tax)
	}
	if b.Job.Exempt != "" {
		for i := range r.Lines {
			r.Lines[i].Taxed = false
		}
	}
	for _, t := range r.Tax {
		r.Total = r.Total.Add(t.Amount)
	}
}

// howTaxed says how a treatment figures and rounds its tax.
func howTaxed(t notes.TaxTreatment) string {
	how := "figured on all taxed lines of the invoice together"
	if t.Per == "line" {
		how = "figured on each taxed line by itself, and then added"
	}
	how += ", rounded half up at the third decimal"
	if t.Together && len(t.Rates) > 1 {
		how += ", all rates as one"
	}
	return how + " (company.yaml, taxes, " + quote(t.Name) + ")"
}

// TaxOn returns the taxes on the lines marked as taxed: a row for each rate of the treatment, never
// nil. A tax is a percentage of its base, rounded half up at the third decimal: for each line or for
// the invoice as the treatment says, each rate by itself or all together. What is together is rounded
// once and then allocated to the rates, so that the rows add up to it. Where the customer is exempt
// there is one row of 0.00 with the reason.
//
// Source: Streamlined Sales and Use Tax Agreement, section 324: tax is carried to the third
// decimal place and rounded up when the third is greater than four; a seller may figure it by item
// or by invoice, and may add state and local taxes first (read as adopted in Rhode Island,
// 44-18.1-25).
func TaxOn(lines []notes.InvoiceLine, t notes.TaxTreatment, exempt string) []notes.TaxAmount {
	out := []notes.TaxAmount{}
	var bases []notes.Money
	var base notes.Money
	for _, l := range lines {
		if l.Taxed {
			bases, base = append(bases, l.Amount), base.Add(l.Amount)
		}
	}
	switch {
	case len(bases) == 0:
		return out
	case exempt != "":
		return append(out, notes.TaxAmount{Name: "exempt: " + exempt, Base: base})
	case t.Per != "line":
		bases = []notes.Money{base}
	}
	amounts := make([]notes.Money, len(t.Rates))
	for _, b := range bases {
		for i, m := range taxOf(b, t) {
			amounts[i] = amounts[i].Add(m)
		}
	}
	for i, rate := range t.Rates {
		out = append(out, notes.TaxAmount{Name: rate.Name, Rate: rate.Percent, Base: base, Amount: amounts[i]})
	}
	return out
}

// taxOf returns the tax of each rate on one base.
func taxOf(base notes.Money, t notes.TaxTreatment) []notes.Money {
	amounts := make([]notes.Money, len(t.Rates))
	var percent notes.Decimal
	var before notes.Money
	for i, rate := range t.Rates {
		if !t.Together {
			amounts[i] = percentOf(base, rate.Percent)
			continue
		}
		percent = percent.Add(rate.Percent)
		upTo := percentOf(base, percent) // of the last rate it is the tax of all together
		amounts[i], before = upTo.Sub(before), upTo
	}
	return amounts
}

// percentOf returns a percentage of an amount, rounded half away from zero to the cent in one step.
func percentOf(m notes.Money, percent notes.Decimal) notes.Money {
	return notes.Cents(m.Decimal().Mul(percent).Quo(notes.Int(100), 2))
}
