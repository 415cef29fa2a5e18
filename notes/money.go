package notes

// Money is an amount in the company's currency, exact to the cent: every way to make one rounds
// half away from zero to two decimals, and sums of Money are never rounded again.
// The zero value is 0.00.
type Money struct{ d Decimal }

// ParseMoney reads a plain amount such as "640", "640.00" or "-12.5".
// An amount with more than two decimals is an error, not rounded: nobody meant it.
func ParseMoney(s string) (Money, error) {
	d, err := ParseDecimal(s)
	if err == nil && !d.Equal(d.Round(2)) {
		err = errTooFine(s)
	}
	return Money{d}, err
}

type errTooFine string

func (e errTooFine) Error() string { return `"` + string(e) + `" has more than two decimals` }

// MustMoney is ParseMoney for constants and tests; it panics on a text that is no amount.
func MustMoney(s string) Money {
	m, err := ParseMoney(s)
	if err != nil {
		panic("notes: " + err.Error())
	}
	return m
}

// Cents rounds d half away from zero to two decimals and returns it as an amount.
func Cents(d Decimal) Money { return Money{d.Round(2)} }

// Add returns a + b.
func (a Money) Add(b Money) Money { return Money{a.d.Add(b.d)} }

// Sub returns a - b.
func (a Money) Sub(b Money) Money { return Money{a.d.Sub(b.d)} }

// Times returns a * n rounded half away from zero to the cent.
func (a Money) Times(n Decimal) Money { return Cents(a.d.Mul(n)) }

// Neg returns -a.
func (a Money) Neg() Money { return Money{a.d.Neg()} }

// Cmp returns -1, 0 or 1 as a is less than, equal to or more than b.
func (a Money) Cmp(b Money) int { return a.d.Cmp(b.d) }

// Equal reports whether a and b are the same amount.
func (a Money) Equal(b Money) bool { return a.d.Equal(b.d) }

// Sign returns -1, 0 or 1.
func (a Money) Sign() int { return a.d.Sign() }

// IsZero reports whether a is 0.00.
func (a Money) IsZero() bool { return a.d.IsZero() }

// Decimal returns the amount as a number, for a product with a rate.
func (a Money) Decimal() Decimal { return a.d }

// String returns the amount with two decimals: "640.00".
func (a Money) String() string { return a.d.Fixed(2) }

// MarshalText writes the amount as String does; in JSON it is a string.
func (a Money) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (a *Money) UnmarshalText(b []byte) error {
	m, err := ParseMoney(string(b))
	*a = m
	return err
}
