package parse

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// Panels reads panels.md: the panelboards of a job as they stood before it.
//
// A table with the columns Panel, Spaces, Phases, Volts, Main, Terminals and Feeder has one row a
// panel; every column but Panel may be left out. What is in a panel stands in a table with the columns
// Space, Breaker, Conductor, Serves and Neutral, below a heading that is the panel's name, or with a
// column Panel; where there is one panel only, neither is needed. Everything else in the file is for
// people. The same may stand in scope.md below the heading Panels.
//
// It raises panel/bad for a cell that cannot be read, which counts as empty, panel/twice,
// panel/unknown, and the rules of tables. A file larger than largestScope is not read.
func Panels(f *finding.File) ([]notes.Panel, finding.List) {
	var found finding.List
	if len(f.Text) > largestScope {
		found.Add(tooLargePanels(f))
		return nil, found
	}
	if !utf8.Valid(f.Text) || strings.IndexByte(string(f.Text), 0) >= 0 {
		found.Add(invalidUTF8(f, 0, len(f.Text)))
	}
	if at, wide := tooManyBars(f); wide {
		found.Add(wideTable(at))
		return nil, found
	}
	p := panelReader{file: f, found: &found}
	lines, ok := []line(nil), !tooNested(f, 0)
	if ok {
		lines, ok = markdownLines(scopeMarkdown, f.Text, 0)
	}
	if !ok {
		found.Add(tooLargePanels(f))
		return nil, found
	}
	for i := 0; i < len(lines); {
		j := i + 1
		for j < len(lines) && lines[j].block == lines[i].block {
			j++
		}
		p.block(lines[i:j])
		i = j
	}
	p.done(f.Span(0, firstLineEnd(f.Text)))
	return p.panels, found
}

func tooLargePanels(f *finding.File) finding.Finding {
	return finding.Finding{
		Severity: finding.Error, Rule: "panel/size", Span: f.Span(0, firstLineEnd(f.Text)),
		Message: "the panels cannot be read: the file is larger than 512 KB or nested too deep",
		Hint:    "write one table of panels and one table of circuits for each",
	}
}

func wideTable(at finding.Span) finding.Finding {
	return finding.Finding{
		Severity: finding.Error, Rule: "table/wide", Span: at,
		Message: "this table is wider than " + count(mostColumns) + " columns",
		Hint:    "columns: " + strings.Join(panelColumns, ", ") + "; or " + strings.Join(rowColumns, ", "),
	}
}

var (
	panelColumns = []string{"panel", "spaces", "phases", "volts", "main", "terminals", "feeder"}
	rowColumns   = []string{"panel", "space", "breaker", "conductor", "serves", "neutral"}
)

// panelColumnNames and rowColumnNames are the plain names of the columns, in lower case.
var (
	panelColumnNames = map[string]string{
		"panel": "panel", "name": "panel", "spaces": "spaces", "poles": "spaces", "phases": "phases", "phase": "phases",
		"volts": "volts", "voltage": "volts", "main": "main", "terminals": "terminals", "terminal": "terminals",
		"feeder": "feeder", "fed from": "feeder",
	}
	rowColumnNames = map[string]string{
		"panel": "panel", "space": "space", "spaces": "space", "ckt": "space", "circuit": "space", "no": "space", "#": "space",
		"breaker": "breaker", "conductor": "conductor", "wire": "conductor",
		"serves": "serves", "description": "serves", "load": "serves", "neutral": "neutral",
	}
)

// A panelReader reads the part of a text that lays out panels.
type panelReader struct {
	file    *finding.File
	found   *finding.List
	panels  []notes.Panel
	heading string // of the table below, as written; "" for none
	at      finding.Span
}

// block reads one block: a heading or a table. Other text is for people.
func (p *panelReader) block(lines []line) {
	switch lines[0].kind {
	case headingLine:
		p.at = p.file.Span(lines[0].start, lines[0].end)
		p.heading = strings.Trim(fold(p.at.Text()), "*_:.# ")
	case tableLine:
		p.table(lines)
	case textLine:
		if p.file.Text[lines[0].start] == '|' {
			p.found.Add(notATable(p.file.Span(lines[0].start, lines[0].end)))
		}
	}
}

func notATable(at finding.Span) finding.Finding {
	return finding.Finding{
		Severity: finding.Error, Rule: "table/shape", Span: at,
		Message: "these lines are not a table; expected a header and a line of dashes with as many cells",
		Hint:    "write |---|---|, one for each column, below the header",
	}
}

// done reports a layout that names no panel.
func (p *panelReader) done(at finding.Span) {
	if len(p.panels) > 0 {
		return
	}
	p.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "panel/none", Span: at,
		Message: "no panel was found; expected a table with one row a panel",
		Hint:    "write | Panel | Spaces | Phases | Volts | Main | Terminals | Feeder |",
	})
}

func (p *panelReader) table(lines []line) {
	header := cellsOf(p.file, lines[0].start, lines[0].end)
	names, wanted, read := panelColumnNames, panelColumns, p.panel
	for _, h := range header {
		if n := rowColumnNames[columnName(h)]; n == "serves" || n == "breaker" {
			names, wanted, read = rowColumnNames, rowColumns, p.row
		}
	}
	cols := columns{index: map[string]int{}, width: len(header)}
	for i, h := range header {
		name, known := names[columnName(h)]
		if !known {
			if h.written() {
				p.found.Add(unknownColumn(h, wanted))
			}
			continue
		}
		if _, twice := cols.index[name]; !twice {
			cols.index[name] = i
		}
	}
	need := wanted[0]
	if wanted[1] == "space" {
		need = "space"
	}
	if _, ok := cols.index[need]; !ok {
		p.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "table/column", Span: p.file.Span(lines[0].start, lines[0].end),
			Message: "this table has no column " + quote(need), Hint: "columns: " + strings.Join(wanted, ", "),
		})
		return
	}
	for _, l := range lines[1:] {
		span := p.file.Span(l.start, l.end)
		cells := cellsOf(p.file, l.start, l.end)
		cols.checkWidth(cells, span, p.found)
		if strings.Trim(span.Text(), "| \t") != "" {
			read(panelCells{cols, cells, span})
		}
	}
}

func columnName(h cell) string { return strings.ToLower(strings.Trim(h.text, "*_:")) }

// panelCells is one row of a table.
type panelCells struct {
	cols columns
	row  []cell
	span finding.Span
}

func (c panelCells) cell(name string) cell { return c.cols.cell(c.row, name) }

// place is where a cell stands, or the row where it is empty.
func (c panelCells) place(name string) finding.Span {
	if x := c.cell(name); x.written() {
		return x.span
	}
	return c.span
}

// panel reads a row of the table of panels.
func (p *panelReader) panel(c panelCells) {
	n := notes.Panel{
		Name: strings.Trim(c.cell("panel").text, "*_`"), Volts: c.cell("volts").text, Main: c.cell("main").text,
		Feeder: c.cell("feeder").text, Span: c.span,
	}
	if n.Name == "" {
		p.bad(c.span, "this row does not name the panel", "write its name in the column Panel, as on its door")
		return
	}
	n.Spaces = p.number(c.cell("spaces"), 1, notes.MaxSpaces, "the number of spaces")
	n.Phases = p.phases(c.cell("phases"))
	n.Terminal = p.terminal(c.cell("terminals"))
	if n.Main != "" && !saysMain(n.Main) {
		p.bad(c.place("main"), quote(n.Main)+" is no main: no rating in amperes is in it", "write it like 100A main breaker, or lugs only")
	}
	if i := notes.PanelNamed(p.panels, n.Name); i >= 0 {
		p.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "panel/twice", Span: c.place("panel"),
			Message: "the panel " + quote(n.Name) + " stands twice; the first row is used", Hint: "give each panel one row",
			Related: []finding.Related{{Message: "first written here", Span: p.panels[i].Span}},
		})
		return
	}
	p.panels = append(p.panels, n)
}

func (p *panelReader) bad(at finding.Span, message, hint string) {
	p.found.Add(finding.Finding{Severity: finding.Error, Rule: "panel/bad", Span: at, Message: message, Hint: hint})
}

// number reads a whole number in a range; 0 for an empty cell.
func (p *panelReader) number(c cell, least, most int, what string) int {
	if !c.written() {
		return 0
	}
	n, err := strconv.Atoi(c.text)
	if err != nil || n < least || n > most {
		p.bad(c.span, quote(c.text)+" is not "+what+"; expected "+strconv.Itoa(least)+" to "+strconv.Itoa(most), "write it like 42")
		return 0
	}
	return n
}

func (p *panelReader) phases(c cell) int {
	switch strings.ToLower(strings.TrimRight(c.text, ". ")) {
	case "":
		return 0
	case "1", "single", "one", "1ph", "1 ph":
		return 1
	case "3", "three", "3ph", "3 ph":
		return 3
	}
	p.bad(c.span, quote(c.text)+" is not a number of phases; expected 1 or 3", "write 1 or 3")
	return 0
}

func (p *panelReader) terminal(c cell) int {
	text := strings.ToLower(c.text)
	for _, unit := range []string{"degc", "deg c", "°c", "c", " "} {
		text = strings.TrimSuffix(text, unit)
	}
	switch strings.TrimSpace(text) {
	case "":
		return 0
	case "60":
		return 60
	case "75":
		return 75
	}
	p.bad(c.span, quote(c.text)+" is not what terminals are marked for; expected 60 or 75, in degrees C", "write 60 or 75")
	return 0
}

// saysMain reports whether the words name a main: a rating, or lugs.
func saysMain(s string) bool {
	low := strings.ToLower(s)
	return strings.ContainsAny(low, "0123456789") || strings.Contains(low, "lug") || low == "mlo" || low == "none"
}

// row reads a row of a table of circuits.
func (p *panelReader) row(c panelCells) {
	name, at := p.heading, p.at
	if x := c.cell("panel"); x.written() {
		name, at = x.text, x.span
	}
	i := notes.PanelNamed(p.panels, name)
	if i < 0 && len(p.panels) == 1 && !c.cell("panel").written() && (name == "" || plainHeading(name)) {
		i = 0
	}
	if i < 0 {
		p.strayRow(name, at, c.span)
		return
	}
	row := notes.PanelRow{At: notes.PanelPlaces{
		Row: c.span, Space: c.place("space"), Breaker: c.place("breaker"), Conductor: c.place("conductor"), Serves: c.place("serves"),
	}}
	row.Panel = p.panels[i].Name
	row.Conductor, row.Serves = c.cell("conductor").text, c.cell("serves").text
	row.Spaces = p.spaces(c.cell("space"), c.span)
	if x := c.cell("breaker"); x.written() {
		tied := field.CircuitDetail(x.text, nil).Tied
		b, ok := trade.ReadBreaker(untied(x.text))
		if !ok {
			p.bad(x.span, quote(x.text)+" is no breaker", "write it like 20A 1P or 30A 2P, and tied behind it when handles are tied")
		} else {
			row.Breaker = b.String()
		}
		row.Tied = tied
	}
	if x := c.cell("neutral"); x.written() {
		row.Shared = true
		if low := strings.ToLower(x.text); low != "shared" && low != "yes" {
			row.With = p.spaces(x, c.span)
		}
	}
	if len(row.Spaces) > 0 {
		p.panels[i].Circuits = append(p.panels[i].Circuits, row)
	}
}

// untied takes the words about tied handles off a breaker.
func untied(s string) string {
	low := strings.ToLower(s)
	for _, words := range []string{"handles tied", "handle tied", "handle tie", "not tied", "no tie", "tied", "common trip", "separate handles"} {
		if i := strings.Index(low, words); i >= 0 {
			return s[:i] + s[i+len(words):]
		}
	}
	return s
}

// plainHeading reports whether a heading says only that circuits follow.
func plainHeading(name string) bool {
	switch strings.ToLower(name) {
	case "panels", "panel", "circuits", "circuit", "existing circuits", "directory", "existing":
		return true
	}
	return false
}

// strayRow reports, once a heading, circuits of a panel that has no row.
func (p *panelReader) strayRow(name string, at, row finding.Span) {
	if !at.Known() {
		at = row
	}
	for _, f := range *p.found {
		if f.Rule == "panel/unknown" && f.Span == at {
			return
		}
	}
	message := quote(name) + " is no panel of this table: its circuits are not read"
	if name == "" || plainHeading(name) {
		message = "nothing says which panel these circuits are in: they are not read"
	}
	p.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "panel/unknown", Span: at, Message: message,
		Hint: notes.PanelHint(p.panels),
	})
}

// spaces reads the cell of spaces: "2,4", "7", "1-5".
func (p *panelReader) spaces(c cell, row finding.Span) []int {
	if !c.written() {
		p.bad(row, "this row does not say which spaces", "write them in the column Space, like 2,4")
		return nil
	}
	w := field.Circuit(strings.TrimLeft(c.text, " ")+":", nil)
	if len(w.Spaces) == 0 || w.Serves != "" || w.Panel != "" || w.Breaker != "" || w.Conductor != "" || len(w.Was) > 0 || w.End < len(c.text) {
		p.bad(c.span, quote(c.text)+" is not a list of spaces", "write them like 2,4, each from 1 to "+strconv.Itoa(notes.MaxSpaces))
		return nil
	}
	return w.Spaces
}
