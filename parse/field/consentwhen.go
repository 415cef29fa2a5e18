package field

import "jobday/notes"

// when finds the time of day or the date beside the phrase.
func (v *verdict) when() {
	r := v.r
	for _, c := range r.lone {
		switch r.low(c.at - 1) {
		case "for", "by", "until", "till", "before", "after":
			continue // "ok'd the shutdown for 6 am"
		}
		v.c.At = clockOfDay(c.clockTime).String()
	}
	for i := 0; v.c.At == "" && i+1 < len(r.toks); i++ {
		if (r.low(i) == "at" || r.low(i) == "@") && r.isNumber(i+1) && i >= r.firstWord(v.c.Start) {
			if c, ok := r.clockAt(i + 1); ok && !c.packed && r.clockStops(c.next) && (c.next >= len(r.toks) || !r.isWord(c.next)) {
				v.c.At = clockOfDay(c).String()
				r.claimTokens(i+1, c.next)
			}
		}
	}
	for i := 0; v.c.At == "" && i+1 < len(r.toks); i++ {
		if r.low(i) == "at" && r.low(i+1) == "noon" {
			v.c.At = notes.Clock(halfDay).String()
		}
	}
	if date, from, to := r.dateNear(); date != "" {
		r.claimTokens(from, to)
		if v.c.At != "" {
			date += "T" + v.c.At
		}
		v.c.At = date
	}
}

// firstWord returns the token at the byte offset or after it.
func (r *reader) firstWord(offset int) int {
	for i := range r.toks {
		if r.toks[i].start >= offset {
			return i
		}
	}
	return len(r.toks)
}

// clockOfDay decides a time of day alone by the working day: 5 to 11 is in the morning.
func clockOfDay(c clockTime) notes.Clock {
	m := c.minutes()
	if !c.fixed() && m < 5*60 {
		m += halfDay
	}
	return notes.Clock(m % wholeDay)
}

// dateNear finds an ISO date, or month/day/year. A date without a year is not guessed.
func (r *reader) dateNear() (date string, from, to int) {
	for i := 0; i+4 < len(r.toks); i++ {
		a, b, c := r.low(i), r.low(i+2), r.low(i+4)
		s := r.low(i + 1)
		if !r.isNumber(i) || !r.isNumber(i+2) || !r.isNumber(i+4) || s != r.low(i+3) ||
			!r.close(i+1) || !r.close(i+2) || !r.close(i+3) || !r.close(i+4) || r.close(i) {
			continue
		}
		var iso string
		switch {
		case s == "-" && len(a) == 4 && len(b) == 2 && len(c) == 2:
			iso = a + "-" + b + "-" + c
		case s == "/" && len(a) <= 2 && len(b) <= 2 && len(c) == 4:
			iso = c + "-" + twoDigits(a) + "-" + twoDigits(b)
		case s == "/" && len(a) <= 2 && len(b) <= 2 && len(c) == 2:
			iso = "20" + c + "-" + twoDigits(a) + "-" + twoDigits(b)
		default:
			continue
		}
		if d, err := notes.ParseDate(iso); err == nil {
			return d.String(), i, i + 5
		}
	}
	return "", 0, 0
}

func twoDigits(s string) string {
	if len(s) == 1 {
		return "0" + s
	}
	return s
}
