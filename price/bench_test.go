package price_test

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/parse"
	"jobday/price"
)

// BenchmarkIndex is once a book; the price list is the demo's.
func BenchmarkIndex(b *testing.B) {
	text, err := os.ReadFile("../testdata/demo/prices.csv")
	require.NoError(b, err)
	list, _ := parse.Prices(finding.NewFile("prices.csv", text))
	b.ReportAllocs()
	for b.Loop() {
		price.Index(list)
	}
}

// BenchmarkDays is a job of two days with every state of an extra, or of time and material.
func BenchmarkDays(b *testing.B) {
	for _, name := range []string{"extra-states", "time-and-material"} {
		b.Run(name, func(b *testing.B) {
			a, err := txtar.ParseFile("testdata/cases/" + name + ".txtar")
			require.NoError(b, err)
			c := readCase(b, a)
			c.in.Rows = price.Index(c.in.Prices)
			b.ReportAllocs()
			for b.Loop() {
				price.Days(c.days, c.in)
			}
		})
	}
}
