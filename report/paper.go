package report

import (
	"jobday/notes"
	"jobday/sheet"
)

// PaperOf is what a company's pages are printed on: the paper it names, or the usual one of its
// locale. The company may be nil.
func PaperOf(c *notes.Company) sheet.Paper {
	if c != nil && c.Paper != "" {
		return sheet.Paper(c.Paper)
	}
	return sheet.Paper(placeOf(c).Paper())
}

// paper is what the report of a day is printed on.
func (in Input) paper() sheet.Paper {
	if in.Paper != "" {
		return in.Paper
	}
	return PaperOf(in.Company)
}
