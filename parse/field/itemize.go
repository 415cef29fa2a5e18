package field

import "jobday/notes"

// join puts together what belongs to one item but stands in several segments: "60 ft, 12/2 MC",
// "wire nuts, red", "15A and 20A breakers".
func (p *parcel) join() {
	out := p.portions[:0]
	for i := 0; i < len(p.portions); i++ {
		d := p.portions[i]
		if len(out) > 0 && p.attach(&out[len(out)-1], &d) {
			if d.each {
				p.spread(out)
			}
			continue
		}
		if p.boxesHolding(&d, i) {
			if d.unit == "" {
				d.unit = notes.Box
			}
			d.names = nil
			p.portions[i+2].lend(&d)
			i++
			continue
		}
		if d.bare() && i+1 < len(p.portions) && (p.portions[i+1].sep == ")" || p.portions[i+1].sep == "-" && p.plainCount(d.count, len(p.out))) {
			p.sizeNext(&p.portions[i+1])
			p.lengthNext(&d, &p.portions[i+1])
		}
		if d.bare() && i+1 < len(p.portions) && p.portions[i+1].count < 0 && len(p.portions[i+1].names) > 0 && p.leads(&d, &p.portions[i+1]) {
			p.portions[i+1].lend(&d)
			continue
		}
		out = append(out, d)
	}
	p.portions = out
	p.share()
	p.forward()
}

// boxesHolding reports whether portion i is the boxes of "2 boxes (100) anchors": what is in brackets
// says how many they hold.
func (p *parcel) boxesHolding(d *portion, i int) bool {
	if i+2 >= len(p.portions) || d.count < 0 || !p.plainCount(d.count, len(p.out)) || !p.onlyBoxes(d) && !(d.bare() && (d.unit == notes.Pack || d.unit == notes.Bag)) {
		return false
	}
	in, of := &p.portions[i+1], &p.portions[i+2]
	return in.bare() && in.sep == "(" && p.plainCount(in.count, len(p.out)) && of.sep == ")" && of.count < 0 && len(of.names) > 0
}

// forward gives a quantity with "each" before its list to every thing of the list.
func (p *parcel) forward() {
	for i := range p.portions {
		d := &p.portions[i]
		if !d.ahead || d.count < 0 {
			continue
		}
		for j := i + 1; j < len(p.portions) && p.portions[j].count < 0 && (p.portions[j].sep == "&" || p.portions[j].sep == ","); j++ {
			p.portions[j].count, p.portions[j].unit = d.count, d.unit
		}
	}
}

// sizeNext takes the first number after a count in brackets for a size: "(4) 4 square boxes".
func (p *parcel) sizeNext(n *portion) {
	if !p.plainCount(n.count, len(p.out)) || !p.bareSizeHere(n.count, len(p.out)) {
		return
	}
	p.bareSizeOf(n.count)
	n.names = append([]int{n.count}, n.names...)
	n.count = -1
}

// bare reports whether a portion is nothing but a quantity.
func (d *portion) bare() bool { return d.count >= 0 && len(d.names) == 0 }

// leads reports whether a quantity alone may belong to the name after it.
func (p *parcel) leads(d, next *portion) bool {
	if p.plainCount(d.count, len(p.out)) && d.unit == "" && !d.marked && (next.sep == ":" || next.sep == "," || !d.alone) {
		return false // "2,4: proofing cabinet" counts nothing
	}
	switch next.sep {
	case ",", ")", ":", "-", "(":
		return next.headed || next.only || d.marked || p.out[d.count].dim != ""
	}
	return false
}

// lend gives the quantity of d to a name without one.
func (n *portion) lend(d *portion) {
	n.ahead = n.ahead || d.ahead
	n.count, n.times, n.length, n.unit, n.about, n.marked = d.count, d.times, d.length, d.unit, d.about || n.about, true
	n.start, n.end = min(n.start, d.start), max(n.end, d.end)
}

// spread gives the last quantity, written with "each", to the names before it that have none.
func (p *parcel) spread(out []portion) {
	last := &out[len(out)-1]
	for i := len(out) - 2; i >= 0 && out[i].count < 0 && len(out[i].names) > 0; i-- {
		out[i].count, out[i].unit = last.count, last.unit
	}
}

// share gives a thing to designations and properties that stand without one beside it:
// "40' 12/2 and 25' 12/3 MC", "3 red and 4 yellow wire nuts".
func (p *parcel) share() {
	for i := range p.portions {
		d := &p.portions[i]
		if i > 0 && p.goesOnInFeet(&p.portions[i-1], d) {
			d.unit = notes.Foot
		}
		if !d.only || d.headed || i > 0 && d.sep == ":" && p.portions[i-1].headed && p.portions[i-1].count < 0 {
			continue
		}
		if i+1 < len(p.portions) && p.portions[i+1].headed && p.sharing(d, &p.portions[i+1]) {
			p.borrow(d, &p.portions[i+1])
			continue
		}
		if i > 0 && d.count >= 0 && p.portions[i-1].count >= 0 && p.portions[i-1].headed && p.sharing(&p.portions[i-1], d) {
			if d.unit == "" && p.out[d.count].dim == "" && p.colouring(d) {
				d.unit = p.portions[i-1].unitOf(p) // "two rolls blue tape, one black", "40 ft #10 blk, 40 wht"
			}
			p.borrow(d, &p.portions[i-1])
		}
	}
	p.head()
	// a chain "2 15A, 3 20A, 1 30A 2P breaker" is settled from its end
	for i := len(p.portions) - 2; i >= 0; i-- {
		if d := &p.portions[i]; d.only && !d.headed && p.sharing(d, &p.portions[i+1]) {
			p.borrow(d, &p.portions[i+1])
		}
	}
}

// head gives the thing of a heading to what is listed under it: "plates: 3 1g 2 2g".
func (p *parcel) head() {
	for i := 0; i+1 < len(p.portions); i++ {
		h := p.portions[i]
		if !h.headed || h.count >= 0 || p.portions[i+1].sep != ":" && p.portions[i+1].sep != "-" {
			continue
		}
		took := false
		for j := i + 1; j < len(p.portions) && p.portions[j].only && !p.portions[j].headed && p.portions[j].count >= 0; j++ {
			p.borrow(&p.portions[j], &h)
			took = true
		}
		if took {
			p.portions = append(p.portions[:i], p.portions[i+1:]...)
		}
	}
}

// sharing reports whether two neighbours are joined closely enough to share a thing.
func (p *parcel) sharing(d, next *portion) bool {
	for _, k := range d.names {
		if p.out[k].dim == "size" && d.count >= 0 && p.crossed(k) {
			return false // 2x4s are things of their own
		}
	}
	if !p.fits(d, next) || !p.fits(next, d) {
		return false
	}
	switch next.sep {
	case "&", ",", "+", "/":
		if p.colouring(d) || p.colouring(next) && p.cableOnly(d) && next.count >= 0 {
			return true // "100' black and red #12 THHN", "12 awg thhn 200' black, 200' white"
		}
		if p.cableOnly(d) || p.cableOnly(next) {
			return p.cableOnly(d) && p.cableOnly(next)
		}
		return next.headed || d.headed
	}
	return false
}

// fits keeps what names a thing by itself from taking another thing's name: a 14-50 is a
// receptacle and a 20A 1P a breaker, whatever stands beside it.
func (p *parcel) fits(d, from *portion) bool {
	if d.headed {
		return true
	}
	want, amps, poles := "", false, false
	for _, k := range d.names {
		switch p.out[k].dim {
		case "nema":
			want = "receptacle"
		case "way":
			want = "switch"
		case "amps":
			amps = true
		case "poles":
			poles = true
		}
	}
	if amps && poles {
		want = "breaker"
	}
	if want == "" {
		return true
	}
	for _, k := range from.names {
		if t := p.out[k].text; t == want || want == "switch" && t == "dimmer" && !p.has(from.names[:1], roleThing) {
			return true
		}
	}
	return false
}

// crossed reports whether a size is one such as 2x4.
func (p *parcel) crossed(k int) bool {
	for _, c := range p.out[k].text {
		if c == 'x' {
			return true
		}
	}
	return false
}

// borrow appends the heads of from to d, and the properties that stand between them.
func (p *parcel) borrow(d *portion, from *portion) {
	if !from.headed {
		return
	}
	own := d.names
	colour, trait := p.colouring(d), p.has(own, roleTrait)
	for _, k := range from.names {
		a := &p.out[k]
		if a.isHead() || a.role == roleDesig && colour || a.role == roleTrait && !trait && !colour {
			d.names = append(d.names, k)
			d.lent++
			d.headed = d.headed || a.isHead()
		}
	}
	d.plural = from.plural
}

// colouring reports whether a portion is nothing but colours.
func (p *parcel) colouring(d *portion) bool {
	for _, k := range d.names {
		if p.out[k].role != roleColour {
			return false
		}
	}
	return len(d.names) > 0
}

func (p *parcel) has(names []int, r role) bool {
	for _, k := range names {
		if p.out[k].role == r {
			return true
		}
	}
	return false
}

// items makes items of the portions.
func (p *parcel) items() []notes.Item {
	if len(p.portions) == 0 {
		return nil
	}
	out := make([]notes.Item, 0, len(p.portions))
	for i := range p.portions {
		d := &p.portions[i]
		if p.emptyHanded(d) {
			continue
		}
		out = append(out, p.itemOf(d))
	}
	if len(out) == 0 {
		return nil
	}
	return out
}

// emptyHanded reports whether a portion turned out to say nothing: a plain number without a thing,
// or properties of nothing.
func (p *parcel) emptyHanded(d *portion) bool {
	if len(d.names) == 0 {
		if d.unitOf(p) == notes.Each && len(p.portions) > 1 {
			return true // "…, 1 ea" of what has its count already
		}
		return d.unit == "" && p.out[d.count].dim == "" && (d.times < 0 || p.out[d.times].dim == "")
	}
	return d.count < 0 && !d.headed && !p.standsAlone(d)
}

// standsAlone reports whether designations name a thing without any word: 12/2, 20A 1P, 14-50.
func (p *parcel) standsAlone(d *portion) bool {
	for _, k := range d.names {
		switch a := &p.out[k]; a.dim {
		case "gauge-count", "poles", "nema", "spaces":
			return true
		default:
			switch a.text {
			case "main", "tandem", "square", "old work", "quad", "recessed":
				return a.role == roleTrait && len(d.names) > 1
			}
		}
	}
	return false
}

// itemOf makes the item of a portion.
func (p *parcel) itemOf(d *portion) notes.Item {
	it := notes.Item{Piece: notes.Piece{Start: d.start, End: d.end}, About: d.about}
	guess := p.guess(d)
	names := d.names
	if d.length >= 0 && p.lengthNames(d) {
		a := &p.out[d.length]
		a.role, a.text, a.dim = roleDesig, lengthText(p.nums[a.num].v), "length"
		names = append(names, d.length)
	}
	if d.count >= 0 && d.length < 0 && d.times < 0 && p.measureNames(d) {
		a := &p.out[d.count]
		a.role, a.text, a.dim = roleDesig, lengthText(p.nums[a.num].v), "length"
		names = append(names, d.count)
		d.count = -1
	}
	if d.times >= 0 && d.count >= 0 && p.out[d.count].dim == "ft" && p.out[d.times].dim == "" && p.lengthNames(d) {
		d.count, d.times = d.times, d.count // "4 ft strip x5"
	}
	if t := d.times; t >= 0 && p.out[t].dim == "ft" && p.lengthNames(d) {
		a := &p.out[t]
		a.role, a.text, a.dim = roleDesig, lengthText(p.nums[a.num].v), "length"
		names = append(names, t)
		d.times = -1
	}
	if guess >= 0 {
		it.Qty = notes.Quantity{Value: p.nums[p.out[guess].alt].v, Unit: notes.Each}
		it.Other = []notes.Quantity{{}}
		p.narrow(guess)
	} else if d.count >= 0 {
		it.Qty, it.Other = p.quantity(d)
	}
	if d.count >= 0 {
		it.About = it.About || p.nums[p.out[d.count].num].about
	}
	if len(names) > 0 {
		it.Text = p.textOf(d.names[:len(d.names)-d.lent])
		it.Name = p.nameOf(names)
	}
	return it
}

// textOf returns the words that name the thing, as written.
func (p *parcel) textOf(names []int) string {
	start, end := len(p.text), 0
	for _, k := range names {
		start, end = min(start, p.out[k].from()), max(end, p.out[k].to())
	}
	return p.text[start:end]
}

// guess returns the designation of a portion without count that may be one: "2 1/2 connectors",
// "20 1-pole breakers". A singular is none.
func (p *parcel) guess(d *portion) int {
	if d.count >= 0 || !d.plural {
		return -1
	}
	for _, k := range d.names {
		if p.out[k].guess && p.out[k].alt >= 0 {
			return k
		}
	}
	return -1
}

// narrow takes the count out of a designation that held it.
func (p *parcel) narrow(k int) {
	a := &p.out[k]
	if a.dim != "size" {
		a.role = roleSkip
		return
	}
	a.text = a.text[len(p.nums[a.alt].v.String())+1:]
}

// lengthNames reports whether a measure beside a count is part of the name.
func (p *parcel) lengthNames(d *portion) bool {
	for _, k := range d.names {
		if a := &p.out[k]; isPiece(a.text) {
			return true
		}
	}
	return false
}

// measureNames reports whether a measure is the length of one thing: "6' whip".
func (p *parcel) measureNames(d *portion) bool {
	return p.out[d.count].dim == "ft" && !d.plural && p.lengthNames(d)
}

// quantity works out how much: the count, its unit, a product of two.
func (p *parcel) quantity(d *portion) (notes.Quantity, []notes.Quantity) {
	a := &p.out[d.count]
	q := notes.Quantity{Value: p.nums[a.num].v, Unit: notes.Unit(a.dim)}
	if q.Unit == "" {
		q.Unit = d.unit
	}
	if q.Unit == "" && d.times < 0 && d.length < 0 && d.spare < 0 && a.alt < 0 && p.nums[a.num].form == digits && p.nums[a.num].small >= leastFeet && p.cableAlone(d) {
		q.Unit = notes.Foot
	}
	var other []notes.Quantity
	if a.alt >= 0 {
		q.Unit = orEach(q.Unit)
		other = []notes.Quantity{{Value: p.nums[a.alt].v, Unit: q.Unit}}
	}
	if d.times >= 0 {
		t := &p.out[d.times]
		if t.role == roleCount {
			q = p.product(q, t)
		}
	}
	if d.length >= 0 && p.out[d.length].role == roleCount {
		l := notes.Quantity{Value: p.nums[p.out[d.length].num].v, Unit: notes.Foot}
		product := notes.Quantity{Value: q.Value.Mul(l.Value).Round(6), Unit: notes.Foot}
		switch {
		case d.each, p.out[d.length].from() < p.firstName(d) && p.byLength(d):
			q = product
		case p.byLength(d): // three wires of 50 ft, or 50 ft in all
			q, other = product, append(other, l)
		default:
			q.Unit = orEach(q.Unit)
			other = append(other, l)
		}
	}
	if d.spare >= 0 {
		other = append(other, notes.Quantity{Value: p.nums[p.out[d.spare].num].v, Unit: orEach(q.Unit)})
	}
	q.Unit = orEach(q.Unit)
	return q, other
}

func (p *parcel) firstName(d *portion) int {
	if len(d.names) == 0 {
		return len(p.text)
	}
	return p.out[d.names[0]].from()
}

// product multiplies "2 x 25 ft", "25 ft x 2", "2 x 10".
func (p *parcel) product(q notes.Quantity, t *atom) notes.Quantity {
	v := p.nums[t.num].v
	unit := q.Unit
	if t.dim != "" {
		unit = notes.Unit(t.dim)
	}
	return notes.Quantity{Value: q.Value.Mul(v).Round(6), Unit: orEach(unit)}
}

func orEach(u notes.Unit) notes.Unit {
	if u == "" {
		return notes.Each
	}
	return u
}
