package record

import (
	"bytes"
	"strings"

	"go.yaml.in/yaml/v4"

	"jobday/finding"
)

// A reader reads one record by its form. What it cannot read is a finding; whole stays true only
// when every key and every row was there and could be read.
type reader struct {
	file  *finding.File
	form  form
	found finding.List
	whole bool
	keys  map[string]finding.Span // where the value of each key stands
}

func read(file *finding.File, f form) *reader {
	r := &reader{file: file, form: f, whole: true, keys: map[string]finding.Span{}}
	body := r.head()
	end := r.sealed()
	r.tables(body, end)
	if f.finish != nil {
		f.finish()
	}
	return r
}

// wrong reports what keeps the record from being read whole.
func (r *reader) wrong(rule string, at finding.Span, message, hint string) {
	r.whole = false
	r.found.Add(finding.Finding{Severity: finding.Error, Rule: rule, Span: at, Message: message, Hint: hint, Holds: "what this record bills or agrees"})
}

const written = "put the file back as it was written, from your version control or backup"

// kindOf returns what the front matter of a file calls it, or "".
func kindOf(file *finding.File) string {
	for n := 2; n <= min(file.Lines(), 3); n++ {
		if kind, ok := strings.CutPrefix(file.LineSpan(n).Text(), "record:"); ok {
			return strings.TrimSpace(kind)
		}
	}
	return ""
}

// head reads the front matter and returns the number of the line behind it.
func (r *reader) head() int {
	last := 0
	if r.file.Lines() > 0 && strings.TrimSpace(r.file.LineSpan(1).Text()) == "---" {
		for n := 2; n <= r.file.Lines() && last == 0; n++ {
			if strings.TrimSpace(r.file.LineSpan(n).Text()) == "---" {
				last = n
			}
		}
	}
	if last == 0 {
		r.wrong("record/half", r.file.LineSpan(1), "this record has no front matter between two lines ---: it is not whole", written)
		return r.file.Lines() + 1
	}
	start, end := r.file.LineSpan(2).Start, r.file.LineSpan(last).Start
	var root yaml.Node
	if err := yaml.Load(r.file.Text[start:end], &root); err != nil || len(root.Content) != 1 || root.Content[0].Kind != yaml.MappingNode {
		r.wrong("record/value", r.file.Span(start, max(start, end-1)), "the front matter of this record cannot be read", written)
		return last + 1
	}
	r.takeKeys(root.Content[0].Content)
	return last + 1
}

// at returns where a node of the front matter stands: its line, from its column.
func (r *reader) at(n *yaml.Node) finding.Span {
	s := r.file.LineSpan(min(n.Line+1, r.file.Lines()))
	text := s.Text()
	from := 0
	for i := range text { // the column counts code points from 1
		if n.Column <= 1 {
			break
		}
		n.Column--
		from = i + 1
	}
	for from < len(text) && text[from]&0xC0 == 0x80 {
		from++
	}
	return s.Sub(from, len(strings.TrimRight(text, " \r\t")))
}

func (r *reader) takeKeys(nodes []*yaml.Node) {
	for i := 0; i+1 < len(nodes); i += 2 {
		key, val := nodes[i].Value, nodes[i+1]
		at := r.at(nodes[i])
		if key == "record" && r.keys[key] == (finding.Span{}) {
			r.keys[key] = at
			continue
		}
		x := r.field(key)
		switch {
		case x == nil:
			r.wrong("record/key", at, "a record of a "+r.form.kind+" has no key "+quote(key), "take the line out, or "+written)
		case r.keys[key] != (finding.Span{}):
			r.wrong("record/key", at, "the key "+quote(key)+" is written twice", written)
		default:
			r.keys[key] = at
			if err := take(x.value, val); err != "" {
				r.wrong("record/value", at, "the value of "+quote(key)+": "+err, written)
			}
		}
	}
	for _, x := range r.form.fields {
		if r.keys[x.key] == (finding.Span{}) {
			r.wrong("record/key", r.file.LineSpan(1), "this record has no key "+quote(x.key), written)
		}
	}
}

func (r *reader) field(key string) *field {
	for i := range r.form.fields {
		if r.form.fields[i].key == key {
			return &r.form.fields[i]
		}
	}
	return nil
}

// take reads a value of the front matter, and says what is wrong with it.
func take(value any, n *yaml.Node) string {
	if n.Kind == yaml.ScalarNode {
		switch value.(type) {
		case *[]string, *[]int:
			return "expected a list like [one, two]"
		}
		s := n.Value
		if n.Tag == "!!null" {
			s = ""
		}
		if err := setText(value, s); err != nil {
			return err.Error()
		}
		return ""
	}
	words, ok := value.(*[]string)
	numbers, of := value.(*[]int)
	if n.Kind != yaml.SequenceNode || !ok && !of {
		return "expected one value"
	}
	for _, c := range n.Content {
		if c.Kind != yaml.ScalarNode {
			return "expected a list of words"
		}
		if ok {
			*words = append(*words, c.Value)
		} else if err := setText(numbers, c.Value); err != nil {
			return err.Error()
		}
	}
	return ""
}

// sealed looks at the last line and returns its number. Without it the record is half written.
func (r *reader) sealed() int {
	n := r.file.Lines()
	for n > 1 && strings.TrimSpace(r.file.LineSpan(n).Text()) == "" {
		n--
	}
	last := r.file.LineSpan(max(n, 1))
	line := strings.TrimSpace(last.Text())
	if !strings.HasPrefix(line, sealHead) {
		r.wrong("record/half", last, "this record ends before its last line: it was not written whole, or was cut", written)
		return n + 1
	}
	if line != seal(*r.form.number, r.file.Text[:last.Start]) {
		r.found.Add(finding.Finding{
			Severity: finding.Warning, Rule: "record/edited", Span: last,
			Message: "this record was edited after it was written: the SHA-256 of its lines is another one",
			Hint:    written + "; what changes later is a record of its own",
		})
	}
	return n
}

// tables reads the tables between two lines. What is no table is for people and is not read.
func (r *reader) tables(from, to int) {
	var t *table
	width := 0 // of the header, 0 before it
	for n := from; n < to; n++ {
		s := r.file.LineSpan(n)
		line := strings.TrimSpace(s.Text())
		if title, ok := strings.CutPrefix(line, "## "); ok {
			t, width = r.table(title), 0
			if t == nil {
				r.wrong("record/key", s, "a record of a "+r.form.kind+" has no part "+quote(title), "take it out, or "+written)
			}
			continue
		}
		switch {
		case !strings.HasPrefix(line, "|") || t == nil:
		case width == 0:
			if width = len(t.columns); strings.Join(cells(line), "|") != strings.Join(t.columns, "|") {
				r.wrong("record/key", s, "the columns of this table are not those of "+quote(t.title), "write them as: "+strings.Join(t.columns, ", "))
				t = nil
			}
		case strings.Trim(line, "|-: ") == "" && strings.Contains(line, "---"):
		default:
			r.row(t, line, s)
		}
	}
}

func (r *reader) table(title string) *table {
	for i := range r.form.tables {
		if t := &r.form.tables[i]; t.title == title {
			return t
		}
	}
	return nil
}

func (r *reader) row(t *table, line string, at finding.Span) {
	got := cells(line)
	if len(got) != len(t.columns) {
		r.wrong("record/value", at, "a row of "+quote(t.title)+" has another number of cells than its header", written)
		return
	}
	t.grow()
	i := t.rows() - 1
	if t.place != nil {
		t.place(i, at)
	}
	for k, p := range t.cells(i) {
		if err := setText(p, got[k]); err != nil {
			r.wrong("record/value", at, "the cell "+quote(t.columns[k])+": "+err.Error(), written)
		}
	}
}

// cells splits a row at its bars and takes the escapes out.
func cells(line string) []string {
	line = strings.TrimPrefix(line, "|")
	var out []string
	var b bytes.Buffer
	for i := 0; i < len(line); i++ {
		switch c := line[i]; {
		case c == '\\' && i+1 < len(line) && strings.IndexByte(marks, line[i+1]) >= 0:
			i++
			b.WriteByte(line[i])
		case c == '|':
			out = append(out, strings.TrimSpace(b.String()))
			b.Reset()
		default:
			b.WriteByte(c)
		}
	}
	if rest := strings.TrimSpace(b.String()); rest != "" {
		out = append(out, rest)
	}
	return out
}

func quote(s string) string { return `"` + s + `"` }
