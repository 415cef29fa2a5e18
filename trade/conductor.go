package trade

import (
	"strconv"
	"strings"
)

// smallConductors is the largest breaker for small copper conductors, in amperes by AWG size.
// NEC 240.4(D), from memory; aluminum is smaller and is not judged.
var smallConductors = map[string]int{"14": 15, "12": 20, "10": 30}

// CheckCircuit holds a breaker ("30A 2P") against the copper conductor it protects ("10 AWG",
// "10/2 MC") by NEC 240.4(D). It returns what to look at and true when the breaker is larger than
// the rule allows in general. It says nothing when a size is not written, when the size is beyond
// the rule's (8 AWG and larger go by ampacity), or when the conductor is aluminum.
// Motors, air conditioners, welders and taps have rules of their own: it is a pointer to look, no verdict.
func CheckCircuit(breaker, conductor string) (finding string, wrong bool) {
	amps, ok := breakerAmps(breaker)
	if !ok {
		return "", false
	}
	size, ok := copperSize(conductor)
	if !ok {
		return "", false
	}
	limit := smallConductors[size]
	if amps <= limit {
		return "", false
	}
	return strconv.Itoa(amps) + " A breaker on " + size + " AWG: " + strconv.Itoa(limit) +
		" A is the most for " + size + " AWG copper (NEC 240.4(D), from memory) unless the load has a rule of its own; look before it is used", true
}

// breakerAmps reads the rating of a breaker: the number before an "A", or the only number.
func breakerAmps(s string) (int, bool) {
	list := jots(s)
	for i, j := range list {
		n, err := strconv.Atoi(j.stem)
		if err != nil || n < 1 || n > 6000 {
			continue
		}
		if len(list) == 1 || i+1 < len(list) && (list[i+1].stem == "a" || list[i+1].stem == "amp") {
			return n, true
		}
	}
	return 0, false
}

// copperSize reads the AWG size of a small copper conductor: "10 AWG", "#12", "12/2 MC", "14".
func copperSize(s string) (string, bool) {
	list := jots(s)
	for _, j := range list {
		if j.stem == "al" || strings.HasPrefix(j.stem, "alum") {
			return "", false
		}
	}
	for i, j := range list {
		if _, small := smallConductors[j.stem]; !small {
			continue
		}
		after := ""
		if i+1 < len(list) {
			after = list[i+1].stem
		}
		cableOf := i+1 < len(list) && j.end < len(s) && (s[j.end] == '/' || s[j.end] == '-') && list[i+1].start == j.end+1
		switch {
		case len(list) == 1, after == "awg", after == "ga", after == "gaug", after == "cu", after == "thhn", after == "thwn",
			i > 0 && list[i-1].stem == "#", cableOf && i == 0:
			return j.stem, true
		}
	}
	return "", false
}
