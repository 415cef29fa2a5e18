package field

import (
	"slices"
	"sync"

	"jobday/notes"
	"jobday/trade"
)

// A workspace is the memory one text is read in. What is returned never points into it.
type workspace struct {
	reader
	scan   scanner
	parcel parcel
	kept   []notes.Term
}

// workspaces keeps memory from one text to the next. Nobody can tell which one a text got.
var workspaces = sync.Pool{New: func() any { return new(workspace) }}

// longText is how many tokens of memory are kept: past it the workspace is dropped.
const longText = 1024

// begin takes a workspace and cuts the text into tokens.
func begin(text string) *workspace {
	w := workspaces.Get().(*workspace)
	r := &w.reader
	*r = reader{
		text: text, toks: appendTokens(r.toks[:0], text), used: r.used[:0], lone: r.lone[:0], parts: r.parts[:0],
		seen: survey{hits: r.seen.hits[:0]},
	}
	return w
}

// end gives the workspace back; nothing of it may be used after.
func (w *workspace) end() {
	if cap(w.toks) <= longText {
		w.taken = nil
		workspaces.Put(w)
	}
}

// atoms makes the atoms of the text.
func (w *workspace) atoms(words trade.Words) {
	w.scan = scanner{text: w.text, toks: w.toks, words: words, out: w.scan.out[:0], nums: w.scan.nums[:0]}
	w.scan.run()
}

// terms returns the terms of the atoms, in memory of their own.
func (w *workspace) terms() []notes.Term {
	w.kept = w.scan.terms(w.kept[:0])
	if len(w.kept) == 0 {
		return nil
	}
	return slices.Clone(w.kept)
}
