package report

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// FaultJob is a job with all its compiled days, in order.
type FaultJob struct {
	Job  *notes.Job // required
	Days []*notes.JobDay
	// Photos reads the job's photos for a notice; nil to name them only.
	Photos Pictures
}

// FaultList is deficiencies across jobs as they stand on a day, by hazard: the hazard with the
// gravest first, in it the gravest and then the oldest.
type FaultList struct {
	Until notes.Date
	All   bool // corrected ones too
	Rows  []FaultRow
}

// FaultRow is one deficiency with the job it belongs to.
type FaultRow struct {
	notes.DeficiencyRecord
	Job  *notes.Job
	Days int // since it was found, 0 or more; -1 when that is not known
}

// Deficiencies lists what stands open on a day over all jobs, or with all also what was corrected.
// Notes after that day do not count.
func Deficiencies(jobs []FaultJob, until notes.Date, all bool) FaultList {
	list := FaultList{Until: until, All: all, Rows: []FaultRow{}}
	for _, j := range jobs {
		for _, rec := range notes.LatestDeficiencies(notes.UpTo(j.Days, until)) {
			if rec.State != notes.FaultCorrected || all {
				list.Rows = append(list.Rows, FaultRow{DeficiencyRecord: *rec, Job: j.Job, Days: daysBetween(rec.Found, until)})
			}
		}
	}
	gravest := map[string]int{}
	for _, r := range list.Rows {
		if g, ok := gravest[r.Hazard]; !ok || rank(r.Severity) < g {
			gravest[r.Hazard] = rank(r.Severity)
		}
	}
	slices.SortStableFunc(list.Rows, func(a, b FaultRow) int {
		return cmp.Or(
			cmp.Compare(gravest[a.Hazard], gravest[b.Hazard]), cmp.Compare(hazardRank(a.Hazard), hazardRank(b.Hazard)),
			cmp.Compare(rank(a.Severity), rank(b.Severity)), cmp.Compare(b.Days, a.Days),
			cmp.Compare(a.Job.Number, b.Job.Number), cmp.Compare(a.ID, b.ID),
		)
	})
	return list
}

func rank(s notes.Severity) int {
	return slices.Index([]notes.Severity{notes.Danger, notes.Hazard, notes.Maintenance, ""}, s)
}

func hazardRank(h string) int {
	if at := slices.Index(trade.Hazards, h); at >= 0 {
		return at
	}
	return len(trade.Hazards)
}

// daysBetween counts the days from one date to another, -1 when either is unknown or they run backward.
func daysBetween(from, to notes.Date) int {
	if !from.Known() || !to.Known() || from.Compare(to) > 0 {
		return -1
	}
	return to.DaysSince(from)
}

// Open counts the rows that are not corrected.
func (l FaultList) Open() int {
	n := 0
	for _, r := range l.Rows {
		if r.State != notes.FaultCorrected {
			n++
		}
	}
	return n
}

// Summary says what the list holds: "3 open deficiencies as of 2026-05-07".
func (l FaultList) Summary() string {
	s := strconv.Itoa(l.Open()) + " open deficiencies"
	if l.Open() == 1 {
		s = "1 open deficiency"
	}
	if closed := len(l.Rows) - l.Open(); l.All && closed > 0 {
		s += ", " + strconv.Itoa(closed) + " corrected"
	}
	if l.Until.Known() {
		s += " as of " + l.Until.String()
	}
	return s
}

// Groups parts the rows by hazard, in their order.
func (l FaultList) Groups() [][]FaultRow {
	var groups [][]FaultRow
	for _, r := range l.Rows {
		if n := len(groups); n == 0 || groups[n-1][0].Hazard != r.Hazard {
			groups = append(groups, nil)
		}
		groups[len(groups)-1] = append(groups[len(groups)-1], r)
	}
	return groups
}

// Age says how long a deficiency is known: "found today", "open 12 days".
func (r FaultRow) Age() string {
	switch {
	case r.State == notes.FaultCorrected:
		return "corrected"
	case r.Days < 0:
		return "age not known"
	case r.Days == 0:
		return "found today"
	}
	return "open " + plural(r.Days, "day")
}

// Standing says how a deficiency stands, who said what to it and since when.
func (r FaultRow) Standing() string { return faultStanding(r.DeficiencyRecord) }

// faultStanding says how a deficiency stands, in the words of a report.
func faultStanding(d notes.DeficiencyRecord) string {
	s := faultWords(d.State)
	if d.Told != "" && (d.State == notes.FaultFound || d.State == "") {
		s = "found, nothing decided yet"
	}
	if d.State == notes.FaultDeclined && d.By != "" {
		s += " by " + d.By
	}
	if d.How != "" && d.State == notes.FaultCorrected {
		s += " " + d.How
	}
	if changedLater(d) {
		s += " on " + d.At.String()
	}
	if d.Told != "" && d.Told != d.By {
		s += "; told " + d.Told
	}
	if d.Found.Known() {
		s += "; first reported " + d.Found.String()
	}
	return s
}

// changedLater reports whether a deficiency came to its state on a later day than it was found.
func changedLater(d notes.DeficiencyRecord) bool { return d.At.Known() && d.At != d.Found }

// DeficienciesText writes the list for a terminal.
func DeficienciesText(w io.Writer, l FaultList) error {
	var b bytes.Buffer
	b.WriteString(l.Summary() + "\n")
	for _, g := range l.Groups() {
		b.WriteString("\n" + strings.ToUpper(g[0].Hazard) + "\n")
		for _, r := range g {
			b.WriteString("  " + string(r.Severity) + "  job " + r.Job.Number + ", " + oneLine(strings.Join(filled(r.Title, r.Where), ", ")) + "\n")
			for _, line := range filled(
				r.Age()+"; "+oneLine(r.Standing()), said("told nobody that is written", r.Told == "" && r.By == "" && r.State != notes.FaultCorrected),
				after("next: ", oneLine(r.FollowUp)), after("photo: ", list(r.Photo)), r.ID+"  "+Where(r.From),
			) {
				b.WriteString("          " + line + "\n")
			}
		}
	}
	b.WriteString("\n" + trade.CodePointer() + "\n")
	return flush(w, &b)
}

func said(s string, when bool) string {
	if when {
		return s
	}
	return ""
}

func after(label, s string) string {
	if s == "" {
		return ""
	}
	return label + s
}

// DeficienciesMarkdown writes the list to be sent.
func DeficienciesMarkdown(w io.Writer, l FaultList) error {
	var b bytes.Buffer
	b.WriteString("# Deficiencies\n\n" + l.Summary() + "\n")
	for _, g := range l.Groups() {
		b.WriteString("\n## " + capital(escapeMarkdown(g[0].Hazard)) + "\n\n")
		for _, r := range g {
			b.WriteString("- **" + escapeMarkdown(string(r.Severity)) + "**, job " + escapeMarkdown(r.Job.Number) + ": " +
				escapeMarkdown(strings.Join(filled(r.Title, r.Where), ", ")) + markdownWhere(r.From) + "\n")
			for _, line := range filled(r.Age()+"; "+r.Standing(), after("follow-up: ", r.FollowUp), after("photographs: ", list(r.Photo)), r.ID) {
				b.WriteString("  - " + markdownItem(line) + "\n")
			}
		}
	}
	b.WriteString("\n" + trade.CodePointer() + "\n")
	return flush(w, &b)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// DeficienciesCSV writes the list as RFC 4180 records; see InvoiceCSV for the text in them.
func DeficienciesCSV(w io.Writer, l FaultList) error {
	var page bytes.Buffer
	out := csv.NewWriter(&page)
	out.UseCRLF = true
	records := [][]string{{
		"job", "title", "id", "kind", "deficiency", "where", "hazard", "severity", "state", "found", "age_days",
		"told", "by", "at", "how", "follow_up", "photos", "from",
	}}
	for _, r := range l.Rows {
		age := strconv.Itoa(r.Days)
		if r.Days < 0 {
			age = ""
		}
		records = append(records, []string{
			csvText(r.Job.Number), csvText(r.Job.Title), csvText(r.ID), csvText(r.Kind), csvText(r.Title), csvText(r.Where), csvText(r.Hazard),
			string(r.Severity), string(r.State), r.Found.String(), age, csvText(r.Told), csvText(r.By), dateOrNone(r.At), csvText(r.How),
			csvText(r.FollowUp), csvText(list(r.Photo)), csvText(Where(r.From)),
		})
	}
	if err := out.WriteAll(records); err != nil {
		return err
	}
	_, err := w.Write(page.Bytes())
	return err
}

func dateOrNone(d notes.Date) string {
	if !d.Known() {
		return ""
	}
	return d.String()
}

// faultJSON is a row as other programs read it. Age is null when it is not known.
type faultJSON struct {
	Job      string           `json:"job"`
	JobTitle string           `json:"job_title"`
	ID       string           `json:"id"`
	Kind     string           `json:"kind"`
	Title    string           `json:"title"`
	Text     string           `json:"text"`
	Where    string           `json:"where"`
	Hazard   string           `json:"hazard"`
	Severity notes.Severity   `json:"severity"`
	State    notes.FaultState `json:"state"`
	Found    string           `json:"found"`
	AgeDays  *int             `json:"age_days"`
	Told     string           `json:"told"`
	By       string           `json:"by"`
	At       string           `json:"at"`
	How      string           `json:"how"`
	Why      string           `json:"why"`
	Caution  string           `json:"caution"`
	FollowUp string           `json:"follow_up"`
	Rules    []notes.CodeRule `json:"rules"`
	Photos   []string         `json:"photos"`
	From     []notes.Source   `json:"from"`
}

// DeficienciesJSON writes the list as one object: until, caution and deficiencies in order.
func DeficienciesJSON(w io.Writer, l FaultList) error {
	page := struct {
		Until        string      `json:"until"`
		Caution      string      `json:"caution"`
		Deficiencies []faultJSON `json:"deficiencies"`
	}{dateOrNone(l.Until), trade.CodePointer(), []faultJSON{}}
	for _, r := range l.Rows {
		row := faultJSON{
			Job: r.Job.Number, JobTitle: r.Job.Title, ID: r.ID, Kind: r.Kind, Title: r.Title, Text: r.Text, Where: r.Where, Hazard: r.Hazard,
			Severity: r.Severity, State: r.State, Found: dateOrNone(r.Found), Told: r.Told, By: r.By, At: dateOrNone(r.At), How: r.How, Why: r.Why,
			Caution: r.Caution, FollowUp: r.FollowUp, Rules: append([]notes.CodeRule{}, r.Rules...), Photos: append([]string{}, r.Photo...),
			From: append([]notes.Source{}, r.From...),
		}
		if r.Days >= 0 {
			row.AgeDays = &r.Days
		}
		page.Deficiencies = append(page.Deficiencies, row)
	}
	return finding.WriteIndented(w, page)
}
