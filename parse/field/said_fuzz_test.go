package field

import (
	"reflect"
	"testing"
	"unicode/utf8"

	"jobday/notes"
)

// FuzzSaid feeds any text to the grammars: every piece lies in the text and on the boundary of a
// character, spans end after they start, minutes are sane, and reading twice reads the same.
func FuzzSaid(f *testing.F) {
	for _, path := range []string{"time.txt", "time_section.txt", "reading.txt", "said.txt", "circuit.txt"} {
		for _, row := range readTable(f, "testdata/"+path) {
			f.Add(row.line)
		}
	}
	for _, s := range []string{"", "\xff\xfe7-3", "7-", "-3", "½½½", "999999999999999999 hrs", "$", "$99999999999999999999",
		"2 of 99999999999999999999", "L1-", "ok'd by", "per", "told", "é é’s 7-3", "1/0/0/0", "#", "x2", "12:99", "24:00-24:00"} {
		f.Add(s)
	}
	lex := testLexicon()
	f.Fuzz(func(t *testing.T, text string) {
		facts := Read(text, lex)
		facts.Time = append(facts.Time, ReadTime(text, lex)...)
		facts.Readings = append(facts.Readings, ReadReadings(text, lex)...)
		facts.Circuit = Circuit(text, lex)
		for _, p := range saidPieces(facts) {
			checkPiece(t, text, p)
		}
		for _, row := range facts.Time {
			checkRow(t, text, row)
		}
		if again := Read(text, lex); !reflect.DeepEqual(again, Read(text, lex)) {
			t.Fatalf("%q reads differently the second time", text)
		}
	})
}

func saidPieces(f notes.Facts) []notes.Piece {
	list := []notes.Piece{f.Progress.Piece, f.Consent.Piece, f.Price.Piece, f.Fault.Piece, f.Circuit.Piece}
	for _, row := range f.Time {
		list = append(list, row.Piece)
	}
	for _, m := range f.Readings {
		list = append(list, m.Piece)
	}
	return list
}

func checkPiece(t *testing.T, text string, p notes.Piece) {
	t.Helper()
	if p.Start < 0 || p.End < p.Start || p.End > len(text) {
		t.Fatalf("%q: piece %v is out of bounds", text, p)
	}
	if !utf8.ValidString(text) {
		return
	}
	if s := text[p.Start:p.End]; !utf8.ValidString(s) {
		t.Fatalf("%q: piece %v cuts a character", text, p)
	}
}

func checkRow(t *testing.T, text string, row notes.TimeRow) {
	t.Helper()
	if !row.Found() {
		t.Fatalf("%q: a row of time from nowhere", text)
	}
	for _, s := range row.Spans {
		if s.To <= s.From || s.From < 0 || s.To > 2*wholeDay {
			t.Fatalf("%q: span %v", text, s)
		}
	}
	if row.Stated < 0 || row.Break < 0 || row.Stated > 2*longestStretch || row.PersonMinutes() < 0 {
		t.Fatalf("%q: %+v", text, row)
	}
}
