package field

import (
	"unicode"
	"unicode/utf8"
)

// A mention is a person or group found in the text.
type mention struct {
	names   []string // as the book names them
	unnamed int      // how many more people it stands for who have no name
	heads   int      // a head count: "both of us"
	next    int
	weak    bool // the word has another meaning and counts only beside a time: "Will", "both"
	strange bool // a name nobody knows
	beside  bool // "with Ben": the author was there too
	helps   bool // "helper", "apprentice"
	me      bool // the note's author, whom nobody knows: "me"
	we      bool // "we": whoever is named beside the time comes before it
	others  bool // "the others": the crew without those who were named
	group   bool // "everybody", "all": those who were named, if any were
	self    bool // the author, told as "me"
	full    bool // of others: only who was there all day
}

// mentionAt reads the person that starts at token i: a name the lexicon knows, "me", "we",
// "helper", "both of us".
func (r *reader) mentionAt(i int) (mention, bool) {
	if !r.isWord(i) {
		return mention{}, false
	}
	if m, ok := r.nameAt(i); ok {
		m.beside = r.low(i-1) == "with" || r.low(i-1) == "w" || r.low(i-1) == "/" && r.low(i-2) == "w"
		return m, !r.spokenTo(i)
	}
	return r.standIn(i)
}

// nameAt reads a name of the lexicon, the longest that fits.
func (r *reader) nameAt(i int) (mention, bool) {
	if r.lex == nil || len(r.lex.names) == 0 {
		return mention{}, false
	}
	low := r.low(i)
	if len(low) == 1 && r.low(i+1) == "." && r.close(i+1) && r.capital(i+2) {
		if full := r.lex.names[low+". "+r.low(i+2)]; full != "" {
			return mention{names: []string{full}, next: i + 3}, true // "T. Lund"
		}
	}
	if len(low) == 1 && r.capital(i) && r.capital(i+1) && len(r.low(i+1)) > 2 {
		if full := r.lex.names[low+". "+r.low(i+1)]; full != "" {
			return mention{names: []string{full}, next: i + 2}, true // "T Lund"
		}
	}
	if full, next := r.dottedInitials(i); full != "" {
		return mention{names: []string{full}, next: next, weak: true}, true // "G.P. 7-3:30"
	}
	if full := r.initialsAt(i); full != "" && r.bold && !(low == "i" && r.saidOfSelf(i)) {
		return mention{names: []string{full}, next: i + 1, weak: true}, true // "K 7-3:30"
	}
	owns := false
	full, known := r.lex.names[low]
	if !known && len(low) > 2 && low[len(low)-2:] == "'s" {
		low, owns = low[:len(low)-2], true
		full, known = r.lex.names[low]
	}
	if !known && r.bold && r.lex.surnames[low] != "" && r.ownTime(i+1) {
		return mention{names: []string{r.lex.surnames[low]}, next: i + 1}, true // "Lund 7-3:30"
	}
	if !known {
		return mention{}, false
	}
	m := mention{next: i + 1}
	if !owns {
		if long, next := r.fullNameAt(i); long != "" {
			full, m.next = long, next
		} else if r.otherSurname(i + 1) {
			return mention{}, false
		}
	}
	if r.low(m.next) == "'" && r.close(m.next) {
		owns, m.next = true, m.next+1
	}
	if full == "" || owns && !r.timeNoun(m.next) {
		return mention{}, false
	}
	if owns && r.low(m.next) == "time" {
		m.next++
	}
	m.names, m.weak = []string{full}, alsoWord(low)
	if r.low(m.next) == "(" && (r.low(m.next+1) == "me" || r.low(m.next+1) == "myself") && r.low(m.next+2) == ")" {
		m.next += 3 // "Dev (me) 7-3:30"
	}
	return m, true
}

// initialsAt returns the member of the crew whose initials stand at token i, or "".
func (r *reader) initialsAt(i int) string {
	if r.lex == nil || len(r.low(i)) > 2 || !r.capital(i) || !r.shouting(i) || r.low(i+1) == "." || r.close(i) {
		return ""
	}
	return r.lex.initials[r.low(i)]
}

// smallInitials returns the member of the crew whose initials stand at token i, in any case and parted
// from what stands before, or "".
func (r *reader) smallInitials(i int) string {
	if r.lex == nil || len(r.lex.initials) == 0 || !r.isWord(i) || len(r.low(i)) > 2 || r.low(i+1) == "." || r.close(i) && r.low(i-1) != "/" && r.low(i-1) != "+" && r.low(i-1) != "&" && r.low(i-1) != "," {
		return ""
	}
	return r.lex.initials[r.low(i)]
}

// fullNameAt looks for a name of two or three words.
func (r *reader) fullNameAt(i int) (full string, next int) {
	for n := 3; n >= 2; n-- {
		if i+n > len(r.toks) || !r.isWord(i+1) || !r.isWord(i+n-1) {
			continue
		}
		key := r.low(i) + " " + r.low(i+1)
		if n == 3 {
			key += " " + r.low(i+2)
		}
		if full := r.lex.names[key]; full != "" {
			return full, i + n
		}
	}
	return "", i
}

// otherSurname reports whether token i is a surname, so that the first name before it is another
// person's than the one the lexicon knows.
func (r *reader) otherSurname(i int) bool {
	if !r.capital(i) || len(r.low(i)) < 3 || r.capital(i-1) != r.capital(i) {
		return false
	}
	_, known := r.lex.names[r.low(i)]
	return !known && !r.shouting(i) && !commonWord(r.low(i)) && !r.isNumber(i+1)
}

// shouting reports whether token i is written in capitals only.
func (r *reader) shouting(i int) bool {
	t := &r.toks[i]
	for _, c := range []byte(r.text[t.start:t.end]) {
		if 'a' <= c && c <= 'z' {
			return false
		}
	}
	return true
}

// timeNoun reports whether token i says that what is owned is time: "Ines's hours".
func (r *reader) timeNoun(i int) bool {
	switch r.low(i) {
	case "time", "hours", "hrs":
		return true
	}
	return r.isNumber(i)
}

// alsoWord reports whether a first name is an English word or trade word too.
func alsoWord(low string) bool {
	switch low {
	case "will", "mark", "bill", "may", "grant", "rich", "art", "chip", "jack", "rod", "ray", "pat",
		"drew", "chase", "rose", "frank", "dale", "gene", "june", "april", "hope", "grace", "rusty",
		"sandy", "wade", "miles", "max", "ty", "van", "lance", "pierce", "reed", "cliff", "glen", "wen":
		return true
	}
	return false
}

// spokenTo reports whether the person at token i is somebody the line is addressed to or quotes,
// not somebody who worked: "told Ines", "per Ines".
func (r *reader) spokenTo(i int) bool {
	switch r.low(i - 1) {
	case "is":
		return r.low(i-2) == "this" // who dictates says so
	case "for":
		low := r.low(i - 2)
		if r.breakWord(i-2) || low == "only" && r.breakWord(i-3) || low == "none" {
			return false // "30 lunch for Ben"
		}
		if r.bold && i > 1 && (r.isNumber(i-2) || numberWordAt(low)) {
			return false // "eight hours me and seven for Ben"
		}
		return !hourWord(low) && !minuteWord(low) && low != "each" && low != "apiece" && low != "same" && low != "ditto"
	case "told", "tell", "by", "per", "from", "ask", "asked", "call", "called", "to", "let",
		"showed", "helped", "helping", "text", "texted":
		return true
	}
	return false
}

// standIn reads words that stand for people.
func (r *reader) standIn(i int) (mention, bool) {
	switch low := r.low(i); low {
	case "myself":
		return r.author(i + 1), true
	case "self":
		return r.author(i + 1), r.bold && r.ownTime(i+1) || r.joinsNamed(i+1)
	case "me", "i":
		if m, ok := r.nameAt(i + 2); ok && r.low(i+1) == "(" && r.low(m.next) == ")" && len(m.names) == 1 {
			m.next++
			return m, true // "me (Fern)"
		}
		if low == "i" {
			return r.author(i + 1), r.capital(i) || r.bold && didWord(r.low(i+1))
		}
		return r.author(i + 1), (!r.spokenTo(i) || r.low(i-1) == "helped") && r.low(i-1) != "gave" && r.low(i-1) != "on"
	case "we":
		m := r.wholeCrew(i + 1)
		m.we = true
		return m, true
	case "both":
		m := r.wholeCrew(i + 1)
		if r.low(i+1) == "of" && r.low(i+2) == "us" {
			m.next, m.heads = i+3, 2
			if len(m.names) != 2 {
				m.names = nil // two of them, and not which
			}
			return m, true
		}
		m.weak, m.heads = true, 2
		return m, len(m.names) == 2
	case "us":
		m := r.wholeCrew(i + 2)
		if m.heads = 2; len(m.names) != 2 {
			m.names = nil
		}
		return m, r.low(i+1) == "both"
	case "helper", "apprentice":
		m := r.helper(i + 1)
		m.helps = true
		return m, true
	case "everybody", "everyone":
		m := r.wholeCrew(i + 1)
		m.group = true
		return m, len(m.names) > 0 && !everyone(r.low(i-1)) && r.timeFollows(i+1)
	case "all", "whole", "entire", "full":
		if j := r.allHands(i); j > 0 {
			m := r.wholeCrew(j)
			m.group = true
			return m, len(m.names) > 0
		}
	}
	return mention{}, false
}

// saidOfSelf reports whether the "I" at token i is whoever writes, not somebody's initial.
func (r *reader) saidOfSelf(i int) bool {
	joined := (r.low(i-1) == "and" || r.low(i-1) == "&") && len(r.low(i-2)) > 1
	return joined || didWord(r.low(i+1))
}

// didWord reports whether a word can only follow whoever worked: "i was there".
func didWord(low string) bool {
	switch low {
	case "was", "were", "am", "make", "made", "work", "go", "do", "stay", "worked", "did", "had", "left", "got", "came", "come", "stayed", "took", "put", "started":
		return true
	}
	return false
}

// allHands returns the token after "all hands", "all of us", "whole crew" at token i, or 0.
func (r *reader) allHands(i int) int {
	switch next := r.low(i + 1); {
	case next == "hands" && r.low(i) == "all", next == "crew" && r.low(i) != "all":
		return i + 2
	case r.low(i) == "all" && next == "of" && r.low(i+2) == "us":
		return i + 3
	}
	return 0
}

// timeFollows reports whether a span or a duration stands at token i.
func (r *reader) timeFollows(i int) bool {
	if r.low(i) == ":" || r.beforeTime(i) {
		i++
	}
	_, ok := r.pairAt(i)
	if !ok {
		_, ok = r.stretchAt(i)
	}
	return ok || r.bold && i < len(r.toks) && r.bareHours(i)
}

func (r *reader) author(next int) mention {
	m := mention{next: next}
	if r.lex == nil || r.lex.Author == "" {
		m.unnamed, m.me = 1, true
		return m
	}
	m.names, m.self = []string{r.bookName(r.lex.Author)}, true
	return m
}

// bookName returns the name as the book writes it, or as it is written here.
func (r *reader) bookName(name string) string {
	if full := r.lex.Name(name); full != "" {
		return full
	}
	return name
}

// wholeCrew stands for everybody in the note's crew; without one it names nobody.
func (r *reader) wholeCrew(next int) mention {
	m := mention{next: next}
	if r.lex == nil {
		return m
	}
	for _, name := range r.lex.Crew {
		m.names = append(m.names, r.bookName(name))
	}
	return m
}

// helper is the other member of a crew of two.
func (r *reader) helper(next int) mention {
	m := mention{next: next, unnamed: 1}
	if r.lex == nil || len(r.lex.Crew) != 2 || r.lex.Author == "" {
		return m
	}
	author := r.bookName(r.lex.Author)
	for k, name := range r.lex.Crew {
		if r.bookName(name) == author {
			m.names, m.unnamed = []string{r.bookName(r.lex.Crew[1-k])}, 0
		}
	}
	return m
}

// strangersAt reads names nobody knows before a clock time at the start of a line: "Dale 7-3",
// "Dale & Kim: 7-3:30". At least one name of the list is unknown.
func (r *reader) strangersAt(i int) (mention, bool) {
	m := mention{strange: true}
	j := i
	for n := 0; n < 8; n++ {
		name, next, ok := r.anyNameAt(j)
		if !ok {
			return m, false
		}
		m.names, j = append(m.names, name...), next
		if !joining(r.low(j)) || r.isNumber(j+1) {
			break
		}
		j++
	}
	m.next = j
	if s := r.low(j); s == ":" || s == "," || s == "-" && r.toks[j].spaced || s == "–" {
		j++
	}
	if !r.isNumber(j) && r.hourWord(j) == 0 {
		return m, false
	}
	p, ok := r.pairAt(j)
	if !ok {
		_, ok = r.stretchAt(j)
		return m, ok && r.bold || r.bold && r.bareHours(j)
	}
	return m, r.bold || p.strong() || !p.rises() || r.pauseFollows(p.next)
}

// nextStranger reads a name nobody knows, in any case, between two clock spans: "sam 7-3:30 lou 7-3".
// Without it the second span would be taken for the first person's evening.
func (r *reader) nextStranger(i int, list []timePart) (mention, bool) {
	if i == 0 && r.bold && r.lex != nil && r.mayBeName(i) {
		return r.strangerNamed(i), true
	}
	if i >= len(r.toks) || r.toks[i].kind != word || r.toks[i].ent != nil || len(list) < 2 || commonWord(r.low(i)) {
		return mention{}, false
	}
	low, last := r.low(i), list[len(list)-1]
	if len(low) < 2 || len(low) > 20 || last.kind != aSpan || last.to != i || list[0].kind != aPerson {
		return mention{}, false
	}
	switch low {
	case "to", "till", "til", "until", "then", "less", "minus", "plus", "again", "back", "with", "and", "w", "thru", "through":
		return mention{}, false
	}
	if _, ok := r.pairAt(i + 1); !ok {
		return mention{}, false
	}
	return r.strangerNamed(i), true
}

// strangerNamed is the person nobody knows whose name is token i.
func (r *reader) strangerNamed(i int) mention {
	if full := r.smallInitials(i); full != "" {
		return mention{next: i + 1, names: []string{full}}
	}
	name := r.text[r.toks[i].start:r.toks[i].end]
	first, n := utf8.DecodeRuneInString(name)
	return mention{strange: true, next: i + 1, names: []string{string(unicode.ToUpper(first)) + name[n:]}}
}

// mayBeName reports whether a word in small letters that begins a text about time and stands right
// before a span can only be a name: "cass 7-3:30".
func (r *reader) mayBeName(i int) bool {
	t := &r.toks[i]
	if t.kind != word || t.ent != nil || r.capital(i) || len(t.low) < 3 || len(t.low) > 12 || commonWord(t.low) ||
		notAPerson(t.low) || r.cueWord(i) || numberWordAt(t.low) || dayPart(t.low) {
		return false
	}
	if r.low(i+1) == ":" {
		i++
	}
	_, ok := r.pairAt(i + 1)
	return ok
}

// dayPart reports whether a word before a span says when or where, not who.
func dayPart(low string) bool {
	switch low {
	case "here", "there", "was", "were", "then", "only", "approx", "about", "around", "late", "early", "morning", "afternoon",
		"evening", "night", "nights", "days", "overtime", "reg", "regular", "double", "straight", "shop", "yard", "house",
		"barn", "school", "church", "store", "just", "also", "again", "back", "maybe", "same", "remote", "plus", "called":
		return true
	}
	return false
}

// anyNameAt reads a known person or a capitalized word that may be a name.
func (r *reader) anyNameAt(i int) (names []string, next int, ok bool) {
	if m, ok := r.mentionAt(i); ok && len(m.names) > 0 {
		return m.names, m.next, true
	}
	if full := r.initialsAt(i); full != "" {
		return []string{full}, i + 1, true
	}
	if !r.capital(i) || len(r.low(i)) < 2 || len(r.low(i)) > 20 || commonWord(r.low(i)) || joining(r.low(i)) || r.tailOfSomething(i) {
		return nil, i, false
	}
	t := &r.toks[i]
	name := r.text[t.start:t.end]
	if r.capital(i+1) && r.toks[i+1].spaced && !commonWord(r.low(i+1)) && len(r.low(i+1)) > 1 {
		return []string{r.text[t.start:r.toks[i+1].end]}, i + 2, true
	}
	return []string{name}, i + 1, true
}

// joining reports whether a word or sign joins two names.
func joining(low string) bool {
	switch low {
	case "and", "&", "+", "/", ",", "with", "w":
		return true
	}
	return false
}

// commonWord reports whether a capitalized word at the start of a line is no name: days, months,
// labels of a note, and things of the trade that come in numbered runs.
func commonWord(low string) bool {
	switch low {
	case "mon", "monday", "tue", "tues", "tuesday", "wed", "weds", "wednesday", "thu", "thur", "thurs",
		"thursday", "fri", "friday", "sat", "saturday", "sun", "sunday", "jan", "feb", "mar", "apr",
		"jun", "jul", "aug", "sep", "sept", "oct", "nov", "dec", "january", "february", "march",
		"july", "august", "september", "october", "november", "december", "today", "yesterday",
		"hrs", "hours", "hour", "time", "times", "site", "ot", "dt", "st", "std", "reg", "regular", "overtime", "straight", "labor", "labour", "crew", "lunch", "break", "shift", "delay", "delays", "meeting", "shutdown", "outage", "elevator", "rain", "power", "inspection",
		"total", "travel", "drive", "helper", "apprentice", "work", "worked", "on", "off", "in", "out", "from", "start",
		"started", "day", "all", "both", "am", "pm", "no", "the", "a", "i", "me", "we", "us":
		return true
	}
	return runWord(low)
}

// runWord reports whether a word is followed by designations in a run, not by times: "rooms 4-6".
func runWord(low string) bool {
	switch low {
	case "panel", "panels", "unit", "units", "room", "rooms", "suite", "circuit", "circuits", "ckt",
		"ckts", "space", "spaces", "slot", "slots", "breaker", "breakers", "bay", "bays", "stall",
		"stalls", "floor", "floors", "level", "levels", "area", "areas", "phase", "step", "steps",
		"page", "pages", "sheet", "sheets", "line", "lines", "item", "items", "box", "boxes", "pole",
		"poles", "door", "doors", "zone", "zones", "office", "offices", "apt", "apts", "bldg",
		"building", "lot", "lots", "nema", "size", "sizes", "pair", "wire", "wires", "conductors",
		"ran", "set", "hung", "pulled", "installed", "used", "need", "needs",
		"moved", "added", "between", "spare", "spares", "units'", "grid", "grids", "column", "row",
		"rows", "desk", "desks", "pump", "pumps", "motor", "motors", "light", "lights", "head", "heads":
		return true
	}
	return false
}
