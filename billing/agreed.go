package billing

import (
	"jobday/notes"
	"jobday/price"
	"jobday/record"
)

// Agreements returns what holds for each offered extra, by its id as the notes have it now. The days
// need not be priced. Of two change orders on one extra the later one holds.
func Agreements(days []*notes.JobDay, changes []notes.ChangeOrder) map[string]*price.Agreement {
	if len(changes) == 0 {
		return nil
	}
	all := notes.LatestExtras(days)
	named := map[string]bool{}
	for i := range changes {
		for _, item := range changes[i].Items {
			named[item.Extra] = true
		}
	}
	known := map[string]bool{}
	for _, e := range all {
		known[e.ID] = true
	}
	agreed := map[string]*price.Agreement{}
	for i := range changes {
		c := &changes[i]
		authorized := authorizedRows(c)
		for _, item := range c.Items {
			id := item.Extra
			if !known[id] {
				if id = renamed(item, c.Sources, all, named); id == "" {
					continue
				}
			}
			agreed[id] = agreement(c, item, authorized)
		}
	}
	return agreed
}

func agreement(c *notes.ChangeOrder, item notes.ChangeItem, authorized map[int]notes.Money) *price.Agreement {
	a := &price.Agreement{Number: c.Number, Offered: c.Offered, Item: item}
	for _, r := range item.Rows {
		if r.Taxed {
			a.Taxed = a.Taxed.Add(authorized[r.Row])
		} else {
			a.Free = a.Free.Add(authorized[r.Row])
		}
	}
	for _, said := range c.Answers {
		if a.Answer == notes.AnswerAuthorized && said.Kind == notes.AnswerDeclined {
			continue // of what was not authorized
		}
		a.Answer, a.Who, a.How, a.At = said.Kind, said.Who, said.How, said.At
	}
	return a
}

// authorizedRows returns how much of each row of a change order is authorized. An answer that names
// an amount and no rows is divided over the rows that are still open, in proportion and exactly; a
// withdrawal takes back all before it.
func authorizedRows(c *notes.ChangeOrder) map[int]notes.Money {
	done := map[int]notes.Money{}
	for _, said := range c.Answers {
		if said.Kind == notes.AnswerWithdrawn {
			clear(done)
			continue
		}
		var rows []int
		var open []notes.Money
		for _, i := range c.Items {
			for _, r := range i.Rows {
				if len(said.Rows) == 0 || contains(said.Rows, r.Row) {
					rows, open = append(rows, r.Row), append(open, r.Amount.Sub(done[r.Row]))
				}
			}
		}
		if said.Kind != notes.AnswerAuthorized {
			continue
		}
		for k, part := range notes.Allocate(said.Amount, open) {
			done[rows[k]] = done[rows[k]].Add(part)
		}
	}
	return done
}

func contains(rows []int, row int) bool {
	for _, r := range rows {
		if r == row {
			return true
		}
	}
	return false
}

// Authorized returns how much of a change order is authorized so far.
func Authorized(c *notes.ChangeOrder) notes.Money {
	return record.Authorized(c)
}

// Mark puts on the extras of a job's days what its records say of them: billed, once an invoice that
// was not taken back has them. The money of the days is not touched: a day's ready money is what
// became ready on it.
func Mark(days []*notes.JobDay, in Input) {
	if len(in.Records.Invoices) == 0 {
		return
	}
	sent := in.billed()
	for _, d := range days {
		for i := range d.Extras {
			e := &d.Extras[i]
			if e.State == notes.ExtraAuthorized && (sent[key{e.ID, true}] != nil && !sent[key{e.ID, true}].amount.IsZero() ||
				sent[key{e.ID, false}] != nil && !sent[key{e.ID, false}].amount.IsZero()) {
				e.State = notes.ExtraBilled
			}
		}
	}
}
