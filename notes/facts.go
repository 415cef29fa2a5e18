package notes

// Piece is where in an entry's text something was read: byte offsets from the start of the text,
// End exclusive. The zero Piece stands for "not read from words".
type Piece struct{ Start, End int }

// Found reports whether the piece covers anything.
func (p Piece) Found() bool { return p.End > p.Start }

// Facts is what the words of one entry or detail say, before anyone asks what it means for the
// scope. Every fact carries the piece of text it was read from.
type Facts struct {
	Items    []Item
	Terms    []Term // the words in normal form, in the order written
	Time     []TimeRow
	Progress Progress
	Consent  Consent
	Price    PriceWords
	Fault    FaultWords
	Readings []Measured
	Circuit  CircuitWords
}

// Item is a thing that was counted or measured: material, or the object of work.
type Item struct {
	Piece          // the whole of it, quantity and name
	Qty   Quantity // zero when no quantity is written
	Name  string   // normal form: "12/2 MC", "20A 1P breaker", "3/4 in EMT"
	Text  string   // the words that name it, as written
	Other []Quantity
	// Other holds further honest readings of the quantity; when it is not empty the item is unclear.
	About bool // "about", "+/-", "approx"
}

// TimeRow is time of one person or group: "Ines 7-3:30, 30 lunch", "45 min", "2 h travel".
type TimeRow struct {
	Piece
	People []string    // as the book names them; empty when nobody is named
	Crew   int         // "crew of 3", "x2 men", "both of us" (2): a head count, 0 when not said
	Spans  []ClockSpan // in the order written
	Break  Minutes     // unpaid, taken off the spans
	Stated Minutes     // a duration as written, 0 when none
	Each   bool        // Stated is for each person
	Travel bool
	Fault  string // why the row cannot be right ("ends before it starts"), or ""
	Beside *TimeBeside
	// Beside is what a row without a time of its own says about times told elsewhere in the note: "Bo same",
	// "30 lunch each", "Bo left at 2". Fault then says what is missing if there are none. Nil for others.
}

// TimeBeside changes or repeats a time that stands elsewhere in a note.
type TimeBeside struct {
	Same     bool    // the time of whoever was told of before
	Less     Minutes // of the same: how much less it was
	HasBreak bool    // Break was told; 0 is none
	Break    Minutes // unpaid
	All      bool    // of a break: it is said to be everybody's
	But      bool    // of a break: everybody's but the row's people's
	From, To *Clock  // when they came or left; an hour below 12 may be of the afternoon as well
}

// ClockSpan is a stretch on the clock. To is after From; over midnight it is 1440 or more.
type ClockSpan struct {
	From Clock `json:"from"`
	To   Clock `json:"to"`
}

// Minutes returns how long the span is.
func (s ClockSpan) Minutes() Minutes { return Minutes(s.To - s.From) }

// Clock returns the minutes on the clock of one person of the row: its spans less the break,
// or the stated duration when it has no spans.
func (r TimeRow) Clock() Minutes {
	if len(r.Spans) == 0 {
		return r.Stated
	}
	m := -r.Break
	for _, s := range r.Spans {
		m += s.Minutes()
	}
	return max(m, 0)
}

// Heads returns how many people the row's time is for: those named, else the head count, else 1.
func (r TimeRow) Heads() int { return max(1, len(r.People), r.Crew) }

// PersonMinutes returns the minutes of all people of the row together.
// A stated duration with neither spans nor "each" is already the total.
func (r TimeRow) PersonMinutes() Minutes {
	if len(r.Spans) == 0 && !r.Each {
		return r.Stated
	}
	return r.Clock() * Minutes(r.Heads())
}

// Answer is a yes or no that may be missing.
type Answer int

// The answers.
const (
	Unsaid Answer = iota
	Yes
	No
)

// Progress is what the words say about how far something got.
type Progress struct {
	Piece
	Count     *Decimal // "2 of 3": 2; "all six": 6
	Of        *Decimal // "2 of 3": 3; "all six": 6
	Fraction  *Decimal // "half": 0.5; "50 %": 0.5
	But       *Decimal // "all but two": 2
	Told      *Decimal // "terminated 12", "balcony 5 more": a count whose thing is not said beside it
	All       bool     // "all", "all six", "every"
	Rest      bool     // "the last one", "the other two", "rest of"
	Complete  Answer   // Yes: done, complete, finished; No: started, roughed, not landed yet
	NotDone   bool     // did not get to, skipped, not started: nothing happened
	Blocked   bool     // waiting on, could not, no access
	BlockedBy string   // what it waits for, as written
	ByOthers  bool     // done by somebody who is not us
	Dropped   bool     // the customer took it out: deleted, cancelled, do not need it
	Beyond    bool     // said to be more than was booked: not on our sheet, not in our scope
	Placed    bool     // in its place or working: "in", "up", "on" at the end of a clause
}

// ConsentState says what a customer's word amounts to.
type ConsentState int

// The consent states.
const (
	NoConsent  ConsentState = iota // nothing said about it
	Asked                          // somebody wants it; nobody said yes to the price or the work
	Authorized                     // a person with a say said yes
	Declined                       // a person with a say said no
)

// consentNames are the states as a report writes them.
var consentNames = [...]string{NoConsent: "none", Asked: "asked", Authorized: "authorized", Declined: "declined"}

// String is the state as a report writes it.
func (s ConsentState) String() string { return consentNames[s] }

// Consent is who allowed or refused something, how and when. With NoConsent and By it is who took
// booked work out.
type Consent struct {
	Piece
	State ConsentState
	By    string // as written: "Ruth Amsel", "the owner"; "" when not said
	How   string // "on site", "signed", "text message", "phone", "e-mail"; "" when not said
	At    string // "10:40", or an ISO date and time; "" when not said
}

// PriceWords is what the words say about money.
type PriceWords struct {
	Piece
	Quoted   *Money // "quoted 180"
	NotOver  *Money // "NTE 500", "not over 500"
	Each     bool   // "85 each": Quoted is for one
	NoCharge bool   // "no charge", "n/c", "warranty", "on us"
	Why      string // the reason given with "no charge", as written

	TimeAndMaterial bool // "T&M"
}

// FaultState is how far a deficiency is dealt with.
type FaultState string

// The fault states; "" stands for "not said".
const (
	FaultFound     FaultState = "found"
	FaultMadeSafe  FaultState = "made safe"
	FaultCorrected FaultState = "corrected"
	FaultLeft      FaultState = "left"
	FaultDeclined  FaultState = "declined"
)

// FaultWords is what the words say about a fault in the installation.
type FaultWords struct {
	Piece
	Named    bool       // the words describe a fault: missing cover, loose, burnt, open knockout
	State    FaultState // fixed / made safe / left / declined, as far as said
	Told     string     // who was told, as written
	Severity Severity   // a severity word in the text, or ""
}

// Severity is how urgent a deficiency is.
type Severity string

// The severities, gravest first.
const (
	Danger      Severity = "danger"
	Hazard      Severity = "hazard"
	Maintenance Severity = "maintenance"
)

// Measured is one value read from an instrument, or a yes/no result.
type Measured struct {
	Piece
	Value   Decimal
	HasVal  bool   // false for a bare result such as "GFI ok"
	Op      string // ">" or "<" when the reading is a bound, else ""
	Unit    string // "V", "A", "mA", "ms", "ohm", "Mohm", "degC", "degF", "in-lb", "ft-lb", "%", "Hz", "fc", "W"
	Between string // "L1-N", "L1-L2", "line to ground"; "" when not said
	Result  string // "ok", "fail", "open", "continuity", "no continuity", "tripped", "reset"; "" when not said
}

// CircuitWords is what a line of the circuits section says.
type CircuitWords struct {
	Piece
	Panel     string // "LP1"; "" when not said
	Spaces    []int
	Serves    string
	Breaker   string // normal form: "30A 2P"
	Conductor string // normal form: "10 AWG"
	Shared    bool   // the circuits named share a neutral
	With      []int  // spaces of other circuits named as sharing the neutral
	Tied      Answer // Yes: handles tied or common trip; No: separate handles
	Was       []int  // spaces it had before: "was 7 now 9"
	Instead   bool   // the words say that it takes the place of what was there
}
