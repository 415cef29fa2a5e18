package report

import (
	"io"
	"strings"
	"text/template"

	"jobday/notes"
	"jobday/sheet"
	"jobday/templates"
)

// letter parses the shipped Markdown templates once.
var letter = perLocale(func(tag string) (*template.Template, error) { return parseLetter(nil, tag) })

func parseLetter(set *templates.Set, tag string) (*template.Template, error) {
	t := template.New("").Funcs(template.FuncMap(funcs(tag))).Funcs(template.FuncMap{
		"md": escapeMarkdown, "mditem": markdownItem, "mdwhere": markdownWhere, "oneline": oneLine,
	})
	text, err := set.Text("report.md.tmpl")
	if err != nil {
		return nil, err
	}
	if _, err := t.New("report.md.tmpl").Parse(text); err != nil {
		return nil, err
	}
	return t, nil
}

// Markdown writes the day's report to be sent as an e-mail: readable as it stands, with the note
// line behind every figure in parentheses.
func Markdown(w io.Writer, in Input) error {
	v, err := newView(in)
	if err != nil {
		return err
	}
	return in.Templates.writeLetter(w, page{"report", v.Tag(), v})
}

// writeLetter writes one of the texts of a shop.
func (t *Templates) writeLetter(w io.Writer, p page) error {
	return write(w, t, p, func(t *Templates) *template.Template { return t.letter }, letter)
}

// markup is what CommonMark and GFM read as markup anywhere in a line. "&" and "_" are looked at
// where they stand, so that T&M and a file_name stay as they are.
const markup = "\\`*_[<~&"

// escapeMarkdown makes text from a note show as it was written, on one line, in the middle of one.
func escapeMarkdown(text string) string {
	return sheet.Escape(oneLine(text), markup)
}

// markdownItem is escapeMarkdown for text that begins a line or a list item, where a number sign,
// a dash or "1." would open something.
func markdownItem(text string) string {
	text = strings.TrimSpace(escapeMarkdown(text))
	digits := len(text) - len(strings.TrimLeft(text, "0123456789"))
	switch {
	case text == "":
		return text
	case strings.ContainsRune("#>+-=:", rune(text[0])):
		return "\\" + text
	case digits > 0 && digits < len(text) && (text[digits] == '.' || text[digits] == ')'):
		return text[:digits] + "\\" + text[digits:]
	}
	return text
}

// oneLine turns line breaks into blanks.
func oneLine(text string) string {
	return strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ", "\u2028", " ", "\u2029", " ").Replace(text)
}

// markdownWhere prints a blank and the places in parentheses, or "".
func markdownWhere(from []notes.Source) string {
	where := Where(from)
	if where == "" {
		return ""
	}
	return " (" + escapeMarkdown(where) + ")"
}
