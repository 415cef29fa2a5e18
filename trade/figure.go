package trade

import (
	"strings"
	"unicode/utf8"

	"jobday/notes"
)

// A figure is a number in a text with the word or mark behind it.
type figure struct {
	notes.Piece               // of the number
	value       notes.Decimal // "1-1/2" is 1.5
	text        string        // as written: "1-1/2", "4/0", "12"
	unit        string        // the letters, "%" or "'" right behind it or after one blank, in lower case; or ""
	before      string        // the word before it in lower case, or "#"
	after       string        // the word behind the unit in lower case
}

// mostFigures bounds the work on one text.
const mostFigures = 60

// figures returns the numbers of a text in the order written.
func figures(text string) []figure {
	var list []figure
	word := ""
	for i := 0; i < len(text) && len(list) < mostFigures; {
		switch {
		case isDigit(text[i]) || text[i] == '.' && i+1 < len(text) && isDigit(text[i+1]):
			f := figureAt(text, i)
			f.before = word
			if i > 0 && text[i-1] == '#' {
				f.before = "#"
			}
			list = append(list, f)
			i, word = f.End, ""
			continue
		case isLetter(text[i]):
			end := i
			for end < len(text) && isLetter(text[end]) {
				end++
			}
			word = strings.ToLower(text[i:end])
			i = end
			continue
		}
		_, n := utf8.DecodeRuneInString(text[i:])
		i += n
	}
	return list
}

func isDigit(c byte) bool  { return '0' <= c && c <= '9' }
func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// figureAt reads the number at i: digits with a point, and a fraction behind them.
func figureAt(text string, i int) figure {
	end := digitsEnd(text, i)
	value, err := notes.ParseDecimal(text[i:end])
	if err != nil {
		value = notes.Decimal{}
	}
	switch {
	case end < len(text) && text[end] == '/' && end+1 < len(text) && isDigit(text[end+1]):
		den := digitsEnd(text, end+1)
		value = quotient(value, text[end+1:den])
		end = den
	case end < len(text) && (text[end] == '-' || text[end] == ' '):
		if num := digitsEnd(text, end+1); num > end+1 && num-end < 4 && num < len(text) && text[num] == '/' && num+1 < len(text) && isDigit(text[num+1]) {
			den := digitsEnd(text, num+1)
			if top, err := notes.ParseDecimal(text[end+1 : num]); err == nil && inch(text[end+1:den]) {
				value, end = value.Add(quotient(top, text[num+1:den])), den
			}
		}
	}
	f := figure{Piece: notes.Piece{Start: i, End: end}, value: value, text: text[i:end]}
	f.unit, f.after = unitBehind(text, end)
	return f
}

// inch reports whether a fraction is one of an inch: "1/2" and "11/16", not "14/2", "4/0" or "120/240".
func inch(fraction string) bool {
	top, den, _ := strings.Cut(fraction, "/")
	switch den {
	case "2", "4", "8", "16", "32":
		return len(top) < len(den) || len(top) == len(den) && top < den
	}
	return false
}

func digitsEnd(text string, i int) int {
	for i < len(text) && (isDigit(text[i]) || text[i] == '.' && i+1 < len(text) && isDigit(text[i+1])) {
		i++
	}
	return i
}

// quotient divides by a denominator as written; by "0" or nonsense it stays as it is.
func quotient(top notes.Decimal, den string) notes.Decimal {
	d, err := notes.ParseDecimal(den)
	if err != nil || d.Sign() <= 0 {
		return top
	}
	return top.Quo(d, 6)
}

// unitBehind returns the unit behind a number and the word behind that.
func unitBehind(text string, i int) (unit, after string) {
	if i < len(text) && (text[i] == ' ' || text[i] == '-') {
		i++
	}
	end := wordEnd(text, i)
	unit = strings.ToLower(text[i:end])
	for end < len(text) && (text[end] == ' ' || text[end] == '-') {
		end++
	}
	return unit, strings.ToLower(text[end:wordEnd(text, end)])
}

func wordEnd(text string, i int) int {
	if i < len(text) && strings.IndexByte("%'\"", text[i]) >= 0 {
		return i + 1
	}
	for i < len(text) && isLetter(text[i]) {
		i++
	}
	return i
}
