package bookgen_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/bookgen"
)

func TestTheSameSeedGivesTheSameBytes(t *testing.T) {
	a, b := bookgen.Files(bookgen.Size{Jobs: 2, Days: 3, Seed: 7}), bookgen.Files(bookgen.Size{Jobs: 2, Days: 3, Seed: 7})
	require.Len(t, a, 3+2*(1+3))
	for i := range a {
		assert.Equal(t, a[i].Name, b[i].Name)
		assert.Equal(t, string(a[i].Text), string(b[i].Text))
	}
	other := bookgen.Files(bookgen.Size{Jobs: 2, Days: 3, Seed: 8})
	assert.NotEqual(t, string(a[5].Text), string(other[5].Text))
}

func TestANoteIsAsLongAsRealOnes(t *testing.T) {
	bytes, lines, n := 0, 0, 0
	for _, f := range bookgen.Files(bookgen.Size{Jobs: 4, Days: 50, Seed: 1})[3:] {
		bytes, lines, n = bytes+len(f.Text), lines+f.Lines(), n+1
	}
	t.Logf("mean %d bytes, %d lines", bytes/n, lines/n)
	assert.InDelta(t, 1500, bytes/n, 700)
}
