package price

import (
	"bytes"
	"slices"

	"jobday/finding"
	"jobday/notes"
)

// ownRules are the company's own rules for time and material, where a job names none.
func ownRules(c *notes.Company) *notes.PricingRules {
	r := &notes.PricingRules{}
	if c.SmallTools.Sign() > 0 {
		r.Markups = append(r.Markups, notes.Markup{Name: "small tools", Percent: c.SmallTools, On: []string{notes.LaborCost}})
	}
	if c.Subcontract.Sign() > 0 {
		r.Markups = append(r.Markups, notes.Markup{Name: "markup on subcontract", Percent: c.Subcontract, On: []string{notes.SubcontractCost}})
	}
	return r
}

// named reports whether the job is priced by rules it names.
func (j *job) named() bool { return j.rules != nil && j.rules.Name != "" }

// atCost reports whether labor and material are figured at what they cost.
func (j *job) atCost() bool { return j.rules != nil && j.rules.AtCost }

// findRules returns the rules the job names: the company's, or a built-in set. A name nobody knows, or
// rules that cannot be read whole, give a finding and nil: then nothing by time and material is ready.
func (j *job) findRules() *notes.PricingRules {
	if j.Job.Pricing == "" {
		return ownRules(j.Company)
	}
	for i := range j.Company.Pricing {
		r := &j.Company.Pricing[i]
		if r.Name == j.Job.Pricing && r.Broken {
			j.found.Add(finding.Finding{
				Severity: finding.Error, Rule: "price/rules-unknown", Span: j.headSpan("pricing", j.Job.Pricing),
				Message: "the pricing rules " + quote(r.Name) + " have an error; nothing by time and material is billed until it is put right",
				Hint:    "see what is said about them in company.yaml", Holds: "time and material on this job",
			})
			return nil
		}
		if r.Name == j.Job.Pricing {
			return r
		}
	}
	builtIn := ForceAccount()
	var known []string
	for _, r := range slices.Concat(j.Company.Pricing, builtIn) {
		if r.Name == j.Job.Pricing {
			return &r
		}
		known = append(known, r.Name)
	}
	j.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "price/rules-unknown", Span: j.headSpan("pricing", j.Job.Pricing),
		Message: "unknown pricing rules " + quote(j.Job.Pricing) + "; nothing by time and material is billed until they are known",
		Hint:    hintOf(j.Job.Pricing, "known rules", known), Holds: "time and material on this job",
	})
	return nil
}

// headSpan returns where the scope's front matter has a value.
func (j *job) headSpan(key, val string) finding.Span {
	f := j.Job.File
	if f == nil {
		return finding.Span{}
	}
	at := bytes.Index(f.Text, []byte("\n"+key+":"))
	if at < 0 {
		return f.LineSpan(1)
	}
	line := f.LineSpan(f.LineAt(at + 1))
	if i := bytes.Index(f.Text[line.Start:line.End], []byte(val)); i >= 0 {
		return line.Sub(i, i+len(val))
	}
	return line
}
