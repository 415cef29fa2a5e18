package trade

import (
	"slices"

	"jobday/notes"
)

// Kind is one kind of deficiency: what is wrong, why it matters and what usually puts it right.
// All words are our own. Unless a rule is marked checked, they are from memory.
type Kind struct {
	Slug       string // stable name, "box-cover-missing"
	Title      string // plain words
	LookFor    string // what shows it
	Hazard     string // one of Hazards
	Severity   notes.Severity
	Why        string // why it matters, for a customer
	Correction string // what usually puts it right
	Caution    string
	FollowUp   string      // what is still wanted once it is put right; "none" for nothing
	Code       []Reference // empty for good practice without a rule
	Phrases    []string    // words that announce it; see deficiencies.yaml for how they are read
}

// Reference points to a section of a code or standard.
type Reference struct {
	Code     string   // "NEC", "IRC", "NFPA 72", ...
	Section  string   // "210.8(A)"
	Editions []string // the NEC editions it stands in; for another document that document's own editions
	Checked  bool     // read on a published page; else from memory
}

// Hazards lists the classes of hazard a Kind may have.
var Hazards = []string{"shock", "fire", "water", "overload", "access", "documentation"}

// Editions lists the NEC editions the catalogue knows, oldest first.
var Editions = []string{"2017", "2020", "2023"}

// GoodPractice stands in a rule's Code for a kind that no rule covers in the edition.
const GoodPractice = "good practice"

// ToBeJudged is the hazard of a deficiency of no known kind: an office person decides.
const ToBeJudged = "to be judged"

// Kinds returns every kind of deficiency in the order of the catalogue. The caller owns the slice.
func Kinds() []Kind { return slices.Clone(kinds) }

// KindOf returns the kind with the slug, and false when there is none.
func KindOf(slug string) (Kind, bool) {
	for i := range kinds {
		if kinds[i].Slug == slug {
			return kinds[i], true
		}
	}
	return Kind{}, false
}

// RulesFor returns the rules of the kind in an NEC edition ("2017", "2020", "2023"), in the order
// of the catalogue. Rules of another document are given with that document's edition of the same
// years. A kind without a rule in the edition gives one row whose Code is GoodPractice; an edition
// the catalogue does not know gives none, for nothing is claimed about it. The result is never nil.
func (k Kind) RulesFor(edition string) []notes.CodeRule {
	at := slices.Index(Editions, edition)
	rules := []notes.CodeRule{}
	if at < 0 {
		return rules
	}
	for _, r := range k.Code {
		switch {
		case r.Code != "NEC" && at < len(r.Editions):
			rules = append(rules, notes.CodeRule{Code: r.Code, Edition: r.Editions[at], Section: r.Section})
		case r.Code == "NEC" && slices.Contains(r.Editions, edition):
			rules = append(rules, notes.CodeRule{Code: r.Code, Edition: edition, Section: r.Section})
		}
	}
	if len(rules) == 0 {
		return []notes.CodeRule{{Code: GoodPractice}}
	}
	return rules
}

// foldedWord is a word of the phrases with what people write for it.
type foldedWord struct {
	word  string
	forms []string
}
