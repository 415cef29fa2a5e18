package reconcile

import (
	"iter"
	"slices"
	"strings"
	"unicode/utf8"

	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// lineIndex is the lines of a job prepared for matching: every word of their scope once, with the
// lines it stands in.
type lineIndex struct {
	lines  []indexedLine
	not    []query          // what the booking leaves out
	terms  []indexTerm      // the distinct terms of all lines
	byText map[string]int   // normal form of a term to its place in terms
	byWord map[string][]int // any single word of a term to the terms that have it
	byKind map[string][]int // a more general word to the terms it may stand for
	byAct  map[string]int   // a class of work to the term of the lines booked as it
	units  []string         // places told apart by a number of three digits or more
	site   []string         // places the job's title names: a line that names none is in them
	words  []string         // the keys of byWord in the order met, for what is misspelt or cut short

	spoken []spokenTerm // every different term of the lines

	meanings map[meant][]hit // what terms met so far may mean
	// What is under comparison, kept to be used again: one job is matched by one goroutine.
	hits    [][]hit   // of each term of the entry
	sure    []float64 // how surely each term of the scope is meant
	touched []bool    // the lines that share a word
	shared  []string
}

// indexTerm is one distinct term of the scope.
type indexTerm struct {
	text  string
	lines int   // in how many lines it stands
	in    []int // which
}

// indexedLine is one booked line.
type indexedLine struct {
	query
	terms  []lineTerm
	inner  notes.Decimal // how many things a line booked as one names ("Two ground rods"), else 1
	spans  []numberSpan  // "units 5 to 9"
	placed bool          // it names a place
	wired  bool          // it is about something that is pulled and landed
	about  string        // the thing it is about, "" when its words name nothing known
	act    int           // index in terms of the act it is booked as, or -1
	wheres int           // how many terms say where
	count  [5]int        // how many different terms of each of classes it has
}

// lineTerm is a term of a line: its place in the index and what part it plays.
type lineTerm struct {
	id     int
	class  field.TermClass
	weight float64
	which  bool // it says which one: a place, a designation, or words behind a preposition
	head   bool // it is what the line is about
	behind bool // it stands behind a preposition: "to panel BP1"
}

// numberSpan is a run of numbers a line covers.
type numberSpan struct{ from, to int }

// newLineIndex reads the booked lines of a job.
func newLineIndex(j *notes.Job, words trade.Words) *lineIndex {
	n := len(j.Lines)
	ix := &lineIndex{
		lines: make([]indexedLine, 0, n), terms: make([]indexTerm, 0, 3*n), // most lines have three terms of their own
		byText: make(map[string]int, 3*n), byWord: make(map[string][]int, 3*n), byKind: map[string][]int{}, byAct: map[string]int{},
		meanings: make(map[meant][]hit, 8*n), site: placesIn(j.Title, words),
	}
	for _, l := range j.Lines {
		ix.addLine(l, words)
	}
	ix.sure, ix.touched = make([]float64, len(ix.terms)), make([]bool, len(ix.lines))
	for _, x := range j.NotIncluded {
		ix.not = append(ix.not, newQuery(x.Text, words))
	}
	for i := range ix.lines {
		for k := range ix.lines[i].terms {
			t := &ix.lines[i].terms[k]
			t.weight = lineWeight(t.class) * (0.4 + 0.6/float64(ix.terms[t.id].lines))
		}
	}
	return ix
}

func (ix *lineIndex) addLine(l notes.ScopeLine, words trade.Words) {
	line := indexedLine{query: newQuery(l.Work, words), inner: innerCount(l), spans: numberSpans(l.Work), act: -1}
	line.about = line.thing()
	ix.addSpoken(&line.query)
	for _, where := range line.query.saysWhere() {
		if where {
			line.wheres++
		}
	}
	for i := range line.query.terms {
		if c := classOf(line.query.terms[i].Class); c >= 0 && !repeated(line.query.terms, i) {
			line.count[c]++
		}
	}
	line.wired = line.head >= 0 && wired[line.query.terms[line.head].Text]
	for i, t := range line.query.terms {
		if termWeight(t.Class) == 0 || repeated(line.query.terms, i) {
			continue
		}
		id, known := ix.byText[t.Text]
		if !known {
			id = ix.addTerm(&line.query, t)
		}
		ix.stands(id)
		line.placed = line.placed || t.Class == field.PlaceTerm
		which := line.qualifies[i] || t.Class == field.PlaceTerm || t.Class == field.DesignationTerm
		line.terms = append(line.terms, lineTerm{id: id, class: t.Class, which: which, head: i == line.query.head, behind: line.qualifies[i]})
	}
	ix.addUnits(&line.query)
	if act := line.query.act(); act != "" {
		line.act = len(line.terms)
		line.terms = append(line.terms, lineTerm{id: ix.actTerm(act), class: field.VerbTerm, head: line.query.head < 0})
	}
	ix.lines = append(ix.lines, line)
}

// actTerm enters a line that has an act for what it is about.
func (ix *lineIndex) actTerm(act string) int {
	id, known := ix.byAct[act]
	if !known {
		id = len(ix.terms)
		ix.terms = append(ix.terms, indexTerm{text: act})
		ix.byAct[act] = id
	}
	ix.stands(id)
	return id
}

// stands notes that a term stands in the line that is being added.
func (ix *lineIndex) stands(id int) {
	t := &ix.terms[id]
	t.in = append(t.in, len(ix.lines))
	t.lines++
}

// actPlace reports whether the words before an act make a place of it: "in the trench".
func actPlace(before string) bool {
	before = strings.TrimSuffix(strings.TrimRight(before, " "), " the")
	for _, w := range []string{"in", "at", "for", "from", "into", "near", "by", "over"} {
		if rest, ok := strings.CutSuffix(before, w); ok && (rest == "" || rest[len(rest)-1] == ' ') {
			return true
		}
	}
	return false
}

// placesIn returns the rooms a text names.
func placesIn(text string, words trade.Words) []string {
	var ps []string
	for _, t := range field.TermsIn(text, words) {
		if t.Class == field.PlaceTerm {
			ps = append(ps, t.Text)
		}
	}
	return ps
}

func (ix *lineIndex) addTerm(q *query, t field.Term) int {
	id := len(ix.terms)
	ix.byText[t.Text] = id
	if general := trade.Broader(t.Text); general != "" {
		ix.byKind[general] = append(ix.byKind[general], id)
	}
	for w := range wordsOf(t.Text, q.text[t.Start:t.End]) {
		ids, known := ix.byWord[w]
		if !known {
			ix.words = append(ix.words, w)
		}
		if !slices.Contains(ids, id) {
			ix.byWord[w] = append(ids, id)
		}
	}
	ix.terms = append(ix.terms, indexTerm{text: t.Text})
	return id
}

// lineWeight is termWeight with what an act weighs in a line that is booked as one.
func lineWeight(c field.TermClass) float64 {
	if c == field.VerbTerm {
		return 0.9
	}
	return termWeight(c)
}

// wordsOf goes over the words of a term, of its normal form and as written, in lower case and in the singular,
// small ones left out.
func wordsOf(normal, written string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for _, s := range [...]string{normal, written} {
			for w := range strings.FieldsFuncSeq(strings.ToLower(s), partsWords) {
				if len(w) > 3 && w[len(w)-1] == 's' && w[len(w)-2] != 's' {
					w = w[:len(w)-1]
				}
				if (len(w) > 1 || w >= "0" && w <= "9") && !yield(w) {
					return
				}
			}
			if written == normal {
				return
			}
		}
	}
}

func partsWords(r rune) bool {
	return r == ' ' || r == '-' || r == '/' || r == '\'' || r == '.' || r == ','
}

// innerCount returns how many things the words of a line booked as one piece count.
func innerCount(l notes.ScopeLine) notes.Decimal {
	one := notes.Int(1)
	if !l.Qty.Value.Equal(one) || l.Qty.Unit != notes.Each && l.Qty.Unit != notes.Lot {
		return one
	}
	for _, it := range field.Read(l.Work, nil).Items {
		if it.Qty.Unit == notes.Each && len(it.Other) == 0 && it.Qty.Value.Cmp(one) > 0 {
			return it.Qty.Value
		}
	}
	return one
}

// numberSpans reads the runs of numbers in a line: "roof units 1 to 5", "rooms 501-512".
func numberSpans(text string) []numberSpan {
	var spans []numberSpan
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '#' })
	for i, w := range words {
		if a, b, ok := strings.Cut(strings.ReplaceAll(w, "–", "-"), "-"); ok {
			from, ok1 := smallNumber(a)
			to, ok2 := smallNumber(b)
			if ok1 && ok2 && from < to {
				spans = append(spans, numberSpan{from, to})
			}
		}
		if i < 1 || i+1 >= len(words) || w != "to" && w != "thru" && w != "through" {
			continue
		}
		from, ok1 := smallNumber(words[i-1])
		to, ok2 := smallNumber(words[i+1])
		if ok1 && ok2 && from < to {
			spans = append(spans, numberSpan{from, to})
		}
	}
	return spans
}

// covers reports whether a number is in one of the line's runs.
func (l *indexedLine) covers(n int) bool {
	for _, s := range l.spans {
		if s.from <= n && n <= s.to {
			return true
		}
	}
	return false
}

// A hit says that a term of an entry means a term of the scope, and how surely, 0 to 1.
type hit struct {
	id   int
	sure float64
}

// How surely two words mean one thing, by how they are alike.
const (
	sameTerm   = 1.0
	partOfTerm = 0.85 // "sensors" of "occupancy sensors", "smokes" of "smoke heads"
	kindTerm   = 0.75 // a troffer is a fixture
	alikeTerm  = 0.7  // cut short, skeleton of consonants, or one slip of the pen
)

// alignTerms finds, for each term of q, the terms of the scope it may mean, and how surely each term of the
// scope is meant by any. Both stand until the next call.
func (ix *lineIndex) alignTerms(q *query) {
	for _, hs := range ix.hits {
		for _, h := range hs {
			ix.sure[h.id] = 0
		}
	}
	ix.hits = ix.hits[:0]
	for i := range q.terms {
		hs := ix.meaning(q, &q.terms[i])
		ix.hits = append(ix.hits, hs)
		for _, h := range hs {
			ix.sure[h.id] = max(ix.sure[h.id], h.sure)
		}
	}
}

// A meant is all that the meaning of a term hangs on.
type meant struct {
	text, dim, written string
	class              field.TermClass
}

// meaning returns the terms of the scope that t may mean. The same words come up again and again: each
// is looked for once a job.
func (ix *lineIndex) meaning(q *query, t *field.Term) []hit {
	if termWeight(t.Class) == 0 && (t.Class != field.VerbTerm || actPlace(q.text[:t.Start])) {
		return nil
	}
	key := meant{t.Text, t.Dim, q.text[t.Start:t.End], t.Class}
	hs, known := ix.meanings[key]
	if !known {
		hs = ix.find(q, t)
		ix.meanings[key] = hs
	}
	return hs
}

// find is meaning for a term that did not come up before.
func (ix *lineIndex) find(q *query, t *field.Term) []hit {
	var hits []hit
	if t.Class == field.VerbTerm {
		if id, ok := ix.byAct[t.Dim]; ok {
			hits = append(hits, hit{id, sameTerm})
		}
		return hits
	}
	if id, ok := ix.byAct["label"]; ok && (t.Text == "label" || t.Text == "directory card") {
		hits = append(hits, hit{id, sameTerm}) // "label on" is labelling
	}
	if id, ok := ix.byText[t.Text]; ok {
		hits = append(hits, hit{id, sameTerm})
	}
	if t.Class == field.DesignationTerm && t.Dim != "model" && t.Dim != "equipment" && t.Dim != "" || strings.HasPrefix(t.Dim, "which ") {
		return hits // 30A is 30A or it is not
	}
	hits = ix.kinds(t.Text, hits)
	hits = ix.partly(q, t, hits)
	if len(hits) == 0 && (t.Class == field.OtherTerm || t.Class == field.PlaceTerm) {
		hits = ix.loosely(t.Text, hits)
	}
	return hits
}

// kinds adds the terms that the word is a kind of, or that are kinds of it.
func (ix *lineIndex) kinds(text string, hits []hit) []hit {
	for _, id := range ix.byKind[text] {
		if !hasHit(hits, id) {
			hits = append(hits, hit{id, kindTerm})
		}
	}
	if id, ok := ix.byText[trade.Broader(text)]; ok && !hasHit(hits, id) {
		hits = append(hits, hit{id, kindTerm})
	}
	return hits
}

// partly adds the terms of the scope that share words with t so that all words of one are words of
// the other.
func (ix *lineIndex) partly(q *query, t *field.Term, hits []hit) []hit {
	for w := range wordsOf(t.Text, q.text[t.Start:t.End]) {
		for _, id := range ix.byWord[w] {
			if !hasHit(hits, id) {
				hits = append(hits, hit{id, partOfTerm})
			}
		}
	}
	return hits
}

func hasHit(hits []hit, id int) bool {
	for _, h := range hits {
		if h.id == id {
			return true
		}
	}
	return false
}

// loosely adds the terms with a word that w may be written for.
func (ix *lineIndex) loosely(w string, hits []hit) []hit {
	if len(w) > 3 && w[len(w)-1] == 's' {
		w = w[:len(w)-1]
	}
	long := len(w) >= leastSlipped
	for _, full := range ix.words {
		if shortFor(w, full) || long && slip(w, full) {
			for _, id := range ix.byWord[full] {
				if !hasHit(hits, id) {
					hits = append(hits, hit{id, alikeTerm})
				}
			}
		}
	}
	return hits
}

// shortFor reports whether w is full cut short ("disc" of "disconnect") or its letters with some
// left out ("trk" of "track", "mstr" of "master").
func shortFor(w, full string) bool {
	if len(w) < 2 || len(w) >= len(full) || w[0] != full[0] || len(full) < 4 {
		return false
	}
	if strings.HasPrefix(full, w) {
		return len(w) >= 3
	}
	if len(w) > len(full)-1 || strings.ContainsAny(w[1:], "aeiou") {
		return false
	}
	k := 0
	for i := 0; i < len(full) && k < len(w); i++ {
		if full[i] == w[k] {
			k++
		}
	}
	return k == len(w)
}

// leastSlipped is how many letters a word has before one wrong letter is forgiven.
const leastSlipped = 5

// slip reports whether two words of five letters or more differ by one letter put in, left out,
// changed, or swapped with its neighbour.
func slip(a, b string) bool {
	if len(a) < leastSlipped || len(b) < leastSlipped || len(a)-len(b) > 1 || len(b)-len(a) > 1 {
		return false
	}
	return oneLetter(a, b) && utf8.ValidString(a)
}

// oneLetter is slip for words of whatever letters, of about the same length.
func oneLetter(a, b string) bool {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	switch {
	case i == len(a) || i == len(b):
		return true
	case a[i+1:] == b[i+1:], a[i+1:] == b[i:], a[i:] == b[i+1:]:
		return true
	case i+1 < len(a) && i+1 < len(b):
		return a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
	}
	return false
}
