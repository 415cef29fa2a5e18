package finding

import (
	"bytes"
	"encoding/json"
	"io"
)

// jsonFinding is a finding as WriteJSON shows it. The keys are stable.
type jsonFinding struct {
	Severity string        `json:"severity"`
	Rule     string        `json:"rule"`
	Message  string        `json:"message"`
	Hint     string        `json:"hint"`
	Held     string        `json:"held"`
	Source   jsonPlace     `json:"source"`
	Text     string        `json:"text"` // the words the finding is about, as written
	Related  []jsonRelated `json:"related"`
}

type jsonPlace struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"end_line"`
	EndColumn int    `json:"end_column"`
}

type jsonRelated struct {
	Message string    `json:"message"`
	Source  jsonPlace `json:"source"`
}

// longestText is how many bytes of a span are repeated in JSON and SARIF; the place says the rest.
const longestText = 400

// WriteJSON writes the findings as an indented JSON array, in the order of the list; an empty list
// is []. A finding without a place has file "" and line 0.
func WriteJSON(w io.Writer, l List) error {
	rows := make([]jsonFinding, 0, len(l))
	for _, f := range l {
		row := jsonFinding{
			Severity: f.Severity.String(), Rule: f.Rule, Message: f.Message, Hint: f.Hint, Held: f.Holds,
			Source: placeOf(f.Span), Text: excerpt(f.Span), Related: []jsonRelated{},
		}
		for _, r := range f.Related {
			row.Related = append(row.Related, jsonRelated{r.Message, placeOf(r.Span)})
		}
		rows = append(rows, row)
	}
	return WriteIndented(w, rows)
}

func placeOf(s Span) jsonPlace {
	if !s.Known() {
		return jsonPlace{}
	}
	line, column := s.Position()
	endLine, endColumn := s.EndPosition()
	return jsonPlace{s.File.Name, line, column, endLine, endColumn}
}

// excerpt returns the words of a span, cut on a code point when they are many.
func excerpt(s Span) string {
	text := s.Text()
	if len(text) <= longestText {
		return text
	}
	cut := longestText
	for cut > 0 && text[cut]&0xc0 == 0x80 {
		cut--
	}
	return text[:cut] + ellipsis
}

// WriteIndented writes v as JSON in one Write, indented by two blanks, without escaping what HTML
// would need. It is how the program writes JSON everywhere.
func WriteIndented(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}
