package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"jobday/notes"
	"jobday/report"
)

// faultFormats write the list; noticeFormats write the notice to a customer.
var (
	faultFormats  = []string{"text", "json", "csv", "md"}
	noticeFormats = []string{"html", "md", "pdf", "text"}
)

type deficienciesOptions struct {
	bookOptions
	open, all bool
	until     string
	notice    string
	format    string
}

func newDeficiencies(sys *system) *cobra.Command {
	var o deficienciesOptions
	cmd := &cobra.Command{
		Use:   "deficiencies",
		Short: "List what was found wrong and is still open, or print a customer's notice",
		Long: `Lists the deficiencies that stand open over all jobs, by hazard, severity and age, with how
each stands, who was told and what comes next. With --notice JOB it prints instead a page a
customer can sign: what was found and where, why it matters, what is recommended, and what
they decided. The page holds the photos the notes point to, without the place and time a
camera writes into them; a photo that cannot be shown says why.`,
		Example: `  jobday deficiencies
  jobday deficiencies --job 2431 --all --format csv
  jobday deficiencies --notice 2431 --date 2026-03-12 > notice.html
  jobday deficiencies --notice 2431 --format pdf > notice.pdf`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runDeficiencies(cmd.Context(), sys, o) },
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	o.addJob(cmd, sys)
	o.addDate(cmd, sys)
	cmd.Flags().BoolVar(&o.open, "open", false, "only what is open: the default")
	cmd.Flags().BoolVar(&o.all, "all", false, "also what was corrected")
	cmd.Flags().StringVar(&o.until, "until", "", "as of the day `YYYY-MM-DD`: default today")
	cmd.Flags().StringVar(&o.notice, "notice", "", "print the notice for the customer of this `JOB`")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("notice", completeJobs(sys, &o.bookOptions)))
	cmd.Flags().StringVar(&o.format, "format", "", "one of text, json, csv, md: default text; with --notice html, md, pdf or text: default html")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("format",
		cobra.FixedCompletions(append(slices.Clone(faultFormats), "html", "pdf"), cobra.ShellCompDirectiveNoFileComp)))
	return cmd
}

func runDeficiencies(ctx context.Context, sys *system, o deficienciesOptions) error {
	if o.notice != "" {
		return runNotice(ctx, sys, o)
	}
	if o.open && o.all {
		return usagef("--open and --all ask for two lists; give one of them")
	}
	if o.date != "" {
		return usagef("--date goes with --notice; the list is as of --until")
	}
	if o.format == "" {
		o.format = faultFormats[0]
	}
	if err := knownFormat(o.format, faultFormats...); err != nil {
		return err
	}
	until := sys.today()
	if o.until != "" {
		d, err := notes.ParseDate(o.until)
		if err != nil {
			return usageError{err}
		}
		until = d
	}
	b, err := o.bookOptions.open(ctx, sys)
	if err != nil {
		return err
	}
	var jobs []report.FaultJob
	for _, j := range b.Jobs {
		jobs = append(jobs, report.FaultJob{Job: j.Job, Days: j.Days})
	}
	list := report.Deficiencies(jobs, until, o.all)
	write := map[string]func(io.Writer, report.FaultList) error{
		"text": report.DeficienciesText, "json": report.DeficienciesJSON, "csv": report.DeficienciesCSV, "md": report.DeficienciesMarkdown,
	}[o.format]
	var page bytes.Buffer
	if err := write(&page, list); err != nil {
		return err
	}
	return b.printed(sys, page.Bytes())
}

// printed writes a page that may be short of what the notes say when the book has errors.
func (b *openBook) printed(sys *system, page []byte) error {
	if err := writeAll(sys.out, page); err != nil {
		return err
	}
	if b.found.HasErrors() {
		fmt.Fprintf(sys.err, "%s: see jobday check\n", b.found.Summary())
	}
	return b.verdict()
}

// runNotice prints the notice of one job.
func runNotice(ctx context.Context, sys *system, o deficienciesOptions) error {
	if o.format == "" {
		o.format = noticeFormats[0]
	}
	switch err := errors.Join(knownFormat(o.format, noticeFormats...), sys.notForTerminal(o.format)); {
	case err != nil:
		return err
	case o.job != "" && o.job != o.notice:
		return usagef("--notice %s and --job %s name two jobs; one is enough", o.notice, o.job)
	case o.all || o.until != "":
		return usagef("--all and --until go with the list; a notice is of one --date")
	}
	o.job = o.notice
	b, err := o.bookOptions.open(ctx, sys)
	if err != nil {
		return err
	}
	j := b.selected[0]
	if len(j.days) == 0 {
		return usagef("job %s has no note yet", o.job)
	}
	n, err := report.NewNotice(b.Company, report.FaultJob{Job: j.Job, Days: j.Days, Photos: b.photosOf(j.Folder)}, j.days[len(j.days)-1].Date)
	if err != nil {
		return err
	}
	for _, lost := range n.Lost() {
		fmt.Fprintln(sys.err, lost)
	}
	var page bytes.Buffer
	if err := b.writeSheet(&page, n.Sheet(), o.format); err != nil {
		return err
	}
	return b.printed(sys, page.Bytes())
}
