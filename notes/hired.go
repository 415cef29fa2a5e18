package notes

import (
	"strings"
	"unicode"
)

// EquipmentNamed returns the equipment of the company that a text names, and false when it names
// none. Of two names the longer one holds: a mini excavator is no excavator.
func (c *Company) EquipmentNamed(text string) (Machine, bool) {
	if len(c.Equipment) == 0 {
		return Machine{}, false
	}
	words := " " + plainWords(text) + " "
	var best Machine
	for _, e := range c.Equipment {
		name := plainWords(e.Name)
		if len(e.Name) > len(best.Name) && name != "" && (strings.Contains(words, " "+name+" ") || strings.Contains(words, " "+name+"s ")) {
			best = e
		}
	}
	return best, best.Name != ""
}

// HiredDetail reports whether a detail of an entry is equipment or a subcontractor's work, so that
// its hours are nobody's time and its amount is not what the whole was quoted at.
func (c *Company) HiredDetail(d Detail) bool {
	if SubcontractDetail(d.Text) {
		return true
	}
	for _, row := range d.Facts.Time {
		if len(row.People) > 0 || row.Crew > 0 {
			return false
		}
	}
	_, named := c.EquipmentNamed(d.Text)
	return named
}

// SubcontractDetail reports whether a detail begins with the word for a subcontractor.
func SubcontractDetail(text string) bool {
	first, rest, more := strings.Cut(strings.ToLower(strings.TrimSpace(text)), " ")
	switch strings.TrimRight(first, ":.") {
	case "sub", "subs", "subcontractor", "subcontract":
		return more && strings.TrimSpace(rest) != ""
	}
	return false
}

// plainWords returns the words of a text in lower case with single blanks between them.
func plainWords(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}
