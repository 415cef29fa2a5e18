package reconcile

import (
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// sums weighs what the numbers add up to, and what they make one times the other.
func (c *counting) sums() {
	if len(c.numbers) < 2 {
		return
	}
	all, alike := c.sum(), true
	for _, k := range c.numbers {
		alike = alike && c.as(k-1) == c.as(c.numbers[0]-1)
	}
	how := strconv.Itoa(min(len(c.numbers), 4))
	say := func(n int, what string) {
		if n <= 0 || n > mostCounted {
			return
		}
		o := c.number(n)
		o.clues.Say(what)
		o.clues.Say(what, " of ", how)
		for _, w := range c.words {
			switch w.text {
			case "each", "per", "total", "thats", "that's", "all", "left", "short", "more", "still", "every", "both", "apiece", "at", "of", "to", "not", "but", "other", "=", "x", "no", "wait", "then", "another", "plus", "and", "+", "me", "makes":
				o.clues.Say(what, " with ", w.text)
			}
		}
	}
	say(all, "the sum")
	o := c.number(all)
	if alike {
		o.clues.Say("the sum of numbers that stand alike")
	}
	first, second := &c.words[c.numbers[0]], &c.words[c.numbers[1]]
	o.clues.Say("the sum before ", c.as(c.numbers[0]+1), " and ", c.as(c.numbers[1]+1))
	o.clues.Say("the sum behind ", c.as(c.numbers[0]-1), " and ", c.as(c.numbers[1]-1))
	o.clues.Say("the sum across ", c.as(c.numbers[1]-1))
	c.across(o)
	c.groupSums(say)
	if len(c.numbers) > 2 {
		say(first.n+second.n, "the sum of the first two")
		say(all-c.words[c.numbers[len(c.numbers)-1]].n, "the sum but the last")
		say(all-first.n, "the sum but the first")
	}
	if first.n < 100 && second.n < 100 {
		say(first.n*second.n, "the product")
	}
}

// across says of the sum how each number goes on from the one before, and what each is about.
func (c *counting) across(o *countOption) {
	places, things := 0, 0
	for i, k := range c.numbers {
		if i > 0 {
			o.clues.Say("the sum, next between ", c.roughly(k-1), " and ", c.roughly(k+1))
			o.clues.Say("the sum, next behind ", c.as(k-2), " ", c.as(k-1))
			o.clues.Say("the sum, next before ", c.as(k+1), " ", c.as(k+2))
		}
		place, thing := false, false
		for j := k + 1; j < c.nextNumber(i); j++ {
			w := &c.words[j]
			place = place || w.inside != "" || w.as == "place" || w.as == "own place" || strings.HasPrefix(w.as, "label")
			thing = thing || w.as == "own things" || w.as == "own thing"
		}
		if place {
			places++
		}
		if thing {
			things++
		}
	}
	o.clues.Say("the sum, places with ", few(places), " of ", few(len(c.numbers)))
	o.clues.Say("the sum, own things with ", few(things), " of ", few(len(c.numbers)))
	o.clues.When(places == len(c.numbers), "the sum, a place with each")
}

// few names a small number, and "many" what is more.
func few(n int) string {
	if n > 4 {
		return "many"
	}
	return strconv.Itoa(n)
}

// groupSums weighs what the numbers add up to that stand before, or behind, words of the same class.
func (c *counting) groupSums(say func(n int, what string)) {
	side := func(where string, beside int) {
		alike := true
		for i, k := range c.numbers {
			class := c.roughly(k + beside)
			alike = alike && class == c.roughly(c.numbers[0]+beside)
			sum, n, first := 0, 0, true
			for j, other := range c.numbers {
				if c.roughly(other+beside) == class {
					sum, n = sum+c.words[other].n, n+1
					first = first && j >= i
				}
			}
			if first && n > 1 && n < len(c.numbers) {
				say(sum, "the sum of those "+where+" "+class)
				c.number(sum).clues.Say("the sum of those ", where, " the same")
			}
		}
		if alike {
			say(c.sum(), "the sum of numbers all "+where+" "+c.roughly(c.numbers[0]+beside))
		}
	}
	side("before", 1)
	side("behind", -1)
}

// sum is what all numbers that may count add up to.
func (c *counting) sum() int {
	sum := 0
	for _, k := range c.numbers {
		sum += c.words[k].n
	}
	return sum
}

// lists weighs how many things are told apart by a number or letter of their own, and how many are counted in each.
func (c *counting) lists(r *read, line *notes.ScopeLine) {
	if line.Qty.Unit != notes.Each {
		return
	}
	if n := r.listed(); n > 0 {
		c.number(n).clues.Say("listed by number")
	}
	places, labels, through := 0, 0, 0
	for _, t := range r.query.terms[:r.query.spread] {
		switch {
		case t.Class == field.PlaceTerm:
			places++
		case t.Class == field.DesignationTerm && t.Dim == "model":
			labels++
		}
	}
	for k := range c.words {
		if w := &c.words[k]; w.through > 0 {
			through += w.through - w.n + 1
		}
		if n := c.rangeAt(k); n > 1 && n <= mostListed {
			c.around(c.number(n), k, "from here on, ")
			c.around(c.number(n), k+2, "up to here, ")
			through += n
		}
	}
	say := func(n int, what string) {
		if n < 2 || n > mostListed {
			return
		}
		c.number(n).clues.Say(what)
		for _, k := range c.numbers {
			if m := c.words[k].n; m < 100 {
				o := c.number(n * m)
				o.clues.Say("so many in each of ", what)
				o.clues.Say("so many in each of ", what, " before ", c.as(k+1))
				o.clues.Say("so many in each of ", what, " behind ", c.as(k-1))
			}
		}
	}
	say(places, "as many as places")
	say(labels, "as many as labels")
	say(through, "as many as a range has")
	named, numbers, joined := c.runs()
	say(named, "as many as names in a row")
	say(numbers, "as many as numbers in a row")
	if joined > 1 {
		c.number(joined).clues.Say("as many as are joined")
	}
	for i := range c.words {
		if w := &c.words[i]; w.text == "both" || w.text == "pair" {
			o := c.number(2)
			o.clues.Say("says ", w.text)
			c.around(o, i, w.text+" ")
		}
	}
}

// rangeAt returns how many "3 thru 6" or "b9 to b18" are that stand at word k, or 0.
func (c *counting) rangeAt(k int) int {
	if k+2 >= len(c.words) {
		return 0
	}
	switch c.words[k+1].text {
	case "to", "thru", "through", "until", "till", "-":
	default:
		return 0
	}
	name, from := c.words[k].named()
	other, to := c.words[k+2].named()
	if from == 0 || to <= from || other != "" && other != name {
		return 0
	}
	return to - from + 1
}

// named parts a word at its number, which may be said in words.
func (w *countWord) named() (name string, number int) {
	if w.n > 0 && w.unit == "" {
		return "", w.n
	}
	return nameAndNumber(w.text)
}

// nameAndNumber parts "b18" at its number, which is 0 where it has none.
func nameAndNumber(w string) (name string, number int) {
	if n, ok := smallNumber(w); ok {
		return "", n
	}
	name, digits := splitStem(w)
	number, _ = smallNumber(digits)
	return name, number
}

// runs counts the longest list of things by name, such as "c1 c2 c3" or "1a, 1b", the longest list of things by number, and
// how many things the first clause joins.
func (c *counting) runs() (named, numbers, joined int) {
	name, number := 0, 0
	joined = 1
	open := true
	for k := range c.words {
		w := &c.words[k]
		switch {
		case w.as == "verb" || w.text == "." || w.text == "-" || w.text == ":":
			open = open && joined == 1 && w.text == ":"
		case open && w.joins():
			joined++
		}
		switch isName := hasBoth(w.text); {
		case w.joins() || w.text == "/" || w.text == "-" && k > 0 && len(c.words[k-1].text) < 4:
		case isName:
			name, number = name+1, 0
		case w.n > 0 && (w.unit == "" || w.inside != ""):
			name, number = 0, number+1
		case len(w.text) < 4 && k+2 < len(c.words) && c.words[k+1].text == "-" && c.words[k+2].n > 0:
			number--
			name++ // "ct-1": its number is not another
		default:
			name, number = 0, 0
		}
		named, numbers = max(named, name), max(numbers, number)
	}
	return named, numbers, joined
}

// hasBoth reports whether a word has letters and digits.
func hasBoth(w string) bool {
	letter, digit := false, false
	for i := range len(w) {
		letter = letter || w[i] >= 'a' && w[i] <= 'z'
		digit = digit || w[i] >= '0' && w[i] <= '9'
	}
	return letter && digit && len(w) <= 6
}
