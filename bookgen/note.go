package bookgen

import (
	"fmt"
	"strings"

	"jobday/notes"
)

// A style is how one writer marks sections and entries.
type style struct {
	heading func(word string) string
	bullet  string
}

var styles = []style{
	{func(w string) string { return "## " + w }, "- "},
	{func(w string) string { return "**" + strings.ToLower(w) + "**" }, "* "},
	{func(w string) string { return strings.ToLower(w) + ":" }, ""},
}

// note writes one day. One in five notes leaves sections out, one in five is written in each of
// the untidy styles.
func (g *gen) note(date notes.Date) {
	st := styles[0]
	if n := g.r.IntN(5); n < 2 {
		st = styles[n+1]
	}
	g.line("---\ndate: %s\ncrew: [%s]\n---\n", date, strings.Join(g.crew, ", "))
	for _, n := range g.r.Perm(len(prose))[:3+g.r.IntN(3)] {
		g.line("%s", prose[n])
	}
	g.line("")
	for _, s := range sections {
		if s.often < g.r.IntN(100) {
			continue
		}
		g.line("%s", st.heading(g.pick(s.names)))
		for n := range s.least + g.r.IntN(s.more+1) {
			g.line("%s%s", st.bullet, s.entry(g, n))
		}
		g.line("")
	}
}

// A section is how one part of a note is made: its names, how often it is there in 100 notes, how
// many entries it has.
type section struct {
	names       []string
	often       int
	least, more int
	entry       func(g *gen, n int) string // the n-th of its section, from 0
}

var sections = []section{
	{[]string{"Done", "Work", "Completed"}, 100, 5, 3, (*gen).done},
	{[]string{"Materials", "Parts", "Used"}, 95, 5, 3, (*gen).material},
	{[]string{"Extras"}, 60, 1, 1, (*gen).extra},
	{[]string{"Deficiencies"}, 60, 1, 2, from(faults)},
	{[]string{"Tests"}, 70, 2, 2, (*gen).test},
	{[]string{"Circuits"}, 60, 1, 2, (*gen).circuit},
	{[]string{"Time"}, 100, 2, 0, (*gen).time},
	{[]string{"Left"}, 70, 1, 2, from(leftovers)},
	{[]string{"Questions"}, 40, 1, 0, from(questions)},
	{[]string{"Deliveries"}, 40, 1, 0, from(deliveries)},
	{[]string{"Equipment"}, 30, 1, 0, from(equipment)},
	{[]string{"Delays"}, 40, 1, 0, from(delays)},
	{[]string{"Instructions"}, 40, 1, 0, from(instructions)},
	{[]string{"Safety"}, 50, 1, 1, from(safety)},
	{[]string{"Conditions"}, 60, 1, 0, from(conditions)},
	{[]string{"Subcontractors"}, 20, 1, 0, from(subs)},
}

func from(words []string) func(*gen, int) string {
	return func(g *gen, _ int) string { return g.pick(words) }
}

func (g *gen) done(int) string {
	w := g.work[g.r.IntN(len(g.work))]
	n := 1 + g.r.IntN(3)
	low := strings.ToLower(w.what)
	switch g.r.IntN(6) {
	case 0:
		return fmt.Sprintf("%s: %d more, %s", w.label, n, g.pick(remarks))
	case 1:
		return fmt.Sprintf("%d of %d %s", n, w.qty, low)
	case 2:
		return fmt.Sprintf("%s roughed, not trimmed, %d h %s", low, n, g.crew[0])
	case 3:
		return fmt.Sprintf("%s; %d in, %s", low, n, g.pick(remarks))
	case 4:
		return fmt.Sprintf("worked on %s, %d' of %s", low, 10+g.r.IntN(90), g.pick(lengths))
	}
	return fmt.Sprintf("%s: started, %s", w.label, g.pick(remarks))
}

func (g *gen) material(int) string {
	n := 2 + g.r.IntN(23)
	switch g.r.IntN(6) {
	case 0:
		return fmt.Sprintf("%d ft %s", 5+g.r.IntN(200), g.pick(lengths))
	case 1:
		return fmt.Sprintf("%s, %d feet, and %d %s", g.pick(lengths), 5+g.r.IntN(200), n, g.pick(pieces))
	case 2:
		return fmt.Sprintf("%d %s", n+1, g.pick(pieces))
	case 3:
		return fmt.Sprintf("%s x%d", g.pick(pieces), n)
	case 4:
		return fmt.Sprintf("%s %s", g.pick(numbers), g.pick(pieces))
	}
	return fmt.Sprintf("%d @ %s / %d %s", n, g.pick(pieces), n+1, g.pick(pieces))
}

func (g *gen) extra(int) string {
	return fmt.Sprintf("%s; %d min, %s; 2 %s, %d ft %s; %s", g.pick(extras), 15*(1+g.r.IntN(8)),
		g.crew[g.r.IntN(2)], g.pick(pieces), 4+g.r.IntN(40), g.pick(lengths), g.pick(consents))
}

func (g *gen) test(int) string {
	switch g.r.IntN(4) {
	case 0:
		return fmt.Sprintf("GFCI %s: tripped at %d.%d mA, %d ms, reset ok", g.pick(rooms), 4+g.r.IntN(2), g.r.IntN(10), 18+g.r.IntN(20))
	case 1:
		return fmt.Sprintf("L1-N %d.%d V, L2-N %d, L1-L2 %d", 118+g.r.IntN(5), g.r.IntN(10), 118+g.r.IntN(5), 238+g.r.IntN(6))
	case 2:
		return fmt.Sprintf("megged the feeder to %s, >500 Meg", g.pick(rooms))
	}
	return fmt.Sprintf("torqued lugs %s %d in-lb", g.pick(rooms), 35+g.r.IntN(240))
}

func (g *gen) circuit(int) string {
	n := 1 + 2*g.r.IntN(18)
	if g.r.IntN(2) == 0 {
		return fmt.Sprintf("%d,%d: %s, 30A 2P, 10 AWG", n, n+2, g.pick(rooms))
	}
	return fmt.Sprintf("%d/%d: %s and %s, share a neutral", n, n+2, g.pick(rooms), g.pick(rooms))
}

func (g *gen) time(n int) string { return fmt.Sprintf(g.pick(shifts), g.crew[n]) }
