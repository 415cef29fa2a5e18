package sheet

import "jobday/notes"

// station is where amounts come to or leave from.
type station struct {
	name    string
	in, out notes.Decimal
	text    string // of the amount, where only one comes in
	column  int
	tone    Tone
	y, h    px
	left    px // used so far of what comes in and what goes out
	right   px
}

// stations lists the stations of a chart in the order they are named, each in the column of its longest way.
func (c *Chart) stations() (list []*station, at map[string]*station) {
	at = map[string]*station{}
	find := func(name string) *station {
		if at[name] == nil {
			at[name] = &station{name: name}
			list = append(list, at[name])
		}
		return at[name]
	}
	for _, f := range c.Flows {
		from, to := find(f.From), find(f.To)
		if f.Value.Amount.Sign() > 0 {
			from.out, to.in = from.out.Add(f.Value.Amount), to.in.Add(f.Value.Amount)
		}
		to.text, to.tone = map[bool]string{true: f.Value.Text}[to.text == ""], f.Tone
	}
	for range min(len(list), 8) { // a circle ends here
		for _, f := range c.Flows {
			if from, to := at[f.From], at[f.To]; from != to {
				to.column = min(max(to.column, from.column+1), 8)
			}
		}
	}
	return list, at
}

func (p *station) weight() notes.Decimal { return notes.Max(p.in, p.out) }

// flowing draws places as upright bars and what flows between them as ribbons, each as wide as it weighs.
func (d *drawing) flowing(c *Chart) {
	list, at := c.stations()
	columns, most := 0, notes.Decimal{}
	sums, counts := map[int]notes.Decimal{}, map[int]int{}
	for _, p := range list {
		columns = max(columns, p.column)
		sums[p.column] = sums[p.column].Add(p.weight())
		counts[p.column]++
	}
	rows := 1
	for col := range columns + 1 {
		most = notes.Max(most, sums[col])
		rows = max(rows, counts[col])
	}
	const bar, gap = 12, 34
	high := px(170)
	label := px(0) // the last column's words stand right of it
	for _, p := range list {
		if p.column == columns {
			label = max(label, d.wide(p.name)*boldly, d.wide(p.text))
		}
	}
	label = min(label, d.W*.45) + 8
	step := (d.W - label - bar) / px(max(1, columns))
	next := map[int]px{}
	for _, p := range list {
		p.y = next[p.column] + 18
		p.h = max(high*px(share(p.weight(), most)), 2)
		next[p.column] = p.y + p.h + gap - 18
		d.H = max(d.H, p.y+max(p.h, 26)+8)
	}
	for _, f := range c.Flows {
		from, to := at[f.From], at[f.To]
		h := high * px(share(f.Value.Amount, most))
		if h <= 0 || from == to {
			continue
		}
		x1, x2 := step*px(from.column)+bar, step*px(to.column)
		y1, y2 := from.y+from.right, to.y+to.left
		from.right, to.left = from.right+h, to.left+h
		fill := f.Tone
		if fill == Plain {
			fill = "plain"
		}
		d.Shapes = append(d.Shapes, shape{path: []point{{x1, y1}, {x2, y2}, {x2, y2 + h}, {x1, y1 + h}}, curved: true, Fill: fill, Class: string(f.Tone)})
	}
	for _, p := range list {
		x := step * px(p.column)
		d.Shapes = append(d.Shapes, shape{X: x, Y: p.y, W: bar, H: p.h, Fill: "plain"})
		if p.column == columns {
			d.words(x+bar+8, p.y+10, d.cut(p.name, (label-8)/boldly), "start", "strong")
			d.words(x+bar+8, p.y+25, d.cut(p.text, label-8), "start", "")
			continue
		}
		d.words(x, p.y-6, d.cut(p.name, step), "start", "strong")
	}
}
