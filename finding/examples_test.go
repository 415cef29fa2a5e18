package finding_test

import (
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
)

// compileExample compiles the example book with the files of an example in place of its own.
func compileExample(t *testing.T, example string) finding.List {
	t.Helper()
	byName := map[string][]byte{}
	for _, text := range []string{finding.ExampleBook, example} {
		for _, f := range txtar.Parse([]byte(text)).Files {
			byName[f.Name] = f.Data
		}
	}
	var files []*finding.File
	for name, text := range byName {
		files = append(files, finding.NewFile(name, text))
	}
	res := compile.Book(files, compile.Options{})
	for _, j := range res.Jobs {
		assert.NoError(t, notes.CheckJob(j.Days))
	}
	return res.Findings
}

func raisedBy(l finding.List, rule string) finding.List {
	var mine finding.List
	for _, f := range l {
		if f.Rule == rule {
			mine = append(mine, f)
		}
	}
	return mine
}

// TestEveryRuleIsRaisedByItsExampleAndNotByTheSamePutRight compiles both books of each row. Rules
// about the folder itself are raised in the tests of package book.
func TestEveryRuleIsRaisedByItsExampleAndNotByTheSamePutRight(t *testing.T) {
	for _, r := range finding.Rules {
		if r.OnDisk {
			continue
		}
		t.Run(r.ID, func(t *testing.T) {
			wrong := raisedBy(compileExample(t, r.Wrong), r.ID)
			if assert.NotEmpty(t, wrong, "the example does not raise it:\n%s", r.Wrong) {
				assert.Equal(t, r.Severity, wrong[0].Severity, "severity")
				assert.NotEmpty(t, wrong[0].Hint, "a finding says what to do")
				assert.True(t, wrong[0].Span.Known(), "a finding has a place")
			}
			right := raisedBy(compileExample(t, r.Right), r.ID)
			assert.Empty(t, right, "the example put right still raises it:\n%s", r.Right)
		})
	}
}

func TestTheExampleBookIsClean(t *testing.T) {
	require.Empty(t, compileExample(t, ""))
}
