package report

import (
	"bytes"
	"io"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// DirectoryText writes the panels for a terminal, one circuit a line; an asterisk marks what
// changed since the last card.
func DirectoryText(w io.Writer, ins []DirectoryInput) error {
	var out bytes.Buffer
	for i, in := range ins {
		c, err := newCard(in)
		if err != nil {
			return err
		}
		if i > 0 {
			out.WriteString("\n")
		}
		c.text(&out)
	}
	return flush(w, &out)
}

const textWidth = 80

func (c *Card) text(out *bytes.Buffer) {
	line := func(indent, text string) {
		for i, l := range wrap(shown(text), textWidth-len(indent)) {
			if i > 0 {
				indent = strings.Repeat(" ", len(indent))
			}
			out.WriteString(indent + l + "\n")
		}
	}
	line("", c.Panel+", circuit directory, as of "+c.Day)
	if who := strings.Join(filled(c.Number, c.Customer, c.Site), ", "); who != "" {
		line("", who)
	}
	var facts []string
	for _, f := range c.Facts {
		facts = append(facts, strings.ToLower(f.Label)+" "+f.Text)
	}
	line("", strings.Join(facts, ", "))
	line("", c.Counts)
	out.WriteString("\n")
	for _, x := range c.Standing.Standing {
		mark := "  "
		for _, s := range x.Spaces {
			if c.changed[s] {
				mark = "* "
			}
		}
		line(mark+fit(ints(x.Spaces), 10)+" ", strings.Join(filled(circuitWords(x), x.Breaker, x.Conductor), ", "))
	}
	if len(c.Standing.Standing) == 0 {
		line("  ", "No circuit is described.")
	}
	if open := c.Standing.Unlisted(); len(open) > 0 {
		line("  ", "Not described: "+ranges(open))
	}
	if c.Since != "" {
		out.WriteString("\n" + c.Since + "\n")
		for _, x := range c.Changes {
			line("  ", ChangeWords(x))
		}
		if len(c.Changes) == 0 {
			line("  ", "Nothing.")
		}
	}
	if len(c.Findings) > 0 {
		out.WriteString("\nTo be looked at\n")
		for _, f := range c.Findings {
			line("  "+ints(f.Spaces)+": ", f.Text)
		}
	}
	out.WriteString("\n")
	for _, t := range c.Cautions {
		line("", t)
	}
}

// ranges writes a run of numbers short: "5, 7 to 12".
func ranges(n []int) string {
	var parts []string
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		switch {
		case j > i+1:
			parts = append(parts, strconv.Itoa(n[i])+" to "+strconv.Itoa(n[j]))
		default:
			for _, x := range n[i : j+1] {
				parts = append(parts, strconv.Itoa(x))
			}
		}
		i = j + 1
	}
	return strings.Join(parts, ", ")
}

// The shape of DirectoryJSON. The keys are stable once released.
type (
	directoryJSON struct {
		Panel        string                 `json:"panel"`
		Job          string                 `json:"job"`
		Company      string                 `json:"company"`
		Customer     string                 `json:"customer"`
		Site         string                 `json:"site"`
		Date         notes.Date             `json:"date"`
		Spaces       int                    `json:"spaces"` // 0 when nobody said, like phases and terminals
		Phases       int                    `json:"phases"`
		Volts        string                 `json:"volts"`
		Main         string                 `json:"main"`
		Terminals    int                    `json:"terminals"`
		Feeder       string                 `json:"feeder"`
		Circuits     []directoryCircuitJSON `json:"circuits"`
		NotDescribed []int                  `json:"not_described"`
		Since        *notes.Date            `json:"since"` // of the card before; null for none, and for the layout
		Changes      []directoryChangeJSON  `json:"changes"`
		Caution      []string               `json:"caution"`
	}
	directoryCircuitJSON struct {
		Spaces      []int          `json:"spaces"`
		Legs        []string       `json:"legs"` // by space number; empty when not known
		Use         notes.SpaceUse `json:"use"`
		Serves      string         `json:"serves"`
		Breaker     string         `json:"breaker"`
		Conductor   string         `json:"conductor"`
		NeutralWith []int          `json:"shared_neutral_with"`
		Changed     bool           `json:"changed"`
		Findings    []string       `json:"findings"`
		From        []notes.Source `json:"from"`
	}
	directoryChangeJSON struct {
		Spaces []int  `json:"spaces"`
		Was    string `json:"was"`
		Now    string `json:"now"`
	}
)

// DirectoryJSON writes the panels as an indented array.
func DirectoryJSON(w io.Writer, ins []DirectoryInput) error {
	all := []directoryJSON{}
	for _, in := range ins {
		c, err := newCard(in)
		if err != nil {
			return err
		}
		all = append(all, c.json(in))
	}
	return finding.WriteIndented(w, all)
}

func (c *Card) json(in DirectoryInput) directoryJSON {
	p := c.Standing
	out := directoryJSON{
		Panel: p.Name, Job: c.Number, Company: c.Company, Customer: c.Customer, Site: c.Site, Date: c.Date, Spaces: p.Spaces,
		Phases: p.Phases, Volts: p.Volts, Main: p.Main, Terminals: p.Terminal, Feeder: p.Feeder,
		Circuits: []directoryCircuitJSON{}, NotDescribed: append([]int{}, p.Unlisted()...), Changes: []directoryChangeJSON{},
		Caution: c.Cautions,
	}
	if in.Before != nil && in.Since.Known() {
		out.Since = &in.Since
	}
	for _, x := range p.Standing {
		row := directoryCircuitJSON{
			Spaces: x.Spaces, Legs: []string{}, Use: x.Use, Serves: x.Serves, Breaker: x.Breaker, Conductor: x.Conductor,
			NeutralWith: append([]int{}, x.Neutral...), Findings: append([]string{}, x.Findings...), From: append([]notes.Source{}, x.From...),
		}
		for _, s := range x.Spaces {
			row.Changed = row.Changed || c.changed[s]
			if leg := trade.Leg(s, p.Phases); leg != "" {
				row.Legs = append(row.Legs, leg)
			}
		}
		out.Circuits = append(out.Circuits, row)
	}
	for _, x := range c.Changes {
		out.Changes = append(out.Changes, directoryChangeJSON(x))
	}
	return out
}
