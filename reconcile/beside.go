package reconcile

import (
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// unknownWork asks what an entry is that names nothing the words of the trade know: an extra, a
// booked line in other words, or nothing to bill.
func (d *day) unknownWork(r *read) {
	d.candidates(r)
	r.set(notes.Unclear, 0.5, "names nothing that is known: an extra, a booked line in other words, or nothing to bill")
	d.add(finding.Finding{
		Severity: finding.Warning, Rule: "entry/unclear",
		Message: "cannot tell what " + quote(r.entry.Text) + " is",
		Hint:    "start it with a scope label and a colon, put it under ## Extras, or add the shop's word to words.yaml",
		Span:    r.entry.Span, Holds: "whatever money it stands for",
	})
}

// low returns the text of an entry in lower case. It is made once.
func (r *read) low() string {
	switch {
	case r.entry.Text == r.query.text:
		return r.query.low()
	case r.lower == "":
		r.lower = strings.ToLower(r.entry.Text)
	}
	return r.lower
}

// low returns the text of a query in lower case. It is made once.
func (q *query) low() string {
	if q.lower == "" {
		q.lower = strings.ToLower(q.text)
	}
	return q.lower
}

// byOtherTrade reports whether somebody who is not of the crew is the one who did it: "Utility
// pulled the meter". The list is common practice, no source.
func byOtherTrade(low string) bool {
	low = strings.TrimPrefix(low, "the ")
	if low == "" {
		return false
	}
	for _, who := range otherTrades[low[0]] {
		if strings.HasPrefix(low, who) {
			return true
		}
	}
	return false
}

var otherTrades = byFirstLetter(
	"landscap", "millwright", "glazier", "glass ", "concrete guy", "civil", "rockers", "tapers", "insulat", "alarm company", "sign company",
	"movers", "excavat", "surveyor", "welder", "rigger", "plaster",
	"utility", "power company", "poco", "inspector", "plumber", "drywall", "painter", "hvac", "mechanical",
	"gc ", "general contractor", "carpenter", "roofer", "framer", "mason", "tile ", "flooring", "elevator",
	"sprinkler", "fire marshal", "landlord", "maintenance", "low voltage crew", "crane",
)

// byOtherName reports whether the words say that somebody of another trade is whose it is: "flashed by
// the roofer".
func byOtherName(low string) bool {
	_, by, found := strings.Cut(low, " by the ")
	if !found {
		return false
	}
	for _, who := range []string{"roofer", "plumber", "painter", "drywall", "landscap", "mason", "carpenter", "framer", "millwright", "rigger", "sign company", "civil", "utility"} {
		if strings.HasPrefix(by, who) {
			return true
		}
	}
	return false
}

// incidental reports whether the words are about what goes with any job: cleaning up, loading,
// setting up. The word list is common practice, no source.
func incidental(q *query) bool {
	low := q.low()
	for i := range len(low) {
		for _, w := range goesWithAnyJob[low[i]] {
			if strings.HasPrefix(low[i:], w) {
				return true
			}
		}
	}
	return false
}

var goesWithAnyJob = byFirstLetter(
	"clean up", "cleaned up", "cleanup", "swept", "sweep", "loaded", "unloaded", "load up", "set up for",
	"setup", "laid out tools", "walked the", "walk-through", "walkthrough", "met with", "meeting", "packed up",
	"rolled up", "material run", "supply house", "picked up parts", "picked up material", "mobiliz", "moved tools",
	"moved material", "staged", "stocked", "unpacked", "protected floor", "drop cloth", "hauled", "trash", "garbage",
	"mopped", "recycled", "mowed", "furniture", "picked up the", "dumpster", "vacuumed", "cleaned the", "we clean",
)

// byFirstLetter sorts words by their first letter.
func byFirstLetter(words ...string) (by [256][]string) {
	for _, w := range words {
		by[w[0]] = append(by[w[0]], w)
	}
	return by
}

// fixes reports whether the words tell of replacing, repairing or moving something: then the fault
// is why, and the work is what was done.
func fixes(q *query) bool {
	for _, v := range q.verbs() {
		if v == "replace" || v == "repair" || v == "relocate" || v == "trace" || v == "troubleshoot" {
			return true
		}
	}
	return false
}
