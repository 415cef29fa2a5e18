package trade

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed kin.txt
var kinText string

// topics are bits, one for each row of kin.txt.
type topics [2]uint64

func (t topics) both(u topics) topics { return topics{t[0] & u[0], t[1] & u[1]} }

func (t topics) any() bool { return t[0]|t[1] != 0 }

// kin holds the topics of each word.
var kin = sync.OnceValue(func() map[string]topics {
	m := map[string]topics{}
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

// Topics is what terms of the trade are spoken of with. The zero value is none.
type Topics struct{ of topics }

// TopicsOf returns the topics of a term in normal form, from its single words.
func TopicsOf(term string) Topics {
	var all Topics
	for w := range strings.FieldsFuncSeq(strings.ToLower(term), func(r rune) bool { return r == ' ' || r == '/' }) {
		t := kin()[w]
		if !t.any() && len(w) > 3 {
			t = kin()[strings.TrimSuffix(w, "s")]
		}
		all.of[0] |= t[0]
		all.of[1] |= t[1]
	}
	return all
}

// Shared reports whether two terms have a topic in common: who speaks of one is likely at work on the other.
func (t Topics) Shared(u Topics) bool { return t.of.both(u.of).any() }
