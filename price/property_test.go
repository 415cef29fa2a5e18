package price_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse"
	"jobday/price"
)

const randomCompany = `name: A
people: {Ines: journeyman, Tobias: apprentice}
classes: {journeyman: {cost: 46.00, rate: 98.01, travel: 33.33}, apprentice: {cost: 27.00, rate: 62.00}}
markup: [{up_to: 5.00, percent: 37.5}, {percent: 20}]
minimum: {extra: 65.00, minutes: 30}
taxes: {repair: {taxed: [scope, material], rates: {state: 6.25, city: 1.5}, per: line}}
`

const randomPrices = `code,item,unit,cost,price,kind,words
MC,10/2 MC cable,ft,1.13,,material,
CN,connector,ea,0.62,0.9,material,
FX,fixture,ea,61.07,,material,
T1,Add receptacle,ea,,145.00,task,
`

const randomScope = `---
job: 1
---
## Scope

| Line | Work | Qty | Unit | Price       |
|------|------|-----|------|-------------|
| A    | One  | 3   | ea   | 100.00      |
| B    | Two  | 7   | ft   | 9.33 each   |
| C    | Three | 1  | ea   | T&M max 150 |
| D    | Four | 4   | ea   | T&M         |
| E    | Five | 1   | ea   |             |

## Allowed materials

| Line | Item          | Qty | Unit |
|------|---------------|-----|------|
| A    | 10/2 MC cable | 20  | ft   |
`

// A dice makes days the way reconcile leaves them: progress only grows, an open extra stands in
// every later day until it is authorized, what is dropped is part of what is left.
type dice struct {
	*rand.Rand
	job    *notes.Job
	open   []notes.ExtraWork
	extras int
}

func (r *dice) one(in int) bool { return r.IntN(in) == 0 }

func (r *dice) qty(most int) notes.Decimal {
	return notes.Int(r.IntN(most*4+1)).Quo(notes.Int(4), 2)
}

func (r *dice) day(n int, before *notes.JobDay) *notes.JobDay {
	d := &notes.JobDay{Date: notes.Date{Year: 2026, Month: 3, Day: n + 1}}
	file := finding.NewFile(d.Date.String()+".md", []byte("x"))
	d.Notes = []notes.NoteRef{{File: file.Name, Source: file, Covered: []finding.Span{file.Span(0, 1)}}}
	for i, l := range r.job.Lines {
		s := notes.LineStanding{Line: l.Label, Booked: notes.BookedQty{Qty: l.Qty.Value, Unit: l.Qty.Unit}, State: notes.NotReported}
		if before != nil {
			s.ToDate, s.Dropped = before.Scope[i].ToDate, before.Scope[i].Dropped
		}
		d.Scope = append(d.Scope, r.progress(s))
	}
	for _, name := range []string{"Ines", "Tobias", "Jonas", ""} {
		row := notes.LaborRow{Name: name, On: map[string]notes.Minutes{}}
		for _, key := range []string{"A", "C", "D", notes.Unassigned} {
			if r.one(3) {
				row.On[key] = notes.Minutes(r.IntN(300))
				row.Minutes += row.On[key]
			}
		}
		row.Travel = notes.Minutes(r.IntN(int(row.Minutes) + 1))
		d.Labor = append(d.Labor, row)
	}
	for range r.IntN(5) {
		d.Materials = append(d.Materials, r.use([]string{"A", "B", "C", "D", "E", ""}[r.IntN(6)]))
	}
	r.addExtras(d)
	r.addEntries(d)
	return d
}

// addEntries adds equipment, subcontractors and what nobody can tell.
func (r *dice) addEntries(d *notes.JobDay) {
	for n := range r.IntN(4) {
		label := []string{"", "A: ", "C: ", "D: "}[r.IntN(4)]
		e := notes.EntryResult{ID: fmt.Sprintf("%s/entry-%d", d.Date, n), Outcome: notes.Unclear, Text: "scissor lift", Entry: &notes.Entry{}}
		e.Source = notes.Source{File: d.Notes[0].File, Line: 1, Column: n + 1}
		e.Entry.Facts.Time = []notes.TimeRow{{Stated: notes.Minutes(r.IntN(200)), People: []string{"Ines", "Jonas", "Tobias"}[:r.IntN(4)]}}
		switch r.IntN(4) {
		case 0:
			e.Outcome, e.Text = notes.EquipmentUse, label+"scissor lift"
		case 1:
			e.Outcome, e.Text = notes.Subcontractor, label+"Brook Coring $"+notes.Cents(r.qty(90)).String()
		case 2:
			quoted := notes.Cents(r.qty(90))
			e.Entry.Facts.Price.Quoted = &quoted
		}
		d.Entries = append(d.Entries, e)
	}
}

func (r *dice) progress(s notes.LineStanding) notes.LineStanding {
	if !r.one(3) {
		s.Today = r.qty(3)
		s.ToDate = s.ToDate.Add(s.Today)
		s.State = notes.UnderWay
	}
	left := s.Booked.Qty.Sub(s.ToDate)
	if r.one(6) && left.Sign() > 0 && s.Dropped.IsZero() {
		s.Dropped = left
	}
	s.Finished = s.Today.Sign() > 0 && left.Sign() <= 0
	s.Over = notes.Max(notes.Decimal{}, left.Neg())
	s.Left = notes.Max(notes.Decimal{}, left)
	s.Unclear = r.one(8)
	return s
}

func (r *dice) use(line string) notes.MaterialUse {
	u := notes.MaterialUse{Line: line, Item: []string{"10/2 MC cable", "connector", "fixture", "blue widget"}[r.IntN(4)]}
	u.Qty = notes.Quantity{Value: r.qty(40), Unit: []notes.Unit{notes.Foot, notes.Each, notes.Meter, ""}[r.IntN(4)]}
	return u
}

func (r *dice) addExtras(d *notes.JobDay) {
	for range r.IntN(3) {
		r.extras++
		e := notes.ExtraWork{ID: fmt.Sprintf("extra-%d", r.extras), Found: d.Date, Outcome: notes.ExtraDone}
		if r.one(4) {
			e.Outcome = notes.ExtraNotDone
		}
		for _, name := range []string{"Ines", "Tobias", "Jonas", ""} {
			if r.one(3) {
				m := notes.Minutes(r.IntN(100))
				e.Labor, e.Minutes = append(e.Labor, notes.LaborUse{Person: name, Minutes: m, Travel: r.one(5)}), e.Minutes+m
			}
		}
		for range r.IntN(3) {
			e.Materials = append(e.Materials, r.use(e.ID))
		}
		amount := notes.Cents(r.qty(400))
		switch r.IntN(6) {
		case 0:
			e.Price.Quoted = &amount
		case 1:
			e.Price.NotOver = &amount
		case 2:
			e.Price.NoCharge = true
		case 3:
			e.TaskWork, e.Qty = "added a receptacle", notes.Quantity{Value: r.qty(3), Unit: notes.Each}
		case 4:
			e.Line, e.Qty = "B", notes.Quantity{Value: r.qty(3), Unit: notes.Foot}
		}
		if r.one(8) {
			e.Unclear = "it may be line A"
		}
		r.open = append(r.open, e)
	}
	var still []notes.ExtraWork
	for _, e := range r.open {
		e.Authorization.State = []string{"none", "asked", "authorized", "declined"}[r.IntN(4)]
		if e.Outcome == notes.ExtraNotDone && r.one(3) {
			e.Outcome = notes.ExtraDone
		}
		d.Extras = append(d.Extras, e)
		if e.Authorization.State != "authorized" || e.Outcome == notes.ExtraNotDone {
			still = append(still, e)
		}
	}
	r.open = still
}

func TestRandomDaysKeepTheMoneyTogether(t *testing.T) {
	read := func(name, text string) *finding.File { return finding.NewFile(name, []byte(text)) }
	company, _ := parse.Company(read("company.yaml", randomCompany))
	crediting, _ := parse.Company(read("company.yaml", randomCompany+
		"equipment: {scissor lift: 22.01}\ncredit_unused: true\nsmall_tools: 3\nsubcontract: 7.5\novertime: {daily_over: 4 h, weekly_over: 11 h, bill: true}\n"))
	companies := []*notes.Company{company, crediting}
	prices, _ := parse.Prices(read("prices.csv", randomPrices))
	job, _ := parse.Scope(read("scope.md", randomScope))
	require.Len(t, job.Lines, 5)
	readyEver := 0
	for seed := range uint64(3000) {
		r := &dice{Rand: rand.New(rand.NewPCG(seed, 1)), job: job}
		var days []*notes.JobDay
		for n := range 1 + r.IntN(6) {
			var before *notes.JobDay
			if n > 0 {
				before = days[n-1]
			}
			days = append(days, r.day(n, before))
		}
		in := price.Input{Company: companies[seed%2], Prices: prices, Job: job, Overtime: price.OvertimeOf([][]*notes.JobDay{days}, companies[seed%2])}
		if seed%3 == 0 {
			by := *job
			by.Pricing = []string{"san joaquin force account", "indian river force account", "no such rules"}[seed%9/3]
			in.Job = &by
		}
		price.Days(days, in)
		require.NoError(t, notes.CheckJob(days), "seed %d", seed)
		readyEver += checkReady(t, seed, days)
	}
	require.Greater(t, readyEver, 3000, "the dice make days with something to bill")
}

// checkReady holds what all days bill against what was booked and who agreed.
func checkReady(t *testing.T, seed uint64, days []*notes.JobDay) int {
	sums, qty := map[string]notes.Money{}, map[string]notes.Decimal{}
	lines := 0
	for _, d := range days {
		extras := map[string]notes.ExtraWork{}
		for _, e := range d.Extras {
			extras[e.ID] = e
		}
		for _, l := range d.Money.Ready.Lines {
			lines++
			require.True(t, l.Amount.Equal(notes.Cents(l.Rate.Mul(l.Qty))), "seed %d: %s does not multiply out", seed, l.What)
			sums[l.Ref], qty[l.Ref] = sums[l.Ref].Add(l.Amount), qty[l.Ref].Add(l.Qty)
			if e, ok := extras[l.Ref]; ok {
				require.Equal(t, "authorized", e.Authorization.State, "seed %d: %s", seed, e.ID)
				require.Equal(t, notes.ExtraDone, e.Outcome, "seed %d: %s", seed, e.ID)
				require.Empty(t, e.Unclear, "seed %d: %s", seed, e.ID)
				require.Equal(t, notes.ExtraAuthorized, e.State, "seed %d: %s", seed, e.ID)
			}
		}
		for _, s := range d.Scope {
			require.False(t, s.Unclear && s.Ready.Sign() != 0, "seed %d: unclear line %s is ready", seed, s.Line)
		}
		for _, e := range d.Extras {
			var steps notes.Money
			for _, s := range e.Pricing {
				steps = steps.Add(s.Amount)
			}
			require.True(t, steps.Equal(e.Amount), "seed %d: the steps of %s add up to %s, not %s", seed, e.ID, steps, e.Amount)
		}
	}
	last := days[len(days)-1]
	require.LessOrEqual(t, sums["A"].Cmp(notes.MustMoney("100.00")), 0, "seed %d: lot", seed)
	require.LessOrEqual(t, qty["B"].Cmp(notes.Min(last.Scope[1].ToDate, notes.Int(7).Sub(last.Scope[1].Dropped))), 0, "seed %d: unit price", seed)
	require.LessOrEqual(t, sums["C"].Cmp(notes.MustMoney("150.00")), 0, "seed %d: ceiling", seed)
	require.True(t, sums["E"].IsZero(), "seed %d: a line without a price", seed)
	return lines
}
