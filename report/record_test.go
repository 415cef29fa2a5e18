package report_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/report"
	"jobday/trade"
)

// recorded says, for each item public specifications ask of a contractor's daily record (the
// titles stand with each item in package trade), where the report of the full day shows it and
// with which words. A part is a section of the page; "plate" is its title block.
var recorded = map[string]struct {
	part  string
	words []string
}{
	"date":                         {"plate", []string{`<time datetime="2026-03-12">Thursday, March 12, 2026`}},
	"job":                          {"plate", []string{"Job 2431", "Proofing room and front counter", "14 Quay Lane"}},
	"report number in order":       {"plate", []string{"Daily report</p><b>1</b>"}},
	"the last report marked final": {"plate", []string{"FINAL"}},
	"contractor":                   {"plate", []string{"Sorrel &amp; Tate Electric", "3 Mill Yard"}},
	"each subcontractor and its area of work":               {"subcontractors", []string{"oven fitters, 2 men, hood and duct"}},
	"who worked, class and hours":                           {"hours", []string{"Ines", "journeyman", "07:00-15:30", "8 h", "Tobias", "7 h"}},
	"trades and head count":                                 {"hours", []string{"Trades on site: 1 journeyman, 1 apprentice"}},
	"work done, where and by whom":                          {"work", []string{"all four hood lights up, working", "by Ines, Tobias", "4 GFCIs at the counter"}},
	"work beyond the booked scope":                          {"extras", []string{"Added a disconnect for the dough mixer", "121.60"}},
	"change order number on each extra":                     {"extras", []string{"<dt>Change order</dt><dd>not numbered yet"}},
	"equipment with hours worked, idle and down":            {"equipment", []string{"scissor lift 3 h, idle 2 h"}},
	"materials received":                                    {"deliveries", []string{"4 LED fixtures from the supply house, one carton crushed"}},
	"materials used, with quantities":                       {"materials", []string{"10/2 MC", "52 <bdi class=\"u\">ft"}},
	"tests with results and the rule they are held against": {"tests", []string{"8.2 mA", "UL 943, class A", "outside limits"}},
	"deficiencies with the correction taken":                {"deficiencies", []string{"Open knockout or missing filler", "<dt>Standing</dt><dd>corrected"}},
	"status of deficiencies kept current":                   {"deficiencies", []string{"made safe for now, not corrected", "first reported 2026-03-12"}},
	"safety checks and what was done":                       {"safety", []string{"tailgate talk on the hot hood, locked out LP1 2/4"}},
	"instructions given or received, conflicts in plans":    {"instructions", []string{"keep the ovens on whatever happens"}},
	"delays and their cause":                                {"delays", []string{"oven fitters in the way", "1 h"}},
	"weather, temperature and site conditions":              {"conditions", []string{"rain until noon, 9 C"}},
	"photographs":  {"photos", []string{"photos/mixer-disconnect.png"}},
	"what is left": {"left", []string{"land the proofing circuit"}},
	"statement that the record shows good work and bad": {"sign", []string{"what is right and what is not"}},
	"signatures of both sides":                          {"sign", []string{"For Sorrel &amp; Tate Electric", "For Quay Lane Bakery", "Date and time handed over"}},
	"submittals reviewed and checks away from the site": {"footer", []string{"submittals reviewed and checks away from the site (kept by the office"}},
	"a report for every 7 days without work":            {"footer", []string{"a report for every 7 days without work (written by the office"}},
	"stock affidavit, invoices and payroll":             {"footer", []string{"stock affidavit, invoices and payroll (sent by the office"}},
}

// TestDailyRecordIsComplete checks the page item by item against what the specifications ask.
func TestDailyRecordIsComplete(t *testing.T) {
	parts := partsOf(string(render(t, report.HTML, fullDay(t))))
	for _, item := range trade.RecordItems() {
		t.Run(item.Item, func(t *testing.T) {
			at, known := recorded[item.Item]
			require.True(t, known, "asked by %s: say where the report shows it", strings.Join(item.AskedBy, "; "))
			for _, w := range at.words {
				assert.Contains(t, parts[at.part], w, "part %s", at.part)
			}
		})
	}
	assert.Len(t, recorded, len(trade.RecordItems()), "an item nobody asks for any more")
}

// partsOf cuts a page into its parts by the id of each.
func partsOf(page string) map[string]string {
	parts := map[string]string{
		"plate":  regexp.MustCompile(`(?s)<header.*?</header>`).FindString(page),
		"footer": regexp.MustCompile(`(?s)<footer>.*?</footer>`).FindString(page),
	}
	for _, m := range sections.FindAllStringSubmatch(page, -1) {
		parts[m[1]] = m[0]
	}
	return parts
}
