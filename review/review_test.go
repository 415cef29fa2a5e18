package review_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/bookgen"
	"jobday/compile"
	"jobday/finding"
	"jobday/notes"
	"jobday/review"
)

// TestTheReviewOfTwoWeeksOnPaper checks every figure of a book small enough to add up by hand.
func TestTheReviewOfTwoWeeksOnPaper(t *testing.T) {
	r := review.Of(input(t, "2026-03-02", "2026-03-15", smallBook))

	assert.Equal(t, 2, r.Jobs)
	assert.Equal(t, 4, r.Days)
	got := map[string]string{}
	for _, s := range r.Flow {
		got[s.Name] = s.Amount.String()
	}
	assert.Equal(t, map[string]string{
		"billed": "0.00", "authorized": "180.00", "awaiting": "118.00", "declined": "75.00", "given away": "40.00", "never priced": "0.00",
	}, got)
	assert.Equal(t, "413.00", r.Found.String())
	assert.Equal(t, "43.6", r.Flow[1].Percent.String(), "180 of 413")
}

// TestThePartsMakeTheWhole holds over books of any size: the fates add up to what was found, as do
// the causes, the things and the weeks, and hours add up to the clock.
func TestThePartsMakeTheWhole(t *testing.T) {
	for seed := range uint64(6) {
		res := compile.Book(bookgen.Files(bookgen.Size{Seed: seed, Jobs: 4, Days: 9}), compile.Options{})
		r := review.Of(of(res, "2020-01-01", "2030-01-01"))
		require.NotEmpty(t, r.Extras)
		for _, list := range [][]review.Share{r.Flow, r.Causes, r.Things} {
			var sum notes.Money
			count := 0
			for _, s := range list {
				sum = sum.Add(s.Amount)
				count += s.Count
				assert.Len(t, s.Of, s.Count)
			}
			assert.True(t, sum.Equal(r.Found), "%s is not %s", sum, r.Found)
			assert.Equal(t, len(r.Extras)-r.Credits.Count, count)
		}
		var weeks notes.Money
		for _, w := range r.Weeks {
			weeks = weeks.Add(w.Found)
		}
		assert.True(t, weeks.Equal(r.Found))
		for _, h := range r.Hours {
			assert.Equal(t, h.Clock, h.OnLines+h.OnExtras+h.Elsewhere)
		}
	}
}

func input(t *testing.T, since, until string, files map[string]string) review.Input {
	t.Helper()
	var list []*finding.File
	for name, text := range files {
		list = append(list, finding.NewFile(name, []byte(text)))
	}
	return of(compile.Book(list, compile.Options{}), since, until)
}

func of(res *compile.Result, since, until string) review.Input {
	in := review.Input{Since: notes.MustDate(since), Until: notes.MustDate(until)}
	for _, j := range res.Jobs {
		in.Jobs = append(in.Jobs, review.Job{Job: j.Job, Days: j.Days})
	}
	return in
}

// smallBook is two jobs on four days. By hand: 180.00 quoted and agreed; one receptacle more than
// booked, 118.00, no word on it; 75.00 quoted and declined; half an hour at 80.00 given away.
var smallBook = map[string]string{
	"company.yaml": `name: Sill Electric
people: {Ines Haldane: journeyman}
classes: {journeyman: {cost: 40.00, rate: 80.00}}
rounding: {billed: 15 min}
markup: [{percent: 40}]
taxes: {plain: {taxed: [], rates: {}}}
`,
	"prices.csv": "code,item,unit,cost,price,kind,words\nG20,GFCI receptacle,ea,20.00,,material,\nTAPE,warning tape,roll,18.00,,material,\n",
	"jobs/11-counter/scope.md": `---
job: 11
title: Counter
customer: Quay Lane Bakery
booked: 2026-02-27
tax: plain
---

## Scope

| Line | Work                             | Qty | Unit | Price       | Hours |
|------|----------------------------------|-----|------|-------------|-------|
| C    | GFCI receptacles at prep counter | 3   | ea   | 118.00 each | 2     |
| D    | Trace and label panel LP1        | 1   | ea   | 200.00      | 2     |
`,
	"jobs/11-counter/2026-03-02.md": `---
crew: [Ines]
---

## Done
- C: 4 GFCI receptacles in at the prep counter

## Materials
- 4 GFCI receptacles
- 1 roll warning tape

## Extras
- Added a disconnect for the dough mixer, quoted 180, ok'd by Ruth Amsel on site 10:40
- Offered a surge protector, quoted 75, Ruth declined

## Deficiencies
- LP1 has an open knockout; left, told Ruth

## Time
- Ines 7-3:30, 30 lunch
`,
	"jobs/11-counter/2026-03-03.md": `## Time
- Ines 7-11
`,
	"jobs/12-yard/scope.md": `---
job: 12
title: Yard light
customer: Dell Yard
booked: 2026-02-27
tax: plain
---

## Scope

| Line | Work                 | Qty | Unit | Price  | Hours |
|------|----------------------|-----|------|--------|-------|
| A    | Replace yard light   | 1   | ea   | 300.00 | 2     |
`,
	"jobs/12-yard/2026-03-10.md": `## Extras
- Reset the timer clock for the pump, 30 min, Ines, no charge

## Time
- Ines 8-10
`,
	"jobs/12-yard/2026-03-11.md": `## Done
- A: yard light up and working
`,
	"jobs/12-yard/2026-03-20.md": `## Extras
- Added a receptacle at the pump, quoted 500, ok'd by Jon Dell by text 9:10
`,
}
