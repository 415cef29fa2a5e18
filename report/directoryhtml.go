package report

import (
	"html/template"
	"io"

	"jobday/locale"
	"jobday/templates"
)

// directoryPages parses the template of the cards once.
var directoryPages = perLocale(func(tag string) (*template.Template, error) { return parseDirectory(nil, tag) })

func parseDirectory(set *templates.Set, tag string) (*template.Template, error) {
	t := template.New("").Funcs(template.FuncMap{
		"long": figures{locale.For(tag)}.longDate, "ints": ints, "change": ChangeWords, "style": styleOf(set, "directory.css"),
	})
	return parseHTML(t, set, "directory.html.tmpl")
}

// DirectoryHTML writes the cards of panels as one self-contained page, each card on a sheet of its
// own when it is printed: no script, no request to anywhere. All cards are on the paper of the first.
func DirectoryHTML(w io.Writer, ins []DirectoryInput) error {
	sheets := directoryPage{Paper: Letter}
	p, t := page{name: "directory"}, (*Templates)(nil)
	for i, in := range ins {
		c, err := newCard(in)
		if err != nil {
			return err
		}
		if i == 0 {
			sheets.Paper, t = c.Paper, in.Templates
		}
		p.locale = figuresOf(in.Company).Tag()
		sheets.Cards = append(sheets.Cards, htmlCard{Card: c, Size: letterSize(len(c.Rows)), ID: i})
	}
	p.data = sheets
	return write(w, t, p, func(t *Templates) *template.Template { return t.directory }, directoryPages)
}

type directoryPage struct {
	Paper Paper
	Cards []htmlCard
}

// htmlCard is a card with what only the page needs.
type htmlCard struct {
	*Card
	Size string // class for the size of its letters
	ID   int
}

// letterSize is the class for a card of so many rows: the more rows, the smaller.
func letterSize(rows int) string {
	switch {
	case rows <= 12:
		return "roomy"
	case rows <= 21:
		return "usual"
	case rows <= 30:
		return "close"
	}
	return "tight"
}

// Long is the class of a description that needs smaller letters to stay on its line.
func (s CardSpace) Long() string {
	switch n := columns.StringWidth(s.Serves); {
	case n > 64*max(1, s.Span):
		return "longest"
	case n > 34*max(1, s.Span):
		return "long"
	}
	return ""
}
