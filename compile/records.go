package compile

import (
	"slices"

	"jobday/billing"
	"jobday/finding"
	"jobday/notes"
	"jobday/price"
)

// answered leaves out what asks for the customer's word on an extra whose change order has it.
func answered(found finding.List, days []*notes.JobDay, agreed map[string]*price.Agreement) finding.List {
	if len(agreed) == 0 {
		return found
	}
	type line struct {
		file string
		n    int
	}
	settled := map[line]bool{}
	for _, d := range days {
		for _, e := range d.Extras {
			if a := agreed[e.ID]; a != nil && a.Answer != "" {
				for _, s := range e.From {
					settled[line{s.File, s.Line}] = true
				}
			}
		}
	}
	return slices.DeleteFunc(found, func(f finding.Finding) bool {
		if f.Rule != "extra/no-authorization" || !f.Span.Known() {
			return false
		}
		n, _ := f.Span.Position()
		return settled[line{f.Span.File.Name, n}]
	})
}

// records puts on the days what the records say of them, and adds what is wrong between the two.
func (j *openJob) records(c *notes.Company) {
	in := j.Billing(c)
	billing.Mark(j.Days, in)
	j.found.Add(billing.Check(in)...)
}
