package field

import "jobday/notes"

// longName is how many words of a name are read: more are no name, and work on it would grow.
const longName = 32

// phraseOf reads the words that name a thing and returns the atom after them. A counted name may
// hold words the vocabulary lacks after the thing: "2 breaker hasps".
func (p *parcel) phraseOf(d *portion, k, hi int, counted bool) int {
	from := len(p.backing)
	only, end := true, k
	pluralHead := false
loop:
	for ; k < hi && len(p.backing)-from < longName; k++ {
		a := &p.out[k]
		switch a.role {
		case roleThing, rolePart, roleKind, roleGeneric:
			if a.role == roleThing && p.cabled(from) && !isCabled(a.text) {
				break loop // "12/2 MC exit sign" is two things
			}
			if pluralHead && !(a.role == roleKind && p.partHead(from)) || !counted && a.verb() != "" && !d.headed && p.verbHere(k) {
				break loop
			}
			only, d.headed, pluralHead = false, true, a.plural
		case roleUnit:
			if a.text != "box" || pluralHead {
				break loop
			}
			only, d.headed, pluralHead = false, true, a.plural
		case roleDesig, roleTrait, roleColour:
			pluralHead = pluralHead || a.plural && a.role == roleDesig && a.dim == "size"
		case roleUnknown:
			if d.headed && (!counted || pluralHead || !nounLike(a)) {
				break loop
			}
			only = false
		case roleJoin:
			if a.text == "with" && !p.propertyAt(k+1, hi) || a.text == "of" && !d.headed {
				break loop
			}
			continue
		case rolePlace:
			if !p.thingAfter(k+1, hi) || pluralHead {
				break loop
			}
			continue
		case roleVerb:
			if !counted || d.headed || k+1 >= hi || !p.out[k+1].isHead() {
				break loop
			}
			only = false
		case roleMark:
			if (a.text == "-" || a.text == "/") && k > 0 && k+1 < hi && p.property(k-1) && p.property(k+1) {
				continue
			}
			break loop
		default:
			break loop
		}
		p.backing = append(p.backing, k)
		d.cover(a)
		end = k + 1
	}
	d.names = p.backing[from:len(p.backing):len(p.backing)]
	d.only = only && len(d.names) > 0
	d.plural = pluralHead
	return p.packageAfter(d, end, hi)
}

// cabled reports whether the name so far is a cable or wire.
func (p *parcel) cabled(from int) bool {
	kind := false
	for _, k := range p.backing[from:] {
		switch a := &p.out[k]; a.role {
		case roleKind:
			kind = !isRaceway(a.text) && a.text != "AC"
		case roleThing, rolePart:
			return false
		}
	}
	return kind
}

// isCabled reports whether a kind of cable says what a thing is made of.
func isCabled(text string) bool {
	switch text {
	case "whip", "cord", "home run", "circuit", "feeder", "cord cap", "service", "jack", "data drop", "multiwire branch circuit":
		return true
	}
	return false
}

// partHead reports whether the name so far is headed by a part, which a kind may follow:
// "straps 3/4 EMT".
func (p *parcel) partHead(from int) bool {
	for _, k := range p.backing[from:] {
		if p.out[k].role == rolePart {
			return true
		}
	}
	return false
}

// packageAfter reads the package at the end of a counted name: "2 12/2 MC rolls".
func (p *parcel) packageAfter(d *portion, k, hi int) int {
	if d.count < 0 || len(d.names) == 0 || k >= hi || p.out[k].role != roleUnit || p.out[k].text == "box" {
		return k
	}
	a := &p.out[k]
	if a.text == "roll" && p.has(d.names, roleThing) {
		return k // the coil of a contactor
	}
	if a.dim == "ea" || a.text == "set" || a.text == "lot" || p.out[d.count].dim != "" {
		if a.text == "stick" {
			d.unit = notes.Each
			d.cover(a)
			return k + 1
		}
		return k
	}
	d.unit = notes.Unit(a.dim)
	d.length = -1
	d.cover(a)
	return k + 1
}

// propertyAt reports whether a property, a colour or a designation stands at atom k.
func (p *parcel) propertyAt(k, hi int) bool {
	if k >= hi {
		return false
	}
	switch p.out[k].role {
	case roleTrait, roleColour, roleDesig, roleUnknown:
		return true
	}
	return false
}

// nounLike tells a noun from the -ed, -ing and -ly words that report what happened to a thing.
func nounLike(a *atom) bool {
	n := len(a.text)
	if n < 3 {
		return false
	}
	switch a.text[n-2:] {
	case "ed", "ly":
		return false
	}
	return a.text[n-3:] != "ing"
}
