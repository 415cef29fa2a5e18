package parse

import (
	"jobday/notes"
	"jobday/parse/field"
)

// circuits makes an entry of each circuit of entry n, the last one, where its words list several: "RP2: 1/3 kiln,
// 5 plugs". The panel named first is that of all that name none.
func (r *noteReader) circuits(n int, text string, base int) {
	marks := r.scan.scan(text, base)
	var pieces []span
	from := 0
	piece := func(to int) {
		a, b := clause{from, to, listed}.bytes(text, marks)
		pieces = append(pieces, span{a, b})
	}
	for i := 1; i < len(marks)-1; i++ {
		if circuitBegins(marks, from, i) {
			piece(i)
			from = i + 1
		}
	}
	if len(pieces) == 0 {
		return
	}
	piece(len(marks))
	panel := ""
	var read []notes.CircuitWords
	for _, p := range pieces {
		c := field.Circuit(text[p.start:p.end], r.lex)
		if !c.Found() || c.Serves == "" {
			return // it is no list of circuits, or not all of it
		}
		if c.Panel == "" {
			c.Panel = panel
		}
		panel = c.Panel
		read = append(read, c)
	}
	r.split(n, text, base, pieces)
	for i := range read {
		r.note.Entries[n+i].Facts.Circuit = read[i]
	}
}

// circuitBegins reports whether another circuit begins behind the sign at mark i of a list whose last one begins at
// mark from: with the numbers of spaces and then a word or "=", behind a word.
func circuitBegins(marks []mark, from, i int) bool {
	switch marks[i].low {
	case ",", ";", "and":
	case "/":
		if !marks[i].spaced {
			return false // "1/3 kiln"
		}
	default:
		return false
	}
	numbered, named := false, false // "LB 1" of "LB 1,3 = op 1" says of no circuit what it serves
	for _, m := range marks[from:i] {
		named = named || numbered && m.kind == wordMark
		numbered = numbered || m.kind == numberMark
	}
	j := i + 1
	for j < len(marks) && marks[j].low == "and" {
		j++
	}
	if !named || j >= len(marks) {
		return false
	}
	if n := marks[j]; n.kind == wordMark { // "LB 5,7 = op 2", "circuit 20 is ..."
		for j++; j < len(marks) && (marks[j].low == "-" || marks[j].low == "#"); j++ {
		}
	}
	if j >= len(marks) || marks[j].kind != numberMark {
		return false
	}
	for j < len(marks) && (marks[j].kind == numberMark || marks[j].low == "/" || marks[j].low == "," || marks[j].low == "-" || marks[j].low == "&") {
		j++
	}
	return j < len(marks) && !ratingWords[marks[j].low] && (marks[j].kind == wordMark || marks[j].low == "=" || marks[j].low == ":")
}
