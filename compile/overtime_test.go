package compile_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
)

// A person's day is one over all jobs: Ines is on job 2 from 7 to 11 and on job 1 from 12 to 18, so that
// the last two of her ten hours are overtime. On line A she was until 15:00, which is none of it; the
// extra from 15:00 to 18:00 is 1 h at 98.00 and 2 h at 140.00. It comes to the same whether or not only
// job 1 is asked for.
func TestOvertimeIsFiguredOverAllJobs(t *testing.T) {
	scope := "## Scope\n\n| Line | Work | Qty | Unit | Price |\n|---|---|---|---|---|\n| A | Trench to barn | 1 | ea | T&M |\n"
	var files []*finding.File
	for name, text := range map[string]string{
		"company.yaml": "name: A\npeople: {Ines: journeyman}\nclasses: {journeyman: {rate: 98.00, overtime: 140.00}}\n" +
			"overtime: {daily_over: 8 h, bill: true}\n",
		"jobs/1-barn/scope.md":      scope,
		"jobs/2-shop/scope.md":      scope,
		"jobs/2-shop/2026-03-12.md": "## Time\n- Ines 7:00-11:00\n",
		"jobs/1-barn/2026-03-12.md": "## Done\n- A: trenched, 3 h Ines\n\n## Extras\n- Set a heater for the barn, T&M, ok'd by Ruth on site\n  - Ines 15:00-18:00\n\n" +
			"## Time\n- Ines 12:00-18:00\n",
	} {
		files = append(files, finding.NewFile(name, []byte(text)))
	}
	for _, opt := range []compile.Options{{}, {Job: "1"}} {
		r := compile.Book(files, opt)
		j := r.Find("1")
		require.NotNil(t, j)
		require.NoError(t, notes.CheckJob(j.Days))
		assert.Equal(t, opt.Job == "", r.Find("2") != nil)
		amounts := map[string]string{}
		for _, l := range j.Days[0].Money.Ready.Lines {
			amounts[l.Ref] = l.Amount.String()
		}
		for _, e := range j.Days[0].Extras {
			amounts["extra"] = e.Amount.String()
		}
		assert.Equal(t, "378.00", amounts["extra"])
		assert.Equal(t, "294.00", amounts["A"])
	}
}
