package finding

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The distances are published examples: "kitten"/"sitting" and "saturday"/"sunday" are the usual
// ones of the Levenshtein distance (Wikipedia, from memory); that a swap counts once is the optimal
// string alignment distance, "ca"/"abc" 3 being its textbook case (Wikipedia, from memory).
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"saturday", "sunday", 3}, {"ca", "abc", 3}, {"crwe", "crew", 1}, {"", "abc", 3}, {"same", "same", 0}} {
		assert.Equal(t, c.want, Slips(c.a, c.b), c.a+" "+c.b)
		assert.Equal(t, c.want, Slips(c.b, c.a), c.b+" "+c.a)
	}
}

func TestNearest(t *testing.T) {
	known := []string{"date", "crew", "job", "author", "rate", "cost"}
	for word, want := range map[string]string{
		"crw": "crew", "CREW": "crew", "autor": "author", "jbo": "job",
		"mate": "", "zebra": "", "": "", "fate": "", // two are as near, or none is
	} {
		assert.Equal(t, want, Nearest(word, known), word)
	}
}
