package field

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A count may stand without its thing; a number of a list, a time, a circuit or a want is none.
func TestCountsWithoutTheirThing(t *testing.T) {
	for text, want := range map[string]string{
		"cat6 to cameras, terminated 12":   "12",
		"Pendants: converted 10 today":     "10",
		"swapped 19, the other 3 tomorrow": "19",
		"sconce corridor 6 more":           "6",
		"two at the host stand":            "2",
		"Pendants: eight are hung":         "8",
		"6 more cans makes all twelve":     "",
		"need 3 more":                      "",
		"got 3 more from supply":           "",
		"landed 14":                        "",
		"hung 8 to 3:30":                   "",
		"did 4 hrs":                        "",
		"replaced 20A breaker":             "",
		"swapped 4, 6 and 8":               "",
	} {
		got := ""
		if p := Read(text, nil).Progress; p.Told != nil {
			got = p.Told.String()
		}
		assert.Equal(t, want, got, text)
	}
}
