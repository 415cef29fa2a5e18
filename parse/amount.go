package parse

import (
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"jobday/finding"
	"jobday/notes"
)

// largestAmount is far above any price of a job; a larger figure is a slip of the keyboard.
var largestAmount = notes.MustMoney("99999999.99")

// parseAmount reads an amount as a price column writes it: "640", "640.00", "1,250.00".
// It takes no currency sign and no sign. The error says what was read and what was expected.
func parseAmount(s string) (notes.Money, error) {
	switch {
	case s == "":
		return notes.Money{}, errors.New("no amount is written")
	case hasCurrencySign(s):
		return notes.Money{}, errors.New(quote(s) + " has a currency sign; expected the figure alone")
	case strings.HasPrefix(s, "-"):
		return notes.Money{}, errors.New(quote(s) + " is negative; expected an amount of 0.00 or more")
	}
	plain, ok := dropThousands(s)
	if !ok {
		return notes.Money{}, errors.New(quote(s) + " is not an amount; a comma only parts thousands")
	}
	m, err := notes.ParseMoney(plain)
	if err != nil {
		if _, whole := notes.ParseDecimal(plain); whole == nil {
			return notes.Money{}, errors.New(quote(s) + " has more than two decimals; expected an amount")
		}
		return notes.Money{}, errors.New(quote(s) + " is not an amount")
	}
	if m.Cmp(largestAmount) > 0 {
		return notes.Money{}, errors.New(quote(s) + " is larger than any price can be")
	}
	return m, nil
}

// thousands says how an amount with a comma was read: some write a comma where others write a point.
func thousands(text string, m notes.Money, at finding.Span) finding.Finding {
	return finding.Finding{
		Severity: finding.Warning, Rule: "amount/comma", Span: at,
		Message: quote(text) + " is read as " + m.String() + "; the comma is taken to part thousands",
		Hint:    "write " + m.String(),
	}
}

func hasCurrencySign(s string) bool {
	for _, r := range s {
		if strings.ContainsRune("$€£¥¢₹₩₽₿", r) {
			return true
		}
	}
	return false
}

// dropThousands removes commas that part groups of three digits; any other comma is refused.
func dropThousands(s string) (string, bool) {
	if !strings.Contains(s, ",") {
		return s, true
	}
	whole, rest, point := strings.Cut(s, ".")
	groups := strings.Split(whole, ",")
	for i, g := range groups {
		if !allDigits(g) || i > 0 && len(g) != 3 || i == 0 && len(g) > 3 {
			return "", false
		}
	}
	if whole = strings.Join(groups, ""); point {
		whole += "." + rest
	}
	return whole, true
}

func allDigits(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// fold puts a text on one line: each run of white space becomes one blank, none at the ends.
// Broken bytes become the replacement character.
func fold(s string) string {
	if isFolded(s) {
		return s
	}
	return strings.ToValidUTF8(strings.Join(strings.Fields(s), " "), "\uFFFD")
}

// isFolded reports whether a text is already on one line with single blanks.
func isFolded(s string) bool {
	for i := 0; i < len(s); {
		c := s[i]
		if c >= utf8.RuneSelf {
			r, n := utf8.DecodeRuneInString(s[i:])
			if r == utf8.RuneError || unicode.IsSpace(r) {
				return false
			}
			i += n
			continue
		}
		if c < ' ' || c == ' ' && (i == 0 || i+1 == len(s) || s[i+1] == ' ') {
			return false
		}
		i++
	}
	return true
}

// tidy keeps a text's lines and takes off what is blank around them; broken bytes become the
// replacement character.
func tidy(s string) string {
	s = strings.ReplaceAll(strings.TrimSpace(s), "\r\n", "\n")
	return strings.ToValidUTF8(s, "\uFFFD")
}
