package reconcile

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/notes"
)

// Counts given place by place add up; numbers of places and of other things do not.
func TestCountsByPlace(t *testing.T) {
	for text, want := range map[string]int{
		"wall packs: north side 2, south side 1": 3,
		"high bays row 1: 5, row 2: 5":           10,
		"strip lights east wall 4, west wall 3":  7,
		"lights in row 1, row 2":                 0,
		"room 101, room 102":                     0,
		"rooms 101, 102":                         0,
		"kitchen 3, washer 2":                    0,
		"panel 3, circuit 12":                    0,
		"8 in":                                   0,
		"east wall 4, and the lift came at 9":    0,
	} {
		assert.Equal(t, want, placeSum(text), text)
	}
}

// A list by number ends with its sentence, and a rising number says which one and not how many.
func TestListsByNumber(t *testing.T) {
	for text, want := range map[string]int{
		"curb GFCI 1 and 2. 4 waits": 2,
		"peds 2, 3 and 6":            3,
		"bollards 1 to 4.":           4,
		"kilns 1+2+5 tied in":        3,
	} {
		assert.Equal(t, want, listed(text), text)
	}
	for text, want := range map[string]int{
		"timers 5, 6 set":       0,
		"sirens 7 (one dented)": 7,
		"sirens - 4 all of em":  4,
		"sirens 9, 3 short":     9,
	} {
		assert.Equal(t, want, words(text).standsAlone(), text)
	}
}

// A length said again in brackets in the unit booked is taken as written.
func TestLengthInBrackets(t *testing.T) {
	q, ok := words("new feeder, 40 m (131 ft) pulled").inBrackets(notes.Foot)
	assert.True(t, ok)
	assert.Equal(t, "131 ft", q.String())
	_, ok = words("new feeder, 131 ft pulled").inBrackets(notes.Foot)
	assert.False(t, ok)
}
