package report

import (
	"strconv"
	"strings"

	"jobday/notes"
)

// money prints an amount with grouped thousands: "1,284.60", "-165.00".
func money(m notes.Money) string { return grouped(m.String()) }

// valued prints the amount of a thing that may have no price yet.
func valued(m notes.Money) string {
	if m.IsZero() {
		return "not priced"
	}
	return money(m)
}

// number prints a quantity as exactly as it is: "52", "0.5", "1,250".
func number(d notes.Decimal) string { return grouped(d.String()) }

// rate prints a price per unit with at least two decimals and none cut off: "118.00", "0.875".
func rate(d notes.Decimal) string {
	if d.Equal(d.Round(2)) {
		return grouped(d.Fixed(2))
	}
	return number(d)
}

// grouped puts commas between the thousands of a plain decimal.
func grouped(s string) string {
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "-", s[1:]
	}
	whole, fraction, _ := strings.Cut(s, ".")
	var b strings.Builder
	b.WriteString(sign)
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(c)
	}
	if fraction != "" {
		b.WriteString("." + fraction)
	}
	return b.String()
}

// quantity prints a number of units, "52 ft", or "" when none is written.
func quantity(q notes.Quantity) string {
	if !q.Written() {
		return ""
	}
	return number(q.Value) + " " + string(q.Unit)
}

// longDate prints "Thursday 12 March 2026", or "no date" for an unknown one.
func longDate(d notes.Date) string {
	if !d.Known() {
		return "no date"
	}
	return d.Weekday().String() + " " + strconv.Itoa(d.Day) + " " + monthName(d) + " " + strconv.Itoa(d.Year)
}

func monthName(d notes.Date) string {
	names := [...]string{"January", "February", "March", "April", "May", "June", "July", "August",
		"September", "October", "November", "December"}
	if d.Month < 1 || d.Month > len(names) {
		return ""
	}
	return names[d.Month-1]
}

// spans prints clock spans: "07:00-15:30, 16:00-17:00".
func spans(list []notes.ClockSpan) string {
	var parts []string
	for _, s := range list {
		parts = append(parts, s.From.String()+"-"+s.To.String())
	}
	return strings.Join(parts, ", ")
}

// filled leaves out the empty strings.
func filled(list ...string) []string {
	var kept []string
	for _, s := range list {
		if strings.TrimSpace(s) != "" {
			kept = append(kept, s)
		}
	}
	return kept
}

// plural prints a count with its noun: "1 change order", "3 change orders".
func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}
