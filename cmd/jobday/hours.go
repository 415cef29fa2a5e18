package main

import (
	"bytes"
	"context"
	"errors"

	"github.com/spf13/cobra"

	"jobday/hours"
	"jobday/notes"
	"jobday/report"
)

var hoursFormats = []string{"text", "html", "pdf", "md", "csv", "json"}

type hoursOptions struct {
	bookOptions
	week         string
	since, until string
	only         string
	format       string
}

func newHours(sys *system) *cobra.Command {
	var o hoursOptions
	cmd := &cobra.Command{
		Use:   "hours",
		Short: "Print the time sheet: who worked how long on what, overtime and cost",
		Long: `Prints the hours of a week by person and job: on the clock, travel, regular and overtime by the
company's rule over all jobs, and what they cost; then the labor of every line against the
hours that were booked. The default is the workweek of today.

The sheet is for pay: start and end are rounded to the nearest step of "rounding: clock" in
company.yaml, never one way. The steps in which extras are billed play no part. Days that cut a
week show their part of it; its overtime is worked out over the whole week.`,
		Example: `  jobday hours
  jobday hours --week 2026-03-12
  jobday hours --since 2026-03-01 --until 2026-03-31 --format csv > march.csv`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runHours(cmd.Context(), sys, o) },
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	cmd.Flags().StringVar(&o.only, "job", "", "show only the job with this `NUMBER`; overtime still counts all jobs")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("job", completeJobs(sys, &o.bookOptions)))
	cmd.Flags().StringVar(&o.week, "week", "", "the workweek of the day `YYYY-MM-DD`; also \"last\" for that of the last note")
	cmd.Flags().StringVar(&o.since, "since", "", "the first day `YYYY-MM-DD`, instead of a week")
	cmd.Flags().StringVar(&o.until, "until", "", "the last day `YYYY-MM-DD`: default today")
	addFormat(cmd, &o.format, hoursFormats...)
	return cmd
}

func runHours(ctx context.Context, sys *system, o hoursOptions) error {
	if err := errors.Join(knownFormat(o.format, hoursFormats...), sys.notForTerminal(o.format)); err != nil {
		return usageError{err}
	}
	if o.week != "" && (o.since != "" || o.until != "") {
		return usagef("--week and --since or --until name two stretches of days; give one of them")
	}
	if o.until != "" && o.since == "" {
		return usagef("--until needs the first day as well: --since YYYY-MM-DD")
	}
	b, err := o.bookOptions.open(ctx, sys)
	if err != nil {
		return err
	}
	in := hours.Input{Company: b.Company, Jobs: b.Worked(), Only: o.only}
	if o.only != "" && b.Find(o.only) == nil {
		return (&bookOptions{book: o.book, job: o.only}).noJob(sys)
	}
	if in.Since, in.Until, err = o.days(sys, b); err != nil {
		return err
	}
	made := hours.Sheet(in)
	var page bytes.Buffer
	switch o.format {
	case "csv":
		err = report.HoursCSV(&page, made)
	case "json":
		err = report.HoursJSON(&page, made)
	case "text":
		err = report.HoursText(&page, made, b.Company)
	default:
		err = b.writeSheet(&page, report.HoursSheet(made, b.Company), o.format)
	}
	if err != nil {
		return err
	}
	return b.printed(sys, page.Bytes())
}

// days returns the first and last day asked for.
func (o *hoursOptions) days(sys *system, b *openBook) (since, until notes.Date, err error) {
	switch o.week {
	case "":
	case "last":
		until = lastNote(b, o.only)
		if !until.Known() {
			until = sys.today()
		}
		since, until = hours.WeekOf(until, b.Company)
		return since, until, nil
	default:
		if until, err = notes.ParseDate(o.week); err != nil {
			return since, until, usageError{err}
		}
		since, until = hours.WeekOf(until, b.Company)
		return since, until, nil
	}
	if o.since == "" {
		since, until = hours.WeekOf(sys.today(), b.Company)
		return since, until, nil
	}
	return stretchOfDays(sys, o.since, o.until)
}

// stretchOfDays reads a first and a last day; without the last it is today.
func stretchOfDays(sys *system, first, last string) (since, until notes.Date, err error) {
	if since, err = notes.ParseDate(first); err != nil {
		return since, until, usageError{err}
	}
	until = sys.today()
	if last != "" {
		if until, err = notes.ParseDate(last); err != nil {
			return since, until, usageError{err}
		}
	}
	if until.Compare(since) < 0 {
		return since, until, usagef("the last day %s is before the first, %s", until, since)
	}
	return since, until, nil
}

// lastNote returns the date of the last note of a job or of all, unknown when there is none.
func lastNote(b *openBook, job string) (last notes.Date) {
	for _, d := range b.Days() {
		if (job == "" || d.Job == b.Find(job).Job.Number) && d.Date.Compare(last) > 0 {
			last = d.Date
		}
	}
	return last
}
