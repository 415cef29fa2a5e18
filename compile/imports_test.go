package compile_test

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mayImport says which of our packages each package may import. Arrows go one way only.
var mayImport = map[string][]string{
	"jobday/finding":       {},
	"jobday/notes":         {"finding"},
	"jobday/trade":         {"finding", "notes"},
	"jobday/chance":        {},
	"jobday/chance/fit":    {},
	"jobday/parse/field":   {"notes", "trade"},
	"jobday/parse":         {"finding", "notes", "trade", "chance", "parse/field"},
	"jobday/reconcile":     {"finding", "notes", "trade", "chance", "parse/field"},
	"jobday/record":        {"finding", "notes"},
	"jobday/price":         {"finding", "notes", "trade", "parse/field"},
	"jobday/billing":       {"finding", "notes", "record", "price"},
	"jobday/hours":         {"finding", "notes", "price"},
	"jobday/restock":       {"finding", "notes"},
	"jobday/review":        {"notes"},
	"jobday/ubl":           {"finding", "notes"},
	"jobday/templates":     {},
	"jobday/photo":         {},
	"jobday/locale":        {"notes"},
	"jobday/sheet":         {"notes", "templates", "photo"},
	"jobday/report":        {"finding", "notes", "trade", "templates", "locale", "sheet", "hours", "restock", "review", "billing", "record", "photo"},
	"jobday/book":          {"finding", "notes"},
	"jobday/closeout":      {"finding", "notes", "trade"},
	"jobday/explain":       {"finding", "notes", "trade"},
	"jobday/compile":       {"finding", "notes", "trade", "parse/field", "parse", "reconcile", "price", "hours", "record", "billing"},
	"jobday/testdata/demo": {},
	"jobday/bookgen":       {"finding", "notes", "testdata/demo"},
	"jobday/web":           {"finding", "notes", "trade", "parse/field", "parse", "reconcile", "price", "templates", "locale", "sheet", "report", "book", "compile", "hours", "restock", "ubl", "review", "photo"},
	"jobday/cmd/jobday":    {"finding", "notes", "trade", "parse/field", "parse", "reconcile", "price", "templates", "locale", "sheet", "report", "book", "compile", "web", "closeout", "explain", "testdata/demo", "hours", "restock", "ubl", "review", "billing", "record", "photo"},
}

// pure are the stages that run the same in the command, in a server and inside a page: functions
// of their input only.
var pure = []string{"notes", "record", "billing", "parse", "parse/field", "reconcile", "price", "trade", "finding", "compile", "hours", "restock", "ubl"}

// worldly are the packages through which code would see a clock, the environment, the disk or the
// network. The package time is allowed for its calendar; TestPureStagesReadNoClock looks closer.
var worldly = []string{"os", "os/exec", "io/ioutil", "net", "net/http", "math/rand", "math/rand/v2", "syscall", "path/filepath"}

// inPage are the packages a page loads as WebAssembly. The template packages would double its size.
var inPage = []string{"notes", "record", "billing", "parse", "parse/field", "reconcile", "price", "trade", "finding"}

type goPackage struct {
	ImportPath   string
	Dir          string
	Imports      []string
	TestImports  []string
	XTestImports []string
	Deps         []string
	GoFiles      []string
	TestGoFiles  []string
	XTestGoFiles []string
}

func goPackages(t *testing.T) map[string]goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Dir,Imports,TestImports,XTestImports,Deps,GoFiles,TestGoFiles,XTestGoFiles", "./...", "jobday/testdata/demo")
	cmd.Dir = ".."
	out, err := cmd.Output()
	require.NoError(t, err)
	all := map[string]goPackage{}
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p goPackage
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return all
		}
		require.NoError(t, err)
		all[p.ImportPath] = p
	}
}

func TestArrowsGoOneWay(t *testing.T) {
	for path, p := range goPackages(t) {
		may, known := mayImport[path]
		if !assert.True(t, known, "%s is in no row of mayImport: say what it may import", path) {
			continue
		}
		for _, imp := range p.Imports {
			if ours, is := strings.CutPrefix(imp, "jobday/"); is {
				assert.Contains(t, may, ours, "%s must not import %s", path, imp)
			}
		}
	}
}

func TestPureStagesSeeNoWorld(t *testing.T) {
	all := goPackages(t)
	for _, name := range pure {
		p, ok := all["jobday/"+name]
		if !assert.True(t, ok, "no package %s", name) {
			continue
		}
		for _, imp := range p.Imports {
			assert.NotContains(t, worldly, imp, "%s must not import %s", name, imp)
		}
	}
}

func TestPureStagesReadNoClock(t *testing.T) {
	all := goPackages(t)
	for _, name := range append([]string{"report"}, pure...) {
		p := all["jobday/"+name]
		for _, file := range p.GoFiles {
			tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join(p.Dir, file), nil, 0)
			require.NoError(t, err)
			ast.Inspect(tree, func(n ast.Node) bool {
				sel, is := n.(*ast.SelectorExpr)
				if !is {
					return true
				}
				if x, is := sel.X.(*ast.Ident); is && x.Name == "time" {
					assert.NotContains(t, []string{"Now", "Since", "Until", "Sleep", "After", "Tick", "Local", "NewTimer"}, sel.Sel.Name, "%s/%s", name, file)
				}
				return true
			})
		}
	}
}

func TestThePageStaysFreeOfTemplates(t *testing.T) {
	all := goPackages(t)
	for _, name := range inPage {
		for _, dep := range []string{"html/template", "text/template"} {
			assert.False(t, slices.Contains(all["jobday/"+name].Deps, dep), "%s links %s", name, dep)
		}
	}
}
