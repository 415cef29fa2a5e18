package record

import (
	"encoding"
	"fmt"
	"strconv"
	"strings"

	"jobday/finding"
)

// A form is the layout of one kind of record, bound to the record it is written from or read into.
// Writing and reading go by the same form, so that neither can know a key the other does not.
type form struct {
	kind   string // what the front matter calls it: "change order"
	number *string
	title  func() string // the heading of the page
	fields []field
	tables []table
	finish func() // puts together what several tables say, after reading; nil for nothing
}

// A field is one key of the front matter. Its value is a pointer to a string, an int, a []string or
// what reads and writes itself as text.
type field struct {
	key   string
	value any
}

// A table is rows under a heading. cells returns pointers into row i, one for each column; grow
// adds an empty row; place, when set, tells where row i stands.
type table struct {
	title   string
	columns []string
	rows    func() int
	grow    func()
	cells   func(i int) []any
	place   func(i int, at finding.Span)
}

// text returns a value as it stands in a record.
func text(value any) string {
	switch v := value.(type) {
	case *string:
		return *v
	case *int:
		return strconv.Itoa(*v)
	case *bool:
		if *v {
			return "yes"
		}
		return "no"
	case *[]int:
		words := make([]string, len(*v))
		for i, n := range *v {
			words[i] = strconv.Itoa(n)
		}
		return strings.Join(words, ", ")
	case encoding.TextMarshaler:
		b, err := v.MarshalText()
		if err != nil {
			panic("record: " + err.Error()) // none of our types fails
		}
		return string(b)
	}
	panic(fmt.Sprintf("record: a %T has no text", value))
}

// setText reads what text returns.
func setText(value any, s string) error {
	var err error
	switch v := value.(type) {
	case *string:
		*v = s
	case *int:
		if *v, err = strconv.Atoi(s); err != nil {
			return fmt.Errorf("%q is not a whole number", s)
		}
	case *bool:
		if s != "yes" && s != "no" {
			return fmt.Errorf("%q is neither yes nor no", s)
		}
		*v = s == "yes"
	case *[]int:
		for w := range strings.SplitSeq(s, ",") {
			if w = strings.TrimSpace(w); w == "" && s == "" {
				continue
			}
			n, err := strconv.Atoi(w)
			if err != nil {
				return fmt.Errorf("%q is not a whole number", w)
			}
			*v = append(*v, n)
		}
	case encoding.TextUnmarshaler:
		return v.UnmarshalText([]byte(s))
	default:
		panic(fmt.Sprintf("record: a %T has no text", value))
	}
	return nil
}

// list returns a table of one slice.
func list[T any](title string, columns []string, rows *[]T, cells func(*T) []any) table {
	return table{
		title: title, columns: columns,
		rows:  func() int { return len(*rows) },
		grow:  func() { *rows = append(*rows, *new(T)) },
		cells: func(i int) []any { return cells(&(*rows)[i]) },
	}
}

// placed returns the table with a way to note where each row stands.
func (t table) placed(place func(i int, at finding.Span)) table {
	t.place = place
	return t
}
