package main

import (
	"bytes"
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"jobday/billing"
	"jobday/finding"
	"jobday/notes"
	"jobday/record"
)

type answerOptions struct {
	changeOptions
	who, how, date, evidence, amount string
	rows                             []int
}

func newChangeAuthorize(sys *system) *cobra.Command {
	var o answerOptions
	cmd := &cobra.Command{
		Use:   "authorize NUMBER",
		Short: "Write down the customer's yes to a change order, or to a part of it",
		Long: `Writes who said yes, how, when and what shows it, as a record beside the offer, which stays as
it is. Without --rows and --amount all that is open is authorized; what is left of a part can be
authorized later. What is authorized is billed once a note says that it is done.`,
		Example: `  jobday change authorize co-1 --job 2431 --who "Ruth Amsel" --how signed --evidence photos/co-1.jpg --by Hanna
  jobday change authorize co-2 --job 2431 --who "Ruth Amsel" --how e-mail --rows 1,3 --by Hanna
  jobday change authorize co-2 --job 2431 --who "Ruth Amsel" --how e-mail --amount 150.00 --by Hanna`,
		Args:              oneArgument("the number of a change order, such as: jobday change authorize co-1 --who NAME --how signed --by NAME"),
		ValidArgsFunction: completeChangeOrders(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runAnswer(cmd.Context(), sys, o, billing.AnswerRequest{Number: args[0], Kind: notes.AnswerAuthorized})
		},
	}
	o.addAnswer(cmd, sys)
	cmd.Flags().IntSliceVar(&o.rows, "rows", nil, "authorize only these rows of the price, by `NUMBER`")
	cmd.Flags().StringVar(&o.amount, "amount", "", "authorize only this `AMOUNT` before tax; it is divided over the open rows")
	return cmd
}

func newChangeDecline(sys *system) *cobra.Command {
	var o answerOptions
	cmd := &cobra.Command{
		Use:   "decline NUMBER",
		Short: "Write down the customer's no to a change order",
		Long: `Writes who said no, how and when, as a record beside the offer, which stays as it is. Of a change
order that is authorized in part it declines the rest. Declined work is never billed; when a note
reports it as done all the same, jobday check says so.`,
		Example:           `  jobday change decline co-2 --job 2431 --who "Ruth Amsel" --how phone --by Hanna`,
		Args:              oneArgument("the number of a change order, such as: jobday change decline co-2 --who NAME --how phone --by NAME"),
		ValidArgsFunction: completeChangeOrders(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runAnswer(cmd.Context(), sys, o, billing.AnswerRequest{Number: args[0], Kind: notes.AnswerDeclined})
		},
	}
	o.addAnswer(cmd, sys)
	return cmd
}

func newChangeWithdraw(sys *system) *cobra.Command {
	var o answerOptions
	cmd := &cobra.Command{
		Use:   "withdraw NUMBER",
		Short: "Write down that the customer took a yes back, or that it was written by mistake",
		Long: `Writes who took the word back, how and when, as a record beside the offer and the answers, which
stay as they are. Nothing of the change order is authorized then, and it may be answered or offered
again, at another price too. What is billed cannot be withdrawn: void its invoice first.`,
		Example:           `  jobday change withdraw co-1 --job 2431 --who "Ruth Amsel" --how phone --by Hanna`,
		Args:              oneArgument("the number of a change order, such as: jobday change withdraw co-1 --who NAME --how phone --by NAME"),
		ValidArgsFunction: completeChangeOrders(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runAnswer(cmd.Context(), sys, o, billing.AnswerRequest{Number: args[0], Kind: notes.AnswerWithdrawn})
		},
	}
	o.addAnswer(cmd, sys)
	return cmd
}

func (o *answerOptions) addAnswer(cmd *cobra.Command, sys *system) {
	o.addBook(cmd)
	o.addJob(cmd, sys)
	f := cmd.Flags()
	f.StringVar(&o.who, "who", "", "`NAME` of the customer's person who answered")
	f.StringVar(&o.how, "how", "", "`HOW` it was given: signed, e-mail, text message, phone, on site")
	f.StringVar(&o.date, "date", "", "the day `YYYY-MM-DD` it was given: default today")
	f.StringVar(&o.evidence, "evidence", "", "`WHERE` it can be seen: a photo, a message, a witness")
	f.StringVar(&o.by, "by", "", "`NAME` of who writes it down")
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("how", cobra.FixedCompletions(
		[]string{"signed", "e-mail", "text message", "phone", "on site"}, cobra.ShellCompDirectiveNoFileComp)))
	addFormat(cmd, &o.format, "text", "json")
}

func runAnswer(ctx context.Context, sys *system, o answerOptions, r billing.AnswerRequest) error {
	if err := knownFormat(o.format, "text", "json"); err != nil {
		return err
	}
	if strings.TrimSpace(o.who) == "" || strings.TrimSpace(o.how) == "" || strings.TrimSpace(o.by) == "" {
		return usagef("an answer says who gave it, how, and who wrote it down: add --who NAME --how HOW --by NAME")
	}
	if len(o.rows) > 0 && o.amount != "" {
		return usagef("--rows and --amount name two parts; give one of them")
	}
	var err error
	if r.At, err = sys.day(o.date); err != nil {
		return err
	}
	r.Who, r.How, r.Evidence, r.By, r.Rows = o.who, o.how, o.evidence, o.by, o.rows
	if o.amount != "" {
		m, err := notes.ParseMoney(o.amount)
		if err != nil {
			return usageError{err}
		}
		r.Amount = &m
	}
	before, _, err := o.changeOrder(ctx, sys, r.Number)
	if err != nil {
		return err
	}
	var a notes.ChangeAnswer
	after, file, err := o.writeRecord(ctx, sys, before, func(in billing.Input) (made, error) {
		a, err = billing.Answer(in, r)
		return made{record.AnswerName(a.Number, a.Answer), record.Answer(&a)}, err
	})
	if err != nil {
		return err
	}
	said := recorded{File: file, Answer: &a}
	said.compare(before, after, o.job)
	var page bytes.Buffer
	if o.format == "json" {
		err = finding.WriteIndented(&page, said)
	} else {
		fmt.Fprintf(&page, "%s: %s by %s, %s, %s\n", a.Number, a.Kind, finding.Printable(a.Who), finding.Printable(a.How), a.At)
		if a.Kind != notes.AnswerDeclined {
			fmt.Fprintf(&page, "  %s before tax\n", a.Amount)
		}
		writeWhere(&page, &said)
		said.writeMoney(&page)
	}
	if err != nil {
		return err
	}
	return writeAll(sys.out, page.Bytes())
}
