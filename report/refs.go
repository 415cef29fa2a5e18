package report

import (
	"path"
	"strconv"
	"strings"

	"jobday/notes"
)

// Ref is one place in the notes: its words and, when the page shows that line, the anchor.
type Ref struct {
	Label string // "23", or "2026-03-10.md:14" for a file the page does not show
	Href  string // "#n1-L23", or ""
}

// RefGroup is places in one file: "line 12", "note 2, lines 3, 4".
type RefGroup struct {
	Before string // "line", "note 2, lines"; "" when the labels say it all
	Refs   []Ref
}

// place is a line of a file.
type place struct {
	file string
	line int
}

// Refs groups places by file in the order given, each line once. Places without a file are left out.
func (v *View) Refs(from []notes.Source) []RefGroup {
	var groups []RefGroup
	at := map[string]int{}
	for _, p := range places(from) {
		i, known := at[p.file]
		if !known {
			i = len(groups)
			at[p.file] = i
			groups = append(groups, RefGroup{})
		}
		groups[i].Refs = append(groups[i].Refs, v.ref(p))
	}
	for file, i := range at {
		groups[i].Before = v.before(file, len(groups[i].Refs))
	}
	return groups
}

// ref is one place as the page shows it.
func (v *View) ref(p place) Ref {
	n, shown := v.noteAt[p.file]
	if !shown || p.line > len(v.Notes[n].Lines) {
		return Ref{Label: path.Base(p.file) + ":" + strconv.Itoa(p.line)}
	}
	return Ref{Label: strconv.Itoa(p.line), Href: "#" + v.Notes[n].Lines[p.line-1].ID}
}

func (v *View) before(file string, refs int) string {
	n, shown := v.noteAt[file]
	if !shown {
		return ""
	}
	word := "line"
	if refs > 1 {
		word = "lines"
	}
	if len(v.Notes) > 1 {
		return v.Notes[n].Title + ", " + word
	}
	return word
}

// Where prints places for text without links: "2026-03-12.md:23, 24; 2026-03-10.md:14".
func Where(from []notes.Source) string {
	var b strings.Builder
	last := ""
	for _, p := range places(from) {
		switch {
		case p.file == last:
			b.WriteString(", ")
		case last != "":
			b.WriteString("; ")
			fallthrough
		default:
			b.WriteString(path.Base(p.file) + ":")
		}
		b.WriteString(strconv.Itoa(p.line))
		last = p.file
	}
	return b.String()
}

// places returns the lines of from, each once, in order.
func places(from []notes.Source) []place {
	var list []place
	seen := map[place]bool{}
	for _, s := range from {
		p := place{s.File, s.Line}
		if s.File == "" || s.Line < 1 || seen[p] {
			continue
		}
		seen[p] = true
		list = append(list, p)
	}
	return list
}
