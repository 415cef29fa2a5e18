package sheet_test

import (
	"bytes"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"jobday/sheet"
)

// FuzzWords puts any words everywhere a sheet may have some, and writes it in every form.
func FuzzWords(f *testing.F) {
	for _, w := range hostile {
		f.Add(w)
	}
	f.Fuzz(func(t *testing.T, w string) {
		if len(w) > 120 {
			return
		}
		s := everything(w)
		var html, md, text, pdf bytes.Buffer
		require.NoError(t, sheet.HTML(&html, s))
		require.NoError(t, sheet.Markdown(&md, s))
		require.NoError(t, sheet.TextTo(&text, sheet.TextOptions{Width: 50}, s))
		require.NoError(t, sheet.PDF(&pdf, s))
		require.True(t, utf8.Valid(html.Bytes()) && utf8.Valid(md.Bytes()) && utf8.Valid(text.Bytes()))
	})
}
