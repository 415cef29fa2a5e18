package field

import "jobday/notes"

// A stretch is a duration as read.
type stretch struct {
	minutes notes.Minutes
	next    int    // the token after it
	total   bool   // "man-hours": of all people together
	doubt   string // why it is not one time, or ""
}

// longestStretch bounds what is taken for a duration at all, in minutes: a thousand hours.
const longestStretch = 60_000

func hourWord(low string) bool {
	switch low {
	case "h", "hr", "hrs", "hour", "hours":
		return true
	}
	return false
}

func minuteWord(low string) bool {
	switch low {
	case "min", "mins", "minute", "minutes":
		return true
	}
	return false
}

// stretchAt reads the duration that starts at token i: "45 min", "1h15", "1.25 hrs", "1:15 hr",
// "quarter hour", "an hour and a half". A number of hours that names a thing ("2 hr rated wall",
// "60 min timer") or a rate ("95 an hour") is none.
func (r *reader) stretchAt(i int) (stretch, bool) {
	if i < 0 || i >= len(r.toks) {
		return stretch{}, false
	}
	if low := r.low(i); (low == "hour" || low == "hr") && !r.isNumber(i-1) &&
		(r.halfFollows(i+1) || r.low(i+1) == "and" && r.isNumber(i+2) && minuteWord(r.low(i+3))) {
		return r.hoursAndPart(notes.Int(1), i+1)
	}
	if t := &r.toks[i]; t.kind == word && len(t.low) > 8 || r.tailOfSomething(i) || r.rateBefore(i) {
		return stretch{}, false
	}
	if r.low(i) == "another" {
		if low := r.low(i + 1); low == "hour" || low == "hr" {
			return r.hoursAndPart(one, i+2)
		}
		return r.stretchAt(i + 1)
	}
	if s, ok := r.rangeOfHours(i); ok {
		return s, true
	}
	if c, ok := r.clockDigitsColon(i); ok {
		return c, true
	}
	if s, ok := r.decimalComma(i); ok {
		return s, true
	}
	n, ok := r.num(i)
	if !ok || n.v.Cmp(notes.Int(longestStretch)) > 0 {
		return stretch{}, false
	}
	s, ok := r.unitOfTime(n.v, n.next)
	if q := n.next; r.low(q) == "quarters" {
		if q++; r.low(q) == "of" {
			q += 2
		}
		s.minutes, ok = wholeMinutes(n.v, 15)
		s.next, ok = q+1, ok && hourWord(r.low(q))
	}
	if ok && r.low(i-1) == "of" && r.low(i-2) == "most" {
		s.doubt = "most of it is not one time"
	}
	if !ok || r.namesThing(s.next) || n.form == article && r.isNumber(i-1) {
		return stretch{}, false
	}
	return s, true
}

func (r *reader) halfFollows(i int) bool {
	m, _ := r.andPart(i)
	return m > 0
}

// decimalComma reads "6,5h" as six hours and a half.
func (r *reader) decimalComma(i int) (stretch, bool) {
	hundredths, ok := r.behindComma(i + 1)
	if !ok || !r.isNumber(i) || len(r.low(i)) > 2 || !hourWord(r.low(i+3)) {
		return stretch{}, false
	}
	m := smallInt(r.low(i))*60 + (hundredths*60+50)/100
	return stretch{minutes: notes.Minutes(m), next: r.pastDot(i + 4)}, m > 0
}

// commaFigure reads "0,5" as a half.
func (r *reader) commaFigure(i int) (v notes.Decimal, next int, ok bool) {
	hundredths, ok := r.behindComma(i + 1)
	if !ok || r.low(i) != "0" {
		return v, i, false
	}
	return notes.Ratio(hundredths, 100), i + 3, hundredths > 0
}

// behindComma reads the decimals, one or two, behind a decimal comma at token i, in hundredths.
func (r *reader) behindComma(i int) (hundredths int, ok bool) {
	if r.low(i) != "," || !r.close(i) || !r.close(i+1) || !r.isNumber(i+1) || len(r.low(i+1)) > 2 {
		return 0, false
	}
	hundredths = smallInt(r.low(i + 1))
	if len(r.low(i+1)) == 1 {
		hundredths *= 10
	}
	return hundredths, true
}

// rateBefore reports whether what stands before token i makes a number of hours no time worked.
func (r *reader) rateBefore(i int) bool {
	switch r.low(i - 1) {
	case "every", "per", "within", "next", "$", "#", "€", "£", "minimum":
		return true
	case "min":
		return !r.isNumber(i - 2) // "min 2 hrs" is a least charge
	}
	return false
}

// unitOfTime reads the unit at token i and what may follow it, v being the number before it.
func (r *reader) unitOfTime(v notes.Decimal, i int) (stretch, bool) {
	if r.low(i) == "+" && r.close(i) {
		i++
	}
	if r.low(i) == "of" {
		i++
	}
	if (r.low(i) == "a" || r.low(i) == "an") && hourWord(r.low(i+1)) && v.Cmp(one) < 0 {
		i++
	}
	if r.low(i) == "-" && r.close(i) {
		i++
	}
	total := false
	if r.low(i) == "man" || r.low(i) == "person" || r.low(i) == "labor" {
		total = true
		i++
		if r.low(i) == "-" {
			i++
		}
	}
	switch low := r.low(i); {
	case minuteWord(low):
		m, ok := wholeMinutes(v, 1)
		return stretch{minutes: m, next: r.pastDot(i + 1), total: total}, ok
	case low == "m" && r.close(i) && r.breakWord(i+1):
		m, ok := wholeMinutes(v, 1)
		return stretch{minutes: m, next: i + 1}, ok
	case low == "manhours" || low == "manhrs":
		m, ok := wholeMinutes(v, 60)
		return stretch{minutes: m, next: i + 1, total: true}, ok
	case low == "h" && (r.low(i+1) == "-" || r.low(i+1) == "/" && r.low(i+2) == "s") && r.close(i+1):
		return stretch{}, false // a conductor, "120.4 H-G 120.3", or a horn strobe, "h/s"
	case hourWord(low):
		s, ok := r.hoursAndPart(v, r.pastDot(i+1))
		s.total = total
		return s, ok
	}
	return stretch{}, false
}

// pastDot passes the point of an abbreviation: "hrs. on site".
func (r *reader) pastDot(i int) int {
	if r.low(i) == "." && r.close(i) && i+1 < len(r.toks) && !r.capital(i+1) {
		return i + 1
	}
	return i
}

// hoursAndPart adds to v hours what follows the unit: "15", "30 min", "and a half".
func (r *reader) hoursAndPart(v notes.Decimal, i int) (stretch, bool) {
	m, ok := wholeMinutes(v, 60)
	s := stretch{minutes: m, next: i}
	if !ok {
		return s, false
	}
	if p, next := r.andPart(i); p > 0 {
		s.minutes, s.next = m+p, next
		return s, true
	}
	j := i
	if r.low(j) == "and" || r.low(j) == "&" || r.low(j) == "," && r.isNumber(j+1) && minuteWord(r.low(j+2)) {
		j++
	}
	n, ok := r.num(j)
	if !ok || n.small < 1 || n.small > 59 || !v.IsWhole() || n.form == article {
		return s, true
	}
	switch next := r.low(n.next); {
	case minuteWord(next):
		s.minutes, s.next = m+notes.Minutes(n.small), r.pastDot(n.next+1)
	case next == "m" && r.close(n.next):
		s.minutes, s.next = m+notes.Minutes(n.small), n.next+1
	case j == i && n.form == spelled && n.small >= 10 && n.small%5 == 0 && r.partStops(n.next): // "an hour twenty"
		s.minutes, s.next = m+notes.Minutes(n.small), n.next
	case j == i && n.form == digits && len(r.low(j)) == 2 && (r.partStops(n.next) || r.close(j) && !r.close(n.next)):
		s.minutes, s.next = m+notes.Minutes(n.small), n.next
	}
	return s, true
}

// partStops reports whether bare minutes may end before token i: "2 hr 30, Ines" but not
// "2 hr 30 amp".
func (r *reader) partStops(i int) bool {
	if i >= len(r.toks) {
		return true
	}
	switch t := &r.toks[i]; {
	case t.kind == number:
		return false
	case t.kind == word:
		return t.spaced && !r.breakWord(i) && (r.capital(i) || joining(t.low) || afterAmount(t.low))
	default:
		return t.low == "," || t.low == ";" || t.low == "." || t.low == ")" || t.low == "-" && t.spaced
	}
}

// afterAmount reports whether a small word may follow an amount of time.
func afterAmount(low string) bool {
	switch low {
	case "for", "on", "to", "at", "total", "each", "then", "but", "travel", "travelling", "traveling", "drive", "driving":
		return true
	}
	return false
}

// andPart returns the minutes of "and a half", "and half" or "& a quarter" at token i, or 0, and the token
// behind it. "And half a box" is no time.
func (r *reader) andPart(i int) (notes.Minutes, int) {
	if low := r.low(i); low != "and" && low != "&" && low != "n" {
		return 0, i
	}
	j := i + 1
	if r.low(j) == "a" {
		j++
	} else if r.low(j+1) == "a" || r.low(j+1) == "an" || r.low(j+1) == "of" || r.low(j+1) == "the" || hourWord(r.low(j+1)) {
		return 0, i
	}
	switch r.low(j) {
	case "half":
		return 30, j + 1
	case "quarter":
		return 15, j + 1
	}
	return 0, i
}

// wholeMinutes returns v units as minutes, rounded half away from zero.
func wholeMinutes(v notes.Decimal, perUnit int) (notes.Minutes, bool) {
	if v.Cmp(notes.Int(longestStretch)) > 0 {
		return 0, false
	}
	n, ok := v.Mul(notes.Int(perUnit)).Round(0).Int()
	return notes.Minutes(n), ok && n > 0 && n <= longestStretch
}

// clockDigitsColon reads "1:15 hrs", and "1:15" when it is the whole text.
func (r *reader) clockDigitsColon(i int) (stretch, bool) {
	if !r.isNumber(i) || r.low(i+1) != ":" || !r.close(i+1) {
		return stretch{}, false
	}
	c, ok := r.clockDigits(i)
	if !ok || !c.clear || c.hour > 16 {
		return stretch{}, false
	}
	s := stretch{minutes: notes.Minutes(c.hour*60 + c.minute), next: c.next}
	switch {
	case hourWord(r.low(c.next)):
		s.next = r.pastDot(c.next + 1)
	case !r.wholeText(i, c.next) && !(i <= 3 && r.afterHoursLabel(i) && c.next >= len(r.toks)) || c.hour > 4:
		return stretch{}, false
	}
	return s, s.minutes > 0
}

// wholeText reports whether tokens from to next are all the text but closing marks.
func (r *reader) wholeText(from, next int) bool {
	return from == 0 && (next == len(r.toks) || next == len(r.toks)-1 && r.low(next) == ".")
}

// rangeOfHours reads "2-3 hrs" and "3 or 4 hrs": a guess of two, which is no one time.
func (r *reader) rangeOfHours(i int) (stretch, bool) {
	if !r.isNumber(i) || len(r.low(i)) > 2 {
		return stretch{}, false
	}
	j := i + 2
	switch r.low(i + 1) {
	case "-", "–", "to", "or":
	default:
		return stretch{}, false
	}
	hours := hourWord(r.low(j + 1))
	if !r.isNumber(j) || len(r.low(j)) > 2 || !hours && !minuteWord(r.low(j+1)) {
		return stretch{}, false
	}
	a, b := smallInt(r.low(i)), smallInt(r.low(j))
	if a < 1 || b <= a || hours && b-a > 3 || r.namesThing(j+2) {
		return stretch{}, false
	}
	s := stretch{minutes: notes.Minutes(a), next: r.pastDot(j + 2)}
	unit := " minutes"
	if hours {
		s.minutes, unit = s.minutes*60, " hours"
	}
	s.doubt = r.low(i) + " to " + r.low(j) + unit + " is not one time"
	return s, true
}

// namesThing reports whether the word at token i makes a duration part of a thing's name or of a
// span that nobody worked.
func (r *reader) namesThing(i int) bool {
	if r.low(i) == "-" && r.close(i) {
		i++
	}
	switch r.low(i) {
	case "timer", "timers", "rated", "rating", "fire", "wall", "clock", "timeclock", "battery",
		"photocell", "discharge", "door", "backup", "old", "ago", "notice", "firestop", "capacity",
		"runtime", "delay", "late", "early", "behind", "past":
		return true
	case "mins":
		return hourWord(r.low(i-1)) && !r.isNumber(i+1)
	case "minimum":
		return true
	case "min":
		return r.low(i+1) == "charge" || r.low(i+1) == "call" || hourWord(r.low(i-1)) && i+1 >= len(r.toks)
	case "time":
		return r.low(i+1) == "clock" || r.low(i+1) == "switch" || r.low(i+1) == "delay"
	case "of":
		return r.low(i+1) == "battery" || r.low(i+1) == "runtime"
	}
	return false
}

// breakWord reports whether token i is a word for the unpaid pause.
func (r *reader) breakWord(i int) bool {
	switch r.low(i) {
	case "lunch", "lunches", "break", "pause", "dinner", "unpaid", "lnch", "lch", "meal", "supper":
		return true
	case "eat", "food", "sandwiches", "sandwich", "eating", "chow", "dîner", "tiffin", "tea":
		return true // only ever asked beside an amount of time
	case "l":
		return r.close(i) && r.isNumber(i-1) || minuteWord(r.low(i-1)) && r.endsClause(i+1)
	case "ln":
		return r.low(i+1) != "ft" && r.low(i+1) != "feet"
	}
	return false
}
