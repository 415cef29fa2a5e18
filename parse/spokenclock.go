package parse

// senseSpoken sees clock times told in words from mark i on: "seven to three", "quarter past seven
// till four". Words alone are as often counts, so that only whoever worked before them makes them sure.
func (sc *scanner) senseSpoken(i int) {
	j := sc.spokenClock(i)
	if j == 0 {
		return
	}
	switch sc.at(j).low {
	case "to", "till", "til", "until", "-", "–":
	default:
		return
	}
	if n := sc.at(j + 1); n.kind != numberMark && n.low != "noon" && n.low != "midnight" && sc.spokenClock(j+1) == 0 {
		return
	}
	sc.marks[i].sign |= looseSpan
	if sc.workerBefore(i) {
		sc.marks[i].sign |= clockSpan
	}
}

// spokenClock returns the mark behind a time of day told in words at mark i, or 0.
func (sc *scanner) spokenClock(i int) int {
	m := sc.at(i)
	if m.low == "quarter" || m.low == "half" {
		switch sc.at(i + 1).low {
		case "past", "after", "to", "till":
			if n := sc.at(i + 2); hourNames[n.low] || n.kind == numberMark {
				return i + 3
			}
		}
		return 0
	}
	if m.kind != wordMark || !hourNames[m.low] {
		return 0
	}
	if minuteNames[sc.at(i+1).low] {
		return i + 2
	}
	return i + 1
}

var (
	hourNames   = wordSet("one two three four five six seven eight nine ten eleven twelve")
	minuteNames = wordSet("fifteen thirty forty-five fortyfive o'clock oclock twenty forty fifty")
)

// workerBefore reports whether somebody of the crew stands before mark i with nothing but small words
// between, and marks them as named: "I worked", "Ana on site from", "we were here".
func (sc *scanner) workerBefore(i int) bool {
	for n := 0; n < 4 && i > 0; n++ {
		i--
		m := &sc.marks[i]
		switch m.low {
		case "worked", "was", "were", "here", "there", "on", "site", "onsite", "from", "at", "in", "both", "all", ":", "-", ",":
			continue
		case "i", "me", "we", "us", "myself":
			m.sign |= named
			return true
		}
		if m.kind == wordMark && sc.lex.Name(m.low) != "" {
			m.sign |= named
		}
		return m.sign.has(named)
	}
	return false
}
