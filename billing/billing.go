// Package billing follows the money of a job beyond one day: what was offered and answered, what was
// sent, and what is still to be billed.
//
// A day's ready money is history: what became ready on that day. What a job may still bill is
// everything that ever became ready, as the notes say it today, less everything its invoices say,
// thing by thing. So nothing is billed twice in whatever order notes, edits and invoices come, and
// what was edited after it was billed comes out as a difference on the next invoice.
//
// The package is a function of its input: it sees no clock. An age is counted to a day it is given.
package billing

import (
	"cmp"
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/record"
)

// Input is one job with its records. Days are priced, in order of date.
type Input struct {
	Company *notes.Company
	Job     *notes.Job
	Days    []*notes.JobDay
	Records record.Set
}

// file returns a note of the job by its name, or nil.
func (in *Input) file(name string) *finding.File {
	for _, d := range in.Days {
		for _, n := range d.Notes {
			if n.File == name {
				return n.Source
			}
		}
	}
	return nil
}

// renamed finds the extra that a change order means by an id no extra has any more: an id is made
// of words, and words are edited. It is the one that stands where the offered one stood, that no
// change order names, and that has at least half of its words; "" when there is none.
func renamed(item notes.ChangeItem, sources []notes.SourceLine, all []*notes.ExtraWork, named map[string]bool) string {
	for _, s := range sources {
		if s.Ref != item.Extra {
			continue
		}
		for _, e := range all {
			stands := slices.ContainsFunc(e.From, func(f notes.Source) bool { return f.File == s.File && f.Line == s.Line })
			if stands && !named[e.ID] && alike(item.Work, e.Work) {
				return e.ID
			}
		}
	}
	return ""
}

// alike reports whether at least half of the words of one text are in the other.
func alike(a, b string) bool {
	words, there := strings.Fields(strings.ToLower(a)), strings.Fields(strings.ToLower(b))
	common := 0
	for _, w := range words {
		if slices.Contains(there, w) {
			common++
		}
	}
	return len(words) > 0 && 2*common >= len(words)
}

// evidence returns the note lines behind places in the notes, each once, and the notes themselves.
func (in *Input) evidence(ref string, from []notes.Source, e *proof) {
	for _, s := range from {
		f := in.file(s.File)
		if f == nil {
			continue // the scope: a booking is no note
		}
		for n := s.Line; n <= max(s.EndLine, s.Line) && n < s.Line+20; n++ {
			row := notes.SourceLine{Ref: ref, File: s.File, Line: n, Text: record.LineText(f, n)}
			if row.Text != "" && !slices.Contains(e.sources, row) {
				e.sources = append(e.sources, row)
			}
		}
		if !slices.ContainsFunc(e.notes, func(n notes.RecordNote) bool { return n.File == s.File }) {
			e.notes = append(e.notes, notes.RecordNote{File: s.File, SHA256: record.SHA256(f)})
		}
	}
}

// written returns where the notes say what an extra is and what went into it: its own lines, its
// details, and what its price was worked out from.
func (in *Input) written(e *notes.ExtraWork) []notes.Source {
	from := slices.Clone(e.From)
	for _, d := range in.Days {
		for i := range d.Entries {
			if d.Entries[i].ID != e.ID {
				continue
			}
			for _, x := range d.Entries[i].Details {
				from = append(from, x.Source)
			}
		}
	}
	for _, s := range e.Pricing {
		from = append(from, s.From...)
	}
	return from
}

// proof is the notes and lines a record rests on.
type proof struct {
	notes   []notes.RecordNote
	sources []notes.SourceLine
}

func (p *proof) sort() {
	slices.SortStableFunc(p.sources, func(a, b notes.SourceLine) int {
		return cmp.Or(strings.Compare(a.Ref, b.Ref), strings.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line))
	})
	slices.SortFunc(p.notes, func(a, b notes.RecordNote) int { return strings.Compare(a.File, b.File) })
}

// plain makes texts as a record holds them.
func plain(texts []string) []string {
	var out []string
	for _, s := range texts {
		if s = record.Plain(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

func quote(s string) string { return `"` + s + `"` }
