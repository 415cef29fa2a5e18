package field

import (
	"strings"

	"jobday/notes"
)

// item reads one item that starts at atom k and returns the atom after it.
func (p *parcel) item(d *portion, k, hi int) int {
	if p.out[k].role == roleMark {
		if p.out[k].text != "x" || !p.isCount(k+1, hi) {
			return k
		}
		d.marked = true
		k++
	}
	if p.isCount(k, hi) {
		return p.countFirst(d, k, hi)
	}
	return p.nameFirst(d, k, hi)
}

func (p *parcel) isCount(k, hi int) bool { return k < hi && p.out[k].role == roleCount }

func (p *parcel) isMark(k, hi int, text string) bool {
	return k < hi && p.out[k].role == roleMark && p.out[k].text == text
}

// isStop reports whether atom k is the word.
func (p *parcel) isJoin(k, hi int, text string) bool {
	return k < hi && p.out[k].role == roleJoin && p.out[k].text == text
}

// plainCount reports whether atom k is a number without unit.
func (p *parcel) plainCount(k, hi int) bool { return k >= 0 && p.isCount(k, hi) && p.out[k].dim == "" }

// countFirst reads "4 recepts", "2 x 25 ft of 12/2", "2 of 3 GFCIs", "a roll of 12-2".
func (p *parcel) countFirst(d *portion, k, hi int) int {
	if p.holdsPieces(k, hi) {
		p.single(k + 1) // "100ct bag wire nuts" is one bag
		k++
	}
	d.take(p, k)
	if p.out[k].dim != "" && p.isJoin(k+1, hi, "of") && p.plainCount(k+2, hi) && p.thingAfter(k+3, hi) {
		k += 2 // "box of 100 screws"
	}
	k = p.afterCount(d, k+1, hi)
	k = p.second(d, k, hi)
	k = p.packed(d, k, hi)
	k = p.afterCount(d, k, hi)
	from := k
	k = p.phraseOf(d, k, hi, true)
	if k == from && d.unit == "" && p.out[d.count].dim == "" && p.isCount(k, hi) && d.times < 0 {
		return k // two numbers in a row and no thing: neither counts
	}
	return p.trailing(d, k, hi)
}

// holdsPieces reports whether the count at atom k says how many the package after it holds.
func (p *parcel) holdsPieces(k, hi int) bool {
	if k+1 >= hi || p.out[k].dim != "ea" || p.out[k+1].role != roleUnit || p.out[k+1].plural || len(p.nums) >= maxNums || !p.thingAfter(k+2, hi) {
		return false
	}
	text := lower(p.text[p.out[k].from():p.out[k].to()])
	return (strings.HasSuffix(text, "ct") || strings.HasSuffix(text, "count")) && (p.out[k+1].dim == "bag" || p.out[k+1].dim == "box" || p.out[k+1].text == "box" || p.out[k+1].dim == "pk")
}

// take makes atom k the count of the portion.
func (d *portion) take(p *parcel, k int) {
	d.count = k
	d.cover(&p.out[k])
	d.ahead = p.out[k].dim == "ea" && strings.HasSuffix(lower(p.text[p.out[k].from():p.out[k].to()]), "each")
}

// afterCount passes what may stand between a count and its thing, and the "of 3" of "2 of 3".
func (p *parcel) afterCount(d *portion, k, hi int) int {
	for k < hi {
		a := &p.out[k]
		switch {
		case a.role == roleAbout:
			d.about = true
		case a.role == roleJoin:
			if a.text == "of" && p.plainCount(d.count, hi) && p.plainCount(k+1, hi) && p.nums[p.out[k+1].num].form != article {
				k++ // the second number says how many there are in all
			} else if a.text == "of" && p.plainCount(d.count, hi) && p.isJoin(k+1, hi, "the") && p.plainCount(k+2, hi) {
				k += 2
			}
		case a.role == roleMark && (a.text == "@" || a.text == "#" || a.text == "-"):
		case a.role == roleStop && isState(a.text) && p.thingAfter(k+1, hi):
		case a.role == roleStop && a.text == "qty" && p.thingAfter(k+1, hi):
		case a.role == roleStop && a.text == "no" && p.isMark(k+1, hi, "."):
			k++ // "4 no. boxes"
		case a.role == roleMark && a.text == "x" && !p.isCount(k+1, hi):
			d.marked = true
		case a.role == roleUnit && a.dim == "ea" && a.text != "stick" && !a.counts():
			if d.length >= 0 && (p.said(k, "pieces") || p.said(k, "pcs") || p.said(k, "lengths")) {
				d.times, d.length = d.length, -1 // "two 10 ft pieces" are twenty feet
			} else if d.unit == "" && p.out[d.count].dim == "" {
				d.unit = notes.Each
			}
			d.ahead = d.ahead || p.said(k, "each") || p.out[d.count].dim == "ft"
			d.cover(a)
		default:
			return k
		}
		k++
	}
	return k
}

// isState reports whether a word says how a thing is, so that it may stand before it.
func isState(t string) bool {
	switch t {
	case "bad", "broken", "loose", "burnt", "missing", "dead", "live", "existing", "good", "used", "remaining", "only", "just":
		return true
	}
	return false
}

// said reports whether atom k is written as the word.
func (p *parcel) said(k int, word string) bool {
	return lower(p.text[p.out[k].from():p.out[k].to()]) == word
}

// counts reports whether a package word is a package and not a plain piece.
func (a *atom) counts() bool {
	switch a.text {
	case "tube", "bottle", "can", "jar", "bucket", "sheet":
		return true
	}
	return false
}

// second reads a second number after the count: a factor ("2 x 25 ft"), the length of a piece
// ("2 6' whips"), or a bare size ("2 4 squares", "2 1 EMT connectors").
func (p *parcel) second(d *portion, k, hi int) int {
	if p.isMark(k, hi, "x") && p.isCount(k+1, hi) {
		d.times = k + 1
		d.cover(&p.out[k+1])
		return p.afterCount(d, k+2, hi)
	}
	if !p.isCount(k, hi) || p.out[d.count].dim != "" {
		return k
	}
	a := &p.out[k]
	switch {
	case a.dim == "" && p.footers(k+1, hi) > 0:
		d.times, d.unit = k, notes.Foot // "5 ten-footers of EMT"
		d.cover(a)
		k = p.footers(k+1, hi)
	case a.dim == "ft":
		d.length = k
		d.cover(a)
		k++
		for p.isJoin(k, hi, "of") {
			k++
		}
	case (a.dim == "gal" || a.dim == "lb") && k+1 < hi && p.out[k+1].role == roleUnit:
		a.text, a.role, a.dim = p.nums[a.num].v.String()+" "+a.dim, roleDesig, "" // "1 5gal bucket"
	case a.dim == "" && p.bareSizeHere(k, hi):
		p.bareSizeOf(k)
	}
	return k
}

// footers returns the atom after "-footers of" at k, or 0: sticks by their length.
func (p *parcel) footers(k, hi int) int {
	if p.isMark(k, hi, "-") {
		k++
	}
	if k >= hi || !p.said(k, "footers") && !p.said(k, "footer") {
		return 0
	}
	return p.passOf(k+1, hi)
}

// bareSizeOf makes a size of a plain number.
func (p *parcel) bareSizeOf(k int) {
	a := &p.out[k]
	a.text, a.role, a.dim = sizeText(p.nums[a.num].v)+" in", roleDesig, "size"
}

// bareSizeHere reports whether a number right before a square box or a raceway is its size.
func (p *parcel) bareSizeHere(k, hi int) bool {
	n := p.nums[p.out[k].num]
	if n.form != digits && n.form != spelled || n.small < 1 || n.small > 6 || k+1 >= hi {
		return false
	}
	next := &p.out[k+1]
	switch next.role {
	case roleKind:
		return isRaceway(next.text) && isTradeSize(n.v.String())
	case roleTrait:
		return next.text == "square" && n.small == 4
	case roleGeneric:
		return next.text == "conduit"
	case roleUnit:
		return next.text == "box" && next.plural && n.small == 4 && k > 0 && p.plainCount(k-1, hi) // "2 4 boxes"
	}
	return false
}

func isRaceway(text string) bool {
	switch text {
	case "EMT", "PVC", "RMC", "IMC", "ENT", "FMC", "LFMC":
		return true
	}
	return false
}

// packed reads the package a count counts: "2 boxes of staples", "a roll of 12-2", "7 sticks".
func (p *parcel) packed(d *portion, k, hi int) int {
	if k >= hi || p.out[k].role != roleUnit {
		return k
	}
	a := &p.out[k]
	if a.text == "stick" {
		d.unit = notes.Each
		d.cover(a)
		if d.length >= 0 { // sticks of a stated length are that many feet
			d.times, d.length, d.unit = d.length, -1, ""
		}
		return p.passOf(k+1, hi)
	}
	if a.text == "box" && !p.boxIsPackage(d, k, hi) {
		return k
	}
	if !p.thingAfter(k+1, hi) && !a.counts() && !p.isCount(p.passOf(k+1, hi), hi) {
		if len(d.names) == 0 && a.text != "box" {
			d.unit = notes.Unit(a.dim) // "2 rolls" of what was named before, or of nothing
			d.cover(a)
			return k + 1
		}
	}
	if p.isMark(k+1, hi, "&") && p.plainCount(k+2, hi) && p.nums[p.out[k+2].num].v.Equal(half) && p.nums[p.out[d.count].num].small > 0 {
		p.nums[p.out[d.count].num].v = p.nums[p.out[d.count].num].v.Add(half) // "a box and a half of straps"
		d.unit = notes.Unit(a.dim)
		d.cover(&p.out[k+2])
		return p.passOf(k+3, hi)
	}
	d.unit = notes.Unit(a.dim)
	d.length = -1 // how long a roll is does not tell how many there are
	d.cover(a)
	k = p.passOf(k+1, hi)
	if p.plainCount(k, hi) && p.thingAfter(k+1, hi) && p.isJoin(k-1, hi, "of") || p.packHolds(k, hi) {
		k++ // "1 pack of 6 lamps"
	}
	return k
}

// packHolds reports whether a number right after a package says how many it holds: "1 box 100
// wire nuts". A small one counts a thing of its own: "1 box 2 covers".
func (p *parcel) packHolds(k, hi int) bool {
	return p.plainCount(k, hi) && p.nums[p.out[k].num].small >= 25 && p.thingAfter(k+1, hi)
}

func (p *parcel) passOf(k, hi int) int {
	for k < hi && p.out[k].role == roleJoin {
		k++
	}
	return k
}

// thingAfter reports whether a name starts at atom k, past "of".
func (p *parcel) thingAfter(k, hi int) bool {
	k = p.passOf(k, hi)
	if k >= hi {
		return false
	}
	switch p.out[k].role {
	case roleDesig, roleThing, rolePart, roleKind, roleGeneric, roleTrait, roleColour, roleUnknown:
		return true
	}
	return false
}

// boxIsPackage tells "2 boxes of staples" and "1 box wire nuts" from "2 box covers" and "2 boxes".
func (p *parcel) boxIsPackage(d *portion, k, hi int) bool {
	if p.packHolds(p.passOf(k+1, hi), hi) {
		return true
	}
	if !p.thingAfter(k+1, hi) {
		return false
	}
	if p.isJoin(k+1, hi, "of") {
		return true
	}
	a, n := &p.out[k], p.nums[p.out[d.count].num]
	next := &p.out[p.passOf(k+1, hi)]
	for j := p.passOf(k+1, hi); j < hi && (p.out[j].role == roleTrait || p.out[j].role == roleColour || p.out[j].role == roleDesig); j++ {
		if j+1 < hi {
			next = &p.out[j+1]
		}
	}
	switch next.text {
	case "cover", "connector", "extension ring", "box support", "hanger", "bracket", "ring":
		return a.plural || next.plural && n.small == 1
	}
	if a.plural {
		return n.small != 1 && next.role != roleTrait && next.role != roleColour && next.role != roleDesig || next.plural
	}
	return next.plural || next.role == roleKind || n.small == 1 && next.role == rolePart
}

// nameFirst reads "12/3 MC 60 feet", "recepts x3", "staples 1 box", "GFCI" without a number.
func (p *parcel) nameFirst(d *portion, k, hi int) int {
	from := k
	k = p.phraseOf(d, k, hi, false)
	if k == from {
		return k
	}
	j := k
	for j < hi && (p.out[j].role == roleAbout || p.out[j].role == roleJoin ||
		p.out[j].role == roleMark && (p.out[j].text == "x" || p.out[j].text == "@" || p.out[j].text == "-")) {
		d.about = d.about || p.out[j].role == roleAbout
		d.marked = d.marked || p.out[j].role == roleMark && p.out[j].text == "x"
		j++
	}
	if j < hi && p.out[j].role == roleStop && p.out[j].text == "qty" {
		j++
		d.marked = true
	}
	if p.plainCount(j, hi) && j == k && p.oneOfMany(d, j) {
		return j + 1
	}
	if !p.isCount(j, hi) || !p.ownCount(d, j, hi) {
		return k
	}
	d.take(p, j)
	j = p.afterCount(d, j+1, hi)
	j = p.second(d, j, hi)
	j = p.packed(d, j, hi)
	if j < hi && p.out[j].role == roleUnit && d.unit == "" && p.out[d.count].dim == "" {
		d.unit = notes.Unit(p.out[j].dim)
		d.cover(&p.out[j])
		j++
	}
	if !d.headed && p.thingAfter(j, hi) { // a size, how much, and only then of what
		first, names := len(p.backing), d.names
		j = p.phraseOf(d, p.passOf(j, hi), hi, true)
		if len(d.names) > 0 {
			p.backing = append(p.backing[:first], append(names, d.names...)...)
			d.names = p.backing[first:len(p.backing):len(p.backing)]
			d.only = !d.headed
		} else {
			d.names = names
		}
	}
	return p.trailing(d, j, hi)
}

// ownCount reports whether the number at atom j counts the name before it, not one after it.
func (p *parcel) ownCount(d *portion, j, hi int) bool {
	a := &p.out[j]
	n := p.nums[a.num]
	if n.form == article {
		return false
	}
	if d.marked && (a.dim != "" || !p.thingAfter(j+1, hi) || d.headed && p.onlyProperties(j+1, hi)) {
		return true
	}
	if d.headed && !d.plural && a.dim == "" && n.form == digits && p.machine(d) {
		return false // "pump 2" says which pump
	}
	if !d.headed && !d.only {
		return a.dim != "" && !p.thingAfter(j+1, hi)
	}
	if a.dim != "" {
		return !p.isJoin(j+1, hi, "of")
	}
	if j+1 < hi && p.out[j+1].role == roleUnit && p.out[j+1].text != "box" {
		return !p.isJoin(j+2, hi, "of")
	}
	return !p.thingAfter(j+1, hi) || p.out[hi-1].role == roleCount && p.out[hi-1].dim == "" && hi-1 > j
}

// oneOfMany reports whether the same word in the singular stands elsewhere with another number behind
// it: then both say which one, as in "fan 1 ducted, fan 2 waiting".
func (p *parcel) oneOfMany(d *portion, j int) bool {
	if d.plural || !d.headed || p.nums[p.out[j].num].form != digits || !p.out[j-1].isHead() {
		return false
	}
	for k := 1; k < len(p.out); k++ {
		a := &p.out[k-1]
		if k != j && a.text == p.out[j-1].text && a.role == p.out[j-1].role && !a.plural && p.plainCount(k, len(p.out)) &&
			!p.nums[p.out[k].num].v.Equal(p.nums[p.out[j].num].v) {
			return true
		}
	}
	return false
}

// machine reports whether the name is that of a machine, which a bare number after it tells from
// others of its kind.
func (p *parcel) machine(d *portion) bool {
	switch p.out[d.names[len(d.names)-1]].text {
	case "pump", "motor", "compressor", "unit heater", "furnace", "condenser", "VFD", "generator", "panel", "transfer switch", "machine":
		return true
	}
	return false
}

// properties takes what is left of a segment into the name when it is nothing but properties:
// "GFCI x2 WR".
func (p *parcel) properties(d *portion, k, hi int) int {
	if k >= hi || len(d.names) == 0 || !p.onlyProperties(k, hi) {
		return k
	}
	names := append([]int(nil), d.names...)
	for j := k; j < hi; j++ {
		if p.out[j].role != roleJoin {
			names = append(names, j)
			d.cover(&p.out[j])
		}
	}
	d.names = names
	return hi
}

// recount makes a size of the first number and the count of atom k.
func (p *parcel) recount(d *portion, k int) {
	p.bareSizeOf(d.count)
	d.names = append([]int{d.count}, d.names...)
	d.count = k
	d.cover(&p.out[k])
}

// onlyProperties reports whether the atoms from k up to hi are properties and nothing else.
func (p *parcel) onlyProperties(k, hi int) bool {
	for ; k < hi; k++ {
		switch a := &p.out[k]; a.role {
		case roleTrait, roleColour, roleJoin:
		case roleDesig:
			if a.dim == "gauge-count" || a.guess {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// trailing reads what may follow an item that has its count: "x 2" after a length, "each", "+/-".
func (p *parcel) trailing(d *portion, k, hi int) int {
	for k < hi {
		a := &p.out[k]
		switch {
		case a.role == roleAbout:
			d.about = true
			d.cover(a)
		case a.role == roleUnit && a.dim == "ea" && !a.counts() && a.text != "stick":
			d.each = true
			d.cover(a)
		case a.role == roleMark && a.text == "x" && p.isCount(k+1, hi) && d.times < 0:
			k++
			d.cover(&p.out[k])
			if p.out[d.count].dim == "" && p.bareSizeHere(d.count, hi) { // "4 square box x 3"
				p.recount(d, k)
				break
			}
			d.times = k
		case a.role == roleCount && a.dim == "ft" && d.times < 0 && p.out[d.count].dim == "" && !p.thingAfter(k+1, hi):
			d.length = k
			d.cover(a)
		case a.role == roleCount && a.dim == "" && !p.thingAfter(k+1, hi) && k+1 >= hi && p.nums[a.num].form == digits &&
			p.nums[a.num].small >= 0 && d.spare < 0 && len(d.names) > 0 && !p.isMark(hi, len(p.out), ")"):
			if p.bareSizeHere(d.count, hi) { // "4 sq boxes 3"
				p.recount(d, k)
				break
			}
			d.spare = k
		default:
			return p.properties(d, k, hi)
		}
		k++
	}
	return k
}
