package finding

import (
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
)

// TextOptions says how findings are shown to people. The zero value is plain text that fits any
// terminal and any file.
type TextOptions struct {
	Color bool // ANSI colours, for a terminal only; nothing is said by colour alone
	Width int  // columns of a source line shown before it is cut around the caret; 0 for 100
}

// WriteText writes the findings for people: place, severity, message and rule on one line, the
// source line with a caret run under the exact words, then hint, held money and related places.
//
//	jobs/2431-bakery/2026-03-12.md:27:8: error: unknown unit "fet" [unit/unknown]
//	  27 |   - 52 fet 10/2 MC
//	     |        ^^^
//	  hint: did you mean "ft"?
//
// Lines and columns count from 1, columns in code points. Control characters of the input are
// shown as U+FFFD, so that a note cannot drive the terminal. It is one Write.
func WriteText(w io.Writer, l List, opt TextOptions) error {
	if len(l) == 0 {
		return nil
	}
	p := printer{opt: opt}
	if p.opt.Width <= 0 {
		p.opt.Width = 100
	}
	for i, f := range l {
		if i > 0 {
			p.b.WriteByte('\n')
		}
		p.finding(f)
	}
	_, err := io.WriteString(w, p.b.String())
	return err
}

// Summary counts the findings in words: "1 error, 2 warnings", or "no findings".
func (l List) Summary() string {
	var parts []string
	for s := Error; s <= Note; s++ {
		switch n := l.Count(s); n {
		case 0:
		case 1:
			parts = append(parts, "1 "+s.String())
		default:
			parts = append(parts, strconv.Itoa(n)+" "+s.String()+"s")
		}
	}
	if parts == nil {
		return "no findings"
	}
	return strings.Join(parts, ", ")
}

// The colours of a terminal, by what is shown.
const (
	bold   = "\x1b[1m"
	red    = "\x1b[1;31m"
	yellow = "\x1b[1;33m"
	blue   = "\x1b[1;34m"
	dim    = "\x1b[2m"
	reset  = "\x1b[0m"
)

func (s Severity) color() string {
	switch s {
	case Error:
		return red
	case Warning:
		return yellow
	}
	return blue
}

// A printer builds the text of findings in memory.
type printer struct {
	opt TextOptions
	b   strings.Builder
}

// paint writes s, in a colour if there is colour.
func (p *printer) paint(color, s string) {
	if p.opt.Color && s != "" {
		s = color + s + reset
	}
	p.b.WriteString(s)
}

func (p *printer) finding(f Finding) {
	if f.Span.Known() {
		p.paint(bold, place(f.Span)+":")
		p.b.WriteByte(' ')
	}
	p.paint(f.Severity.color(), f.Severity.String()+":")
	p.b.WriteByte(' ')
	p.b.WriteString(Printable(f.Message))
	p.paint(dim, " ["+f.Rule+"]")
	p.b.WriteByte('\n')
	p.source(f.Span, f.Severity.color())
	p.row("hint: ", f.Hint)
	p.row("held: ", f.Holds)
	for _, r := range f.Related {
		p.related(r)
	}
}

func (p *printer) row(label, text string) {
	if text == "" {
		return
	}
	p.b.WriteString("  ")
	p.paint(bold, label)
	p.b.WriteString(Printable(text))
	p.b.WriteByte('\n')
}

func (p *printer) related(r Related) {
	p.b.WriteString("  ")
	if r.Span.Known() {
		p.paint(bold, place(r.Span)+":")
		p.b.WriteByte(' ')
	}
	p.b.WriteString(Printable(r.Message))
	p.b.WriteByte('\n')
	p.source(r.Span, blue)
}

// place returns "file:line:column", or the name alone for an empty file: there is no line to see.
func place(s Span) string {
	name := Printable(s.File.Name)
	if len(s.File.Text) == 0 {
		return name
	}
	line, column := s.Position()
	return name + ":" + strconv.Itoa(line) + ":" + strconv.Itoa(column)
}

// source writes the line the span begins on and the caret run under it.
func (p *printer) source(s Span, color string) {
	if !s.Known() || len(s.File.Text) == 0 {
		return
	}
	line, _ := s.Position()
	whole := s.File.LineSpan(line)
	start := min(max(s.Start-whole.Start, 0), whole.End-whole.Start)
	end := min(max(s.End-whole.Start, start), whole.End-whole.Start)
	text, start, end := window(whole.Text(), start, end, p.opt.Width)
	number := strconv.Itoa(line)
	blank := strings.Repeat(" ", len(number))

	p.paint(dim, "  "+number+" | ")
	p.b.WriteString(Printable(text))
	p.b.WriteByte('\n')
	p.paint(dim, "  "+blank+" | ")
	p.b.WriteString(padding(text[:start]))
	carets := max(1, displayWidth(text[start:end]))
	p.paint(color, strings.Repeat("^", carets))
	p.b.WriteByte('\n')
}

const ellipsis = "…"

// window cuts a long line around the words from start to end, so that they stay visible, and
// returns the piece and where the words stand in it.
func window(text string, start, end, width int) (string, int, int) {
	if displayWidth(text) <= width {
		return text, start, end
	}
	from := back(text, start, width/3)
	to := ahead(text, from, width)
	end = max(start, min(end, to))
	piece, shift := text[from:to], -from
	if from > 0 {
		piece, shift = ellipsis+piece, shift+len(ellipsis)
	}
	if to < len(text) {
		piece += ellipsis
	}
	return piece, start + shift, end + shift
}

// back returns the offset at most columns before the byte at start, on a code point.
func back(text string, start, columns int) int {
	for start > 0 && columns > 0 {
		_, n := utf8.DecodeLastRuneInString(text[:start])
		columns -= max(1, displayWidth(text[start-n:start]))
		start -= n
	}
	return start
}

// ahead returns the offset at most columns after the byte at start, on a code point.
func ahead(text string, start, columns int) int {
	for start < len(text) && columns > 0 {
		_, n := utf8.DecodeRuneInString(text[start:])
		columns -= max(1, displayWidth(text[start:start+n]))
		start += n
	}
	return start
}

// terminalWidth counts the same everywhere: the package's own default asks the environment.
var terminalWidth = &runewidth.Condition{StrictEmojiNeutral: true}

// displayWidth returns how many columns s takes on a terminal as Printable shows it, a tab as one.
func displayWidth(s string) int {
	return terminalWidth.StringWidth(strings.ReplaceAll(Printable(s), "\t", " "))
}

// padding returns blanks as wide as s is shown; tabs stay tabs, as wide as the terminal makes them.
func padding(s string) string {
	var b strings.Builder
	for i, part := range strings.Split(s, "\t") {
		if i > 0 {
			b.WriteByte('\t')
		}
		b.WriteString(strings.Repeat(" ", displayWidth(part)))
	}
	return b.String()
}

// Printable replaces what could move the cursor, hide text or turn its direction: control
// characters besides the tab, formatting characters besides the joiners, broken bytes.
func Printable(s string) string {
	clean := true
	for i := 0; i < len(s) && clean; i++ {
		clean = s[i] >= ' ' && s[i] < 0x7f || s[i] == '\t'
	}
	if clean {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t', r == '\u200d', r == '\u200c':
			return r
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r), r == '\u2028', r == '\u2029':
			return utf8.RuneError
		}
		return r
	}, s)
}
