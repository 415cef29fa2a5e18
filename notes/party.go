package notes

import "jobday/finding"

// PartyKeys is what an electronic invoice must know of seller or buyer beyond the name and the lines
// of the address: "einvoice" in company.yaml and in scope.md. All of it is optional; "" is not written.
type PartyKeys struct {
	Address      []string // of the buyer, in scope.md: lines; of the seller they stand in the company
	City         string
	PostCode     string
	Region       string // state or province
	Country      string // ISO 3166-1 alpha-2: "US"
	Registration string // number in a public register of companies
	VATID        string // VAT identifier, with the country in front
	Email        string
	Reference    string // the buyer's own, to route the invoice by
	Order        string // number of the buyer's order
	Span         finding.Span
}
