package compile_test

import (
	"bytes"
	"encoding/csv"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/notes"
	"jobday/report"
)

// TestInvoiceLinesReadBack reads the CSV with a strict RFC 4180 reader; the amounts of each report
// add up to its total.
func TestInvoiceLinesReadBack(t *testing.T) {
	inputs, totals := []report.Input{}, map[string]notes.Money{}
	r := compile.Book(demoFiles(t), compile.Options{})
	for _, j := range r.Jobs {
		for _, d := range j.Days {
			inputs = append(inputs, report.Input{Day: d, Job: j.Job, Company: r.Company})
			totals[d.Job+" "+d.Date.String()] = d.Money.Ready.Total
		}
	}
	var out bytes.Buffer
	require.NoError(t, report.InvoiceCSV(&out, inputs))
	require.Equal(t, strings.Count(out.String(), "\n"), strings.Count(out.String(), "\r\n"), "every record ends in CRLF")
	rd := csv.NewReader(&out)
	head, err := rd.Read()
	require.NoError(t, err)
	col := map[string]int{}
	for i, name := range head {
		col[name] = i
	}
	sums := map[string]notes.Money{}
	for {
		rec, err := rd.Read()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		amount, err := notes.ParseMoney(rec[col["amount"]])
		require.NoError(t, err)
		key := rec[col["job"]] + " " + rec[col["date"]]
		sums[key] = sums[key].Add(amount)
	}
	for key, total := range totals {
		assert.Equal(t, total.String(), sums[key].String(), key)
	}
}

// demoReport returns the Markdown report of one day of the demo.
func demoReport(t *testing.T, job, date string) string {
	t.Helper()
	r := compile.Book(demoFiles(t), compile.Options{})
	j := r.Find(job)
	require.NotNil(t, j)
	d := j.Day(notes.MustDate(date))
	require.NotNil(t, d)
	var out bytes.Buffer
	require.NoError(t, report.Markdown(&out, report.Input{Day: d, Job: j.Job, Company: r.Company}))
	return out.String()
}

// The public specifications that say what a contractor's daily record must hold.
const (
	qcRecords  = "Unified Facilities Guide Specifications 01451A, contractor quality control records"
	qcSystem   = "Unified Facilities Guide Specifications 01312A, quality control system, deficiency parts"
	missouri   = "Missouri Department of Transportation, Engineering Policy Guide 109.5"
	texas      = "Texas Department of Transportation, contract administration handbook, daily work report"
	columbia   = "Master Municipal Construction Documents (British Columbia), 4.4.6 daily force account reports"
	indian     = "Indian River County, force account records"
	dayworkUse = "daywork statement practice"
)

// dailyRecord is what they ask for, each with words of the demo's day that uses every section.
var dailyRecord = []struct {
	item, askedBy string
	words         []string
}{
	{"date, job, report number in order", missouri + "; " + texas, []string{"Wednesday, April 8, 2026", "Job 2440, daily report 2"}},
	{"each subcontractor and area of work", qcRecords, []string{"Alder Digging: trench with the mini digger"}},
	{"who worked, name, class, hours", columbia + "; " + dayworkUse + "; " + texas, []string{"Marek Dolin, foreman: **8 h**", "Wen Akarsu, apprentice: **8 h 30**"}},
	{"work done, where, what, by whom", qcRecords + "; " + texas, []string{"## Work done today", "3 of 6 vapor tights up over the stalls"}},
	{"trades and head count", qcRecords, []string{"Trades on site:"}},
	{"equipment with hours worked, idle", qcRecords + "; " + columbia + "; " + dayworkUse, []string{"mini digger 3 h worked, 2 h idle"}},
	{"material received", qcRecords + "; " + columbia, []string{"520 ft of 1/0 AL XHHW on a reel, received, good condition", "one vapor tight came in cracked, sent back"}},
	{"quantities used", dayworkUse, []string{"80 ft 2 in PVC"}},
	{"tests with results and reference", qcRecords, []string{"18.4 ohm", "limit:"}},
	{"deficiencies with the correction taken", qcRecords, []string{"splice outside a box above the door", "unplugged it and tagged it"}},
	{"deficiencies numbered, status kept", qcSystem, []string{"1. **", "2. **", "standing:"}},
	{"safety check, results", qcRecords, []string{"trench fenced with tape overnight", "toolbox talk: trench edges"}},
	{"instructions given or received", qcRecords, []string{"keep the gate to the ram pen shut", "office told us not to backfill"}},
	{"weather, with the temperature", qcRecords + "; " + texas, []string{"dry, 51 F, light wind"}},
	{"delays", qcRecords, []string{"inspector did not come, 2 h, county"}},
	{"site conditions", columbia, []string{"sheep in the north half of the barn"}},
	{"photographs", columbia, []string{"## Photographs"}},
	{"change order number on each extra", missouri, []string{"change order not numbered yet"}},
	{"statement that the record is complete and correct", qcRecords, []string{"## Statement and signatures"}},
	{"signatures of both sides", indian + "; " + columbia, []string{"For Lanternmoor Electric, name, signature", "For Fenn Hollow Farm, name, signature"}},
}

// TestADaysReportIsADailyRecord checks one day's report item by item. What these specifications ask of
// a job rather than of a day (submittals, payroll, a report for each week without work) is not in it.
func TestADaysReportIsADailyRecord(t *testing.T) {
	page := demoReport(t, "2440", "2026-04-08")
	for _, row := range dailyRecord {
		for _, w := range row.words {
			assert.Contains(t, page, w, "%s, asked by %s", row.item, row.askedBy)
		}
	}
}

// TestAnEmptyPartSaysNone: what a day has nothing of is said, never left blank.
func TestAnEmptyPartSaysNone(t *testing.T) {
	page := demoReport(t, "2452", "2026-05-04")
	for _, part := range []string{"Deficiencies", "Tests", "Circuits", "Deliveries", "Equipment", "Delays", "Photographs"} {
		_, after, found := strings.Cut(page, "\n## "+part)
		require.True(t, found, part)
		body, _, _ := strings.Cut(after, "\n## ")
		assert.Contains(t, body, "None.", part)
	}
	assert.Contains(t, demoReport(t, "2452", "2026-05-07"), "FINAL")
}
