package parse

import (
	"fmt"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// crewSlips finds names in the front matter's crew that nobody of the company has and that are close to somebody's:
// what "both" worked would go to a stranger. at is where the crew is written.
func crewSlips(n *notes.DayNote, people []string, at finding.Span, found *finding.List) {
	full := map[string]string{} // by what somebody may be called, in lower case
	var called []string
	for _, person := range people {
		first, _, _ := strings.Cut(person, " ")
		for _, name := range []string{strings.ToLower(first), strings.ToLower(person)} {
			full[name] = person
			called = append(called, name)
		}
	}
	text := string(n.File.Text)
	for _, name := range n.Crew {
		low := strings.ToLower(name)
		meant := full[nearest(low, called)]
		start := strings.Index(text[min(at.Start, len(text)):], name)
		if full[low] != "" || meant == "" || start < 0 {
			continue
		}
		start += at.Start
		right := meant
		if !strings.Contains(name, " ") {
			right, _, _ = strings.Cut(meant, " ")
		}
		found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "crew/slip", Span: n.File.Span(start, start+len(name)),
			Message: fmt.Sprintf("%q is nobody in company.yaml, and close to %s", name, meant),
			Hint:    fmt.Sprintf("write %q, or add %q to people in company.yaml", right, name),
		})
	}
}
