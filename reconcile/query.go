package reconcile

import (
	"slices"
	"strconv"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// A query is the words of an entry or of a line, ready to be held against one another.
type query struct {
	text  string
	lower string // see low
	words trade.Words
	terms []field.Term
	// qualifies says, for each term, that it stands behind a preposition: "at the PREP COUNTER",
	// "for the PROOFING CABINET". Such words say which one, not what.
	qualifies []bool
	head      int      // index of the term that names the thing itself, -1 when there is none
	clause    int      // how many terms stand in the first clause
	spread    int      // from here terms are numbered things read out of lists and ranges
	work      []string // classes of its verbs, without repeats
	numbers   []int    // bare numbers that may say which one: "#3", "in 5", "doors 1, 2 and 3"
}

// newQuery reads the words of text, the shop's own among them.
func newQuery(text string, words trade.Words) query {
	return queryOf(text, field.TermsIn(text, words), words)
}

// queryOf is newQuery for a text whose terms were read before. The terms are not changed.
func queryOf(text string, terms []notes.Term, words trade.Words) query {
	q := query{text: text, words: words, terms: meaningful(terms), head: -1}
	q.qualifies = make([]bool, len(q.terms), len(q.terms)+2)
	behind, first, last := false, true, 0
	for i, t := range q.terms {
		between := ""
		if t.Start > last {
			between = text[last:t.Start]
		}
		last = t.End
		if clauseEnds(between) {
			behind, first = false, i == 0
		}
		if joins(between) || t.Class == field.VerbTerm {
			behind = false
		}
		if preposition(between) {
			behind = true
		}
		q.qualifies[i] = behind
		if first {
			q.clause = i + 1
		}
		switch {
		case behind || !first || !named(t):
		case q.head < 0:
			q.head = i
		case q.head == i-1 && strings.TrimSpace(between) == "":
			q.head = i // "hood lights": the last noun of the run is the thing, the others say which
		}
	}
	if q.head < 0 {
		q.head = firstThing(q.terms[:q.clause])
	}
	if q.head < 0 {
		q.head = firstThing(q.terms)
	}
	q.number()
	q.bareNumbers()
	q.work = q.readVerbs()
	return q
}

// thing returns what the words are about in the trade's word, "" when they name nothing known: the
// thing that is named, not the place or purpose behind a preposition, where there is a choice.
func (q *query) thing() string {
	if q.head >= 0 && q.terms[q.head].Class == field.ThingTerm {
		return q.terms[q.head].Text
	}
	behind := ""
	for i, t := range q.terms {
		switch {
		case t.Class != field.ThingTerm:
		case !q.qualifies[i]:
			return t.Text
		case behind == "":
			behind = t.Text
		}
	}
	return behind
}

// withoutNames returns the terms of an entry less the names of those who worked or said yes: they do
// not say what the work was.
func withoutNames(f notes.Facts) []notes.Term {
	in := func(p notes.Piece, t notes.Term) bool { return p.Start <= t.Start && t.End <= p.End }
	name := func(t notes.Term) bool {
		if t.Class != field.OtherTerm {
			return false
		}
		for _, row := range f.Time {
			if in(row.Piece, t) {
				return true
			}
		}
		return in(f.Consent.Piece, t)
	}
	if !slices.ContainsFunc(f.Terms, name) {
		return f.Terms
	}
	return slices.DeleteFunc(slices.Clone(f.Terms), name)
}

// meaningful leaves out words that tell no two lines apart.
func meaningful(terms []field.Term) []field.Term {
	kept := make([]field.Term, 0, len(terms)+2)
	for _, t := range terms {
		if t.Class == field.OtherTerm && tellsNothing[t.Text] || t.Class == field.PlaceTerm && t.Text == "end" {
			continue
		}
		kept = append(kept, t)
	}
	return kept
}

var tellsNothing = map[string]bool{
	"first": true, "second": true, "third": true, "fourth": true, "last": true, "next": true, "working": true,
	"good": true, "today": true, "yesterday": true, "complete": true, "finished": true, "done": true,
	"ready": true, "started": true, "nice": true, "ok": true, "everything": true, "work": true, "works": true,
	"got": true, "access": true, "same": true, "ditto": true, "ok'd": true, "took": true, "okd": true, "too": true, "bright": true, "waiting": true, "wait": true, "waits": true, "unit": true, "units": true, "job": true,
}

// bareNumbers keeps the numbers without a unit of the first clause.
func (q *query) bareNumbers() {
	for i, t := range q.terms[:q.spread] {
		if i >= q.clause+2 || t.Class != field.NumberTerm || t.Dim != "" {
			continue
		}
		if n, ok := smallNumber(t.Text); ok && len(q.numbers) < 4 {
			q.numbers = append(q.numbers, n)
		}
	}
}

// clauseEnds reports whether the text between two terms ends a clause.
func clauseEnds(between string) bool {
	return strings.ContainsAny(between, ",;.()") || strings.Contains(between, " - ")
}

// named reports whether a term names something: a thing of the trade, or a word the trade does not
// know, such as what a customer's machine is called.
func named(t field.Term) bool { return t.Class == field.ThingTerm || t.Class == field.OtherTerm }

// firstThing returns the index of the first term that names something, or of the first trait when
// nothing does ("8 vapor tights"), or -1.
func firstThing(terms []field.Term) int {
	trait := -1
	for i, t := range terms {
		if named(t) {
			return i
		}
		if trait < 0 && t.Class == field.TraitTerm {
			trait = i
		}
	}
	return trait
}

// elsewhere returns the query of an entry that repeats this one for another place ("unit 6: same"):
// the things of q with the places of text.
func (q *query) elsewhere(text string) query {
	var b strings.Builder
	b.WriteString(text)
	for i, t := range q.terms {
		if t.Class != field.PlaceTerm && !q.qualifies[i] {
			b.WriteByte(' ')
			b.WriteString(t.Text)
		}
	}
	return newQuery(b.String(), q.words)
}

// says reports whether the query has anything to match by.
func (q *query) says() bool {
	for _, t := range q.terms {
		if named(t) || t.Class == field.DesignationTerm {
			return true
		}
	}
	return false
}

// namesTrade reports whether the words name a thing or a designation the trade knows.
func (q *query) namesTrade() bool {
	for i, t := range q.terms {
		if t.Class == field.ThingTerm || t.Class == field.DesignationTerm || t.Class == field.TraitTerm && i == q.head {
			return true // a property may stand for the thing: "added quad behind the mirror"
		}
	}
	return false
}

// tradeVerb reports whether the words name work of the trade.
func (q *query) tradeVerb() bool {
	for _, v := range q.verbs() {
		switch v {
		case "install", "replace", "remove", "relocate", "repair", "pull", "land", "connect", "trim", "rough", "makeup", "label", "trace",
			"troubleshoot", "disconnect", "energize", "bond", "program", "extend", "dig", "drill":
			return true
		}
	}
	return false
}

// act returns the class of work a line is booked as, when it is one that makes other work of it than
// putting in the things it names: "Label disconnects", "Demo existing lighting", "Trench to the barn".
func (q *query) act() string {
	if len(q.terms) == 0 || q.terms[0].Class != field.VerbTerm {
		return ""
	}
	switch v := q.terms[0].Dim; v {
	case "dig", "label", "trace", "remove", "test", "program", "bond", "seal", "drill", "troubleshoot", "relocate", "secure":
		return v
	}
	return ""
}

// unknown reports whether what the words are about is nothing the trade knows.
func (q *query) unknown() bool {
	return !q.namesTrade() && (q.head < 0 || q.terms[q.head].Class == field.OtherTerm)
}

// verbs returns the classes of work the words name, without repeats.
func (q *query) verbs() []string { return q.work }

func (q *query) readVerbs() []string {
	var vs []string
	for _, t := range q.terms {
		if t.Class == field.VerbTerm && !slices.Contains(vs, t.Dim) {
			vs = append(vs, t.Dim)
		}
	}
	return vs
}

// places returns the places and other words that say which one.
func (q *query) places() string {
	var ps []string
	for i, t := range q.terms {
		if t.Class == field.PlaceTerm || q.qualifies[i] && t.Class != field.VerbTerm {
			if w := strings.TrimSpace(q.text[t.Start:t.End]); !slices.Contains(ps, w) {
				ps = append(ps, w)
			}
		}
	}
	return strings.Join(ps, " ")
}

// overlap returns how much of the smaller of two word sets stands in the other, 0 to 1. It asks
// for at least one shared thing.
func (q *query) overlap(o *query) float64 {
	shared, mine, theirs := 0.0, 0.0, 0.0
	thing := false
	for i, t := range q.terms {
		w := termWeight(t.Class)
		if w == 0 || repeated(q.terms, i) {
			continue
		}
		mine += w
		if o.has(t.Text) {
			shared += w
			thing = thing || named(t)
		}
	}
	for i, t := range o.terms {
		if w := termWeight(t.Class); w != 0 && !repeated(o.terms, i) {
			theirs += w
		}
	}
	if !thing {
		return 0
	}
	if veto, _ := q.contradicts(&indexedLine{query: *o}); veto != "" {
		return 0
	}
	return shared / max(0.5, min(mine, theirs))
}

// means reports whether the words of q name what t names: by its normal form, or, for a word the
// trade does not know, by the word a longer name of q ends with ("heads" of "smoke heads").
func (q *query) means(t field.Term) bool {
	if q.has(t.Text) {
		return true
	}
	for _, u := range q.terms {
		if u.Class == field.ThingTerm && t.Class == field.ThingTerm && (trade.Broader(u.Text) == t.Text || trade.Broader(t.Text) == u.Text) {
			return true
		}
	}
	if t.Class != field.OtherTerm {
		return false
	}
	for _, u := range q.terms {
		if named(u) && q.short(u) == t.Text {
			return true
		}
	}
	return false
}

// short returns the last word of a term as written, in the singular.
func (q *query) short(t field.Term) string {
	w := strings.ToLower(q.text[t.Start:t.End])
	w = w[strings.LastIndexByte(w, ' ')+1:]
	if len(w) > 3 && w[len(w)-1] == 's' {
		w = w[:len(w)-1]
	}
	return w
}

func (q *query) has(text string) bool {
	for _, t := range q.terms {
		if t.Text == text {
			return true
		}
	}
	return false
}

func repeated(terms []field.Term, i int) bool {
	for _, t := range terms[:i] {
		if t.Text == terms[i].Text {
			return true
		}
	}
	return false
}

// contradicts returns the designations or places in which two texts cannot be about the same
// thing ("30A against 20A"), or "", and whether it is a place or another of several by name. Only a dimension that both name can contradict.
func (q *query) contradicts(o *indexedLine) (veto string, place bool) {
	for i := range q.terms {
		t := &q.terms[i]
		if o.beyondSpan(t) {
			return t.Text + " beyond " + o.spanText(), true
		}
		if !exclusive(t) || t.Class == field.PlaceTerm && q.beyondClause(i) || o.agrees(t, q) || o.inSpan(t) {
			continue // a place named later on is often one that is passed: "circuit landed, 6/3 in the attic"
		}
		for _, u := range o.query.terms {
			if u.Dim == t.Dim && u.Class == t.Class {
				return t.Text + " against " + u.Text, t.Class == field.PlaceTerm || identifies(t.Dim)
			}
		}
	}
	return "", false
}

// beyondClause reports whether term i stands behind the first clause.
func (q *query) beyondClause(i int) bool {
	if i < q.spread || q.clause == 0 {
		return i >= q.clause
	}
	return q.terms[i].Start >= q.terms[q.clause-1].End // a numbered place, read out of a term before
}

// beyondSpan reports whether t names one of a numbered kind the line covers a run of, outside the
// run: door 7 against "doors 1 to 6".
func (l *indexedLine) beyondSpan(t *field.Term) bool {
	if len(l.spans) == 0 || identifiesNumber(t) < 0 || l.inSpan(t) {
		return false
	}
	noun := strings.TrimRight(t.Text, " 0123456789")
	for _, u := range l.query.terms {
		if u.Text == noun || strings.TrimRight(u.Text, " 0123456789") == noun {
			return true
		}
	}
	return false
}

// inSpan reports whether t names one of a numbered kind that the line covers a run of.
func (l *indexedLine) inSpan(t *field.Term) bool {
	return len(l.spans) > 0 && l.covers(identifiesNumber(t))
}

// spanText returns the first run of numbers of a line in words.
func (l *indexedLine) spanText() string {
	return strconv.Itoa(l.spans[0].from) + " to " + strconv.Itoa(l.spans[0].to)
}

// exclusive reports whether two different values of a term's dimension cannot be one thing.
func exclusive(t *field.Term) bool {
	switch t.Class {
	case field.DesignationTerm:
		return t.Dim != "" && t.Dim != "model"
	case field.PlaceTerm:
		return t.Dim != "" && t.Dim != "spot"
	}
	return false
}

// agrees reports whether o names the dimension of t not at all, or shares one of q's values of it.
func (o *query) agrees(t *field.Term, q *query) bool {
	named := false
	for i := range o.terms {
		u := &o.terms[i]
		if u.Dim != t.Dim || u.Class != t.Class {
			continue
		}
		named = true
		for k := range q.terms {
			if v := &q.terms[k]; v.Dim == u.Dim && v.Text == u.Text {
				return true
			}
		}
	}
	return !named
}

// termWeight says how much a class of word tells which line is meant; verbs are judged apart.
func termWeight(c field.TermClass) float64 {
	switch c {
	case field.ThingTerm:
		return 1
	case field.DesignationTerm, field.PlaceTerm:
		return 0.9
	case field.OtherTerm:
		return 0.8
	case field.TraitTerm, field.ColourTerm:
		return 0.4
	}
	return 0
}

// preposition reports whether the words between two terms say that the second one says which.
func preposition(between string) bool { return anyWord(between, isPreposition) }

func isPreposition(w string) bool {
	switch w {
	case "at", "in", "by", "on", "near", "behind", "above", "under", "over", "outside", "inside",
		"for", "to", "from", "of", "into", "beside", "around", "across", "along", "next", "@":
		return true
	}
	return false
}

// joins reports whether the words between two terms begin a new phrase.
func joins(between string) bool { return anyWord(between, isJoin) }

func isJoin(w string) bool {
	switch w {
	case "and", "then", "with", "w/", "plus", "but":
		return true
	}
	return false
}

// anyWord reports whether one of the words of s is of the kind.
func anyWord(s string, kind func(string) bool) bool {
	if s == "" || s == " " {
		return false
	}
	for w := range strings.FieldsSeq(s) {
		if kind(w) || kind(strings.ToLower(w)) {
			return true
		}
	}
	return false
}
