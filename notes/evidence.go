package notes

// EvidenceRow is what spoke for and against an entry meaning one booked line. It is kept so that
// a match can be explained, and is no part of a report.
type EvidenceRow struct {
	Line       string   // label
	Shared     []string // the line's words the entry has, in normal form
	Weighed    []Weight // what was weighed, in a fixed order; adds up to the log odds
	Veto       string   // why it cannot be this line whatever the words, or ""
	Confidence float64  // 0 to 1, two decimals; 0 under a veto
	Despite    float64  // what Confidence would be without the veto
}

// Weight is one kind of evidence and what it counted, in log odds: above 0 for the line, below 0
// against it.
type Weight struct {
	What string // "the same kind of work"
	By   float64
}
