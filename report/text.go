package report

import (
	"bytes"
	"io"
	"strconv"
	"strings"
	"unicode"

	"github.com/mattn/go-runewidth"

	"jobday/finding"
	"jobday/notes"
	"jobday/sheet"
)

// TextOptions says how the terminal summary looks.
type TextOptions struct {
	Color bool // ANSI colours; default none
	Width int  // columns of the terminal; 0 for 80, at least 40
}

// Text writes the day as a terminal summary: the four answers, then the scope with a small bar,
// the hours and what is unclear. It is readable without colour.
func Text(w io.Writer, in Input, opt TextOptions) error {
	v, err := newView(in)
	if err != nil {
		return err
	}
	if opt.Width == 0 {
		opt.Width = 80
	}
	s := summary{View: v, opt: opt, width: max(opt.Width, 40)}
	s.heading()
	s.bill()
	s.held()
	s.send()
	s.hazards()
	s.scope()
	s.hours()
	s.unclear()
	s.found()
	_, err = w.Write(s.out.Bytes())
	return err
}

// summary builds the terminal summary.
type summary struct {
	*View
	opt   TextOptions
	width int
	out   bytes.Buffer
}

// ink is an ANSI colour; what it says is always said in words too.
type ink string

const (
	plain  ink = ""
	strong ink = "1"
	green  ink = "32"
	yellow ink = "33"
	cyan   ink = "36"
	red    ink = "31"
)

func (s *summary) paint(c ink, text string) string {
	if !s.opt.Color || c == plain {
		return text
	}
	return "\x1b[" + string(c) + "m" + text + "\x1b[0m"
}

func (s *summary) heading() {
	left := strings.Join(filled(s.Day.Job, s.Job.Title), " ")
	right := "daily report " + strconv.Itoa(s.Day.Number)
	if s.Day.Final {
		right += ", final"
	}
	room := s.width - columns.StringWidth(right) - 2
	s.out.WriteString(s.paint(strong, fit(shown(left), room)) + "  " + right + "\n")
	who := strings.Join(filled(s.Job.Customer, s.Job.Site), ", ")
	if who != "" {
		s.out.WriteString(cut(shown(who), s.width) + "\n")
	}
	day := s.longDate(s.Day.Date)
	if len(s.Day.Crew) > 0 {
		day += ", crew " + strings.Join(s.Day.Crew, ", ")
	}
	s.out.WriteString(cut(shown(day), s.width) + "\n")
}

// answer prints a headline: what it is about, and beside it, or below where the terminal is
// narrow, how it stands.
func (s *summary) answer(c ink, label, figure string) {
	beside := fit(label, 24) + figure
	if columns.StringWidth(beside) <= s.width {
		s.out.WriteString("\n" + s.paint(c, beside) + "\n")
		return
	}
	s.out.WriteString("\n" + s.paint(c, label) + "\n")
	for _, line := range wrap(figure, s.width) {
		s.out.WriteString(s.paint(c, line) + "\n")
	}
}

func (s *summary) bill() {
	ready := s.Day.Money.Ready
	c, figure := green, s.money(ready.Total)+" "+s.Currency()
	if len(ready.Tax) > 0 {
		figure += ", with tax"
	}
	if len(ready.Lines) == 0 {
		c, figure = plain, "nothing"
	}
	s.answer(c, "Bill now", figure)
	t := grid{grow: 1, right: []int{2, 3}}
	for _, l := range ready.Lines {
		t.add(s.Ref(l.Ref), s.What(l), strings.TrimSpace(s.number(l.Qty)+" "+string(l.Unit)), s.money(l.Amount))
	}
	for _, x := range ready.Tax {
		t.add("", x.Name+", "+s.number(x.Rate)+" % of "+s.money(x.Base), "", s.money(x.Amount))
	}
	t.write(s)
}

func (s *summary) held() {
	c, figure := yellow, s.money(s.HeldSum())+" "+s.Currency()
	if len(s.Day.Money.Held) == 0 {
		c, figure = plain, "nothing"
	}
	s.answer(c, "Held", figure)
	t := grid{grow: 0, right: []int{1}}
	for _, n := range s.Day.Money.Held {
		t.add(n.What, s.valued(n.Amount))
		if n.Frees != "" {
			t.add("- freed by: "+n.Frees, "")
		} else {
			t.add("- "+n.Why, "")
		}
	}
	t.write(s)
}

func (s *summary) send() {
	send, confirm := s.ToSend(), s.ToConfirm()
	c, figure := cyan, strconv.Itoa(len(send))
	if len(send) == 0 {
		c, figure = plain, "none"
	}
	if len(confirm) > 0 {
		c, figure = cyan, figure+", and "+strconv.Itoa(len(confirm))+" to confirm in writing"
	}
	s.answer(c, "Change orders to send", figure)
	t := grid{grow: 0, right: []int{2}}
	for _, x := range append(send, confirm...) {
		t.add(x.Work, string(x.State), s.Amount(x))
	}
	t.write(s)
}

func (s *summary) hazards() {
	list, outside := s.Hazards(), s.Outside()
	c, figure := red, strconv.Itoa(len(list))+" open"
	if len(list) == 0 {
		c, figure = plain, "none reported"
	}
	if len(outside) > 0 {
		c, figure = red, figure+", and "+plural(len(outside), "test")+" outside limits"
	}
	s.answer(c, "Dangerous", figure)
	t := grid{grow: 1}
	for _, h := range list {
		t.add(string(h.Severity), strings.Join(filled(h.Title, h.Where), ", "), faultWords(h.State))
	}
	for _, o := range outside {
		t.add("test", o.What, verdictWords(o.Verdict))
	}
	t.write(s)
	if len(list)+len(outside) > 0 {
		whose := grid{grow: 0}
		whose.add("Local code and the authority having jurisdiction decide.")
		whose.write(s)
	}
}

func (s *summary) scope() {
	s.answer(strong, "Scope", "= before  # today  . left  ! over")
	t := grid{grow: 1}
	for _, l := range s.Day.Scope {
		t.add(l.Line, l.Work, "["+s.progress(l).Text(10)+"]",
			strings.TrimSpace(s.number(l.ToDate)+" of "+s.number(l.Booked.Qty)+" "+string(l.Booked.Unit)), string(l.State))
		if l.BlockedBy != "" {
			t.add("", LineState(l), "", "", "")
		}
	}
	t.write(s)
}

func (s *summary) hours() {
	figure := s.Clocked().String()
	if len(s.Day.Labor) == 0 {
		figure = "none"
	}
	s.answer(strong, "Hours", figure)
	t := grid{grow: 3}
	for _, r := range s.Day.Labor {
		var uses []string
		for _, u := range s.On(r) {
			uses = append(uses, u.What+" "+u.Minutes.String())
		}
		t.add(r.Name, r.Class, r.Minutes.String(), strings.Join(uses, ", "))
	}
	t.write(s)
}

func (s *summary) unclear() {
	list := s.Unclear()
	if len(list) == 0 {
		return
	}
	s.answer(yellow, "Unclear", strconv.Itoa(len(list))+" to settle")
	t := grid{grow: 1}
	for _, e := range list {
		t.add(Where([]notes.Source{e.Source}), `"`+e.Text+`"`)
		t.add("", Settle(e))
	}
	t.write(s)
}

// found counts the findings; jobday check prints them.
func (s *summary) found() {
	counts := map[string]int{}
	for _, f := range s.Day.Findings {
		counts[f.Severity]++
	}
	var said []string
	for _, severity := range []finding.Severity{finding.Error, finding.Warning, finding.Note} {
		if n := counts[severity.String()]; n > 0 {
			said = append(said, plural(n, severity.String()))
		}
	}
	if len(said) > 0 {
		s.answer(strong, "Findings", strings.Join(said, ", "))
	}
}

// grid is rows of cells in aligned columns, one of which gives way when the terminal is narrow.
type grid struct {
	rows  [][]string
	grow  int   // the column that is cut to fit
	right []int // columns that are aligned right
}

func (g *grid) add(cells ...string) {
	for i, c := range cells {
		cells[i] = shown(c)
	}
	g.rows = append(g.rows, cells)
}

// write prints the rows indented by two, no line wider than the terminal.
func (g *grid) write(s *summary) {
	if len(g.rows) == 0 {
		return
	}
	width := g.widths(s.width)
	for _, row := range g.rows {
		lines := wrap(row[g.grow], width[g.grow])
		for n, text := range lines {
			var line strings.Builder
			for i, c := range row {
				switch {
				case i == g.grow:
					c = text
				case n > 0:
					c = ""
				}
				line.WriteString("  ")
				if g.isRight(i) {
					c = strings.Repeat(" ", max(0, width[i]-columns.StringWidth(c))) + c
				}
				line.WriteString(fit(c, width[i]))
			}
			s.out.WriteString(strings.TrimRight(line.String(), " ") + "\n")
		}
	}
}

// least is how narrow the column that gives way may become.
const least = 12

// widths measures the columns. The one that grows gets what the others leave; when they leave too
// little, they share the line evenly.
func (g *grid) widths(line int) []int {
	width := make([]int, len(g.rows[0]))
	for _, row := range g.rows {
		for i, c := range row {
			width[i] = max(width[i], columns.StringWidth(c))
		}
	}
	even := (line-2-least)/max(1, len(width)-1) - 2
	for _, limit := range []int{line / 2, max(even, 2)} {
		room := line
		for i := range width {
			if i != g.grow {
				width[i] = min(width[i], limit)
				room -= width[i]
			}
		}
		room -= 2 * len(width)
		if room >= least || limit == even {
			width[g.grow] = min(width[g.grow], max(room, 2))
			break
		}
	}
	return width
}

func (g *grid) isRight(column int) bool {
	for _, r := range g.right {
		if r == column {
			return true
		}
	}
	return false
}

// columns measures text the same way on every machine, whatever its locale.
var columns = &runewidth.Condition{StrictEmojiNeutral: true}

// fit cuts or fills text to exactly width columns.
func fit(text string, width int) string {
	text = cut(text, width)
	return text + strings.Repeat(" ", max(0, width-columns.StringWidth(text)))
}

// cut shortens text that is wider than width and marks the cut with two dots.
func cut(text string, width int) string {
	if columns.StringWidth(text) <= width {
		return text
	}
	return columns.Truncate(text, width, "..")
}

// shown makes text from a note harmless to a terminal: what moves the cursor, changes colours or
// turns the direction of writing is shown as U+FFFD.
func shown(text string) string {
	return strings.Map(func(r rune) rune {
		if steers(r) || r == '\t' || r == '\r' || unicode.Is(unicode.Bidi_Control, r) {
			if r == '\t' || r == '\r' {
				return ' '
			}
			return '\uFFFD'
		}
		return r
	}, oneLine(strings.ToValidUTF8(text, "\uFFFD")))
}

// wrap breaks text into lines of at most width columns, at white space where there is any.
func wrap(text string, width int) []string {
	return sheet.Wrap(strings.Join(strings.Fields(text), " "), width)
}
