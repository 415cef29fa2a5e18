package report

import (
	"strconv"
	"strings"

	"jobday/notes"
)

// Bar is the geometry of a drawn progress, in thousandths of its whole length, which stands for
// what is booked and what goes beyond it. Before, Today and Left add up to 1000 unless the line
// has no quantity at all; the part from Booked on is over.
type Bar struct {
	Before, Today, Left int
	Booked              int
	Alt                 string // the same in words
}

// Progress draws a scope line's standing, worded for the first of notes.Locales.
func Progress(l notes.LineStanding) Bar { return usual.progress(l) }

// progress draws a scope line's standing.
func (f figures) progress(l notes.LineStanding) Bar {
	b := Bar{Booked: 1000, Alt: f.progressWords(l)}
	whole := notes.Max(l.Booked.Qty.Add(l.Over), l.ToDate)
	if whole.Sign() <= 0 {
		return b
	}
	share := func(d notes.Decimal) int {
		n, _ := d.Mul(notes.Int(1000)).Quo(whole, 0).Int()
		return min(max(n, 0), 1000)
	}
	done := share(l.ToDate)
	b.Today = min(share(l.Today), done)
	b.Before = done - b.Today
	b.Left = 1000 - done
	b.Booked = share(l.Booked.Qty)
	return b
}

// progressWords says a line's standing in words: "2 of 3 ea to date, 2 today, 1 left".
func (f figures) progressWords(l notes.LineStanding) string {
	unit := string(l.Booked.Unit)
	parts := []string{strings.TrimSpace(f.number(l.ToDate)+" of "+f.number(l.Booked.Qty)+" "+unit) + " to date"}
	if !l.Today.IsZero() {
		parts = append(parts, f.number(l.Today)+" today")
	}
	if !l.Left.IsZero() {
		parts = append(parts, f.number(l.Left)+" left")
	}
	if !l.Over.IsZero() {
		parts = append(parts, f.number(l.Over)+" over")
	}
	if !l.Dropped.IsZero() {
		parts = append(parts, f.number(l.Dropped)+" dropped")
	}
	return strings.Join(parts, ", ")
}

// Over is how much of the bar lies beyond what was booked.
func (b Bar) Over() int { return max(0, b.Before+b.Today-b.Booked) }

// X and the other lengths are in the units of the drawing, which is 120 wide.
func (b Bar) X(thousandths int) string {
	n := thousandths * 120
	s := strconv.Itoa(n / 1000)
	if r := n % 1000; r != 0 {
		s += "." + strings.TrimRight(strconv.Itoa(1000 + r)[1:], "0")
	}
	return s
}

// Done is where today's part ends.
func (b Bar) Done() int { return b.Before + b.Today }

// Text draws the bar in characters: "=" before today, "#" today, "." left, "!" over.
func (b Bar) Text(width int) string {
	line := make([]byte, width)
	for i := range line {
		at := (2*i + 1) * 500 / width // the middle of the character
		switch {
		case at >= b.Before+b.Today:
			line[i] = '.'
		case at >= b.Booked:
			line[i] = '!'
		case at >= b.Before:
			line[i] = '#'
		default:
			line[i] = '='
		}
	}
	return string(line)
}
