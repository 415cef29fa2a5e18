package field

import (
	"strings"

	"jobday/notes"
)

// CircuitDetail reads what a detail of a circuit adds to it: breaker, conductor, who shares the
// neutral, how the handles are tied, what it takes the place of. It reads no spaces of its own,
// no panel and nothing the circuit serves.
func CircuitDetail(text string, lex *Lexicon) notes.CircuitWords {
	r := reader{text: text, toks: tokens(text), lex: lex, bold: true}
	c := director{r: &r}
	for i := 0; i < len(r.toks); {
		if next := c.part(i); next > i {
			i, c.end = next, next
			continue
		}
		i++
	}
	c.instead()
	c.w.Start, c.w.End = r.piece(0, c.end)
	return c.w
}

// moved reads a line that says where a circuit was and where it is now: "was 7 now 9: cooler",
// "cooler moved from 7 to 9", "7 now 9, cooler", "7 -> 9". It reports false for any other line.
func (c *director) moved() bool {
	r := c.r
	for start := range r.toks {
		if movingWord(r.low(start)) && c.movedThing(start) {
			return true
		}
		bare := r.isNumber(start) && (start == 0 || !r.isNumber(start-1))
		if !bare && !movingWord(r.low(start)) {
			continue
		}
		i := start
		for movingWord(r.low(i)) || r.low(i) == "from" || circuitWord(r.low(i)) || r.low(i) == "#" {
			i++
		}
		was, at := c.spaceList(i)
		if len(was) == 0 {
			continue
		}
		to, ok := c.nowWord(at, bare)
		if !ok {
			continue
		}
		is, next := c.spaceList(to)
		if len(is) == 0 || bare && !c.endsList(next) {
			continue
		}
		c.w.Was, c.w.Spaces, c.w.Instead = was, is, true
		c.around(start, next)
		return true
	}
	return false
}

// movedThing reads "moved the saw from 7 to 9" at token i, with the panel before it: "LP1 moved the ...".
func (c *director) movedThing(i int) bool {
	r := c.r
	from := i + 1
	for n := 0; n < 7 && r.isWord(from) && r.low(from) != "from"; n++ {
		from++
	}
	if from == i+1 || r.low(from) != "from" {
		return false
	}
	was, at := c.spaceList(from + 1)
	if len(was) == 0 || r.low(at) != "to" {
		return false
	}
	is, next := c.spaceList(at + 1)
	if len(is) == 0 || !c.endsList(next) {
		return false
	}
	thing := i + 1
	if r.low(thing) == "the" {
		thing++
	}
	c.w.Was, c.w.Spaces, c.w.Instead, c.w.Serves, c.end = was, is, true, r.words(thing, from), next
	panel, letters := 0, false
	for panel < i && r.toks[panel].kind != symbol && (panel == 0 || r.close(panel)) {
		letters = letters || r.toks[panel].kind == word
		panel++
	}
	if letters && panel <= 3 && panel > 0 {
		c.w.Panel = r.words(0, panel)
	}
	return true
}

func movingWord(low string) bool { return low == "was" || low == "moved" || low == "relocated" }

// nowWord passes the words between the old spaces and the new: "now", "is now", "moved to", "->".
// A mere "to" counts only behind a word that says something moved.
func (c *director) nowWord(i int, bare bool) (next int, ok bool) {
	r := c.r
	for ; i < len(r.toks); i++ {
		switch low := r.low(i); {
		case low == "now", low == "→", low == ">" && r.low(i-1) == "-":
			ok = true
		case low == "to":
			ok = ok || !bare || r.low(i-1) == "moved"
		case low == "is", low == "moved", low == "relocated", low == ",", low == "-":
		case ok && (circuitWord(low) || low == "#"):
		default:
			return i, ok
		}
	}
	return i, ok
}

// endsList reports whether spaces that end before token i are not the count of something: "7 -> 2
// offices".
func (c *director) endsList(i int) bool {
	r := c.r
	return i >= len(r.toks) || !r.isWord(i) && !r.isNumber(i)
}

// spaceList reads spaces at token i without entering them.
func (c *director) spaceList(i int) (list []int, next int) {
	kept := c.w.Spaces
	c.w.Spaces = nil
	next, ok := c.spaces(i)
	list, c.w.Spaces = c.w.Spaces, kept
	if !ok {
		return nil, i
	}
	return list, next
}

// around reads panel and load from what stands before and behind the words about the move.
func (c *director) around(start, next int) {
	r := c.r
	from := c.panelBefore(start)
	c.end = next
	for next < len(r.toks) && !r.isWord(next) && !r.isNumber(next) && r.low(next) != "#" {
		next++
	}
	c.serves(next)
	to := start
	for to > from && (circuitWord(r.low(to-1)) || r.low(to-1) == "#" || r.low(to-1) == "," || r.low(to-1) == ":" || r.low(to-1) == "-") {
		to--
	}
	if c.w.Serves == "" && to > from {
		c.w.Serves = strings.TrimRight(r.words(from, to), " ,.-:")
	}
	c.end = max(c.end, next)
}

// panelBefore reads a panel before token start: all that stands there, when it is named as one.
func (c *director) panelBefore(start int) int {
	r := c.r
	for i := 0; i < start; i++ {
		if r.low(i) == "panel" {
			return min(c.panel(), start)
		}
	}
	if start == 0 {
		return 0
	}
	digits := false
	for i := 0; i < start; i++ {
		digits = digits || r.isNumber(i)
		if i > 0 && r.toks[i].spaced || r.toks[i].kind == symbol {
			return 0
		}
	}
	if digits && start <= 3 { // "LP1", "2A"
		c.w.Panel = r.words(0, start)
		return start
	}
	return 0
}

// fitted passes the words behind a handle tie that say it is there: "handle tie put on", "tied now".
func (c *director) fitted(i int) int {
	for {
		switch c.r.low(i) {
		case "put", "on", "installed", "added", "fitted", "now", "in", "place", "is":
			i++
		default:
			return i
		}
	}
}

// tie reads at token i how the handles are tied, and returns the token after it or 0.
func (c *director) tie(i int) int {
	r := c.r
	set := func(a notes.Answer, next int) int {
		if c.w.Tied == notes.Unsaid {
			c.w.Tied = a
		}
		return next
	}
	second := r.low(i + 1)
	switch r.low(i) {
	case "no", "not", "without", "missing":
		switch {
		case second == "tied", second == "tie", second == "ties":
			return set(notes.No, i+2)
		case handleWord(second) && (r.low(i+2) == "tie" || r.low(i+2) == "ties" || r.low(i+2) == "tied"):
			return set(notes.No, i+3)
		}
	case "separate", "individual":
		if handleWord(second) || second == "breakers" || second == "breaker" {
			return set(notes.No, i+2)
		}
	case "two", "2", "three", "3":
		if second == "singles" {
			return set(notes.No, i+2)
		}
		if second == "single" && (r.low(i+2) == "pole" || r.low(i+2) == "poles") {
			return set(notes.No, i+3)
		}
	case "handle", "handles":
		if second == "tie" || second == "ties" || second == "tied" {
			return set(notes.Yes, c.fitted(i+2))
		}
	case "added", "installed", "put", "new", "fitted", "got", "has", "with":
		j := i + 1
		for low := r.low(j); low == "a" || low == "the" || low == "on" || low == "new"; low = r.low(j) {
			j++
		}
		if handleWord(r.low(j)) && (r.low(j+1) == "tie" || r.low(j+1) == "ties") {
			return set(notes.Yes, c.fitted(j+2))
		}
	case "tie", "tied":
		if second == "bar" || second == "handle" || second == "handles" || second == "together" || second == "breakers" {
			return set(notes.Yes, i+2)
		}
		if r.low(i) == "tied" {
			return set(notes.Yes, c.fitted(i+1))
		}
	case "common":
		if second == "trip" {
			return set(notes.Yes, i+2)
		}
	}
	return 0
}

func handleWord(low string) bool { return low == "handle" || low == "handles" }

// with reads the spaces named behind a shared neutral: "shares a neutral with 9".
func (c *director) with(i int) int {
	r := c.r
	if r.low(i) != "with" && r.low(i) != "w" {
		return i
	}
	j := i + 1
	if r.low(j) == "/" {
		j++
	}
	for circuitWord(r.low(j)) || r.low(j) == "#" {
		j++
	}
	list, next := c.spaceList(j)
	if len(list) == 0 {
		return i
	}
	c.w.With = append(c.w.With, list...)
	return next
}

// was reads "was 7" or "(was 7)" behind spaces, and returns the token after it or i.
func (c *director) was(i int) int {
	r := c.r
	j := i
	for r.low(j) == "(" || r.low(j) == "," {
		j++
	}
	if r.low(j) != "was" && r.low(j) != "formerly" {
		return i
	}
	j++
	for circuitWord(r.low(j)) || r.low(j) == "#" || r.low(j) == "in" {
		j++
	}
	list, next := c.spaceList(j)
	if len(list) == 0 || !c.endsList(next) {
		return i
	}
	c.w.Was, c.w.Instead = append(c.w.Was, list...), true
	for r.low(next) == ")" || r.low(next) == ":" || r.low(next) == "," {
		next++
	}
	return next
}

// instead looks for words that say a circuit takes the place of what was there.
func (c *director) instead() {
	r := c.r
	for i := range r.toks {
		switch r.low(i) {
		case "now", "replaces", "replaced", "replacing", "instead", "relabeled", "relabelled", "relabel", "corrected", "correction",
			"actually", "really", "moved", "relocated", "formerly", "was", "removed":
			c.w.Instead = true
		}
	}
}
