package report

import (
	"strconv"
	"strings"

	"jobday/locale"
	"jobday/notes"
)

// figures writes dates, quantities and amounts as the company's readers are used to.
type figures struct{ locale.Locale }

// figuresOf returns the figures of a company; nil writes as the first of notes.Locales.
func figuresOf(c *notes.Company) figures { return figures{placeOf(c)} }

// usual writes as the first of notes.Locales: for terminals and texts that know no company.
var usual = figures{locale.For("")}

// money prints an amount with grouped thousands: "1,284.60", "-165.00".
func (f figures) money(m notes.Money) string { return f.Money(m) }

// valued prints the amount of a thing that may have no price yet.
func (f figures) valued(m notes.Money) string {
	if m.IsZero() {
		return "not priced"
	}
	return f.Money(m)
}

// number prints a quantity as exactly as it is: "52", "0.5", "1,250".
func (f figures) number(d notes.Decimal) string { return f.Number(d) }

// rate prints a price per unit with at least two decimals and none cut off: "118.00", "0.875".
func (f figures) rate(d notes.Decimal) string { return f.Rate(d) }

// quantity prints a number of units, "52 ft", or "" when none is written.
func (f figures) quantity(q notes.Quantity) string {
	if !q.Written() {
		return ""
	}
	return f.Number(q.Value) + " " + string(q.Unit)
}

// count prints a number of units, hours that are no round decimal as a clock has them: "52 ft", "5 h 20".
func (f figures) count(qty notes.Decimal, unit notes.Unit) string {
	return countOf(f.Locale, qty, unit)
}

func countOf(l locale.Locale, qty notes.Decimal, unit notes.Unit) string {
	if m, ok := notes.Clocked(qty, unit); ok {
		return m.String()
	}
	return strings.TrimSpace(l.Number(qty) + " " + string(unit))
}

// longDate prints a day with its weekday, or "no date" for an unknown one.
func (f figures) longDate(d notes.Date) string {
	if !d.Known() {
		return "no date"
	}
	return f.Day(d)
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
