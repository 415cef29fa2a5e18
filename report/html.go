package report

import (
	"bytes"
	"html/template"
	"io"
	"sync"

	"jobday/templates"
)

// pages parses the shipped HTML templates once. Text that a note brought in is always escaped:
// nothing but our own style sheet enters a page as anything but text.
var pages = sync.OnceValues(func() (*template.Template, error) { return parsePages(nil) })

func parsePages(set *templates.Set) (*template.Template, error) {
	t := template.New("").Funcs(template.FuncMap(funcs())).Funcs(template.FuncMap{"style": styleOf(set, "report.css")})
	return parseHTML(t, set, "report.html.tmpl", "index.html.tmpl", "notice.html.tmpl")
}

// parseHTML parses files of a set into t, under their names.
func parseHTML(t *template.Template, set *templates.Set, names ...string) (*template.Template, error) {
	for _, name := range names {
		text, err := set.Text(name)
		if err != nil {
			return nil, err
		}
		if _, err := t.New(name).Parse(text); err != nil {
			return nil, err
		}
	}
	return t, nil
}

// styleOf returns a style sheet of a set as a function for templates.
func styleOf(set *templates.Set, name string) func() (template.CSS, error) {
	return func() (template.CSS, error) {
		css, err := set.Text(name)
		return template.CSS(css), err // our own file or the shop's, not text from a note
	}
}

// HTML writes the day's report as one self-contained page: no script, no request to anywhere,
// links to nothing but anchors in itself.
func HTML(w io.Writer, in Input) error {
	v, err := newView(in)
	if err != nil {
		return err
	}
	return in.Templates.writePage(w, "report", v)
}

// writePage writes one of the pages of a shop, or the shipped one where the shop's fails.
func (t *Templates) writePage(w io.Writer, name string, data any) error {
	if t != nil {
		var page bytes.Buffer
		err := t.html.ExecuteTemplate(&page, name, data)
		if err == nil {
			return flush(w, &page)
		}
		if !t.failed(err) {
			return err
		}
	}
	shipped, err := pages()
	if err != nil {
		return err
	}
	var page bytes.Buffer
	if err := shipped.ExecuteTemplate(&page, name, data); err != nil {
		return err
	}
	return flush(w, &page)
}
