package fit

// A Choice is one labelled example of choosing among options that differ from case to case: what holds of each option,
// and which ones a careful person would accept.
type Choice struct {
	Options [][]string
	Accept  []int
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
	soften(ps)
	return ps
}

// FitChoices is Fit for choices.
func FitChoices(cases []Choice, o Options) Scores {
	names := newFeatures(o.Least)
	for _, c := range cases {
		names.count(c.Options...)
	}
	kept := make([][][]int, len(cases))
	for i, c := range cases {
		for _, fs := range c.Options {
			kept[i] = append(kept[i], names.keep(fs))
		}
	}
	x := descend(len(names.kept), o.Hold, func(x, slope []float64) (loss float64) {
		var ps []float64
		for i, options := range kept {
			ps = ps[:0]
			for _, fs := range options {
				sum := 0.0
				for _, f := range fs {
					sum += x[f]
				}
				ps = append(ps, sum)
			}
			soften(ps)
			loss += pull(ps, cases[i].Accept)
			for k, fs := range options {
				for _, f := range fs {
					slope[f] += ps[k]
				}
			}
		}
		return loss
	})
	w := Scores{}
	for i, f := range names.kept {
		w[f] = x[i]
	}
	return w
}

// Text writes scores as a model of one answer.
func (w Scores) Text(answer string, least float64) string {
	rows := Weights{}
	for f, x := range w {
		rows[f] = []float64{x}
	}
	return rows.Text([]string{answer}, least)
}
