package compile_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
)

// TestCommonMarkExamples compiles every example of the CommonMark specification 0.31.2 as a day
// note, by itself and under a heading that opens a section: nothing panics, and every line that is not blank is
// accounted for.
func TestCommonMarkExamples(t *testing.T) {
	examples := commonMarkExamples(t)
	require.Len(t, examples, 652)
	shop := input(archive(t, "../testdata/days/shop.txtar"), archive(t, "../testdata/days/shop.txtar"))
	for i, text := range examples {
		for _, head := range []string{"", "## Done\n\n"} {
			note := finding.NewFile("jobs/7-mill/2026-03-12.md", []byte(head+text))
			r := compile.Book(append([]*finding.File{note}, shop...), compile.Options{})
			if !assert.NoError(t, invariants(r), "example %d after %q:\n%s", i+1, head, text) {
				return
			}
			require.Len(t, r.Days(), 1, "example %d", i+1)
		}
	}
}

// commonMarkExamples returns the Markdown side of the examples; an arrow stands for a tab there.
func commonMarkExamples(t *testing.T) []string {
	t.Helper()
	spec, err := os.ReadFile("../testdata/commonmark/spec.txt")
	require.NoError(t, err)
	fence := strings.Repeat("`", 32)
	var examples []string
	for _, part := range strings.Split(string(spec), fence+" example\n")[1:] {
		source, _, ok := strings.Cut(part, fence)
		require.True(t, ok)
		markdown, _, ok := strings.Cut("\n"+source, "\n.\n")
		require.True(t, ok, "%q has no output side", source)
		examples = append(examples, strings.ReplaceAll(strings.TrimPrefix(markdown, "\n"), "→", "\t")+"\n")
	}
	return examples
}

// invariants returns what of the five invariants is broken in any day, or nil.
func invariants(r *compile.Result) error {
	for _, j := range r.Jobs {
		if err := notes.CheckJob(j.Days); err != nil {
			return err
		}
	}
	return nil
}
