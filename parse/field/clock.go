package field

import "jobday/notes"

// A clockTime is a time of day as written, before anyone decides between morning and afternoon.
type clockTime struct {
	hour, minute int
	half         byte // 'a', 'p' or 0
	clear        bool // colon, "am", "noon": cannot be a plain number
	military     bool // "0730", "07:00", "16:00": a 24 hour clock
	packed       bool // "730", "0730": hour and minute in one number
	dotted       bool // "7.30"
	next         int  // the token after it
}

// clockAt reads the time of day that starts at token i: "7", "7:05", "730", "0730", "7:05a",
// "7 pm", "noon". A number that carries on as something else ("7ft", "7/8", "7-") is none.
func (r *reader) clockAt(i int) (clockTime, bool) {
	if i >= len(r.toks) {
		return clockTime{}, false
	}
	switch t := &r.toks[i]; {
	case t.low == "noon":
		return clockTime{hour: 12, half: 'p', clear: true, next: i + 1}, true
	case t.low == "midnight":
		return clockTime{hour: 12, half: 'a', clear: true, next: i + 1}, true
	case t.kind == word:
		return r.clockWords(i)
	case t.kind != number:
		return clockTime{}, false
	}
	c, ok := r.clockDigits(i)
	if !ok {
		return c, false
	}
	c = r.clockHalf(c)
	if c.half != 0 && (c.hour == 0 || c.hour > 12) {
		return c, false
	}
	return c, c.hour < 24 || c.hour == 24 && c.minute == 0
}

// clockDigits reads hour and minute.
func (r *reader) clockDigits(i int) (clockTime, bool) {
	s := r.low(i)
	c := clockTime{next: i + 1}
	switch len(s) {
	case 1, 2:
		c.hour = smallInt(s)
		if r.low(i+1) == "h" && r.close(i+1) && !r.isNumber(i+2) && r.frenchHour(i) {
			c.clear, c.military, c.next = true, true, i+2
			break
		}
		if !r.close(i+1) || !r.close(i+2) || !r.isNumber(i+2) || len(r.low(i+2)) != 2 {
			break
		}
		m := smallInt(r.low(i + 2))
		switch {
		case r.low(i+1) == ":" && m < 60:
			c.minute, c.clear, c.next = m, true, i+3
			c.military = s[0] == '0' || c.hour > 12
		case r.low(i+1) == "h" && m < 60 && (s[0] == '0' || c.hour >= 5):
			c.minute, c.clear, c.next = m, true, i+3
			c.military = s[0] == '0' || c.hour > 12
		case r.low(i+1) == "." && m < 60 && m%15 == 0:
			c.minute, c.dotted, c.next = m, true, i+3
			c.military = s[0] == '0'
		}
	case 3, 4:
		n := smallInt(s)
		c.hour, c.minute, c.packed = n/100, n%100, true
		c.military = len(s) == 4 && (s[0] == '0' || c.hour > 12)
		if c.minute > 59 || len(s) == 3 && s[0] == '0' {
			return c, false
		}
	default:
		return c, false
	}
	return c, true
}

// frenchHour reports whether "8h" at token i is a time of day: "de 8h à 16h".
func (r *reader) frenchHour(i int) bool {
	prev, next := r.low(i-1), r.low(i+2)
	if (prev == "de" || prev == "à") || (next == "à" || next == "a") && r.isNumber(i+3) {
		return true
	}
	if _, worded := r.rangeSign(i + 2); r.isNumber(i+3) && r.low(i+4) == "h" && r.close(i+4) {
		return (worded || next == "-" || next == "–") && smallInt(r.low(i)) >= 5 // "7h to 17h"
	}
	if _, worded := r.rangeSign(i - 1); !worded && prev != "-" && prev != "–" {
		return false
	}
	return r.low(i-2) == "h" && r.isNumber(i-3) && smallInt(r.low(i-3)) >= 5 || r.low(i-3) == "h" && r.isNumber(i-2) && r.isNumber(i-4)
}

// smallInt reads up to four digits.
func smallInt(s string) int {
	n := 0
	for i := 0; i < len(s) && i < 4; i++ {
		n = n*10 + int(s[i]-'0')
	}
	return n
}

// clockHalf reads "am", "p", "a.m.", "o'clock" after the digits.
func (r *reader) clockHalf(c clockTime) clockTime {
	i := c.next
	switch low := r.low(i); low {
	case "am", "pm":
		c.half, c.clear, c.next = low[0], true, i+1
	case "a", "p":
		if !r.close(i) && !(r.low(i+1) == "." && r.low(i+2) == "m" && r.close(i+1) && r.close(i+2)) {
			break
		}
		c.half, c.next = low[0], i+1
		// A lone capital may be an ampere or a pole: "20A", "2P".
		c.clear = c.clear || !r.capital(i)
		if r.low(i+1) == "." && r.low(i+2) == "m" && r.close(i+1) && r.close(i+2) {
			c.clear, c.next = true, i+3
			if r.low(i+3) == "." && r.close(i+3) {
				c.next = i + 4
			}
		}
	case "o'clock", "oclock":
		c.clear, c.next = true, i+1
	case "at", "in", "this":
		return r.clockDaypart(c)
	}
	return c
}

// clockDaypart reads "at night", "in the morning" behind the digits.
func (r *reader) clockDaypart(c clockTime) clockTime {
	i := c.next + 1
	if r.low(i) == "the" {
		i++
	}
	switch r.low(i) {
	case "morning":
		c.half = 'a'
	case "afternoon", "evening":
		c.half = 'p'
	case "night":
		c.half = 'p'
		if c.hour == 12 || c.hour < 5 {
			c.half = 'a'
		}
	default:
		return c
	}
	if c.hour == 0 || c.hour > 12 {
		c.half = 0
		return c
	}
	c.clear, c.next = true, i+1
	return c
}

// A clockPair is a span as written.
type clockPair struct {
	from, to clockTime
	next     int
	from24   bool // "from ... to"
	worded   bool // parted by a word, not by a dash
}

// pairAt reads two times of day parted by a dash or "to" at token i, without asking whether
// they are meant as times of day.
func (r *reader) pairAt(i int) (clockPair, bool) {
	if r.tailOfSomething(i) {
		return clockPair{}, false
	}
	a, ok := r.clockAt(i)
	if !ok {
		return clockPair{}, false
	}
	j, worded := r.rangeSign(a.next)
	if low := r.low(a.next); (r.low(i-1) == "de" || a.military) && (low == "a" || low == "à") || a.clear && low == "à" {
		j, worded = a.next+1, true // Spanish and French: "de 7 a 3:30"
	}
	if j < 0 {
		return clockPair{}, false
	}
	if low := r.low(j); worded && (low == "done" || low == "about" || low == "around" || low == "almost") {
		j++
	}
	b, ok := r.clockAt(j)
	if !ok || !r.clockStops(b.next) {
		return clockPair{}, false
	}
	if phoneLike(a, b, len(r.low(i)), len(r.low(j))) {
		return clockPair{}, false
	}
	p := clockPair{from: a, to: b, next: b.next, worded: worded}
	p.from24 = (r.low(i-1) == "from" || r.low(i-1) == "de") && worded
	return p, true
}

// tailOfSomething reports whether token i carries on what stands right before it: "L1", "#2",
// "$7", "1/4", "1-800".
func (r *reader) tailOfSomething(i int) bool {
	if !r.close(i) {
		return r.low(i-1) == "#" || r.low(i-1) == "$"
	}
	switch p := &r.toks[i-1]; p.low {
	case "(", ",", ";", ":", "@", "=", "[", "~", "&", "+":
		return p.low == ":" && r.isNumber(i-2) && r.close(i-1) || p.low == "," && r.isNumber(i-2) && len(r.low(i)) == 3
	case "/":
		return !r.spanBefore(i - 1)
	case "-", "–", "—":
		return i > 1 && r.close(i-1)
	default:
		return true
	}
}

// spanBefore reports whether a span ends right before token i: "8-12/1-5".
func (r *reader) spanBefore(i int) bool {
	for n := 3; n <= 9 && n <= i; n++ {
		if p, ok := r.pairPlain(i - n); ok && p == i {
			return true
		}
	}
	return false
}

// pairPlain returns where two times of day parted by a dash end.
func (r *reader) pairPlain(i int) (int, bool) {
	a, ok := r.clockAt(i)
	if !ok {
		return 0, false
	}
	j, _ := r.rangeSign(a.next)
	if j < 0 {
		return 0, false
	}
	b, ok := r.clockAt(j)
	return b.next, ok
}

// rangeSign passes "-", "to", "till" and the like at token i, or returns -1.
func (r *reader) rangeSign(i int) (next int, worded bool) {
	switch r.low(i) {
	case "-", "–", "—", "−", "→", "~":
		if r.low(i) == "-" && r.low(i+1) == ">" {
			return i + 2, false
		}
		return i + 1, false
	case "to", "til", "till", "until", "thru", "through":
		return i + 1, true
	case ">":
		if r.close(i) && r.close(i+1) {
			return i + 1, false
		}
	case "/":
		if r.close(i) && r.close(i+1) && len(r.low(i-1)) == 4 && r.isNumber(i-1) && r.isNumber(i+1) && len(r.low(i+1)) == 4 && r.low(i - 1)[0] == '0' {
			return i + 1, false // "0700/1530"
		}
	case "'", "’":
		if r.low(i+1) == "til" || r.low(i+1) == "till" {
			return i + 2, true
		}
	}
	return -1, false
}

// clockStops reports whether a time of day may end before token i.
func (r *reader) clockStops(i int) bool {
	if !r.close(i) {
		return i >= len(r.toks) || r.toks[i].low != "%"
	}
	switch r.low(i) {
	case ",", ";", ")", "=", "&", "+", "!", "?", "]", "(":
		return true
	case ".", ":":
		return !r.close(i + 1)
	case "/":
		_, ok := r.pairPlain(i + 1)
		return ok || r.toks[i].end == len(r.text)
	case "-", "–", "—":
		return !r.isNumber(i+1) || r.toks[i+1].spaced
	}
	return false
}

// phoneLike reports whether two packed numbers look like the end of a telephone number: "555-0134".
func phoneLike(a, b clockTime, la, lb int) bool {
	if !a.packed || !b.packed || la == lb {
		return false
	}
	return la == 3 && lb == 4 && (b.military && b.hour < 12 || a.minute%15 != 0 || b.minute%15 != 0)
}

// strong reports whether the pair can only be two times of day.
func (p clockPair) strong() bool {
	switch {
	case p.from.clear || p.to.clear:
		return true
	case p.from.half != 0 && p.to.half != 0 && p.from.half != p.to.half:
		return true
	case p.from.packed && p.to.packed:
		return p.from.military && p.to.military
	}
	return false
}

// rises reports whether the second number is above the first, as in a run of circuits or sizes.
func (p clockPair) rises() bool {
	return p.to.hour*60+p.to.minute > p.from.hour*60+p.from.minute
}

const (
	halfDay  = 12 * 60
	wholeDay = 24 * 60
	longest  = 16 * 60 // what a day on the clock may plausibly run to; common practice, no source
)

// minutes returns the minutes after midnight as written, "12:30a" being 00:30.
func (c clockTime) minutes() int {
	h := c.hour
	switch {
	case c.half == 'a' && h == 12:
		h = 0
	case c.half == 'p' && h < 12:
		h += 12
	}
	return h*60 + c.minute
}

// fixed reports whether the half of the day is known.
func (c clockTime) fixed() bool { return c.half != 0 || c.military || c.hour == 0 || c.hour > 12 }

// span decides between morning and afternoon by the working day: a start from 5 to 11 is in the
// morning, an end that is not after its start moves half a day on (common practice, no source).
// Beside a time whose half is written, the other is taken so that the span is shortest.
// After is where the span before it in the row ended, or 0.
func (p clockPair) span(after int) (notes.ClockSpan, string) {
	from, to := p.from.minutes(), p.to.minutes()
	switch {
	case p.from.fixed() && p.to.fixed():
	case p.to.military && p.from.clear && from >= 5*60 && to > from: // "7:00-23:30" is all on one clock
	case p.to.fixed() && !p.from.military:
		from = nearestBefore(from, to)
	default:
		if !p.from.fixed() {
			from = workingStart(from, after)
		}
		to = nextAfter(to, from, p.to.fixed())
		if !p.from.fixed() && from < after && from+halfDay >= after && to+halfDay <= wholeDay {
			from, to = from+halfDay, to+halfDay
		}
	}
	if to <= from {
		to += wholeDay
	}
	return notes.ClockSpan{From: notes.Clock(from), To: notes.Clock(to)}, p.doubt(from, to)
}

// workingStart puts a start without half into the working day.
func workingStart(from, after int) int {
	if from < 5*60 || from < after && from+halfDay >= after && from+halfDay < wholeDay && from < halfDay && after >= halfDay {
		return from + halfDay
	}
	return from
}

// nearestBefore moves a start by half a day so that the end comes soonest after it.
func nearestBefore(from, to int) int {
	from %= halfDay
	best, dist := from, wholeDay+1
	for _, f := range [2]int{from, from + halfDay} {
		d := to - f
		if d <= 0 {
			d += wholeDay
		}
		if d < dist {
			best, dist = f, d
		}
	}
	return best
}

// nextAfter moves an end by half days until it is after the start.
func nextAfter(to, from int, fixed bool) int {
	for !fixed && to <= from {
		to += halfDay
	}
	return to
}

// doubt returns why a span cannot be right, or "".
func (p clockPair) doubt(from, to int) string {
	switch {
	case p.from.military && p.from.hour > 12 && !p.to.fixed() && p.to.minutes() < p.from.minutes() && to < wholeDay:
		return "may end in the evening or the next morning"
	case to-from <= longest:
		return ""
	case to > wholeDay && p.from.fixed() && p.to.fixed():
		return "ends before it starts"
	}
	return "runs past 16 h"
}

// mayBeNight reports whether a span that was put into the day may as well be a night's: "11-7".
func (p clockPair) mayBeNight() bool {
	return !p.from.fixed() && !p.to.fixed() && p.from.hour >= 6 && p.from.hour < 12 && !p.rises()
}

// nightBefore reports whether the words before token i say that the work was at night.
func (r *reader) nightBefore(i int) bool {
	for j := max(0, i-5); j < i; j++ {
		switch r.low(j) {
		case "night", "nights", "graveyard", "overnight", "graveyards", "nightshift":
			return true
		case "3rd", "third", "rd":
			if r.low(j+1) == "shift" {
				return true
			}
		}
	}
	return false
}
