package field

import "jobday/notes"

// leastFeet is the least bare number that is read as feet of cable: nobody counts cable by the piece, and
// fewer may be pieces or a circuit.
const leastFeet = 100

// cableAlone reports whether a portion names a cable by its conductors and nothing that is counted.
func (p *parcel) cableAlone(d *portion) bool {
	if d.plural {
		return false
	}
	cable := false
	for _, k := range d.names {
		switch a := &p.out[k]; a.role {
		case roleDesig:
			cable = cable || a.dim == "gauge-count"
			if a.dim != "gauge-count" && a.dim != "gauge" {
				return false
			}
		case roleKind, roleColour:
		default:
			return false
		}
	}
	return cable
}

// goesOnInFeet reports whether a bare number of cable stands behind a length of cable: "40' 10/3, 25 of 12/2".
func (p *parcel) goesOnInFeet(before, d *portion) bool {
	const least = 10 // fewer may be pieces
	if d.count < 0 || before.unitOf(p) != notes.Foot || d.unitOf(p) != "" || d.times >= 0 || d.length >= 0 || d.spare >= 0 {
		return false
	}
	n := &p.out[d.count]
	return n.alt < 0 && p.nums[n.num].form == digits && p.nums[n.num].small >= least && p.cableAlone(before) && p.cableAlone(d)
}

// byLength reports whether what a portion names is sold by length and not by the piece.
func (p *parcel) byLength(d *portion) bool {
	for _, k := range d.names {
		if r := p.out[k].role; r == roleThing || r == rolePart {
			return p.out[k].text == "strut" || p.out[k].text == "threaded rod"
		}
	}
	return true
}
