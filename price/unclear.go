package price

import (
	"slices"
	"strings"

	"jobday/notes"
)

// unclearEntries holds what each unclear entry of the day would be worth as an extra, as far as its
// words say it: an amount quoted, else its time and its material that are on nothing else. On a
// booked line it would be in that line's price. Where its words price nothing there is no amount to
// hold, and the finding about the entry stands alone.
func (b *bill) unclearEntries() {
	for i := range b.day.Entries {
		e := &b.day.Entries[i]
		if e.Outcome != notes.Unclear || e.Entry == nil {
			continue
		}
		worth := b.unclearWorth(e)
		if worth.Sign() <= 0 {
			continue
		}
		n := notes.MoneyNote{
			What: e.Text, Amount: worth, From: []notes.Source{e.Source}, Ref: e.ID,
			Why:   "unclear: as an extra it comes to " + worth.String() + orBooked(e),
			Frees: "a word on what it is: jobday decide " + e.ID,
		}
		b.value(n.What, n.Amount)
		b.holdOn(n, entryUnclear, nil)
	}
}

// orBooked says what an unclear entry is worth on the lines it may belong to.
func orBooked(e *notes.EntryResult) string {
	var lines []string
	for _, c := range e.Candidates {
		lines = append(lines, "line "+c.Line)
	}
	if len(lines) == 0 {
		return ", and as a remark to nothing"
	}
	return ", and on " + strings.Join(lines, " or ") + " it is in the booked price"
}

// unclearWorth prices the words of an entry as an extra would be priced, without minimum.
func (b *bill) unclearWorth(e *notes.EntryResult) notes.Money {
	facts := []notes.Facts{e.Entry.Facts}
	for _, d := range e.Entry.Details {
		if !b.Company.HiredDetail(d) {
			facts = append(facts, d.Facts)
		}
	}
	var uses []notes.LaborUse
	var p parts
	for _, f := range facts {
		if q := f.Price.Quoted; q != nil && !f.Price.Each {
			return *q
		}
		for _, row := range f.Time {
			uses = append(uses, timeUses(row, e.Source)...)
		}
		b.unclearItems(&p, f.Items, e.Source)
	}
	clocked := func(r notes.LaborRow) bool { return slices.Contains(r.From, e.Source) }
	if !slices.ContainsFunc(b.day.Labor, clocked) {
		p.direct[ofLabor] = b.priceLabor(uses, e.ID).steps
	}
	if b.rules != nil {
		p.markUp(b.rules)
	}
	return p.sum()
}

// unclearItems adds what an entry counts, unless it is among the material of the day already. What
// can be read in two ways has no price.
func (b *bill) unclearItems(p *parts, items []notes.Item, from notes.Source) {
	used := func(u notes.MaterialUse) bool { return slices.Contains(u.From, from) }
	if slices.ContainsFunc(b.day.Materials, used) {
		return
	}
	for _, it := range items {
		if !it.Qty.Written() || len(it.Other) > 0 {
			continue
		}
		use := notes.MaterialUse{Qty: it.Qty, Item: it.Name, From: []notes.Source{from}}
		if q := b.quote(&use); q.missing == "" {
			p.add(ofMaterial, q.step())
		}
	}
}

// timeUses returns the time of a row for each of its people, or of nobody in particular.
func timeUses(row notes.TimeRow, from notes.Source) []notes.LaborUse {
	if len(row.People) == 0 {
		return []notes.LaborUse{{Minutes: row.PersonMinutes(), Travel: row.Travel, From: from}}
	}
	each := row.PersonMinutes() / notes.Minutes(len(row.People))
	var uses []notes.LaborUse
	for _, name := range row.People {
		uses = append(uses, notes.LaborUse{Person: name, Minutes: each, Travel: row.Travel, From: from})
	}
	return uses
}
