// Package locale writes dates, numbers and amounts as a company's readers are used to. Names of
// months, separators, the places of signs and the order of dates come from the Unicode CLDR by
// way of two maintained libraries: one for days, whose amounts are floating point and so of no use
// here, and one for amounts, which takes them as exact decimals.
package locale

import (
	"strings"
	"time"

	"github.com/bojanz/currency"
	"github.com/go-playground/locales"
	"github.com/go-playground/locales/de_DE"
	"github.com/go-playground/locales/en_CA"
	"github.com/go-playground/locales/en_GB"
	"github.com/go-playground/locales/en_US"
	"github.com/go-playground/locales/es_US"
	"github.com/go-playground/locales/fr_CA"

	"jobday/notes"
)

// Locale writes for one place. Make it with For.
type Locale struct {
	tag  string
	days locales.Translator
}

// For returns the locale of a tag, one of notes.Locales; any other gives the first of them.
func For(tag string) Locale {
	var place locales.Translator
	switch tag {
	case "en-CA":
		place = en_CA.New()
	case "en-GB":
		place = en_GB.New()
	case "fr-CA":
		place = fr_CA.New()
	case "es-US":
		place = es_US.New()
	case "de-DE":
		place = de_DE.New()
	default:
		tag, place = notes.Locales[0], en_US.New()
	}
	return Locale{tag, place}
}

// Tag is the BCP 47 tag: "fr-CA".
func (l Locale) Tag() string { return l.tag }

// Paper is the usual paper of the place, "letter" or "a4". Source: from memory, Unicode CLDR
// supplemental data, measurementData, paperSize: US-Letter for the United States and Canada, A4 for
// the United Kingdom and Germany.
func (l Locale) Paper() string {
	if strings.HasSuffix(l.tag, "-US") || strings.HasSuffix(l.tag, "-CA") {
		return "letter"
	}
	return "a4"
}

// Date writes a day: "March 12, 2026", "12 mars 2026"; "" for an unknown one.
func (l Locale) Date(d notes.Date) string {
	if !d.Known() {
		return ""
	}
	return l.days.FmtDateLong(clock(d))
}

// ShortDate writes a day in figures: "3/12/26", "12.03.26"; "" for an unknown one.
func (l Locale) ShortDate(d notes.Date) string {
	if !d.Known() {
		return ""
	}
	return l.days.FmtDateShort(clock(d))
}

// Day writes a day with its name: "Thursday, March 12, 2026"; "" for an unknown one.
func (l Locale) Day(d notes.Date) string {
	if !d.Known() {
		return ""
	}
	return l.days.FmtDateFull(clock(d))
}

func clock(d notes.Date) time.Time {
	return time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
}

// Number writes a number exactly as it is: "1,250.5", "1.250,5".
func (l Locale) Number(d notes.Decimal) string { return l.write(d, figure{code: "USD"}) }

// Money writes an amount with two decimals and without its currency: "1,284.60", "1 284,60".
func (l Locale) Money(m notes.Money) string {
	return l.write(m.Decimal(), figure{code: "USD", least: 2})
}

// Rate writes a price per unit with at least two decimals and none cut off: "118.00", "0.875".
func (l Locale) Rate(d notes.Decimal) string { return l.write(d, figure{code: "USD", least: 2}) }

// Amount writes an amount with its currency, an ISO 4217 code: "$1,284.60", "1 284,60 $". A
// currency nobody knows stands as its code behind the amount.
func (l Locale) Amount(m notes.Money, code string) string {
	if !currency.IsValid(code) {
		return strings.TrimSpace(l.Money(m) + "\u00a0" + code)
	}
	return l.write(m.Decimal(), figure{code: code, least: 2, signed: true})
}

// Percent writes a percentage: "8.8%", "8,8 %". No line breaks in it.
func (l Locale) Percent(d notes.Decimal) string {
	_, after, _ := strings.Cut(l.days.FmtPercent(1, 0), "1")
	return l.Number(d) + strings.ReplaceAll(after, " ", "\u00a0")
}

// figure says how a number is written.
type figure struct {
	code   string // of the currency, which also says how a number without one is grouped
	least  int    // decimals
	signed bool   // with the sign of the currency
}

// write takes from the library how a like amount is written and puts the digits of ours in its
// place: the library's own would end at its precision.
func (l Locale) write(d notes.Decimal, f figure) string {
	sign, digits := "", d.String()
	if d.Sign() < 0 {
		sign, digits = "-", digits[1:]
	}
	like, err := currency.NewAmount(sign+"1234567.89", f.code)
	if err != nil {
		return d.String() // not among the currencies we ask for
	}
	w := currency.NewFormatter(currency.NewLocale(l.tag))
	if !f.signed {
		w.CurrencyDisplay = currency.DisplayNone
	}
	before, rest, _ := strings.Cut(w.Format(like), "1")
	group, rest, _ := strings.Cut(rest, "234")
	_, rest, _ = strings.Cut(rest, "567")
	point, after, _ := strings.Cut(rest, "89")

	whole, fraction, _ := strings.Cut(digits, ".")
	fraction += strings.Repeat("0", max(0, f.least-len(fraction)))
	if fraction != "" {
		fraction = point + fraction
	}
	return before + grouped(whole, group) + fraction + after
}

// grouped puts a separator between the thousands.
func grouped(whole, group string) string {
	var b strings.Builder
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteString(group)
		}
		b.WriteRune(c)
	}
	return b.String()
}
