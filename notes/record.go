package notes

import "jobday/finding"

// A record is what was agreed or sent, written once: a change order, the answer to it, an invoice.
// It stands in the job's folder as Markdown and is never computed again; what the notes say now is
// compared with it.

// RecordNote is one note a record came from, as it was then.
type RecordNote struct {
	File   string `json:"file"` // relative to the book
	SHA256 string `json:"sha256"`
}

// SourceLine is one line of a note that a record rests on, with its words as they were then.
type SourceLine struct {
	Ref  string `json:"ref"`  // what of the record rests on it: the reference of an item or a line
	File string `json:"file"` // relative to the book
	Line int    `json:"line"` // from 1
	Text string `json:"text"` // without blanks at the ends
}

// ChangeOrder is work beyond the booked scope, or booked work taken out, as offered to the
// customer: numbered within the job, with amounts no later edit of a note moves.
// Items add up to Subtotal; Subtotal and Tax add up to Total.
type ChangeOrder struct {
	Number   string       `json:"number"` // "co-1"
	Company  string       `json:"company"`
	Job      string       `json:"job"`
	Title    string       `json:"title"`
	Customer string       `json:"customer"`
	Site     string       `json:"site"`
	Currency string       `json:"currency"` // ISO 4217
	Offered  Date         `json:"offered"`
	By       string       `json:"by"`     // who in the office offers it
	Valid    Date         `json:"valid"`  // last day the offer stands; unknown for no end
	Reason   string       `json:"reason"` // why the work is wanted, in a sentence
	Effect   string       `json:"effect"` // on time: "adds 1 day", "none"
	Excluded []string     `json:"excluded"`
	Items    []ChangeItem `json:"items"`
	Subtotal Money        `json:"subtotal"`
	Tax      []TaxAmount  `json:"tax"`
	Total    Money        `json:"total"`
	Notes    []RecordNote `json:"notes"`
	Sources  []SourceLine `json:"sources"`

	Answers []ChangeAnswer `json:"answers"` // of the customer, in the order given
	File    *finding.File  `json:"-"`
}

// ChangeItem is one extra or credit of a change order. Its rows add up to Amount.
type ChangeItem struct {
	Extra  string       `json:"extra"` // id of the extra: "2026-03-12/mixer-disconnect"
	Work   string       `json:"work"`
	Where  string       `json:"where"` // "line B", a place, or ""
	Found  Date         `json:"found"` // the day it was first written
	Done   bool         `json:"done"`  // it was done when it was offered
	Rows   []ChangeRow  `json:"rows"`
	Amount Money        `json:"amount"`
	Span   finding.Span `json:"-"` // its heading in the record
}

// ByTax returns what of the item stands on taxed rows, and what on the others.
func (i *ChangeItem) ByTax() (taxed, free Money) {
	for _, r := range i.Rows {
		if r.Taxed {
			taxed = taxed.Add(r.Amount)
		} else {
			free = free.Add(r.Amount)
		}
	}
	return taxed, free
}

// ChangeRow is one row of the price of an item. Amount is Qty * Rate rounded half away from zero
// to the cent, as it was when it was offered.
type ChangeRow struct {
	Row    int          `json:"row"` // over all items of the change order, from 1
	What   string       `json:"what"`
	Basis  string       `json:"basis"`
	Qty    Decimal      `json:"qty"`
	Unit   Unit         `json:"unit"`
	Rate   Decimal      `json:"rate"`
	Amount Money        `json:"amount"`
	Taxed  bool         `json:"taxed"`
	Span   finding.Span `json:"-"`
}

// AnswerKind is what the customer said to a change order.
type AnswerKind string

// The kinds of answer.
const (
	AnswerAuthorized AnswerKind = "authorized"
	AnswerDeclined   AnswerKind = "declined"
	AnswerWithdrawn  AnswerKind = "withdrawn" // takes back all that was authorized before it
)

// ChangeAnswer is the customer's word on a change order, a record of its own: the offer stays as it
// was signed or refused. Amount is what was authorized, all of it when Rows is empty and it equals
// the subtotal; of a refusal it is 0.00, of a withdrawal what was authorized before it, turned to the
// opposite sign.
type ChangeAnswer struct {
	Number   string        `json:"number"` // of the change order
	Answer   int           `json:"answer"` // from 1, for each change order
	Kind     AnswerKind    `json:"kind"`
	Who      string        `json:"who"`      // the customer's person
	How      string        `json:"how"`      // "signed", "e-mail", "on site"
	At       Date          `json:"at"`       // the day it was given
	Evidence string        `json:"evidence"` // where it can be seen: a file, a message, a witness
	Rows     []int         `json:"rows"`     // the rows authorized; empty for all, or for an amount
	Amount   Money         `json:"amount"`   // authorized, before tax
	By       string        `json:"by"`       // who in the office wrote it down
	File     *finding.File `json:"-"`
}

// InvoiceKind says what an invoice record is.
type InvoiceKind string

// The kinds of invoice record.
const (
	InvoiceBill InvoiceKind = "invoice"
	InvoiceVoid InvoiceKind = "void" // takes another invoice back: the same amounts, negative
)

// Party is one side of an invoice.
type Party struct {
	Name       string   `json:"name"`
	Address    []string `json:"address"` // lines
	Contact    string   `json:"contact"`
	TaxNumbers []string `json:"tax_numbers"`
}

// Invoice is one numbered invoice of a job, or the voiding of one, as it was sent.
//
// The totals follow the rules BR-CO-10 to BR-CO-17 of EN 16931: see InvoiceTotals.
type Invoice struct {
	Number    string      `json:"number"` // "2431-1": numbers of a job have no gaps
	Kind      InvoiceKind `json:"kind"`
	Voids     string      `json:"voids"` // number of the invoice a void takes back, else ""
	Why       string      `json:"why"`   // of a void
	Job       string      `json:"job"`
	Title     string      `json:"title"`
	Date      Date        `json:"date"`
	Due       Date        `json:"due"`
	Through   Date        `json:"through"` // last day whose notes are in it
	Terms     string      `json:"terms"`   // of payment, as printed
	By        string      `json:"by"`
	Currency  string      `json:"currency"` // ISO 4217
	Seller    Party       `json:"seller"`
	Buyer     Party       `json:"buyer"`
	Site      string      `json:"site"`
	Treatment string      `json:"treatment"` // name of the tax treatment, "" for none
	TaxPer    string      `json:"tax_per"`   // tax is rounded per "line" or per "invoice"
	Exempt    string      `json:"exempt"`    // why no tax is charged on what is not taxed, "" when not said

	Lines       []BilledLine     `json:"lines"`
	Allowances  []Adjustment     `json:"allowances"` // taken off: retainage withheld
	Charges     []Adjustment     `json:"charges"`    // added: retainage released
	Tax         []TaxAmount      `json:"tax"`
	Totals      InvoiceTotals    `json:"totals"`
	Earlier     []EarlierInvoice `json:"earlier"`     // of the job, by number
	Attachments []Date           `json:"attachments"` // days whose reports go with it
	Notes       []RecordNote     `json:"notes"`
	Sources     []SourceLine     `json:"sources"`

	File *finding.File `json:"-"`
}

// BilledLine is one line of an invoice. Amount is the net amount of the line, rounded to the cent;
// it is Qty * Rate when the line is a plain quantity at a rate, and 1 lot at the amount otherwise.
// The rate is never negative: a credit has a negative quantity (EN 16931, BR-27).
type BilledLine struct {
	No     int          `json:"no"`     // from 1
	Ref    string       `json:"ref"`    // label of the scope line or id of the extra
	Change string       `json:"change"` // number of the change order, or ""
	What   string       `json:"what"`
	Qty    Decimal      `json:"qty"`
	Unit   Unit         `json:"unit"`
	Rate   Decimal      `json:"rate"`
	Amount Money        `json:"amount"`
	Taxed  bool         `json:"taxed"`
	Kind   string       `json:"kind"` // as InvoiceLine has it, or "correction"
	Why    string       `json:"why"`
	Span   finding.Span `json:"-"`
}

// Adjustment is an amount on the whole invoice, always positive: taken off as an allowance or
// added as a charge. Percent is 0 when it is not a percentage of Base.
type Adjustment struct {
	Reason  string  `json:"reason"` // "retainage withheld", "retainage released"
	Percent Decimal `json:"percent"`
	Base    Money   `json:"base"`
	Amount  Money   `json:"amount"`
	Taxed   bool    `json:"taxed"`
}

// InvoiceTotals are the sums of an invoice, each with the rule of EN 16931 that fixes it.
type InvoiceTotals struct {
	Lines      Money `json:"lines"`       // sum of the lines (BR-CO-10)
	Allowances Money `json:"allowances"`  // sum of the allowances (BR-CO-11)
	Charges    Money `json:"charges"`     // sum of the charges (BR-CO-12)
	WithoutTax Money `json:"without_tax"` // lines - allowances + charges (BR-CO-13)
	Tax        Money `json:"tax"`         // sum of the taxes (BR-CO-14)
	WithTax    Money `json:"with_tax"`    // without tax + tax (BR-CO-15)
	Paid       Money `json:"paid"`        // of the deposit, used up by this invoice
	Rounding   Money `json:"rounding"`    // 0.00 as long as nothing is rounded for payment
	Due        Money `json:"due"`         // with tax - paid + rounding (BR-CO-16)
}

// EarlierInvoice is one invoice of the job before this one.
type EarlierInvoice struct {
	Number string `json:"number"`
	Date   Date   `json:"date"`
	Total  Money  `json:"total"`  // with tax
	Voided bool   `json:"voided"` // a later record takes it back
}
