package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/finding"
	"jobday/notes"
	"jobday/report"
)

// reportFormats are the formats of a report; text is for the terminal only.
var reportFormats = []string{"html", "md", "csv", "pdf", "json", "text"}

// customerFormats are those of the customer's edition; there is none for other programs to read.
var customerFormats = []string{"html", "md", "pdf", "text"}

// The editions of a report.
const (
	officeEdition   = "office"
	customerEdition = "customer"
)

type reportOptions struct {
	bookOptions
	formats []string
	out     string
	edition string
}

// known returns the formats of the edition, and those written into a folder when none is named.
func (o *reportOptions) known() (all, usual []string, err error) {
	switch o.edition {
	case officeEdition:
		return reportFormats, []string{"html", "md", "csv"}, nil
	case customerEdition:
		return customerFormats, []string{"html", "md", "pdf"}, nil
	}
	return nil, nil, usagef("there is no edition %q; the editions are office, with costs and held money, and customer", o.edition)
}

func newReport(sys *system) *cobra.Command {
	var o reportOptions
	cmd := &cobra.Command{
		Use:   "report",
		Short: "Write the daily reports: what to bill now, what is held and why",
		Long: `Compiles the notes against the booked scope and writes a report for each job and day:
a page to read and print (html), a text to send (md), and the lines to invoice (csv); on
request also paper (pdf), made here without a browser.
They go into the folder out of the book, or to --out DIR, or to standard output with
--out -, and a summary is printed.

This is the office's edition, with costs, margins, held money and internal notes: it stays in the
house. --edition customer writes one to hand over, which has none of these; its files are named
for it (html, md, pdf).

Reports are written also when the input has errors: what could not be read is shown in
them and holds the money that depends on it.`,
		Example: `  jobday report
  jobday report --job 2431 --date 2026-03-12
  jobday report --job 2431 --date last --format md --out -
  jobday report --job 2431 --date last --edition customer
  jobday report --format json --out - > days.json`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runReport(cmd.Context(), sys, o) },
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	o.addWidth(cmd)
	o.addJob(cmd, sys)
	o.addDate(cmd, sys)
	cmd.Flags().StringSliceVar(&o.formats, "format", nil,
		"any of "+strings.Join(reportFormats, ", ")+": default html,md,csv into a folder, text to -")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("format",
		cobra.FixedCompletions(reportFormats, cobra.ShellCompDirectiveNoFileComp)))
	cmd.Flags().StringVar(&o.edition, "edition", officeEdition, "office, with costs and held money, or customer, to hand over")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("edition",
		cobra.FixedCompletions([]string{officeEdition, customerEdition}, cobra.ShellCompDirectiveNoFileComp)))
	cmd.Flags().StringVar(&o.out, "out", "", "write into this `DIR`, or to standard output with -")
	cobra.CheckErr(cmd.MarkFlagDirname("out"))
	return cmd
}

func runReport(ctx context.Context, sys *system, o reportOptions) error {
	all, usual, err := o.known()
	if err != nil {
		return err
	}
	for _, f := range o.formats {
		if err := knownFormat(f, all...); err != nil {
			return err
		}
	}
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	if o.out == "-" {
		return reportToOutput(sys, b, o)
	}
	dir := b.outDir(sys, o.out)
	formats := o.formats
	if len(formats) == 0 {
		formats = usual
	}
	makeFiles := reportFiles
	if o.edition == customerEdition {
		makeFiles = customerFiles
	}
	files, err := makeFiles(b, formats)
	if err != nil {
		return err
	}
	if len(files) > 0 {
		if err := book.Replace(dir, files...); err != nil {
			return err
		}
	}
	if err := summarize(sys, b, shownPath(sys.dir, dir), files); err != nil {
		return err
	}
	return b.verdict()
}

// outDir is the folder output goes into: the one asked for, or out in the book.
func (b *openBook) outDir(sys *system, asked string) string {
	switch {
	case asked == "":
		return filepath.Join(b.root, "out")
	case filepath.IsAbs(asked):
		return asked
	}
	return filepath.Join(sys.dir, asked)
}

// reportToOutput writes one format of all selected days.
func reportToOutput(sys *system, b *openBook, o reportOptions) error {
	format := "text"
	switch len(o.formats) {
	case 0:
	case 1:
		format = o.formats[0]
	default:
		return usagef("standard output takes one --format, not %s", strings.Join(o.formats, ", "))
	}
	if n := len(b.days()); format == "html" && n != 1 {
		return usagef("an html page holds one job and day, and %d were selected: choose with --job and --date", n)
	}
	var page bytes.Buffer
	write := func() error {
		return writeFormat(&page, b.inputs(), format, report.TextOptions{Color: sys.color(), Width: b.width})
	}
	if o.edition == customerEdition {
		write = func() error { return b.writeCustomer(&page, b.inputs(), format) }
	}
	if err := write(); err != nil {
		return err
	}
	if err := writeAll(sys.out, page.Bytes()); err != nil {
		return err
	}
	if b.found.HasErrors() {
		fmt.Fprintf(sys.err, "%s: see jobday check\n", b.found.Summary())
	}
	return b.verdict()
}

// inputs are the selected days as the report package takes them.
func (b *openBook) inputs() []report.Input {
	var ins []report.Input
	for _, j := range b.selected {
		for _, d := range j.days {
			ins = append(ins, report.Input{Day: d, Job: j.Job, Company: b.Company, Photos: b.photosOf(j.Folder), Templates: b.pages, Paper: b.paper})
		}
	}
	return ins
}

// writeFormat writes days in one format into one text.
func writeFormat(w io.Writer, ins []report.Input, format string, opt report.TextOptions) error {
	switch format {
	case "csv":
		return report.InvoiceCSV(w, ins)
	case "pdf":
		return report.DaysPDF(w, ins)
	case "json":
		days := make([]*notes.JobDay, 0, len(ins))
		for _, in := range ins {
			days = append(days, in.Day)
		}
		return report.JSON(w, days)
	}
	for i, in := range ins {
		if i > 0 {
			if _, err := io.WriteString(w, "\n"); err != nil {
				return err
			}
		}
		var err error
		switch format {
		case "html":
			err = report.HTML(w, in)
		case "md":
			err = report.Markdown(w, in)
		default:
			err = report.Text(w, in, opt)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// indexName is the page that lists the reports; it is the last file that is written.
const indexName = "index.html"

// endings are what the file of a format is called behind the date.
var endings = map[string]string{
	"html": ".html", "md": ".md", "csv": "-invoice-lines.csv", "pdf": ".pdf", "json": ".json", "text": ".txt",
}

// reportFiles makes the files of the selected days: out/<job>/<date>.html and so on, the lines to
// invoice of all of them together, and a page that lists the reports.
func reportFiles(b *openBook, formats []string) ([]book.Output, error) {
	var files []book.Output
	var rows []report.IndexRow
	if len(b.days()) == 0 {
		return nil, nil
	}
	add := func(name string, ins []report.Input, format string) error {
		var page bytes.Buffer
		if err := writeFormat(&page, ins, format, report.TextOptions{Width: b.width}); err != nil {
			return err
		}
		files = append(files, book.Output{Name: name, Text: page.Bytes()})
		return nil
	}
	for _, in := range b.inputs() {
		base := fileName(in.Day.Job) + "/" + dayName(in.Day)
		for _, f := range formats {
			name := base + endings[f]
			if err := add(name, []report.Input{in}, f); err != nil {
				return nil, err
			}
		}
		rows = append(rows, report.IndexRow{Input: in, Href: base + ".html"})
	}
	if slices.Contains(formats, "csv") {
		if err := add("invoice-lines.csv", b.inputs(), "csv"); err != nil {
			return nil, err
		}
	}
	if slices.Contains(formats, "html") {
		var page bytes.Buffer
		if err := report.Index(&page, rows); err != nil {
			return nil, err
		}
		files = append(files, book.Output{Name: indexName, Text: page.Bytes()})
	}
	return files, nil
}

func dayName(d *notes.JobDay) string {
	if !d.Date.Known() {
		return "undated"
	}
	return d.Date.String()
}

// fileName makes a job number safe as the name of a folder on any system.
func fileName(number string) string {
	safe := strings.Map(func(r rune) rune {
		switch {
		case 'a' <= r && r <= 'z', 'A' <= r && r <= 'Z', '0' <= r && r <= '9', r == '-', r == '_':
			return r
		}
		return '_'
	}, number)
	if safe == "" {
		return "job"
	}
	return safe
}

// summarize prints what was written and where the money of each day stands.
func summarize(sys *system, b *openBook, dir string, files []book.Output) error {
	var page bytes.Buffer
	for _, j := range b.selected {
		if len(j.days) == 0 {
			continue
		}
		fmt.Fprintf(&page, "%s %s\n", j.Job.Number, finding.Printable(j.Job.Title))
		for _, d := range j.days {
			fmt.Fprintln(&page, strings.TrimRight(fmt.Sprintf("  %s  bill now %9s  held %9s  %s", dayName(d), d.Money.Ready.Total,
				heldTotal(d), standing(d)), " "))
		}
	}
	switch n := len(files); {
	case n == 0:
		fmt.Fprintln(&page, "no job-day to report on: write a note first, with: jobday new day JOB")
	case files[n-1].Name == indexName:
		fmt.Fprintf(&page, "%s in %s; begin with %s\n", count(n, "file"), dir, filepath.Join(dir, indexName))
	default:
		fmt.Fprintf(&page, "%s in %s\n", count(n, "file"), dir)
	}
	if len(b.found) > 0 {
		fmt.Fprintf(&page, "%s: see jobday check\n", b.found.Summary())
	}
	return writeAll(sys.out, page.Bytes())
}

// heldTotal adds up what is held.
func heldTotal(d *notes.JobDay) notes.Money {
	var sum notes.Money
	for _, h := range d.Money.Held {
		sum = sum.Add(h.Amount)
	}
	return sum
}

// standing says in a few words what else the day has.
func standing(d *notes.JobDay) string {
	var parts []string
	for _, p := range []struct {
		n    int
		what string
	}{
		{len(d.Extras), "extra"}, {len(d.Deficiencies), "deficiency"},
		{len(d.Questions), "question"}, {len(d.Findings), "finding"},
	} {
		switch {
		case p.n == 1 || p.n > 1 && p.what != "deficiency":
			parts = append(parts, count(p.n, p.what))
		case p.n > 1:
			parts = append(parts, fmt.Sprintf("%d deficiencies", p.n))
		}
	}
	return strings.Join(parts, ", ")
}

// shownPath returns path as a person at dir would type it.
func shownPath(dir, path string) string {
	if rel, err := filepath.Rel(dir, path); err == nil && filepath.IsLocal(rel) {
		return rel
	}
	return path
}
