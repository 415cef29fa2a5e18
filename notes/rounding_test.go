package notes

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Cases of the General Decimal Arithmetic test suite, version 2.59, quantize.decTest, rounding half_up,
// by their names there.
func TestRoundingOfTheGeneralDecimalArithmeticCases(t *testing.T) {
	for _, c := range []struct {
		id, from string
		places   uint8
		want     string
	}{
		{"quax060", "2.17", 3, "2.170"}, {"quax061", "2.17", 2, "2.17"}, {"quax062", "2.17", 1, "2.2"},
		{"quax1002", "0.001", 3, "0.001"}, {"quax1003", "0.0012", 3, "0.001"}, {"quax1004", "0.0018", 3, "0.002"},
		{"quax1005", "0.501", 3, "0.501"}, {"quax1006", "0.5012", 3, "0.501"}, {"quax1007", "0.5018", 3, "0.502"},
		{"quax1008", "0.999", 3, "0.999"}, {"quax1009", "0.9992", 3, "0.999"},
		{"quax1043", "-2147483649", 0, "-2147483649"}, {"quax1051", "4294967297", 0, "4294967297"},
	} {
		assert.Equal(t, c.want, MustDecimal(c.from).Fixed(c.places), c.id)
	}
}

// anyDecimal returns a number as prices, quantities and rates are, and the same as a fraction.
func anyDecimal(t *rapid.T, name string) (Decimal, *big.Rat) {
	text := rapid.StringMatching(`-?(0|[1-9][0-9]{0,7})(\.[0-9]{1,6})?`).Draw(t, name)
	r, ok := new(big.Rat).SetString(text)
	require.True(t, ok, text)
	d, err := ParseDecimal(text)
	require.NoError(t, err, text)
	return d, r
}

// rounded writes a fraction rounded half away from zero: half of the last place is added to what it
// is without its sign, and the rest is cut.
func rounded(r *big.Rat, places int) string {
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
	up := new(big.Rat).Add(new(big.Rat).Mul(new(big.Rat).Abs(r), scale), big.NewRat(1, 2))
	n := new(big.Int).Quo(up.Num(), up.Denom())
	s := n.String()
	if places > 0 {
		s = strings.Repeat("0", max(0, places+1-len(s))) + s
		s = s[:len(s)-places] + "." + s[len(s)-places:]
	}
	if r.Sign() < 0 && n.Sign() != 0 {
		s = "-" + s
	}
	return s
}

// Sums and products are exact, and quotients and amounts are the exact value rounded once, as
// math/big has them.
func TestArithmeticIsThatOfFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, x := anyDecimal(t, "a")
		b, y := anyDecimal(t, "b")
		exact := func(want *big.Rat, got Decimal, what string) {
			r, ok := new(big.Rat).SetString(got.String())
			require.True(t, ok && r.Cmp(want) == 0, "%s %s %s is not %s", a, what, b, got)
		}
		exact(new(big.Rat).Add(x, y), a.Add(b), "+")
		exact(new(big.Rat).Sub(x, y), a.Sub(b), "-")
		exact(new(big.Rat).Mul(x, y), a.Mul(b), "x")
		require.Equal(t, x.Cmp(y), a.Cmp(b))
		for _, places := range []uint8{0, 2, 6, 12} {
			if y.Sign() != 0 {
				require.Equal(t, rounded(new(big.Rat).Quo(x, y), int(places)), a.Quo(b, places).Fixed(places), "%s / %s", a, b)
			}
			require.Equal(t, rounded(x, int(places)), a.Fixed(places), "%s to %d", a, places)
		}
		require.Equal(t, rounded(new(big.Rat).Mul(x, y), 2), Cents(a.Mul(b)).String())
	})
}
