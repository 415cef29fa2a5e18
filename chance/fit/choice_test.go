package fit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/chance"
	"jobday/chance/fit"
)

// What is chosen wherever it stands gets the weight, what stands in every option gets none, and the model read back
// says the same.
func TestFitChoices(t *testing.T) {
	var cases []fit.Choice
	for i := range 40 {
		options := [][]string{{"a line"}, {"a line"}, {"a line"}}
		options[i%3] = append(options[i%3], "right")
		options[(i+1)%3] = append(options[(i+1)%3], "wrong")
		cases = append(cases, fit.Choice{Options: options, Accept: []int{i % 3}})
	}
	w := fit.FitChoices(cases, fit.Options{Least: 3, Hold: 0.1})
	assert.Greater(t, w["right"], 1.0)
	assert.Less(t, w["wrong"], 0.0)
	assert.InDelta(t, 0, w["a line"], 0.01)
	ps := w.Chances([][]string{{"a line", "wrong"}, {"a line", "right"}})
	assert.Greater(t, ps[1], 0.9)
	assert.InDelta(t, 1, ps[0]+ps[1], 1e-9)

	m, err := chance.Parse(w.Text("means", 0.05))
	require.NoError(t, err)
	assert.InDelta(t, w["right"], float64(m.Row(chance.Name("right"))[0])/100, 0.006)
}
