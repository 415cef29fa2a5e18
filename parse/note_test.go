package parse

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

var update = flag.Bool("update", false, "rewrite the expected results in testdata")

// The crew of every note in testdata.
var testPeople = []string{"Ines Marlow", "Tobias Reed", "Ana Brandt", "Luis Ferro"}

// TestNotes reads every *.md in the archives of testdata/notes and compares what became of it with
// the file of the same name that ends in .want. The forms are explained in testdata/notes/README.
func TestNotes(t *testing.T) {
	archives, err := filepath.Glob("testdata/notes/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, archives)
	cases := 0
	for _, name := range archives {
		a, err := txtar.ParseFile(name)
		require.NoError(t, err)
		want := map[string]string{}
		for _, f := range a.Files {
			want[f.Name] = string(f.Data)
		}
		var out []txtar.File
		for _, f := range a.Files {
			stem, isNote := strings.CutSuffix(f.Name, ".md")
			if !isNote {
				continue
			}
			cases++
			n, found := Note(testFile(stem, f.Data), NoteContext{People: testPeople})
			assertSound(t, n, found)
			got := shownNote(n, found)
			out = append(out, f, txtar.File{Name: stem + ".want", Data: []byte(got)})
			if !*update {
				t.Run(stem, func(t *testing.T) { assert.Equal(t, want[stem+".want"], got) })
			}
		}
		if *update {
			a.Files = out
			require.NoError(t, os.WriteFile(name, txtar.Format(a), 0o644))
		}
	}
	assert.GreaterOrEqual(t, cases, 40, "the archives are read as a whole")
}

// testFile makes a note of text; "--" at the start of a fence line stands for "---", which an
// archive could not hold.
func testFile(stem string, text []byte) *finding.File {
	name := "jobs/2431-quay-bakery/2026-03-12.md"
	if strings.HasPrefix(stem, "2026") {
		name = "jobs/2431-quay-bakery/" + stem + ".md"
	}
	return finding.NewFile(name, text)
}

// shownNote prints what became of a note, one line a thing.
func shownNote(n *notes.DayNote, found finding.List) string {
	var b strings.Builder
	for _, e := range n.Entries {
		fmt.Fprintf(&b, "%s %s", place(e.Span), e.Kind)
		if e.Section != "" {
			fmt.Fprintf(&b, " [%s]", e.Section)
		}
		if e.Sure < notes.SureEnough {
			fmt.Fprintf(&b, " unsure%v", e.MayBe)
		}
		if e.Label != "" {
			fmt.Fprintf(&b, " label=%s", e.Label)
		}
		if e.Box != notes.NoBox {
			fmt.Fprintf(&b, " box=%v", e.Box == notes.CheckedBox)
		}
		if e.Nothing {
			b.WriteString(" nothing")
		}
		if e.Place != "" {
			fmt.Fprintf(&b, " place=%q", e.Place)
		}
		if e.Again {
			b.WriteString(" again")
		}
		fmt.Fprintf(&b, " %q (%s)\n", e.Text, e.Why)
		for _, d := range e.Details {
			fmt.Fprintf(&b, "  %s detail %q\n", place(d.Span), d.Text)
		}
		for _, p := range e.Photos {
			fmt.Fprintf(&b, "  %s photo %q %q\n", place(p.Span), p.Path, p.Alt)
		}
	}
	for _, r := range n.Narrative {
		fmt.Fprintf(&b, "%s narrative %q\n", place(r.Span), r.Text)
	}
	for _, f := range shown(found) {
		b.WriteString(f + "\n")
	}
	return b.String()
}

// place prints line:column of the first and just past the last character.
func place(s finding.Span) string {
	l, c := s.Position()
	l2, c2 := s.EndPosition()
	if l == l2 {
		return fmt.Sprintf("%d:%d-%d", l, c, c2)
	}
	return fmt.Sprintf("%d:%d-%d:%d", l, c, l2, c2)
}
