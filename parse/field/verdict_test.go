package field

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/trade"
)

// TestReadingVerdicts scores whole test lines as the report shows them: what was read, every value
// with its unit and place, what was tested and what the limits say of it. A row counts only when all of
// it is right. What each table scored when it was new stands at its head; SHOW=1 shows the misses.
func TestReadingVerdicts(t *testing.T) {
	lex := testLexicon()
	for _, c := range []struct {
		file  string
		floor float64
	}{
		{"verdict1.txt", 0.95},
		{"verdict2.txt", 0.95},
		{"verdict3.txt", 0.95},
		{"verdict4.txt", 0.95},
	} {
		right, of := 0, 0
		for _, row := range readTable(t, "testdata/heldout/"+c.file) {
			want, verdict, ok := strings.Cut(row.want, " => ")
			require.True(t, ok, "%s:%d: no verdict", c.file, row.at)
			line, prose := strings.CutPrefix(row.line, "~ ")
			readings := ReadReadings(line, lex)
			if prose {
				readings = Read(line, lex).Readings
			}
			got, judged := showReadings(readings), trade.Judge(line, readings)
			said := string(judged.Verdict)
			if judged.Impossible != "" {
				said = "impossible"
			}
			of++
			state, what, _ := strings.Cut(verdict, " ")
			if (got == want || want == "?" && got == "-") && said == state && strings.Contains(strings.ToLower(judged.Kind), strings.ToLower(what)) {
				right++
			} else if os.Getenv("SHOW") != "" {
				t.Logf("%s:%d: %s\n    got  %s => %s %s (%s)\n    want %s", c.file, row.at, row.line, got, said, judged.Kind, judged.Why, row.want)
			}
		}
		t.Logf("%s: %d of %d right", c.file, right, of)
		require.GreaterOrEqual(t, float64(right)/float64(of), c.floor, c.file)
	}
}
