package field

import (
	"strconv"
	"strings"

	"jobday/notes"
)

// maxSpace bounds the number of a space in a panel; larger ones are not read as spaces.
const maxSpace = 200

// Circuit reads a line of the circuits section, such as "2,4: proofing cabinet, 30A 2P, 10 AWG":
// the panel, the spaces, what they serve, breaker, conductor and whether they share a neutral.
// Breaker is in the form "30A 2P", conductor in the form "10 AWG", with " AL" when it is aluminum;
// both are "" when not said. A text
// without spaces gives the zero value. Pieces are byte offsets in text.
func Circuit(text string, lex *Lexicon) notes.CircuitWords {
	w := begin(text)
	defer w.end()
	w.lex, w.bold = lex, true
	r := &w.reader
	c := director{r: r}
	if !c.moved() {
		next, ok := c.address()
		if !ok {
			return notes.CircuitWords{}
		}
		c.serves(next)
	}
	c.instead()
	c.w.Start, c.w.End = r.piece(0, c.end)
	return c.w
}

// A director reads one line of a panel's directory.
type director struct {
	r   *reader
	w   notes.CircuitWords
	end int // token after the last word read
}

// address reads panel and spaces at the start of the line and returns the token after them.
func (c *director) address() (next int, ok bool) {
	i := c.panel()
	for circuitWord(c.r.low(i)) || c.r.low(i) == "#" || c.r.low(i) == "," || c.r.low(i) == "-" || c.r.low(i) == ":" || c.r.low(i) == "." {
		i++
	}
	i, ok = c.spaces(i)
	if !ok {
		return 0, false
	}
	i = c.was(i)
	switch c.r.low(i) {
	case ":", "=", "→", "–", "—", ",", ".", ")", "is", "are":
		i++
	case "-":
		i++
		if c.r.low(i) == ">" {
			i++
		}
	}
	return i, true
}

func circuitWord(low string) bool {
	switch low {
	case "ckt", "ckts", "circuit", "circuits", "cir", "cct", "space", "spaces", "slot", "slots", "position", "positions", "pos", "breaker", "breakers", "no":
		return true
	}
	return false
}

// panel reads what stands before the spaces: "panel A", "LP1", "2A", "barn panel", "MDP".
func (c *director) panel() int {
	r := c.r
	for i := 0; i < min(len(r.toks), 4); i++ {
		if low := r.low(i); low != "panel" && low != "pnl" && low != "panelboard" {
			continue
		}
		if i > 0 && r.isWord(i-1) {
			c.w.Panel = r.words(0, i)
			return i + 1
		}
		end := i + 1
		for end < len(r.toks) && (end == i+1 || r.close(end)) && r.toks[end].low != ":" && r.toks[end].low != "," && r.toks[end].low != "-" && r.toks[end].low != "#" {
			end++
		}
		c.w.Panel = r.words(i+1, end)
		return end
	}
	end, letters := 0, false
	for end < len(r.toks) && r.toks[end].kind != symbol && (end == 0 || r.close(end)) {
		letters = letters || r.toks[end].kind == word
		end++
	}
	if end == 1 && letters && r.low(1) == "-" && r.close(1) && r.isNumber(2) && r.close(2) && r.afterPanel(3) {
		c.w.Panel = r.words(0, 3) // "LP-1 9: mixer", where "LP1-7 offices" is panel LP1
		return 3
	}
	if !letters || end > 3 || circuitWord(r.low(0)) || !c.panelNamed(end) {
		return 0
	}
	c.w.Panel = r.words(0, end)
	return end
}

// afterPanel reports whether what begins at token i can only stand behind the name of a panel: the spaces of a list,
// ": 1,3 lot", "circuit 18 is ...".
func (r *reader) afterPanel(i int) bool {
	switch {
	case r.isNumber(i):
		return r.toks[i].spaced && r.listSign(i+1)
	case r.low(i) == ":" || circuitWord(r.low(i)):
		return r.isNumber(i + 1)
	}
	return false
}

// listSign reports whether token i goes on or ends a list of spaces.
func (r *reader) listSign(i int) bool {
	switch r.low(i) {
	case ":", ",", "/", "&", "=", "-", "and":
		return true
	}
	return false
}

// panelNamed reports whether spaces follow the word that ends before token end.
func (c *director) panelNamed(end int) bool {
	r := c.r
	i := end
	for r.low(i) == "-" || r.low(i) == "," || r.low(i) == "#" || r.low(i) == ":" || circuitWord(r.low(i)) {
		i++
	}
	return r.isNumber(i) && len(r.low(0)) <= 5
}

// spaces reads "2,4", "16/18", "#3, #5", "8 & 10", "1-3-5", "30-32".
func (c *director) spaces(i int) (next int, ok bool) {
	r := c.r
	dashed := false
	for len(c.w.Spaces) < 84 {
		if r.low(i) == "#" || circuitWord(r.low(i)) && len(c.w.Spaces) > 0 {
			i++
		}
		n, ok := c.space(i)
		if !ok {
			break
		}
		if dashed {
			c.fill(n)
		} else {
			c.w.Spaces = append(c.w.Spaces, n)
		}
		i++
		next = i
		j, dash := c.spaceSign(i)
		if j == i && !(r.isNumber(i) && (r.low(i+1) == "=" || r.low(i+1) == ":")) { // "ckt 9 11 = microwave"
			break
		}
		if _, ok := c.space(j); !ok && r.low(j) != "#" && !circuitWord(r.low(j)) {
			break
		}
		if r.low(i) == "," && !r.close(j) && r.isWord(j+1) && r.toks[j+1].spaced && r.low(j) != "#" && !r.moreSpaces(j+1) {
			break // "7, 2 lights": the second number counts what is served
		}
		i, dashed = j, dash
	}
	return next, len(c.w.Spaces) > 0
}

// moreSpaces reports whether a joining word at token i goes on with the list.
func (r *reader) moreSpaces(i int) bool { return r.low(i) == "and" && r.isNumber(i+1) }

// space reads one number of a space at token i.
func (c *director) space(i int) (int, bool) {
	r := c.r
	if !r.isNumber(i) || len(r.low(i)) > 3 {
		return 0, false
	}
	if r.close(i+1) && r.isWord(i+1) {
		return 0, false
	}
	n := smallInt(r.low(i))
	return n, n > 0 && n <= maxSpace
}

// spaceSign passes what parts two spaces at token i. A dash with a space after it ends the list.
func (c *director) spaceSign(i int) (next int, dash bool) {
	r := c.r
	switch r.low(i) {
	case ",", "/", "&", "and", "+":
		return i + 1, false
	case "-", "–":
		if r.close(i) && r.close(i+1) {
			return i + 1, true
		}
	}
	return i, false
}

// fill adds the spaces a dash stands for. In a panel the spaces of one breaker are on one side,
// so 30-32 is 30 and 32 and 1-5 is 1, 3 and 5; 1-6 is all six (common practice, no source).
func (c *director) fill(to int) {
	from := c.w.Spaces[len(c.w.Spaces)-1]
	step := 1
	if (to-from)%2 == 0 {
		step = 2
	}
	if to <= from || to-from > 84 {
		c.w.Spaces = append(c.w.Spaces, to)
		return
	}
	for n := from + step; n <= to; n += step {
		c.w.Spaces = append(c.w.Spaces, n)
	}
}

// serves reads the rest: words that are neither breaker nor conductor nor about the neutral are
// what the circuit serves, up to the first comma that ends them.
func (c *director) serves(i int) {
	r := c.r
	from, to := i, i
	closed := false
	for i < len(r.toks) {
		if r.low(i) == ";" {
			break
		}
		if next := c.part(i); next > i {
			closed = closed || to > from
			if to == from {
				from, to = next, next
			}
			c.end = next
			i = next
			continue
		}
		if r.low(i) == "," || r.low(i) == "-" && r.toks[i].spaced {
			closed = closed || to > from
			if to == from {
				from, to = i+1, i+1
			}
			i++
			continue
		}
		i++
		if !closed {
			to, c.end = i, i
		}
	}
	c.end = max(c.end, to)
	if to > from {
		c.w.Serves = strings.TrimRight(r.words(from, to), " ,.-:")
	}
}

// part reads a breaker, a conductor or "share a neutral" at token i and returns the token after
// it, or 0.
func (c *director) part(i int) int {
	if next := c.neutral(i); next > 0 {
		return c.with(next)
	}
	if next := c.tie(i); next > 0 {
		return next
	}
	if next := c.was(i); next > i {
		return next
	}
	if next := c.conductor(i); next > 0 {
		return next
	}
	return c.breaker(i)
}

// neutral reads the words for a shared neutral.
func (c *director) neutral(i int) int {
	r := c.r
	switch r.low(i) {
	case "share", "shares", "sharing", "shared", "common":
		for j := i + 1; j < min(len(r.toks), i+4); j++ {
			if r.low(j) == "neutral" || r.low(j) == "neutrals" || r.low(j) == "neut" {
				c.w.Shared = true
				return j + 1
			}
		}
	case "mwbc", "multiwire":
		c.w.Shared = true
		return i + 1
	}
	return 0
}

// conductor reads "10 AWG", "#12", "12/2", "12/2 MC", "#6 THHN", "1/0 AL".
func (c *director) conductor(i int) int {
	r := c.r
	hash := r.low(i) == "#"
	j := i
	if hash {
		j++
	}
	if !r.isNumber(j) || r.close(j) && !hash {
		return 0
	}
	g, next := r.low(j), j+1
	aught := false
	if r.low(next) == "/" && r.close(next) && r.low(next+1) == "0" && r.close(next+1) {
		g, next, aught = g+"/0", next+2, true
	}
	n := smallInt(r.low(j))
	awg := r.low(next) == "awg" || r.low(next) == "ga" || r.low(next) == "gauge"
	kcmil := r.low(next) == "kcmil" || r.low(next) == "mcm"
	switch {
	case kcmil && n >= 250 && n <= 2000:
		c.setConductor(g + " kcmil")
		return r.metal(next + 1)
	case awg && (aught || n <= 18):
		c.setConductor(g + " AWG")
		return r.metal(next + 1)
	case (hash || r.metal(next) > next) && (aught && n <= 4 || !aught && n >= 1 && n <= 18) && !(r.low(next) == "/" && r.close(next)):
		if !hash && !aught && r.low(next) != "thhn" && r.low(next) != "thwn" {
			return 0
		}
		c.setConductor(g + " AWG")
		return r.metal(next)
	case !aught && cableGauge(n) && r.low(next) == "/" && r.close(next) && r.isNumber(next+1) && len(r.low(next+1)) == 1:
		if c.w.Conductor == "" || n <= 14 {
			c.setConductor(g + " AWG")
		}
		return r.metal(next + 2)
	}
	return 0
}

func (c *director) setConductor(s string) {
	if c.w.Conductor != "" {
		return
	}
	c.w.Conductor = s
	for i := range c.r.toks {
		if low := c.r.low(i); low == "al" || low == "aluminum" || low == "alum" {
			c.w.Conductor += " AL"
			return
		}
	}
}

// cableGauge reports whether a number before "/2" or "/3" is a cable's gauge. 30/2 and 60/3 are
// breakers: amperes and poles.
func cableGauge(n int) bool {
	switch n {
	case 14, 12, 10, 8, 6, 4, 2:
		return true
	}
	return false
}

// metal passes words for a conductor's metal, insulation or cable at token i.
func (r *reader) metal(i int) int {
	for n := 0; n < 3; n++ {
		switch r.low(i) {
		case "al", "cu", "copper", "aluminum", "thhn", "thwn", "xhhw", "mc", "nm", "nmb", "romex", "uf", "ser", "seu", "wire", "stranded", "solid":
			i++
		default:
			return i
		}
	}
	return i
}

// breaker reads "30A 2P", "20 amp 1 pole", "60/2", "20A gfci brkr", "AFCI 15A".
func (c *director) breaker(i int) int {
	r := c.r
	kind := breakerKind(r.low(i))
	if kind != "" && !(r.isNumber(i+1) && ampWord(r.low(i+2))) {
		return 0
	}
	j := i
	if kind != "" {
		j++
	}
	if !r.isNumber(j) || r.close(j) {
		return 0
	}
	amps := smallInt(r.low(j))
	if len(r.low(j)) > 4 || amps < 10 {
		return 0
	}
	next, poles := j+1, ""
	switch {
	case ampWord(r.low(next)):
		next++
	case r.low(next) == "/" && r.close(next) && r.isNumber(next+1) && r.close(next+1) && (r.low(next+1) == "1" || r.low(next+1) == "2" || r.low(next+1) == "3"):
		poles, next = r.low(next+1)+"P", next+2
	default:
		return 0
	}
	b := strconv.Itoa(amps) + "A"
	next, poles = c.breakerTail(next, poles, &kind)
	if poles != "" {
		b += " " + poles
	}
	if kind != "" {
		b += " " + kind
	}
	if c.w.Breaker == "" {
		c.w.Breaker = b
	}
	return next
}

// breakerTail reads poles and kind after the amperes.
func (c *director) breakerTail(i int, poles string, kind *string) (int, string) {
	r := c.r
	for n := 0; n < 5; n++ {
		low := r.low(i)
		switch {
		case r.isNumber(i) && len(low) == 1 && poles == "" && (r.low(i+1) == "p" || r.low(i+1) == "pole"):
			poles, i = low+"P", i+2
		case r.isNumber(i) && len(low) == 1 && poles == "" && r.low(i+1) == "-" && r.low(i+2) == "pole":
			poles, i = low+"P", i+3
		case poles == "" && (low == "single" || low == "double") && r.low(i+1) == "pole":
			poles, i = map[bool]string{true: "1P", false: "2P"}[low == "single"], i+2
		case *kind == "" && breakerKind(low) != "":
			*kind, i = breakerKind(low), i+1
		case low == "breaker" || low == "brkr" || low == "bkr" || low == "cb":
			i++
		default:
			return i, poles
		}
	}
	return i, poles
}

func ampWord(low string) bool { return low == "a" || low == "amp" || low == "amps" }

// breakerKind returns the normal form of a breaker's protection, or "".
func breakerKind(low string) string {
	switch low {
	case "gfci", "gfi":
		return "GFCI"
	case "afci":
		return "AFCI"
	case "dual":
		return ""
	}
	return ""
}
