package sheet

import "jobday/notes"

// Chart is numbers to be seen: drawn, described in words, and as a table of the same numbers.
type Chart struct {
	Kind   ChartKind
	Title  string // what it shows: "Extras by kind"
	Desc   string // what it tells in a sentence, for who cannot see it
	Unit   string // of the numbers: "USD", "h"
	Series []Series
	Groups []ChartGroup // of Bars, Stacked and Trend: a bar, or a point in time, each
	Flows  []Flow       // of Flowing
	// Numbers is shown instead of the table of numbers the chart makes itself; nil for its own.
	Numbers *Table
	ID      string
}

// ChartKind is how numbers are drawn.
type ChartKind int

// The kinds of chart.
const (
	Bars    ChartKind = iota // one bar a group, one series
	Stacked                  // one bar a group, made of a part for each series
	Trend                    // a line for each series over the groups: weeks
	Flowing                  // from where to where, as wide as it weighs
)

// Series is one of the things a chart compares.
type Series struct {
	Name string
	Tone Tone // gives colour and hatching
}

// ChartGroup is one bar, or one point in time.
type ChartGroup struct {
	Label  string
	Href   string  // the days it is made of, or ""
	Values []Value // one for each series; a missing one is nothing
}

// Value is a number with how it is written. Only the drawing uses Amount, and what is below zero is
// drawn as nothing; the table shows Text.
type Value struct {
	Amount notes.Decimal
	Text   string
}

// Flow is an amount on its way. What comes into a place and what leaves it need not be equal.
type Flow struct {
	From, To string
	Value    Value
	Tone     Tone
	Href     string
}

func (Chart) block() {}

// numbers is the table below a chart.
func (c *Chart) numbers() Table {
	if c.Numbers != nil {
		return *c.Numbers
	}
	return c.table()
}

// table is the numbers of a chart, as they are written.
func (c *Chart) table() Table {
	if c.Kind == Flowing {
		t := Table{Close: true, Columns: []Column{{Title: "From", Width: 3}, {Title: "To", Width: 3}, {Title: unit("Amount", c.Unit), Align: Right, Width: 2}}}
		for _, f := range c.Flows {
			t.Rows = append(t.Rows, Row{Cells: []Cell{{Text: Words(f.From)}, {Text: Link(f.To, f.Href)}, {Text: Words(f.Value.Text)}}})
		}
		return t
	}
	t := Table{Close: true, Columns: []Column{{Title: "What", Width: 3}}}
	if c.Kind == Trend {
		t.Columns[0].Title = "When"
	}
	for _, s := range c.Series {
		t.Columns = append(t.Columns, Column{Title: unit(s.Name, c.Unit), Align: Right, Width: 2})
	}
	for _, g := range c.Groups {
		r := Row{Cells: []Cell{{Text: Link(g.Label, g.Href)}}}
		for _, v := range g.Values {
			r.Cells = append(r.Cells, Cell{Text: Words(v.Text)})
		}
		t.Rows = append(t.Rows, r)
	}
	return t
}

func unit(name, unit string) string {
	if unit == "" {
		return name
	}
	return name + ", " + unit
}

// told is what a chart shows for who cannot see it: its sentence, or the largest of its numbers.
func (c *Chart) told() string {
	if c.Desc != "" {
		return shown(c.Desc)
	}
	return shown(join(": ", c.Title, "the numbers stand in the table below"))
}

// drawn reports whether there is a number to draw.
func (c *Chart) drawn() bool {
	if c.Kind == Flowing {
		for _, f := range c.Flows {
			if f.Value.Amount.Sign() > 0 {
				return true
			}
		}
		return false
	}
	for _, g := range c.Groups {
		for _, v := range g.Values {
			if v.Amount.Sign() > 0 {
				return true
			}
		}
	}
	return false
}

// share is where an amount stands between nothing and the most, in thousandths; it is geometry, no
// figure anybody reads.
func share(amount, most notes.Decimal) float64 {
	if amount.Sign() <= 0 || most.Sign() <= 0 {
		return 0
	}
	n, _ := amount.Mul(notes.Int(10000)).Quo(most, 0).Int()
	return min(float64(n)/10000, 1)
}
