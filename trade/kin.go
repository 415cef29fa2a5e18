package trade

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed kin.txt
var kinText string

// Topics is what terms of the trade are spoken of with: a bit for each row of kin.txt. The zero value is none.
type Topics [4]uint64

// kin holds the topics of each word.
var kin = sync.OnceValue(func() map[string]Topics {
	m := map[string]Topics{}
	n := 0
	for row := range strings.Lines(kinText) {
		_, words, ok := strings.Cut(row, ":")
		if !ok || row[0] == '#' {
			continue
		}
		for w := range strings.FieldsSeq(words) {
			t := m[w]
			t[n/64] |= 1 << (n % 64)
			m[w] = t
		}
		n++
	}
	return m
})

// TopicsOf returns the topics of a term in normal form, from its single words.
func TopicsOf(term string) Topics {
	var all Topics
	for w := range strings.FieldsFuncSeq(strings.ToLower(term), func(r rune) bool { return r == ' ' || r == '/' }) {
		t, known := kin()[w]
		if !known && len(w) > 3 {
			t = kin()[strings.TrimSuffix(w, "s")]
		}
		all = all.With(t)
	}
	return all
}

// Shared reports whether two terms have a topic in common: who speaks of one is likely at work on the other.
func (t Topics) Shared(u Topics) bool { return t.Common(u) != Topics{} }

// With returns the topics of both terms.
func (t Topics) With(u Topics) Topics {
	for i := range t {
		t[i] |= u[i]
	}
	return t
}

// Common returns the topics that two terms share.
func (t Topics) Common(u Topics) Topics {
	for i := range t {
		t[i] &= u[i]
	}
	return t
}
