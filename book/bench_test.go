package book

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/bookgen"
)

// BenchmarkRead reads a generated book of a year, beside reading the same files one by one with
// the standard library: what it costs to stay inside the folder, and what reading in parallel saves.
func BenchmarkRead(b *testing.B) {
	root := b.TempDir()
	var paths []string
	size := int64(0)
	for _, f := range bookgen.Files(bookgen.Size{Jobs: 10, Days: 250, Seed: 1}) {
		at := filepath.Join(root, filepath.FromSlash(f.Name))
		require.NoError(b, os.MkdirAll(filepath.Dir(at), 0o755))
		require.NoError(b, os.WriteFile(at, f.Text, 0o644))
		paths = append(paths, at)
		size += int64(len(f.Text))
	}
	b.Run("book", func(b *testing.B) {
		b.SetBytes(size)
		b.ReportAllocs()
		for b.Loop() {
			got, found, err := Read(root)
			require.NoError(b, err)
			require.Empty(b, found)
			require.Len(b, got.Files, len(paths))
		}
	})
	b.Run("os.ReadFile", func(b *testing.B) {
		b.SetBytes(size)
		b.ReportAllocs()
		for b.Loop() {
			for _, p := range paths {
				_, err := os.ReadFile(p)
				require.NoError(b, err)
			}
		}
	})
}
