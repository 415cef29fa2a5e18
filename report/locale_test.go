package report_test

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/report"
	"jobday/sheet"
)

// TestEveryPageWritesForItsReaders looks at one day through the eyes of three places. How dates and
// amounts are written there is the Unicode CLDR's (version of the library), the same figures stand on
// every page.
func TestEveryPageWritesForItsReaders(t *testing.T) {
	for tag, want := range map[string][2]string{
		"en-US": {"Monday, March 2, 2026", "1,180.00"},
		"fr-CA": {"lundi 2 mars 2026", "1 180,00"},
		"de-DE": {"Montag, 2. März 2026", "1.180,00"},
	} {
		in := inside()
		in.Company.Locale = tag
		in.Day.Extras[0].Amount = notes.MustMoney("1180.00")
		for name, write := range map[string]func(io.Writer) error{
			"html": func(w io.Writer) error { return report.HTML(w, in) },
			"md":   func(w io.Writer) error { return report.Markdown(w, in) },
			"customer": func(w io.Writer) error {
				s, err := report.Customer(in)
				require.NoError(t, err)
				return sheet.TextTo(w, sheet.TextOptions{Width: 200}, s)
			},
		} {
			var page bytes.Buffer
			require.NoError(t, write(&page))
			text := strings.NewReplacer("\u202f", " ", "\u00a0", " ").Replace(page.String())
			for _, w := range want {
				assert.True(t, strings.Contains(text, w), "%s in %s does not say %q", name, tag, w)
			}
		}
	}
}
