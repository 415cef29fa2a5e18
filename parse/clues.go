package parse

import (
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

func (c *clues) signs(s sign, in string) {
	for left := uint64(s); left != 0; left &= left - 1 {
		name := signNames[bits.TrailingZeros64(left)]
		c.Say("sign ", name)
		c.Say("sign ", name, " in ", in)
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
	switch {
	case e.words <= 2:
		c.Say("words 2")
	case e.words <= 5:
		c.Say("words 5")
	case e.words <= 10:
		c.Say("words 10")
	case e.words <= 20:
		c.Say("words 20")
	default:
		c.Say("words many")
	}
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

// signNames are the names of the signs, by bit.
var signNames = []string{
	"workVerb", "progressed", "somebody", "asked", "saidYes", "saidNo", "priceTold", "notBooked", "faulty", "faultPhrase", "foundIt", "leftOver",
	"needs", "questioned", "delivered", "heldUp", "weathered", "secured", "otherTrade", "machine", "instructed", "tested", "instrument", "clockSpan",
	"looseSpan", "duration", "named", "counted", "measured", "thing", "pronoun", "byOthers", "negated", "soft", "circuitry", "travelled", "spoken",
	"verbal", "vague", "outOf", "whole", "mealBreak", "clockIn", "clockOut", "allWell", "toPrice", "brokeDown",
}
