package main

import (
	"fmt"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

const rootHelp = `jobday compiles a crew's plain-text notes of the day against the booked scope of work
into a daily report the office can invoice from: what may be billed now, what is held
and why, which extras and deficiencies were found.

A job book is a folder of plain files: company.yaml, prices.csv, and a folder for each
job with scope.md and one note a day. Start with:

  jobday demo               a book of our own invention, compiled
  jobday new book DIR       a book of yours that compiles as it stands`

const exitHelp = `
Exit status: 0 fine, 1 the input has errors, 2 wrong usage, 3 the system failed.
`

func newRoot(sys *system) *cobra.Command {
	root := &cobra.Command{
		Use:           "jobday",
		Short:         "Compile a crew's notes into daily reports an office can invoice from",
		Long:          rootHelp,
		Version:       version(),
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          knownCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
		PersistentPreRun: func(cmd *cobra.Command, _ []string) {
			sys.started = true
		},
	}
	root.SetOut(sys.out)
	root.SetErr(sys.err)
	sys.asked = root.Name()
	root.SetHelpTemplate(root.HelpTemplate() + exitHelp)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		sys.asked = cmd.CommandPath()
		return usageError{err}
	})
	root.AddCommand(
		newDemo(sys), newNew(sys), newCheck(sys), newReport(sys), newCloseout(sys), newDirectory(sys), newDeficiencies(sys), newHours(sys), newRestock(sys), newReview(sys), newExplain(sys), newDecide(sys), newChange(sys), newInvoice(sys), newExport(sys),
	)
	noteUsage(root, sys)
	return root
}

// noteUsage makes every command's argument check tell which command it was, for the hint.
func noteUsage(cmd *cobra.Command, sys *system) {
	cmd.SuggestionsMinimumDistance = 2
	if check := cmd.Args; check != nil {
		cmd.Args = func(cmd *cobra.Command, args []string) error {
			sys.asked = cmd.CommandPath()
			return check(cmd, args)
		}
	}
	for _, sub := range cmd.Commands() {
		noteUsage(sub, sys)
	}
}

// knownCommand is the argument check of a command that only holds others.
func knownCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	message := fmt.Sprintf("there is no command %q", strings.TrimPrefix(cmd.CommandPath()+" "+args[0], "jobday "))
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		slices.Sort(near)
		message += "; did you mean " + strings.Join(near, " or ") + "?"
	}
	return usageError{fmt.Errorf("%s", message)}
}

// version is what the build knows of itself.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}
