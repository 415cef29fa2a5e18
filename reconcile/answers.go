package reconcile

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"jobday/chance"
	"jobday/notes"
	"jobday/parse/field"
)

// These are fitted models of what a customer's word comes to, how far a fault is dealt with, and whether booked work is
// done. TestFit writes them.
//
//go:embed consent.model
var consentText string

//go:embed state.model
var stateText string

//go:embed done.model
var doneText string

var (
	consentModel = sync.OnceValue(func() *chance.Model { return chance.MustParse("consent.model", consentText) })
	stateModel   = sync.OnceValue(func() *chance.Model { return chance.MustParse("state.model", stateText) })
	doneModel    = sync.OnceValue(func() *chance.Model { return chance.MustParse("done.model", doneText) })
)

// How likely an answer has to be where the words were read to say nothing; what was read stands. Nobody's yes is
// ever guessed: it bills money. How far a danger is dealt with has to be likelier than the rest, and that it is, the
// words have to tell of work.
const (
	changeAt = 0.7
	acceptAt = 0.9
)

// weighAnswers weighs what became of an extra that nobody's word was read of, and of a deficiency of which nothing
// was read to be done, and whether booked work is. The entry is the one weighed last.
func (d *day) weighAnswers(r *read) {
	switch consent := r.facts.Consent.State; {
	case r.result.Outcome == notes.Extra && consent == notes.NoConsent:
		switch answer, p := d.likeliest(consentModel()); {
		case p < changeAt:
		case answer == notes.Asked.String():
			r.facts.Consent.State = notes.Asked
		case answer == notes.Declined.String():
			r.facts.Consent.State = notes.Declined
		}
	case r.result.Outcome == notes.Deficiency && consent != notes.Declined:
		d.faultState(r)
	case r.result.Outcome == notes.InScope && !r.facts.Progress.NotDone && r.entry.Box == notes.NoBox:
		switch answer, p := d.likeliest(doneModel()); {
		case answer == notDone && p >= changeAt:
			r.facts.Progress.Complete = notes.No
		case answer == isDone && p >= acceptAt && r.facts.Progress.Complete == notes.Unsaid:
			r.facts.Progress.Complete = notes.Yes // bills all that is left of it
		}
	}
}

// The answers of the model of what is done, besides that nothing is said of it.
const (
	isDone  = "yes"
	notDone = "no"
)

// faultState settles how far a fault is dealt with where its own words were not read to say so: what they and those
// behind them say, now that it is known that they tell of one, and else what is likely.
func (d *day) faultState(r *read) {
	state := &r.facts.Fault.State
	if *state != "" && *state != notes.FaultFound {
		return
	}
	lex := d.lexicon(r)
	if !r.facts.Fault.Named {
		*state = field.FaultState(r.entry.Span.Text(), lex)
	}
	for i := range r.entry.Details {
		if said := field.FaultState(r.entry.Details[i].Text, lex); said != "" && said != notes.FaultFound {
			*state = said // "the splice was burnt; cut it back and remade it"
		}
	}
	if *state == "" {
		*state = d.likeliestState(r)
	}
}

// likeliestState returns how far a fault is dealt with, "" where nothing is likely enough.
func (d *day) likeliestState(r *read) notes.FaultState {
	answer, p := d.likeliest(stateModel())
	if p < acceptAt {
		return ""
	}
	switch state := notes.FaultState(strings.ReplaceAll(answer, "-", " ")); state { // answers hold no blanks
	case notes.FaultLeft, notes.FaultDeclined:
		return state
	case notes.FaultCorrected, notes.FaultMadeSafe:
		if len(r.query.work) > 0 {
			return state
		}
	}
	return ""
}

// likeliest returns what a model takes for likeliest of the entry weighed last, and its chance.
func (d *day) likeliest(m *chance.Model) (answer string, p float64) {
	d.chances = m.Weigh(d.chances, d.features)
	p = slices.Max(d.chances)
	return m.Answers[slices.Index(d.chances, p)], p
}
