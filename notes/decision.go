package notes

import "jobday/finding"

// DecisionKind says what the office settled.
type DecisionKind string

// The kinds of decision.
const (
	DecideLine       DecisionKind = "line"       // the entry is work on a booked line
	DecideExtra      DecisionKind = "extra"      // the entry is work beyond scope
	DecideNarrative  DecisionKind = "narrative"  // the entry is neither billed nor counted
	DecideNoCharge   DecisionKind = "no charge"  // the extra is given away
	DecidePrice      DecisionKind = "price"      // the extra has this price
	DecideAuthorized DecisionKind = "authorized" // somebody with a say said yes to the extra
	DecideDeclined   DecisionKind = "declined"   // somebody with a say said no
)

// Decision is one row of decisions.md: what the office settled about an entry. The note itself
// stays as written; a decision whose entry has changed its words since is stale and not applied.
type Decision struct {
	Entry string // id of the entry, "2026-03-12/mixer-disconnect"
	Words string // the entry's text when it was decided
	Kind  DecisionKind
	Line  string // label, for DecideLine
	Price Money  // for DecidePrice
	Who   string // the customer's person, for DecideAuthorized and DecideDeclined
	By    string // who in the office decided
	When  Date
	Why   string
	Span  finding.Span
}

// OfExtra reports whether the decision is about the price or the authorization of an extra, not
// about what an entry is.
func (k DecisionKind) OfExtra() bool {
	return k == DecideNoCharge || k == DecidePrice || k == DecideAuthorized || k == DecideDeclined
}

// String returns what was decided as it is written in decisions.md: "line B", "price 180.00".
func (d Decision) String() string {
	switch d.Kind {
	case DecideLine:
		return "line " + d.Line
	case DecidePrice:
		return "price " + d.Price.String()
	case DecideAuthorized, DecideDeclined:
		return string(d.Kind) + " by " + d.Who
	}
	return string(d.Kind)
}
