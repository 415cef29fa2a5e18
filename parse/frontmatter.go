package parse

import (
	"bytes"

	"github.com/adrg/frontmatter"
	"go.yaml.in/yaml/v4"

	"jobday/finding"
)

// A head is the front matter of a file and where the text behind it starts.
type head struct {
	keys *mapping
	span finding.Span // the front matter with both of its lines "---"; empty when there is none
	body int          // file offset of the first byte behind it
}

// readHead reads the front matter of a file; keys is never nil. Blank lines and a byte order mark
// may stand before it. A file whose first line is "---" and whose second is no key has a rule
// there, not front matter. Where the closing "---" is missing, the lines that look like keys are
// read and the rest is body, with a finding.
func readHead(f *finding.File, found *finding.List) head {
	e := findHead(f.Text)
	h := head{span: f.Span(e.open, e.end), body: e.end}
	within := f.Span(e.keys, e.keysEnd)
	if !e.closed {
		h.body = e.keysEnd
		h.span = f.Span(e.open, e.keysEnd)
	}
	if e.keys == e.keysEnd {
		h.keys = &mapping{what: "the front matter", span: h.span, found: found}
		return h
	}
	if !e.closed {
		found.Add(finding.Finding{
			Severity: finding.Error, Rule: "frontmatter/open", Span: f.Span(e.open, e.open+3),
			Message: "the front matter that begins here is never closed",
			Hint:    "write --- on a line of its own below the last key",
		})
		h.keys = loadYAML(f, within, "the front matter", found)
		return h
	}
	h.keys = loadHead(f, e, found)
	if len(h.keys.fields) > 0 {
		return h
	}
	h.keys.span = h.span
	return h
}

// loadHead hands the lines of the front matter to the front matter reader, with a format of our
// own: its default ones ignore unknown keys and count lines without columns. Only the head of the
// file is handed over, since it copies what it is given.
func loadHead(f *finding.File, e headEnds, found *finding.List) *mapping {
	in := &yamlText{file: f, base: e.keys, text: f.Text[e.keys:e.keysEnd]}
	m := &mapping{what: "the front matter", span: f.Span(e.open, e.end), found: found}
	var root yaml.Node
	load := func(raw []byte, into any) error { return yaml.Load(raw, into) }
	lines := bytes.NewReader(f.Text[e.open:e.end])
	if _, err := frontmatter.Parse(lines, &root, frontmatter.NewFormat("---", "---", load)); err != nil {
		return loadYAML(f, f.Span(e.keys, e.keysEnd), "the front matter", found)
	}
	m.addRoot(&root, in)
	return m
}

// headEnds are the file offsets of front matter: its first "---", its keys, the end of the last of
// them, and the end of the closing line.
type headEnds struct {
	open, keys, keysEnd, end int
	closed                   bool
}

// findHead finds front matter. Without any, all offsets are the start of the text behind a byte
// order mark.
func findHead(text []byte) headEnds {
	start := 0
	if bytes.HasPrefix(text, byteOrderMark) {
		start = len(byteOrderMark)
	}
	none := headEnds{start, start, start, start, true}
	open := start
	for {
		line, next := lineAt(text, open)
		if isRule(line) {
			break
		}
		if len(bytes.TrimSpace(line)) > 0 || next >= len(text) {
			return none
		}
		open = next
	}
	_, keys := lineAt(text, open)
	e := headEnds{open: open, keys: keys}
	if !e.close(text) || !looksLikeKeys(text[keys:e.keysEnd]) {
		return none
	}
	return e
}

// close finds the line that ends the keys, and reports whether there are or may be any.
func (e *headEnds) close(text []byte) bool {
	lastKey := e.keys
	for at, keysOn := e.keys, true; at < len(text); {
		line, next := lineAt(text, at)
		trimmed := bytes.TrimSpace(line)
		if isRule(line) {
			e.keysEnd, e.end, e.closed = at, next, true
			return true
		}
		if string(trimmed) == "..." {
			break
		}
		if keysOn = keysOn && keyLine(line); keysOn {
			lastKey = next
		}
		if at-e.keys > largestHead {
			break
		}
		at = next
	}
	e.keysEnd, e.end = lastKey, lastKey
	return lastKey > e.keys
}

// largestHead is how far, in bytes, the end of front matter is looked for.
const largestHead = 1 << 20

// looksLikeKeys reports whether text between two rules is front matter rather than prose: its first
// line with content could be a key, or, in a short block without blank lines, some line starts with
// a key people write. Nothing at all counts as empty front matter.
func looksLikeKeys(text []byte) bool {
	const shortBlock = 12
	first, n := true, 0
	for line := range bytes.Lines(text) {
		trimmed := bytes.TrimSpace(line)
		if n++; n > shortBlock && !first || len(trimmed) == 0 && !first {
			return false
		}
		if len(trimmed) == 0 || trimmed[0] == '#' {
			continue
		}
		if first && keyLine(line) || startsWithKey(trimmed) {
			return true
		}
		first = false
	}
	return first
}

// startsWithKey reports whether a line begins with the name of a key of notes or scopes, so that
// "date 2026-03-12" without its colon is still seen.
func startsWithKey(line []byte) bool {
	i := 0
	for i < len(line) && isLetter(line[i]) {
		i++
	}
	switch string(bytes.ToLower(line[:i])) {
	case "date", "crew", "job", "author", "title", "customer", "site", "booked", "tax":
		return true
	}
	return false
}

// keyLine reports whether a line could belong to front matter: a word and a colon, something
// indented below a key, a list item, a comment.
func keyLine(line []byte) bool {
	trimmed := bytes.TrimSpace(line)
	if len(trimmed) == 0 {
		return false
	}
	if len(line) > 1 && (line[0] == ' ' || line[0] == '\t' || line[0] == '#' && trimmed[0] == '#' && line[1] != '#') {
		return true
	}
	i := 0
	for i < len(trimmed) && (isLetter(trimmed[i]) || i > 0 && (isDigit(trimmed[i]) || trimmed[i] == '_' || trimmed[i] == '-')) {
		i++
	}
	return i > 0 && i < len(trimmed) && trimmed[i] == ':' && (i+1 == len(trimmed) || trimmed[i+1] == ' ' || trimmed[i+1] == '\t')
}

// isRule reports whether a line is "---" and nothing else.
func isRule(line []byte) bool { return string(bytes.TrimSpace(line)) == "---" }

// lineAt returns the line that starts at i, with its line break, and where the next one starts.
func lineAt(text []byte, i int) (line []byte, next int) {
	if n := bytes.IndexByte(text[i:], '\n'); n >= 0 {
		return text[i : i+n+1], i + n + 1
	}
	return text[i:], len(text)
}

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }
func isDigit(c byte) bool  { return '0' <= c && c <= '9' }
