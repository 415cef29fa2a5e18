package locale_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/locale"
	"jobday/notes"
)

// The forms are those of the Unicode CLDR, release 48, from memory; dots stand for blanks at which no line breaks.
func TestEachPlaceWritesAsItsReadersDo(t *testing.T) {
	day, autumn := notes.MustDate("2026-03-02"), notes.MustDate("2026-08-01")
	for _, c := range []struct{ tag, long, short, full, number, dollars, owed, euros, percent string }{
		{"en-US", "March 2, 2026", "3/2/26", "Saturday, August 1, 2026", "-1,234,567.5", "$1,284.60", "-CA$0.05", "€12.00", "8.875%"},
		{"en-CA", "March 2, 2026", "2026-03-02", "Saturday, August 1, 2026", "-1,234,567.5", "US$1,284.60", "-$0.05", "€12.00", "8.875%"},
		{"en-GB", "2 March 2026", "02/03/2026", "Saturday, 1 August 2026", "-1,234,567.5", "US$1,284.60", "-CA$0.05", "€12.00", "8.875%"},
		{"fr-CA", "2 mars 2026", "2026-03-02", "samedi 1 août 2026", "-1·234·567,5", "1·284,60·$·US", "-0,05·$", "12,00·€", "8,875·%"},
		{"es-US", "2 de marzo de 2026", "2/3/2026", "sábado, 1 de agosto de 2026", "-1,234,567.5", "$1,284.60", "-CA$0.05", "€12.00", "8.875·%"},
		{"de-DE", "2. März 2026", "02.03.26", "Samstag, 1. August 2026", "-1.234.567,5", "1.284,60·$", "-0,05·CA$", "12,00·€", "8,875·%"},
	} {
		l := locale.For(c.tag)
		got := []string{l.Tag(), l.Date(day), l.ShortDate(day), l.Day(autumn), l.Number(notes.MustDecimal("-1234567.5")),
			l.Amount(notes.MustMoney("1284.60"), "USD"), l.Amount(notes.MustMoney("-0.05"), "CAD"), l.Amount(notes.MustMoney("12"), "EUR"),
			l.Percent(notes.MustDecimal("8.875"))}
		for i := range got {
			got[i] = strings.ReplaceAll(got[i], "\u00a0", "·")
		}
		assert.Equal(t, []string{c.tag, c.long, c.short, c.full, c.number, c.dollars, c.owed, c.euros, c.percent}, got)
	}
}

// TestNoDigitIsLost writes numbers no floating point could hold and reads them back.
func TestNoDigitIsLost(t *testing.T) {
	for _, tag := range notes.Locales {
		l := locale.For(tag)
		assert.Equal(t, tag, l.Tag(), "every locale a company may name is known")
		point := strings.Trim(l.Money(notes.MustMoney("0.11")), "01")
		for _, s := range []string{"0", "0.1", "999", "1000", "-1000", "12345678901234567.89", "9007199254740993", "0.000000000001", "-0.5"} {
			written := l.Number(notes.MustDecimal(s))
			back := strings.Map(func(r rune) rune {
				switch {
				case string(r) == point:
					return '.'
				case r == '-' || r >= '0' && r <= '9':
					return r
				}
				return -1
			}, written)
			assert.Equal(t, s, back, "%s, as %q", tag, written)
		}
	}
}

func TestNothingKnownIsNothingWritten(t *testing.T) {
	l := locale.For("xx")
	assert.Equal(t, "en-US", l.Tag())
	assert.Empty(t, l.Date(notes.Date{})+l.ShortDate(notes.Date{})+l.Day(notes.Date{}))
	assert.Equal(t, "3.00\u00a0QQQ", l.Amount(notes.MustMoney("3"), "QQQ"))
	assert.Equal(t, "0.875 118.00 0.00", fmt.Sprint(l.Rate(notes.MustDecimal("0.875")), " ", l.Rate(notes.MustDecimal("118")), " ", l.Rate(notes.Decimal{})))
}
