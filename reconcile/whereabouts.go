package reconcile

import (
	"slices"
	"strings"

	"jobday/parse/field"
)

// How the words that say where of an entry stand to those of a line.
const (
	whereNone   = iota // neither says
	whereEntry         // only the entry says
	whereLine          // only the line says
	whereAll           // the line has all that the entry says
	whereSome          // it has some
	whereNear          // it has none, though words that go together
	whereOther         // each says another
	whereStates        // how many there are
)

var whereNames = [whereStates]string{"nothing said where", "only it says where", "only the line says where", "the same whereabouts", "some of its whereabouts",
	"like whereabouts", "other whereabouts"}

// How what an entry is about stands to what a line is about.
const (
	aboutNone = iota // the entry names no thing
	aboutSame
	aboutLike  // they go together, or the line has it
	aboutOther // it is no word of the line
	aboutStates
)

var aboutNames = [aboutStates]string{"naming nothing", "the same thing", "a like thing", "another thing"}

// saysWhere reports for each term whether it tells one of several like things from another: its place, a machine it serves,
// a panel. It is never what the words are about.
func (q *query) saysWhere() []bool {
	where := make([]bool, len(q.terms))
	ahead := q.aheadOf()
	for i := range q.terms {
		t := &q.terms[i]
		if i == q.head {
			continue
		}
		switch t.Class {
		case field.PlaceTerm:
			where[i] = true
		case field.OtherTerm:
			where[i] = q.qualifies[i] || q.beyondClause(i) || t.End <= ahead || i < q.head
		case field.ThingTerm:
			where[i] = q.qualifies[i] || q.beyondClause(i) || t.End <= ahead
		case field.DesignationTerm:
			where[i] = identifies(t.Dim) || t.Dim == "model" || t.Dim == "equipment"
		}
	}
	return where
}

// aheadOf returns where the words end that are set ahead of what was done: "sail loft: 2 fans", "barn - fan up".
func (q *query) aheadOf() int {
	const most = 40
	for _, mark := range []string{": ", " - ", " – "} {
		if at := strings.Index(q.text, mark); at > 0 && at < most {
			return at
		}
	}
	return 0
}

// tallyWhere adds how the whereabouts of an entry stand to those of line i.
func (d *day) tallyWhere(t *lineTally, q *query, i int, terms *entryTerms) {
	l := &d.index.lines[i]
	mine, same, near, elsewhere := 0, 0, 0, 0
	about := aboutOther
	if q.head < 0 {
		about = aboutNone
	}
	for k, b := range terms.byLine {
		at := terms.at[k]
		term := &q.terms[at]
		s, in := inLine(d.index.hits[at], l)
		like := b.kin[i]+b.roots[i] > 0 || b.weight[i] >= likely
		if at == q.head {
			switch {
			case in >= 0 && l.terms[in].head && s > 0:
				about = aboutSame
			case in >= 0 || like:
				about = aboutLike
			}
		}
		if !terms.where[k] {
			continue
		}
		mine++
		switch {
		case in >= 0 && s > 0 || l.inSpan(term):
			same++
		case like || slices.Contains(terms.heard[k], i):
			near++
		case len(d.index.hits[at]) > 0:
			elsewhere++
		}
	}
	state := whereNone
	switch {
	case mine == 0 && l.wheres > 0:
		state = whereLine
	case mine == 0:
	case same == mine:
		state = whereAll
	case same > 0:
		state = whereSome
	case near > 0:
		state = whereNear
	case l.wheres > 0:
		state = whereOther
	default:
		state = whereEntry
	}
	t.say(clueWhere + lineClue(state))
	t.say(clueWhereAbout + lineClue(about*whereStates+state))
	t.when(elsewhere > 0, clueElsewhere)
	t.when(elsewhere > 0 && same == 0 && near == 0, clueElsewhere+1)
	t.when(mine-same-near-elsewhere > 0, clueElsewhere+2)
}

// likely is from what weight, in hundredths of log odds, a word may stand for another.
const likely = 40
