package sheet

import (
	"bytes"
	"io"
	"strconv"
)

// PDF writes sheets, each beginning on a new page and with its own count of pages. All are on the
// paper of the first, which names the file.
func PDF(w io.Writer, first Sheet, more ...Sheet) error {
	p, err := newPen(&first)
	if err != nil {
		return err
	}
	all := append([]Sheet{first}, more...)
	laid := make([][][]placed, len(all))
	for i := range all {
		p.anchor(all[i].Blocks)
		laid[i] = p.lay(&all[i])
	}
	for i, pages := range laid {
		for n, page := range pages {
			p.pdf.AddPage()
			p.page(page)
			p.foot(&all[i], n+1, len(pages))
		}
	}
	var out bytes.Buffer
	if err := p.pdf.Output(&out); err != nil {
		return err
	}
	_, err = w.Write(out.Bytes())
	return err
}

// lay sets a sheet on pages. Where little stands on the last page, letters up to a tenth smaller are
// tried, to save it.
func (p *pen) lay(s *Sheet) [][]placed {
	high := p.h - 2*p.margin - p.footHeight()
	set := func(k float64) [][]placed {
		d := layout{pen: p, sheet: s, words: wordsIn(s.Lang), width: p.w - 2*p.margin, k: p.k * k}
		return place(d.sheetSlips(), high)
	}
	usual := set(1)
	last := usual[len(usual)-1]
	if end := last[len(last)-1]; len(usual) == 1 || end.y+end.h > high*0.4 {
		return usual
	}
	for _, k := range []float64{0.96, 0.93, 0.9} {
		if smaller := set(k); len(smaller) < len(usual) {
			return smaller
		}
	}
	return usual
}

func (p *pen) footHeight() float64 { return 18 * p.k }

// page draws what stands on the page just begun.
func (p *pen) page(list []placed) {
	for _, s := range list {
		y := p.margin + s.y
		if id, ok := p.anchors[s.id]; ok && s.id != "" {
			p.pdf.SetLink(id, y, -1)
		}
		if s.name != "" {
			p.use(face{}, 9) // the name is written in the letters' encoding
			p.pdf.Bookmark(s.name, 0, y)
		}
		if s.draw != nil {
			s.draw(p.margin, y)
		}
	}
}

// foot draws the foot of a page: what sheet it is, and which of its pages.
func (p *pen) foot(s *Sheet, n, of int) {
	if s.Mark.Strike {
		p.rule(p.margin, p.h-p.margin, p.w-p.margin, p.margin, 1.6)
	}
	w, small := wordsIn(s.Lang), style{size: 7.4 * p.k}
	y := p.h - p.margin
	p.rule(p.margin, y-10.5*p.k, p.w-p.margin, y-10.5*p.k, 0.5)
	number := p.one(w.Page+" "+strconv.Itoa(n)+" "+w.Of+" "+strconv.Itoa(of), p.w/3, small)
	x, room := p.margin, p.w-2*p.margin-number.w-12
	if s.Mark.Word != "" {
		word := small
		word.bold = true
		l := p.one(s.Mark.Word, room/3, word)
		p.write(l, box{x, y, room, 0}, Left)
		x, room = x+l.w+5, room-l.w-5
	}
	ref := p.one(s.ref(), room, small)
	ref.rtl = false
	p.write(ref, box{x, y, room, 0}, Left)
	p.write(number, box{p.margin, y, p.w - 2*p.margin, 0}, Right)
}

// anchor makes a link for every id in the blocks, so that words can lead there.
func (p *pen) anchor(blocks []Block) {
	add := func(id string) {
		if _, ok := p.anchors[id]; !ok && id != "" {
			p.anchors[id] = p.pdf.AddLink()
		}
	}
	for _, b := range blocks {
		switch b := b.(type) {
		case Heading:
			add(b.ID)
		case Para:
			add(b.ID)
		case Notice:
			add(b.ID)
		case Chart:
			add(b.ID)
		case Table:
			for _, r := range b.Rows {
				add(r.ID)
			}
		case Lines:
			add(b.ID)
			for _, l := range b.Rows {
				add(l.ID)
			}
		case Keep:
			p.anchor(b.Blocks)
		}
	}
}
