package report_test

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/report"
)

// bakeryPanel is a panel with every use a space may have, and how it stood the day before.
func bakeryPanel() report.DirectoryInput {
	day := notes.MustDate("2026-03-12")
	from := []notes.Source{{File: "jobs/2431-quay-bakery/2026-03-12.md", Line: 34, Column: 3, EndLine: 34, EndColumn: 41}}
	panel := notes.Panel{Name: "LP1", Spaces: 24, Phases: 1, Volts: "120/240", Main: "200A main breaker", Terminal: 75, Feeder: "meter, 3/0 AWG copper"}
	before := notes.PanelStanding{Panel: panel, Known: true, Standing: []notes.PanelCircuit{
		{Spaces: []int{1, 3}, Use: notes.SpaceInUse, Serves: "deck oven, left", Breaker: "50A 2P", Conductor: "6 AWG"},
		{Spaces: []int{2, 4}, Use: notes.SpaceReserved, Serves: "proofing cabinet"},
		{Spaces: []int{5}, Use: notes.SpaceInUse, Serves: "old sign", Breaker: "15A 1P"},
		{Spaces: []int{22}, Use: notes.SpaceSpare, Breaker: "20A 1P"},
	}}
	now := before
	now.Standing = []notes.PanelCircuit{
		before.Standing[0],
		{Spaces: []int{2, 4}, Use: notes.SpaceInUse, Serves: "proofing cabinet", Breaker: "30A 2P", Conductor: "10 AWG", Since: day, From: from},
		{Spaces: []int{16}, Use: notes.SpaceInUse, Serves: "front sign over the street door", Breaker: "20A 1P", Neutral: []int{18}, Since: day, From: from,
			Findings: []string{"spaces 16 and 18 share a neutral, and nothing says that they switch off together (NEC 210.4(B))"}},
		{Spaces: []int{18}, Use: notes.SpaceInUse, Serves: "shop lights", Breaker: "20A 1P", Neutral: []int{16}, Since: day, From: from},
		before.Standing[3],
		{Spaces: []int{23}, Use: notes.SpaceBlank},
	}
	return report.DirectoryInput{
		Panel: now, Before: &before, Since: notes.MustDate("2026-03-09"), Date: day,
		Job:     &notes.Job{Number: "2431", Customer: "Quay Lane Bakery", Site: "14 Quay Lane"},
		Company: &notes.Company{Name: "Lanternmoor Electric"},
	}
}

// barePanel is a panel that only notes name: no layout, no card before, one breaker across the bus.
func barePanel() report.DirectoryInput {
	return report.DirectoryInput{
		Date: notes.MustDate("2026-04-08"),
		Panel: notes.PanelStanding{Standing: []notes.PanelCircuit{
			{Spaces: []int{1}, Use: notes.SpaceInUse, Serves: "stall lights", Breaker: "15A 1P", Conductor: "14 AWG"},
			{Spaces: []int{3, 4}, Use: notes.SpaceInUse, Serves: "water pump", Breaker: "20A 2P"},
			{Spaces: []int{7}, Use: notes.SpaceInUse, Breaker: "20A 1P"},
		}},
	}
}

const hostileWords = "</td><script>alert(1)</script> & \"q\" 冷蔵庫 ✓ Łukasz \u202eltr\u202c e\u0301 \x1b[31m\x00 𝔘𝔫 🔌"

// hostilePanel is what nobody should write, in a panel as large as they come.
func hostilePanel() report.DirectoryInput {
	in := bakeryPanel()
	in.Before, in.Job.Customer, in.Job.Site, in.Company.Name = nil, hostileWords, strings.Repeat("long ", 60), hostileWords
	p := notes.Panel{Name: hostileWords, Spaces: 90, Phases: 3, Volts: hostileWords, Main: strings.Repeat("x", 300), Terminal: 60, Feeder: strings.Repeat("feeder ", 40)}
	in.Panel = notes.PanelStanding{Panel: p, Known: true}
	for n := 1; n <= 84; n += 4 {
		in.Panel.Standing = append(in.Panel.Standing, notes.PanelCircuit{
			Spaces: []int{n}, Use: notes.SpaceInUse, Serves: hostileWords, Breaker: hostileWords, Conductor: hostileWords, Findings: []string{hostileWords},
		})
	}
	in.Panel.Standing = append(in.Panel.Standing,
		notes.PanelCircuit{Spaces: []int{82, 84, 86}, Use: notes.SpaceInUse, Serves: strings.Repeat("a very long description ", 30), Breaker: "40A 3P"},
		notes.PanelCircuit{Spaces: []int{88}, Use: notes.SpaceInUse, Serves: strings.Repeat("unbroken", 90)})
	return in
}

var panelFixtures = map[string]func() report.DirectoryInput{"bakery": bakeryPanel, "bare": barePanel, "hostile": hostilePanel}

var directoryWriters = map[string]func(io.Writer, []report.DirectoryInput) error{
	"html": report.DirectoryHTML, "txt": report.DirectoryText, "json": report.DirectoryJSON,
}

func writeDirectory(t *testing.T, write func(io.Writer, []report.DirectoryInput) error, ins ...report.DirectoryInput) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, write(&out, ins))
	return out.Bytes()
}

func TestDirectoryGolden(t *testing.T) {
	for name, fixture := range panelFixtures {
		for ending, write := range directoryWriters {
			t.Run(name+"."+ending, func(t *testing.T) {
				got := writeDirectory(t, write, fixture())
				require.Equal(t, string(got), string(writeDirectory(t, write, fixture())), "not the same bytes twice")
				compareGolden(t, filepath.Join("testdata", "directory-"+name+"."+ending+".golden"), got)
			})
		}
	}
}

// TestDirectoryPDFReadsBack reads the pages with a reader of our own: every circuit, the date, the
// marks of change and the caution are on the card, one page for the door and one for the file.
func TestDirectoryPDFReadsBack(t *testing.T) {
	for _, paper := range report.Papers {
		in := bakeryPanel()
		in.Paper = paper
		pdf := writeDirectory(t, report.DirectoryPDF, in)
		pages := pdfPages(t, pdf)
		require.Len(t, pages, 2, paper)
		for _, want := range []string{
			"LP1", "Quay Lane Bakery", "14 Quay Lane", "Job 2431, Lanternmoor Electric", "Thursday, March 12, 2026", "120/240", "200A main breaker", "75 °C",
			"deck oven, left", "50A 2P", "6 AWG", "proofing cabinet", "30A 2P", "10 AWG", "front sign over the street door (neutral with 18)",
			"shop lights (neutral with 16)", "spare", "blank", "24 spaces: 6 in use, 1 spare, 1 blank, 16 not described.", "Changed since Monday, March 9, 2026.",
			"test before touch", "Local code, the authority having jurisdiction", "Only qualified persons",
		} {
			assert.Contains(t, oneText(pages[0]), want, "%s", paper)
		}
		for n := 1; n <= 24; n++ {
			assert.Contains(t, strings.Fields(pages[0]), strconv.Itoa(n), "space %d", n)
		}
		for _, want := range []string{
			"2, 4: was reserved for proofing cabinet; now proofing cabinet, 30A 2P, 10 AWG", "5: no longer old sign, 15A 1P", "To be looked at",
			"16: spaces 16 and 18 share a neutral",
		} {
			assert.Contains(t, oneText(pages[1]), want, "%s", paper)
		}
	}
}

// TestDirectoryPDFIsTheSameEverywhere: no clock, no random id, no order of a map in the bytes.
func TestDirectoryPDFIsTheSameEverywhere(t *testing.T) {
	first := sha256.Sum256(writeDirectory(t, report.DirectoryPDF, bakeryPanel(), hostilePanel(), barePanel()))
	for range 5 {
		require.Equal(t, first, sha256.Sum256(writeDirectory(t, report.DirectoryPDF, bakeryPanel(), hostilePanel(), barePanel())))
	}
	require.NotEqual(t, first, sha256.Sum256(writeDirectory(t, report.DirectoryPDF, bakeryPanel())))
}

// TestDirectoryPDFHasNoEmptyBox: what the fonts lack is a plain character, what was too long for its
// cell stands in full on the page for the file, and 90 spaces take a second page.
func TestDirectoryPDFHasNoEmptyBox(t *testing.T) {
	in := hostilePanel()
	in.Paper = report.Half
	pages := pdfPages(t, writeDirectory(t, report.DirectoryPDF, in))
	require.GreaterOrEqual(t, len(pages), 3)
	all := strings.Join(pages, "\n")
	for _, r := range "冷✓🔌𝔘\u0301\u202e\x1b\x00\ufffd" {
		assert.NotContains(t, all, string(r), "%U", r)
	}
	assert.Contains(t, all, "Łukasz")
	assert.Contains(t, all, "</td><script>alert(1)</script>")
	assert.Contains(t, strings.Fields(pages[1]), "85", "the second page of the card begins with space 85")
	assert.Contains(t, all, "In full")
	assert.Equal(t, 30, strings.Count(oneText(all[strings.Index(all, "In full"):]), "a very long description"))
	assert.Equal(t, 90, strings.Count(strings.Join(strings.Fields(all[strings.Index(all, "In full"):]), ""), "unbroken"))
	bare := pdfPages(t, writeDirectory(t, report.DirectoryPDF, barePanel()))
	require.Len(t, bare, 1, "nothing changed and nothing is to be looked at: no page for the file")
	assert.Contains(t, bare[0], "Panel not named")
	assert.Contains(t, bare[0], "water pump, with 4")
	assert.Contains(t, bare[0], "not described")
}

func oneText(s string) string { return strings.Join(strings.Fields(s), " ") }

// TestDirectoryPDFReadsBackElsewhere reads the card with another program's reader where the machine
// has one; the reader above covers the rest.
func TestDirectoryPDFReadsBackElsewhere(t *testing.T) {
	pdf := writeDirectory(t, report.DirectoryPDF, bakeryPanel())
	path, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Log("pdftotext is not on this machine: the card was read back by the reader of the tests only")
		require.Contains(t, pdfPages(t, pdf)[0], "proofing cabinet")
		return
	}
	file := filepath.Join(t.TempDir(), "card.pdf")
	require.NoError(t, os.WriteFile(file, pdf, 0o644))
	out, err := exec.Command(path, "-layout", file, "-").Output()
	require.NoError(t, err)
	text := oneText(string(out))
	for _, want := range []string{"LP1", "proofing cabinet 10 AWG", "30A 2P", "deck oven, left", "test before touch"} {
		assert.Contains(t, text, want)
	}
	assert.Equal(t, 2, strings.Count(string(out), "\f"), "two pages")
}

var (
	pdfStream = regexp.MustCompile(`(?s)<<[^>]*?/Length (\d+)[^>]*?>>\s*stream\r?\n`)
	pdfText   = regexp.MustCompile(`(?s)\(((?:[^\\()]|\\.)*)\)\s*Tj`)
)

// pdfPages returns the text of each page in the order drawn, one string a line. It understands what
// this program writes: streams packed with zlib, text as UTF-16 in literal strings.
func pdfPages(t *testing.T, pdf []byte) []string {
	t.Helper()
	require.True(t, bytes.HasPrefix(pdf, []byte("%PDF-")) && bytes.Contains(pdf[len(pdf)-16:], []byte("%%EOF")))
	var pages []string
	for _, at := range pdfStream.FindAllSubmatchIndex(pdf, -1) {
		n, err := strconv.Atoi(string(pdf[at[2]:at[3]]))
		require.NoError(t, err)
		r, err := zlib.NewReader(bytes.NewReader(pdf[at[1] : at[1]+n]))
		if err != nil {
			continue
		}
		content, err := io.ReadAll(r)
		require.NoError(t, err)
		if !bytes.Contains(content, []byte(" Tf ")) && !bytes.Contains(content, []byte(" Tj")) {
			continue
		}
		var lines []string
		for _, m := range pdfText.FindAllSubmatch(content, -1) {
			lines = append(lines, utf16Text(m[1]))
		}
		pages = append(pages, strings.Join(lines, "\n"))
	}
	counted := regexp.MustCompile(`/Count (\d+)`).FindSubmatch(pdf)
	require.NotNil(t, counted)
	require.Equal(t, string(counted[1]), fmt.Sprint(len(pages)), "pages counted in the file and pages read")
	return pages
}

func utf16Text(s []byte) string {
	var raw []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' && i+1 < len(s) {
			i++
			switch s[i] {
			case 'r':
				raw = append(raw, '\r')
			case 'n':
				raw = append(raw, '\n')
			default:
				raw = append(raw, s[i])
			}
			continue
		}
		raw = append(raw, s[i])
	}
	var units []uint16
	for i := 0; i+1 < len(raw); i += 2 {
		units = append(units, uint16(raw[i])<<8|uint16(raw[i+1]))
	}
	return string(utf16.Decode(units))
}

// TestDirectoryHTMLIsOneSafePage: words from a note never become markup, and nothing is fetched.
func TestDirectoryHTMLIsOneSafePage(t *testing.T) {
	page := string(writeDirectory(t, report.DirectoryHTML, hostilePanel(), bakeryPanel()))
	for _, never := range []string{"<script", "http://", "https://", "url(", "\x1b", "\x00"} {
		assert.NotContains(t, page, never)
	}
	assert.Equal(t, 2, strings.Count(page, `<article class="card`))
	assert.Contains(t, page, "@page{size:8.5in 11in")
	half := hostilePanel()
	half.Paper = report.Half
	assert.Contains(t, string(writeDirectory(t, report.DirectoryHTML, half)), "@page{size:5.5in 8.5in")
	half.Paper = report.A4
	assert.Contains(t, string(writeDirectory(t, report.DirectoryHTML, half)), "@page{size:210mm 297mm")
	half.Paper = "a0"
	assert.Error(t, report.DirectoryHTML(io.Discard, []report.DirectoryInput{half}))
}

// TestDirectoryHTMLDrawsThePanel: odd numbers left, even right, a breaker over as many rows as poles.
func TestDirectoryHTMLDrawsThePanel(t *testing.T) {
	page := string(writeDirectory(t, report.DirectoryHTML, bakeryPanel()))
	rows := regexp.MustCompile(`(?s)<tr>(.*?)</tr>`).FindAllStringSubmatch(page[strings.Index(page, "<tbody>"):], -1)
	require.Len(t, rows, 12)
	numbers := regexp.MustCompile(`class="no[^"]*">(\d+)`)
	for i, r := range rows {
		n := numbers.FindAllStringSubmatch(r[1], -1)
		require.Len(t, n, 2)
		assert.Equal(t, []string{strconv.Itoa(2*i + 1), strconv.Itoa(2*i + 2)}, []string{n[0][1], n[1][1]})
		assert.Contains(t, r[1], `<td class="leg">`+[]string{"A", "B"}[i%2]+`</td>`)
	}
	assert.Equal(t, 2, strings.Count(rows[0][1], `class="serves`))
	assert.Equal(t, 4, strings.Count(rows[0][1], `rowspan="2"`), "two breakers of two poles: words and rating each")
	assert.NotContains(t, rows[1][1], `class="serves`, "both stand over the second row")
}

func TestDirectoryJSONReadsBack(t *testing.T) {
	var cards []struct {
		Panel        string
		Date         string
		Since        *string
		Circuits     []struct{ Spaces []int }
		NotDescribed []int `json:"not_described"`
		Changes      []struct{ Was, Now string }
	}
	require.NoError(t, json.Unmarshal(writeDirectory(t, report.DirectoryJSON, bakeryPanel(), barePanel()), &cards))
	require.Len(t, cards, 2)
	assert.Equal(t, "LP1", cards[0].Panel)
	assert.Equal(t, "2026-03-09", *cards[0].Since)
	assert.Len(t, cards[0].Circuits, 6)
	assert.Len(t, cards[0].NotDescribed, 16)
	assert.Len(t, cards[0].Changes, 5)
	assert.Nil(t, cards[1].Since)
}
