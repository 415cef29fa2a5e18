package closeout

import (
	"slices"

	"jobday/notes"
	"jobday/trade"
)

// missingTests lists what went in, over all days so far, without the test that usually follows it, on its day
// or later: what was tested before it went in was something else. Each test is asked for once.
func missingTests(in Input) []Point {
	var off []string
	if in.Company != nil {
		off = in.Company.TestsOff
	}
	var list []Point
	asked := map[string]bool{}
	var tested []string // that day and later
	for n := len(in.Days) - 1; n >= 0; n-- {
		day := workOf(in.Days[n])
		tested = append(tested, day.tested...)
		var points []Point
		for _, w := range trade.MissingTests(day.installed, tested, off) {
			if asked[w.Test] {
				continue
			}
			asked[w.Test] = true
			points = append(points, Point{
				Kind: Tests, What: w.Installed, Why: "no test is written: " + w.Test + " (" + w.Source + ")",
				Do: "test it, and write the reading with its unit under Tests", From: []notes.Source{day.from[w.Installed]},
			})
		}
		list = append(points, list...)
	}
	return list
}

// dayWork is what went in on a day and what was tested, in the words of the note.
type dayWork struct {
	installed, tested []string
	from              map[string]notes.Source
}

func workOf(d *notes.JobDay) dayWork {
	w := dayWork{from: map[string]notes.Source{}}
	put := func(words string, at notes.Source) {
		w.installed = append(w.installed, words)
		w.from[words] = at
	}
	for i := range d.Entries {
		e := &d.Entries[i]
		switch {
		case e.Outcome == notes.Test && impossible(d, e.Source): // it is asked for again
		case e.Outcome == notes.Test:
			w.tested = append(w.tested, e.Text)
			for _, det := range e.Details {
				w.tested = append(w.tested, det.Text)
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
	return w
}

// impossible reports whether the test told at a place gave a reading that cannot be right.
func impossible(d *notes.JobDay, at notes.Source) bool {
	return slices.ContainsFunc(d.Tests, func(t notes.TestRecord) bool {
		return t.Impossible && len(t.From) > 0 && t.From[0] == at
	})
}

// finished reports whether an entry is work that does not say it is unfinished.
func finished(e *notes.EntryResult) bool {
	w, ok := e.Reading.(notes.WorkReading)
	return ok && e.Outcome == notes.InScope && (w.Complete == nil || *w.Complete || w.Qty != nil && w.Qty.Value.Sign() > 0)
}
