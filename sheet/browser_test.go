//go:build browser

package sheet_test

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/sheet"
)

// The browser and axe-core come from the environment: CHROMIUM and AXE, set by "make browser". It
// needs pdftotext and qpdf too.

// TestBrowserShowsEverySheet opens sheets on a phone, a tablet and a desk: nothing on the console,
// no scrolling sideways, and axe-core finds nothing against them.
func TestBrowserShowsEverySheet(t *testing.T) {
	axe, err := os.ReadFile(os.Getenv("AXE"))
	require.NoError(t, err)
	pages := map[string][]byte{}
	for name, s := range map[string]sheet.Sheet{"/order": order(), "/review": review(), "/hostile": everything(strings.Repeat("x", 400)), "/markup": everything(hostile[5])} {
		if strings.HasPrefix(name, "/h") || strings.HasPrefix(name, "/m") {
			s.Lang = "en"
			s = withoutIDs(s)
		}
		var b bytes.Buffer
		require.NoError(t, sheet.HTML(&b, s))
		pages[name] = b.Bytes()
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { _, _ = w.Write(pages[r.URL.Path]) }))
	t.Cleanup(server.Close)
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(os.Getenv("CHROMIUM")),
		chromedp.NoSandbox, chromedp.DisableGPU, chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), opts...)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 3*time.Minute)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx, chromedp.WithBrowserOption(chromedp.WithConsolef(func(f string, a ...any) { t.Errorf("the console: "+f, a...) })))
	t.Cleanup(cancel)
	for name := range pages {
		for _, width := range []int64{1200, 800, 390} {
			require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(server.URL+name)))
			sideways, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.documentElement.scrollWidth > document.documentElement.clientWidth`))
			require.NoError(t, err)
			wide, err := chromedp.Run(ctx, chromedp.Evaluate[string](`(() => { const w = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), out = [], r = document.createRange()
				for (let n; n = w.nextNode();) { r.selectNodeContents(n); if (r.getBoundingClientRect().right > document.documentElement.clientWidth) out.push(n.parentNode.outerHTML.slice(0, 60) + " in " + n.parentNode.parentNode.parentNode.outerHTML.slice(0, 120)) }
				return out.slice(0, 5).join("\n") })()`))
			require.NoError(t, err)
			assert.False(t, sideways, "%s scrolls sideways, %d wide: %s", name, width, wide)
			_, err = chromedp.Run(ctx, chromedp.Evaluate[bool](string(axe)+"\n;true"))
			require.NoError(t, err)
			against, err := chromedp.Run(ctx, chromedp.Evaluate[string](`axe.run().then(r => JSON.stringify(r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html).slice(0, 3).join(" | "))))`, chromedp.EvalAwaitPromise))
			require.NoError(t, err)
			var violations []string
			require.NoError(t, json.Unmarshal([]byte(against), &violations))
			assert.Empty(t, violations, "%s, %d wide", name, width)
		}
	}
}

// withoutIDs gives what has an id one of its own: the same word everywhere is no sheet anybody makes.
func withoutIDs(s sheet.Sheet) sheet.Sheet {
	for i, b := range s.Blocks {
		switch b := b.(type) {
		case sheet.Heading:
			b.ID = ""
			s.Blocks[i] = b
		case sheet.Table:
			for j := range b.Rows {
				b.Rows[j].ID = ""
			}
		case sheet.Lines:
			b.ID, b.Rows[0].ID = "", ""
			s.Blocks[i] = b
		}
	}
	return s
}

// TestBrowserAndPaperSayTheSame has the text of PDFs read by pdftotext (Poppler) and compares its
// words with those of the page, and has their structure checked by qpdf.
func TestBrowserAndPaperSayTheSame(t *testing.T) {
	dir := t.TempDir()
	for name, s := range map[string]sheet.Sheet{"order": order(), "review": review(), "hostile": everything(hostile[12]), "long": everything(hostile[3])} {
		for _, paper := range sheet.Papers {
			s.Paper = paper
			path := filepath.Join(dir, name+string(paper)+".pdf")
			var pdf, page bytes.Buffer
			require.NoError(t, sheet.PDF(&pdf, s))
			require.NoError(t, sheet.HTML(&page, s))
			require.NoError(t, os.WriteFile(path, pdf.Bytes(), 0o644))
			out, err := exec.Command("qpdf", "--check", path).CombinedOutput()
			assert.NoError(t, err, "%s", out)
			text, err := exec.Command("pdftotext", "-raw", path, "-").Output()
			require.NoError(t, err)
			if name == "order" || name == "review" {
				assert.Empty(t, missing(wordsOf(page.String()), string(text)), "%s on %s", name, paper)
			}
		}
	}
}

var (
	notRead = regexp.MustCompile(`(?s)<style>.*?</style>|<svg.*?</svg>|<title>.*?</title>|<desc.*?</desc>|<span class="vh">.*?</span>|<[^>]*>`)
	entity  = strings.NewReplacer("&#39;", "'", "&#34;", `"`, "&amp;", "&", "&lt;", "<", "&gt;", ">")
)

// wordsOf is the words of a page without its markup.
func wordsOf(page string) []string {
	return strings.Fields(entity.Replace(notRead.ReplaceAllString(page, " ")))
}

// missing is the words that a text does not have.
func missing(words []string, text string) []string {
	have := map[string]bool{}
	for _, w := range strings.Fields(text) {
		have[w] = true
	}
	var out []string
	for _, w := range words {
		if !have[w] {
			out = append(out, w)
		}
	}
	return out
}
