package sheet

import (
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// point2 is a place on a page.
type point2 struct{ x, y float64 }

// chart sets a chart: its title, its sentence, the drawing, then the numbers.
func (d *layout) chart(c *Chart) []slip {
	out := named(d.heading(Heading{Text: Words(unit(c.Title, c.Unit)), Sub: true}), c.ID)
	out = append(out, together(d.text(Words(c.Desc), d.body()), true)...)
	if c.drawn() {
		scale := 0.68 * d.k
		g := c.draw(px(d.width/scale), 1, d.measure)
		out = append(out, slip{h: float64(g.H) * scale, gap: 6 * d.k, draw: func(x, y float64) {
			for _, s := range g.Shapes {
				d.shape(s, point2{x, y}, scale)
			}
		}})
	}
	t := c.numbers()
	return append(out, d.table(&t)...)
}

// shape draws a part of a chart.
func (d *layout) shape(s shape, at point2, scale float64) {
	place := func(x, y px) point2 { return point2{at.x + float64(x)*scale, at.y + float64(y)*scale} }
	o := place(s.X, s.Y)
	switch {
	case s.Words != "":
		st := style{size: letter * scale}
		st.bold = s.Class == "strong"
		l := d.one(s.Words, 1e9, st)
		l.rtl = false
		align := Left
		switch s.Anchor {
		case "end":
			align, o.x = Right, o.x-400
		case "middle":
			align, o.x = Center, o.x-200
		}
		d.write(l, box{o.x, o.y, 400, 0}, align)
	case s.curved:
		d.ribbon(s, place)
	case len(s.path) > 0:
		thick := map[bool]float64{true: 0.4, false: 1}[s.Class == "guide"]
		if strings.HasSuffix(s.Class, " dash") {
			d.pdf.SetDashPattern([]float64{4, 2}, 0)
			defer d.pdf.SetDashPattern(nil, 0)
		}
		for i := 1; i < len(s.path); i++ {
			a, b := place(s.path[i-1].x, s.path[i-1].y), place(s.path[i].x, s.path[i].y)
			d.rule(a.x, a.y, b.x, b.y, thick)
		}
	case s.R > 0:
		d.pdf.SetLineWidth(0.9)
		d.pdf.SetFillColor(255, 255, 255)
		d.pdf.Circle(o.x, o.y, float64(s.R)*scale, "FD")
		d.pdf.SetFillColor(0, 0, 0)
	case s.Fill != "":
		end := place(s.X+s.W, s.Y+s.H)
		d.hatch(s.Fill, []point2{o, end}, nil)
	default:
		d.rect(box{o.x, o.y, float64(s.W) * scale, float64(s.H) * scale}, 0.5)
	}
}

// ribbon draws what flows between two places.
func (d *layout) ribbon(s shape, place func(x, y px) point2) {
	const steps = 24
	side := func(a, b point) []point2 {
		var out []point2
		for i := range steps + 1 {
			t := px(i) / steps
			e := t * t * (3 - 2*t) // the curve the page draws, as far as an eye can tell
			out = append(out, place(a.x+(b.x-a.x)*t, a.y+(b.y-a.y)*e))
		}
		return out
	}
	outline := append(side(s.path[0], s.path[1]), side(s.path[2], s.path[3])...)
	low, high := outline[0], outline[0]
	for _, p := range outline {
		low = point2{min(low.x, p.x), min(low.y, p.y)}
		high = point2{max(high.x, p.x), max(high.y, p.y)}
	}
	d.hatch(s.Fill, []point2{low, high}, outline)
	d.pdf.SetLineWidth(0.35)
	d.pdf.Polygon(polygon(outline), "D")
}

func polygon(list []point2) []fpdf.PointType {
	out := make([]fpdf.PointType, len(list))
	for i, p := range list {
		out[i] = fpdf.PointType{X: p.x, Y: p.y}
	}
	return out
}

// hatch fills a rectangle, or the outline within it, with the hatching of a tone, as the pages do:
// level lines for what is settled, strokes for what waits, crossed strokes for what goes out, a grid for
// what is lost, dots for nothing there.
func (d *layout) hatch(t Tone, corners []point2, outline []point2) {
	a, b := corners[0], corners[1]
	if b.x-a.x <= 0 || b.y-a.y <= 0 {
		return
	}
	if outline != nil {
		d.pdf.ClipPolygon(polygon(outline), false)
	} else {
		d.pdf.ClipRect(a.x, a.y, b.x-a.x, b.y-a.y, false)
	}
	defer d.pdf.ClipEnd()
	d.pdf.SetLineWidth(0.5)
	high, wide := b.y-a.y, b.x-a.x
	strokes := func(pitch, lean float64) {
		for x := -high; x < wide+high; x += pitch {
			d.pdf.Line(a.x+x, a.y, a.x+x+lean*high, b.y)
		}
	}
	switch t {
	case Hold:
		strokes(3.4, -1)
	case Send:
		strokes(3, 1)
		strokes(3, -1)
	case Stop:
		strokes(2.6, 0)
		for y := a.y; y < b.y; y += 2.6 {
			d.pdf.Line(a.x, y, b.x, y)
		}
	case Go:
		d.pdf.SetLineWidth(0.8)
		for y := a.y + 0.7; y < b.y; y += 1.9 {
			d.pdf.Line(a.x, y, b.x, y)
		}
	case Calm:
		for y := a.y + 1; y < b.y; y += 3 {
			for x := a.x + 1; x < b.x; x += 3 {
				d.fill(box{x, y, 0.9, 0.9})
			}
		}
	default:
		d.fill(box{a.x, a.y, wide, high})
	}
}

// pictures sets photographs: two in a row, one alone no wider than it is worth.
func (d *layout) pictures(list []Picture) []slip {
	var out []slip
	for i := 0; i < len(list); i += 2 {
		row := list[i:min(i+2, len(list))]
		w := d.width * 0.62
		if len(list) > 1 {
			w = (d.width - 14*d.k) / 2
		}
		out = append(out, d.pictureRow(row, w))
	}
	return out
}

// shownPicture is a picture set for its place.
type shownPicture struct {
	ready   readyPicture
	gone    []textLine // what is said instead of it
	w, h    float64
	caption []textLine
}

func (d *layout) pictureRow(row []Picture, w float64) slip {
	high := min(250*d.k, d.h*0.36)
	set := make([]shownPicture, len(row))
	h, below := 0.0, 0.0
	for i, p := range row {
		s := &set[i]
		ready, err := p.ready()
		if err != nil {
			s.gone = d.lines(Words(d.words.NotShown+": "+p.Alt+" ("+err.Error()+")"), w-12*d.k, d.body())
			s.w, s.h = w, d.tall(s.gone)+10*d.k
		} else {
			f := min(w/float64(ready.w), high/float64(ready.h))
			s.ready, s.w, s.h = ready, float64(ready.w)*f, float64(ready.h)*f
		}
		s.caption = d.lines(p.Caption, w, style{size: 7.6 * d.k})
		h, below = max(h, s.h), max(below, d.tall(s.caption))
	}
	return slip{h: h + below + 4*d.k, gap: 6 * d.k, draw: func(x, y float64) {
		for i, s := range set {
			left := x + float64(i)*(w+14*d.k)
			if s.gone != nil {
				d.stack(s.gone, box{left + 6*d.k, y + 4*d.k, w - 12*d.k, 0}, Left)
			} else {
				d.image(s.ready, box{left, y, s.w, s.h})
			}
			d.rect(box{left, y, s.w, s.h}, 0.5)
			d.stack(s.caption, box{left, y + s.h + 1.5*d.k, w, 0}, Left)
		}
	}}
}
