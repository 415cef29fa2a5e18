package field

import "jobday/notes"

// unitWord and tensWord are the number words to ninety.
func unitWord(s string) int {
	switch s {
	case "zero":
		return 0
	case "one":
		return 1
	case "two":
		return 2
	case "three":
		return 3
	case "four":
		return 4
	case "five":
		return 5
	case "six":
		return 6
	case "seven":
		return 7
	case "eight":
		return 8
	case "nine":
		return 9
	case "ten":
		return 10
	case "eleven":
		return 11
	case "twelve":
		return 12
	case "thirteen":
		return 13
	case "fourteen":
		return 14
	case "fifteen":
		return 15
	case "sixteen":
		return 16
	case "seventeen":
		return 17
	case "eighteen":
		return 18
	case "nineteen":
		return 19
	}
	return -1
}

func tensWord(s string) int {
	switch s {
	case "twenty":
		return 20
	case "thirty":
		return 30
	case "forty", "fourty":
		return 40
	case "fifty":
		return 50
	case "sixty":
		return 60
	case "seventy":
		return 70
	case "eighty":
		return 80
	case "ninety":
		return 90
	}
	return -1
}

// fractionWord returns the value of "half", "quarter", "third" as numerator and denominator.
func fractionWord(s string) (int, int) {
	switch s {
	case "half":
		return 1, 2
	case "quarter":
		return 1, 4
	case "third":
		return 1, 3
	}
	return 0, 0
}

// dozen reports whether s is a word for twelve.
func dozen(s string) bool { return s == "dozen" || s == "doz" || s == "dz" || s == "dozens" }

func spelledNum(n, next int) num {
	return num{v: notes.Int(n), small: n, next: next, form: spelled}
}

// readSpelled reads a number written in words.
func readSpelled(toks []token, i int) (num, bool) {
	t := toks[i].low
	if len(t) > 9 {
		return num{}, false
	}
	switch {
	case t == "a" || t == "an":
		return readArticle(toks, i), true
	case dozen(t):
		return spelledNum(12, skipDot(toks, i+1)), true
	case t == "couple":
		n := spelledNum(2, i+1)
		n.about = true
		return n, true
	}
	if n, ok := fractionWords(toks, i); ok {
		return n, true
	}
	n, ok := hundreds(toks, i)
	if !ok {
		return num{}, false
	}
	return withParts(toks, n), true
}

// readArticle reads what "a" begins: "a dozen", "a hundred", "a couple", "a half", or one thing.
func readArticle(toks []token, i int) num {
	if i+1 < len(toks) {
		switch t := toks[i+1].low; {
		case hundred(t), t == "thousand", dozen(t), t == "couple", t == "half", t == "quarter", t == "third":
			if n, ok := readSpelled(toks, i+1); ok {
				return n
			}
		}
	}
	n := spelledNum(1, i+1)
	n.form = article
	return n
}

// fractionWords reads "half", "half a", "half a dozen", "quarter of a".
func fractionWords(toks []token, i int) (num, bool) {
	a, b := fractionWord(toks[i].low)
	if b == 0 {
		return num{}, false
	}
	n := num{v: notes.Ratio(a, b), small: -1, next: i + 1, form: spelled}
	j := i + 1
	if b == 3 && !wordAt(toks, j, "of") && !wordAt(toks, j, "a") {
		return num{}, false // "the third"
	}
	if wordAt(toks, j, "of") {
		j++
	}
	if wordAt(toks, j, "a") || wordAt(toks, j, "an") {
		n.next = j + 1
		j++
	}
	if j < len(toks) && dozen(toks[j].low) {
		n = num{v: n.v.Mul(notes.Int(12)).Round(6), small: 12 * a / b, next: skipDot(toks, j+1), form: spelled}
	}
	return n, true
}

// hundred reports whether a word says a hundred, as people spell what they say.
func hundred(low string) bool {
	return low == "hundred" || low == "hunnerd" || low == "hundert" || low == "hunderd"
}

// hundreds reads number words to nine hundred ninety-nine thousand.
func hundreds(toks []token, i int) (num, bool) {
	if wordAt(toks, i, "thousand") {
		return thousands(toks, 1, i), true
	}
	n, ok := belowThousand(toks, i)
	if ok && n.small > 0 && n.small < 1000 && wordAt(toks, n.next, "thousand") {
		return thousands(toks, n.small, n.next), true
	}
	return n, ok
}

// thousands reads "thousand" at token i, so many of them, and what follows: "two thousand five hundred".
func thousands(toks []token, many, i int) num {
	n := spelledNum(many*1000, i+1)
	if n.next < len(toks) {
		if rest, ok := belowThousand(toks, n.next); ok && rest.small > 0 && rest.small < 1000 && hundred(toks[rest.next-1].low) {
			n = spelledNum(n.small+rest.small, rest.next)
		}
	}
	return n
}

// belowThousand reads number words to nine hundred ninety-nine, and "twelve hundred".
func belowThousand(toks []token, i int) (num, bool) {
	n, next := belowHundred(toks, i)
	switch {
	case n < 0 && hundred(toks[i].low):
		n, next = 100, i+1
	case n < 0:
		return num{}, false
	case n > 0 && n < 100 && next < len(toks) && hundred(toks[next].low):
		n, next = n*100, next+1
	default:
		return spelledNum(n, next), true
	}
	j := next
	if wordAt(toks, j, "and") {
		j++
	}
	if rest, end := belowHundred(toks, j); rest > 0 {
		n, next = n+rest, end
	}
	return spelledNum(n, next), true
}

// belowHundred reads "six", "twenty", "twenty-two", "twenty two".
func belowHundred(toks []token, i int) (int, int) {
	if i >= len(toks) {
		return -1, i
	}
	if n := unitWord(toks[i].low); n >= 0 {
		return n, i + 1
	}
	tens := tensWord(toks[i].low)
	if tens < 0 {
		return -1, i
	}
	j := i + 1
	if tight(toks, j, "-") {
		j++
	}
	if j < len(toks) {
		if n := unitWord(toks[j].low); n > 0 && n < 10 {
			return tens + n, j + 1
		}
	}
	return tens, i + 1
}

// withParts reads what may follow a spelled number: "two dozen", "three quarters", "one and a half".
func withParts(toks []token, n num) num {
	i := n.next
	if i >= len(toks) {
		return n
	}
	switch t := toks[i].low; {
	case dozen(t):
		return spelledNum(12*n.small, skipDot(toks, i+1))
	case n.small < 4 && (t == "quarters" || t == "quarter"):
		return num{v: notes.Ratio(n.small, 4), small: -1, next: i + 1, form: spelled}
	case n.small < 3 && (t == "thirds" || t == "third"):
		return num{v: notes.Ratio(n.small, 3), small: -1, next: i + 1, form: spelled}
	case t == "half" && n.small == 1:
		return num{v: half, small: -1, next: i + 1, form: spelled}
	case t == "-" && wordAt(toks, i+1, "half") && n.small == 1:
		return num{v: half, small: -1, next: i + 2, form: spelled}
	case t == "and" || t == "&":
		if f, ok := addedFraction(toks, i); ok {
			f.v, f.small = f.v.Add(n.v), -1
			return f
		}
	}
	return n
}

// wordAt reports whether token i is the word s.
func wordAt(toks []token, i int, s string) bool {
	return i < len(toks) && toks[i].low == s
}

// skipDot passes the point of an abbreviation: "doz."; a point that ends the text stays.
func skipDot(toks []token, i int) int {
	if tight(toks, i, ".") && i+1 < len(toks) {
		return i + 1
	}
	return i
}

// dozens multiplies a number that stands before "dozen": "2 doz", "1/2 dozen".
func dozens(toks []token, n num) num {
	v := n.v.Mul(notes.Int(12)).Round(6)
	small, ok := v.Int()
	if !ok || !v.IsWhole() || small > 999_999 {
		small = -1
	}
	return num{v: v, small: small, next: skipDot(toks, n.next+1), form: spelled}
}
