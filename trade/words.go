package trade

import (
	_ "embed"
	"strings"
)

//go:embed words.txt
var wordTable string

// WordClass says what part a word plays in a line. The zero value is "not a word of the trade".
type WordClass byte

// The classes, as words.txt explains them.
const (
	NoClass WordClass = iota
	ThingWord
	PartWord
	MaterialWord
	GenericWord
	TraitWord
	ColourWord
	VerbWord
	PlaceWord
	UnitWord
	PackageWord
	StopWord
	JoinWord
	MeansWord
)

var wordClasses = map[string]WordClass{
	"thing": ThingWord, "part": PartWord, "material": MaterialWord, "generic": GenericWord,
	"trait": TraitWord, "colour": ColourWord, "verb": VerbWord, "place": PlaceWord,
	"unit": UnitWord, "package": PackageWord, "stop": StopWord, "join": JoinWord, "means": MeansWord,
}

// A Word is what a way of writing stands for.
type Word struct {
	Text   string // normal form: "receptacle"
	Class  WordClass
	Dim    string // of a verb its class of work, of a place what it contradicts, of a unit the unit
	Verb   string // normal form as a verb, when the same letters may also be one ("label", "switch")
	Work   string // class of work of Verb
	Plural bool   // written as more than one
}

// A Phrase is a way of writing of more than one word.
type Phrase struct {
	Rest []string // the words and marks after the first, lower case
	Word
}

// An Entry is all the vocabulary knows about a single word. It must not be changed.
type Entry struct {
	Word
	Known   bool     // the word by itself is one of the trade's
	Phrases []Phrase // the ways of writing that begin with it, longest first
}

// A vocabulary is the table, ready for look-up. It is read-only once made.
type vocabulary struct {
	words   map[string]Word
	phrases map[string][]Phrase // by first word, longest first
	entries map[string]*Entry
	kinds   map[string]string // normal form to the more general one
	long    map[byte][]string // words whose slips are known, by first letter
}

var vocab = readVocabulary(wordTable)

// FindWord returns what a single word in lower case stands for. One-letter slips of long words are
// known; a word of other meaning is never taken for a slip of the trade's.
func FindWord(low string) (Word, bool) {
	if e := Look(low); e != nil && e.Known {
		return e.Word, true
	}
	return Word{}, false
}

// Look returns all that is known about a word in lower case, or nil.
func Look(low string) *Entry {
	if e := vocab.entries[low]; e != nil {
		return e
	}
	return vocab.slip(low)
}

// Broader returns the more general word that people use for a thing as well, both in normal form:
// a troffer is a fixture. It returns "" when there is none.
func Broader(text string) string { return vocab.kinds[text] }

// Phrases returns the ways of writing that begin with the word, longest first.
// The caller must not change them.
func Phrases(first string) []Phrase { return vocab.phrases[first] }

// Canon returns the normal form of a word or phrase of the trade: outlet, plug and recept are
// "receptacle", brkr is "breaker". It returns the text itself and false when it is none.
func Canon(text string) (string, bool) {
	w, ok := lookUp(text)
	if !ok || w.Class == StopWord || w.Class == JoinWord {
		return text, false
	}
	return w.Text, true
}

// Verb returns the class of work a verb names: "install" for hung, mounted, put in; "replace",
// "remove", "relocate", "repair", "pull", "land", "trim", "rough", "test", "troubleshoot" and so on.
func Verb(text string) (class string, ok bool) {
	w, found := lookUp(text)
	switch {
	case found && w.Class == VerbWord:
		return w.Dim, true
	case found && w.Verb != "":
		return w.Work, true
	}
	return "", false
}

// Place reports whether the word or phrase names a place in a building: kitchen, north, counter.
func Place(text string) bool {
	w, ok := lookUp(text)
	return ok && w.Class == PlaceWord
}

func lookUp(text string) (Word, bool) {
	parts := splitWords(strings.ToLower(strings.TrimSpace(text)))
	if len(parts) == 1 {
		return FindWord(parts[0])
	}
	if len(parts) == 0 {
		return Word{}, false
	}
	for _, p := range vocab.phrases[parts[0]] {
		if equalWords(p.Rest, parts[1:]) {
			return p.Word, true
		}
	}
	return Word{}, false
}

func equalWords(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// splitWords parts a way of writing into runs of letters, runs of digits and marks, as a line is
// parted: "j-box" is three.
func splitWords(s string) []string {
	var parts []string
	kindOf := func(c byte) int {
		switch {
		case c == ' ':
			return 0
		case '0' <= c && c <= '9':
			return 1
		case 'a' <= c && c <= 'z' || c == '\'' || c >= 0x80 && c != 0xC2:
			return 2
		}
		return 3
	}
	for i := 0; i < len(s); {
		k, j := kindOf(s[i]), i+1
		for k != 3 && j < len(s) && kindOf(s[j]) == k {
			j++
		}
		if s[i] == 0xC2 && j < len(s) { // a two-byte mark such as the degree sign
			j++
		}
		if k != 0 {
			parts = append(parts, s[i:j])
		}
		i = j
	}
	return parts
}
