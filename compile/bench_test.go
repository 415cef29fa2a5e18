package compile_test

import (
	"bytes"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/adrg/frontmatter"
	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"
	"golang.org/x/sync/errgroup"

	"jobday/bookgen"
	"jobday/compile"
	"jobday/finding"
)

// BenchmarkCompile compiles generated books beside their reference in the same run: the front
// matter and the Markdown of the same notes read with the libraries alone, on as many cores. The metric "x-reference" is how
// many times as long the whole compile takes, from text to priced days.
func BenchmarkCompile(b *testing.B) {
	for _, size := range []struct {
		name string
		bookgen.Size
	}{
		{"1day", bookgen.Size{Jobs: 1, Days: 1, Seed: 1}},
		{"1month", bookgen.Size{Jobs: 1, Days: 22, Seed: 1}},
		{"1year10jobs", bookgen.Size{Jobs: 10, Days: 250, Seed: 1}},
	} {
		b.Run(size.name, func(b *testing.B) { benchCompile(b, bookgen.Files(size.Size)) })
	}
}

func benchCompile(b *testing.B, files []*finding.File) {
	n := int64(0)
	for _, f := range files {
		n += int64(len(f.Text))
	}
	b.SetBytes(n)
	b.ReportAllocs()
	ours, theirs := time.Hour, time.Hour // the fastest of each: a busy machine slows single rounds
	for b.Loop() {
		start := time.Now()
		compile.Book(files, compile.Options{})
		middle := time.Now()
		reference(b, files)
		ours, theirs = min(ours, middle.Sub(start)), min(theirs, time.Since(middle))
	}
	notes := 0.0
	for _, f := range files {
		if strings.Contains(f.Name, "/20") {
			notes++
		}
	}
	b.ReportMetric(float64(ours)/float64(theirs), "x-reference")
	b.ReportMetric(float64(ours.Microseconds())/notes, "us/note")
	b.ReportMetric(float64(theirs.Microseconds())/notes, "reference-us/note")
}

// reference reads the notes with the two libraries and nothing of ours, on as many cores as the
// compile uses.
func reference(b *testing.B, files []*finding.File) {
	md := goldmark.New(goldmark.WithExtensions(extension.Table, extension.TaskList))
	var g errgroup.Group
	g.SetLimit(runtime.GOMAXPROCS(0))
	for part := range slices.Chunk(files[3:], 16) {
		g.Go(func() error {
			for _, f := range part {
				var head map[string]any
				body, err := frontmatter.Parse(bytes.NewReader(f.Text), &head)
				if err != nil {
					return err
				}
				tree := md.Parser().Parse(text.NewReader(body))
				if err := ast.Walk(tree, func(ast.Node, bool) (ast.WalkStatus, error) { return ast.WalkContinue, nil }); err != nil {
					return err
				}
			}
			return nil
		})
	}
	require.NoError(b, g.Wait())
}

// TestWorkGrowsWithTheNotes counts instead of timing: ten times the notes may allocate at most
// eleven times as often. Whatever goes over the notes more often than once shows there.
func TestWorkGrowsWithTheNotes(t *testing.T) {
	count := func(days int) float64 {
		files := bookgen.Files(bookgen.Size{Jobs: 1, Days: days, Seed: 3})
		return testing.AllocsPerRun(2, func() { compile.Book(files, compile.Options{}) })
	}
	few, many := count(25), count(250)
	t.Logf("25 days: %.0f allocations, 250 days: %.0f, %.2f times", few, many, many/few)
	require.LessOrEqual(t, many, 11*few)
}

// TestGeneratedBooksHoldTheInvariants compiles a few books nobody looked at.
func TestGeneratedBooksHoldTheInvariants(t *testing.T) {
	for seed := range uint64(6) {
		t.Run(fmt.Sprintf("seed%d", seed), func(t *testing.T) {
			r := compile.Book(bookgen.Files(bookgen.Size{Jobs: 3, Days: 15, Seed: seed}), compile.Options{})
			require.Len(t, r.Days(), 45)
			require.NoError(t, invariants(r))
		})
	}
}
