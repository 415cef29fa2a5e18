package parse

import "jobday/notes"

// divide parts an item into what becomes entries.
func (r *noteReader) divide(text string, base int, in notes.Section, marks []mark) []part {
	parts := r.partMemory[:0]
	r.clauseMemory = clauses(r.clauseMemory, text, marks)
	for _, c := range r.clauseMemory {
		whole := evidenceOf(marks[c.from:c.to], nil)
		v := judge(whole, in)
		a, b := c.bytes(text, marks)
		if len(r.clauseMemory) > 1 && in == "" && v.kind == notes.Narrative && !whole.asks {
			if facts := r.facts(text[a:b], in); facts.Fault.Named {
				whole.facts = &facts // words of a kind of fault: "has green corrosion on the blades"
				v = judge(whole, in)
			}
		}
		if n := len(parts); n > 0 && in == "" && v.kind == notes.Deficiency && parts[n-1].kind == notes.Narrative && whole.first.sign.has(foundIt) && whole.signs.has(pronoun) {
			p := &parts[n-1] // "has 277 on the white. traced it to a swapped neutral, fixed"
			p.end, p.lead, p.kind, p.signs = b, span{a, b}, v.kind, p.signs|whole.signs
			continue
		}
		if n := len(parts); n > 0 && belongs(whole, v, parts[n-1], c.joint, in) {
			p := &parts[n-1]
			if c.joint == semicolon || len(p.details) > 0 {
				p.details = append(p.details, span{a, b})
			} else {
				if p.lead.end == 0 {
					p.lead = p.span
				}
				p.end = b
			}
			p.signs |= whole.signs
			if p.signs.all(asked|somebody) && p.signs.has(saidYes) {
				p.kind = notes.Extra
			}
			continue
		}
		if n := len(parts); n > 0 && parts[n-1].kind == notes.Extra && v.kind != notes.Extra && whole.followsUp(parts[n-1].signs.has(saidYes|soft)) {
			parts[n-1].details = append(parts[n-1].details, span{a, b})
			continue
		}
		if len(parts) == 0 && (in == "" && whole.attribute() && !(whole.signs.has(saidNo) && whole.words > 4) || r.moreOfExtra(whole, v, in)) &&
			!r.partsFromAbove(c, v, base, in, marks) {
			parts = append(parts, part{span: span{a, b}, kind: v.kind, signs: whole.signs, carried: true})
			continue
		}
		r.cutMemory = cutAt(r.cutMemory, marks, c, in)
		for _, cut := range r.cutMemory {
			r.divideWork(text, in, marks, cut, &parts)
		}
	}
	r.partMemory = parts
	return r.weighJoints(parts, text, base, in, marks)
}

// partsFromAbove reports whether a clause that the rules take for more of the entry above is one of its own.
func (r *noteReader) partsFromAbove(c clause, v verdict, base int, in notes.Section, marks []mark) bool {
	if r.last < 0 || r.last >= len(r.note.Entries) {
		return false
	}
	above := &r.note.Entries[r.last]
	left := side{verdict: verdict{kind: above.Kind, score: clearScore}, edge: "above"}
	e := evidenceOf(marks[c.from:c.to], nil)
	next := side{verdict: v, signs: e.signs, words: e.words}
	return r.partsAt(meeting{how: "above", left: c.from, right: c.from, rule: readsOn}, base+marks[c.from].start, in, left, next, marks[c.from:])
}

// divideWork adds the parts of a clause: one, or more where it tells of work on several things.
func (r *noteReader) divideWork(text string, in notes.Section, marks []mark, c clause, parts *[]part) {
	e := evidenceOf(marks[c.from:c.to], nil)
	kind := judge(e, in).kind
	cuts := append(r.workMemory[:0], c)
	if kind == notes.Work && (in == "" || in == notes.Done) {
		cuts = workCuts(r.workMemory, marks, c)
	}
	r.workMemory = cuts
	for _, cut := range cuts {
		a, b := cut.bytes(text, marks)
		*parts = append(*parts, part{span: span{a, b}, kind: kind, signs: e.signs, own: e.signs.has(whole)})
	}
}

// moreOfExtra reports whether the first clause of a line says more of the extra that the line above
// it told of.
func (r *noteReader) moreOfExtra(e evidence, v verdict, in notes.Section) bool {
	if r.last < 0 || r.last >= len(r.note.Entries) || v.kind == notes.Extra && in != notes.Extras {
		return false
	}
	above := &r.note.Entries[r.last]
	if above.Kind != notes.Extra || above.Section != in || r.store.box != notes.NoBox || opensOffer[e.first.low] {
		return false
	}
	done := in == notes.Extras || above.Facts.Consent.State == notes.Authorized
	if e.first.low == "used" && e.words > 12 || e.signs.has(saidNo) && e.words > 4 && in != notes.Extras {
		return false // a list of what the day took; a refusal of its own
	}
	return e.followsUp(done) || in == notes.Extras && (e.attribute() || e.signs.has(measured) && !e.signs.has(workVerb|soft|asked))
}

// opensOffer are words that begin an offer of its own, whatever it is an offer of.
var opensOffer = map[string]bool{"offered": true, "proposed": true, "suggested": true, "recommended": true, "quoted": true}

// belongs reports whether a clause says more of the part before it rather than something new.
func belongs(e evidence, v verdict, before part, j joint, in notes.Section) bool {
	switch {
	case in == notes.Time:
		return j != semicolon && j != fullStop || !e.signs.has(named)
	case in == "" && before.kind == notes.TimeEntry && before.signs.has(named) && e.signs.has(named) && e.signs.has(duration|clockSpan|looseSpan):
		return false // "Ben 8 hrs; Ana 6 hrs"
	case e.attribute():
		return before.kind != notes.Narrative
	case before.kind == notes.TimeEntry && e.signs.has(mealBreak) && !e.signs.has(workVerb|thing|clockSpan|looseSpan|named):
		return true // "30 lunch for the full day guys"
	case e.speaksOn(before, v):
		return true
	case v.kind == notes.Extra && before.kind == notes.Extra && in == "" && !e.signs.has(thing|workVerb|asked):
		return true // "I said it is not on our sheet"
	case v.kind == before.kind:
		if in == notes.Done && j == fullStop && v.kind == notes.Work && (e.head || e.first.sign.has(negated) && e.words > 2) {
			return false // "2 heads, horn. no key to the garage"
		}
		if in == "" && j == semicolon && v.kind == notes.Work && (e.head && e.first.sign.has(whole) ||
			e.first.sign.has(counted) && !e.first.sign.has(vague) && e.signs.has(thing)) {
			return false
		}
		return in != "" || v.kind == notes.Narrative || j == semicolon
	case before.kind == notes.Deficiency:
		return v.kind == notes.Work || v.kind == notes.Narrative || in == notes.Deficiencies && v.kind != notes.Question
	case before.kind == notes.Extra:
		return in == notes.Extras && v.score < 9 || v.kind == notes.Narrative || v.kind == notes.Material || j == semicolon && v.kind == notes.Work
	case in != "" && v.kind == in.Kind():
		return true
	case j == semicolon:
		return v.score < clearScore || v.kind == notes.Material && before.kind == notes.Work
	}
	return false
}
