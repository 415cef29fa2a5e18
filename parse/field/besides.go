package field

import "jobday/notes"

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
		at := notes.Clock(d.begin.minutes())
		said.From = &at
	} else {
		at := notes.Clock(d.end.minutes())
		said.To = &at
	}
	return said
}
