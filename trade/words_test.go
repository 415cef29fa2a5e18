package trade

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestCanon(t *testing.T) {
	cases := map[string]string{
		"recept": "receptacle", "Outlets": "receptacle", "plug": "receptacle", "duplex": "receptacle",
		"recepticle": "receptacle", "receptacel": "receptacle", "brkr": "breaker", "breakers": "breaker",
		"OCPD": "breaker", "romex": "NM", "NM-B": "NM", "conn": "connector", "wirenuts": "wire nut",
		"wire nut": "wire nut", "j-box": "junction box", "jbox": "junction box", "handy boxes": "handy box",
		"luminaires": "fixture", "flourescent": "fluorescent", "condiut": "conduit", "GFI": "GFCI",
		"panel board": "panel", "old work": "old work", "grn": "green", "exit signs": "exit sign",
	}
	for in, want := range cases {
		got, ok := Canon(in)
		assert.True(t, ok, in)
		assert.Equal(t, want, got, in)
	}
	for _, in := range []string{"", "zorp", "the", "for", "Ruth"} {
		_, ok := Canon(in)
		assert.False(t, ok, in)
	}
}

func TestVerb(t *testing.T) {
	cases := map[string]string{
		"installed": "install", "hung": "install", "mounting": "install", "put in": "install", "set": "install",
		"replaced": "replace", "swapped": "replace", "removing": "remove", "took out": "remove",
		"moved": "relocate", "fixed": "repair", "pulled": "pull", "landed": "land", "terminated": "land",
		"trimmed": "trim", "roughed in": "rough", "made up": "makeup", "labelled": "label", "traced": "trace",
		"tested": "test", "troubleshooting": "troubleshoot", "trenched": "dig", "core drilled": "drill",
		"label": "label", "disconnected": "disconnect",
	}
	for in, want := range cases {
		got, ok := Verb(in)
		assert.True(t, ok, in)
		assert.Equal(t, want, got, in)
	}
	_, ok := Verb("kitchen")
	assert.False(t, ok)
}

func TestPlace(t *testing.T) {
	for _, in := range []string{"kitchen", "Bath", "garage", "office", "hallway", "north", "counter", "mech room"} {
		assert.True(t, Place(in), in)
	}
	for _, in := range []string{"breaker", "EMT", "seven", ""} {
		assert.False(t, Place(in), in)
	}
}

func TestShopWords(t *testing.T) {
	w := NewWords([][2]string{{"skinny", "tandem 20A breaker"}, {"skinny box", "1-gang box"}, {"", "x"}, {"skinny", "other"}})
	at := func(parts ...string) func(int) string {
		return func(i int) string {
			if i < len(parts) {
				return parts[i]
			}
			return ""
		}
	}
	meaning, n := w.Meaning(at("skinny", "for", "ac"))
	assert.Equal(t, "tandem 20A breaker", meaning)
	assert.Equal(t, 1, n)
	meaning, n = w.Meaning(at("skinny", "box"))
	assert.Equal(t, "1-gang box", meaning)
	assert.Equal(t, 2, n)
	_, n = w.Meaning(at("skinnies"))
	assert.Equal(t, 1, n)
	_, n = w.Meaning(at("box"))
	assert.Zero(t, n)
	assert.True(t, Words{}.None())
}

func BenchmarkReadVocabulary(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		readVocabulary(wordTable)
	}
}
