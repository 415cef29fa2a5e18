package parse

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
)

// priceColumns are the columns of a price list, in the order used where the header is missing.
var priceColumns = []string{"code", "item", "unit", "cost", "price", "kind", "words"}

// Prices reads prices.csv (RFC 4180): a header with the columns code, item, unit, cost, price, kind
// and words in any order, then a row for each thing. It is never nil; a nil file is an empty list.
//
// Code, kind and words may be missing; kind is then material. Words are parted by ";". A further
// column pack says how many units come in a package. A row that
// cannot be used gives a finding and is left out; every other row is read. After a broken quote
// each line is read on its own, so that a field no longer holds line breaks.
// Source: RFC 4180, section 2, for records, quotes and line ends.
func Prices(f *finding.File) (*notes.PriceList, finding.List) {
	p := priceReader{file: f, list: &notes.PriceList{File: f}, codes: map[string]finding.Span{}, names: map[string]finding.Span{}}
	if f == nil {
		return p.list, nil
	}
	if !utf8.Valid(f.Text) {
		p.found.Add(invalidUTF8(f, 0, len(f.Text)))
	}
	if bytes.HasPrefix(f.Text, byteOrderMark) {
		p.start = len(byteOrderMark)
	}
	p.comma = separator(f.Text[p.start:])
	p.read()
	return p.list, p.found
}

// A priceReader reads one price list.
type priceReader struct {
	file    *finding.File
	list    *notes.PriceList
	found   finding.List
	start   int // file offset behind a byte order mark
	comma   rune
	columns map[string]int          // by name; nil before the header was read
	cells   int                     // of the header
	codes   map[string]finding.Span // codes so far, in lower case
	names   map[string]finding.Span // names and words so far, with their unit
}

// separator returns the comma, or the semicolon or tab some spreadsheets write in its place.
func separator(text []byte) rune {
	line, _ := lineAt(text, 0)
	for _, c := range []byte{';', '\t'} {
		if bytes.IndexByte(line, ',') < 0 && bytes.Count(line, []byte{c}) > 1 {
			return rune(c)
		}
	}
	return ','
}

// priceCell is one cell with its place.
type priceCell struct {
	text string
	at   finding.Span
}

func (p *priceReader) read() {
	at := p.start
	for whole := true; at < len(p.file.Text); {
		end := len(p.file.Text)
		if !whole { // one line at a time after a broken quote
			_, end = lineAt(p.file.Text, at)
		}
		next, ok := p.records(at, end)
		if whole && !ok {
			whole = false
		}
		at = next
	}
}

// reader returns a reader of a stretch of the file.
func (p *priceReader) reader(start, end int) *csv.Reader {
	r := csv.NewReader(bytes.NewReader(p.file.Text[start:end]))
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = p.comma, -1, true
	return r
}

// records reads the records of a stretch of the file. Where one cannot be read to its end it returns
// the start of the line behind the one the record begins on, and false if its quotes are at fault.
func (p *priceReader) records(start, end int) (next int, ok bool) {
	r := p.reader(start, end)
	first := p.file.LineAt(start)
	for {
		record, err := r.Read()
		var broken *csv.ParseError
		switch {
		case err == io.EOF:
			return end, true
		case errors.As(err, &broken):
			line := p.file.LineSpan(first + broken.StartLine - 1)
			if broken.Err == csv.ErrBareQuote && broken.StartLine == broken.Line {
				return p.inchMark(line), true
			}
			return p.brokenQuote(line), false
		case err != nil:
			return end, true // the reader has no other error on bytes in memory
		}
		p.record(p.cellsOf(r, record, start))
	}
}

// cellsOf places the cells of the record r read last; start is where its stretch begins.
func (p *priceReader) cellsOf(r *csv.Reader, record []string, start int) []priceCell {
	first := p.file.LineAt(start)
	cells := make([]priceCell, len(record))
	for i, text := range record {
		line, column := r.FieldPos(i)
		cells[i] = p.cell(text, first+line-1, column-1, start)
	}
	return cells
}

// inchMark reads a line on which a cell without quotes holds one, as in 3/4" EMT: people mean
// inches by it. It is read as written where the row then has the right number of cells.
func (p *priceReader) inchMark(line finding.Span) (next int) {
	start := max(line.Start, p.start)
	r := p.reader(start, line.End)
	r.LazyQuotes = true
	record, err := r.Read()
	if err != nil || p.columns == nil || len(record) != p.cells {
		return p.brokenQuote(line)
	}
	cells := p.cellsOf(r, record, start)
	p.found.Add(finding.Finding{
		Severity: finding.Warning, Rule: "prices/inch-mark", Span: line,
		Message: "a cell of this row holds a quote and is read as written",
		Hint:    `write in for inch, or put quotes around the whole cell and double those inside: "3/4"" EMT"`,
	})
	p.record(cells)
	_, next = lineAt(p.file.Text, line.End)
	return next
}

// cell places a field that begins column bytes into a line.
func (p *priceReader) cell(text string, line, column, start int) priceCell {
	at := max(p.file.LineSpan(line).Start, start) + column
	raw := p.file.Text[min(at, len(p.file.Text)):]
	n := len(text)
	if len(raw) > 0 && raw[0] == '"' {
		n += 2 + strings.Count(text, `"`)
	}
	n = firstLineEnd(raw[:min(n, len(raw))])
	return priceCell{strings.TrimSpace(fold(text)), p.file.Span(at, at+n)}
}

// brokenQuote reports a line with a quote that is never closed, or stands where none may.
func (p *priceReader) brokenQuote(line finding.Span) (next int) {
	at := bytes.IndexByte(p.file.Text[line.Start:line.End], '"')
	p.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "prices/quote", Span: line.Sub(max(at, 0), line.End-line.Start),
		Message: "a quote in this row is not closed, or stands inside a cell; the row is left out",
		Hint:    `put quotes around the whole cell and double those inside: "1/2"" EMT"`,
	})
	_, next = lineAt(p.file.Text, line.End)
	return next
}

func (p *priceReader) record(cells []priceCell) {
	switch {
	case blankRow(cells):
	case p.columns == nil:
		if !p.header(cells) {
			p.row(cells)
		}
	default:
		p.row(cells)
	}
}

func blankRow(cells []priceCell) bool {
	for _, c := range cells {
		if c.text != "" {
			return false
		}
	}
	return true
}

// header reads the first row as names of columns. It returns false when it names none: the columns
// are then taken to be the usual ones, and the row is one of the list.
func (p *priceReader) header(cells []priceCell) bool {
	p.columns, p.cells = map[string]int{}, len(cells)
	var unknown []priceCell
	for i, c := range cells {
		name := strings.ToLower(c.text)
		switch _, twice := p.columns[name]; {
		case twice:
			p.bad("prices/column", c.at, "the column "+quote(c.text)+" stands twice; the first one is used", "remove one of the two")
		case slices.Contains(knownPriceColumns, name):
			p.columns[name] = i
		case c.text != "":
			unknown = append(unknown, c)
		}
	}
	span := p.file.Span(cells[0].at.Start, cells[len(cells)-1].at.End)
	if len(p.columns) == 0 {
		for i, name := range priceColumns {
			p.columns[name] = i
		}
		p.cells = len(priceColumns)
		p.bad("prices/header", span, "the first row does not name the columns; the usual order is assumed",
			"write as the first row: "+strings.Join(priceColumns, ","))
		return false
	}
	for _, c := range unknown {
		hint := "known columns: " + strings.Join(knownPriceColumns, ", ")
		if near := nearest(c.text, knownPriceColumns); near != "" {
			hint = "did you mean " + quote(near) + "?"
		}
		p.bad("prices/column", c.at, "unknown column "+quote(c.text)+"; it is not read", hint)
	}
	for _, name := range []string{"item", "unit"} {
		if _, ok := p.columns[name]; !ok {
			p.bad("prices/column", span, "the price list has no column "+quote(name)+"; no row can be used",
				"write as the first row: "+strings.Join(priceColumns, ","))
		}
	}
	return true
}

func (p *priceReader) bad(rule string, at finding.Span, message, hint string) {
	p.found.Add(finding.Finding{Severity: finding.Error, Rule: rule, Span: at, Message: message, Hint: hint})
}

// row reads one thing with its price. A row that cannot be used as meant is left out.
func (p *priceReader) row(cells []priceCell) {
	span := p.file.Span(cells[0].at.Start, cells[len(cells)-1].at.End)
	if len(cells) != p.cells {
		p.bad("prices/cells", span, "this row has "+count(len(cells))+" of the "+count(p.cells)+" cells the header has", p.cellsHint(cells))
		return
	}
	get := func(column string) priceCell {
		if i, ok := p.columns[column]; ok && i < len(cells) {
			return cells[i]
		}
		return priceCell{at: span}
	}
	row := notes.PriceRow{Code: get("code").text, Item: get("item").text, Span: span}
	for _, c := range cells {
		if formula(c.text) {
			p.bad("prices/formula", c.at, quote(c.text)+" is a formula; expected text or a figure", "write what the formula comes to")
			return
		}
	}
	if row.Item == "" {
		if _, ok := p.columns["item"]; ok {
			p.bad("prices/no-item", span, "this row does not say what it prices", "write its name under item")
		}
		return
	}
	row.Name = field.Name(row.Item)
	ok := p.unit(&row, get("unit"))
	ok = p.amounts(&row, get("cost"), get("price")) && ok
	ok = p.kind(&row, get("kind")) && ok
	if !ok || !p.code(row, get("code")) {
		return
	}
	for _, w := range strings.Split(get("words").text, ";") {
		if w = field.Name(strings.TrimSpace(w)); w != "" {
			row.Words = append(row.Words, w)
		}
	}
	p.pack(&row, get("pack"))
	p.sameName(row)
	p.priceless(row)
	p.list.Rows = append(p.list.Rows, row)
}

// cellsHint says how to put a row with a wrong number of cells right: an amount that a comma parts in
// two is the usual cause of one too many.
func (p *priceReader) cellsHint(cells []priceCell) string {
	for i := 1; i < len(cells) && len(cells) == p.cells+1; i++ {
		a, b := cells[i-1].text, cells[i].text
		whole, _, _ := strings.Cut(b, ".")
		if allDigits(a) && len(a) < 4 && len(whole) == 3 && allDigits(whole) {
			return "write " + a + b + " for " + a + "," + b
		}
	}
	return "put quotes around a cell with a comma in it; leave an empty cell between two commas"
}

// formula reports whether a spreadsheet would compute the text rather than show it.
func formula(s string) bool { return len(s) > 1 && (s[0] == '=' || s[0] == '@') }

func (p *priceReader) unit(row *notes.PriceRow, c priceCell) bool {
	if c.text == "" {
		if _, ok := p.columns["unit"]; ok {
			p.bad("prices/no-unit", row.Span, quote(row.Item)+" has no unit; a price is for one of something", "write ea, ft or another unit")
		}
		return false
	}
	u, known := parseUnit(c.text)
	if row.Unit = u; known {
		return true
	}
	if u == "" {
		p.bad("prices/no-unit", c.at, quote(c.text)+" is no unit; a price is for one of something", "write ea, ft or another unit")
		return false
	}
	var names []string
	for _, n := range notes.Units {
		names = append(names, string(n))
	}
	if near := nearest(string(u), names); near != "" && len(u) > 2 {
		p.found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "unit/new", Span: c.at,
			Message: quote(c.text) + " is taken for a unit of your own", Hint: "if it is a slip, write " + quote(near),
		})
	}
	return true
}

func (p *priceReader) amounts(row *notes.PriceRow, cost, price priceCell) bool {
	ok := true
	for _, a := range []struct {
		cell priceCell
		to   **notes.Money
	}{{cost, &row.Cost}, {price, &row.Price}} {
		if a.cell.text == "" {
			continue
		}
		m, err := parseAmount(a.cell.text)
		if err != nil {
			hint := "write it like 1250.00"
			if plain := strings.TrimSpace(strings.Map(dropSign, a.cell.text)); plain != a.cell.text {
				if m, err := parseAmount(plain); err == nil {
					hint = "write " + m.String()
				}
			}
			p.bad("prices/amount", a.cell.at, err.Error()+"; the row is left out", hint)
			ok = false
			continue
		}
		if strings.Contains(a.cell.text, ",") {
			p.found.Add(thousands(a.cell.text, m, a.cell.at))
		}
		*a.to = &m
	}
	return ok
}

// priceKinds are the kinds of row.
var priceKinds = []string{"material", "task"}

func (p *priceReader) kind(row *notes.PriceRow, c priceCell) bool {
	switch row.Kind = strings.ToLower(c.text); {
	case row.Kind == "":
		row.Kind = "material"
	case !slices.Contains(priceKinds, row.Kind):
		hint := "write material or task"
		if near := nearest(row.Kind, priceKinds); near != "" {
			hint = "did you mean " + quote(near) + "?"
		}
		p.bad("prices/kind", c.at, quote(c.text)+" is neither material nor task; the row is left out", hint)
		return false
	}
	return true
}

// code refuses a code that stood before.
func (p *priceReader) code(row notes.PriceRow, c priceCell) bool {
	if row.Code == "" {
		return true
	}
	low := strings.ToLower(row.Code)
	before, twice := p.codes[low]
	if !twice {
		p.codes[low] = c.at
		return true
	}
	p.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "prices/code-twice", Span: c.at,
		Message: "the code " + quote(row.Code) + " stands twice; the first row is used", Hint: "give one of the two another code",
		Related: []finding.Related{{Message: "first written here", Span: before}},
	})
	return false
}

// sameName reports a name that two rows of one kind and unit share: notes cannot tell them apart.
func (p *priceReader) sameName(row notes.PriceRow) {
	for _, name := range append([]string{row.Name}, row.Words...) {
		key := row.Kind + "\x00" + string(row.Unit) + "\x00" + strings.ToLower(name)
		before, twice := p.names[key]
		if !twice {
			p.names[key] = row.Span
			continue
		}
		if before == row.Span {
			continue // its own word once more
		}
		if name == row.Name {
			name = row.Item
		}
		p.found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "prices/name-twice", Span: row.Span,
			Message: quote(name) + " names two rows; a note that uses it gets no price", Hint: "word the two apart",
			Related: []finding.Related{{Message: "the other row", Span: before}},
		})
	}
}

// priceless reports a row nothing can be billed by. It stays in the list for its code and unit.
func (p *priceReader) priceless(row notes.PriceRow) {
	message, hint := "", "write what it costs you under cost, or what you charge under price"
	switch {
	case row.Price != nil && row.Price.IsZero():
		message, hint = quote(row.Item)+" is priced at 0.00; nothing is charged for it", "leave the price empty to charge cost and markup, or write what you charge"
	case row.Price == nil && row.Cost != nil && row.Cost.IsZero():
		message = quote(row.Item) + " costs 0.00 and has no price; nothing is charged for it"
	case row.Cost == nil && row.Price == nil:
		message = quote(row.Item) + " has neither cost nor price"
	case row.Kind == "task" && row.Price == nil:
		message, hint = "the task "+quote(row.Item)+" has no price", "write what you charge for one under price"
	default:
		return
	}
	p.found.Add(finding.Finding{
		Severity: finding.Warning, Rule: "prices/no-price", Span: row.Span, Message: message, Hint: hint,
	})
}
