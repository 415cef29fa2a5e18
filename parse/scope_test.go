package parse

import (
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

// TestScopes reads every scope.md in the archives of testdata/scopes and compares the job with the
// file of the same name that ends in .want.
func TestScopes(t *testing.T) {
	archives, err := filepath.Glob("testdata/scopes/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, archives)
	for _, name := range archives {
		a, err := txtar.ParseFile(name)
		require.NoError(t, err)
		want := map[string]string{}
		for _, f := range a.Files {
			want[f.Name] = string(f.Data)
		}
		var out []txtar.File
		for _, f := range a.Files {
			stem, isScope := strings.CutSuffix(f.Name, ".md")
			if !isScope {
				continue
			}
			got := shownJob(Scope(finding.NewFile("jobs/2431-quay-bakery/scope.md", f.Data)))
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
}

func shownJob(j *notes.Job, found finding.List) string {
	var b strings.Builder
	fmt.Fprintf(&b, "job %q title %q customer %q site %q booked %s tax %q\n", j.Number, j.Title, j.Customer, j.Site, j.Booked, j.Tax)
	for _, l := range j.Lines {
		fmt.Fprintf(&b, "%s %s: %q %s, price %q", place(l.Span), l.Label, l.Work, l.Qty, string(l.Price.Kind))
		if l.Price.Kind == notes.LotPrice || l.Price.Kind == notes.UnitPrice {
			fmt.Fprintf(&b, " %s", l.Price.Amount)
		}
		if l.Price.Max != nil {
			fmt.Fprintf(&b, " max %s", l.Price.Max)
		}
		fmt.Fprintf(&b, " of %q, %s\n", l.Price.Text, l.Hours)
	}
	for _, a := range j.Allowed {
		fmt.Fprintf(&b, "%s allowed %s: %q %s\n", place(a.Span), a.Line, a.Item, a.Qty)
	}
	for _, e := range j.NotIncluded {
		fmt.Fprintf(&b, "%s not included %q\n", place(e.Span), e.Text)
	}
	for _, r := range j.Narrative {
		fmt.Fprintf(&b, "%s narrative %q\n", place(r.Span), r.Text)
	}
	for _, f := range shown(found) {
		b.WriteString(f + "\n")
	}
	for _, f := range found {
		if f.Holds != "" {
			b.WriteString("holds " + f.Holds + "\n")
		}
	}
	return b.String()
}
