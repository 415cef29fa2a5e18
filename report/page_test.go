package report_test

import (
	"bytes"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/report"
	"jobday/templates"
)

var (
	hrefs    = regexp.MustCompile(`href="([^"]*)"`)
	ids      = regexp.MustCompile(` id="([^"]*)"`)
	sections = regexp.MustCompile(`(?s)<section id="([a-z]+)".*?\n</section>`)
	foreign  = regexp.MustCompile(`<(script|img|iframe|object|embed|link|base|form|b>x<)`)
)

func TestPageLinksOnlyIntoItself(t *testing.T) {
	for name, fixture := range fixtures {
		t.Run(name, func(t *testing.T) {
			page := string(render(t, report.HTML, fixture(t)))
			checkLinks(t, page)
			assert.Empty(t, foreign.FindString(page), "markup from a note")
		})
	}
}

// checkLinks holds a page to ids that stand once and links that lead to one of them.
func checkLinks(t *testing.T, page string) {
	t.Helper()
	known := map[string]bool{}
	for _, m := range ids.FindAllStringSubmatch(page, -1) {
		assert.False(t, known[m[1]], "id %q stands twice", m[1])
		known[m[1]] = true
	}
	for _, m := range hrefs.FindAllStringSubmatch(page, -1) {
		assert.True(t, strings.HasPrefix(m[1], "#") && known[m[1][1:]], "link to %q", m[1])
	}
}

func TestEveryFigureOfTheDayLinksToItsLine(t *testing.T) {
	in := fullDay(t)
	page := string(render(t, report.HTML, in))
	for _, from := range sources(in.Day) {
		for _, s := range from {
			if strings.HasSuffix(s.File, "2026-03-10.md") {
				assert.Contains(t, page, "2026-03-10.md:"+strconv.Itoa(s.Line))
				continue
			}
			note := map[bool]string{true: "n2", false: "n1"}[strings.HasSuffix(s.File, "tobias.md")]
			assert.Contains(t, page, `<a href="#`+note+"-L"+strconv.Itoa(s.Line)+`">`)
		}
	}
}

// sources are the places of everything in the day that carries a figure or words.
func sources(d *notes.JobDay) [][]notes.Source {
	var all [][]notes.Source
	for _, l := range d.Scope {
		all = append(all, l.From)
	}
	for _, x := range d.Extras {
		all = append(all, x.From)
		for _, p := range x.Pricing {
			all = append(all, p.From)
		}
	}
	for _, x := range d.Deficiencies {
		all = append(all, x.From)
	}
	for _, x := range d.Tests {
		all = append(all, x.From)
	}
	for _, x := range d.Circuits {
		all = append(all, x.From)
	}
	for _, x := range d.Materials {
		all = append(all, x.From)
	}
	for _, x := range d.Labor {
		all = append(all, x.From)
	}
	for _, x := range d.Money.Ready.Lines {
		all = append(all, x.From)
	}
	for _, x := range append(d.Money.Held, d.Money.NotBilled...) {
		all = append(all, x.From)
	}
	for _, list := range [][]notes.Standing{d.Left, d.Questions, d.Narrative, d.Deliveries, d.Equipment,
		d.Delays, d.Instructions, d.Safety, d.Conditions, d.Subcontractors} {
		for _, x := range list {
			all = append(all, x.From)
		}
	}
	return all
}

// TestEmptyPartsSayNone holds the report to the rule of daily records: an empty part says so.
func TestEmptyPartsSayNone(t *testing.T) {
	page := string(render(t, report.HTML, emptyDay(t)))
	found := sections.FindAllStringSubmatch(page, -1)
	require.Greater(t, len(found), 20)
	for _, m := range found {
		if m[1] != "answers" && m[1] != "sign" {
			assert.Contains(t, m[0], "None.", "part %s", m[1])
		}
	}
	letter := string(render(t, report.Markdown, emptyDay(t)))
	for _, part := range strings.Split(letter, "\n## ")[1:] {
		if !strings.HasPrefix(part, "Statement") {
			assert.Contains(t, part, "\nNone.\n")
		}
	}
}

func TestPageOfAUsualDayIsSmall(t *testing.T) {
	assert.Less(t, len(render(t, report.HTML, fullDay(t))), 100_000)
}

func TestWrittenTextIsShownAsWritten(t *testing.T) {
	in := hostileDay(t)
	page := string(render(t, report.HTML, in))
	assert.Contains(t, page, "&lt;script&gt;alert(1)&lt;/script&gt;")
	assert.Contains(t, page, "{{.Title}} &lt;/style&gt;&lt;/title&gt;")
	assert.NotContains(t, page, "\x1b")
	assert.NotContains(t, strings.ToLower(page), "<script")
}

// TestContrast computes the contrast of text on its ground by the formula of WCAG 2.2 ("relative
// luminance", "contrast ratio") and holds it to success criterion 1.4.3: 4.5 to 1 for text.
func TestContrast(t *testing.T) {
	css, err := templates.Files.ReadFile("base.css")
	require.NoError(t, err)
	grounds := regexp.MustCompile(`(?s):root\{[^}]*\}`).FindAllString(string(css), -1)
	require.Len(t, grounds, 3, "light, dark and paper")
	for i, ground := range grounds {
		colors := map[string]string{}
		for _, m := range regexp.MustCompile(`--([a-z]+):(#[0-9a-f]+)`).FindAllStringSubmatch(ground, -1) {
			colors[m[1]] = m[2]
		}
		for _, text := range []string{"ink", "soft", "wire", "go", "hold", "stop", "calm"} {
			for _, on := range []string{"paper", "wash"} {
				got := contrast(t, colors[text], colors[on])
				assert.GreaterOrEqual(t, got, 4.5, "scheme %d: %s on %s", i, text, on)
			}
		}
	}
	assert.InDelta(t, 21, contrast(t, "#000", "#fff"), 1e-9) // the greatest ratio there is, by the same text
}

func contrast(t *testing.T, a, b string) float64 {
	high, low := luminance(t, a), luminance(t, b)
	if high < low {
		high, low = low, high
	}
	return (high + 0.05) / (low + 0.05)
}

func luminance(t *testing.T, hex string) float64 {
	hex = strings.TrimPrefix(hex, "#")
	if len(hex) == 3 {
		hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	}
	n, err := strconv.ParseUint(hex, 16, 32)
	require.NoError(t, err)
	channel := func(shift int) float64 {
		c := float64(n>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*channel(16) + 0.7152*channel(8) + 0.0722*channel(0)
}

// broken fails every write.
type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestFailures(t *testing.T) {
	for ending, write := range writers {
		assert.EqualError(t, write(broken{}, fullDay(t)), "disk full", ending)
		if ending == "json" {
			continue
		}
		var out bytes.Buffer
		assert.Error(t, write(&out, report.Input{}), ending)
		assert.Empty(t, out.Bytes(), ending)
	}
	assert.Error(t, report.JSON(io.Discard, []*notes.JobDay{nil}))
}

func TestIndex(t *testing.T) {
	full := fullDay(t)
	var out bytes.Buffer
	require.NoError(t, report.Index(&out, []report.IndexRow{
		{Input: full, Href: "2431-2026-03-12.html"}, {Input: emptyDay(t), Href: `2440"><script>.html`},
	}))
	page := out.String()
	assert.Contains(t, page, `<a href="2431-2026-03-12.html">Report 1</a> <b class="mark">final</b>`)
	assert.NotContains(t, page, "<script")
	compareGolden(t, "testdata/index.html.golden", out.Bytes())
	require.NoError(t, report.Index(io.Discard, nil))
}

// TestManyLines is a job of 200 booked lines: the page stays linear in them and whole.
func TestManyLines(t *testing.T) {
	in := fullDay(t)
	one := len(render(t, report.HTML, in))
	line := in.Day.Scope[1]
	for i := range 200 {
		line.Line = "L" + strconv.Itoa(i)
		in.Day.Scope = append(in.Day.Scope, line)
	}
	page := render(t, report.HTML, in)
	assert.Less(t, len(page)-one, 200*1500)
	assert.Contains(t, string(page), `<th scope="row">L199</th>`)
}
