package field

import (
	"strings"

	"jobday/notes"
)

// A portion is an item under reading. Indices are of atoms; -1 stands for none.
type portion struct {
	count   int // the count or measure
	times   int // a second count it is multiplied with: "2 x 25 ft"
	length  int // a measure that is the length of the thing: "2 6' whips"
	spare   int // a second number nobody can place
	unit    notes.Unit
	names   []int
	lent    int    // how many of names, at the end, stand in another item
	sep     string // the mark before its segment
	about   bool
	alone   bool // it is all its segment says
	each    bool
	ahead   bool // "each" stands before what it is said of: "1 each: dimmer, plate"
	marked  bool // the count stands in brackets or after an x
	headed  bool
	plural  bool // the thing is written as more than one
	only    bool // nothing but properties and designations
	start   int
	end     int
	segment int
}

// items reads what is counted, measured or named. It comes last: a number that time, money or an
// instrument took counts nothing.
func (w *workspace) items() []notes.Item {
	s := &w.scan
	for k := range s.out {
		if a := &s.out[k]; len(w.used) > 0 && (a.role == roleCount || a.role == roleDesig && !a.stays()) && w.claimed(a.from()) {
			a.role = roleSkip
		}
	}
	w.people()
	s.runs()
	s.roomNumbers()
	s.whichOnes()
	p := &w.parcel
	*p = parcel{scanner: s, backing: p.backing[:0], portions: p.portions[:0]}
	p.read()
	p.join()
	return p.items()
}

// people takes the names in rows of time out of what may name a thing: "30 min, Kit".
func (w *workspace) people() {
	if !w.rows || w.lex == nil {
		return
	}
	for k := range w.scan.out {
		if a := &w.scan.out[k]; a.role == roleThing || a.role == rolePart || a.role == roleUnknown {
			if c := w.text[a.from()]; 'A' <= c && c <= 'Z' && w.lex.Name(w.text[a.from():a.to()]) != "" {
				a.role = roleStop
			}
		}
	}
}

// stays reports whether a designation is one whatever else was read out of its number.
func (a *atom) stays() bool {
	return !(a.dim == "amps" && strings.Contains(a.text, ".")) && a.dim != "volts" && a.dim != "watts" && a.dim != "kelvin" && a.dim != "angle"
}

// A parcel is the items of one line under reading.
type parcel struct {
	*scanner
	portions []portion
	backing  []int
	fixing   bool // "no," was read: the next quantity corrects the last
}

// read parts the line into segments and reads each.
func (p *parcel) read() {
	from, sep := 0, ""
	for k := 0; k <= len(p.out); k++ {
		if k < len(p.out) && !p.parts(k) {
			continue
		}
		if k > from {
			p.segment(from, k, sep)
		}
		if k < len(p.out) {
			if t := p.out[k].text; t == "." && k == from && sep == "." {
				sep = "…"
			} else if !(t == "." && sep == "…") {
				sep = t
			}
			from = k + 1
		}
	}
}

// parts reports whether the atom is a mark that parts one thing from the next.
func (p *parcel) parts(k int) bool {
	a := &p.out[k]
	if a.role != roleMark {
		return false
	}
	switch a.text {
	case ",", ";", "+", "&", ":", "(", ")", "!", "?", "…", "[", "]", "\\", "=", "*":
		return true
	case "/":
		return k == 0 || k+1 >= len(p.out) || a.spaced || !p.property(k-1) || !p.property(k+1)
	case ".", "-":
		return a.text == "." && k > 0 && p.isMark(k-1, len(p.out), ".") || a.spaced || k+1 >= len(p.out) || p.out[k+1].spaced || p.out[k+1].role == roleMark
	}
	return false
}

// single makes one of a word: a package without a number ("box of wire nuts") and an ordinal
// ("first of 2") are one.
func (p *parcel) single(k int) {
	if len(p.nums) >= maxNums {
		return
	}
	p.nums = append(p.nums, spelledNum(1, 0))
	a := &p.out[k]
	if a.role == roleUnit {
		a.text = a.dim
	} else {
		a.dim = ""
	}
	a.role, a.num, a.alt = roleCount, int8(len(p.nums)-1), -1
}

// ordinal reports whether atom k is the ordinal of "first of 2".
func (p *parcel) ordinal(k, hi int) bool {
	switch p.out[k].text {
	case "first", "second", "third", "fourth", "last", "next":
		return p.isJoin(k+1, hi, "of") && p.plainCount(k+2, hi)
	}
	return false
}

// idle reports whether the atoms say nothing about a thing.
func (p *parcel) idle(lo, hi int) bool {
	for k := lo; k < hi; k++ {
		switch a := &p.out[k]; a.role {
		case roleJoin, roleAbout, roleMark:
		case roleStop:
			if a.text != "qty" && a.text != "them" && a.text != "no" && !isState(a.text) {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// stops reports whether the atoms are nothing but words that end a name: "receptacles: 5 today".
func (p *parcel) stops(lo, hi int) bool {
	for k := lo; k < hi; k++ {
		if p.out[k].role != roleStop {
			return false
		}
	}
	return true
}

// property reports whether an atom tells a thing from others without naming one: "WR/TR",
// "20A/1P".
func (p *parcel) property(k int) bool {
	switch a := &p.out[k]; a.role {
	case roleTrait:
		return true
	case roleDesig:
		return a.dim == "amps" || a.dim == "poles" || a.dim == "volts"
	}
	return false
}

// segment reads the items of the atoms from lo up to hi.
func (p *parcel) segment(lo, hi int, sep string) {
	number := len(p.portions)
	k, about, negated, object := lo, false, false, ""
	if n := p.correction(lo, hi); n > 0 {
		p.fixing = true
		k += n
	}
	for k < hi {
		a := &p.out[k]
		switch a.role {
		case roleAbout:
			about = true
			k++
			continue
		case roleStop:
			if n := p.correction(k, hi); n > 0 {
				p.fixing = true
				k += n
				continue
			}
			negated, object = isNegation(a.text), ""
			if isPreposition(a.text) {
				object = a.text
			}
			k++
			continue
		case roleUnit:
			if p.isJoin(k+1, hi, "of") && !p.out[k].plural {
				p.single(k)
			}
		case roleJoin:
			if !p.ordinal(k, hi) {
				k++
				continue
			}
			p.single(k)
		case roleCount, roleDesig, roleThing, rolePart, roleKind, roleGeneric, roleTrait, roleColour, roleUnknown, roleMark:
		default:
			k++
			continue
		}
		d := portion{count: -1, times: -1, length: -1, spare: -1, sep: sep, about: about, start: -1, segment: number}
		next := p.item(&d, k, hi)
		if next <= k {
			k++
			continue
		}
		d.alone = p.idle(lo, k) && (p.idle(next, hi) || sep == ":" && p.stops(next, hi))
		k = next
		about = false
		if p.lackingCount(&d, hi) || p.placeNumber(&d, object) {
			object, negated = "", false
			continue
		}
		if d.keepable(p) && !negated && !(object != "" && d.count < 0) && !p.onlyPlace(&d, object) {
			p.enter(d)
		}
		negated, object = false, ""
	}
}

// lackingCount reports whether a portion counts what is short: "3 GFIs, one short".
func (p *parcel) lackingCount(d *portion, hi int) bool {
	return d.count >= 0 && len(d.names) == 1 && d.names[0] == hi-1 && p.said(d.names[0], "short")
}

// placeNumber reports whether a bare number of three digits behind "in", "at" or "on" says where.
func (p *parcel) placeNumber(d *portion, object string) bool {
	if d.count < 0 || len(d.names) > 0 || p.out[d.count].dim != "" || object != "in" && object != "at" && object != "on" {
		return false
	}
	n := p.nums[p.out[d.count].num]
	return n.form == digits && n.small >= 100
}

func isNegation(t string) bool { return t == "no" || t == "not" || t == "none" || t == "never" }

// isPreposition reports whether what follows only says where or what for: "whip for the condenser".
func isPreposition(t string) bool {
	switch t {
	case "for", "to", "from", "at", "in", "on", "near", "above", "below", "under", "behind", "over", "into",
		"through", "by", "off", "inside", "onto", "against", "between", "around", "across", "along":
		return true
	}
	return false
}

// onlyPlace reports whether "a thing" after a preposition only says where or what for: "on a reel",
// "for a heated trough". What something is fed from or put into is a thing of its own.
func (p *parcel) onlyPlace(d *portion, object string) bool {
	if d.count < 0 || p.nums[p.out[d.count].num].form != article {
		return false
	}
	switch object {
	case "for", "near", "by", "behind", "above", "below", "under", "at", "on", "from":
		return true
	}
	return false
}

// correction reports how many atoms say that what follows corrects what came before: "no",
// "make that", "sorry", "scratch that".
func (p *parcel) correction(lo, hi int) int {
	if lo >= hi || len(p.portions) == 0 {
		return 0
	}
	low := func(k int) string {
		if k >= hi {
			return ""
		}
		return lower(p.text[p.out[k].from():p.out[k].to()])
	}
	n := 0
	switch low(lo) {
	case "no", "nope", "sorry", "correction", "rather", "oops", "er", "uh", "wait", "actually", "strike", "scratch":
		n = 1
	case "make", "i", "change":
		if w := low(lo + 1); w == "that" || w == "mean" || w == "meant" {
			n = 2
		}
	case "not":
		return 0
	}
	for n > 0 && lo+n < hi {
		switch low(lo + n) {
		case "wait", "that", "make", "sorry", "actually", "it", "was", "is", "mean", "i":
			n++
			continue
		}
		break
	}
	if n > 0 && lo+n < hi && p.out[lo+n].role != roleCount && p.out[lo+n].role != roleAbout {
		return 0 // "no covers"
	}
	return n
}

// enter appends a portion, or lets it correct the one before.
func (p *parcel) enter(d portion) {
	if p.fixing && d.count >= 0 && len(p.portions) > 0 {
		p.fixing = false
		last := &p.portions[len(p.portions)-1]
		if last.count >= 0 {
			p.correct(last, d)
			return
		}
	}
	p.portions = append(p.portions, d)
}

// correct puts the quantity of d, and its name if it has one, in the place of the last one's.
func (p *parcel) correct(last *portion, d portion) {
	if d.unit == "" && p.out[d.count].dim == "" && len(d.names) == 0 {
		d.unit = last.unitOf(p)
	}
	last.unit = d.unit
	last.count, last.times, last.length, last.spare = d.count, d.times, d.length, d.spare
	if d.headed || len(last.names) == 0 {
		last.only = d.only
		last.names, last.headed, last.plural = d.names, d.headed, d.plural
	}
	last.about = d.about
	last.end = max(last.end, d.end)
}

func (d *portion) unitOf(p *parcel) notes.Unit {
	switch {
	case d.unit != "":
		return d.unit
	case d.count >= 0:
		return notes.Unit(p.out[d.count].dim)
	}
	return ""
}

// keepable reports whether a portion says anything: a thing of the trade, a counted thing, a measure.
func (d *portion) keepable(p *parcel) bool {
	if d.start < 0 {
		return false
	}
	if len(d.names) == 0 {
		return d.count >= 0 && (d.unit != "" || p.out[d.count].dim != "" || d.marked ||
			p.nums[p.out[d.count].num].form != article)
	}
	if d.count >= 0 && p.nums[p.out[d.count].num].form == article && !d.headed && d.unit == "" {
		return p.known(d.names)
	}
	return d.count >= 0 || d.headed || d.only
}

// known reports whether any atom is more than an unknown word.
func (p *parcel) known(names []int) bool {
	for _, k := range names {
		if p.out[k].role != roleUnknown {
			return true
		}
	}
	return false
}

// cover widens the portion's piece by an atom.
func (d *portion) cover(a *atom) {
	if d.start < 0 || a.from() < d.start {
		d.start = a.from()
	}
	d.end = max(d.end, a.to())
}
