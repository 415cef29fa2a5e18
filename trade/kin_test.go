package trade

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Each row has a name of its own and words that are single and in small letters, none twice, and there is a bit for it.
func TestTopicsAreWritten(t *testing.T) {
	var names []string
	for row := range strings.Lines(kinText) {
		row = strings.TrimSpace(row)
		if row == "" || row[0] == '#' {
			continue
		}
		name, words, ok := strings.Cut(row, ": ")
		assert.True(t, ok, row)
		assert.NotContains(t, names, name)
		names = append(names, name)
		all := strings.Fields(words)
		assert.Greater(t, len(all), 1, row)
		assert.Equal(t, strings.ToLower(words), words)
		slices.Sort(all)
		assert.Equal(t, slices.Compact(slices.Clone(all)), all, "%s: a word twice", name)
	}
	assert.LessOrEqual(t, len(names), 64*len(Topics{}))
}

// Common practice, no source.
func TestTopicsOf(t *testing.T) {
	for _, c := range []struct {
		a, b   string
		shared bool
	}{
		{"surge", "surge protector", true},
		{"starter", "motor", true},
		{"rods", "ground rod", true},
		{"stat", "thermostat", true},
		{"smoke detector", "horn strobe", true},
		{"receptacle", "wall pack", false},
		{"ground rod", "exit sign", false},
		{"", "panel", false},
	} {
		assert.Equal(t, c.shared, TopicsOf(c.a).Shared(TopicsOf(c.b)), "%s and %s", c.a, c.b)
	}
}
