package ubl

import (
	"fmt"
	"strings"

	"jobday/finding"
)

// parties holds both parties against what EN 16931 demands of them.
func (w *writer) parties() {
	s, b := w.seller, w.buyer
	w.need(w.inv.Number != "", Party{}, "the number of the invoice", "BR-02", "")
	w.need(w.inv.Date.Known(), Party{}, "the date of the invoice", "BR-03", "")
	w.need(s.Name != "", s, "the seller's name", "BR-06", `write name: in company.yaml`)
	w.need(b.Name != "", b, "the buyer's name", "BR-07", `write customer: in scope.md`)
	w.need(s.Country != "", s, "the seller's country", "BR-09", `write under einvoice: in company.yaml: country: US`)
	w.need(b.Country != "", b, "the buyer's country", "BR-11", `write under einvoice: in scope.md: country: US`)
	w.need(s.Registration != "" || s.VATID != "", s, "a number that identifies the seller", "BR-CO-26",
		`write under einvoice: in company.yaml: registration: and the company's number in a public register`)
	if w.taxNumberNeeded() {
		w.need(len(s.TaxNumbers) > 0 || s.VATID != "", s, "the seller's tax number", "BR-S-02, BR-E-02", `write tax_numbers: in company.yaml`)
	}
	for _, p := range []struct{ id, file, who string }{{s.VATID, "company.yaml", "seller"}, {b.VATID, "scope.md", "buyer"}} {
		if p.id != "" && !countryInFront(p.id) {
			w.need(false, s, "the "+p.who+"'s VAT identifier with its country", "BR-CO-09",
				"write under einvoice: in "+p.file+" the two letters of the country in front of "+p.id)
		}
	}
}

func countryInFront(id string) bool {
	return len(id) > 2 && strings.Trim(id[:2], "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// taxNumberNeeded reports whether some line is of a category that asks for the seller's tax number:
// all but O.
func (w *writer) taxNumberNeeded() bool { return w.anyTaxed() || w.rest.code != "O" }

// need reports a thing that is not there.
func (w *writer) need(there bool, p Party, what, rule, hint string) {
	if there {
		return
	}
	f := finding.Finding{
		Severity: finding.Error, Rule: "einvoice/missing", Span: p.Span, Hint: hint,
		Message: fmt.Sprintf("an electronic invoice must state %s (%s of EN 16931), and it is written nowhere", what, rule),
	}
	if !f.Span.Known() {
		f.Span = w.span()
	}
	w.found.Add(f)
}

// party is the element of a party. In a document of category O no tax number may stand (BR-O-02).
func (w *writer) party(p Party, seller bool) xmlParty {
	out := xmlParty{
		Name:    &xmlName{oneLine(p.Name)},
		Address: w.address(p),
		Legal:   xmlLegal{Name: oneLine(p.Name), ID: p.Registration},
	}
	numbers := p.TaxNumbers
	if seller && w.taxNumberNeeded() {
		if p.VATID != "" {
			out.Tax = append(out.Tax, xmlPartyTax{ID: p.VATID, Scheme: xmlScheme{"VAT"}})
		}
		if len(numbers) > 0 {
			// BT-32 holds one number; its scheme must not be "VAT".
			out.Tax = append(out.Tax, xmlPartyTax{ID: oneLine(numbers[0]), Scheme: xmlScheme{"TAX"}})
			numbers = numbers[1:]
		}
		if len(numbers) > 0 {
			out.Legal.Form = "further tax numbers: " + oneLine(strings.Join(numbers, ", ")) // BT-33
		}
	}
	if !seller && p.VATID != "" && w.taxNumberNeeded() {
		out.Tax = append(out.Tax, xmlPartyTax{ID: p.VATID, Scheme: xmlScheme{"VAT"}})
	}
	if p.Contact != "" || p.Email != "" {
		out.Contact = &xmlContact{Name: oneLine(p.Contact), Mail: p.Email}
	}
	return out
}

// address is the lines of an address as written, and the town, code and region where they are given
// apart. What comes after the second line shares the third, the last there is.
func (w *writer) address(p Party) xmlAddress {
	a := xmlAddress{City: p.City, PostCode: p.PostCode, Region: p.Region, Country: xmlCountry{p.Country}}
	var lines []string
	for _, l := range p.lines() {
		if l = oneLine(l); !strings.EqualFold(l, p.City) { // it has an element of its own
			lines = append(lines, l)
		}
	}
	if len(lines) > 0 {
		a.Street = lines[0]
	}
	if len(lines) > 1 {
		a.Second = lines[1]
	}
	if len(lines) > 2 {
		a.Third = &xmlAddressLine{strings.Join(lines[2:], ", ")}
	}
	return a
}

// oneLine folds white space; what is no text in XML becomes U+FFFD when it is encoded.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
