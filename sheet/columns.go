package sheet

import (
	"strings"

	"github.com/mattn/go-runewidth"
)

// columns measures text the same way on every machine, whatever its locale.
var columns = &runewidth.Condition{StrictEmojiNeutral: true}

// Wrap breaks words into lines of at most width columns, at blanks where there are any.
func Wrap(words string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(words, isBlank) {
		if line != "" && columns.StringWidth(line)+1+columns.StringWidth(word) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for columns.StringWidth(word) > width {
			part := columns.Truncate(word, width, "")
			if part == "" { // one character wider than the column
				break
			}
			lines = append(lines, part)
			word = word[len(part):]
		}
		line = word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// isBlank reports whether a line may end at a character.
func isBlank(r rune) bool { return r == ' ' }

// pad fills words with blanks to so many columns.
func pad(words string, width int, align Align) string {
	room := max(0, width-columns.StringWidth(words))
	switch align {
	case Right:
		return strings.Repeat(" ", room) + words
	case Center:
		return strings.Repeat(" ", room/2) + words + strings.Repeat(" ", room-room/2)
	}
	return words + strings.Repeat(" ", room)
}

// drawnBar draws a bar ten characters wide: "#" was there, "+" came now, "." is left, ">" is beyond.
func (b Bar) drawnBar() string {
	b = b.within()
	was, now := (b.Before+5)/10, (b.Before+b.Now+5)/10
	if b.Before+b.Now < 100 {
		now = min(now, 9) // only the whole looks whole
		was = min(was, now)
	}
	bar := strings.Repeat("#", was) + strings.Repeat("+", now-was) + strings.Repeat(".", 10-now)
	if b.Over > 0 {
		bar += ">"
	}
	return bar
}

// words is a cell on one line, with its bar.
func (c Cell) words() string {
	if c.Bar == nil {
		return c.Text.String()
	}
	return join(" ", c.Text.String(), c.Bar.drawnBar())
}
