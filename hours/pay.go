package hours

import (
	"math/big"
	"slices"

	"jobday/notes"
)

// Stretch is paid time at one straight rate an hour.
type Stretch struct {
	Regular, Overtime notes.Minutes
	Rate              notes.Money
}

// Pay returns what a workweek comes to: all hours at their straight rates, and for each hour of
// overtime half the regular rate on top. The regular rate is all earnings of the week by all its
// hours (29 CFR 778.109, and 778.115 where there are several rates); other is what was earned beside
// the hours and belongs into it, such as a production bonus (778.110(b)). The rate is kept as a
// fraction, and the sum is rounded once, half a cent up.
//
// each holds what falls to each stretch, its part of other with it; together they are the total, to
// the cent: the cents that rounding leaves go to the largest remainders, the earlier stretch first.
func Pay(week []Stretch, other notes.Money) (total notes.Money, each []notes.Money) {
	minutes, earned := new(big.Int), new(big.Int) // minutes; cents times minutes an hour
	for _, s := range week {
		m := whole(s.Regular + s.Overtime)
		minutes.Add(minutes, m)
		earned.Add(earned, new(big.Int).Mul(m, cents(s.Rate)))
	}
	if minutes.Sign() == 0 {
		return other, make([]notes.Money, len(week))
	}
	bonus := cents(other)
	all := new(big.Int).Add(earned, new(big.Int).Mul(bonus, big.NewInt(60))) // of the week, 60 times
	// Everything below is a number of cents times 120 times the week's minutes.
	unit := new(big.Int).Mul(minutes, big.NewInt(120))
	weights := make([]*big.Int, len(week))
	sum := new(big.Int)
	for i, s := range week {
		m := whole(s.Regular + s.Overtime)
		straight := new(big.Int).Mul(m, cents(s.Rate))
		straight.Mul(straight, minutes).Lsh(straight, 1)
		share := new(big.Int).Mul(m, bonus)
		share.Mul(share, big.NewInt(120))
		premium := new(big.Int).Mul(whole(s.Overtime), all)
		weights[i] = straight.Add(straight, share).Add(straight, premium)
		sum.Add(sum, weights[i])
	}
	pay := halfUp(sum, unit)
	return money(pay), shares(pay, weights)
}

// Shares parts an amount, which is not negative, by weights: each gets its part cut to the cent, and
// the cents left go one each to the largest remainders, the earlier first. The parts add up to the
// amount. With no weight at all everything goes to the first.
func Shares(amount notes.Money, weights []notes.Minutes) []notes.Money {
	by := make([]*big.Int, len(weights))
	for i, w := range weights {
		by[i] = whole(w)
	}
	return shares(cents(amount), by)
}

func shares(amount *big.Int, weights []*big.Int) []notes.Money {
	out := make([]notes.Money, len(weights))
	sum := new(big.Int)
	for _, w := range weights {
		sum.Add(sum, w)
	}
	if len(weights) == 0 {
		return out
	}
	if sum.Sign() == 0 {
		out[0] = money(amount)
		return out
	}
	left := new(big.Int).Set(amount)
	parts, rests, order := make([]*big.Int, len(weights)), make([]*big.Int, len(weights)), make([]int, len(weights))
	for i, w := range weights {
		parts[i], rests[i] = new(big.Int).QuoRem(new(big.Int).Mul(amount, w), sum, new(big.Int))
		left.Sub(left, parts[i])
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return rests[b].Cmp(rests[a]) })
	for k := range int(left.Int64()) { // fewer than there are parts
		parts[order[k]].Add(parts[order[k]], big.NewInt(1))
	}
	for i, p := range parts {
		out[i] = money(p)
	}
	return out
}

// halfUp returns a / b rounded half up; neither is negative.
func halfUp(a, b *big.Int) *big.Int {
	twice := new(big.Int).Lsh(a, 1)
	twice.Add(twice, b)
	return twice.Quo(twice, new(big.Int).Lsh(b, 1))
}

func whole(m notes.Minutes) *big.Int { return big.NewInt(int64(m)) }

func cents(m notes.Money) *big.Int {
	n, _ := new(big.Int).SetString(m.Decimal().Mul(notes.Int(100)).Fixed(0), 10) // a whole number always
	return n
}

func money(cents *big.Int) notes.Money {
	return notes.Cents(notes.MustDecimal(cents.String()).Quo(notes.Int(100), 2))
}
