package closeout

import (
	"jobday/notes"
	"jobday/trade"
)

// missingTests lists what went in, over all days so far, without the test that usually follows it.
func missingTests(in Input) []Point {
	var installed, tested []string
	from := map[string]notes.Source{}
	put := func(words string, at notes.Source) {
		installed = append(installed, words)
		from[words] = at
	}
	for _, d := range in.Days {
		for i := range d.Entries {
			e := &d.Entries[i]
			switch {
			case e.Outcome == notes.Test:
				tested = append(tested, e.Text)
				for _, det := range e.Details {
					tested = append(tested, det.Text)
				}
			case e.Outcome == notes.Material, finished(e):
				put(e.Text, e.Source)
			}
		}
		for _, x := range d.Extras {
			if x.Outcome == notes.ExtraDone && len(x.From) > 0 {
				put(x.Work, x.From[0])
			}
		}
	}
	var list []Point
	var off []string
	if in.Company != nil {
		off = in.Company.TestsOff
	}
	for _, w := range trade.MissingTests(installed, tested, off) {
		list = append(list, Point{
			Kind: Tests, What: w.Installed, Why: "no test is written: " + w.Test + " (" + w.Source + ")",
			Do: "test it, and write the reading with its unit under Tests", From: []notes.Source{from[w.Installed]},
		})
	}
	return list
}

// finished reports whether an entry is work that does not say it is unfinished.
func finished(e *notes.EntryResult) bool {
	w, ok := e.Reading.(notes.WorkReading)
	return ok && e.Outcome == notes.InScope && (w.Complete == nil || *w.Complete || w.Qty != nil && w.Qty.Value.Sign() > 0)
}
