// Package ubl writes an invoice record as an electronic invoice: a UBL 2.1 document (ISO/IEC
// 19845:2015) that meets EN 16931-1, the European core invoice, in the binding of CEN/TS 16931-3-2.
// Terms of EN 16931 are named by their number: BT-1 is the invoice number.
//
// What comes to less than nothing, and the voiding of an invoice, is a credit note: a CreditNote of
// type 381 with the signs turned, so that its amounts are positive. Everything else is an Invoice
// of type 380. Nothing is made up: what the standard demands and neither the record nor
// company.yaml or scope.md says is a finding, and then there is no document.
//
// The schema wants elements in one order. Of the Invoice, as far as they are used here:
//
//	CustomizationID ID IssueDate DueDate InvoiceTypeCode Note DocumentCurrencyCode BuyerReference
//	InvoicePeriod OrderReference BillingReference AdditionalDocumentReference ProjectReference
//	AccountingSupplierParty AccountingCustomerParty PaymentTerms AllowanceCharge TaxTotal
//	LegalMonetaryTotal InvoiceLine
//
// Of the CreditNote:
//
//	CustomizationID ID IssueDate CreditNoteTypeCode Note DocumentCurrencyCode BuyerReference
//	InvoicePeriod OrderReference BillingReference AdditionalDocumentReference
//	AccountingSupplierParty AccountingCustomerParty PaymentTerms AllowanceCharge TaxTotal
//	LegalMonetaryTotal CreditNoteLine
//
// Of their parts:
//
//	Party                PartyIdentification PartyName PostalAddress PartyTaxScheme PartyLegalEntity Contact
//	PostalAddress        StreetName AdditionalStreetName CityName PostalZone CountrySubentity AddressLine Country
//	PartyTaxScheme       CompanyID TaxScheme
//	PartyLegalEntity     RegistrationName CompanyID CompanyLegalForm
//	Contact              Name ElectronicMail
//	DocumentReference    ID IssueDate DocumentTypeCode DocumentDescription
//	AllowanceCharge      ChargeIndicator AllowanceChargeReason MultiplierFactorNumeric Amount BaseAmount TaxCategory
//	TaxTotal             TaxAmount TaxSubtotal
//	TaxSubtotal          TaxableAmount TaxAmount TaxCategory
//	TaxCategory          ID Percent TaxExemptionReason TaxScheme
//	LegalMonetaryTotal   LineExtensionAmount TaxExclusiveAmount TaxInclusiveAmount AllowanceTotalAmount
//	                     ChargeTotalAmount PrepaidAmount PayableRoundingAmount PayableAmount
//	InvoiceLine          ID Note InvoicedQuantity LineExtensionAmount Item Price
//	CreditNoteLine       ID Note CreditedQuantity LineExtensionAmount Item Price
//	Item                 Description Name SellersItemIdentification ClassifiedTaxCategory
//	Price                PriceAmount
//
// Source: UBL 2.1 (OASIS Standard, 4 November 2013), the schemas UBL-Invoice-2.1, UBL-CreditNote-2.1
// and UBL-CommonAggregateComponents-2.1, from memory.
package ubl

import (
	"bytes"
	"encoding/xml"
	"slices"

	"jobday/finding"
	"jobday/notes"
)

// Seller is who sends an invoice: the record's words, and the company's keys for electronic invoices.
// The company may be nil.
func Seller(inv *notes.Invoice, c *notes.Company) Party {
	p := Party{Party: inv.Seller}
	if c != nil {
		p.PartyKeys = c.EInvoice
		p.at(c.File)
	}
	return p
}

// Buyer is who gets it: the record's words, and the keys of the job's scope. The job may be nil.
func Buyer(inv *notes.Invoice, j *notes.Job) Party {
	p := Party{Party: inv.Buyer}
	if j != nil {
		p.PartyKeys = j.EInvoice
		p.at(j.File)
		if len(p.Party.Address) == 0 {
			p.Party.Address = p.PartyKeys.Address
		}
	}
	return p
}

// Party is a seller or buyer with all that an electronic invoice can say of it.
type Party struct {
	notes.Party
	notes.PartyKeys
	File *finding.File // where what is missing belongs; nil for the record itself
}

func (p *Party) at(f *finding.File) {
	p.File = f
	if !p.Span.Known() && f != nil {
		p.Span = f.Span(0, 0)
	}
}

// lines are the lines of the address.
func (p Party) lines() []string { return p.Party.Address }

// Invoice writes a record as an electronic invoice. It raises einvoice/missing for what EN 16931
// demands and nobody wrote, einvoice/sums for a record whose sums break its rules, and
// einvoice/tax-rounding where the tax as billed differs by a cent or so from the rate on the base.
// With an error among the findings there is no document.
func Invoice(inv *notes.Invoice, seller, buyer Party) ([]byte, finding.List) {
	w := writer{inv: inv, seller: seller, buyer: buyer}
	w.turn = inv.Kind == notes.InvoiceVoid || inv.Totals.WithTax.Sign() < 0
	w.categories()
	w.parties()
	w.sums()
	if w.found.HasErrors() {
		return nil, w.found
	}
	var page bytes.Buffer
	page.WriteString(xml.Header)
	enc := xml.NewEncoder(&page)
	enc.Indent("", "  ")
	if err := enc.Encode(w.document()); err != nil {
		panic("ubl: " + err.Error()) // the types hold strings only
	}
	page.WriteString("\n")
	return page.Bytes(), w.found
}

// customization is the specification a document claims to meet (BT-24).
const customization = "urn:cen.eu:en16931:2017"

// The kinds of document (BT-3), of UNTDID 1001.
const (
	commercialInvoice = "380"
	creditNote        = "381"
)

// writer holds one record while it is written.
type writer struct {
	inv           *notes.Invoice
	seller, buyer Party
	turn          bool // signs are turned: it is a credit note
	taxed, rest   category
	rows          []Breakdown
	found         finding.List
}

// sign turns an amount where the document is a credit note.
func (w *writer) sign(m notes.Money) notes.Money {
	if w.turn {
		return m.Neg()
	}
	return m
}

// adjustments are the allowances and charges of the document, each above zero: what is below zero,
// or turned, changes sides.
func (w *writer) adjustments() (allowances, charges []notes.Adjustment) {
	for i, list := range [][]notes.Adjustment{w.inv.Allowances, w.inv.Charges} {
		for _, a := range list {
			charge := i == 1
			if w.turn {
				charge = !charge
			}
			if a.Amount.Sign() < 0 {
				charge = !charge
				a.Amount, a.Base = a.Amount.Neg(), a.Base.Neg()
			}
			switch {
			case a.Amount.IsZero():
			case charge:
				charges = append(charges, a)
			default:
				allowances = append(allowances, a)
			}
		}
	}
	return allowances, charges
}

func sumOf(list []notes.Adjustment) (sum notes.Money) {
	for _, a := range list {
		sum = sum.Add(a.Amount)
	}
	return sum
}

// totals are the sums as the document has them.
func (w *writer) totals() notes.InvoiceTotals {
	t := w.inv.Totals
	allowances, charges := w.adjustments()
	t.Allowances, t.Charges = sumOf(allowances), sumOf(charges)
	for _, m := range []*notes.Money{&t.Lines, &t.WithoutTax, &t.Tax, &t.WithTax, &t.Paid, &t.Rounding, &t.Due} {
		*m = w.sign(*m)
	}
	return t
}

// earlier are the invoices of the job before this one that still stand, and the one a void takes back.
func (w *writer) earlier() []notes.EarlierInvoice {
	if w.inv.Voids != "" {
		i := slices.IndexFunc(w.inv.Earlier, func(e notes.EarlierInvoice) bool { return e.Number == w.inv.Voids })
		if i >= 0 {
			return w.inv.Earlier[i : i+1]
		}
		return []notes.EarlierInvoice{{Number: w.inv.Voids}}
	}
	return slices.DeleteFunc(slices.Clone(w.inv.Earlier), func(e notes.EarlierInvoice) bool { return e.Voided })
}
