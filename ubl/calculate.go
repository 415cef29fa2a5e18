package ubl

import "jobday/notes"

// Part is a line, allowance or charge with the tax category it is in.
type Part struct {
	Amount notes.Money // net; of an allowance or charge above zero
	Code   string      // of the category, UNTDID 5305: "S", "Z", "E", "O"
	Rate   notes.Decimal
}

// Breakdown is one row of the tax breakdown (BG-23).
type Breakdown struct {
	Code string
	Rate notes.Decimal
	Base notes.Money // lines less allowances plus charges of the category and rate (BR-S-08 and its neighbors)
	Tax  notes.Money // base times rate, rounded half away from zero to the cent (BR-CO-17)
}

// Sums are the totals of an invoice, with its breakdown by category and rate in the order in which
// they first come.
type Sums struct {
	notes.InvoiceTotals
	Breakdown []Breakdown
}

// Calculate works out an invoice by the rules BR-CO-10 to BR-CO-17 of EN 16931. Only the tax of a
// breakdown is rounded; everything else is a sum of amounts to the cent.
func Calculate(lines, allowances, charges []Part, paid, rounding notes.Money) Sums {
	s := Sums{InvoiceTotals: notes.InvoiceTotals{Paid: paid, Rounding: rounding}}
	for _, p := range lines {
		s.Lines = s.Lines.Add(p.Amount)
		s.put(p, p.Amount)
	}
	for _, p := range allowances {
		s.Allowances = s.Allowances.Add(p.Amount)
		s.put(p, p.Amount.Neg())
	}
	for _, p := range charges {
		s.Charges = s.Charges.Add(p.Amount)
		s.put(p, p.Amount)
	}
	for i := range s.Breakdown {
		b := &s.Breakdown[i]
		b.Tax = notes.Cents(b.Base.Decimal().Mul(b.Rate).Mul(hundredth))
		s.Tax = s.Tax.Add(b.Tax)
	}
	s.WithoutTax = s.Lines.Sub(s.Allowances).Add(s.Charges)
	s.WithTax = s.WithoutTax.Add(s.Tax)
	s.Due = s.WithTax.Sub(s.Paid).Add(s.Rounding)
	return s
}

var hundredth = notes.MustDecimal("0.01")

func (s *Sums) put(p Part, m notes.Money) {
	for i := range s.Breakdown {
		if b := &s.Breakdown[i]; b.Code == p.Code && b.Rate.Equal(p.Rate) {
			b.Base = b.Base.Add(m)
			return
		}
	}
	s.Breakdown = append(s.Breakdown, Breakdown{Code: p.Code, Rate: p.Rate, Base: m})
}
