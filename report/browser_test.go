//go:build browser

package report_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/report"
)

// The browser and axe-core come from the environment: CHROMIUM and AXE, set by "make browser".
var picture = flag.String("picture", "", "write the picture of the report that README shows to this file")

// demoPages returns the HTML report of every day of the demo book.
func demoPages(t *testing.T) map[string][]byte {
	t.Helper()
	pages := map[string][]byte{}
	for _, in := range demoDays(t) {
		pages["/"+in.Day.Job+"-"+in.Day.Date.String()+".html"] = render(t, report.HTML, in)
	}
	return pages
}

func browser(t *testing.T, console func(string, ...any)) context.Context {
	t.Helper()
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(os.Getenv("CHROMIUM")),
		chromedp.NoSandbox, chromedp.DisableGPU, chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), opts...)
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 8*time.Minute)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx, chromedp.WithBrowserOption(chromedp.WithConsolef(console)))
	t.Cleanup(cancel)
	return ctx
}

// TestBrowserShowsEveryReport opens the report of every day of the demo in a browser, on a screen as
// wide as a tablet and as narrow as a phone: the page has its heading, says nothing on the console, fetches
// nothing, never scrolls sideways, and axe-core finds nothing against it.
func TestBrowserShowsEveryReport(t *testing.T) {
	axe, err := os.ReadFile(os.Getenv("AXE"))
	require.NoError(t, err)
	pages := demoPages(t)
	var mu sync.Mutex
	var said, fetched []string
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		page, ok := pages[r.URL.Path]
		if !ok && r.URL.Path != "/favicon.ico" {
			mu.Lock()
			fetched = append(fetched, r.URL.Path)
			mu.Unlock()
		}
		_, _ = w.Write(page)
	}))
	t.Cleanup(server.Close)
	ctx := browser(t, func(format string, args ...any) {
		mu.Lock()
		said = append(said, fmt.Sprintf(format, args...))
		mu.Unlock()
	})
	for name := range pages {
		for _, width := range []int64{1024, 390} {
			checkPage(t, ctx, pageAt{server.URL + name, width, string(axe)})
		}
	}
	mu.Lock()
	defer mu.Unlock()
	assert.Empty(t, said, "the console")
	for _, path := range fetched {
		assert.True(t, strings.HasPrefix(path, "/photos/") || strings.Contains(path, "/photos/"), "the page fetched %s", path)
	}
}

type pageAt struct {
	url   string
	width int64
	axe   string
}

func checkPage(t *testing.T, ctx context.Context, p pageAt) {
	t.Helper()
	where := fmt.Sprintf("%s, %d wide", p.url, p.width)
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(p.width, 900), chromedp.Navigate(p.url)), where)
	heading, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.querySelector("h1").textContent`))
	require.NoError(t, err, where)
	assert.NotEmpty(t, strings.TrimSpace(heading), where)
	sideways, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.documentElement.scrollWidth > document.documentElement.clientWidth`))
	require.NoError(t, err, where)
	assert.False(t, sideways, "%s scrolls sideways", where)
	_, err = chromedp.Run(ctx, chromedp.Evaluate[bool](p.axe+"\n;true"))
	require.NoError(t, err, where)
	against, err := chromedp.Run(ctx, chromedp.Evaluate[string](`axe.run().then(r => JSON.stringify(r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html).slice(0, 3).join(" | "))))`, chromedp.EvalAwaitPromise))
	require.NoError(t, err, where)
	var violations []string
	require.NoError(t, json.Unmarshal([]byte(against), &violations))
	assert.Empty(t, violations, where)
}

// TestBrowserDrawsThePicture writes the picture README shows, when asked to with -picture.
func TestBrowserDrawsThePicture(t *testing.T) {
	page, ok := demoPages(t)["/2431-2026-03-12.html"]
	require.True(t, ok)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = w.Write(page) }))
	t.Cleanup(server.Close)
	ctx := browser(t, t.Logf)
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(1000, 1250), chromedp.Navigate(server.URL)))
	png, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	require.NoError(t, err)
	require.Greater(t, len(png), 10_000)
	if *picture != "" {
		require.NoError(t, os.WriteFile(*picture, png, 0o644))
	}
}
