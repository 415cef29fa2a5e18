package main

import (
	"bytes"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"jobday/billing"
	"jobday/finding"
)

type checkOptions struct {
	bookOptions
	format string
	today  string
}

func newCheck(sys *system) *cobra.Command {
	var o checkOptions
	cmd := &cobra.Command{
		Use:   "check",
		Short: "Say what is wrong with the book: every finding, with its place",
		Long: `Reads the whole book and prints everything that could not be used as meant, with the
place, the line and what to write instead, and warns of extra work whose notice period (notice:
in company.yaml) runs out. It never stops at the first finding and changes no file. The rules are explained by: jobday export rules`,
		Example: `  jobday check
  jobday check --job 2431
  jobday check --format sarif > findings.sarif`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runCheck(cmd, sys, o) },
	}
	o.addBook(cmd)
	o.addJob(cmd, sys)
	cmd.Flags().StringVar(&o.today, "today", "", "the day `YYYY-MM-DD` that notice periods are counted to: default today")
	addFormat(cmd, &o.format, "text", "json", "sarif")
	return cmd
}

// notices are the notice and claim periods of extra work that run out soon, or ran out.
func (b *openBook) notices(sys *system, today string) (finding.List, error) {
	day, err := sys.day(today)
	if err != nil {
		return nil, err
	}
	var found finding.List
	for _, j := range b.selected {
		found.Add(billing.Notices(j.Billing(b.Company), day)...)
	}
	return found, nil
}

func runCheck(cmd *cobra.Command, sys *system, o checkOptions) error {
	if err := knownFormat(o.format, "text", "json", "sarif"); err != nil {
		return err
	}
	b, err := o.open(cmd.Context(), sys)
	if err != nil {
		return err
	}
	notices, err := b.notices(sys, o.today)
	if err != nil {
		return err
	}
	b.found = slices.Concat(b.found, b.photoFindings(), b.pages.Try(b.lastDays()), notices).Sort()
	var page bytes.Buffer
	switch o.format {
	case "json":
		err = finding.WriteJSON(&page, b.found)
	case "sarif":
		err = finding.WriteSARIF(&page, b.found, version())
	default:
		err = writeCheck(&page, b, finding.TextOptions{Color: sys.color()})
	}
	if err != nil {
		return err
	}
	if err := writeAll(sys.out, page.Bytes()); err != nil {
		return err
	}
	return b.verdict()
}

// writeCheck writes the findings for people, with a last line that says what was looked at.
func writeCheck(w io.Writer, b *openBook, opt finding.TextOptions) error {
	if err := finding.WriteText(w, b.found, opt); err != nil {
		return err
	}
	files := 0
	for _, j := range b.Jobs {
		files += len(j.Notes)
	}
	if len(b.found) > 0 {
		fmt.Fprintln(w)
	}
	_, err := fmt.Fprintf(w, "%s in %s, %s\n", b.found.Summary(), count(len(b.Jobs), "job"), count(files, "note"))
	return err
}

// count writes "1 job", "3 jobs".
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
