package report_test

import (
	"bytes"
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/report"
	"jobday/sheet"
)

var (
	amount    = regexp.MustCompile(`[\d,]+\.\d\d\b`)
	unseen    = regexp.MustCompile(`(?s)<style>.*?</style>|<nav.*?</nav>|<a class="skip".*?</a>|<svg.*?</svg>|<img[^>]*>|<title>.*?</title>`)
	pageParts = regexp.MustCompile(`<h2[^>]*>(.*?)</h2>`)
)

// TestPaperHoldsWhatThePageHolds compares the office's day for paper with its page: every amount,
// every part with something in it and every line of the notes stands in both.
func TestPaperHoldsWhatThePageHolds(t *testing.T) {
	for _, in := range demoDays(t) {
		s, err := report.DaySheet(in)
		require.NoError(t, err)
		var text bytes.Buffer
		require.NoError(t, sheet.TextTo(&text, sheet.TextOptions{Width: 400}, s))
		page := html.UnescapeString(unseen.ReplaceAllString(string(render(t, report.HTML, in)), " "))
		for _, a := range amount.FindAllString(page, -1) {
			assert.Contains(t, text.String(), a, "%s %s", in.Day.Job, in.Day.Date)
		}
		for _, m := range pageParts.FindAllStringSubmatch(page, -1) {
			if title := m[1]; title != "In short" && title != "Photographs" {
				assert.Contains(t, text.String(), title, "%s %s", in.Day.Job, in.Day.Date)
			}
		}
		for _, d := range in.Day.Deficiencies {
			assert.Contains(t, text.String(), d.Title)
		}
		for _, n := range in.Day.Notes {
			if n.Source == nil {
				continue
			}
			for l := 1; l <= n.Source.Lines(); l++ {
				assert.Contains(t, text.String(), strings.TrimSpace(n.Source.LineSpan(l).Text()))
			}
		}
	}
}

func TestDaysAsPDFAreTheSameTwice(t *testing.T) {
	days := demoDays(t)
	var a, b bytes.Buffer
	require.NoError(t, report.DaysPDF(&a, days))
	require.NoError(t, report.DaysPDF(&b, days))
	assert.Equal(t, a.Bytes(), b.Bytes())
	assert.True(t, bytes.HasPrefix(a.Bytes(), []byte("%PDF-")))
	assert.Error(t, report.DaysPDF(&a, nil))
}
