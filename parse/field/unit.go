package field

import (
	"strconv"

	"jobday/notes"
	"jobday/trade"
)

// isAught reports whether a size may be written n/0.
func isAught(s string) bool { return len(s) == 1 && s[0] >= '1' && s[0] <= '4' }

// isGauge reports whether digits name an American wire gauge that is drawn for building wire.
func isGauge(s string) bool {
	switch s {
	case "18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1":
		return true
	}
	return false
}

func gaugeName(s string) string {
	switch s {
	case "14":
		return "14 AWG"
	case "12":
		return "12 AWG"
	case "10":
		return "10 AWG"
	case "8":
		return "8 AWG"
	case "6":
		return "6 AWG"
	}
	return s + " AWG"
}

// isAmps reports whether n is a usual ampere rating of a breaker, fuse or device.
// Common practice, no source.
func isAmps(n int) bool {
	switch n {
	case 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250,
		300, 350, 400, 500, 600, 800, 1000, 1200, 1600, 2000:
		return true
	}
	return false
}

func ampsName(n int) string {
	switch n {
	case 15:
		return "15A"
	case 20:
		return "20A"
	case 30:
		return "30A"
	case 60:
		return "60A"
	}
	return strconv.Itoa(n) + "A"
}

func polesName(n int) string {
	switch n {
	case 1:
		return "1P"
	case 2:
		return "2P"
	case 3:
		return "3P"
	}
	return strconv.Itoa(n) + "P"
}

// isTradeSize reports whether a mixed number is a size raceways come in.
// Common practice, no source.
func isTradeSize(s string) bool {
	switch s {
	case "3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4", "5", "6":
		return true
	}
	return false
}

// sizeText writes a number as a size: "3/4", "4-11/16", "4". Sixty-fourths are exact in twelve
// decimals, so the fraction is found again; any other decimal stays one.
func sizeText(v notes.Decimal) string {
	whole := v.Floor()
	rest := v.Sub(whole)
	if rest.IsZero() {
		return v.String()
	}
	n64 := rest.Mul(notes.Int(64))
	if !n64.IsWhole() {
		return v.String()
	}
	a, _ := n64.Int()
	b := 64
	for a%2 == 0 {
		a, b = a/2, b/2
	}
	f := strconv.Itoa(a) + "/" + strconv.Itoa(b)
	if whole.IsZero() {
		return f
	}
	return whole.String() + "-" + f
}

// feetMark reports whether a symbol stands for feet after a number.
func feetMark(s string) bool { return s == "'" || s == "′" || s == "’" || s == "‘" }

// inchMark reports whether a symbol stands for inches after a number.
func inchMark(s string) bool { return s == `"` || s == "″" || s == "”" || s == "“" }

// inchesAt returns the token after an inch mark or word at i, or 0.
func (s *scanner) inchesAt(i int) int {
	if i >= len(s.toks) {
		return 0
	}
	t := s.toks[i]
	switch {
	case inchMark(t.low) && !t.spaced:
		return i + 1
	case feetMark(t.low) && !t.spaced && i+1 < len(s.toks) && feetMark(s.low(i+1)) && !s.toks[i+1].spaced:
		return i + 2
	case t.low == "inch" || t.low == "inches" || t.low == "ins":
		return skipDot(s.toks, i+1)
	case t.low == "in" && !t.spaced:
		return skipDot(s.toks, i+1)
	}
	return 0
}

// unitAt returns the unit at token i, "" for none, and the token after it. A foot mark must stand
// right after its number.
func (s *scanner) unitAt(i int) (string, int) {
	if i >= len(s.toks) {
		return "", i
	}
	t := s.toks[i]
	if t.kind == symbol {
		if feetMark(t.low) && !t.spaced {
			return "ft", i + 1
		}
		return "", i
	}
	if t.kind != word {
		return "", i
	}
	switch t.low {
	case "linear", "lineal", "lin":
		if u, next := s.unitAt(i + 1); u == "ft" {
			return u, next
		}
		return "", i
	}
	switch t.low {
	case "no":
		if tight(s.toks, i+1, ".") && i+2 < len(s.toks) {
			return "ea", i + 2
		}
	case "lb", "lbs":
		if !s.pounds(i) {
			return "", i
		}
		return "lb", skipDot(s.toks, i+1)
	case "mtr", "mtrs":
		if !s.lengthNext(i + 1) {
			return "", i
		}
		return "m", skipDot(s.toks, i+1)
	case "meter", "meters":
		if !s.lengthNext(i + 1) {
			return "", i // an electric meter
		}
		return "m", i + 1
	}
	w := s.wordAt1(i)
	if w == nil || w.Class != trade.UnitWord || w.Text == "stick" {
		return "", i
	}
	return w.Dim, skipDot(s.toks, i+1)
}

// pounds tells a weight from the conduit body of the same letters, which is written in capitals
// or has a trade size before it.
func (s *scanner) pounds(i int) bool {
	if s.text[s.toks[i].start] == 'L' {
		return false
	}
	if i > 2 && s.low(i-2) == "/" {
		w := s.wordAhead(i+1, 3)
		return w != nil && w.Class != trade.GenericWord
	}
	return i == 0 || !inchMark(s.low(i-1))
}

// lengthNext reports whether what stands at token i is sold by length.
func (s *scanner) lengthNext(i int) bool {
	if s.low(i) == "of" {
		i++
	}
	if i >= len(s.toks) {
		return false
	}
	if s.toks[i].kind == number || s.low(i) == "#" {
		return true
	}
	w := s.wordAt1(i)
	return w != nil && (w.Class == trade.MaterialWord || w.Class == trade.GenericWord)
}

// notCounted reports whether a word after a number says it is time, a reading or the like.
func notCounted(s string) bool {
	switch s {
	case "h", "hr", "hrs", "hour", "hours", "min", "mins", "minute", "minutes", "am", "pm", "o'clock",
		"day", "days", "week", "weeks", "ma", "ms", "ohm", "ohms", "hz", "psi", "meg", "megs", "mohm",
		"megohm", "megohms", "fc", "sec", "secs", "seconds", "percent", "dollars", "bucks", "usd", "sqft":
		return true
	}
	return false
}
