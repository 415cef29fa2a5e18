package fit

import (
	"math"
	"slices"
)

// A Choice is one labelled example of choosing among options that differ from case to case: what holds of each option,
// and which ones a careful person would accept.
type Choice struct {
	Options [][]string
	Accept  []int
	Group   string
}

// Scores is the log odds of each feature in favour of the option it holds of.
type Scores map[string]float64

// Chances returns the chance of each option.
func (w Scores) Chances(options [][]string) []float64 {
	ps := make([]float64, len(options))
	for i, fs := range options {
		for _, f := range fs {
			ps[i] += w[f]
		}
	}
	return soften(ps)
}

// FitChoices is Fit for choices.
func FitChoices(cases []Choice, o Options) Scores {
	count := map[string]int{}
	for _, c := range cases {
		seen := map[string]bool{}
		for _, fs := range c.Options {
			for _, f := range fs {
				if !seen[f] {
					seen[f] = true
					count[f]++
				}
			}
		}
	}
	w, moved := Scores{}, Scores{}
	kept := make([][][]string, len(cases))
	for i, c := range cases {
		for _, fs := range c.Options {
			var keep []string
			for _, f := range fs {
				if count[f] >= o.Least {
					keep = append(keep, f)
				}
			}
			kept[i] = append(kept[i], keep)
		}
	}
	mean := Scores{}
	climb(len(cases), o.Rounds, func(i int) { chooseStep(w, moved, kept[i], cases[i].Accept, o, count) }, func(share float64) {
		for f, x := range w {
			mean[f] += x * share
		}
	})
	return mean
}

func chooseStep(w, moved Scores, options [][]string, accept []int, o Options, count map[string]int) {
	const rate = 0.2
	ps := w.Chances(options)
	right := 0.0
	for _, a := range accept {
		right += ps[a]
	}
	slope := map[string]float64{}
	for i, fs := range options {
		g := -ps[i]
		if slices.Contains(accept, i) {
			g += ps[i] / max(right, 1e-9)
		}
		for _, f := range fs {
			slope[f] += g
		}
	}
	for f, g := range slope {
		g -= o.Hold * w[f] / float64(count[f])
		moved[f] += g * g
		w[f] += rate * g / math.Sqrt(moved[f]+1e-8)
	}
}

// Text writes scores as a model of one answer.
func (w Scores) Text(answer string, least float64) string {
	rows := Weights{}
	for f, x := range w {
		rows[f] = []float64{x}
	}
	return rows.Text([]string{answer}, least)
}
