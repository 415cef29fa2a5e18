package record

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// evidence is what a record says about the notes it came from.
type evidence struct {
	file    *finding.File
	number  string
	notes   []notes.RecordNote
	sources []notes.SourceLine
}

// compareNotes holds a record's notes against those of now: a line it rests on that reads another
// way, and a note that changed elsewhere.
func compareNotes(e evidence, days []*finding.File) finding.List {
	var found finding.List
	for _, n := range e.notes {
		i := slices.IndexFunc(days, func(f *finding.File) bool { return f.Name == n.File })
		if i < 0 {
			found.Add(finding.Finding{
				Severity: finding.Warning, Rule: "record/line-changed", Span: e.where(n.File),
				Message: "the note " + n.File + ", which " + e.number + " rests on, is gone",
				Hint:    "put the note back: it is what the amounts can be proved with",
			})
			continue
		}
		if SHA256(days[i]) == n.SHA256 {
			continue
		}
		changed := e.changedLines(days[i])
		found.Add(changed...)
		if len(changed) == 0 {
			found.Add(finding.Finding{
				Severity: finding.Note, Rule: "record/note-changed", Span: e.where(n.File),
				Message: "the note " + n.File + " was changed after " + e.number + " was written; the lines it rests on read as they did",
				Hint:    "nothing has to be done; what is new is billed by what it says",
				Related: []finding.Related{{Message: "the note as it is now", Span: days[i].LineSpan(1)}},
			})
		}
	}
	return found
}

// changedLines are the lines of a note that read another way than when the record was written. A
// line that only moved is none of them.
func (e evidence) changedLines(day *finding.File) finding.List {
	now := map[string]bool{}
	for n := 1; n <= day.Lines(); n++ {
		now[LineText(day, n)] = true
	}
	var found finding.List
	told := map[int]bool{}
	for _, s := range e.sources {
		if s.File != day.Name || now[s.Text] || told[s.Line] {
			continue
		}
		told[s.Line] = true
		f := finding.Finding{
			Severity: finding.Warning, Rule: "record/line-changed", Span: e.where(s.Text),
			Message: e.number + " rests on line " + strconv.Itoa(s.Line) + " as " + quote(s.Text) + "; it now reads " +
				quote(LineText(day, s.Line)),
			Hint:    "the amount agreed or billed stays; a difference is shown by jobday change list and on the next invoice",
			Related: []finding.Related{{Message: "the line as it is now", Span: day.LineSpan(min(max(s.Line, 1), day.Lines()))}},
		}
		found.Add(f)
	}
	return found
}

// where returns the line of the record that holds a text.
func (e evidence) where(text string) finding.Span {
	for n := e.file.Lines(); n >= 1; n-- {
		if strings.Contains(e.file.LineSpan(n).Text(), escaped(text)) {
			return e.file.LineSpan(n)
		}
	}
	return e.file.LineSpan(1)
}

// LineText returns a line of a note as a record keeps it.
func LineText(f *finding.File, line int) string {
	if line < 1 || line > f.Lines() {
		return ""
	}
	return Plain(f.LineSpan(line).Text())
}

// SHA256 returns the hash of a note in hexadecimal, as a record keeps it.
func SHA256(f *finding.File) string {
	sum := sha256.Sum256(f.Text)
	return hex.EncodeToString(sum[:])
}
