package sheet

import (
	"html/template"
	"strings"

	"jobday/templates"
)

// Pages is what sheets are written into as HTML: one page for all kinds, and others for some.
type Pages struct {
	all  *template.Template
	kind map[string]*template.Template // by Slug of the kind
}

// NewPages parses the pages of a set. A file KIND.html.tmpl of the set, for one of the kinds, may
// define again any part of sheet.html.tmpl for sheets of that kind. An error is the template
// package's, with file and line.
func NewPages(set *templates.Set, kinds []string) (*Pages, error) {
	all, err := parsePage(set)
	if err != nil {
		return nil, err
	}
	p := &Pages{all: all, kind: map[string]*template.Template{}}
	for _, k := range kinds {
		if !set.Own(k + ".html.tmpl") {
			continue
		}
		t, err := all.Clone()
		if err != nil {
			return nil, err
		}
		if p.kind[k], err = parseInto(t, set, k+".html.tmpl"); err != nil {
			return nil, err
		}
	}
	return p, nil
}

func parseInto(t *template.Template, set *templates.Set, name string) (*template.Template, error) {
	text, err := set.Text(name)
	if err != nil {
		return nil, err
	}
	_, err = t.New(name).Parse(text)
	return t, err
}

// of returns the page for a kind of sheet.
func (p *Pages) of(kind string) (*template.Template, error) {
	if p == nil {
		return page()
	}
	if t := p.kind[Slug(kind)]; t != nil {
		return t, nil
	}
	return p.all, nil
}

// Slug is the name of a kind in file names: "change-order".
func Slug(kind string) string { return strings.ReplaceAll(strings.ToLower(kind), " ", "-") }
