// Package fit fits a chance.Model to labelled cases. Only tests import it.
package fit

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
)

// A Case is one labelled example: what holds of it, and the answers a careful person would accept.
type Case struct {
	Features []string
	Accept   []int   // indexes of answers
	Weight   float64 // how much it counts; 0 counts as 1
	Group    string  // whose it is, to leave out one writer at a time
}

// Options say how to fit.
type Options struct {
	Answers []string
	Least   int     // features that fewer cases have are left out
	Hold    float64 // how strongly weights are held to zero
	Rounds  int     // how often all cases are gone over
}

// Weights are the log odds of each feature, one for each answer.
type Weights map[string][]float64

// Chances returns the chance of each answer.
func (w Weights) Chances(features []string, n int) []float64 {
	ps := make([]float64, n)
	for _, f := range features {
		for a, x := range w[f] {
			ps[a] += x
		}
	}
	return soften(ps)
}

// soften turns sums of log odds into chances.
func soften(ps []float64) []float64 {
	most, total := slices.Max(ps), 0.0
	for i := range ps {
		ps[i] = math.Exp(ps[i] - most)
		total += ps[i]
	}
	for i := range ps {
		ps[i] /= total
	}
	return ps
}

// Fit climbs to the weights that make what is accepted most likely, by stochastic steps whose size falls with
// what a weight has already moved (Duchi, Hazan and Singer 2011, from memory); what it returns is their mean over the
// second half of the rounds, which the order of the cases moves less. That order is drawn from a fixed seed: the same
// cases give the same weights.
func Fit(cases []Case, o Options) Weights {
	count := map[string]int{}
	for _, c := range cases {
		for _, f := range c.Features {
			count[f]++
		}
	}
	w, moved := Weights{}, Weights{}
	kept := make([][]string, len(cases))
	for i, c := range cases {
		for _, f := range c.Features {
			if count[f] < o.Least {
				continue
			}
			kept[i] = append(kept[i], f)
			if w[f] == nil {
				w[f], moved[f] = make([]float64, len(o.Answers)), make([]float64, len(o.Answers))
			}
		}
	}
	mean := Weights{}
	climb(len(cases), o.Rounds, func(i int) { step(w, moved, kept[i], cases[i], o, count) }, func(share float64) {
		for f, row := range w {
			if mean[f] == nil {
				mean[f] = make([]float64, len(row))
			}
			for a, x := range row {
				mean[f][a] += x * share
			}
		}
	})
	return mean
}

// climb goes over n cases round by round, in an order drawn from a fixed seed, and adds up the mean of what stands after
// each round of the second half, share by share.
func climb(n, rounds int, step func(i int), add func(share float64)) {
	r := rand.New(rand.NewSource(1))
	order := r.Perm(n)
	for round := range rounds {
		r.Shuffle(n, func(i, j int) { order[i], order[j] = order[j], order[i] })
		for _, i := range order {
			step(i)
		}
		if round >= rounds/2 {
			add(1 / float64(rounds-rounds/2))
		}
	}
}

func step(w, moved Weights, features []string, c Case, o Options, count map[string]int) {
	const rate = 0.2
	ps := w.Chances(features, len(o.Answers))
	right := 0.0
	for _, a := range c.Accept {
		right += ps[a]
	}
	weight := c.Weight
	if weight == 0 {
		weight = 1
	}
	for a, p := range ps {
		g := -p
		if slices.Contains(c.Accept, a) {
			g += p / max(right, 1e-9)
		}
		for _, f := range features {
			gf := weight*g - o.Hold*w[f][a]/float64(count[f])
			if gf == 0 {
				continue
			}
			moved[f][a] += gf * gf
			w[f][a] += rate * gf / math.Sqrt(moved[f][a]+1e-8)
		}
	}
}

// Text writes weights as a model that chance.Parse reads. Weights below least log odds are left out.
func (w Weights) Text(answers []string, least float64) string {
	names := make([]string, 0, len(w))
	for f := range w {
		names = append(names, f)
	}
	slices.Sort(names)
	var out strings.Builder
	out.WriteString(strings.Join(answers, " ") + "\n")
	for _, f := range names {
		row := ""
		for a, x := range w[f] {
			if math.Abs(x) >= least {
				row += fmt.Sprintf(" %d:%d", a, int(math.Round(100*x)))
			}
		}
		if row != "" {
			out.WriteString(f + "\t" + row[1:] + "\n")
		}
	}
	return out.String()
}
