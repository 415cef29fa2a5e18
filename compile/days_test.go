package compile_test

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
)

var update = flag.Bool("update", false, "rewrite the expected parts of testdata/days")

// views are the parts of an archive that say what must come out. A day checks those it has;
// entries and findings it must have.
var views = []string{"entries", "scope", "extras", "labor", "money", "findings"}

// TestDays compiles each day of testdata/days: how people really write, and what a careful person in
// the office would read in it. A day without company or prices uses those of shop.txtar.
func TestDays(t *testing.T) {
	paths, err := filepath.Glob("../testdata/days/*.txtar")
	require.NoError(t, err)
	require.Greater(t, len(paths), 25)
	shop := archive(t, "../testdata/days/shop.txtar")
	for _, p := range paths {
		if filepath.Base(p) == "shop.txtar" {
			continue
		}
		t.Run(strings.TrimSuffix(filepath.Base(p), ".txtar"), func(t *testing.T) { checkDay(t, p, shop) })
	}
}

func archive(t testing.TB, path string) *txtar.Archive {
	t.Helper()
	a, err := txtar.ParseFile(path)
	require.NoError(t, err)
	return a
}

// input returns the files of a that are not views, over those of shop.
func input(a, shop *txtar.Archive) []*finding.File {
	var files []*finding.File
	have := map[string]bool{}
	for _, f := range append(append([]txtar.File(nil), a.Files...), shop.Files...) {
		if !slices.Contains(views, f.Name) && !have[f.Name] {
			have[f.Name] = true
			files = append(files, finding.NewFile(f.Name, f.Data))
		}
	}
	return files
}

func checkDay(t *testing.T, path string, shop *txtar.Archive) {
	a := archive(t, path)
	r := compile.Book(input(a, shop), compile.Options{})
	for _, day := range r.Days() {
		require.NoError(t, day.Check())
	}
	d := newDump(r)
	got := map[string]string{
		"entries": d.entries(r), "scope": d.scope(r), "extras": d.extras(r), "labor": d.labor(r), "money": d.money(r),
		"findings": d.findings(r.Findings),
	}
	seen := map[string]bool{}
	for i, f := range a.Files {
		if !slices.Contains(views, f.Name) {
			assert.True(t, f.Name == "company.yaml" || f.Name == "prices.csv" || f.Name == "words.yaml" || strings.HasPrefix(f.Name, "jobs/"),
				"%s is neither input nor something this test checks", f.Name)
			continue
		}
		seen[f.Name] = true
		if *update {
			a.Files[i].Data = []byte(got[f.Name])
			continue
		}
		assert.Equal(t, string(f.Data), got[f.Name], "%s differ; see the note in %s", f.Name, path)
	}
	assert.True(t, seen["entries"] && seen["findings"], "%s says nothing about entries or findings", path)
	if *update {
		require.NoError(t, os.WriteFile(path, txtar.Format(a), 0o644))
	}
}
