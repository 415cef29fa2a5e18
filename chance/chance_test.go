package chance_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/chance"
	"jobday/chance/fit"
)

func TestWeighAddsLogOdds(t *testing.T) {
	m, err := chance.Parse("work talk\n\t0:69\nword hung\t0:110\nword nice\t1:230\n")
	require.NoError(t, err)
	ps := m.Weigh(nil, []chance.Feature{chance.Name(""), chance.Name("word ").Then("hung"), chance.Name("word unheard")})
	// Log odds add up: 0.69 + 1.10 = 1.79 for work, so odds of e^1.79 to 1.
	assert.InDelta(t, math.Exp(1.79)/(1+math.Exp(1.79)), ps[0], 1e-9)
	assert.InDelta(t, 1, ps[0]+ps[1], 1e-12)
	assert.Nil(t, m.Row(chance.Name("word unheard")))
}

func TestParseSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"a b\nword x":             "line 2",
		"a b\nword x\t2:10":       "names no answer",
		"a b\nword x\t0:many":     "holds no weight",
		"a b\nx\t0:1\nx\t1:1":     "stands twice",
		"a b\n\nx\t0:1\ny 0:3\n":  "has no tab",
		"a b\nx\t0:1\ny\t-1:30\n": "names no answer",
	} {
		_, err := chance.Parse(text)
		assert.ErrorContains(t, err, want, "%q", text)
	}
}

// What a fit writes is what Parse reads; it foretells what it saw, says nothing of what it never saw, and the same
// cases give the same text.
func TestFitRoundTrip(t *testing.T) {
	answers := []string{"work", "talk"}
	var cases []fit.Case
	for range 20 {
		cases = append(cases, fit.Case{Features: []string{"", "word hung"}, Accept: []int{0}}, fit.Case{Features: []string{"", "word nice"}, Accept: []int{1}},
			fit.Case{Features: []string{"", "word so"}, Accept: []int{0, 1}})
	}
	o := fit.Options{Answers: answers, Least: 2, Hold: 1}
	text := fit.Fit(cases, o).Text(answers, 0.05)
	assert.Equal(t, text, fit.Fit(cases, o).Text(answers, 0.05))
	m, err := chance.Parse(text)
	require.NoError(t, err)
	p := func(name string) float64 {
		return m.Weigh(nil, []chance.Feature{chance.Name(""), chance.Name(name)})[0]
	}
	assert.Greater(t, p("word hung"), 0.85)
	assert.Less(t, p("word nice"), 0.15)
	assert.InDelta(t, p("word so"), p("word never"), 0.1, "what is as good either way speaks for nothing")
}

// Weights that nothing holds are the logarithms of the odds counted, and a case more moves them by little.
func TestFitFindsTheOdds(t *testing.T) {
	fitted := func(yes, no int) float64 {
		cases := slices.Repeat([]fit.Case{{Features: []string{""}, Accept: []int{0}}}, yes)
		cases = append(cases, slices.Repeat([]fit.Case{{Features: []string{""}, Accept: []int{1, 1}}}, no)...)
		w := fit.Fit(cases, fit.Options{Answers: []string{"yes", "no"}, Hold: 1e-6})
		return w[""][0] - w[""][1]
	}
	assert.InDelta(t, math.Log(3), fitted(30, 10), 1e-3)
	assert.InDelta(t, math.Log(31.0/10), fitted(31, 10), 1e-3)
}

// The order of the cases is no clue.
func TestFitHasNoOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var cases []fit.Case
	for range 300 {
		c := fit.Case{Features: []string{""}, Accept: []int{r.IntN(3)}}
		for f := range 8 {
			if r.IntN(3) == c.Accept[0] || r.IntN(4) == 0 {
				c.Features = append(c.Features, strconv.Itoa(f))
			}
		}
		cases = append(cases, c)
	}
	o := fit.Options{Answers: []string{"a", "b", "c"}, Least: 2, Hold: 1}
	before := fit.Fit(cases, o)
	r.Shuffle(len(cases), func(i, j int) { cases[i], cases[j] = cases[j], cases[i] })
	for f, row := range fit.Fit(cases, o) {
		assert.InDeltaSlice(t, before[f], row, 0.005, f)
	}
}
