// Package field reads the shorthand inside a line: quantities and what they count, durations and
// clock spans, names, progress, who allowed or refused what, prices, instrument readings.
//
// Every reader takes a text and says what it read and where; none knows the scope, the price list
// or money beyond the figure as written. What two people could honestly read in two ways is
// returned with both readings.
package field

import (
	"slices"
	"strings"

	"jobday/notes"
	"jobday/trade"
)

// A Lexicon holds the names a note may use: the company's people and the note's crew.
// The zero value knows nobody. It is read-only once made.
type Lexicon struct {
	names    map[string]string // lower-case first or full name to the name as the book writes it
	initials map[string]string // of the crew, in lower case, to the name; "" where two share them
	surnames map[string]string // of the crew, in lower case, to the name; "" where two share it
	Author   string            // whom "I" and "me" stand for, or ""
	Crew     []string          // whom "we", "both of us" stand for
	Words    trade.Words       // the shop's own words for things
}

// NewLexicon returns a lexicon that knows people by full name and, where only one of them or of the crew
// has it, by first name. Crew names the book does not know are known as written.
func NewLexicon(people []string, author string, crew []string) *Lexicon {
	l := &Lexicon{names: map[string]string{}, Author: author, Crew: crew}
	for _, full := range append(append([]string(nil), people...), crew...) {
		l.add(full)
	}
	if author != "" {
		l.add(author)
	}
	here := crew
	if author != "" && !slices.Contains(crew, author) {
		here = append(slices.Clone(crew), author)
	}
	l.settle(here)
	for _, name := range crew {
		l.addInitials(name)
	}
	return l
}

// settle lets a first name that several people share stand for the only one of them who was there.
func (l *Lexicon) settle(here []string) {
	whose := map[string]string{}
	for _, name := range here {
		full := l.Name(name)
		first, _, more := strings.Cut(strings.ToLower(full), " ")
		if !more {
			continue
		}
		if other, taken := whose[first]; taken && other != full {
			full = "" // both were
		}
		whose[first] = full
	}
	for first, full := range whose {
		if full != "" {
			l.names[first] = full
		}
	}
}

// addInitials lets one or two letters stand for a member of the crew where they are nobody else's: "K",
// "DM". Only a text about time is read so.
func (l *Lexicon) addInitials(name string) {
	full := l.names[strings.ToLower(name)]
	if full == "" || full[0] >= 0x80 {
		return
	}
	if l.initials == nil {
		l.initials = map[string]string{}
	}
	low := strings.ToLower(full)
	keys := []string{low[:1]}
	if len(low) > 3 && low[1] < 0x80 && !shortWord(low[:2]) {
		keys = append(keys, low[:2])
	}
	if _, last, more := strings.Cut(low, " "); more && last != "" && last[0] < 0x80 {
		keys = append(keys, low[:1]+last[:1])
		l.addSurname(last, full)
	}
	for _, k := range keys {
		if other, taken := l.initials[k]; taken && other != full {
			l.initials[k] = ""
		} else {
			l.initials[k] = full
		}
	}
}

// addSurname lets a surname stand for a member of the crew in a text about time.
func (l *Lexicon) addSurname(last, full string) {
	if l.surnames == nil {
		l.surnames = map[string]string{}
	}
	if other, taken := l.surnames[last]; taken && other != full {
		full = ""
	}
	l.surnames[last] = full
}

// shortWord reports whether two letters are a word, a unit or a mark of time, and so no short name.
func shortWord(low string) bool {
	switch low {
	case "an", "as", "at", "be", "by", "do", "go", "ha", "he", "hi", "if", "in", "is", "it", "me", "mr", "my", "no", "of", "oh", "ok", "on", "or",
		"so", "to", "un", "up", "us", "we", "am", "pm", "ea", "ft", "hr", "lb", "ot", "st", "ln", "mc", "ac", "dc", "de", "la", "el", "al", "cu":
		return true
	}
	return false
}

func (l *Lexicon) add(full string) {
	low := strings.ToLower(full)
	if _, known := l.names[low]; known {
		return
	}
	l.names[low] = full
	first, rest, more := strings.Cut(low, " ")
	if !more {
		return
	}
	if key := first[:1] + ". " + rest; len(first) > 1 && first[0] < 0x80 {
		if _, taken := l.names[key]; taken {
			l.names[key] = ""
		} else {
			l.names[key] = full
		}
	}
	if _, taken := l.names[first]; taken {
		l.names[first] = "" // two people share it: the first name alone names nobody
		return
	}
	l.names[first] = full
}

// Name returns how the book writes the name, or "" when nobody is called so.
func (l *Lexicon) Name(written string) string {
	if l == nil {
		return ""
	}
	return l.names[strings.ToLower(written)]
}

// Read returns everything the words of text say. Pieces are byte offsets in text.
// It never fails; a text that says nothing gives the zero Facts.
func Read(text string, lex *Lexicon) notes.Facts {
	w := begin(text)
	defer w.end()
	w.lex = lex
	facts := notes.Facts{
		Time:     w.time(),
		Progress: w.progress(),
		Consent:  w.consent(),
		Price:    w.price(),
		Fault:    w.fault(),
		Readings: w.readings(),
	}
	if !facts.Fault.Named && facts.Fault.State == "" && (facts.Consent.State != notes.NoConsent || facts.Price.Quoted != nil) {
		facts.Fault.Told = "" // who was told the price, not who was told of a fault
	}
	w.atoms(lex.words())
	facts.Terms = w.terms()
	facts.Items = w.items()
	return facts
}

// words returns the shop's own words.
func (l *Lexicon) words() trade.Words {
	if l == nil {
		return trade.Words{}
	}
	return l.Words
}

// A reader is one text under reading.
type reader struct {
	text    string
	toks    []token
	lex     *Lexicon
	used    []notes.Piece // what time, money and instrument readings took: no quantity of material
	rows    bool          // rows of time were read
	refused bool          // consent was refused
	bold    bool          // the caller knows what the text is about
	seen    survey        // what phrases the text holds, once it was looked over
	parts   []timePart    // of the text about time, kept for the next text
	lone    []loneClock   // times of day that belong to no span: "ok'd 10:40"
	memo    numMemo
	// taken marks the bytes of claims once there are many; used then holds the latest only.
	taken []bool
}

// claim marks what a grammar took, so that its numbers are not taken for a count.
func (r *reader) claim(p notes.Piece) {
	if r.used == nil {
		r.used = make([]notes.Piece, 0, 8)
	}
	r.used = append(r.used, p)
	if len(r.used) > fewClaims {
		r.mark(r.used)
	}
}

// fewClaims is how many claims are looked through one by one; of more a map of the text is kept,
// so that work on a long text stays in proportion to its length.
const fewClaims = 16

// mark enters the claims in the map of taken bytes.
func (r *reader) mark(claims []notes.Piece) {
	if r.taken == nil {
		r.taken = make([]bool, len(r.text))
	}
	for _, p := range claims {
		for i := max(p.Start, 0); i < min(p.End, len(r.taken)); i++ {
			r.taken[i] = true
		}
	}
	r.used = r.used[:1] // never empty once something was claimed
}

// claimed reports whether the byte at offset was taken.
func (r *reader) claimed(offset int) bool {
	if offset >= 0 && offset < len(r.taken) && r.taken[offset] {
		return true
	}
	for _, p := range r.used {
		if p.Start <= offset && offset < p.End {
			return true
		}
	}
	return false
}
