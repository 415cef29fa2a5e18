package reconcile

import (
	_ "embed"
	"slices"
	"sync"

	"jobday/chance"
	"jobday/notes"
)

// consentText and stateText are fitted models of what a customer's word comes to and how far a fault is dealt
// with. TestFit writes them.
//
//go:embed consent.model
var consentText string

//go:embed state.model
var stateText string

var (
	consentModel = sync.OnceValue(func() *chance.Model { return mustParse("consent.model", consentText) })
	stateModel   = sync.OnceValue(func() *chance.Model { return mustParse("state.model", stateText) })
)

func mustParse(name, text string) *chance.Model {
	m, err := chance.Parse(text)
	if err != nil {
		panic(name + ": " + err.Error()) // a fault of the build, not of any input
	}
	return m
}

// How likely an answer has to be where the words were read to say nothing; what was read stands. Nobody's yes is
// ever guessed: it bills money. "Corrected" closes a
// danger: it has to be likelier than what stays open, and the words have to tell of work.
const (
	changeAt = 0.7
	acceptAt = 0.9
)

// weighAnswers weighs what became of an extra that nobody's word was read of, and of a deficiency of which nothing
// was read to be done.
func (d *day) weighAnswers(r *read) {
	if len(r.entry.Clues) == 0 || d.fit.named {
		return
	}
	switch r.result.Outcome {
	case notes.Extra:
		answer, p := d.likeliest(consentModel())
		state := consentOf[answer]
		if r.facts.Consent.State == notes.NoConsent && p >= changeAt && state != notes.Authorized {
			r.facts.Consent.State = state
		}
	case notes.Deficiency:
		answer, p := d.likeliest(stateModel())
		state := notes.FaultState(answer)
		if state == notes.FaultFound {
			state = ""
		}
		closes := state == notes.FaultCorrected || state == notes.FaultMadeSafe
		if r.facts.Fault.State == "" && r.facts.Consent.State != notes.Declined && (p >= changeAt && !closes || p >= acceptAt && len(r.query.work) > 0) {
			r.facts.Fault.State = state
		}
	}
}

var consentOf = map[string]notes.ConsentState{"none": notes.NoConsent, "asked": notes.Asked, "authorized": notes.Authorized, "declined": notes.Declined}

// likeliest returns what a model takes for likeliest of the entry weighed last, and its chance.
func (d *day) likeliest(m *chance.Model) (answer string, p float64) {
	d.chances = m.Weigh(d.chances, d.features)
	p = slices.Max(d.chances)
	// The text of a model holds no blanks within an answer.
	return answerNames[m.Answers[slices.Index(d.chances, p)]], p
}

// answerNames are the answers as they are written elsewhere.
var answerNames = map[string]string{
	"none": "none", "asked": "asked", "authorized": "authorized", "declined": "declined",
	"found": "found", "made-safe": "made safe", "corrected": "corrected", "left": "left",
}
