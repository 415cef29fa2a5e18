package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path"

	"jobday/billing"
	"jobday/book"
	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/record"
)

// made is a record in the making: its file below the job's folder, and its text.
type made struct {
	name string
	text []byte
}

// recordWriter makes a record from a job as it stands while nobody else writes.
type recordWriter func(billing.Input) (made, error)

// writeRecord makes a record of one job and writes it. The book is read again under the book's lock,
// so that what somebody else billed a moment ago is seen; what is written is read back before.
func (o bookOptions) writeRecord(ctx context.Context, sys *system, before *openBook, write recordWriter) (after *openBook, file string, err error) {
	out, err := book.Record(before.root, func() (book.Output, error) {
		now, err := o.open(ctx, sys)
		if err != nil {
			return book.Output{}, err
		}
		j := now.selected[0]
		m, err := write(j.Billing(now.Company))
		if err != nil {
			return book.Output{}, refusal(err)
		}
		out := book.Output{Name: path.Join(j.Folder, m.name), Text: m.text}
		return out, readsBack(out, j.Folder)
	})
	if errors.Is(err, fs.ErrExist) {
		return nil, "", fmt.Errorf("%s is there already and is not overwritten: %w", out.Name, err)
	}
	if err != nil {
		return nil, "", err
	}
	after, err = o.open(ctx, sys)
	return after, out.Name, err
}

// refusal is the error a person can do something about.
func refusal(err error) error {
	if errors.Is(err, billing.ErrNothing) {
		return err
	}
	var broken *billing.BrokenError
	if errors.As(err, &broken) {
		return usagef("%s\nSee what is wrong with: jobday check", broken)
	}
	return usageError{err}
}

// readsBack refuses a record that could not be read again as it was meant.
func readsBack(out book.Output, folder string) error {
	f := finding.NewFile(out.Name, out.Text)
	set, found := record.Read([]*finding.File{f}, nil)
	for _, x := range found {
		if x.Severity == finding.Error && x.Rule != "record/answer" || x.Rule == "record/edited" {
			return fmt.Errorf("the record %s for %s would not read back, nothing was written: %s", out.Name, folder, x.Message)
		}
	}
	if len(set.Changes)+len(set.Invoices) == 0 && len(found) == 0 {
		return fmt.Errorf("the record %s would not read back, nothing was written", out.Name)
	}
	return nil
}

// oneJob chooses the job a record is made for: the one named, else the only one that fits.
func (o *bookOptions) oneJob(b *openBook, what string, fits func(*compile.JobResult) bool) error {
	if o.job != "" {
		return nil
	}
	var numbers []string
	for i := range b.Jobs {
		if fits(&b.Jobs[i]) {
			numbers = append(numbers, b.Jobs[i].Job.Number)
		}
	}
	switch len(numbers) {
	case 0:
		return usagef("no job has %s", what)
	case 1:
		o.job = numbers[0]
		return nil
	}
	return usagef("several jobs have %s: add --job, one of %s", what, few(numbers))
}

// recorded is what a command that wrote a record says: the record, and what it changed.
type recorded struct {
	File    string              `json:"file"`
	Written bool                `json:"written"`
	Offer   *notes.ChangeOrder  `json:"change_order,omitempty"`
	Answer  *notes.ChangeAnswer `json:"answer,omitempty"`
	Invoice *notes.Invoice      `json:"invoice,omitempty"`
	Money   []moneyChange       `json:"money"`
	// Unbilled is what the job may still bill, before tax, before and now.
	UnbilledBefore notes.Money `json:"unbilledBefore"`
	UnbilledNow    notes.Money `json:"unbilledNow"`
	job            string
}

// compare says what a record changed of its job's money.
func (r *recorded) compare(before, after *openBook, job string) {
	r.Written, r.job = true, job
	r.Money = changed(before, after, func(j *compile.JobResult) bool { return j.Job.Number == job }).Money
	if r.Money == nil {
		r.Money = []moneyChange{}
	}
	r.UnbilledBefore, r.UnbilledNow = unbilled(before, job), unbilled(after, job)
}

func unbilled(b *openBook, job string) notes.Money {
	j := b.Find(job)
	if j == nil {
		return notes.Money{}
	}
	in := j.Billing(b.Company)
	return in.Unbilled()
}

// writeMoney says in words what changed.
func (r *recorded) writeMoney(page *bytes.Buffer) {
	for _, m := range r.Money {
		fmt.Fprintf(page, "\nmoney of %s, before tax\n  ready that day: %s, now %s\n  held: %s, now %s\n",
			m.Date, m.ReadyBefore, m.ReadyNow, m.HeldBefore, m.HeldNow)
	}
	page.WriteString("\n" + r.unbilledWords() + "\n")
}

// unbilledWords say what the job may still bill, and what it is now where the record moved it.
func (r *recorded) unbilledWords() string {
	words := "job " + r.job + ", ready and not billed, before tax: " + r.UnbilledBefore.String()
	if !r.UnbilledNow.Equal(r.UnbilledBefore) {
		words += ", now " + r.UnbilledNow.String()
	}
	return finding.Printable(words)
}

// day reads a date flag: today when it is empty.
func (s *system) day(text string) (notes.Date, error) {
	if text == "" || text == "today" {
		return s.today(), nil
	}
	d, err := notes.ParseDate(text)
	if err != nil {
		return d, usageError{err}
	}
	return d, nil
}
