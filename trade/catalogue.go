package trade

import (
	"slices"
	"strings"

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

// A Catalogue is the kinds of deficiency a shop works with: the built-in ones, and its own where
// it has any. The zero value is the built-in catalogue. It is read-only and may be shared.
type Catalogue struct{ index *phraseIndex }

// MostPhraseWords is how many words a phrase may have, and MostOwnPhrases how many phrases a
// shop's own kinds may have together; NewCatalogue leaves out what goes beyond.
const (
	MostPhraseWords = 8
	MostOwnPhrases  = 2000
)

// A Fold is a word of the phrases with what people write for it.
type Fold struct {
	Word  string
	Forms []string
}

// NewCatalogue returns the built-in catalogue with a shop's own kinds. One with the slug of a
// built-in kind takes its place; the others come behind the built-in ones, in the order given.
// What folds says people write for a word comes before the built-in vocabulary of deficiencies.
func NewCatalogue(own []Kind, folds []Fold) Catalogue {
	if len(own)+len(folds) == 0 {
		return Catalogue{}
	}
	list := slices.Clone(kinds)
	for _, k := range own {
		k.Phrases = plainPhrases(k.Phrases)
		if at := slices.IndexFunc(list, func(h Kind) bool { return h.Slug == k.Slug }); at >= 0 {
			list[at] = k
			continue
		}
		list = append(list, k)
	}
	return Catalogue{buildPhrases(list, folds)}
}

// plainPhrases writes phrases as the built-in ones are: lower case, without the words that carry no
// meaning, and with the parts of "hub-lock" and "12V" as words of their own.
func plainPhrases(list []string) []string {
	var plain []string
	for _, text := range list {
		var words []string
		for alternatives := range strings.FieldsSeq(text) {
			if strings.Contains(alternatives, "|") {
				words = append(words, strings.ToLower(strings.Trim(alternatives, "|")))
				continue
			}
			for _, j := range jots(alternatives) {
				if !j.filler {
					words = append(words, lowerWord(alternatives[j.start:j.end]))
				}
			}
		}
		if len(words) > 0 {
			plain = append(plain, strings.Join(words, " "))
		}
	}
	return plain
}

// all returns the index of the catalogue.
func (c Catalogue) all() *phraseIndex {
	if c.index == nil {
		return phrases()
	}
	return c.index
}

// Kinds returns every kind in the order of the catalogue. The caller owns the slice.
func (c Catalogue) Kinds() []Kind { return slices.Clone(c.list()) }

func (c Catalogue) list() []Kind {
	if c.index == nil {
		return kinds // a look-up by slug needs no index
	}
	return c.index.kinds
}

// KindOf returns the kind with the slug, and false when there is none.
func (c Catalogue) KindOf(slug string) (Kind, bool) {
	list := c.list()
	for i := range list {
		if list[i].Slug == slug {
			return list[i], true
		}
	}
	return Kind{}, false
}

// Kinds returns every kind of the built-in catalogue. The caller owns the slice.
func Kinds() []Kind { return Catalogue{}.Kinds() }

// KindOf returns the built-in kind with the slug, and false when there is none.
func KindOf(slug string) (Kind, bool) { return Catalogue{}.KindOf(slug) }

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
