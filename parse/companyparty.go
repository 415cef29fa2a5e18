package parse

import (
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// partyKeys reads "einvoice": what an electronic invoice must know of a party. The keys reference and
// order are the buyer's only.
func partyKeys(m *mapping, buyer bool) notes.PartyKeys {
	var p notes.PartyKeys
	e := m.sub("einvoice", `"einvoice"`)
	if e == nil {
		return p
	}
	p.Span = m.at("einvoice")
	p.City, p.PostCode, p.Region = e.text("city"), e.text("postcode"), e.text("region")
	p.Registration, p.VATID, p.Email = e.text("registration"), e.text("vat_id"), e.text("email")
	if buyer {
		for _, l := range e.texts("address") {
			for part := range strings.Lines(l) {
				if part = strings.TrimSpace(part); part != "" {
					p.Address = append(p.Address, part)
				}
			}
		}
		p.Reference, p.Order = e.text("reference"), e.text("order")
	}
	p.Country = country(e)
	e.done()
	return p
}

// country reads a country code. An unknown one gives a finding and counts as not written.
func country(m *mapping) string {
	s := m.text("country")
	code := strings.ToUpper(s)
	switch {
	case s == "":
		return ""
	case notes.KnownCountry(code):
		return code
	}
	m.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "value/bad", Span: m.at("country"),
		Message: quote(s) + " is not a country code of ISO 3166-1; expected two letters", Hint: "write it like US",
	})
	return ""
}

// mostClockStep is the coarsest step that start and end may be rounded to for pay: a quarter of an
// hour. Source: 29 CFR 785.48(b), read 2026-11-25.
const mostClockStep notes.Minutes = 15

// clockStep reads what the clock is rounded to; what is coarser than pay allows counts as not written.
func (r *companyReader) clockStep(m *mapping) {
	before := r.c.Rounding.Clock
	r.minutes(m, "clock", &r.c.Rounding.Clock)
	if step := r.c.Rounding.Clock; step > mostClockStep {
		r.c.Rounding.Clock = before
		m.bad("clock", "the clock is rounded to "+step.String()+
			"; rounding for pay goes to 5 minutes, a tenth or a quarter of an hour at most (29 CFR 785.48(b))", "write 15 min or less")
	}
}
