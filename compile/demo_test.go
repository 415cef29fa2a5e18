package compile_test

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/testdata/demo"
)

// demoFiles returns the demo book's text files by name.
func demoFiles(t testing.TB) []*finding.File {
	t.Helper()
	var files []*finding.File
	err := fs.WalkDir(demo.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasSuffix(name, ".png") {
			return err
		}
		text, err := fs.ReadFile(demo.FS, name)
		files = append(files, finding.NewFile(name, text))
		return err
	})
	require.NoError(t, err)
	return files
}

func TestDemoHoldsTheInvariants(t *testing.T) {
	r := compile.Book(demoFiles(t), compile.Options{})
	require.NoError(t, invariants(r))
	assert.Len(t, r.Jobs, 3)
	assert.Len(t, r.Days(), 10)
}

// TestDemoHasOneSlip: the typo in a key is the only error in the demo, found at its place.
func TestDemoHasOneSlip(t *testing.T) {
	r := compile.Book(demoFiles(t), compile.Options{})
	var errors finding.List
	for _, f := range r.Findings {
		if f.Severity == finding.Error {
			errors.Add(f)
		}
	}
	require.Len(t, errors, 1, "%v", errors)
	line, column := errors[0].Span.Position()
	assert.Equal(t, "jobs/2452-larch-dental/2026-05-05.md", errors[0].Span.File.Name)
	assert.Equal(t, [2]int{3, 1}, [2]int{line, column})
	assert.Contains(t, errors[0].Hint, "crew")
}

// TestDemoShowsEverything: what the demo is there to show is in it.
func TestDemoShowsEverything(t *testing.T) {
	r := compile.Book(demoFiles(t), compile.Options{})
	have := map[string]bool{}
	for _, d := range r.Days() {
		for _, e := range d.Entries {
			have["section "+string(e.Section)] = true
			have["outcome "+string(e.Outcome)] = true
		}
		for _, x := range d.Extras {
			have["extra "+string(x.State)] = true
			have["extra "+string(x.Outcome)] = true
		}
		for _, l := range d.Scope {
			have["line "+string(l.State)] = true
		}
		for _, f := range d.Deficiencies {
			have["deficiency "+string(f.State)] = true
		}
		for _, x := range d.Tests {
			have["test "+string(x.Verdict)] = true
		}
	}
	want := []string{
		"extra " + string(notes.NeedsAuthorization), "extra " + string(notes.ExtraDeclined), "extra " + string(notes.ExtraCredit),
		"extra " + string(notes.ExtraAuthorized), "line " + string(notes.Over), "line " + string(notes.Blocked),
		"line " + string(notes.Complete), "line " + string(notes.NotReported), "deficiency " + string(notes.FaultCorrected),
		"deficiency " + string(notes.FaultMadeSafe), "deficiency " + string(notes.FaultLeft), "test " + string(notes.Outside),
		"outcome " + string(notes.Unclear),
	}
	for _, s := range notes.Sections {
		want = append(want, "section "+string(s))
	}
	for _, w := range want {
		assert.True(t, have[w], "the demo has no %s", w)
	}
}

// demoBytes compiles the demo and returns its whole result as bytes.
func demoBytes(t testing.TB, files []*finding.File) []byte {
	t.Helper()
	r := compile.Book(files, compile.Options{})
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	require.NoError(t, enc.Encode(r.Days()))
	d := dump{files: true}
	out.WriteString(d.findings(r.Findings))
	return out.Bytes()
}

// TestSameBookSameBytes compiles the demo with its files in another order, and once more in a
// process of its own with another time zone and another language.
func TestSameBookSameBytes(t *testing.T) {
	files := demoFiles(t)
	first := demoBytes(t, files)
	if path := os.Getenv("JOBDAY_TEST_BYTES"); path != "" {
		require.NoError(t, os.WriteFile(path, first, 0o600))
		return
	}
	turned := slices.Clone(files)
	slices.Reverse(turned)
	assert.Equal(t, string(first), string(demoBytes(t, turned)))

	path := t.TempDir() + "/bytes"
	again := exec.Command(os.Args[0], "-test.run=^TestSameBookSameBytes$")
	again.Env = append(os.Environ(), "JOBDAY_TEST_BYTES="+path, "TZ=Pacific/Kiritimati", "LANG=tr_TR.UTF-8", "LC_ALL=tr_TR.UTF-8", "GOMAXPROCS=1")
	out, err := again.CombinedOutput()
	require.NoError(t, err, "%s", out)
	other, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(first), string(other))
}
