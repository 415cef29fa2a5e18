package billing

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"jobday/notes"
	"jobday/price"
	"jobday/record"
)

// Request is what a person says when an invoice is made.
type Request struct {
	Date    notes.Date
	By      string // who makes it
	Release bool   // release the retainage, and withhold none
}

// ErrNothing is returned when nothing is ready that was not billed before.
var ErrNothing = errors.New("nothing is ready that was not billed before")

// BrokenError is returned as long as a record of the job cannot be read whole: nobody can tell then
// what was billed.
type BrokenError struct{ Files []string }

func (e *BrokenError) Error() string {
	return fmt.Sprintf("a record cannot be read whole, so nobody can tell what was billed: %v", e.Files)
}

// whole refuses to go on with a broken record, or in a currency whose amounts would not be right.
func (in *Input) whole() error {
	if notes.MinorUnits(in.Company.Currency) != 2 {
		return fmt.Errorf("the currency of company.yaml is none with two decimals: its amounts would be wrong, see: jobday check")
	}
	if len(in.Records.Broken) == 0 {
		return nil
	}
	e := &BrokenError{}
	for _, f := range in.Records.Broken {
		e.Files = append(e.Files, f.Name)
	}
	return e
}

// treatment returns how the job is taxed.
func (in *Input) treatment() (notes.TaxTreatment, bool) { return price.TreatmentOf(in.Company, in.Job) }

// Invoice makes the next invoice of the job: every difference between what was earned and what was
// billed, as lines; less what is withheld, with the tax, less what is left of the deposit.
//
// Amounts of lines are those of the notes and are not rounded again. Retainage is a percentage of
// the taxed and of the untaxed lines, each rounded half away from zero to the cent; it is taken off
// before the tax, so that tax on it falls due when it is released (common practice, no source).
func Invoice(in Input, r Request) (notes.Invoice, error) {
	if err := in.whole(); err != nil {
		return notes.Invoice{}, err
	}
	treatment, known := in.treatment()
	if !known {
		return notes.Invoice{}, fmt.Errorf("the tax treatment %s of job %s is not one of the company's: an invoice without its tax would be wrong", quote(in.Job.Tax), in.Job.Number)
	}
	v := in.blank(r)
	v.Treatment, v.TaxPer = treatment.Name, treatment.Per
	var p proof
	in.lines(&v, &p)
	in.retainage(&v, r.Release)
	if len(v.Lines) == 0 && len(v.Charges) == 0 {
		return v, ErrNothing
	}
	p.sort()
	v.Notes, v.Sources = p.notes, p.sources
	v.Tax = plainTax(price.TaxOn(taxBase(&v), treatment, in.Job.Exempt))
	v.Totals = record.Totals(&v)
	v.Totals.Paid = in.deposit(v.Totals.WithTax)
	v.Totals = record.Totals(&v)
	return v, nil
}

// blank fills in everything but amounts.
func (in *Input) blank(r Request) notes.Invoice {
	c, j := in.Company, in.Job
	v := notes.Invoice{
		Number: in.nextInvoice(), Kind: notes.InvoiceBill, Job: record.Plain(j.Number), Title: record.Plain(j.Title),
		Date: r.Date, Due: r.Date.AddDays(c.Terms.Days), Terms: record.Plain(c.Terms.Text), By: record.Plain(r.By), Currency: c.Currency,
		Seller: notes.Party{Name: record.Plain(c.Name), Address: plain(c.Address), Contact: record.Plain(c.Contact), TaxNumbers: plain(c.TaxNumbers)},
		Buyer:  notes.Party{Name: record.Plain(j.Customer)},
		Site:   record.Plain(j.Site), Exempt: record.Plain(j.Exempt),
	}
	if len(in.Days) > 0 {
		v.Through = in.Days[len(in.Days)-1].Date
	}
	if v.Terms == "" {
		v.Terms = "Net " + strconv.Itoa(c.Terms.Days) + " days"
	}
	for _, e := range in.Records.Invoices {
		if e.Kind == notes.InvoiceBill {
			v.Earlier = append(v.Earlier, notes.EarlierInvoice{
				Number: e.Number, Date: e.Date, Total: e.Totals.WithTax, Voided: in.Records.Voided(e.Number),
			})
		}
	}
	return v
}

// nextInvoice is the number after the last one.
func (in *Input) nextInvoice() string {
	n := 0
	for _, v := range in.Records.Invoices {
		if k, ok := numberIn(v.Number); ok && k > n {
			n = k
		}
	}
	return record.Plain(in.Job.Number) + "-" + strconv.Itoa(n+1)
}

func numberIn(number string) (int, bool) {
	i := len(number)
	for i > 0 && '0' <= number[i-1] && number[i-1] <= '9' {
		i--
	}
	n, err := strconv.Atoi(number[i:])
	return n, err == nil
}

func (in *Input) lines(v *notes.Invoice, p *proof) {
	agreed := Agreements(in.Days, in.Records.Changes)
	extra := map[string]*notes.ExtraWork{}
	for _, e := range notes.LatestExtras(in.Days) {
		extra[e.ID] = e
	}
	for _, d := range in.differences() {
		l := notes.BilledLine{
			No: len(v.Lines) + 1, Ref: record.Plain(d.ref), What: record.Plain(d.what), Amount: d.amount, Taxed: d.taxed,
			Kind: d.kind, Why: record.Plain(d.words()),
		}
		l.Qty, l.Unit, l.Rate = d.quantity()
		if a := agreed[d.ref]; a != nil {
			l.Change = a.Number
		}
		if d.correction {
			l.Kind = "correction"
		}
		v.Lines = append(v.Lines, l)
		in.evidence(l.Ref, d.from, p)
		if d.gone {
			p.sources = append(p.sources, d.then...)
		}
		if e := extra[d.ref]; e != nil {
			in.evidence(l.Ref, in.written(e), p)
		}
		for _, day := range d.days {
			if !slices.Contains(v.Attachments, day) && (d.correction || !in.attached(day)) {
				v.Attachments = append(v.Attachments, day)
			}
		}
	}
	slices.SortFunc(v.Attachments, notes.Date.Compare)
}

// attached reports whether the report of a day went out with an invoice that still stands.
func (in *Input) attached(day notes.Date) bool {
	return slices.ContainsFunc(in.Records.Invoices, func(v notes.Invoice) bool {
		return v.Kind == notes.InvoiceBill && !in.Records.Voided(v.Number) && slices.Contains(v.Attachments, day)
	})
}

// quantity states a difference as a quantity at a rate where it is one, else as one lot. A credit has
// a negative quantity and a rate that is not negative (EN 16931, BR-27).
func (d *difference) quantity() (notes.Decimal, notes.Unit, notes.Decimal) {
	if d.single && !d.gone && (d.sent == nil || d.sent.amount.IsZero() || d.sent.single && d.sent.unit == d.unit && d.sent.rate.Equal(d.rate)) {
		qty := d.qty
		if d.sent != nil {
			qty = qty.Sub(d.sent.qty)
		}
		if d.rate.Sign() >= 0 && notes.Cents(qty.Mul(d.rate)).Equal(d.amount) {
			return qty, d.unit, d.rate
		}
	}
	if d.amount.Sign() < 0 {
		return notes.Int(-1), notes.Lot, d.amount.Neg().Decimal()
	}
	return notes.Int(1), notes.Lot, d.amount.Decimal()
}

// words say why a line stands on the invoice.
func (d *difference) words() string {
	switch {
	case d.gone:
		return "correction: " + d.sent.amount.String() + " was billed up to " + d.sent.number + ", and the notes no longer have it"
	case d.correction:
		return "correction: " + d.sent.amount.String() + " was billed up to " + d.sent.number + ", and the notes now make it " + d.tally.amount.String()
	case d.sent != nil && !d.sent.amount.IsZero():
		return d.why + "; " + d.sent.amount.String() + " billed before is taken off"
	}
	return d.why
}

// retainage withholds a percentage of the lines, or releases what was withheld so far.
func (in *Input) retainage(v *notes.Invoice, release bool) {
	percent := in.Job.Billing.Retainage
	for _, taxed := range []bool{true, false} {
		if release {
			if held := in.Withheld(taxed); held.Sign() > 0 {
				v.Charges = append(v.Charges, notes.Adjustment{Reason: "retainage released", Base: held, Amount: held, Taxed: taxed})
			}
			continue
		}
		var base notes.Money
		for _, l := range v.Lines {
			if l.Taxed == taxed {
				base = base.Add(l.Amount)
			}
		}
		a := notes.Adjustment{Percent: percent, Base: base, Taxed: taxed, Amount: notes.Cents(base.Decimal().Mul(percent).Quo(notes.Int(100), 2))}
		switch a.Amount.Sign() {
		case 1:
			a.Reason = "retainage withheld"
			v.Allowances = append(v.Allowances, a)
		case -1:
			a.Reason, a.Amount = "retainage on what is credited", a.Amount.Neg()
			v.Charges = append(v.Charges, a)
		}
	}
}

// Withheld returns the retainage withheld so far and not released, of taxed or of untaxed lines.
func (in *Input) Withheld(taxed bool) notes.Money {
	var sum notes.Money
	for _, v := range in.Records.Invoices {
		for _, a := range v.Allowances {
			if a.Taxed == taxed {
				sum = sum.Add(a.Amount)
			}
		}
		for _, a := range v.Charges {
			if a.Taxed == taxed {
				sum = sum.Sub(a.Amount)
			}
		}
	}
	return sum
}

// taxBase returns what the tax is figured on: the lines and what is added or taken off, as lines.
func taxBase(v *notes.Invoice) []notes.InvoiceLine {
	var base []notes.InvoiceLine
	for _, l := range v.Lines {
		base = append(base, notes.InvoiceLine{Ref: l.Ref, What: l.What, Amount: l.Amount, Taxed: l.Taxed, Kind: l.Kind})
	}
	for _, a := range v.Allowances {
		base = append(base, notes.InvoiceLine{What: a.Reason, Amount: a.Amount.Neg(), Taxed: a.Taxed})
	}
	for _, a := range v.Charges {
		base = append(base, notes.InvoiceLine{What: a.Reason, Amount: a.Amount, Taxed: a.Taxed})
	}
	return base
}

// plainTax gives taxes names as a record holds them.
func plainTax(list []notes.TaxAmount) []notes.TaxAmount {
	for i := range list {
		list[i].Name = record.Plain(list[i].Name)
	}
	return list
}

// deposit returns how much of the deposit an invoice uses up: what is left of it, at most what is to
// be paid.
func (in *Input) deposit(total notes.Money) notes.Money {
	left := in.DepositLeft()
	if total.Sign() <= 0 || left.Sign() <= 0 {
		return notes.Money{}
	}
	if left.Cmp(total) > 0 {
		return total
	}
	return left
}

// DepositLeft returns what no invoice has used up of the deposit.
func (in *Input) DepositLeft() notes.Money {
	left := in.Job.Billing.Deposit
	for _, v := range in.Records.Invoices {
		left = left.Sub(v.Totals.Paid)
	}
	return left
}

// Void makes the record that takes an invoice back: a number of its own, the same amounts negative.
// What the invoice billed is unbilled again, its part of the deposit is left again, and what it
// withheld is no longer withheld.
func Void(in Input, number, why string, r Request) (notes.Invoice, error) {
	if err := in.whole(); err != nil {
		return notes.Invoice{}, err
	}
	old := in.Records.Invoice(number)
	switch {
	case old == nil:
		return notes.Invoice{}, fmt.Errorf("job %s has no invoice %s", in.Job.Number, number)
	case old.Kind == notes.InvoiceVoid:
		return notes.Invoice{}, fmt.Errorf("%s itself takes %s back; make a new invoice instead", number, old.Voids)
	case in.Records.Voided(number):
		return notes.Invoice{}, fmt.Errorf("%s is taken back already", number)
	}
	v := *old
	v.Number, v.Kind, v.Voids, v.Why = in.nextInvoice(), notes.InvoiceVoid, number, record.Plain(why)
	v.Date, v.Due, v.By, v.File, v.Attachments = r.Date, r.Date, record.Plain(r.By), nil, nil
	v.Lines, v.Tax = nil, nil
	for _, l := range old.Lines {
		l.Qty, l.Amount = l.Qty.Neg(), l.Amount.Neg()
		v.Lines = append(v.Lines, l)
	}
	for _, t := range old.Tax {
		t.Base, t.Amount = t.Base.Neg(), t.Amount.Neg()
		v.Tax = append(v.Tax, t)
	}
	v.Allowances, v.Charges = takenBack(old.Charges), takenBack(old.Allowances)
	v.Totals = notes.InvoiceTotals{Paid: old.Totals.Paid.Neg(), Rounding: old.Totals.Rounding.Neg()}
	v.Totals = record.Totals(&v)
	v.Earlier = in.blank(r).Earlier
	return v, nil
}

func takenBack(list []notes.Adjustment) []notes.Adjustment {
	var out []notes.Adjustment
	for _, a := range list {
		a.Reason += ", taken back"
		out = append(out, a)
	}
	return out
}
