package trade

import (
	"math/bits"
	"slices"
	"strings"
	"sync"
)

// A phraseIndex is the catalogue's words and phrases made ready for comparing. It is built once,
// from data that does not change, and only read after that.
type phraseIndex struct {
	kinds  []Kind
	ids    map[string]int16 // stem of a single word to the word it stands for
	multi  map[string][]run // first stem of several words that stand for one
	spell  map[byte][]string
	phrase []phrase
	anchor [][]int32 // by word: the phrases it is the rarest word of
	names  []string  // by word: its stem
	weight []int     // by word: how much it tells, the fewer kinds use it the more
	pool   []int16   // the words of all phrases, one array for them all
	sets   [][]int16 // the same, a slice a word

	missing, none, not, fine, check int16
}

// A run is several stems in a row that stand for one word.
type run struct {
	rest string // the stems after the first, parted by spaces
	n    int    // how many those are
	id   int16
}

// A phrase is words that announce a kind, in any order. Each word may be one of several.
type phrase struct {
	kind   int16
	anchor int8 // which word is looked up first
	words  [][]int16
	needs  uint64 // a bit for every word that has no alternative, for a quick refusal
	weight int
	text   string
}

// maxWords is how many different words the catalogue may use. Those beyond are known to nobody: a
// phrase that needs one never fits.
const maxWords = 2048

var phrases = sync.OnceValue(func() *phraseIndex { return buildPhrases(kinds, nil) })

func buildPhrases(kinds []Kind, own []Fold) *phraseIndex {
	x := &phraseIndex{
		kinds: kinds,
		ids:   make(map[string]int16, 2048), multi: make(map[string][]run, 512), spell: map[byte][]string{},
		pool: make([]int16, 0, 16384), sets: make([][]int16, 0, 16384), phrase: make([]phrase, 0, 4096), weight: make([]int, 0, maxWords),
	}
	for _, f := range faultWords {
		x.fold(f)
	}
	for _, f := range own {
		x.fold(f)
	}
	x.missing, x.none, x.not = x.ids["miss"], x.ids["no"], x.ids["not"]
	x.fine, x.check = x.ids["fin"], x.ids["ourcheck"]
	for k := range kinds {
		for _, text := range kinds[k].Phrases {
			if p := x.read(int16(k), text); len(p.words) > 0 && len(p.words) <= MostPhraseWords {
				x.phrase = append(x.phrase, p)
			}
		}
	}
	x.weigh()
	for first := range x.multi {
		slices.SortStableFunc(x.multi[first], func(a, b run) int { return b.n - a.n })
	}
	for s := range x.ids {
		if len(s) >= leastSpelled {
			x.spell[s[0]] = append(x.spell[s[0]], s)
		}
	}
	for c := range x.spell {
		slices.Sort(x.spell[c])
	}
	return x
}

// fold enters a word and what stands for it.
func (x *phraseIndex) fold(f Fold) {
	id := x.word(stem(f.Word))
	var buf [16]jot
	for _, v := range plainToo(f.Forms) {
		js := appendJots(buf[:0], v)
		switch {
		case len(js) == 1:
			x.ids[js[0].stem] = id
		case len(js) > 1:
			r := run{id: id, n: len(js) - 1, rest: js[1].stem}
			for _, j := range js[2:] {
				r.rest += " " + j.stem
			}
			x.multi[js[0].stem] = append(x.multi[js[0].stem], r)
		}
	}
}

// plainToo adds to ways of writing those without their apostrophes, as most people type them: "doesnt come on".
func plainToo(forms []string) []string {
	out := forms
	for _, v := range forms {
		if strings.Contains(v, "'") {
			out = append(out[:len(out):len(out)], strings.ReplaceAll(v, "'", ""))
		}
	}
	return out
}

// word returns the number of a stem, a new one for a stem not seen before.
func (x *phraseIndex) word(s string) int16 {
	id, ok := x.ids[s]
	if !ok && len(x.weight) >= maxWords-1 {
		if len(x.weight) < maxWords {
			x.weight, x.names = append(x.weight, 0), append(x.names, "")
		}
		return maxWords - 1
	}
	if !ok {
		id = int16(len(x.weight))
		x.ids[s] = id
		x.weight, x.names = append(x.weight, 0), append(x.names, s)
	}
	return id
}

// read makes a phrase of its text: words parted by spaces, alternatives by "|".
func (x *phraseIndex) read(kind int16, text string) phrase {
	p := phrase{kind: kind, text: text}
	first := len(x.sets)
	for alternatives := range strings.FieldsSeq(text) {
		from := len(x.pool)
		for w := range strings.SplitSeq(alternatives, "|") {
			id := x.word(stem(w))
			x.pool = append(x.pool, id)
			if id == x.missing {
				x.pool = append(x.pool, x.none, x.not)
			}
		}
		set := x.pool[from:len(x.pool):len(x.pool)]
		if len(set) == 1 {
			p.needs |= 1 << (set[0] % 64)
		}
		x.sets = append(x.sets, set)
	}
	p.words = x.sets[first:len(x.sets):len(x.sets)]
	return p
}

// weightBase is what the uses of a word are held against. It is no count of the kinds, so that a shop's own
// kinds do not shift what the built-in ones weigh.
const weightBase = 64

// weigh gives each word a weight by how few kinds use it, each phrase the sum of its words', and
// enters each phrase under its rarest word.
func (x *phraseIndex) weigh() {
	type use struct {
		kinds int
		last  int16 // 1 + the kind counted last: phrases come kind by kind
	}
	used := make([]use, len(x.weight))
	for _, p := range x.phrase {
		for _, set := range p.words {
			for _, id := range set {
				if used[id].last != p.kind+1 {
					used[id] = use{used[id].kinds + 1, p.kind + 1}
				}
			}
		}
	}
	for id, in := range used {
		x.weight[id] = 4 + bits.Len(uint(weightBase/max(1, in.kinds)))
	}
	counts, total := make([]int, len(x.weight)), 0
	for i := range x.phrase {
		p := &x.phrase[i]
		best := 0
		for n, set := range p.words {
			w := x.weight[set[0]]
			if set[0] == x.missing {
				w = 5 // as common as "no", though written as one word
			}
			p.weight += w
			if w > best {
				best, p.anchor = w, int8(n)
			}
		}
		for _, id := range p.words[p.anchor] {
			counts[id]++
			total++
		}
	}
	x.enter(counts, total)
}

// enter puts each phrase under its rarest word; counts says how many come under each.
func (x *phraseIndex) enter(counts []int, total int) {
	all := make([]int32, total)
	x.anchor = make([][]int32, len(counts))
	for id, n := range counts {
		x.anchor[id], all = all[:0:n], all[n:]
	}
	for i := range x.phrase {
		for _, id := range x.phrase[i].words[x.phrase[i].anchor] {
			x.anchor[id] = append(x.anchor[id], int32(i))
		}
	}
}
