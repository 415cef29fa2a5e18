package main

import (
	"io"

	"jobday/report"
	"jobday/sheet"
)

// lastDays is the last day of each job, to try the shop's own pages with.
func (b *openBook) lastDays() []report.Input {
	var ins []report.Input
	for _, j := range b.selected {
		if n := len(j.Days); n > 0 {
			ins = append(ins, report.Input{Day: j.Days[n-1], Job: j.Job, Company: b.Company})
		}
	}
	return ins
}

// writeSheet writes one document in a format for people.
func (b *openBook) writeSheet(w io.Writer, s sheet.Sheet, format string) error {
	return b.writeSheets(w, format, s)
}

// writeSheets writes documents, each on pages of its own, in a format for people. A page of the
// shop's that fails is a finding, and the shipped one is written.
func (b *openBook) writeSheets(w io.Writer, format string, sheets ...sheet.Sheet) error {
	if len(sheets) == 0 {
		return nil
	}
	for i := range sheets {
		sheets[i].Paper = b.paper
	}
	switch format {
	case "html":
		sheets[0].Pages = b.pages.Sheets()
		err := sheet.HTML(w, sheets[0], sheets[1:]...)
		if err != nil && b.pages.Failed(err) {
			sheets[0].Pages = nil
			err = sheet.HTML(w, sheets[0], sheets[1:]...)
		}
		return err
	case "pdf":
		return sheet.PDF(w, sheets[0], sheets[1:]...)
	case "md":
		return sheet.Markdown(w, sheets[0], sheets[1:]...)
	}
	return sheet.TextTo(w, sheet.TextOptions{Width: b.width}, sheets...)
}
