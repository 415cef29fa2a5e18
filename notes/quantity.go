package notes

// Unit is a unit of measure by the short name used in every output: "ea", "ft", "h".
type Unit string

// The units every book knows. What comes in a package is counted in packages, as written;
// a price list may add units of its own.
const (
	Each  Unit = "ea"
	Foot  Unit = "ft"
	Meter Unit = "m"
	Hour  Unit = "h"
	Pound Unit = "lb"
	Roll  Unit = "roll"
	Box   Unit = "box"
	Bag   Unit = "bag"
	Pair  Unit = "pair"
	Set   Unit = "set"
	Gal   Unit = "gal"
	Pack  Unit = "pk"
	Lot   Unit = "lot"
)

// Units lists the built-in units in the order people are shown them.
var Units = []Unit{Each, Foot, Meter, Hour, Pound, Roll, Box, Bag, Pair, Set, Gal, Pack, Lot}

// Quantity is a number of units. The zero value has no unit and stands for "none written".
type Quantity struct {
	Value Decimal `json:"value"`
	Unit  Unit    `json:"unit"`
}

// Written reports whether there is a quantity at all.
func (q Quantity) Written() bool { return q.Unit != "" }

// String returns "52 ft".
func (q Quantity) String() string { return q.Value.String() + " " + string(q.Unit) }

// metersPerFoot is exact by way of the inch: 1 ft = 0.3048 m (NIST SP 811, appendix B.8).
var metersPerFoot = MustDecimal("0.3048")

// In returns q in unit u and true when both measure the same thing: feet and metres of length.
// Feet to metres is exact; metres to feet is rounded to 6 places. Any other pair is not converted.
func (q Quantity) In(u Unit) (Quantity, bool) {
	switch {
	case q.Unit == u:
		return q, true
	case q.Unit == Foot && u == Meter:
		return Quantity{q.Value.Mul(metersPerFoot), u}, true
	case q.Unit == Meter && u == Foot:
		return Quantity{q.Value.Quo(metersPerFoot, 6), u}, true
	}
	return q, false
}
