package sheet

// columns shares the width of a table out: a column of figures gets what it needs, the others what
// is left by their shares, as far as they need it.
func (d *layout) columns(t *Table, s style) []float64 {
	n := len(t.Columns)
	need, width := make([]float64, n), make([]float64, n)
	for i, c := range t.Columns {
		head := d.small(s)
		head.bold = true
		need[i] = d.natural(Words(c.Title), head) + d.between()
	}
	for _, r := range t.Rows {
		cells, spans := t.spread(r)
		b := s
		if r.Kind == Total {
			b = total(s)
		}
		at := 0
		for i, c := range cells {
			if at += spans[i]; spans[i] == 1 {
				need[at-1] = max(need[at-1], d.natural(c.Text, b)+d.between(), d.barWidth(c)+d.between())
			}
		}
	}
	room, shares, open := d.width, 0.0, []int{}
	for i, c := range t.Columns {
		if c.Align == Right {
			width[i] = min(need[i], d.width*max(0.12, min(0.3, 1.2/float64(n))))
			room -= width[i]
			continue
		}
		open = append(open, i)
		shares += float64(max(c.Width, 1))
	}
	for len(open) > 0 { // who needs less than his share leaves it to the others
		var rest []int
		left, leftShares := room, shares
		for _, i := range open {
			share := float64(max(t.Columns[i].Width, 1))
			if need[i] <= room*share/shares {
				width[i] = need[i]
				left, leftShares = left-need[i], leftShares-share
			} else {
				rest = append(rest, i)
			}
		}
		if len(rest) == len(open) {
			for _, i := range rest {
				width[i] = room * float64(max(t.Columns[i].Width, 1)) / shares
			}
			return width
		}
		if len(rest) == 0 {
			sum := 0.0
			for _, i := range open {
				sum += float64(max(t.Columns[i].Width, 1))
			}
			for _, i := range open { // what nobody needs stands between them
				width[i] += left * float64(max(t.Columns[i].Width, 1)) / sum
			}
		}
		open, room, shares = rest, left, leftShares
	}
	return width
}

// natural is how wide a text is in one line.
func (d *layout) natural(t Text, s style) float64 {
	w := 0.0
	for _, c := range d.set(t, s) {
		w += d.pen.width(c)
	}
	return w
}

// between is the room between two columns.
func (d *layout) between() float64 { return 9 * d.k }

func (d *layout) barWidth(c Cell) float64 {
	if c.Bar == nil {
		return 0
	}
	return 60 * d.k
}

// total is the letters of a sum.
func total(s style) style {
	s.bold = true
	s.size *= 1.06
	return s
}

func (d *layout) small(s style) style { s.size *= 0.84; return s }

// tableCell is a cell set in its column.
type tableCell struct {
	lines []textLine
	bar   *Bar
	x, w  float64
	align Align
}

// table sets a table: its head again on each page, its sums with the row above.
func (d *layout) table(t *Table) []slip {
	if len(t.Columns) == 0 {
		return nil
	}
	s := d.body()
	if t.Close {
		s.size *= 0.88
	}
	widths := d.columns(t, s)
	var out []slip
	if t.Caption != "" {
		out = together(d.text(Words(t.Caption), d.small(s)), true)
	}
	head := d.tableHead(t, widths, d.small(s))
	first := len(out)
	out = append(out, head)
	for i, r := range t.Rows {
		rows := d.tableRow(t, r, widths, s)
		for j := range rows {
			rows[j].head = &head
		}
		if i+1 < len(t.Rows) && (t.Rows[i+1].Kind == Subtotal || t.Rows[i+1].Kind == Total) {
			rows[len(rows)-1].keep = true
		}
		rows[0].id = r.ID
		out = append(out, rows...)
	}
	out[first].gap = 3 * d.k
	return out
}

func (d *layout) tableHead(t *Table, widths []float64, s style) slip {
	s.bold = true
	cells := make([]Cell, len(t.Columns))
	spans := make([]int, len(cells))
	for i, c := range t.Columns {
		cells[i].Text, spans[i] = Words(c.Title), 1
	}
	set := d.setCells(t, cells, spans, widths, s)
	h, most := s.size*leading, 1
	for _, c := range set {
		most = max(most, len(c.lines))
	}
	h = float64(most)*h + 3*d.k
	return slip{h: h, keep: true, draw: func(x, y float64) {
		for _, c := range set {
			at := y + float64(most-len(c.lines))*s.size*leading
			d.stack(c.lines, box{x + c.x, at, c.w, 0}, c.align)
		}
		d.rule(x, y+h-0.5, x+d.width, y+h-0.5, 0.8)
	}}
}

// setCells sets cells in the columns they take.
func (d *layout) setCells(t *Table, cells []Cell, spans []int, widths []float64, s style) []tableCell {
	set := make([]tableCell, len(cells))
	x, at := 0.0, 0
	for i, c := range cells {
		w := 0.0
		for range spans[i] {
			w += widths[at]
			at++
		}
		align := t.Columns[at-1].Align
		inner, cx := w-d.between(), x
		switch {
		case spans[i] == len(t.Columns):
			inner, align = w, Left
		case spans[i] > 1:
			align = Right
		case align == Right && at == len(t.Columns):
			cx += d.between() // the last figures end where the line ends
		}
		set[i] = tableCell{lines: d.lines(c.Text, inner, s), bar: c.Bar, x: cx, w: inner, align: align}
		x += w
	}
	return set
}

// tableRow sets a row and, below it, how its figures came about. A row higher than a third of a page is
// parted between its lines.
func (d *layout) tableRow(t *Table, r Row, widths []float64, s style) []slip {
	cells, spans := t.spread(r)
	b := s
	switch r.Kind {
	case Group:
		b.bold = true
	case Total:
		b = total(s)
	}
	set := d.setCells(t, cells, spans, widths, b)
	most, barred := 1, false
	for _, c := range set {
		most = max(most, len(c.lines))
		barred = barred || c.bar != nil
	}
	limit := max(8, int(d.h/3/(b.size*leading)))
	var out []slip
	for from := 0; from < most; from += limit {
		last := from+limit >= most
		part := rowPart{set: set, from: from, to: min(from+limit, most), style: b, last: last && r.Working == nil, kind: r.Kind, first: from == 0}
		part.bars = barred && last
		out = append(out, d.rowSlip(part))
	}
	if r.Working == nil {
		out[len(out)-1].keep = r.Kind == Group
		return out
	}
	below := d.working(r.Working, s)
	out[len(out)-1].keep = len(below) > 0
	return append(out, below...)
}

// rowPart is some lines of the cells of a row.
type rowPart struct {
	set         []tableCell
	from, to    int
	style       style
	kind        RowKind
	first, last bool // the first part of the row, and the last with nothing below
	bars        bool
}

func (d *layout) rowSlip(r rowPart) slip {
	pad := 2.4 * d.k
	h := float64(r.to-r.from)*r.style.size*leading + 2*pad
	if r.kind == Group {
		h += 4 * d.k
	}
	if r.bars {
		h += 10 * d.k
	}
	return slip{h: h, draw: func(x, y float64) {
		top := y + pad
		if r.kind == Group {
			top += 4 * d.k
		}
		for _, c := range r.set {
			part := c.lines[min(r.from, len(c.lines)):min(r.to, len(c.lines))]
			d.stack(part, box{x + c.x, top, c.w, 0}, c.align)
			if r.bars && c.bar != nil {
				d.bar(*c.bar, box{x + c.x, top + float64(len(part))*r.style.size*leading + 2.5*d.k, 60 * d.k, 6 * d.k})
			}
		}
		switch {
		case r.kind == Total && r.first:
			d.rule(x, y, x+d.width, y, 1.2)
		case r.kind == Group:
			d.rule(x, y+h, x+d.width, y+h, 0.8)
		case r.kind == Body && r.last:
			d.rule(x, y+h, x+d.width, y+h, 0.35)
		}
	}}
}

// bar draws progress: what was there black, what came hatched, what is beyond crossed.
func (d *layout) bar(b Bar, at box) {
	b = b.within()
	unit := at.w / float64(100+b.Over)
	d.fill(box{at.x, at.y, unit * float64(b.Before), at.h})
	d.hatch(Send, []point2{{at.x + unit*float64(b.Before), at.y}, {at.x + unit*float64(b.Before+b.Now), at.y + at.h}}, nil)
	d.hatch(Stop, []point2{{at.x + unit*100, at.y}, {at.x + at.w, at.y + at.h}}, nil)
	d.rect(box{at.x, at.y, unit * 100, at.h}, 0.6)
}

// working sets the small lines below a row.
func (d *layout) working(w *Working, s style) []slip {
	small, in := d.small(s), 8*d.k
	label := w.Label
	if label == "" {
		label = d.words.Working
	}
	lines := append([]Text{Join("", Text{{Words: label, Look: Bold}})}, w.Lines...)
	var out []slip
	for _, t := range lines {
		for _, l := range d.lines(t, d.width-in, small) {
			h := small.size * leading
			out = append(out, slip{h: h, draw: func(x, y float64) {
				d.rule(x+in/2, y, x+in/2, y+h, 0.5)
				d.stack([]textLine{l}, box{x + in, y, d.width - in, 0}, Left)
			}})
		}
	}
	if len(out) == 0 {
		return nil
	}
	out = unparted(out)
	end := out[len(out)-1]
	out[len(out)-1].h += 3 * d.k
	out[len(out)-1].draw = func(x, y float64) {
		end.draw(x, y)
		d.rule(x, y+end.h+3*d.k, x+d.width, y+end.h+3*d.k, 0.35)
	}
	return out
}
