package parse

import (
	"strings"

	"jobday/parse/field"
)

// A whereabouts is the place that a heading, a line of its own or a list item names for what stands
// below it.
type whereabouts struct {
	heading string // of a heading, until the next one of its level
	level   int
	spot    string // of a line or a list item below that
	depth   int    // of the list item, 0 for a line
	block   int    // the block whose lines the spot holds for
	open    bool   // the spot's own block held nothing but it
}

// name is what entries below are told to be in.
func (w *whereabouts) name() string {
	if w.heading != "" && w.spot != "" {
		return w.heading + " " + w.spot
	}
	return w.heading + w.spot
}

// head enters a heading: one that names a place opens it, any other closes what its level ends.
func (w *whereabouts) head(text string, level int) {
	w.spot = ""
	if name := placeName(text, false); name != "" {
		w.heading, w.level = name, level
	} else if level <= w.level {
		w.heading = ""
	}
}

// line ends a spot where line l no longer stands below it.
func (w *whereabouts) line(l line) {
	switch {
	case w.spot == "" || l.block == w.block:
	case w.depth > 0:
		if l.depth <= w.depth {
			w.spot = ""
		}
	case l.depth > 0:
		w.open = false // its list; what stands behind the list is elsewhere
	case w.open:
		w.block, w.open = l.block, false
	default:
		w.spot = ""
	}
}

// below opens the spot that line l names when more stands below it, and reports whether it does.
func (w *whereabouts) below(text string, l line, next *line) bool {
	const longest = 40
	if next == nil || len(text) > longest || next.kind != textLine {
		return false
	}
	colon := strings.HasSuffix(text, ":")
	if l.depth > 0 && !(next.item && next.depth > l.depth) || l.depth == 0 && !colon && next.block != l.block && !next.item {
		return false
	}
	name := placeName(text, true)
	if name == "" {
		return false
	}
	w.spot, w.depth, w.block, w.open = name, l.depth, l.block, next.block != l.block
	return true
}

// placeName returns the place that a text names when it says nothing else: "Kitchen", "Unit 4:",
// "2nd floor"; else "". Where it need not be bare, words the trade does not know may stand by: a
// heading such as "Main house, kitchen".
func placeName(text string, bare bool) string {
	const mostWords = 5
	name := strings.Trim(text, " \t*_:#.-=~")
	if name == "" || strings.Count(name, " ") >= mostWords || strings.ContainsAny(name, "?!\n") {
		return ""
	}
	places := 0
	terms := field.Terms(name)
	for _, t := range terms {
		switch {
		case t.Class == field.PlaceTerm:
			places++
		case bare || t.Class != field.OtherTerm:
			return ""
		}
	}
	if places == 0 || bare && (terms[0].Start > 0 || terms[len(terms)-1].End < len(name)) {
		return ""
	}
	return name
}
