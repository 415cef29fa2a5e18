package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/testdata/demo"
)

type demoOptions struct{ dir string }

func newDemo(sys *system) *cobra.Command {
	var o demoOptions
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "Write a book of our own invention, compile it and say where to look",
		Long: `Writes a copy of the demo book, a contractor of our own invention with three jobs, compiles
it and writes its reports. Change the notes in it and run jobday again to see what happens.
A demo book that is already there is used as it stands: your changes are kept.`,
		Example: `  jobday demo
  jobday demo --dir /tmp/try`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runDemo(cmd.Context(), sys, o) },
	}
	cmd.Flags().StringVar(&o.dir, "dir", "jobday-demo", "write the book into this `DIR`")
	cobra.CheckErr(cmd.MarkFlagDirname("dir"))
	return cmd
}

func runDemo(ctx context.Context, sys *system, o demoOptions) error {
	dir := o.dir
	if !filepath.IsAbs(dir) {
		dir = filepath.Join(sys.dir, dir)
	}
	isNew, err := prepareDemo(dir, o.dir)
	if err != nil {
		return err
	}
	b, err := (&bookOptions{book: dir}).open(ctx, sys)
	if err != nil {
		return err
	}
	files, err := reportFiles(b, []string{"html", "md", "csv"})
	if err != nil {
		return err
	}
	out := filepath.Join(dir, "out")
	if err := book.Replace(out, files...); err != nil {
		return err
	}
	shown := shownPath(sys.dir, dir)
	if isNew {
		fmt.Fprintf(sys.out, "The demo book is in %s: notes and scopes are in %s.\n\n", shown, filepath.Join(shown, "jobs"))
	} else {
		fmt.Fprintf(sys.out, "The demo book in %s was there already and is used as it stands.\n\n", shown)
	}
	if err := summarize(sys, b, filepath.Join(shown, "out"), files); err != nil {
		return err
	}
	fmt.Fprintf(sys.out, `
Look first at:
  %s
Then try, in %s:
  jobday check                     what the program has to say about the notes
  jobday closeout 2431             what to settle before leaving the site
  jobday explain B --job 2431      where a figure comes from
  jobday change list               extras, whose word they rest on and what is exposed
  jobday invoice 2431 --dry-run    what would be billed now
  jobday review                    all jobs: what was found beyond scope, and where it went
`, filepath.Join(shown, "out", "index.html"), shown)
	return nil // the demo book has errors on purpose: showing them is no failure
}

// prepareDemo writes the demo book into dir, unless it is there already. It never touches a folder
// that holds something else.
func prepareDemo(dir, asked string) (isNew bool, err error) {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return false, fmt.Errorf("writing the demo book: %w", err)
	case len(entries) == 0:
	default:
		if _, err := os.Stat(filepath.Join(dir, book.Marker)); err == nil {
			return false, nil
		}
		return false, usagef("%s is not empty and is no book: choose another with --dir", asked)
	}
	files, err := filesOf(demo.FS)
	if err != nil {
		return false, fmt.Errorf("writing the demo book: %w", err)
	}
	return true, book.Replace(dir, files...)
}

// filesOf lists the files of an embedded folder; company.yaml comes last, so that a book that was
// cut short while it was written is not taken for one.
func filesOf(fsys fs.FS) ([]book.Output, error) {
	var files []book.Output
	var marker book.Output
	err := fs.WalkDir(fsys, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || filepath.Ext(name) == ".go" {
			return err
		}
		text, err := fs.ReadFile(fsys, name)
		if err != nil {
			return err
		}
		if name == book.Marker {
			marker = book.Output{Name: name, Text: text}
			return nil
		}
		files = append(files, book.Output{Name: name, Text: text})
		return nil
	})
	if marker.Name != "" {
		files = append(files, marker)
	}
	return files, err
}
