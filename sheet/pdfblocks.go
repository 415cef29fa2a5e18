package sheet

import "strconv"

// layout sets the blocks of one sheet.
type layout struct {
	*pen
	sheet *Sheet
	words ownWords
	width float64 // of the lines
	k     float64 // size of letters; a little smaller where that saves a page
}

func (d *layout) body() style  { return style{size: 9.4 * d.k} }
func (d *layout) label() style { return style{size: 7.2 * d.k} }

// sheetSlips sets a whole sheet: title block, blocks, small print.
func (d *layout) sheetSlips() []slip {
	out := d.plate()
	_, long := d.sorted()
	out = append(out, d.facts(long)...)
	out = append(out, d.blocks(d.sheet.Blocks)...)
	out[len(out)-1].keep = len(d.sheet.Foot) > 0 // small print is never alone on a page
	for i, f := range d.sheet.Foot {
		part := d.text(Words(f), style{size: 7.4 * d.k})
		if i == 0 && len(part) > 0 {
			out = append(out, slip{h: 1, gap: 14 * d.k, keep: true, draw: func(x, y float64) { d.rule(x, y, x+d.width, y, 1.2) }})
			part[0].gap = 3 * d.k
		}
		out = append(out, part...)
	}
	return out
}

func (d *layout) blocks(list []Block) []slip {
	var out []slip
	turn := false
	for _, b := range list {
		if _, ok := b.(PageBreak); ok {
			turn = true
			continue
		}
		part := d.block(b)
		if len(part) == 0 {
			continue
		}
		part[0].gap = max(part[0].gap, 6*d.k)
		if _, ok := b.(Signature); ok && len(out) > 0 {
			out[len(out)-1].keep = true
		}
		part[0].turn, turn = turn, false
		out = append(out, part...)
	}
	return out
}

func (d *layout) block(b Block) []slip {
	switch b := b.(type) {
	case Heading:
		return d.heading(b)
	case Para:
		return named(d.text(b.Text, d.body()), b.ID)
	case List:
		return d.list(b)
	case Facts:
		return d.facts(b.Rows)
	case Table:
		return d.table(&b)
	case Figures:
		return d.figures(b)
	case Notice:
		return d.notice(b)
	case Choice:
		return d.choice(b)
	case Signature:
		return d.signature(b)
	case Picture:
		return d.pictures([]Picture{b})
	case Pictures:
		return d.pictures(b.List)
	case Chart:
		return d.chart(&b)
	case Lines:
		return d.noteLines(b)
	case Keep:
		return together(d.blocks(b.Blocks), false)
	}
	return nil
}

func named(list []slip, id string) []slip {
	if len(list) > 0 {
		list[0].id = id
	}
	return list
}

// text sets a paragraph, a line a slip.
func (d *layout) text(t Text, s style) []slip { return unparted(d.indented(t, s, 0)) }

func (d *layout) indented(t Text, s style, in float64) []slip {
	var out []slip
	for _, l := range d.lines(t, d.width-in, s) {
		out = append(out, slip{h: s.size * leading, draw: func(x, y float64) {
			d.stack([]textLine{l}, box{x + in, y, d.width - in, 0}, Left)
		}})
	}
	return out
}

// stack writes lines below each other from the top of a box.
func (d *layout) stack(list []textLine, b box, align Align) {
	for _, l := range list {
		size := 0.0
		for _, c := range l.ink {
			size = max(size, c.s.size)
			if c.s.box {
				size = max(size, c.s.size/0.86)
			}
		}
		d.write(l, box{b.x, b.y + size*1.0, b.w, 0}, align)
		b.y += size * leading
	}
}

func (d *layout) heading(b Heading) []slip {
	s, gap := style{face: face{bold: true}, size: 11.6 * d.k}, 15*d.k
	if b.Sub {
		s.size, gap = 9.8*d.k, 9*d.k
	}
	right := d.one(b.Right, d.width*0.4, s)
	room := d.width
	if right.w > 0 {
		room -= right.w + 12
	}
	var out []slip
	top := 0.0
	if !b.Sub {
		top = 4 * d.k
	}
	for i, l := range d.lines(b.Text, room, s) {
		above := top
		if i > 0 {
			above = 0
		}
		out = append(out, slip{h: s.size*leading + above, keep: true, draw: func(x, y float64) {
			if above > 0 {
				d.rule(x, y, x+d.width, y, 1.2)
			}
			d.stack([]textLine{l}, box{x, y + above, room, 0}, Left)
			if i == 0 {
				d.stack([]textLine{right}, box{x, y + above, d.width, 0}, Right)
			}
		}})
	}
	if len(out) > 0 {
		out[0].gap, out[0].id = gap, b.ID
		if !b.Sub {
			out[0].name = b.Text.String()
		}
	}
	return out
}

func (d *layout) list(b List) []slip {
	var out []slip
	s := d.body()
	for i, item := range b.Items {
		mark := "•"
		if b.Ordered {
			mark = strconv.Itoa(i+1) + "."
		}
		sign := d.one(mark, 60, s)
		in := max(12*d.k, sign.w+4*d.k)
		part := unparted(d.indented(item, s, in))
		if len(part) > 0 {
			draw := part[0].draw
			part[0].draw = func(x, y float64) {
				d.stack([]textLine{sign}, box{x + 2*d.k, y, in, 0}, Left)
				draw(x, y)
			}
			part[0].gap = 1.5 * d.k
		}
		out = append(out, part...)
	}
	return out
}

// facts sets labels and what they say in two columns.
func (d *layout) facts(rows []Fact) []slip {
	var out []slip
	in := min(100*d.k, d.width*0.3)
	s := d.body()
	for _, f := range rows {
		label := d.lines(Words(f.Label), in-6, d.label())
		part := d.indented(f.Value, s, in)
		for len(part) < len(label) {
			part = append(part, slip{h: s.size * leading})
		}
		for i, l := range label {
			draw := part[i].draw
			part[i].draw = func(x, y float64) {
				d.write(l, box{x, y + s.size, in, 0}, Left)
				if draw != nil {
					draw(x, y)
				}
			}
		}
		if len(part) > 0 {
			part[0].gap = 1.5 * d.k
		}
		out = append(out, unparted(part)...)
	}
	return out
}

// barred draws a bar at the left of slips and moves them right.
func (d *layout) barred(list []slip, in, thick float64) []slip {
	for i := range list {
		s := list[i]
		gap := s.gap
		if i == 0 {
			gap = 0
		}
		list[i].h, list[i].draw = s.h+gap, func(x, y float64) {
			d.fill(box{x, y, thick, s.h + gap + 0.5})
			if s.draw != nil {
				s.draw(x+in, y+gap)
			}
		}
		if i > 0 {
			list[i].gap = 0
		}
	}
	return list
}

func (d *layout) notice(b Notice) []slip {
	in := 12 * d.k
	inner := *d
	inner.width -= in
	title := Text{}
	if b.Word != "" {
		title = append(title, Piece{Words: b.Word, Look: Tag}, Piece{Words: " "})
	}
	title = append(title, Piece{Words: b.Title, Look: Bold})
	out := together(inner.indented(title, d.body(), 0), true)
	for _, t := range b.Text {
		part := inner.text(t, d.body())
		if len(part) > 0 {
			part[0].gap = 2 * d.k
		}
		out = append(out, part...)
	}
	if len(b.Text) == 0 && len(out) > 0 {
		out[len(out)-1].keep = false
	}
	return named(d.barred(out, in, 4*d.k), b.ID)
}

// choice sets answers with boxes to mark, as many in a line as fit.
func (d *layout) choice(b Choice) []slip {
	s := d.body()
	out := together(d.indented(Words(b.Label), d.label(), 0), true)
	type option struct {
		Option
		line textLine
		x    float64
	}
	var rows [][]option
	x := d.width
	for _, o := range b.Options {
		line := d.one(o.Text, d.width-16*d.k, s)
		w := line.w + 30*d.k
		if x+w-14*d.k > d.width {
			rows, x = append(rows, nil), 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], option{o, line, x})
		x += w
	}
	for _, row := range rows {
		out = append(out, slip{h: s.size * 1.6, keep: true, draw: func(x, y float64) {
			side := s.size * 0.9
			for _, o := range row {
				at := box{x + o.x, y + s.size*0.3, side, side}
				d.rect(at, 0.8)
				if o.Chosen {
					d.rule(at.x+side*0.2, at.y+side*0.5, at.x+side*0.42, at.y+side*0.75, 1.2)
					d.rule(at.x+side*0.42, at.y+side*0.75, at.x+side*0.82, at.y+side*0.22, 1.2)
				}
				d.write(o.line, box{at.x + side + 4*d.k, y + s.size*1.08, d.width, 0}, Left)
			}
		}})
	}
	return together(out, false)
}

// signature sets the places to sign: two parties side by side, each with lines to write on.
func (d *layout) signature(b Signature) []slip {
	var out []slip
	if b.Title != "" {
		out = append(out, d.heading(Heading{Text: Words(b.Title)})...)
	}
	out = append(out, d.text(b.Statement, d.body())...)
	const across = 2
	for i := 0; i < len(b.Parties); i += across {
		row := b.Parties[i:min(i+across, len(b.Parties))]
		out = append(out, d.parties(row))
	}
	return together(out, false)
}

func (d *layout) parties(row []Party) slip {
	gutter := 24 * d.k
	w := (d.width - gutter) / 2
	bold := d.body()
	bold.bold = true
	heads, most := make([][]textLine, len(row)), 1
	for i, p := range row {
		heads[i] = d.lines(Words(p.Role), w, bold)
		most = max(most, len(heads[i]))
	}
	pitch := 22 * d.k
	top := float64(most) * bold.size * leading
	return slip{h: top + 3*pitch + 4*d.k, gap: 8 * d.k, draw: func(x, y float64) {
		for i, p := range row {
			left := x + float64(i)*(w+gutter)
			d.stack(heads[i], box{left, y, w, 0}, Left)
			d.signLines(p, box{left, y + top, w, pitch})
		}
	}}
}

// signLines draws the lines one party fills in.
func (d *layout) signLines(p Party, b box) {
	second := Fact{d.words.Signature, nil}
	if p.How != "" {
		second = Fact{d.words.How, Words(p.How)}
	}
	in := 50 * d.k
	for _, f := range []Fact{{d.words.Name, Words(p.Name)}, second, {d.words.Date, Words(p.Date)}} {
		b.y += b.h
		d.write(d.one(f.Label, in, d.label()), box{b.x, b.y - 2*d.k, in, 0}, Left)
		d.write(d.one(f.Value.String(), b.w-in, d.body()), box{b.x + in, b.y - 3*d.k, b.w - in, 0}, Left)
		d.rule(b.x+in, b.y, b.x+b.w, b.y, 0.5)
	}
}

// noteLines sets a text line by line with its numbers.
func (d *layout) noteLines(b Lines) []slip {
	var out []slip
	if b.Name != "" {
		out = named(d.heading(Heading{Text: Words(b.Name), Sub: true}), b.ID)
	}
	s := style{face: face{mono: true}, size: 7.4 * d.k}
	small := style{size: 6.8 * d.k}
	number, fate := 24*d.k, d.width*0.24
	room := d.width - number - fate - 8*d.k
	for _, r := range b.Rows {
		text, margin := d.lines(Words(r.Text), room, s), d.lines(Words(r.Fate), fate, small)
		n := max(len(text), len(margin), 1)
		sign := d.one(strconv.Itoa(r.N), number, small)
		for i := range n {
			out = append(out, slip{h: s.size * leading, draw: func(x, y float64) {
				if i == 0 {
					d.write(sign, box{x, y + s.size, number - 7*d.k, 0}, Right)
				}
				if i < len(text) {
					d.write(text[i], box{x + number, y + s.size, room, 0}, Left)
				}
				if i < len(margin) {
					d.write(margin[i], box{x + d.width - fate, y + s.size, fate, 0}, Left)
				}
			}})
			if i == 0 {
				out[len(out)-1].id = r.ID
			}
		}
	}
	return out
}
