package record

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strings"
	"unicode"

	"jobday/notes"
)

// Change returns the text of the record of an offer. The texts in c must be Plain.
func Change(c *notes.ChangeOrder) []byte { return write(changeForm(c)) }

// Answer returns the text of the record of an answer. The texts in a must be Plain.
func Answer(a *notes.ChangeAnswer) []byte { return write(answerForm(a)) }

// Invoice returns the text of the record of an invoice. The texts in v must be Plain.
func Invoice(v *notes.Invoice) []byte { return write(invoiceForm(v)) }

// Plain returns a text as a record holds it: on one line, with single blanks, without what cannot
// be seen.
func Plain(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	return strings.Join(strings.Fields(s), " ")
}

func write(f form) []byte {
	var b bytes.Buffer
	b.WriteString("---\nrecord: " + f.kind + "\n")
	for _, x := range f.fields {
		b.WriteString(x.key + ":")
		switch v := x.value.(type) {
		case *[]string:
			words := make([]string, len(*v))
			for i, w := range *v {
				words[i] = quoted(w)
			}
			b.WriteString(" [" + strings.Join(words, ", ") + "]")
		case *[]int:
			b.WriteString(" [" + text(v) + "]")
		case *string:
			b.WriteString(" " + quoted(*v))
		default:
			b.WriteString(" " + text(v))
		}
		b.WriteString("\n")
	}
	b.WriteString("---\n\n# " + escaped(f.title()) + "\n\n" + preface + "\n")
	for _, t := range f.tables {
		if t.rows() > 0 {
			writeTable(&b, t)
		}
	}
	b.WriteString(seal(*f.number, b.Bytes()) + "\n")
	return b.Bytes()
}

// preface stands in every record, for whoever opens it.
const preface = "This record was written once and is not edited: what changes later is a record of its own.\n"

func writeTable(b *bytes.Buffer, t table) {
	b.WriteString("## " + t.title + "\n\n| " + strings.Join(t.columns, " | ") + " |\n|")
	b.WriteString(strings.Repeat("---|", len(t.columns)) + "\n")
	for i := range t.rows() {
		b.WriteString("|")
		for _, c := range t.cells(i) {
			b.WriteString(" " + escaped(text(c)) + " |")
		}
		b.WriteString("\n")
	}
	b.WriteString("\n")
}

// sealHead begins the last line of a record.
const sealHead = "End of record "

// seal returns the last line of a record: its number and the SHA-256 of all above it, with line
// breaks as LF so that a version control that changes them breaks nothing.
func seal(number string, above []byte) string {
	above = bytes.ReplaceAll(above, []byte("\r\n"), []byte("\n"))
	sum := sha256.Sum256(bytes.TrimRight(above, "\n"))
	return sealHead + escaped(number) + ", SHA-256 of what stands above: " + hex.EncodeToString(sum[:])
}

// marks are what Markdown would read as something else in a cell.
const marks = "\\|<`"

func escaped(s string) string {
	if !strings.ContainsAny(s, marks) {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if strings.ContainsRune(marks, r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// quoted writes a text as YAML reads it, always in quotes: its strings are those of JSON as well
// (YAML 1.2, section 1.3).
func quoted(s string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		panic("record: " + err.Error()) // a string is always encoded
	}
	return strings.TrimSpace(b.String())
}
