package price

import (
	"slices"
	"strconv"

	"jobday/notes"
)

// heldKind says for what kind of reason money is held over days.
type heldKind int

// The kinds. Only a changed note or a decision frees money of any but noTime.
const (
	materialNowhere heldKind = iota + 1
	timeNowhere
	overAllowed
	lineUnclear
	doneDropped
	materialUnpriced
	timeUnpriced
	noTime // until time is written for the line
	creditOpen
	rulesUnknown
	hiredUnpriced
	entryUnclear
	taxUnknown
)

// heldToday is money held today and on later days.
type heldToday struct {
	kind heldKind
	line *lineMoney // nil where no line is meant
	note notes.MoneyNote
}

// heldRow is money held since earlier days, as every day until it is freed shows it. What is held
// for one kind of reason and one line is one row, with the sum and all places in the notes: what
// hung on each is in the day it arose.
type heldRow struct {
	heldToday
	rows, days  int
	unknown     int // rows whose worth is not known
	first, last notes.Date
	changed     bool
}

// holdOn holds money today and on every later day until it is freed.
func (b *bill) holdOn(n notes.MoneyNote, kind heldKind, l *lineMoney) {
	n.From = sources(n.From)
	b.hold(n)
	b.fresh = append(b.fresh, heldToday{kind, l, n})
}

// carryHeld holds again what earlier days held and nothing has freed, and adds what today began to
// hold to what later days will.
func (b *bill) carryHeld() {
	b.held = slices.DeleteFunc(b.held, func(r *heldRow) bool { return r.kind == noTime && r.line.timed })
	for _, r := range b.held {
		b.value(r.note.What, r.note.Amount)
		b.hold(r.note)
	}
	for _, h := range b.fresh {
		b.join(h)
	}
	b.fresh = b.fresh[:0]
	for _, r := range b.held {
		if r.changed {
			r.word()
		}
	}
}

// join adds money to the row of its kind and line, or begins one. A credit stands by itself: each
// is settled by itself.
func (b *bill) join(h heldToday) {
	i := slices.IndexFunc(b.held, func(r *heldRow) bool { return r.kind == h.kind && r.line == h.line && h.kind != creditOpen })
	unknown := 0
	if h.note.Amount.IsZero() {
		unknown = 1
	}
	if i < 0 {
		h.note.From = slices.Clip(h.note.From)
		r := &heldRow{heldToday: h, rows: 1, days: 1, unknown: unknown, first: b.day.Date, last: b.day.Date}
		r.note.Why += ", since " + r.first.String()
		b.held = append(b.held, r)
		return
	}
	r := b.held[i]
	if r.last != b.day.Date {
		r.days++
	}
	r.rows, r.unknown, r.last, r.changed = r.rows+1, r.unknown+unknown, b.day.Date, true
	r.note.Amount = r.note.Amount.Add(h.note.Amount)
	for _, s := range h.note.From {
		if n := len(r.note.From); n == 0 || r.note.From[n-1] != s {
			r.note.From = append(r.note.From, s) // days before see the shorter list
		}
	}
}

// word writes what a row of several is and why it is held.
func (r *heldRow) word() {
	r.changed = false
	n := &r.note
	switch r.kind {
	case materialNowhere:
		n.What, n.Why, n.Frees = "material on no line", nowhere, "the line or extra each went into"
	case timeNowhere:
		n.What, n.Why, n.Frees = "time on no line", nowhere, "the line each was worked on"
	case overAllowed:
		n.What, n.Why = "material on line "+r.line.Label, "over what is allowed on line "+r.line.Label
	case lineUnclear:
		n.What, n.Why = r.line.title, "unclear entries may belong to line "+r.line.Label
		n.Frees = "a word on which line each unclear entry belongs to"
	case doneDropped:
		n.What, n.Why = r.line.title, "done although "+r.line.by+" had taken it out"
	case materialUnpriced:
		n.What, n.Why, n.Frees = "material on line "+r.line.Label, "no price is known", "a price for each"
	case timeUnpriced:
		n.What, n.Why, n.Frees = "time on line "+r.line.title, "no price is known", "who worked on it, and a labor class for each"
	case entryUnclear:
		n.What, n.Why, n.Frees = "unclear work", "each may be an extra, booked work or a remark", "a word on what each is"
	case rulesUnknown:
		n.What, n.Why = r.line.title, "the pricing rules of the job are not known"
	case hiredUnpriced:
		n.What, n.Why, n.Frees = "equipment and subcontractors on line "+r.line.Label, "no amount is known", "a price for each"
	case taxUnknown: // why and what frees it are the same for all
		n.What, n.Why = "all that would be ready", "the tax treatment of the job is not known"
	case noTime:
		n.What, n.Why = "time on line "+r.line.title, "no time is written for it"
	}
	n.What += ", " + strconv.Itoa(r.rows) + " entries"
	worth := ""
	switch {
	case r.unknown == 0 || r.kind == materialUnpriced || r.kind == timeUnpriced || r.kind == noTime || r.kind == hiredUnpriced:
	case r.unknown == r.rows:
		worth = "; what they are worth is not known"
	default:
		worth = "; the worth of " + strconv.Itoa(r.unknown) + " of them is not known"
	}
	if r.days == 1 {
		n.Why += worth + ", since " + r.first.String()
		return
	}
	n.Why += worth + ", on " + strconv.Itoa(r.days) + " days from " + r.first.String() + " to " + r.last.String()
}
