package report

import (
	"strings"

	"jobday/notes"
)

// outcomeWord is an outcome as the margin of a note shows it.
func outcomeWord(o notes.Outcome) string {
	switch o {
	case notes.InScope:
		return "in scope"
	case notes.LeftOpen:
		return "left open"
	}
	return string(o)
}

// onLines names scope lines: "line A", "lines A, B", or "".
func onLines(labels []string) string {
	switch len(labels) {
	case 0:
		return ""
	case 1:
		return "line " + labels[0]
	}
	return "lines " + strings.Join(labels, ", ")
}

// severityWords says what a severity means for the reader.
func severityWords(s notes.Severity) string {
	switch s {
	case notes.Danger:
		return "can injure as it stands"
	case notes.Hazard:
		return "can come to injure or burn"
	case notes.Maintenance:
		return "needs care before it becomes worse"
	}
	return "not judged"
}

// faultWords says how a deficiency stands.
func faultWords(s notes.FaultState) string {
	switch s {
	case notes.FaultMadeSafe:
		return "made safe for now, not corrected"
	case notes.FaultCorrected:
		return "corrected"
	case notes.FaultLeft:
		return "left as found"
	case notes.FaultDeclined:
		return "correction declined"
	}
	return "found, nothing said about it yet"
}

// verdictWords says what a reading amounts to. A reading within limits is never called safe.
func verdictWords(v notes.Verdict) string {
	switch v {
	case notes.Within:
		return "within limits"
	case notes.Outside:
		return "outside limits"
	}
	return "recorded, no limit known"
}

// Consent says whose word an extra rests on: "authorized by Ruth Amsel, on site, 10:40".
func Consent(a notes.Authorization) string {
	by := ""
	if a.By != "" {
		by = " by " + a.By
	}
	state := a.State + by
	switch a.State {
	case "", "none":
		return "nobody authorized it"
	case "asked":
		state = "asked for" + by + ", not authorized"
	}
	return strings.Join(filled(state, a.How, a.At), ", ")
}

// NextStep says what an extra still wants from the office.
func NextStep(x notes.ExtraWork) string {
	switch x.State {
	case notes.NeedsPrice:
		if x.Authorization.State == "authorized" {
			return "set the price that is missing, then bill it"
		}
		return "set a price, then send it"
	case notes.NeedsAuthorization:
		return "send it and get a yes before billing"
	case notes.ExtraAuthorized:
		if x.Number == "" && !inWriting(x.Authorization.How) {
			return "billed on a spoken word; have it confirmed in writing"
		}
		return "authorized; it may be billed"
	case notes.ExtraDeclined:
		return "declined; not billed"
	case notes.ExtraNoCharge:
		return "no charge; not billed"
	case notes.ExtraBilled:
		return "billed"
	}
	return ""
}

// LineState says how a scope line stands, with what blocks it.
func LineState(l notes.LineStanding) string {
	if l.State == notes.Blocked && strings.HasPrefix(l.BlockedBy, "blocked") {
		return l.BlockedBy // the note's own words say it
	}
	if l.State == notes.Blocked && l.BlockedBy != "" {
		return "blocked: " + l.BlockedBy
	}
	return string(l.State)
}

// LineHours says booked and worked time of a line, or "" when there is neither.
func LineHours(h notes.LineHours) string {
	if h.Booked == 0 && h.Today == 0 && h.ToDate == 0 {
		return ""
	}
	said := "none yet"
	if h.ToDate != 0 {
		said = h.Today.String() + " today, " + h.ToDate.String() + " to date"
	}
	if h.Booked == 0 {
		return said + ", none booked"
	}
	return said + ", " + h.Booked.String() + " booked"
}

// Rule names a code reference: "NEC 2020, 408.7".
func Rule(r notes.CodeRule) string {
	return strings.Join(filled(strings.Join(filled(r.Code, r.Edition), " "), r.Section), ", ")
}

// TestReading prints one value: "L1-N 121.4 V", "5.1 mA", "reset".
func TestReading(t notes.TestValue) string {
	return strings.Join(filled(t.Between, t.Value, t.Unit), " ")
}

// Settle says how an unclear entry is settled by the person who wrote it.
func Settle(e notes.EntryResult) string {
	if len(e.Candidates) == 0 {
		return "write more of what it is, or put it under a heading such as Done, Extras or Materials"
	}
	var labels []string
	for _, c := range e.Candidates {
		labels = append(labels, c.Line+":")
	}
	return "begin the item with the label of its line (" + strings.Join(labels, " or ") +
		"); if it was not booked, move it under Extras"
}
