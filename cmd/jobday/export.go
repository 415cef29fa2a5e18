package main

import (
	"github.com/spf13/cobra"

	"jobday/finding"
	"jobday/report"
)

func newExport(sys *system) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "export",
		Short: "Print what other programs and readers need: the JSON schema, the rules",
		Args:  knownCommand,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(&cobra.Command{
		Use:     "schema",
		Short:   "Print the JSON Schema of what report --format json writes",
		Example: `  jobday export schema > jobday.schema.json`,
		Args:    cobra.NoArgs,
		RunE:    func(*cobra.Command, []string) error { return writeAll(sys.out, report.Schema()) },
	}, &cobra.Command{
		Use:     "rules",
		Short:   "Print the manual of every rule a finding can name, as Markdown",
		Example: `  jobday export rules | less`,
		Args:    cobra.NoArgs,
		RunE:    func(*cobra.Command, []string) error { return writeAll(sys.out, []byte(finding.Manual())) },
	})
	return cmd
}
