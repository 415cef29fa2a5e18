package explain

import (
	"fmt"
	"slices"
	"strings"

	"jobday/notes"
)

// entry explains how one entry was read, what it was taken for, and what came of it.
func (a account) entry(e *notes.EntryResult) Chain {
	c := Chain{Kind: "entry", Job: a.day.Job, Date: a.day.Date.String(), What: e.Text}
	c.add(a.written(places(e)))
	c.add(a.decided(e))
	c.add(a.evidence(e))
	c.add(readAs(e))
	c.add(a.cameOf(e))
	return c
}

// decided says what an entry was taken for, why, how surely, and what else it could have been.
func (a account) decided(e *notes.EntryResult) Part {
	p := Part{Title: "Taken for"}
	what := string(e.Outcome)
	if len(e.Lines) > 0 {
		what += ", line " + strings.Join(e.Lines, " and ")
	}
	p.say("%s", what)
	if e.Why != "" {
		p.say("why: %s", e.Why)
	}
	p.say("confidence %.2f of 1", e.Confidence)
	for _, l := range e.Lines {
		if booked, ok := a.Job.Job.Line(l); ok {
			p.Rows = append(p.Rows, a.at("line "+l+" was booked as", notes.SourceOf(booked.Span)))
		}
	}
	for _, cand := range e.Candidates {
		if slices.ContainsFunc(e.Evidence, func(r notes.EvidenceRow) bool { return r.Line == cand.Line }) {
			continue // said with its evidence
		}
		text := fmt.Sprintf("candidate: line %s, %.2f", cand.Line, cand.Confidence)
		if booked, ok := a.Job.Job.Line(cand.Line); ok {
			text += ": " + booked.Work
		}
		p.say("%s", text)
	}
	return p
}

// readAs says what was read out of the words.
func readAs(e *notes.EntryResult) Part {
	p := Part{Title: "Read out of the words"}
	switch r := e.Reading.(type) {
	case notes.MaterialReading:
		if r.Qty == nil {
			p.say("no quantity could be read")
		} else {
			p.say("%s of %s", r.Qty, r.Item)
		}
	case notes.TimeReading:
		for _, s := range r.Spans {
			p.say("from %s to %s", s.From, s.To)
		}
		p.say("%s in all, %s", r.Minutes, whose(r.People))
	case notes.WorkReading:
		if r.Qty != nil {
			p.say("%s", r.Qty)
		}
		switch {
		case r.Complete == nil:
			p.say("the words do not say whether it is complete")
		case *r.Complete:
			p.say("complete")
		default:
			p.say("not complete")
		}
		if r.Minutes > 0 {
			p.say("%s, %s", r.Minutes, whose(r.People))
		}
	case notes.FaultReading:
		p.say("kind %s, severity %s, %s", known(r.Kind), known(string(r.Severity)), known(string(r.State)))
	case notes.TestReading:
		for _, v := range r.Readings {
			p.say("%s", strings.TrimSpace(v.Value+" "+v.Unit+" "+v.Between))
		}
		p.say("verdict: %s", r.Verdict)
	}
	return p
}

func whose(people []string) string {
	if len(people) == 0 {
		return "nobody named"
	}
	return strings.Join(people, ", ")
}

func known(s string) string {
	if s == "" {
		return "not said"
	}
	return s
}

// cameOf lists everything of the day that rests on the entry's lines.
func (a account) cameOf(e *notes.EntryResult) Part {
	p := Part{Title: "What came of it"}
	for _, l := range a.day.Scope {
		if a.rests(l.From, e) {
			p.say("line %s: %s of %s %s today, %s to date, %s", l.Line, l.Today, l.Booked.Qty, l.Booked.Unit, l.ToDate, l.State)
		}
	}
	for _, x := range a.day.Extras {
		if a.rests(x.From, e) {
			p.say("extra %s: %s, %s", x.ID, x.Amount, x.State)
		}
	}
	for _, m := range a.day.Materials {
		if a.rests(m.From, e) {
			price := "price " + m.Price.String()
			if !m.Priced {
				price = "no price is known"
			}
			p.say("material %s of %s%s: %s", m.Qty, m.Item, onWhat(m.Line), price)
		}
	}
	for _, r := range a.day.Labor {
		if a.rests(r.From, e) {
			p.say("hours of %s: %s", r.Name, r.Minutes)
		}
	}
	for _, f := range a.day.Deficiencies {
		if a.rests(f.From, e) {
			p.say("deficiency: %s, %s, %s", f.Title, f.Severity, f.State)
		}
	}
	for _, t := range a.day.Tests {
		if a.rests(t.From, e) {
			p.say("test of %s: %s; limit %s; %s", t.What, t.Verdict, known(t.Limit), t.Why)
		}
	}
	p.Rows = append(p.Rows, a.money(func(from []notes.Source) bool { return a.rests(from, e) })...)
	if len(p.Rows) == 0 {
		p.say("nothing that is counted or billed")
	}
	return p
}

// rests reports whether a place among from lies in the entry or its details.
func (a account) rests(from []notes.Source, e *notes.EntryResult) bool {
	in := func(s, whole notes.Source) bool {
		return s.File == whole.File && !before(s.Line, s.Column, whole.Line, whole.Column) &&
			before(s.Line, s.Column, whole.EndLine, whole.EndColumn)
	}
	for _, s := range from {
		if slices.ContainsFunc(places(e), func(whole notes.Source) bool { return in(s, whole) }) {
			return true
		}
	}
	return false
}

func before(line, column, otherLine, otherColumn int) bool {
	return line < otherLine || line == otherLine && column < otherColumn
}

func onWhat(line string) string {
	if line == "" {
		return ""
	}
	return " on " + line
}
