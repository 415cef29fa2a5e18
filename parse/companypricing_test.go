package parse_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
)

func TestPricingRulesOfACompany(t *testing.T) {
	c, found := parse.Company(finding.NewFile("company.yaml", []byte(`name: A
equipment: {scissor lift: 22.00, crane: {rate: 90.00}}
small_tools: 3
subcontract: 7.5 %
credit_unused: true
overtime: {bill: true, workweek: sunday}
pricing:
  county work:
    labor: 15
    subcontract: 5
    then:
      - {name: profit, percent: 10, on: [labor, markup on labor]}
      - {name: bond, percent: 1}
    ceiling: 50000.00
  rates: {at: price, labor: 10}
`)))
	require.Empty(t, found)
	assert.Equal(t, "22.00", c.Equipment[0].Rate.String())
	assert.Equal(t, "90.00", c.Equipment[1].Rate.String())
	assert.Equal(t, "3", c.SmallTools.String())
	assert.Equal(t, "7.5", c.Subcontract.String())
	assert.True(t, c.CreditUnused && c.Overtime.Bill)
	assert.Equal(t, "Sunday", c.Workweek.String())
	require.Len(t, c.Pricing, 2)
	county := c.Pricing[0]
	assert.True(t, county.AtCost && !county.Broken)
	assert.Equal(t, "50000.00", county.Ceiling.String())
	assert.Equal(t, []notes.Markup{
		{Name: "markup on labor", Percent: notes.MustDecimal("15"), On: []string{"labor"}},
		{Name: "markup on subcontract", Percent: notes.MustDecimal("5"), On: []string{"subcontract"}},
		{Name: "profit", Percent: notes.MustDecimal("10"), On: []string{"labor", "markup on labor"}},
		{Name: "bond", Percent: notes.MustDecimal("1")},
	}, county.Markups)
	assert.False(t, c.Pricing[1].AtCost)
}

// What cannot be read of rules or rates is said, and nothing is billed by the rest of it.
func TestPricingRulesThatCannotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"pricing: {county: {at: guess}}":                                     `"guess" is neither cost nor price`,
		"pricing: {county: {labor: -1}}":                                     `"-1" is not a percentage from 0 to 1000`,
		"pricing: {county: {then: [{name: fee}]}}":                           "a markup needs a name and a percentage",
		"pricing: {county: {then: [{name: fee, percent: 3, on: [labour]}]}}": `"labour" is neither a kind of cost nor a markup before "fee"`,
		"pricing: {county: {ceiling: $500}}":                                 `"$500" has a currency sign; expected the figure alone`,
		"pricing: {county: {labr: 5}}":                                       `unknown key "labr" in "county"`,
		"equipment: {lift: }":                                                `the equipment "lift" has no rate; its hours cannot be billed`,
		"equipment: {lift: 0.00}":                                            `the equipment "lift" costs nothing; its hours would be billed at 0.00`,
		"equipment: {lift: $22}":                                             `"$22" has a currency sign; expected the figure alone`,
		"overtime: {workweek: Funday}":                                       `"Funday" is not a day of the week`,
		"classes: {helper: {rate: 0.00}}":                                    `the labor class "helper" has the rate 0.00; its time would be billed at nothing`,
		"classes: {helper: {rate: 40.00}}\novertime: {bill: true}":           `overtime is billed and the labor class "helper" has no overtime rate; its overtime is billed at 40.00`,
	} {
		c, found := parse.Company(finding.NewFile("company.yaml", []byte("name: A\n"+text+"\n")))
		require.Len(t, found, 1, text)
		assert.Equal(t, want, found[0].Message, text)
		assert.NotEmpty(t, found[0].Hint, text)
		for _, r := range c.Pricing {
			assert.True(t, r.Broken, text)
		}
		for _, e := range c.Equipment {
			assert.True(t, e.Rate.IsZero(), text)
		}
	}
}
