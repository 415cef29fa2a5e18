package notes

import (
	"strings"
	"time"

	"jobday/finding"
)

// Company is who does the work and by which rules it is billed: company.yaml.
type Company struct {
	File        *finding.File
	Name        string
	Address     []string // lines
	Contact     string
	TaxNumbers  []string
	Currency    string // ISO 4217, default "USD"
	Locale      string // how dates and amounts are written, one of Locales; default "en-US"
	Paper       string // what is printed on, one of Papers; "" for the usual paper of the locale
	People      []Person
	Classes     []LaborClass
	Rounding    TimeRounding
	Overtime    Overtime
	Workweek    time.Weekday    // the day a workweek begins, default Monday
	Markup      []MarkupBracket // ascending by UpTo; the last has no UpTo
	MinExtra    Money           // least charge for an extra, 0.00 for none
	MinMinutes  Minutes         // least time billed for an extra, 0 for none
	Treatments  []TaxTreatment
	Equipment   []Machine      // what is charged by the hour
	SmallTools  Decimal        // percent of labor, default 0
	Subcontract Decimal        // percent on what a subcontractor charged, default 0
	Pricing     []PricingRules // sets a scope may name
	// CreditUnused says that allowed material a finished line did not use is credited; default no.
	CreditUnused bool
	NEC          string // code edition in force: "2017", "2020", "2023"; default "2020"
	Terms        PaymentTerms
	Units        []Unit // added by the price list
	EInvoice     PartyKeys
	// TestsOff names the usual tests after an installation that the company does not ask for.
	TestsOff []string
	Notice   NoticePeriods
	Offer    OfferRules
}

// Locales are the ways to write dates and amounts that are known, as BCP 47 tags.
var Locales = [...]string{"en-US", "en-CA", "en-GB", "fr-CA", "es-US", "de-DE"}

// Papers are the sizes of paper that pages and PDFs are made for.
var Papers = [...]string{"letter", "a4", "a5"}

// Person is one who works, with the labor class he or she is paid and billed as.
type Person struct {
	Name  string
	Class string
	Span  finding.Span
}

// LaborClass is a kind of labor with its rates per hour.
type LaborClass struct {
	Name string
	Cost Money
	Rate Money
	// OvertimeRate and TravelRate are 0.00 when the class has none: then Rate is billed.
	OvertimeRate Money
	TravelRate   Money
	Span         finding.Span
}

// TimeRounding is how minutes are rounded: on the clock to the nearest step, billed up to the next.
type TimeRounding struct {
	Clock  Minutes // default 1
	Billed Minutes // default 15
}

// Overtime is when hours count as overtime.
type Overtime struct {
	WeeklyOver Minutes // default 40 h; 0 for never
	DailyOver  Minutes // default 0: never
	// Bill says whether the customer is charged the overtime rate of a class for overtime; default no.
	Bill bool
}

// MarkupBracket is the percentage put on material cost up to an amount.
type MarkupBracket struct {
	UpTo    *Money // unit cost up to and with this; nil for the last bracket
	Percent Decimal
}

// Machine is equipment that is charged for, with its rate per hour.
type Machine struct {
	Name string
	Rate Money // 0.00 when it cannot be read: then nothing is billed for it
	Span finding.Span
}

// The kinds of cost that time and material is made of.
const (
	LaborCost       = "labor"
	MaterialCost    = "material"
	EquipmentCost   = "equipment"
	SubcontractCost = "subcontract"
)

// CostKinds lists the kinds of cost in the order they are shown.
var CostKinds = []string{LaborCost, MaterialCost, EquipmentCost, SubcontractCost}

// PricingRules is one way to price time and material, as an agency's provisions for work without an
// agreed price state it: what things cost, and percentages on that.
type PricingRules struct {
	Name    string
	AtCost  bool // labor and material at cost, time as written; else at rates and prices
	Markups []Markup
	Ceiling *Money // most that one extra comes to, nil for none
	Source  string // of a built-in set: where it was read
	Broken  bool   // some of it cannot be read: nothing may be billed by it
	Span    finding.Span
}

// Markup is a percentage on kinds of cost and on markups before it, by name. On nothing in
// particular it is on everything before it.
type Markup struct {
	Name    string
	Percent Decimal
	On      []string
	Bands   []MarkupBand // by the sum it is on, ascending; where there are any Percent is not used
}

// MarkupBand is what a markup comes to for sums up to an amount: a fixed part, and a percentage of what
// goes over From.
type MarkupBand struct {
	UpTo    *Money // nil for the last band
	Fixed   Money
	Percent Decimal
	From    Money
	AtMost  *Money // nil for no limit
}

// TaxTreatment says which kinds of line are taxed and how.
type TaxTreatment struct {
	Name  string
	Rates []TaxRate
	Taxed []string // of "labor", "material", "scope", "extra", "equipment", "subcontract"
	Per   string   // "line" or "invoice", default "invoice"
	// Together says that the rates are added before the tax is figured and rounded, as one tax; else
	// each is rounded by itself.
	Together bool
	Span     finding.Span
}

// TaxRate is one rate of a treatment.
type TaxRate struct {
	Name    string
	Percent Decimal
}

// PaymentTerms is when an invoice is due.
type PaymentTerms struct {
	Days int    // net days, default 30
	Text string // printed as written, or ""
}

// Class returns the labor class of a person by name, and false when there is none.
func (c *Company) Class(person string) (LaborClass, bool) {
	for _, p := range c.People {
		if p.Name == person {
			return c.ClassNamed(p.Class)
		}
	}
	return LaborClass{}, false
}

// ClassNamed returns the labor class with the name, and false when there is none.
func (c *Company) ClassNamed(name string) (LaborClass, bool) {
	for _, k := range c.Classes {
		if k.Name == name {
			return k, true
		}
	}
	return LaborClass{}, false
}

// Treatment returns the tax treatment with the name, and false when there is none.
func (c *Company) Treatment(name string) (TaxTreatment, bool) {
	for _, t := range c.Treatments {
		if t.Name == name {
			return t, true
		}
	}
	return TaxTreatment{}, false
}

// PriceList is prices.csv in the order of the file.
type PriceList struct {
	File *finding.File
	Rows []PriceRow
}

// PriceRow is one thing with a price.
type PriceRow struct {
	Code  string
	Item  string // as the list words it
	Name  string // normal form of Item, what notes are matched with
	Unit  Unit
	Cost  *Money
	Price *Money
	Kind  string   // "material" or "task"
	Words []string // further words the shop uses for it
	Pack  Decimal  // how many units come in a package, 0 when the list does not say
	Span  finding.Span
}

// Job is what was booked: scope.md.
type Job struct {
	File        *finding.File
	Number      string
	Title       string
	Customer    string
	Site        string
	Booked      Date
	Tax         string // name of a tax treatment; "" for the company's first
	Exempt      string // why no tax is charged, with the certificate; "" when it is
	Pricing     string // name of the pricing rules of time and material; "" for the company's own
	Lines       []ScopeLine
	Allowed     []Allowance
	NotIncluded []Exclusion
	Narrative   []Remark
	Panels      []Panel       // by scope.md and panels.md
	PanelsFile  *finding.File // panels.md, or nil
	EInvoice    PartyKeys     // of the customer
	Billing     BillingTerms
}

// ScopeLine is one booked line.
type ScopeLine struct {
	Label string
	Work  string
	Qty   Quantity // 1 ea when the table says nothing
	Price LinePrice
	Hours Minutes // booked labor, 0 when none
	Span  finding.Span
}

// PriceKind says how a booked line is charged.
type PriceKind string

// The price kinds; "" is a line without a price.
const (
	Unpriced        PriceKind = ""
	LotPrice        PriceKind = "lot"
	UnitPrice       PriceKind = "each"
	TimeAndMaterial PriceKind = "T&M"
)

// LinePrice is the price of a booked line.
type LinePrice struct {
	Kind   PriceKind
	Amount Money  // lot or unit price
	Max    *Money // ceiling of T&M, nil for none
	Text   string // as written
}

// Allowance is material the booked price of a line includes.
type Allowance struct {
	Line string
	Item string // as written
	Name string // normal form
	Qty  Quantity
	Span finding.Span
}

// Exclusion is work the booking leaves out.
type Exclusion struct {
	Text string
	Span finding.Span
}

// Line returns the booked line with the label, ignoring case, and false when there is none.
func (j *Job) Line(label string) (ScopeLine, bool) {
	for _, l := range j.Lines {
		if strings.EqualFold(l.Label, label) {
			return l, true
		}
	}
	return ScopeLine{}, false
}
