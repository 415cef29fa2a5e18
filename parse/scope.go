package parse

import (
	"path"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/parser"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
)

// Scope reads scope.md: what was booked. It is never nil.
//
// A missing column of the scope's table has a default: Line the number of the row, Qty 1, Unit ea,
// Price none, Hours 0. A line whose price or quantity cannot be read keeps its words and has no
// price, so that no money moves on it. The job's number is taken from the folder when the front
// matter has none. What is not under Scope, Allowed materials or Not included is narrative.
//
// A scope larger than largestScope bytes, or nested deeper than 50 lists, is kept as narrative.
func Scope(f *finding.File) (*notes.Job, finding.List) {
	var found finding.List
	s := scopeReader{file: f, found: &found, job: &notes.Job{File: f}}
	h := readHead(f, &found)
	s.head(h.keys)
	if rest := f.Text[h.body:]; !utf8.Valid(rest) || strings.IndexByte(string(rest), 0) >= 0 {
		found.Add(invalidUTF8(f, h.body, len(f.Text)))
	}
	s.panels = panelReader{file: f, found: &found}
	s.body(h.body)
	s.job.Panels = s.panels.panels
	s.check()
	return s.job, found
}

// largestScope is how large a scope may be, in bytes.
const largestScope = 512 << 10

// A scopeReader reads one scope.
type scopeReader struct {
	file   *finding.File
	found  *finding.List
	job    *notes.Job
	part   scopePart
	table  columns
	rows   int            // rows of scope tables so far
	labels map[string]int // lower-case label to the line's index
	tables int
	panels panelReader
	level  int // of the heading Panels, while below it
}

// scopePart is the part of a scope under a heading.
type scopePart byte

const (
	otherPart scopePart = iota
	linesPart
	allowedPart
	excludedPart
	panelsPart
)

// scopeParts are the plain names of the parts, in lower case.
var scopeParts = map[string]scopePart{
	"scope": linesPart, "scope of work": linesPart, "booked": linesPart, "booked work": linesPart,
	"allowed materials": allowedPart, "allowed material": allowedPart, "materials allowed": allowedPart,
	"material allowed": allowedPart, "allowances": allowedPart, "materials": allowedPart, "material": allowedPart,
	"panels": panelsPart, "panel": panelsPart, "panelboards": panelsPart,
	"not included": excludedPart, "excluded": excludedPart, "exclusions": excludedPart, "not in scope": excludedPart,
}

var (
	scopeColumns   = []string{"line", "work", "qty", "unit", "price", "hours"}
	allowedColumns = []string{"line", "item", "qty", "unit"}
)

func (s *scopeReader) head(keys *mapping) {
	folder := path.Base(path.Dir(s.file.Name))
	s.job.Number = keys.text("job")
	s.job.Title = keys.text("title")
	s.job.Customer = keys.text("customer")
	s.job.Site = keys.text("site")
	s.job.Booked = keys.date("booked")
	s.job.Tax = keys.text("tax")
	s.job.EInvoice = partyKeys(keys, true)
	s.job.Pricing = keys.text("pricing")
	s.exempt(keys)
	s.billing(keys)
	keys.done()
	number, title, _ := strings.Cut(folder, "-")
	if s.job.Number == "" && folder != "." && folder != "/" {
		s.job.Number = number
	}
	if s.job.Title == "" {
		s.job.Title = strings.ReplaceAll(title, "-", " ")
	}
	if s.job.Number == "" {
		s.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "scope/number", Span: keys.span,
			Message: "the scope does not say which job it is", Hint: "write job: and its number between two lines ---",
		})
	}
}

// exempt reads why no tax is charged. A bare yes is no reason, and then tax is charged.
func (s *scopeReader) exempt(keys *mapping) {
	reason := keys.text("exempt")
	switch strings.ToLower(reason) {
	case "", "no", "false":
	case "yes", "true", "y":
		keys.bad("exempt", quote(reason)+" gives no reason; tax is charged until there is one",
			"write the reason and the certificate, like exempt: resale, certificate R-1042")
	default:
		s.job.Exempt = reason
	}
}

// body reads everything behind the front matter.
func (s *scopeReader) body(start int) {
	if len(s.file.Text)-start > largestScope {
		s.keepWhole(start, "the scope is larger than 512 KB")
		return
	}
	if at, wide := tooManyBars(s.file); wide {
		s.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "table/wide", Span: at,
			Message: "this table is wider than " + count(mostColumns) + " columns",
			Hint:    "columns: " + strings.Join(scopeColumns, ", "),
		})
		s.lines(noteMarkdown, start)
		return
	}
	s.lines(scopeMarkdown, start)
}

func (s *scopeReader) lines(p parser.Parser, start int) {
	if tooNested(s.file, start) {
		s.keepWhole(start, "lists are nested too deep")
		return
	}
	lines, ok := markdownLines(p, s.file.Text[start:], start)
	if !ok {
		s.keepWhole(start, "lists are nested too deep")
		return
	}
	for i := 0; i < len(lines); {
		j := i + 1
		for j < len(lines) && lines[j].block == lines[i].block {
			j++
		}
		s.block(lines[i:j])
		i = j
	}
}

// keepWhole carries the text from start as narrative.
func (s *scopeReader) keepWhole(start int, why string) {
	a, b := trimBlanks(s.file.Text, start, len(s.file.Text))
	span := s.file.Span(a, b)
	s.job.Narrative = append(s.job.Narrative, notes.Remark{Text: strings.ToValidUTF8(span.Text(), "\uFFFD"), Span: span})
	s.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "scope/size", Span: s.file.Span(a, min(a+1, b)),
		Message: why + "; it is kept as narrative", Hint: "write each booked line as a row of one table",
	})
}

// block reads one block of lines.
func (s *scopeReader) block(lines []line) {
	first := lines[0]
	switch {
	case s.part == panelsPart && (first.kind == tableLine || first.kind == headingLine && first.level > s.level):
		s.panels.block(lines)
	case first.kind == headingLine:
		s.heading(lines)
	case first.kind == tableLine:
		s.tableBlock(lines)
	case first.kind == ruleLine || first.kind == emptyItem:
	case s.part == excludedPart && first.kind == textLine:
		s.exclude(lines)
	default:
		s.looseRow(lines)
		s.remark(lines)
	}
}

func (s *scopeReader) heading(lines []line) {
	name := strings.ToLower(strings.Trim(fold(string(s.file.Text[lines[0].start:lines[0].end])), "*_:.# "))
	if part, ok := scopeParts[name]; ok && len(lines) == 1 {
		s.part, s.level = part, lines[0].level
		return
	}
	s.part = otherPart
	s.remark(lines)
}

// looseRow reports a line of cells where a table is expected but none was made of it.
func (s *scopeReader) looseRow(lines []line) {
	if s.part != linesPart && s.part != allowedPart || s.file.Text[lines[0].start] != '|' {
		return
	}
	s.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "table/shape", Span: s.file.Span(lines[0].start, lines[0].end),
		Message: "these lines are not a table; expected a header and a line of dashes with as many cells",
		Hint:    "write |---|---|, one for each column, below the header",
	})
}

// remark carries a block as it stands.
func (s *scopeReader) remark(lines []line) {
	span := s.file.Span(lines[0].start, lines[len(lines)-1].end)
	s.job.Narrative = append(s.job.Narrative, notes.Remark{Text: tidy(span.Text()), Span: span})
}

// exclude reads a line or item under Not included. A block that does not start an item continues
// the one before when it is indented into it; goldmark gives those the same block.
func (s *scopeReader) exclude(lines []line) {
	start := 0
	flush := func(end int) {
		span := s.file.Span(lines[start].start, lines[end-1].end)
		if text := fold(span.Text()); !isNothing(text) {
			s.job.NotIncluded = append(s.job.NotIncluded, notes.Exclusion{Text: text, Span: span})
		}
		start = end
	}
	if lines[0].depth == 0 {
		for i := range lines {
			flush(i + 1)
		}
		return
	}
	flush(len(lines))
}

func (s *scopeReader) tableBlock(lines []line) {
	wanted := scopeColumns
	switch s.part {
	case allowedPart:
		wanted = allowedColumns
	case excludedPart:
		s.remark(lines)
		return
	case otherPart:
		if !s.isScopeTable(lines[0]) {
			s.remark(lines)
			return
		}
	}
	header := cellsOf(s.file, lines[0].start, lines[0].end)
	s.table = readHeader(header, wanted, s.found)
	if _, ok := s.table.index[wanted[1]]; !ok {
		s.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "table/column", Span: s.file.Span(lines[0].start, lines[0].end),
			Message: "this table has no column " + quote(wanted[1]), Hint: "columns: " + strings.Join(wanted, ", "),
		})
		s.remark(lines)
		return
	}
	for _, l := range lines[1:] {
		row := cellsOf(s.file, l.start, l.end)
		s.table.checkWidth(row, s.file.Span(l.start, l.end), s.found)
		if s.part == allowedPart {
			s.allowance(row, l)
		} else {
			s.scopeLine(row, l)
		}
	}
	s.tables++
}

// isScopeTable reports whether a table outside every known part has the columns of a scope.
func (s *scopeReader) isScopeTable(header line) bool {
	var ignore finding.List
	c := readHeader(cellsOf(s.file, header.start, header.end), scopeColumns, &ignore)
	_, work := c.index["work"]
	_, label := c.index["line"]
	return work && label && !ignore.HasErrors()
}

func (s *scopeReader) scopeLine(row []cell, at line) {
	s.rows++
	work := s.table.cell(row, "work")
	label := s.label(s.table.cell(row, "line"))
	span := s.file.Span(at.start, at.end)
	if !work.written() {
		if strings.Trim(span.Text(), "| \t") == "" {
			return
		}
		s.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "scope/work", Span: span,
			Message: "this row does not say what work was booked", Hint: "write the work in the column Work",
		})
	}
	l := notes.ScopeLine{Label: label, Work: work.text, Span: span}
	price := s.table.cell(row, "price")
	l.Price = s.price(price, label)
	qty, ok := s.quantity(s.table.cell(row, "qty"), s.table.cell(row, "unit"), label)
	if l.Qty = qty; !ok {
		l.Price = notes.LinePrice{Text: price.text}
	}
	l.Hours = s.hours(s.table.cell(row, "hours"))
	s.addLine(l)
}

// label returns the label of a row, the number of the row where none is written.
func (s *scopeReader) label(c cell) string {
	if text := strings.TrimRight(strings.Trim(c.text, "*_`"), ":"); text != "" {
		return text
	}
	if _, column := s.table.index["line"]; column && c.span.Known() {
		s.found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "scope/label", Span: c.span,
			Message: "this row has no label; it is called " + quote(count(s.rows)), Hint: "write a label in the column Line",
		})
	}
	return count(s.rows)
}

// addLine appends a line. Where its label stood before, both lose their price: a note that names
// the label may mean either.
func (s *scopeReader) addLine(l notes.ScopeLine) {
	if s.labels == nil {
		s.labels = map[string]int{}
	}
	low := strings.ToLower(l.Label)
	i, twice := s.labels[low]
	if !twice {
		s.labels[low] = len(s.job.Lines)
		s.job.Lines = append(s.job.Lines, l)
		return
	}
	before := &s.job.Lines[i]
	s.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "scope/duplicate", Span: l.Span,
		Message: "the label " + quote(l.Label) + " stands twice", Hint: "give each line a label of its own",
		Related: []finding.Related{{Message: "first written here", Span: before.Span}},
		Holds:   "both lines " + l.Label + " until each has its own label",
	})
	before.Price = notes.LinePrice{Text: before.Price.Text}
	l.Price = notes.LinePrice{Text: l.Price.Text}
	for n := 2; twice; n++ {
		l.Label = s.job.Lines[i].Label + " (" + count(n) + ")"
		_, twice = s.labels[strings.ToLower(l.Label)]
	}
	s.labels[strings.ToLower(l.Label)] = len(s.job.Lines)
	s.job.Lines = append(s.job.Lines, l)
}

func (s *scopeReader) allowance(row []cell, at line) {
	item := s.table.cell(row, "item")
	if !item.written() {
		return
	}
	label := strings.TrimRight(s.table.cell(row, "line").text, ":")
	qty, _ := s.quantity(s.table.cell(row, "qty"), s.table.cell(row, "unit"), "")
	s.job.Allowed = append(s.job.Allowed, notes.Allowance{
		Line: label, Item: item.text, Name: field.Name(item.text), Qty: qty, Span: s.file.Span(at.start, at.end),
	})
}

// check looks at the scope as a whole.
func (s *scopeReader) check() {
	if len(s.job.Lines) == 0 {
		s.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "scope/empty", Span: s.file.Span(0, firstLineEnd(s.file.Text)),
			Message: "no booked line was found; expected a table below the heading Scope",
			Hint:    "write ## Scope and below it | Line | Work | Qty | Unit | Price | Hours |",
		})
	}
	for i := range s.job.Allowed {
		a := &s.job.Allowed[i]
		if a.Line == "" && len(s.job.Lines) == 1 {
			a.Line = s.job.Lines[0].Label
		}
		if l, ok := s.job.Line(a.Line); ok {
			a.Line = l.Label
			continue
		}
		s.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "scope/allowance", Span: a.Span,
			Message: "material is allowed for line " + quote(a.Line) + ", which is not in the scope", Hint: s.labelHint(a.Line),
		})
	}
}

func (s *scopeReader) labelHint(label string) string {
	var labels []string
	for _, l := range s.job.Lines {
		labels = append(labels, l.Label)
	}
	if near := nearest(label, labels); near != "" && len(label) > 1 {
		return "did you mean " + quote(near) + "?"
	}
	return "lines: " + strings.Join(labels[:min(len(labels), 20)], ", ")
}
