package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/closeout"
	"jobday/notes"
)

type newDayOptions struct {
	bookOptions
	author string
}

func newNewDay(sys *system) *cobra.Command {
	var o newDayOptions
	cmd := &cobra.Command{
		Use:   "day JOB",
		Short: "Begin today's note, with what the scope still wants",
		Long: `Writes today's note into the job's folder: the sections, and in a comment what is still
open on the job. Only what is written outside the comments counts; a note left as it is
says nothing. Prints the path of the note.`,
		Example: `  jobday new day 2431
  jobday new day 2431 --author tobias      a second note of the same day
  nano "$(jobday new day 2431)"`,
		Args:              oneArgument("the number of a job, such as: jobday new day 2431"),
		ValidArgsFunction: completeJobArg(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.job = args[0]
			return runNewDay(cmd.Context(), sys, o)
		},
	}
	o.addBook(cmd)
	cmd.Flags().StringVar(&o.date, "date", "", "the day `YYYY-MM-DD` of the note: default today")
	cmd.Flags().StringVar(&o.author, "author", "", "`NAME` of who writes, when two people write on one day")
	return cmd
}

func runNewDay(ctx context.Context, sys *system, o newDayOptions) error {
	date := sys.today()
	if o.date != "" && o.date != "today" {
		d, err := notes.ParseDate(o.date)
		if err != nil {
			return usageError{err}
		}
		date = d
	}
	author := slug(o.author)
	if o.author != "" && author == "" {
		return usagef("%q cannot be part of a file name: use letters and digits", o.author)
	}
	whole := o.bookOptions
	whole.date = ""
	b, err := whole.open(ctx, sys)
	if err != nil {
		return err
	}
	j := b.selected[0]
	in := closeout.Input{Job: j.Job, Company: b.Company}
	for _, d := range j.Days { // what stood open when the day began
		if d.Date.Compare(date) <= 0 {
			in.Days = append(in.Days, d)
		}
	}
	name := j.Folder + "/" + date.String() + author + ".md"
	err = book.WriteNew(b.root, book.Output{Name: name, Text: closeout.DayNote(in, date)})
	if errors.Is(err, fs.ErrExist) {
		return usagef("%s is there already: write into it, or begin a second note with --author NAME", name)
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintln(sys.out, shownPath(sys.dir, filepath.Join(b.root, filepath.FromSlash(strings.TrimPrefix(name, "/")))))
	return err
}
