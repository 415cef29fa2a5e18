package closeout

import (
	"fmt"
	"strings"

	"jobday/notes"
)

// DayNote returns a fresh note for the day: the sections, and in a comment what the job still
// wants as of its last note. Whatever is not written into it says nothing: the comment is no entry.
func DayNote(in Input, date notes.Date) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ndate: %s\ncrew: []   # who is on site, such as [Ines, Tobias]\n---\n\n", date)
	fmt.Fprintf(&b, "<!--\n%s\n", comment(strings.TrimSpace("Job "+in.Job.Number+" "+in.Job.Title)))
	b.WriteString(wants(in))
	fmt.Fprintf(&b, "Write one thing a line. A label and a colon name a booked line, such as:\n- %s: 2 of 3 done\n-->\n",
		comment(firstLabel(in.Job)))
	for _, s := range noteSections {
		fmt.Fprintf(&b, "\n## %s\n", s.name)
		if s.hint != "" {
			fmt.Fprintf(&b, "<!-- %s -->\n", s.hint)
		}
	}
	return []byte(b.String())
}

func firstLabel(j *notes.Job) string {
	if len(j.Lines) == 0 {
		return "A"
	}
	return j.Lines[0].Label
}

// noteSections are the headings of a fresh note, with what belongs under those that need a word.
var noteSections = []struct{ name, hint string }{
	{"Done", ""},
	{"Materials", "52 ft 10/2 MC"},
	{"Extras", "what it was; how long and who; what went in; ok'd by NAME on site 10:40"},
	{"Deficiencies", "what and where; fixed, made safe or left; told NAME"},
	{"Tests", "what was tested: the reading with its unit"},
	{"Circuits", "2,4: what it serves, 30A 2P, 10 AWG"},
	{"Time", "NAME 7:00-15:30, 30 lunch"},
	{"Left", ""},
	{"Questions", ""},
}

// wants lists what is open, for the comment at the head of a fresh note.
func wants(in Input) string {
	var b strings.Builder
	if in.Day == nil {
		b.WriteString("Booked:\n")
		for _, l := range in.Job.Lines {
			fmt.Fprintf(&b, "  %s  %s, %s\n", comment(l.Label), comment(l.Work), l.Qty)
		}
		return b.String()
	}
	fmt.Fprintf(&b, "Still open as of %s:\n", in.Day.Date)
	open := 0
	for _, l := range in.Day.Scope {
		if !closed(l) {
			open++
			fmt.Fprintf(&b, "  %s  %s: %s\n", comment(l.Line), comment(l.Work), comment(stands(l)))
		}
	}
	for _, p := range openExtras(in.Day) {
		open++
		fmt.Fprintf(&b, "  extra without a yes: %s\n", comment(p.What))
	}
	for _, p := range openDeficiencies(in.Day) {
		open++
		fmt.Fprintf(&b, "  deficiency: %s\n", comment(p.What))
	}
	for _, p := range missingTests(in.Day) {
		open++
		fmt.Fprintf(&b, "  test: %s\n", comment(p.What))
	}
	for _, l := range in.Day.Left {
		open++
		fmt.Fprintf(&b, "  left: %s\n", comment(l.Text))
	}
	for _, q := range in.Day.Questions {
		open++
		fmt.Fprintf(&b, "  question: %s\n", comment(q.Text))
	}
	if open == 0 {
		b.WriteString("  nothing\n")
	}
	return b.String()
}

// stands says in a few words how a line stands.
func stands(l notes.LineStanding) string {
	if l.State == notes.UnderWay {
		return fmt.Sprintf("%s of %s %s left", l.Left, l.Booked.Qty, l.Booked.Unit)
	}
	if l.State == notes.Blocked && l.BlockedBy != "" {
		return "blocked, " + l.BlockedBy
	}
	return string(l.State)
}

// comment makes words safe to stand in an HTML comment: on one line, and without an end of it.
func comment(s string) string {
	return strings.ReplaceAll(strings.Join(strings.Fields(s), " "), "--", "–")
}
