package field

import "jobday/notes"

// loneNumber reads hours written without the word in a text about time: "Ines 7.5", "8"; and
// "Ines 1:15". A time of day alone is claimed, so that nobody counts it.
func (r *reader) loneNumber(i int, list []timePart) (timePart, bool) {
	switch r.low(i - 1) {
	case "at", "by", "till", "until", "til", "since", "before", "after":
		if c, ok := r.clockAt(i); !ok || !c.clear {
			return timePart{}, false // "Tobias came at 9"
		}
	}
	if r.tailOfSomething(i) {
		return timePart{}, false
	}
	person := len(list) > 0 && (list[len(list)-1].kind == aPerson || list[len(list)-1].kind == aCrew)
	if a, ok := r.travelBehind(i); ok {
		return a, true
	}
	if a, ok := r.payHours(i); ok {
		return a, true
	}
	if m, to, ok := r.bareTravel(i, list); ok {
		return timePart{kind: aStated, from: i, to: to, minutes: m}, true
	}
	if (r.bold && (person || r.hoursAlone(i)) || i <= 2 && r.hoursLabel(i) && r.wholeRest(i) ||
		person && r.besidePerson(i, list) && r.listedHours(i)) && r.bareHours(i) {
		n, _ := r.num(i)
		m, ok := wholeMinutes(n.v, 60)
		return timePart{kind: aStated, from: i, to: n.next, minutes: m}, ok
	}
	c, ok := r.clockAt(i)
	if !ok || !c.clear {
		return timePart{}, false
	}
	if r.bold && person && c.half == 0 && !c.military && c.hour <= 12 && c.next == len(r.toks) {
		a := timePart{kind: aStated, from: i, to: c.next, minutes: notes.Minutes(c.hour*60 + c.minute)}
		if c.hour > 4 {
			a.doubt = "may be a time of day or a duration"
		}
		return a, a.minutes > 0
	}
	r.lone = append(r.lone, loneClock{i, c})
	start, end := r.piece(i, c.next)
	r.claim(notes.Piece{Start: start, End: end})
	return timePart{}, false
}

// hoursAlone reports whether the number at token i is all a text about hours says.
func (r *reader) hoursAlone(i int) bool {
	return i == 0 || i <= 2 && r.afterHoursLabel(i)
}

// besidePerson reports whether nothing but a small word stands between the person before token i
// and it: "Ines did 6".
func (r *reader) besidePerson(i int, list []timePart) bool {
	switch to := list[len(list)-1].to; i - to {
	case 0:
		return true
	case 1:
		switch r.low(to) {
		case "did", "worked", "had", "put", ":", "-", "=", "has", "(":
			return true
		}
	}
	return false
}

// onlyHours reports whether a text is nothing but people and hours: "Ines 8, Tobias 6.5", "Ana/Ben 4 ea".
func (r *reader) onlyHours() bool {
	if len(r.toks) > 24 || r.lex == nil {
		return false
	}
	people, each := 0, false
	for i := 0; i < len(r.toks); {
		m, ok := r.mentionAt(i)
		if !ok || len(m.names) == 0 {
			return false
		}
		people += len(m.names)
		i = m.next
		if joining(r.low(i)) && r.low(i) != "," {
			if _, named := r.mentionAt(i + 1); named {
				i++
				continue // "Ana/Ben 4 ea"
			}
		}
		for r.low(i) == "-" || r.low(i) == ":" || r.low(i) == "=" {
			i++
		}
		n, ok := r.num(i)
		if !ok || n.form != digits || n.v.Cmp(notes.Int(16)) > 0 || n.v.Cmp(one) < 0 {
			return false
		}
		if i = n.next; hourWord(r.low(i)) {
			i++
		}
		if everyone(r.low(i)) {
			each = true
			i++
		}
		for joining(r.low(i)) || r.low(i) == ";" || r.low(i) == "." && !r.close(i+1) {
			i++
		}
	}
	return people > 1 || each
}

// listedHours reports whether the number at token i stands in a list of people and hours: below a
// label for hours, or before a person whose number has the word: "Ana 4, Ben 4 hrs".
func (r *reader) listedHours(i int) bool {
	if r.afterHoursLabel(2) {
		return true
	}
	for people := 0; people < 8; people++ {
		n, ok := r.num(i)
		if !ok {
			return false
		}
		if hourWord(r.low(n.next)) {
			return people > 0
		}
		for i = n.next; joining(r.low(i)) || r.low(i) == ";"; i++ {
		}
		_, next, named := r.anyNameAt(i)
		if i == n.next || !named {
			return false
		}
		for i = next; r.low(i) == "did" || r.low(i) == ":" || r.low(i) == "-"; i++ {
		}
	}
	return false
}

// bareTravel reads "travel 45" in a text about time: hours below 4, else minutes.
func (r *reader) bareTravel(i int, list []timePart) (notes.Minutes, int, bool) {
	if !r.bold || len(list) == 0 || list[len(list)-1].kind != aTravel || list[len(list)-1].to < i-1 {
		return 0, i, false
	}
	n, ok := r.num(i)
	if !ok || r.tailOfSomething(i) || !r.spanMayEnd(n.next) {
		return 0, i, false
	}
	unit := 60
	if n.v.Cmp(notes.Int(4)) >= 0 {
		unit = 1
	}
	m, ok := wholeMinutes(n.v, unit)
	return m, n.next, ok && m <= 4*60 && m >= 5
}

// payHours reads hours that stand beside how they are paid, in a text about time: "reg 8 OT 2", "8 reg".
func (r *reader) payHours(i int) (timePart, bool) {
	n, ok := r.num(i)
	if !r.bold || !ok || n.v.Cmp(notes.Int(16)) > 0 || !payWord(r.low(i-1)) && !payWord(r.low(n.next)) || r.low(n.next) == ":" {
		return timePart{}, false
	}
	m, ok := wholeMinutes(n.v, 60)
	return timePart{kind: aStated, from: i, to: n.next, minutes: m}, ok
}

func payWord(low string) bool {
	switch low {
	case "work", "labor", "labour", "onsite", "reg", "regular", "ot", "overtime", "dt", "doubletime":
		return true
	}
	return false
}

// travelBehind reads ".5 travel" in a text about time: hours below 4, else minutes.
func (r *reader) travelBehind(i int) (timePart, bool) {
	n, ok := r.num(i)
	if !r.bold || !ok {
		return timePart{}, false
	}
	if low := r.low(n.next); low != "travel" && low != "drive" && low != "driving" {
		return timePart{}, false
	}
	unit := 60
	if n.v.Cmp(notes.Int(4)) >= 0 {
		unit = 1
	}
	m, ok := wholeMinutes(n.v, unit)
	return timePart{kind: aStated, from: i, to: n.next, minutes: m}, ok && m >= 5 && m <= 4*60
}
