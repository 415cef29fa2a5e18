package reconcile

import (
	"bytes"
	"strings"

	"jobday/finding"
)

// mostRows is how far up a table its header is looked for.
const mostRows = 40

// doneColumns are headers of a column that says how many were done. Common practice, no source.
var doneColumns = map[string]bool{
	"did": true, "done": true, "today": true, "done today": true, "installed": true, "qty": true, "quantity": true, "count": true,
	"complete": true, "completed": true, "qty done": true, "qty today": true, "in": true, "#": true,
}

// rowCount returns what the column for work done holds in the row of a table an entry stands in: the 30
// of "| drops | 30 | 14 |" under "| item | did | left |". Without such a header it is 0.
func rowCount(at finding.Span) int {
	if at.File == nil || at.Start < 0 || at.Start > len(at.File.Text) {
		return 0
	}
	text := at.File.Text
	from := bytes.LastIndexByte(text[:at.Start], '\n') + 1
	row := lineAt(text, from)
	if !isRow(row) {
		return 0
	}
	var header []byte
	for n := 0; from > 0; n++ {
		if n == mostRows {
			return 0
		}
		up := bytes.LastIndexByte(text[:from-1], '\n') + 1
		line := lineAt(text, up)
		if !isRow(line) {
			break
		}
		header, from = line, up
	}
	names, cells := cells(header), cells(row)
	if len(names) != len(cells) {
		return 0
	}
	count := 0
	for i, name := range names {
		if !doneColumns[strings.ToLower(name)] {
			continue
		}
		n, ok := smallNumber(cells[i])
		if !ok || count > 0 {
			return 0 // two such columns: which one is today's is not said
		}
		count = n
	}
	return count
}

// lineAt returns the line that begins at the offset, without its end.
func lineAt(text []byte, from int) []byte {
	line, _, _ := bytes.Cut(text[from:], []byte("\n"))
	return bytes.TrimSpace(line)
}

func isRow(line []byte) bool { return len(line) > 1 && line[0] == '|' && line[len(line)-1] == '|' }

// cells returns what stands between the bars of a row.
func cells(row []byte) []string {
	if len(row) < 2 {
		return nil
	}
	all := strings.Split(string(row[1:len(row)-1]), "|")
	for i := range all {
		all[i] = strings.TrimSpace(all[i])
	}
	return all
}
