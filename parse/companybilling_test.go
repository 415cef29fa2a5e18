package parse

import (
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

func TestNoticeAndOffer(t *testing.T) {
	c, found := Company(finding.NewFile("company.yaml", []byte("name: x\nnotice: {notice_days: 14, claim_days: 0}\noffer: {detail: full, valid_days: 10, excluded: [painting], statement: Yes.}\n")))
	require.Empty(t, found)
	require.Equal(t, notes.NoticePeriods{NoticeDays: 14}, c.Notice)
	require.Equal(t, notes.OfferRules{Detail: notes.OfferFull, ValidDays: 10, Excluded: []string{"painting"}, Statement: "Yes."}, c.Offer)

	c, found = Company(finding.NewFile("company.yaml", []byte("name: x\nnotice: {notice_days: -1}\noffer: {detail: some, valid: 3}\n")))
	require.Len(t, found, 3)
	require.Equal(t, notes.NoticePeriods{NoticeDays: 20, ClaimDays: 30}, c.Notice)
	require.Equal(t, notes.OfferParts, c.Offer.Detail)
}

func TestBillingOfAJob(t *testing.T) {
	read := func(head string) (notes.BillingTerms, finding.List) {
		j, found := Scope(finding.NewFile("jobs/7-x/scope.md", []byte("---\n"+head+"\n---\n\n## Scope\n\n| Line | Work | Qty | Unit | Price |\n|---|---|---|---|---|\n| A | Lights | 1 | ea | 5.00 |\n")))
		return j.Billing, found
	}
	b, found := read("billing: percent\ndeposit: 500.00\nretainage: 7.5 %")
	require.Empty(t, found)
	require.Equal(t, notes.ByPercent, b.Mode)
	require.Equal(t, "500.00 7.5", b.Deposit.String()+" "+b.Retainage.String())
	b, found = read("billing: sometimes\ndeposit: -5\nretainage: 80")
	require.Len(t, found, 3)
	require.Equal(t, notes.OnCompletion, b.Mode)
	require.True(t, b.Deposit.IsZero())
	require.True(t, b.Retainage.IsZero())
}
