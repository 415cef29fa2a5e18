package parse

import (
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// A lineKind says what part of a Markdown text a line is.
type lineKind byte

const (
	textLine    lineKind = iota + 1 // of a paragraph or list item
	headingLine                     // with or without number signs
	codeLine                        // between fences
	htmlLine                        // raw HTML or a comment
	ruleLine                        // a thematic break
	emptyItem                       // a bullet with nothing behind it
	tableLine                       // of a table: its header or a row
)

// A line is one line of a Markdown text in the order written: where its content stands, without
// list bullet, quote marks, number signs and outer blanks.
type line struct {
	kind       lineKind
	start, end int  // file offsets of the content
	depth      int  // how many lists it stands in
	item       bool // it is the first line of a list item
	bullet     int  // file offset of the item's bullet
	block      int  // number of its block, from 1: lines of one paragraph share it
	level      int  // of a heading, from 1
	underlined bool // the heading is one only by the line of = or - below it
	header     bool // the header of a table
}

// The block parsers we use. Inline parsing is left out on purpose: we read boxes, bold section
// words and pictures from the raw line, and goldmark's inline parsing is quadratic on hostile
// input. Link definitions are left out because a note has none: "[Ruth]: call back" is text.
var blockParsers = []util.PrioritizedValue{
	util.Prioritized(parser.NewSetextHeadingParser(), 100),
	util.Prioritized(parser.NewThematicBreakParser(), 200),
	util.Prioritized(parser.NewListParser(), 300),
	util.Prioritized(parser.NewListItemParser(), 400),
	util.Prioritized(parser.NewCodeBlockParser(), 500),
	util.Prioritized(parser.NewATXHeadingParser(), 600),
	util.Prioritized(parser.NewFencedCodeBlockParser(), 700),
	util.Prioritized(parser.NewBlockquoteParser(), 800),
	util.Prioritized(parser.NewHTMLBlockParser(), 900),
	util.Prioritized(parser.NewParagraphParser(), 1000),
}

// noteMarkdown reads the blocks of a note, scopeMarkdown those of a scope, which has tables.
// Both are only read after they are made, and may be used from many goroutines.
var (
	noteMarkdown  = parser.NewParser(parser.WithBlockParsers(blockParsers...))
	scopeMarkdown = parser.NewParser(
		parser.WithBlockParsers(blockParsers...),
		parser.WithParagraphTransformers(util.Prioritized(extension.NewTableParagraphTransformer(), 200)),
	)
)

// deepest is how many lists and quotes may stand in one another. Nobody writes more, and the time
// to read grows with depth times lines.
const deepest = 50

// markdownLines splits body, which starts at the file offset base, into lines.
// It reports false where something is nested deeper than deepest.
func markdownLines(p parser.Parser, body []byte, base int) ([]line, bool) {
	doc := p.Parse(text.NewReader(body))
	s := splitter{body: body, base: base, lines: make([]line, 0, len(body)/32+4)}
	ok := s.children(doc, 0, 0)
	return s.lines, ok
}

// A splitter walks the blocks of a text.
type splitter struct {
	body  []byte
	base  int
	block int
	lines []line
	// bullet is the offset in body of the list item whose first line is still to come, or -1.
	bullet  int
	pending bool
}

func (s *splitter) children(n ast.Node, depth, level int) bool {
	if level > deepest {
		return false
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if !s.node(c, depth, level) {
			return false
		}
	}
	return true
}

func (s *splitter) node(n ast.Node, depth, level int) bool {
	switch n.Kind() {
	case ast.KindList:
		return s.children(n, depth+1, level+1)
	case ast.KindListItem:
		s.flushEmpty(depth)
		s.bullet, s.pending = s.at(n), true
		ok := s.children(n, depth, level)
		s.flushEmpty(depth)
		return ok
	case ast.KindBlockquote:
		return s.children(n, depth, level+1)
	case ast.KindParagraph, ast.KindTextBlock:
		s.add(n, line{kind: textLine, depth: depth})
	case ast.KindHeading:
		h := n.(*ast.Heading)
		s.add(n, line{kind: headingLine, depth: depth, level: h.Level, underlined: s.underlined(n)})
	case ast.KindCodeBlock: // people indent with a tab and mean nothing by it
		s.add(n, line{kind: textLine, depth: depth})
	case ast.KindFencedCodeBlock:
		s.add(n, line{kind: codeLine, depth: depth})
	case ast.KindHTMLBlock:
		s.add(n, line{kind: htmlLine, depth: depth})
		if h := n.(*ast.HTMLBlock); h.HasClosure() {
			s.segment(h.ClosureLine, line{kind: htmlLine, depth: depth, block: s.block})
		}
	case ast.KindThematicBreak:
		s.block++
		s.push(s.at(n), s.at(n)+firstLineEnd(s.body[s.at(n):]), line{kind: ruleLine, depth: depth, block: s.block})
	case extast.KindTable:
		s.table(n, depth)
	}
	return true
}

// underlined reports whether a heading has no number sign.
func (s *splitter) underlined(n ast.Node) bool {
	at := s.at(n)
	return at >= 0 && at < len(s.body) && s.body[at] != '#'
}

// flushEmpty writes the list item whose content never came.
func (s *splitter) flushEmpty(depth int) {
	if s.pending {
		s.block++
		s.push(s.bullet, s.bullet+1, line{kind: emptyItem, depth: depth, block: s.block})
	}
	s.pending = false
}

// add writes the lines of a block.
func (s *splitter) add(n ast.Node, l line) {
	s.block++
	l.block = s.block
	lines := n.Lines()
	for i := 0; i < lines.Len(); i++ {
		s.segment(lines.At(i), l)
	}
}

func (s *splitter) segment(seg text.Segment, l line) { s.push(seg.Start, seg.Stop, l) }

// at returns where a block begins. Behind a tab in a quotation the parser counts columns, and what
// it says may lie past the text: then the block is the last thing there.
func (s *splitter) at(n ast.Node) int {
	at := max(n.Pos(), 0)
	if at < len(s.body) {
		return at
	}
	at = max(len(s.body)-1, 0)
	for at > 0 && (s.body[at] == ' ' || s.body[at] == '\t' || s.body[at] == '\n' || s.body[at] == '\r') {
		at--
	}
	return at
}

// push writes one line without its outer blanks, if anything is left.
func (s *splitter) push(start, end int, l line) {
	start, end = trimBlanks(s.body, start, end)
	if start >= end {
		return
	}
	l.start, l.end = s.base+start, s.base+end
	if s.pending && l.kind != emptyItem {
		l.item, l.bullet = true, s.base+s.bullet
		s.pending = false
	}
	s.lines = append(s.lines, l)
}

func (s *splitter) table(n ast.Node, depth int) {
	s.block++
	for r := n.FirstChild(); r != nil; r = r.NextSibling() {
		at := r.Pos()
		if at < 0 || at > len(s.body) {
			continue
		}
		s.push(at, at+firstLineEnd(s.body[at:]), line{
			kind: tableLine, depth: depth, block: s.block, header: r.Kind() == extast.KindTableHeader,
		})
	}
}

// trimBlanks moves start and end inward past blanks and line breaks.
func trimBlanks(text []byte, start, end int) (int, int) {
	for start < end && isBlank(text[start]) {
		start++
	}
	for end > start && isBlank(text[end-1]) {
		end--
	}
	return start, end
}

func isBlank(c byte) bool {
	return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\v' || c == '\f'
}
