package reconcile

import (
	"testing"

	"github.com/stretchr/testify/assert"
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
