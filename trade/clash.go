package trade

import (
	"slices"
	"strconv"
	"strings"
)

// A Clash is a phrase of a shop's own kind that announces another kind already.
type Clash struct {
	Slug   string // the shop's kind
	Phrase string // as the shop wrote it
	Other  Kind   // the kind that has it
}

// mostWays bounds the ways one phrase with alternatives is spelled out.
const mostWays = 64

// Clashes returns the phrases of the kinds named by slug that another kind of the catalogue has as well,
// in the order of the catalogue: the words fold alike, in any order. The kind that comes first is taken
// when a note writes them.
func (c Catalogue) Clashes(slugs []string) []Clash {
	if len(slugs) == 0 {
		return nil
	}
	x := c.all()
	first := map[string]int16{}
	var out []Clash
	for i := range x.phrase {
		p := &x.phrase[i]
		own := slices.Contains(slugs, x.kinds[p.kind].Slug)
		for _, key := range p.ways(x.missing) {
			k, taken := first[key]
			if !taken {
				first[key] = p.kind
				continue
			}
			if own && k != p.kind && (len(out) == 0 || out[len(out)-1].Phrase != p.text) {
				out = append(out, Clash{x.kinds[p.kind].Slug, p.text, x.kinds[k]})
			}
		}
	}
	return out
}

// ways spells a phrase out: one key for each choice among its alternatives.
func (p *phrase) ways(missing int16) []string {
	lists := [][]int16{nil}
	for _, set := range p.words {
		if len(set) == 3 && set[0] == missing {
			set = set[:1] // "missing" stands for "no" and "not" too, in every phrase
		}
		var next [][]int16
		for _, l := range lists {
			for _, id := range set {
				if len(next) < mostWays {
					next = append(next, append(l[:len(l):len(l)], id))
				}
			}
		}
		lists = next
	}
	keys := make([]string, len(lists))
	for i, l := range lists {
		slices.Sort(l)
		var b strings.Builder
		for _, id := range l {
			b.WriteString(strconv.Itoa(int(id)))
			b.WriteByte(' ')
		}
		keys[i] = b.String()
	}
	return keys
}
