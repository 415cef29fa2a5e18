package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/url"
	"strings"

	"github.com/spf13/cobra"

	"jobday/finding"
	"jobday/notes"
	"jobday/report"
	"jobday/review"
)

var reviewFormats = []string{"text", "html", "md", "pdf", "json"}

type reviewOptions struct {
	bookOptions
	since, until string
	reports      string
	format       string
}

func newReview(sys *system) *cobra.Command {
	var o reviewOptions
	cmd := &cobra.Command{
		Use:   "review",
		Short: "Tell the owner what was found beyond scope over all jobs, and where it went",
		Long: `Looks over all jobs and crews: what was found beyond the booked scope in a stretch of days, what
it was worth and how much of it was billed, agreed, declined, given away or never priced; what
stands done on nobody's confirmed word, and how long; what brings extras about and which booked
wording they grow from; which hazards stand open; hours booked against hours worked; days whose
note tells half; and the trend by week.

The figures are those of the notes up to the last day. What was agreed after it does not count.`,
		Example: `  jobday review
  jobday review --since 2026-03-01 --until 2026-03-31 --format html > march.html
  jobday review --since 2026-01-01 --reports ../reports --format html > review.html`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runReview(cmd.Context(), sys, o) },
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	o.addWidth(cmd)
	cmd.Flags().StringVar(&o.since, "since", "", "the first day `YYYY-MM-DD`: default the first note")
	cmd.Flags().StringVar(&o.until, "until", "", "the last day `YYYY-MM-DD`: default today")
	cmd.Flags().StringVar(&o.reports, "reports", "", "link days to the reports in this `DIR`, as seen from the page")
	addFormat(cmd, &o.format, reviewFormats...)
	return cmd
}

func runReview(ctx context.Context, sys *system, o reviewOptions) error {
	if err := errors.Join(knownFormat(o.format, reviewFormats...), sys.notForTerminal(o.format)); err != nil {
		return usageError{err}
	}
	b, err := o.bookOptions.open(ctx, sys)
	if err != nil {
		return err
	}
	in := review.Input{}
	if in.Since, in.Until, err = o.stretch(sys, b); err != nil {
		return err
	}
	for _, j := range b.Jobs {
		in.Jobs = append(in.Jobs, review.Job{Job: j.Job, Days: j.Days})
	}
	var page bytes.Buffer
	if err := writeReview(b, &page, report.ReviewInput{Review: review.Of(in), Company: b.Company, Href: o.href()}, o.format); err != nil {
		return err
	}
	return b.printed(sys, page.Bytes())
}

// stretch returns the first and last day looked at: from the first note to today when nothing is said.
func (o *reviewOptions) stretch(sys *system, b *openBook) (since, until notes.Date, err error) {
	since = sys.today()
	for _, d := range b.Days() {
		if d.Date.Compare(since) < 0 {
			since = d.Date
		}
	}
	first := o.since
	if first == "" {
		first = since.String()
	}
	return stretchOfDays(sys, first, o.until)
}

// href leads to the report of a day as the report command names it.
func (o *reviewOptions) href() func(string, notes.Date) string {
	if o.reports == "" {
		return nil
	}
	dir := strings.TrimSuffix((&url.URL{Path: o.reports}).EscapedPath(), "/")
	return func(job string, day notes.Date) string {
		return dir + "/" + fileName(job) + "/" + day.String() + endings["html"]
	}
}

func writeReview(b *openBook, w io.Writer, in report.ReviewInput, format string) error {
	if format == "json" {
		return finding.WriteIndented(w, in.Review)
	}
	return b.writeSheet(w, report.Review(in), format)
}
