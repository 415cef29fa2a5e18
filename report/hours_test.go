package report_test

import (
	"bytes"
	"encoding/csv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/hours"
	"jobday/notes"
	"jobday/report"
	"jobday/restock"
)

// A name that a spreadsheet would run is made safe (OWASP ASVS 5.0, 1.2.10), and a cost nobody gave
// is empty in the books and "no cost" on paper, never 0.00.
func TestATimeSheetIsSafeAndNeverFreeOfCharge(t *testing.T) {
	h := hours.Hours{Clock: 50, Regular: 50, Costless: 50}
	sheet := &hours.TimeSheet{
		Company: "Reed", Currency: "USD", Since: notes.MustDate("2026-03-09"), Until: notes.MustDate("2026-03-15"),
		Costless: []string{"=1+1 is in no labor class"},
		Weeks: []hours.Week{{Starts: notes.MustDate("2026-03-09"), Ends: notes.MustDate("2026-03-15"), People: []hours.Person{{
			Name: "=1+1", Total: h,
			Jobs: []hours.JobHours{{Job: "7", Title: "Panel\x1b[31m", ByDay: [7]notes.Minutes{50}, Total: h}},
			Days: []hours.Day{{Date: notes.MustDate("2026-03-09"), Job: "7", Hours: h}},
		}}}},
	}
	var page bytes.Buffer
	require.NoError(t, report.HoursCSV(&page, sheet))
	records, err := csv.NewReader(&page).ReadAll()
	require.NoError(t, err)
	require.Len(t, records, 2)
	assert.Equal(t, []string{"Reed", "2026-03-09", "2026-03-09", "'=1+1", "", "7", "50", "0", "0", "50", "0", "0.83", "0.00", "", "USD", ""}, records[1])

	page.Reset()
	require.NoError(t, report.HoursText(&page, sheet))
	assert.Contains(t, page.String(), "no cost *")
	assert.NotContains(t, page.String(), "\x1b")
}

func TestARestockListIsSafe(t *testing.T) {
	use := restock.Use{Job: "7", Date: notes.MustDate("2026-03-09"), Item: "@tape", Qty: notes.Quantity{Value: notes.Int(2), Unit: notes.Roll}}
	list := &restock.List{
		Currency: "USD", Rows: []restock.Row{{Code: "-7", Item: "+cable", Unit: notes.Foot, Used: notes.Int(3), Buy: notes.Int(3)}},
		Unnamed: []restock.Unnamed{{Use: use, Why: "no row of the price list fits", Text: "=2 rolls"}},
	}
	var page bytes.Buffer
	require.NoError(t, report.RestockCSV(&page, list))
	records, err := csv.NewReader(&page).ReadAll()
	require.NoError(t, err)
	require.Len(t, records, 3)
	assert.Equal(t, []string{"row", "'-7", "'+cable", "3", "ft", "", "", "3", "", "USD", "", "", "", "", ""}, records[1])
	assert.Equal(t, []string{"unnamed", "", "'@tape", "2", "roll", "", "", "", "", "USD", "7", "2026-03-09", "no row of the price list fits", "'=2 rolls", ""}, records[2])
}
