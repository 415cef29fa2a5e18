package main

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"jobday/compile"
	"jobday/explain"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
)

// A target is what a decision is about: an entry, or work beyond a booked quantity, which is an
// extra that no entry stands for by itself.
type target struct {
	job       *compile.JobResult
	day       *notes.JobDay
	id, words string
	entry     *notes.EntryResult // nil for work beyond a booked quantity
	extra     *notes.ExtraWork   // nil for what is no extra
}

// target finds what ref names: the id of an entry or extra, or a place "file:line".
func (b *openBook) target(ref, job string) (target, error) {
	ref = strings.TrimPrefix(ref, "./")
	places, err := explain.Entries(b.explainInput(), ref)
	if unknown := (*explain.UnknownError)(nil); errors.As(err, &unknown) {
		if t, ok := b.beyond(ref); ok {
			return t, nil
		}
		return target{}, usageError{err}
	}
	if err != nil {
		return target{}, err
	}
	if len(places) > 1 {
		return target{}, severalPlaces(ref, places, job)
	}
	p := places[0]
	t := target{day: p.Day, id: p.Entry.ID, words: p.Entry.Text, entry: p.Entry}
	for i := range b.Jobs {
		if b.Jobs[i].Job == p.Job.Job {
			t.job = &b.Jobs[i]
		}
	}
	t.extra = extraWithID(p.Day, t.id)
	return t, nil
}

// severalPlaces says which entries a reference could mean.
func severalPlaces(ref string, places []explain.Place, job string) error {
	var ids, jobs []string
	for _, p := range places {
		ids = append(ids, p.Entry.ID)
		jobs = append(jobs, p.Day.Job)
	}
	jobs = slices.Compact(jobs)
	if len(jobs) > 1 && job == "" {
		return usagef("jobs %s have an entry %s: name one with --job", few(jobs), ref)
	}
	if len(slices.Compact(slices.Sorted(slices.Values(ids)))) == 1 {
		return usagef("%d entries are called %s: change the words of one in its note", len(ids), ref)
	}
	return usagef("several entries stand at %s: name one of %s", ref, few(ids))
}

// beyond finds work beyond a booked quantity by its id, as of the first day that lists it.
func (b *openBook) beyond(ref string) (target, bool) {
	for i := range b.Jobs {
		for _, d := range b.Jobs[i].Days {
			for k := range d.Extras {
				if x := &d.Extras[k]; strings.EqualFold(x.ID, ref) && x.Outcome != notes.ExtraCredit {
					return target{job: &b.Jobs[i], day: d, id: x.ID, words: x.Work, extra: x}, true
				}
			}
		}
	}
	return target{}, false
}

func extraWithID(d *notes.JobDay, id string) *notes.ExtraWork {
	for i := range d.Extras {
		if d.Extras[i].ID == id {
			return &d.Extras[i]
		}
	}
	return nil
}

// labels returns the labels of the job's lines, those the entry may mean first.
func (t target) labels() []string {
	var all []string
	if t.entry != nil {
		for _, c := range t.entry.Candidates {
			all = append(all, c.Line)
		}
	}
	for _, l := range t.job.Job.Lines {
		if !slices.Contains(all, l.Label) {
			all = append(all, l.Label)
		}
	}
	return all
}

// decisions lists what can be decided, as it is typed.
func (t target) decisions() []string {
	var all []string
	if labels := t.labels(); t.entry != nil && len(labels) > 0 {
		all = append(all, "line "+labels[0])
	}
	if t.entry != nil {
		all = append(all, "extra", "narrative")
	}
	return append(all, "price 180.00", "no charge", "authorized by NAME", "declined by NAME")
}

// A choice is one decision that can be typed, and what it would mean.
type choice struct {
	Decision string `json:"decision"`
	Means    string `json:"means"`
}

// choices lists the decisions that make sense for the entry as it stands.
func (t target) choices() []choice {
	var all []choice
	if t.entry != nil {
		for _, label := range t.labels() {
			if line, ok := t.job.Job.Line(label); ok {
				all = append(all, choice{"line " + label, line.Work})
			}
		}
		all = append(all, choice{"extra", "work beyond scope"}, choice{"narrative", "neither billed nor counted"})
	}
	if t.extra != nil {
		all = append(all,
			choice{"authorized by NAME", "somebody with a say said yes"}, choice{"declined by NAME", "somebody with a say said no"},
			choice{"price 180.00", "billed at this price"}, choice{"no charge", "given away"})
	}
	return all
}

// a shownTarget is a target as JSON shows it.
type shownTarget struct {
	ID         string            `json:"id"`
	Outcome    notes.Outcome     `json:"outcome"`
	Confidence float64           `json:"confidence"`
	Candidates []notes.Candidate `json:"candidates"`
	explain.Chain
	Choices []choice `json:"choices"`
}

// writeTarget shows an entry, its evidence, and what can be decided about it.
func writeTarget(page *bytes.Buffer, b *openBook, t target, o decideOptions) error {
	s := shownTarget{ID: t.id, Outcome: notes.Extra, Confidence: 1, Candidates: []notes.Candidate{}, Choices: t.choices()}
	if t.entry != nil {
		s.Outcome, s.Confidence, s.Candidates = t.entry.Outcome, t.entry.Confidence, t.entry.Candidates
		s.Chain = explain.Entry(explain.Place{Job: explain.Job{Job: t.job.Job, Days: t.job.Days}, Day: t.day, Entry: t.entry})
	} else {
		chains, err := explain.Find(b.explainInput(), t.id)
		if err != nil {
			return err
		}
		s.Chain = chains[0]
	}
	if o.format == "json" {
		return finding.WriteIndented(page, s)
	}
	fmt.Fprintf(page, "%s\n", t.id)
	if err := explain.WriteText(page, []explain.Chain{s.Chain}); err != nil {
		return err
	}
	if x := t.extra; x != nil && t.entry != nil {
		fmt.Fprintf(page, "\nAs an extra\n  %s: %s\n", x.Amount, x.State)
	}
	b.writeDecided(page, t)
	return writeChoices(page, t)
}

// writeDecided lists what was decided about the entry so far.
func (b *openBook) writeDecided(page *bytes.Buffer, t target) {
	file := fileNamed(b.files, path.Join(t.job.Folder, "decisions.md"))
	if file == nil {
		return
	}
	rows, _ := parse.Decisions(file)
	headed := false
	for _, r := range rows {
		if !strings.EqualFold(r.Entry, t.id) {
			continue
		}
		if !headed {
			headed = true
			page.WriteString("\nDecided so far\n")
		}
		fmt.Fprintf(page, "  %s, by %s on %s: %s\n", finding.Printable(r.String()), finding.Printable(r.By), r.When, finding.Printable(r.Why))
	}
}

// writeChoices writes the decisions in a column, and how to type one.
func writeChoices(page *bytes.Buffer, t target) error {
	job := ""
	if t.job.Job.Number != "" {
		job = " --job " + t.job.Job.Number
	}
	fmt.Fprintf(page, "\nDecide: jobday decide %s DECISION%s --by NAME --why \"WORDS\"\n", t.id, job)
	choices := t.choices()
	width := 0
	for _, c := range choices {
		width = max(width, len(c.Decision))
	}
	for _, c := range choices {
		fmt.Fprintf(page, "  %-*s  %s\n", width, c.Decision, finding.Printable(c.Means))
	}
	return nil
}

// an unclearEntry is one that waits for a decision, as JSON shows it.
type unclearEntry struct {
	ID         string            `json:"id"`
	Job        string            `json:"job"`
	Text       string            `json:"text"`
	Source     notes.Source      `json:"source"`
	Why        string            `json:"why"`
	Candidates []notes.Candidate `json:"candidates"`
}

// unclear returns what waits for a decision in the selected jobs.
func (b *openBook) unclear() []unclearEntry {
	all := []unclearEntry{}
	for _, j := range b.selected {
		for _, d := range j.days {
			for _, e := range d.Entries {
				if e.Outcome == notes.Unclear {
					all = append(all, unclearEntry{e.ID, j.Job.Number, e.Text, e.Source, e.Why, e.Candidates})
				}
			}
		}
	}
	return all
}

// writeUnclear lists what waits for a decision.
func writeUnclear(page *bytes.Buffer, b *openBook, o decideOptions) error {
	all := b.unclear()
	if o.format == "json" {
		return finding.WriteIndented(page, all)
	}
	if len(all) == 0 {
		page.WriteString("nothing is unclear\n")
		return nil
	}
	for _, e := range all {
		fmt.Fprintf(page, "%s, job %s\n  %s\n    %s\n    %s:%d:%d\n", e.ID, e.Job, finding.Printable(e.Text), finding.Printable(e.Why),
			finding.Printable(e.Source.File), e.Source.Line, e.Source.Column)
	}
	fmt.Fprintf(page, "\n%s unclear. See the evidence and settle one: jobday decide %s --job %s\n", entriesAre(len(all)), all[0].ID, all[0].Job)
	return nil
}

func entriesAre(n int) string {
	if n == 1 {
		return "1 entry is"
	}
	return fmt.Sprintf("%d entries are", n)
}
