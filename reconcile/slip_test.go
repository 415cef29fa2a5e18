package reconcile

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSlipAgainstPublishedDistances holds what counts as one slip of the pen against published edit
// distances: the steps of kitten to sitting, one each and three in all (Levenshtein distance), and a swap
// of neighbours, which is one in the optimal string alignment distance (both from memory of their
// articles in Wikipedia).
func TestSlipAgainstPublishedDistances(t *testing.T) {
	for _, row := range []struct {
		a, b string
		one  bool
	}{
		{"kitten", "sitten", true}, {"sitten", "sittin", true}, {"sittin", "sitting", true},
		{"kitten", "sitting", false}, {"kitten", "sittin", false},
		{"saturday", "sunday", false}, {"sitting", "sittnig", true}, {"lawn", "flaw", false},
		{"breaker", "breaker", true}, {"breaker", "braker", true}, {"breaker", "baker", false},
	} {
		require.Equal(t, row.one, slip(row.a, row.b), "%s %s", row.a, row.b)
		require.Equal(t, row.one, slip(row.b, row.a), "%s %s", row.b, row.a)
	}
}
