package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"jobday/billing"
	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/record"
	"jobday/report"
	"jobday/ubl"
)

var invoiceFormats = []string{"text", "md", "html", "pdf", "csv", "json", "ubl"}

type invoiceOptions struct {
	bookOptions
	day, by, why, format string
	release, dryRun      bool
}

func newInvoice(sys *system) *cobra.Command {
	var o invoiceOptions
	cmd := &cobra.Command{
		Use:   "invoice JOB",
		Short: "Bill all that is ready and not billed, as a numbered record",
		Long: `Collects everything of a job that became ready on any day and stands on no invoice yet, and writes
it as the next record under invoices/ in the job's folder. What was edited after it was billed
comes as a correction, up or down; what is in no invoice stays ready. Running it again bills
nothing again.

The scope's front matter says how the job is billed: "billing: percent" bills lots as far as they
are done instead of on completion, "deposit: 500.00" is used up first, "retainage: 10" is withheld
before tax until --release-retainage. Terms and tax are those of company.yaml.`,
		Example: `  jobday invoice 2431 --dry-run
  jobday invoice 2431 --by Hanna
  jobday invoice show 2431-1 --format pdf > 2431-1.pdf
  jobday invoice show 2431-1 --format ubl > 2431-1.xml
  jobday invoice void 2431-1 --why "wrong customer" --by Hanna`,
		Args:              oneArgument("the number of a job, such as: jobday invoice 2431"),
		ValidArgsFunction: completeJobArg(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.job = args[0]
			return runInvoice(cmd.Context(), sys, o)
		},
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	o.addInvoice(cmd)
	cmd.Flags().BoolVar(&o.release, "release-retainage", false, "release what was withheld, and withhold nothing")
	cmd.Flags().BoolVar(&o.dryRun, "dry-run", false, "show it and write nothing")
	addFormat(cmd, &o.format, invoiceFormats...)
	cmd.AddCommand(newInvoiceList(sys), newInvoiceShow(sys), newInvoiceVoid(sys))
	return cmd
}

func (o *invoiceOptions) addInvoice(cmd *cobra.Command) {
	cmd.Flags().StringVar(&o.day, "date", "", "the day `YYYY-MM-DD` of the invoice: default today")
	cmd.Flags().StringVar(&o.by, "by", "", "`NAME` of who makes it")
}

func runInvoice(ctx context.Context, sys *system, o invoiceOptions) error {
	if err := errors.Join(knownFormat(o.format, invoiceFormats...), sys.notForTerminal(o.format)); err != nil {
		return usageError{err}
	}
	date, err := sys.day(o.day)
	if err != nil {
		return err
	}
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	var v notes.Invoice
	write := func(in billing.Input) (made, error) {
		v, err = billing.Invoice(in, billing.Request{Date: date, By: o.by, Release: o.release})
		return made{record.InvoiceName(v.Number), record.Invoice(&v)}, err
	}
	return o.bill(ctx, sys, b, &v, write)
}

// bill writes an invoice or only shows it, and says what changed.
func (o invoiceOptions) bill(ctx context.Context, sys *system, b *openBook, v *notes.Invoice, write recordWriter) error {
	r := recorded{job: o.job, Invoice: v, Money: []moneyChange{}, UnbilledBefore: unbilled(b, o.job)}
	r.UnbilledNow = r.UnbilledBefore
	after := b
	var err error
	if o.dryRun {
		var m made
		m, err = write(b.Find(o.job).Billing(b.Company))
		r.File = m.name
		if err != nil {
			err = refusal(err)
		}
	} else {
		after, r.File, err = o.writeRecord(ctx, sys, b, write)
	}
	if errors.Is(err, billing.ErrNothing) {
		return o.nothing(sys, b)
	}
	if err != nil {
		return err
	}
	if !o.dryRun {
		r.compare(b, after, o.job)
	}
	return o.print(sys, after, &r)
}

// nothing says that nothing is to be billed, and what waits.
func (o invoiceOptions) nothing(sys *system, b *openBook) error {
	var page bytes.Buffer
	if o.format == "json" {
		if err := finding.WriteIndented(&page, recorded{Money: []moneyChange{}}); err != nil {
			return err
		}
		return writeAll(sys.out, page.Bytes())
	}
	fmt.Fprintf(&page, "job %s: %v\n  nothing was written\n", o.job, billing.ErrNothing)
	if j := b.Find(o.job); j != nil && len(j.Days) > 0 {
		if h := held(j.Days[len(j.Days)-1]); !h.IsZero() {
			fmt.Fprintf(&page, "  held: %s, with the reasons in the report of the last day\n", h)
		}
	}
	return writeAll(sys.out, page.Bytes())
}

func (o invoiceOptions) print(sys *system, b *openBook, r *recorded) error {
	var page bytes.Buffer
	v := r.Invoice
	switch o.format {
	case "json":
		if err := finding.WriteIndented(&page, r); err != nil {
			return err
		}
	case "text":
		writeInvoiceText(&page, v)
		writeWhere(&page, r)
		r.writeMoney(&page)
	default:
		if err := writeInvoice(&page, sys, b, v, o.format, !r.Written); err != nil {
			return err
		}
	}
	return writeAll(sys.out, page.Bytes())
}

func writeInvoiceText(page *bytes.Buffer, v *notes.Invoice) {
	fmt.Fprintf(page, "%s %s, job %s, %s\n", v.Kind, v.Number, v.Job, v.Date)
	for _, l := range v.Lines {
		fmt.Fprintf(page, "  %12s  %s\n", l.Amount, finding.Printable(l.What))
		if l.Kind == "correction" {
			fmt.Fprintf(page, "  %12s  %s\n", "", finding.Printable(l.Why))
		}
	}
	sum := func(what string, m notes.Money) { fmt.Fprintf(page, "  %12s  %s\n", m, finding.Printable(what)) }
	for _, a := range v.Allowances {
		sum(a.Reason, a.Amount.Neg())
	}
	for _, a := range v.Charges {
		sum(a.Reason, a.Amount)
	}
	for _, t := range v.Tax {
		sum(t.Name+" tax, "+t.Rate.String()+" % of "+t.Base.String(), t.Amount)
	}
	if !v.Totals.Paid.IsZero() {
		sum("deposit", v.Totals.Paid.Neg())
	}
	sum("to pay, due "+v.Due.String(), v.Totals.Due)
}

// writeInvoice writes an invoice as the customer, the books or a machine get it.
func writeInvoice(page *bytes.Buffer, sys *system, b *openBook, v *notes.Invoice, format string, draft bool) error {
	j := b.Find(v.Job)
	switch format {
	case "csv":
		return report.BooksCSV(page, []notes.Invoice{*v})
	case "ubl":
		var job *notes.Job
		if j != nil {
			job = j.Job
		}
		text, found := ubl.Invoice(v, ubl.Seller(v, b.Company), ubl.Buyer(v, job))
		if len(found) > 0 {
			if err := finding.WriteText(sys.err, found, finding.TextOptions{}); err != nil {
				return err
			}
		}
		if found.HasErrors() {
			return errInput
		}
		page.Write(text)
		return nil
	}
	s := report.InvoiceSheet(v, j != nil && j.Records.Voided(v.Number), b.Company)
	if draft {
		s.Mark.Word = "DRAFT"
	}
	return b.writeSheets(page, format, s)
}

func newInvoiceShow(sys *system) *cobra.Command {
	var o invoiceOptions
	cmd := &cobra.Command{
		Use:               "show NUMBER",
		Short:             "Print an invoice as it was made: md, html, pdf, csv, json or ubl",
		Example:           "  jobday invoice show 2431-1 --format pdf > 2431-1.pdf",
		Args:              oneArgument("the number of an invoice, such as: jobday invoice show 2431-1"),
		ValidArgsFunction: completeInvoices(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := errors.Join(knownFormat(o.format, invoiceFormats...), sys.notForTerminal(o.format)); err != nil {
				return usageError{err}
			}
			b, v, err := o.invoice(cmd.Context(), sys, args[0])
			if err != nil {
				return err
			}
			var page bytes.Buffer
			if o.format == "json" {
				err = finding.WriteIndented(&page, v)
			} else {
				err = writeInvoice(&page, sys, b, v, o.format, false)
			}
			if err != nil {
				return err
			}
			return b.printed(sys, page.Bytes())
		},
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	addFormat(cmd, &o.format, invoiceFormats...)
	return cmd
}

// invoice finds an invoice by its number, and the job it is of.
func (o *invoiceOptions) invoice(ctx context.Context, sys *system, number string) (*openBook, *notes.Invoice, error) {
	b, err := o.open(ctx, sys)
	if err != nil {
		return nil, nil, err
	}
	has := func(j *compile.JobResult) bool { return j.Records.Invoice(number) != nil }
	if err := o.oneJob(b, "an invoice "+number+", see: jobday invoice list", has); err != nil {
		return nil, nil, err
	}
	return b, b.Find(o.job).Records.Invoice(number), nil
}

func newInvoiceVoid(sys *system) *cobra.Command {
	var o invoiceOptions
	cmd := &cobra.Command{
		Use:   "void NUMBER",
		Short: "Take an invoice back with a record of its own",
		Long: `Writes the next number of the job with the same amounts, negative, and why. The invoice stays as it
was sent; what it billed is unbilled again, and the next invoice has it.`,
		Example:           `  jobday invoice void 2431-1 --why "wrong customer" --by Hanna`,
		Args:              oneArgument("the number of an invoice, such as: jobday invoice void 2431-1 --why WORDS"),
		ValidArgsFunction: completeInvoices(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runInvoiceVoid(cmd.Context(), sys, o, args[0])
		},
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	o.addInvoice(cmd)
	cmd.Flags().StringVar(&o.why, "why", "", "`WORDS` that say why")
	addFormat(cmd, &o.format, invoiceFormats...)
	return cmd
}

func runInvoiceVoid(ctx context.Context, sys *system, o invoiceOptions, number string) error {
	if err := errors.Join(knownFormat(o.format, invoiceFormats...), sys.notForTerminal(o.format)); err != nil {
		return usageError{err}
	}
	if strings.TrimSpace(o.why) == "" {
		return usagef("taking an invoice back says why: add --why WORDS")
	}
	date, err := sys.day(o.day)
	if err != nil {
		return err
	}
	b, _, err := o.invoice(ctx, sys, number)
	if err != nil {
		return err
	}
	var v notes.Invoice
	return o.bill(ctx, sys, b, &v, func(in billing.Input) (made, error) {
		v, err = billing.Void(in, number, o.why, billing.Request{Date: date, By: o.by})
		return made{record.InvoiceName(v.Number), record.Invoice(&v)}, err
	})
}

func newInvoiceList(sys *system) *cobra.Command {
	var o invoiceOptions
	cmd := &cobra.Command{
		Use:   "list",
		Short: "List the invoices, and what of each job is ready and not billed",
		Example: `  jobday invoice list
  jobday invoice list --job 2431 --format csv > books.csv`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runInvoiceList(cmd.Context(), sys, o) },
	}
	o.addBook(cmd)
	o.addJob(cmd, sys)
	addFormat(cmd, &o.format, "text", "csv", "json")
	return cmd
}

// invoicesOfJob is the invoices of one job, and where its money stands before tax.
type invoicesOfJob struct {
	Job      string          `json:"job"`
	Title    string          `json:"title"`
	Invoices []notes.Invoice `json:"invoices"`
	Unbilled notes.Money     `json:"unbilled"`
	Deposit  notes.Money     `json:"deposit_left"`
	Withheld notes.Money     `json:"withheld"`
}

func runInvoiceList(ctx context.Context, sys *system, o invoiceOptions) error {
	if err := knownFormat(o.format, "text", "csv", "json"); err != nil {
		return err
	}
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	all := []invoicesOfJob{}
	var flat []notes.Invoice
	for _, j := range b.selected {
		in := j.Billing(b.Company)
		row := invoicesOfJob{
			Job: j.Job.Number, Title: j.Job.Title, Invoices: append([]notes.Invoice{}, j.Records.Invoices...),
			Unbilled: in.Unbilled(), Deposit: in.DepositLeft(), Withheld: in.Withheld(true).Add(in.Withheld(false)),
		}
		all, flat = append(all, row), append(flat, row.Invoices...)
	}
	var page bytes.Buffer
	switch o.format {
	case "json":
		err = finding.WriteIndented(&page, all)
	case "csv":
		err = report.BooksCSV(&page, flat)
	default:
		writeInvoices(&page, all)
	}
	if err != nil {
		return err
	}
	return b.printed(sys, page.Bytes())
}

func writeInvoices(page *bytes.Buffer, all []invoicesOfJob) {
	for i, j := range all {
		if i > 0 {
			page.WriteString("\n")
		}
		fmt.Fprintf(page, "job %s, %s\n", j.Job, finding.Printable(j.Title))
		for _, v := range j.Invoices {
			what := "to pay by " + v.Due.String()
			if v.Kind == notes.InvoiceVoid {
				what = "takes " + v.Voids + " back: " + v.Why
			}
			fmt.Fprintf(page, "  %-10s %s %12s  %s\n", v.Number, v.Date, v.Totals.Due, finding.Printable(what))
		}
		fmt.Fprintf(page, "  ready and not billed, before tax: %s\n", j.Unbilled)
		if !j.Withheld.IsZero() {
			fmt.Fprintf(page, "  withheld: %s\n", j.Withheld)
		}
		if !j.Deposit.IsZero() {
			fmt.Fprintf(page, "  left of the deposit: %s\n", j.Deposit)
		}
	}
}
