//go:build browser

package report_test

import (
	"bytes"
	"context"
	"fmt"
	"html"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/report"
	"jobday/sheet"
	"jobday/testdata/demo"
)

// demoShop is the demo book with its photographs.
func demoShop(t *testing.T) shop {
	t.Helper()
	var files []*finding.File
	require.NoError(t, fs.WalkDir(demo.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) == ".png" || strings.HasPrefix(name, "jobs/") && !strings.HasPrefix(name, "jobs/2431") {
			return err
		}
		text, err := fs.ReadFile(demo.FS, name)
		files = append(files, finding.NewFile(name, text))
		return err
	}))
	return shopOf(t, func(name string) ([]byte, error) { return fs.ReadFile(demo.FS, "jobs/2431-quay-bakery/"+name) }, files...)
}

// shops are the books whose documents are looked at.
func shops(t *testing.T) map[string]shop {
	all := map[string]shop{"demo": demoShop(t), "empty": roughShop(t, "plain", true)}
	for name, words := range rough {
		all[strings.ReplaceAll(name, " ", "-")] = roughShop(t, words, false)
	}
	return all
}

// served gives pages to a browser whose console must stay silent.
func served(t *testing.T, pages map[string][]byte) (context.Context, string) {
	t.Helper()
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { _, _ = w.Write(pages[r.URL.Path]) }))
	t.Cleanup(server.Close)
	return browser(t, func(format string, args ...any) { t.Errorf("the console: "+format, args...) }), server.URL
}

// TestBrowserShowsEveryKindOfPage opens every kind of document of the demo and of rough days on a
// phone, a tablet and a desk, in light and in dark: heading, console, no scrolling sideways, axe-core.
func TestBrowserShowsEveryKindOfPage(t *testing.T) {
	axe, err := os.ReadFile(os.Getenv("AXE"))
	require.NoError(t, err)
	pages := map[string][]byte{}
	for name, s := range shops(t) {
		pages["/"+name+"/report"] = render(t, report.HTML, s.last)
		var index bytes.Buffer
		require.NoError(t, report.Index(&index, []report.IndexRow{{Input: s.last, Href: "report.html"}}))
		pages["/"+name+"/index"] = index.Bytes()
		for kind, doc := range s.documents(t) {
			var b bytes.Buffer
			require.NoError(t, sheet.HTML(&b, doc))
			pages["/"+name+"/"+kind] = b.Bytes()
		}
	}
	for name, page := range pages {
		if strings.HasPrefix(name, "/demo/") { // as on a screen that asks for dark
			const asked = "@media (prefers-color-scheme:dark)"
			require.Contains(t, string(page), asked)
			pages["/dark"+name] = bytes.Replace(page, []byte(asked), []byte("@media all"), 1)
		}
	}
	ctx, url := served(t, pages)
	for name := range pages {
		widths := []int64{390}
		if strings.HasPrefix(name, "/demo/") {
			widths = []int64{1200, 800, 390}
		}
		for _, width := range widths {
			checkPage(t, ctx, pageAt{url + name, width, string(axe)})
		}
	}
}

// TestBrowserOpensALongReport opens a report of 300 entries, prints it, and tells how long it takes from
// asking to being laid out: the best of five goes. The goal is a second on a quiet machine; the bound
// only catches a page that grew out of all measure, for machines differ.
func TestBrowserOpensALongReport(t *testing.T) {
	var note strings.Builder
	note.WriteString("---\ncrew: [Ada]\n---\n\n## Done\n")
	for n := range 300 {
		fmt.Fprintf(&note, "- %d: 2 of 4 receptacles in room %d, boxes set and made up\n", n%200+1, n)
	}
	s := shopOf(t, nil, append(roughFiles("plain"), finding.NewFile("jobs/7-rough/2026-03-04.md", []byte(note.String())))...)
	require.GreaterOrEqual(t, len(s.last.Day.Entries), 300)
	page := render(t, report.HTML, s.last)
	ctx, url := served(t, map[string][]byte{"/long": page})
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(800, 900)))
	best := time.Hour
	for range 5 {
		require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(url+"/long")))
		took, err := chromedp.Run(ctx, chromedp.Evaluate[float64](`(document.body.offsetHeight, performance.now())`))
		require.NoError(t, err)
		best = min(best, time.Duration(took*float64(time.Millisecond)))
	}
	t.Logf("a report of %d entries, %d kB, is laid out %v after it was asked for", len(s.last.Day.Entries), len(page)/1000, best.Round(time.Millisecond))
	assert.Less(t, best, 10*time.Second)
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "long.pdf")
	require.NoError(t, os.WriteFile(file, pdf, 0o644))
	text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	require.NoError(t, err)
	for n := range 300 {
		assert.Contains(t, string(text), fmt.Sprintf("in room %d,", n))
	}
}

var notWords = regexp.MustCompile(`(?s)<style>.*?</style>|<svg.*?</svg>|<title>.*?</title>|<span class="vh">.*?</span>|<[^>]*>`)

// TestBrowserAndPaperOfEveryKind has the PDF of every kind of document, on every paper, checked by
// qpdf and read by pdftotext (Poppler): of the demo's, the words are those of the page.
func TestBrowserAndPaperOfEveryKind(t *testing.T) {
	dir := t.TempDir()
	for name, s := range shops(t) {
		for kind, doc := range s.documents(t) {
			for _, paper := range sheet.Papers {
				if name != "demo" && paper != sheet.A5 {
					continue // rough words are hardest on the smallest paper
				}
				doc.Paper = paper
				var pdf, page bytes.Buffer
				require.NoError(t, sheet.PDF(&pdf, doc))
				require.NoError(t, sheet.HTML(&page, doc))
				file := filepath.Join(dir, name+kind+string(paper)+".pdf")
				require.NoError(t, os.WriteFile(file, pdf.Bytes(), 0o644))
				out, err := exec.Command("qpdf", "--check", file).CombinedOutput()
				assert.NoError(t, err, "%s %s: %s", name, kind, out)
				text, err := exec.Command("pdftotext", "-raw", file, "-").Output()
				require.NoError(t, err)
				if name == "demo" {
					assert.Empty(t, lost(page.String(), string(text)), "%s on %s", kind, paper)
				}
			}
		}
	}
}

// lost is the words of a page that a text lacks. A word parted at the end of a line is there.
func lost(page, text string) []string {
	joined := strings.Join(strings.Fields(text), "")
	var out []string
	for _, w := range strings.Fields(html.UnescapeString(notWords.ReplaceAllString(page, " "))) {
		if !strings.Contains(joined, w) {
			out = append(out, w)
		}
	}
	return out
}
