package field

import (
	"strings"

	"jobday/notes"
)

// loneNumber reads hours written without the word in a text about time: "Ines 7.5", "8"; and
// "Ines 1:15". A time of day alone is claimed, so that nobody counts it.
func (r *reader) loneNumber(i int, list []timePart) (timePart, bool) {
	switch r.low(i - 1) {
	case "at", "by", "till", "until", "til", "since", "before", "after":
		if c, ok := r.clockAt(i); !ok || !c.clear {
			return timePart{}, false // "Tobias came at 9"
		}
	}
	if r.listNumber(i) {
		return timePart{}, false
	}
	if a, ok := r.figuresOfCrew(i); ok {
		return a, true
	}
	dashed := r.bold && r.low(i-1) == "-" && len(list) > 0 && list[len(list)-1].kind == aPerson && list[len(list)-1].to == i-1 // "Ana-8"
	if r.tailOfSomething(i) && !dashed {
		return timePart{}, false
	}
	if r.hoursFor(i, list) {
		return r.hoursPart(i)
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
	if r.moreHours(i, list) {
		return r.hoursPart(i)
	}
	if r.hoursInTurn(i, list) || r.bold && r.hoursEach(i) {
		return r.hoursPart(i)
	}
	if (r.bold && (person || r.hoursAlone(i)) || i <= 2 && r.hoursLabel(i) && r.wholeRest(i) ||
		person && r.besidePerson(i, list) && (r.goesOnInHours(list) || r.listedHours(i))) && r.bareHours(i) && !r.toldClock(i, list) {
		return r.hoursPart(i)
	}
	c, ok := r.clockAt(i)
	if !ok || !c.clear {
		return timePart{}, false
	}
	if r.bold && person && r.besidePerson(i, list) && c.half == 0 && !c.military && c.hour <= 12 && c.next == len(r.toks) {
		a := timePart{kind: aStated, from: i, to: c.next, minutes: notes.Minutes(c.hour*60 + c.minute)}
		if c.hour > 4 || r.cameOrWent(list) {
			a.doubt = "may be a time of day or a duration"
		}
		return a, a.minutes > 0
	}
	r.lone = append(r.lone, loneClock{i, c})
	start, end := r.piece(i, c.next)
	r.claim(notes.Piece{Start: start, End: end})
	return timePart{}, false
}

// cameOrWent reports whether the parts tell when somebody came or went.
func (r *reader) cameOrWent(list []timePart) bool {
	for k := max(0, len(list)-nearParts); k < len(list); k++ {
		if list[k].kind == aBegin || list[k].kind == aEnd {
			return true
		}
	}
	return false
}

// listNumber reports whether token i numbers the text: "6. Ines 7-5", "15) Ines 7-5".
func (r *reader) listNumber(i int) bool {
	if i != 0 || !r.isNumber(0) || !r.close(1) || len(r.toks) < 3 || r.close(2) {
		return false
	}
	return r.low(1) == "." || r.low(1) == ")"
}

// hoursFigure reads a number that may be hours without the word: "8", "7.5", "9 n half".
func (r *reader) hoursFigure(i int) (n num, ok bool) {
	n, ok = r.num(i)
	if !ok || n.v.Sign() <= 0 || n.v.Cmp(notes.Int(16)) > 0 {
		return n, false
	}
	if r.low(n.next) == "n" && r.low(n.next+1) == "half" && n.v.IsWhole() {
		n.v, n.next = n.v.Add(notes.Ratio(1, 2)), n.next+2
	}
	return n, true
}

// bareHours reports whether the number at token i is hours without the word: "Ines 8".
func (r *reader) bareHours(i int) bool {
	n, ok := r.hoursFigure(i)
	if !ok {
		return false
	}
	j := n.next
	switch low := r.low(j); low {
	case "", ",", ";":
		return true
	case ")":
		return r.low(i-1) == "("
	case "(":
		return r.bold || n.form == digits || !n.v.IsWhole()
	case "+":
		return r.isNumber(j+1) || r.low(j+1) == "." || r.bold && r.othersHours(j+1)
	case "plus", "less", "minus":
		return r.bold
	case "incl", "inc", "including", "includes", "counting", "countin":
		return r.bold && r.includes(j)
	case "=":
		return r.bold && r.isNumber(j+1)
	case "-":
		_, ok := r.pauseAt(j, true)
		return ok && r.bold && r.toks[j].spaced
	case "/":
		return !r.close(j)
	case ".":
		return !r.close(j + 1)
	default:
		if _, told := r.alternative(j); told && r.bold {
			return true
		}
		if next, sure := r.regret(j); sure && r.bold && (r.isNumber(next) || r.toldOf(next)) {
			return true // "Ines 9 I mean 8"
		}
		return everyone(low) || r.othersHours(j) || r.bold && (r.sumWords(j) > j || r.othersTurn(j)) || r.bold && (r.payBehind(j) || payWord(low) && low != "work" && low != "straight")
	}
}

// hoursFor reports whether the number at token i is somebody's hours behind another's: "eight hours me and
// seven for Ben", "8 Ana 7 Ben".
func (r *reader) hoursFor(i int, list []timePart) bool {
	n, ok := r.hoursFigure(i)
	if !ok || !r.bold {
		return false
	}
	j := n.next
	if r.low(j) == "for" {
		_, ok = r.mentionAt(j + 1)
		return ok
	}
	if !anyTime(list) {
		return false
	}
	last := list[len(list)-1]
	if last.kind != aPerson || last.to != i || !r.numberFirst() {
		return false
	}
	_, ok = r.mentionAt(j)
	return ok
}

// numberFirst reports whether the text begins with a number and not with a name.
func (r *reader) numberFirst() bool {
	_, ok := r.hoursFigure(0)
	return ok
}

// figuresOfCrew reads as many hours as the crew has people, and nothing else: "8 and 8". Whose they are
// is plain where they are the same.
func (r *reader) figuresOfCrew(i int) (timePart, bool) {
	if !r.bold || !r.hoursAlone(i) || r.lex == nil || len(r.lex.Crew) < 2 {
		return timePart{}, false
	}
	a := timePart{kind: aStated, from: i}
	if heads, ok := r.num(i); ok && heads.small == len(r.lex.Crew) && r.low(heads.next) == "x" {
		hours, ok := r.hoursFigure(heads.next + 1)
		m, whole := wholeMinutes(hours.v, 60)
		a.minutes, a.to, a.heads = m, hours.next, heads.small
		return a, ok && whole && (r.endsText(a.to) || r.low(a.to) == "=") // "2 x 9.5"
	}
	j := i
	for {
		n, ok := r.hoursFigure(j)
		m, whole := wholeMinutes(n.v, 60)
		if !ok || !whole || n.form == article {
			return a, false
		}
		if a.heads > 0 && m != a.minutes {
			a.doubt = "does not say whose hours are which"
		}
		a.minutes, a.to = m, n.next
		a.heads++
		if hourWord(r.low(a.to)) {
			a.to++
		}
		if r.endsText(a.to) {
			break
		}
		switch r.low(a.to) {
		case "and", "n", "&", "/", ",", "+":
			if r.close(a.to + 1) {
				return a, false // "3/12"
			}
		default:
			return a, false
		}
		j = a.to + 1
	}
	if a.heads > 1 && a.heads != len(r.lex.Crew) {
		a.doubt = "does not say whose hours these are"
	}
	return a, a.heads > 1
}

// othersHours reports whether somebody and a number stand at token i, so that the number before it ends
// what was told of the one before: "Ines 8 Tobias 6".
func (r *reader) othersHours(i int) bool {
	switch r.low(i) {
	case "and", "&":
		i++
	case "helper", "apprentice":
		return false // "Ana + 1 helper 4 hrs"
	}
	next := i + 1
	if m, ok := r.mentionAt(i); ok && (len(m.names) == 1 || m.me) {
		next = m.next
	} else if m, ok := r.othersAt(i); ok {
		next = m.next
	} else if r.smallInitials(i) == "" {
		return false
	}
	switch r.low(next) {
	case "for":
		return true
	case "=", ":", "-", "(", "did", "worked", "had", "make", "made":
		next++
	case "same", "ditto", "the":
		return r.bold
	}
	_, ok := r.hoursFigure(next)
	return ok
}

// hoursPart is the number at token i as hours.
func (r *reader) hoursPart(i int) (timePart, bool) {
	n, _ := r.hoursFigure(i)
	m, ok := wholeMinutes(n.v, 60)
	a := timePart{kind: aStated, from: i, to: n.next, minutes: m}
	if other, told := r.alternative(n.next); told && r.bold {
		a.to, a.doubt = other.next, "may be "+n.v.String()+" or "+other.v.String()+" hours"
	}
	return a, ok
}

// toldClock reports whether a verb of coming or going before the person makes the number at token i a time
// of day: "started both 6".
func (r *reader) toldClock(i int, list []timePart) bool {
	at := i - 1
	if len(list) > 0 && list[len(list)-1].kind == aPerson {
		at = list[len(list)-1].from - 1
	}
	switch r.low(at) {
	case "started", "start", "left", "gone", "came", "arrived", "finished", "quit", "stopped", "began", "begin", "off":
		return true
	}
	return false
}

// goesOnInHours reports whether the person who stands last in the list comes in a row right behind
// somebody's duration, so that a bare number is hours as well: "Fern eight hours, Bo eight".
func (r *reader) goesOnInHours(list []timePart) bool {
	n := len(list)
	if n < 3 || list[n-1].kind != aPerson || list[n-2].kind != aStated || list[n-2].minutes < 60 {
		return false
	}
	gap := list[n-1].from - list[n-2].to
	return gap == 0 || gap <= 2 && r.onlyJoins(list[n-2].to, list[n-1].from)
}

// hoursInTurn reports whether the number at token i, in figures or words, is the hours of one whose turn comes after
// another's, in a text about hours.
func (r *reader) hoursInTurn(i int, list []timePart) bool {
	return r.bold && (r.goesOnInHours(list) && r.besidePerson(i, list) && r.plainHours(i) && !r.toldClock(i, list) || r.trailingHours(i, list))
}

// plainHours reports whether the number at token i, right behind somebody who follows on another's hours, is hours
// whatever stands behind it: "Ana 8 Bo 6 dentist".
func (r *reader) plainHours(i int) bool {
	n, ok := r.hoursFigure(i)
	if !ok || n.form == article || r.isNumber(n.next) || timeOrSize(r.low(n.next)) {
		return false
	}
	switch r.low(n.next) {
	case "to", "till", "til", "until", "thru", "-", "–", "am", "pm", "a", "p", ":", "/", "%", "x", "half", "m":
		return false
	}
	return !strings.HasSuffix(r.low(n.next), "s") // "Bo 6 boxes"
}

// trailingHours reports whether the number at token i goes on a list that names people behind their hours: "seven hours
// me, seven Bo".
func (r *reader) trailingHours(i int, list []timePart) bool {
	k := len(list) - 1
	if k < 1 || list[k].kind != aPerson || list[k-1].kind != aStated || list[k].from != list[k-1].to || !r.onlyJoins(list[k].to, i) {
		return false
	}
	n, ok := r.hoursFigure(i)
	if !ok || n.form == article {
		return false
	}
	m, ok := r.mentionAt(n.next)
	return ok && (len(m.names) == 1 || m.me) && r.endsClause(m.next)
}

// hoursEach reports whether the number at token i is everybody's hours, told alone: "1530 off. 9 each".
func (r *reader) hoursEach(i int) bool {
	n, ok := r.hoursFigure(i)
	if !ok || n.form == article || i > 0 && !r.breaks(i-1) {
		return false
	}
	switch r.low(n.next) {
	case "each", "ea", "apiece":
		return r.endsClause(n.next + 1)
	}
	return false
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
	case 2:
		return r.bold && (r.low(to) == "down" && r.low(to+1) == "for" || r.low(to) == "put" && r.low(to+1) == "in")
	case 1:
		switch r.low(to) {
		case "did", "worked", "had", "put", "for", ":", "-", "=", "has", "(":
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
	people, each, known := 0, false, false
	for i := 0; i < len(r.toks); {
		m, ok := r.hoursOf(i)
		if !ok {
			return false
		}
		people += max(1, len(m.names))
		known = known || len(m.names) > 0
		if i = m.next; r.low(i) == "here" {
			i++
		}
		if joining(r.low(i)) && r.low(i) != "," {
			if _, named := r.hoursOf(i + 1); named {
				i++
				continue // "Ana/Ben 4 ea"
			}
		}
		for r.low(i) == "-" || r.low(i) == ":" || r.low(i) == "=" {
			i++
		}
		n, ok := r.hoursFigure(i)
		if !ok || n.form != digits || n.v.Cmp(one) < 0 {
			return false
		}
		if i = n.next; hourWord(r.low(i)) {
			i++
		}
		if i = r.pastAside(i); r.soleHours(i, people) {
			return true
		}
		if everyone(r.low(i)) {
			each = true
			i++
		}
		for joining(r.low(i)) || r.low(i) == ";" || r.low(i) == "." && !r.close(i+1) {
			i++
		}
	}
	return known && (people > 1 || each)
}

// hoursOf reads one of ours, or "me", in a text that may be nothing but people and hours. Letters stand
// for one of the crew unless they name a phase or a leg as well: "k 8 e 8".
func (r *reader) hoursOf(i int) (mention, bool) {
	if m, ok := r.mentionAt(i); ok && (len(m.names) > 0 || m.me) {
		return m, true
	}
	full := r.smallInitials(i)
	switch r.low(i) {
	case "a", "b", "c", "g", "l", "n":
		return mention{}, false
	}
	return mention{names: []string{full}, next: i + 1}, full != ""
}

// pastAside passes a short remark in brackets: "(dentist)".
func (r *reader) pastAside(i int) int {
	if r.low(i) != "(" {
		return i
	}
	for j := i + 1; j < i+5; j++ {
		if r.low(j) == ")" {
			return j + 1
		}
		if !r.isWord(j) {
			return i
		}
	}
	return i
}

// soleHours reports whether a text that ends at token i is the full hours of one of the note's crew and
// nothing else: "Cass 8". What may be a day of a month or a word as well is none.
func (r *reader) soleHours(i, people int) bool {
	if people != 1 || r.low(i) != "" && !(r.low(i) == "." && i+1 == len(r.toks)) {
		return false
	}
	m, ok := r.mentionAt(0)
	if !ok || m.weak || len(m.names) != 1 || commonWord(r.low(0)) || len(r.low(0)) < 3 {
		return false
	}
	for _, name := range r.lex.Crew {
		if r.bookName(name) == m.names[0] {
			return true
		}
	}
	return false
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
