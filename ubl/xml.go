package ubl

import "encoding/xml"

// The elements, in the order of the schema: see the package comment. Both documents share one type;
// what only one of them has is left out of the other.
type xmlDocument struct {
	XMLName   xml.Name
	Space     string `xml:"xmlns,attr"`
	Aggregate string `xml:"xmlns:cac,attr"`
	Common    string `xml:"xmlns:cbc,attr"`

	Customization string          `xml:"cbc:CustomizationID"` // BT-24
	ID            string          `xml:"cbc:ID"`              // BT-1
	Issued        string          `xml:"cbc:IssueDate"`       // BT-2
	Due           string          `xml:"cbc:DueDate,omitempty"`
	InvoiceType   string          `xml:"cbc:InvoiceTypeCode,omitempty"`
	CreditType    string          `xml:"cbc:CreditNoteTypeCode,omitempty"`
	Notes         []string        `xml:"cbc:Note"`
	Currency      string          `xml:"cbc:DocumentCurrencyCode"`
	Reference     string          `xml:"cbc:BuyerReference,omitempty"`
	Period        *xmlPeriod      `xml:"cac:InvoicePeriod"`
	Order         *xmlID          `xml:"cac:OrderReference"`
	Earlier       []xmlEarlier    `xml:"cac:BillingReference"`
	Attached      []xmlReference  `xml:"cac:AdditionalDocumentReference"`
	Project       *xmlID          `xml:"cac:ProjectReference"`
	Seller        xmlHolder       `xml:"cac:AccountingSupplierParty"`
	Buyer         xmlHolder       `xml:"cac:AccountingCustomerParty"`
	Terms         *xmlText        `xml:"cac:PaymentTerms"`
	Adjustments   []xmlAdjustment `xml:"cac:AllowanceCharge"`
	Tax           xmlTaxTotal     `xml:"cac:TaxTotal"`
	Totals        xmlTotals       `xml:"cac:LegalMonetaryTotal"`
	InvoiceLines  []xmlLine       `xml:"cac:InvoiceLine"`
	CreditLines   []xmlLine       `xml:"cac:CreditNoteLine"`
}

type xmlPeriod struct {
	End string `xml:"cbc:EndDate"` // BT-74
}

type xmlID struct {
	ID string `xml:"cbc:ID"`
}

type xmlText struct {
	Note string `xml:"cbc:Note"`
}

type xmlEarlier struct {
	Document xmlReference `xml:"cac:InvoiceDocumentReference"` // BG-3
}

type xmlReference struct {
	ID          string `xml:"cbc:ID"`
	Issued      string `xml:"cbc:IssueDate,omitempty"`
	Type        string `xml:"cbc:DocumentTypeCode,omitempty"`
	Description string `xml:"cbc:DocumentDescription,omitempty"`
}

type xmlHolder struct {
	Party xmlParty `xml:"cac:Party"`
}

type xmlParty struct {
	Name    *xmlName      `xml:"cac:PartyName"`
	Address xmlAddress    `xml:"cac:PostalAddress"`
	Tax     []xmlPartyTax `xml:"cac:PartyTaxScheme"`
	Legal   xmlLegal      `xml:"cac:PartyLegalEntity"`
	Contact *xmlContact   `xml:"cac:Contact"`
}

type xmlName struct {
	Name string `xml:"cbc:Name"`
}

type xmlAddress struct {
	Street   string          `xml:"cbc:StreetName,omitempty"`
	Second   string          `xml:"cbc:AdditionalStreetName,omitempty"`
	City     string          `xml:"cbc:CityName,omitempty"`
	PostCode string          `xml:"cbc:PostalZone,omitempty"`
	Region   string          `xml:"cbc:CountrySubentity,omitempty"`
	Third    *xmlAddressLine `xml:"cac:AddressLine"`
	Country  xmlCountry      `xml:"cac:Country"`
}

type xmlAddressLine struct {
	Line string `xml:"cbc:Line"`
}

type xmlCountry struct {
	Code string `xml:"cbc:IdentificationCode"`
}

type xmlPartyTax struct {
	ID     string    `xml:"cbc:CompanyID"`
	Scheme xmlScheme `xml:"cac:TaxScheme"`
}

type xmlScheme struct {
	ID string `xml:"cbc:ID"`
}

type xmlLegal struct {
	Name string `xml:"cbc:RegistrationName"`
	ID   string `xml:"cbc:CompanyID,omitempty"`
	Form string `xml:"cbc:CompanyLegalForm,omitempty"`
}

type xmlContact struct {
	Name string `xml:"cbc:Name,omitempty"`
	Mail string `xml:"cbc:ElectronicMail,omitempty"`
}

type xmlAmount struct {
	Currency string `xml:"currencyID,attr"`
	Value    string `xml:",chardata"`
}

type xmlQuantity struct {
	Unit  string `xml:"unitCode,attr"`
	Value string `xml:",chardata"`
}

type xmlAdjustment struct {
	Charge   bool        `xml:"cbc:ChargeIndicator"`
	Reason   string      `xml:"cbc:AllowanceChargeReason"`
	Percent  string      `xml:"cbc:MultiplierFactorNumeric,omitempty"`
	Amount   xmlAmount   `xml:"cbc:Amount"`
	Base     *xmlAmount  `xml:"cbc:BaseAmount"`
	Category xmlCategory `xml:"cac:TaxCategory"`
}

type xmlCategory struct {
	ID      string    `xml:"cbc:ID"`
	Percent *string   `xml:"cbc:Percent"`
	Reason  string    `xml:"cbc:TaxExemptionReason,omitempty"`
	Scheme  xmlScheme `xml:"cac:TaxScheme"`
}

type xmlTaxTotal struct {
	Amount xmlAmount     `xml:"cbc:TaxAmount"`
	Rows   []xmlSubtotal `xml:"cac:TaxSubtotal"`
}

type xmlSubtotal struct {
	Base     xmlAmount   `xml:"cbc:TaxableAmount"`
	Tax      xmlAmount   `xml:"cbc:TaxAmount"`
	Category xmlCategory `xml:"cac:TaxCategory"`
}

type xmlTotals struct {
	Lines      xmlAmount  `xml:"cbc:LineExtensionAmount"`
	WithoutTax xmlAmount  `xml:"cbc:TaxExclusiveAmount"`
	WithTax    xmlAmount  `xml:"cbc:TaxInclusiveAmount"`
	Allowances *xmlAmount `xml:"cbc:AllowanceTotalAmount"`
	Charges    *xmlAmount `xml:"cbc:ChargeTotalAmount"`
	Paid       *xmlAmount `xml:"cbc:PrepaidAmount"`
	Rounding   *xmlAmount `xml:"cbc:PayableRoundingAmount"`
	Due        xmlAmount  `xml:"cbc:PayableAmount"`
}

type xmlLine struct {
	ID       string       `xml:"cbc:ID"`
	Note     string       `xml:"cbc:Note,omitempty"`
	Invoiced *xmlQuantity `xml:"cbc:InvoicedQuantity"`
	Credited *xmlQuantity `xml:"cbc:CreditedQuantity"`
	Amount   xmlAmount    `xml:"cbc:LineExtensionAmount"`
	Item     xmlItem      `xml:"cac:Item"`
	Price    xmlPrice     `xml:"cac:Price"`
}

type xmlItem struct {
	Description string      `xml:"cbc:Description,omitempty"`
	Name        string      `xml:"cbc:Name"`
	Ref         *xmlID      `xml:"cac:SellersItemIdentification"`
	Category    xmlCategory `xml:"cac:ClassifiedTaxCategory"`
}

type xmlPrice struct {
	Amount xmlAmount `xml:"cbc:PriceAmount"`
}
