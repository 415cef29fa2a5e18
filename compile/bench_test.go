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
	"jobday/price"
)

// BenchmarkCompile compiles generated books beside their reference in the same run, both from
// memory, on as many cores. The metric "x-reference" is how many times as long the whole compile
// takes, from text to priced days, as the libraries alone take to read the notes.
func BenchmarkCompile(b *testing.B) {
	for _, size := range []struct {
		name string
		bookgen.Size
	}{
		{"1day", bookgen.Size{Jobs: 1, Days: 1, Seed: 1}},
		{"1month", bookgen.Size{Jobs: 1, Days: 22, Seed: 1}},
		{"1year10crews", bookgen.Size{Jobs: 10, Days: 250, Seed: 1}},
		{"1year10longjobs", bookgen.Size{Jobs: 10, Days: 250, JobDays: 250, Seed: 1}},
	} {
		b.Run(size.name, func(b *testing.B) { benchCompile(b, bookgen.Files(size.Size)) })
	}
}

func benchCompile(b *testing.B, files []*finding.File) {
	noteFiles := slices.DeleteFunc(slices.Clone(files), func(f *finding.File) bool { return !strings.Contains(f.Name, "/20") })
	n := int64(0)
	for _, f := range noteFiles {
		n += int64(len(f.Text))
	}
	b.SetBytes(n)
	b.ReportAllocs()
	ours, theirs := time.Hour, time.Hour // the fastest of each: a busy machine slows single rounds
	for b.Loop() {
		runtime.GC() // neither pays for what the other left
		start := time.Now()
		compile.Book(files, compile.Options{})
		ours = min(ours, time.Since(start))
		runtime.GC()
		start = time.Now()
		reference(b, noteFiles)
		theirs = min(theirs, time.Since(start))
	}
	count := float64(len(noteFiles))
	b.ReportMetric(float64(ours)/float64(theirs), "x-reference")
	b.ReportMetric(float64(ours.Nanoseconds())/1000/count, "us/note")
	b.ReportMetric(float64(theirs.Nanoseconds())/1000/count, "reference-us/note")
}

// reference reads the front matter and all Markdown of the notes, tables and task lists too, with
// the two libraries and nothing of ours, on as many cores as the compile uses.
func reference(b *testing.B, files []*finding.File) {
	md := goldmark.New(goldmark.WithExtensions(extension.Table, extension.TaskList))
	var g errgroup.Group
	g.SetLimit(runtime.GOMAXPROCS(0))
	for part := range slices.Chunk(files, 16) {
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

// BenchmarkPrice prices a month of one job again and again: what it carries over the days included,
// reading and matching not.
func BenchmarkPrice(b *testing.B) {
	for _, days := range []int{1, 22, 250} {
		b.Run(fmt.Sprintf("%ddays", days), func(b *testing.B) {
			r := compile.Book(bookgen.Files(bookgen.Size{Jobs: 1, Days: days, JobDays: days, Seed: 1}), compile.Options{})
			in := price.Input{Company: r.Company, Prices: r.Prices, Job: r.Jobs[0].Job, Rows: price.Index(r.Prices)}
			b.ReportAllocs()
			for b.Loop() {
				price.Days(r.Jobs[0].Days, in)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/1000/float64(b.N*days), "us/day")
		})
	}
}

// TestWorkGrowsWithTheNotes counts instead of timing: ten times the notes may allocate at most
// eleven times as often, whether crews move on to other jobs or stay on one. Whatever goes over the
// notes more often than once shows there.
func TestWorkGrowsWithTheNotes(t *testing.T) {
	for name, shape := range map[string]struct{ few, many bookgen.Size }{
		"jobs that end": {bookgen.Size{Jobs: 1, Days: 25, Seed: 3}, bookgen.Size{Jobs: 1, Days: 250, Seed: 3}},
		"one long job":  {bookgen.Size{Jobs: 1, Days: 24, JobDays: 24, Seed: 3}, bookgen.Size{Jobs: 1, Days: 240, JobDays: 240, Seed: 3}},
	} {
		t.Run(name, func(t *testing.T) {
			count := func(s bookgen.Size) float64 {
				files := bookgen.Files(s)
				return testing.AllocsPerRun(2, func() { compile.Book(files, compile.Options{}) })
			}
			few, many := count(shape.few), count(shape.many)
			t.Logf("%d days: %.0f allocations, %d days: %.0f, %.2f times", shape.few.Days, few, shape.many.Days, many, many/few)
			require.LessOrEqual(t, many, 11*few)
		})
	}
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
