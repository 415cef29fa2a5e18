package report

import (
	"bytes"
	"io"
	"strings"
	"sync"
	"text/template"

	"jobday/notes"
	"jobday/templates"
)

// letter parses the shipped Markdown template once.
var letter = sync.OnceValues(func() (*template.Template, error) {
	t := template.New("").Funcs(template.FuncMap(funcs())).Funcs(template.FuncMap{
		"md": escapeMarkdown, "mdwhere": markdownWhere, "oneline": oneLine,
	})
	return t.ParseFS(templates.Files, "report.md.tmpl")
})

// Markdown writes the day's report to be sent as an e-mail: readable as it stands, with the note
// line behind every figure in parentheses.
func Markdown(w io.Writer, in Input) error {
	v, err := newView(in)
	if err != nil {
		return err
	}
	t, err := letter()
	if err != nil {
		return err
	}
	var page bytes.Buffer
	if err := t.ExecuteTemplate(&page, "report", v); err != nil {
		return err
	}
	return flush(w, &page)
}

// markup is what CommonMark and GFM read as markup anywhere in a line. What only means something
// at the start of a line needs no escape: the template puts words of its own before every text.
const markup = "\\`*_[]<>|~&"

// escapeMarkdown makes text from a note show as it was written, on one line.
func escapeMarkdown(text string) string {
	text = oneLine(text)
	if !strings.ContainsAny(text, markup) {
		return text
	}
	var b strings.Builder
	for _, c := range text {
		if strings.ContainsRune(markup, c) {
			b.WriteByte('\\')
		}
		b.WriteRune(c)
	}
	return b.String()
}

// oneLine turns line breaks into blanks.
func oneLine(text string) string {
	return strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ", "\u2028", " ", "\u2029", " ").Replace(text)
}

// markdownWhere prints places in parentheses, or "".
func markdownWhere(from []notes.Source) string {
	where := Where(from)
	if where == "" {
		return ""
	}
	return "(" + escapeMarkdown(where) + ")"
}
