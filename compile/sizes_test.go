package compile_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The bounds on size, and the exceptions that stand. The list of exceptions only shrinks: one that
// is no longer needed fails the test until its row is gone.
const (
	longestFunction = 100 // lines, from func to the closing brace
	longestFile     = 500 // lines; the Go tables of trade are data and count like any file
)

var longFunctions = map[string]int{}

var longFiles = map[string]int{}

func TestFunctionsAndFilesStayShort(t *testing.T) {
	functions, short := 0, 0
	seen := map[string]bool{}
	for _, p := range goPackages(t) {
		files := append(append(append([]string(nil), p.GoFiles...), p.TestGoFiles...), p.XTestGoFiles...)
		for _, name := range files {
			set := token.NewFileSet()
			tree, err := parser.ParseFile(set, filepath.Join(p.Dir, name), nil, parser.ParseComments)
			require.NoError(t, err)
			if ast.IsGenerated(tree) {
				continue // nobody reads or writes it by hand
			}
			where := strings.TrimPrefix(p.ImportPath, "jobday/") + "/" + name
			lines := set.File(tree.Pos()).LineCount()
			checkSize(t, sizeOf{where, lines, longestFile}, longFiles, seen)
			for _, d := range tree.Decls {
				f, is := d.(*ast.FuncDecl)
				if !is {
					continue
				}
				n := set.Position(f.End()).Line - set.Position(f.Pos()).Line + 1
				functions++
				if n <= 40 {
					short++
				}
				checkSize(t, sizeOf{where + " " + f.Name.Name, n, longestFunction}, longFunctions, seen)
			}
		}
	}
	for _, list := range []map[string]int{longFunctions, longFiles} {
		for where := range list {
			assert.True(t, seen[where], "%s is short enough or gone: take it off the list", where)
		}
	}
	assert.GreaterOrEqual(t, short*10, functions*9, "nine functions in ten have at most 40 lines; %d of %d do", short, functions)
	t.Logf("%d functions, %.1f %% of at most 40 lines", functions, 100*float64(short)/float64(functions))
}

type sizeOf struct {
	where     string
	lines, at int
}

func checkSize(t *testing.T, s sizeOf, allowed map[string]int, seen map[string]bool) {
	t.Helper()
	if s.lines <= s.at {
		return
	}
	seen[s.where] = true
	assert.LessOrEqual(t, s.lines, max(s.at, allowed[s.where]), "%s has %d lines", s.where, s.lines)
}
