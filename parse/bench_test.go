package parse

import (
	"bytes"
	"testing"

	"github.com/adrg/frontmatter"
	"github.com/rogpeppe/go-internal/txtar"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"

	"jobday/finding"
)

// benchNote is a day's note of about 2 KB and 40 entries.
func benchNote(b *testing.B) []byte {
	a, err := txtar.ParseFile("testdata/notes/tidy.txtar")
	if err != nil {
		b.Fatal(err)
	}
	day := a.Files[0].Data
	body := day[bytes.Index(day, []byte("## Done")):]
	return append(append([]byte(nil), day...), body...)
}

// BenchmarkNote stands beside BenchmarkReference: the same bytes through the front matter reader
// and a full goldmark parse, which is what any tool on the same libraries pays.
func BenchmarkNote(b *testing.B) {
	note := benchNote(b)
	ctx := NoteContext{People: testPeople}
	b.SetBytes(int64(len(note)))
	b.ReportAllocs()
	for b.Loop() {
		Note(finding.NewFile("2026-03-12.md", note), ctx)
	}
}

func BenchmarkReference(b *testing.B) {
	note := benchNote(b)
	md := goldmark.New(goldmark.WithExtensions(extension.Table, extension.TaskList))
	b.SetBytes(int64(len(note)))
	b.ReportAllocs()
	for b.Loop() {
		var head struct {
			Date string   `yaml:"date"`
			Crew []string `yaml:"crew"`
		}
		rest, err := frontmatter.Parse(bytes.NewReader(note), &head)
		if err != nil {
			b.Fatal(err)
		}
		md.Parser().Parse(text.NewReader(rest))
	}
}
