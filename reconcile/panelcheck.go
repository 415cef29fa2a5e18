package reconcile

import (
	"slices"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// panelFinding is a finding on a panel with the record of today it belongs to, -1 for none.
type panelFinding struct {
	finding.Finding
	record int
}

// say raises a finding about words at an origin.
func (b *panelBook) say(o origin, f finding.Finding) {
	b.found = append(b.found, panelFinding{f, o.record})
}

// sayOf raises a finding about a circuit, which the directory then carries too.
func (b *panelBook) sayOf(c *circuit, f finding.Finding) {
	c.Findings = append(c.Findings, f.Message)
	b.say(c.from, f)
}

// sayOfNeutral is sayOf for what is found of a shared neutral, which ends with the sharing.
func (b *panelBook) sayOfNeutral(c *circuit, f finding.Finding) {
	c.ofNeutral = append(c.ofNeutral, f.Message)
	b.sayOf(c, f)
}

// check looks at what was entered since the last check, as the panels stand now.
func (b *panelBook) check() {
	for _, c := range b.touched {
		if c.in.at[c.first()] != c {
			continue // replaced by a later word of the same day
		}
		if c.Use != notes.SpaceInUse {
			continue
		}
		b.checkProtection(c)
		b.checkDescription(c)
		b.checkNeutral(c)
	}
	for _, c := range b.again {
		if c.in.at[c.first()] == c && c.Use == notes.SpaceInUse {
			b.checkNeutral(c)
		}
	}
	b.touched, b.again = nil, nil
}

// first is the first space of a circuit, 0 when another took all of them.
func (c *circuit) first() int {
	if len(c.Spaces) == 0 {
		return 0
	}
	return c.Spaces[0]
}

// checkProtection holds breaker against conductor.
func (b *panelBook) checkProtection(c *circuit) {
	f := finding.Finding{Severity: finding.Warning, Rule: "panel/breaker", Span: c.from.Breaker}
	switch state, text := (trade.Protection{Breaker: c.Breaker, Conductor: c.Conductor, Terminal: c.in.Terminal}).Check(); state {
	case trade.ProtectionTooBig:
		f.Message, f.Hint = text, "check both on site, and write what is there; a load with a rule of its own, such as a motor, may be right as it is"
	case trade.ProtectionTerminals:
		f.Severity, f.Rule, f.Message = finding.Note, "panel/terminals", text
		f.Hint = "read it off the panel's label and write 60 or 75 under Terminals in panels.md"
	case trade.ProtectionUnknown:
		f.Rule, f.Message, f.Span = "panel/conductor", text, c.from.Conductor
		f.Hint = "sizes: " + trade.ConductorSizes
	default:
		return
	}
	b.sayOf(c, f)
}

// checkDescription asks whether a reader of the directory could tell the circuit from all others.
func (b *panelBook) checkDescription(c *circuit) {
	const hint = "write what it serves and where, like: "
	f := finding.Finding{Severity: finding.Note, Rule: "panel/description", Span: c.from.Serves, Hint: hint + strconv.Itoa(c.Spaces[0]) + ": prep counter receptacles, left"}
	if f.Message = trade.Description(c.Serves); f.Message != "" {
		b.sayOf(c, f)
		return
	}
	other := b.namesake(c)
	if other == nil {
		return
	}
	f.Message = spacesNamed(sortedSpaces(c, other)) + " have one description, " + quoted(c.Serves) + ": nobody can tell them apart (NEC 408.4(A))"
	f.Hint = "describe each space on a line of its own: " + strconv.Itoa(c.Spaces[0]) + ": what it serves"
	if other.from.Row != c.from.Row {
		f.Related = []finding.Related{{Message: "described the same here", Span: other.from.Row}}
	}
	b.sayOf(c, f)
}

func sortedSpaces(of ...*circuit) []int {
	var all []int
	for _, c := range of {
		all = append(all, c.Spaces...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// namesake returns another circuit with the same description, the first by space; of two entered
// together only the later one has it, so that the pair is named once.
func (b *panelBook) namesake(c *circuit) *circuit {
	var first *circuit
	for _, o := range c.in.at {
		if o == c || o.Use != notes.SpaceInUse || !strings.EqualFold(strings.TrimSpace(o.Serves), strings.TrimSpace(c.Serves)) {
			continue
		}
		if slices.Contains(b.touched, o) && o.Spaces[0] > c.Spaces[0] {
			continue
		}
		if first == nil || o.Spaces[0] < first.Spaces[0] {
			first = o
		}
	}
	return first
}

// checkNeutral looks at circuits that share a neutral: that they switch off together, and that they
// are on different legs.
func (b *panelBook) checkNeutral(c *circuit) {
	group := c.in.neutralOf(c.Spaces[0])
	if group == nil && !c.shared {
		return
	}
	members := []*circuit{c}
	for _, s := range group {
		if o := c.in.at[s]; o != nil && o.Use == notes.SpaceInUse && !slices.Contains(members, o) {
			members = append(members, o)
		}
	}
	slices.SortFunc(members, func(x, y *circuit) int { return x.Spaces[0] - y.Spaces[0] })
	key := c.in.Name + " " + andList(sortedSpaces(members...))
	if b.raised[key] {
		return
	}
	if b.raised == nil {
		b.raised = map[string]bool{}
	}
	b.raised[key] = true
	b.checkHandles(c, members)
	b.checkLegs(c, members)
}

// checkHandles asks whether one motion switches off all circuits of a multiwire circuit.
func (b *panelBook) checkHandles(c *circuit, members []*circuit) {
	const rule = " (NEC 210.4(B))"
	spaces := spacesNamed(sortedSpaces(members...))
	tied, separate, single := false, false, true
	for _, m := range members {
		tied = tied || m.Tied == notes.Yes
		separate = separate || m.Tied == notes.No
		single = single && m.poles == 1
	}
	f := finding.Finding{Span: c.from.Row, Hint: "fit a breaker with a pole for each, or a listed handle tie, and write: tied"}
	switch {
	case len(members) == 1 && len(c.Spaces) > 1 && !separate:
		return // one breaker
	case separate:
		f.Severity, f.Rule = finding.Warning, "panel/handles"
		f.Message = spaces + " share a neutral and their handles are separate: one motion must switch off both" + rule
	case tied:
		return
	case len(members) == 1:
		f.Severity, f.Rule = finding.Note, "panel/handles-unsaid"
		f.Message = spaces + " shares a neutral, and nothing says with which space"
		if others := c.in.neutralOf(c.Spaces[0]); len(others) > 1 {
			f.Message = spaces + " shares a neutral with " + andList(without(others, c.Spaces)) + ", and nothing says what is there and how they switch off" + rule
		}
		f.Hint = "write both: 16: front sign, 20A 1P, shares a neutral with 18, tied"
	case single:
		f.Severity, f.Rule = finding.Warning, "panel/handles"
		f.Message = spaces + " share a neutral on single-pole breakers, and no handle tie is written: one motion must switch off both" + rule
	default:
		f.Severity, f.Rule = finding.Note, "panel/handles-unsaid"
		f.Message = spaces + " share a neutral, and nothing says that they switch off together" + rule
		f.Hint = "write the breaker, like 20A 2P, or: handle tie"
	}
	b.sayOfNeutral(c, f)
}

// without returns the spaces of a list that are not in another.
func without(list, other []int) []int {
	return slices.DeleteFunc(slices.Clone(list), func(s int) bool { return slices.Contains(other, s) })
}

// checkLegs finds circuits on one neutral and one leg: there the currents add up.
func (b *panelBook) checkLegs(c *circuit, members []*circuit) {
	var spaces, amps []int
	known := true
	for _, m := range members {
		for _, s := range m.Spaces {
			spaces, amps = append(spaces, s), append(amps, m.amps)
		}
		known = known && m.amps > 0
	}
	for _, s := range without(c.in.neutralOf(c.Spaces[0]), spaces) {
		spaces, amps, known = append(spaces, s), append(amps, 0), false
	}
	most, on := trade.MostNeutral(spaces, amps, c.in.Phases)
	if len(on) < 2 {
		return
	}
	message := spacesNamed(on) + " stand on one leg"
	if leg := trade.Leg(on[0], c.in.Phases); leg != "" {
		message += ", " + leg + ","
	}
	message += " and share a neutral, which then carries the sum"
	if known {
		message += ", up to " + sumWords(on, spaces, amps) + strconv.Itoa(most) + " A" + b.carries(c)
	}
	b.sayOfNeutral(c, finding.Finding{
		Severity: finding.Warning, Rule: "panel/one-leg", Span: c.from.Row,
		Message: message + " (NEC Article 100, multiwire branch circuit, from memory; legs by space number: common practice, no source)",
		Hint:    "measure between the two hots: near 0 V shows one leg; then move one to the next row",
	})
}

// sumWords writes the working: "20 + 20 = ".
func sumWords(on, spaces, amps []int) string {
	var words []string
	for i, s := range spaces {
		if slices.Contains(on, s) {
			words = append(words, strconv.Itoa(amps[i]))
		}
	}
	return strings.Join(words, " + ") + " = "
}

// carries says what the neutral's conductor may carry, as far as its size is known.
func (b *panelBook) carries(c *circuit) string {
	conductor, ok := trade.ReadConductor(c.Conductor)
	if !ok {
		return ""
	}
	terminal := c.in.Terminal
	if terminal == 0 {
		terminal = 75
	}
	a := conductor.Ampacity(terminal)
	if a == 0 {
		return ""
	}
	return "; " + conductor.String() + " carries " + strconv.Itoa(a) + " A at " + strconv.Itoa(terminal) + " degrees C (Table 310.16)"
}
