package main

import (
	"bytes"
	"context"
	"fmt"
	"path"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
)

type decideOptions struct {
	bookOptions
	by, why, when, word, format string
}

func newDecide(sys *system) *cobra.Command {
	var o decideOptions
	cmd := &cobra.Command{
		Use:   "decide [ENTRY [DECISION]]",
		Short: "Settle what is unclear: see the evidence, then say what an entry is",
		Long: `Without an entry it lists what is unclear. With one, by its id or as file:line, it shows the
entry as written, what it was taken for and why, what speaks for each booked line, and the
decisions that can be typed:

  line B               it is work on this booked line
  extra                it is work beyond scope
  narrative            it is neither billed nor counted
  price 180.00         the extra is billed at this price
  no charge            the extra is given away
  authorized by NAME   somebody with a say said yes to the extra
  declined by NAME     somebody with a say said no

A decision is added as a row to decisions.md in the job's folder, with who decided and why;
then it says what changed. The note itself stays as written, and the last decision stands.
When the entry's words change later, its decisions are reported and no longer applied.

--word teaches a word of the shop instead: it adds a line to words.yaml, for every note.`,
		Example: `  jobday decide
  jobday decide 2026-03-12/circuit-mixer --job 2431
  jobday decide 2026-03-12/circuit-mixer line B --job 2431 --by Hanna --why "asked Ines"
  jobday decide 2026-03-12.md:9 extra --job 2431 --by Hanna --why "not the booked one"
  jobday decide 2026-03-12/circuit-mixer authorized by Ruth Amsel --by Hanna --why "she called"
  jobday decide --word "skinny = tandem 20A breaker"`,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: completeDecide(sys, &o.bookOptions),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runDecide(cmd.Context(), sys, o, args)
		},
	}
	o.addBook(cmd)
	o.addJob(cmd, sys)
	cmd.Flags().StringVar(&o.by, "by", "", "`NAME` of who decides")
	cmd.Flags().StringVar(&o.why, "why", "", "`WORDS` that say why, for whoever asks later")
	cmd.Flags().StringVar(&o.when, "date", "", "the day `YYYY-MM-DD` it was decided: default today")
	cmd.Flags().StringVar(&o.word, "word", "", "teach a word of the shop: `\"WORD = MEANING\"`")
	addFormat(cmd, &o.format, "text", "json")
	return cmd
}

func runDecide(ctx context.Context, sys *system, o decideOptions, args []string) error {
	if err := knownFormat(o.format, "text", "json"); err != nil {
		return err
	}
	b, err := o.open(ctx, sys)
	if err != nil {
		return err
	}
	var page bytes.Buffer
	switch {
	case o.word != "" && len(args) > 0:
		return usagef("--word is about every entry: leave out %q", args[0])
	case o.word != "":
		err = o.teach(ctx, sys, b, &page)
	case len(args) == 0:
		err = writeUnclear(&page, b, o)
	default:
		var t target
		if t, err = b.target(args[0], o.job); err != nil {
			return err
		}
		if len(args) == 1 {
			err = writeTarget(&page, b, t, o)
		} else {
			err = o.settle(ctx, sys, settling{b, t, strings.Join(args[1:], " "), &page})
		}
	}
	if page.Len() > 0 {
		if err := writeAll(sys.out, page.Bytes()); err != nil {
			return err
		}
	}
	return err
}

// A settling is one decision under way.
type settling struct {
	b    *openBook
	t    target
	said string
	page *bytes.Buffer
}

// settle checks a decision, writes it and says what changed.
func (o decideOptions) settle(ctx context.Context, sys *system, s settling) error {
	d, err := o.decision(sys, s.t, s.said)
	if err != nil {
		return err
	}
	name := path.Join(s.t.job.Folder, "decisions.md")
	old := fileNamed(s.b.files, name)
	if before, ok := alreadyDecided(old, d); ok {
		_, err := fmt.Fprintf(s.page, "%s is decided so already, by %s on %s: %s\n  nothing was written\n",
			d.Entry, before.By, before.When, finding.Printable(before.Why))
		return err
	}
	if err := s.try(name, old, d); err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	err = book.Append(s.b.root, name, func(now []byte) ([]byte, error) { return book.AddDecision(now, d), nil })
	if err != nil {
		return err
	}
	only := o.bookOptions
	only.job = s.t.job.Job.Number
	after, err := only.open(ctx, sys)
	if err != nil {
		return err
	}
	c := changed(s.b, after, func(j *compile.JobResult) bool { return j.Folder == s.t.job.Folder })
	c.Decided = &decidedRow{Entry: d.Entry, Words: d.Words, Decision: d.String(), By: d.By, When: d.When, Why: d.Why, File: name}
	return c.write(s.page, o.format)
}

// decision reads what was decided and by whom, and checks what can be checked without compiling.
func (o decideOptions) decision(sys *system, t target, said string) (notes.Decision, error) {
	d, ok := parse.Decision(said)
	if !ok {
		return d, usagef("cannot tell what %q decides\nType one of: %s", said, strings.Join(t.decisions(), ", "))
	}
	if d.Kind == notes.DecideLine {
		line, ok := t.job.Job.Line(d.Line)
		if !ok {
			return d, usagef("no booked line of job %s is called %q; the lines are %s", t.job.Job.Number, d.Line, few(t.labels()))
		}
		d.Line = line.Label
	}
	if !d.Kind.OfExtra() && t.entry == nil {
		return d, usagef("%s is work beyond a booked quantity, not an entry: it can only be given a price, given away, authorized or declined", t.id)
	}
	if strings.TrimSpace(o.by) == "" || strings.TrimSpace(o.why) == "" {
		return d, usagef("a decision says who decided and why: add --by NAME --why \"WORDS\"")
	}
	d.Entry, d.Words, d.By, d.Why, d.When = t.id, t.words, o.by, o.why, sys.today()
	if o.when != "" && o.when != "today" {
		when, err := notes.ParseDate(o.when)
		if err != nil {
			return d, usageError{err}
		}
		d.When = when
	}
	return d, nil
}

// alreadyDecided returns the decision that stands when it says the same as d about the same words.
func alreadyDecided(file *finding.File, d notes.Decision) (notes.Decision, bool) {
	if file == nil {
		return notes.Decision{}, false
	}
	rows, _ := parse.Decisions(file)
	for _, r := range slices.Backward(rows) {
		same := strings.EqualFold(r.Entry, d.Entry) && strings.EqualFold(r.Words, strings.Join(strings.Fields(d.Words), " "))
		if same && r.Kind.OfExtra() == d.Kind.OfExtra() {
			return r, strings.EqualFold(r.String(), d.String())
		}
	}
	return notes.Decision{}, false
}

// try compiles the book as it would be with the decision, and refuses one that would not be applied.
func (s settling) try(name string, old *finding.File, d notes.Decision) error {
	var text []byte
	if old != nil {
		text = old.Text
	}
	file := finding.NewFile(name, book.AddDecision(text, d))
	files := slices.DeleteFunc(slices.Clone(s.b.files), func(f *finding.File) bool { return f.Name == name })
	res := compile.Book(append(files, file), compile.Options{Job: s.t.job.Job.Number})
	from := 0 // where the row was put in, and how far it goes
	for from < len(text) && text[from] == file.Text[from] {
		from++
	}
	to := from + len(file.Text) - len(text)
	for _, f := range res.Findings {
		if f.Span.File == file && strings.HasPrefix(f.Rule, "decision/") && from <= f.Span.Start && f.Span.Start < to {
			return usagef("this would not be applied: %s\n%s", f.Message, f.Hint)
		}
	}
	return nil
}

// fileNamed returns the file of the book with the name, or nil.
func fileNamed(files []*finding.File, name string) *finding.File {
	if i := slices.IndexFunc(files, func(f *finding.File) bool { return f.Name == name }); i >= 0 {
		return files[i]
	}
	return nil
}
