package reconcile

import (
	"strings"

	"jobday/notes"
)

// parts weighs what the numbers come to as parts of one whole: "3 each in C101 and C102, 2 in C103" is 8, "hall, cellar, 3
// bedrooms" is 5, "4 pulls at 150 ft" is 600.
func (c *counting) parts(line *notes.ScopeLine, before notes.Decimal) {
	total, each := c.forEach(line)
	plain := c.plainParts()
	if len(c.numbers) > 1 && total <= mostCounted {
		c.comeTo(total, each, plain, line.Qty.Unit)
	}
	if each > 0 && total <= mostCounted {
		o := c.number(total)
		o.clues.Say("so many for each of those told")
		o.clues.Say("so many for each of those told, numbers ", few(len(c.numbers)), ", each ", few(each))
	}
	c.bearOut(line, before)
	if line.Qty.Unit != notes.Each {
		c.lengths(line)
		return
	}
	c.inPlaces(plain)
	if ones := c.unnumbered(); ones > 0 && ones <= mostOnes {
		c.number(c.sum()+ones).clues.Say("the numbers and one for each without, ", few(len(c.numbers)), " and ", few(ones))
	}
}

// mostOnes is the longest list of things without a number that are counted one each.
const mostOnes = 8

// forEach adds up the numbers, each as often as it says that so many are in each of a list, and says how many say so.
func (c *counting) forEach(line *notes.ScopeLine) (total, each int) {
	for i, k := range c.numbers {
		from, to := 0, c.nextNumber(i)
		if i > 0 {
			from = c.numbers[i-1] + 1
		}
		n := c.words[k].n
		if !c.saysEach(k, to) {
			total += n
			continue
		}
		each++
		times := c.listIn(k+1, to)
		if times < 2 {
			times = c.listIn(from, k)
		}
		total += n * max(times, 1)
		if run := n * c.runBefore(k); run > n && run <= mostCounted {
			o := c.number(run)
			o.clues.Say("so many for each of a run")
			o.clues.When(line.Qty.Unit != notes.Each, "so much for each of a run")
		}
		o := c.number(n)
		o.clues.Say("a number for each")
		o.clues.When(times > 1, "a number for each of several")
	}
	return total, each
}

// nextNumber returns the place among words of the number behind the i-th that may count, or the end.
func (c *counting) nextNumber(i int) int {
	if i+1 < len(c.numbers) {
		return c.numbers[i+1]
	}
	return len(c.words)
}

// comeTo says of what several numbers come to, and of each of them, whether they stand as parts.
func (c *counting) comeTo(total, each int, plain bool, unit notes.Unit) {
	what := "what the parts come to"
	if plain {
		what = "what the plain parts come to"
	}
	o := c.number(total)
	o.clues.Say(what)
	o.clues.Say(what, ", ", few(len(c.numbers)))
	o.clues.Say(what, " of ", string(unit))
	o.clues.When(plain && each > 0, "what the plain parts come to, with each")
	for i, k := range c.numbers {
		if n := c.words[k].n; n != total && plain {
			p := c.number(n)
			p.clues.Say("one of plain parts")
			p.clues.When(i == len(c.numbers)-1, "the last of plain parts")
		}
	}
}

// plainParts reports whether the numbers stand as parts of one whole: each behind a joint or what it counts, and no word that
// takes some of them back, sums them up or puts them on another day.
func (c *counting) plainParts() bool {
	for k := range c.words {
		switch c.words[k].text {
		case "left", "not", "no", "of", "was", "wait", "than", "still", "short", "need", "needs", "remain", "remaining", "missing", "except", "instead", "only",
			"yesterday", "tomorrow", "total", "so", "thats", "that's", "makes", "=", "all", "rest", "x", "to":
			return false
		}
	}
	for i, k := range c.numbers {
		if i > 0 && !c.opensPart(k-1) {
			return false
		}
		switch c.roughly(k + 1) {
		case "#", "a measure":
			return i == 0
		}
	}
	return true
}

// opensPart reports whether a number behind word k may begin another part.
func (c *counting) opensPart(k int) bool {
	switch c.roughly(k) {
	case ",", "and", "+", "&", "n", "more", ";", ":", "/", "(", "-", "place", "label", "thing", "things":
		return true
	}
	switch c.as(k) {
	case "plus", "then", "another", "a":
		return true
	}
	return c.words[k].inside != ""
}

// saysEach reports whether the words about number k, up to word to, say that so many are in each.
func (c *counting) saysEach(k, to int) bool {
	if k > 0 && (c.words[k-1].text == "each" || c.words[k-1].text == "every") {
		return true
	}
	if t := c.words[k].text; strings.HasSuffix(t, "each") || strings.HasSuffix(t, " ea") && c.roughly(k+1) == "in" {
		return true // read as its unit
	}
	for j := k + 1; j < to && c.words[j].text != "."; j++ {
		switch c.words[j].text {
		case "each", "ea", "per", "apiece", "every":
			return true
		case "a", "an":
			if j == k+1 {
				return true // "8 a unit"
			}
		}
	}
	return false
}

// runBefore counts the numbers and labels in a row right before number k: "401, 402 and 404, 5 in each".
func (c *counting) runBefore(k int) int {
	n := 0
	for j := k - 1; j >= 0; j-- {
		w := &c.words[j]
		switch {
		case w.joins() || w.text == ":" || w.text == "-":
		case w.n > 0 && (w.unit == "" || w.inside != "") || hasBoth(w.text):
			n++
		default:
			return n
		}
	}
	return n
}

// listIn counts the things that a stretch of words lists, up to the end of its first sentence that lists any: names joined
// to one another, ranges for as many as they hold.
func (c *counting) listIn(from, to int) int {
	n, open := 0, false
	end := func() {
		if open {
			n, open = n+1, false
		}
	}
	for j := from; j < to; j++ {
		w := &c.words[j]
		switch {
		case w.text == "." || w.text == ";":
			if end(); n > 0 {
				return n
			}
		case w.joins():
			end()
		case j+2 < to && c.rangeAt(j) > 1:
			n, open = n+c.rangeAt(j), false
			j += 2
		case w.through > 0:
			n, open = n+w.through-w.n+1, false
		default:
			open = open || w.lists()
		}
	}
	end()
	return n
}

// lists reports whether a word names something that a list may hold: a place, a label, a thing, a number.
func (w *countWord) lists() bool {
	return w.n > 0 || w.inside != "" || w.names() || hasBoth(w.text)
}

// names reports whether a word is of a thing, a place or a label.
func (w *countWord) names() bool {
	as := strings.TrimPrefix(w.as, "own ")
	return as == "place" || as == "thing" || as == "things" || strings.HasPrefix(as, "label")
}

// unnumbered counts the things of the first sentence with several that are joined to others and have no number.
func (c *counting) unnumbered() int {
	ones, parts, next := 0, 0, 0
	named, counted := false, false
	end := func() {
		if named || counted {
			parts++
		}
		if named && !counted {
			ones++
		}
		named, counted = false, false
	}
	for j := range c.words {
		w := &c.words[j]
		isNumber := next < len(c.numbers) && c.numbers[next] == j
		if isNumber {
			next++
		}
		switch {
		case w.text == "." || w.text == ";" || w.text == "-":
			if end(); parts > 1 {
				return ones
			}
			ones, parts = 0, 0
		case w.text == ":":
			named, counted = false, false // what it is about, not one of them
		case w.joins():
			end()
		case isNumber:
			counted = true
		case w.n == 0:
			named = named || w.lists()
		}
	}
	if end(); parts < 2 {
		return 0
	}
	return ones
}

// bearOut weighs that one number is borne out by another: with what was done before it makes the number told in all, or with
// what is told to be left all that is booked; or that it is what one of two has more than the other.
func (c *counting) bearOut(line *notes.ScopeLine, before notes.Decimal) {
	left := line.Qty.Value.Sub(before)
	for _, k := range c.numbers {
		n := notes.Int(c.words[k].n)
		for j := range c.words {
			w := &c.words[j]
			if j == k || w.n == 0 || w.through > 0 {
				continue
			}
			m := notes.Int(w.n)
			if before.Sign() > 0 && n.Add(before).Equal(m) {
				c.option(n, true).clues.Say("with what was done before makes another number")
			}
			if n.Add(m).Equal(left) {
				o := c.option(n, true)
				o.clues.Say("with another number makes all that was left")
				o.clues.When(k < j, "with a number behind it makes all that was left")
				o.clues.When(k > j, "with a number before it makes all that was left")
			}
		}
	}
	if len(c.numbers) != 2 {
		return
	}
	a, b := c.words[c.numbers[0]].n, c.words[c.numbers[1]].n
	if a != b {
		o := c.number(max(a, b) - min(a, b))
		o.clues.Say("what one number is more than the other")
		c.around(o, c.numbers[1], "more than another, ")
	}
}

// lengths weighs so many of one length: "4 pulls at 150 ft", "3 rolls of 250".
func (c *counting) lengths(line *notes.ScopeLine) {
	const near, many = 5, 100
	last := -1
	for k := range c.words {
		w := &c.words[k]
		if w.n == 0 || w.through > 0 {
			continue
		}
		if last >= 0 && k-last <= near && w.counts(line.Qty.Unit) && c.words[last].n < many && c.words[last].n*w.n <= mostCounted {
			o := c.number(c.words[last].n * w.n)
			o.clues.Say("so many lengths of it")
			o.clues.Say("so many lengths of it, ", c.words[last].unit, " then ", w.unit)
			o.clues.Say("so many lengths of it, of ", c.as(last+1), " ", c.as(k-1))
			o.clues.When(last+1 == k-1, "so many lengths of it, one word between")
		}
		last = k
	}
}

// inPlaces weighs the sum of all numbers where some were read as the numbers of places: "kitchen 3, pin room 3".
func (c *counting) inPlaces(plain bool) {
	sum, n, placed := 0, 0, 0
	for k := range c.words {
		w := &c.words[k]
		if w.n == 0 || w.through > 0 || w.n >= roomNumbers || w.unit != "" && w.unit != "ea" {
			continue
		}
		sum, n = sum+w.n, n+1
		if strings.HasSuffix(w.inside, "place") {
			placed++
		}
	}
	if placed == 0 || n < 2 || sum > mostCounted {
		return
	}
	o := c.number(sum)
	o.clues.Say("the sum with those behind places")
	o.clues.Say("the sum with those behind places, ", few(placed), " of ", few(n))
	o.clues.When(plain, "the plain sum with those behind places")
}
