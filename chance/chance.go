// Package chance weighs what speaks for one of several answers: a multinomial log-linear model, whose weights
// were fitted to labelled examples. Each feature of a case adds its log odds to the answers it speaks for; the
// sums, made to add up to one, are the chances. Weights are whole hundredths, so that sums are the same on
// every machine.
package chance

import (
	"fmt"
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// A Feature is the name of something that holds of a case, as a hash. The empty name holds of every case.
type Feature uint64

const (
	offset Feature = 14695981039346656037 // FNV-1a, 64 bits
	prime  Feature = 1099511628211
)

// Name returns the feature of a name.
func Name(name string) Feature { return offset.Then(name) }

// Then returns the feature whose name goes on with more.
func (f Feature) Then(more string) Feature {
	for i := 0; i < len(more); i++ {
		f = (f ^ Feature(more[i])) * prime
	}
	return f
}

// A Model holds the log odds that each feature adds to each answer.
type Model struct {
	Answers []string
	rows    []row   // a table with room for twice the features: see find
	weights []int16 // hundredths, one for each answer
}

// A row says where the weights of a feature end; 0 in an empty place of the table.
type row struct {
	feature Feature
	end     int32
}

// find returns the place of a feature in the table, or the empty one where it would stand: the place its hash
// names, or the next that is free. Most of what an entry holds is in no model, and one look tells.
func (m *Model) find(f Feature) *row {
	last := len(m.rows) - 1 // one less than a power of two
	for i := int(f) & last; ; i = (i + 1) & last {
		if r := &m.rows[i]; r.feature == f || r.end == 0 {
			return r
		}
	}
}

// Parse reads the text of a model. Its first line holds the answers, parted by blanks; each further line the name of
// a feature, a tab, and its weights in hundredths as "answer:weight", the answers by number from 0.
func Parse(text string) (*Model, error) {
	head, rest, _ := strings.Cut(text, "\n")
	m := &Model{Answers: strings.Fields(head), rows: make([]row, 2<<bits.Len(uint(strings.Count(rest, "\n")+1)))}
	n := 1
	for line := range strings.Lines(rest) {
		n++
		line = strings.TrimRight(line, "\n")
		if line == "" {
			continue
		}
		name, weights, ok := strings.Cut(line, "\t")
		if !ok {
			return nil, fmt.Errorf("line %d: %q has no tab", n, line)
		}
		at := len(m.weights)
		m.weights = append(m.weights, make([]int16, len(m.Answers))...)
		for _, w := range strings.Fields(weights) {
			answer, hundredths, _ := strings.Cut(w, ":")
			a, err := strconv.Atoi(answer)
			if err != nil || a < 0 || a >= len(m.Answers) {
				return nil, fmt.Errorf("line %d: %q names no answer", n, w)
			}
			x, err := strconv.ParseInt(hundredths, 10, 16)
			if err != nil {
				return nil, fmt.Errorf("line %d: %q holds no weight: %w", n, w, err)
			}
			m.weights[at+a] = int16(x)
		}
		r := m.find(Name(name))
		if r.end > 0 {
			return nil, fmt.Errorf("line %d: %q stands twice", n, name)
		}
		*r = row{Name(name), int32(len(m.weights))}
	}
	return m, nil
}

// MustParse is Parse for a text that was built in: what is wrong with it is a fault of the build, not of any input.
func MustParse(name, text string) *Model {
	m, err := Parse(text)
	if err != nil {
		panic(name + ": " + err.Error())
	}
	return m
}

// Row returns the weights of a feature in hundredths, one for each answer, or nil when it says nothing.
func (m *Model) Row(f Feature) []int16 {
	r := m.find(f)
	if r.end == 0 {
		return nil
	}
	return m.weights[int(r.end)-len(m.Answers) : r.end]
}

// Weigh puts the chance of each answer, given all features, in the memory of ps. Each feature counts as often as it stands.
func (m *Model) Weigh(ps []float64, features []Feature) []float64 {
	ps = append(ps[:0], make([]float64, len(m.Answers))...)
	for _, f := range features {
		for a, w := range m.Row(f) {
			ps[a] += float64(w)
		}
	}
	return soften(ps)
}

// Among puts the chance of each of n options, given the features of each, in the memory of ps. It is for a model of one
// answer: that an option is the one.
func (m *Model) Among(ps []float64, n int, features func(option int) []Feature) []float64 {
	ps = append(ps[:0], make([]float64, n)...)
	for i := range ps {
		for _, f := range features(i) {
			if row := m.Row(f); row != nil {
				ps[i] += float64(row[0])
			}
		}
	}
	return soften(ps)
}

// soften turns sums of hundredths of log odds into chances.
func soften(ps []float64) []float64 {
	most := ps[0]
	for _, p := range ps {
		most = max(most, p)
	}
	total := 0.0
	for i, p := range ps {
		ps[i] = math.Exp((p - most) / 100)
		total += ps[i]
	}
	for i := range ps {
		ps[i] /= total
	}
	return ps
}

// Costs of taking a case for what it is not, in parts of the dearest mistake.
const (
	dear  = 1.0 // one of the two is weighty: money or danger hangs on it
	cheap = 0.3 // neither is
)

// A Choice is the answer that costs least if it is wrong.
type Choice struct {
	Answer int     // its index among the answers
	Next   int     // of the others, the likeliest
	Cost   float64 // what it is expected to cost, 0 for nothing, 1 for a dear mistake that is certain
}

// Choose returns the answer that is expected to cost least, given the chance of each.
func (m *Model) Choose(ps []float64, weighty func(answer string) bool) Choice {
	heavy, light := 0.0, 0.0
	for a, p := range ps {
		if weighty(m.Answers[a]) {
			heavy += p
		} else {
			light += p
		}
	}
	c := Choice{Next: -1, Cost: 2 * dear}
	for a, p := range ps {
		cost := dear*heavy + cheap*(light-p)
		if weighty(m.Answers[a]) {
			cost = dear * (heavy + light - p)
		}
		if cost < c.Cost {
			c.Answer, c.Cost = a, cost
		}
	}
	for a, p := range ps {
		if a != c.Answer && (c.Next < 0 || p > ps[c.Next]) {
			c.Next = a
		}
	}
	return c
}
