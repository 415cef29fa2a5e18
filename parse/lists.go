package parse

import (
	"slices"
	"strings"

	"jobday/notes"
	"jobday/parse/field"
)

// parts reads the words of an item, which start at the file offset base, in a section.
func (r *noteReader) parts(text string, base int, in notes.Section) {
	marks := r.scan.scan(text, base)
	if len(marks) == 0 {
		return
	}
	if r.header(text, marks, base, in) {
		return
	}
	if lists(in, marks) {
		r.list(text, base, in, marks)
		return
	}
	n := len(r.note.Entries)
	r.prose(text, base, in, marks)
	if n <= len(r.note.Entries) {
		r.together(text, base, n)
	}
}

// header sees the line that some people begin a note with: job, date and names.
func (r *noteReader) header(text string, marks []mark, base int, in notes.Section) bool {
	if r.lines > 2 || in != "" || len(r.note.Entries) > 0 || len(text) > 100 || !hasDate(marks) {
		return false
	}
	s := signsOf(marks)
	if s.has(tested|workVerb|clockSpan|instrument|faultPhrase|asked|measured) || s.has(thing) && s.has(progressed) || r.store.box != notes.NoBox {
		return false
	}
	if len(r.note.Crew) == 0 {
		for _, m := range marks {
			if m.kind != wordMark {
				continue
			}
			if name := r.lex.Name(text[m.start:m.end]); name != "" && !slices.Contains(r.note.Crew, name) {
				r.note.Crew = append(r.note.Crew, name)
			}
		}
	}
	r.remark(base, base+len(text))
	return true
}

// hasDate reports whether marks hold a date: 2026-03-12, 3/12, Mar 12, or a day of the week.
func hasDate(marks []mark) bool {
	for i, m := range marks {
		switch {
		case m.kind == wordMark && weekdays[m.low]:
			return true
		case m.kind == wordMark && months[m.low] && i+1 < len(marks) && marks[i+1].kind == numberMark:
			return true
		case m.kind == numberMark && i+2 < len(marks) && (marks[i+1].low == "/" || marks[i+1].low == "-" && len(m.low) == 4) && !marks[i+1].spaced &&
			marks[i+2].kind == numberMark && len(marks[i+2].low) <= 2 && !marks[i+2].spaced && (i+3 >= len(marks) || marks[i+3].low != `"`):
			return true
		}
	}
	return false
}

var (
	weekdays = wordSet("monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thurs fri sat sun")
	months   = wordSet("january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec")
)

// lists reports whether an item of a section is read as a list of things: materials and times are,
// and so is a line of counted things parted by slashes.
func lists(in notes.Section, marks []mark) bool {
	switch in {
	case notes.Materials:
		return true
	case notes.Done, notes.Left, notes.Deliveries, "":
		slashes := 0
		for i, m := range marks {
			if m.low == "/" && m.spaced && i+1 < len(marks) && marks[i+1].spaced && marks[i+1].sign.has(counted) {
				slashes++
			}
		}
		return slashes > 0 && marks[0].sign.has(counted)
	}
	return false
}

// list makes an entry of each thing of a list. Where the whole is plainly something else than its
// section says, it is not parted.
func (r *noteReader) list(text string, base int, in notes.Section, marks []mark) {
	whole := judge(evidenceOf(marks, nil), in)
	if in != "" && whole.kind != in.Kind() {
		r.prose(text, base, in, marks)
		return
	}
	items := field.Read(text, r.lex).Items
	for _, c := range things(text, marks, items) { // the marks are gone once the first part is read
		n := len(r.note.Entries)
		r.entry(text[c.start:c.end], base+c.start, in)
		if len(r.note.Entries) == n+1 {
			shareItems(&r.note.Entries[n].Facts, items, c)
		}
	}
}

// shareItems gives the items of a piece of a list what the list as a whole says of them: "40 ft #10 THHN black, 40
// white" are both wire, in feet.
func shareItems(f *notes.Facts, items []notes.Item, piece span) {
	var mine []notes.Item
	for _, it := range items {
		if it.Start >= piece.start && it.End <= piece.end {
			it.Start, it.End = it.Start-piece.start, it.End-piece.start
			mine = append(mine, it)
		}
	}
	if len(mine) != len(f.Items) {
		return
	}
	for i := range mine {
		own := &f.Items[i]
		counted := own.Qty.Written()
		if mine[i].Start != own.Start || len(mine[i].Other)+len(own.Other) > 0 ||
			counted && (!mine[i].Qty.Value.Equal(own.Qty.Value) || mine[i].Qty.Unit != own.Qty.Unit && own.Qty.Unit != notes.Each) {
			return
		}
	}
	f.Items = mine
}

// things parts a list of material into its things: at the signs that may part it, and where what follows was read as
// a further item with a count of its own: "2 braces 2 wet cans".
func things(text string, marks []mark, items []notes.Item) []span {
	at := map[int]bool{} // marks that a thing begins with
	for _, c := range listCuts(text, marks, clause{0, len(marks), noJoint}) {
		at[c.from] = true
	}
	next, last := 1, 0
	for i := 1; i < len(marks); i++ {
		for next < len(items) && items[next].Start < marks[i].start {
			next++
		}
		if next < len(items) && items[next].Start == marks[i].start && items[next].Qty.Written() && items[next-1].Qty.Written() &&
			!leadsOn[marks[i-1].low] && standsAlone(withoutParting(marks[last:i])) {
			at[i] = true
		}
		if at[i] {
			last = i
		}
	}
	var all []span
	from := 0
	for i := 1; i <= len(marks); i++ {
		if i < len(marks) && !at[i] {
			continue
		}
		to := i
		if i < len(marks) {
			to = from + len(withoutParting(marks[from:i]))
		}
		a, b := clause{from, to, listed}.bytes(text, marks)
		all = append(all, span{a, b})
		from = i
	}
	return all
}

// withoutParting leaves out the words and signs at the end of marks that only part them from the next thing.
func withoutParting(marks []mark) []mark {
	n := len(marks)
	for n > 1 && parting[marks[n-1].low] {
		n--
	}
	return marks[:n]
}

// leadsOn are the words and signs behind which a count belongs to what stands before: "1 box w/ 2 covers".
var leadsOn = map[string]bool{"w": true, "with": true, "/": true, "of": true, "for": true, "per": true, "x": true, "in": true, "(": true, "@": true, "at": true, "to": true, "from": true}

// parting are the words and signs that only part the things of a list.
var parting = map[string]bool{"and": true, "n": true, "plus": true, ",": true, ";": true, "&": true, "+": true, "/": true, "|": true, ".": true}

// bareList makes an entry of each thing of a clause that counts material outside its section: "used
// 60 feet of 10/3 and 2 breakers". It is one entry where all its words together are more likely something else.
func (r *noteReader) bareList(text string, base int, in notes.Section) {
	n := len(r.note.Entries)
	r.times(text, base, in)
	if len(r.note.Entries) != n+1 || r.note.Entries[n].Kind != notes.Material {
		return
	}
	if pieces := things(text, r.scan.scan(text, base), r.note.Entries[n].Facts.Items); len(pieces) > 1 {
		r.split(n, text, base, pieces)
	}
}

// times adds an entry of words that may tell hours, and makes one of each row of theirs: of each person, and of the way
// there.
func (r *noteReader) times(text string, base int, in notes.Section) {
	n := len(r.note.Entries)
	r.entry(text, base, in)
	switch {
	case len(r.note.Entries) == n:
		return
	case r.note.Entries[n].Kind == notes.Circuit:
		r.circuits(n, text, base)
		return
	case r.note.Entries[n].Kind != notes.TimeEntry:
		return
	}
	rows := r.note.Entries[n].Facts.Time
	if in != notes.Time {
		rows = field.ReadTime(text, r.lex) // more boldly, now that it is known what the words are
	}
	var pieces []span
	from := 0
	for _, at := range append(timeCuts(text, rows), len(text)) {
		pieces = append(pieces, withoutSigns(text, span{from, at}))
		from = at
	}
	if len(pieces) < 2 {
		return
	}
	r.split(n, text, base, pieces)
	for i := range pieces {
		e := &r.note.Entries[n+i]
		e.Facts.Time = rowsWithin(rows, e.Span.Start-base, e.Span.End-base)
	}
}

// surer reports whether rows that were read boldly say more than those read with care: they leave no doubt,
// and name more people or answer one.
func surer(bold, careful []notes.TimeRow) bool {
	if len(careful) == 0 {
		return true
	}
	people, before, doubt := 0, 0, false
	for i := range bold {
		if bold[i].Fault != "" || bold[i].Beside != nil {
			return false
		}
		people += max(len(bold[i].People), bold[i].Crew)
	}
	for i := range careful {
		doubt = doubt || careful[i].Fault != ""
		before += max(len(careful[i].People), careful[i].Crew)
	}
	return people > before || doubt && len(bold) > 0
}

// split makes an entry of each piece of entry n, the last one, which is of text.
func (r *noteReader) split(n int, text string, base int, pieces []span) {
	all := r.note.Entries[n]
	r.note.Entries = r.note.Entries[:n]
	for _, c := range pieces {
		e := r.push(text[c.start:c.end], base+c.start, all.Section)
		shareItems(&e.Facts, all.Facts.Items, c)
		e.Kind, e.Why, e.Sure, e.MayBe = all.Kind, all.Why, all.Sure, all.MayBe
		r.last, r.lastEnd = len(r.note.Entries)-1, e.Span.End
	}
}

// withoutSigns returns a stretch without the signs and words at its ends that part it from others.
func withoutSigns(text string, s span) span {
	const signs = " \t\n,;/&+"
	s.end = s.start + len(strings.TrimRight(text[s.start:s.end], signs))
	if rest, and := strings.CutSuffix(text[s.start:s.end], " and"); and {
		s.end = s.start + len(strings.TrimRight(rest, signs))
	}
	s.start = s.end - len(strings.TrimLeft(text[s.start:s.end], signs))
	return s
}

// rowsWithin returns the rows that begin within a stretch, counted from its start.
func rowsWithin(rows []notes.TimeRow, start, end int) []notes.TimeRow {
	var mine []notes.TimeRow
	for _, row := range rows {
		if row.Start >= start && row.Start < end {
			row.Start, row.End = row.Start-start, min(row.End, end)-start
			mine = append(mine, row)
		}
	}
	return mine
}

// timeCuts returns where the rows of a line of hours begin that are an entry of their own: rows of others than the
// row before, and travel. What stands before the first row belongs to it, and what no row covers to the one before.
func timeCuts(text string, rows []notes.TimeRow) []int {
	var cuts []int
	open, seen := 0, 0
	for i := 1; i < len(rows); i++ {
		before, row := &rows[i-1], &rows[i]
		if row.Start < before.End || row.Start > len(text) {
			continue
		}
		between := text[min(seen, row.Start):row.Start]
		open, seen = open+strings.Count(between, "(")-strings.Count(between, ")"), max(seen, row.Start)
		if open > 0 {
			continue // "7:00-15:30 (Ines, Tobias)"
		}
		if len(row.People) > 0 && !slices.Equal(row.People, before.People) || len(before.People) > 0 && len(row.People) == 0 && (row.Stated > 0 || len(row.Spans) > 0) || row.Travel != before.Travel {
			cuts = append(cuts, row.Start)
		}
	}
	return cuts
}

// together gives the entries of an item, those from index n on, the time that the item as a whole says
// they have: a lunch at its end, "each" or "both" may be everybody's.
func (r *noteReader) together(text string, base, n int) {
	made := r.note.Entries[n:]
	if len(made) == 0 || len(made) == 1 && len(made[0].Details) == 0 {
		return
	}
	if len(made) > 1 && r.oneLine(text, base, n) {
		made = r.note.Entries[n:]
	}
	for i := range made {
		if made[i].Kind != notes.TimeEntry || made[i].Span.Start < base {
			return
		}
	}
	rows := field.ReadTime(text, r.lex)
	for i := range made {
		e := &made[i]
		if mine := rowsWithin(rows, e.Span.Start-base, e.Span.End-base); len(mine) == len(e.Facts.Time) {
			e.Facts.Time = mine
		}
	}
}

// longestCrew is how many bytes the names that stand in a sentence before their time may take.
const longestCrew = 24

// oneLine joins entries of an item, those from index n on, that the item read as a whole shows to be one line of
// hours: a piece of time that tells none of its own ("all took 30", "3:30 done"), and people whose time stands
// in the next ("G + I. 10P-6:30A"). It reports whether any were.
func (r *noteReader) oneLine(text string, base, n int) bool {
	timed := false
	for i := n; i < len(r.note.Entries); i++ {
		e := &r.note.Entries[i]
		if e.Span.Start < base || len(e.Details)+len(e.Photos) > 0 || e.Kind != notes.TimeEntry && (e.Kind != notes.Narrative || i > n) {
			return false
		}
		timed = timed || e.Kind == notes.TimeEntry
	}
	if !timed {
		return false
	}
	rows := field.ReadTime(text, r.lex)
	joined := false
	for i := n; i < len(r.note.Entries) && len(r.note.Entries) > n+1; i++ {
		e := &r.note.Entries[i]
		own, reaches := false, false
		for k := range rows {
			start, end := base+rows[k].Start, base+rows[k].End
			own = own || start >= e.Span.Start && start < e.Span.End
			reaches = reaches || start >= e.Span.Start && start < e.Span.End && end > e.Span.End &&
				(e.Kind == notes.TimeEntry || e.Span.End-start <= longestCrew && !rows[k].Travel)
		}
		switch {
		case e.Kind == notes.TimeEntry && own && !reaches, e.Kind == notes.Narrative && !reaches, reaches && i+1 == len(r.note.Entries):
			continue
		case i+1 < len(r.note.Entries):
			r.joinNext(i, rows, base)
			i--
		case i > n && r.note.Entries[i-1].Kind == notes.TimeEntry:
			r.joinNext(i-1, rows, base)
		default:
			continue
		}
		joined = true
	}
	return joined
}

// joinNext makes one entry of entry i and the one behind it.
func (r *noteReader) joinNext(i int, rows []notes.TimeRow, base int) {
	e, next := &r.note.Entries[i], r.note.Entries[i+1]
	if e.Kind != notes.TimeEntry || len(e.Facts.Time) == 0 && len(next.Facts.Time) > 0 {
		e.Kind, e.Why, e.Sure, e.MayBe = next.Kind, next.Why, next.Sure, next.MayBe
		e.Judged, e.Clues, e.ClueNames = next.Judged, next.Clues, next.ClueNames
	}
	e.Span = r.file.Span(e.Span.Start, next.Span.End)
	e.Text = fold(e.Span.Text())
	e.Facts = notes.Facts{Time: rowsWithin(rows, e.Span.Start-base, e.Span.End-base)}
	r.note.Entries = append(r.note.Entries[:i+1], r.note.Entries[i+2:]...)
	r.last, r.lastEnd = len(r.note.Entries)-1, e.Span.End
}
