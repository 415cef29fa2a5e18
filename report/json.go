package report

import (
	"bytes"
	_ "embed" // for the schema
	"io"
	"reflect"

	"jobday/finding"
	"jobday/notes"
)

//go:embed jobday.schema.json
var schema []byte

// Schema returns the JSON Schema (draft 2020-12) of what JSON writes.
func Schema() []byte { return bytes.Clone(schema) }

// JSON writes the days as an indented array. Lists are never null, and characters of HTML stand
// as they are: escape the text when you put it into a page.
func JSON(w io.Writer, days []*notes.JobDay) error {
	whole := []any{}
	for _, d := range days {
		if d == nil {
			return errNoDay
		}
		whole = append(whole, complete(reflect.ValueOf(*d)).Interface())
	}
	return finding.WriteIndented(w, whole)
}

// complete copies what JSON shows of a value, with an empty list or map for every nil one, and
// the empty reading for an entry that has none. The value itself is not touched.
func complete(v reflect.Value) reflect.Value {
	c := reflect.New(v.Type()).Elem()
	switch v.Kind() {
	case reflect.Struct:
		c.Set(v)
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && f.Tag.Get("json") != "-" {
				c.Field(i).Set(complete(v.Field(i)))
			}
		}
	case reflect.Slice:
		c.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		for i := range v.Len() {
			c.Index(i).Set(complete(v.Index(i)))
		}
	case reflect.Map:
		c.Set(v)
		if v.IsNil() {
			c.Set(reflect.MakeMap(v.Type()))
		}
	case reflect.Interface:
		c.Set(v)
		if v.IsNil() && v.Type() == reflect.TypeFor[notes.Reading]() {
			c.Set(reflect.ValueOf(notes.NoReading{}))
		} else if !v.IsNil() {
			c.Set(complete(v.Elem()))
		}
	default:
		c.Set(v)
	}
	return c
}
