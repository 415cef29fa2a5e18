package sheet

import "strings"

// plate sets the title block: ruled cells, as on a drawing. Each row of cells is a slip.
func (d *layout) plate() []slip {
	var out []slip
	if firm := d.firm(); firm.draw != nil {
		out = append(out, firm)
	}
	out = append(out, d.what())
	out = append(out, d.plateCells()...)
	last := len(out) - 1
	for i := range out {
		s := out[i]
		out[i].draw = func(x, y float64) {
			s.draw(x, y)
			d.rule(x, y-0.4, x, y+s.h+0.4, 1.2)
			d.rule(x+d.width, y-0.4, x+d.width, y+s.h+0.4, 1.2)
			d.rule(x, y, x+d.width, y, []float64{0.5, 1.2}[btoi(i == 0)])
			if i == last {
				d.rule(x, y+s.h, x+d.width, y+s.h, 1.2)
			}
		}
	}
	out = together(out, false)
	return append(out, slip{h: 4 * d.k})
}

// firm is the row with who writes: the name, then the rest in small letters.
func (d *layout) firm() slip {
	l := d.sheet.Letterhead
	if l.Name == "" {
		return slip{}
	}
	pad, bold := 6*d.k, style{face: face{bold: true}, size: 9.4 * d.k}
	name := d.lines(Words(l.Name), d.width-2*pad, bold)
	small := d.lines(Words(l.More()), d.width-2*pad, style{size: 7.6 * d.k})
	beside := len(name) == 1 && len(small) == 1 && name[0].w+small[0].w+20*d.k < d.width-2*pad
	h := float64(len(name))*bold.size*leading + 5*d.k
	if !beside {
		h += float64(len(small)) * 7.6 * d.k * leading
	}
	return slip{h: h, draw: func(x, y float64) {
		b := box{x + pad, y + 1.5*d.k, d.width - 2*pad, 0}
		d.stack(name, b, Left)
		if beside {
			d.write(small[0], box{b.x, b.y + bold.size, b.w, 0}, Right)
			return
		}
		b.y += float64(len(name)) * bold.size * leading
		d.stack(small, b, Left)
	}}
}

// what is the row that says what the paper is, and its number.
func (d *layout) what() slip {
	s, pad := d.sheet, 6*d.k
	side := d.width * 0.28
	if s.Number == "" && s.Edition == "" && s.Mark.Word == "" {
		side = 0
	}
	kind := d.lines(Words(s.Kind), d.width-side-2*pad, style{face: face{bold: true}, size: 17 * d.k})
	title := d.lines(Words(s.Title), d.width-side-2*pad, style{size: 10.4 * d.k})
	var right []textLine
	if s.Number != "" {
		right = d.lines(Words(d.words.Number), side, d.label())
		size := 17 * d.k
		for size > 9 && d.natural(Words(s.Number), style{face: face{bold: true}, size: size}) > side-2*pad {
			size--
		}
		right = append(right, d.lines(Words(s.Number), side-2*pad, style{face: face{bold: true}, size: size})...)
	}
	if s.Mark.Word != "" {
		right = append(right, d.lines(Label(strings.ToUpper(s.Mark.Word), Plain), side-2*pad, style{size: 11 * d.k})...)
	}
	right = append(right, d.lines(Words(s.Edition), side-2*pad, d.label())...)
	left := append(append([]textLine{}, kind...), title...)
	h := max(d.tall(left), d.tall(right)) + 8*d.k
	return slip{h: h, draw: func(x, y float64) {
		d.stack(left, box{x + pad, y + 3*d.k, d.width - side - 2*pad, 0}, Left)
		if side > 0 {
			d.rule(x+d.width-side, y, x+d.width-side, y+h, 0.5)
			d.stack(right, box{x + d.width - side + pad, y + 3*d.k, side - 2*pad, 0}, Right)
		}
	}}
}

// tall is the height of lines as stack writes them.
func (d *layout) tall(list []textLine) float64 {
	h := 0.0
	for _, l := range list {
		size := 0.0
		for _, c := range l.ink {
			size = max(size, c.s.size)
			if c.s.box {
				size = max(size, c.s.size/0.86)
			}
		}
		h += size * leading
	}
	return h
}

// plateCells sets the facts of the title block in rows of cells.
func (d *layout) plateCells() []slip {
	cells, _ := d.sorted()
	across := 4
	if d.k < 1 {
		across = 3
	}
	rows := (len(cells) + across - 1) / across
	var out []slip
	for i := range rows { // as even as they go
		from, to := i*len(cells)/rows, (i+1)*len(cells)/rows
		out = append(out, d.plateRow(cells[from:to]))
	}
	return out
}

// sorted parts the facts of the title block into those that fit a cell and those that are too long
// for one, which follow below it as lines.
func (d *layout) sorted() (cells, long []Fact) {
	for _, f := range d.sheet.cells() {
		if len(f.Value.String()) > 320 {
			long = append(long, f)
		} else {
			cells = append(cells, f)
		}
	}
	return cells, long
}

func (d *layout) plateRow(cells []Fact) slip {
	pad, s := 6*d.k, style{size: 8.8 * d.k}
	w := d.width / float64(len(cells))
	set := make([][]textLine, len(cells))
	h := 0.0
	for i, c := range cells {
		set[i] = append(d.lines(Words(c.Label), w-2*pad, d.label()), d.lines(c.Value, w-2*pad, s)...)
		h = max(h, d.tall(set[i]))
	}
	h += 5 * d.k
	return slip{h: h, draw: func(x, y float64) {
		for i, lines := range set {
			at := x + float64(i)*w
			if i > 0 {
				d.rule(at, y, at, y+h, 0.35)
			}
			d.stack(lines, box{at + pad, y + 1.5*d.k, w - 2*pad, 0}, Left)
		}
	}}
}

// figures sets a few figures side by side in ruled cells, two in a row.
func (d *layout) figures(b Figures) []slip {
	var out []slip
	across := min(2, max(len(b.Cells), 1))
	if len(b.Cells) == 3 {
		across = 3
	}
	for i := 0; i < len(b.Cells); i += across {
		row := b.Cells[i:min(i+across, len(b.Cells))]
		w := d.width / float64(len(row))
		cells, h := make([][]slip, len(row)), 0.0
		for j, f := range row {
			cells[j] = d.figure(f, w-14*d.k)
			tall := 10 * d.k
			for _, s := range cells[j] {
				tall += s.gap + s.h
			}
			h = max(h, tall)
		}
		out = append(out, slip{h: h, draw: func(x, y float64) {
			for j := range cells {
				left, at := x+float64(j)*w, y+5*d.k
				d.rect(box{left, y, w, h}, 1)
				for _, s := range cells[j] {
					at += s.gap
					s.draw(left+7*d.k, at)
					at += s.h
				}
			}
		}})
	}
	return out
}

// figure sets one figure in a cell so wide.
func (d *layout) figure(f Figure, w float64) []slip {
	in := *d
	in.width = w
	out := in.indented(Text{{Words: f.Label, Look: Bold, Href: f.Href}}, d.body(), 0)
	big := Text{{Words: f.Big}}
	set := in.set(big, style{face: face{bold: true}, size: 17 * d.k})
	line := textLine{ink: set}
	if f.Small != "" {
		line.ink = append(line.ink, in.set(Words(" "), style{size: 14 * d.k})...)
		line.ink = append(line.ink, in.set(Words(f.Small), style{size: 7.6 * d.k})...)
	}
	for _, c := range line.ink {
		line.w += d.pen.width(c)
	}
	if line.w <= w {
		out = append(out, slip{h: 17 * d.k * leading, draw: func(x, y float64) { in.stack([]textLine{line}, box{x, y, w, 0}, Left) }})
	} else {
		out = append(out, in.indented(big, style{face: face{bold: true}, size: 13 * d.k}, 0)...)
		out = append(out, in.indented(Words(f.Small), style{size: 7.6 * d.k}, 0)...)
	}
	for _, i := range f.Items {
		out = append(out, in.item(i)...)
	}
	return append(out, in.indented(Words(f.None), style{size: 8.2 * d.k}, 0)...)
}

// item sets a line of a list with its figure at the end and what stands below it.
func (d *layout) item(i Item) []slip {
	s := style{size: 8.4 * d.k}
	right := d.lines(i.Right, d.width*0.45, s)
	room := d.width
	if len(right) > 0 {
		wide := 0.0
		for _, l := range right {
			wide = max(wide, l.w)
		}
		room -= wide + 8*d.k
	}
	left := d.lines(i.Text, room, s)
	h := max(d.tall(left), d.tall(right))
	top := 1.5 * d.k
	out := []slip{{h: h + top, gap: 2 * d.k, draw: func(x, y float64) {
		d.rule(x, y, x+d.width, y, 0.35)
		d.stack(left, box{x, y + top, room, 0}, Left)
		d.stack(right, box{x, y + top, d.width, 0}, Right)
	}}}
	return append(out, d.indented(i.Below, style{size: 7.6 * d.k}, 0)...)
}
