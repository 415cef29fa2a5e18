package main

import (
	"bytes"
	"context"
	"errors"

	"github.com/spf13/cobra"

	"jobday/report"
	"jobday/restock"
)

var restockFormats = []string{"text", "html", "pdf", "md", "csv", "json"}

type restockOptions struct {
	bookOptions
	since, until string
	format       string
}

func newRestock(sys *system) *cobra.Command {
	var o restockOptions
	cmd := &cobra.Command{
		Use:   "restock",
		Short: "List what was used since a day, in the order of the price list",
		Long: `Lists what the notes say was used from a day on, in the order of the price list, so that it can
be bought again. Where the price list has a column "pack", such as 250 for a roll of 250 ft,
what to buy is rounded up to whole packages.

What no row of the list fits, what could not be read for sure, and what was delivered follow
apart, each with its line of the notes. Deliveries are not taken off: the notes do not say
whether they went into the job or onto the shelf.`,
		Example: `  jobday restock --since 2026-03-09
  jobday restock --since 2026-03-01 --until 2026-03-31 --format csv > march.csv`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runRestock(cmd.Context(), sys, o) },
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	o.addJob(cmd, sys)
	cmd.Flags().StringVar(&o.since, "since", "", "the first day `YYYY-MM-DD` that counts")
	cmd.Flags().StringVar(&o.until, "until", "", "the last day `YYYY-MM-DD` that counts: default today")
	addFormat(cmd, &o.format, restockFormats...)
	return cmd
}

func runRestock(ctx context.Context, sys *system, o restockOptions) error {
	if err := errors.Join(knownFormat(o.format, restockFormats...), sys.notForTerminal(o.format)); err != nil {
		return usageError{err}
	}
	if o.since == "" {
		return usagef("restock needs the first day that counts: --since YYYY-MM-DD")
	}
	since, until, err := stretchOfDays(sys, o.since, o.until)
	if err != nil {
		return err
	}
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	in := restock.Input{Company: b.Company, Prices: b.Prices, Since: since, Until: until}
	for _, j := range b.Jobs {
		in.Jobs = append(in.Jobs, restock.Job{Job: j.Job, Days: j.Days})
	}
	made := restock.Make(in)
	var page bytes.Buffer
	switch o.format {
	case "csv":
		err = report.RestockCSV(&page, made)
	case "json":
		err = report.RestockJSON(&page, made)
	case "text":
		err = report.RestockText(&page, made, b.Company)
	default:
		err = b.writeSheet(&page, report.RestockSheet(made, b.Company), o.format)
	}
	if err != nil {
		return err
	}
	return b.printed(sys, page.Bytes())
}
