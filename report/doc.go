// Package report writes a JobDay in each format people and programs read: an HTML page, Markdown
// for an e-mail, a terminal summary, JSON with its schema, and the lines of an invoice as CSV.
// It shows what is in the JobDay and computes nothing that is not; the only arithmetic here is
// the geometry of the drawn bars and the sums of columns as printed.
//
// Every writer renders into memory first and then writes once, so that a failing template leaves
// no half page, and the same input gives the same bytes.
package report

import (
	"bytes"
	"errors"
	"io"
	"unicode"
	"unicode/utf8"

	"jobday/finding"
	"jobday/notes"
	"jobday/sheet"
)

// Input is one job-day with what its report quotes beside it.
type Input struct {
	Day     *notes.JobDay   // required
	Job     *notes.Job      // nil when the booking could not be read
	Company *notes.Company  // nil when nobody wrote who we are
	Notes   []*finding.File // the day's notes; nil for those the day itself carries
	Photos  Pictures        // reads the job's photos; nil to name them only

	Templates *Templates  // nil for the shipped ones
	Paper     sheet.Paper // what it is printed on; "" for the company's
}

// errNoDay is the caller's mistake: there is nothing to report on.
var errNoDay = errors.New("report: no day given")

// flush writes what was rendered in one go. Text that came in broken leaves whole: bytes that are
// no UTF-8, control characters and what turns the direction of writing become U+FFFD, so that no note can steer a terminal or a parser.
func flush(w io.Writer, rendered *bytes.Buffer) error {
	_, err := w.Write(clean(rendered.Bytes()))
	return err
}

func clean(text []byte) []byte {
	sound := utf8.Valid(text) && bytes.IndexFunc(text, steers) < 0
	if sound {
		return text
	}
	return bytes.Map(func(r rune) rune {
		if steers(r) {
			return utf8.RuneError
		}
		return r
	}, text)
}

// steers reports whether a character acts on what shows it instead of being shown.
func steers(r rune) bool {
	return unicode.Is(unicode.Cc, r) && r != '\n' && r != '\t' && r != '\r' || unicode.Is(unicode.Bidi_Control, r)
}
