package parse

import (
	"strings"

	"jobday/notes"
)

// locale reads how dates and amounts are written in what leaves the house: "fr-CA". Capitals and
// an underscore instead of the hyphen are no matter.
func (r *companyReader) locale() {
	s := r.m.text("locale")
	if s == "" {
		return
	}
	for _, known := range notes.Locales {
		if strings.EqualFold(strings.ReplaceAll(s, "_", "-"), known) {
			r.c.Locale = known
			return
		}
	}
	hint := "known: " + strings.Join(notes.Locales[:], ", ")
	language, _, _ := strings.Cut(strings.ReplaceAll(s, "_", "-"), "-")
	for _, known := range notes.Locales {
		if base, _, _ := strings.Cut(known, "-"); strings.EqualFold(base, language) {
			hint = "did you mean " + known + "? " + hint
			break
		}
	}
	r.m.bad("locale", quote(s)+" is no locale known here; dates and amounts are written as in "+r.c.Locale, hint)
}

// paper reads the size of paper that pages and PDFs are made for.
func (r *companyReader) paper() {
	s := r.m.text("paper")
	if s == "" {
		return
	}
	for _, known := range notes.Papers {
		if strings.EqualFold(s, known) {
			r.c.Paper = known
			return
		}
	}
	r.m.bad("paper", quote(s)+" is no size of paper known here; the usual one of the locale is taken", "known: "+strings.Join(notes.Papers[:], ", "))
}
