package parse

import (
	"strings"

	"jobday/notes"
)

// overrides say from which score words win over the section they stand in. What is not named
// never wins: a section is what the writer says it is. An extra and a fault hide anywhere.
var overrides = map[notes.Section]map[notes.Kind]int{
	notes.Done: {
		notes.Extra: 7, notes.Deficiency: 7, notes.LeftOpen: 7, notes.Question: 7, notes.Test: 7, notes.TimeEntry: 9,
		notes.Delivery: 7, notes.Delay: 8, notes.Material: 6, notes.SafetyCheck: 7, notes.EquipmentUse: 6, notes.Instruction: 6,
	},
	notes.Materials:      {notes.Extra: 8, notes.LeftOpen: 7, notes.Question: 9, notes.Delivery: 7, notes.Deficiency: 8, notes.TimeEntry: 7},
	notes.Extras:         {notes.Question: 9},
	notes.Deficiencies:   {notes.Question: 9},
	notes.Tests:          {notes.LeftOpen: 7, notes.Question: 9, notes.Deficiency: 8, notes.TimeEntry: 9},
	notes.Circuits:       {notes.Question: 9, notes.Work: clearScore, notes.TimeEntry: 9},
	notes.Time:           {notes.Question: 9},
	notes.Left:           {notes.TimeEntry: 9, notes.Extra: 7, notes.Deficiency: 8, notes.Question: 9},
	notes.Questions:      {notes.Extra: 8},
	notes.Deliveries:     {notes.TimeEntry: 9, notes.Extra: 8, notes.Question: 9},
	notes.Equipment:      {notes.Extra: 8, notes.Deficiency: 8, notes.Question: 9},
	notes.Delays:         {notes.Extra: 8, notes.Deficiency: 8, notes.Question: 9},
	notes.Instructions:   {notes.Extra: 8, notes.Question: 9},
	notes.Safety:         {notes.TimeEntry: 9, notes.Extra: 8, notes.Deficiency: 8, notes.Question: 9},
	notes.Conditions:     {notes.TimeEntry: 9, notes.Extra: 8, notes.Deficiency: 8, notes.Question: 9},
	notes.Subcontractors: {notes.Extra: 8, notes.Question: 9},
}

// telling are the signs that can make words win over the section they stand in, or part a line in
// two. Most lines under a heading have none of them.
const telling = asked | saidYes | saidNo | priceTold | notBooked | faulty | faultPhrase | leftOver | needs | questioned | machine | weathered |
	delivered | heldUp | secured | tested | instrument | clockSpan | looseSpan | soft | instructed | allWell | toPrice | clockOut | travelled

// plain reports whether nothing in the words can win over their section.
func (e evidence) plain(in notes.Section) bool {
	if e.signs.has(telling) || e.asks || e.first.low == "left" || in == notes.Done && e.signs.has(measured) || in == notes.Circuits && e.signs.has(workVerb) {
		return false
	}
	return e.facts == nil || e.facts.Consent.State == notes.NoConsent && !e.facts.Fault.Named && len(e.facts.Readings) == 0
}

// circuit reports whether a line below Circuits names spaces and what is in them, so that "tied" or
// "moved" is said of the circuit and tells of no work.
func (e evidence) circuit() bool {
	if e.facts == nil || e.asks || len(e.facts.Circuit.Spaces) == 0 {
		return false
	}
	c := e.facts.Circuit
	return c.Breaker != "" || c.Conductor != "" || c.Shared || len(c.Was) > 0 || len(c.Spaces) > 1
}

// judge says what a stretch of words is, in the section it stands in.
func judge(e evidence, in notes.Section) verdict {
	if in == "" {
		return judgeWords(e)
	}
	own := in.Kind()
	if e.plain(in) || in == notes.Circuits && e.circuit() {
		return verdict{kind: own, score: strongScore, why: underSection[in], lead: strongScore}
	}
	if in == notes.Deficiencies && e.signs.has(allWell) && !e.signs.has(faulty|faultPhrase) {
		return verdict{kind: notes.Narrative, score: strongScore, why: "says nothing was found", next: own, lead: strongScore}
	}
	v := judgeWords(e)
	if v.kind == notes.LeftOpen && in == notes.Done && e.first.low == "remaining" && e.words > 2 {
		v.score = 0 // "remaining six cans" are those done today
	}
	need, may := overrides[in][v.kind]
	if in == notes.Deficiencies && v.kind == notes.Extra && e.signs.all(asked|somebody) && !e.signs.has(faulty|faultPhrase|foundIt) {
		need, may = clearScore, true // somebody wants something, and nothing is wrong with anything
	}
	if v.kind != own && may && v.score >= need {
		v.why += ", under " + title(in)
		v.next, v.lead = own, max(v.score-weakScore, 1)
		return v
	}
	return verdict{kind: own, score: strongScore, why: underSection[in], lead: strongScore}
}

// underSection is why a line is of the kind of its section.
var underSection = func() map[notes.Section]string {
	m := map[notes.Section]string{}
	for _, s := range notes.Sections {
		m[s] = "under " + title(s)
	}
	return m
}()

// title writes a section's name as a heading does.
func title(s notes.Section) string { return sectionTitles[s] }

var sectionTitles = func() map[notes.Section]string {
	m := map[notes.Section]string{}
	for _, s := range notes.Sections {
		m[s] = strings.ToUpper(string(s[:1])) + string(s[1:])
	}
	return m
}()
