package field

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"jobday/notes"
)

// TestEveryMinuteOfTheDay holds every written form of a time of day against the standard library,
// which writes the ISO 8601 forms 15:04 and 1504 itself.
func TestEveryMinuteOfTheDay(t *testing.T) {
	midnight := time.Date(2026, 3, 12, 0, 0, 0, 0, time.UTC)
	layouts := []string{"15:04", "1504", "3:04 pm", "3:04pm", "3:04 PM", "3:04PM"}
	for m := range wholeDay {
		at := midnight.Add(time.Duration(m) * time.Minute)
		for _, layout := range layouts {
			require.Equal(t, m, readClock(t, at.Format(layout)), "%s of minute %d", layout, m)
		}
		pm := at.Format("3:04PM")
		short := pm[:len(pm)-2] + strings.ToLower(pm[len(pm)-2:len(pm)-1])
		require.Equal(t, m, readClock(t, short), short)
		plain := pm[:len(pm)-2]
		require.Equal(t, m%halfDay, readClock(t, plain)%halfDay, plain)
	}
}

// readClock reads a text that is one time of day and nothing else, in minutes after midnight.
func readClock(t *testing.T, text string) int {
	t.Helper()
	r := reader{text: text, toks: tokens(text)}
	c, ok := r.clockAt(0)
	require.True(t, ok, text)
	require.Equal(t, len(r.toks), c.next, text)
	return c.minutes()
}

// TestSpansAgainstTheStandardLibrary checks spans of the 24 hour clock, over midnight too, by the
// zone-free arithmetic of package time.
func TestSpansAgainstTheStandardLibrary(t *testing.T) {
	midnight := time.Date(2026, 3, 12, 0, 0, 0, 0, time.UTC)
	for from := 0; from < wholeDay; from += 7 {
		for length := 1; length <= longest; length += 41 {
			a := midnight.Add(time.Duration(from) * time.Minute)
			b := a.Add(time.Duration(length) * time.Minute)
			text := a.Format("15:04") + "-" + b.Format("15:04")
			if a.Hour() >= 10 && a.Hour() <= 12 || b.Hour() >= 10 && b.Hour() <= 12 {
				continue // written alike on both clocks
			}
			rows := Read(text, nil).Time
			require.Len(t, rows, 1, text)
			require.Equal(t, notes.Minutes(b.Sub(a).Minutes()), rows[0].Clock(), text)
			require.Empty(t, rows[0].Fault, text)
		}
	}
}

// TestDurationsAgainstTheStandardLibrary reads back what time.Duration writes.
func TestDurationsAgainstTheStandardLibrary(t *testing.T) {
	for m := 1; m <= longest; m++ {
		d := time.Duration(m) * time.Minute
		texts := []string{fmt.Sprintf("%d min", m)}
		if m >= 60 { // "5m" alone is metres
			texts = append(texts, strings.TrimSuffix(d.String(), "0s"))
		}
		if m%3 == 0 {
			texts = append(texts, fmt.Sprintf("%.2f hrs", d.Hours()))
		}
		for _, text := range texts {
			rows := Read(text, nil).Time
			require.Len(t, rows, 1, text)
			require.Equal(t, notes.Minutes(m), rows[0].Stated, text)
		}
	}
}

func TestTimePieces(t *testing.T) {
	text := "moved it; Ines 7-3:30, 30 lunch; 2 boxes"
	f := Read(text, testLexicon())
	require.Len(t, f.Time, 1)
	require.Equal(t, "Ines 7-3:30, 30 lunch", text[f.Time[0].Start:f.Time[0].End])
}

// TestTimeIsNoMaterial checks that the numbers these grammars took are not counted as items.
func TestTimeIsNoMaterial(t *testing.T) {
	lex := testLexicon()
	for _, text := range []string{
		"45 min", "7-3:30, 30 lunch", "2 guys 3 hrs", "crew of 3, 4 hrs", "quoted 180", "ok'd by Ruth 10:40",
		"NTE 500", "tripped at 5.1 mA, 28 ms", "L1-N 121.4, L2-N 120.9", "122/121/243", "50 % done",
		"told her $180", "drive 40 min each way", "18.4 ohms", "torqued 275 in-lb", "signed 3/12/2026",
	} {
		for _, it := range Read(text, lex).Items {
			require.False(t, it.Qty.Written(), "%s: %s %s", text, it.Qty, it.Text)
		}
	}
}

var benchLines = []string{
	"proofing cabinet circuit pulled, 52 ft of 10/2 MC, box set, not landed yet",
	"1 30A unfused disconnect, 6 ft 10/2 MC, 2 connectors",
	"ok'd by Ruth Amsel on site 10:40",
	"LP1 has two open knockouts on the bottom; closed them, 10 min",
	"GFCI prep counter left: tripped at 5.1 mA, 28 ms, reset ok",
	"Ines 7-3:30, 30 lunch",
	"L1-N 121.4 V, L2-N 120.9, L1-L2 242",
	"Oven fitters were in our way until ten.",
	"hung the new sign over the front door for the bakery",
	"2 of 3 GFCIs at the counter",
}

// BenchmarkSaid times the grammars of time, progress, consent, price, faults and readings alone.
func BenchmarkSaid(b *testing.B) {
	lex := testLexicon()
	toks := make([][]token, len(benchLines))
	for i, line := range benchLines {
		toks[i] = tokens(line)
	}
	b.ReportAllocs()
	for b.Loop() {
		for i, line := range benchLines {
			r := reader{text: line, toks: toks[i], lex: lex}
			r.time()
			r.progress()
			r.consent()
			r.price()
			r.fault()
			r.readings()
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(benchLines)), "ns/line")
}
