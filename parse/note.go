package parse

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"path"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// NoteContext is what a note is read with: the company's people, and the shop's own words.
type NoteContext struct {
	People []string
	Words  trade.Words
	Named  bool // keep the names of the clues of each entry, and each narrative as an entry: to fit weights by
}

// Note reads a day note. It is never nil, and accounts for every non-blank line of the file: as an
// entry, a detail of one, narrative, or structure that says nothing of its own.
//
// A note larger than 64 KB, with a line longer than 4 KB, with lists nested deeper than 50 or more
// than 100 bullets on one line, or that is not UTF-8 text, is kept whole as narrative with a
// finding; every other note is read in time linear in its size.
func Note(f *finding.File, ctx NoteContext) (*notes.DayNote, finding.List) {
	var found finding.List
	sum := sha256.Sum256(f.Text)
	n := &notes.DayNote{File: f, SHA256: hex.EncodeToString(sum[:])}
	if why, rule, hint, where := beyondLimits(f, 0); why != "" {
		h := readSafeHead(f, &found)
		headOfNote(n, h.keys, &found)
		keepWhole(n, h, finding.Finding{
			Severity: finding.Error, Rule: rule, Span: where, Hint: hint,
			Message: why + "; the note is kept as narrative",
			Holds:   "everything in this note until it can be read",
		}, &found)
		return n, found
	}
	h := readHead(f, &found)
	headOfNote(n, h.keys, &found)
	crewSlips(n, ctx.People, h.keys.at("crew"), &found)
	r := newNoteReader(n, ctx, &found)
	if h.span.End > h.span.Start {
		r.structure(h.span.Start, h.span.End)
	}
	lines, ok := markdownLines(noteMarkdown, f.Text[h.body:], h.body)
	if !ok {
		keepWhole(n, h, finding.Finding{
			Severity: finding.Error, Rule: "note/nesting", Span: f.Span(h.body, h.body+firstLineEnd(f.Text[h.body:])),
			Message: "lists are nested deeper than 50; the note is kept as narrative",
			Hint:    "write each thing as one item",
			Holds:   "everything in this note until it can be read",
		}, &found)
		return n, found
	}
	if len(lines) == 0 {
		found.Add(emptyNote(f, h.body))
	}
	n.Entries = make([]notes.Entry, 0, len(lines))
	r.read(lines)
	for i := range n.Narrative {
		if m := &n.Narrative[i]; m.Text == "" {
			m.Text = tidy(m.Span.Text())
		}
	}
	r.coverRest(h.body)
	return n, found
}

// emptyNote says that a note has nothing below its front matter.
func emptyNote(f *finding.File, body int) finding.Finding {
	where := f.LineSpan(max(f.LineAt(body), 1))
	return finding.Finding{
		Severity: finding.Warning, Rule: "note/empty", Span: where, Message: "the note says nothing",
		Hint: "write what was done, or remove the file",
	}
}

// readSafeHead reads front matter where the file as a whole is beyond the limits: only its
// beginning is looked at, and broken bytes give one finding, not two.
func readSafeHead(f *finding.File, found *finding.List) head {
	e := findHead(f.Text)
	if !e.closed || e.keysEnd-e.keys > largestNote || bytes.ContainsRune(f.Text[e.keys:e.keysEnd], '\uFFFD') {
		return head{keys: &mapping{what: "the front matter", span: f.Span(e.open, e.open), found: found}, span: f.Span(e.open, e.open), body: e.open}
	}
	return readHead(f, found)
}

// keepWhole carries everything behind the front matter as one narrative.
func keepWhole(n *notes.DayNote, h head, why finding.Finding, found *finding.List) {
	found.Add(why)
	n.Entries, n.Narrative, n.Structure = nil, nil, nil
	if h.span.End > h.span.Start {
		n.Structure = append(n.Structure, h.span)
	}
	start, end := trimBlanks(n.File.Text, h.body, len(n.File.Text))
	if start < end {
		span := n.File.Span(start, end)
		n.Narrative = append(n.Narrative, notes.Remark{Text: tidy(span.Text()), Span: span})
	}
}

// headOfNote reads the front matter of a note, and date and author from the file's name.
func headOfNote(n *notes.DayNote, keys *mapping, found *finding.List) {
	fileDate, fileAuthor := fromName(n.File.Name)
	n.Job = keys.text("job")
	n.Date = keys.date("date")
	n.Crew = people(keys.texts("crew"))
	n.Author = keys.text("author")
	keys.done()
	if n.Author == "" {
		n.Author = fileAuthor
	}
	switch {
	case !n.Date.Known() && fileDate.Known():
		n.Date = fileDate
	case !n.Date.Known() && keys.has("date"):
	case !n.Date.Known():
		found.Add(finding.Finding{
			Severity: finding.Error, Rule: "note/date-missing", Span: dateSpan(n.File, keys),
			Message: "the note does not say which day it is of",
			Hint:    "name the file like 2026-03-12.md, or write date: 2026-03-12 between two lines ---",
		})
	case fileDate.Known() && fileDate != n.Date:
		found.Add(finding.Finding{
			Severity: finding.Error, Rule: "note/date-conflict", Span: keys.at("date"),
			Message: "the date " + quote(n.Date.String()) + " contradicts the file name, " + quote(path.Base(n.File.Name)) + "; the file name is used",
			Hint:    "write date: " + fileDate.String() + ", or rename the file",
		})
		n.Date = fileDate
	}
}

// dateSpan is where a missing date belongs: the front matter, or the first line.
func dateSpan(f *finding.File, keys *mapping) finding.Span {
	if keys.span.End > keys.span.Start {
		return f.Span(keys.span.Start, keys.span.Start+firstLineEnd(f.Text[keys.span.Start:]))
	}
	return f.LineSpan(1)
}

// people parts names that were written on one line: "Ines, Tobias and Ana".
func people(list []string) []string {
	var out []string
	for _, s := range list {
		for _, part := range strings.FieldsFunc(strings.ReplaceAll(s, " and ", ","), func(r rune) bool {
			return r == ',' || r == ';' || r == '&' || r == '/' || r == '+'
		}) {
			if name := fold(part); name != "" {
				out = append(out, name)
			}
		}
	}
	return out
}

// fromName reads date and author from a file name such as "2026-03-12-tobias.md". A name that
// begins with no date says neither.
func fromName(name string) (notes.Date, string) {
	base := strings.TrimSuffix(path.Base(name), path.Ext(name))
	const isoDate = len("2026-03-12")
	if len(base) < isoDate {
		return notes.Date{}, ""
	}
	d, err := notes.ParseDate(base[:isoDate])
	if err != nil {
		return notes.Date{}, ""
	}
	rest := base[isoDate:]
	if rest == "" || rest[0] != '-' && rest[0] != '_' && rest[0] != ' ' {
		return d, ""
	}
	return d, strings.TrimSpace(strings.ReplaceAll(rest[1:], "_", " "))
}

// newNoteReader prepares to read the body of n.
func newNoteReader(n *notes.DayNote, ctx NoteContext, found *finding.List) *noteReader {
	r := &noteReader{file: n.File, body: string(n.File.Text), note: n, found: found, last: -1, named: ctx.Named}
	r.scan.low = lowerASCII(r.body)
	r.lex = field.NewLexicon(ctx.People, n.Author, n.Crew)
	r.lex.Words = ctx.Words
	if full := r.lex.Name(n.Author); full != "" {
		n.Author = full
	}
	for i, name := range n.Crew {
		if full := r.lex.Name(name); full != "" {
			n.Crew[i] = full
		}
	}
	r.scan.lex = r.lex
	return r
}

// structure accounts for a stretch that says nothing of its own.
func (r *noteReader) structure(start, end int) {
	r.note.Structure = append(r.note.Structure, r.file.Span(start, end))
}

// remark carries a stretch as narrative.
func (r *noteReader) remark(start, end int) {
	span := r.file.Span(start, end)
	r.note.Narrative = append(r.note.Narrative, notes.Remark{Text: tidy(span.Text()), Span: span})
}

// coverRest accounts for the lines behind start that nothing covers yet: fences, underlines and
// rules, which are structure, and whatever Markdown drops, which is narrative.
func (r *noteReader) coverRest(start int) {
	covered := make([]bool, r.file.Lines()+1)
	mark := func(s finding.Span) {
		if s.End <= s.Start {
			return
		}
		for l, last := r.file.LineAt(s.Start), r.file.LineAt(s.End-1); l <= last; l++ {
			covered[l] = true
		}
	}
	for i := range r.note.Entries {
		e := &r.note.Entries[i]
		mark(e.Span)
		mark(e.LabelSpan)
		for j := range e.Details {
			mark(e.Details[j].Span)
		}
		for j := range e.Photos {
			mark(e.Photos[j].Span)
		}
	}
	for i := range r.note.Narrative {
		mark(r.note.Narrative[i].Span)
	}
	for _, s := range r.note.Structure {
		mark(s)
	}
	for l := r.file.LineAt(start); l < len(covered); l++ {
		span := r.file.LineSpan(l)
		a, b := trimBlanks(r.file.Text, max(span.Start, start), max(span.End, start))
		switch {
		case covered[l] || a >= b:
		case bytes.ContainsFunc(r.file.Text[a:b], isContent):
			r.remark(a, b)
		default:
			r.structure(a, b)
		}
	}
}

// isContent reports whether a character says something: a letter or digit of any script, or a sign
// outside ASCII.
func isContent(c rune) bool {
	return c >= 0x80 || c < 0x80 && (isLetter(byte(c)) || isDigit(byte(c)))
}
