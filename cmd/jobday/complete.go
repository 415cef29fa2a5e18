package main

import (
	"path"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/notes"
	"jobday/parse"
)

// A bookedJob is a job as completion shows it.
type bookedJob struct {
	number, title, folder string
	dates                 []string // that have notes, by their file names
}

// jobs lists the jobs of the book without compiling it. Failures leave it empty: a completion has
// nobody to tell.
func (o *bookOptions) jobs(sys *system) ([]bookedJob, error) {
	root, err := o.find(sys)
	if err != nil {
		return nil, err
	}
	b, _, err := book.Read(root)
	if err != nil {
		return nil, err
	}
	byFolder := map[string]*bookedJob{}
	var order []string
	for _, f := range b.Files {
		folder, name := path.Split(f.Name)
		if !strings.HasPrefix(folder, "jobs/") || strings.Count(folder, "/") > 2 { // records stand deeper
			continue
		}
		j := byFolder[folder]
		if j == nil {
			number, _, _ := strings.Cut(path.Base(folder), "-")
			j = &bookedJob{number: number, folder: folder}
			byFolder[folder] = j
			order = append(order, folder)
		}
		if name == "scope.md" {
			scope, _ := parse.Scope(f)
			j.title = scope.Title
			if scope.Number != "" {
				j.number = scope.Number
			}
		} else if len(name) >= len("2006-01-02") {
			if d, err := notes.ParseDate(name[:10]); err == nil {
				j.dates = append(j.dates, d.String())
			}
		}
	}
	var all []bookedJob
	for _, folder := range order {
		all = append(all, *byFolder[folder])
	}
	return all, nil
}

// latest sorts dates, the newest first, each once.
func latest(dates []string) []string {
	slices.Sort(dates)
	dates = slices.Compact(dates)
	slices.Reverse(dates)
	return dates
}

// A completion answers what could stand next on the command line.
type completion = func(cmd *cobra.Command, args []string, toComplete string) ([]string, cobra.ShellCompDirective)

// completeJobs offers the numbers of the book's jobs with their titles.
func completeJobs(sys *system, o *bookOptions) completion {
	return func(_ *cobra.Command, _ []string, start string) ([]string, cobra.ShellCompDirective) {
		all, _ := o.jobs(sys)
		var offers []string
		for _, j := range all {
			if strings.HasPrefix(j.number, start) {
				offers = append(offers, j.number+"\t"+j.title)
			}
		}
		return offers, cobra.ShellCompDirectiveNoFileComp
	}
}

// completeJobArg is completeJobs for a command whose only argument is a job.
func completeJobArg(sys *system, o *bookOptions) completion {
	jobs := completeJobs(sys, o)
	return func(cmd *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return jobs(cmd, args, start)
	}
}

// completeDates offers the dates that have notes, of the job when one is named, newest first.
func completeDates(sys *system, o *bookOptions) completion {
	return func(_ *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
		all, _ := o.jobs(sys)
		number := o.job
		if number == "" && len(args) > 0 {
			number = args[0]
		}
		var dates []string
		for _, j := range all {
			if number == "" || strings.EqualFold(j.number, number) {
				dates = append(dates, j.dates...)
			}
		}
		var offers []string
		for _, d := range append(latest(dates), "today", "last") {
			if strings.HasPrefix(d, start) {
				offers = append(offers, d)
			}
		}
		return offers, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
	}
}
