package parse

import (
	"bytes"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
)

// A noteReader goes through the lines of a note, keeps the section that is open, gathers lines into
// items and turns each item into entries.
type noteReader struct {
	file  *finding.File
	body  string // the file's text
	note  *notes.DayNote
	found *finding.List
	lex   *field.Lexicon
	scan  scanner

	section opened
	outer   opened // what was open before a list item opened section for its nested items
	nested  int    // depth of that list item plus one; 0 for none
	cur     *item  // being gathered
	store   item   // where cur points
	last    int    // index of the entry that a sentence may say more about, -1 for none
	lastEnd int    // where it ends
	lines   int    // lines of text seen
	wrap    paragraph
	where   whereabouts
	carry   labelled
	behind  bool // the words being read stand behind the label of a booked line

	// Memory used again from item to item.
	clauseMemory, cutMemory []clause
	workMemory              []clause
	partMemory              []part
	clues                   clues
	chances                 []float64
	clueMemory              []uint64       // of entries, cut off piece by piece
	named                   bool           // names of clues are kept
	remarks                 map[string]int // how often a word stands right below a line, see countRemarks
	crew                    []string       // whom lists of people name
	joint                   clues          // of a place where a text may part
	meetingMemory           []meeting

	// atJoint, where set, is told of each place where a text may part, and says whether it does: to fit the model
	// by. At is where what stands behind it begins in the file.
	atJoint func(at int, m meeting, clues []string) bool
}

// opened is a section and what opened it.
type opened struct {
	name  notes.Section
	level int  // of the heading; 7 for a word on a line of its own
	crew  bool // it is a list of people

	bullets bool // bullets stood below it
}

const wordLevel = 7

// An item is one thing written down, before it is judged.
type item struct {
	start, end int           // file offsets of its words, continuation lines included
	from       line          // its first line
	prev       line          // its last line so far
	box        notes.TickBox // the box it begins with
	label      notes.Section // the section its label names, "" for none
	details    []span        // nested items
}

type span struct{ start, end int }

// read goes through the lines of a body.
func (r *noteReader) read(lines []line) {
	r.countRemarks(lines)
	for i := range lines {
		l := &lines[i]
		switch l.kind {
		case headingLine:
			i := *l
			r.flush()
			r.heading(i)
		case textLine:
			if l.block != r.wrap.block {
				r.wrap = r.paragraphOf(lines, i)
			}
			if i+1 < len(lines) && r.tableHeader(*l, lines[i+1]) {
				r.flush()
				r.remark(l.start, l.end)
				continue
			}
			var next *line
			if i+1 < len(lines) {
				next = &lines[i+1]
			}
			r.textLine(*l, next)
		case ruleLine, emptyItem:
			r.flush()
			r.structure(l.start, l.end)
		case codeLine:
			r.flush()
			r.last = -1
			r.remark(l.start, l.end)
		case htmlLine:
			r.flush()
			r.html(lines, i)
		}
	}
	r.flush()
	if len(r.note.Crew) == 0 {
		r.note.Crew = r.crew
	}
}

// tableHeader reports whether a line heads a table: it begins with a bar, and the next line of its
// block is one of dashes and bars; or it begins its block, has no figure, and the next line has as
// many bars and figures. The rows below it are read as lines.
func (r *noteReader) tableHeader(l, next line) bool {
	if bars := strings.Count(r.body[l.start:l.end], "|"); bars > 0 && l.block == next.block && l.start == r.wrap.start &&
		!anyDigit(r.body[l.start:l.end]) && anyDigit(r.body[next.start:next.end]) {
		return strings.Count(r.body[next.start:next.end], "|") == bars
	}
	return l.block == next.block && r.file.Text[l.start] == '|' && r.file.Text[next.start] == '|' &&
		len(bytes.Trim(r.file.Text[next.start:next.end], "|-: \t")) == 0
}

// html accounts for a line of raw HTML. A comment that is closed says nothing: a new note carries
// its hints as comments. Everything else is narrative.
func (r *noteReader) html(lines []line, i int) {
	l := lines[i]
	if i > 0 && lines[i-1].kind == htmlLine && lines[i-1].block == l.block {
		return // the first line of the block spoke for all
	}
	last := i
	for last+1 < len(lines) && lines[last+1].block == l.block && lines[last+1].kind == htmlLine {
		last++
	}
	start, end := l.start, lines[last].end
	text := r.body[start:end]
	switch {
	case strings.HasPrefix(text, "<!--") && strings.HasSuffix(text, "-->"):
		r.structure(start, end)
	case strings.HasPrefix(text, "<!--") && !strings.Contains(text, "-->"):
		r.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "note/comment-open", Span: r.file.Span(start, start+len("<!--")),
			Message: "the comment that begins here is never closed; what follows is kept as narrative",
			Hint:    "write --> where the comment ends",
		})
		fallthrough
	default:
		r.remark(start, end)
	}
}

// heading opens the section a heading names. Any other heading is narrative, and closes a section
// opened at its level or deeper.
func (r *noteReader) heading(l line) {
	text := r.body[l.start:l.end]
	if s, ok := r.sectionOrSlip(l.start, l.end); ok {
		r.openNamed(s, l.level, text)
		r.where.head("", l.level)
		r.structure(l.start, l.end)
		return
	}
	if s, at, ok := r.sectionLabel(l.start, l.end); ok && at < len(text) {
		r.openNamed(s, l.level, text[:at])
		r.where.head("", l.level)
		r.begin(item{start: l.start + at, end: l.end, from: l, prev: l})
		r.flush()
		return
	}
	if l.underlined || len(text) > 0 && isDigit(text[0]) && r.section.name != "" {
		// A rule below a line of text makes a heading of it, and "# 12 THHN" is wire.
		start := l.start
		if l.underlined {
			start = ownBullet(r.file.Text, l.start, l.end)
		}
		r.begin(item{start: start, end: l.end, from: l, prev: l})
		r.flush()
		return
	}
	if r.section.level == wordLevel || l.level <= r.section.level {
		r.section = opened{}
	}
	r.nested, r.last = 0, -1
	r.where.head(text, l.level)
	r.remark(l.start, l.end)
}

func (r *noteReader) open(s notes.Section, level int) {
	r.section, r.nested, r.last, r.carry = opened{name: s, level: level}, 0, -1, labelled{}
}

// text takes one line of a paragraph or list item.
func (r *noteReader) textLine(l line, next *line) {
	r.lines++
	own := ownBullet(r.file.Text, l.start, l.end)
	switch {
	case r.cur != nil && r.remarksOn(l, own, next):
		return
	case r.cur != nil && r.continues(l, own):
		r.cur.end, r.cur.prev = l.end, l
		return
	case r.cur != nil && r.details(l, own):
		return
	}
	r.flush()
	if r.nested > 0 && l.depth < r.nested {
		r.section, r.nested = r.outer, 0
	}
	r.endOfBullets(l, own)
	r.where.line(l)
	it := item{start: l.start, end: l.end, from: l, prev: l}
	it.start = own
	it.box, it.start = tickBox(r.file.Text, it.start, it.end)
	if r.opensBelow(it, l, next) {
		return
	}
	text := r.body[it.start:it.end]
	if s, at, ok := r.sectionLabel(it.start, it.end); ok && !r.subject(s, it.start+at, it.end) {
		if at >= len(text) {
			r.openByWord(s, l)
			return
		}
		r.labelled(it, s, at)
		return
	}
	r.begin(it)
}

// opensBelow takes a line that says nothing but what stands below it: the name of a section or a slip of one, an
// aside, a place, a heading of the writer's own.
func (r *noteReader) opensBelow(it item, l line, next *line) bool {
	text := r.body[it.start:it.end]
	if it.box != notes.NoBox {
		return false
	}
	if s, ok := sectionOf(r.scan.low[it.start:it.end]); ok && opensSection(text) {
		r.openByWord(s, l)
		return true
	}
	if r.isAside(text, l, next) {
		r.openByWord("", l)
		return true
	}
	if _, _, ok := r.sectionLabel(it.start, it.end); ok {
		return false
	}
	if r.marksHeading(text, l, next) {
		if near := r.nearSections(text); len(near) > 0 {
			r.openSlip(near, it, l)
			return true
		}
	}
	switch {
	case r.where.below(text, l, next):
		r.last = -1
	case l.depth == 0 && boldHeading(text) && r.section.level == wordLevel:
		r.section, r.nested, r.last = opened{}, 0, -1
	default:
		return false
	}
	r.remark(l.start, l.end)
	return true
}

// labelled begins an item that stands behind the name of a section: "parts: 4 recepts".
func (r *noteReader) labelled(it item, s notes.Section, at int) {
	label := r.scan.low[it.start : it.start+at]
	if s == notes.Time && crewNames[plainName(label)] {
		switch hours, names := r.crewLine(it.start+at, it.end); {
		case names:
			r.remark(it.start, it.end)
			return
		case !hours:
			r.begin(it) // "crew: left at noon" is what its words say
			return
		}
	}
	it.label = s
	if !tellingLabel(s, label) {
		it.start += at
	}
	r.begin(it)
}

// endOfBullets ends a section that a word alone on its line opened, once a plain line at the edge stands
// below its bullets: who writes bullets below "trouble" has left it with the first line that has none.
func (r *noteReader) endOfBullets(l line, own int) {
	bullet := l.item || own > l.start
	switch {
	case r.section.level != wordLevel || r.nested != 0:
	case bullet:
		r.section.bullets = true
	case r.section.bullets && r.indented(l) == 0:
		r.section, r.last = opened{}, -1
	}
}

// boldHeading reports whether a line is only a few bold words: a heading of a kind we have no section
// for, which ends the section above it.
func boldHeading(text string) bool {
	const longest = 40
	inner, ok := strings.CutPrefix(text, "**")
	inner, closed := strings.CutSuffix(strings.TrimRight(inner, " :"), "**")
	return ok && closed && len(inner) < longest && inner != "" && !strings.Contains(inner, "*") && !anyDigit(inner)
}

// subject reports whether the word before a colon is what a line is about, not a section: "ckts: all
// 3 pulled + landed".
func (r *noteReader) subject(s notes.Section, start, end int) bool {
	return s == notes.Circuits && signsOf(r.scan.scan(r.body[start:end], start)).has(workVerb|progressed)
}

// opensSection reports whether a section word alone on a line is meant as a heading. "Done." or
// "finished" below something is a remark on it, so a word with a full stop is none.
func opensSection(text string) bool { return !strings.HasSuffix(text, ".") }

// openByWord opens a section named on a line of its own; in a list item it holds for the items
// below it.
func (r *noteReader) openByWord(s notes.Section, l line) {
	before := r.section
	if r.nested > 0 {
		before = r.outer
	}
	r.openNamed(s, wordLevel, r.body[l.start:l.end])
	if l.depth > 0 {
		r.outer, r.nested = before, -(l.depth + 1) // counts once an item stands below it
	}
	r.structure(l.start, l.end)
}

func (r *noteReader) begin(it item) {
	if r.nested < 0 { // the first line behind a list item that opened a section
		if it.from.depth == -r.nested {
			r.nested = -r.nested
		} else {
			r.nested = 0
		}
	}
	r.store = it
	r.cur = &r.store
}

// continues reports whether a line goes on with the item before it.
func (r *noteReader) continues(l line, own int) bool {
	c := r.cur
	if l.item || own > l.start || l.block != c.prev.block || len(c.details) > 0 {
		return false
	}
	if r.lines <= 2 && hasDate(r.scan.scan(r.body[c.start:c.end], c.start)) {
		return false // the line some people begin a note with
	}
	if _, _, labelled := r.sectionLabel(l.start, l.end); labelled {
		return false
	}
	if _, ok := sectionOf(r.scan.low[l.start:l.end]); ok || asideNamed(r.body[l.start:l.end]) {
		return false
	}
	inList, indented := c.from.depth > 0, r.indented(l) > r.indented(c.from)
	return r.plainlyGoesOn(c.prev, l, inList, indented) || !r.partsAtLine(l, r.goesOn(c.prev, l, inList, indented))
}

// indented returns how many blanks a line is indented by; a tab counts as four.
func (r *noteReader) indented(l line) int {
	n := 0
	at := l.start
	if l.item {
		at = l.bullet
	}
	for at > 0 && (r.file.Text[at-1] == ' ' || r.file.Text[at-1] == '\t') {
		if at--; r.file.Text[at] == '\t' {
			n += 3
		}
		n++
	}
	return n
}

// details takes a line as a detail of the item before it: a nested list item, what goes on with
// one, or a further paragraph of the item.
func (r *noteReader) details(l line, own int) bool {
	c := r.cur
	if c.from.depth == 0 || l.depth == 0 {
		return false
	}
	if _, ok := sectionOf(r.scan.low[own:l.end]); ok {
		return false
	}
	if !l.item {
		if n := len(c.details); n > 0 && l.block == c.prev.block && own == l.start && l.depth > c.from.depth {
			c.details[n-1].end, c.prev = l.end, l
			return true
		}
		if l.block == c.prev.block {
			return false
		}
		c.details, c.prev = append(c.details, span{own, l.end}), l
		return true
	}
	if l.depth <= c.from.depth || len(c.details) == 0 && r.isPlace(c) {
		return false
	}
	c.details, c.prev = append(c.details, span{own, l.end}), l
	return true
}

// isPlace reports whether an item only heads the items below it: "kitchen:".
func (r *noteReader) isPlace(c *item) bool {
	if r.file.Text[c.end-1] != ':' {
		return false
	}
	e := evidenceOf(r.scan.scan(r.body[c.start:c.end], c.start), nil)
	return !e.signs.has(workVerb | soft | faulty | faultPhrase | asked)
}
