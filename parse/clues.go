package parse

import (
	"iter"
	"math/bits"

	"jobday/chance"
	"jobday/notes"
)

// clues are what holds of a stretch of words, by name: what the model of kinds was fitted on and weighs.
type clues struct{ chance.Clues }

// setting is what stands around a stretch of words.
type setting struct {
	in     notes.Section
	rule   verdict // what the judges say
	place  bool    // below the name of a place
	behind bool    // behind a scope label
	box    bool    // behind a box
	above  notes.Kind
}

// gather puts together the clues of a stretch of words.
func (c *clues) gather(marks []mark, e evidence, s setting) {
	c.Reset()
	c.Say()
	in := string(s.in)
	c.Say("in ", in)
	c.Say("rule ", string(s.rule.kind), " ", in)
	c.Say("rule ", string(s.rule.kind), height(s.rule.score))
	if s.rule.next != "" {
		c.Say("next ", string(s.rule.next), height(s.rule.lead))
	}
	for _, j := range candidates {
		if score, _ := j.judge(e); score > 0 {
			c.Say("may ", string(j.kind), height(score))
		}
	}
	c.signs(e.signs, in)
	c.words(marks, in)
	c.shape(e, s)
	if e.facts != nil {
		c.facts(e.facts, in)
	}
}

// height says roughly how high a score is.
func height(score int) string {
	switch {
	case score >= strongScore:
		return " high"
	case score >= weakScore:
		return " middling"
	}
	return " low"
}

// size says roughly how many words there are.
func size(words int) string {
	switch {
	case words <= 2:
		return " 2"
	case words <= 5:
		return " 5"
	case words <= 10:
		return " 10"
	case words <= 20:
		return " 20"
	}
	return " many"
}

func (c *clues) signs(s sign, in string) {
	for one := range s.each() {
		c.Say("sign ", one.String())
		c.Say("sign ", one.String(), " in ", in)
	}
}

// words adds each word, each pair of neighbours and how the words begin and end. Numbers, people and things of the
// trade count as such in pairs: what matters there is the frame they stand in.
func (c *clues) words(marks []mark, in string) {
	const most = 40 // of a longer stretch, the first
	before := "<"
	for i := range marks[:min(len(marks), most)] {
		m := &marks[i]
		as := frame(m)
		if m.kind == wordMark {
			c.word(m.low)
		}
		c.Say("pair ", before, " ", as)
		before = as
		if i == 0 {
			c.Say("first ", as, " in ", in)
		}
		if i == 2 {
			c.Say("opens ", frame(&marks[0]), " ", frame(&marks[1]), " ", as)
		}
	}
	c.Say("pair ", before, " >")
}

// word adds a word, how it begins and how it ends: words unknown so far often share that with known ones.
func (c *clues) word(low string) {
	c.Say("word ", low)
	const root = 4
	if len(low) > root {
		c.Say("root ", low[:root])
		c.Say("ends ", low[len(low)-2:])
	}
}

// frame is how a mark counts beside others.
func frame(m *mark) string {
	switch {
	case m.kind == numberMark:
		return "#"
	case m.kind == signMark:
		return m.low
	case m.sign.has(named):
		return "@"
	case m.sign.has(thing):
		return "*"
	}
	return m.low
}

// shape adds how the words are built and where they stand.
func (c *clues) shape(e evidence, s setting) {
	c.Say("words", size(e.words))
	c.When(e.asks, "asks")
	c.When(e.headed, "headed")
	c.When(e.placed, "placed")
	c.When(e.others, "others")
	c.When(e.mended, "mended")
	c.When(e.used, "used")
	c.When(e.told, "told")
	c.When(e.thenWork, "then work")
	c.When(s.place, "place")
	c.When(s.behind, "behind a label")
	c.When(s.box, "box")
	if s.in == "" {
		c.Say("above ", string(s.above))
	}
}

// facts adds what the words were read to say.
func (c *clues) facts(f *notes.Facts, in string) {
	counted := 0
	for i := range f.Items {
		if f.Items[i].Qty.Written() && f.Items[i].Name != "" {
			counted++
		}
	}
	c.When(counted == 1, "counts one")
	c.When(counted > 1, "counts more")
	c.When(len(f.Time) > 0, "times")
	for i := range f.Time {
		r := &f.Time[i]
		c.When(len(r.People) > 0, "times of people")
		c.When(len(r.Spans) > 0, "times of the clock")
		c.When(r.Travel, "travel")
	}
	c.When(len(f.Readings) > 0, "readings")
	c.When(hasFigure(f.Readings), "readings with a figure")
	c.When(f.Fault.Named, "fault")
	c.When(len(f.Circuit.Spaces) > 0, "circuit")
	c.When(f.Price.Quoted != nil || f.Price.NotOver != nil, "price")
	c.When(f.Price.NoCharge, "no charge")
	if f.Consent.State != notes.NoConsent {
		c.Say("consent ", f.Consent.State.String())
		c.Say("consent ", f.Consent.State.String(), " in ", in)
	}
	c.When(f.Consent.By != "", "consent by")
	c.progress(&f.Progress, in)
}

func (c *clues) progress(p *notes.Progress, in string) {
	c.When(p.Complete == notes.Yes, "complete")
	c.When(p.Complete == notes.No, "incomplete")
	c.When(p.Of != nil, "out of")
	c.When(p.NotDone, "not done")
	c.When(p.Blocked, "blocked")
	c.When(p.ByOthers, "by others")
	c.When(p.Dropped, "dropped")
	c.When(p.Beyond, "beyond")
	c.When(p.Placed, "put in place")
	c.When(p.Rest, "the rest")
	c.When(p.All, "all")
	if p.NotDone || p.Blocked || p.Complete == notes.No {
		c.Say("not all in ", in)
	}
}

// each goes over the signs of a sum, one by one.
func (s sign) each() iter.Seq[sign] {
	return func(yield func(sign) bool) {
		for left := s; left != 0; left &= left - 1 {
			if !yield(left & -left) {
				return
			}
		}
	}
}

// String returns the name of a single sign.
func (s sign) String() string { return signNames[bits.TrailingZeros64(uint64(s))] }

// signNames are the names of the signs, by bit.
var signNames = []string{
	"workVerb", "progressed", "somebody", "asked", "saidYes", "saidNo", "priceTold", "notBooked", "faulty", "faultPhrase", "foundIt", "leftOver",
	"needs", "questioned", "delivered", "heldUp", "weathered", "secured", "otherTrade", "machine", "instructed", "tested", "instrument", "clockSpan",
	"looseSpan", "duration", "named", "counted", "measured", "thing", "pronoun", "byOthers", "negated", "soft", "circuitry", "travelled", "spoken",
	"verbal", "vague", "outOf", "whole", "mealBreak", "clockIn", "clockOut", "allWell", "toPrice", "brokeDown",
}

// gatherJoint puts together the clues of a place where two sides meet; rest is all that stands behind it.
func (c *clues) gatherJoint(m meeting, in notes.Section, left, next side, rest []mark) {
	c.Reset()
	c.Say()
	how, l, n := m.how, string(left.kind), string(next.kind)
	c.Say("at ", how)
	c.Say("at ", how, " in ", string(in))
	c.Say("rule ", m.rule, " at ", how)
	c.Say("left ", l, height(left.score))
	c.Say("next ", n, height(next.score))
	c.Say("next ", n, " at ", how)
	c.Say("kinds ", l, " ", n)
	c.Say("kinds ", l, " ", n, " rule ", m.rule)
	c.Say("of", size(m.of))
	c.Say("of", size(m.of), " at ", how)
	c.When(m.full, "full")
	c.When(m.even, "even")
	c.When(m.full && m.even, "full and even")
	c.When(m.full && m.even && m.small, "full and even and small")
	c.When(!m.full && m.even, "even but not full")
	if m.how == "line" {
		c.When(!m.full, "not full behind "+left.edge)
		c.When(m.full, "full behind "+left.edge)
	}
	c.When(m.indented, "indented")
	c.When(m.small, "small")
	all := sideOf(rest, in)
	c.Say("rest ", string(all.kind), height(all.score))
	c.Say("kinds ", l, " rest ", string(all.kind))
	for s := range next.signs.each() {
		name := s.String()
		c.Say("next has ", name)
		c.Say("next has ", name, " behind ", l)
		if left.signs.has(s) {
			c.Say("both have ", name)
		}
	}
	for s := range left.signs.each() {
		c.Say("left has ", s.String())
	}
	c.Say("left", size(left.words))
	c.Say("next", size(next.words))
	c.Say("left ends ", left.edge, " at ", how)
	first, second := ">", ">"
	if len(rest) > 0 {
		first = frame(&rest[0])
	}
	if len(rest) > 1 {
		second = frame(&rest[1])
	}
	c.Say("opens ", first)
	c.Say("opens ", first, " at ", how)
	c.Say("opens ", first, " ", second)
	c.Say("opens ", first, " behind ", l)
	c.Say("across ", left.edge, " ", first)
}
