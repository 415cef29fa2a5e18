package explain

import (
	"bytes"
	"fmt"
	"io"
	"strconv"

	"jobday/finding"
)

// WriteText writes chains for people.
func WriteText(w io.Writer, chains []Chain) error {
	var b bytes.Buffer
	for i, c := range chains {
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s, job %s", finding.Printable(c.What), c.Job)
		if c.Date != "" {
			fmt.Fprintf(&b, ", %s", c.Date)
		}
		b.WriteByte('\n')
		for _, p := range c.Parts {
			writePart(&b, p)
		}
	}
	_, err := w.Write(b.Bytes())
	return err
}

func writePart(b *bytes.Buffer, p Part) {
	fmt.Fprintf(b, "\n%s\n", p.Title)
	for _, r := range p.Rows {
		if r.Text != "" {
			fmt.Fprintf(b, "  %s\n", finding.Printable(r.Text))
		}
		if r.Source != nil {
			place := r.Source.File + ":" + strconv.Itoa(r.Source.Line) + ":" + strconv.Itoa(r.Source.Column)
			fmt.Fprintf(b, "    %s\n", finding.Printable(place))
			if r.Quote != "" {
				fmt.Fprintf(b, "      %s\n", finding.Printable(r.Quote))
			}
		}
	}
}

// WriteJSON writes chains as a JSON array.
func WriteJSON(w io.Writer, chains []Chain) error {
	return finding.WriteIndented(w, chains)
}
