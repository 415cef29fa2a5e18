package notes

import (
	"bytes"
	"errors"
	"fmt"
)

// Check returns an error for every broken invariant of the day: lines, quantities, money, time.
// It is nil on every JobDay the program makes; tests and commands call it after each compile.
func (d *JobDay) Check() error {
	var broken []error
	for _, n := range d.Notes {
		broken = append(broken, n.check())
	}
	for _, l := range d.Scope {
		broken = append(broken, l.check())
	}
	for _, r := range d.Labor {
		broken = append(broken, r.check())
	}
	broken = append(broken, d.checkMoney())
	if err := errors.Join(broken...); err != nil {
		return fmt.Errorf("job %s, %s: %w", d.Job, d.Date, err)
	}
	return nil
}

// CheckJob checks every day of a job, and that nothing is billed twice over all of them.
func CheckJob(days []*JobDay) error {
	var broken []error
	for _, d := range days {
		broken = append(broken, d.Check())
	}
	return errors.Join(append(broken, checkTwice(days))...)
}

// Unaccounted returns the numbers of the non-blank lines that no span of Covered touches.
func (n NoteRef) Unaccounted() []int {
	if n.Source == nil {
		return nil
	}
	covered := make([]bool, n.Source.Lines()+2)
	for _, s := range n.Covered {
		if s.File != n.Source || s.End == s.Start {
			continue
		}
		for l, last := n.Source.LineAt(s.Start), n.Source.LineAt(s.End-1); l <= last; l++ {
			covered[l] = true
		}
	}
	var open []int
	for l := 1; l <= n.Source.Lines(); l++ {
		if !covered[l] && !n.blank(l) {
			open = append(open, l)
		}
	}
	return open
}

// Filled returns how many lines of the note are not blank.
func (n NoteRef) Filled() int {
	filled := 0
	for l := 1; n.Source != nil && l <= n.Source.Lines(); l++ {
		if !n.blank(l) {
			filled++
		}
	}
	return filled
}

// blank reports whether the line has nothing but white space, a byte order mark counting as such.
func (n NoteRef) blank(line int) bool {
	s := n.Source.LineSpan(line)
	text := bytes.TrimPrefix(n.Source.Text[s.Start:s.End], []byte("\ufeff"))
	return len(bytes.TrimSpace(text)) == 0
}

func (n NoteRef) check() error {
	if open := n.Unaccounted(); len(open) > 0 {
		return fmt.Errorf("lines: %s: not accounted for: %v", n.File, open)
	}
	if n.Lines != n.Accounted {
		return fmt.Errorf("lines: %s: %d lines, %d accounted for", n.File, n.Lines, n.Accounted)
	}
	return nil
}

func (l LineStanding) check() error {
	if !l.Booked.Qty.Add(l.Over).Equal(l.ToDate.Add(l.Left)) {
		return fmt.Errorf("quantity: line %s: booked %s + over %s is not to date %s + left %s",
			l.Line, l.Booked.Qty, l.Over, l.ToDate, l.Left)
	}
	for _, q := range []Decimal{l.Booked.Qty, l.Today, l.ToDate, l.Left, l.Over} {
		if q.Sign() < 0 {
			return fmt.Errorf("quantity: line %s: %s is negative", l.Line, q)
		}
	}
	return nil
}

func (r LaborRow) check() error {
	sum := Minutes(0)
	for _, m := range r.On {
		if m < 0 {
			return fmt.Errorf("time: %s: %d minutes", r.Name, m)
		}
		sum += m
	}
	if sum != r.Minutes {
		return fmt.Errorf("time: %s: %d minutes on the clock, %d assigned or unassigned", r.Name, r.Minutes, sum)
	}
	return nil
}

func (d *JobDay) checkMoney() error {
	var lines, held, not, valued Money
	for _, l := range d.Money.Ready.Lines {
		lines = lines.Add(l.Amount)
	}
	for _, n := range d.Money.Held {
		held = held.Add(n.Amount)
	}
	for _, n := range d.Money.NotBilled {
		not = not.Add(n.Amount)
	}
	for _, v := range d.Valued {
		valued = valued.Add(v.Amount)
	}
	if !lines.Equal(d.Money.Ready.Subtotal) {
		return fmt.Errorf("money: ready lines add up to %s, not %s", lines, d.Money.Ready.Subtotal)
	}
	total := lines
	for _, t := range d.Money.Ready.Tax {
		total = total.Add(t.Amount)
	}
	if !total.Equal(d.Money.Ready.Total) {
		return fmt.Errorf("money: ready with tax is %s, not %s", total, d.Money.Ready.Total)
	}
	if sum := lines.Add(held).Add(not); !sum.Equal(valued) {
		return fmt.Errorf("money: ready %s + held %s + not billed %s = %s, but everything priced is worth %s",
			lines, held, not, sum, valued)
	}
	return nil
}

// checkTwice holds the ready lines of all days against what was booked and found: a scope line is
// never ready for more than its booked quantity in all, and an extra is ready on one day only.
func checkTwice(days []*JobDay) error {
	billed := map[string]Decimal{}
	extra := map[string]Date{}
	for _, d := range days {
		booked := map[string]LineStanding{}
		for _, l := range d.Scope {
			booked[l.Line] = l
		}
		for _, r := range d.Money.Ready.Lines {
			l, isLine := booked[r.Ref]
			if !isLine {
				if day, twice := extra[r.Ref]; twice && day != d.Date {
					return fmt.Errorf("billed twice: %s on %s and %s", r.Ref, day, d.Date)
				}
				extra[r.Ref] = d.Date
				continue
			}
			switch r.Kind {
			case LaborCost, MaterialCost, EquipmentCost, SubcontractCost, "time and material":
				continue // many lines, bounded by the clock and the ceiling
			}
			billed[r.Ref] = billed[r.Ref].Add(r.Qty)
			if l.Price.Sign() > 0 && billed[r.Ref].Cmp(Max(l.Booked.Qty, Int(1))) > 0 {
				return fmt.Errorf("billed twice: line %s: %s of %s booked", r.Ref, billed[r.Ref], l.Booked.Qty)
			}
		}
	}
	return nil
}
