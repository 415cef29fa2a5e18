package price

import (
	"slices"
	"strings"

	"jobday/notes"
	"jobday/trade"
)

// Rows finds the rows of a price list by what a note calls a thing. It is made once for a list,
// never changes, and may be used by several jobs at a time.
type Rows struct {
	list     []notes.PriceRow
	words    [][]string        // of each row's item, sorted; nil of a task
	keys     map[string]string // of every wording of the list, as it stands there
	material map[string][]int  // rows by the key of code, item, name and words
	tasks    []task
}

// task is a row sold at a unit price, with each wording it goes by as a set of words.
type task struct {
	row      *notes.PriceRow
	wordings [][]string
	words    []string // of its item, sorted
	things   []string // those of its words that are no verb
}

// Index prepares the rows of a price list for Find and Task; nil stands for an empty list.
func Index(list *notes.PriceList) *Rows {
	if list == nil {
		list = &notes.PriceList{}
	}
	n := len(list.Rows)
	r := &Rows{
		list: list.Rows, words: make([][]string, n),
		keys: make(map[string]string, 3*n), material: make(map[string][]int, 2*n),
	}
	for i := range list.Rows {
		row := &list.Rows[i]
		if row.Kind == "task" {
			r.tasks = append(r.tasks, newTask(row))
			continue
		}
		r.words[i] = wordsOf(row.Item)
		r.enter(row.Item, strings.Join(r.words[i], " "), i)
		for _, w := range append([]string{row.Name, row.Code}, row.Words...) {
			if _, known := r.keys[w]; !known {
				r.keys[w] = key(w)
			}
			r.enter(w, r.keys[w], i)
		}
	}
	return r
}

func (r *Rows) enter(wording, key string, row int) {
	r.keys[wording] = key
	if key != "" && !slices.Contains(r.material[key], row) {
		r.material[key] = append(r.material[key], row)
	}
}

func newTask(row *notes.PriceRow) task {
	t := task{row: row, words: wordsOf(row.Item)}
	for _, w := range append([]string{row.Item, row.Name}, row.Words...) {
		// A wording of a single word fits too much and is left out.
		if words := wordsOf(w); len(words) > 1 {
			t.wordings = append(t.wordings, words)
		}
	}
	for _, w := range t.words {
		if _, verb := trade.Verb(w); !verb {
			t.things = append(t.things, w)
		}
	}
	return t
}

// Find returns the material row for a thing by its name, and false when none or more than one
// fits. Names fit when they have the same words in any order. Of several rows the one sold in the
// unit is taken.
func (r *Rows) Find(item string, unit notes.Unit) (notes.PriceRow, bool) {
	if row := r.find(r.keyOf(item), unit); row != nil {
		return *row, true
	}
	return notes.PriceRow{}, false
}

// keyOf returns the words of a name in a fixed order: two names with one key name the same thing.
func (r *Rows) keyOf(item string) string {
	if k, known := r.keys[item]; known {
		return k
	}
	return key(item)
}

func (r *Rows) find(key string, unit notes.Unit) *notes.PriceRow {
	rows := r.material[key]
	if len(rows) == 1 {
		return &r.list[rows[0]]
	}
	var fit *notes.PriceRow
	for _, i := range rows {
		if r.list[i].Unit != unit {
			continue
		}
		if fit != nil {
			return nil
		}
		fit = &r.list[i]
	}
	return fit
}

// Near returns the one material row all of whose words, or all but some of whose words, are those
// of item; false when there is none or several. It is good for a hint, never for a price.
func (r *Rows) Near(item string) (notes.PriceRow, bool) {
	if row := r.near(item); row != nil {
		return *row, true
	}
	return notes.PriceRow{}, false
}

func (r *Rows) near(item string) *notes.PriceRow {
	words := wordsOf(item)
	if len(words) == 0 {
		return nil
	}
	var fit *notes.PriceRow
	for i, have := range r.words {
		if len(have) == 0 || !holds(words, have) && !holds(have, words) {
			continue
		}
		if fit != nil {
			return nil
		}
		fit = &r.list[i]
	}
	return fit
}

// Task returns the tasks whose every significant word is among those of the work. A task whose words
// are all among those of another that fits says less and is left out. More than one left means that
// the work may be either, or both.
func (r *Rows) Task(work string) []notes.PriceRow {
	var rows []notes.PriceRow
	for _, t := range r.tasksOf(work) {
		rows = append(rows, *t.row)
	}
	return rows
}

func (r *Rows) tasksOf(work string) []*task {
	if len(r.tasks) == 0 || work == "" {
		return nil
	}
	type fitting struct {
		*task
		most []string // its longest wording that fits
	}
	words := wordsOf(work)
	var fit []fitting
	for i := range r.tasks {
		var most []string
		for _, w := range r.tasks[i].wordings {
			if len(w) > len(most) && holds(words, w) {
				most = w
			}
		}
		if most != nil {
			fit = append(fit, fitting{&r.tasks[i], most})
		}
	}
	var tasks []*task
	for _, t := range fit {
		less := func(o fitting) bool { return len(o.most) > len(t.most) && holds(o.most, t.most) }
		if !slices.ContainsFunc(fit, less) {
			tasks = append(tasks, t.task)
		}
	}
	return tasks
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
