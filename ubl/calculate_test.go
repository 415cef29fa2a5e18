package ubl_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/notes"
	"jobday/ubl"
)

func part(amount, code, rate string) ubl.Part {
	return ubl.Part{Amount: notes.MustMoney(amount), Code: code, Rate: notes.MustDecimal(rate)}
}

// The figures of two samples published with the rule set of EN 16931 (repository
// ConnectingEurope/eInvoicing-EN16931, ubl/examples, read 2026-11-25). How the lines fall to the
// rates follows from the bases printed there.
func TestTheSumsOfThePublishedSamples(t *testing.T) {
	// ubl-tc434-example5.xml
	a := ubl.Calculate(
		[]ubl.Part{part("1000.00", "S", "25"), part("500.00", "S", "25"), part("2500.00", "S", "12")},
		[]ubl.Part{part("150.00", "S", "25")}, []ubl.Part{part("150.00", "S", "25")}, notes.MustMoney("2337.50"), notes.Money{})
	assert.Equal(t, []string{"4000.00", "150.00", "150.00", "4000.00", "675.00", "4675.00", "2337.50"}, shown(a))
	assert.Equal(t, []string{"S 25: 1500.00 375.00", "S 12: 2500.00 300.00"}, rows(a))

	// ubl-tc434-example2.xml; 25 % of 1460.50 is 365.125, printed as 365.13: half goes up.
	b := ubl.Calculate(
		[]ubl.Part{part("1273.00", "S", "25"), part("-3.96", "S", "15"), part("4.96", "S", "15"), part("-25.00", "E", "0"), part("187.50", "S", "25")},
		[]ubl.Part{part("100.00", "S", "25")}, []ubl.Part{part("100.00", "S", "25")}, notes.MustMoney("1000.00"), notes.Money{})
	assert.Equal(t, []string{"1436.50", "100.00", "100.00", "1436.50", "365.28", "1801.78", "801.78"}, shown(b))
	assert.Equal(t, []string{"S 25: 1460.50 365.13", "S 15: 1.00 0.15", "E 0: -25.00 0.00"}, rows(b))
}

func shown(s ubl.Sums) []string {
	return []string{
		s.Lines.String(), s.Allowances.String(), s.Charges.String(), s.WithoutTax.String(), s.Tax.String(), s.WithTax.String(), s.Due.String(),
	}
}

func rows(s ubl.Sums) (out []string) {
	for _, b := range s.Breakdown {
		out = append(out, b.Code+" "+b.Rate.String()+": "+b.Base.String()+" "+b.Tax.String())
	}
	return out
}

func drawParts(t *rapid.T, what string, least int) []ubl.Part {
	var out []ubl.Part
	for range rapid.IntRange(0, 6).Draw(t, what) {
		p := ubl.Part{Amount: notes.Cents(notes.Ratio(rapid.IntRange(least, 900_000).Draw(t, "cents"), 100)), Code: "E"}
		if rate := rapid.SampledFrom([]string{"", "6.25", "7.75", "19", "25"}).Draw(t, "rate"); rate != "" {
			p.Code, p.Rate = "S", notes.MustDecimal(rate)
		}
		out = append(out, p)
	}
	return out
}

// The calculation rules as EN 16931 words them, over any lines, allowances and charges.
func TestTheCalculationRulesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines, off, on := drawParts(t, "lines", -900_000), drawParts(t, "allowances", 1), drawParts(t, "charges", 1)
		paid := notes.Cents(notes.Ratio(rapid.IntRange(0, 90_000).Draw(t, "paid"), 100))
		rounding := notes.Cents(notes.Ratio(rapid.IntRange(-50, 50).Draw(t, "rounding"), 100))
		s := ubl.Calculate(lines, off, on, paid, rounding)
		sum := func(parts []ubl.Part) (m notes.Money) {
			for _, p := range parts {
				m = m.Add(p.Amount)
			}
			return m
		}
		equal := func(rule string, a, b notes.Money) { require.Equal(t, a.String(), b.String(), rule) }
		equal("BR-CO-10", s.Lines, sum(lines))
		equal("BR-CO-11", s.Allowances, sum(off))
		equal("BR-CO-12", s.Charges, sum(on))
		equal("BR-CO-13", s.WithoutTax, s.Lines.Sub(s.Allowances).Add(s.Charges))
		var tax, bases notes.Money
		seen := map[string]bool{}
		for _, b := range s.Breakdown {
			tax, bases = tax.Add(b.Tax), bases.Add(b.Base)
			key := b.Code + b.Rate.String()
			require.False(t, seen[key], "one row for each category and rate (BR-S-01, BR-E-01)")
			seen[key] = true
			of := func(parts []ubl.Part) (m notes.Money) {
				for _, p := range parts {
					if p.Code == b.Code && p.Rate.Equal(b.Rate) {
						m = m.Add(p.Amount)
					}
				}
				return m
			}
			equal("BR-S-08, BR-E-08", b.Base, of(lines).Sub(of(off)).Add(of(on)))
			exact := b.Base.Decimal().Mul(b.Rate).Mul(notes.MustDecimal("0.01"))
			off := exact.Sub(b.Tax.Decimal())
			require.LessOrEqual(t, off.Cmp(notes.MustDecimal("0.005")), 0, "BR-CO-17, BR-S-09")
			require.GreaterOrEqual(t, off.Cmp(notes.MustDecimal("-0.005")), 0, "BR-CO-17, BR-S-09")
			if b.Code == "E" {
				require.True(t, b.Tax.IsZero(), "BR-E-09")
			}
		}
		equal("BR-CO-14", s.Tax, tax)
		equal("the bases are the total without tax", bases, s.WithoutTax)
		equal("BR-CO-15", s.WithTax, s.WithoutTax.Add(s.Tax))
		equal("BR-CO-16", s.Due, s.WithTax.Sub(s.Paid).Add(s.Rounding))
	})
}
