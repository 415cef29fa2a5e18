package report

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/hours"
	"jobday/notes"
)

// HoursText writes the time sheet for a terminal: each week's people and jobs by day, then the
// labor of every line against its booked hours. The company, whose readers' figures it has, may be nil.
func HoursText(w io.Writer, t *hours.TimeSheet, c *notes.Company) error {
	f := figuresOf(c)
	s := summary{width: hoursWidth}
	fmt.Fprintf(&s.out, "%s\n", shown(t.Company+": hours of "+period(t.Since, t.Until)))
	if len(t.Weeks) == 0 {
		s.out.WriteString("\nNo hours are written in these days.\n")
	}
	for _, week := range t.Weeks {
		fmt.Fprintf(&s.out, "\n%s\n", weekName(period(week.Starts, week.Ends), week.Cut))
		g := grid{right: []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13}}
		for _, r := range dropEmpty(f.weekRows(week, t.Currency), 9, 10) {
			g.add(r.cells...)
		}
		g.write(&s)
	}
	if len(t.Lines) > 0 {
		s.out.WriteString("\nLabor against booked hours\n")
		g := grid{grow: 2, right: []int{3, 4, 5, 6, 7}}
		g.add(lineHead(t.Currency)...)
		for _, l := range t.Lines {
			g.add(f.lineCells(l)...)
		}
		g.write(&s)
	}
	for _, part := range hoursRemarks(t) {
		fmt.Fprintf(&s.out, "\n%s\n", part.title)
		for _, line := range part.lines {
			for i, text := range wrap(shown(line), hoursWidth-4) {
				s.out.WriteString([]string{"  - ", "    "}[min(i, 1)] + text + "\n")
			}
		}
	}
	_, err := w.Write(clean(s.out.Bytes()))
	return err
}

// hoursWidth is how wide a week with its seven days and totals may become on a terminal.
const hoursWidth = 132

func period(since, until notes.Date) string {
	if since == until {
		return since.String()
	}
	return since.String() + " to " + until.String()
}

func weekName(days string, cut bool) string {
	name := "Week " + days
	if cut {
		name += ", in part; overtime is that of the whole week"
	}
	return name
}

// dates are two days and all between: "March 9, 2026 to March 15, 2026".
func (f figures) dates(since, until notes.Date) string {
	if since == until {
		return f.Date(since)
	}
	return f.Date(since) + " to " + f.Date(until)
}

// weekRow is a row of a week's table: its head, a person's job, or the sum of a person or of all.
type weekRow struct {
	cells []string
	sum   bool
}

// weekHead are the columns of a week: who, seven days, then what they come to.
func weekHead(w hours.Week, currency string) []string {
	head := []string{"person and job"}
	for i := range 7 {
		d := w.Starts.AddDays(i)
		head = append(head, d.Weekday().String()[:3]+" "+strconv.Itoa(d.Day))
	}
	return append(head, "clock", "travel", "rounded", "regular", "overtime", "cost "+currency)
}

func (f figures) weekRows(w hours.Week, currency string) []weekRow {
	rows := []weekRow{{cells: weekHead(w, currency)}}
	var all hours.Hours
	var days [7]notes.Minutes
	for _, p := range w.People {
		name := hours.NameOf(p.Name)
		if p.Class != "" {
			name += ", " + p.Class
		}
		var own [7]notes.Minutes
		for _, j := range p.Jobs {
			for i, m := range j.ByDay {
				own[i] += m
				days[i] += m
			}
		}
		rows = append(rows, weekRow{cells: f.hoursCells(name, own, p.Total), sum: true})
		for _, j := range p.Jobs {
			rows = append(rows, weekRow{cells: f.hoursCells("  "+strings.Join(filled(j.Job, j.Title), " "), j.ByDay, j.Total)})
		}
		all = all.Add(p.Total)
	}
	return append(rows, weekRow{cells: f.hoursCells("all", days, all), sum: true})
}

func (f figures) hoursCells(name string, days [7]notes.Minutes, h hours.Hours) []string {
	cells := []string{name}
	for _, m := range days {
		cells = append(cells, hourMinute(m))
	}
	rounded := ""
	if h.Rounding != 0 {
		rounded = signed(h.Rounding)
	}
	return append(cells, hourMinute(h.Clock), hourMinute(h.Travel), rounded, hourMinute(h.Regular), hourMinute(h.Overtime),
		f.costWords(h.Cost, h.Costless, h.Costless < h.Regular+h.Overtime))
}

// costWords is a cost, with a mark where some of the time has none; never a bare 0.00 for time that
// nobody put a cost on.
func (f figures) costWords(cost notes.Money, costless notes.Minutes, some bool) string {
	switch {
	case costless == 0:
		return f.money(cost)
	case some:
		return f.money(cost) + " *"
	}
	return "no cost *"
}

// hourMinute is time as a time sheet shows it, "8:30"; "" for none.
func hourMinute(m notes.Minutes) string {
	if m == 0 {
		return ""
	}
	if m < 0 {
		return "-" + hourMinute(-m)
	}
	return fmt.Sprintf("%d:%02d", int(m)/60, int(m)%60)
}

func signed(m notes.Minutes) string {
	if m > 0 {
		return "+" + hourMinute(m)
	}
	return hourMinute(m)
}

func lineHead(currency string) []string {
	return []string{"job", "line", "work", "booked", "these days", "to date", "over booked", "cost to date " + currency}
}

func (f figures) lineCells(l hours.Line) []string {
	over := ""
	if m, booked := l.Over(); booked {
		over = signed(m)
		if m == 0 {
			over = "0:00"
		}
	}
	cost := ""
	if l.ToDate > 0 {
		cost = f.costWords(l.CostToDate, l.CostlessToDate, l.CostlessToDate < l.ToDate)
	}
	return []string{
		l.Job, l.Ref, l.Work, hourMinute(l.Booked), hourMinute(l.Here), hourMinute(l.ToDate), over, cost,
	}
}

// remarks are lines below a heading.
type remarks struct {
	title string
	lines []string
}

// hoursRemarks is what a reader of the sheet must know beside the figures.
func hoursRemarks(t *hours.TimeSheet) []remarks {
	var out []remarks
	add := func(title string, lines []string) {
		if len(lines) > 0 {
			out = append(out, remarks{title, lines})
		}
	}
	add("* Without a cost", t.Costless)
	var missing, found []string
	for _, m := range t.Missing {
		missing = append(missing, m.Date.String()+", job "+m.Job+": "+m.Name+" was on site; no hours are written ("+m.File+")")
	}
	for _, f := range t.Findings {
		found = append(found, Where([]notes.Source{f.Source})+": "+f.Message+". To put it right: "+f.Hint+" ["+f.Rule+"]")
	}
	add("Hours that may be missing", missing)
	add("To look at", found)
	add("How it was figured", t.Rules)
	return out
}

// hoursHeader is the first record of HoursCSV.
var hoursHeader = []string{
	"company", "week", "date", "person", "class", "job", "clock_minutes", "rounding_minutes", "travel_minutes",
	"regular_minutes", "overtime_minutes", "regular_hours", "overtime_hours", "cost", "currency", "from",
}

// HoursCSV writes one RFC 4180 record a person, day and job. Minutes are exact; hours are those
// minutes with two decimals, half away from zero. A cost nobody gave is empty, not zero. Texts that a
// spreadsheet would run are made safe.
func HoursCSV(w io.Writer, t *hours.TimeSheet) error {
	records := [][]string{hoursHeader}
	for _, week := range t.Weeks {
		for _, p := range week.People {
			for _, d := range p.Days {
				cost := d.Cost.String()
				if d.Costless > 0 {
					cost = ""
				}
				records = append(records, []string{
					csvText(t.Company), week.Starts.String(), d.Date.String(), csvText(p.Name), csvText(p.Class), csvText(d.Job),
					minutes(d.Clock), minutes(d.Rounding), minutes(d.Travel), minutes(d.Regular), minutes(d.Overtime),
					d.Regular.Hours().Fixed(2), d.Overtime.Hours().Fixed(2), cost, csvText(t.Currency), csvText(Where(d.From)),
				})
			}
		}
	}
	return writeCSV(w, records)
}

func minutes(m notes.Minutes) string { return strconv.Itoa(int(m)) }

// writeCSV writes records as RFC 4180 has them, in one go.
func writeCSV(w io.Writer, records [][]string) error {
	var page bytes.Buffer
	out := csv.NewWriter(&page)
	out.UseCRLF = true
	if err := out.WriteAll(records); err != nil {
		return err
	}
	_, err := w.Write(page.Bytes())
	return err
}

// HoursJSON writes the time sheet as it is.
func HoursJSON(w io.Writer, t *hours.TimeSheet) error { return finding.WriteIndented(w, t) }

// dropEmpty takes out those of the columns that hold nothing in any row below the head.
func dropEmpty(rows []weekRow, columns ...int) []weekRow {
	slices.Sort(columns)
	for _, c := range slices.Backward(columns) {
		if slices.ContainsFunc(rows[1:], func(r weekRow) bool { return r.cells[c] != "" }) {
			continue
		}
		for i := range rows {
			rows[i].cells = slices.Delete(rows[i].cells, c, c+1)
		}
	}
	return rows
}
