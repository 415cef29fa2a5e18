package parse

import "strings"

// senseSpan sees clock times from number i on: "7-3:30", "8am-noon", "0730–1600", "8 to 4".
func (sc *scanner) senseSpan(i int) {
	if prev := sc.at(i - 1); i > 0 && !sc.marks[i].spaced && strings.Contains("/:-.#$", prev.low) {
		return
	}
	j, sure := sc.clock(i)
	if j == 0 {
		return
	}
	switch sc.at(j).low {
	case "-", "–", "—", "to", "til", "till", "until":
	default:
		return
	}
	if n := sc.at(j + 1); n.low == "noon" || n.low == "midnight" {
		sc.marks[i].sign |= clockSpan
		return
	}
	k, alsoSure := sc.clock(j + 1)
	if k == 0 {
		if sc.spokenClock(j+1) > 0 && sc.workerBefore(i) {
			sc.marks[i].sign |= clockSpan // "Ines 7 till half past 3"
		}
		return
	}
	switch after := sc.at(k); {
	case after.low == "/" && !after.spaced, after.low == `"`, after.low == "-" && !after.spaced:
		return
	case sure || alsoSure:
		sc.marks[i].sign |= clockSpan
	default:
		switch after.low {
		case "ft", "feet", "'", "in", "v", "a", "amp", "ohms", "%":
			return
		}
		sc.marks[i].sign |= looseSpan
	}
}

// insideSpan reports whether the dash at mark i stands between the two times of a span: "7 - 3:30".
func insideSpan(marks []mark, i int) bool {
	for s := i - 1; s >= 0 && s >= i-4; s-- {
		m := &marks[s]
		if m.sign.has(clockSpan|looseSpan) && m.kind == numberMark {
			return i+1 < len(marks) && (marks[i+1].kind == numberMark || marks[i+1].low == "noon")
		}
		switch {
		case m.kind == numberMark, m.low == ":", m.low == "am", m.low == "pm", m.low == "a", m.low == "p":
		default:
			return false
		}
	}
	return false
}

// clock reads a clock time at mark i and returns the mark behind it, 0 for none. It is sure with
// minutes, four digits, or am and pm.
func (sc *scanner) clock(i int) (next int, sure bool) {
	m := sc.at(i)
	if m.kind != numberMark || len(m.low) > 4 {
		return 0, false
	}
	hour := 0
	for _, d := range []byte(m.low) {
		hour = hour*10 + int(d-'0')
	}
	next = i + 1
	switch {
	case len(m.low) > 2:
		if hour%100 >= 60 || hour/100 > 24 {
			return 0, false
		}
		sure = len(m.low) == 4
	case hour > 24:
		return 0, false
	case sc.at(next).low == ":" && len(sc.at(next+1).low) == 2 && sc.at(next+1).kind == numberMark:
		next, sure = next+2, true
	}
	switch sc.at(next).low {
	case "am", "pm", "a", "p":
		return next + 1, true
	}
	return next, sure
}
