package parse

import (
	"bytes"
	"fmt"
	"testing"
	"unicode/utf8"

	"jobday/finding"
	"jobday/notes"
)

// assertSound checks what must hold of every note, whatever its text.
func assertSound(t testing.TB, n *notes.DayNote, found finding.List) {
	t.Helper()
	for _, problem := range unsound(n, found) {
		t.Error(problem)
	}
}

// unsound lists what is wrong with a note as read: a line that nothing accounts for, a span out of
// the file or off a code point, a text that is not what stands at its span, facts out of their
// entry, a kind that is none.
func unsound(n *notes.DayNote, found finding.List) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	text := n.File.Text
	valid := utf8.Valid(text)
	covered := make([]bool, n.File.Lines()+1)
	span := func(what string, s finding.Span) {
		switch {
		case s.File != n.File:
			say("%s is in no file", what)
			return
		case s.Start < 0 || s.End < s.Start || s.End > len(text):
			say("%s %d-%d is out of bounds", what, s.Start, s.End)
			return
		case valid && (s.Start < len(text) && !utf8.RuneStart(text[s.Start]) || s.End < len(text) && !utf8.RuneStart(text[s.End])):
			say("%s %d-%d cuts a code point", what, s.Start, s.End)
		}
		if s.End > s.Start {
			for l := n.File.LineAt(s.Start); l <= n.File.LineAt(s.End-1); l++ {
				covered[l] = true
			}
		}
	}
	for _, e := range n.Entries {
		span("entry", e.Span)
		if e.Label != "" {
			span("label", e.LabelSpan)
		}
		if len(e.Photos) == 0 && e.Text != fold(e.Span.Text()) {
			say("entry says %q, its place %q", e.Text, e.Span.Text())
		}
		if e.Kind == "" || e.Kind == notes.Unclear || e.Why == "" {
			say("entry %q has kind %q, why %q", e.Text, e.Kind, e.Why)
		}
		if e.Sure < 0 || e.Sure > 1 || (e.Sure < notes.SureEnough) != (len(e.MayBe) > 0) && !e.Again {
			say("entry %q is %v sure and may be %v", e.Text, e.Sure, e.MayBe)
		}
		facts(say, e.Facts, e.Span)
		for _, d := range e.Details {
			span("detail", d.Span)
			facts(say, d.Facts, d.Span)
		}
		for _, p := range e.Photos {
			span("photo", p.Span)
		}
	}
	for _, r := range n.Narrative {
		span("narrative", r.Span)
		if r.Text != tidy(r.Span.Text()) {
			say("narrative says %q, its place %q", r.Text, r.Span.Text())
		}
	}
	for _, s := range n.Structure {
		span("structure", s)
	}
	for l := 1; l <= n.File.Lines(); l++ {
		if s := n.File.LineSpan(l); !covered[l] && len(bytes.TrimSpace(bytes.TrimPrefix(text[s.Start:s.End], byteOrderMark))) > 0 {
			say("line %d is not accounted for: %q", l, s.Text())
		}
	}
	for _, f := range found {
		span("finding "+f.Rule, f.Span)
		if f.Severity == 0 || f.Rule == "" || f.Message == "" {
			say("finding %+v is not whole", f)
		}
	}
	return out
}

// facts checks that every piece lies in its text.
func facts(say func(string, ...any), f notes.Facts, in finding.Span) {
	length := in.End - in.Start
	check := func(what string, p notes.Piece) {
		if p.Start < 0 || p.End < p.Start || p.End > length {
			say("%s %v is out of its text %q", what, p, in.Text())
		}
	}
	for _, i := range f.Items {
		check("item", i.Piece)
	}
	for _, i := range f.Time {
		check("time", i.Piece)
	}
	for _, i := range f.Readings {
		check("reading", i.Piece)
	}
	check("progress", f.Progress.Piece)
	check("consent", f.Consent.Piece)
	check("price", f.Price.Piece)
	check("fault", f.Fault.Piece)
	check("circuit", f.Circuit.Piece)
}
