package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"jobday/book"
	"jobday/notes"
)

type newJobOptions struct {
	bookOptions
	title, customer, site string
}

func newNewJob(sys *system) *cobra.Command {
	var o newJobOptions
	cmd := &cobra.Command{
		Use:   "job NUMBER",
		Short: "Book a job: make its folder with a scope to fill in",
		Long: `Makes jobs/NUMBER-title/scope.md with one line of time and material. Put the booked lines
into its table: what, how many, at which price and in how many hours.`,
		Example: `  jobday new job 2460 --title "Kitchen lights" --customer "Mill Lane Bakery"`,
		Args:    oneArgument("the number of the job, such as: jobday new job 2460"),
		RunE:    func(_ *cobra.Command, args []string) error { return runNewJob(sys, o, args[0]) },
	}
	o.addBook(cmd)
	cmd.Flags().StringVar(&o.title, "title", "", "what the job is, in a few `WORDS`")
	cmd.Flags().StringVar(&o.customer, "customer", "", "`WHO` it is for")
	cmd.Flags().StringVar(&o.site, "site", "", "`WHERE` it is")
	return cmd
}

var jobNumber = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._]*$`)

func runNewJob(sys *system, o newJobOptions, number string) error {
	if !jobNumber.MatchString(number) {
		return usagef("%q cannot be the number of a job: use letters and digits, such as 2460", number)
	}
	root, err := o.find(sys)
	if err != nil {
		return err
	}
	all, err := o.jobs(sys)
	if err != nil {
		return err
	}
	for _, j := range all {
		if strings.EqualFold(j.number, number) {
			return usagef("job %s is booked already, in %s", number, strings.TrimSuffix(j.folder, "/"))
		}
	}
	name := "jobs/" + number + slug(o.title) + "/scope.md"
	err = book.WriteNew(root, book.Output{Name: name, Text: []byte(newScope(number, o, sys.today()))})
	if errors.Is(err, fs.ErrExist) {
		return usagef("%s is there already", name)
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(sys.out, "%s\n", shownPath(sys.dir, filepath.Join(root, filepath.FromSlash(name))))
	return err
}

// newScope is the scope of a new job: one line of time and material, so that a day's work on it
// can be billed before anyone has filled the table in.
func newScope(number string, o newJobOptions, today notes.Date) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\njob: %s\n", yamlText(number))
	for _, k := range []struct{ key, value string }{{"title", o.title}, {"customer", o.customer}, {"site", o.site}} {
		fmt.Fprintf(&b, "%s: %s\n", k.key, yamlText(k.value))
	}
	fmt.Fprintf(&b, "booked: %s\n", today)
	b.WriteString(`---

<!-- One row a line. Price is a lot price (640.00), a unit price (118.00 each), T&M, or T&M max 300.
The front matter may name a tax treatment of company.yaml: "tax: NAME"; else the first applies. -->

## Scope

| Line | Work                       | Qty | Unit | Price | Hours |
|------|----------------------------|-----|------|-------|-------|
| A    | Service, time and material | 1   | ea   | T&M   |       |

## Allowed materials

<!-- What the price of a line includes:
| Line | Item          | Qty | Unit |
|------|---------------|-----|------|
| A    | 12/2 NM cable | 50  | ft   |
-->

## Not included

<!-- What is not part of the price, one a line:
- Patching and painting
-->
`)
	return b.String()
}

// yamlText writes a text as a YAML value, in quotes where it could be taken for something else.
func yamlText(s string) string {
	plain := s != "" && unicode.IsLetter([]rune(s)[0]) && strings.IndexFunc(s, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(" .-'", r)
	}) < 0
	number := s != "" && strings.Trim(s, "0123456789") == ""
	word := map[string]bool{"yes": true, "no": true, "true": true, "false": true, "on": true, "off": true, "null": true}
	if (plain || number) && !word[strings.ToLower(s)] && strings.TrimSpace(s) == s {
		return s
	}
	return strconv.Quote(strings.ToValidUTF8(s, "\ufffd"))
}

// slug makes the end of a folder's name of a title: "-quay-bakery", or "" of no title.
func slug(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
	if len(words) == 0 {
		return ""
	}
	return "-" + strings.Join(words[:min(len(words), 4)], "-")
}
