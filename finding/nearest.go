package finding

import "strings"

// Nearest returns the one of known a person most likely meant by word, or "" when none is clearly
// nearest: it must be within a third of the word's letters (at least one slip), and nearer than
// every other.
func Nearest(word string, known []string) string {
	const longest = 40 // a longer word is no slip, and the distance is quadratic
	word = strings.ToLower(word)
	if len(word) > longest {
		return ""
	}
	best, bestAt, tie := "", max(1, len(word)/3)+1, false
	for _, k := range known {
		if len(k) > longest || k == best {
			continue
		}
		switch d := Slips(word, strings.ToLower(k)); {
		case d < bestAt:
			best, bestAt, tie = k, d, false
		case d == bestAt && best != "":
			tie = true
		}
	}
	if tie {
		return ""
	}
	return best
}

// Slips counts the single-letter slips between a and b: a letter missing, added, wrong, or two
// neighbours swapped (optimal string alignment distance).
func Slips(a, b string) int {
	ra, rb := []rune(a), []rune(b)
	prev2 := make([]int, len(rb)+1)
	prev := make([]int, len(rb)+1)
	cur := make([]int, len(rb)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(ra); i++ {
		cur[0] = i
		for j := 1; j <= len(rb); j++ {
			cost := 1
			if ra[i-1] == rb[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && ra[i-1] == rb[j-2] && ra[i-2] == rb[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(rb)]
}
