package closeout

import (
	"fmt"
	"slices"
	"strings"

	"jobday/finding"
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

// mostWants is how many open things the comment lists; the rest is in the closeout list.
const mostWants = 60

// wants lists what is open, for the comment at the head of a fresh note.
func wants(in Input) string {
	head, list := "Booked:", booked(in.Job)
	if d := in.Day(); d != nil {
		head, list = "Still open as of "+d.Date.String()+":", stillOpen(in, d)
	}
	if len(list) == 0 {
		list = []string{"nothing"}
	}
	if more := len(list) - mostWants; more > 0 {
		list = append(list[:mostWants], fmt.Sprintf("and %d more", more))
	}
	return head + "\n  " + strings.Join(list, "\n  ") + "\n"
}

func booked(j *notes.Job) []string {
	var list []string
	for _, l := range j.Lines {
		list = append(list, comment(l.Label)+"  "+comment(l.Work)+", "+comment(l.Qty.String()))
	}
	return list
}

func stillOpen(in Input, d *notes.JobDay) []string {
	var list []string
	for _, l := range d.Scope {
		if !closed(l) {
			list = append(list, comment(l.Line)+"  "+comment(l.Work)+": "+comment(stands(l)))
		}
	}
	for _, p := range slices.Concat(openExtras(d), openDeficiencies(d), missingTests(in)) {
		list = append(list, wantWords[p.Kind]+comment(p.What))
	}
	for _, l := range d.Left {
		list = append(list, "left: "+comment(l.Text))
	}
	for _, q := range d.Questions {
		list = append(list, "question: "+comment(q.Text))
	}
	return list
}

// wantWords begin a line of the comment, by kind.
var wantWords = map[Kind]string{Extras: "extra without a yes: ", Deficiencies: "deficiency: ", Tests: "not tested: "}

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

// comment makes words safe to stand in an HTML comment: on one line that is not too long to read,
// without control characters and without an end of the comment.
func comment(s string) string {
	const most = 160
	s = strings.Join(strings.Fields(finding.Printable(s)), " ")
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return strings.ReplaceAll(s, "--", "–")
}
