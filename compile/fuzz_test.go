package compile_test

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"jobday/compile"
	"jobday/finding"
)

// FuzzBook compiles a book of any scope and any two days: no panic, the invariants hold, every place
// lies in its file, and the same book gives the same bytes.
func FuzzBook(f *testing.F) {
	shop := archive(f, "../testdata/days/shop.txtar")
	scope := string(shop.Files[2].Data)
	paths, err := filepath.Glob("../testdata/days/*.txtar")
	if err != nil || len(paths) == 0 {
		f.Fatal("no days to start from", err)
	}
	for _, p := range paths {
		s, days := scope, []string{"", ""}
		for _, file := range archive(f, p).Files {
			switch {
			case strings.HasSuffix(file.Name, "scope.md"):
				s = string(file.Data)
			case strings.HasPrefix(file.Name, "jobs/"):
				days = append([]string{string(file.Data)}, days...)
			}
		}
		f.Add(s, days[0], days[1])
	}
	f.Fuzz(func(t *testing.T, scope, one, two string) {
		files := []*finding.File{
			finding.NewFile("company.yaml", shop.Files[0].Data), finding.NewFile("prices.csv", shop.Files[1].Data),
			finding.NewFile("jobs/7-mill/scope.md", []byte(scope)),
			finding.NewFile("jobs/7-mill/2026-03-12.md", []byte(one)), finding.NewFile("jobs/7-mill/2026-03-13-tobias.md", []byte(two)),
		}
		r := compile.Book(files, compile.Options{})
		if err := invariants(r); err != nil {
			t.Fatal(err)
		}
		checkPlaces(t, r)
		first, again := asBytes(t, r), asBytes(t, compile.Book(files, compile.Options{}))
		if !bytes.Equal(first, again) {
			t.Fatal("the same book gave other bytes")
		}
	})
}

// checkPlaces requires that every entry has a place in a note and that every finding has one at all.
func checkPlaces(t *testing.T, r *compile.Result) {
	t.Helper()
	for _, d := range r.Days() {
		for _, e := range d.Entries {
			if e.Source.Line < 1 || e.Source.Column < 1 || e.Source.EndLine < e.Source.Line {
				t.Fatalf("%q has no place: %+v", e.Text, e.Source)
			}
		}
	}
	for _, f := range r.Findings {
		if !f.Span.Known() || f.Span.Start > f.Span.End || f.Span.End > len(f.Span.File.Text) {
			t.Fatalf("%s: %s: no place", f.Rule, f.Message)
		}
	}
}

func asBytes(t *testing.T, r *compile.Result) []byte {
	t.Helper()
	days := r.Days()
	out, err := json.Marshal(days)
	if err != nil {
		t.Fatal(err)
	}
	d := dump{files: true}
	return append(out, d.findings(r.Findings)...)
}
