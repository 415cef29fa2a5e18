package main

import (
	"bytes"
	"fmt"
	"strings"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
)

// A change is what a decision made of the book: what entries were taken for and what the days are
// worth, before and now.
type change struct {
	Decided *decidedRow   `json:"decided,omitempty"`
	Word    *taughtWord   `json:"word,omitempty"`
	Entries []entryChange `json:"entries"`
	Money   []moneyChange `json:"money"`   // of the days whose money changed
	Unclear int           `json:"unclear"` // entries that still wait for a decision
	next    string        // one of them
	job     string        // and its job
}

type decidedRow struct {
	Entry    string     `json:"entry"`
	Words    string     `json:"words"`
	Decision string     `json:"decision"`
	By       string     `json:"by"`
	When     notes.Date `json:"when"`
	Why      string     `json:"why"`
	File     string     `json:"file"`
}

type taughtWord struct {
	Word    string `json:"word"`
	Meaning string `json:"meaning"`
	File    string `json:"file"`
}

type entryChange struct {
	ID     string `json:"id"`
	Job    string `json:"job"`
	Before string `json:"before"`
	Now    string `json:"now"`
}

// moneyChange is the money of one day before tax.
type moneyChange struct {
	Job         string      `json:"job"`
	Date        notes.Date  `json:"date"`
	ReadyBefore notes.Money `json:"readyBefore"`
	ReadyNow    notes.Money `json:"readyNow"`
	HeldBefore  notes.Money `json:"heldBefore"`
	HeldNow     notes.Money `json:"heldNow"`
}

// changed compares the jobs of two compiles of one book.
func changed(before, now *openBook, about func(*compile.JobResult) bool) change {
	c := change{Entries: []entryChange{}, Money: []moneyChange{}}
	for i := range now.Jobs {
		j := &now.Jobs[i]
		if !about(j) {
			continue
		}
		for _, old := range before.Jobs {
			if old.Folder == j.Folder {
				c.compare(old, *j)
			}
		}
		for _, d := range j.Days {
			for _, e := range d.Entries {
				if e.Outcome == notes.Unclear {
					if c.Unclear++; c.Unclear == 1 {
						c.next, c.job = e.ID, j.Job.Number
					}
				}
			}
		}
	}
	return c
}

// compare enters what differs between two compiles of one job.
func (c *change) compare(old, now compile.JobResult) {
	was := standings(old)
	order := map[string]bool{}
	for _, s := range standings(now) {
		if order[s.key] {
			continue
		}
		order[s.key] = true
		for _, w := range was {
			if w.key == s.key && w.said != s.said {
				c.Entries = append(c.Entries, entryChange{s.id, now.Job.Number, w.said, s.said})
				break
			}
		}
	}
	for _, d := range now.Days {
		o := old.Day(d.Date)
		if o == nil {
			continue
		}
		m := moneyChange{now.Job.Number, d.Date, o.Money.Ready.Subtotal, d.Money.Ready.Subtotal, held(o), held(d)}
		if !m.ReadyBefore.Equal(m.ReadyNow) || !m.HeldBefore.Equal(m.HeldNow) {
			c.Money = append(c.Money, m)
		}
	}
}

func held(d *notes.JobDay) notes.Money {
	var sum notes.Money
	for _, n := range d.Money.Held {
		sum = sum.Add(n.Amount)
	}
	return sum
}

// A standingOf is what something was taken for. The key is its place, because a new word may change
// an id; of work beyond a booked quantity it is the id.
type standingOf struct{ key, id, said string }

func standings(j compile.JobResult) []standingOf {
	var all []standingOf
	for _, d := range j.Days {
		for i := range d.Entries {
			e := &d.Entries[i]
			said := string(e.Outcome)
			if len(e.Lines) > 0 {
				said += ", line " + strings.Join(e.Lines, " and ")
			}
			if x := extraWithID(d, e.ID); x != nil {
				said += ", " + extraStands(x)
			}
			key := fmt.Sprintf("%s:%d:%d", e.Source.File, e.Source.Line, e.Source.Column)
			all = append(all, standingOf{key, e.ID, said})
		}
		for i := range d.Extras {
			if x := &d.Extras[i]; strings.Contains(x.ID, "/over-") && x.Found == d.Date {
				all = append(all, standingOf{x.ID, x.ID, "extra, " + extraStands(x)})
			}
		}
	}
	return all
}

// extraStands says how an extra stands, and who decided it.
func extraStands(x *notes.ExtraWork) string {
	said := string(x.State)
	if x.Authorization.By != "" && (x.State == notes.ExtraAuthorized || x.State == notes.ExtraDeclined) {
		said += " by " + x.Authorization.By
	}
	return said
}

// write says what changed.
func (c change) write(page *bytes.Buffer, format string) error {
	if format == "json" {
		return finding.WriteIndented(page, c)
	}
	if d := c.Decided; d != nil {
		fmt.Fprintf(page, "%s: %s\n  %s\n  one row added to %s\n", d.Entry, d.Decision, finding.Printable(d.Words), d.File)
	}
	if w := c.Word; w != nil {
		fmt.Fprintf(page, "%q stands for %q\n  one line added to %s\n", w.Word, w.Meaning, w.File)
	}
	for _, e := range c.Entries {
		fmt.Fprintf(page, "\n%s, job %s\n  before: %s\n  now:    %s\n", e.ID, e.Job, finding.Printable(e.Before), finding.Printable(e.Now))
	}
	if len(c.Entries) == 0 {
		page.WriteString("\nno entry is taken for anything else than before\n")
	}
	for _, m := range c.Money {
		fmt.Fprintf(page, "\nmoney of %s, job %s, before tax\n  ready to bill: %s, now %s\n  held: %s, now %s\n",
			m.Date, m.Job, m.ReadyBefore, m.ReadyNow, m.HeldBefore, m.HeldNow)
	}
	if len(c.Money) == 0 {
		page.WriteString("\nmoney: unchanged\n")
	}
	if c.Unclear > 0 {
		fmt.Fprintf(page, "\n%s still unclear, such as: jobday decide %s --job %s\n", entriesAre(c.Unclear), c.next, c.job)
	}
	return nil
}
