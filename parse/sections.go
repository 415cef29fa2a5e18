package parse

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"jobday/notes"
)

// sectionNames are the plain names of the sections, in lower case. The first of each is what the
// section is called in a new note.
var sectionNames = buildSectionNames()

func buildSectionNames() map[string]notes.Section {
	names := map[notes.Section]string{
		notes.Done: "done|work|completed|complete|work done|work completed|work performed|completed work|done today|" +
			"did|did today|today|what we did|finished|progress|work today|today's work|installed",
		notes.Materials: "materials|material|parts|mats|mat|used|material used|materials used|parts used|used today|stock|" +
			"stuff used|mat'l|matl|matls|mtl|mtls|from stock|off the truck|from truck|truck stock|parts list|material list",
		notes.Extras: "requests|customer requests|extras|extra|added|change|changes|add-ons|add-on|addons|add ons|adds|not booked|change orders|" +
			"change order|extra work|added work|additional|additional work|not on ticket|not on the ticket|co|cos|out of scope",
		notes.Deficiencies: "trouble|troubles|trouble found|deficiencies|deficiency|problems|problem|found|issues|issue|hazards|hazard|defects|defect|" +
			"faults|problems found|issues found|found issues|found problems|things found|deficiencies found|violations|hazards found",
		notes.Tests: "tests|test|readings|reading|testing|checks|test results|tested|meter readings|measurements|test readings|checked|megger|meggered|megged|megger readings",
		notes.Circuits: "circuits|circuit|panel|directory|panel directory|panel schedule|circuit directory|ckts|ckt|circuit list|" +
			"panel labels|breakers",
		notes.Time: "time|hours|hrs|labor|labour|man hours|manhours|man-hours|crew time|crew hours|time on site|hours today|" +
			"time sheet|timesheet|hr",
		notes.Left: "left|to do|todo|to-do|remaining|next|punch|punch list|punchlist|open items|open|tomorrow|left to do|" +
			"still to do|still left|next trip|next visit|next time|not done|to finish|for tomorrow|rest|unfinished|outstanding|need|needs|still need|tmrw|tmw|to get|to order|need to",
		notes.Questions: "questions|question|q|qs|ask|need to know|ask office|ask the office|for the office|for office|open questions|" +
			"rfi|rfis|need answer|need answers",
		notes.Deliveries: "deliveries|delivery|received|delivered|deliveries received|material received|materials received",
		notes.Equipment:  "equipment|tools|rental|rentals|lift|lifts|equip|equipment used|machines|plant|tool rental|rented",
		notes.Delays:     "delays|delay|held up|waiting|delayed|hold ups|holdups|hold-ups|standby|down time|downtime|lost time|waiting on",
		notes.Instructions: "instructions|instruction|directives|directive|told|directions|orders|instructions received|" +
			"instructions given|from the gc|gc says|site instructions",
		notes.Safety:     "safety|toolbox|jsa|jha|toolbox talk|tailgate|safety talk|safety check|safety checks|loto|tool box talk",
		notes.Conditions: "conditions|weather|site|site conditions|condition|access|weather and access|jobsite|job site",
		notes.Subcontractors: "subcontractors|subs|other trades|subcontractor|sub|trades|others on site|other contractors|" +
			"trades on site|visitors",
	}
	table := map[string]notes.Section{}
	for _, s := range notes.Sections {
		for _, name := range strings.Split(names[s], "|") {
			table[name] = s
		}
	}
	return table
}

// dashNames are the section names that also open a line with a dash, "mats - 4 recepts". The rest
// are as often the first word of a sentence or a place: "panel - replaced the cover".
var dashNames = wordSet("mats materials material parts used left remaining hrs hours time labor tests extras extra " +
	"deficiencies found issues questions delays safety weather deliveries received tomorrow tmrw need todo done equipment problems")

// bareNames open a line with nothing but a blank, where a name or a figure follows: "Hrs Ana 8-6".
var bareNames = wordSet("hrs hours time labor labour mats materials parts")

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(words) {
		set[w] = true
	}
	return set
}

// sectionOf returns the section a text names when it says nothing else: any case, with a colon,
// emphasis, emoji or other signs around it.
func sectionOf(text string) (notes.Section, bool) {
	const longestName = 40
	if len(text) > longestName*2 {
		return "", false
	}
	if anyDigit(text) && !onlyNumbered(text) {
		return "", false // "hrs: 8-12" says more than its name
	}
	s, ok := sectionNames[plainName(text)]
	return s, ok
}

// onlyNumbered reports whether the only figures of a text number it: "2. Parts", "(3) Time".
func onlyNumbered(text string) bool {
	text = strings.TrimLeft(text, " \t(*_#")
	i := 0
	for i < len(text) && isDigit(text[i]) {
		i++
	}
	return i > 0 && i <= 2 && i < len(text) && (text[i] == '.' || text[i] == ')') && !anyDigit(text[i:])
}

// plainName lowers a text (one in lower case costs nothing) and takes off everything around it that is no letter.
func plainName(text string) string {
	name := strings.TrimFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })
	name = strings.ToLower(name)
	if strings.Contains(name, "  ") {
		name = fold(name)
	}
	return strings.ReplaceAll(name, "’", "'")
}

// sectionLabel returns the section a line of the file begins with and where in it the content starts:
// "parts: 4 recepts", "**Mats:** tape", "left - third GFCI", "Hrs Ana 8-6". at is len(line) when
// nothing but the name is there.
func (r *noteReader) sectionLabel(start, end int) (s notes.Section, at int, ok bool) {
	const longestLabel = 44
	line := r.scan.low[start:end]
	head := line[:min(len(line), longestLabel)]
	for i := 0; i < len(head); i++ {
		c := head[i]
		switch {
		case c == ':':
			s, ok = sectionOf(head[:i])
			if !ok || i+1 < len(line) && isDigit(line[i+1]) && i > 0 && isDigit(line[i-1]) {
				return "", 0, false
			}
			return s, skipMarks(line, i+1), true
		case c == '/' && i+1 < len(head) && head[i+1] == ' ':
			if s, ok = sectionNames[plainName(head[:i])]; ok && dashNames[plainName(head[:i])] {
				return s, skipMarks(line, i+1), true
			}
			return "", 0, false
		case c == '-' || strings.HasPrefix(head[i:], "–") || strings.HasPrefix(head[i:], "—"):
			if i == 0 || head[i-1] != ' ' {
				continue
			}
			_, n := utf8.DecodeRuneInString(head[i:])
			if i+n < len(line) && line[i+n] != ' ' {
				return "", 0, false
			}
			name := plainName(head[:i])
			if s, ok = sectionNames[name]; ok && dashNames[name] {
				return s, skipMarks(line, i+n), true
			}
			return "", 0, false
		}
	}
	return bareLabel(line, r.body[start:end])
}

// tellingLabel reports whether a label says more than which section its line is in, so that it stays
// with the words: "toolbox talk: trench edges" was a talk, "weather: 41 F" is no other condition.
func tellingLabel(s notes.Section, label string) bool {
	if s != notes.Safety && s != notes.Conditions && s != notes.Instructions {
		return false
	}
	name := plainName(label)
	return name != string(s) && name+"s" != string(s)
}

// bareLabel reads "Hrs Ana 8-6": a name of a list section, a blank, and a figure or a capital.
func bareLabel(line, written string) (notes.Section, int, bool) {
	word, _, more := strings.Cut(line, " ")
	name := plainName(word)
	if !more || !bareNames[name] {
		return "", 0, false
	}
	at := skipMarks(line, len(word))
	if at >= len(line) {
		return "", 0, false
	}
	s := sectionNames[name]
	r, _ := utf8.DecodeRuneInString(written[at:])
	if unicode.IsDigit(r) || s == notes.Time && unicode.IsUpper(r) {
		return s, at, true
	}
	return "", 0, false
}

// skipMarks returns the first place from i on that is neither blank nor emphasis.
func skipMarks(line string, i int) int {
	for i < len(line) && (isBlank(line[i]) || line[i] == '*' || line[i] == '_') {
		i++
	}
	return i
}

// nothingSaid are the ways to say that a section is empty on purpose.
var nothingSaid = lineSet("none|n/a|na|nothing|nil|none today|nothing today|no|none found|nothing found|none noted|none to report|" +
	"nothing to report|nothing new|no extras|no extra|no extras today|no deficiencies|no deficiencies found|no issues|no issues found|" +
	"no problems|no problems found|no delays|no deliveries|no questions|no injuries|no changes|no equipment|no visitors|no subs|" +
	"none this trip|none so far|nada|zip|zero|0|all good|all clear|no materials|no material|no material used|no materials used|" +
	"none used|none on site|none received|nothing received|nothing left|nothing open|no hazards|no hazards found|no faults|" +
	"no faults found|none at this time|nothing else|not applicable|no tests|none needed|none required|no change orders|nothing extra")

func lineSet(lines string) map[string]bool {
	set := map[string]bool{}
	for _, l := range strings.Split(lines, "|") {
		set[l] = true
	}
	return set
}

// isNothing reports whether a text says that there is nothing to say: "none", "none today", "n/a",
// or only marks.
func isNothing(s string) bool {
	s = fold(s)
	if len(s) > 40 {
		return false
	}
	low := strings.ToLower(strings.Trim(s, " .!-–—_*()[]:"))
	return low == "" || nothingSaid[low]
}

// againSaid are the ways to say that what stands above holds here too.
var againSaid = lineSet(`same|ditto|same as above|same here|as above|same thing|same again|likewise|do.|"|''|same deal|same as last`)

// isAgain reports whether a text, or what stands behind its colon, says "same".
func isAgain(s string) bool {
	if !mayEndAgain(s) {
		return false
	}
	if i := strings.LastIndexByte(s, ':'); i >= 0 && i < 40 {
		s = s[i+1:]
	}
	s = strings.ToLower(strings.Trim(fold(s), " .!,"))
	if againSaid[s] {
		return true
	}
	// "unit 6 same", without a colon.
	words := strings.Fields(s)
	return len(words) > 1 && len(words) <= 3 && againSaid[words[len(words)-1]] && anyDigit(words[len(words)-2])
}

// mayEndAgain looks at the last word only: nearly every line is told from "same" by it.
func mayEndAgain(s string) bool {
	end := len(s)
	for end > 0 && strings.IndexByte(" .!,\t\r\n", s[end-1]) >= 0 {
		end--
	}
	start := end
	for start > 0 && isLetter(s[start-1]) {
		start--
	}
	switch strings.ToLower(s[start:end]) {
	case "same", "ditto", "above", "here", "thing", "again", "likewise", "do", "deal", "last":
		return true
	case "":
		return end > 0 && (s[end-1] == '"' || s[end-1] == '\'')
	}
	return false
}

func anyDigit(s string) bool { return strings.ContainsAny(s, "0123456789") }
