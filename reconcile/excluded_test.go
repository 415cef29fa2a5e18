package reconcile

import (
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/parse"
	"jobday/trade"
)

// TestExcludedByItsOwnWords says what falls under "Not included": the words of the exclusion, cut short
// too, and not another verb of the same kind of work, nor a word that only says where.
func TestExcludedByItsOwnWords(t *testing.T) {
	job, _ := parse.Scope(finding.NewFile("jobs/1-x/scope.md", []byte(`---
job: 1
title: Shop
customer: C
---

## Scope

| Line | Work | Qty | Unit | Price |
|---|---|---|---|---|
| A | Trench, well to gate | 90 | ft | 9.00 each |

## Not included

- Patching and painting
- Concrete cutting
- Gas piping
`)))
	ix := newLineIndex(job, trade.Words{})
	for text, want := range map[string]int{
		"patched the wall at the new box":        0,
		"painted the box":                        0,
		"fixed the thing by the door, 2 lights":  -1,
		"cut conc for the floor box":             1,
		"gas guy was in the way till 9":          -1,
		"moved the gas piping out of the trench": 2,
		"hung 4 lights":                          -1,
	} {
		require.Equal(t, want, ix.excluded(words(text)), text)
	}
}
