package reconcile

import (
	"fmt"
	"slices"
	"strings"

	"jobday/finding"
	"jobday/notes"
	"jobday/parse/field"
	"jobday/trade"
)

// applyWork adds up what entries did to lines, then makes extras of what is beyond scope.
func (d *day) applyWork() {
	for _, r := range d.reads {
		if r.result.Outcome == notes.Extra && r.kind == notes.Extra {
			d.recordExtra(r)
		}
	}
	for _, r := range d.reads {
		switch {
		case r.result.Outcome == notes.InScope:
			d.progress(r)
		case r.result.Outcome == notes.Extra && r.kind != notes.Extra:
			d.recordExtra(r)
		case r.result.Outcome == notes.Unclear:
			r.result.Reading = d.workReading(r, nil, notes.Unsaid)
		}
	}
	d.consents()
}

// amount is what an entry says was done of a line today.
type amount struct {
	today    notes.Decimal
	counted  bool // a number, or a word that stands for one, was read
	complete notes.Answer
}

// progress adds an entry to the lines it serves.
func (d *day) progress(r *read) {
	var qty *notes.Quantity
	complete := notes.Unsaid
	if len(r.lines) == 1 && ownBeginning(&r.query, &d.index.lines[r.lines[0]].query) && r.facts.Progress.Complete == notes.No {
		r.facts.Progress.Complete = notes.Unsaid // "roughed" is all that a line of roughing in asks for
	}
	for _, i := range r.lines {
		lt := &d.lines[i]
		lt.touched, lt.unclear = true, false
		lt.from = append(lt.from, r.result.Source)
		if r.facts.Progress.Dropped {
			d.drop(r, i)
			complete = notes.No
			continue
		}
		var n count
		n.of, n.said = d.counted(r, i)
		told := d.written(r, i, n)
		if weighed, ok := d.howMany(r, i, told); ok && (weighed.said != told.said || !weighed.of.Equal(told.of)) {
			n, told = weighed, weighed
			r.addWhy(weighed.why(d.in.Job.Lines[i].Qty.Unit))
		}
		off := d.counting.off
		if off {
			r.facts.Progress.Complete = notes.No // "all up but one"
		}
		a := d.amountOn(r, i, n)
		if off && !a.counted {
			d.askHowMany(r, i)
		}
		if r.facts.Progress.Blocked && a.complete == notes.Yes {
			a.complete = notes.No // "both set, waiting on carpet" is not the end of it
		}
		lt.today = lt.today.Add(a.today)
		complete = a.complete
		if told.said && !(told.how == byWeights && a.complete == notes.No && d.in.Job.Lines[i].Qty.Value.Equal(notes.Int(1))) {
			qty = &notes.Quantity{Value: told.of, Unit: d.in.Job.Lines[i].Qty.Unit}
		}
		d.mark(r, i, a)
	}
	r.result.Reading = d.workReading(r, qty, complete)
}

// A count is how many of a line's own things an entry counts, if it does.
type count struct {
	of   notes.Decimal
	said bool
	how  countHow
}

// why says that a number was weighed, and not plainly said.
func (n count) why(unit notes.Unit) string {
	if !n.said {
		return "no number in it is surely its count"
	}
	return "the count is likeliest " + notes.Quantity{Value: n.of, Unit: unit}.String()
}

// countHow says by what a count was read.
type countHow string

// The ways to read a count.
const (
	byShare   countHow = "a share of the line"
	byRest    countHow = "all but some"
	byItem    countHow = "a counted thing"
	byList    countHow = "a list"
	bySingle  countHow = "a single one"
	byWeights countHow = "weights" // against what the rules say
)

// written returns the number the words give for a line, whatever it adds to the line: "4 of 6
// roughed" gives 4, though none of them is done.
func (d *day) written(r *read, i int, n count) count {
	p := &r.facts.Progress
	booked := d.in.Job.Lines[i].Qty
	if c := p.Count; c != nil {
		if n.said && p.All && p.Of != nil && c.Equal(*p.Of) && c.Equal(booked.Value) && n.of.Sign() > 0 && n.of.Cmp(*c) < 0 && r.query.leads(n.of) {
			return count{n.of, true, byItem} // "7 heads set, all 16 are up now": today's are seven
		}
		return count{*c, true, byShare}
	}
	if p.But != nil {
		return count{notes.Max(notes.Decimal{}, booked.Value.Sub(*p.But)), true, byRest}
	}
	if n.said {
		return count{n.of, true, byItem}
	}
	many := booked.Value.Cmp(notes.Int(1)) > 0
	if n := r.listed(); n > 0 && many {
		return count{notes.Int(n), true, byList}
	}
	if many && booked.Unit == notes.Each && !p.All && d.oneOf(r, i) {
		return count{notes.Int(1), true, bySingle}
	}
	return count{}
}

// mark updates how the line stands: begun, blocked, complete.
func (d *day) mark(r *read, i int, a amount) {
	ls, lt := &d.standing.lines[i], &d.lines[i]
	p := r.facts.Progress
	switch {
	case p.Blocked:
		ls.blocked, ls.blockedBy = true, p.BlockedBy
		if ls.blockedBy == "" {
			ls.blockedBy = r.entry.Text
		}
	case !p.NotDone && !p.ByOthers:
		ls.begun, ls.blocked, ls.blockedBy = true, false, ""
	}
	if a.complete == notes.No && lt.finished {
		ls.complete, lt.finished = false, false // one entry said done, another of today says not quite
	}
	booked := d.in.Job.Lines[i].Qty.Value
	done := ls.toDate.Add(lt.today).Cmp(booked) >= 0 && booked.Sign() > 0
	if done && a.complete != notes.No && !ls.complete && a.today.Sign() > 0 {
		ls.complete, lt.finished = true, true
	}
}

// amountOn reads how much of line i an entry reports. Words and numbers decide in this order: a
// denial, "2 of 3", a fraction, a count of the line's own things, "done", and last what kind of
// work was done.
func (d *day) amountOn(r *read, i int, n count) amount {
	line := &d.in.Job.Lines[i]
	before := d.standing.lines[i].toDate.Add(d.lines[i].today)
	remaining := notes.Max(notes.Decimal{}, line.Qty.Value.Sub(before))
	p := r.facts.Progress
	if p.NotDone || p.ByOthers || p.Blocked && p.Count == nil && p.Complete != notes.Yes {
		return amount{complete: notes.No, counted: p.NotDone}
	}
	if p.Complete != notes.Yes && begins(&r.query, &d.index.lines[i].query) {
		return amount{complete: notes.No} // "3 of 3 roughed" finishes none
	}
	if a, ok := d.partOfOne(r, i, n, before); ok {
		return a
	}
	if a, ok := d.saidOf(r, i, before, remaining); ok && n.how != byWeights {
		return a
	}
	if n.said && (p.Complete != notes.No || line.Qty.Value.Cmp(notes.Int(1)) > 0) {
		complete := p.Complete
		if n.of.Equal(line.Qty.Value) && before.Sign() > 0 && (complete == notes.Yes || p.All) {
			return amount{remaining, true, notes.Yes} // "all in, 140 ft complete" is the whole run, not one more
		}
		if complete == notes.Unsaid && (r.entry.Box == notes.CheckedBox || before.IsZero() && n.of.Equal(line.Qty.Value)) {
			complete = notes.Yes // five of five
		}
		return amount{n.of, true, complete}
	}
	if n.how == byWeights && !p.All && !p.Rest {
		return d.unsaid(r, i, remaining)
	}
	if listed := notes.Int(r.listed()); listed.Sign() > 0 && listed.Cmp(line.Qty.Value) <= 0 && line.Qty.Unit == notes.Each && p.Complete != notes.No {
		return amount{listed, true, p.Complete}
	}
	if one := notes.Int(1); line.Qty.Value.Cmp(one) > 0 && remaining.Cmp(one) >= 0 && !p.All && !p.Rest && d.oneOf(r, i) {
		if p.Complete == notes.No {
			return amount{complete: notes.No}
		}
		return amount{one, true, p.Complete} // "the circuit in room 1 is complete" is one of six
	}
	return d.unsaid(r, i, remaining)
}

// unsaid judges work whose words give no number.
func (d *day) unsaid(r *read, i int, remaining notes.Decimal) amount {
	p := &r.facts.Progress
	switch {
	case r.entry.Box == notes.OpenBox || p.Complete == notes.No:
		return amount{complete: notes.No}
	case r.entry.Box == notes.CheckedBox || p.Complete == notes.Yes || p.All || p.Rest:
		return amount{remaining, true, notes.Yes}
	}
	return d.byVerb(r, i, remaining)
}

// partOfOne reads a count on a line that is booked as one piece but has parts: "14 of 42 spaces" of
// a panel to trace is a third of it, "both ground rods" all of two. Parts are rounded to hundredths.
func (d *day) partOfOne(r *read, i int, count count, before notes.Decimal) (amount, bool) {
	line, p, one := &d.in.Job.Lines[i], &r.facts.Progress, notes.Int(1)
	if !line.Qty.Value.Equal(one) {
		return amount{}, false
	}
	parts := d.index.lines[i].inner
	n, counted := notes.Decimal{}, false
	switch {
	case p.Count != nil && p.Of != nil && p.Of.Cmp(one) > 0 && p.Count.Cmp(*p.Of) <= 0:
		n, parts, counted = *p.Count, *p.Of, true
	case parts.Cmp(one) > 0:
		n, counted = count.of, count.said
	}
	if !counted || n.Sign() <= 0 || n.Cmp(parts) > 0 {
		return amount{}, false
	}
	if n.Equal(parts) {
		if p.Complete == notes.No {
			return amount{complete: notes.No}, true
		}
		return amount{notes.Max(notes.Decimal{}, one.Sub(before)), true, notes.Yes}, true
	}
	return amount{notes.Max(notes.Decimal{}, n.Quo(parts, 2).Sub(before)), true, notes.No}, true
}

// saidOf reads "2 of 3" and "half", which speak of the whole line and so of all days together.
// "1 of 2" on a line with two left of four speaks of what was left.
func (d *day) saidOf(r *read, i int, before, remaining notes.Decimal) (amount, bool) {
	line, p := d.in.Job.Lines[i], r.facts.Progress
	switch {
	case p.But != nil:
		done := line.Qty.Value.Sub(*p.But).Sub(before)
		return amount{notes.Max(notes.Decimal{}, done), true, notes.No}, true // "all but two"
	case p.Count != nil && p.Of != nil && !p.Count.Equal(*p.Of):
		if before.Sign() > 0 && p.Of.Equal(remaining) {
			return amount{*p.Count, true, notes.No}, true
		}
		if !p.Of.Equal(line.Qty.Value) {
			d.add(finding.Finding{
				Severity: finding.Warning, Rule: "progress/of-differs",
				Message: fmt.Sprintf("counts of %s, but line %s is booked for %s", p.Of, line.Label, line.Qty),
				Hint:    fmt.Sprintf("write the count out of %s, or only how many were done today", line.Qty.Value),
				Span:    r.entry.Span,
			})
		}
		return amount{notes.Max(notes.Decimal{}, p.Count.Sub(before)), true, notes.No}, true
	case p.Count != nil && p.Of != nil && !p.All && p.Complete != notes.No:
		if p.Count.Equal(line.Qty.Value) || p.Count.Equal(remaining) {
			return amount{remaining, true, notes.Yes}, true // "3 of 3"
		}
		return amount{*p.Count, true, p.Complete}, true
	case p.Count != nil && p.All:
		if before.Sign() > 0 && p.Count.Equal(line.Qty.Value) {
			return amount{remaining, true, notes.Yes}, true
		}
		if p.Complete == notes.No {
			return amount{complete: notes.No}, true
		}
		return amount{*p.Count, true, notes.Yes}, true
	case p.Count != nil && p.Rest:
		return amount{*p.Count, true, notes.Yes}, true
	case p.Fraction != nil:
		return amount{notes.Max(notes.Decimal{}, line.Qty.Value.Mul(*p.Fraction).Sub(before)), true, notes.No}, true
	}
	return amount{}, false
}

// counted returns how many of the line's own things, in its unit, the entry counts.
func (d *day) counted(r *read, i int) (notes.Decimal, bool) {
	line, l := &d.in.Job.Lines[i], &d.index.lines[i].query
	var sum notes.Decimal
	found, rest := false, false
	for k := range r.entry.Facts.Items {
		it := &r.entry.Facts.Items[k]
		if !it.Qty.Written() || len(it.Other) > 0 || r.saysWhich(it, line.Qty) {
			continue
		}
		if r.remains(it) {
			rest = true
			continue
		}
		q, ok := r.query.inBrackets(line.Qty.Unit)
		if !ok || it.Qty.Unit == line.Qty.Unit || it.Qty.Unit == notes.Each {
			q, ok = it.Qty.In(line.Qty.Unit)
		}
		if !ok && line.Qty.Unit == notes.Foot && it.Qty.Unit == notes.Each && it.Qty.Value.Cmp(fewestFeet) >= 0 && it.Qty.Value.Cmp(line.Qty.Value) <= 0 && bareRun(it) {
			q, ok = notes.Quantity{Value: it.Qty.Value, Unit: notes.Foot}, true
		}
		if !ok {
			continue
		}
		if one := notes.Int(1); line.Qty.Unit == notes.Each && q.Value.Cmp(one) < 0 && line.Qty.Value.Cmp(one) > 0 {
			continue // "a third of the lights"
		}
		words := d.item(it.Name)
		if words.named && l.means(words.head) && isObject(l, words.head) || line.Qty.Unit != notes.Each && !found {
			sum = sum.Add(q.Value)
			found = true
		}
	}
	told := r.facts.Progress.Told
	if line.Qty.Unit == notes.Foot && !found && told != nil && told.Cmp(fewestFeet) >= 0 && told.Cmp(line.Qty.Value) <= 0 {
		return *told, true // "labeler MC, pulled 180"
	}
	if n := notes.Int(rowCount(r.entry.Span)); n.Sign() > 0 {
		return n, n.Cmp(line.Qty.Value) <= 0
	}
	if line.Qty.Unit != notes.Each {
		return sum, found
	}
	if n := notes.Int(r.summed()); n.Sign() > 0 && n.Cmp(line.Qty.Value) <= 0 {
		return n, true // "bay 1 and 2 lights up, 8 total"
	}
	if n := notes.Int(placeSum(r.entry.Text)); n.Sign() > 0 {
		return n, n.Cmp(line.Qty.Value) <= 0
	}
	if n := notes.Int(r.query.partSum()); n.Sign() > 0 && n.Cmp(line.Qty.Value) <= 0 {
		return n, true
	}
	if !found && told != nil && told.Cmp(line.Qty.Value) <= 0 {
		return *told, true
	}
	if n := r.listed(); n > 1 && found && line.Qty.Value.Cmp(notes.Int(n)) >= 0 && (sum.Equal(notes.Int(firstListed(r.entry.Text))) || r.query.lastOfList(sum)) {
		return notes.Int(n), true // "transformers 1, 2 and 3" are three, "doors 5 6 7 heater" too
	}
	if found || line.Qty.Value.Cmp(notes.Int(1)) <= 0 {
		return sum.Mul(notes.Int(r.query.apiece())), found
	}
	if rest {
		return notes.Decimal{}, false
	}
	return loose(&r.query, l, line.Qty.Value)
}

// fewestFeet is the least bare number that is read as feet of a line booked by the foot; fewer may be
// sticks or runs.
var fewestFeet = notes.Int(25)

// bareRun reports whether an item is raceway or cable and nothing counted by the piece: "pvc 150 in".
func bareRun(it *notes.Item) bool {
	switch name := strings.ToLower(it.Name); name {
	case "pvc", "emt", "rmc", "imc", "fmc", "lfmc", "ent", "mc", "nm", "conduit", "wire", "cable", "cat 6":
		return !strings.HasSuffix(strings.ToLower(it.Text), "s")
	}
	return false
}

// isObject reports whether a thing is what the line counts: its own noun, not the panel the work is
// in or the box the circuit runs to.
func isObject(l *query, head field.Term) bool {
	for i, t := range l.terms {
		if (t.Text == head.Text || l.short(t) == head.Text || trade.Broader(t.Text) == head.Text || trade.Broader(head.Text) == t.Text) && (!l.qualifies[i] || l.head == i) {
			return true
		}
	}
	return false
}

// byVerb judges work that gives no number. One booked piece is done when the verb is one that
// finishes; of several nobody can tell how many.
func (d *day) byVerb(r *read, i int, remaining notes.Decimal) amount {
	line := d.in.Job.Lines[i]
	if !line.Qty.Value.Equal(notes.Int(1)) || !remaining.Equal(notes.Int(1)) {
		if remaining.Sign() > 0 {
			d.askHowMany(r, i)
		}
		return amount{}
	}
	if finishes(&r.query, &d.index.lines[i].query) || r.facts.Progress.Placed {
		return amount{remaining, true, notes.Yes}
	}
	return amount{}
}

// ownBeginning reports whether the entry's verb is one that elsewhere only begins, and is the line's.
func ownBeginning(q, l *query) bool {
	want := l.verbs()
	for _, v := range q.verbs() {
		if beginning[v] && slices.Contains(want, v) {
			return true
		}
	}
	return false
}

// finishes reports whether the verbs of an entry finish what the line asks for: the line's own
// verb, or one that stands at the end of the work.
func finishes(q, l *query) bool {
	want := l.verbs()
	for _, v := range q.verbs() {
		if slices.Contains(want, v) || finishing[v] {
			return true
		}
	}
	return false
}

// begins reports whether the verbs of an entry only begin what the line asks for: they stand at
// the start of such work, and the line asks for more than that.
func begins(q, l *query) bool {
	want, starts := l.verbs(), false
	for _, v := range q.verbs() {
		if slices.Contains(want, v) || finishing[v] {
			return false
		}
		starts = starts || beginning[v]
	}
	return starts
}

// Which classes of work stand at the end of a piece of work and which at its start is common
// practice, no source.
var (
	finishing = map[string]bool{
		"install": true, "replace": true, "land": true, "connect": true, "trim": true, "label": true, "trace": true,
		"relocate": true, "repair": true, "energize": true, "program": true, "remove": true, "makeup": true,
	}
	beginning = map[string]bool{
		"pull": true, "rough": true, "dig": true, "drill": true, "layout": true, "start": true, "order": true, "disconnect": true,
	}
)

// drop records that the customer took a line, or what is left of it, out of the work.
func (d *day) drop(r *read, i int) {
	ls, line := &d.standing.lines[i], d.in.Job.Lines[i]
	left := notes.Max(notes.Decimal{}, line.Qty.Value.Sub(ls.toDate).Sub(d.lines[i].today))
	ls.dropped, ls.droppedBy = left, r.facts.Consent.By
	ls.blocked, ls.blockedBy = true, "dropped by the customer"
	if ls.droppedBy != "" {
		ls.blockedBy = "dropped by " + ls.droppedBy
	}
	r.addWhy("the customer dropped it")
	d.credit(r, i, left)
}

// overs makes extras of what went beyond the booked quantities today.
func (d *day) overs() {
	for i, line := range d.in.Job.Lines {
		before, today := d.standing.lines[i].toDate, d.lines[i].today
		over := before.Add(today).Sub(notes.Max(line.Qty.Value, before))
		if over.Sign() > 0 {
			d.beyond(i, over)
		}
	}
}

// workReading is the reading of work: what was counted, whether it says complete, whose time.
func (d *day) workReading(r *read, qty *notes.Quantity, complete notes.Answer) notes.Reading {
	w := notes.WorkReading{Qty: qty, People: []string{}}
	if complete == notes.Unsaid {
		complete = r.facts.Progress.Complete
	}
	if complete != notes.Unsaid {
		yes := complete == notes.Yes
		w.Complete = &yes
	}
	if qty == nil && r.result.Outcome != notes.InScope {
		for _, it := range r.entry.Facts.Items {
			if it.Qty.Written() && len(it.Other) == 0 {
				q := it.Qty
				w.Qty = &q
				break
			}
		}
	}
	for _, row := range r.facts.Time {
		w.Minutes += row.PersonMinutes()
		for _, name := range row.People {
			if !slices.Contains(w.People, name) {
				w.People = append(w.People, name)
			}
		}
	}
	return w
}
