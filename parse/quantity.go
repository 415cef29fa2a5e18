package parse

import (
	"strconv"
	"strings"

	"jobday/finding"
	"jobday/notes"
)

// unitNames are the ways a scope or price list writes a unit, in lower case.
var unitNames = map[string]notes.Unit{
	"ea": notes.Each, "each": notes.Each, "pc": notes.Each, "pcs": notes.Each, "piece": notes.Each, "pieces": notes.Each, "no": notes.Each,
	"ft": notes.Foot, "foot": notes.Foot, "feet": notes.Foot, "lf": notes.Foot, "'": notes.Foot, "′": notes.Foot, "lin ft": notes.Foot,
	"m": notes.Meter, "meter": notes.Meter, "meters": notes.Meter, "metre": notes.Meter, "metres": notes.Meter,
	"h": notes.Hour, "hr": notes.Hour, "hrs": notes.Hour, "hour": notes.Hour, "hours": notes.Hour,
	"lb": notes.Pound, "lbs": notes.Pound, "pound": notes.Pound, "pounds": notes.Pound,
	"roll": notes.Roll, "rolls": notes.Roll, "box": notes.Box, "boxes": notes.Box, "bx": notes.Box,
	"bag": notes.Bag, "bags": notes.Bag, "pair": notes.Pair, "pairs": notes.Pair, "pr": notes.Pair,
	"set": notes.Set, "sets": notes.Set, "gal": notes.Gal, "gallon": notes.Gal, "gallons": notes.Gal,
	"pk": notes.Pack, "pack": notes.Pack, "packs": notes.Pack, "pkg": notes.Pack,
	"lot": notes.Lot, "ls": notes.Lot, "lots": notes.Lot, "lump sum": notes.Lot, "job": notes.Lot,
}

// parseUnit returns the unit a text names; a text that names none is a unit of the book's own and
// comes back as written in lower case with false.
func parseUnit(s string) (notes.Unit, bool) {
	low := strings.ToLower(strings.TrimRight(strings.TrimSpace(s), "."))
	if u, ok := unitNames[low]; ok {
		return u, true
	}
	return notes.Unit(low), false
}

// largestQuantity is more than any line of a job holds; a larger figure is a slip of the keyboard.
var largestQuantity = notes.Int(1_000_000)

// quantity reads the cells Qty and Unit of a row. ok is false when the quantity cannot be used; it
// is then 1 of the unit, and nothing may be billed by it.
func (s *scopeReader) quantity(qty, unit cell, label string) (q notes.Quantity, ok bool) {
	number, behind := splitNumber(qty.text)
	if !unit.written() && behind != "" {
		unit = cell{text: behind, span: qty.span}
		behind = ""
	}
	q = notes.Quantity{Value: notes.Int(1), Unit: s.unit(unit)}
	if !qty.written() {
		return q, true
	}
	problem := ""
	value, err := parseNumber(number)
	switch {
	case err != nil || behind != "" && unitOf(behind) != q.Unit:
		problem = "quantity " + quote(qty.text) + " is not a number"
	case value.Sign() < 0:
		problem = "quantity " + quote(qty.text) + " is negative"
	case value.IsZero():
		problem = "quantity " + quote(qty.text) + " is nothing; expected more than 0"
	case value.Cmp(largestQuantity) > 0:
		problem = "quantity " + quote(qty.text) + " is larger than any job"
	default:
		q.Value = value
		return q, true
	}
	f := finding.Finding{
		Severity: finding.Error, Rule: "quantity/bad", Span: qty.span,
		Message: problem, Hint: "write a number, like 4 or 2.5",
	}
	if label != "" {
		f.Holds = "line " + label + " until its quantity is readable"
	}
	s.found.Add(f)
	return q, false
}

func unitOf(s string) notes.Unit {
	u, _ := parseUnit(s)
	return u
}

// unit reads the cell Unit; an empty one is "ea".
func (s *scopeReader) unit(c cell) notes.Unit {
	if !c.written() {
		return notes.Each
	}
	u, known := parseUnit(c.text)
	if known {
		return u
	}
	names := make([]string, len(notes.Units))
	for i, n := range notes.Units {
		names[i] = string(n)
	}
	hint := "units: " + strings.Join(names, " ")
	if near := nearest(string(u), names); near != "" {
		hint = "did you mean " + quote(near) + "?"
	}
	s.found.Add(finding.Finding{
		Severity: finding.Warning, Rule: "unit/unknown", Span: c.span,
		Message: "unknown unit " + quote(c.text), Hint: hint,
	})
	return u
}

// hours reads the cell Hours: "4.5", "4:30", "4.5 h". Halves of a minute round up.
func (s *scopeReader) hours(c cell) notes.Minutes {
	if !c.written() || c.text == "-" {
		return 0
	}
	const mostHours = 100_000
	text, behind := splitNumber(c.text)
	if behind == "" || unitOf(behind) == notes.Hour {
		if h, m, clock := strings.Cut(text, ":"); clock && allDigits(h) && len(h) < 6 && allDigits(m) && len(m) == 2 {
			hh, _ := strconv.Atoi(h)
			mm, _ := strconv.Atoi(m)
			return notes.Minutes(hh*60 + mm)
		}
		if d, err := parseNumber(text); err == nil && d.Sign() >= 0 && d.Cmp(notes.Int(mostHours)) <= 0 {
			n, _ := d.Mul(notes.Int(60)).Round(0).Int()
			return notes.Minutes(n)
		}
	}
	s.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "hours/bad", Span: c.span,
		Message: quote(c.text) + " is not a number of hours", Hint: "write hours like 4.5",
	})
	return 0
}

// price reads the cell Price: "640.00", "118.00 each", "T&M", "T&M max 300".
func (s *scopeReader) price(c cell, label string) notes.LinePrice {
	p := notes.LinePrice{Text: c.text}
	if !c.written() || c.text == "-" {
		return p
	}
	low := strings.ToLower(c.text)
	if rest, tm := cutTimeAndMaterial(low); tm {
		return s.ceiling(p, rest, c, label)
	}
	amount, each := cutEach(low)
	m, err := parseAmount(amount)
	if err != nil {
		s.badPrice(err.Error(), amount, c, label)
		return p
	}
	p.Kind, p.Amount = notes.LotPrice, m
	if each {
		p.Kind = notes.UnitPrice
	}
	return p
}

// ceiling reads what stands behind "T&M".
func (s *scopeReader) ceiling(p notes.LinePrice, rest string, c cell, label string) notes.LinePrice {
	p.Kind = notes.TimeAndMaterial
	if rest == "" {
		return p
	}
	for _, word := range []string{"max", "nte", "not to exceed", "not over", "up to", "cap", "ceiling"} {
		after, ok := strings.CutPrefix(rest, word)
		if !ok {
			continue
		}
		m, err := parseAmount(strings.Trim(after, ". :"))
		if err != nil {
			s.badPrice(err.Error(), strings.Trim(after, ". :"), c, label)
			return notes.LinePrice{Text: p.Text}
		}
		p.Max = &m
		return p
	}
	s.badPrice(quote(c.text)+" is not a price", "", c, label)
	return notes.LinePrice{Text: p.Text}
}

func (s *scopeReader) badPrice(message, amount string, c cell, label string) {
	hint := "write 640.00, 118.00 each, T&M or T&M max 300"
	if hasCurrencySign(amount) {
		plain := strings.TrimSpace(strings.Map(dropSign, amount))
		if _, err := parseAmount(plain); err == nil {
			hint = "write " + strings.TrimSpace(strings.Map(dropSign, c.text)) + "; the company's currency holds"
		}
	}
	s.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "price/bad", Span: c.span, Message: message, Hint: hint,
		Holds: "line " + label + " until its price is readable",
	})
}

func dropSign(r rune) rune {
	if hasCurrencySign(string(r)) {
		return -1
	}
	return r
}

// cutTimeAndMaterial cuts "t&m" from the start of a price in lower case.
func cutTimeAndMaterial(low string) (rest string, ok bool) {
	for _, word := range []string{"t&m", "t & m", "t and m", "t+m", "tm", "time and material", "time & material"} {
		if rest, ok = strings.CutPrefix(low, word); ok {
			rest = strings.TrimSpace(strings.TrimPrefix(rest, "s"))
			return strings.TrimLeft(rest, ",: "), true
		}
	}
	return "", false
}

// cutEach cuts the words for "per unit" from the end of a price in lower case.
func cutEach(low string) (amount string, each bool) {
	for _, word := range []string{"per unit", "each", "ea.", "/ea", "/ each", "ea", "a piece", "apiece", "/unit", "/ft", "per foot", "per ft"} {
		if amount, ok := strings.CutSuffix(low, word); ok {
			return strings.TrimRight(amount, " /"), true
		}
	}
	return low, false
}

// splitNumber parts a text like "4 ea" or "4ea" into the number and what stands behind it.
func splitNumber(s string) (number, behind string) {
	i := 0
	for i < len(s) && (isDigit(s[i]) || strings.IndexByte("-+.,/:", s[i]) >= 0) {
		i++
	}
	return s[:i], strings.TrimSpace(s[i:])
}

// parseNumber reads a number of a table: "4", "2.5", "1,200", "1/2".
func parseNumber(s string) (notes.Decimal, error) {
	s = strings.TrimPrefix(s, "+")
	if top, bottom, ok := strings.Cut(s, "/"); ok && allDigits(top) && allDigits(bottom) && len(top) < 4 && len(bottom) < 4 {
		a, _ := strconv.Atoi(top)
		if b, _ := strconv.Atoi(bottom); b > 0 {
			return notes.Ratio(a, b), nil
		}
	}
	if plain, ok := dropThousands(s); ok {
		s = plain
	}
	return notes.ParseDecimal(s)
}

// count writes a whole number.
func count(n int) string { return strconv.Itoa(n) }
