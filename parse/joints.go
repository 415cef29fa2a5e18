package parse

import (
	_ "embed"
	"sync"

	"jobday/chance"
	"jobday/notes"
)

// jointsText is the fitted model of joints: what speaks for a text to part where two clauses or lines meet, and what
// for it to go on. TestFitJoints writes it.
//
//go:embed joints.model
var jointsText string

var joints = sync.OnceValue(func() *chance.Model { return chance.MustParse("joints.model", jointsText) })

// The answers of the model of joints.
const (
	partsThere = "part"
	readsOn    = "on"
)

// A meeting is a place where a text may part in two.
type meeting struct {
	how         string // the word or sign that joins, "line" for a line break, "above" for an entry above
	left, right int    // the mark behind the left part, and the first one of the right part
	rule        string // what the rules make of it: "part", "detail" or "on"

	of   int     // how many meetings the text has
	from float64 // how likely the text has to part here for it to be parted
	cut  bool    // the text parts here

	// Of a line break: the line above was full, as most of its block are; the line below is indented or begins small.
	full, even, indented, small bool
}

// A side is what stands on one side of a meeting.
type side struct {
	verdict
	signs sign
	words int
	edge  string // the frame of its mark at the meeting
}

func sideOf(marks []mark, in notes.Section) side {
	e := evidenceOf(marks, nil)
	s := side{verdict: judge(e, in), signs: e.signs, words: e.words}
	if len(marks) > 0 {
		s.edge = frame(&marks[len(marks)-1])
	}
	return s
}

// meetings returns where the clauses of a text meet.
func (r *noteReader) meetings() []meeting {
	ms := r.meetingMemory[:0]
	for n, c := range r.clauseMemory {
		switch {
		case n == 0:
		case c.joint == semicolon:
			ms = append(ms, meeting{how: ";", left: r.clauseMemory[n-1].to, right: c.from})
		default:
			ms = append(ms, meeting{how: ".", left: r.clauseMemory[n-1].to, right: c.from})
		}
	}
	r.meetingMemory = ms
	return ms
}

// weighJoints goes over the parts that the rules made, where all clues together speak for others.
func (r *noteReader) weighJoints(parts []part, text string, base int, in notes.Section, marks []mark) []part {
	ms := r.meetings()
	if len(ms) == 0 || in == notes.Time || len(parts) == 0 {
		return parts
	}
	from, changed := 0, false
	for i := range ms {
		m := &ms[i]
		to := len(marks)
		if i+1 < len(ms) {
			to = ms[i+1].left
		}
		m.of = len(ms)
		m.rule = ruleAt(parts, clause{m.right, to, noJoint}, text, marks)
		left, next := sideOf(marks[from:m.left], in), sideOf(marks[m.right:to], in)
		m.cut = m.rule == partsThere
		if !listOf(left.kind, next.kind) && (m.cut || !next.answers(left)) {
			m.cut = r.partsAt(*m, base+marks[m.right].start, in, left, next, marks[m.right:])
		}
		changed = changed || m.cut != (m.rule == partsThere)
		if m.cut {
			from = m.right
		}
	}
	if !changed {
		return parts
	}
	return r.recut(parts, ms, text, in, marks)
}

// answers reports whether words only say what somebody answered to an extra or a fault told before them: whose word
// there is must not be parted from what it was given for.
func (s side) answers(before side) bool {
	return (before.kind == notes.Extra || before.kind == notes.Deficiency) && s.signs.has(saidYes|saidNo) && !s.signs.has(thing|workVerb|asked)
}

// listOf reports whether two things are of a list that is parted as such.
func listOf(a, b notes.Kind) bool {
	return a == b && (a == notes.TimeEntry || a == notes.Material)
}

// ruleAt says what the rules make of the place where a clause begins.
func ruleAt(parts []part, c clause, text string, marks []mark) string {
	at, _ := c.bytes(text, marks)
	for _, p := range parts {
		if p.start == at {
			return partsThere
		}
		for _, d := range p.details {
			if d.start == at {
				return "detail"
			}
		}
	}
	return readsOn
}

// partsAt weighs whether a text parts where two sides meet; at is where the right one begins in the file.
func (r *noteReader) partsAt(m meeting, at int, in notes.Section, left, next side, rest []mark) bool {
	m.from = partFrom(m, left, next)
	r.joint.Named = r.atJoint != nil
	r.joint.gatherJoint(m, in, left, next, rest)
	if r.atJoint != nil {
		return r.atJoint(at, m, r.joint.Names)
	}
	r.chances = joints().Weigh(r.chances, r.joint.Of)
	return r.chances[0] >= m.from
}

// partFrom is how likely a text has to part for it to be parted there. To join what is another thing hides hours,
// an extra or a fault in words about something else; to part what is one makes an entry too many, which somebody sees.
// Where the rules see such a thing begin, and where a line was not full, joining costs about four times as much.
func partFrom(m meeting, left, next side) float64 {
	const even, dear, never = 0.5, 0.2, 0
	switch {
	case m.rule != partsThere:
		return even
	case next.kind == notes.TimeEntry && next.signs.has(clockSpan) && left.kind != next.kind:
		return never // somebody's hours
	case m.how == "line" && !m.full:
		return dear
	case left.kind == next.kind:
		return even
	}
	switch next.kind {
	case notes.TimeEntry, notes.Extra, notes.Deficiency:
		return dear
	}
	return even
}

// recut makes the parts anew where the text parts.
func (r *noteReader) recut(old []part, ms []meeting, text string, in notes.Section, marks []mark) []part {
	carried := old[0].carried
	var parts []part
	from := 0 // the first mark of the part
	lead := 0 // the mark behind its first sentence, 0 for none
	to := 0   // the mark behind it without its details
	var details []span
	end := func(last int) {
		if to == 0 {
			to = last
		}
		a, b := clause{from, to, noJoint}.bytes(text, marks)
		e := evidenceOf(marks[from:to], nil)
		p := part{span: span{a, b}, kind: judge(e, in).kind, signs: signsOf(marks[from:last]), own: e.signs.has(whole), details: details}
		if lead > 0 {
			la, lb := clause{from, lead, noJoint}.bytes(text, marks)
			p.lead = span{la, lb}
			p.kind = judge(evidenceOf(marks[from:lead], nil), in).kind
		}
		p.carried = carried && len(parts) == 0
		parts = append(parts, p)
		lead, to, details = 0, 0, nil
	}
	for i, m := range ms {
		next := len(marks)
		if i+1 < len(ms) {
			next = ms[i+1].left
		}
		switch {
		case m.cut:
			end(m.left)
			from = m.right
		case m.how == ";" || m.rule == "detail":
			if to == 0 {
				to = m.left
			}
			a, b := clause{m.right, next, noJoint}.bytes(text, marks)
			details = append(details, span{a, b})
		case len(details) > 0:
			_, details[len(details)-1].end = clause{m.right, next, noJoint}.bytes(text, marks)
		case m.how == "." && lead == 0:
			lead = m.left
		}
	}
	end(len(marks))
	return parts
}

// partsAtLine weighs whether a line below the item being gathered begins another; rule is whether it would go on.
func (r *noteReader) partsAtLine(l line, rule bool) bool {
	c, first := r.cur, r.body[l.start]
	m := meeting{
		how: "line", rule: partsThere, full: r.isFull(c.prev, l, r.wrap.width), even: r.wrap.even,
		indented: r.indented(l) > r.indented(c.from), small: 'a' <= first && first <= 'z',
	}
	if rule {
		m.rule = readsOn
	}
	in := r.section.name
	if c.label != "" {
		in = c.label
	}
	left := sideOf(r.scan.scan(r.body[c.prev.start:c.prev.end], c.prev.start), in)
	marks := r.scan.scan(r.body[l.start:l.end], l.start)
	if len(marks) == 0 {
		return !rule
	}
	return r.partsAt(m, l.start, in, left, sideOf(marks, in), marks)
}
