package parse

import (
	_ "embed"
	"slices"
	"sync"

	"jobday/chance"
	"jobday/notes"
)

// kindsText is the fitted model of kinds: what each clue speaks for. TestFit writes it.
//
//go:embed kinds.model
var kindsText string

var kinds = sync.OnceValue(func() *chance.Model { return chance.MustParse("kinds.model", kindsText) })

// weigh says what kind the last entry is by all of its clues, of which what the judges say is one, and keeps the
// clues on it: held against the booking, they are weighed once more.
func (r *noteReader) weigh(marks []mark, e evidence, in notes.Section, rule verdict) verdict {
	// whose hours are missing or unread: the office asks, rather than that they are lost
	switch {
	case in != notes.Time:
	case rule.kind == notes.TimeEntry && (onlyPeople(marks) || r.mayBeHours(marks)):
		return rule
	case rule.kind == notes.Circuit && r.mayBeHours(marks): // "ana 4 on panel 4 on pump"
		return verdict{kind: notes.TimeEntry, score: clearScore, why: "under Time", next: notes.Circuit, lead: clearScore}
	}
	n := len(r.note.Entries)
	s := setting{in: in, rule: rule, place: r.where.name() != "", behind: r.behind, box: r.store.box != notes.NoBox}
	if n > 1 {
		s.above = r.note.Entries[n-2].Kind
	}
	r.clues.Named = r.named
	r.clues.gather(marks, e, s)
	r.keepClues(&r.note.Entries[n-1], rule.kind)
	if r.behind || statesHours(e, in) {
		return rule
	}
	m := kinds()
	r.chances = m.Weigh(r.chances, r.clues.Of)
	if v, stands := headingStands(m, r.chances, in, rule); stands {
		return v
	}
	c := m.Choose(r.chances, notes.IsWeighty)
	v := verdict{kind: notes.Kind(m.Answers[c.Answer]), chance: 1 - c.Cost, next: notes.Kind(m.Answers[c.Next]), why: rule.why}
	if v.kind != rule.kind {
		v.why = r.speaking(marks, c)
	}
	return v
}

// onlyPeople reports whether words name people of the crew and say nothing of them.
func onlyPeople(marks []mark) bool {
	return len(marks) > 0 && !slices.ContainsFunc(marks, func(m mark) bool {
		return m.kind != signMark && !m.sign.has(named) && m.low != "and"
	})
}

// mayBeHours reports whether a short text under Time names somebody of the crew and has a number or a stretch of time
// among its first words: "ana 4 on panel 4 on pump", "half day bo".
func (r *noteReader) mayBeHours(marks []mark) bool {
	const short, head = 12, 4
	person, amount := false, false
	words := 0
	for i := range marks {
		m := &marks[i]
		switch {
		case m.kind == signMark:
			continue
		case m.sign.has(named), m.kind == wordMark && r.lex.Name(m.low) != "":
			person = true
		case m.kind == numberMark, stretchOfTime(m.low):
			amount = amount || words <= head
		}
		words++
	}
	return person && amount && words <= short
}

// stretchOfTime reports whether a word tells how long somebody worked, without a figure.
func stretchOfTime(low string) bool {
	switch low {
	case "day", "half", "shift", "morning", "afternoon", "hour", "hours", "hrs", "hr":
		return true
	}
	return false
}

// statesHours reports whether words under Time were read as hours: then they are somebody's, whatever they were for.
func statesHours(e evidence, in notes.Section) bool {
	return in == notes.Time && e.facts != nil && len(e.facts.Time) > 0
}

// overHeading is how likely another kind has to be to win over the heading a line stands beneath.
const overHeading = 0.85

// headingStands lets a heading other than Done, which says what its lines are, stand against all but the likeliest
// of rivals.
func headingStands(m *chance.Model, ps []float64, in notes.Section, rule verdict) (verdict, bool) {
	own := in.Kind()
	if in == "" || in == notes.Done || rule.kind != own {
		return verdict{}, false
	}
	for a, p := range ps {
		if p >= overHeading && notes.Kind(m.Answers[a]) != own {
			return verdict{}, false
		}
	}
	rule.chance = rule.sure()
	return rule, true
}

// speaking names the words that speak most for an answer rather than the next likely.
func (r *noteReader) speaking(marks []mark, c chance.Choice) string {
	var top, second string
	var most, more int16
	for i := range marks {
		if marks[i].kind != wordMark {
			continue
		}
		row := kinds().Row(chance.Name("word ").Then(marks[i].low))
		if row == nil {
			continue
		}
		switch w := row[c.Answer] - row[c.Next]; {
		case w > most:
			top, second, most, more = marks[i].low, top, w, most
		case w > more && marks[i].low != top:
			second, more = marks[i].low, w
		}
	}
	switch {
	case top == "":
		return "its words and where they stand speak for it"
	case second == "":
		return `"` + top + `" speaks for it`
	}
	return `"` + top + `" and "` + second + `" speak for it`
}

// keepClues puts the clues on an entry, and what the judges said.
func (r *noteReader) keepClues(e *notes.Entry, judged notes.Kind) {
	const piece = 1024
	if cap(r.clueMemory)-len(r.clueMemory) < len(r.clues.Of) {
		r.clueMemory = make([]uint64, 0, max(piece, len(r.clues.Of)))
	}
	from := len(r.clueMemory)
	for _, f := range r.clues.Of {
		r.clueMemory = append(r.clueMemory, uint64(f))
	}
	e.Judged = judged
	e.Clues = r.clueMemory[from:len(r.clueMemory):len(r.clueMemory)]
	if r.named {
		e.ClueNames = slices.Clone(r.clues.Names)
	}
}
