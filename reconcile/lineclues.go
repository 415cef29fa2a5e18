package reconcile

import (
	"cmp"
	_ "embed"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"jobday/chance"
	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// lineClues are what holds of an entry and one booked line, by name: what speaks for the entry meaning it.
type lineClues struct{ chance.Clues }

// gather puts together the clues that entry r means line i; m is what its words say for it, nil where they share none.
func (c *lineClues) gather(d *day, r *read, i int, m *match) {
	c.Reset()
	c.Say("a line")
	c.words(d, m)
	c.pairs(&r.query, &d.index.lines[i].query)
	c.counts(d, r, i)
	c.context(d, r, i)
	c.heard(d, &r.query, i)
	c.numbers(d, r, i)
}

// none puts together the clues that an entry means no line.
func (c *lineClues) none(r *read, ms []match) {
	c.Reset()
	best := 0.0
	for _, m := range ms {
		best = max(best, m.p)
	}
	c.Say("none as ", string(r.entry.Judged))
	c.Say("none at ", step(best))
	c.Say("none, consent ", r.facts.Consent.State.String())
	c.When(len(ms) == 0, "none shared")
	c.When(r.query.head < 0, "none, no head")
	c.When(!r.query.namesTrade(), "none, no trade")
	for _, w := range r.query.work {
		c.Say("none does ", w)
	}
	for _, t := range r.query.terms {
		if t.Class == field.OtherTerm || t.Class == field.ThingTerm {
			c.Say("none of ", t.Text)
		}
	}
}

func (c *lineClues) words(d *day, m *match) {
	if m == nil {
		c.Say("shares nothing")
		return
	}
	c.Say("fits ", step(m.p))
	c.When(m.veto != "", "veto")
	c.When(m.place, "veto of place")
	c.When(m.veto != "" && m.despite >= TakeAt, "fits but for the veto")
	for i, name := range evidenceClues {
		if name != "" && m.evidence[i] > 0 {
			c.Say("has ", name)
		}
	}
	c.Say("covers ", step(m.evidence[evCoverage]))
	c.Say("is covered ", step(m.evidence[evPrecision]))
}

// pairs adds each word of the entry beside each word of the line.
func (c *lineClues) pairs(q, l *query) {
	kin, roots := 0, 0
	for i, t := range q.terms {
		if !speaks(t) || repeated(q.terms, i) {
			continue
		}
		for k, u := range l.terms {
			if speaks(u) && t.Text != u.Text && !repeated(l.terms, k) {
				c.Say("word ", t.Text, " for ", u.Text)
				if trade.TopicsOf(t.Text).Shared(trade.TopicsOf(u.Text)) {
					kin++
					c.When(k == l.head, "kin of the head")
					c.When(k == l.head && i == q.head, "kin heads")
				}
				if sameRoot(t.Text, u.Text) {
					roots++
				}
			}
		}
		c.When(i == q.head && l.head >= 0 && l.terms[l.head].Text == t.Text, "same head")
	}
	c.shared(q, l)
	does, act := q.work, l.work
	if len(act) == 0 {
		act = []string{"a thing"}
	}
	for _, v := range does {
		for _, w := range act {
			c.Say("does ", v, " on ", w)
		}
	}
	if len(does) == 0 {
		c.Say("does nothing on ", act[0])
	}
	c.When(kin > 0, "kin")
	c.When(kin > 1, "more kin")
	c.When(kin > 3, "much kin")
	c.When(roots > 0, "same root")
	c.When(roots > 1, "same roots")
}

// classNames are the classes of terms that two texts may share.
var classNames = map[field.TermClass]string{
	field.ThingTerm: "thing", field.OtherTerm: "word", field.PlaceTerm: "place", field.DesignationTerm: "designation", field.VerbTerm: "verb",
}

// shared adds how many terms of each class both have, and that only one of them names a designation or a place.
func (c *lineClues) shared(q, l *query) {
	for class, name := range classNames {
		both, other, mine := 0, 0, 0
		for k, u := range l.terms {
			switch {
			case u.Class != class || repeated(l.terms, k):
			case q.has(u.Text):
				both++
			default:
				other++
			}
		}
		for i, t := range q.terms {
			if t.Class == class && !repeated(q.terms, i) && !l.has(t.Text) {
				mine++
			}
		}
		switch {
		case both > 1:
			c.Say("share ", name, "s")
		case both == 1:
			c.Say("share a ", name)
		case other > 0 && mine > 0:
			c.Say("each its ", name)
		case other > 0:
			c.Say("line only has ", name)
		case mine > 0:
			c.Say("entry only has ", name)
		}
	}
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

// kinship counts how many words of an entry and a line go together.
func kinship(q, l *query) int {
	n := 0
	for i, t := range q.terms {
		if !speaks(t) || repeated(q.terms, i) {
			continue
		}
		of := trade.TopicsOf(t.Text)
		for k, u := range l.terms {
			if speaks(u) && !repeated(l.terms, k) && (of.Shared(trade.TopicsOf(u.Text)) || sameRoot(t.Text, u.Text)) {
				n++
				break
			}
		}
	}
	return n
}

// speaks reports whether a term may be another word for one of the booking.
func speaks(t field.Term) bool {
	return t.Class == field.ThingTerm || t.Class == field.OtherTerm || t.Class == field.VerbTerm
}

// heard adds how many of the entry's words were used before of work on the line, and that they were of no other.
func (c *lineClues) heard(d *day, q *query, i int) {
	n, alone := 0, 0
	for k, t := range q.terms {
		if !speaks(t) || t.Class == field.VerbTerm || repeated(q.terms, k) || d.index.lines[i].has(t.Text) {
			continue
		}
		of := d.standing.spoken[t.Text]
		if slices.Contains(of, i) {
			n++
			if len(of) == 1 {
				alone++
			}
		}
	}
	c.When(n == 1, "heard")
	c.When(n > 1, "heard more")
	c.When(alone == 1, "heard of it alone")
	c.When(alone > 1, "heard more of it alone")
}

// hear keeps the words of an entry that serves a line: who calls a thing by a name once will do so again.
func (s *standing) hear(q *query, i int) {
	for k, t := range q.terms {
		if speaks(t) && t.Class != field.VerbTerm && !repeated(q.terms, k) && !slices.Contains(s.spoken[t.Text], i) {
			s.spoken[t.Text] = append(s.spoken[t.Text], i)
		}
	}
}

// numbers adds that the entry names the very number that is booked, of more than a few.
func (c *lineClues) numbers(d *day, r *read, i int) {
	const few = 4
	line := &d.in.Job.Lines[i]
	if line.Qty.Value.Cmp(notes.Int(few)) <= 0 {
		return
	}
	for _, n := range wholeNumbers(r.query.text) {
		if line.Qty.Value.Equal(notes.Int(n)) {
			c.Say("names the number booked")
			return
		}
	}
}

// wholeNumbers are the numbers of a text that stand alone.
func wholeNumbers(text string) []int {
	var all []int
	for i := 0; i < len(text); {
		if text[i] < '0' || text[i] > '9' {
			i++
			continue
		}
		j := i
		for j < len(text) && text[j] >= '0' && text[j] <= '9' {
			j++
		}
		before, after := i == 0 || strings.IndexByte(" (=x", text[i-1]) >= 0, j == len(text) || strings.IndexByte(" ,.;:)'", text[j]) >= 0
		if n, err := strconv.Atoi(text[i:j]); err == nil && before && after && j-i < 6 {
			all = append(all, n)
		}
		i = j
	}
	return all
}

// counts adds how what the entry counts stands to what is booked and left.
func (c *lineClues) counts(d *day, r *read, i int) {
	line, ls := &d.in.Job.Lines[i], &d.standing.lines[i]
	left := line.Qty.Value.Sub(ls.toDate).Sub(d.lines[i].today)
	one := notes.Int(1)
	if p := &r.facts.Progress; p.Of != nil {
		switch {
		case p.Of.Equal(line.Qty.Value) && line.Qty.Value.Cmp(one) > 0:
			c.Say("of as many as booked")
		case p.Of.Equal(left) && left.Cmp(one) > 0:
			c.Say("of as many as left")
		default:
			c.Say("of another number")
		}
	}
	for n, it := range r.facts.Items {
		q, same := it.Qty.In(line.Qty.Unit)
		if !it.Qty.Written() {
			continue
		}
		first := ""
		if n == 0 {
			first = "first "
		}
		if !same {
			c.Say(first, "counts in ", string(it.Qty.Unit), " not ", string(line.Qty.Unit))
			continue
		}
		kind := "pieces"
		if line.Qty.Unit != notes.Each {
			kind = "measure"
		}
		switch more := q.Value.Cmp(left); {
		case more > 0:
			c.Say(first, kind, " more than left")
		case more == 0 && left.Cmp(one) > 0 && ls.begun:
			c.Say(first, kind, " the rest")
		case more == 0 && left.Cmp(one) > 0:
			c.Say(first, kind, " all")
		case left.Cmp(one) == 0:
			c.Say(first, kind, " the only one")
		default:
			c.Say(first, kind, " some")
		}
	}
}

// context adds how the line stands, and whether what was said just before is about it.
func (c *lineClues) context(d *day, r *read, i int) {
	ls := &d.standing.lines[i]
	p := &r.facts.Progress
	begun := ls.begun || d.lines[i].touched
	c.When(ls.complete || d.lines[i].finished, "complete")
	c.When(ls.begun, "begun before")
	c.When(d.lines[i].touched, "touched today")
	rest := p.Rest || p.All || p.Complete == notes.Yes
	c.When(rest && begun, "the rest of what is begun")
	c.When(rest && !begun, "the rest of what is not begun")
	back := 0
	for k := len(d.reads) - 1; k >= 0 && back < 3; k-- {
		above := d.reads[k]
		if above == r || above.note != r.note || above.entry.Span.Start >= r.entry.Span.Start || len(above.lines) == 0 {
			continue
		}
		back++
		for _, l := range above.lines {
			if l == i {
				c.Say("said ", []string{"", "just above", "two above", "three above"}[back])
			}
			c.When(l == i-1 && back == 1, "next in order")
		}
	}
}

// linesText is the fitted model of lines: what each clue speaks for an entry meaning a line. TestFitLines writes it.
//
//go:embed lines.model
var linesText string

var linesModel = sync.OnceValue(func() *chance.Model { return chance.MustParse("lines.model", linesText) })

// weighLines gives each booked line, whether it shares a word with the entry or not, the chance that the entry means
// it: the lines are rivals of one another and of the chance that none is meant.
func (d *day) weighLines(r *read, ms []match) []match {
	c := &d.lineClues
	byLine := make([]*match, len(d.index.lines))
	for k := range ms {
		byLine[ms[k].line] = &ms[k]
	}
	kins, most := make([]int, len(byLine)), 0
	for i := range byLine {
		kins[i] = kinship(&r.query, &d.index.lines[i].query)
		most = max(most, kins[i])
	}
	withKin, withMost := 0, 0
	for _, k := range kins {
		if k > 0 {
			withKin++
		}
		if k == most {
			withMost++
		}
	}
	model := d.in.Lines
	if model == nil {
		model = linesModel()
	}
	score := func() float64 {
		sum := 0
		for _, f := range c.Of {
			if row := model.Row(f); row != nil {
				sum += int(row[0])
			}
		}
		return math.Exp(float64(sum) / 100)
	}
	var named [][]string
	all := make([]match, 0, len(byLine))
	total := 0.0
	for i := range byLine {
		c.gather(d, r, i, byLine[i])
		c.When(kins[i] > 0 && withKin == 1, "kin alone")
		c.When(kins[i] > 0 && kins[i] == most && withMost == 1, "most kin")
		c.When(kins[i] > 0 && kins[i] < most, "less kin than another")
		c.When(kins[i] == 0 && most > 0, "another has kin")
		c.When(len(ms) > 0 && ms[0].line == i, "fits best")
		c.When(len(ms) > 0 && byLine[i] == nil, "another fits")
		named = append(named, append([]string(nil), c.Names...))
		m := match{line: i}
		if byLine[i] != nil {
			m = *byLine[i]
		}
		m.odds = score()
		if m.veto == "" {
			total += m.odds
		}
		all = append(all, m)
	}
	c.none(r, ms)
	named = append(named, append([]string(nil), c.Names...))
	none := score()
	total += none
	r.noLine = none / total
	if d.in.OnLines != nil {
		d.in.OnLines(r.entry, named)
	}
	kept := all[:0]
	for _, m := range all {
		if m.veto != "" {
			m.p, m.despite = 0, round3(m.odds/(total+m.odds))
		} else {
			m.p = round3(m.odds / total)
		}
		if m.p >= 0.01 || byLine[m.line] != nil {
			kept = append(kept, m)
		}
	}
	slices.SortStableFunc(kept, func(a, b match) int {
		return cmp.Or(cmp.Compare(b.p, a.p), a.line-b.line)
	})
	return kept
}
