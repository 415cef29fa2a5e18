// Package explain shows where a figure comes from: the note lines, how they were read and matched,
// the price or rate with every step and rounding, and the tax. It computes nothing: every figure
// is in the compiled job already, and this package only lays the chain out.
package explain

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// A Job is a booked job with its compiled days, in order.
type Job struct {
	Job      *notes.Job
	Days     []*notes.JobDay
	Changes  []notes.ChangeOrder
	Invoices []notes.Invoice
}

// Input is what a reference is looked up in.
type Input struct {
	Jobs []Job
	Date notes.Date // the day to explain; unknown for the last that has what was asked for
}

// A Chain is the full account of one thing.
type Chain struct {
	Ref   string `json:"ref"`  // as asked for
	Kind  string `json:"kind"` // "extra", "line", "entry", "narrative", "invoice" or "change order"
	Job   string `json:"job"`
	Date  string `json:"date"`
	What  string `json:"what"`
	Parts []Part `json:"parts"`
}

// A Part is one stage of the account.
type Part struct {
	Title string `json:"title"`
	Rows  []Row  `json:"rows"`
}

// A Row is one statement, with the place it rests on where there is one.
type Row struct {
	Text   string        `json:"text"`
	Source *notes.Source `json:"source,omitempty"`
	Quote  string        `json:"quote,omitempty"` // the line at Source as written
}

// An UnknownError says that nothing has the reference, and what comes near.
type UnknownError struct {
	Ref   string
	Near  []string // references that exist, in order
	Place bool     // Ref is a place, and Near the places of entries in its file
}

// Error names the reference and what comes near.
func (e *UnknownError) Error() string {
	text := fmt.Sprintf("nothing is called %q", e.Ref)
	if e.Place {
		text = fmt.Sprintf("no entry stands at %s", e.Ref)
	}
	if len(e.Near) > 0 {
		text += "; there is " + strings.Join(e.Near, ", ")
	}
	return text
}

// Find returns the account of what ref names: the id of an extra or entry, a place "file:line" in
// a note, the label of a booked line, or the number of an invoice or change order. A label or number
// that several jobs have gives a chain for each.
func Find(in Input, ref string) ([]Chain, error) {
	var chains []Chain
	if file, line, ok := placeOf(ref); ok {
		for _, j := range in.Jobs {
			chains = append(chains, in.atPlace(j, file, line)...)
		}
		if chains == nil {
			return nil, &UnknownError{ref, in.places(file), true}
		}
	}
	for _, j := range in.Jobs {
		if len(chains) > 0 {
			break
		}
		chains = in.byName(j, ref)
	}
	if len(chains) == 0 {
		for _, j := range in.Jobs {
			if c, ok := in.line(j, ref); ok {
				chains = append(chains, c)
			}
		}
	}
	if len(chains) == 0 {
		chains = in.records(ref)
	}
	if len(chains) == 0 {
		return nil, &UnknownError{ref, in.near(ref), false}
	}
	for i := range chains {
		chains[i].Ref = ref
	}
	return chains, nil
}

// placeOf reads "file:line", also with a column behind it.
func placeOf(ref string) (file string, line int, ok bool) {
	parts := strings.Split(ref, ":")
	if len(parts) < 2 {
		return "", 0, false
	}
	line, err := strconv.Atoi(parts[1])
	return parts[0], line, err == nil && line > 0 && parts[0] != ""
}

// atPlace explains the entries that stand on a line of a note; the file may be named without its
// folders.
func (in Input) atPlace(j Job, file string, line int) []Chain {
	var chains []Chain
	for _, d := range j.Days {
		a := account{Job: j, day: d}
		for _, e := range entriesAt(d, file, line) {
			chains = append(chains, a.entry(e))
		}
		for _, n := range d.Narrative {
			for _, s := range n.From {
				if s.Line <= line && line <= s.EndLine && sameFile(s.File, file) && !a.taken(s) {
					chains = append(chains, a.narrative(n))
				}
			}
		}
	}
	return chains
}

// places lists where an entry and its details stand.
func places(e *notes.EntryResult) []notes.Source {
	all := []notes.Source{e.Source}
	for _, d := range e.Details {
		all = append(all, d.Source)
	}
	return all
}

// taken reports whether an entry stands at a place: a narrative entry is explained as an entry.
func (a account) taken(s notes.Source) bool {
	return slices.ContainsFunc(a.day.Entries, func(e notes.EntryResult) bool { return e.Source == s })
}

// narrative explains prose that is carried as it stands.
func (a account) narrative(n notes.Standing) Chain {
	c := Chain{Kind: "narrative", Job: a.day.Job, Date: a.day.Date.String(), What: n.Text}
	c.add(a.written(n.From))
	p := Part{Title: "Taken for"}
	p.say("narrative: it is carried into the report as it stands, and nothing is counted or billed of it")
	c.add(p)
	return c
}

// places lists the places of entries in a file, as they can be asked for.
func (in Input) places(file string) []string {
	var all []string
	for _, j := range in.Jobs {
		for _, d := range j.Days {
			for _, e := range d.Entries {
				if sameFile(e.Source.File, file) && len(all) < mostNear {
					all = append(all, file+":"+strconv.Itoa(e.Source.Line))
				}
			}
		}
	}
	return slices.Compact(all)
}

// mostNear is how many references are offered for one that is unknown.
const mostNear = 12

func sameFile(name, asked string) bool {
	return name == asked || strings.HasSuffix(name, "/"+asked) || path.Base(name) == asked
}

// byName explains the extra or entry with the id, on the last day that has it.
func (in Input) byName(j Job, ref string) []Chain {
	for _, d := range slices.Backward(j.Days) {
		if in.Date.Known() && d.Date != in.Date {
			continue
		}
		a := account{Job: j, day: d}
		for i := range d.Extras {
			if strings.EqualFold(d.Extras[i].ID, ref) {
				return []Chain{a.extra(&d.Extras[i])}
			}
		}
		for i := range d.Entries {
			if strings.EqualFold(d.Entries[i].ID, ref) {
				return []Chain{a.entry(&d.Entries[i])}
			}
		}
	}
	return nil
}

// line explains a booked line as it stands on the day asked for, or the last.
func (in Input) line(j Job, label string) (Chain, bool) {
	booked, ok := j.Job.Line(strings.TrimSpace(label))
	if !ok {
		return Chain{}, false
	}
	days := j.Days
	if in.Date.Known() {
		last := 0
		for i, d := range days {
			if d.Date.Compare(in.Date) <= 0 {
				last = i + 1
			}
		}
		days = days[:last]
	}
	return explainLine(j, booked, days), true
}

// near lists what a reference that was not found could have meant: ids that share a part of it,
// else all ids of extras and all labels, as far as they can be read.
func (in Input) near(ref string) []string {
	var all, close []string
	add := func(id string) {
		if slices.Contains(all, id) {
			return
		}
		all = append(all, id)
		if _, slug, _ := strings.Cut(id, "/"); slug != "" && sharesWord(slug, ref) {
			close = append(close, id)
		}
	}
	for _, j := range in.Jobs {
		for _, l := range j.Job.Lines {
			add(l.Label)
		}
		for _, d := range j.Days {
			for _, x := range d.Extras {
				add(x.ID)
			}
		}
		for _, d := range j.Days {
			for _, e := range d.Entries {
				if sharesWord(e.ID, ref) {
					add(e.ID)
				}
			}
		}
	}
	if len(close) > 0 {
		all = close
	}
	return all[:min(len(all), mostNear)]
}

// sharesWord reports whether two ids have a word of four letters or more in common.
func sharesWord(id, ref string) bool {
	split := func(r rune) bool { return r == '-' || r == '/' || r == ' ' }
	words := strings.FieldsFunc(strings.ToLower(id), split)
	for _, w := range strings.FieldsFunc(strings.ToLower(ref), split) {
		if len(w) >= 4 && slices.Contains(words, w) {
			return true
		}
	}
	return false
}

// An account is a day of a job while things of it are explained.
type account struct {
	Job
	day *notes.JobDay
}

// quote returns the line a source begins on, as written.
func (a account) quote(s notes.Source) string {
	var file *finding.File
	for _, d := range a.Days {
		for _, n := range d.Notes {
			if n.File == s.File {
				file = n.Source
			}
		}
	}
	if file == nil && a.Job.Job.File != nil && a.Job.Job.File.Name == s.File {
		file = a.Job.Job.File
	}
	if file == nil {
		return ""
	}
	return strings.TrimSpace(file.LineSpan(s.Line).Text())
}

// at returns a row that rests on a place.
func (a account) at(text string, s notes.Source) Row {
	if s.File == "" {
		return Row{Text: text}
	}
	return Row{Text: text, Source: &s, Quote: a.quote(s)}
}

// written lists the note lines something comes from.
func (a account) written(from []notes.Source) Part {
	p := Part{Title: "Written"}
	for _, s := range from {
		p.Rows = append(p.Rows, a.at("", s))
	}
	if len(p.Rows) == 0 {
		p.Rows = []Row{{Text: "nothing is written about it"}}
	}
	return p
}

// say appends a row of words to a part.
func (p *Part) say(format string, args ...any) {
	p.Rows = append(p.Rows, Row{Text: fmt.Sprintf(format, args...)})
}

// add appends a part that has something to say.
func (c *Chain) add(p Part) {
	if len(p.Rows) > 0 {
		c.Parts = append(c.Parts, p)
	}
}
