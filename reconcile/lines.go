package reconcile

import (
	"cmp"
	_ "embed"
	"math"
	"slices"
	"strings"
	"sync"

	"jobday/chance"
	"jobday/notes"
	"jobday/parse/field"
)

// linesText is the fitted model of lines: what each clue speaks for an entry meaning a line. TestFit writes it.
//
//go:embed lines.model
var linesText string

var builtInLines = sync.OnceValue(func() *lineWeights { return newLineWeights(chance.MustParse("lines.model", linesText)) })

// lineWeights are the weights of a model of lines, in hundredths of log odds.
type lineWeights struct {
	of    [lineClueLen]int
	model *chance.Model
}

func newLineWeights(m *chance.Model) *lineWeights {
	w := &lineWeights{model: m}
	for c, name := range lineClueNames {
		w.of[c] = w.named(chance.Name(name))
	}
	return w
}

// weightsOf returns the weights of a model, nil for the built-in one.
func weightsOf(m *chance.Model) *lineWeights {
	if m == nil {
		return builtInLines()
	}
	return newLineWeights(m)
}

// named returns the weight of a clue known by its name only, 0 where it says nothing.
func (w *lineWeights) named(f chance.Feature) int {
	if row := w.model.Row(f); row != nil {
		return int(row[0])
	}
	return 0
}

// A lineTally adds up what speaks for an entry meaning a line.
type lineTally struct {
	weights *lineWeights
	sum     int
	above   [][]int // the lines that the entries above are about, nearest first
	numbers []int   // of the entry's words

	keep  bool // the clues are kept: to be shown, or to fit weights by
	clues []lineClue
	said  []string // those that have only names
	by    []int    // and what they weigh
	order []weighed
}

func (t *lineTally) reset() { t.sum, t.clues, t.said, t.by = 0, t.clues[:0], t.said[:0], t.by[:0] }

func (t *lineTally) say(c lineClue) {
	t.sum += t.weights.of[c]
	if t.keep {
		t.clues = append(t.clues, c)
	}
}

func (t *lineTally) when(holds bool, c lineClue) {
	if holds {
		t.say(c)
	}
}

// word adds a clue that has only a name, whose parts are given.
func (t *lineTally) word(parts ...string) {
	f := chance.Name("")
	for _, p := range parts {
		f = f.Then(p)
	}
	w := t.weights.named(f)
	t.sum += w
	if t.keep {
		t.said, t.by = append(t.said, strings.Join(parts, "")), append(t.by, w)
	}
}

// names are the names of the clues kept.
func (t *lineTally) names() []string {
	all := slices.Clone(t.said)
	for _, c := range t.clues {
		all = append(all, lineClueNames[c])
	}
	return all
}

// odds are what the sum comes to.
func (t *lineTally) odds() float64 { return math.Exp(float64(t.sum) / 100) }

// A held is some words with what was read from them, to be held against the lines. Read is the entry they are, nil for
// a part of one.
type held struct {
	query *query
	facts *notes.Facts
	read  *read
}

// weighLines puts every line that the words may mean, likeliest first, in the memory of ms, and returns the chance that
// they mean none. The lines are rivals of one another and of that chance: together they are 1.
func (d *day) weighLines(ms []match, h held) (found []match, none float64) {
	ms = d.align(ms, h)
	t := &d.tally
	t.weights = d.lineWeights
	t.numbers = wholeNumbers(t.numbers, h.query.text)
	t.above = d.above(t.above, h.read)
	terms := d.termsOf(h.query)
	var named [][]string
	total := 0.0
	for i := range ms {
		m := &ms[i]
		d.tallyLine(t, h, m, terms)
		m.odds = t.odds()
		if m.veto == "" {
			total += m.odds
		}
		if t.keep {
			named = append(named, t.names())
		}
	}
	d.tallyNone(t, h, ms)
	none = t.odds()
	total += none
	if t.keep && h.read != nil && d.in.OnLines != nil {
		d.in.OnLines(h.read.entry, append(named, t.names()))
	}
	return ranked(ms, total), none / total
}

// align holds words against every line of the scope, and puts what of each line they share in the memory of ms.
func (d *day) align(ms []match, h held) []match {
	ix := d.index
	ix.readUnits(h.query)
	ix.alignTerms(h.query)
	d.anyTouched = ix.touch() > 0
	more := another(h.query.low())
	ms = slices.Grow(ms[:0], len(ix.lines))
	ix.shared = ix.shared[:0]
	for i, touched := range ix.touched {
		ms = append(ms, match{line: i, touched: touched})
		if !touched {
			continue
		}
		m := &ms[len(ms)-1]
		from := len(ix.shared)
		ix.weigh(&m.evidence, h.query, i)
		m.shared = ix.shared[from:]
		m.evidence.fromFacts(more, h.facts, &d.in.Job.Lines[i], &d.standing.lines[i])
		m.veto, m.place = h.query.contradicts(&ix.lines[i])
	}
	words := slices.Clone(ix.shared)
	for i := range ms {
		n := len(ms[i].shared)
		ms[i].shared, words = words[:n:n], words[n:]
	}
	return ms
}

// ranked gives each line its chance, and leaves out those that neither share a word nor are likely.
func ranked(ms []match, total float64) []match {
	const unlikely = 0.01
	kept := ms[:0]
	for _, m := range ms {
		if m.veto != "" {
			m.p, m.despite = 0, round3(m.odds/(total+m.odds))
		} else {
			m.p = round3(m.odds / total)
		}
		if m.touched || m.p >= unlikely {
			kept = append(kept, m)
		}
	}
	slices.SortStableFunc(kept, func(a, b match) int { return cmp.Or(cmp.Compare(b.p, a.p), a.line-b.line) })
	return kept
}

// above returns the lines of the entries about booked work above an entry in its note, nearest first.
func (d *day) above(lines [][]int, r *read) [][]int {
	lines = lines[:0]
	if r == nil {
		return lines
	}
	for k := r.at - 1; k >= 0 && len(lines) < mostAbove && d.reads[k].note == r.note; k-- {
		if len(d.reads[k].lines) > 0 {
			lines = append(lines, d.reads[k].lines)
		}
	}
	return lines
}

// entryTerms are the terms of an entry that count, each once, with what they say for each line.
type entryTerms struct {
	at     []int // their places in the query
	byLine []*termByLine
	where  []bool  // each says where
	heard  [][]int // the lines that each was used of before
	kin    []int   // how many go with each line
	most   int     // the most of these
	with   int     // how many lines any goes with
	ahead  int     // how many lines the most go with
	count  [5]int
}

func (d *day) termsOf(q *query) *entryTerms {
	e := &d.entryTerms
	e.where = e.where[:0]
	where := q.saysWhere()
	e.at, e.byLine, e.heard, e.kin = e.at[:0], e.byLine[:0], e.heard[:0], append(e.kin[:0], make([]int, len(d.index.lines))...)
	e.most, e.with, e.ahead, e.count = 0, 0, 0, [5]int{}
	for i := range q.terms {
		t := &q.terms[i]
		class := classOf(t.Class)
		if class < 0 || repeated(q.terms, i) {
			continue
		}
		b := d.byLine(t)
		e.at, e.byLine, e.heard = append(e.at, i), append(e.byLine, b), append(e.heard, d.heardOf(t))
		e.where = append(e.where, where[i])
		e.count[class]++
		for line := range e.kin {
			if b.kin[line]+b.roots[line] > 0 || b.equal[line] && speaks(t.Class) {
				e.kin[line]++
			}
		}
	}
	for _, n := range e.kin {
		if n > 0 {
			e.with++
		}
		switch {
		case n > e.most:
			e.most, e.ahead = n, 1
		case n == e.most:
			e.ahead++
		}
	}
	return e
}

// tallyLine adds up what speaks for the words meaning the line of m.
func (d *day) tallyLine(t *lineTally, h held, m *match, terms *entryTerms) {
	t.reset()
	i := m.line
	t.words(m)
	d.tallyTerms(t, h.query, i, terms)
	d.tallyWhere(t, h.query, i, terms)
	n := terms.kin[i]
	t.when(n > 0 && terms.with == 1, clueKinAlone)
	t.when(n > 0 && n == terms.most && terms.ahead == 1, clueMostKin)
	t.when(n > 0 && n < terms.most, clueLessKin)
	t.when(n == 0 && terms.most > 0, clueOtherKin)
	t.when(!m.touched && d.anyTouched, clueOtherFits)
	d.tallyWork(t, h.query, i)
	line := &d.in.Job.Lines[i]
	left := line.Qty.Value.Sub(d.standing.lines[i].toDate).Sub(d.lines[i].today)
	t.counts(h.facts, line, left, d.standing.lines[i].begun)
	t.number(t.numbers, line)
	t.context(d, h.facts, i)
}

// tallyTerms adds the terms an entry and line i share, those that may stand for one another, and those that were used
// of the line before.
func (d *day) tallyTerms(t *lineTally, q *query, i int, terms *entryTerms) {
	l := &d.index.lines[i]
	var both [5]int
	kin, roots, heard, alone := 0, 0, 0, 0
	ofHead, heads := false, false
	for k, b := range terms.byLine {
		term := &q.terms[terms.at[k]]
		if b.equal[i] {
			both[classOf(term.Class)]++
			t.when(terms.at[k] == q.head && l.head >= 0 && l.query.terms[l.head].Text == term.Text, clueSameHead)
			continue
		}
		if !speaks(term.Class) {
			continue
		}
		t.standFor(term, l, b.weight[i])
		kin, roots = kin+b.kin[i], roots+b.roots[i]
		ofHead = ofHead || b.ofHead[i]
		heads = heads || b.ofHead[i] && terms.at[k] == q.head
		if of := terms.heard[k]; slices.Contains(of, i) {
			heard++
			if len(of) == 1 {
				alone++
			}
		}
	}
	for c := range classes {
		group := clueShare + lineClue(c*shareStates)
		other, mine := l.count[c]-both[c], terms.count[c]-both[c]
		switch {
		case both[c] > 1:
			t.say(group + shareMore)
		case both[c] == 1:
			t.say(group + shareOne)
		case other > 0 && mine > 0:
			t.say(group + shareOther)
		case other > 0:
			t.say(group + lineOnly)
		case mine > 0:
			t.say(group + entryOnly)
		}
	}
	for n, more := range []bool{kin > 0, kin > 1, kin > 3} {
		t.when(more, clueKin+lineClue(n))
	}
	t.when(ofHead, clueKinOfHead)
	t.when(heads, clueKinHeads)
	t.when(roots > 0, clueRoot)
	t.when(roots > 1, clueRoot+1)
	t.when(heard == 1, clueHeard)
	t.when(heard > 1, clueHeard+1)
	t.when(alone == 1, clueHeard+2)
	t.when(alone > 1, clueHeard+3)
}

// standFor adds what the words of a line weigh that a term may stand for.
func (t *lineTally) standFor(term *field.Term, l *indexedLine, weight int) {
	if !t.keep {
		t.sum += weight
		return
	}
	for k := range l.query.terms {
		if u := &l.query.terms[k]; speaks(u.Class) && u.Text != term.Text && !repeated(l.query.terms, k) {
			t.word(standsFor, term.Text, forWord, u.Text, `"`)
		}
	}
}

// tallyWork adds the classes of work of an entry beside those of line i.
func (d *day) tallyWork(t *lineTally, q *query, i int) {
	if len(q.work) == 0 {
		d.tallyOneWork(t, "", i)
	}
	for _, does := range q.work {
		d.tallyOneWork(t, does, i)
	}
}

func (d *day) tallyOneWork(t *lineTally, does string, i int) {
	if !t.keep {
		t.sum += d.workByLine(does)[i]
		return
	}
	for _, name := range workNames(does, d.index.lines[i].query.work) {
		t.word(name)
	}
}

// tallyNone adds up what speaks for the words meaning no line.
func (d *day) tallyNone(t *lineTally, h held, ms []match) {
	t.reset()
	q := h.query
	t.say(clueNone)
	if h.read != nil {
		t.word("no line, read as ", string(h.read.entry.Judged))
		t.word("no line, consent ", h.facts.Consent.State.String())
	}
	t.when(!d.anyTouched, clueNoneShared)
	t.when(q.head < 0, clueNoneHead)
	t.when(!q.namesTrade(), clueNoneTrade)
	for _, w := range q.work {
		t.word(`no line, tells of "`, w, `"`)
	}
	for i := range q.terms {
		if c := q.terms[i].Class; c == field.OtherTerm || c == field.ThingTerm {
			t.word(`no line, says "`, q.terms[i].Text, `"`)
		}
	}
}

// heardOf returns the lines a word was used of before. Verbs are used of any.
func (s *standing) heardOf(t *field.Term) []int {
	if t.Class == field.VerbTerm {
		return nil
	}
	return s.spoken[t.Text]
}

// hear keeps the words of an entry that serves a line: who calls a thing by a name once will do so again.
func (s *standing) hear(q *query, line int) {
	for i := range q.terms {
		t := &q.terms[i]
		if speaks(t.Class) && t.Class != field.VerbTerm && !repeated(q.terms, i) && !slices.Contains(s.spoken[t.Text], line) {
			s.spoken[t.Text] = append(s.spoken[t.Text], line)
		}
	}
}
