package explain

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

func TestProductShowsTheRounding(t *testing.T) {
	tests := map[string]notes.PricingStep{
		"0.75 h x 96.00 = 72.00": {Qty: notes.MustDecimal("0.75"), Unit: "h", Rate: notes.MustDecimal("96"), Amount: notes.MustMoney("72.00")},
		"6 ft x 2.176 = 13.056, rounded half away from zero to 13.06": {
			Qty: notes.Int(6), Unit: "ft", Rate: notes.MustDecimal("2.176"), Amount: notes.MustMoney("13.06")},
		"3 ea x 0.115 = 0.345, rounded half away from zero to 0.35": {
			Qty: notes.Int(3), Unit: "ea", Rate: notes.MustDecimal("0.115"), Amount: notes.MustMoney("0.35")},
		"5 h 20 x 40.00 = 213.33, rounded half away from zero": {
			Qty: notes.Ratio(320, 60), Unit: "h", Rate: notes.Int(40), Amount: notes.MustMoney("213.33")},
		"20 min x 30.00 = 10.00":              {Qty: notes.Ratio(1, 3), Unit: "h", Rate: notes.Int(30), Amount: notes.MustMoney("10.00")},
		"1 ea x 10.00 = 10, counted as 65.00": {Qty: notes.Int(1), Unit: "ea", Rate: notes.Int(10), Amount: notes.MustMoney("65.00")},
	}
	for want, step := range tests {
		require.Equal(t, want, Product(step))
	}
}

// jobWithExtra is a job of one line and one day with an authorized extra, priced and billed.
func jobWithExtra() Job {
	scope := finding.NewFile("jobs/7-shop/scope.md", []byte("| A | Hood lights | 4 |\n"))
	note := finding.NewFile("jobs/7-shop/2026-03-12.md", []byte(
		"## Done\n- A: 2 of 4 up\n\n## Extras\n- Added a disconnect\n  - 45 min, Ines\n\nSunny all day.\n"))
	at := func(line int) notes.Source { return notes.SourceOf(note.LineSpan(line)) }
	id := "2026-03-12/disconnect"
	labor := notes.PricingStep{
		What: "labor Ines", Basis: "45 min", Qty: notes.MustDecimal("0.75"), Unit: "h", Rate: notes.Int(98),
		Amount: notes.MustMoney("73.50"), From: []notes.Source{at(6)},
	}
	day := &notes.JobDay{
		Job: "7", Date: notes.MustDate("2026-03-12"),
		Notes: []notes.NoteRef{{File: note.Name, Source: note}},
		Scope: []notes.LineStanding{{
			Line: "A", Booked: notes.BookedQty{Qty: notes.Int(4), Unit: "ea"}, Today: notes.Int(2), ToDate: notes.Int(2),
			Left: notes.Int(2), State: notes.UnderWay, From: []notes.Source{at(2)},
		}},
		Entries: []notes.EntryResult{
			{ID: "2026-03-12/lights", Text: "2 of 4 up", Source: at(2), Outcome: notes.InScope, Lines: []string{"A"}, Confidence: 1, Why: "names line A"},
			{
				ID: id, Text: "Added a disconnect", Source: at(5), Outcome: notes.Extra, Confidence: 0.95, Why: "under Extras",
				Details:    []notes.DetailResult{{Text: "45 min, Ines", Source: at(6)}},
				Candidates: []notes.Candidate{{Line: "A", Confidence: 0.1}},
			},
		},
		Extras: []notes.ExtraWork{{
			ID: id, Work: "Added a disconnect", Outcome: notes.ExtraDone, Minutes: 45, From: []notes.Source{at(5)},
			Authorization: notes.Authorization{State: "authorized", By: "Ruth Amsel", How: "on site", At: "10:40"},
			Pricing:       []notes.PricingStep{labor}, Amount: notes.MustMoney("73.50"), State: notes.ExtraAuthorized,
		}},
		Narrative: []notes.Standing{{Text: "Sunny all day.", From: []notes.Source{at(8)}}},
	}
	day.Money.Ready.Lines = []notes.InvoiceLine{{
		Ref: id, What: "Added a disconnect", Qty: notes.MustDecimal("0.75"), Unit: "h", Rate: notes.Int(98),
		Amount: notes.MustMoney("73.50"), Taxed: true, Why: "authorized by Ruth Amsel", Working: []notes.PricingStep{labor},
	}}
	day.Money.Ready.Tax = []notes.TaxAmount{{Name: "state", Rate: notes.Int(6), Base: notes.MustMoney("73.50"), Amount: notes.MustMoney("4.41")}}
	day.Money.Ready.TaxHow = "figured on all taxed lines of the invoice together"
	job := &notes.Job{
		File: scope, Number: "7", Lines: []notes.ScopeLine{{Label: "A", Work: "Hood lights", Qty: notes.Quantity{Value: notes.Int(4), Unit: "ea"}, Span: scope.LineSpan(1)}},
	}
	return Job{Job: job, Days: []*notes.JobDay{day}}
}

func explained(t *testing.T, ref string) string {
	t.Helper()
	chains, err := Find(Input{Jobs: []Job{jobWithExtra()}}, ref)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, WriteText(&b, chains))
	return b.String()
}

func TestTheChainOfAnExtraGoesFromNoteToTax(t *testing.T) {
	require.Equal(t, `Added a disconnect, job 7, 2026-03-12

Written
    jobs/7-shop/2026-03-12.md:5:1
      - Added a disconnect
    jobs/7-shop/2026-03-12.md:6:1
      - 45 min, Ines

Taken for
  extra
  why: under Extras
  confidence 0.95 of 1
  candidate: line A, 0.10: Hood lights

Authorization
  authorized by Ruth Amsel, on site, 10:40

Price
  labor Ines (45 min): 0.75 h x 98.00 = 73.50
    jobs/7-shop/2026-03-12.md:6:1
      - 45 min, Ines
  amount 73.50: authorized

Where the money stands
  ready to bill: 73.50: authorized by Ruth Amsel

Tax
  state 6 %: 73.50 x 0.06 = 4.41 on this line; in all 4.41 of 73.50 taxed that day
  figured on all taxed lines of the invoice together
`, explained(t, "2026-03-12/disconnect"))
}

func TestALineIsExplainedByItsLabelAndAnEntryByItsPlace(t *testing.T) {
	line := explained(t, "a")
	require.Contains(t, line, "jobs/7-shop/scope.md:1:1\n      | A | Hood lights | 4 |")
	require.Contains(t, line, "2026-03-12: 2 today, 2 of 4 ea to date, under way")
	require.Contains(t, line, "taken as in-scope (1.00): names line A")
	for _, ref := range []string{"2026-03-12.md:6", "jobs/7-shop/2026-03-12.md:5:3", "7-shop/2026-03-12.md:5"} {
		require.Contains(t, explained(t, ref), "extra 2026-03-12/disconnect: 73.50, authorized", ref)
	}
	require.Contains(t, explained(t, "2026-03-12.md:8"), "narrative: it is carried into the report as it stands")
}

func TestAnUnknownReferenceOffersWhatThereIs(t *testing.T) {
	in := Input{Jobs: []Job{jobWithExtra()}}
	for ref, want := range map[string]string{
		"2026-03-12/disconect":   `nothing is called "2026-03-12/disconect"; there is A, 2026-03-12/disconnect, 2026-03-12/lights`,
		"mixer-disconnect":       `nothing is called "mixer-disconnect"; there is 2026-03-12/disconnect`,
		"2026-03-12.md:4":        "no entry stands at 2026-03-12.md:4; there is 2026-03-12.md:2, 2026-03-12.md:5",
		"":                       `nothing is called ""; there is A, 2026-03-12/disconnect`,
		"2026-03-12.md:99999999": "no entry stands at 2026-03-12.md:99999999; there is 2026-03-12.md:2, 2026-03-12.md:5",
	} {
		_, err := Find(in, ref)
		require.EqualError(t, err, want)
	}
}

func TestJSONHasTheSameParts(t *testing.T) {
	chains, err := Find(Input{Jobs: []Job{jobWithExtra()}}, "2026-03-12/disconnect")
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, WriteJSON(&b, chains))
	var back []Chain
	require.NoError(t, json.Unmarshal(b.Bytes(), &back))
	require.Equal(t, chains, back)
}
