package sheet

import (
	"math"
	"strconv"
	"strings"

	"jobday/notes"
)

// px is a length in a drawing, whose letters are 12 high.
type px float64

// String writes a length to a tenth.
func (p px) String() string {
	return strconv.FormatFloat(math.Round(float64(p)*10)/10, 'f', -1, 64)
}

// shape is a rectangle, words, a path or a dot.
type shape struct {
	X, Y, W, H, R px
	Words         string
	Anchor        string // of words: "start", "middle", "end"
	Class         string // CSS: "axis", "guide", "edge", "run", "strong", "soft", with a tone
	Fill          Tone   // hatching, "plain" for none
	path          []point
	curved        bool // a ribbon between path's first two and last two points
}

type point struct{ x, y px }

// drawing is a chart as shapes, the same for a page and for paper.
type drawing struct {
	W, H   px
	Shapes []shape
	measure
}

// D is the path of a shape as SVG writes it.
func (s shape) D() string {
	if len(s.path) == 0 {
		return ""
	}
	var b strings.Builder
	at := func(p point) string { return p.x.String() + " " + p.y.String() }
	if s.curved {
		a, e, f, z := s.path[0], s.path[1], s.path[2], s.path[3]
		mid := (a.x + e.x) / 2
		b.WriteString("M" + at(a) + "C" + at(point{mid, a.y}) + " " + at(point{mid, e.y}) + " " + at(e) +
			"L" + at(f) + "C" + at(point{mid, f.y}) + " " + at(point{mid, z.y}) + " " + at(z) + "Z")
		return b.String()
	}
	for i, p := range s.path {
		b.WriteString([]string{"L", "M"}[btoi(i == 0)] + at(p))
	}
	return b.String()
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// draw lays a chart out so wide.
func (c *Chart) draw(width px, m measure) drawing {
	d := drawing{W: width, measure: m}
	switch c.Kind {
	case Trend:
		d.trend(c)
	case Flowing:
		d.flowing(c)
	default:
		d.bars(c)
	}
	return d
}

const letter = 12 // height of letters in a drawing

func (d *drawing) words(x, y px, words, anchor, class string) {
	d.Shapes = append(d.Shapes, shape{X: x, Y: y, Words: shown(words), Anchor: anchor, Class: class})
}

func (d *drawing) rect(x, y, w, h px, tone Tone) {
	if w <= 0 || h <= 0 {
		return
	}
	fill := tone
	if fill == Plain {
		fill = "plain"
	}
	d.Shapes = append(d.Shapes, shape{X: x, Y: y, W: w, H: h, Fill: fill}, shape{X: x, Y: y, W: w, H: h, Class: "edge " + string(tone)})
}

func (d *drawing) line(class string, path ...point) {
	d.Shapes = append(d.Shapes, shape{Class: class, path: path})
}

// wide is how wide words are in a drawing.
func (d *drawing) wide(words string) px {
	return px(d.measure.of(shown(words), face{})) * letter * 1.04
}

// cut shortens words to a width.
func (d *drawing) cut(words string, w px) string {
	words = shown(words)
	if d.wide(words) <= w {
		return words
	}
	runes := []rune(words)
	for len(runes) > 1 && d.wide(string(runes)+"…") > w {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimSpace(string(runes)) + "…"
}

// legend names the series of a chart at its top.
func (d *drawing) legend(c *Chart) {
	if len(c.Series) < 2 {
		return
	}
	x, y := px(0), px(0)
	for _, s := range c.Series {
		name := d.cut(s.Name, d.W-24)
		w := 20 + d.wide(name) + 18
		if x > 0 && x+w > d.W {
			x, y = 0, y+20
		}
		d.rect(x+.5, y+2.5, 13, 11, s.Tone)
		d.words(x+20, y+12, name, "start", "")
		x += w
	}
	d.H = y + 26
}

// bars draws one bar a group, from left to right; where there is little room the label stands above.
func (d *drawing) bars(c *Chart) {
	d.legend(c)
	var most notes.Decimal
	labels, values := px(0), px(0)
	for _, g := range c.Groups {
		sum := notes.Decimal{}
		for i, v := range g.Values {
			if i < len(c.Series) && v.Amount.Sign() > 0 {
				sum = sum.Add(v.Amount)
			}
			if len(c.Series) == 1 {
				values = max(values, d.wide(v.Text)+8)
			}
		}
		most = notes.Max(most, sum)
		labels = max(labels, d.wide(g.Label))
	}
	above := d.W < 480
	labels = min(labels, d.W*.36) + 10
	if above {
		labels = 0
	}
	values = min(values, d.W*.35)
	room := d.W - labels - values - 1
	top := d.H
	for _, g := range c.Groups {
		if above {
			d.words(0, d.H+12, d.cut(g.Label, d.W), "start", "")
			d.H += 17
		} else {
			d.words(labels-10, d.H+14, d.cut(g.Label, labels-10), "end", "")
		}
		x := labels
		for i, s := range c.Series {
			if i < len(g.Values) {
				w := room * px(share(g.Values[i].Amount, most))
				d.rect(x, d.H+2, w, 15, s.Tone)
				x += w
			}
		}
		if len(c.Series) == 1 && len(g.Values) > 0 {
			d.words(x+7, d.H+14, d.cut(g.Values[0].Text, values-7), "start", "strong")
		}
		d.H += 25
	}
	d.line("axis", point{labels, top}, point{labels, d.H - 4})
}

// trend draws a line for each series from the first group to the last.
func (d *drawing) trend(c *Chart) {
	d.legend(c)
	most, text := notes.Decimal{}, ""
	for _, g := range c.Groups {
		for i, v := range g.Values {
			if i < len(c.Series) && v.Amount.Cmp(most) > 0 {
				most, text = v.Amount, v.Text
			}
		}
	}
	left := min(max(d.wide(text), d.wide("0"))+8, d.W/3)
	top, high := d.H+8, px(150)
	base := top + high
	d.line("guide", point{left, top}, point{d.W, top})
	d.line("guide", point{left, top + high/2}, point{d.W, top + high/2})
	d.line("axis", point{left, base}, point{d.W, base})
	d.words(left-8, top+4, d.cut(text, left-8), "end", "soft")
	d.words(left-8, base+4, "0", "end", "soft")
	step := (d.W - left - 16) / px(max(1, len(c.Groups)-1))
	at := func(i int) px { return left + 8 + step*px(i) }
	for i, s := range c.Series {
		var path []point
		for j, g := range c.Groups {
			if i < len(g.Values) {
				path = append(path, point{at(j), base - high*px(share(g.Values[i].Amount, most))})
			}
		}
		d.line("run "+string(s.Tone), path...)
		for _, p := range path {
			d.Shapes = append(d.Shapes, shape{X: p.x, Y: p.y, R: 3, Class: "dot " + string(s.Tone)})
		}
	}
	free := px(0)
	for j, g := range c.Groups {
		w := d.wide(g.Label)
		x := min(max(at(j)-w/2, left), d.W-w)
		if x >= free {
			d.words(x, base+18, g.Label, "start", "soft")
			free = x + w + 10
		}
	}
	d.H = base + 26
}
