// Package closeout holds what must be settled before a crew leaves the site: booked lines nobody
// wrote a word about, hours that are missing, extras nobody authorized, deficiencies without a
// decision, devices installed without a test, questions. It is a pure function of the compiled
// job, and shows the list as text or JSON.
package closeout

import (
	"slices"
	"strings"

	"jobday/notes"
)

// Input is a job with its compiled days, in order, up to the one that is closed. A job without a
// note has none.
type Input struct {
	Job     *notes.Job
	Days    []*notes.JobDay
	Company *notes.Company // nil for one that asks for every usual test
}

// Day returns the day that is closed, nil when the job has no note yet.
func (in Input) Day() *notes.JobDay {
	if len(in.Days) == 0 {
		return nil
	}
	return in.Days[len(in.Days)-1]
}

// A Point is one thing to settle.
type Point struct {
	Kind Kind           `json:"kind"`
	What string         `json:"what"` // what is open, in the words of the note or scope
	Why  string         `json:"why"`  // what it costs to leave it so
	Do   string         `json:"do"`   // what to do or to write
	From []notes.Source `json:"from"` // where it is written; empty when the point is that nothing is
}

// Kind says what a point is about. The zero value is invalid.
type Kind string

// The kinds, in the order they are listed: what only the crew on site can still settle comes first.
const (
	NoWord       Kind = "no word"
	Work         Kind = "work"
	Hours        Kind = "hours"
	Extras       Kind = "extra"
	Deficiencies Kind = "deficiency"
	Tests        Kind = "test"
	Unclear      Kind = "unclear"
	Questions    Kind = "question"
)

// Kinds lists all kinds in the order of the list.
var Kinds = []Kind{NoWord, Work, Hours, Extras, Deficiencies, Tests, Unclear, Questions}

// List returns what is open, by kind and then in the order of the job and its notes; it is empty
// when nothing is.
func List(in Input) []Point {
	d := in.Day()
	if d == nil {
		return noNote(in.Job)
	}
	return slices.Concat(
		linesWithoutWord(d), openWork(d), missingHours(d), openExtras(d), openDeficiencies(d),
		missingTests(in), unclear(d), questions(d),
	)
}

// noNote is the list of a job of which nothing was written yet.
func noNote(j *notes.Job) []Point {
	var list []Point
	for _, l := range j.Lines {
		list = append(list, Point{
			Kind: NoWord, What: "line " + l.Label + ": " + l.Work, Why: "the job has no note yet",
			Do: "write the day's note: jobday new day " + j.Number, From: []notes.Source{},
		})
	}
	return list
}

// closed reports whether nothing more is expected of a line.
func closed(l notes.LineStanding) bool {
	return l.State == notes.Complete || l.State == notes.Over || l.Dropped.Sign() > 0
}

func linesWithoutWord(d *notes.JobDay) []Point {
	var list []Point
	for _, l := range d.Scope {
		if l.State == notes.NotReported {
			list = append(list, Point{
				Kind: NoWord, What: "line " + l.Line + ": " + l.Work,
				Why:  "no note says how it stands",
				Do:   "write how far it got, such as: " + l.Line + ": not started",
				From: []notes.Source{},
			})
		}
	}
	return list
}

func openWork(d *notes.JobDay) []Point {
	var list []Point
	for _, l := range d.Scope {
		if closed(l) || l.State == notes.NotReported {
			continue
		}
		p := Point{Kind: Work, What: "line " + l.Line + ": " + l.Work, From: l.From}
		switch l.State {
		case notes.Blocked:
			p.Why = "blocked: " + l.BlockedBy
			p.Do = "write who has to clear it and by when"
		case notes.NotStarted:
			p.Why = "not started"
			p.Do = "write under Left what keeps it and when it is planned"
		default:
			p.Why = l.Left.String() + " of " + l.Booked.Qty.String() + " " + string(l.Booked.Unit) + " left"
			p.Do = "finish it, or write under Left what is missing"
		}
		list = append(list, p)
	}
	return list
}

// missingHours compares who was there with whose hours are written.
func missingHours(d *notes.JobDay) []Point {
	worked := map[string]bool{}
	for _, r := range d.Labor {
		worked[r.Name] = r.Minutes > 0
	}
	var list []Point
	for _, name := range d.Crew {
		if !wrote(worked, name) {
			list = append(list, Point{
				Kind: Hours, What: name + " was on site", Why: "no hours are written for that day",
				Do: "write under Time: " + name + " 7:00-15:30, 30 lunch", From: []notes.Source{},
			})
		}
	}
	if len(d.Crew) == 0 && len(d.Labor) == 0 {
		list = append(list, Point{
			Kind: Hours, What: "nobody's hours", Why: "the note does not say who was on site",
			Do: "write under Time: NAME 7:00-15:30, 30 lunch", From: []notes.Source{},
		})
	}
	for _, x := range d.Extras {
		if x.Outcome == notes.ExtraDone && x.Minutes == 0 && x.State == notes.NeedsPrice {
			list = append(list, Point{
				Kind: Hours, What: "extra: " + x.Work, Why: "neither a price nor the time it took is written",
				Do: "write below it how long it took and who did it, such as: 45 min, NAME", From: x.From,
			})
		}
	}
	return list
}

// wrote reports whether hours are written for a person, whom the crew list may name by first name.
func wrote(worked map[string]bool, name string) bool {
	if worked[name] {
		return true
	}
	for full, some := range worked {
		if first, _, _ := strings.Cut(full, " "); some && strings.EqualFold(first, name) {
			return true
		}
	}
	return false
}

func openExtras(d *notes.JobDay) []Point {
	var list []Point
	for _, x := range d.Extras {
		if x.State != notes.NeedsAuthorization && x.State != notes.NeedsPrice || x.Authorization.State == "authorized" {
			continue
		}
		p := Point{Kind: Extras, What: x.Work, From: x.From, Do: "ask now, and write below it: ok'd by NAME on site 10:40"}
		switch {
		case x.Outcome == notes.ExtraCredit:
			p.Why = "a credit nobody confirmed"
		case x.Outcome == notes.ExtraNotDone:
			p.Why = "found or asked for, not done, and nobody authorized it"
		case x.Amount.Sign() > 0:
			p.Why = x.Amount.String() + " of work nobody authorized"
		default:
			p.Why = "work nobody authorized"
		}
		list = append(list, p)
	}
	return list
}

// openDeficiencies lists faults that stand and of which nobody wrote what is to happen. Corrected,
// declined by the customer, or left with the customer's knowledge are decisions; made safe is not:
// it is for now.
func openDeficiencies(d *notes.JobDay) []Point {
	var list []Point
	for _, f := range d.Deficiencies {
		settled := f.State == notes.FaultCorrected || f.State == notes.FaultDeclined ||
			f.State == notes.FaultLeft && f.Told != ""
		if settled {
			continue
		}
		p := Point{Kind: Deficiencies, What: f.Title, From: f.From}
		if f.Where != "" {
			p.What += ", " + f.Where
		}
		if f.Told == "" {
			p.Why = "nothing says that the customer was told"
			p.Do = "tell the person in charge, and write: told NAME"
		} else {
			p.Why = "told " + f.Told + "; nothing says what is to happen"
			p.Do = "write what was decided: fixed, made safe and left, or declined by NAME"
		}
		if f.Severity == notes.Danger {
			p.Why = "danger to people; " + p.Why
		}
		if f.State == notes.FaultMadeSafe {
			p.Why = "made safe for now; " + p.Why
		}
		list = append(list, p)
	}
	return list
}

// unclear lists entries nobody can place, whose money waits.
func unclear(d *notes.JobDay) []Point {
	var list []Point
	for _, e := range d.Entries {
		if e.Outcome != notes.Unclear {
			continue
		}
		p := Point{Kind: Unclear, What: e.Text, Why: e.Why, From: []notes.Source{e.Source},
			Do: "put it under a heading such as ## Done or ## Extras, or settle it: jobday decide " + e.ID}
		if len(e.Candidates) > 0 {
			p.Do = "start it with the label of its line, such as " + e.Candidates[0].Line + ":, move it to Extras, or settle it: jobday decide " + e.ID
		}
		list = append(list, p)
	}
	return list
}

func questions(d *notes.JobDay) []Point {
	var list []Point
	for _, q := range d.Questions {
		list = append(list, Point{
			Kind: Questions, What: q.Text, Why: "asked " + q.Since.String() + " and not answered", From: q.From,
			Do: "ask it before leaving, and write the answer beside it",
		})
	}
	return list
}
