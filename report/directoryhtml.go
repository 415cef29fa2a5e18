package report

import (
	"bytes"
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
	page, tag := directoryPage{Paper: Letter}, ""
	for i, in := range ins {
		tag = figuresOf(in.Company).Tag()
		c, err := newCard(in)
		if err != nil {
			return err
		}
		if i == 0 {
			page.Paper = c.Paper
		}
		page.Cards = append(page.Cards, htmlCard{Card: c, Size: letterSize(len(c.Rows)), ID: i})
	}
	if own := ownTemplates(ins); own != nil {
		var out bytes.Buffer
		err := own.directory.ExecuteTemplate(&out, "directory", page)
		if err == nil {
			return flush(w, &out)
		}
		if !own.failed(err) {
			return err
		}
	}
	t, err := directoryPages(tag)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := t.ExecuteTemplate(&out, "directory", page); err != nil {
		return err
	}
	return flush(w, &out)
}

func ownTemplates(ins []DirectoryInput) *Templates {
	if len(ins) == 0 {
		return nil
	}
	return ins[0].Templates
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
