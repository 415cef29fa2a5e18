package parse

import (
	"math/bits"

	"jobday/chance"
	"jobday/notes"
)

// Clues are what holds of a stretch of words, by name: what the model of kinds was fitted on and weighs.
type clues struct {
	of    []chance.Feature
	named bool     // keep the names too
	names []string // only where named
}

// say adds a clue, whose name is the parts put together.
func (c *clues) say(parts ...string) {
	f := chance.Name("")
	for _, p := range parts {
		f = f.Then(p)
	}
	c.of = append(c.of, f)
	if c.named {
		name := ""
		for _, p := range parts {
			name += p
		}
		c.names = append(c.names, name)
	}
}

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
	c.of, c.names = c.of[:0], c.names[:0]
	c.say()
	in := string(s.in)
	c.say("in ", in)
	c.say("rule ", string(s.rule.kind), " ", in)
	c.say("rule ", string(s.rule.kind), height(s.rule.score))
	if s.rule.next != "" {
		c.say("next ", string(s.rule.next), height(s.rule.lead))
	}
	for _, j := range candidates {
		if score, _ := j.judge(e); score > 0 {
			c.say("may ", string(j.kind), height(score))
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
		c.say("sign ", name)
		c.say("sign ", name, " in ", in)
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
		c.say("pair ", before, " ", as)
		before = as
		if i == 0 {
			c.say("first ", as, " in ", in)
		}
		if i == 2 {
			c.say("opens ", frame(&marks[0]), " ", frame(&marks[1]), " ", as)
		}
	}
	c.say("pair ", before, " >")
}

// word adds a word, how it begins and how it ends: words unknown so far often share that with known ones.
func (c *clues) word(low string) {
	c.say("word ", low)
	const root = 4
	if len(low) > root {
		c.say("root ", low[:root])
		c.say("ends ", low[len(low)-2:])
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
		c.say("words 2")
	case e.words <= 5:
		c.say("words 5")
	case e.words <= 10:
		c.say("words 10")
	case e.words <= 20:
		c.say("words 20")
	default:
		c.say("words many")
	}
	c.when(e.asks, "asks")
	c.when(e.headed, "headed")
	c.when(e.placed, "placed")
	c.when(e.others, "others")
	c.when(e.mended, "mended")
	c.when(e.used, "used")
	c.when(e.told, "told")
	c.when(e.thenWork, "then work")
	c.when(s.place, "place")
	c.when(s.behind, "behind a label")
	c.when(s.box, "box")
	if s.in == "" {
		c.say("above ", string(s.above))
	}
}

func (c *clues) when(holds bool, name string) {
	if holds {
		c.say(name)
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
	c.when(counted == 1, "counts one")
	c.when(counted > 1, "counts more")
	c.when(len(f.Time) > 0, "times")
	for i := range f.Time {
		r := &f.Time[i]
		c.when(len(r.People) > 0, "times of people")
		c.when(len(r.Spans) > 0, "times of the clock")
		c.when(r.Travel, "travel")
	}
	c.when(len(f.Readings) > 0, "readings")
	c.when(hasFigure(f.Readings), "readings with a figure")
	c.when(f.Fault.Named, "fault")
	c.when(len(f.Circuit.Spaces) > 0, "circuit")
	c.when(f.Price.Quoted != nil || f.Price.NotOver != nil, "price")
	c.when(f.Price.NoCharge, "no charge")
	if f.Consent.State != notes.NoConsent {
		c.say("consent ", consentNames[f.Consent.State])
		c.say("consent ", consentNames[f.Consent.State], " in ", in)
	}
	c.when(f.Consent.By != "", "consent by")
	c.progress(&f.Progress, in)
}

func (c *clues) progress(p *notes.Progress, in string) {
	c.when(p.Complete == notes.Yes, "complete")
	c.when(p.Complete == notes.No, "incomplete")
	c.when(p.Of != nil, "out of")
	c.when(p.NotDone, "not done")
	c.when(p.Blocked, "blocked")
	c.when(p.ByOthers, "by others")
	c.when(p.Dropped, "dropped")
	c.when(p.Beyond, "beyond")
	c.when(p.Placed, "put in place")
	c.when(p.Rest, "the rest")
	c.when(p.All, "all")
	if p.NotDone || p.Blocked || p.Complete == notes.No {
		c.say("not all in ", in)
	}
}

var consentNames = map[notes.ConsentState]string{notes.Asked: "asked", notes.Authorized: "authorized", notes.Declined: "declined"}

// signNames are the names of the signs, by bit.
var signNames = []string{
	"workVerb", "progressed", "somebody", "asked", "saidYes", "saidNo", "priceTold", "notBooked", "faulty", "faultPhrase", "foundIt", "leftOver",
	"needs", "questioned", "delivered", "heldUp", "weathered", "secured", "otherTrade", "machine", "instructed", "tested", "instrument", "clockSpan",
	"looseSpan", "duration", "named", "counted", "measured", "thing", "pronoun", "byOthers", "negated", "soft", "circuitry", "travelled", "spoken",
	"verbal", "vague", "outOf", "whole", "mealBreak", "clockIn", "clockOut", "allWell", "toPrice", "brokeDown",
}
