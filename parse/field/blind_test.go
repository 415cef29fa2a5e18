package field

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestReadingBlindBatches holds the lines that were labelled before anything read them. Every miss is
// printed; the shares are those reached once what the batches taught was put in.
func TestReadingBlindBatches(t *testing.T) {
	lex := testLexicon()
	for _, b := range []struct {
		name  string
		floor float64
		read  func(line string) string
	}{
		{"time_blind", 0.95, func(line string) string { return showTime(Read(line, lex).Time) }},
		{"time_blind_section", 0.95, func(line string) string { return showTime(ReadTime(line, lex)) }},
		{"said_blind", 0.93, func(line string) string { return showConsent(line, lex) }},
	} {
		exact, all := countTable(t, "testdata/"+b.name+".txt", true, b.read)
		assert.GreaterOrEqual(t, float64(exact), b.floor*float64(all), b.name)
	}
}

// showConsent lists who allowed or refused what, and the price named.
func showConsent(line string, lex *Lexicon) string {
	f := Read(line, lex)
	return orDash(strings.Join(append(consentSaid(f.Consent), priceSaid(f.Price)...), "; "))
}

// TestOurOwnCrewAuthorizesNothing: the member of the crew whose time stands beside a signature did not
// sign.
func TestOurOwnCrewAuthorizesNothing(t *testing.T) {
	lex := testLexicon()
	for line, by := range map[string]string{
		"moved the clock outlet for manager Wynn, 30 min Ana, she initialed": "manager Wynn",
		"added a quad, 45 min Tobias, signed":                                "",
		"Ana Quill signed":                                                   "Ana Quill",
	} {
		assert.Equal(t, by, Read(line, lex).Consent.By, line)
	}
}

// TestInitialsOfTheCrew: letters name people in a text about time only, and only the crew.
func TestInitialsOfTheCrew(t *testing.T) {
	lex := testLexicon()
	for line, want := range map[string]string{
		"T 7-3:30, 30 lunch":              "Tobias 07:00-15:30 break 30",
		"IV 7-3, TL 7-3":                  "Ines 07:00-15:00; Tobias 07:00-15:00",
		"I and T all 6a to 2p w 30 lunch": "Ines & Tobias 06:00-14:00 break 30",
		"A 7-3":                           "07:00-15:00",
	} {
		assert.Equal(t, want, showTime(ReadTime(line, lex)), line)
	}
}
