package compile_test

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strings"

	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
)

// A dump writes what a book compiled to as lines a person can check against the note by hand:
//
//	9:3 material qty=52ft item="10/2 MC"
//
// Keys without a value are left out. Positions carry the file's name only where a book has more
// than one note.
type dump struct {
	out   strings.Builder
	files bool
}

func newDump(r *compile.Result) *dump {
	notes := 0
	for _, j := range r.Jobs {
		notes += len(j.Notes)
	}
	return &dump{files: notes > 1}
}

func (d *dump) at(s notes.Source) {
	if d.files {
		fmt.Fprintf(&d.out, "%s:", path.Base(s.File))
	}
	fmt.Fprintf(&d.out, "%d:%d ", s.Line, s.Column)
}

// put writes key=value, quoting a value that holds a space, unless the value is empty.
func (d *dump) put(key, value string) {
	if value == "" {
		return
	}
	if strings.ContainsAny(value, " \"=") {
		value = fmt.Sprintf("%q", value)
	}
	d.out.WriteString(" " + key + "=" + value)
}

func (d *dump) end() { d.out.WriteByte('\n') }

func (d *dump) take() string {
	s := d.out.String()
	d.out.Reset()
	return s
}

// entries dumps every entry and every stretch of narrative of all days, by place.
func (d *dump) entries(r *compile.Result) string {
	type row struct {
		at   notes.Source
		text string
	}
	var rows []row
	for _, day := range r.Days() {
		for _, e := range day.Entries {
			d.entry(e)
			rows = append(rows, row{e.Source, d.take()})
		}
		for _, n := range day.Narrative {
			if len(n.From) == 0 || entryAt(day, n.From[0]) {
				continue
			}
			d.at(n.From[0])
			d.out.WriteString("narrative")
			d.put("text", n.Text)
			d.end()
			rows = append(rows, row{n.From[0], d.take()})
		}
	}
	slices.SortStableFunc(rows, func(a, b row) int {
		return cmp.Or(cmp.Compare(a.at.File, b.at.File), cmp.Compare(a.at.Line, b.at.Line), cmp.Compare(a.at.Column, b.at.Column))
	})
	var all strings.Builder
	for _, w := range rows {
		all.WriteString(w.text)
	}
	return all.String()
}

func entryAt(day *notes.JobDay, at notes.Source) bool {
	return slices.ContainsFunc(day.Entries, func(e notes.EntryResult) bool { return e.Source == at })
}

func (d *dump) entry(e notes.EntryResult) {
	d.at(e.Source)
	d.out.WriteString(string(e.Outcome))
	for _, f := range factsOf(e) {
		d.put(f.key, f.value)
	}
	d.end()
}

// A fact is one thing read out of an entry, as the dumps and the labelled notes write it.
type fact struct{ key, value string }

// factsOf returns what was read out of an entry, in a fixed order; empty values say "not read".
func factsOf(e notes.EntryResult) []fact {
	fs := []fact{{"lines", strings.Join(e.Lines, ",")}}
	if e.Outcome == notes.Unclear {
		var may []string
		for _, c := range e.Candidates {
			may = append(may, c.Line)
		}
		fs = append(fs, fact{"may", strings.Join(may, ",")})
	}
	switch r := e.Reading.(type) {
	case notes.MaterialReading:
		fs = append(fs, fact{"qty", qty(r.Qty)}, fact{"item", r.Item})
	case notes.TimeReading:
		var spans []string
		for _, s := range r.Spans {
			spans = append(spans, s.From.String()+"-"+s.To.String())
		}
		fs = append(fs, fact{"who", strings.Join(r.People, ",")}, fact{"spans", strings.Join(spans, ",")}, fact{"min", minutes(r.Minutes)})
	case notes.WorkReading:
		fs = append(fs, fact{"qty", qty(r.Qty)}, fact{"done", yesNo(r.Complete)}, fact{"min", minutes(r.Minutes)}, fact{"who", strings.Join(r.People, ",")})
	case notes.FaultReading:
		fs = append(fs, fact{"kind", r.Kind}, fact{"severity", string(r.Severity)}, fact{"state", string(r.State)})
	case notes.TestReading:
		var values []string
		for _, v := range r.Readings {
			values = append(values, v.Value+v.Unit)
		}
		fs = append(fs, fact{"value", strings.Join(values, ",")}, fact{"verdict", string(r.Verdict)})
	}
	return fs
}

func qty(q *notes.Quantity) string {
	if q == nil {
		return ""
	}
	return q.Value.String() + string(q.Unit)
}

func minutes(m notes.Minutes) string {
	if m == 0 {
		return ""
	}
	return fmt.Sprint(int(m))
}

func yesNo(b *bool) string {
	switch {
	case b == nil:
		return ""
	case *b:
		return "yes"
	}
	return "no"
}

// lastDays returns each job's last day, where the standing to date is read.
func lastDays(r *compile.Result) []*notes.JobDay {
	var days []*notes.JobDay
	for _, j := range r.Jobs {
		if n := len(j.Days); n > 0 {
			days = append(days, j.Days[n-1])
		}
	}
	return days
}

// scope dumps how the lines stand at the end: "C under way 2 of 3".
func (d *dump) scope(r *compile.Result) string {
	for _, day := range lastDays(r) {
		for _, l := range day.Scope {
			fmt.Fprintf(&d.out, "%s %s %s of %s", l.Line, l.State, l.ToDate, l.Booked.Qty)
			if l.Over.Sign() > 0 {
				fmt.Fprintf(&d.out, ", %s over", l.Over)
			}
			d.put("by", l.BlockedBy)
			d.end()
		}
	}
	return d.take()
}

// extras dumps the extras of the last days with whose word they rest on and what they come to.
func (d *dump) extras(r *compile.Result) string {
	for _, day := range lastDays(r) {
		for _, x := range day.Extras {
			if len(x.From) > 0 {
				d.at(x.From[0])
			}
			fmt.Fprintf(&d.out, "%s, %s", x.Outcome, x.State)
			d.put("min", minutes(x.Minutes))
			d.put("by", x.Authorization.By)
			d.put("how", x.Authorization.How)
			d.put("at", x.Authorization.At)
			d.put("amount", x.Amount.String())
			d.end()
		}
	}
	return d.take()
}

// labor dumps who worked how long on what on every day.
func (d *dump) labor(r *compile.Result) string {
	for _, day := range r.Days() {
		for _, l := range day.Labor {
			fmt.Fprintf(&d.out, "%s %s %d", day.Date, l.Name, l.Minutes)
			on := make([]string, 0, len(l.On))
			for k := range l.On {
				on = append(on, k)
			}
			slices.Sort(on)
			for _, k := range on {
				d.put(k, minutes(l.On[k]))
			}
			d.end()
		}
	}
	return d.take()
}

// money dumps where the money of the last days stands, each line with its amount.
func (d *dump) money(r *compile.Result) string {
	for _, day := range lastDays(r) {
		for _, l := range day.Money.Ready.Lines {
			fmt.Fprintf(&d.out, "ready %s %s\n", l.Ref, l.Amount)
		}
		for _, t := range day.Money.Ready.Tax {
			fmt.Fprintf(&d.out, "tax %s %s\n", t.Name, t.Amount)
		}
		fmt.Fprintf(&d.out, "total %s\n", day.Money.Ready.Total)
		for _, h := range day.Money.Held {
			fmt.Fprintf(&d.out, "held %s: %s\n", h.Amount, h.Why)
		}
		for _, h := range day.Money.NotBilled {
			fmt.Fprintf(&d.out, "not billed %s: %s\n", h.Amount, h.Why)
		}
	}
	return d.take()
}

// findings dumps what the program has to say, without the wording of hints.
func (d *dump) findings(l finding.List) string {
	for _, f := range l {
		d.at(notes.SourceOf(f.Span))
		fmt.Fprintf(&d.out, "%s %s\n", f.Severity, f.Rule)
	}
	return d.take()
}
