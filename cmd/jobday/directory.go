package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/finding"
	"jobday/notes"
	"jobday/report"
)

// directoryFormats are the formats of a card; text and json are for standard output as well.
var directoryFormats = []string{"html", "pdf", "text", "json"}

type directoryOptions struct {
	bookOptions
	panel   string
	paper   string
	since   string
	formats []string
	out     string
}

func newDirectory(sys *system) *cobra.Command {
	var o directoryOptions
	cmd := &cobra.Command{
		Use:   "directory JOB",
		Short: "Print the circuit directory for the door of each panel",
		Long: `Writes a card for the door of each panel of the job: what every space serves, by the layout
in panels.md or scope.md and the Circuits of all notes up to the day, with the date and
a bar beside what changed since the day before, or since --since DATE. The cards go into
the folder out of the book as html and pdf, or to --out DIR, or to standard output with
--out -. A page for the file follows where something changed or is to be looked at.`,
		Example: `  jobday directory 2431
  jobday directory 2431 --panel LP1 --paper half --format pdf
  jobday directory 2431 --since 2026-03-12 --out -`,
		Args:              oneArgument("the number of a job, such as: jobday directory 2431"),
		ValidArgsFunction: completeJobArg(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.job = args[0]
			return runDirectory(cmd.Context(), sys, o)
		},
	}
	o.addBook(cmd)
	o.addDate(cmd, sys)
	f := cmd.Flags()
	f.StringVar(&o.panel, "panel", "", "only the panel with this `NAME`")
	f.StringVar(&o.paper, "paper", "", "one of "+strings.Join(papers(), ", ")+"; default that of the company, where it is one of them")
	f.StringVar(&o.since, "since", "", "mark what changed since this day `YYYY-MM-DD`: default the report before")
	f.StringSliceVar(&o.formats, "format", nil, "any of "+strings.Join(directoryFormats, ", ")+": default html,pdf into a folder, text to -")
	f.StringVar(&o.out, "out", "", "write into this `DIR`, or to standard output with -")
	fixed := func(flag string, words []string) {
		cobra.CheckErr(cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp)))
	}
	fixed("paper", papers())
	fixed("format", directoryFormats)
	cobra.CheckErr(cmd.RegisterFlagCompletionFunc("since", completeDates(sys, &o.bookOptions)))
	cobra.CheckErr(cmd.MarkFlagDirname("out"))
	return cmd
}

func papers() []string {
	var names []string
	for _, p := range report.Papers {
		names = append(names, string(p))
	}
	return names
}

func runDirectory(ctx context.Context, sys *system, o directoryOptions) error {
	for _, f := range o.formats {
		if err := knownFormat(f, directoryFormats...); err != nil {
			return err
		}
	}
	if o.paper != "" && !slices.Contains(papers(), o.paper) {
		return usagef("there is no paper %q here; the papers are %s", o.paper, strings.Join(papers(), ", "))
	}
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	if o.paper == "" {
		if o.paper = string(b.paper); !slices.Contains(papers(), o.paper) {
			o.paper = string(report.Letter)
		}
	}
	cards, err := o.cards(b)
	if err != nil {
		return err
	}
	if o.out == "-" {
		return directoryToOutput(sys, b, cards, o.formats)
	}
	return directoryToFiles(sys, b, cards, o)
}

// cards are the panels asked for, as they stand on the day and as they stood before.
func (o directoryOptions) cards(b *openBook) ([]report.DirectoryInput, error) {
	j := b.selected[0]
	in := report.DirectoryInput{Job: j.Job, Company: b.Company, Paper: report.Paper(o.paper), Date: j.Job.Booked, Templates: b.pages}
	now, before := j.LaidOut, []notes.PanelStanding(nil)
	at := 0
	if n := len(j.days); n > 0 {
		at = slices.Index(j.Days, j.days[n-1])
		now, before, in.Date = j.Days[at].Panels, j.LaidOut, j.Days[at].Date
	}
	last := at - 1
	if o.since != "" {
		since, err := notes.ParseDate(o.since)
		if err != nil {
			return nil, usageError{err}
		}
		for last = at - 1; last >= 0 && j.Days[last].Date.Compare(since) > 0; last-- {
			continue
		}
	}
	if last >= 0 && len(j.Days) > 0 {
		before, in.Since = j.Days[last].Panels, j.Days[last].Date
	}
	var all []report.DirectoryInput
	for _, p := range now {
		if o.panel != "" && notes.PanelKey(p.Name) != notes.PanelKey(o.panel) {
			continue
		}
		card := in
		card.Panel, card.Before = p, panelBefore(before, p, in.Since.Known())
		all = append(all, card)
	}
	if len(all) == 0 {
		return nil, o.noPanel(now)
	}
	return all, nil
}

// panelBefore is how a panel stood; one that nobody had named on a known day stood empty, and nil is
// for a panel there never was a card of.
func panelBefore(before []notes.PanelStanding, p notes.PanelStanding, known bool) *notes.PanelStanding {
	for i := range before {
		if notes.PanelKey(before[i].Name) == notes.PanelKey(p.Name) {
			return &before[i]
		}
	}
	if known {
		return &notes.PanelStanding{}
	}
	return nil
}

// noPanel says which panels there are.
func (o directoryOptions) noPanel(panels []notes.PanelStanding) error {
	if len(panels) == 0 {
		return usagef("job %s names no panel: lay it out in panels.md, or write under Circuits in a note: LP1 2,4: oven, 30A 2P", o.job)
	}
	var names []string
	for _, p := range panels {
		if p.Name == "" {
			p.Name = "one without a name"
		}
		names = append(names, finding.Printable(p.Name))
	}
	return usagef("job %s has no panel %q; it has %s", o.job, o.panel, few(names))
}

// directoryWriters writes cards in each format.
var directoryWriters = map[string]func(io.Writer, []report.DirectoryInput) error{
	"html": report.DirectoryHTML, "pdf": report.DirectoryPDF, "text": report.DirectoryText, "json": report.DirectoryJSON,
}

func directoryToOutput(sys *system, b *openBook, cards []report.DirectoryInput, formats []string) error {
	format := "text"
	switch len(formats) {
	case 0:
	case 1:
		format = formats[0]
	default:
		return usagef("standard output takes one --format, not %s", strings.Join(formats, ", "))
	}
	if format == "pdf" && sys.outIsShown {
		return usagef("a pdf is not for a terminal: write it into a folder with --out DIR")
	}
	var page bytes.Buffer
	if err := directoryWriters[format](&page, cards); err != nil {
		return err
	}
	if err := writeAll(sys.out, page.Bytes()); err != nil {
		return err
	}
	return b.verdict()
}

// directoryToFiles writes out/<job>/directory-<panel>.html and so on, a file a panel and format.
func directoryToFiles(sys *system, b *openBook, cards []report.DirectoryInput, o directoryOptions) error {
	dir := b.outDir(sys, o.out)
	formats := o.formats
	if len(formats) == 0 {
		formats = []string{"html", "pdf"}
	}
	var files []book.Output
	taken := map[string]bool{}
	for _, c := range cards {
		name := "panel"
		if c.Panel.Name != "" {
			name = fileName(c.Panel.Name)
		}
		name = fileName(b.selected[0].Job.Number) + "/directory-" + name
		base := name
		for n := 2; taken[base]; n++ { // two names may come to one: "A/1" and "A_1"
			base = fmt.Sprintf("%s-%d", name, n)
		}
		taken[base] = true
		for _, f := range formats {
			var page bytes.Buffer
			if err := directoryWriters[f](&page, []report.DirectoryInput{c}); err != nil {
				return err
			}
			files = append(files, book.Output{Name: base + directoryEndings[f], Text: page.Bytes()})
		}
	}
	if err := book.Replace(dir, files...); err != nil {
		return err
	}
	var page bytes.Buffer
	for _, f := range files {
		fmt.Fprintln(&page, filepath.Join(shownPath(sys.dir, dir), filepath.FromSlash(f.Name)))
	}
	if len(b.found) > 0 {
		fmt.Fprintf(&page, "%s: see jobday check\n", b.found.Summary())
	}
	if err := writeAll(sys.out, page.Bytes()); err != nil {
		return err
	}
	return b.verdict()
}

var directoryEndings = map[string]string{"html": ".html", "pdf": ".pdf", "text": ".txt", "json": ".json"}
