package report

import (
	"io"
	"strings"
)

// IndexRow is one report with where it lies, relative to the index: "2431-2026-03-12.html".
type IndexRow struct {
	Input
	Href string
}

// Index writes a page that lists the reports of a run by job, in the order given.
func Index(w io.Writer, rows []IndexRow) error {
	var t *Templates
	page := indexPage{Title: "Daily reports", Count: len(rows), Currency: "USD"}
	for _, r := range rows {
		v, err := newView(r.Input)
		if err != nil {
			return err
		}
		t = r.Templates
		if page.Company == "" {
			page.Company, page.Currency = v.Company.Name, v.Currency()
		}
		page.add(v, r.Href)
	}
	if page.Company != "" {
		page.Title += ", " + page.Company
	}
	return t.writePage(w, "index", page)
}

// indexPage is what the index's template is given.
type indexPage struct {
	Title, Company, Currency string
	Count                    int
	Jobs                     []indexJob
}

type indexJob struct {
	Number, Title, Where string
	Rows                 []indexEntry
}

type indexEntry struct {
	*View
	Href string
}

// add puts a report under its job, which is the last one when reports come job by job.
func (p *indexPage) add(v *View, href string) {
	last := len(p.Jobs) - 1
	if last < 0 || p.Jobs[last].Number != v.Day.Job {
		p.Jobs = append(p.Jobs, indexJob{
			Number: v.Day.Job,
			Title:  strings.Join(filled("Job "+v.Day.Job, v.Job.Title), ": "),
			Where:  strings.Join(filled(v.Job.Customer, v.Job.Site), ", "),
		})
		last++
	}
	p.Jobs[last].Rows = append(p.Jobs[last].Rows, indexEntry{v, href})
}
