package parse

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"jobday/notes"
)

// A line break in a jotted note parts things. Only where a line was too full for the next word may
// the break be one that an editor or the edge of a page made; the lines then read on.
const (
	narrowest = 55  // characters from which lines may be full
	widest    = 120 // more than any page or editor wraps at
)

// A paragraph is how the lines of one block were broken.
type paragraph struct {
	block int
	start int  // where its first line starts
	width int  // of its longest line, in characters
	even  bool // most of its lines are full, so that it was wrapped
}

// paragraphOf measures the block that starts at line i.
func (r *noteReader) paragraphOf(lines []line, i int) paragraph {
	p := paragraph{block: lines[i].block, start: lines[i].start}
	last := i
	for last+1 < len(lines) && lines[last+1].block == p.block && lines[last+1].kind == textLine {
		last++
	}
	for j := i; j <= last; j++ {
		p.width = max(p.width, r.width(lines[j]))
	}
	full := 0
	for j := i; j < last; j++ {
		if r.isFull(lines[j], lines[j+1], p.width) {
			full++
		}
	}
	p.even = full > 1 && 2*full >= last-i && p.width <= widest
	return p
}

// width is where a line ends, in characters from the edge.
func (r *noteReader) width(l line) int {
	edge := strings.LastIndexByte(r.body[:l.start], '\n') + 1
	return utf8.RuneCountInString(r.body[edge:l.end])
}

// isFull reports whether the first word of the next line would not have fitted on a line.
func (r *noteReader) isFull(l, next line, width int) bool {
	if width < narrowest {
		return false
	}
	word := r.body[next.start:next.end]
	if i := strings.IndexAny(word, " \t"); i > 0 {
		word = word[:i]
	}
	return r.width(l)+1+utf8.RuneCountInString(word) > width
}

// plainlyGoesOn reports whether line l cannot but read on from the line before it: it is indented below a bullet, or
// the line before it ends with a word or sign that needs another.
func (r *noteReader) plainlyGoesOn(prev, l line, inList, indented bool) bool {
	text := r.file.Text
	last := text[prev.end-1]
	switch {
	case inList && indented:
		return true
	case r.startsAnew(l):
		return false
	case last == ',':
		return inList
	}
	small := 'a' <= text[l.start] && text[l.start] <= 'z'
	if small && r.wrap.even && strings.IndexByte(".!?:;", last) < 0 && r.isFull(prev, l, r.wrap.width) {
		return true // an editor broke it
	}
	return strings.IndexByte("&+-/", last) >= 0 || endsOpen(text[prev.start:prev.end])
}

// goesOn reports whether line l may read on from the line before it. Inside a list item an indented
// line does.
func (r *noteReader) goesOn(prev, l line, inList, indented bool) bool {
	text := r.file.Text
	last, first := text[prev.end-1], text[l.start]
	lower := 'a' <= first && first <= 'z'
	switch {
	case inList && indented:
		return true
	case strings.IndexByte(".!?:;", last) >= 0, r.startsAnew(l):
		return false
	case last == ',':
		return inList || indented || !r.startsWork(l) && !isDigit(first)
	case strings.IndexByte("&+-/", last) >= 0 || endsOpen(text[prev.start:prev.end]):
		return true
	case indented && (lower && r.cur.label == "" || r.isFull(prev, l, r.wrap.width)) && !r.startsWork(l) && !(r.cur.label != "" && reports(r.scan.scan(r.body[l.start:l.end], l.start))):
		return true
	case startsOpen(text[l.start:l.end]):
		return true
	case !r.isFull(prev, l, r.wrap.width):
		return false
	}
	capital := startsSentence(r.body[r.cur.start:r.cur.end])
	switch {
	case capital && lower, capital && r.wrap.even && !startsSentence(r.body[l.start:l.end]):
		return true
	case startsSentence(r.body[l.start:l.end]) && !r.wrap.even:
		return false
	}
	return r.saysLittle(l)
}

// saysLittle reports whether a line names nothing and tells of nothing by itself, so that it can
// only end what stands above it: "one did not come yet".
func (r *noteReader) saysLittle(l line) bool {
	marks := r.scan.scan(r.body[l.start:l.end], l.start)
	const much = tested | progressed | delivered | workVerb | thing | clockSpan | looseSpan | foundIt | asked | somebody | instrument | measured | faulty | faultPhrase
	e := evidenceOf(marks, nil)
	v := judgeWords(e)
	for i := range marks {
		if marks[i].kind == numberMark {
			return false
		}
	}
	return !e.signs.has(much) && !e.asks && (v.kind == notes.LeftOpen || v.score < clearScore)
}

// startsAnew reports whether a line begins like a new entry whatever stands before it: a name with
// times, "found", a numbered place, a scope label.
func (r *noteReader) startsAnew(l line) bool {
	i := l.start
	for i < l.end && isLetter(r.file.Text[i]) {
		i++
	}
	word := r.scan.low[l.start:i]
	rest := strings.TrimLeft(r.body[i:l.end], " \t:-")
	switch {
	case word == "found" || word == "tomorrow" || word == "noticed":
		return true
	case word == "":
		return false
	case rest != "" && isDigit(rest[0]) && (numberedPlaces[word] || r.lex.Name(word) != ""):
		return true
	}
	label, _ := r.scopeLabel(r.body[l.start:l.end], notes.Done)
	return label != ""
}

// endsOpen reports whether a line ends with a word that needs another: "and", "with", "the". What
// may end a line of its own, such as "3 pendants in", does not.
func endsOpen(l []byte) bool {
	i := len(l)
	for i > 0 && isLetter(l[i-1]) {
		i--
	}
	switch strings.ToLower(string(l[i:])) {
	case "to": // "he decided not to" wants no more
		return !strings.HasSuffix(strings.ToLower(string(l)), "not to")
	case "and", "with", "the", "a", "an", "of", "for", "at", "from", "or", "because", "so":
		return true
	}
	return false
}

// startsWork reports whether a line begins with a verb of work: "helped Ines", "set the box". It is
// the next thing, not the end of a line that was full.
func (r *noteReader) startsWork(l line) bool {
	i := l.start
	for i < l.end && isLetter(r.file.Text[i]) {
		i++
	}
	low := r.scan.low[l.start:i]
	return low != "did" && (signWords[low] | vocabularySign(low)).has(workVerb)
}

// startsOpen reports whether a line begins with a word that goes on with something.
func startsOpen(l []byte) bool {
	i := 0
	for i < len(l) && isLetter(l[i]) {
		i++
	}
	switch string(l[:i]) {
	case "and", "so", "but", "because", "which", "then", "or", "since", "until":
		return true
	}
	return false
}

// startsSentence reports whether a text begins with a capital followed by small letters.
func startsSentence(s string) bool {
	r, n := utf8.DecodeRuneInString(s)
	r2, _ := utf8.DecodeRuneInString(s[n:])
	return unicode.IsUpper(r) && (unicode.IsLower(r2) || r2 == ' ' || r2 == '\'')
}
