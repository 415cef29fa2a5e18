package main

import (
	"bytes"
	"context"
	"errors"
	"strings"

	"github.com/spf13/cobra"

	"jobday/explain"
	"jobday/notes"
)

type explainOptions struct {
	bookOptions
	format string
}

func newExplain(sys *system) *cobra.Command {
	var o explainOptions
	cmd := &cobra.Command{
		Use:   "explain REF",
		Short: "Show where a figure comes from: note lines, match, price, rounding, tax",
		Long: `Prints the full account of what REF names:
  an extra or entry by its id       2026-03-12/mixer-disconnect
  a place in a note                 2026-03-12.md:27
  a booked line, by its label       B   (with --job)
  an invoice by its number          2431-1
  a change order by its number      co-1   (with --job)`,
		Example: `  jobday explain 2026-03-12/mixer-disconnect
  jobday explain B --job 2431
  jobday explain jobs/2431-quay-bakery/2026-03-12.md:27
  jobday explain 2431-1`,
		Args:              oneArgument("what to explain, such as: jobday explain B --job 2431"),
		ValidArgsFunction: completeRefs(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runExplain(cmd.Context(), sys, o, args[0])
		},
	}
	o.addBook(cmd)
	o.addJob(cmd, sys)
	o.addDate(cmd, sys)
	addFormat(cmd, &o.format, "text", "json")
	return cmd
}

func runExplain(ctx context.Context, sys *system, o explainOptions, ref string) error {
	if err := knownFormat(o.format, "text", "json"); err != nil {
		return err
	}
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	in := b.explainInput()
	if days := b.days(); o.date != "" && o.date != "last" && len(days) > 0 {
		in.Date = days[0].Date
	}
	chains, err := explain.Find(in, strings.TrimPrefix(ref, "./"))
	if unknown := (*explain.UnknownError)(nil); errors.As(err, &unknown) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	var page bytes.Buffer
	write := explain.WriteText
	if o.format == "json" {
		write = explain.WriteJSON
	}
	if err := write(&page, chains); err != nil {
		return err
	}
	return writeAll(sys.out, page.Bytes())
}

// explainInput is the compiled book as package explain looks things up in it.
func (b *openBook) explainInput() explain.Input {
	in := explain.Input{}
	for _, j := range b.Jobs {
		in.Jobs = append(in.Jobs, explain.Job{Job: j.Job, Days: j.Days, Changes: j.Records.Changes, Invoices: j.Records.Invoices})
	}
	return in
}

// completeRefs offers the labels of booked lines and the ids of extras.
func completeRefs(sys *system, o *bookOptions) completion {
	return func(cmd *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		b, err := o.open(context.Background(), sys)
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var offers []string
		offer := func(ref, what string) {
			if strings.HasPrefix(ref, start) {
				offers = append(offers, ref+"\t"+what)
			}
		}
		seen := map[string]bool{}
		for _, j := range b.selected {
			for _, l := range j.Job.Lines {
				if o.job != "" {
					offer(l.Label, l.Work)
				}
			}
			for _, v := range j.Records.Invoices {
				offer(v.Number, string(v.Kind))
			}
			if o.job != "" {
				for _, c := range j.Records.Changes {
					offer(c.Number, "change order")
				}
			}
			for _, d := range j.days {
				for _, x := range extrasOf(d, seen) {
					offer(x.ID, x.Work)
				}
			}
		}
		return offers, cobra.ShellCompDirectiveNoFileComp
	}
}

// extrasOf returns the extras of a day that were not seen on an earlier one.
func extrasOf(d *notes.JobDay, seen map[string]bool) []notes.ExtraWork {
	var fresh []notes.ExtraWork
	for _, x := range d.Extras {
		if !seen[x.ID] {
			seen[x.ID] = true
			fresh = append(fresh, x)
		}
	}
	return fresh
}
