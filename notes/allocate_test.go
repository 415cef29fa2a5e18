package notes

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestAllocateIsExact(t *testing.T) {
	draw := func(t *rapid.T, least int) Money {
		return Cents(Int(rapid.IntRange(least, 9_999_999).Draw(t, "cents")).Quo(Int(100), 2))
	}
	rapid.Check(t, func(t *rapid.T) {
		amount := draw(t, -9_999_999)
		shares := make([]Money, rapid.IntRange(1, 9).Draw(t, "shares"))
		var sum Money
		for i := range shares {
			shares[i] = draw(t, 0)
			sum = sum.Add(shares[i])
		}
		var got Money
		for i, p := range Allocate(amount, shares) {
			got = got.Add(p)
			if sum.Sign() > 0 { // within a cent of the exact part: |p*sum - amount*share| <= 0.01*sum
				off := p.Decimal().Mul(sum.Decimal()).Sub(amount.Decimal().Mul(shares[i].Decimal()))
				limit := MustDecimal("0.01").Mul(sum.Decimal())
				require.LessOrEqual(t, off.Cmp(limit), 0)
				require.GreaterOrEqual(t, off.Cmp(limit.Neg()), 0)
			}
		}
		require.True(t, got.Equal(amount), "%s is not %s", got, amount)
	})
	require.Equal(t, "[33.33 33.34 33.33]", sprint(Allocate(MustMoney("100"), []Money{MustMoney("1"), MustMoney("1"), MustMoney("1")})))
	require.Equal(t, "[100.00 0.00]", sprint(Allocate(MustMoney("100"), make([]Money, 2))))
}

func sprint(parts []Money) string {
	s := "["
	for i, p := range parts {
		if i > 0 {
			s += " "
		}
		s += p.String()
	}
	return s + "]"
}
