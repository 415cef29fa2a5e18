package finding

import (
	"cmp"
	"slices"
	"strings"
)

// Rules is every rule the program can raise, by name. It is read-only.
// Tests require that each is raised by its example, is not raised by the example put right, and
// that no rule is raised that is not here.
var Rules = slices.SortedFunc(slices.Values(slices.Concat(bookRules, priceListRules, scopeRules, noteRules, moneyRules, tradeRules, panelRules, recordRules, hoursRules, restockRules, eInvoiceRules)),
	func(a, b Rule) int { return cmp.Compare(a.ID, b.ID) })

// A Rule is one kind of finding: what it means, and an example of it.
type Rule struct {
	ID       string   // "area/what", stable once released
	Severity Severity // as it is raised
	Title    string   // what is wrong, in a few words
	Why      string   // why it matters: what it costs whom
	// Wrong are files that raise the rule, Right the same put right. Each file begins with a line
	// "-- name --" (the txtar layout); they replace or add to the files of the example book.
	Wrong, Right string
	// OnDisk marks a rule about the folder itself, which no text can raise: Wrong and Right say in
	// words how it comes about and what mends it.
	OnDisk bool
	// After names rules of which this one is a mere consequence: on the very same words it is left
	// out beside them.
	After []string
	Since string // the version that raised it first
}

// leads holds the rules that others only follow from.
var leads = func() map[string]bool {
	m := map[string]bool{}
	for _, r := range Rules {
		for _, lead := range r.After {
			m[lead] = true
		}
	}
	return m
}()

// RuleNamed returns the rule with the id, and false when there is none.
func RuleNamed(id string) (Rule, bool) {
	if i := ruleIndex(id); i >= 0 {
		return Rules[i], true
	}
	return Rule{}, false
}

// ruleIndex returns the place of a rule in the table, -1 for none.
func ruleIndex(id string) int {
	for i := range Rules {
		if Rules[i].ID == id {
			return i
		}
	}
	return -1
}

// Manual returns the manual of all rules as Markdown, in the order of the table.
func Manual() string {
	var b strings.Builder
	b.WriteString(manualHead + "\nThe examples replace or add to the files of this book:\n\n```\n" + ExampleBook + "```\n")
	for _, r := range Rules {
		b.WriteString("\n## `" + r.ID + "`\n\n" + r.Markdown())
	}
	return b.String()
}

const manualHead = `# What jobday says about a job book

Every finding has a rule name, shown in brackets after the message. An **error** is something written
that could not be used as meant: ` + "`jobday check`" + ` then ends with exit status 1. A **warning** is usable,
but probably not what was meant. A **note** is worth knowing. No finding stops the rest from being
compiled, and none changes a file.

This page is printed from the program's own table of rules: ` + "`jobday export rules`" + `.
`

// Markdown returns the rule's part of the manual, without its heading.
func (r Rule) Markdown() string {
	var b strings.Builder
	b.WriteString("**" + r.Severity.String() + "** · " + r.Title + " · since " + r.Since + "\n\n" + r.Why + "\n")
	if r.OnDisk {
		b.WriteString("\nComes about when " + r.Wrong + ".\nTo put it right: " + r.Right + ".\n")
		return b.String()
	}
	b.WriteString("\nRaised by:\n\n```\n" + shown(r.Wrong) + "```\n\nPut right:\n\n```\n" + shown(r.Right) + "```\n")
	return b.String()
}

// help returns the rule's explanation as plain text.
func (r Rule) help() string {
	if r.OnDisk {
		return r.Why + "\nComes about when " + r.Wrong + ".\nTo put it right: " + r.Right + "."
	}
	return r.Why + "\n\nRaised by:\n" + shown(r.Wrong) + "\nPut right:\n" + shown(r.Right)
}

// shown returns an example as it is printed: broken bytes as U+FFFD, and lines that are wrong for
// being endless cut short.
func shown(example string) string {
	const most = 100
	var b strings.Builder
	for line := range strings.Lines(strings.ToValidUTF8(example, "\ufffd")) {
		if len(line) > most {
			line = line[:most] + ellipsis + "\n"
		}
		b.WriteString(line)
	}
	return b.String()
}
