package parse

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"jobday/finding"
)

// A yamlText is a stretch of a file that was handed to the YAML reader on its own.
type yamlText struct {
	file   *finding.File
	base   int // file offset of its first byte
	text   []byte
	starts []int // offset in text of each line as YAML counts lines, computed when first needed
}

// offset returns the place in the file of a line and column as YAML reports them: both from 1, the
// column in code points. A place past the text is its end.
func (t *yamlText) offset(line, column int) int {
	if t.starts == nil {
		t.starts = yamlLines(t.text)
	}
	if line < 1 {
		return t.base
	}
	if line > len(t.starts) {
		return t.base + len(t.text)
	}
	i := t.starts[line-1]
	for ; column > 1 && i < len(t.text); column-- {
		_, n := utf8.DecodeRune(t.text[i:])
		i += n
	}
	return t.base + i
}

// yamlLines returns where lines start. Unlike everything else here, the YAML reader also ends a
// line at a lone CR, NEL, LS or PS (yaml/v4 v4.0.0, read in its scanner).
func yamlLines(text []byte) []int {
	starts := []int{0}
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRune(text[i:])
		i += n
		switch r {
		case '\r':
			if i < len(text) && text[i] == '\n' {
				i++
			}
			fallthrough
		case '\n', '\u0085', '\u2028', '\u2029':
			starts = append(starts, i)
		}
	}
	return starts
}

// loadYAML reads text[start:end] of the file as a mapping; what names it in findings.
// It is never nil. Where the text is broken, each top-level key is read on its own, so that one
// bad line costs one key.
func loadYAML(f *finding.File, where finding.Span, what string, found *finding.List) *mapping {
	text := f.Text[where.Start:where.End]
	m := &mapping{what: what, span: where, found: found}
	if !utf8.Valid(text) {
		found.Add(invalidUTF8(f, where.Start, where.End))
		return m
	}
	if bytes.HasPrefix(text, byteOrderMark) {
		where.Start += len(byteOrderMark)
		text = text[len(byteOrderMark):]
	}
	whole := &yamlText{file: f, base: where.Start, text: text}
	var root yaml.Node
	if err := yaml.Load(text, &root); err == nil {
		m.addRoot(&root, whole)
		return m
	}
	for _, part := range yamlParts(whole) {
		m.addPart(part)
	}
	m.refuseDuplicates()
	return m
}

// addRoot takes the keys of a loaded document.
func (m *mapping) addRoot(root *yaml.Node, in *yamlText) {
	if root.Kind == yaml.DocumentNode && len(root.Content) > 0 {
		root = root.Content[0]
	}
	switch v := (value{root, in}); {
	case root.Kind == yaml.MappingNode:
		m.add(v)
		m.refuseDuplicates()
	case root.Kind == 0 || root.Tag == "!!null":
	default:
		m.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "value/kind", Span: v.span(),
			Message: m.what + " is " + v.kind() + "; expected keys, one a line",
			Hint:    "write each as key: value",
		})
	}
}

// addPart reads one top-level key with its value, with a finding if that is not YAML.
func (m *mapping) addPart(part *yamlText) {
	var root yaml.Node
	err := yaml.Load(part.text, &root)
	if err == nil {
		if len(root.Content) > 0 && root.Content[0].Kind == yaml.MappingNode {
			m.add(value{root.Content[0], part})
		} else if root.Kind != 0 && len(bytes.TrimSpace(part.text)) > 0 {
			m.addRoot(&root, part)
		}
		return
	}
	if blankYAML(part.text) {
		return
	}
	m.found.Add(syntaxFinding(m.what, err, part))
}

// blankYAML reports whether text has nothing but white space, comments and document marks.
func blankYAML(text []byte) bool {
	for line := range bytes.Lines(text) {
		line = bytes.TrimSpace(line)
		if len(line) > 0 && line[0] != '#' && string(line) != "---" && string(line) != "..." {
			return false
		}
	}
	return true
}

// syntaxFinding says where the YAML reader gave up, and where the thing it was reading began.
func syntaxFinding(what string, err error, in *yamlText) finding.Finding {
	f := finding.Finding{
		Severity: finding.Error, Rule: "yaml/syntax",
		Message: "this part of " + what + " cannot be read",
		Span:    in.file.Span(in.base, in.base+firstLineEnd(in.text)),
	}
	var le *yaml.LoadError
	if errors.As(err, &le) {
		at := in.offset(le.Mark.Line, le.Mark.Column)
		if le.Mark.Line == 0 {
			at = in.base
		}
		at = in.lastContent(at)
		f.Span = in.file.Span(at, at+firstLineEnd(in.file.Text[at:in.base+len(in.text)]))
		if f.Message += ": " + strings.ToLower(le.Message); le.ContextMark.Line > 0 {
			from := in.offset(le.ContextMark.Line, le.ContextMark.Column)
			f.Related = []finding.Related{{
				Message: "it began here",
				Span:    in.file.Span(from, from+firstLineEnd(in.file.Text[from:in.base+len(in.text)])),
			}}
		}
	}
	f.Hint = syntaxHint(in)
	return f
}

// lastContent moves a place at the end of the text back to the last thing written in it.
func (t *yamlText) lastContent(at int) int {
	rest := t.text[min(at-t.base, len(t.text)):]
	if len(bytes.TrimSpace(rest)) > 0 {
		return at
	}
	end := len(bytes.TrimRight(t.text[:min(at-t.base, len(t.text))], " \t\r\n"))
	start := bytes.LastIndexByte(t.text[:end], '\n') + 1
	for start < end && (t.text[start] == ' ' || t.text[start] == '\t') {
		start++
	}
	return t.base + start
}

// syntaxHint guesses the usual slips: a tab, a missing colon, an open bracket or quote, a colon in a value.
func syntaxHint(in *yamlText) string {
	line := string(bytes.TrimSpace(in.text[:firstLineEnd(in.text)]))
	key, val, colon := strings.Cut(line, ":")
	val = strings.TrimSpace(val)
	switch {
	case bytes.Contains(in.text, []byte("\t")):
		return "indent with spaces, not tabs"
	case !colon:
		return "write it as key: value, or put # before a comment"
	case strings.HasPrefix(val, "[") && !strings.Contains(val, "]"):
		return "close the list: " + key + ": " + val + "]"
	case strings.HasPrefix(val, `"`) || strings.HasPrefix(val, "'"):
		return "close the quote, or write " + key + ": " + strings.Trim(val, `"'`)
	case strings.Contains(val, ": ") || strings.ContainsAny(val, `[]{}*&!|>%@#`):
		return "put the value in quotes: " + key + `: "` + strings.ReplaceAll(val, `"`, "") + `"`
	}
	return "write it as key: value on one line, lists as key: [one, two]"
}

// yamlParts cuts a text before every line that starts a key in the first column.
func yamlParts(t *yamlText) []*yamlText {
	var parts []*yamlText
	start := 0
	cut := func(end int) {
		if end > start {
			parts = append(parts, &yamlText{file: t.file, base: t.base + start, text: t.text[start:end]})
		}
		start = end
	}
	for i := 0; i < len(t.text); {
		if c := t.text[i]; strings.IndexByte(" \t\r\n-#]},.\"'", c) < 0 {
			cut(i)
		}
		next := bytes.IndexByte(t.text[i:], '\n')
		if next < 0 {
			break
		}
		i += next + 1
	}
	cut(len(t.text))
	return parts
}

// firstLineEnd returns the length of the first line of text without blanks at its end.
func firstLineEnd(text []byte) int {
	if i := bytes.IndexByte(text, '\n'); i >= 0 {
		text = text[:i]
	}
	return len(bytes.TrimRight(text, " \t\r"))
}

var byteOrderMark = []byte("\ufeff")

// invalidUTF8 points at the first byte from start that is not UTF-8, or is a NUL.
func invalidUTF8(f *finding.File, start, end int) finding.Finding {
	at := start
	for at < end {
		r, n := utf8.DecodeRune(f.Text[at:end])
		if r == utf8.RuneError && n < 2 || r == 0 {
			break
		}
		at += n
	}
	return finding.Finding{
		Severity: finding.Error, Rule: "file/encoding", Span: f.Span(at, at+1),
		Message: "this byte is not text in UTF-8",
		Hint:    "save the file as UTF-8",
	}
}
