package notes

// TermClass says what a term of a line is. The zero value is invalid.
type TermClass byte

// The classes of terms.
const (
	ThingTerm       TermClass = iota + 1 // receptacle, fixture, EMT, connector
	TraitTerm                            // LED, sealed, old work
	VerbTerm                             // pull, land; Dim is the class of work
	PlaceTerm                            // kitchen, north, unit 4; Dim is what it contradicts
	DesignationTerm                      // 12/2, 30A, LP1; Dim is what it measures
	NumberTerm                           // 4, 52 ft; Dim is the unit, "" for none
	ColourTerm
	OtherTerm // a word the vocabulary does not know
)

// A Term is one word or designation of a line in normal form, for holding lines against each other.
// Words that say nothing are left out.
//
// Dim of a designation is "amps", "poles", "volts", "gauge", "gauge-count", "size", "gang", "way",
// "watts", "kelvin", "panel", "circuit", "spaces", "nema", "phase", "equipment", "model" or "":
// two designations of one Dim that differ contradict each other. Dim of a place is "room", "unit",
// "side", "floor", "building", "bathroom" or "bedroom" (which of them), or "spot", which contradicts
// nothing. "Hall bath" gives two terms: bathroom, a room, and hall bath, a bathroom.
type Term struct {
	Text  string
	Class TermClass
	Dim   string
	Piece
}
