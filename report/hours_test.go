package report_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/hours"
	"jobday/notes"
	"jobday/report"
	"jobday/restock"
	"jobday/sheet"
)

// A name that a spreadsheet would run is made safe (OWASP ASVS 5.0, 1.2.10), and a cost nobody gave
// is empty in the books and "no cost" on paper, never 0.00.
func TestATimeSheetIsSafeAndNeverFreeOfCharge(t *testing.T) {
	h := hours.Hours{Clock: 50, Regular: 50, Costless: 50}
	times := &hours.TimeSheet{
		Company: "Reed", Currency: "USD", Since: notes.MustDate("2026-03-09"), Until: notes.MustDate("2026-03-15"),
		Costless: []string{"=1+1 is in no labor class"},
		Weeks: []hours.Week{{Starts: notes.MustDate("2026-03-09"), Ends: notes.MustDate("2026-03-15"), People: []hours.Person{{
			Name: "=1+1", Total: h,
			Jobs: []hours.JobHours{{Job: "7", Title: "Panel\x1b[31m", ByDay: [7]notes.Minutes{50}, Total: h}},
			Days: []hours.Day{{Date: notes.MustDate("2026-03-09"), Job: "7", Hours: h}},
		}}}},
	}
	var page bytes.Buffer
	require.NoError(t, report.HoursCSV(&page, times))
	records, err := csv.NewReader(&page).ReadAll()
	require.NoError(t, err)
	require.Len(t, records, 2)
	assert.Equal(t, []string{"Reed", "2026-03-09", "2026-03-09", "'=1+1", "", "7", "50", "0", "0", "50", "0", "0.83", "0.00", "", "USD", ""}, records[1])

	page.Reset()
	require.NoError(t, report.HoursText(&page, times, nil))
	assert.Contains(t, page.String(), "no cost *")
	assert.NotContains(t, page.String(), "\x1b")
}

// A time sheet and a restock list have the figures and dates of the company's readers.
func TestListsOfTheHouseAreWrittenForItsReaders(t *testing.T) {
	company := &notes.Company{Name: "Reed", Locale: "de-DE"}
	cost := notes.MustMoney("1234.50")
	day := notes.MustDate("2026-03-09")
	h := hours.Hours{Clock: 60, Regular: 60, Cost: cost}
	times := &hours.TimeSheet{Currency: "EUR", Since: day, Until: day, Weeks: []hours.Week{{Starts: day, Ends: day.AddDays(6), People: []hours.Person{{Name: "Ada", Total: h}}}}}
	stock := &restock.List{Currency: "EUR", Since: day, Until: day, Rows: []restock.Row{{Code: "C", Item: "cable", Unit: notes.Foot, Used: notes.Int(1250), Buy: notes.Int(1250), Cost: &cost}}}
	var page bytes.Buffer
	require.NoError(t, sheet.HTML(&page, report.HoursSheet(times, company), report.RestockSheet(stock, company)))
	for _, want := range []string{"1.234,50", "9. März 2026", "1.250 ft"} {
		assert.Contains(t, page.String(), want)
	}
	page.Reset()
	require.NoError(t, report.HoursText(&page, times, company))
	require.NoError(t, report.RestockText(&page, stock, company))
	assert.Equal(t, 3, strings.Count(page.String(), "1.234,50"), "of the person, of all, of the list")
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
