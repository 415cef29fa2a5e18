package price

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/notes"
)

func listOf(rows ...notes.PriceRow) *Rows { return Index(&notes.PriceList{Rows: rows}) }

func TestMaterialIsFoundByTheSameWordsOnly(t *testing.T) {
	r := listOf(
		notes.PriceRow{Code: "GF20", Item: "20A GFCI receptacle", Unit: notes.Each, Kind: "material", Words: []string{"GFCI"}},
		notes.PriceRow{Code: "RC20", Item: "20A duplex receptacle", Unit: notes.Each, Kind: "material"},
		notes.PriceRow{Code: "MCF", Item: "10/2 MC cable", Unit: notes.Foot, Kind: "material"},
		notes.PriceRow{Code: "MCR", Item: "10/2 MC cable", Unit: notes.Roll, Kind: "material"},
		notes.PriceRow{Code: "DS", Item: "30A unfused disconnect", Unit: notes.Each, Kind: "material"},
		notes.PriceRow{Code: "T", Item: "Replace GFCI receptacle", Unit: notes.Each, Kind: "task"},
	)
	for _, c := range []struct {
		item string
		unit notes.Unit
		want string // code, or "" for none
	}{
		{"20A GFCI receptacle", notes.Each, "GF20"},
		{"GFCI receptacles, 20A", notes.Each, "GF20"},
		{"GFCI", notes.Each, "GF20"},
		{"gf20", notes.Each, "GF20"},
		{"10/2 MC cable", notes.Foot, "MCF"},
		{"10/2 MC cable", notes.Roll, "MCR"},
		{"10/2 MC cable", notes.Box, ""}, // sold in two units, and not in this one
		{"12/2 MC cable", notes.Foot, ""},
		{"receptacle", notes.Each, ""}, // a word of two rows is no name of either
		{"15A GFCI receptacle", notes.Each, ""},
		{"Replace GFCI receptacle", notes.Each, ""}, // a task is no material
		{"", notes.Each, ""},
	} {
		row, ok := r.Find(c.item, c.unit)
		assert.Equal(t, c.want, row.Code, c.item)
		assert.Equal(t, c.want != "", ok, c.item)
	}
	near, ok := r.Near("unfused disconnect")
	assert.True(t, ok)
	assert.Equal(t, "DS", near.Code)
	_, ok = r.Near("receptacle")
	assert.False(t, ok, "several rows are as near")
}

func TestTaskNeedsAllItsWords(t *testing.T) {
	r := listOf(
		notes.PriceRow{Code: "R", Item: "Add receptacle", Unit: notes.Each, Kind: "task"},
		notes.PriceRow{Code: "G", Item: "Add GFCI receptacle", Unit: notes.Each, Kind: "task"},
		notes.PriceRow{Code: "S", Item: "Replace switch", Unit: notes.Each, Kind: "task", Words: []string{"swap switch", "switch"}},
	)
	for work, want := range map[string][]string{
		"added a receptacle by the sink":           {"R"},
		"added a GFCI receptacle by the sink":      {"G"}, // says more than R
		"added receptacle, swapped switch":         {"R", "S"},
		"moved the switch":                         nil, // one word alone is no task
		"receptacle by the sink":                   nil,
		"":                                         nil,
		"checked the receptacle and added a cover": {"R"},
	} {
		var got []string
		for _, row := range r.Task(work) {
			got = append(got, row.Code)
		}
		assert.Equal(t, want, got, work)
	}
}
