package parse

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"jobday/notes"
)

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
	return sectionNamed(plainName(text))
}

// sectionNamed returns the section of a plain name: one of the table, or two of one section, "parts and material".
func sectionNamed(name string) (notes.Section, bool) {
	if s, ok := sectionNames[name]; ok {
		return s, true
	}
	one, other, both := strings.Cut(name, " and ")
	if !both {
		return "", false
	}
	s, ok := sectionNames[one]
	return s, ok && s == sectionNames[other]
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
// Inside, a hyphen is a blank, and a slash, a plus or an ampersand is an "and".
func plainName(text string) string {
	name := strings.TrimFunc(text, func(r rune) bool { return !unicode.IsLetter(r) })
	name = strings.ToLower(name)
	if strings.ContainsAny(name, "-&/+_’") {
		name = joinedWords.Replace(name)
	}
	if strings.Contains(name, "  ") {
		name = fold(name)
	}
	return name
}

var joinedWords = strings.NewReplacer("-", " ", "_", " ", "&", " and ", "/", " and ", "+", " and ", "’", "'")

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
			if !ok || skipMarks(line, i+1) < len(line) && headingNames[plainName(head[:i])] || i+1 < len(line) && isDigit(line[i+1]) && i > 0 && isDigit(line[i-1]) {
				return "", 0, false
			}
			return s, skipMarks(line, i+1), true
		case c == '/' && i+1 < len(head) && head[i+1] == ' ':
			if s, ok = sectionNamed(plainName(head[:i])); ok && dashNames[plainName(head[:i])] {
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
