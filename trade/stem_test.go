package trade

import (
	"slices"
	"testing"

	"github.com/blevesearch/snowballstem"
	"github.com/blevesearch/snowballstem/english"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestStemsAgainstSnowball holds our folding of endings against the English stemmer of the Snowball
// project (snowballstem.org, algorithm Porter2), whose vocabulary and stems are published: which forms
// of the trade's verbs and things are one word. Ours only folds -s, -ed, -ing and -e, so it must not
// often part what is one word there; what it joins beyond are the misspelt forms that words.txt makes.
func TestStemsAgainstSnowball(t *testing.T) {
	published := func(w string) string {
		env := snowballstem.NewEnv(w)
		english.Stem(env)
		return env.Current()
	}
	var words []string
	for w, e := range vocab.words {
		if isPlain(w) && len(w) > 3 && (e.Class == VerbWord || e.Class == ThingWord || e.Class == PartWord) {
			words = append(words, w)
		}
	}
	slices.Sort(words)
	require.Greater(t, len(words), 500)
	apart, together := map[string]string{}, map[string]string{}
	parted, joined := 0, 0
	for _, w := range words {
		ours, theirs := stem(w), published(w)
		if first, ok := apart[theirs]; ok && stem(first) != ours {
			parted++
			t.Logf("parted: %s and %s", first, w)
		} else if !ok {
			apart[theirs] = w
		}
		if first, ok := together[ours]; ok && published(first) != theirs {
			joined++
			t.Logf("joined: %s and %s", first, w)
		} else if !ok {
			together[ours] = w
		}
	}
	t.Logf("%d words, %d parted, %d joined", len(words), parted, joined)
	assert.LessOrEqual(t, parted*100, len(words)*2, "words of one stem that we part")
	assert.LessOrEqual(t, joined*100, len(words)*5, "words of two stems that we join: misspelt forms, such as stubed")
}
