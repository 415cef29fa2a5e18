package price

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/notes"
)

// priced returns what costs of labor, material, equipment and subcontract come to by rules.
func priced(r *notes.PricingRules, costs ...string) string {
	p := parts{}
	for k, c := range costs {
		p.add(kind(k), single("cost", "", notes.MustMoney(c), nil))
	}
	p.markUp(r)
	return p.sum().String()
}

func builtIn(t *testing.T, name string) *notes.PricingRules {
	for _, r := range ForceAccount() {
		if r.Name == name {
			return &r
		}
	}
	require.Fail(t, "no set "+name)
	return nil
}

// The percentages are those of the provisions as published; the totals are computed by hand from
// their words.
func TestForceAccountProvisions(t *testing.T) {
	for _, c := range []struct {
		set   string
		costs []string
		want  string
	}{
		// Indian River County, Florida, force account form A: labor + 15 %, material at cost, special
		// equipment at agreed rent, profit 10 % of labor before the 15 % and of material:
		// 1150 + 500 + 200 + 150.
		{"indian river force account", []string{"1000.00", "500.00", "200.00"}, "2000.00"},
		// The same county, form B: up to 20 % on own net cost; through a subcontractor 15 % for him,
		// 1000 -> 1150, and 10 % of that for the prime.
		{"indian river change order", []string{"1000.00"}, "1200.00"},
		{"indian river change order", []string{"0.00", "0.00", "0.00", "1150.00"}, "1265.00"},
		// City of Paris, Texas, method C: actual field cost + 15 %.
		{"paris field cost", []string{"600.00", "300.00", "100.00"}, "1150.00"},
		// San Joaquin County, file form: each + 15 %, then a bond of 1 %: 1150 + 11.50.
		{"san joaquin force account", []string{"600.00", "300.00", "100.00"}, "1161.50"},
		// Hawaii Revised Statutes 103D-501(b)(5)(A): documented actual cost + 20 %.
		{"hawaii actual cost", []string{"2500.00", "1500.00"}, "4800.00"},
		// Missouri DOT, Engineering Policy Guide 109.5: 5 % of the subcontracted actual cost: 2400 + 120.
		{"missouri subcontract", []string{"0.00", "0.00", "0.00", "2400.00"}, "2520.00"},
	} {
		assert.Equal(t, c.want, priced(builtIn(t, c.set), c.costs...), "%s %v", c.set, c.costs)
	}
}

// Ohio DOT, 2010 specification 109.05, Table 109.05-2: what the prime adds for a subcontractor's work.
// The amounts follow from the table by hand.
func TestHandlingByBands(t *testing.T) {
	for bill, want := range map[string]string{
		"4000.00": "500.00", "10000.00": "500.00", "10001.00": "500.05", "120000.00": "6000.00", "500000.00": "25000.00",
		"700000.00": "30000.00", "1000000.00": "37500.00", "2000000.00": "37500.00",
	} {
		total := notes.MustMoney(bill).Add(notes.MustMoney(want)).String()
		assert.Equal(t, total, priced(builtIn(t, "ohio subcontract"), "0.00", "0.00", "0.00", bill))
	}
	assert.Equal(t, "100.00", priced(builtIn(t, "ohio subcontract"), "100.00"), "nothing by a subcontractor")
}

// GSA clause 552.243-71 (Mar 2019) leaves overhead to be negotiated, so a company writes it: at 12 %
// overhead on 10 000 and 10 % profit on both, 1 200 + 1 120 = 12 320. On a subcontractor's direct cost
// the upper firm gets half its rates, together not over 10 %: 11 % is 10 %, and 5 000 gives 500; half
// of 8 + 10 is 9 %, and gives 450.
func TestProfitOnOverhead(t *testing.T) {
	rules := &notes.PricingRules{Markups: []notes.Markup{
		{Name: "overhead", Percent: notes.Int(12), On: []string{"labor", "material", "equipment"}},
		{Name: "profit", Percent: notes.Int(10), On: []string{"labor", "material", "equipment", "overhead"}},
		{Name: "on subcontract", Percent: notes.Int(10), On: []string{"subcontract"}},
	}}
	assert.Equal(t, "12320.00", priced(rules, "7000.00", "2000.00", "1000.00"))
	assert.Equal(t, "5500.00", priced(rules, "0.00", "0.00", "0.00", "5000.00"))
	rules.Markups[2].Percent = notes.Int(9)
	assert.Equal(t, "5450.00", priced(rules, "0.00", "0.00", "0.00", "5000.00"))
}

// Markup is on cost, margin is on price: 100 at 15 % is 115.00, and 117.65 would be a margin.
func TestMarkupIsOnCost(t *testing.T) {
	assert.Equal(t, "115.00", priced(builtIn(t, "paris field cost"), "100.00"))
}

func anyMoney(t *rapid.T, name string) notes.Money {
	return notes.Cents(notes.Int(rapid.IntRange(0, 5_000_000).Draw(t, name)).Quo(notes.Int(100), 2))
}

// Whatever is divided: the parts add up to it to the cent, and each is less than a cent from its
// exact share.
func TestAllocationIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var weights byKind
		for k := range weights {
			weights[k] = anyMoney(t, "weight")
		}
		amount := anyMoney(t, "amount")
		parts := allocate(amount, weights)
		require.True(t, parts.sum().Equal(amount), "%s is not %s", parts.sum(), amount)
		if weights.sum().IsZero() {
			return
		}
		for k, p := range parts {
			exact := amount.Decimal().Mul(weights[k].Decimal()).Quo(weights.sum().Decimal(), 12)
			off := p.Decimal().Sub(exact)
			if off.Sign() < 0 {
				off = off.Neg()
			}
			require.LessOrEqual(t, off.Cmp(notes.MustDecimal("0.01")), 0, "%s for %s", p, exact)
		}
	})
}

// Whatever the costs, the rules and a cut: the working adds up to the price, kind by kind and in all,
// and a cut takes off no more of a kind than there is.
func TestWorkingAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p parts
		for k := range kinds {
			for range rapid.IntRange(0, 2).Draw(t, "steps") {
				p.add(k, single("cost", "", anyMoney(t, "cost"), nil))
			}
		}
		sets := ForceAccount()
		p.markUp(&sets[rapid.IntRange(0, len(sets)-1).Draw(t, "rules")])
		if limit := anyMoney(t, "limit"); limit.Cmp(p.sum()) < 0 {
			p.cut(p.sum().Sub(limit), "cut", "")
			require.True(t, p.sum().Equal(limit))
		}
		add := func(steps []notes.PricingStep) (sum notes.Money) {
			for _, s := range steps {
				sum = sum.Add(s.Amount)
			}
			return sum
		}
		require.True(t, add(p.working()).Equal(p.sum()))
		for k, total := range p.totals() {
			require.GreaterOrEqual(t, total.Sign(), 0)
			require.True(t, add(p.workingOf(kind(k))).Equal(total), "%s", kind(k))
		}
	})
}

// Minutes are shared to the minute, and nobody gets more than he worked.
func TestOvertimeIsSharedToTheMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		weights := make([]notes.Minutes, rapid.IntRange(0, 6).Draw(t, "things"))
		total := notes.Minutes(0)
		for i := range weights {
			weights[i] = notes.Minutes(rapid.IntRange(0, 900).Draw(t, "minutes"))
			total += weights[i]
		}
		whole := notes.Minutes(rapid.IntRange(0, 1200).Draw(t, "whole"))
		sum := notes.Minutes(0)
		for i, m := range apportion(whole, weights) {
			require.LessOrEqual(t, m, weights[i])
			require.GreaterOrEqual(t, m, notes.Minutes(0))
			sum += m
		}
		require.Equal(t, min(whole, total), sum)
	})
}
