// Package fit fits a chance.Model to labelled cases. Only tests import it.
package fit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/optimize"
)

// A Case is one labelled example: what holds of it, and the answers a careful person would accept.
type Case struct {
	Features []string
	Accept   []int   // indexes of answers
	Weight   float64 // how much it counts; 0 counts as 1
}

// Options say how to fit.
type Options struct {
	Answers []string
	Least   int     // features that fewer cases have are left out
	Hold    float64 // how strongly weights are held to zero
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
	soften(ps)
	return ps
}

// soften turns sums of log odds into chances.
func soften(ps []float64) {
	most, total := slices.Max(ps), 0.0
	for i := range ps {
		ps[i] = math.Exp(ps[i] - most)
		total += ps[i]
	}
	for i := range ps {
		ps[i] /= total
	}
}

// Fit finds the weights under which what is accepted is likeliest, less half of Hold times the square of each weight.
// The same cases in any order give the same weights, and a few cases more move them a little.
func Fit(cases []Case, o Options) Weights {
	names := newFeatures(o.Least)
	for _, c := range cases {
		names.count(c.Features)
	}
	kept := make([][]int, len(cases))
	for i, c := range cases {
		kept[i] = names.keep(c.Features)
	}
	n := len(o.Answers)
	x := descend(len(names.kept)*n, o.Hold, func(x, slope []float64) (loss float64) {
		ps := make([]float64, n)
		for i, c := range cases {
			clear(ps)
			for _, f := range kept[i] {
				for a, w := range x[f*n : f*n+n] {
					ps[a] += w
				}
			}
			weight := c.Weight
			if weight == 0 {
				weight = 1
			}
			soften(ps)
			loss += weight * pull(ps, c.Accept)
			for _, f := range kept[i] {
				for a, g := range ps {
					slope[f*n+a] += weight * g
				}
			}
		}
		return loss
	})
	w := Weights{}
	for i, f := range names.kept {
		w[f] = x[i*n : i*n+n]
	}
	return w
}

// pull puts in place of chances how fast the surprise at what was accepted grows with the log odds of each answer, and
// returns that surprise: the negative logarithm of the chance of what is accepted.
func pull(ps []float64, accept []int) (surprise float64) {
	right := 0.0
	for a, p := range ps {
		if slices.Contains(accept, a) {
			right += p
		}
	}
	right = max(right, 1e-300)
	for a, p := range ps {
		if slices.Contains(accept, a) {
			ps[a] -= p / right
		}
	}
	return -math.Log(right)
}

// features are names by number, without those that are rare.
type features struct {
	least  int
	counts map[string]int
	number map[string]int
	kept   []string
}

func newFeatures(least int) *features {
	return &features{least: least, counts: map[string]int{}, number: map[string]int{}}
}

// count counts the features of one more case.
func (s *features) count(names ...[]string) {
	seen := map[string]bool{}
	for _, fs := range names {
		for _, f := range fs {
			if !seen[f] {
				seen[f] = true
				s.counts[f]++
			}
		}
	}
}

// keep returns the numbers of those that enough cases have.
func (s *features) keep(names []string) []int {
	var all []int
	for _, f := range names {
		if s.counts[f] < s.least {
			continue
		}
		i, known := s.number[f]
		if !known {
			i = len(s.kept)
			s.number[f] = i
			s.kept = append(s.kept, f)
		}
		all = append(all, i)
	}
	return all
}

// enough is the share by which five more steps no longer bring the surprise down.
const enough = 1e-6

// descend finds where loss, with half of hold times the square of each of n weights, is least, by the limited-memory BFGS
// method. loss adds to slope how it grows with each weight.
func descend(n int, hold float64, loss func(x, slope []float64) float64) []float64 {
	at, slope := []float64(nil), make([]float64, n)
	height := 0.0
	look := func(x []float64) {
		if slices.Equal(at, x) {
			return
		}
		at = append(at[:0], x...)
		clear(slope)
		height = loss(x, slope)
		for i, w := range x {
			height += hold * w * w / 2
			slope[i] += hold * w
		}
	}
	start, last := make([]float64, n), math.Inf(1)
	for {
		found, err := optimize.Minimize(optimize.Problem{
			Func: func(x []float64) float64 { look(x); return height },
			Grad: func(grad, x []float64) { look(x); copy(grad, slope) },
		}, start, &optimize.Settings{
			Converger: &optimize.FunctionConverge{Relative: enough, Iterations: 5},
		}, &optimize.LBFGS{})
		if err == nil || found.F > last*(1-enough) {
			return found.X
		}
		start, last = found.X, found.F // a line search ended in the noise of the last digits: begin it anew there
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
