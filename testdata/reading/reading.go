// Package reading holds the labelled notes and entries the reading is measured on and fitted to. Only tests
// import it. README.md beside it says how labels are written.
package reading

import (
	"bytes"
	"embed"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"

	"jobday/notes"
)

//go:embed */*.txtar entries/*/*.txtar
var files embed.FS

// People are who works in the labelled notes.
var People = []string{
	"Ana Reyle", "Bo Tarnow", "Cass Idling", "Dev Marrable", "Ezra Quint", "Fern Osgood", "Gus Pollard", "Ida Vance", "Jun Harrow", "Kit Lowell",
}

// FactKeys are the facts a label may name, in the order they are scored.
var FactKeys = []string{"lines", "qty", "done", "min", "who", "kind", "state", "verdict", "auth"}

// A Label is what a line is expected to say. `|` in its outcome parts what is as good.
type Label struct {
	Outcome string
	Facts   map[string]string
}

// An Archive is one job with labelled texts: notes of whole days, or single entries.
type Archive struct {
	Name  string // of its file: "barn_bold.txtar"
	Files []txtar.File
}

// Archives returns the archives of a set, "dev" or "entries/dev", in the order of their names.
func Archives(set string) ([]Archive, error) {
	names, err := fs.Glob(files, set+"/*.txtar")
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("set %q has no archive (%w)", set, err)
	}
	var all []Archive
	for _, n := range names {
		data, err := files.ReadFile(n)
		if err != nil {
			return nil, err
		}
		all = append(all, Archive{path.Base(n), txtar.Parse(data).Files})
	}
	return all, nil
}

// IsNote reports whether a file of an archive is the note of a day.
func IsNote(name string) bool { return strings.HasPrefix(path.Base(name), "20") }

// IsEntries reports whether a file of an archive holds single entries.
func IsEntries(name string) bool { return path.Base(name) == "entries.md" }

// Unlabel splits a labelled text into the text alone and the labels by line, counted from 1.
func Unlabel(data []byte) (text []byte, labels map[int][]Label, err error) {
	labels = map[int][]Label{}
	line := 0
	for part := range bytes.Lines(data) {
		said, is := bytes.CutPrefix(part, []byte("=>"))
		if !is {
			line++
			text = append(text, part...)
			continue
		}
		l, err := label(string(said))
		if err != nil {
			return nil, nil, fmt.Errorf("line %d: %w", line, err)
		}
		labels[line] = append(labels[line], l)
	}
	return text, labels, nil
}

func label(said string) (Label, error) {
	words := strings.Fields(said)
	if len(words) == 0 {
		return Label{}, fmt.Errorf("a label says nothing")
	}
	l := Label{words[0], map[string]string{}}
	for _, w := range words[1:] {
		key, value, ok := strings.Cut(w, "=")
		if !ok || !slices.Contains(FactKeys, key) {
			return Label{}, fmt.Errorf("%q is no fact in %q", w, said)
		}
		l.Facts[key] = strings.ReplaceAll(value, "_", " ")
	}
	return l, nil
}

// An Entry is one labelled line of an entries.md with the heading it stands beneath.
type Entry struct {
	Line    int
	Heading string // "## Done", or "" above the first
	Text    string
	Want    []Label
}

// Entries reads the lines of an entries.md; each has to have a label.
func Entries(data []byte) ([]Entry, error) {
	text, labels, err := Unlabel(data)
	if err != nil {
		return nil, err
	}
	var all []Entry
	heading, line := "", 0
	for part := range bytes.Lines(text) {
		line++
		switch said := strings.TrimSpace(string(part)); {
		case said == "":
		case strings.HasPrefix(said, "#"):
			heading = said
		case len(labels[line]) == 0:
			return nil, fmt.Errorf("line %d: %q has no label", line, said)
		default:
			all = append(all, Entry{line, heading, said, labels[line]})
		}
	}
	return all, nil
}

// Read is something a program read in a text: where it begins, and what it says of it.
type Read[T any] struct {
	Line, Start int
	Said        T
}

// Aligned is something read beside the label of its line.
type Aligned[T any] struct {
	Said T
	Want Label
}

// Align puts what was read beside the labels, line by line, in the order written. Lines where more or less was read
// than is labelled are left out, unless all their labels say the same.
func Align[T any](got []Read[T], labels map[int][]Label) []Aligned[T] {
	byLine := map[int][]Read[T]{}
	for _, g := range got {
		byLine[g.Line] = append(byLine[g.Line], g)
	}
	var all []Aligned[T]
	for _, line := range slices.Sorted(maps.Keys(byLine)) {
		got, want := byLine[line], labels[line]
		slices.SortStableFunc(got, func(a, b Read[T]) int { return a.Start - b.Start })
		same := len(want) > 0 && !slices.ContainsFunc(want, func(l Label) bool { return l.Outcome != want[0].Outcome })
		if len(got) != len(want) && !same {
			continue
		}
		for i, g := range got {
			all = append(all, Aligned[T]{g.Said, want[min(i, len(want)-1)]})
		}
	}
	return all
}

// Kinds are the kinds that the words of a label may be of: who holds them against the booking decides between
// booked work and an extra nobody spoke of.
func (l Label) Kinds() []notes.Kind {
	var ks []notes.Kind
	for o := range strings.SplitSeq(l.Outcome, "|") {
		switch kind := notes.Kind(o); kind {
		case notes.InScope:
			ks = append(ks, notes.Work)
			if l.Facts["done"] == "no" {
				ks = append(ks, notes.LeftOpen)
			}
		case notes.Extra:
			ks = append(ks, notes.Extra)
			if a := l.Facts["auth"]; a == "" || a == "none" {
				ks = append(ks, notes.Work)
			}
		default:
			ks = append(ks, kind)
		}
	}
	return ks
}
