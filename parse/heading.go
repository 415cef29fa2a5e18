package parse

import (
	"slices"
	"strings"
	"unicode"

	"jobday/notes"
	"jobday/parse/field"
)

// openNamed opens the section that a text names and that holds at a level.
func (r *noteReader) openNamed(s notes.Section, level int, text string) {
	r.open(s, level)
	r.section.crew = s == notes.Time && crewNames[plainName(text)]
}

// isAside reports whether a line only says that something else follows: "Also", "**Other:**". In a list it has to
// have items of its own.
func (r *noteReader) isAside(text string, l line, next *line) bool {
	return next != nil && (!l.item || next.item && next.depth > l.depth) && opensSection(text) && asideNamed(text)
}

func asideNamed(text string) bool {
	const longest = 40
	return len(text) <= longest && asideNames[plainName(text)] && !anyDigit(text)
}

// countRemarks counts the lines that say nothing but how far something got and stand right below a line that is no
// place, with more lines below them: "hood lights", "done", "hall lights", "done". One may be a heading; two are not.
func (r *noteReader) countRemarks(lines []line) {
	for i := 1; i+1 < len(lines); i++ {
		prev, l, next := lines[i-1], lines[i], lines[i+1]
		if l.kind != textLine || l.item || l.block != prev.block || next.item || next.block != l.block {
			continue
		}
		word := remarkWord(r.body[l.start:l.end])
		above := r.body[prev.start:prev.end]
		if word == "" || placeName(above, true) != "" {
			continue
		}
		if _, heads := sectionOf(r.scan.low[prev.start:prev.end]); heads {
			continue
		}
		if r.remarks == nil {
			r.remarks = map[string]int{}
		}
		r.remarks[word]++
	}
}

// remarkWord returns the word of a line that says only how far something got, without any mark of a heading; else "".
func remarkWord(text string) string {
	const longest = 14
	text = strings.TrimRight(text, ".! ")
	if text == "" || len(text) > longest || !isLetter(text[0]) || !isLetter(text[len(text)-1]) {
		return ""
	}
	if name := plainName(text); remarkWords[name] {
		return name
	}
	return ""
}

// remarksOn takes a line that says how far the item above it got as part of that item: a word that
// stands so twice, one that ends the note, one nested below an item with nothing below itself.
func (r *noteReader) remarksOn(l line, own int, next *line) bool {
	c := r.cur
	word := remarkWord(r.body[own:l.end])
	if word == "" {
		return false
	}
	switch {
	case l.item:
		if c.from.depth == 0 || l.depth <= c.from.depth || next != nil && next.item && next.depth > l.depth {
			return false
		}
	case own > l.start || l.block != c.prev.block || next != nil && r.remarks[word] < 2:
		return false
	case len(c.details) == 0:
		c.end, c.prev = l.end, l
		return true
	}
	c.details, c.prev = append(c.details, span{own, l.end}), l
	return true
}

// crewLine reports what a line of a list of people tells: hours, or nothing but names of people we know, who are then
// the crew where the front matter names none. A line that tells neither is what its own words say.
func (r *noteReader) crewLine(start, end int) (hours, names bool) {
	text := r.body[start:end]
	if len(field.ReadTime(text, r.lex)) > 0 {
		return true, false
	}
	var crew []string
	for _, m := range r.scan.scan(text, start) {
		switch name := r.lex.Name(text[m.start:m.end]); {
		case m.kind == signMark || m.low == "and" || m.low == "with" || m.low == "w":
		case m.kind == wordMark && name != "":
			crew = append(crew, name)
		case len(crew) > 0 && strings.HasSuffix(strings.ToLower(crew[len(crew)-1]), " "+m.low):
			// the rest of a full name
		default:
			return false, false
		}
	}
	if len(crew) == 0 {
		return false, false
	}
	for _, name := range crew {
		if !slices.Contains(r.crew, name) {
			r.crew = append(r.crew, name)
		}
	}
	return false, true
}

// marksHeading reports whether a line that names no section looks like a heading all the same: it is bold, ends with
// a colon, or stands alone with a list below it.
func (r *noteReader) marksHeading(text string, l line, next *line) bool {
	if next == nil || !opensSection(text) || l.item && !(next.item && next.depth > l.depth) && !r.numberedHeading(l, next) {
		return false
	}
	if boldHeading(text) || strings.HasSuffix(text, ":") {
		return true
	}
	capitals := strings.IndexFunc(text, unicode.IsLower) < 0
	return l.start == r.wrap.start && next.item || capitals && next.block == l.block
}

// numberedHeading reports whether a list item of an ordered list is followed by anything but another of it.
func (r *noteReader) numberedHeading(l line, next *line) bool {
	return isDigit(r.body[l.bullet]) && !(next.item && isDigit(r.body[next.bullet]))
}
