package reconcile

import (
	"fmt"

	"jobday/finding"
)

// takenOff marks a number that says how many were not done, "all but two": it is never the count itself.
const takenOff = "what is taken off"

// takeOff marks the numbers that are taken off from what was done. "One" and "the pair" are numbers only there.
func (c *counting) takeOff() {
	for k := range c.words {
		w := &c.words[k]
		n := w.n
		switch w.text {
		case "one":
			n = 1
		case "pair", "couple":
			n = 2
		}
		named := w.n > 0 && w.text != "one" && (w.inside != "" || w.through > 0 || c.whichOne(k))
		if n == 0 || named || c.takes(k) == "" {
			continue
		}
		w.n, w.as, w.inside, c.off = n, "#", takenOff, true
	}
}

// offReach is how many words may stand between "but" and the number: "all but about the last 20".
const offReach = 4

// takes says by what the number at word k is taken off: "but" ("all but two"), "except" for every word that always
// takes off ("60 minus the 6 in bay 3"), "short" ("3 short"); "" where it is not.
func (c *counting) takes(k int) string {
	if next := c.as(k + 1); next == "short" || (next == "own thing" || next == "own things") && c.as(k+2) == "short" {
		return "short"
	}
	for j := k - 1; j >= max(0, k-offReach); j-- {
		switch w := &c.words[j]; w.text {
		case "except", "minus", "less", "bar", "excepting", "save":
			return "except"
		case "but":
			if c.wholeBefore(j) {
				return "but"
			}
			return ""
		case "than", ".", ";", ",", "@", "at":
			return ""
		default:
			if w.n > 0 || w.as == "verb" {
				return ""
			}
		}
	}
	return ""
}

// whichOne reports whether the number at word k says which one: "except table 7".
func (c *counting) whichOne(k int) bool {
	switch c.as(k - 1) {
	case "own thing", "thing", "own place", "place":
		return true
	}
	return false
}

// wholeBefore reports whether the words before word k speak of all of a thing: only then "but" takes off.
func (c *counting) wholeBefore(k int) bool {
	for _, w := range c.words[:k] {
		switch w.text {
		case "all", "every", "everything", "done", "up", "finished", "complete", "completed", "whole", "in":
			return true
		}
	}
	return false
}

// askHowMany says that the words do not tell how many of line i were done.
func (d *day) askHowMany(r *read, i int) {
	line := &d.in.Job.Lines[i]
	d.add(finding.Finding{
		Severity: finding.Warning, Rule: "progress/how-many",
		Message: fmt.Sprintf("does not say how many of line %s (%s booked) were done", line.Label, line.Qty),
		Hint:    fmt.Sprintf("write a count, such as: 2 of %s %s", line.Qty.Value, line.Work),
		Span:    r.entry.Span, Holds: "what was done of line " + line.Label,
	})
}
