package main

import (
	"bytes"
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"jobday/billing"
	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/record"
	"jobday/report"
)

type changeOptions struct {
	bookOptions
	today, by, reason, effect, format string
	dryRun                            bool
}

func newChange(sys *system) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "change",
		Short: "Follow extra work from found to billed: list, offer, authorize, decline",
		Long: `An extra or credit that a note reports is found. Offered, it gets a number and becomes a
record under changes/ in the job's folder, with its amounts as they are then: no later edit of
a note moves them. The customer's answer is a record of its own, for all of it or a part.
Authorized and done, it may be billed: jobday invoice JOB.`,
		Args: knownCommand,
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newChangeList(sys), newChangeOffer(sys), newChangeShow(sys), newChangeAuthorize(sys), newChangeDecline(sys), newChangeWithdraw(sys))
	return cmd
}

func newChangeList(sys *system) *cobra.Command {
	var o changeOptions
	cmd := &cobra.Command{
		Use:   "list",
		Short: "List the changes of a job or of all: state, amount, age, exposed",
		Long: `Lists every extra and credit with its state: found, offered, authorized, declined, billed or no
charge. Exposed is work that is done and that nothing in writing says will be paid: its age in
days counts from the day it was first written. Notice and claim periods are "notice:" in
company.yaml.`,
		Example: `  jobday change list
  jobday change list --job 2431 --today 2026-04-01 --format json`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runChangeList(cmd.Context(), sys, o) },
	}
	o.addBook(cmd)
	o.addJob(cmd, sys)
	cmd.Flags().StringVar(&o.today, "today", "", "the day `YYYY-MM-DD` ages are counted to: default today")
	addFormat(cmd, &o.format, "text", "json")
	return cmd
}

// changesOfJob is the changes of one job, as a list shows them.
type changesOfJob struct {
	Job     string              `json:"job"`
	Title   string              `json:"title"`
	Changes []billing.ChangeRow `json:"changes"`
	Exposed notes.Money         `json:"exposed"` // done, and nothing in writing
}

func runChangeList(ctx context.Context, sys *system, o changeOptions) error {
	if err := knownFormat(o.format, "text", "json"); err != nil {
		return err
	}
	o.offering = true
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	today, err := sys.day(o.today)
	if err != nil {
		return err
	}
	all := []changesOfJob{}
	for _, j := range b.selected {
		c := changesOfJob{Job: j.Job.Number, Title: j.Job.Title, Changes: billing.Changes(j.Billing(b.Company), today)}
		for _, r := range c.Changes {
			if r.Exposed {
				c.Exposed = c.Exposed.Add(r.Amount)
			}
		}
		if len(c.Changes) > 0 {
			all = append(all, c)
		}
	}
	var page bytes.Buffer
	if o.format == "json" {
		err = finding.WriteIndented(&page, all)
	} else {
		writeChanges(&page, all, today)
	}
	if err != nil {
		return err
	}
	return b.printed(sys, page.Bytes())
}

func writeChanges(page *bytes.Buffer, all []changesOfJob, today notes.Date) {
	if len(all) == 0 {
		page.WriteString("no extra work and no credit is written\n")
	}
	for i, c := range all {
		if i > 0 {
			page.WriteString("\n")
		}
		fmt.Fprintf(page, "job %s, %s\n", c.Job, finding.Printable(c.Title))
		for _, r := range c.Changes {
			fmt.Fprintf(page, "\n  %s\n    %s\n", strings.TrimSpace(r.Number+" "+r.Extra), finding.Printable(r.Work))
			for _, line := range changeLines(r) {
				page.WriteString("    " + finding.Printable(line) + "\n")
			}
		}
		if !c.Exposed.IsZero() {
			fmt.Fprintf(page, "\n  exposed on %s: %s\n", today, c.Exposed)
		}
	}
}

// changeLines say how a change stands.
func changeLines(r billing.ChangeRow) []string {
	amount := r.Amount.String()
	if len(r.Missing) > 0 {
		amount += " and what is missing: " + strings.Join(r.Missing, ", ")
	}
	state := string(r.State) + ", " + amount
	if r.State == billing.ChangeAuthorized && !r.Authorized.Equal(r.Amount) {
		state = "authorized for " + r.Authorized.String() + " of " + amount
	}
	if r.By != "" {
		state += ", " + strings.Join(nonEmpty(r.By, r.How, r.At), ", ")
	}
	done := "not done"
	if r.Done {
		done = "done"
	}
	lines := []string{state, done + ", found " + r.Found.String() + ", " + daysOld(r.Age)}
	if r.Exposed {
		lines = append(lines, "exposed: nothing in writing says that it will be paid")
	}
	if r.ByNotes != nil {
		lines = append(lines, "the notes now make it "+r.ByNotes.String()+"; the amount agreed stands")
	}
	if r.NoticeDue.Known() {
		lines = append(lines, "notice in writing due by "+r.NoticeDue.String()+", claim by "+r.ClaimDue.String())
	}
	return lines
}

func nonEmpty(words ...string) []string {
	var list []string
	for _, w := range words {
		if w != "" {
			list = append(list, w)
		}
	}
	return list
}

func daysOld(n int) string {
	if n == 1 {
		return "1 day old"
	}
	return fmt.Sprintf("%d days old", n)
}

var offerFormats = []string{"text", "md", "html", "pdf", "json"}

func newChangeOffer(sys *system) *cobra.Command {
	var o changeOptions
	cmd := &cobra.Command{
		Use:   "offer EXTRA...",
		Short: "Offer extras to the customer: a number, frozen amounts, a page to sign",
		Long: `Puts one or several extras of a job, by their ids, into the next change order: a record under
changes/ with the amounts as the notes make them now. It says what changed; with --format md,
html or pdf it prints the page for the customer instead. How much of the price the page shows is
"offer: detail:" in company.yaml (total, parts or full); "excluded:", "valid_days:" and
"statement:" stand there too.`,
		Example: `  jobday change offer 2026-03-12/disconnect-dough-mixer --job 2431 --by Hanna
  jobday change offer 2026-03-12/disconnect-dough-mixer --job 2431 --by Hanna --reason "the new mixer needs one" --format pdf > co.pdf
  jobday change offer 2026-03-12/disconnect-dough-mixer --job 2431 --by Hanna --dry-run --format md`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("name at least one extra by its id; they are listed by: jobday change list")
			}
			return nil
		},
		ValidArgsFunction: completeExtras(sys, &o.bookOptions),
		RunE:              func(cmd *cobra.Command, args []string) error { return runChangeOffer(cmd.Context(), sys, o, args) },
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	o.addJob(cmd, sys)
	f := cmd.Flags()
	f.StringVar(&o.by, "by", "", "`NAME` of who offers it")
	f.StringVar(&o.reason, "reason", "", "`WORDS` that say why the work is wanted")
	f.StringVar(&o.effect, "effect", "", "`WORDS` on what it does to the time: default none")
	f.StringVar(&o.today, "date", "", "the day `YYYY-MM-DD` it is offered: default today")
	f.BoolVar(&o.dryRun, "dry-run", false, "show it and write nothing")
	addFormat(cmd, &o.format, offerFormats...)
	return cmd
}

func runChangeOffer(ctx context.Context, sys *system, o changeOptions, ids []string) error {
	if err := knownFormat(o.format, offerFormats...); err != nil {
		return err
	}
	if err := sys.notForTerminal(o.format); err != nil {
		return err
	}
	if strings.TrimSpace(o.by) == "" && !o.dryRun {
		return usagef("an offer says who made it: add --by NAME")
	}
	date, err := sys.day(o.today)
	if err != nil {
		return err
	}
	o.offering = true
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	has := func(j *compile.JobResult) bool {
		for _, d := range j.Days {
			if extraWithID(d, ids[0]) != nil {
				return true
			}
		}
		return false
	}
	if err := o.oneJob(b, "an extra "+ids[0]+", see: jobday change list", has); err != nil {
		return err
	}
	var c notes.ChangeOrder
	offer := func(in billing.Input) (made, error) {
		c, err = billing.Offer(in, billing.OfferRequest{Extras: ids, Date: date, By: o.by, Reason: o.reason, Effect: o.effect})
		return made{record.ChangeName(c.Number), record.Change(&c)}, err
	}
	r := recorded{job: o.job, Offer: &c, Money: []moneyChange{}}
	after := b
	if o.dryRun {
		m, err := offer(b.Find(o.job).Billing(b.Company))
		if err != nil {
			return refusal(err)
		}
		r.File = m.name
		r.UnbilledBefore = unbilled(b, o.job)
		r.UnbilledNow = r.UnbilledBefore
	} else {
		if after, r.File, err = o.writeRecord(ctx, sys, b, offer); err != nil {
			return err
		}
		r.compare(b, after, o.job)
	}
	return o.printOffer(sys, after, &r)
}

func (o changeOptions) printOffer(sys *system, b *openBook, r *recorded) error {
	var page bytes.Buffer
	c := r.Offer
	var err error
	switch o.format {
	case "json":
		err = finding.WriteIndented(&page, r)
	case "text":
		fmt.Fprintf(&page, "%s: %s, %s with tax\n", c.Number, c.Subtotal, c.Total)
		for _, i := range c.Items {
			fmt.Fprintf(&page, "  %s  %s\n", finding.Printable(i.Work), i.Amount)
		}
		writeWhere(&page, r)
		r.writeMoney(&page)
		if r.Written {
			fmt.Fprintf(&page, "\nThe page to sign: jobday change show %s --job %s --format pdf > %s.pdf\n", c.Number, c.Job, c.Number)
		}
	default:
		s := report.ChangeOrderSheet(c, b.Company)
		if !r.Written {
			s.Mark.Word = "DRAFT"
		}
		err = b.writeSheets(&page, o.format, s)
	}
	if err != nil {
		return err
	}
	return writeAll(sys.out, page.Bytes())
}

// writeWhere says where a record stands now.
func writeWhere(page *bytes.Buffer, r *recorded) {
	if r.Written {
		fmt.Fprintf(page, "  written to %s\n", r.File)
		return
	}
	page.WriteString("  nothing was written\n")
}

// notForTerminal refuses to print a pdf on a terminal.
func (s *system) notForTerminal(format string) error {
	if format == "pdf" && s.outIsShown {
		return usagef("a pdf is not for a terminal: send it into a file with > NAME.pdf")
	}
	return nil
}

func newChangeShow(sys *system) *cobra.Command {
	var o changeOptions
	cmd := &cobra.Command{
		Use:               "show NUMBER",
		Short:             "Print a change order as the customer reads and signs it",
		Example:           "  jobday change show co-1 --job 2431 --format pdf > co-1.pdf",
		Args:              oneArgument("the number of a change order, such as: jobday change show co-1 --job 2431"),
		ValidArgsFunction: completeChangeOrders(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := knownFormat(o.format, offerFormats...); err != nil {
				return err
			}
			if err := sys.notForTerminal(o.format); err != nil {
				return err
			}
			b, c, err := o.changeOrder(cmd.Context(), sys, args[0])
			if err != nil {
				return err
			}
			var page bytes.Buffer
			if o.format == "json" {
				err = finding.WriteIndented(&page, c)
			} else {
				err = b.writeSheets(&page, o.format, report.ChangeOrderSheet(c, b.Company))
			}
			if err != nil {
				return err
			}
			return b.printed(sys, page.Bytes())
		},
	}
	o.addBook(cmd)
	o.addPaper(cmd)
	o.addJob(cmd, sys)
	addFormat(cmd, &o.format, offerFormats...)
	return cmd
}

// changeOrder finds a change order by its number, and the job it is of.
func (o *changeOptions) changeOrder(ctx context.Context, sys *system, number string) (*openBook, *notes.ChangeOrder, error) {
	b, err := o.open(ctx, sys)
	if err != nil {
		return nil, nil, err
	}
	has := func(j *compile.JobResult) bool { return j.Records.Change(number) != nil }
	if err := o.oneJob(b, "a change order "+number+", see: jobday change list", has); err != nil {
		return nil, nil, err
	}
	c := b.Find(o.job).Records.Change(number)
	if c == nil {
		return nil, nil, usagef("job %s has no change order %s; see: jobday change list --job %s", o.job, number, o.job)
	}
	return b, c, nil
}
