package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// addFormat adds --format with completion; the first of the formats is the default.
func addFormat(cmd *cobra.Command, into *string, formats ...string) {
	cmd.Flags().StringVar(into, "format", formats[0], "one of "+strings.Join(formats, ", "))
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("format",
		cobra.FixedCompletions(formats, cobra.ShellCompDirectiveNoFileComp)))
}

// knownFormat refuses a format that is none of those.
func knownFormat(format string, formats ...string) error {
	if slices.Contains(formats, format) {
		return nil
	}
	return usagef("there is no format %q here; the formats are %s", format, strings.Join(formats, ", "))
}
