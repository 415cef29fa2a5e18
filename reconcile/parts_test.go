package reconcile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// Counts given part by part add up; which one, other things and what is lacking do not.
func TestCountsByPart(t *testing.T) {
	for text, want := range map[string]int{
		"strobes 12 hall A, 3 gym":                15,
		"pucks 4: 10, 5: 8":                       18,
		"packs rear 4 and the side 3":             7,
		"sensors: 5 lobby, 1 kitchen":             6,
		"closet 1, closet 2":                      0,
		"kitchen: 3 plugs in, one still at desk":  0,
		"pulled 20, punched 12":                   0,
		"heads 4 in the lobby, 2 covers":          0,
		"panel A circuit 4, panel B circuit 6":    0,
		"row 1, row 2":                            0,
		"2 gang boxes in kitchen, 20A at the bar": 0,
	} {
		assert.Equal(t, want, words(text).partSum(), text)
	}
}

func words(text string) *query {
	q := newQuery(text, trade.Words{})
	return &q
}

// A count may stand behind its thing and the place, or open the entry; what names a place or rates a thing is none.
func TestCountsBesideTheirThing(t *testing.T) {
	line := words("Corridor emergency lights and horn strobes, occupancy sensors, desk runs")
	for text, want := range map[string]int{
		"strobes hall B 14":           14,
		"emergency lights 3rd flr 6":  6,
		"strobes in rm 302, 2 pcs":    2,
		"strobe hall B 14":            0,
		"strobes at door 14":          0,
		"hall B 14":                   0,
		"strobes hall B 14 feet long": 0,
	} {
		assert.Equal(t, want, words(text).countBehind(line), text)
	}
	for text, want := range map[string]int{
		"18 desk runs pulled":     18,
		"6 occs up":               6,
		"18. desk runs pulled":    0,
		"20A desk runs pulled":    0,
		"302 ceiling tiles":       0,
		"4 pole strobe":           0,
		"6 cracked tiles by desk": 0,
	} {
		assert.Equal(t, want, words(text).countAhead(line), text)
	}
}

// The number of the last thing of a list is no count of what it stands before.
func TestLastOfAList(t *testing.T) {
	for text, want := range map[string]bool{
		"room 4 and 7 exam light":   true,
		"doors 5 6 7 heater":        true,
		"rooms 4 and 7 exam lights": false,
		"room 4, 7 lights":          false,
		"7 lights":                  false,
	} {
		assert.Equal(t, want, words(text).lastOfList(notes.Int(7)), text)
	}
}

// A row counts what stands under the header for work done, and nothing under two such or none.
func TestCountOfARow(t *testing.T) {
	for text, want := range map[string]int{
		"| item | did | left |\n| drops | 22 | 6 |\n":                 22,
		"| item | left | done |\n|---|---|---|\n| drops | 6 | 22 |\n": 22,
		"| item | booked | left |\n| drops | 22 | 6 |\n":              0,
		"| item | did | done |\n| drops | 22 | 6 |\n":                 0,
		"| item | did |\n| drops | 22 | 6 |\n":                        0,
		"| item | did |\n| drops | about 22 |\n":                      0,
		"drops 22\n":                                                  0,
	} {
		f := finding.NewFile("n.md", []byte(text))
		at := strings.Index(text, "drops")
		assert.Equal(t, want, rowCount(f.Span(at, at+5)), text)
	}
}
