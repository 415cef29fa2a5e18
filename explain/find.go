package explain

import (
	"slices"
	"strings"

	"jobday/notes"
)

// A Place is one entry of a compiled job.
type Place struct {
	Job   Job
	Day   *notes.JobDay
	Entry *notes.EntryResult
}

// Entries returns the entries that ref names: by the id, or by a place "file:line" in a note. There
// may be several: on one line, or with the same id in several jobs. None is an *UnknownError whose
// Near are the unclear entries, or the entries of the file.
func Entries(in Input, ref string) ([]Place, error) {
	file, line, isPlace := placeOf(ref)
	var all []Place
	for _, j := range in.Jobs {
		for _, d := range j.Days {
			if isPlace {
				for _, e := range entriesAt(d, file, line) {
					all = append(all, Place{j, d, e})
				}
				continue
			}
			for i := range d.Entries {
				if e := &d.Entries[i]; strings.EqualFold(e.ID, ref) {
					all = append(all, Place{j, d, e})
				}
			}
		}
	}
	switch {
	case len(all) > 0:
		return all, nil
	case isPlace:
		return nil, &UnknownError{ref, in.places(file), true}
	}
	return nil, &UnknownError{ref, in.nearEntry(ref), false}
}

// nearEntry lists the ids of entries that share a word with ref, else those of unclear entries.
func (in Input) nearEntry(ref string) []string {
	var close, unclear []string
	for _, j := range in.Jobs {
		for _, d := range j.Days {
			for _, e := range d.Entries {
				if _, slug, _ := strings.Cut(e.ID, "/"); sharesWord(slug, ref) && !slices.Contains(close, e.ID) {
					close = append(close, e.ID)
				}
				if e.Outcome == notes.Unclear && !slices.Contains(unclear, e.ID) {
					unclear = append(unclear, e.ID)
				}
			}
		}
	}
	if len(close) == 0 {
		close = unclear
	}
	return close[:min(len(close), mostNear)]
}

// entriesAt returns the entries of a day that stand on a line of a note.
func entriesAt(d *notes.JobDay, file string, line int) []*notes.EntryResult {
	var found []*notes.EntryResult
	for i := range d.Entries {
		e := &d.Entries[i]
		if slices.ContainsFunc(places(e), func(s notes.Source) bool {
			return s.Line <= line && line <= max(s.Line, s.EndLine) && sameFile(s.File, file)
		}) {
			found = append(found, e)
		}
	}
	return found
}

// Entry explains one entry up to what speaks for each line it may mean: as it is written, what it
// was taken for and why, and the evidence.
func Entry(p Place) Chain {
	a := account{Job: p.Job, day: p.Day}
	c := Chain{Ref: p.Entry.ID, Kind: "entry", Job: p.Day.Job, Date: p.Day.Date.String(), What: p.Entry.Text}
	c.add(a.written(places(p.Entry)))
	c.add(a.decided(p.Entry))
	c.add(a.evidence(p.Entry))
	return c
}
