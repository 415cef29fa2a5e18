// Package finding holds places in the input and what the program has to say about them.
//
// There are three channels for what can go wrong. The author's slips are findings: they are
// collected, never stop the run at the first, and each has a place. Failures of disk and system
// are errors. Mistakes of this program are panics, which no input may cause.
package finding

import (
	"cmp"
	"slices"
)

// Severity says how much a finding matters. The zero value is invalid.
type Severity int

// The severities, gravest first. Only an Error makes a check fail.
const (
	Error   Severity = iota + 1 // something written could not be used as meant
	Warning                     // usable, but probably not what was meant
	Note                        // worth knowing; nothing to mend
)

// String returns the word shown to people: "error", "warning" or "note".
func (s Severity) String() string {
	switch s {
	case Error:
		return "error"
	case Warning:
		return "warning"
	case Note:
		return "note"
	}
	return "invalid"
}

// A Finding is one thing the program has to say about its input.
type Finding struct {
	Severity Severity
	Rule     string    // stable name such as "key/unknown"; a row of Rules
	Message  string    // what is wrong: one line, lower case, no full stop
	Hint     string    // what to write instead, or ""
	Span     Span      // where the fix belongs
	Related  []Related // other places involved, such as the earlier of two labels
	Holds    string    // what billing waits for this, or ""
}

// Related is another place a finding is about, with a few words on why.
type Related struct {
	Message string
	Span    Span
}

// A List is what was found, in any order until Sort.
type List []Finding

// Add appends findings.
func (l *List) Add(f ...Finding) { *l = append(*l, f...) }

// HasErrors reports whether any finding is an Error.
func (l List) HasErrors() bool {
	return slices.ContainsFunc(l, func(f Finding) bool { return f.Severity == Error })
}

// Count returns how many findings have the severity.
func (l List) Count(s Severity) int {
	n := 0
	for _, f := range l {
		if f.Severity == s {
			n++
		}
	}
	return n
}

// Sort orders the list by file, place, severity, rule and message, a total order, so that work
// done in parallel never shows in the output. Equal findings are merged, and a finding that is a
// mere consequence of another on the very same words is left out.
func (l List) Sort() List {
	slices.SortStableFunc(l, compare)
	l = slices.CompactFunc(l, func(a, b Finding) bool { return compare(a, b) == 0 })
	return slices.DeleteFunc(l, l.follows())
}

// follows returns a test for findings that only follow from another of the sorted list.
func (l List) follows() func(Finding) bool {
	given := map[Span][]string{} // rules by place, where one of them has followers
	for _, f := range l {
		if leads[f.Rule] && f.Span.Known() {
			given[f.Span] = append(given[f.Span], f.Rule)
		}
	}
	return func(f Finding) bool {
		rules := given[f.Span]
		if len(rules) == 0 {
			return false
		}
		r, _ := RuleNamed(f.Rule)
		return slices.ContainsFunc(r.After, func(lead string) bool { return slices.Contains(rules, lead) })
	}
}

func compare(a, b Finding) int {
	return cmp.Or(
		cmp.Compare(name(a.Span), name(b.Span)),
		cmp.Compare(a.Span.Start, b.Span.Start),
		cmp.Compare(a.Span.End, b.Span.End),
		cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Rule, b.Rule),
		cmp.Compare(a.Message, b.Message),
	)
}

func name(s Span) string {
	if s.File == nil {
		return ""
	}
	return s.File.Name
}
