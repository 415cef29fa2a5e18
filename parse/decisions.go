package parse

import (
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// decisionColumns are the columns of decisions.md in order.
var decisionColumns = []string{"Entry", "Words", "Decision", "By", "When", "Why"}

// Decisions reads decisions.md: a table of what the office settled, one row a decision, in the
// columns Entry, Words, Decision, By, When and Why. The decision is "line B", "extra", "narrative",
// "no charge", "price 180.00", "authorized by NAME" or "declined by NAME". Text outside the table
// is left alone. A row that cannot be read gives a finding and decides nothing.
func Decisions(f *finding.File) ([]notes.Decision, finding.List) {
	var decided []notes.Decision
	var found finding.List
	header := false
	for n := 1; n <= f.Lines(); n++ {
		s := f.LineSpan(n)
		start, end := trimBlanks(f.Text, s.Start, s.End)
		if start == end || f.Text[start] != '|' {
			header = false
			continue
		}
		row := cellsOf(f, start, end)
		switch {
		case !header:
			header = true
		case isDelimiter(row):
		default:
			if d, ok := decisionRow(row, f.Span(start, end), &found); ok {
				decided = append(decided, d)
			}
		}
	}
	return decided, found
}

func isDelimiter(row []cell) bool {
	for _, c := range row {
		if strings.Trim(c.text, ":-") != "" {
			return false
		}
	}
	return true
}

func decisionRow(row []cell, where finding.Span, found *finding.List) (notes.Decision, bool) {
	wrong := func(at finding.Span, message, hint string) (notes.Decision, bool) {
		found.Add(finding.Finding{
			Severity: finding.Error, Rule: "decision/row", Span: at, Message: message, Hint: hint,
			Holds: "this decision is not applied",
		})
		return notes.Decision{}, false
	}
	if len(row) != len(decisionColumns) {
		return wrong(where, "a decision has six cells", "| "+strings.Join(decisionColumns, " | ")+" |")
	}
	d := notes.Decision{Entry: row[0].text, Words: row[1].text, By: row[3].text, Why: row[5].text, Span: where}
	var err error
	if d.When, err = notes.ParseDate(row[4].text); err != nil {
		return wrong(row[4].span, quote(row[4].text)+" is no date", "write the day as 2026-03-13")
	}
	said, ok := Decision(row[2].text)
	if !ok {
		return wrong(row[2].span, "cannot tell what "+quote(row[2].text)+" decides",
			"write line B, extra, narrative, no charge, price 180.00, authorized by NAME, or declined by NAME")
	}
	d.Kind, d.Line, d.Price, d.Who = said.Kind, said.Line, said.Price, said.Who
	return d, true
}

// Decision reads what was decided: "line B", "extra", "narrative", "no charge", "price 180.00",
// "authorized by NAME" or "declined by NAME", in any case. Only what was decided is filled in.
func Decision(text string) (d notes.Decision, ok bool) {
	text = fold(text)
	low := strings.ToLower(text)
	after := func(prefix string) string { return strings.TrimSpace(text[len(prefix):]) }
	switch {
	case low == string(notes.DecideExtra), low == string(notes.DecideNarrative), low == string(notes.DecideNoCharge):
		d.Kind = notes.DecisionKind(low)
	case strings.HasPrefix(low, "line "):
		d.Kind, d.Line = notes.DecideLine, after("line ")
	case strings.HasPrefix(low, "price "):
		amount, err := parseAmount(after("price "))
		if err != nil || amount.Sign() < 0 {
			return d, false
		}
		d.Kind, d.Price = notes.DecidePrice, amount
	case strings.HasPrefix(low, "authorized by "):
		d.Kind, d.Who = notes.DecideAuthorized, after("authorized by ")
	case strings.HasPrefix(low, "declined by "):
		d.Kind, d.Who = notes.DecideDeclined, after("declined by ")
	default:
		return d, false
	}
	return d, true
}
