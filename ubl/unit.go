package ubl

import "jobday/notes"

// unitCodes are the codes of UNECE Recommendation 20 for our units, and of Recommendation 21, with an
// X in front, for packages. Source: EA, FOT, MTR, HUR, C62 as read in official samples and code
// pages on 2026-11-25; the rule of the X likewise; the others from memory.
var unitCodes = map[notes.Unit]string{
	notes.Each: "EA", notes.Foot: "FOT", notes.Meter: "MTR", notes.Hour: "HUR", notes.Pound: "LBR",
	notes.Roll: "XRO", notes.Box: "XBX", notes.Bag: "XBG", notes.Pack: "XPK", notes.Pair: "PR", notes.Set: "SET",
	notes.Gal: "GLL", notes.Lot: "C62", "day": "DAY", "min": "MIN",
}

// one counts things that no code is known for.
const one = "C62"

// UnitCode returns the code of a unit, and false when there is none of its own: it is then counted
// as C62, one, and the document says in words what one is.
func UnitCode(u notes.Unit) (string, bool) {
	if code, ok := unitCodes[u]; ok {
		return code, u != notes.Lot
	}
	return one, false
}
