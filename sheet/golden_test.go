package sheet_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/sheet"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestEveryFormSaysTheSame compares what is written with files people have read.
func TestEveryFormSaysTheSame(t *testing.T) {
	for name, s := range map[string]sheet.Sheet{"order": order(), "review": review()} {
		html, md, text, _ := written(t, s)
		for ext, got := range map[string]string{".md": md, ".txt": text} {
			golden(t, name+ext+".golden", []byte(got))
		}
		if name == "order" {
			golden(t, name+".html.golden", []byte(html))
		}
		assert.Less(t, len(html), 200_000)
	}
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the test with -update")
	assert.Equal(t, string(want), string(got), name)
}

// TestPDFCarriesItsName looks for what a file says of itself, in the clear at its end.
func TestPDFCarriesItsName(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sheet.PDF(&b, order()))
	assert.Contains(t, b.String(), "/Lang (en-US)")
	assert.Contains(t, b.String(), "/CreationDate (D:20260312000000")
}
