package notes

import (
	"slices"
	"strings"

	"jobday/finding"
)

// Panel is a panelboard as scope.md or panels.md lays it out.
type Panel struct {
	Name     string
	Spaces   int    // 1 to MaxSpaces; 0 when nobody said
	Phases   int    // 1 or 3; 0 when nobody said
	Volts    string // as written, "120/240"
	Main     string // as written, "100A main breaker", "lugs only"
	Terminal int    // degrees C the terminals are marked for, 60 or 75; 0 when nobody said
	Feeder   string // as written
	Circuits []PanelRow
	Span     finding.Span
}

// MaxSpaces is the most spaces a panel may have here.
const MaxSpaces = 200

// PanelRow is one row of a panel's table: what was in the panel before the job.
type PanelRow struct {
	CircuitWords
	At PanelPlaces
}

// PanelPlaces is where the cells of a row stand; a cell that is empty stands at the row.
type PanelPlaces struct{ Row, Space, Breaker, Conductor, Serves finding.Span }

// SpaceUse says what a space of a panel is used for.
type SpaceUse string

// The uses of a space.
const (
	SpaceInUse    SpaceUse = "in use"
	SpaceSpare    SpaceUse = "spare"    // a breaker nothing is connected to
	SpaceBlank    SpaceUse = "blank"    // no breaker
	SpaceReserved SpaceUse = "reserved" // held for something to come
)

// PanelStanding is how one panel stands at the end of a day: the layout and every note so far.
type PanelStanding struct {
	Panel
	Known    bool // the book has a layout of it; otherwise only notes name it
	Standing []PanelCircuit
}

// PanelCircuit is what one breaker, or one empty space, of a panel is for.
type PanelCircuit struct {
	Spaces    []int // ascending, never empty
	Use       SpaceUse
	Serves    string // as written; of a reserved space what it waits for
	Breaker   string // normal form "30A 2P", or as written
	Conductor string
	Neutral   []int // further spaces that share its neutral, ascending
	Tied      Answer
	Since     Date     // the day it was last written; unknown when it stood before the job
	Findings  []string // what is to be looked at
	From      []Source
}

// Says returns what a directory says of the circuit, on one line: "proofing cabinet, 30A 2P, 10 AWG".
func (c PanelCircuit) Says() string {
	var parts []string
	what := c.Serves
	switch c.Use {
	case SpaceSpare, SpaceBlank:
		what = string(c.Use)
	case SpaceReserved:
		if what = "reserved"; c.Serves != "" {
			what += " for " + c.Serves
		}
	case SpaceInUse:
		if what == "" {
			what = "not described"
		}
	}
	for _, p := range []string{what, c.Breaker, c.Conductor} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, ", ")
}

// Count returns how many spaces have the use.
func (p *PanelStanding) Count(use SpaceUse) int {
	n := 0
	for _, c := range p.Standing {
		if c.Use == use {
			n += len(c.Spaces)
		}
	}
	return n
}

// Unlisted returns the spaces of which nobody said anything; none when the size is not known.
func (p *PanelStanding) Unlisted() []int {
	said := map[int]bool{}
	for _, c := range p.Standing {
		for _, s := range c.Spaces {
			said[s] = true
		}
	}
	var open []int
	for s := 1; s <= p.Spaces; s++ {
		if !said[s] {
			open = append(open, s)
		}
	}
	return open
}

// PanelChange is what became of some spaces between two standings. Was or Now is "" where nothing
// was said of them.
type PanelChange struct {
	Spaces   []int
	Was, Now string
}

// ChangesSince compares the panel with how it stood before; nil stands for a panel of which
// nothing was known. The changes are in order of their spaces.
func (p *PanelStanding) ChangesSince(before *PanelStanding) []PanelChange {
	var old []PanelCircuit
	if before != nil {
		old = before.Standing
	}
	was := map[int]string{}
	for _, c := range old {
		for _, s := range c.Spaces {
			was[s] = c.key()
		}
	}
	now := map[int]string{}
	var changes []PanelChange
	for _, c := range p.Standing {
		changed := false
		for _, s := range c.Spaces {
			now[s] = c.key()
			changed = changed || was[s] != c.key()
		}
		if changed {
			changes = append(changes, PanelChange{Spaces: c.Spaces, Was: saidOf(old, c.Spaces), Now: c.Says()})
		}
	}
	for _, c := range old {
		var gone []int
		for _, s := range c.Spaces {
			if now[s] == "" {
				gone = append(gone, s)
			}
		}
		if len(gone) > 0 {
			changes = append(changes, PanelChange{Spaces: gone, Was: c.Says()})
		}
	}
	slices.SortStableFunc(changes, func(a, b PanelChange) int { return a.Spaces[0] - b.Spaces[0] })
	return changes
}

// key tells whether two circuits are the same to a reader of the directory.
func (c PanelCircuit) key() string {
	var b strings.Builder
	for _, s := range c.Spaces {
		b.WriteRune(rune(s))
	}
	return b.String() + "\x00" + c.Says()
}

// saidOf is what was said of any of the spaces, each circuit once.
func saidOf(old []PanelCircuit, spaces []int) string {
	var said []string
	for _, c := range old {
		if slices.ContainsFunc(c.Spaces, func(s int) bool { return slices.Contains(spaces, s) }) {
			said = append(said, c.Says())
		}
	}
	return strings.Join(slices.Compact(said), "; ")
}

// PanelKey is a panel's name as it is compared: "LP-1", "panel LP1" and "lp1" are one.
func PanelKey(name string) string {
	var b strings.Builder
	for _, w := range strings.Fields(strings.ToLower(name)) {
		if w == "panel" || w == "panelboard" || w == "board" || w == "the" {
			continue
		}
		for _, r := range w {
			if r != '-' && r != '.' && r != '_' && r != '#' && r != ':' {
				b.WriteRune(r)
			}
		}
	}
	return b.String()
}

// PanelNamed returns the index of the panel with the name, or -1.
func PanelNamed(panels []Panel, name string) int {
	key := PanelKey(name)
	if key == "" {
		return -1
	}
	return slices.IndexFunc(panels, func(p Panel) bool { return PanelKey(p.Name) == key })
}

// PanelHint names the panels there are, for a hint.
func PanelHint(panels []Panel) string {
	if len(panels) == 0 {
		return "give each panel a row: | Panel | Spaces | Phases | Volts | Main | Terminals | Feeder |"
	}
	var names []string
	for _, p := range panels[:min(len(panels), 12)] {
		names = append(names, p.Name)
	}
	return "panels: " + strings.Join(names, ", ")
}
