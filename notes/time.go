package notes

import (
	"fmt"
	"strconv"
	"time"
)

// Minutes is a stretch of time in whole minutes.
type Minutes int

// Decimal hours of m, exact to 12 places: 45 minutes are 0.75.
func (m Minutes) Hours() Decimal { return Ratio(int(m), 60) }

// Clocked returns a quantity of hours as minutes where it is whole minutes that no short decimal
// states, such as a third of an hour: better read as "5 h 20" than as 5.333333333333 h.
func Clocked(qty Decimal, unit Unit) (m Minutes, ok bool) {
	if unit != Hour || qty.Equal(qty.Round(2)) {
		return 0, false
	}
	n, err := strconv.Atoi(qty.Mul(Int(60)).Round(6).String())
	return Minutes(n), err == nil
}

// String returns hours and minutes as people write them: "45 min", "4 h", "1 h 15".
func (m Minutes) String() string {
	switch h, r := int(m/60), int(m%60); {
	case m < 0:
		return "-" + (-m).String()
	case h == 0:
		return strconv.Itoa(r) + " min"
	case r == 0:
		return strconv.Itoa(h) + " h"
	case r < 10:
		return strconv.Itoa(h) + " h 0" + strconv.Itoa(r)
	default:
		return strconv.Itoa(h) + " h " + strconv.Itoa(r)
	}
}

// Date is a calendar day without zone. The zero value stands for "no date known".
type Date struct {
	Year, Month, Day int
}

// ParseDate reads an ISO 8601 calendar date, "2026-03-12". A day that does not exist is an error.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return Date{}, fmt.Errorf("%q is not a date like 2026-03-12", s)
	}
	return Date{t.Year(), int(t.Month()), t.Day()}, nil
}

// MustDate is ParseDate for constants and tests.
func MustDate(s string) Date {
	d, err := ParseDate(s)
	if err != nil {
		panic("notes: " + err.Error())
	}
	return d
}

// Known reports whether the date is set.
func (d Date) Known() bool { return d != Date{} }

// Compare orders dates; an unknown date comes first.
func (d Date) Compare(e Date) int { return d.time().Compare(e.time()) }

// DaysSince returns the number of days from e to d.
func (d Date) DaysSince(e Date) int { return int(d.time().Sub(e.time()).Hours() / 24) }

// Weekday returns the English name of the day.
func (d Date) Weekday() time.Weekday { return d.time().Weekday() }

// AddDays returns the date n days later.
func (d Date) AddDays(n int) Date {
	t := d.time().AddDate(0, 0, n)
	return Date{t.Year(), int(t.Month()), t.Day()}
}

func (d Date) time() time.Time {
	return time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
}

// String returns the date as ISO 8601 writes it, or "" when it is unknown.
func (d Date) String() string {
	if !d.Known() {
		return ""
	}
	if d.Year < 0 || d.Year > 9999 {
		return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
	}
	b := [10]byte{4: '-', 7: '-'}
	for i, n := 3, d.Year; i >= 0; i, n = i-1, n/10 {
		b[i] = byte('0' + n%10)
	}
	b[5], b[6] = byte('0'+d.Month/10), byte('0'+d.Month%10)
	b[8], b[9] = byte('0'+d.Day/10), byte('0'+d.Day%10)
	return string(b[:])
}

// MarshalText writes the date as String does.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (d *Date) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*d = Date{}
		return nil
	}
	e, err := ParseDate(string(b))
	*d = e
	return err
}

// Clock is a time of day in minutes after midnight; 1440 and more are on the following day.
type Clock int

// String returns "07:00"; a time on the following day as "00:30+1".
func (c Clock) String() string {
	s := fmt.Sprintf("%02d:%02d", int(c)/60%24, int(c)%60)
	if c >= 24*60 {
		s += "+1"
	}
	return s
}

// MarshalText writes the time as String does.
func (c Clock) MarshalText() ([]byte, error) { return []byte(c.String()), nil }
