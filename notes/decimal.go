package notes

import (
	"fmt"
	"strings"

	"github.com/quagmt/udecimal"
)

// Decimal is an exact decimal number: a quantity, a rate, a percentage. It is never a float.
// The zero value is 0. Compare with Cmp or Equal: == tells 1.0 from 1.
type Decimal struct{ d udecimal.Decimal }

// ParseDecimal reads a plain decimal such as "52", "0.5", ".5" or "-12.75".
// It takes no thousands separators, exponents or units; what a person jots is read by the parser.
func ParseDecimal(s string) (Decimal, error) {
	digits := strings.TrimPrefix(s, "-")
	if strings.HasPrefix(digits, ".") {
		digits = "0" + digits
	}
	if digits == "" || digits[0] < '0' || digits[0] > '9' {
		return Decimal{}, fmt.Errorf("%q is not a number", s)
	}
	d, err := udecimal.Parse(digits)
	if err != nil {
		return Decimal{}, fmt.Errorf("%q is not a number", s)
	}
	if len(s) > 0 && s[0] == '-' {
		d = d.Neg()
	}
	return Decimal{d}, nil
}

// MustDecimal is ParseDecimal for constants and tests; it panics on a text that is no number.
func MustDecimal(s string) Decimal {
	d, err := ParseDecimal(s)
	if err != nil {
		panic("notes: " + err.Error())
	}
	return d
}

// Int returns n as a Decimal.
func Int(n int) Decimal { return Decimal{udecimal.MustFromInt64(int64(n), 0)} }

// Ratio returns n/m cut after 12 decimals; m must not be 0.
func Ratio(n, m int) Decimal { return Int(n).Quo(Int(m), 12) }

// Add returns a + b.
func (a Decimal) Add(b Decimal) Decimal { return Decimal{a.d.Add(b.d)} }

// Sub returns a - b.
func (a Decimal) Sub(b Decimal) Decimal { return Decimal{a.d.Sub(b.d)} }

// Mul returns a * b, exactly.
func (a Decimal) Mul(b Decimal) Decimal { return Decimal{a.d.Mul(b.d)} }

// Quo returns a / b rounded half away from zero to places decimals; b must not be 0.
func (a Decimal) Quo(b Decimal, places uint8) Decimal {
	q, err := a.d.Div(b.d)
	if err != nil {
		panic("notes: division by zero")
	}
	return Decimal{q.RoundHAZ(places)}
}

// Round returns a rounded half away from zero to places decimals.
func (a Decimal) Round(places uint8) Decimal { return Decimal{a.d.RoundHAZ(places)} }

// Floor returns the largest whole number not above a.
func (a Decimal) Floor() Decimal { return Decimal{a.d.Floor()} }

// Neg returns -a.
func (a Decimal) Neg() Decimal { return Decimal{a.d.Neg()} }

// Cmp returns -1, 0 or 1 as a is less than, equal to or more than b.
func (a Decimal) Cmp(b Decimal) int { return a.d.Cmp(b.d) }

// Equal reports whether a and b are the same number.
func (a Decimal) Equal(b Decimal) bool { return a.d.Cmp(b.d) == 0 }

// Sign returns -1, 0 or 1.
func (a Decimal) Sign() int { return a.d.Sign() }

// IsZero reports whether a is 0.
func (a Decimal) IsZero() bool { return a.d.IsZero() }

// IsWhole reports whether a has no fraction.
func (a Decimal) IsWhole() bool { return a.d.Cmp(a.d.Floor()) == 0 }

// Int returns the whole part of a, cut toward zero, and false when it does not fit an int.
func (a Decimal) Int() (int, bool) {
	n, err := a.d.Trunc(0).Int64()
	return int(n), err == nil
}

// String returns the number without trailing zeros: "52", "0.5", "-12.75".
func (a Decimal) String() string { return a.d.String() }

// Fixed returns the number rounded half away from zero with exactly places decimals.
func (a Decimal) Fixed(places uint8) string { return a.d.RoundHAZ(places).StringFixed(places) }

// MarshalText writes the number as String does; in JSON it is a string.
func (a Decimal) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (a *Decimal) UnmarshalText(b []byte) error {
	d, err := ParseDecimal(string(b))
	*a = d
	return err
}

// Min returns the smaller of a and b.
func Min(a, b Decimal) Decimal {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}

// Max returns the larger of a and b.
func Max(a, b Decimal) Decimal {
	if a.Cmp(b) > 0 {
		return a
	}
	return b
}
