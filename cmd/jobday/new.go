package main

import (
	"github.com/spf13/cobra"
)

func newNew(sys *system) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "new",
		Short: "Begin a book, a job or a day's note",
		Args:  knownCommand,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newNewBook(sys), newNewJob(sys), newNewDay(sys))
	return cmd
}
