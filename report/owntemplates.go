package report

import (
	"html/template"
	"path"
	"slices"
	"strconv"
	"strings"
	text "text/template"

	"jobday/finding"
	"jobday/notes"
	"jobday/sheet"
	"jobday/templates"
)

// Documents is the kinds of document that have no template of their own: each is written with
// sheet.html.tmpl, or with a shop's NAME.html.tmpl, such as change-order.html.tmpl.
var Documents = []string{"change-order", "deficiency-notice", "invoice", "record-of-the-day", "restock-list", "review", "time-sheet"}

// Templates is the pages of a shop: the shipped ones with the shop's own in their place. nil is the
// shipped ones. What fails while a page is written is kept as a finding, and the shipped page is
// written instead. Dates and amounts are written for the readers of the company. It is not for use by several goroutines at once.
type Templates struct {
	files     map[string]*finding.File // own, by name
	html      *template.Template
	letter    *text.Template
	directory *template.Template
	sheets    *sheet.Pages
	faults    finding.List
}

// OwnTemplates reads a shop's own templates and style sheets. One that cannot be read, or that
// nothing uses, is a finding; the shipped one stands in for it.
func OwnTemplates(files []*finding.File, company *notes.Company) (*Templates, finding.List) {
	if len(files) == 0 {
		return nil, nil
	}
	t := &Templates{files: map[string]*finding.File{}}
	var found finding.List
	own := map[string]string{}
	for _, f := range files {
		name := path.Base(f.Name)
		if f, ok := unusedTemplate(f, name); ok {
			found.Add(f)
			continue
		}
		t.files[name] = f
		own[name] = string(f.Text)
	}
	for { // each round leaves out one that cannot be read
		err := t.read(templates.NewSet(own), figuresOf(company).Tag())
		if err == nil {
			return t, found
		}
		f, name := t.fault(err)
		if name == "" {
			panic("report: a shipped template is broken: " + err.Error())
		}
		found.Add(f)
		delete(own, name)
	}
}

// unusedTemplate is the finding on a file whose name nothing uses.
func unusedTemplate(f *finding.File, name string) (finding.Finding, bool) {
	known := templates.Shipped()
	for _, d := range Documents {
		known = append(known, d+".html.tmpl")
	}
	if slices.Contains(known, name) {
		return finding.Finding{}, false
	}
	return finding.Finding{
		Severity: finding.Warning, Rule: "templates/name", Span: f.Span(0, 0),
		Message: strconv.Quote(name) + " is no template or style sheet that is used",
		Hint:    "the names are: " + strings.Join(known, ", "),
	}, true
}

// read parses all pages of a set.
func (t *Templates) read(set *templates.Set, tag string) (err error) {
	if t.html, err = parsePages(set, tag); err != nil {
		return err
	}
	if t.letter, err = parseLetter(set, tag); err != nil {
		return err
	}
	if t.directory, err = parseDirectory(set, tag); err != nil {
		return err
	}
	t.sheets, err = sheet.NewPages(set, Documents)
	return err
}

// Sheets is the pages documents are written with; nil for the shipped ones.
func (t *Templates) Sheets() *sheet.Pages {
	if t == nil {
		return nil
	}
	return t.sheets
}

// Faults returns what went wrong while pages were written, each once, and forgets it.
func (t *Templates) Faults() finding.List {
	if t == nil {
		return nil
	}
	faults := t.faults
	t.faults = nil
	return faults
}

// Failed keeps the error of a page as a finding, and reports whether an own template caused it.
func (t *Templates) Failed(err error) bool {
	if t == nil {
		return false
	}
	f, name := t.fault(err)
	if name == "" {
		return false
	}
	if !slices.ContainsFunc(t.faults, func(g finding.Finding) bool { return g.Span == f.Span && g.Message == f.Message }) {
		t.faults.Add(f)
	}
	return true
}

// fault finds the place an error of the template packages speaks of: "template: NAME:LINE:COLUMN:
// what". The name is "" when it is of no own template.
func (t *Templates) fault(err error) (finding.Finding, string) {
	said := err.Error()
	at := strings.Index(said, "template: ")
	if at < 0 {
		return finding.Finding{}, ""
	}
	name, rest, ok := strings.Cut(said[at+len("template: "):], ":")
	f := t.files[name]
	if !ok || f == nil {
		return finding.Finding{}, ""
	}
	number, what, _ := strings.Cut(rest, ":")
	line, column := 1, 0
	if n, err := strconv.Atoi(number); err == nil {
		line = min(max(n, 1), f.Lines())
	} else {
		what = rest
	}
	if number, after, ok := strings.Cut(what, ":"); ok {
		if n, err := strconv.Atoi(number); err == nil {
			column, what = n, after
		}
	}
	span := f.LineSpan(line)
	if at := span.Start + column - 1; column > 0 && at < span.End {
		span.Start = at
	}
	return finding.Finding{
		Severity: finding.Error, Rule: "templates/broken", Span: span,
		Message: "the template cannot be used: " + strings.TrimSpace(what),
		Hint:    "mend it, or take the file out of templates/; until then the shipped page is written",
	}, name
}

// Try writes every kind of page there is with a job's days, so that what fails is known before a page
// is sent; what it wrote is thrown away.
func (t *Templates) Try(ins []Input) finding.List {
	if t == nil {
		return nil
	}
	for _, in := range ins {
		in.Templates = t
		_ = HTML(nowhere{}, in) // only faults of own templates are looked for
		_ = Markdown(nowhere{}, in)
		if s, err := Customer(in); err == nil {
			s.Pages = t.Sheets()
			if err := sheet.HTML(nowhere{}, s); err != nil {
				t.Failed(err)
			}
		}
		if n, err := NewNotice(in.Company, FaultJob{Job: in.Job, Days: []*notes.JobDay{in.Day}}, in.Day.Date); err == nil {
			s := n.Sheet()
			s.Pages = t.Sheets()
			if err := sheet.HTML(nowhere{}, s); err != nil {
				t.Failed(err)
			}
		}
	}
	return t.Faults()
}

// nowhere takes what is written and keeps nothing.
type nowhere struct{}

func (nowhere) Write(p []byte) (int, error) { return len(p), nil }
