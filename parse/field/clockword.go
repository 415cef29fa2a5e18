package field

// clockWords reads a time of day told in words at token i: "seven", "seven thirty", "quarter past
// seven", "half past 6", "quarter to eight". It is clear, as a colon makes it, when minutes are told.
func (r *reader) clockWords(i int) (clockTime, bool) {
	if m := partOfHour(r.low(i)); m > 0 {
		return r.partBeside(i, m)
	}
	c := clockTime{hour: r.hourWord(i), next: i + 1}
	if c.hour == 0 {
		return c, false
	}
	if m, n := r.minuteWords(i + 1); n > 0 {
		c.minute, c.next, c.clear = m, i+1+n, true
	}
	return r.clockHalf(c), true
}

// partOfHour returns the minutes of the words that stand before "past" and "to".
func partOfHour(low string) int {
	switch low {
	case "quarter":
		return 15
	case "half":
		return 30
	}
	return 0
}

// partBeside reads "quarter past seven", "quarter to 8", "half past six" at token i.
func (r *reader) partBeside(i, minutes int) (clockTime, bool) {
	before := false
	switch low := r.low(i + 1); low {
	case "past", "after":
	case "to", "till", "til", "of", "before":
		before = minutes == 15
		if !before {
			return clockTime{}, false
		}
	default:
		if c := (clockTime{hour: r.hourWord(i + 1), minute: minutes, clear: true, next: i + 2}); minutes == 30 && c.hour > 0 && r.halfHourOf(i, c.next) {
			return r.clockHalf(c), true
		}
		return clockTime{}, false
	}
	c := clockTime{hour: r.hourWord(i + 2), minute: minutes, clear: true, next: i + 3}
	if r.isNumber(i+2) && len(r.low(i+2)) <= 2 && !r.close(i+3) {
		c.hour = smallInt(r.low(i + 2))
	}
	if c.hour < 1 || c.hour > 12 {
		return c, false
	}
	if before {
		c.minute = 60 - minutes
		if c.hour--; c.hour == 0 {
			c.hour = 12
		}
	}
	return r.clockHalf(c), true
}

// halfHourOf reports whether "half six" at token i, which ends at token next, is half past six, as the British
// say it: one end of a span or behind a word that a time of day follows.
func (r *reader) halfHourOf(i, next int) bool {
	if j, _ := r.rangeSign(next); j > 0 && next+1 < len(r.toks) {
		return r.isNumber(j) || r.hourWord(j) > 0 || partOfHour(r.low(j)) > 0 || r.low(j) == "noon"
	}
	switch r.low(i - 1) {
	case "-", "–", "to", "till", "til", "until", "at", "by", "from", "left", "off":
		return true
	}
	return false
}

// hourWord returns the hour that the word at token i is, 1 to 12, or 0.
func (r *reader) hourWord(i int) int {
	low := r.low(i)
	if len(low) < 3 || len(low) > 6 {
		return 0
	}
	if h := unitWord(low); h >= 1 && h <= 12 {
		return h
	}
	return 0
}

// minuteWords reads the minutes that follow an hour in words and how many tokens they take:
// "thirty", "forty five", "fifteen", "oh five", "o'clock" is none of them.
func (r *reader) minuteWords(i int) (minutes, n int) {
	low := r.low(i)
	if low == "oh" || low == "o" {
		if u := unitWord(r.low(i + 1)); u > 0 && u < 10 {
			return u, 2
		}
		return 0, 0
	}
	if u := unitWord(low); u >= 10 {
		return u, 1
	}
	t := tensWord(low)
	if t <= 0 || t > 50 {
		return 0, 0
	}
	j := i + 1
	if r.low(j) == "-" && r.close(j) {
		j++
	}
	if u := unitWord(r.low(j)); u > 0 && u < 10 {
		return t + u, j + 1 - i
	}
	return t, 1
}
