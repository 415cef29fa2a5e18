package main

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"jobday/closeout"
)

type closeoutOptions struct {
	bookOptions
	format string
}

func newCloseout(sys *system) *cobra.Command {
	var o closeoutOptions
	cmd := &cobra.Command{
		Use:   "closeout JOB",
		Short: "List what to settle before the crew leaves the site",
		Long: `Lists what the job still wants as of its last note: booked lines without a word, work still
open, missing hours, extras nobody authorized, deficiencies without a decision, devices
installed without a test, entries nobody can place, open questions. Open points are no
error: the exit status is 0.`,
		Example: `  jobday closeout 2431
  jobday closeout 2431 --date 2026-03-12 --format json`,
		Args:              oneArgument("the number of a job, such as: jobday closeout 2431"),
		ValidArgsFunction: completeJobArg(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.job = args[0]
			return runCloseout(cmd.Context(), sys, o)
		},
	}
	o.addBook(cmd)
	o.addDate(cmd, sys)
	addFormat(cmd, &o.format, "text", "json")
	return cmd
}

func runCloseout(ctx context.Context, sys *system, o closeoutOptions) error {
	if err := knownFormat(o.format, "text", "json"); err != nil {
		return err
	}
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	j := b.selected[0]
	in := closeout.Input{Job: j.Job, Company: b.Company}
	if n := len(j.days); n > 0 {
		last := slices.Index(j.Days, j.days[n-1])
		in.Days = j.Days[:last+1]
	}
	var page bytes.Buffer
	write := closeout.WriteText
	if o.format == "json" {
		write = closeout.WriteJSON
	}
	if err := write(&page, in, closeout.List(in)); err != nil {
		return err
	}
	if err := writeAll(sys.out, page.Bytes()); err != nil {
		return err
	}
	if b.found.HasErrors() { // the list may be short of what could not be read
		_, err = fmt.Fprintf(sys.err, "%s may hide open points: see jobday check --job %s\n", b.found.Summary(), o.job)
	}
	return err
}
