package report_test

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/report"
)

var update = flag.Bool("update", false, "rewrite the golden files and the schema")

// writers is every format by the ending of its golden file.
var writers = map[string]func(io.Writer, report.Input) error{
	"html": report.HTML,
	"md":   report.Markdown,
	"json": func(w io.Writer, in report.Input) error { return report.JSON(w, []*notes.JobDay{in.Day}) },
	"csv":  func(w io.Writer, in report.Input) error { return report.InvoiceCSV(w, []report.Input{in}) },
	"txt":  func(w io.Writer, in report.Input) error { return report.Text(w, in, report.TextOptions{}) },
}

var fixtures = map[string]func(*testing.T) report.Input{
	"full": fullDay, "empty": emptyDay, "hostile": hostileDay,
}

func TestGolden(t *testing.T) {
	for name, fixture := range fixtures {
		for ending, write := range writers {
			t.Run(name+"."+ending, func(t *testing.T) {
				in := fixture(t)
				got := render(t, write, in)
				require.Equal(t, string(got), string(render(t, write, in)), "not the same bytes twice")
				compareGolden(t, filepath.Join("testdata", name+"."+ending+".golden"), got)
			})
		}
	}
}

func render(t *testing.T, write func(io.Writer, report.Input) error, in report.Input) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, write(&out, in))
	return out.Bytes()
}

func compareGolden(t *testing.T, file string, got []byte) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(file, got, 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "make it with: go test ./report -update")
	require.Equal(t, string(want), string(got))
}
