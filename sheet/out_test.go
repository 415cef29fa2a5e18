package sheet_test

import (
	"bytes"
	"os"
	"testing"

	"jobday/sheet"
)

func TestOut(t *testing.T) {
	dir := os.Getenv("SHEETOUT")
	for name, s := range map[string]sheet.Sheet{"order": order(), "review": review()} {
		var b bytes.Buffer
		w := func(ext string, err error) {
			if err != nil {
				t.Error(err)
			}
			os.WriteFile(dir+"/"+name+ext, b.Bytes(), 0o644)
			b.Reset()
		}
		w(".html", sheet.HTML(&b, s))
		w(".md", sheet.Markdown(&b, s))
		w(".txt", sheet.TextTo(&b, sheet.TextOptions{}, s))
		w(".pdf", sheet.PDF(&b, s))
		s.Paper = sheet.A5
		s.Mark = sheet.Mark{Word: "VOID", Strike: true}
		w("-a5.pdf", sheet.PDF(&b, s))
	}
}
