package parse

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

const wholeCompany = `# who we are
name: Sedge and Marl Electric
address: [8 Sluice Street, Eastmarsh]
contact: office@sedge-marl.example
tax_numbers: XX-0000000
currency: eur
locale: de_de
people:
  Ines Marrow: journeyman
  Tobias Lund: apprentice
classes:
  journeyman: {cost: 46.00, rate: 98.00, overtime: 147.00, travel: 60.00}
  apprentice: 62.00
rounding: {clock: 5 min, billed: 15}
overtime: {weekly_over: 38 h 30, daily_over: 8 h}
markup:
  - {percent: 20}
  - {up_to: 100.00, percent: 35}
  - {up_to: 5.00, percent: 60 %}
minimum: {extra: 75, minutes: 0.5 h}
taxes:
  commercial repair:
    taxed: [scope, Extra]
    per: line
    rates: {state: 6, county: 1.25}
  new construction: {taxed: material, rates: 6.25}
paper: A5
nec: 2023
terms: {days: 14, text: Payable within 14 days}
`

func TestCompanyReadsEveryKey(t *testing.T) {
	c, found := Company(finding.NewFile("company.yaml", []byte(wholeCompany)))
	require.Empty(t, shown(found))
	assert.Equal(t, "Sedge and Marl Electric", c.Name)
	assert.Equal(t, []string{"8 Sluice Street", "Eastmarsh"}, c.Address)
	assert.Equal(t, []string{"XX-0000000"}, c.TaxNumbers)
	assert.Equal(t, "EUR", c.Currency)
	assert.Equal(t, "de-DE", c.Locale)
	assert.Equal(t, "a5", c.Paper)
	assert.Equal(t, "2023", c.NEC)
	assert.Equal(t, notes.TimeRounding{Clock: 5, Billed: 15}, c.Rounding)
	assert.Equal(t, notes.Overtime{WeeklyOver: 38*60 + 30, DailyOver: 480}, c.Overtime)
	assert.Equal(t, notes.PaymentTerms{Days: 14, Text: "Payable within 14 days"}, c.Terms)
	assert.Equal(t, "75.00", c.MinExtra.String())
	assert.Equal(t, notes.Minutes(30), c.MinMinutes)

	ines, ok := c.Class("Ines Marrow")
	require.True(t, ok)
	assert.Equal(t, "46.00 98.00 147.00 60.00", ines.Cost.String()+" "+ines.Rate.String()+" "+ines.OvertimeRate.String()+" "+ines.TravelRate.String())
	tobias, ok := c.Class("Tobias Lund")
	require.True(t, ok)
	assert.Equal(t, "62.00", tobias.Rate.String())

	require.Len(t, c.Markup, 3, "the brackets are put in ascending order")
	assert.Equal(t, "5.00", c.Markup[0].UpTo.String())
	assert.Equal(t, "60", c.Markup[0].Percent.String())
	assert.Nil(t, c.Markup[2].UpTo)

	repair, ok := c.Treatment("commercial repair")
	require.True(t, ok)
	assert.Equal(t, []string{"scope", "extra"}, repair.Taxed)
	assert.Equal(t, "line", repair.Per)
	require.Len(t, repair.Rates, 2)
	assert.Equal(t, "county 1.25", repair.Rates[1].Name+" "+repair.Rates[1].Percent.String())
	building, _ := c.Treatment("new construction")
	assert.Equal(t, "invoice", building.Per)
	require.Len(t, building.Rates, 1)
	assert.Equal(t, "6.25", building.Rates[0].Percent.String())
}

func TestCompanyDefaults(t *testing.T) {
	for name, f := range map[string]*finding.File{
		"no file": nil, "only a name": finding.NewFile("company.yaml", []byte("name: A\n")),
	} {
		c, found := Company(f)
		assert.Empty(t, shown(found), name)
		assert.Equal(t, "USD", c.Currency)
		assert.Equal(t, notes.TimeRounding{Clock: 1, Billed: 15}, c.Rounding)
		assert.Equal(t, notes.Overtime{WeeklyOver: 2400}, c.Overtime)
		assert.Equal(t, "2020", c.NEC)
		assert.Equal(t, 30, c.Terms.Days)
		assert.True(t, c.MinExtra.IsZero())
		assert.Empty(t, c.Markup)
		assert.Empty(t, c.Treatments)
	}
}

func TestCompanyPeopleAsAList(t *testing.T) {
	for _, people := range []string{
		"  - {name: Ines, class: fitter}\n  - name: Tobias\n    class: fitter\n",
		"  - Ines: fitter\n  - Tobias: fitter\n",
		"  Ines: {class: fitter}\n  Tobias: fitter\n",
	} {
		c, found := Company(finding.NewFile("company.yaml", []byte("name: A\nclasses:\n  - {name: fitter, rate: 90}\npeople:\n"+people)))
		assert.Empty(t, shown(found), people)
		require.Len(t, c.People, 2, people)
		assert.Equal(t, "Tobias fitter", c.People[1].Name+" "+c.People[1].Class)
	}
}

func TestCompanyFindings(t *testing.T) {
	cases := []struct {
		name, text string
		want       []string
	}{
		{"no name", "currency: USD\n", []string{
			`1:1 "currency: USD\n" error company/no-name: the company has no name; reports would not say who they are from | write name: and the name`}},
		{"unknown key", "name: A\ncurency: USD\n", []string{
			`2:1 "curency" error key/unknown: unknown key "curency" in company.yaml | did you mean "currency"?`}},
		{"a class without a rate", "name: A\nclasses:\n  fitter: {cost: 40}\n", []string{
			`3:3 "fitter" error company/no-rate: the labor class "fitter" has no rate; its time cannot be billed | write fitter: {cost: 46.00, rate: 98.00}`}},
		{"a person in no class", "name: A\nclasses: {fitter: 90}\npeople: [Ines]\n", []string{
			`3:10 "Ines" error company/no-class: "Ines" is in no labor class | known classes: fitter`}},
		{"a slip in a class", "name: A\nclasses: {fitter: 90}\npeople:\n  Ines: fiter\n", []string{
			`4:9 "fiter" error company/no-class: "Ines" is in the labor class "fiter", which has no rates | did you mean "fitter"?`}},
		{"a percentage in words", "name: A\ntaxes:\n  repair:\n    rates: {state: six}\n", []string{
			`4:20 "six" error value/bad: "six" is not a percentage from 0 to 100 | write it like 7.25`}},
		{"a negative percentage", "name: A\nmarkup: -5\n", []string{
			`2:9 "-5" error value/bad: "-5" is not a percentage from 0 to 1000 | write it like 7.25`}},
		{"a kind of line nobody knows", "name: A\ntaxes:\n  repair: {taxed: [labour], rates: 6}\n", []string{
			`3:19 "[labour], rates: 6}" error value/bad: "labour" is not a kind of line | did you mean "labor"?`}},
		{"a locale of another place", "name: A\nlocale: fr_FR\n", []string{
			`2:9 "fr_FR" error value/bad: "fr_FR" is no locale known here; dates and amounts are written as in en-US | did you mean fr-CA? known: en-US, en-CA, en-GB, fr-CA, es-US, de-DE`}},
		{"a currency in words", "name: A\ncurrency: dollars\n", []string{
			`2:11 "dollars" error value/bad: "dollars" is not a currency code; expected three letters | write it like USD`}},
		{"a currency without cents", "name: A\ncurrency: JPY\n", []string{
			`2:11 "JPY" error value/bad: "JPY" is counted with 0 decimals; only currencies with two can be billed in | use a currency with two decimals, like USD`}},
		{"an amount with its sign", "name: A\nclasses:\n  fitter: {rate: $98}\n", []string{
			`3:18 "$98" error value/bad: "$98" has a currency sign; expected the figure alone | write it like 85.00`}},
		{"no last bracket", "name: A\nmarkup:\n  - {up_to: 50, percent: 30}\n", []string{
			`3:3 "- {up_to: 50, percent: 30}" warning company/markup: material that costs more than 50.00 apiece has no markup | add a last bracket without up_to: - {percent: 20}`}},
		{"time that is none", "name: A\nrounding: {billed: quarter}\n", []string{
			`2:20 "quarter" error value/bad: "quarter" is not a length of time | write it like "15 min" or "40 h"`}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			company, found := Company(finding.NewFile("company.yaml", []byte(c.text)))
			require.NotNil(t, company)
			assert.ElementsMatch(t, c.want, shown(found))
		})
	}
}

func TestCompanyIsReadAroundWhatIsBroken(t *testing.T) {
	c, found := Company(finding.NewFile("company.yaml", []byte("name: A\npeople: [Ines\nclasses:\n  fitter: 90\nnec: 1999\n")))
	assert.Equal(t, "A", c.Name)
	require.Len(t, c.Classes, 1)
	assert.Equal(t, "2020", c.NEC, "a bad value leaves the default")
	assert.True(t, found.HasErrors())
}

func TestMinutes(t *testing.T) {
	for text, want := range map[string]notes.Minutes{
		"0": 0, "15": 15, "15 min": 15, "15min": 15, "40 h": 2400, "1.5 h": 90, "1 h 30": 90, "1 h 30 min": 90, "8 hours": 480,
	} {
		got, ok := parseMinutes(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "x", "-5", "1.3", "15 s", "99999999999999999999999", "1 h 75", "1e9", "h", "200 h"} {
		_, ok := parseMinutes(text)
		assert.False(t, ok, text)
	}
}

func FuzzCompany(f *testing.F) {
	f.Add([]byte(wholeCompany))
	f.Add([]byte("name: &a [*a]\nmarkup: {}\ntaxes: [x: {rates: [1, {percent: 9e9}]}]\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		c, found := Company(finding.NewFile("company.yaml", text))
		require.NotNil(t, c)
		for _, x := range found {
			require.LessOrEqual(t, x.Span.End, len(text))
			require.NotEmpty(t, x.Message)
		}
	})
}
