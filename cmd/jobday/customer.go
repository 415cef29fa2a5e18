package main

import (
	"bytes"
	"io"

	"jobday/book"
	"jobday/report"
	"jobday/sheet"
)

// customerFiles makes the customer's edition of the selected days: out/<job>/<date>-customer.html
// and so on. No page lists them beside the office's, so that the wrong one is hard to send.
func customerFiles(b *openBook, formats []string) ([]book.Output, error) {
	var files []book.Output
	for _, in := range b.inputs() {
		for _, f := range formats {
			var page bytes.Buffer
			if err := b.writeCustomer(&page, []report.Input{in}, f); err != nil {
				return nil, err
			}
			name := fileName(in.Day.Job) + "/" + dayName(in.Day) + "-customer." + ending(f)
			files = append(files, book.Output{Name: name, Text: page.Bytes()})
		}
	}
	return files, nil
}

func ending(format string) string {
	if format == "text" {
		return "txt"
	}
	return format
}

// writeCustomer writes the customer's edition of days in one format into one text.
func (b *openBook) writeCustomer(w io.Writer, ins []report.Input, format string) error {
	var sheets []sheet.Sheet
	for _, in := range ins {
		s, err := report.Customer(in)
		if err != nil {
			return err
		}
		sheets = append(sheets, s)
	}
	return b.writeSheets(w, format, sheets...)
}
