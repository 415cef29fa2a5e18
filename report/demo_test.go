package report_test

import (
	"io/fs"
	"path"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/report"
	"jobday/testdata/demo"
)

// demoDays compiles the demo book and returns its days as reports see them.
func demoDays(t *testing.T) []report.Input {
	t.Helper()
	var files []*finding.File
	require.NoError(t, fs.WalkDir(demo.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if ext := path.Ext(name); err != nil || d.IsDir() || ext == ".png" {
			return err
		}
		text, err := fs.ReadFile(demo.FS, name)
		files = append(files, finding.NewFile(name, text))
		return err
	}))
	var days []report.Input
	r := compile.Book(files, compile.Options{})
	for _, j := range r.Jobs {
		for _, d := range j.Days {
			days = append(days, report.Input{Day: d, Job: j.Job, Company: r.Company})
		}
	}
	return days
}

// TestDemoReports writes every day of the demo in every format: pages hold together, stay small,
// and the JSON fits its schema.
func TestDemoReports(t *testing.T) {
	schema := compiled(t)
	days := demoDays(t)
	require.NotEmpty(t, days)
	for _, in := range days {
		t.Run(in.Day.Job+" "+in.Day.Date.String(), func(t *testing.T) {
			page := render(t, report.HTML, in)
			checkLinks(t, string(page))
			assert.Less(t, len(page), 100_000)
			readCSV(t, render(t, writers["csv"], in))
			assert.NoError(t, schema.Validate(decode(t, render(t, writers["json"], in))))
			assert.NotEmpty(t, render(t, report.Markdown, in))
		})
	}
}

// TestDemoGolden keeps the letter and the summary of the demo's day that uses every section.
func TestDemoGolden(t *testing.T) {
	for _, in := range demoDays(t) {
		if in.Day.Job != "2440" || in.Day.Date != notes.MustDate("2026-04-08") {
			continue
		}
		for _, ending := range []string{"md", "txt"} {
			compareGolden(t, "testdata/demo."+ending+".golden", render(t, writers[ending], in))
		}
		return
	}
	t.Fatal("the demo has no such day")
}
