package price

import (
	"bytes"
	"slices"

	"jobday/finding"
	"jobday/notes"
)

// treatment returns the tax treatment of the job: the one it names, or the company's first. A name
// nobody knows gives a finding and no tax at all.
func (j *job) treatment() notes.TaxTreatment {
	if j.Job.Tax == "" {
		if len(j.Company.Treatments) == 0 {
			return notes.TaxTreatment{}
		}
		return j.Company.Treatments[0]
	}
	t, ok := j.Company.Treatment(j.Job.Tax)
	if ok {
		return t
	}
	hint := `remove "tax", or add the treatment under "taxes" in company.yaml`
	if len(j.Company.Treatments) > 0 {
		hint = "known treatments: "
		for i, known := range j.Company.Treatments {
			if i > 0 {
				hint += ", "
			}
			hint += known.Name
		}
	}
	j.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "price/tax-unknown", Span: j.taxSpan(),
		Message: "unknown tax treatment " + quote(j.Job.Tax) + "; no tax is added until it is known",
		Hint:    hint, Holds: "the tax on this job",
	})
	return notes.TaxTreatment{}
}

// taxSpan returns where the scope names its treatment.
func (j *job) taxSpan() finding.Span {
	f := j.Job.File
	if f == nil {
		return finding.Span{}
	}
	at := bytes.Index(f.Text, []byte("\ntax:"))
	if at < 0 {
		return f.LineSpan(1)
	}
	line := f.LineSpan(f.LineAt(at + 1))
	if i := bytes.Index(f.Text[line.Start:line.End], []byte(j.Job.Tax)); i >= 0 {
		return line.Sub(i, i+len(j.Job.Tax))
	}
	return line
}

// taxed reports whether the job's treatment taxes a kind of line.
func (j *job) taxed(kind string) bool { return slices.Contains(j.tax.Taxed, kind) }

// total adds up the ready lines and puts the taxes on them. A tax is a percentage of its base,
// rounded half up at the third decimal: for each line or for the invoice, as the treatment says.
// Each rate is figured and rounded by itself.
//
// Source: Streamlined Sales and Use Tax Agreement, section 324: tax is carried to the third
// decimal place and rounded up when the third is greater than four; a seller may figure it by item
// or by invoice (read as adopted in Rhode Island, 44-18.1-25).
func (b *bill) total() {
	r := &b.day.Money.Ready
	r.Subtotal = notes.Money{}
	var base notes.Money
	for _, l := range r.Lines {
		r.Subtotal = r.Subtotal.Add(l.Amount)
		if l.Taxed {
			base = base.Add(l.Amount)
		}
	}
	r.Total = r.Subtotal
	if !slices.ContainsFunc(r.Lines, func(l notes.InvoiceLine) bool { return l.Taxed }) {
		return
	}
	for _, rate := range b.tax.Rates {
		amount := percentOf(base, rate.Percent)
		if b.tax.Per == "line" {
			amount = taxByLine(r.Lines, rate.Percent)
		}
		r.Tax = append(r.Tax, notes.TaxAmount{Name: rate.Name, Rate: rate.Percent, Base: base, Amount: amount})
		r.Total = r.Total.Add(amount)
	}
}

func taxByLine(lines []notes.InvoiceLine, percent notes.Decimal) notes.Money {
	var sum notes.Money
	for _, l := range lines {
		if l.Taxed {
			sum = sum.Add(percentOf(l.Amount, percent))
		}
	}
	return sum
}

// percentOf returns a percentage of an amount, rounded half away from zero to the cent in one step.
func percentOf(m notes.Money, percent notes.Decimal) notes.Money {
	return notes.Cents(m.Decimal().Mul(percent).Quo(notes.Int(100), 2))
}
