package reconcile

import (
	"slices"
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/trade"
)

// enter enters the words about a circuit in its panel. A later word on a space replaces the one
// before it; where both cannot be true, or nothing says that the earlier one is gone, it is found.
func (b *panelBook) enter(p *panel, w notes.CircuitWords, o origin) {
	p.stale = true
	spaces := b.inside(p, w.Spaces, o)
	if len(spaces) == 0 {
		return
	}
	use, serves := trade.UseOf(w.Serves)
	breaker, _ := trade.ReadBreaker(w.Breaker)
	partners := p.partners(w.Was)
	old := b.vacate(p, w.Was)
	if len(partners) > 0 { // what moves keeps its neutral, and the legs are looked at anew
		p.share(append(slices.Clone(spaces), partners...))
		for _, s := range partners {
			if c := p.at[s]; c != nil {
				b.again = append(b.again, c)
			}
		}
	}
	if w.Shared {
		p.share(append(slices.Clone(spaces), w.With...))
	}
	for _, group := range b.breakers(p, spaces, w, use, o) {
		c := &circuit{in: p, poles: breaker.Poles, amps: breaker.Amps, shared: w.Shared, from: o}
		c.PanelCircuit = notes.PanelCircuit{
			Spaces: group, Use: use, Serves: serves, Breaker: w.Breaker, Conductor: w.Conductor, Tied: w.Tied,
			Since: o.date, From: []notes.Source{notes.SourceOf(o.Row)},
		}
		if old != nil {
			c.inherit(old)
		}
		b.place(c, w)
	}
}

// inside leaves out spaces the panel does not have, and those said twice.
func (b *panelBook) inside(p *panel, spaces []int, o origin) []int {
	var in, out []int
	for _, s := range spaces {
		switch {
		case s < 1 || s > notes.MaxSpaces || p.Spaces > 0 && s > p.Spaces:
			out = append(out, s)
		case !slices.Contains(in, s):
			in = append(in, s)
		}
	}
	if len(out) > 0 {
		b.say(o, finding.Finding{
			Severity: finding.Error, Rule: "panel/space-outside", Span: o.Space,
			Message: spacesNamed(out) + verb(out, " is", " are") + " outside the panel " + p.Name + ", which has " + strconv.Itoa(p.Spaces) + " spaces",
			Hint:    "write the space as it is numbered on the panel, 1 to " + strconv.Itoa(p.Spaces) + ", or correct the panel's row",
		})
	}
	slices.Sort(in)
	return in
}

// spacesNamed writes "space 7", "spaces 2 and 4".
func spacesNamed(spaces []int) string {
	if len(spaces) == 1 {
		return "space " + strconv.Itoa(spaces[0])
	}
	return "spaces " + andList(spaces)
}

// verb is the first word for one space and the second for several.
func verb(spaces []int, one, several string) string {
	if len(spaces) == 1 {
		return one
	}
	return several
}

// andList writes "2", "2 and 4", "1, 3 and 5".
func andList(spaces []int) string {
	var words []string
	for _, s := range spaces {
		words = append(words, strconv.Itoa(s))
	}
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// partners returns the spaces that share a neutral with one of those given, without those.
func (p *panel) partners(spaces []int) []int {
	var out []int
	for _, s := range spaces {
		for _, o := range p.neutralOf(s) {
			if !slices.Contains(spaces, o) && !slices.Contains(out, o) {
				out = append(out, o)
			}
		}
	}
	return out
}

// vacate takes out what stood in spaces a circuit has left, and returns the first of it.
func (b *panelBook) vacate(p *panel, spaces []int) *circuit {
	var first *circuit
	for _, s := range spaces {
		if c := p.at[s]; c != nil {
			if first == nil {
				first = c
			}
			p.remove(c)
		}
	}
	return first
}

// remove takes a circuit out of its spaces.
func (p *panel) remove(c *circuit) {
	for _, s := range c.Spaces {
		if p.at[s] == c {
			delete(p.at, s)
			p.part(s)
		}
	}
}

// breakers parts spaces into those of one breaker each. Where no poles are said, spaces one below
// the other that share no neutral are taken for one breaker's (common practice, no source).
func (b *panelBook) breakers(p *panel, spaces []int, w notes.CircuitWords, use notes.SpaceUse, o origin) [][]int {
	breaker, _ := trade.ReadBreaker(w.Breaker)
	poles := breaker.Poles
	if poles == 0 && use == notes.SpaceInUse && !w.Shared && len(spaces) <= 3 && trade.Adjacent(spaces) {
		poles = len(spaces)
	}
	switch {
	case poles < 2:
		return each(spaces)
	case len(spaces) == 1: // the other poles stand below the first
		for len(spaces) < poles {
			next := spaces[len(spaces)-1] + 2
			if p.Spaces > 0 && next > p.Spaces || next > notes.MaxSpaces {
				break
			}
			spaces = append(spaces, next)
		}
	case len(spaces)%poles == 0 && len(spaces) > poles:
		return chunks(spaces, poles)
	}
	if len(spaces) != poles || !trade.Adjacent(spaces) {
		b.say(o, finding.Finding{
			Severity: finding.Warning, Rule: "panel/poles", Span: o.Space,
			Message: "a " + strconv.Itoa(poles) + "-pole breaker takes " + strconv.Itoa(poles) +
				" spaces one below the other on one side, not " + andList(spaces),
			Hint: "write the spaces of each breaker on a line of its own, like 2,4: oven, 30A 2P",
		})
	}
	return [][]int{spaces}
}

func each(spaces []int) [][]int {
	var out [][]int
	for _, s := range spaces {
		out = append(out, []int{s})
	}
	return out
}

// chunks parts spaces into breakers of so many poles, side by side of the panel.
func chunks(spaces []int, poles int) [][]int {
	bySide := slices.Clone(spaces)
	slices.SortStableFunc(bySide, func(a, b int) int { return b%2 - a%2 })
	var out [][]int
	for len(bySide) >= poles {
		group := slices.Clone(bySide[:poles])
		slices.Sort(group)
		out, bySide = append(out, group), bySide[poles:]
	}
	return out
}

// place puts a circuit into its spaces and settles what stood there.
func (b *panelBook) place(c *circuit, w notes.CircuitWords) {
	p := c.in
	for _, s := range slices.Clone(c.Spaces) {
		old := p.at[s]
		if old == nil || old == c {
			continue
		}
		b.settle(c, old, w)
	}
	for _, s := range c.Spaces {
		if old := p.at[s]; old != nil { // what another word left of it
			old.Spaces = slices.DeleteFunc(old.Spaces, func(x int) bool { return x == s })
		}
		p.at[s] = c
	}
	b.touched = append(b.touched, c)
}

// settle says what becomes of the circuit that stood in a space another takes.
func (b *panelBook) settle(c, old *circuit, w notes.CircuitWords) {
	p := c.in
	alike := c.Serves == "" && c.Use == notes.SpaceInUse || trade.SameLoad(c.Serves, old.Serves)
	switch {
	case old.Use == notes.SpaceReserved && c.Use == notes.SpaceInUse:
		if !alike && old.Serves != "" && !w.Instead {
			b.say(c.from, finding.Finding{
				Severity: finding.Warning, Rule: "panel/space-reserved", Span: c.from.Space,
				Message: "space " + strconv.Itoa(c.Spaces[0]) + " was held for " + quoted(old.Serves) + " and now takes " + quoted(c.Serves),
				Hint:    "use another space, or write that it takes its place: " + strconv.Itoa(c.Spaces[0]) + ": " + c.Serves + ", instead",
				Related: []finding.Related{{Message: "held here", Span: old.from.Row}},
			})
		}
	case old.Use == notes.SpaceInUse && c.Use == notes.SpaceInUse && alike:
		c.inherit(old)
		if len(c.Spaces) < len(old.Spaces) && c.poles == 0 || len(c.Spaces) == 1 && c.poles == len(old.Spaces) {
			c.Spaces = slices.Clone(old.Spaces) // "2: proofing cabinet" of the breaker in 2 and 4
		}
	case old.Use == notes.SpaceInUse && c.Use == notes.SpaceInUse:
		if b.clash(c, old, w) {
			return // what is left of the earlier circuit stays until somebody says
		}
	case old.Use == notes.SpaceInUse && len(old.Spaces) > len(c.Spaces) && c.poles == 0:
		c.Spaces = slices.Clone(old.Spaces) // a breaker goes as a whole
	case old.Use == notes.SpaceSpare && c.Breaker == "" && slices.Equal(old.Spaces, c.Spaces) && c.Use == notes.SpaceInUse:
		c.Breaker, c.amps, c.poles = old.Breaker, old.amps, old.poles
	}
	p.drop(old, c)
}

// drop takes a circuit out for another, which keeps the neutral when it is the same load.
func (p *panel) drop(old, c *circuit) {
	for _, s := range old.Spaces {
		if p.at[s] != old {
			continue
		}
		delete(p.at, s)
		if !c.shared && (c.Use != notes.SpaceInUse || !trade.SameLoad(c.Serves, old.Serves)) {
			p.part(s)
		}
	}
}

// clash reports two circuits in one space, unless the words say that one took the place of the
// other, or a later note corrects an earlier one of exactly these spaces.
func (b *panelBook) clash(c, old *circuit, w notes.CircuitWords) bool {
	corrects := !old.from.layout && old.from.date != c.from.date && slices.Equal(old.Spaces, c.Spaces)
	sameEntry := !c.from.layout && old.from.entry == c.from.entry && old.from.record == c.from.record && old.from.date == c.from.date
	if w.Instead || corrects || sameEntry {
		return false
	}
	both := slices.DeleteFunc(slices.Clone(c.Spaces), func(s int) bool { return !slices.Contains(old.Spaces, s) })
	b.say(c.from, finding.Finding{
		Severity: finding.Warning, Rule: "panel/space-twice", Span: c.from.Space,
		Message: "two circuits in one space: " + spacesNamed(both) + verb(both, " holds ", " hold ") + quoted(old.Serves) + " already, and now " + quoted(c.Serves),
		Hint:    "write what became of the first, like: " + strconv.Itoa(both[0]) + ": " + c.Serves + ", replaces " + old.Serves,
		Related: []finding.Related{{Message: "the earlier one", Span: old.from.Row}},
	})
	return true
}

// inherit takes over from an earlier word on the same circuit what this one does not say.
func (c *circuit) inherit(old *circuit) {
	if c.Serves == "" {
		c.Serves = old.Serves
	}
	if c.Breaker == "" {
		c.Breaker, c.amps, c.poles = old.Breaker, old.amps, old.poles
	}
	if c.Conductor == "" {
		c.Conductor = old.Conductor
	}
	if c.Tied == notes.Unsaid {
		c.Tied = old.Tied
	}
	c.shared = c.shared || old.shared
	for _, f := range old.From {
		if !slices.Contains(c.From, f) {
			c.From = append(c.From, f)
		}
	}
}
