package report_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/report"
	"jobday/review"
	"jobday/sheet"
)

// TestTheReviewLeadsToWhatItIsMadeOf follows every link of the page: each lands on a row of it, or on
// the report of a day that is among the extras and deficiencies.
func TestTheReviewLeadsToWhatItIsMadeOf(t *testing.T) {
	in := reviewed()
	in.Href = func(job string, d notes.Date) string { return "../reports/" + job + "/" + d.String() + ".html" }
	var page bytes.Buffer
	require.NoError(t, sheet.HTML(&page, report.Review(in)))
	html := page.String()
	for _, want := range []string{"1,180.00", "Rewired the sign &lt;b&gt;", "../reports/31/2026-03-02.html", "Nobody is told &amp; nothing is lost"} {
		assert.Contains(t, html, want)
	}
	assert.Equal(t, 0, strings.Count(html, "<b>"), "what a note says is shown, never run")
	for _, target := range targets(html) {
		assert.Contains(t, html, `id="`+target+`"`, "a link to #%s leads nowhere", target)
	}
}

// TestAnEmptyReviewSaysSo shows no chart of nothing.
func TestAnEmptyReviewSaysSo(t *testing.T) {
	var page bytes.Buffer
	in := report.ReviewInput{Review: review.Of(review.Input{Since: notes.MustDate("2026-03-01"), Until: notes.MustDate("2026-03-31")})}
	require.NoError(t, sheet.HTML(&page, report.Review(in)))
	assert.Contains(t, page.String(), "Nothing was found beyond scope in this time.")
	assert.Equal(t, 0, strings.Count(page.String(), `class="chart"`))
}

// targets returns the anchors a page links to within itself.
func targets(html string) []string {
	var all []string
	for _, part := range bytes.Split([]byte(html), []byte(`href="#`))[1:] {
		target, _, _ := bytes.Cut(part, []byte(`"`))
		all = append(all, string(target))
	}
	return all
}

// reviewed is a review of one job with two extras and an open hazard.
func reviewed() report.ReviewInput {
	day := notes.MustDate("2026-03-02")
	extra := func(id, work, amount string, state notes.ExtraState) notes.ExtraWork {
		return notes.ExtraWork{
			ID: day.String() + "/" + id, Work: work, Outcome: notes.ExtraDone, State: state, Found: day,
			Amount: notes.MustMoney(amount), Authorization: notes.Authorization{State: "none"},
		}
	}
	d := &notes.JobDay{
		Job: "31", Date: day, Crew: []string{"Ines"},
		Extras: []notes.ExtraWork{
			extra("sign", "Rewired the sign <b>", "1180.00", notes.NeedsAuthorization),
			extra("note", "Nobody is told & nothing is lost", "0.00", notes.NeedsPrice),
		},
		Deficiencies: []notes.DeficiencyRecord{{
			ID: day.String() + "/cover", Kind: "box-cover-missing", Title: "Box cover missing", Hazard: "shock",
			Severity: notes.Danger, State: notes.FaultLeft, Found: day,
		}},
	}
	in := review.Input{
		Jobs:  []review.Job{{Job: &notes.Job{Number: "31", Title: "Sign"}, Days: []*notes.JobDay{d}}},
		Since: day, Until: day.AddDays(8),
	}
	return report.ReviewInput{Review: review.Of(in), Company: &notes.Company{Name: "Sill Electric", Currency: "USD"}}
}
