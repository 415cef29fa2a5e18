package field

import (
	"slices"

	"jobday/notes"
)

// besides reads a text about time that tells no time of its own, and only changes or repeats one told
// elsewhere: "Bo same", "30 lunch each", "no lunch Ana, Bo 30", "Bo left at 2".
func (b *rowBuilder) besides() []notes.TimeRow {
	turned := false
	for k := range b.parts {
		switch a := b.parts[k]; a.kind {
		case aPause:
			if a.doubt != "" || a.heads == asLast {
				return nil
			}
		case aBegin, aEnd:
			turned = true
		}
	}
	if turned {
		b.build(b.parts)
		return b.rows
	}
	for k := 0; k < len(b.parts); k++ {
		a := b.parts[k]
		switch {
		case a.kind == aPause:
			k += b.besideBreak(k)
		case a.kind == aPerson && k+1 < len(b.parts) && b.parts[k+1].kind == aPause && b.r.tookWords(a.to, b.parts[k+1].from):
			b.addBeside(a.who.names, k, k+1, &notes.TimeBeside{HasBreak: true, Break: b.parts[k+1].minutes})
			k++
		case a.kind == aPerson:
			b.same(a, k)
		}
	}
	return b.rows
}

// besideBreak reads the break at parts[k] and whose it is, and returns how many parts that takes.
func (b *rowBuilder) besideBreak(k int) int {
	a := b.parts[k]
	said := &notes.TimeBeside{HasBreak: true, Break: a.minutes, All: a.flag}
	var people []string
	n, to := 0, a.to
	for k+n+1 < len(b.parts) && b.parts[k+n+1].kind == aPerson && b.r.forWords(to, b.parts[k+n+1].from) {
		p := b.parts[k+n+1]
		if n > 0 && k+n+2 < len(b.parts) && b.parts[k+n+2].kind == aPause && b.r.separated(p.from) {
			break // "30 lunch Ana, Bo none"
		}
		if said.But = said.But || b.r.excluded(to, p.from); len(p.who.names) > 1 && p.who.heads > 1 {
			said.All = true
		}
		people, to = append(people, p.who.names...), p.to
		n++
	}
	if said.All {
		people = nil
	}
	b.addBeside(people, k, k+n, said)
	return n
}

// absents reports whether the break at parts[k] is told of somebody alone whose time stands elsewhere:
// "Ben 7-1, half hr lunch Ana".
func (b *rowBuilder) absents(k int) bool {
	a, next := b.parts[k], b.part(k+1)
	if !b.r.bold || a.doubt != "" || a.minutes == 0 || a.heads == asLast || next.kind != aPerson || len(next.who.names) != 1 || next.who.others || next.from-a.to > 1 || b.r.low(a.to) == "," {
		return false
	}
	return b.cur.timed && !slices.Contains(b.cur.row.People, next.who.names[0]) && len(b.cur.row.People) > 0 &&
		b.rowOf(next.who.names[0]) < 0 && !b.leads(k+1) && b.r.endsClause(next.to)
}

// addBeside adds a row of the people that has no time of its own.
func (b *rowBuilder) addBeside(people []string, from, to int, said *notes.TimeBeside) {
	row := notes.TimeRow{People: people, Beside: said, Fault: "tells a break, and no time it is taken off"}
	row.Start, row.End = b.r.piece(b.parts[from].from, b.parts[to].to)
	b.rows, b.marks = append(b.rows, row), append(b.marks, rowMark{told: true})
	b.r.claimTokens(b.parts[from].from, b.parts[to].to)
}

// beside returns when somebody came or left whose day is told elsewhere.
func (d *draft) beside() *notes.TimeBeside {
	said := &notes.TimeBeside{HasBreak: d.told, Break: d.row.Break}
	if d.turns == 1 {
		turnTold(said, true, d.begin)
	} else {
		turnTold(said, false, d.end)
	}
	return said
}

// turnTold notes when somebody came or left whose day is told elsewhere.
func turnTold(said *notes.TimeBeside, begin bool, c clockTime) {
	at := notes.Clock(c.minutes())
	if begin {
		said.From = &at
	} else {
		said.To = &at
	}
}
