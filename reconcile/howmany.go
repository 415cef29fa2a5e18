package reconcile

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"sync"

	"jobday/chance"
	"jobday/notes"
)

// countsText is the fitted model of counts: what speaks for an entry doing so many of a line. TestFitCounts writes it.
//
//go:embed counts.model
var countsText string

var builtInCounts = sync.OnceValue(func() *chance.Model { return chance.MustParse("counts.model", countsText) })

// A countOption is one answer to how many of a line an entry did: a number, or that it does not say.
type countOption struct {
	of    notes.Decimal
	said  bool
	clues chance.Clues
}

// A counting weighs how many of a line an entry did: every number it holds, what they add up to, how long its lists
// are, and all and what is left of what is booked.
type counting struct {
	words   []countWord
	options []countOption
	numbers []int // places among words of those that may count
	off     bool  // the words take some off from what was done
	named   bool
}

// option returns the option of a number, a new one where it has not been named.
func (c *counting) option(of notes.Decimal, said bool) *countOption {
	for i := range c.options {
		if o := &c.options[i]; o.said == said && o.of.Equal(of) {
			return o
		}
	}
	if len(c.options) < cap(c.options) {
		c.options = c.options[:len(c.options)+1]
	} else {
		c.options = append(c.options, countOption{})
	}
	o := &c.options[len(c.options)-1]
	o.of, o.said = of, said
	o.clues.Reset()
	o.clues.Named = c.named
	return o
}

func (c *counting) number(n int) *countOption { return c.option(notes.Int(n), true) }

// mostCounted is the highest number that is weighed, mostCountWords the longest text.
const (
	mostCounted    = 100_000
	mostCountWords = 120
)

// howMany weighs how many of line i an entry did, given what the rules say.
func (d *day) howMany(r *read, i int, rule count) (count, bool) {
	c, line := &d.counting, &d.in.Job.Lines[i]
	c.off = false
	if len(r.lines) > 1 || converts(r, line) || partOfBooked(r, line, rule) {
		return rule, false
	}
	c.words = countWords(c.words, &r.query, &d.index.lines[i].query)
	c.takeOff()
	if len(c.words) > mostCountWords || c.beyond(rule, line) {
		return rule, false
	}
	c.options, c.named = c.options[:0], d.in.OnCounts != nil
	c.leaveOut(r)
	before := d.standing.lines[i].toDate.Add(d.lines[i].today)
	c.option(notes.Decimal{}, false).clues.Say("says no number")
	c.eachNumber(line)
	c.byRule(rule)
	c.sums()
	c.lists(r, line)
	c.parts(line, before)
	c.booked(r, line, before)
	c.lessOff(r, line, before)
	c.single(r, line)
	c.values(line, before)
	c.nothing(line)
	c.told(r, line)
	return c.best(d, r, i)
}

// partOfBooked reports whether the words say how many out of as many as are booked, "1 of 2", which leaves nothing to
// weigh. "All 12" may go on with "but 2".
func partOfBooked(r *read, line *notes.ScopeLine, rule count) bool {
	of := r.facts.Progress.Of
	return rule.how == byShare && of != nil && of.Equal(line.Qty.Value) && rule.of.Cmp(*of) < 0
}

// eachNumber says of every number where it stands.
func (c *counting) eachNumber(line *notes.ScopeLine) {
	c.numbers = c.numbers[:0]
	for k := range c.words {
		if c.words[k].counts(line.Qty.Unit) {
			c.numbers = append(c.numbers, k)
		}
	}
	measured := slices.ContainsFunc(c.numbers, func(k int) bool { return c.words[k].unit != "" })
	nth := 0
	for k := range c.words {
		w := &c.words[k]
		if w.n == 0 || w.n > mostCounted || w.through > 0 || w.inside == whatRemains || w.inside == takenOff {
			continue
		}
		o := c.number(w.n)
		say := func(parts ...string) { o.clues.Say(parts...) }
		if w.inside != "" {
			say("a number in ", w.inside)
		} else if !w.counts(line.Qty.Unit) {
			say("a number of ", w.unit, ", booked in ", string(line.Qty.Unit))
		} else {
			nth++
			unit := "bare"
			switch {
			case w.unit != "":
				unit = "with its unit"
			case measured:
				unit = "bare, another has the unit"
			}
			say("a number, ", unit)
			say("a number, ", unit, " of ", string(line.Qty.Unit))
			say("number ", few(nth), " of ", few(len(c.numbers)))
			if nth == len(c.numbers) && nth > 1 {
				say("the last number")
			}
		}
		c.around(o, k, "")
		if notes.Int(w.n).Equal(line.Qty.Value) && len(c.numbers) > 1 {
			say("all booked, one of several numbers, behind ", c.as(k-1))
			say("all booked, number ", few(nth), " of ", few(len(c.numbers)))
			say("all booked, before ", c.as(k+1))
		}
		if w.n >= roomNumbers {
			say("as high as rooms")
		}
	}
}

// byRule says what the rules read, and how: they go wrong oftener where there are more numbers.
func (c *counting) byRule(rule count) {
	numbers := few(len(c.numbers))
	if !rule.said {
		none := &c.options[0]
		none.clues.Say("none by rule")
		none.clues.Say("none by rule of ", numbers, " numbers")
		return
	}
	o := c.option(rule.of, true)
	o.clues.Say("by rule")
	o.clues.Say("by rule ", string(rule.how))
	o.clues.Say("by rule ", string(rule.how), " of ", numbers, " numbers")
	for k := range c.words {
		if w := &c.words[k]; w.n > 0 && rule.of.Equal(notes.Int(w.n)) {
			o.clues.Say("by rule, behind ", c.as(k-1))
			o.clues.Say("by rule, before ", c.as(k+1))
			return
		}
	}
}

// around says what stands beside word k.
func (c *counting) around(o *countOption, k int, what string) {
	before, before2, after, after2 := c.as(k-1), c.as(k-2), c.as(k+1), c.as(k+2)
	o.clues.Say(what, "behind ", before)
	o.clues.Say(what, "behind ", before2, " ", before)
	o.clues.Say(what, "before ", after)
	o.clues.Say(what, "before ", after, " ", after2)
	o.clues.Say(what, "between ", before, " and ", after)
	o.clues.Say(what, "roughly between ", c.roughly(k-1), " and ", c.roughly(k+1))
	o.clues.Say(what, "roughly before ", c.roughly(k+1), " ", c.roughly(k+2), " ", c.roughly(k+3))
	o.clues.Say(what, "roughly behind ", c.roughly(k-3), " ", c.roughly(k-2), " ", c.roughly(k-1))
	if k > 0 && c.words[k-1].as != c.words[k-1].text {
		o.clues.Say(what, "behind word ", c.words[k-1].text)
	}
	if k+1 < len(c.words) && c.words[k+1].as != c.words[k+1].text {
		o.clues.Say(what, "before word ", c.words[k+1].text)
	}
}

func (c *counting) as(k int) string {
	switch {
	case k < 0:
		return "the beginning"
	case k >= len(c.words):
		return "the end"
	}
	return c.words[k].as
}

// roughly says what class a word is of.
func (c *counting) roughly(k int) string {
	as := strings.TrimPrefix(c.as(k), "own ")
	switch {
	case as == "thing", as == "things", as == "place", as == "verb", as == "the beginning", as == "the end", as == "#":
		return as
	case as == "word":
		return "a word"
	case strings.HasPrefix(as, "label"):
		return "label"
	case strings.HasPrefix(as, "# "):
		return "a measure"
	case len(as) == 1 && (as[0] < 'a' || as[0] > 'z'):
		return as
	}
	switch as {
	case "in", "on", "at", "by", "to", "of", "for", "from", "over", "under", "with", "w", "per", "each", "and", "n", "not", "no", "left", "still", "more", "another", "plus", "then", "so", "makes", "yesterday", "tomorrow", "other", "all", "thats", "that's", "total", "today":
		return as
	}
	return "a word"
}

// booked weighs all that is booked, what is left of it, and that less what the entry names.
func (c *counting) booked(r *read, line *notes.ScopeLine, before notes.Decimal) {
	p := &r.facts.Progress
	left := line.Qty.Value.Sub(before)
	say := func(o *countOption, what string) {
		o.clues.Say(what)
		if p.All {
			o.clues.Say(what, ", says all")
		}
		if p.Rest {
			o.clues.Say(what, ", says the rest")
		}
		if p.Complete == notes.Yes {
			o.clues.Say(what, ", says done")
		}
		if p.Complete == notes.No {
			o.clues.Say(what, ", says not done")
		}
	}
	if line.Qty.Value.Cmp(notes.Int(1)) > 0 {
		say(c.option(line.Qty.Value, true), "all booked")
	}
	if before.Sign() > 0 && left.Sign() > 0 {
		say(c.option(left, true), "all that is left")
	}
	for _, k := range c.numbers {
		n := notes.Int(c.words[k].n)
		if less := left.Sub(n); less.Sign() > 0 {
			o := c.option(less, true)
			say(o, "what is left less a number")
			c.around(o, k, "less, ")
		}
		if more := n.Sub(before); before.Sign() > 0 && more.Sign() > 0 {
			o := c.option(more, true)
			o.clues.Say("a number less what was done before")
			c.around(o, k, "more than before, ")
		}
	}
}

// lessOff weighs what is left, or a number named, less what the words take off: "all but two", "60 minus 6", "drops
// done, 3 to go".
func (c *counting) lessOff(r *read, line *notes.ScopeLine, before notes.Decimal) {
	p := &r.facts.Progress
	for k := range c.words {
		w := &c.words[k]
		if w.inside != takenOff && w.inside != whatRemains || w.n == 0 {
			continue
		}
		off, by := notes.Int(w.n), ""
		if w.inside == takenOff {
			by = c.takes(k)
		}
		c.options[0].clues.Say("none, ", w.inside, by)
		if less := line.Qty.Value.Sub(before).Sub(off); less.Sign() > 0 {
			o := c.option(less, true)
			o.clues.Say("what is left less ", w.inside)
			o.clues.Say("what is left less ", w.inside, by)
			if p.All || p.Complete == notes.Yes {
				o.clues.Say("what is left, says all, less ", w.inside, by)
			}
			c.around(o, k, "off, ")
		}
		for _, j := range c.numbers {
			if less := notes.Int(c.words[j].n).Sub(off); less.Sign() > 0 && j < k {
				o := c.option(less, true)
				o.clues.Say("a number less ", w.inside)
				o.clues.Say("a number less ", w.inside, by)
			}
		}
	}
}

// single weighs that it was one.
func (c *counting) single(r *read, line *notes.ScopeLine) {
	if c.off || line.Qty.Unit != notes.Each && line.Qty.Unit != notes.Lot {
		return // what is taken off from several leaves no single one
	}
	o := c.number(1)
	o.clues.Say("one")
	if line.Qty.Value.Equal(notes.Int(1)) {
		o.clues.Say("one, and one is booked")
	}
	if oneOf(&r.query) {
		o.clues.Say("one, speaks of a single one")
	}
	if numbered(&r.query) {
		o.clues.Say("one, has its number")
	}
	for k, w := range c.words {
		switch {
		case c.seen(k):
		case strings.HasPrefix(w.as, "own ") || w.as == "thing" || w.as == "things" || strings.HasPrefix(w.as, "label"):
			o.clues.Say("one, with ", w.as)
		case w.as == w.text && len(w.text) > 1:
			o.clues.Say("one, says ", w.text)
		}
		if k == 0 {
			o.clues.Say("one, begins with ", w.as)
		}
	}
}

// values says how each number stands to what is booked and done.
func (c *counting) values(line *notes.ScopeLine, before notes.Decimal) {
	left := line.Qty.Value.Sub(before)
	for i := range c.options {
		o := &c.options[i]
		if !o.said {
			continue
		}
		unit := " " + string(line.Qty.Unit)
		if line.Qty.Value.Equal(notes.Int(1)) {
			unit = " of one"
		}
		switch o.of.Cmp(line.Qty.Value) {
		case 0:
			o.clues.Say("as many as are booked", unit)
		case 1:
			o.clues.Say("more than are booked", unit)
			if o.of.Cmp(line.Qty.Value.Mul(notes.Int(2))) > 0 {
				o.clues.Say("more than twice what is booked", unit)
			}
		default:
			o.clues.Say("fewer than are booked", unit)
			switch {
			case before.Sign() == 0:
			case o.of.Equal(left):
				o.clues.Say("as many as are left", unit)
			case o.of.Cmp(left) > 0:
				o.clues.Say("more than are left", unit)
			}
		}
		if o.of.Equal(notes.Int(1)) {
			o.clues.Say("a single one", unit)
		}
	}
}

// nothing weighs that the words do not say how many.
func (c *counting) nothing(line *notes.ScopeLine) {
	o := &c.options[0]
	o.clues.Say("none of numbers ", strconv.Itoa(min(len(c.numbers), 3)))
	o.clues.Say("none of ", string(line.Qty.Unit))
	if line.Qty.Value.Equal(notes.Int(1)) {
		o.clues.Say("none, and one is booked")
	}
	for k, w := range c.words {
		switch {
		case c.seen(k):
		case w.as == "own things" || w.as == "own thing":
			o.clues.Say("none, with ", w.as)
		case w.as == w.text && len(w.text) > 1:
			o.clues.Say("none, says ", w.text)
		}
	}
}

// beyond reports whether the rules count more than is booked right before the thing itself, "five hood lights": what goes
// beyond is an extra, and is never weighed away.
func (c *counting) beyond(rule count, line *notes.ScopeLine) bool {
	if !rule.said || rule.of.Cmp(line.Qty.Value) <= 0 {
		return false
	}
	for k := range c.words {
		if w := &c.words[k]; w.counts(line.Qty.Unit) && rule.of.Equal(notes.Int(w.n)) && (w.unit != "" || c.as(k+1) == "own things" || c.as(k+2) == "own things") {
			return true
		}
	}
	return false
}

// whatRemains marks a number that says how many are still to be done.
const whatRemains = "what remains"

// leaveOut marks the numbers that were read to say how many remain: what is left was not done.
func (c *counting) leaveOut(r *read) {
	for k := range r.entry.Facts.Items {
		it := &r.entry.Facts.Items[k]
		if !it.Qty.Written() || !r.remains(it) {
			continue
		}
		for w := range c.words {
			if at := c.words[w].start; at >= it.Start && at < it.End {
				c.words[w].inside = whatRemains
			}
		}
	}
}

// told adds what the words were read to say of a number: which one it is, or that so many remain.
func (c *counting) told(r *read, line *notes.ScopeLine) {
	for k := range r.entry.Facts.Items {
		it := &r.entry.Facts.Items[k]
		if !it.Qty.Written() {
			continue
		}
		if r.saysWhich(it, line.Qty) {
			c.option(it.Qty.Value, true).clues.Say("says which one")
			c.options[0].clues.Say("none, a number says which one")
		}
		c.options[0].clues.When(r.remains(it), "none, a number remains to be done")
	}
}

// converts reports whether an entry measures in another unit than the line: "30 m" of a line of feet. The rules reckon
// that exactly.
func converts(r *read, line *notes.ScopeLine) bool {
	return slices.ContainsFunc(r.entry.Facts.Items, func(it notes.Item) bool {
		_, same := it.Qty.In(line.Qty.Unit)
		return it.Qty.Written() && same && it.Qty.Unit != line.Qty.Unit
	})
}

// sureCount is how likely the likeliest number has to be to be read. Below it the entry is asked how many.
const sureCount = 0.6

// best returns the likeliest number, and whether it was weighed.
func (c *counting) best(d *day, r *read, i int) (count, bool) {
	if d.in.OnCounts != nil {
		names := make([][]string, len(c.options))
		values := make([]string, len(c.options))
		for k, o := range c.options {
			names[k] = slices.Clone(o.clues.Names)
			if o.said {
				values[k] = o.of.String()
			}
		}
		d.in.OnCounts(r.entry, i, values, names)
	}
	d.chances = builtInCounts().Among(d.chances, len(c.options), func(k int) []chance.Feature { return c.options[k].clues.Of })
	p := slices.Max(d.chances)
	if p < sureCount {
		return count{how: byWeights}, true
	}
	o := &c.options[slices.Index(d.chances, p)]
	return count{of: o.of, said: o.said, how: byWeights}, true
}

// seen reports whether word k stands further ahead already.
func (c *counting) seen(k int) bool {
	for i := range k {
		if c.words[i].as == c.words[k].as {
			return true
		}
	}
	return false
}
