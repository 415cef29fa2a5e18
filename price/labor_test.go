package price

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/notes"
)

// A row that says what was travel is believed; one that has only a sum is read with care.
func TestTravelIsPutWhereTheRowSaysOrWhereItMustBe(t *testing.T) {
	type on = map[string]notes.Minutes
	for _, c := range []struct {
		name string
		row  notes.LaborRow
		want on
	}{
		{"the row says", notes.LaborRow{Travel: 45, On: on{"A": 60, "B": 90, "unassigned": 60}, TravelOn: on{"A": 15, "B": 30}}, on{"A": 15, "B": 30, "unassigned": 0}},
		{"more than was worked", notes.LaborRow{On: on{"A": 10}, TravelOn: on{"A": 20}}, on{"A": 10}},
		{"on nothing in particular", notes.LaborRow{Travel: 30, On: on{"A": 60, "unassigned": 60}}, on{"A": 0, "unassigned": 30}},
		{"the only thing worked on", notes.LaborRow{Travel: 30, On: on{"A": 60}}, on{"A": 30}},
		{"one of two things", notes.LaborRow{Travel: 30, On: on{"A": 60, "B": 60}}, on{"A": 0, "B": 0}},
	} {
		for key, want := range c.want {
			assert.Equal(t, want, travelOn(&c.row, key, c.row.On[key]), "%s, %s", c.name, key)
		}
	}
}
