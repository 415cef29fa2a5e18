package notes

import "jobday/finding"

// Section is a part of a day note by its main name in lower case; "" is outside every section.
type Section string

// The sections of a day note.
const (
	Done           Section = "done"
	Materials      Section = "materials"
	Extras         Section = "extras"
	Deficiencies   Section = "deficiencies"
	Tests          Section = "tests"
	Circuits       Section = "circuits"
	Time           Section = "time"
	Left           Section = "left"
	Questions      Section = "questions"
	Deliveries     Section = "deliveries"
	Equipment      Section = "equipment"
	Delays         Section = "delays"
	Instructions   Section = "instructions"
	Safety         Section = "safety"
	Conditions     Section = "conditions"
	Subcontractors Section = "subcontractors"
)

// Sections lists the sections in the order a note is written.
var Sections = []Section{
	Done, Materials, Extras, Deficiencies, Tests, Circuits, Time, Left, Questions, Deliveries,
	Equipment, Delays, Instructions, Safety, Conditions, Subcontractors,
}

// Outcome is what an entry turned out to be. The zero value is invalid in a JobDay.
type Outcome string

// The outcomes.
const (
	InScope       Outcome = "in-scope"
	Extra         Outcome = "extra"
	Deficiency    Outcome = "deficiency"
	Material      Outcome = "material"
	TimeEntry     Outcome = "time"
	Test          Outcome = "test"
	Circuit       Outcome = "circuit"
	LeftOpen      Outcome = "left"
	Question      Outcome = "question"
	Delivery      Outcome = "delivery"
	EquipmentUse  Outcome = "equipment"
	Delay         Outcome = "delay"
	Instruction   Outcome = "instruction"
	SafetyCheck   Outcome = "safety"
	Condition     Outcome = "condition"
	Subcontractor Outcome = "subcontractor"
	Narrative     Outcome = "narrative"
	Unclear       Outcome = "unclear"
)

// Kind is what an entry's words say it is, before it is held against the scope.
// It is one of the outcomes, or Work, which reconcile turns into in-scope, extra or unclear.
type Kind = Outcome

// Work is the kind of an entry that reports work; it never leaves reconcile.
const Work Kind = "work"

// TickBox is a task-list box at the start of an item.
type TickBox int

// The boxes.
const (
	NoBox TickBox = iota
	OpenBox
	CheckedBox
)

// DayNote is one file of one author on one day.
// Entries, Narrative and the skipped structure (headings, front matter) together cover every
// non-blank line of the file.
type DayNote struct {
	File      *finding.File
	SHA256    string // of the file as it is on disk, in hex
	Job       string // "" when the note does not say; the folder does
	Date      Date
	Author    string   // from the file name or the front matter; "" when unknown
	Crew      []string // from the front matter
	Entries   []Entry  // in the order written
	Narrative []Remark // prose kept whole, in the order written
	Structure []finding.Span
	// Structure is what carries no content of its own: front matter, headings that open a section,
	// the fences of code. It counts as accounted for.
}

// sectionKinds are the kinds of what stands in each section.
var sectionKinds = map[Section]Kind{
	Done: Work, Materials: Material, Extras: Extra,
	Deficiencies: Deficiency, Tests: Test, Circuits: Circuit,
	Time: TimeEntry, Left: LeftOpen, Questions: Question,
	Deliveries: Delivery, Equipment: EquipmentUse, Delays: Delay,
	Instructions: Instruction, Safety: SafetyCheck,
	Conditions: Condition, Subcontractors: Subcontractor,
}

// Kind is the kind of what stands in a section; "" outside every section.
func (s Section) Kind() Kind { return sectionKinds[s] }

// IsWeighty reports whether money or danger hangs on an entry of the outcome or kind.
func IsWeighty(outcome string) bool {
	switch Outcome(outcome) {
	case InScope, Work, Extra, Deficiency, Material, TimeEntry, Test, EquipmentUse:
		return true
	}
	return false
}

// Entry is one thing a note says.
type Entry struct {
	Section Section
	Label   string // scope label written before a colon, "A" of "A: ..."; else ""
	// LabelSpan is where the label stands, up to Text; unknown without a label. Label and Text are
	// one text again when the scope has no such line.
	LabelSpan finding.Span
	Text      string // as written, without bullet, box and label; white space folded
	Span      finding.Span
	// Span is where Text stands in the file. Pieces of Facts count from its start.
	Kind    Kind
	Why     string  // how the kind was decided: "under Done", "says a customer asked and agreed"
	Sure    float64 // 0 to 1: how sure the kind is; below SureEnough it is unclear
	MayBe   []Kind  // when unsure: what else it may be, likeliest first
	Nothing bool    // "none today": the section is empty on purpose
	Again   bool    // "same": what the entry above says holds for this place too
	Box     TickBox
	Place   string // of the heading above, such as "Kitchen"; "" when no heading names one
	Facts   Facts
	Details []Detail
	Photos  []Photo

	Judged Kind     // what the judges of the words said, before all clues were weighed; "" where they decided
	Clues  []uint64 // what holds of the words, as hashes of names; what they speak for is weighed with the booking
	// ClueNames are the names of Clues, where the reader was asked for them.
	ClueNames []string
}

// SureEnough is the confidence from which a kind is taken without asking.
const SureEnough = 0.7

// Detail is a nested item or a clause after ";" of an entry.
type Detail struct {
	Text  string
	Span  finding.Span
	Facts Facts
}

// Photo is a picture an entry points to.
type Photo struct {
	Path string // as written, relative to the note
	Alt  string
	Span finding.Span
}

// Remark is a stretch of text carried as it stands.
type Remark struct {
	Text string
	Span finding.Span
}
