//go:build browser

package report_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/report"
)

// TestBrowserShowsAndPrintsDirectories opens cards as wide as a tablet and as narrow as a phone, and
// prints them: a card of up to 84 spaces is one sheet of its paper, and the page for the file another.
func TestBrowserShowsAndPrintsDirectories(t *testing.T) {
	axe, err := os.ReadFile(os.Getenv("AXE"))
	require.NoError(t, err)
	pages := map[string][]byte{}
	for _, paper := range report.Papers {
		usual, large := bakeryPanel(), bakeryPanel()
		large.Panel.Spaces, large.Panel.Phases = 84, 3
		usual.Paper, large.Paper = paper, paper
		pages["/usual-"+string(paper)] = writeDirectory(t, report.DirectoryHTML, usual)
		pages["/large-"+string(paper)] = writeDirectory(t, report.DirectoryHTML, large)
	}
	pages["/hostile-letter"] = writeDirectory(t, report.DirectoryHTML, hostilePanel())
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { _, _ = w.Write(pages[r.URL.Path]) }))
	t.Cleanup(server.Close)
	ctx := browser(t, func(format string, args ...any) { t.Errorf("the console: "+format, args...) })
	sizes := map[string]string{"letter": "612 792", "half": "396 612", "a4": "594.9"}
	for name := range pages {
		for _, width := range []int64{1024, 390} {
			checkPage(t, ctx, pageAt{server.URL + name, width, string(axe)})
		}
		if name == "/hostile-letter" {
			continue
		}
		pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
		require.NoError(t, err)
		assert.Len(t, regexp.MustCompile(`/Type /Page\b`).FindAll(pdf, -1), 2, name)
		boxes := regexp.MustCompile(`/MediaBox \[0 0 ([\d. ]+)\]`).FindSubmatch(pdf)
		require.NotNil(t, boxes, name)
		_, paper, _ := strings.Cut(name, "-")
		assert.True(t, strings.HasPrefix(string(boxes[1]), sizes[paper]), "%s is on %s", name, boxes[1])
	}
}
