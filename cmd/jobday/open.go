package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/report"
	"jobday/sheet"
)

// bookOptions says which book a command works on and what of it.
type bookOptions struct {
	book string // folder, "" for the nearest one
	job  string // number, "" for all
	date string // ISO 8601, "" for all

	paper string // what pages and PDFs are made for, "" for the company's
	width int    // columns of text, 0 for the usual

	offering bool // every extra gets the rows of an offer
}

// addBook adds --book.
func (o *bookOptions) addBook(cmd *cobra.Command) {
	cmd.Flags().StringVar(&o.book, "book", "", "the job `DIR`: default the nearest folder up with a company.yaml")
	cobra.CheckErr(cmd.MarkFlagDirname("book"))
}

// addJob adds --job with completion.
func (o *bookOptions) addJob(cmd *cobra.Command, sys *system) {
	cmd.Flags().StringVar(&o.job, "job", "", "only the job with this `NUMBER`")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("job", completeJobs(sys, o)))
}

// addPaper adds --paper with completion.
func (o *bookOptions) addPaper(cmd *cobra.Command) {
	cmd.Flags().StringVar(&o.paper, "paper", "", "what html and pdf are printed on: one of "+strings.Join(notes.Papers[:], ", ")+
		"; default paper: in company.yaml, or the usual one of its locale")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("paper",
		cobra.FixedCompletions(notes.Papers[:], cobra.ShellCompDirectiveNoFileComp)))
}

// addWidth adds --width.
func (o *bookOptions) addWidth(cmd *cobra.Command) {
	cmd.Flags().IntVar(&o.width, "width", 0, "how many `COLUMNS` a text may have, at least 40: default 80")
}

// addDate adds --date with completion.
func (o *bookOptions) addDate(cmd *cobra.Command, sys *system) {
	cmd.Flags().StringVar(&o.date, "date", "", "only the day `YYYY-MM-DD`; also \"today\" and \"last\"")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("date", completeDates(sys, o)))
}

// An openBook is a book that was read and compiled.
type openBook struct {
	*compile.Result
	root     string
	files    []*finding.File // as they were read
	selected []jobDays
	found    finding.List // of reading and compiling
	pages    *report.Templates
	paper    sheet.Paper
	width    int // columns of text, 0 for the usual
}

// jobDays is one selected job with its selected days.
type jobDays struct {
	*compile.JobResult
	days []*notes.JobDay
}

// find returns the folder of the book.
func (o *bookOptions) find(sys *system) (string, error) {
	if o.book == "" {
		root, err := book.Find(sys.dir)
		if errors.Is(err, book.ErrNoBook) {
			return "", usagef("%w\nGo into a book, name one with --book DIR, or make one: jobday new book DIR", err)
		}
		return root, err
	}
	root := o.book
	if !filepath.IsAbs(root) {
		root = filepath.Join(sys.dir, root)
	}
	info, err := os.Stat(root)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return "", usagef("there is no folder %s", o.book)
	case err != nil:
		return "", fmt.Errorf("opening the book: %w", err)
	case !info.IsDir():
		return "", usagef("%s is not a folder: give the folder that holds company.yaml", o.book)
	}
	return root, nil
}

// open reads and compiles the book, and selects what was asked for. A job or date that is not
// there is wrong usage.
func (o *bookOptions) open(ctx context.Context, sys *system) (*openBook, error) {
	if o.paper != "" && !slices.Contains(notes.Papers[:], o.paper) {
		return nil, usagef("there is no paper %q here; the papers are %s", o.paper, strings.Join(notes.Papers[:], ", "))
	}
	root, err := o.find(sys)
	if err != nil {
		return nil, err
	}
	b, found, err := book.Read(root)
	if err != nil {
		return nil, err
	}
	bar := newProgress(sys)
	res := compile.Book(b.Files, compile.Options{Job: o.job, Progress: bar.show, Offering: o.offering})
	bar.clear()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	opened := &openBook{Result: res, root: root, files: b.Files}
	if o.job != "" {
		found = slices.DeleteFunc(found, opened.ofAnotherJob)
	}
	opened.width = o.width
	opened.paper = report.PaperOf(res.Company)
	if o.paper != "" {
		opened.paper = sheet.Paper(o.paper)
	}
	var unread finding.List
	opened.pages, unread = report.OwnTemplates(res.Templates, res.Company)
	opened.found = append(append(found, res.Findings...), unread...).Sort()
	return opened, o.choose(sys, opened)
}

// ofAnotherJob reports whether a finding is about the folder of a job that was not compiled.
func (b *openBook) ofAnotherJob(f finding.Finding) bool {
	if !f.Span.Known() || !strings.HasPrefix(f.Span.File.Name, "jobs/") {
		return false
	}
	return !slices.ContainsFunc(b.Jobs, func(j compile.JobResult) bool {
		return strings.HasPrefix(f.Span.File.Name, j.Folder+"/")
	})
}

// choose selects jobs and days.
func (o *bookOptions) choose(sys *system, b *openBook) error {
	if o.job != "" && len(b.Jobs) == 0 {
		return o.noJob(sys)
	}
	var date notes.Date
	switch o.date {
	case "", "last":
	case "today":
		date = sys.today()
	default:
		d, err := notes.ParseDate(o.date)
		if err != nil {
			return usageError{err}
		}
		date = d
	}
	for i := range b.Jobs {
		j := jobDays{JobResult: &b.Jobs[i], days: b.Jobs[i].Days}
		switch {
		case o.date == "last":
			j.days = j.days[max(0, len(j.days)-1):]
		case date.Known():
			j.days = nil
			if d := b.Jobs[i].Day(date); d != nil {
				j.days = []*notes.JobDay{d}
			}
		}
		b.selected = append(b.selected, j)
	}
	if date.Known() && len(b.days()) == 0 {
		return o.noDate(b, date)
	}
	return nil
}

// days returns the selected days of all selected jobs, in order.
func (b *openBook) days() []*notes.JobDay {
	var all []*notes.JobDay
	for _, j := range b.selected {
		all = append(all, j.days...)
	}
	return all
}

// noJob says which jobs there are.
func (o *bookOptions) noJob(sys *system) error {
	all, _ := (&bookOptions{book: o.book}).jobs(sys)
	if len(all) == 0 {
		return usagef("there is no job %q: the book has none yet; book one with: jobday new job %s", o.job, o.job)
	}
	var numbers []string
	for _, j := range all {
		numbers = append(numbers, j.number)
	}
	return usagef("there is no job %q; the jobs are %s", o.job, few(numbers))
}

// noDate says which days there are.
func (o *bookOptions) noDate(b *openBook, date notes.Date) error {
	var dates []string
	for _, j := range b.Jobs {
		for _, d := range j.Days {
			dates = append(dates, d.Date.String())
		}
	}
	what := "the book"
	if o.job != "" {
		what = "job " + o.job
	}
	if len(dates) == 0 {
		return usagef("%s has no note yet", what)
	}
	return usagef("%s has no note of %s; it has %s", what, date, few(latest(dates)))
}

// verdict is the error a command ends with after showing what it was asked for.
func (b *openBook) verdict() error {
	if b.found.HasErrors() {
		return errInput
	}
	return nil
}

// few joins names for a message, and leaves out what would be too much to read.
func few(names []string) string {
	const most = 12
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	return strings.Join(names, ", ")
}
