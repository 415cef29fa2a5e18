package restock_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/finding"
	"jobday/notes"
	"jobday/restock"
)

func cost(s string) *notes.Money {
	m := notes.MustMoney(s)
	return &m
}

func use(qty string, unit notes.Unit, item, code string, line int) notes.MaterialUse {
	m := notes.MaterialUse{Item: item, Code: code, From: []notes.Source{{File: "n.md", Line: line, Column: 3}}}
	if qty != "" {
		m.Qty = notes.Quantity{Value: notes.MustDecimal(qty), Unit: unit}
	}
	return m
}

func input(days ...*notes.JobDay) restock.Input {
	return restock.Input{
		Company: &notes.Company{Name: "Reed and Marl Electric", Currency: "USD"},
		Prices: &notes.PriceList{Rows: []notes.PriceRow{
			{Code: "GF20", Item: "20A GFCI receptacle", Unit: notes.Each, Cost: cost("17.40"), Kind: "material"},
			{Code: "MC102", Item: "10/2 MC cable", Unit: notes.Foot, Cost: cost("1.12"), Kind: "material", Pack: notes.MustDecimal("250")},
			{Item: "duct seal", Name: "duct seal", Unit: notes.Pack, Kind: "material"},
		}},
		Jobs:  []restock.Job{{Job: &notes.Job{Number: "2431"}, Days: days}},
		Since: notes.MustDate("2026-03-12"), Until: notes.MustDate("2026-03-13"),
	}
}

func TestWhatWasUsedInTheOrderOfTheList(t *testing.T) {
	f := finding.NewFile("n.md", []byte("- 200 ft 10/2 MC\n- 60 m 10/2\n- 3 GFCIs\n- 2 widgets\n- some tape\n- 2 rolls 10/2\n"))
	first := &notes.JobDay{
		Date:  notes.MustDate("2026-03-12"),
		Notes: []notes.NoteRef{{File: "n.md", Source: f}},
		Materials: []notes.MaterialUse{
			use("200", notes.Foot, "10/2 MC cable", "MC102", 1), use("60", notes.Meter, "10/2 MC cable", "MC102", 2),
			use("2", notes.Each, "widget", "", 4), use("", "", "tape", "", 5), use("2", notes.Roll, "10/2 MC cable", "MC102", 6),
			{Item: "receptacle", Line: "x", Qty: notes.Quantity{Value: notes.Int(9), Unit: notes.Each}},
		},
		Extras: []notes.ExtraWork{{ID: "x", Outcome: notes.ExtraNotDone}},
		Entries: []notes.EntryResult{
			{Outcome: notes.Unclear, Section: notes.Materials, Text: "4 10 2s", Why: "can be read as 4 ea or 40 ea"},
			{Outcome: notes.Unclear, Section: notes.Done, Text: "did the thing"},
			{Outcome: notes.Delivery, Text: "500 ft of 10/2 on a reel"},
		},
	}
	sealed := use("1", notes.Pack, "duct seal", "", 1)
	sealed.Priced = true
	second := &notes.JobDay{Date: notes.MustDate("2026-03-13"), Materials: []notes.MaterialUse{use("3", notes.Each, "20A GFCI receptacle", "GF20", 3), sealed}}
	late := &notes.JobDay{Date: notes.MustDate("2026-03-14"), Materials: []notes.MaterialUse{use("1", notes.Each, "20A GFCI receptacle", "GF20", 3)}}

	l := restock.Make(input(first, second, late))
	require.Len(t, l.Rows, 3)
	assert.Equal(t, []string{"20A GFCI receptacle", "10/2 MC cable", "duct seal"}, []string{l.Rows[0].Item, l.Rows[1].Item, l.Rows[2].Item})
	assert.Equal(t, "52.20", l.Rows[0].Cost.String())
	// 200 ft and 60 m are 200 + 60/0.3048 = 396.850394 ft: two packages of 250 ft at 1.12 a foot.
	assert.Equal(t, "396.850394", l.Rows[1].Used.String())
	assert.Equal(t, "500", l.Rows[1].Buy.String())
	assert.Equal(t, "560.00", l.Rows[1].Cost.String())
	assert.Nil(t, l.Rows[2].Cost)
	assert.Equal(t, "612.20", l.Cost.Amount.String())
	assert.Equal(t, 1, l.Cost.Costless)

	var why []string
	for _, u := range l.Unnamed {
		why = append(why, u.Text+": "+u.Why)
	}
	assert.Equal(t, []string{
		"2 widgets: no row of the price list fits", "some tape: no quantity is written",
		"2 rolls 10/2: the price list counts 10/2 MC cable in ft",
	}, why)
	require.Len(t, l.Unclear, 1)
	assert.Equal(t, "4 10 2s", l.Unclear[0].Text)
	require.Len(t, l.Came, 1)
}

// Whatever was used: every use is counted once, and what is bought covers it with less than a
// package to spare.
func TestWholePackagesCoverWhatWasUsed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &notes.JobDay{Date: notes.MustDate("2026-03-12")}
		var sum notes.Decimal
		n := rapid.IntRange(1, 12).Draw(t, "uses")
		for range n {
			q := notes.Ratio(rapid.IntRange(1, 90000).Draw(t, "hundredths"), 100)
			sum = sum.Add(q)
			d.Materials = append(d.Materials, use(q.String(), notes.Foot, "10/2 MC cable", "MC102", 1))
		}
		in := input(d)
		pack := notes.Ratio(rapid.IntRange(1, 50000).Draw(t, "pack"), 100)
		in.Prices.Rows[1].Pack = pack
		r := restock.Make(in).Rows[0]
		require.Len(t, r.From, n)
		require.True(t, r.Used.Equal(sum))
		require.True(t, r.Packs.IsWhole())
		require.True(t, r.Buy.Equal(r.Packs.Mul(pack)))
		require.GreaterOrEqual(t, r.Buy.Cmp(r.Used), 0)
		require.Negative(t, r.Buy.Sub(r.Used).Cmp(pack))
	})
}
