package main

import (
	"strings"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/compile"
)

// compiled is the book as completion sees it, nil when there is none to see.
func (o *bookOptions) compiled(sys *system) *compile.Result {
	root, err := o.find(sys)
	if err != nil {
		return nil
	}
	b, _, err := book.Read(root)
	if err != nil {
		return nil
	}
	return compile.Book(b.Files, compile.Options{Job: o.job})
}

// completeExtras offers the extras that have no number yet.
func completeExtras(sys *system, o *bookOptions) completion {
	return func(_ *cobra.Command, _ []string, start string) ([]string, cobra.ShellCompDirective) {
		var offers []string
		if r := o.compiled(sys); r != nil {
			seen := map[string]bool{}
			for _, d := range r.Days() {
				for _, e := range d.Extras {
					if e.Number == "" && !seen[e.ID] && strings.HasPrefix(e.ID, start) {
						seen[e.ID] = true
						offers = append(offers, e.ID+"\t"+e.Work)
					}
				}
			}
		}
		return offers, cobra.ShellCompDirectiveNoFileComp
	}
}

// completeChangeOrders offers the numbers of change orders.
func completeChangeOrders(sys *system, o *bookOptions) completion {
	return func(_ *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
		var offers []string
		if r := o.compiled(sys); r != nil && len(args) == 0 {
			for _, j := range r.Jobs {
				for _, c := range j.Records.Changes {
					if strings.HasPrefix(c.Number, start) {
						offers = append(offers, c.Number+"\tjob "+j.Job.Number)
					}
				}
			}
		}
		return offers, cobra.ShellCompDirectiveNoFileComp
	}
}

// completeInvoices offers the numbers of invoices.
func completeInvoices(sys *system, o *bookOptions) completion {
	return func(_ *cobra.Command, args []string, start string) ([]string, cobra.ShellCompDirective) {
		var offers []string
		if r := o.compiled(sys); r != nil && len(args) == 0 {
			for _, j := range r.Jobs {
				for _, v := range j.Records.Invoices {
					if strings.HasPrefix(v.Number, start) {
						offers = append(offers, v.Number+"\t"+v.Totals.Due.String())
					}
				}
			}
		}
		return offers, cobra.ShellCompDirectiveNoFileComp
	}
}
