package price

import (
	"slices"
	"strings"
	"unicode"

	"jobday/notes"
	"jobday/trade"
)

// Rows finds the rows of a price list by what a note calls a thing. It is made once for a list,
// never changes, and may be used by several jobs at a time.
type Rows struct {
	list     []notes.PriceRow
	words    [][]string       // of each row's item, sorted
	material map[string][]int // by the key of code, item, name and words
	tasks    []task
}

// task is a row sold at a unit price, with each wording it goes by as a set of words.
type task struct {
	row      int
	wordings [][]string
}

// Index prepares the rows of a price list for Find and Task; nil stands for an empty list.
func Index(list *notes.PriceList) *Rows {
	r := &Rows{material: map[string][]int{}}
	if list == nil {
		return r
	}
	r.list = list.Rows
	for i, row := range list.Rows {
		wordings := append([]string{row.Item, row.Name}, row.Words...)
		r.words = append(r.words, wordsOf(row.Item))
		if row.Kind == "task" {
			r.tasks = append(r.tasks, task{i, significant(wordings)})
			continue
		}
		for _, w := range append(wordings, row.Code) {
			r.enter(key(w), i)
		}
	}
	return r
}

func (r *Rows) enter(key string, row int) {
	if key != "" && !slices.Contains(r.material[key], row) {
		r.material[key] = append(r.material[key], row)
	}
}

// Find returns the material row for a thing by its name, and false when none or more than one
// fits. Names fit when they have the same words in any order. Of several rows the one sold in the
// unit is taken.
func (r *Rows) Find(item string, unit notes.Unit) (notes.PriceRow, bool) {
	rows := r.material[key(item)]
	if len(rows) == 1 {
		return r.list[rows[0]], true
	}
	fit := -1
	for _, i := range rows {
		if r.list[i].Unit != unit {
			continue
		}
		if fit >= 0 {
			return notes.PriceRow{}, false
		}
		fit = i
	}
	if fit < 0 {
		return notes.PriceRow{}, false
	}
	return r.list[fit], true
}

// Near returns the one material row all of whose words, or all but some of whose words, are those
// of item; false when there is none or several. It is good for a hint, never for a price.
func (r *Rows) Near(item string) (notes.PriceRow, bool) {
	words := wordsOf(item)
	fit := -1
	for i, row := range r.list {
		if row.Kind == "task" {
			continue
		}
		if have := r.words[i]; !holds(words, have) && !holds(have, words) {
			continue
		}
		if fit >= 0 {
			return notes.PriceRow{}, false
		}
		fit = i
	}
	if fit < 0 || len(words) == 0 {
		return notes.PriceRow{}, false
	}
	return r.list[fit], true
}

// Task returns the tasks whose every significant word is among those of the work. A task whose words
// are all among those of another that fits says less and is left out. More than one left means that
// the work may be either, or both.
func (r *Rows) Task(work string) []notes.PriceRow {
	words := wordsOf(work)
	var fit []task
	for _, t := range r.tasks {
		var most []string
		for _, w := range t.wordings {
			if len(w) > len(most) && holds(words, w) {
				most = w
			}
		}
		if most != nil {
			fit = append(fit, task{t.row, [][]string{most}})
		}
	}
	var rows []notes.PriceRow
	for _, t := range fit {
		less := func(o task) bool {
			return len(o.wordings[0]) > len(t.wordings[0]) && holds(o.wordings[0], t.wordings[0])
		}
		if !slices.ContainsFunc(fit, less) {
			rows = append(rows, r.list[t.row])
		}
	}
	return rows
}

// significant returns the words of each wording that tell one task from another. A wording of a
// single word fits too much and is left out.
func significant(wordings []string) [][]string {
	var out [][]string
	for _, w := range wordings {
		if words := wordsOf(w); len(words) > 1 {
			out = append(out, words)
		}
	}
	return out
}

// key returns the words of a name in a fixed order: two names with one key name the same thing.
func key(name string) string { return strings.Join(wordsOf(name), " ") }

// small words tell no two things apart.
var small = map[string]bool{
	"a": true, "an": true, "and": true, "at": true, "by": true, "for": true, "from": true, "in": true,
	"of": true, "on": true, "the": true, "to": true, "with": true, "w": true,
}

// wordsOf returns the words of text in lower case, in the trade's usual word for each, sorted,
// each once and without small words. A size such as 12/2 or 1.5 is one word.
func wordsOf(text string) []string {
	fields := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '/' && r != '.'
	})
	words := fields[:0]
	for _, w := range fields {
		w = strings.Trim(w, "./")
		if w == "" || small[w] {
			continue
		}
		words = append(words, canon(w))
	}
	slices.Sort(words)
	return slices.Compact(words)
}

// canon returns the trade's usual word for w, or w in the singular.
func canon(w string) string {
	if c, known := trade.Canon(w); known {
		return c
	}
	c, _ := trade.Canon(singular(w))
	return c
}

// singular cuts a plural ending, as far as that is safe without a dictionary.
func singular(w string) string {
	if len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") {
		return w[:len(w)-1]
	}
	return w
}

// holds reports whether every word of part is in whole. Both are sorted.
func holds(whole, part []string) bool {
	i := 0
	for _, w := range part {
		for i < len(whole) && whole[i] < w {
			i++
		}
		if i == len(whole) || whole[i] != w {
			return false
		}
	}
	return len(part) > 0
}
