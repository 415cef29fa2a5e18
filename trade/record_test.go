package trade

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/notes"
)

// Every item of the daily record is answered by a key the JobDay really has, by a named place of
// the report, or it says who answers it instead.
func TestRecordItemsAreAnswered(t *testing.T) {
	seen := map[string]bool{}
	for _, it := range RecordItems() {
		assert.False(t, seen[it.Item], it.Item)
		seen[it.Item] = true
		require.NotEmpty(t, it.AskedBy, it.Item)
		answers := 0
		for _, s := range []string{it.Part, it.Where, it.Office} {
			if s != "" {
				answers++
			}
		}
		assert.Equal(t, 1, answers, "%s: one answer", it.Item)
		if it.Part != "" {
			assert.True(t, hasKey(reflect.TypeFor[notes.JobDay](), it.Part), "%s: no key %s", it.Item, it.Part)
		}
	}
	assert.GreaterOrEqual(t, len(seen), 25)
}

// hasKey reports whether a JSON key, "a.b" for one inside, belongs to the type.
func hasKey(typ reflect.Type, path string) bool {
	key, rest, inside := strings.Cut(path, ".")
	for typ.Kind() == reflect.Slice || typ.Kind() == reflect.Pointer {
		typ = typ.Elem()
	}
	for i := range typ.NumField() {
		f := typ.Field(i)
		if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name == key {
			return !inside || hasKey(f.Type, rest)
		}
	}
	return false
}

func TestWordsOfCautionPromiseNothing(t *testing.T) {
	all := append([]string{CodePointer(), TestCaution(), GeneralCaution(), DeadCaution(), LineSideCaution(), SharedNeutralNote()}, Footer()...)
	for _, s := range all {
		assert.NotContains(t, strings.ToLower(s), "safe", s)
		assert.Greater(t, len(s), 40)
	}
	footer := strings.Join(Footer(), " ")
	for _, part := range []string{"limited to what was seen", "authority having jurisdiction", "pointers", "not advice", "Only qualified persons"} {
		assert.Contains(t, footer, part)
	}
}
