package finding

import (
	"bytes"
	"sort"
	"unicode/utf8"
)

// A File is one input text with the name it has in the book.
// Name is relative to the book and uses forward slashes. Text is never changed after NewFile.
type File struct {
	Name string
	Text []byte

	starts []int // offset of the first byte of each line; never empty
}

// NewFile indexes the lines of text. A line ends at "\n", "\r\n" or the end of the text;
// a text that ends with a line break has no empty last line.
func NewFile(name string, text []byte) *File {
	starts := make([]int, 1, 1+bytes.Count(text, []byte("\n")))
	for i, b := range text {
		if b == '\n' && i+1 < len(text) {
			starts = append(starts, i+1)
		}
	}
	return &File{Name: name, Text: text, starts: starts}
}

// Lines reports how many lines the file has; an empty file has none.
func (f *File) Lines() int {
	if len(f.Text) == 0 {
		return 0
	}
	return len(f.starts)
}

// LineAt returns the number of the line that holds the byte at offset, from 1.
// An offset out of range is moved into it.
func (f *File) LineAt(offset int) int {
	return max(1, sort.SearchInts(f.starts, offset+1))
}

// Position returns line and column of the byte at offset, both from 1.
// The column counts Unicode code points; a broken byte counts as one.
func (f *File) Position(offset int) (line, column int) {
	offset = min(max(offset, 0), len(f.Text))
	line = f.LineAt(offset)
	return line, utf8.RuneCount(f.Text[f.starts[line-1]:offset]) + 1
}

// Offset returns the byte at a line and a column, both from 1, the column in code points: what
// Position returns, the other way round. A column beyond the line is its end.
func (f *File) Offset(line, column int) int {
	l := f.LineSpan(line)
	at := l.Start
	for ; column > 1 && at < l.End; column-- {
		_, n := utf8.DecodeRune(f.Text[at:l.End])
		at += n
	}
	return at
}

// LineSpan returns the bytes of line n (from 1) without its line break.
// It is empty when there is no such line.
func (f *File) LineSpan(n int) Span {
	if n < 1 || n > len(f.starts) {
		return Span{File: f}
	}
	start, end := f.starts[n-1], len(f.Text)
	if n < len(f.starts) {
		end = f.starts[n]
	}
	for end > start && (f.Text[end-1] == '\n' || f.Text[end-1] == '\r') {
		end--
	}
	return Span{File: f, Start: start, End: end}
}

// Span returns the bytes from start to end, moved into the file where they are not.
func (f *File) Span(start, end int) Span {
	start = min(max(start, 0), len(f.Text))
	return Span{File: f, Start: start, End: min(max(end, start), len(f.Text))}
}

// A Span is a stretch of a file: byte offsets from 0, End exclusive, Start <= End.
// The zero Span has no file and stands for "no place known".
type Span struct {
	File       *File
	Start, End int
}

// Text returns what the span covers, as written.
func (s Span) Text() string {
	if s.File == nil {
		return ""
	}
	return string(s.File.Text[s.Start:s.End])
}

// Known reports whether the span lies in a file.
func (s Span) Known() bool { return s.File != nil }

// Position returns line and column of the first byte, both from 1, or 0, 0 when there is no file.
func (s Span) Position() (line, column int) {
	if s.File == nil {
		return 0, 0
	}
	return s.File.Position(s.Start)
}

// EndPosition returns line and column just past the last byte, both from 1, or 0, 0 when there is no file.
func (s Span) EndPosition() (line, column int) {
	if s.File == nil {
		return 0, 0
	}
	return s.File.Position(s.End)
}

// Sub returns the part of s from start to end, byte offsets within s.
func (s Span) Sub(start, end int) Span {
	if s.File == nil {
		return s
	}
	return s.File.Span(s.Start+start, s.Start+end)
}
