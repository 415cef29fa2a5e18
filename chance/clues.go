package chance

import "strings"

// Clues are what holds of a case, gathered by name. The zero value is ready to use.
type Clues struct {
	Of    []Feature
	Named bool     // keep the names too, to fit weights by
	Names []string // only where Named
}

// Reset forgets all clues and keeps their memory.
func (c *Clues) Reset() { c.Of, c.Names = c.Of[:0], c.Names[:0] }

// Say adds a clue, whose name is the parts put together.
func (c *Clues) Say(parts ...string) {
	f := Name("")
	for _, p := range parts {
		f = f.Then(p)
	}
	c.Of = append(c.Of, f)
	if c.Named {
		c.Names = append(c.Names, strings.Join(parts, ""))
	}
}

// When adds a clue where it holds.
func (c *Clues) When(holds bool, name string) {
	if holds {
		c.Say(name)
	}
}
