package price

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/notes"
)

// The rule is that of the Streamlined Sales and Use Tax Agreement, section 324 (as adopted in Rhode
// Island, 44-18.1-25): carried to the third decimal, up when that is greater than four. The products
// are computed by hand; 1284.60 at 7.5 % is also in a public rounding data set. The figures at 25,
// 12 and 15 % are the tax totals of two sample invoices published with EN 16931 (rule BR-CO-17: base
// times rate, to two decimals).
func TestTaxRoundsAtTheThirdDecimal(t *testing.T) {
	for _, c := range []struct{ base, percent, want string }{
		{"10.10", "7.25", "0.73"},           // 0.73225
		{"1.99", "7.5", "0.15"},             // 0.14925
		{"0.05", "10", "0.01"},              // 0.005
		{"1284.60", "7.5", "96.35"},         // 96.345
		{"2.72", "9", "0.24"},               // 0.2448: one rounding, not two
		{"1.07", "7", "0.07"},               // 0.0749
		{"3.21", "7", "0.22"},               // 0.2247
		{"-0.05", "10", "-0.01"},            // a credit gives back what was taken
		{"1500.00", "25", "375.00"},         // EN 16931, sample A
		{"2500.00", "12", "300.00"},         // EN 16931, sample A
		{"1460.50", "25", "365.13"},         // EN 16931, sample B: 365.125
		{"1.00", "15", "0.15"},              // EN 16931, sample B
		{"99999999.99", "0.000001", "1.00"}, // 0.9999999999
	} {
		got := percentOf(notes.MustMoney(c.base), notes.MustDecimal(c.percent))
		assert.Equal(t, c.want, got.String(), "%s x %s %%", c.base, c.percent)
	}
}

// Time billed goes up to the next step; hourly amounts are exact before they are rounded, which a
// third of an hour written as a decimal is not: 50 min x 0.03 / 60 = 0.025.
func TestHourlyAmounts(t *testing.T) {
	for _, c := range []struct {
		minutes, step, want notes.Minutes
	}{{0, 15, 0}, {1, 15, 15}, {15, 15, 15}, {16, 15, 30}, {61, 6, 66}, {7, 0, 7}, {7, 1, 7}, {-5, 15, -5}} {
		assert.Equal(t, c.want, billedMinutes(c.minutes, c.step), "%d in steps of %d", c.minutes, c.step)
	}
	for _, c := range []struct {
		rate    string
		minutes notes.Minutes
		want    string
	}{{"0.03", 50, "0.03"}, {"98.00", 45, "73.50"}, {"46.00", 100, "76.67"}, {"46.00", 61, "46.77"}, {"112.00", 20, "37.33"}} {
		assert.Equal(t, c.want, hourly(notes.MustMoney(c.rate), c.minutes).String(), "%s x %d min", c.rate, c.minutes)
	}
}

// Three lines of 1.07 at 7 %: 0.0749 each is 0.07, 0.21 by item; 3.21 x 7 % = 0.2247 is 0.22 by
// invoice. SSUTA section 324 allows both, and state and local added first: 6.25 % + 1.5 % of 10.10 is
// 0.63125 + 0.1515, 0.63 + 0.15 = 0.78 apart, and 0.78275, 0.78 together; of 0.90 it is 0.05625 and
// 0.0135, 0.06 + 0.01 apart, and 0.06975, 0.07; of 1.40, 0.0875 and 0.021, 0.09 + 0.02 = 0.11 and
// 0.1085, 0.11; of 8.90, 0.55625 + 0.1335 is 0.56 + 0.13, and 0.68975, 0.69. Products by hand.
func TestTaxByItemByInvoiceAndTogether(t *testing.T) {
	lines := func(amounts ...string) (all []notes.InvoiceLine) {
		for _, a := range amounts {
			all = append(all, notes.InvoiceLine{Amount: notes.MustMoney(a), Taxed: true})
		}
		return append(all, notes.InvoiceLine{Amount: notes.MustMoney("500.00")})
	}
	sum := func(taxes []notes.TaxAmount) string {
		var s notes.Money
		for _, x := range taxes {
			s = s.Add(x.Amount)
		}
		return s.String()
	}
	seven := notes.TaxTreatment{Rates: []notes.TaxRate{{Name: "state", Percent: notes.Int(7)}}, Per: "line"}
	three := lines("1.07", "1.07", "1.07")
	assert.Equal(t, "0.21", sum(TaxOn(three, seven, "")))
	seven.Per = "invoice"
	assert.Equal(t, "0.22", sum(TaxOn(three, seven, "")))
	two := notes.TaxTreatment{Rates: []notes.TaxRate{
		{Name: "state", Percent: notes.MustDecimal("6.25")}, {Name: "city", Percent: notes.MustDecimal("1.5")},
	}, Per: "invoice"}
	for base, want := range map[string][2]string{
		"10.10": {"0.78", "0.78"}, "0.90": {"0.07", "0.07"}, "1.40": {"0.11", "0.11"}, "8.90": {"0.69", "0.69"},
		"0.35": {"0.03", "0.03"}, "0.40": {"0.04", "0.03"}, // 0.025 + 0.006 = 0.03 + 0.01; 0.031
	} {
		two.Together = false
		assert.Equal(t, want[0], sum(TaxOn(lines(base), two, "")), base)
		two.Together = true
		assert.Equal(t, want[1], sum(TaxOn(lines(base), two, "")), base)
	}
	free := TaxOn(three, seven, "resale, certificate R-1042")
	assert.Equal(t, []notes.TaxAmount{{Name: "exempt: resale, certificate R-1042", Base: notes.MustMoney("3.21")}}, free)
}
