package report_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/report"
	"jobday/sheet"
	"jobday/trade"
)

// fault is a deficiency of a kind of the catalogue.
func fault(kind, id string, change func(*notes.DeficiencyRecord)) notes.DeficiencyRecord {
	k, _ := trade.KindOf(kind)
	rec := notes.DeficiencyRecord{
		ID: id, Kind: kind, Title: k.Title, Hazard: k.Hazard, Severity: k.Severity, State: notes.FaultFound, Rules: k.RulesFor("2020"),
		Why: k.Why, Correction: k.Correction, Caution: k.Caution, FollowUp: k.Correction, Found: notes.MustDate(id[:10]),
		From: []notes.Source{{File: "jobs/7-quay/" + id[:10] + ".md", Line: 3, Column: 3}},
	}
	if change != nil {
		change(&rec)
	}
	return rec
}

// quay is a job of two days: one deficiency put right on the second, one declined, one nobody knows.
func quay() report.FaultJob {
	panel := fault("panel-front-missing", "2026-03-12/cooler-disconnect", func(d *notes.DeficiencyRecord) {
		d.State, d.Told, d.Where, d.Text = notes.FaultMadeSafe, "Ruth Amsel", "cooler", "cooler disconnect has no cover, live parts; made safe with tape and a tag, told Ruth"
		d.Photo = []string{"photos/cooler-1.jpg"}
	})
	burnt := fault("burnt-termination", "2026-03-12/burnt-lug", nil)
	mended := burnt
	mended.State, mended.How, mended.At = notes.FaultCorrected, "as an extra", notes.MustDate("2026-03-13")
	declined := fault("no-gfci", "2026-03-10/bar-sink-gfci", func(d *notes.DeficiencyRecord) {
		d.State, d.By, d.At, d.Where = notes.FaultDeclined, "Ruth Amsel", notes.MustDate("2026-03-12"), "bar sink"
	})
	odd := fault("", "2026-03-12/hum-in-wall", func(d *notes.DeficiencyRecord) {
		d.Title, d.Text, d.Hazard, d.Severity, d.Caution = "=hum in the wall | <b>behind</b> the fryer", "=hum in the wall | <b>behind</b> the fryer", trade.ToBeJudged, notes.Hazard, trade.GeneralCaution()
	})
	label := fault("directory-missing", "2026-03-10/lp1-directory", nil)
	return report.FaultJob{
		Job: &notes.Job{Number: "7", Title: "Front counter", Customer: "Quay Lane Bakery", Site: "14 Quay Lane"},
		Days: []*notes.JobDay{
			{Date: notes.MustDate("2026-03-10"), Deficiencies: []notes.DeficiencyRecord{declined, label}},
			{Date: notes.MustDate("2026-03-12"), Deficiencies: []notes.DeficiencyRecord{declined, label, panel, burnt, odd}},
			{Date: notes.MustDate("2026-03-13"), Deficiencies: []notes.DeficiencyRecord{declined, label, panel, mended, odd}},
		},
	}
}

func barn() report.FaultJob {
	return report.FaultJob{Job: &notes.Job{Number: "12", Title: "Barn"}, Days: []*notes.JobDay{
		{Date: notes.MustDate("2026-02-02"), Deficiencies: []notes.DeficiencyRecord{fault("knockout-open", "2026-02-02/ko", nil)}},
		{Date: notes.MustDate("2026-04-01"), Deficiencies: []notes.DeficiencyRecord{fault("cord-damaged", "2026-04-01/cord", nil), fault("knockout-open", "2026-02-02/ko", nil)}},
	}}
}

func TestOpenDeficienciesByHazardSeverityAndAge(t *testing.T) {
	ids := func(until string, all bool) []string {
		var list []string
		for _, r := range report.Deficiencies([]report.FaultJob{quay(), barn()}, notes.MustDate(until), all).Rows {
			list = append(list, r.ID)
		}
		return list
	}
	assert.Equal(t, []string{
		"2026-03-12/cooler-disconnect", "2026-04-01/cord", "2026-02-02/ko", "2026-03-10/bar-sink-gfci", "2026-03-12/hum-in-wall", "2026-03-10/lp1-directory",
	}, ids("2026-05-01", false), "shock first for its dangers, in it the gravest first and then the oldest")
	assert.Equal(t, []string{"2026-02-02/ko"}, ids("2026-03-01", false), "notes after the day do not count")
	assert.Contains(t, ids("2026-03-12", false), "2026-03-12/burnt-lug")
	assert.NotContains(t, ids("2026-03-13", false), "2026-03-12/burnt-lug", "what was put right is open no more")
	assert.Contains(t, ids("2026-05-01", true), "2026-03-12/burnt-lug")
	assert.Empty(t, ids("2026-01-01", true))
	for _, r := range report.Deficiencies([]report.FaultJob{barn()}, notes.MustDate("2026-04-02"), false).Rows {
		assert.Equal(t, map[string]string{"2026-04-01/cord": "open 1 day", "2026-02-02/ko": "open 59 days"}[r.ID], r.Age())
	}
}

func TestDeficienciesGolden(t *testing.T) {
	list := report.Deficiencies([]report.FaultJob{quay(), barn()}, notes.MustDate("2026-04-02"), true)
	for ending, write := range map[string]func(io.Writer, report.FaultList) error{
		"txt": report.DeficienciesText, "md": report.DeficienciesMarkdown, "csv": report.DeficienciesCSV, "json": report.DeficienciesJSON,
	} {
		var b bytes.Buffer
		require.NoError(t, write(&b, list))
		compareGolden(t, filepath.Join("testdata", "deficiencies."+ending+".golden"), b.Bytes())
		if ending != "csv" {
			assert.Contains(t, b.String(), trade.CodePointer(), ending)
		}
		assert.NotRegexp(t, `\b[Ss]afe\b`, strings.ReplaceAll(b.String(), "made safe", ""), ending)
	}
	var page bytes.Buffer
	require.NoError(t, report.DeficienciesCSV(&page, list))
	records, err := csv.NewReader(&page).ReadAll()
	require.NoError(t, err)
	assert.Len(t, records, 1+len(list.Rows))
	for _, r := range records {
		assert.False(t, strings.HasPrefix(r[4], "="), "no spreadsheet may take a note for a formula")
	}
	page.Reset()
	require.NoError(t, report.DeficienciesJSON(&page, list))
	assert.True(t, json.Valid(page.Bytes()))
}

func TestNoticeGolden(t *testing.T) {
	company := &notes.Company{Name: "Lanternmoor Electric", Address: []string{"9 Weir Lane, Lanternmoor"}, Contact: "555-0142"}
	n, err := report.NewNotice(company, quay(), notes.MustDate("2026-03-13"))
	require.NoError(t, err)
	for ending, write := range map[string]func(io.Writer, sheet.Sheet, ...sheet.Sheet) error{"html": sheet.HTML, "md": sheet.Markdown} {
		var b bytes.Buffer
		require.NoError(t, write(&b, n.Sheet()))
		compareGolden(t, filepath.Join("testdata", "notice."+ending+".golden"), b.Bytes())
		for _, must := range []string{
			"photos/cooler-1.jpg", "Live bus and lugs are open to touch", "Correction declined by Ruth Amsel on 2026-03-12", "leave it as it is", "as an extra",
			"approves no price", "authority having jurisdiction", "Only qualified persons",
		} {
			assert.Contains(t, b.String(), must, ending)
		}
		assert.NotRegexp(t, `[^\\]<b>behind`, b.String(), "text of a note is never markup")
	}
	_, err = report.NewNotice(company, report.FaultJob{}, notes.MustDate("2026-03-13"))
	assert.Error(t, err)
	empty, err := report.NewNotice(nil, report.FaultJob{Job: &notes.Job{Number: "9"}}, notes.MustDate("2026-03-13"))
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, sheet.HTML(&b, empty.Sheet()))
	assert.Contains(t, b.String(), "That is no finding that there is nothing")
}
