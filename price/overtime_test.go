package price_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"jobday/notes"
	"jobday/price"
)

// overtimeOf returns the minutes of overtime of days from Monday 2026-03-09, in hours each.
func overtimeOf(rule notes.Overtime, hours ...int) (overtime notes.Minutes) {
	var all []price.Stretch
	for i, h := range hours {
		all = append(all, price.Stretch{Date: notes.MustDate("2026-03-09").AddDays(i), Minutes: notes.Minutes(h * 60)})
	}
	for _, s := range price.Allot(all, rule, time.Monday) {
		overtime += s.Overtime
	}
	return overtime
}

// 29 CFR 778.110(a): 46 hours in a workweek, six of them overtime: at $12 that is 46 x 12 + 6 x 6 = 588.
// 29 CFR 778.104: 30 hours in one week and 50 in the next are ten of overtime, not none.
func TestHoursOverFortyInAWorkweekAreOvertime(t *testing.T) {
	weekly := notes.Overtime{WeeklyOver: 40 * 60}
	over := overtimeOf(weekly, 8, 8, 8, 8, 8, 6)
	assert.Equal(t, notes.Minutes(6*60), over)
	pay := notes.MustMoney("12.00").Times(notes.Int(46)).Add(notes.MustMoney("6.00").Times(over.Hours()))
	assert.Equal(t, "588.00", pay.String())
	assert.Equal(t, notes.Minutes(10*60), overtimeOf(weekly, 10, 10, 10, 0, 0, 0, 0, 10, 10, 10, 10, 10))
	assert.Equal(t, notes.Minutes(0), overtimeOf(notes.Overtime{}, 12, 12, 12, 12), "never")
}

// What is overtime by the day is credited against that by the week (29 CFR 778.202): a week has the
// larger of the two. The hours are made up.
func TestOvertimeByDayAndWeekIsCountedOnce(t *testing.T) {
	both := notes.Overtime{WeeklyOver: 40 * 60, DailyOver: 8 * 60}
	assert.Equal(t, notes.Minutes(16*60), overtimeOf(both, 12, 12, 12, 12))
	assert.Equal(t, notes.Minutes(10*60), overtimeOf(both, 10, 10, 10, 10, 10))
	assert.Equal(t, notes.Minutes(8*60), overtimeOf(both, 10, 8, 8, 8, 8, 6))
}

// The limit falls inside a stretch: what comes first on the clock is regular.
func TestTheLimitCutsAStretch(t *testing.T) {
	d := notes.MustDate("2026-03-12")
	got := price.Allot([]price.Stretch{{d, 300}, {d, 240}, {d, 60}}, notes.Overtime{DailyOver: 480}, time.Monday)
	assert.Equal(t, []price.Split{{300, 0}, {180, 60}, {0, 60}}, got)
}

func TestTheWeekBeginsOnTheFixedDay(t *testing.T) {
	sunday := notes.MustDate("2026-03-15")
	assert.Equal(t, "2026-03-09", price.WeekOf(sunday, time.Monday).String())
	assert.Equal(t, "2026-03-15", price.WeekOf(sunday, time.Sunday).String())
	assert.Equal(t, "2026-03-11", price.WeekOf(sunday, time.Wednesday).String())
}

// Whatever the stretches and the rule: no minute is lost or made, regular time stays within both
// limits, and a week's overtime is the larger of the daily and the weekly one.
func TestAllotKeepsEveryMinute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rule := notes.Overtime{
			WeeklyOver: notes.Minutes(rapid.IntRange(0, 3000).Draw(t, "weekly")),
			DailyOver:  notes.Minutes(rapid.IntRange(0, 700).Draw(t, "daily")),
		}
		workweek := time.Weekday(rapid.IntRange(0, 6).Draw(t, "starts"))
		var all []price.Stretch
		date := notes.MustDate("2026-02-26")
		for range rapid.IntRange(0, 40).Draw(t, "stretches") {
			date = date.AddDays(rapid.IntRange(0, 2).Draw(t, "days"))
			all = append(all, price.Stretch{Date: date, Minutes: notes.Minutes(rapid.IntRange(0, 900).Draw(t, "minutes"))})
		}
		type sums struct{ total, regular, daily notes.Minutes }
		weeks, days := map[notes.Date]*sums{}, map[notes.Date]notes.Minutes{}
		for i, s := range price.Allot(all, rule, workweek) {
			require.Equal(t, all[i].Minutes, s.Regular+s.Overtime)
			require.GreaterOrEqual(t, s.Regular, notes.Minutes(0))
			require.GreaterOrEqual(t, s.Overtime, notes.Minutes(0))
			w := price.WeekOf(all[i].Date, workweek)
			if weeks[w] == nil {
				weeks[w] = &sums{}
			}
			weeks[w].total += all[i].Minutes
			weeks[w].regular += s.Regular
			days[all[i].Date] += all[i].Minutes
		}
		for d, m := range days {
			if rule.DailyOver > 0 {
				weeks[price.WeekOf(d, workweek)].daily += max(m-rule.DailyOver, 0)
			}
		}
		for w, s := range weeks {
			weekly := notes.Minutes(0)
			if rule.WeeklyOver > 0 {
				weekly = max(s.total-rule.WeeklyOver, 0)
			}
			require.Equal(t, max(s.daily, weekly), s.total-s.regular, fmt.Sprint(w))
		}
	})
}
