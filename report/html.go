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
var pages = sync.OnceValues(func() (*template.Template, error) {
	t := template.New("").Funcs(template.FuncMap(funcs())).Funcs(template.FuncMap{"style": styleSheet})
	return t.ParseFS(templates.Files, "report.html.tmpl", "index.html.tmpl", "notice.html.tmpl")
})

// HTML writes the day's report as one self-contained page: no script, no request to anywhere,
// links to nothing but anchors in itself.
func HTML(w io.Writer, in Input) error {
	v, err := newView(in)
	if err != nil {
		return err
	}
	return writePage(w, "report", v)
}

func writePage(w io.Writer, name string, data any) error {
	t, err := pages()
	if err != nil {
		return err
	}
	var page bytes.Buffer
	if err := t.ExecuteTemplate(&page, name, data); err != nil {
		return err
	}
	return flush(w, &page)
}
