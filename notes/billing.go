package notes

// NoticePeriods is how long a company may wait after extra work began. Both count from the day the
// extra was first written; 0 switches one off.
// Model: FAR 52.243-4(d) and (e), June 2007: costs more than 20 days before a written notice are
// not paid; a claim is made within 30 days.
type NoticePeriods struct {
	NoticeDays int // until the customer has it in writing, default 20
	ClaimDays  int // until the amount is stated, default 30
}

// OfferDetail says how much of its working a change order shows the customer.
type OfferDetail string

// The details of an offer.
const (
	OfferTotal OfferDetail = "total" // one amount for each piece of work
	OfferParts OfferDetail = "parts" // the amount of each row, without quantities and rates
	OfferFull  OfferDetail = "full"  // quantities and rates as well
)

// OfferRules is what every change order of a company says.
type OfferRules struct {
	Detail    OfferDetail // default parts
	ValidDays int         // how long an offer stands, default 30; 0 for no end
	Excluded  []string    // what no offer includes
	Statement string      // above the signatures, or "" for the usual one
}

// BillingMode says when booked lots may be billed.
type BillingMode string

// The billing modes.
const (
	OnCompletion BillingMode = "completion" // a lot when its line is complete
	ByPercent    BillingMode = "percent"    // a lot as far as its line is done
)

// BillingTerms is how one job is billed.
type BillingTerms struct {
	Mode      BillingMode // default on completion
	Deposit   Money       // paid before the work, used up by the invoices, default none
	Retainage Decimal     // percent withheld from each invoice until it is released, default none
}
