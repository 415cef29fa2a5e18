package reconcile

import (
	"slices"
	"strings"

	"jobday/chance"
	"jobday/parse/field"
	"jobday/trade"
)

// A termByLine is what a term of an entry says for each line, found once a job.
type termByLine struct {
	equal  []bool // the line has it
	weight []int  // of the words of the line that it may stand for
	kin    []int  // how many words of the line it goes with
	roots  []int  // how many it shares a root with
	ofHead []bool // it goes with what the line is about
}

// A spokenTerm is a word of the scope that others may stand for, with the lines it stands in.
type spokenTerm struct {
	text   string
	class  field.TermClass
	topics trade.Topics
	lines  []int
	heads  []bool // by line of lines: it is what the line is about
}

// addSpoken enters the terms of the line that is being added.
func (ix *lineIndex) addSpoken(q *query) {
	for i := range q.terms {
		t := &q.terms[i]
		if classOf(t.Class) < 0 || repeated(q.terms, i) {
			continue
		}
		at := slices.IndexFunc(ix.spoken, func(s spokenTerm) bool { return s.text == t.Text && s.class == t.Class })
		if at < 0 {
			at = len(ix.spoken)
			ix.spoken = append(ix.spoken, spokenTerm{text: t.Text, class: t.Class, topics: trade.TopicsOf(t.Text)})
		}
		s := &ix.spoken[at]
		s.lines, s.heads = append(s.lines, len(ix.lines)), append(s.heads, i == q.head)
	}
}

// byLine returns what a term says for each line.
func (d *day) byLine(t *field.Term) *termByLine {
	key := meant{text: t.Text, class: t.Class}
	if known := d.termsByLine[key]; known != nil {
		return known
	}
	n := len(d.index.lines)
	counts, flags := make([]int, 3*n), make([]bool, 2*n)
	b := &termByLine{equal: flags[:n], ofHead: flags[n:], weight: counts[:n], kin: counts[n : 2*n], roots: counts[2*n:]}
	topics, start := trade.TopicsOf(t.Text), chance.Name(standsFor).Then(t.Text).Then(forWord)
	for k := range d.index.spoken {
		u := &d.index.spoken[k]
		if u.text == t.Text {
			for _, i := range u.lines {
				b.equal[i] = b.equal[i] || u.class == t.Class
			}
			continue
		}
		if !speaks(t.Class) || !speaks(u.class) {
			continue
		}
		weight, kin, root := d.lineWeights.named(start.Then(u.text).Then(`"`)), topics.Shared(u.topics), sameRoot(t.Text, u.text)
		if weight == 0 && !kin && !root {
			continue
		}
		for at, i := range u.lines {
			b.weight[i] += weight
			if kin {
				b.kin[i]++
				b.ofHead[i] = b.ofHead[i] || u.heads[at]
			}
			if root {
				b.roots[i]++
			}
		}
	}
	d.termsByLine[key] = b
	return b
}

// The name of the clue that a word of an entry may stand for one of a line.
const (
	standsFor = `says "`
	forWord   = `" for "`
)

// workByLine returns what a class of work weighs beside that of each line, found once a job; "" is for an entry that
// tells of no work.
func (d *day) workByLine(does string) []int {
	if known, ok := d.worksByLine[does]; ok {
		return known
	}
	all := make([]int, len(d.index.lines))
	for i := range d.index.lines {
		for _, name := range workNames(does, d.index.lines[i].query.work) {
			all[i] += d.lineWeights.named(chance.Name(name))
		}
	}
	d.worksByLine[does] = all
	return all
}

// workNames are the clues of a class of work beside those a line is booked for.
func workNames(does string, booked []string) []string {
	if len(booked) == 0 {
		booked = []string{"a thing"} // the line only names one
	}
	if does == "" {
		return []string{"tells of no work, booked is " + booked[0]}
	}
	var names []string
	for _, act := range booked {
		names = append(names, `tells of "`+does+`", booked is `+act)
	}
	return names
}

// speaks reports whether a term may be another word for one of the booking.
func speaks(c field.TermClass) bool {
	return c == field.ThingTerm || c == field.OtherTerm || c == field.VerbTerm
}

// sameRoot reports whether two terms share a word, or the beginning of one.
func sameRoot(a, b string) bool {
	const root = 4
	for x := range strings.FieldsSeq(a) {
		for y := range strings.FieldsSeq(b) {
			if x == y || len(x) >= root && len(y) >= root && x[:root] == y[:root] {
				return true
			}
		}
	}
	return false
}
