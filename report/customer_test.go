package report_test

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/bookgen"
	"jobday/compile"
	"jobday/notes"
	"jobday/report"
	"jobday/sheet"
)

// inside is a day in which everything a customer must not see carries a figure or a word of its own.
func inside() report.Input {
	source := []notes.Source{{File: "jobs/31/2026-03-02-private.md", Line: 7, Column: 1, EndLine: 7, EndColumn: 9}}
	m := notes.MustMoney
	remark := func(text string) []notes.Standing { return []notes.Standing{{Text: text, From: source}} }
	d := &notes.JobDay{
		Company: "Sill Electric", Job: "31", Date: notes.MustDate("2026-03-02"), Crew: []string{"Ines"}, Number: 1,
		Scope: []notes.LineStanding{{
			Line: "A", Work: "Replace hood lights", Booked: notes.BookedQty{Qty: notes.Int(4), Unit: notes.Each}, ToDate: notes.Int(2), Left: notes.Int(2),
			State: notes.Blocked, BlockedBy: "SECRET-BLOCK", Price: m("9001.01"), Ready: m("9001.02"), Hours: notes.LineHours{Booked: 9001, Today: 9002, ToDate: 9003},
		}},
		Extras: []notes.ExtraWork{
			{ID: "2026-03-02/a", Work: "Added a disconnect", State: notes.ExtraAuthorized, Amount: m("180.00"),
				Authorization: notes.Authorization{State: "authorized", By: "Ruth Amsel"},
				Materials:     []notes.MaterialUse{{Item: "disconnect", Cost: m("9001.03"), Price: m("9001.04")}},
				Pricing:       []notes.PricingStep{{What: "SECRET-STEP", Basis: "SECRET-BASIS", Amount: m("9001.05")}}},
			{ID: "2026-03-02/b", Work: "Moved the sign", State: notes.NeedsAuthorization, Amount: m("9001.06"), Authorization: notes.Authorization{State: "none"}},
			{ID: "2026-03-02/c", Work: "Helped SECRET-NAME, internal", State: notes.NeedsAuthorization, Amount: m("9001.07"), Authorization: notes.Authorization{State: "none"}},
		},
		Deficiencies: []notes.DeficiencyRecord{{
			ID: "2026-03-02/d", Title: "Box cover missing", Where: "hall", Severity: notes.Danger, State: notes.FaultLeft,
			Text: "no cover, between us SECRET-FAULT", From: source,
		}},
		Tests:     []notes.TestRecord{{What: "GFCI", Readings: []notes.TestValue{{Value: "5.1", Unit: "mA"}}, Verdict: notes.Within, Why: "SECRET-WHY"}},
		Materials: []notes.MaterialUse{{Qty: notes.Quantity{Value: notes.Int(52), Unit: notes.Foot}, Item: "10/2 MC", Code: "SECRET-CODE", Cost: m("9001.08"), Price: m("9001.09")}},
		Labor:     []notes.LaborRow{{Name: "Ines", Class: "SECRET-CLASS", Minutes: 90, On: map[string]notes.Minutes{"2026-03-02/a": 45, notes.Unassigned: 45}, Cost: m("9001.10")}},
		Left:      remark("SECRET-LEFT"), Questions: remark("SECRET-QUESTION"), Narrative: remark("SECRET-NARRATIVE"), Deliveries: remark("SECRET-DELIVERY"),
		Equipment: remark("SECRET-EQUIPMENT"), Delays: remark("SECRET-DELAY"), Instructions: remark("SECRET-INSTRUCTION"), Safety: remark("SECRET-SAFETY"),
		Conditions: remark("SECRET-CONDITION"), Subcontractors: remark("SECRET-SUB"),
		Money: notes.MoneyStanding{
			Ready:     notes.Ready{Lines: []notes.InvoiceLine{{What: "SECRET-READY", Amount: m("9001.11")}}, Subtotal: m("9001.12"), Total: m("9001.13")},
			Held:      []notes.MoneyNote{{What: "SECRET-HELD", Why: "SECRET-REASON", Amount: m("9001.14")}},
			NotBilled: []notes.MoneyNote{{What: "SECRET-GIVEN", Amount: m("9001.15")}},
		},
		Findings: []notes.FindingRef{{Message: "SECRET-FINDING", Hint: "SECRET-HINT"}},
		Entries:  []notes.EntryResult{{Text: "SECRET-ENTRY", Why: "SECRET-EVIDENCE", Source: source[0], Reading: notes.NoReading{}}},
	}
	return report.Input{Day: d, Job: &notes.Job{Number: "31", Title: "Sign", Customer: "Quay Lane Bakery"}, Company: &notes.Company{Name: "Sill Electric", Currency: "USD"}}
}

// TestTheCustomersEditionHoldsNothingOfTheOffice looks for each planted figure and word in every format.
func TestTheCustomersEditionHoldsNothingOfTheOffice(t *testing.T) {
	s, err := report.Customer(inside())
	require.NoError(t, err)
	for name, write := range map[string]func(io.Writer, sheet.Sheet) error{
		"html": func(w io.Writer, s sheet.Sheet) error { return sheet.HTML(w, s) },
		"md":   func(w io.Writer, s sheet.Sheet) error { return sheet.Markdown(w, s) },
		"text": func(w io.Writer, s sheet.Sheet) error { return sheet.TextTo(w, sheet.TextOptions{}, s) },
	} {
		var page bytes.Buffer
		require.NoError(t, write(&page, s))
		text := page.String()
		for _, never := range []string{"SECRET", "9001.", "9,001.", "9001 ", "private.md", "150 h"} {
			at := strings.Index(text, never)
			assert.Equal(t, -1, at, "%s holds %q", name, never)
		}
		for _, want := range []string{"Replace hood lights", "180.00", "Ruth Amsel", "a price follows", "described in a change order", "Box cover missing", "10/2 MC", "5.1 mA"} {
			assert.True(t, strings.Contains(text, want), "%s does not say %q", name, want)
		}
	}
}

// TestNoBookLeaksItsCosts holds the edition of many generated days against their costs and remarks.
func TestNoBookLeaksItsCosts(t *testing.T) {
	res := compile.Book(bookgen.Files(bookgen.Size{Seed: 5, Jobs: 2, Days: 8}), compile.Options{})
	for _, j := range res.Jobs {
		for _, d := range j.Days {
			s, err := report.Customer(report.Input{Day: d, Job: j.Job, Company: res.Company})
			require.NoError(t, err)
			var page bytes.Buffer
			require.NoError(t, sheet.Markdown(&page, s))
			told := map[string]bool{}
			for _, x := range d.Extras {
				told[x.Amount.String()] = true
			}
			for _, row := range d.Labor {
				assert.False(t, row.Cost.Sign() > 0 && !told[row.Cost.String()] && strings.Contains(page.String(), row.Cost.String()), "cost of %s", row.Name)
			}
			for _, list := range [][]notes.Standing{d.Questions, d.Narrative, d.Delays} {
				for _, r := range list {
					assert.False(t, strings.Contains(page.String(), r.Text), r.Text)
				}
			}
		}
	}
}
