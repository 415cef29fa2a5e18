package parse

import (
	"strings"

	"go.yaml.in/yaml/v4"

	"jobday/finding"
	"jobday/notes"
)

// A mapping is a set of keys and values as written. Reading a key makes it known; done reports the
// keys nobody read. A value of the wrong kind gives a finding and counts as not written.
//
//	m := loadYAML(f, f.Span(0, len(f.Text)), "company.yaml", &found)
//	name := m.text("name")
//	for _, p := range m.maps("people") { ...; p.done() }
//	m.done()
type mapping struct {
	what   string // what it is called in findings: "the front matter"
	span   finding.Span
	fields []keyed
	known  []string
	found  *finding.List
}

// keyed is one key with its value.
type keyed struct {
	key  string
	at   finding.Span
	val  value
	used bool
}

// A value is a node of YAML and the text it came from.
type value struct {
	node *yaml.Node
	in   *yamlText
}

// add takes the keys of a mapping node.
func (m *mapping) add(v value) {
	for i := 0; i+1 < len(v.node.Content); i += 2 {
		k := value{v.node.Content[i], v.in}
		if k.node.Kind != yaml.ScalarNode {
			m.found.Add(finding.Finding{
				Severity: finding.Error, Rule: "value/kind", Span: k.span(),
				Message: k.kind() + " cannot be a key; expected a word",
			})
			continue
		}
		m.fields = append(m.fields, keyed{key: k.node.Value, at: k.span(), val: value{v.node.Content[i+1], v.in}})
	}
}

// refuseDuplicates reports every key that stood before; the first one holds.
func (m *mapping) refuseDuplicates() {
	first := make(map[string]finding.Span, len(m.fields))
	kept := m.fields[:0]
	for _, f := range m.fields {
		before, twice := first[f.key]
		if !twice {
			first[f.key] = f.at
			kept = append(kept, f)
			continue
		}
		m.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "key/duplicate", Span: f.at,
			Message: quote(f.key) + " is written twice; the first one is used",
			Hint:    "remove one of the two",
			Related: []finding.Related{{Message: "first written here", Span: before}},
		})
	}
	m.fields = kept
}

// done reports the keys that nothing asked for, with the nearest key there is.
func (m *mapping) done() {
	for _, f := range m.fields {
		if f.used {
			continue
		}
		hint := "known here: " + strings.Join(m.known, ", ")
		if near := nearest(f.key, m.known); near != "" {
			hint = "did you mean " + quote(near) + "?"
		}
		m.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "key/unknown", Span: f.at,
			Message: "unknown key " + quote(f.key) + " in " + m.what, Hint: hint,
		})
	}
}

// get returns the value of a key, and false when it is missing, empty or refused.
func (m *mapping) get(key string) (value, bool) {
	m.known = append(m.known, key)
	for i := range m.fields {
		f := &m.fields[i]
		if f.key != key {
			continue
		}
		f.used = true
		return f.val, m.plain(f.val) && f.val.node.Tag != "!!null"
	}
	return value{}, false
}

// plain refuses anchors and aliases: they make one place mean another.
func (m *mapping) plain(v value) bool {
	if v.node.Kind != yaml.AliasNode && v.node.Anchor == "" {
		return true
	}
	m.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "yaml/alias", Span: v.span(),
		Message: "a value marked & or * stands for another place; expected the value itself",
		Hint:    "write the value out",
	})
	return false
}

// wrong reports a value of another kind than expected.
func (m *mapping) wrong(v value, key, expected string) {
	m.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "value/kind", Span: v.span(),
		Message: quote(key) + " is " + v.kind() + "; expected " + expected,
	})
}

// bad reports a value whose text cannot be used, with what to write instead.
func (m *mapping) bad(key, message, hint string) {
	m.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "value/bad", Span: m.at(key), Message: message, Hint: hint,
	})
}

// has reports whether the key is written, even with an empty value.
func (m *mapping) has(key string) bool {
	for _, f := range m.fields {
		if f.key == key {
			return true
		}
	}
	return false
}

// at returns where the value of a key stands, the key itself when it is empty, or the whole
// mapping when the key is missing.
func (m *mapping) at(key string) finding.Span {
	for _, f := range m.fields {
		if f.key == key {
			if s := f.val.span(); s.End > s.Start {
				return s
			}
			return f.at
		}
	}
	return m.span
}

// text returns a single value as written, without quotes and outer blanks, or "".
func (m *mapping) text(key string) string {
	v, ok := m.get(key)
	if !ok {
		return ""
	}
	if v.node.Kind != yaml.ScalarNode {
		m.wrong(v, key, "text on one line")
		return ""
	}
	return strings.TrimSpace(v.node.Value)
}

// texts returns a list of values; a single value is a list of one.
func (m *mapping) texts(key string) []string {
	v, ok := m.get(key)
	if !ok {
		return nil
	}
	switch v.node.Kind {
	case yaml.ScalarNode:
		return []string{strings.TrimSpace(v.node.Value)}
	case yaml.SequenceNode:
		var out []string
		for _, n := range v.node.Content {
			item := value{n, v.in}
			switch {
			case !m.plain(item) || n.Tag == "!!null":
			case n.Kind != yaml.ScalarNode:
				m.wrong(item, key, "a list of words, like [one, two]")
			default:
				out = append(out, strings.TrimSpace(n.Value))
			}
		}
		return out
	}
	m.wrong(v, key, "a list of words, like [one, two]")
	return nil
}

// date returns an ISO 8601 date, or the zero Date.
func (m *mapping) date(key string) notes.Date {
	s := m.text(key)
	if s == "" {
		return notes.Date{}
	}
	d, err := notes.ParseDate(s)
	if err != nil {
		m.bad(key, quote(s)+" is not a date; expected year, month and day", "write it like 2026-03-12")
	}
	return d
}

// money returns an amount, or nil when there is none.
func (m *mapping) money(key string) *notes.Money {
	s := m.text(key)
	if s == "" {
		return nil
	}
	amount, err := parseAmount(s)
	if err != nil {
		m.bad(key, err.Error(), "write it like 85.00")
		return nil
	}
	if strings.Contains(s, ",") {
		m.found.Add(thousands(s, amount, m.at(key)))
	}
	return &amount
}

// flag returns a yes or no, false when there is none.
func (m *mapping) flag(key string) bool {
	switch s := m.text(key); strings.ToLower(s) {
	case "true", "yes", "y", "on":
		return true
	case "", "false", "no", "n", "off":
	default:
		m.bad(key, quote(s)+" is neither true nor false", "write true or false")
	}
	return false
}

// sub returns the mapping below a key, or nil when there is none. what names it in findings.
func (m *mapping) sub(key, what string) *mapping {
	v, ok := m.get(key)
	if !ok {
		return nil
	}
	if v.node.Kind != yaml.MappingNode {
		m.wrong(v, key, "keys below it, one a line")
		return nil
	}
	return m.nested(v, what)
}

// maps returns a list of mappings below a key; a single mapping is a list of one.
func (m *mapping) maps(key, what string) []*mapping {
	v, ok := m.get(key)
	if !ok {
		return nil
	}
	switch v.node.Kind {
	case yaml.MappingNode:
		return []*mapping{m.nested(v, what)}
	case yaml.SequenceNode:
		var out []*mapping
		for _, n := range v.node.Content {
			switch item := (value{n, v.in}); {
			case !m.plain(item) || n.Tag == "!!null":
			case n.Kind != yaml.MappingNode:
				m.wrong(item, key, "a list of entries with keys, like - name: ...")
			default:
				out = append(out, m.nested(item, what))
			}
		}
		return out
	}
	m.wrong(v, key, "a list of entries with keys, like - name: ...")
	return nil
}

func (m *mapping) nested(v value, what string) *mapping {
	n := &mapping{what: what, span: v.span(), found: m.found}
	n.add(v)
	n.refuseDuplicates()
	return n
}

// each calls use with every key of the mapping, in the order written, for mappings whose keys are
// names the person chose. All keys count as known.
func (m *mapping) each(use func(key string, at finding.Span)) {
	for _, f := range m.fields {
		use(f.key, f.at)
	}
}

// kind says what a value is, in plain words.
func (v value) kind() string {
	switch v.node.Kind {
	case yaml.MappingNode:
		return "a set of keys"
	case yaml.SequenceNode:
		return "a list"
	case yaml.AliasNode:
		return "a reference"
	}
	if v.node.Value == "" {
		return "empty"
	}
	return quote(v.node.Value)
}

// span returns where a value stands, without a comment behind it. Of a value over several lines it
// is the first.
func (v value) span() finding.Span {
	if v.node.Line == 0 {
		return v.in.file.Span(v.in.base, v.in.base)
	}
	start := v.in.offset(v.node.Line, v.node.Column)
	text := v.in.file.Text[start : v.in.base+len(v.in.text)]
	return v.in.file.Span(start, start+v.length(text))
}

func (v value) length(text []byte) int {
	line := firstLineEnd(text)
	if v.node.Kind != yaml.ScalarNode || line == 0 {
		return line
	}
	if q := text[0]; q == '"' || q == '\'' {
		for i := 1; i < line; i++ {
			if text[i] == '\\' && q == '"' {
				i++
			} else if text[i] == q {
				return i + 1
			}
		}
		return line
	}
	if strings.HasPrefix(string(text[:line]), v.node.Value) {
		return len(v.node.Value)
	}
	return line
}

// quote puts a text as written into a message, shortened where it is long.
func quote(s string) string {
	const longest = 60
	s = fold(s)
	if len(s) > longest {
		cut := longest
		for cut > 0 && s[cut]&0xC0 == 0x80 {
			cut--
		}
		s = s[:cut] + "..."
	}
	return `"` + s + `"`
}
