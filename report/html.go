package report

import (
	"bytes"
	"html/template"
	"io"
	"sync"

	"jobday/locale"
	"jobday/notes"
	"jobday/templates"
)

// pages parses the shipped HTML templates once. Text that a note brought in is always escaped:
// nothing but our own style sheet enters a page as anything but text.
var pages = perLocale(func(tag string) (*template.Template, error) { return parsePages(nil, tag) })

// perLocale makes something once for each locale it is asked for.
func perLocale[T any](make func(tag string) (T, error)) func(tag string) (T, error) {
	once := map[string]func() (T, error){}
	for _, tag := range notes.Locales {
		once[tag] = sync.OnceValues(func() (T, error) { return make(tag) })
	}
	return func(tag string) (T, error) { return once[locale.For(tag).Tag()]() }
}

func parsePages(set *templates.Set, tag string) (*template.Template, error) {
	t := template.New("").Funcs(template.FuncMap(funcs(tag))).Funcs(template.FuncMap{"style": styleOf(set, "report.css")})
	return parseHTML(t, set, "report.html.tmpl", "index.html.tmpl")
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

// styleOf returns a style sheet of a set, behind the one all pages share, as a function for templates.
func styleOf(set *templates.Set, name string) func() (template.CSS, error) {
	return func() (template.CSS, error) {
		shared, err := set.Text("base.css")
		if err != nil {
			return "", err
		}
		css, err := set.Text(name)
		return template.CSS(shared + css), err // our own files or the shop's, not text from a note
	}
}

// HTML writes the day's report as one self-contained page: no script, no request to anywhere,
// links to nothing but anchors in itself.
func HTML(w io.Writer, in Input) error {
	v, err := newView(in)
	if err != nil {
		return err
	}
	return in.Templates.writePage(w, page{"report", v.Tag(), v})
}

// page is one page to write: the name of its template, the locale of its readers, what it shows.
type page struct {
	name, locale string
	data         any
}

// writePage writes one of the pages of a shop.
func (t *Templates) writePage(w io.Writer, p page) error {
	return write(w, t, p, func(t *Templates) *template.Template { return t.html }, pages)
}

// executor is what the two template packages have in common.
type executor interface {
	ExecuteTemplate(w io.Writer, name string, data any) error
}

// write writes a page with the shop's own templates, or with the shipped ones where it has none or
// they fail.
func write[T executor](w io.Writer, t *Templates, p page, own func(*Templates) T, shipped func(tag string) (T, error)) error {
	var out bytes.Buffer
	if t != nil {
		err := own(t).ExecuteTemplate(&out, p.name, p.data)
		if err == nil {
			return flush(w, &out)
		}
		if !t.Failed(err) {
			return err
		}
		out.Reset()
	}
	pages, err := shipped(p.locale)
	if err != nil {
		return err
	}
	if err := pages.ExecuteTemplate(&out, p.name, p.data); err != nil {
		return err
	}
	return flush(w, &out)
}
