package report

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/trade"
)

// Paper is what a directory card is printed on.
type Paper string

// The papers.
const (
	Letter Paper = "letter" // 8.5 by 11 in
	A4     Paper = "a4"     // 210 by 297 mm
	Half   Paper = "half"   // half of Letter, 5.5 by 8.5 in
)

// Papers lists the papers, the usual one first.
var Papers = []Paper{Letter, A4, Half}

// DirectoryInput is one panel as it stands on a day, with what its card says beside it.
type DirectoryInput struct {
	Panel   notes.PanelStanding
	Before  *notes.PanelStanding // how it stood when the last card was made; nil for no card before
	Since   notes.Date           // of Before; unknown when Before is the layout alone
	Date    notes.Date
	Job     *notes.Job     // nil when the booking could not be read
	Company *notes.Company // nil when nobody wrote who we are
	Paper   Paper          // "" for Letter

	Templates *Templates // nil for the shipped ones
}

// Card is a panel's directory as every format shows it: the panel drawn as it is built, odd spaces
// left and even spaces right, and what changed since the last one.
type Card struct {
	Panel    string // "Panel not named" when nobody said
	Company  string
	Number   string // of the job
	Customer string
	Site     string
	Date     notes.Date
	Day      string // Date as it is read
	Paper    Paper
	Facts    []CardFact
	Rows     []CardRow
	Legs     bool // the legs of the rows are known
	Counts   string
	Since    string // "Changed since 12 March 2026"; "" when there was no card before
	Changes  []notes.PanelChange
	Findings []CardFinding
	Cautions []string
	Standing notes.PanelStanding

	changed map[int]bool
	first   bool // no card before
}

// CardFact is one thing the head of a card says.
type CardFact struct{ Label, Text string }

// CardFinding is something to be looked at, with its spaces.
type CardFinding struct {
	Spaces []int
	Text   string
}

// CardRow is two spaces across from each other.
type CardRow struct {
	Leg         string // "A", "B", "C"; "" when not known
	Left, Right CardSpace
}

// CardSpace is one space of a row.
type CardSpace struct {
	N       int // 0 when the panel has no such space
	Span    int // rows the breaker that begins here takes; 0 when it began above
	Use     notes.SpaceUse
	Serves  string // what to print; "" for a space nobody described
	Breaker string
	More    string // conductor
	Changed bool
}

// Spaces writes the numbers of the breaker's spaces from its first: "2", or "2 4" of two rows.
func (s CardSpace) Spaces() []int {
	var out []int
	for i := range s.Span {
		out = append(out, s.N+2*i)
	}
	return out
}

var errNoPaper = errors.New("report: no such paper")

// newCard lays out a panel's card.
func newCard(in DirectoryInput) (*Card, error) {
	if in.Paper == "" {
		in.Paper = Letter
	}
	if !slices.Contains(Papers, in.Paper) {
		return nil, errNoPaper
	}
	p := in.Panel
	c := &Card{
		Panel: p.Name, Date: in.Date, Day: figuresOf(in.Company).longDate(in.Date), Paper: in.Paper, Standing: p, changed: map[int]bool{}, first: in.Before == nil,
		Cautions: append([]string{trade.DirectoryCaution()}, trade.CodePointer(), trade.Footer()[2]),
	}
	c.Panel = orWords(c.Panel, "Panel not named")
	if in.Company != nil {
		c.Company = in.Company.Name
	}
	if in.Job != nil {
		c.Number, c.Customer, c.Site = in.Job.Number, in.Job.Customer, in.Job.Site
	}
	c.Facts = panelFacts(p.Panel)
	if in.Before != nil {
		c.Changes = p.ChangesSince(in.Before)
		c.Since = "Changed since " + figuresOf(in.Company).longDate(in.Since)
		if !in.Since.Known() {
			c.Since = "Changed since the panel was laid out"
		}
		for _, x := range c.Changes {
			for _, s := range x.Spaces {
				c.changed[s] = true
			}
		}
	}
	c.rows()
	c.Counts = c.count()
	for _, x := range p.Standing {
		for _, f := range x.Findings {
			c.Findings = append(c.Findings, CardFinding{x.Spaces, f})
		}
	}
	return c, nil
}

// panelFacts is what the head of a card says of the panel.
func panelFacts(p notes.Panel) []CardFact {
	said := func(s string) string { return orWords(s, "not said") }
	number := func(n int, unit string) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n) + unit
	}
	return []CardFact{
		{"Volts", said(p.Volts)}, {"Phases", said(number(p.Phases, ""))}, {"Main", said(p.Main)},
		{"Terminals", said(number(p.Terminal, " °C"))}, {"Fed from", said(p.Feeder)},
	}
}

// rows draws the panel: as many rows as it has, or as its circuits need.
func (c *Card) rows() {
	p := c.Standing
	last := p.Spaces
	for _, x := range p.Standing {
		last = max(last, x.Spaces[len(x.Spaces)-1])
	}
	known := p.Phases == 1 || p.Phases == 3
	c.Legs = known
	c.Rows = make([]CardRow, (last+1)/2)
	for i := range c.Rows {
		c.Rows[i].Leg = trade.Leg(2*i+1, p.Phases)
		c.Rows[i].Left = CardSpace{N: 2*i + 1, Span: 1, Changed: c.changed[2*i+1]}
		if 2*i+2 <= last {
			c.Rows[i].Right = CardSpace{N: 2*i + 2, Span: 1, Changed: c.changed[2*i+2]}
		}
	}
	for _, x := range p.Standing {
		c.draw(x)
	}
}

// at returns the space with the number.
func (c *Card) at(space int) *CardSpace {
	row := &c.Rows[(space-1)/2]
	if space%2 == 1 {
		return &row.Left
	}
	return &row.Right
}

// draw writes a circuit into its spaces: once over the rows of its breaker, or into each space where
// they do not stand one below the other.
func (c *Card) draw(x notes.PanelCircuit) {
	together := trade.Adjacent(x.Spaces)
	for i, n := range x.Spaces {
		s := c.at(n)
		s.Use, s.Breaker, s.More = x.Use, x.Breaker, x.Conductor
		s.Serves = circuitWords(x)
		switch {
		case together && i == 0:
			s.Span = len(x.Spaces)
		case together:
			*s = CardSpace{N: n, Changed: s.Changed}
		case len(x.Spaces) > 1:
			s.Serves += ", with " + ints(slices.DeleteFunc(slices.Clone(x.Spaces), func(o int) bool { return o == n }))
		}
	}
	if together {
		first := c.at(x.Spaces[0])
		for _, n := range x.Spaces {
			first.Changed = first.Changed || c.changed[n]
		}
	}
}

// circuitWords is what a card prints for a circuit beside its breaker.
func circuitWords(x notes.PanelCircuit) string {
	bare := x
	bare.Breaker, bare.Conductor = "", ""
	words := bare.Says()
	if len(x.Neutral) > 0 {
		words += " (neutral with " + ints(x.Neutral) + ")"
	}
	return oneLine(words)
}

// count says how the spaces are used.
func (c *Card) count() string { return spaceCounts(&c.Standing, false) }

// spaceCounts says how many spaces of a panel have which use, and which those are that are free.
func spaceCounts(p *notes.PanelStanding, which bool) string {
	size := "size of the panel not said"
	if p.Spaces > 0 {
		size = plural(p.Spaces, "space")
	}
	parts := []string{}
	for _, use := range []notes.SpaceUse{notes.SpaceInUse, notes.SpaceSpare, notes.SpaceBlank, notes.SpaceReserved} {
		var spaces []int
		for _, x := range p.Standing {
			if x.Use == use {
				spaces = append(spaces, x.Spaces...)
			}
		}
		if len(spaces) == 0 {
			continue
		}
		said := strconv.Itoa(len(spaces)) + " " + string(use)
		if which && use != notes.SpaceInUse {
			slices.Sort(spaces)
			said += " (" + ranges(spaces) + ")"
		}
		parts = append(parts, said)
	}
	if open := p.Unlisted(); len(open) > 0 {
		parts = append(parts, strconv.Itoa(len(open))+" not described")
	}
	if len(parts) == 0 {
		parts = []string{"none described"}
	}
	return size + ": " + strings.Join(parts, ", ")
}

// Panels says of each panel how its spaces are used at the end of the day: "LP1, 42 spaces: 19 in
// use, 2 spare (22, 24)".
func (v *View) Panels() []string {
	var lines []string
	for i := range v.Day.Panels {
		p := &v.Day.Panels[i]
		lines = append(lines, oneLine(orWords(p.Name, "panel not said"))+", "+spaceCounts(p, true))
	}
	return lines
}

func orWords(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

// ChangeWords is one change on one line: "2, 4: was blank; now proofing cabinet, 30A 2P".
func ChangeWords(x notes.PanelChange) string {
	s := ints(x.Spaces) + ": "
	switch {
	case x.Was == "":
		return s + "new, " + oneLine(x.Now)
	case x.Now == "":
		return s + "no longer " + oneLine(x.Was)
	}
	return s + "was " + oneLine(x.Was) + "; now " + oneLine(x.Now)
}
