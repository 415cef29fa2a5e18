package trade

import (
	"cmp"
	"slices"
	"strings"
)

// readVocabulary reads words.txt. A malformed row is a bug of ours and panics at start.
func readVocabulary(table string) *vocabulary {
	v := &vocabulary{
		words: make(map[string]Word, 4096), phrases: make(map[string][]Phrase, 512), long: map[byte][]string{}, kinds: map[string]string{},
	}
	for row := range strings.Lines(table) {
		row = strings.TrimSpace(row)
		if row == "" || row[0] == '#' {
			continue
		}
		if v.addKinds(row) {
			continue
		}
		w, ways := readRow(row)
		for _, way := range ways {
			for _, f := range forms(way, w) {
				v.add(f.text, f.word)
				v.addLong(f.text)
			}
		}
	}
	for _, ps := range v.phrases {
		slices.SortStableFunc(ps, func(a, b Phrase) int { return cmp.Compare(len(b.Rest), len(a.Rest)) })
	}
	v.index()
	return v
}

// index joins words and phrases, so that one look-up finds both.
func (v *vocabulary) index() {
	v.entries = make(map[string]*Entry, len(v.words)+len(v.phrases))
	for text, w := range v.words { // every key is entered once, so the order does not show
		v.entries[text] = &Entry{Word: w, Known: true, Phrases: v.phrases[text]}
	}
	for text, ps := range v.phrases {
		if v.entries[text] == nil {
			v.entries[text] = &Entry{Phrases: ps}
		}
	}
}

// addKinds enters a row of kinds, and reports whether it is one.
func (v *vocabulary) addKinds(row string) bool {
	rest, ok := strings.CutPrefix(row, "kind ")
	if !ok {
		return false
	}
	general, kinds, _ := strings.Cut(rest, ": ")
	for kind := range strings.SplitSeq(kinds, ", ") {
		v.kinds[kind] = general
	}
	return true
}

// readRow parts "class normal form [dimension]: ways" into the word and all its ways of writing.
func readRow(row string) (Word, []string) {
	head, tail, _ := strings.Cut(row, ": ")
	name, form, ok := strings.Cut(head, " ")
	w := Word{Class: wordClasses[name], Text: strings.TrimSpace(form)}
	if !ok || w.Class == NoClass {
		panic("trade: bad row in words.txt: " + row)
	}
	switch w.Class {
	case VerbWord, PlaceWord, UnitWord, PackageWord:
		at := strings.LastIndexByte(w.Text, ' ')
		if at < 0 {
			panic("trade: no dimension in words.txt: " + row)
		}
		w.Text, w.Dim = w.Text[:at], w.Text[at+1:]
	}
	ways := []string{strings.ToLower(w.Text)}
	if w.Class == MeansWord {
		ways = ways[:0]
	}
	for way := range strings.SplitSeq(tail, ",") {
		if way = strings.TrimSpace(way); way != "" {
			ways = append(ways, way)
		}
	}
	return w, ways
}

type form struct {
	text string
	word Word
}

// forms returns a way of writing with its plural or, of a verb, its other endings.
func forms(way string, w Word) []form {
	fs := []form{{way, w}}
	switch w.Class {
	case ThingWord, PartWord, MaterialWord, GenericWord, TraitWord, MeansWord, PlaceWord:
		many := w
		many.Plural = w.Class != PlaceWord
		fs = append(fs, form{Plural(way), many})
	case PackageWord:
		if strings.HasSuffix(way, "s") {
			fs[0].word.Plural = true
		}
	case VerbWord:
		if way == w.Text || !strings.Contains(way, " ") {
			for _, f := range verbForms(way) {
				fs = append(fs, form{f, w})
			}
		}
	}
	return fs
}

// Plural returns the plural of an English noun by the plain rules: boxes, assemblies, straps.
func Plural(s string) string {
	switch {
	case s == "":
		return s
	case strings.HasSuffix(s, "s"), strings.HasSuffix(s, "x"), strings.HasSuffix(s, "ch"), strings.HasSuffix(s, "sh"):
		return s + "es"
	case len(s) > 2 && strings.HasSuffix(s, "y") && !strings.ContainsRune("aeiou", rune(s[len(s)-2])):
		return s[:len(s)-1] + "ies"
	}
	return s + "s"
}

// Singular returns the singular of an English noun in lower case by the plain rules, or s itself.
func Singular(s string) string {
	n := len(s)
	switch {
	case n < 4, strings.HasSuffix(s, "ss"), strings.HasSuffix(s, "us"), strings.HasSuffix(s, "is"):
		return s
	case strings.HasSuffix(s, "ies"):
		return s[:n-3] + "y"
	case strings.HasSuffix(s, "xes"), strings.HasSuffix(s, "ches"), strings.HasSuffix(s, "shes"), strings.HasSuffix(s, "sses"):
		return s[:n-2]
	case strings.HasSuffix(s, "s"):
		return s[:n-1]
	}
	return s
}

// verbForms returns -s, -ed and -ing of a verb by the plain rules of English spelling.
func verbForms(v string) []string {
	n := len(v)
	if n < 3 {
		return nil
	}
	stem := v
	if strings.HasSuffix(v, "e") {
		stem = v[:n-1]
	}
	fs := []string{Plural(v), stem + "ed", stem + "ing"}
	if strings.HasSuffix(v, "y") {
		fs = append(fs, v[:n-1]+"ied")
	}
	if isVowel(v[n-2]) && !isVowel(v[n-1]) && !isVowel(v[n-3]) && v[n-1] != 'w' && v[n-1] != 'x' {
		fs = append(fs, v+v[n-1:]+"ed", v+v[n-1:]+"ing")
	}
	return fs
}

func isVowel(c byte) bool { return strings.IndexByte("aeiou", c) >= 0 }

// add enters a way of writing. The first sense wins, except that a noun that is also a verb keeps
// both.
func (v *vocabulary) add(text string, w Word) {
	parts := splitWords(text)
	if len(parts) == 0 {
		return
	}
	if len(parts) > 1 {
		v.addPhrase(parts, w)
		return
	}
	have, taken := v.words[text]
	switch {
	case !taken:
		v.words[text] = w
	case have.Class == VerbWord && w.Class != VerbWord:
		w.Verb, w.Work = have.Text, have.Dim
		v.words[text] = w
	case w.Class == VerbWord && have.Class != VerbWord && have.Verb == "":
		have.Verb, have.Work = w.Text, w.Dim
		v.words[text] = have
	}
}

func (v *vocabulary) addPhrase(parts []string, w Word) {
	for _, p := range v.phrases[parts[0]] {
		if equalWords(p.Rest, parts[1:]) {
			return
		}
	}
	v.phrases[parts[0]] = append(v.phrases[parts[0]], Phrase{Rest: parts[1:], Word: w})
}

// addLong enters a word of seven letters and more, so that slips of it are known.
func (v *vocabulary) addLong(text string) {
	if len(text) >= longWord && isPlain(text) && v.words[text].Class != StopWord {
		v.long[text[0]] = append(v.long[text[0]], text)
	}
}

// longWord is how many letters a word needs for its slips to be told from other words.
const longWord = 7

func isPlain(s string) bool {
	for i := range len(s) {
		if s[i] < 'a' || s[i] > 'z' {
			return false
		}
	}
	return true
}

// slip returns the entry of the long word that low is a slip of: a letter left out, one too many,
// or two swapped; never the first. It returns nil when two words of different meaning are as near.
func (v *vocabulary) slip(low string) *Entry {
	if len(low) < longWord-1 || len(low) > 24 || low == "couple" || low == "reduce" || low == "beaker" {
		return nil // the three are words of their own
	}
	var found *Entry
	for _, w := range v.long[low[0]] {
		if d := len(w) - len(low); d < -1 || d > 1 || !isSlip(low, w) {
			continue
		}
		e := v.entries[w]
		if found != nil && (found.Text != e.Text || found.Class != e.Class) {
			return nil
		}
		found = e
	}
	return found
}

// isSlip reports whether a is b with a letter left out, one too many, or two neighbours swapped.
func isSlip(a, b string) bool {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	switch len(a) - len(b) {
	case -1:
		return a[i:] == b[i+1:]
	case 1:
		return a[i+1:] == b[i:]
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}
