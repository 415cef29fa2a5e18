package report

import (
	"bytes"
	"html/template"
	"io"
	"sync"

	"jobday/templates"
)

// directoryPages parses the template of the cards once.
var directoryPages = sync.OnceValues(func() (*template.Template, error) {
	t := template.New("").Funcs(template.FuncMap{
		"long": longDate, "ints": ints, "change": ChangeWords, "style": func() (template.CSS, error) {
			css, err := templates.Files.ReadFile("directory.css")
			return template.CSS(css), err // our own file, not text from a note
		},
	})
	return t.ParseFS(templates.Files, "directory.html.tmpl")
})

// DirectoryHTML writes the cards of panels as one self-contained page, each card on a sheet of its
// own when it is printed: no script, no request to anywhere. All cards are on the paper of the first.
func DirectoryHTML(w io.Writer, ins []DirectoryInput) error {
	page := directoryPage{Paper: Letter}
	for i, in := range ins {
		c, err := newCard(in)
		if err != nil {
			return err
		}
		if i == 0 {
			page.Paper = c.Paper
		}
		page.Cards = append(page.Cards, htmlCard{Card: c, Size: letterSize(len(c.Rows)), ID: i})
	}
	t, err := directoryPages()
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := t.ExecuteTemplate(&out, "directory", page); err != nil {
		return err
	}
	return flush(w, &out)
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
