package parse

import "jobday/notes"

// workCuts parts a clause that tells of work on several things at the commas and "and"s between
// them: "espresso ckt in + tested, 3 pendants hung, gfci 2 of 4". Each part must name a thing of its
// own and say what became of it, or the comma only adds to what stands before: "pulled, 52 ft of
// 10/2 MC, box set".
func workCuts(cut []clause, marks []mark, c clause) []clause {
	cut = cut[:0]
	if s := signsOf(marks[c.from:c.to]); !s.has(outOf|counted) || !s.has(thing) {
		return append(cut, c)
	}
	rest := c
	for _, j := range softJoints(marks, c) {
		if j.from <= rest.from || !reportsOn(marks[rest.from:j.from], negated|soft|asked|needs) {
			continue
		}
		end := j.to + 1
		for end < c.to && marks[end].low != "," && marks[end].low != ";" {
			end++
		}
		if !beginsReport(marks[j.to:end], marks[rest.from:j.from]) {
			continue
		}
		cut = append(cut, clause{rest.from, j.from, rest.joint})
		rest = clause{j.to, c.to, comma}
	}
	return append(cut, rest)
}

// reports reports whether marks name a thing and say what became of it.
func reports(marks []mark) bool {
	return reportsOn(marks, negated|soft|asked|needs|leftOver)
}

// reportsOn is reports where other signs than usual speak against it.
func reportsOn(marks []mark, not sign) bool {
	s := signsOf(marks)
	return s.has(workVerb|progressed|outOf) && hasHead(marks) && !s.has(not)
}

// beginsReport reports whether marks begin a report of their own behind another: with a count of
// things and what became of them, with how many of how many, or, behind one of these, with a verb.
func beginsReport(marks, before []mark) bool {
	if !reports(marks) || signsOf(marks).has(measured) || marks[0].sign.has(pronoun) {
		return false
	}
	switch {
	case signsOf(marks).has(outOf):
		return true
	case marks[0].sign.has(counted):
		return !marks[0].sign.has(vague) && !(len(marks) > 1 && ratingWords[marks[1].low]) // "50 amp breaker in" counts none
	case marks[0].sign.has(whole) && marks[len(marks)-1].sign.has(workVerb|progressed):
		return len(marks) <= 4 && (signsOf(before).has(outOf) || before[0].sign.has(counted))
	case marks[0].sign.has(workVerb):
		return signsOf(before).has(outOf) || before[0].sign.has(counted)
	}
	return false
}

// hasHead reports whether marks name a thing that work is booked for, not only a part of it.
func hasHead(marks []mark) bool {
	for _, m := range marks {
		if m.kind == wordMark && m.sign.has(whole) {
			return true
		}
	}
	return false
}

// followsUp reports whether a sentence says more of the extra before it: that it was done, what it
// took, what was used: "put it in, took 1.5 hrs both of us, used 1 recept". What was used may be for
// anything where the extra was only asked for.
func (e evidence) followsUp(agreed bool) bool {
	s := e.signs
	if e.asks || s.has(machine|brokeDown|heldUp|delivered|notBooked|leftOver|outOf|questioned|asked|faultPhrase|foundIt|otherTrade) || s.has(clockSpan) && s.has(named) {
		return false
	}
	switch e.first.low {
	case "took", "used", "done", "finished", "about":
		return agreed && s.has(counted|duration|measured|workVerb|progressed)
	case "moved", "fixed", "replaced", "swapped", "relocated", "put", "did", "ran", "got", "made", "built", "hung", "set", "wired", "installed", "mounted", "added", "pulled", "we", "i":
		return s.has(pronoun) && !s.has(soft) && s.has(workVerb|spoken)
	}
	if agreed && e.first.sign.has(workVerb) && !s.has(whole|soft|measured|named) && s.has(progressed|counted) && e.words <= 4 {
		return true // "Lowered all six."
	}
	if s.has(duration) && !s.has(thing|workVerb|named|measured|clockSpan|looseSpan) {
		return true // "Half an hour."
	}
	return e.first.sign.has(pronoun) && e.first.low != "these" && s.has(duration|progressed)
}

// speaksOn reports whether a sentence has no subject of its own, or only "he" and "it", so that it is about
// the part before it: what somebody said to an extra, how the work just told of was tried, what kept the
// rest of it from being done.
func (e evidence) speaksOn(before part, v verdict) bool {
	s := e.signs
	if e.asks || s.has(machine|otherTrade|foundIt|faulty|faultPhrase) || s.has(clockSpan) {
		return false
	}
	pointing := e.first.sign.has(pronoun) || theirs[e.first.low] || e.first.sign.has(spoken) && e.first.low != "called"
	switch before.kind {
	case notes.Extra:
		if e.first.sign.has(somebody) && s.has(spoken|saidYes|saidNo) && !s.has(thing|workVerb|asked|soft) {
			return true // "Principal said go, wrote the order later"
		}
		return pointing && !s.has(asked|soft|notBooked|priceTold) && (v.kind == notes.LeftOpen || v.kind == notes.Extra || v.kind == notes.Instruction)
	case notes.Work:
		switch v.kind {
		case notes.Test:
			return e.first.sign.has(tested|workVerb) && !s.has(thing|instrument|counted)
		case notes.Delay, notes.LeftOpen:
			return s.has(leftOver) && s.has(negated|heldUp) && !s.has(whole|counted|workVerb) && e.words > 2 && before.own
		}
	}
	return false
}

// A labelled line gives its section to the bare lines right below it that say the same kind of
// thing: "parts: 3 cans" and, on the next line, "60' romex".
type labelled struct {
	section notes.Section
	block   int
	indent  int // in blanks
}

// carriedSection returns the section an item without a label stands in: the open one, or that of
// the label above it.
func (r *noteReader) carriedSection(it item, in notes.Section) notes.Section {
	s := r.carry.section
	if it.label != "" {
		r.carry = labelled{it.label, it.from.block, r.indented(it.from)}
		return it.label
	}
	if s != "" && it.label == "" && !it.from.item && it.from.block == r.carry.block && r.indented(it.from) > r.carry.indent {
		return s // all that stands indented below a label is of its section
	}
	if s == "" || it.from.item || it.from.block != r.carry.block || it.box != notes.NoBox {
		r.carry = labelled{}
		return in
	}
	e := evidenceOf(r.scan.scan(r.body[it.start:it.end], it.start), nil)
	v := judgeWords(e)
	list := s == notes.Materials || s == notes.Left
	switch {
	case v.kind == s.Kind():
		return s
	case list && v.score <= weakScore && e.signs.has(thing|counted) && !e.signs.has(workVerb|spoken|somebody|duration|clockSpan|looseSpan):
		return s
	}
	r.carry = labelled{}
	return in
}
