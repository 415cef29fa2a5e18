package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/notes"
)

// starter is the book that "new book" writes; its example note gets the day's date as its name.
//
//go:embed starter
var starter embed.FS

func newNewBook(sys *system) *cobra.Command {
	return &cobra.Command{
		Use:   "book DIR",
		Short: "Make a book that compiles as it stands",
		Long: `Makes a folder with company.yaml, in which every key is explained, a price list, and one
example job with a note. Change the names, rates and prices in it, and book your own jobs.`,
		Example: `  jobday new book ~/jobs
  cd ~/jobs && jobday report`,
		Args: oneArgument("the folder to make, such as: jobday new book ~/jobs"),
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveFilterDirs
		},
		RunE: func(_ *cobra.Command, args []string) error { return runNewBook(sys, args[0]) },
	}
}

func runNewBook(sys *system, asked string) error {
	dir := asked
	if !filepath.IsAbs(dir) {
		dir = filepath.Join(sys.dir, dir)
	}
	entries, err := os.ReadDir(dir)
	switch {
	case err == nil && len(entries) > 0:
		return usagef("%s is not empty: a new book needs a folder of its own", asked)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("making the book: %w", err)
	}
	files, err := starterFiles(sys.today())
	if err != nil {
		return fmt.Errorf("making the book: %w", err)
	}
	for _, f := range files {
		if err := book.WriteNew(dir, f); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintf(sys.out, `The book is in %s. Next:
  company.yaml   write who you are, your people, rates and taxes
  prices.csv     write what you use and sell
  jobday report  in that folder, to see the example job compiled
  jobday new job NUMBER --title "..."   to book a job of your own
`, shownPath(sys.dir, dir))
	return err
}

// starterFiles returns the files of a new book, made for the day.
func starterFiles(today notes.Date) ([]book.Output, error) {
	sub, err := fs.Sub(starter, "starter")
	if err != nil {
		return nil, err
	}
	files, err := filesOf(sub)
	for i, f := range files {
		f.Name = strings.Replace(f.Name, "/note.md", "/"+today.String()+".md", 1)
		f.Text = []byte(strings.ReplaceAll(string(f.Text), "{today}", today.String()))
		files[i] = f
	}
	return files, err
}

// oneArgument checks for exactly one argument and says what it stands for.
func oneArgument(what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		name := strings.TrimPrefix(cmd.CommandPath(), "jobday ")
		switch len(args) {
		case 0:
			return usagef("%s needs %s", name, what)
		case 1:
			return nil
		}
		return usagef("%s takes one thing, not %d: %s", name, len(args), what)
	}
}
