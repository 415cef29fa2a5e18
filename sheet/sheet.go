// Package sheet holds a document as what it says, a list of blocks, and writes it as a web page
// (HTML), an e-mail (Markdown), a terminal (Text) and paper (PDF) with the same words everywhere.
// Whoever makes a document says what is a heading, a table, a notice or a place to sign; how each
// looks is decided here, once for all documents of the shop.
//
// A Sheet carries finished words: amounts and dates are formatted by whoever makes it, in the
// company's locale. Text may hold anything, markup, control characters, any script or a word
// without end: it is shown as text and never acts on what shows it. The same Sheet gives the same
// bytes on every machine.
package sheet

import (
	"strings"

	"jobday/notes"
)

// A Sheet is one document.
type Sheet struct {
	Kind    string // what the paper is: "Change order"
	Number  string // its own number, "CO-7", or ""
	Title   string // what it is about: "Mixer circuit in the back room", or ""
	Edition string // whom this copy is for: "office copy, shows costs", or ""
	Lang    string // BCP 47, "en-US"; default "en", also for what is none. It picks the few words the sheet itself adds.
	Date    notes.Date

	Letterhead Letterhead
	To         Addressee
	Facts      []Fact // the cells of the title block: date, job, site, terms
	Blocks     []Block
	Foot       []string // small print at the end, a paragraph each

	Mark   Mark   // "DRAFT" or "VOID" on every page
	Ref    string // names the sheet at the foot of each page; default company, kind, number. The edition stands there too
	Paper  Paper  // of PDF and of a printed page; default Letter
	Author string // in the PDF's properties; default the company's name

	Pages *Pages // the page it is written into as HTML; nil for the shipped one
}

// Letterhead is who writes.
type Letterhead struct {
	Name       string
	Address    []string
	Contact    string
	TaxNumbers []string
}

// More is all of a letterhead but the name, on one line.
func (l Letterhead) More() string {
	rest := append(append([]string{}, l.Address...), l.Contact)
	return join(" · ", append(rest, l.TaxNumbers...)...)
}

// Letters returns the letterhead of a company; a company nobody wrote down has none.
func Letters(c *notes.Company) Letterhead {
	if c == nil {
		return Letterhead{}
	}
	return Letterhead{Name: c.Name, Address: c.Address, Contact: c.Contact, TaxNumbers: c.TaxNumbers}
}

// Addressee is who the sheet is for. The site stands apart from the customer's own address.
type Addressee struct {
	Name    string
	Address []string
	Site    string
}

// Mark is a word across a sheet that is not, or no longer, what it looks like.
type Mark struct {
	Word   string // "DRAFT", "VOID", "COPY", or "" for none
	Strike bool   // a line is drawn across every page: the sheet counts for nothing
}

// Paper is the size of a sheet.
type Paper string

// The sizes of paper.
const (
	Letter Paper = "letter"
	A4     Paper = "a4"
	A5     Paper = "a5"
)

// Papers lists the sizes.
var Papers = [...]Paper{Letter, A4, A5}

// CSS is the name of the paper in a style sheet. What is no paper is letter.
func (p Paper) CSS() string {
	switch p {
	case A4, A5:
		return strings.ToUpper(string(p))
	}
	return "letter"
}

// Tone is what a thing asks of the reader. It picks a colour on screen, and a hatching of its own
// in a chart; paper is black. What a tone says is always said in words too.
type Tone string

// The tones.
const (
	Plain Tone = ""     // nothing
	Go    Tone = "go"   // settled, may be billed
	Hold  Tone = "hold" // waits for somebody
	Send  Tone = "send" // goes out of the house
	Stop  Tone = "stop" // can hurt, or is lost
	Calm  Tone = "calm" // nothing there
)

// Fact is a label with what it says.
type Fact struct {
	Label string
	Value Text
}

// ref names the sheet at the foot of its pages.
func (s *Sheet) ref() string {
	ref := s.Ref
	if ref == "" {
		ref = join(" | ", s.Letterhead.Name, s.name())
	}
	if s.Edition != "" && !strings.Contains(ref, s.Edition) {
		ref += " | " + s.Edition
	}
	return ref
}

// name is what the sheet is called: "Change order CO-7".
func (s *Sheet) name() string { return join(" ", s.Kind, s.Number) }

// title names the document in a browser's tab, a file's properties and an e-mail's subject.
func (s *Sheet) title() string { return join(", ", s.name(), s.Title, s.Letterhead.Name) }

// cells are all cells of the title block: who it is for, where, then the facts.
func (s *Sheet) cells() []Fact {
	w := wordsIn(s.Lang)
	var list []Fact
	if to := join(", ", append([]string{s.To.Name}, s.To.Address...)...); to != "" {
		list = append(list, Fact{w.For, Words(to)})
	}
	if s.To.Site != "" {
		list = append(list, Fact{w.Site, Words(s.To.Site)})
	}
	return append(list, s.Facts...)
}

func (s *Sheet) lang() string {
	if s.Lang == "" || strings.Trim(s.Lang, alphanumeric+"-") != "" {
		return "en"
	}
	return s.Lang
}
