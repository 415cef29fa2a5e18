package notes

import (
	"encoding/json"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rat is the number as an exact fraction.
func rat(t *testing.T, d Decimal) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(d.String())
	require.True(t, ok, d.String())
	return r
}

// halfAway rounds a fraction half away from zero to places decimals, by whole numbers only.
func halfAway(r *big.Rat, places int) *big.Rat {
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	n := new(big.Int).Mul(r.Num(), scale)
	n.Abs(n).Mul(n, big.NewInt(2)).Add(n, r.Denom())
	n.Quo(n, new(big.Int).Mul(r.Denom(), big.NewInt(2)))
	if r.Sign() < 0 {
		n.Neg(n)
	}
	return new(big.Rat).SetFrac(n, scale)
}

// randomDecimal has up to 24 digits before the point and six behind it, and often ends in a five.
func randomDecimal(r *rand.Rand) Decimal {
	digits := func(n int) string {
		var b strings.Builder
		for range n {
			b.WriteByte(byte('0' + r.IntN(10)))
		}
		return b.String()
	}
	s := "0" + digits(r.IntN(6))
	if r.IntN(10) == 0 {
		s = "1" + digits(23)
	}
	if places := r.IntN(7); places > 0 {
		s += "." + digits(places-1) + []string{"5", "1", "9"}[r.IntN(3)]
	}
	if r.IntN(3) == 0 {
		s = "-" + s
	}
	return MustDecimal(s)
}

// The judge is math/big: exact fractions, and rounding by whole numbers.
func TestDecimalAgreesWithExactFractions(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	same := func(want *big.Rat, got Decimal, what string, a, b Decimal) {
		require.Zero(t, want.Cmp(rat(t, got)), "%s %s %s = %s, want %s", a, what, b, got, want.FloatString(20))
	}
	for range 20000 {
		a, b := randomDecimal(r), randomDecimal(r)
		x, y := rat(t, a), rat(t, b)
		same(new(big.Rat).Add(x, y), a.Add(b), "+", a, b)
		same(new(big.Rat).Sub(x, y), a.Sub(b), "-", a, b)
		same(new(big.Rat).Mul(x, y), a.Mul(b), "*", a, b)
		same(halfAway(x, 2), a.Round(2), "round", a, b)
		require.Equal(t, x.Cmp(y), a.Cmp(b), "%s %s", a, b)
		require.Equal(t, x.Cmp(y) == 0, a.Equal(b), "%s %s", a, b)
		if !b.IsZero() {
			same(halfAway(new(big.Rat).Quo(x, y), 6), a.Quo(b, 6), "/", a, b)
		}
		m := Cents(a)
		same(halfAway(x, 2), m.Decimal(), "cents", a, b)
		same(halfAway(new(big.Rat).Mul(rat(t, m.Decimal()), y), 2), m.Times(b).Decimal(), "times", a, b)
		same(new(big.Rat).Neg(x), a.Neg(), "neg", a, b)
	}
}

func TestHalvesGoAwayFromZero(t *testing.T) {
	for in, want := range map[string]string{
		"0.005": "0.01", "-0.005": "-0.01", "2.345": "2.35", "-2.345": "-2.35", "2.3449999": "2.34", "0.0049": "0.00",
		"1.985": "1.99", "1.984": "1.98", "0": "0.00",
	} {
		assert.Equal(t, want, Cents(MustDecimal(in)).String(), in)
	}
}

func TestParseDecimalTakesPlainNumbersOnly(t *testing.T) {
	for in, want := range map[string]string{
		"52": "52", "0.50": "0.5", ".5": "0.5", "-12.75": "-12.75", "007": "7", "5.": "", "": "", "-": "", ".": "", "--5": "",
		"1e3": "", "NaN": "", "1,200": "", "+5": "", " 5": "", "5 ": "", "٥": "", "0x10": "", "Infinity": "",
		"123456789012345678901234567890": "123456789012345678901234567890",
		"0.12345678901234567890123":      "", // more decimals than are kept: refused, not cut
	} {
		d, err := ParseDecimal(in)
		assert.Equal(t, want == "", err != nil, "%q: %v", in, err)
		if err == nil {
			assert.Equal(t, want, d.String(), in)
		}
	}
	_, err := ParseDecimal(strings.Repeat("9", 5000))
	assert.Error(t, err, "a number nobody means is refused, and does no harm")
}

func TestMoneyTakesNoThirdDecimal(t *testing.T) {
	for in, want := range map[string]string{"640": "640.00", "12.5": "12.50", "-12.50": "-12.50", "1.500": "1.50"} {
		m, err := ParseMoney(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, m.String())
	}
	for _, in := range []string{"1.005", "", "x", "$5"} {
		_, err := ParseMoney(in)
		assert.Error(t, err, in)
	}
}

func TestNumbersSurviveJSON(t *testing.T) {
	type both struct {
		D Decimal
		M Money
	}
	in := both{MustDecimal("0.250"), MustMoney("640")}
	b, err := json.Marshal(in)
	require.NoError(t, err)
	assert.JSONEq(t, `{"D":"0.25","M":"640.00"}`, string(b))
	var out both
	require.NoError(t, json.Unmarshal(b, &out))
	assert.True(t, out.D.Equal(in.D) && out.M.Equal(in.M))
}

func TestHoursThatAClockStatesBetter(t *testing.T) {
	for minutes := 1; minutes < 600; minutes++ {
		m, ok := Clocked(Ratio(minutes, 60), Hour)
		assert.Equal(t, minutes%3 != 0, ok, minutes) // 3 min are 0.05 h
		if ok {
			assert.Equal(t, Minutes(minutes), m)
		}
	}
	_, ok := Clocked(MustDecimal("0.3333333"), Foot)
	assert.False(t, ok)
	_, ok = Clocked(MustDecimal("0.123"), Hour)
	assert.False(t, ok, "7.38 min are no time on a clock")
}

func TestRatioAndHours(t *testing.T) {
	assert.Equal(t, "0.75", Minutes(45).Hours().String())
	assert.Equal(t, "0.333333333333", Ratio(1, 3).String())
	assert.Equal(t, "0.166666666667", Ratio(1, 6).String())
	n, ok := MustDecimal("-2.9").Int()
	assert.True(t, ok)
	assert.Equal(t, -2, n)
	_, ok = MustDecimal("99999999999999999999999").Int()
	assert.False(t, ok)
	assert.Equal(t, "-3", MustDecimal("-2.1").Floor().String())
}

// 1 ft is 0.3048 m by definition (NIST Special Publication 811, appendix B.8): 100 ft are 30.48 m.
func TestFeetAndMetres(t *testing.T) {
	q, ok := Quantity{MustDecimal("100"), Foot}.In(Meter)
	assert.True(t, ok)
	assert.Equal(t, "30.48 m", q.String())
	q, ok = Quantity{MustDecimal("2"), Meter}.In(Foot)
	assert.True(t, ok)
	assert.Equal(t, "6.56168 ft", q.String())
	_, ok = Quantity{MustDecimal("1"), Roll}.In(Foot)
	assert.False(t, ok, "a roll has no length")
}
