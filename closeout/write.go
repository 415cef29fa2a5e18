package closeout

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strconv"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// Headline says what a kind's points have in common.
func (k Kind) Headline() string {
	switch k {
	case NoWord:
		return "Booked lines without a word"
	case Work:
		return "Booked work still open"
	case Hours:
		return "Missing hours"
	case Extras:
		return "Extras nobody authorized"
	case Deficiencies:
		return "Deficiencies without a decision"
	case Tests:
		return "Installed without a test"
	case Unclear:
		return "Entries nobody can place"
	case Questions:
		return "Open questions"
	}
	return "Others"
}

// WriteText writes the list for people, by kind, each point with its place, its reason and what
// to do. An empty list says that nothing is open.
func WriteText(w io.Writer, in Input, list []Point) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "Job %s", in.Job.Number)
	if in.Job.Title != "" {
		fmt.Fprintf(&b, ", %s", finding.Printable(in.Job.Title))
	}
	if d := in.Day(); d != nil {
		fmt.Fprintf(&b, ", as of %s", d.Date)
	}
	b.WriteString("\n")
	if len(list) == 0 {
		b.WriteString("nothing open\n")
	}
	for _, k := range Kinds {
		writeKind(&b, k, list)
	}
	if slices.ContainsFunc(list, func(p Point) bool { return p.Kind == Tests || p.Kind == Deficiencies }) {
		fmt.Fprintf(&b, "\n%s\n", trade.CodePointer())
	}
	_, err := w.Write(b.Bytes())
	return err
}

func writeKind(b *bytes.Buffer, k Kind, list []Point) {
	headed := false
	for _, p := range list {
		if p.Kind != k {
			continue
		}
		if !headed {
			headed = true
			fmt.Fprintf(b, "\n%s\n", k.Headline())
		}
		fmt.Fprintf(b, "  [ ] %s\n", finding.Printable(p.What))
		if p.Why != "" {
			fmt.Fprintf(b, "      %s\n", finding.Printable(p.Why))
		}
		fmt.Fprintf(b, "      do: %s\n", finding.Printable(p.Do))
		if len(p.From) > 0 {
			fmt.Fprintf(b, "      at: %s\n", finding.Printable(where(p.From[len(p.From)-1])))
		}
	}
}

func where(s notes.Source) string {
	return s.File + ":" + strconv.Itoa(s.Line) + ":" + strconv.Itoa(s.Column)
}

// document is the list as JSON shows it.
type document struct {
	Job    string     `json:"job"`
	Title  string     `json:"title"`
	Date   notes.Date `json:"date"` // of the day that is closed; "" when the job has no note yet
	Points []Point    `json:"points"`
}

// WriteJSON writes the list as one JSON object; an empty list is [].
func WriteJSON(w io.Writer, in Input, list []Point) error {
	doc := document{Job: in.Job.Number, Title: in.Job.Title, Points: list}
	if d := in.Day(); d != nil {
		doc.Date = d.Date
	}
	if doc.Points == nil {
		doc.Points = []Point{}
	}
	return finding.WriteIndented(w, doc)
}
