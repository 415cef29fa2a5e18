package field

import (
	"strings"

	"jobday/trade"
)

// lettered reads letters with a number right after them: LP1, LP-1, RTU-3, T8, x3, L14-30, qty4.
func (s *scanner) lettered() bool {
	i := s.i
	t := s.toks[i].low
	if len(t) > 5 {
		return false
	}
	j := i + 1
	dash := tight(s.toks, j, "-")
	if dash {
		j++
	}
	if !s.tightNumber(j) {
		return s.namedPanel(t) || s.spacedEquipment(t)
	}
	dim := labelDim(t)
	switch {
	case t == "x" || t == "qty" || t == "p" && s.polesAt(len(s.out)-1):
		s.put(atom{role: roleMark, text: "x"}, i+1)
		return true
	case t == "l" && tight(s.toks, j+1, "-") && s.tightNumber(j+2):
		end := j + 3
		s.desig("L"+s.low(j)+"-"+s.low(j+2)+s.nemaEnd(end), "nema", s.skipUnit(end, "r", "p"))
		return true
	case t == "sch":
		s.desig("sch "+s.low(j), "schedule", j+1)
		return true
	case dash && s.tagged(t, j):
	case dash && dim == "model" && !isPlaceLabel(t), len(t) > 4, tight(s.toks, j+1, "/"):
		return false
	}
	if _, phrase := phraseWith(t, s.low(i+1)); phrase || s.tightPlace(t, j) {
		return !phrase
	}
	return s.label(t, dim, j)
}

// tagged reports whether capitals the trade has no word for, a dash and the number at token j are the tag
// of one thing: DS-204, P-118. "GFI-12" may count.
func (s *scanner) tagged(t string, j int) bool {
	if len(t) > 3 || len(s.low(j)) < 2 || !s.capitals(s.i) || s.wordAt1(s.i) != nil {
		return false
	}
	return s.toks[j].end == len(s.text) || !tight(s.toks, j+1, "'") && !tight(s.toks, j+1, "/") && !tight(s.toks, j+1, "\"")
}

// capitals reports whether token i is written in capitals.
func (s *scanner) capitals(i int) bool {
	w := s.text[s.toks[i].start:s.toks[i].end]
	return w == strings.ToUpper(w) && w != strings.ToLower(w)
}

// plantTag reads a tag with the number of its area in front: 22-M-204.
func (s *scanner) plantTag() bool {
	i := s.i
	if len(s.low(i)) > 3 || !tight(s.toks, i+1, "-") || !s.tightWord(i+2) || len(s.low(i+2)) > 3 || !s.capitals(i+2) || !tight(s.toks, i+3, "-") || !s.tightNumber(i+4) {
		return false
	}
	s.desig(s.low(i)+"-"+strings.ToUpper(s.low(i+2))+s.low(i+4), "model", i+5)
	return true
}

// phraseWith reports whether a phrase of the trade goes on with the word: "cat 6".
func phraseWith(first, next string) (trade.Word, bool) {
	for _, p := range trade.Phrases(first) {
		if p.Rest[0] == next {
			return p.Word, true
		}
	}
	return trade.Word{}, false
}

// label enters the designation made of letters and the number at token j.
func (s *scanner) label(t, dim string, j int) bool {
	text := strings.ToUpper(t) + s.low(j)
	end := j + 1
	plural := false
	if s.tightWord(end) && len(s.low(end)) == 1 {
		if s.low(end) == "s" {
			plural = true
		} else {
			text += strings.ToUpper(s.low(end))
		}
		end++
	}
	if dim == "leg" {
		s.put(atom{role: roleSkip, text: text, dim: dim}, end)
		return true
	}
	s.put(atom{role: roleDesig, text: text, dim: dim, plural: plural}, end)
	return true
}

// labelDim says what letters before a number usually label. Common practice, no source.
func labelDim(t string) string {
	switch t {
	case "lp", "pp", "dp", "mdp", "rp", "ep", "sp", "mp", "msb", "dpb", "lpa", "ppa", "hpl", "bp", "lpn", "pnl", "elp", "epp":
		return "panel"
	case "rtu", "ahu", "ef", "vav", "fcu", "cu", "wh", "ac", "hp", "mau", "erv", "chw", "ct", "vfd", "uh", "ch", "mcc":
		return "equipment"
	case "l":
		return "leg"
	}
	return "model"
}

// spacedEquipment reads "AHU 1" and "RTU 3".
func (s *scanner) spacedEquipment(t string) bool {
	switch t {
	case "rtu", "ahu", "fcu", "vav", "mau", "erv":
	default:
		return false
	}
	j := s.i + 1
	if j >= len(s.toks) || s.toks[j].kind != number || len(s.low(j)) > 2 || s.countsThere(j+1) && !s.oneThere(j+1, s.low(j)) || s.ratedThere(j+1) {
		return false
	}
	s.desig(strings.ToUpper(t)+s.low(j), "equipment", j+1)
	return true
}

// namedPanel reads a panel's name without a number: MDP, MSB.
func (s *scanner) namedPanel(t string) bool {
	if t != "mdp" && t != "msb" {
		return false
	}
	s.desig(strings.ToUpper(t), "panel", s.i+1)
	return true
}

// numbered reads a word whose number names it: "unit 4", "room 12", "panel A", "ckt 14",
// "sch 40", "type 3R", "no. 10".
func (s *scanner) numbered(t string) bool {
	if kind, dim, sure := placeKind(t); dim != "" {
		return s.numberedPlace(t, numberedKind{kind, dim, sure})
	}
	if s.ordinalFloor(t) {
		return true
	}
	switch t {
	case "panel", "pnl", "subpanel", "panelboard":
		return s.panelName()
	case "ckt", "ckts", "circuit", "circuits", "cir", "cirs", "cct", "circ":
		return s.circuitNumbers()
	case "sch", "schedule":
		return s.namedBy("sch ", "schedule")
	case "type", "nema":
		if s.i+2 < len(s.toks) && s.toks[s.i+1].kind == number && s.tightWord(s.i+2) && len(s.low(s.i+2)) <= 2 {
			s.desig(s.low(s.i+1)+strings.ToUpper(s.low(s.i+2)), "model", s.i+3)
			return true
		}
		if t == "nema" {
			s.put(atom{role: roleJoin}, s.i+1)
			return true
		}
	}
	return false
}

// namedBy reads a word and its number as a designation.
func (s *scanner) namedBy(prefix, dim string) bool {
	j := skipDot(s.toks, s.i+1)
	if j >= len(s.toks) || s.toks[j].kind != number {
		return false
	}
	s.desig(prefix+s.low(j), dim, j+1)
	return true
}

// manyThere reports whether a plural or a unit follows a number, so that it counts.
func (s *scanner) manyThere(i int) bool {
	w := s.wordAt1(i)
	return w != nil && (w.Plural || w.Class == trade.UnitWord)
}

// panelName reads "panel LP1", "panel A", "panel 2": the panel and its name.
func (s *scanner) panelName() bool {
	i := s.i
	w := s.wordAt1(i)
	j := i + 1
	if s.low(j) == "#" || s.low(j) == "-" && tight(s.toks, j, "-") {
		j++
	}
	if j >= len(s.toks) {
		return false
	}
	t := s.toks[j]
	name, end := "", j+1
	switch {
	case t.kind == number && len(t.low) <= 2 && !s.countsThere(j+1) && j+1 <= len(s.toks):
		if l := s.low(j + 1); l == "/" || l == "a" || l == "amp" || l == "space" || l == "spaces" || l == "circuit" || l == "ckt" || feetMark(l) || inchMark(l) || l == "x" {
			return false
		}
		name = t.low
	case t.kind == word && len(t.low) == 1 && s.text[t.start] != t.low[0] && !s.tightNumber(j+1):
		name = strings.ToUpper(t.low)
	case s.panelLetters(j):
		name = s.toks[j].low
		if tight(s.toks, end, "-") && s.tightNumber(end+1) {
			name += s.low(end + 1)
			end += 2
		}
		name = strings.ToUpper(name)
	default:
		return false
	}
	s.put(atom{role: roleThing, text: w.Text}, i+1)
	s.i = j
	s.desig(name, "panel", end)
	return true
}

// panelLetters reports whether token j is a name of two or three capitals, set off from a text that is not all in
// capitals: "panel HP", "Panel CP-1".
func (s *scanner) panelLetters(j int) bool {
	t := s.toks[j]
	if t.kind != word || len(t.low) < 2 || len(t.low) > 3 || !s.capitals(j) || s.capitals(s.i) || s.wordAt1(j) != nil || s.tightNumber(j+1) {
		return false
	}
	switch t.low {
	case "ok", "ng", "tbd", "id", "na", "by", "is", "at", "on", "up", "in", "of", "to", "no", "not":
		return false
	}
	return true
}

// circuitNumbers reads "ckt 14", "circuits 2 and 4", "cir #7": the numbers name the circuits.
func (s *scanner) circuitNumbers() bool {
	i := s.i
	many := s.low(i)[len(s.low(i))-1] == 's'
	j := skipDot(s.toks, i+1)
	if s.low(j) == "#" {
		j++
	}
	if j >= len(s.toks) || s.toks[j].kind != number || len(s.low(j)) > 2 || s.manyThere(j+1) || s.ratedThere(j+1) {
		return false
	}
	s.put(atom{role: roleThing, text: "circuit", plural: many}, i+1)
	s.i = j
	s.desig("ckt "+s.low(j), "circuit", j+1)
	for s.i+1 < len(s.toks) {
		k := s.i
		switch s.low(k) {
		case ",", "&", "and", "/", "-":
			k++
		default:
			return true
		}
		if s.low(k) == "#" {
			k++
		}
		if k >= len(s.toks) || s.toks[k].kind != number || len(s.low(k)) > 2 || s.countsThere(k+1) || s.ratedThere(k+1) {
			return true
		}
		s.i = k
		s.desig("ckt "+s.low(k), "circuit", k+1)
	}
	return true
}

// ratedThere reports whether token i makes a rating or a length of the number before it.
func (s *scanner) ratedThere(i int) bool {
	if i >= len(s.toks) {
		return false
	}
	switch l := s.low(i); l {
	case "a", "amp", "amps", "v", "volt", "volts", "p", "pole", "w", "'", "\"", ":", "°", "%", "x", "awg", "h", "hr", "hrs", "min", "am", "pm", "kw":
		return l != "a" || !s.toks[i].spaced || s.text[s.toks[i].start] == 'A'
	}
	return false
}
