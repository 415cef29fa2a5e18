package finding

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var ruleID = regexp.MustCompile(`^[a-z]{3,}/[a-z][a-z-]+$`)

// raising are the folders whose code makes findings.
var raising = []string{"billing", "book", "compile", "hours", "parse", "price", "reconcile", "record", "report", "ubl"}

// notRules are strings in those folders that only look like a rule.
var notRules = map[string]bool{"image/jpeg": true, "image/png": true}

// TestEveryRuleRaisedIsInTheTable reads the program's own source: every string "area/what" in the
// code that makes findings must be a row of the table, and every row must stand in that code.
func TestEveryRuleRaisedIsInTheTable(t *testing.T) {
	raised := map[string]string{} // rule to the first place that raises it
	for _, dir := range raising {
		sources, err := filepath.Glob("../" + dir + "/*.go")
		require.NoError(t, err)
		require.NotEmpty(t, sources, dir)
		for _, path := range sources {
			if !strings.HasSuffix(path, "_test.go") {
				collectRules(t, path, raised)
			}
		}
	}
	for rule, place := range raised {
		_, known := RuleNamed(rule)
		assert.True(t, known, "%s raises %q, which is not in the table of rules", place, rule)
	}
	for _, r := range Rules {
		assert.Contains(t, raised, r.ID, "no code raises %q", r.ID)
	}
}

// collectRules adds the strings of a source file that have the form of a rule.
func collectRules(t *testing.T, path string, raised map[string]string) {
	t.Helper()
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
	require.NoError(t, err)
	ast.Inspect(file, func(n ast.Node) bool {
		if _, ok := n.(*ast.ImportSpec); ok {
			return false
		}
		lit, ok := n.(*ast.BasicLit)
		if !ok || lit.Kind != token.STRING {
			return true
		}
		s, err := strconv.Unquote(lit.Value)
		require.NoError(t, err)
		if _, seen := raised[s]; !seen && ruleID.MatchString(s) && !notRules[s] {
			raised[s] = set.Position(lit.Pos()).String()
		}
		return true
	})
}

func TestTheTableIsInOrderAndComplete(t *testing.T) {
	for i, r := range Rules {
		require.Regexp(t, ruleID, r.ID)
		if i > 0 {
			require.Less(t, Rules[i-1].ID, r.ID, "rules stand by name, each once")
		}
		for what, text := range map[string]string{
			"title": r.Title, "why": r.Why, "wrong": r.Wrong, "right": r.Right, "since": r.Since,
		} {
			require.NotEmpty(t, text, "%s has no %s", r.ID, what)
		}
		require.NotEqual(t, "invalid", r.Severity.String(), r.ID)
		require.False(t, strings.HasSuffix(r.Title, "."), r.ID)
		require.True(t, strings.HasSuffix(r.Why, "."), "%s: the why is a sentence", r.ID)
		if !r.OnDisk {
			require.True(t, strings.HasPrefix(r.Wrong, "-- ") && strings.HasSuffix(r.Wrong, "\n"), r.ID)
			require.True(t, strings.HasPrefix(r.Right, "-- ") && strings.HasSuffix(r.Right, "\n"), r.ID)
			require.NotEqual(t, r.Wrong, r.Right, r.ID)
		}
		for _, a := range r.After {
			_, known := RuleNamed(a)
			require.True(t, known, "%s comes after %q, which is no rule", r.ID, a)
		}
	}
}

func TestTheManualIsFresh(t *testing.T) {
	golden(t, "RULES.md", []byte(Manual()))
}
