package field

import "jobday/notes"

// attach gives d to the item before it when it is a quantity the item lacks, or only properties.
func (p *parcel) attach(last, d *portion) bool {
	switch d.sep {
	case ",", "(", ":", "-", ")", "=", "[", "…":
	default:
		return false
	}
	if last.count < 0 && len(last.names) > 0 && d.count >= 0 && (d.sep == "," || d.sep == "-" || d.sep == ":") && d.alone && p.onlyBoxes(d) {
		d.names, d.unit = nil, notes.Box // "wire nuts, 1 box"
	}
	switch {
	case d.bare() && last.count < 0 && len(last.names) > 0:
		if d.unit == "" && (p.nums[p.out[d.count].num].form == article || p.out[d.count].dim == "" && !d.alone) {
			return false
		}
		last.lend(d)
		last.ahead, d.each = false, d.each || d.ahead
		return true
	case d.bare() && last.count >= 0 && (d.sep == "(" && p.measureNames(last) || d.sep == "," && p.pieceLength(last)) && p.plainCount(d.count, len(p.out)) && last.length < 0:
		last.length, last.count = last.count, d.count // "whip 6' (2)"
		last.end = max(last.end, d.end)
		return true
	case d.bare() && last.count >= 0 && len(last.names) > 0 && d.sep == "(" && p.out[d.count].dim == "ft":
		return true // a length in brackets beside a count: kept as written only
	case d.bare() && last.count >= 0 && len(last.names) > 0 && d.sep == "," && p.out[d.count].dim == "ft" && last.unit == notes.Roll:
		return true // "1 roll 14-2, 250 ft": how long the roll is
	case last.count >= 0 && len(last.names) > 0 && d.sep == "(" && d.count >= 0 && d.each:
		return true // "8 fixtures (4 lamps ea)": what each of them holds
	case (d.only || p.qualifies(last, d)) && d.count < 0 && len(last.names) > 0 && last.headed && !p.cableOnly(d) && !(last.count >= 0 && p.sameDim(last, d)):
		last.names = append(last.names, d.names...)
		last.end = max(last.end, d.end)
		return true
	}
	return false
}

// lengthNext takes a measure after a count and a dash for the length of the pieces counted: "20 - 4' LED
// tubes".
func (p *parcel) lengthNext(d, n *portion) {
	if n.sep == "-" && n.count >= 0 && n.length < 0 && n.times < 0 && p.pieceLength(n) {
		n.length, n.count = n.count, -1
	}
}

// pieceLength reports whether the measure of a portion is the length of things that are counted by
// the piece: "8 ft strip lights, six of them".
func (p *parcel) pieceLength(d *portion) bool {
	return p.out[d.count].dim == "ft" && len(d.names) > 0 && p.lengthNames(d) && p.out[d.count].from() < p.firstName(d)
}

// sameDim reports whether both portions say the same kind of rating: then they are two things.
func (p *parcel) sameDim(last, d *portion) bool {
	for _, k := range d.names {
		dim := p.out[k].dim
		if dim != "amps" && dim != "poles" && dim != "gauge" && dim != "size" {
			continue
		}
		for _, j := range last.names {
			if p.out[j].dim == dim {
				return true
			}
		}
	}
	return false
}

// onlyBoxes reports whether a portion counts boxes and nothing else.
func (p *parcel) onlyBoxes(d *portion) bool {
	return len(d.names) == 1 && p.out[d.names[0]].role == roleUnit
}

// qualifies reports whether d is the GFCI of "recept, GFCI, 20A".
func (p *parcel) qualifies(last, d *portion) bool {
	if d.sep != "," {
		return false
	}
	for _, k := range d.names {
		if a := &p.out[k]; a.isHead() && a.text != "GFCI" && a.text != "AFCI" {
			return false
		}
	}
	for _, k := range last.names {
		if t := p.out[k].text; t == "receptacle" || t == "breaker" {
			return true
		}
	}
	return false
}

// cableOnly reports whether a portion is a conductor count: it names a cable of its own.
func (p *parcel) cableOnly(d *portion) bool {
	for _, k := range d.names {
		if p.out[k].dim == "gauge-count" || p.out[k].dim == "gauge" || p.out[k].dim == "panel" || p.out[k].dim == "circuit" {
			return true
		}
	}
	return false
}
