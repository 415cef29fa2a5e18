package parse

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

func TestWhatAnElectronicInvoiceNeeds(t *testing.T) {
	c, found := Company(finding.NewFile("company.yaml", []byte("name: Reed\neinvoice: {country: us, city: Marl, registration: 77, vat_id: DE1, email: a@b.example}\n")))
	require.Empty(t, found)
	assert.True(t, c.EInvoice.Span.Known())
	c.EInvoice.Span = finding.Span{}
	assert.Equal(t, notes.PartyKeys{Country: "US", City: "Marl", Registration: "77", VATID: "DE1", Email: "a@b.example"}, c.EInvoice)

	j, found := Scope(finding.NewFile("jobs/1-x/scope.md", []byte("---\neinvoice: {country: CA, address: [1 Low Road, Rear], reference: kitchen, order: PO 7}\n---\n\n## Scope\n\n| Line | Work |\n|---|---|\n| A | Lights |\n")))
	require.Empty(t, found)
	assert.Equal(t, []string{"1 Low Road", "Rear"}, j.EInvoice.Address)
	assert.Equal(t, "kitchen", j.EInvoice.Reference)
	assert.Equal(t, "PO 7", j.EInvoice.Order)

	_, found = Company(finding.NewFile("company.yaml", []byte("name: Reed\neinvoice: {country: USA, reference: x}\nrounding: {clock: 30 min}\n")))
	var rules []string
	for _, f := range found {
		line, column := f.Span.Position()
		rules = append(rules, notes.Int(line).String()+":"+notes.Int(column).String()+" "+f.Rule+": "+f.Message)
	}
	assert.ElementsMatch(t, []string{
		`2:21 value/bad: "USA" is not a country code of ISO 3166-1; expected two letters`,
		`2:26 key/unknown: unknown key "reference" in "einvoice"`,
		`3:19 value/bad: the clock is rounded to 30 min; rounding for pay goes to 5 minutes, a tenth or a quarter of an hour at most (29 CFR 785.48(b))`,
	}, rules)
}

func TestWhatComesInAPackage(t *testing.T) {
	list, found := Prices(finding.NewFile("prices.csv", []byte("item,unit,cost,pack\n10/2 MC cable,ft,1.12,250\nTape,roll,4.00,\nSeal,pk,6.30,0\n")))
	require.Len(t, list.Rows, 3)
	assert.Equal(t, "250", list.Rows[0].Pack.String())
	assert.True(t, list.Rows[1].Pack.IsZero())
	require.Len(t, found, 1)
	assert.Equal(t, "prices/pack", found[0].Rule)
	line, column := found[0].Span.Position()
	assert.Equal(t, [2]int{4, 14}, [2]int{line, column})
}
