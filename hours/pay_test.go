package hours_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/hours"
	"jobday/notes"
)

// week is hours at a rate, in turn; what goes beyond 40 in all is overtime, in the order given.
func week(of ...string) []hours.Stretch {
	var out []hours.Stretch
	left := notes.Minutes(40 * 60)
	for i := 0; i+1 < len(of); i += 2 {
		h, _ := notes.MustDecimal(of[i]).Mul(notes.Int(60)).Int()
		m := notes.Minutes(h)
		s := hours.Stretch{Regular: min(m, left), Overtime: m - min(m, left), Rate: notes.MustMoney(of[i+1])}
		left -= s.Regular
		out = append(out, s)
	}
	return out
}

func TestPayAsTheRegulationsWorkItOut(t *testing.T) {
	for _, c := range []struct {
		source string
		week   []hours.Stretch
		other  string
		want   string
	}{
		{"29 CFR 778.110(a), text of 2011: 46 h at $12 are $588", week("46", "12"), "0", "588.00"},
		{"29 CFR 778.110(b), text of 2011: with a bonus of $46 the rate is $13 and the week $637", week("46", "12"), "46", "637.00"},
		{"29 CFR 778.110(a), text of 1981: 46 h at $6 are $294", week("46", "6"), "0", "294.00"},
		{"29 CFR 778.110(b), text of 1981: a bonus of $9.20 makes the rate $6.20 and the week $303.80", week("46", "6"), "9.20", "303.80"},
		// 778.115 has the rule and no figures. These weeks are public problem statements, the sums
		// worked out by hand from the rule: all earnings, and half the average rate for each hour over 40.
		{"29 CFR 778.115: 480 + 5 x 480/45/2", week("30", "10", "15", "12"), "0", "506.67"},
		{"29 CFR 778.115: 555 + 5 x 555/45/2; a rate rounded to the cent first would give 585.68", week("24", "10", "21", "15"), "0", "585.83"},
		{"29 CFR 778.115: 509 + 12.5 x 509/52.5/2", week("44.5", "10", "8", "8"), "0", "569.60"},
		{"29 CFR 778.104: each week stands alone; 30 h have no overtime", week("30", "12"), "0", "360.00"},
	} {
		total, each := hours.Pay(c.week, notes.MustMoney(c.other))
		assert.Equal(t, c.want, total.String(), c.source)
		assert.Equal(t, c.want, sum(each).String(), c.source)
	}
}

func sum(each []notes.Money) (all notes.Money) {
	for _, m := range each {
		all = all.Add(m)
	}
	return all
}

// Whatever the week: its parts add up to it to the cent, no part is negative, the sum does not
// depend on how the week is cut into stretches, and it lies between straight time and half again.
func TestPayIsPartedWithoutLosingACent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var week, cut []hours.Stretch
		straight := notes.Decimal{}
		for range rapid.IntRange(1, 9).Draw(t, "stretches") {
			s := hours.Stretch{
				Regular:  notes.Minutes(rapid.IntRange(0, 900).Draw(t, "regular")),
				Overtime: notes.Minutes(rapid.IntRange(0, 300).Draw(t, "overtime")),
				Rate:     notes.Cents(notes.Ratio(rapid.IntRange(0, 20000).Draw(t, "rate"), 100)),
			}
			week = append(week, s)
			cut = append(cut, hours.Stretch{Regular: s.Regular, Rate: s.Rate}, hours.Stretch{Overtime: s.Overtime, Rate: s.Rate})
			straight = straight.Add(s.Rate.Decimal().Mul(notes.Int(int(s.Regular + s.Overtime))))
		}
		other := notes.Cents(notes.Ratio(rapid.IntRange(0, 20000).Draw(t, "other"), 100))
		total, each := hours.Pay(week, other)
		require.Equal(t, total.String(), sum(each).Add(leftOver(week, other)).String())
		for _, m := range each {
			require.GreaterOrEqual(t, m.Sign(), 0)
		}
		again, _ := hours.Pay(cut, other)
		require.Equal(t, total.String(), again.String())
		low := notes.Cents(straight.Quo(notes.Int(60), 9)).Add(other)
		require.GreaterOrEqual(t, total.Cmp(low), 0)
		high := low.Decimal().Mul(notes.MustDecimal("1.5"))
		require.LessOrEqual(t, total.Decimal().Cmp(high.Add(notes.MustDecimal("0.01"))), 0)
	})
}

// leftOver is what no stretch can bear: all of other in a week without a minute.
func leftOver(week []hours.Stretch, other notes.Money) notes.Money {
	for _, s := range week {
		if s.Regular+s.Overtime > 0 {
			return notes.Money{}
		}
	}
	return other
}

func TestSharesAddUp(t *testing.T) {
	got := hours.Shares(notes.MustMoney("10.00"), []notes.Minutes{1, 1, 1})
	assert.Equal(t, []string{"3.34", "3.33", "3.33"}, []string{got[0].String(), got[1].String(), got[2].String()})
	assert.Equal(t, "5.00", hours.Shares(notes.MustMoney("5.00"), []notes.Minutes{0, 0})[0].String())
	assert.Empty(t, hours.Shares(notes.Money{}, nil))
}
