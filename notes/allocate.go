package notes

// Allocate divides an amount over shares in proportion, exactly: the parts add up to the amount to
// the cent, and each is within a cent of its exact part. Shares that add up to 0 divide nothing:
// then the first part is all of it.
//
// Each part is the rounded sum up to and with its share less the rounded sum before it; the one
// rounding is half away from zero to the cent.
func Allocate(amount Money, shares []Money) []Money {
	parts := make([]Money, len(shares))
	if len(shares) == 0 {
		return parts
	}
	var sum, upTo, given Money
	for _, s := range shares {
		sum = sum.Add(s)
	}
	if sum.IsZero() {
		parts[0] = amount
		return parts
	}
	for i, s := range shares {
		upTo = upTo.Add(s)
		whole := Cents(amount.d.Mul(upTo.d).Quo(sum.d, 2))
		parts[i] = whole.Sub(given)
		given = whole
	}
	return parts
}
