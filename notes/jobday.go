package notes

import "jobday/finding"

// Version is the version of the JobDay's JSON.
const Version = "1"

// JobDay is one job on one date, compiled from all its notes: the one result that every report,
// page, export and check is a view of. Lists are in the order written, and never nil in JSON.
// The JSON keys are a contract.
type JobDay struct {
	Version string   `json:"jobday"`
	Company string   `json:"company"`
	Job     string   `json:"job"`
	Date    Date     `json:"date"`
	Crew    []string `json:"crew"`
	Number  int      `json:"number"` // of this job's reports, from 1
	Final   bool     `json:"final"`  // the job's last report so far

	Notes        []NoteRef          `json:"notes"`
	Scope        []LineStanding     `json:"scope"`
	Entries      []EntryResult      `json:"entries"`
	Extras       []ExtraWork        `json:"extras"`
	Deficiencies []DeficiencyRecord `json:"deficiencies"`
	Tests        []TestRecord       `json:"tests"`
	Circuits     []CircuitRecord    `json:"circuits"`
	Materials    []MaterialUse      `json:"materials"`
	Labor        []LaborRow         `json:"labor"`

	Left           []Standing `json:"left"`
	Questions      []Standing `json:"questions"`
	Narrative      []Standing `json:"narrative"`
	Deliveries     []Standing `json:"deliveries"`
	Equipment      []Standing `json:"equipment"`
	Delays         []Standing `json:"delays"`
	Instructions   []Standing `json:"instructions"`
	Safety         []Standing `json:"safety"`
	Conditions     []Standing `json:"conditions"`
	Subcontractors []Standing `json:"subcontractors"`

	Money    MoneyStanding `json:"money"`
	Findings []FindingRef  `json:"findings"`

	// Panels is how every panel the book or a note names stands at the end of the day.
	Panels []PanelStanding `json:"-"`

	// Valued is the value of everything priced in this JobDay, one row a thing, set by the price
	// stage before it decides what is ready. Check holds Money against it.
	Valued []Value `json:"-"`
}

// Value is what one priced thing is worth.
type Value struct {
	What   string
	Amount Money
}

// Source points into a note or scope: file relative to the book, line and column from 1 in code
// points; end_column is just past the last character.
type Source struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"end_line"`
	EndColumn int    `json:"end_column"`
}

// SourceOf returns the place of a span.
func SourceOf(s finding.Span) Source {
	if !s.Known() {
		return Source{}
	}
	line, col := s.Position()
	endLine, endCol := s.EndPosition()
	return Source{s.File.Name, line, col, endLine, endCol}
}

// NoteRef names one note of the day. Accounted equals Lines: both count non-blank lines.
type NoteRef struct {
	File      string `json:"file"`
	SHA256    string `json:"sha256"`
	Lines     int    `json:"lines"`
	Accounted int    `json:"accounted"`

	Source *finding.File `json:"-"`
	// Covered is every span an entry, a narrative, a finding or structure accounts for.
	Covered []finding.Span `json:"-"`
}

// LineState says how a scope line stands.
type LineState string

// The line states.
const (
	NotStarted  LineState = "not started"
	UnderWay    LineState = "under way"
	Complete    LineState = "complete"
	Over        LineState = "over"
	Blocked     LineState = "blocked"
	NotReported LineState = "not reported"
)

// BookedQty is the booked quantity of a line.
type BookedQty struct {
	Qty  Decimal `json:"qty"`
	Unit Unit    `json:"unit"`
}

// LineHours is a line's labor in minutes.
type LineHours struct {
	Booked Minutes `json:"booked"`
	Today  Minutes `json:"today"`
	ToDate Minutes `json:"to_date"`
}

// LineStanding is how one scope line stands at the end of the day.
// Booked + Over = ToDate + Left, and none is negative.
type LineStanding struct {
	Line      string    `json:"line"`
	Work      string    `json:"work"`
	Booked    BookedQty `json:"booked"`
	Today     Decimal   `json:"today"`
	ToDate    Decimal   `json:"to_date"`
	Left      Decimal   `json:"left"`
	Over      Decimal   `json:"over"`
	State     LineState `json:"state"`
	BlockedBy string    `json:"blocked_by"`
	Hours     LineHours `json:"hours"`
	Price     Money     `json:"price"` // of the whole line as booked; the ceiling of T&M; 0.00 when open
	Ready     Money     `json:"ready"` // what of it may be billed as of today's work
	From      []Source  `json:"from"`

	// Dropped is how much of the line the customer took out, and DroppedBy by whose word.
	Dropped   Decimal `json:"-"`
	DroppedBy string  `json:"-"`
	// Finished is set on the day the line became complete.
	Finished bool `json:"-"`
	// Unclear is set when an unclear entry of today may belong to the line: its money waits.
	Unclear bool `json:"-"`
	// Thing is what the line is about, in the trade's word; "" when its words name nothing known.
	Thing string `json:"-"`
}

// Reading is what was read out of an entry's words, by its outcome. It is one of
// MaterialReading, TimeReading, WorkReading, FaultReading, TestReading or NoReading.
type Reading interface{ reading() }

// MaterialReading is the reading of a material: Qty is nil when no quantity could be read.
type MaterialReading struct {
	Qty  *Quantity `json:"qty"`
	Item string    `json:"item"`
}

// TimeReading is the reading of time; Minutes are person-minutes in all.
type TimeReading struct {
	People  []string    `json:"people"`
	Spans   []ClockSpan `json:"spans"`
	Minutes Minutes     `json:"minutes"`
}

// WorkReading is the reading of work, in or out of scope; Complete is nil when the words do not say.
type WorkReading struct {
	Qty      *Quantity `json:"qty"`
	Complete *bool     `json:"complete"`
	Minutes  Minutes   `json:"minutes"`
	People   []string  `json:"people"`
}

// FaultReading is the reading of a deficiency.
type FaultReading struct {
	Kind     string     `json:"kind"`
	Severity Severity   `json:"severity"`
	State    FaultState `json:"state"`
}

// TestReading is the reading of a test.
type TestReading struct {
	Readings []TestValue `json:"readings"`
	Verdict  Verdict     `json:"verdict"`
}

// NoReading is the reading of an entry that is carried as words; it is {} in JSON.
type NoReading struct{}

func (MaterialReading) reading() {}
func (TimeReading) reading()     {}
func (WorkReading) reading()     {}
func (FaultReading) reading()    {}
func (TestReading) reading()     {}
func (NoReading) reading()       {}

// EntryResult is an entry with what became of it.
type EntryResult struct {
	ID         string         `json:"id"` // "2026-03-12/mixer-disconnect", unique in the JobDay
	Section    Section        `json:"section"`
	Text       string         `json:"text"`
	Source     Source         `json:"source"`
	Outcome    Outcome        `json:"outcome"`
	Lines      []string       `json:"lines"` // labels of the scope lines it serves
	Reading    Reading        `json:"reading"`
	Confidence float64        `json:"confidence"` // 0 to 1, two decimals
	Candidates []Candidate    `json:"candidates"`
	Why        string         `json:"why"`
	Details    []DetailResult `json:"details"`
	Photos     []string       `json:"photos"`

	Entry    *Entry        `json:"-"`
	Evidence []EvidenceRow `json:"-"` // the likeliest lines it was held against, likeliest first; often empty
}

// Candidate is a line an entry may belong to.
type Candidate struct {
	Line       string  `json:"line"`
	Confidence float64 `json:"confidence"`
}

// DetailResult is a nested item or clause of an entry.
type DetailResult struct {
	Text   string `json:"text"`
	Source Source `json:"source"`
}

// ExtraState says how an extra stands.
type ExtraState string

// The states of an extra.
const (
	NeedsPrice         ExtraState = "needs price"
	NeedsAuthorization ExtraState = "needs authorization"
	ExtraAuthorized    ExtraState = "authorized"
	ExtraDeclined      ExtraState = "declined"
	ExtraNoCharge      ExtraState = "no charge"
	ExtraBilled        ExtraState = "billed"
)

// ExtraOutcome says what happened with an extra.
type ExtraOutcome string

// The outcomes of an extra.
const (
	ExtraDone    ExtraOutcome = "done"
	ExtraNotDone ExtraOutcome = "not done" // found or asked for, not done yet
	ExtraCredit  ExtraOutcome = "credit"   // booked work the customer dropped; the amount is negative
)

// Authorization is whose word an extra rests on.
type Authorization struct {
	State string `json:"state"` // "none", "asked", "authorized", "declined"
	By    string `json:"by"`
	How   string `json:"how"`
	At    string `json:"at"`
}

// PricingStep is one step of the working behind an amount.
type PricingStep struct {
	What   string   `json:"what"`   // "labor Ines, journeyman"
	Basis  string   `json:"basis"`  // "45 min, billed in steps of 15 min"
	Qty    Decimal  `json:"qty"`    // 0.75
	Unit   Unit     `json:"unit"`   // "h"
	Rate   Decimal  `json:"rate"`   // per unit; not rounded
	Amount Money    `json:"amount"` // Qty * Rate, rounded half away from zero to the cent
	From   []Source `json:"from"`
}

// ExtraWork is work beyond the booked scope, or a credit for booked work that was dropped.
type ExtraWork struct {
	ID            string        `json:"id"`
	Work          string        `json:"work"`
	Outcome       ExtraOutcome  `json:"outcome"`
	Minutes       Minutes       `json:"minutes"`
	Materials     []MaterialUse `json:"materials"`
	Authorization Authorization `json:"authorization"`
	Pricing       []PricingStep `json:"pricing"`
	Amount        Money         `json:"amount"`
	State         ExtraState    `json:"state"`
	Number        string        `json:"number"` // of the change order once offered, else ""
	From          []Source      `json:"from"`

	// Figured is what the notes make an offered extra worth, beside the Amount agreed; nil when it
	// was not offered, or cannot be priced.
	Figured *Money `json:"-"`
	// Rows is its price as an offer has it, and Missing what a price lacks; only where an offer is made.
	Rows    []ChangeRow `json:"-"`
	Missing []string    `json:"-"`

	Found    Date       `json:"-"` // the day it was first written
	Price    PriceWords `json:"-"` // what the words say about money
	Line     string     `json:"-"` // the line it goes beyond or drops, or ""
	Qty      Quantity   `json:"-"` // how much, for a unit price; zero when not said
	Labor    []LaborUse `json:"-"` // who worked on it, as far as said
	Facts    []Item     `json:"-"` // what was counted in its words
	Unclear  string     `json:"-"` // why its money must wait besides authorization, or ""
	TaskWork string     `json:"-"` // the words its unit price is looked up with
	Thing    string     `json:"-"` // what it is about, in the trade's word: "receptacle"; "" when not told
	Mends    bool       `json:"-"` // it puts a deficiency right
}

// LaborUse is time of one person on one thing.
type LaborUse struct {
	Person  string // "" when nobody is named
	Minutes Minutes
	Travel  bool
	From    Source
}

// CodeRule is a reference to a code, a pointer and not advice.
type CodeRule struct {
	Code    string `json:"code"`
	Edition string `json:"edition"`
	Section string `json:"section"`
}

// DeficiencyRecord is something wrong with the installation.
type DeficiencyRecord struct {
	Kind     string     `json:"kind"` // slug of the catalogue, "" when none fits
	Title    string     `json:"title"`
	Where    string     `json:"where"`
	Hazard   string     `json:"hazard"` // "shock", "fire", ...; "to be judged" when no kind fits
	Severity Severity   `json:"severity"`
	Rules    []CodeRule `json:"rules"`
	State    FaultState `json:"state"`
	Caution  string     `json:"caution"`
	FollowUp string     `json:"follow_up"`
	From     []Source   `json:"from"`

	ID    string   `json:"-"`
	Text  string   `json:"-"`
	Told  string   `json:"-"` // whom of the customer's the crew told
	Found Date     `json:"-"`
	Photo []string `json:"-"`
	// Why says in plain words why it matters, Correction what usually puts it right; "" for a kind
	// nobody knows.
	Why        string `json:"-"`
	Correction string `json:"-"`
	By         string `json:"-"` // who declined it
	At         Date   `json:"-"` // when it came to its state, unknown while nothing was done
	How        string `json:"-"` // once corrected: "in scope, line C", "as an extra", "at no charge"; "" when not said
}

// Verdict is what a reading says against its limit. A reading within is never called safe.
type Verdict string

// The verdicts.
const (
	Within   Verdict = "within"
	Outside  Verdict = "outside"
	Recorded Verdict = "recorded" // no limit known
)

// TestValue is one reading. Value is "" for a bare result, whose word then stands in Unit's place
// in Between or What of its test.
type TestValue struct {
	Value   string `json:"value"` // decimal; with a leading ">" or "<" for a bound; a word for a bare result
	Unit    string `json:"unit"`
	Between string `json:"between"`
}

// TestRecord is one test with its verdict.
type TestRecord struct {
	What     string      `json:"what"`
	Readings []TestValue `json:"readings"`
	Limit    string      `json:"limit"`
	Rule     string      `json:"rule"`
	Verdict  Verdict     `json:"verdict"`
	Why      string      `json:"why"`
	From     []Source    `json:"from"`

	// Impossible is set when a reading cannot be right: it shows that nothing was tested.
	Impossible bool `json:"-"`
}

// CircuitRecord is one circuit as reported.
type CircuitRecord struct {
	Panel      string   `json:"panel"`
	Spaces     []int    `json:"spaces"`
	Serves     string   `json:"serves"`
	Breaker    string   `json:"breaker"`
	Conductor  string   `json:"conductor"`
	SharedWith []int    `json:"shared_neutral_with"`
	Findings   []string `json:"findings"`
	From       []Source `json:"from"`
}

// MaterialUse is material that went in.
type MaterialUse struct {
	Qty     Quantity `json:"qty"`
	Item    string   `json:"item"`
	Code    string   `json:"code"`    // of the price list, "" when no row fits
	Line    string   `json:"line"`    // label of the line or id of the extra it went into, "" when not known
	Allowed Decimal  `json:"allowed"` // what the booked price includes, to date
	Over    Decimal  `json:"over"`    // of this use, what goes beyond the allowance
	Cost    Money    `json:"cost"`    // of the whole quantity
	Price   Money    `json:"price"`
	From    []Source `json:"from"`

	Priced bool `json:"-"` // a price row was found and both figures are set
}

// Unassigned is the key of LaborRow.On for minutes on no line and no extra.
const Unassigned = "unassigned"

// LaborRow is one person's day. The values of On add up to Minutes.
type LaborRow struct {
	Name    string             `json:"name"`
	Class   string             `json:"class"`
	Spans   []ClockSpan        `json:"spans"`
	Minutes Minutes            `json:"minutes"`
	On      map[string]Minutes `json:"on"`
	Cost    Money              `json:"cost"`
	From    []Source           `json:"from"`

	Travel Minutes `json:"-"` // part of Minutes
	// TravelOn is the travel among On, by the same keys; nil when only the sum is known.
	TravelOn map[string]Minutes `json:"-"`
	Author   bool               `json:"-"` // assumed: nobody was named, this is the note's author
}

// Standing is a remark that is carried: what is left, a question, a delivery, the weather.
type Standing struct {
	Text    string   `json:"text"`
	Since   Date     `json:"since"` // the day it was first written
	Minutes Minutes  `json:"minutes"`
	By      string   `json:"by"`
	From    []Source `json:"from"`
}

// MoneyStanding is where the day's money stands. Ready, held and not billed together are the value
// of everything priced.
type MoneyStanding struct {
	Ready     Ready       `json:"ready"`
	Held      []MoneyNote `json:"held"`
	NotBilled []MoneyNote `json:"not_billed"`
}

// Ready is what may be billed now. Subtotal is the sum of the lines, Total that and the taxes.
type Ready struct {
	Lines    []InvoiceLine `json:"lines"`
	Subtotal Money         `json:"subtotal"`
	Tax      []TaxAmount   `json:"tax"`
	Total    Money         `json:"total"`

	// TaxHow says how the tax was figured and rounded, "" where there is none.
	TaxHow string `json:"-"`
}

// InvoiceLine is one line to bill.
type InvoiceLine struct {
	Ref     string        `json:"ref"` // label of the scope line or id of the extra
	What    string        `json:"what"`
	Qty     Decimal       `json:"qty"`
	Unit    Unit          `json:"unit"`
	Rate    Decimal       `json:"rate"`
	Amount  Money         `json:"amount"`
	Taxed   bool          `json:"taxed"`
	Why     string        `json:"why"`
	Working []PricingStep `json:"working"`
	From    []Source      `json:"from"`

	// Kind is what a tax treatment knows the line as: "scope" for a booked price, "extra", and
	// "labor", "material", "equipment", "subcontract" or "time and material" for a booked line charged
	// by the hour. Material that is credited is "material" with a negative amount.
	Kind string `json:"-"`
}

// TaxAmount is one tax on the ready lines.
type TaxAmount struct {
	Name   string  `json:"name"`
	Rate   Decimal `json:"rate"` // percent
	Base   Money   `json:"base"`
	Amount Money   `json:"amount"`
}

// MoneyNote is money that is not on the invoice, with the reason.
type MoneyNote struct {
	What   string   `json:"what"`
	Amount Money    `json:"amount"`
	Why    string   `json:"why"`
	From   []Source `json:"from"`

	Ref   string `json:"-"`
	Frees string `json:"-"` // what would free it: "a yes from the customer", "a price"
}

// FindingRef is a finding as the JobDay carries it.
type FindingRef struct {
	Severity string `json:"severity"`
	Rule     string `json:"rule"`
	Message  string `json:"message"`
	Hint     string `json:"hint"`
	Source   Source `json:"source"`
}
