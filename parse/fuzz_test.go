package parse

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"jobday/finding"
)

// seed adds every input of the archives to a fuzz target.
func seed(f *testing.F, pattern string) {
	f.Helper()
	archives, err := filepath.Glob(pattern)
	if err != nil || len(archives) == 0 {
		f.Fatal("no seeds in "+pattern, err)
	}
	for _, name := range archives {
		a, err := txtar.ParseFile(name)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range a.Files {
			if strings.HasSuffix(file.Name, ".md") {
				f.Add(file.Data)
			}
		}
	}
}

func FuzzNote(f *testing.F) {
	seed(f, "testdata/notes/*.txtar")
	f.Fuzz(func(t *testing.T, text []byte) {
		file := finding.NewFile("jobs/1-a/2026-03-12-ines.md", text)
		read := func() string {
			n, found := Note(file, NoteContext{People: testPeople})
			for _, problem := range unsound(n, found) {
				t.Error(problem)
			}
			return fmt.Sprintf("%v %v", shownNote(n, found), n.Structure)
		}
		if a, b := read(), read(); a != b {
			t.Errorf("read twice, two results:\n%s\n%s", a, b)
		}
	})
}

func FuzzScope(f *testing.F) {
	seed(f, "testdata/scopes/*.txtar")
	f.Fuzz(func(t *testing.T, text []byte) {
		file := finding.NewFile("jobs/1-a/scope.md", text)
		read := func() string {
			j, found := Scope(file)
			for _, s := range found {
				inBounds(t, file, s.Span, s.Rule)
			}
			labels := map[string]bool{}
			for _, l := range j.Lines {
				inBounds(t, file, l.Span, l.Label)
				if labels[strings.ToLower(l.Label)] {
					t.Errorf("two lines are called %q", l.Label)
				}
				labels[strings.ToLower(l.Label)] = true
				if l.Qty.Value.Sign() <= 0 || l.Hours < 0 || l.Price.Amount.Sign() < 0 {
					t.Errorf("line %q has %v, %v, %v", l.Label, l.Qty, l.Hours, l.Price.Amount)
				}
			}
			for _, r := range j.Narrative {
				inBounds(t, file, r.Span, "narrative")
			}
			if len(j.Lines) == 0 && !found.HasErrors() {
				t.Error("a scope without lines and without a finding")
			}
			return shownJob(j, found)
		}
		if a, b := read(), read(); a != b {
			t.Errorf("read twice, two results:\n%s\n%s", a, b)
		}
	})
}

func FuzzFrontMatter(f *testing.F) {
	seed(f, "testdata/notes/*.txtar")
	for _, s := range []string{
		"---\ndate: 2026-03-12\n---\n", "---\r\ncrew: [a, b]\r\n---\r\n", "\ufeff---\nöl: ü\n---\nx", "---\na: &b [*b]\n---\n",
		"---\na: |\n  x\n  y\nb: 2\n---\n", "---\n? a\n: b\n---\n", "---\n{a: 1, a: 2}\n---\n", "---\na: b: c\nd: \"e\n---\n", "---\n\u2028a: 1\n---\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		file := finding.NewFile("x.md", text)
		var found finding.List
		h := readHead(file, &found)
		if h.body < 0 || h.body > len(text) {
			t.Fatalf("the body starts at %d of %d", h.body, len(text))
		}
		inBounds(t, file, h.span, "front matter")
		h.keys.text("date")
		h.keys.texts("crew")
		h.keys.maps("a", "a")
		h.keys.done()
		for _, k := range h.keys.fields {
			inBounds(t, file, k.at, k.key)
			if k.at.Start < h.span.Start || k.at.End > h.span.End {
				t.Errorf("key %q at %d-%d stands outside the front matter %d-%d", k.key, k.at.Start, k.at.End, h.span.Start, h.span.End)
			}
		}
		for _, s := range found {
			inBounds(t, file, s.Span, s.Rule)
		}
	})
}

func inBounds(t *testing.T, f *finding.File, s finding.Span, what string) {
	t.Helper()
	if s.File != f || s.Start < 0 || s.End < s.Start || s.End > len(f.Text) {
		t.Errorf("%s at %d-%d of %d bytes", what, s.Start, s.End, len(f.Text))
	}
}
