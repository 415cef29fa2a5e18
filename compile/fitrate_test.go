package compile_test

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"jobday/chance/fit"
)

// rateLines says how often the likeliest line was right, by how likely it was said to be, for jobs of writers the
// weights were not fitted to.
func rateLines(t *testing.T, w fit.Scores, cs []fit.Choice) {
	var r rating
	for _, c := range cs {
		r.add(w.Chances(c.Options), c.Accept)
	}
	t.Logf("lines: %s", r)
}

// apart leaves out each group of sets in turn, and says how well the rest foretells it.
func apart(t *testing.T, all []fitCase, name string, answers []string, which func(fitCase) fit.Case) {
	groups := strings.Split(*fitApart, ",")
	out := make([]string, len(groups))
	total := make([]rating, len(groups))
	var wait sync.WaitGroup
	gate := make(chan struct{}, 2)
	for i, g := range groups {
		wait.Go(func() {
			gate <- struct{}{}
			defer func() { <-gate }()
			var train, test []fitCase
			for _, c := range all {
				if strings.Contains(c.set, g) {
					test = append(test, c)
				} else {
					train = append(train, c)
				}
			}
			o := fitOptions
			o.Answers, o.Hold, o.Least = answers, *fitHold, *fitLeast
			total[i] = rate(fit.Fit(pickCases(train, which), o), pickCases(test, which), len(answers))
			out[i] = fmt.Sprintf("%s without %s: %s", name, g, total[i])
		})
	}
	wait.Wait()
	sum := rating{}
	for _, r := range total {
		sum.n, sum.right, sum.surprise = sum.n+r.n, sum.right+r.right, sum.surprise+r.surprise
		for b := range r.bins {
			sum.bins[b][0] += r.bins[b][0]
			sum.bins[b][1] += r.bins[b][1]
		}
		for k, n := range r.mixed {
			if sum.mixed == nil {
				sum.mixed = map[[2]int]int{}
			}
			sum.mixed[k] += n
		}
	}
	t.Logf("\n%s\n%s ALL: %s", strings.Join(out, "\n"), name, sum)
	t.Log(sum.mixUps(answers))
}

// mixUps lists what was oftenest taken for what.
func (r rating) mixUps(answers []string) string {
	const most = 25
	type mixUp struct {
		what string
		n    int
	}
	var all []mixUp
	for k, n := range r.mixed {
		all = append(all, mixUp{answers[k[0]] + " as " + answers[k[1]], n})
	}
	slices.SortFunc(all, func(a, b mixUp) int { return cmp.Or(b.n-a.n, strings.Compare(a.what, b.what)) })
	out := ""
	for _, m := range all[:min(most, len(all))] {
		out += fmt.Sprintf("\n%4d %s", m.n, m.what)
	}
	return out
}

// A rating counts how often the likeliest answer was right, by how likely it was said to be.
type rating struct {
	n, right int
	surprise float64
	bins     [6][2]int
	mixed    map[[2]int]int // what was right, and what was likeliest instead
}

func (r rating) String() string {
	return fmt.Sprintf("%.4f of %d, surprise %.4f; from 0, .5, .7, .8, .9, .97: %v", float64(r.right)/float64(r.n), r.n, r.surprise/float64(r.n), r.bins)
}

func rate(w fit.Weights, test []fit.Case, n int) rating {
	r := rating{mixed: map[[2]int]int{}}
	for _, c := range test {
		if best := r.add(w.Chances(c.Features, n), c.Accept); !slices.Contains(c.Accept, best) {
			r.mixed[[2]int{c.Accept[0], best}]++
		}
	}
	return r
}

// add counts whether the likeliest answer is right, and returns it.
func (r *rating) add(ps []float64, accept []int) int {
	best, b := 0, 0
	for a, p := range ps {
		if p > ps[best] {
			best = a
		}
	}
	for _, at := range []float64{0.5, 0.7, 0.8, 0.9, 0.97} {
		if ps[best] >= at {
			b++
		}
	}
	p := 0.0
	for _, a := range accept {
		p += ps[a]
	}
	r.surprise -= math.Log(max(p, 1e-6))
	r.n++
	r.bins[b][0]++
	if slices.Contains(accept, best) {
		r.right++
		r.bins[b][1]++
	}
	return best
}
