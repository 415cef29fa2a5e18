package sheet

import (
	"cmp"
	"math"
	"slices"
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

	wider px // letters of the page against those measured
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

// draw lays a chart out so wide, for letters that are by a factor wider than those measured.
func (c *Chart) draw(width, wider px, m measure) drawing {
	d := drawing{W: width, wider: wider, measure: m}
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

const boldly px = 1.13 // how much wider bold letters are

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
	return px(d.measure.of(shown(words), face{})) * letter * d.wider
}

// cut shortens words to a width.
func (d *drawing) cut(words string, w px) string {
	words = shown(words)
	if d.wide(words) <= w {
		return words
	}
	room, end := w-d.wide("…"), 0
	for i, r := range words {
		if room -= d.wide(string(r)); room < 0 && i > 0 {
			break
		}
		end = i + len(string(r))
	}
	return strings.TrimSpace(words[:end]) + "…"
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
				values = max(values, d.wide(v.Text)*boldly+8)
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
			d.words(x+7, d.H+14, d.cut(g.Values[0].Text, (values-7)/boldly), "start", "strong")
		}
		d.H += 25
	}
	d.line("axis", point{labels, top}, point{labels, d.H - 4})
}

// trend draws a line for each series from the first group to the last, its name at its end.
func (d *drawing) trend(c *Chart) {
	most, text := notes.Decimal{}, ""
	for _, g := range c.Groups {
		for i, v := range g.Values {
			if i < len(c.Series) && v.Amount.Cmp(most) > 0 {
				most, text = v.Amount, v.Text
			}
		}
	}
	names := px(0)
	for _, s := range c.Series {
		names = max(names, d.wide(s.Name)*boldly)
	}
	names = min(names, d.W/3)
	left, right := min(max(d.wide(text), d.wide("0"))+8, d.W/3), d.W-names-14
	top, high := px(8), px(150)
	base := top + high
	d.line("guide", point{left, top}, point{right, top})
	d.line("guide", point{left, top + high/2}, point{right, top + high/2})
	d.line("axis", point{left, base}, point{right, base})
	d.words(left-8, top+4, d.cut(text, left-8), "end", "soft")
	d.words(left-8, base+4, "0", "end", "soft")
	step := (right - left - 16) / px(max(1, len(c.Groups)-1))
	t := timeline{left: left, base: base, high: high, step: step, most: most}
	ends := d.runs(c, t)
	for i, y := range apart(ends, 15) {
		d.words(right+6, y+4, d.cut(c.Series[i].Name, names/boldly), "start", "strong")
	}
	d.dates(c, t)
	d.H = base + 26
}

// timeline is where the points of a trend stand.
type timeline struct {
	left, base, high, step px
	most                   notes.Decimal
}

func (t timeline) at(i int) px { return t.left + 8 + t.step*px(i) }

// runs draws the lines of a trend and returns the height at which each ends. All but the first are
// broken lines, each its own way, so that they differ without colour.
func (d *drawing) runs(c *Chart, t timeline) []px {
	ends := make([]px, len(c.Series))
	for i, s := range c.Series {
		var path []point
		for j, g := range c.Groups {
			if i < len(g.Values) {
				path = append(path, point{t.at(j), t.base - t.high*px(share(g.Values[i].Amount, t.most))})
			}
		}
		ends[i] = t.base
		if len(path) == 0 {
			continue
		}
		ends[i] = path[len(path)-1].y
		class := "run " + string(s.Tone)
		if i > 0 {
			class += " dash"
		}
		d.line(class, path...)
		for _, p := range path {
			d.Shapes = append(d.Shapes, shape{X: p.x, Y: p.y, R: 3, Class: "dot " + string(s.Tone)})
		}
	}
	return ends
}

// dates names the groups of a trend below its line, as many as there is room for.
func (d *drawing) dates(c *Chart, t timeline) {
	free := px(0)
	for j, g := range c.Groups {
		w := d.wide(g.Label)
		x := min(max(t.at(j)-w/2, t.left), d.W-w)
		if x >= free {
			d.words(x, t.base+18, g.Label, "start", "soft")
			free = x + w + 10
		}
	}
}

// apart moves heights from each other until they are so far apart, the highest first.
func apart(list []px, far px) []px {
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(list[a], list[b]) })
	out := slices.Clone(list)
	for i := 1; i < len(order); i++ {
		out[order[i]] = max(out[order[i]], out[order[i-1]]+far)
	}
	return out
}
