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
	tag := ""
	list := indexPage{Title: "Daily reports", Count: len(rows), Currency: "USD"}
	for _, r := range rows {
		v, err := newView(r.Input)
		if err != nil {
			return err
		}
		t, tag = r.Templates, v.Tag()
		if list.Company == "" {
			list.Company, list.Currency = v.Company.Name, v.Currency()
		}
		list.add(v, r.Href)
	}
	if list.Company != "" {
		list.Title += ", " + list.Company
	}
	return t.writePage(w, page{"index", tag, list})
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
