package parse

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"jobday/finding"
	"jobday/notes"
)

func readNote(t *testing.T, text string) (*notes.DayNote, finding.List) {
	t.Helper()
	n, found := Note(testFile("heading", []byte(text)), NoteContext{People: testPeople})
	assertSound(t, n, found)
	return n, found
}

// headingForms are how people write a heading; X stands for its words.
var headingForms = []string{
	"## X\n", "### X:\n", "# **X**\n", "X\n", "X:\n", "X -\n", "**X**\n", "**X:**\n", "__X__:\n", "X\n---\n", "X\n===\n", "2. X\n", "2) X\n", "* X\n  ", "== X ==\n",
}

// TestSectionNamesOpenTheirSection writes every name in every form and letter case above a line.
func TestSectionNamesOpenTheirSection(t *testing.T) {
	for _, name := range slices.Sorted(maps.Keys(sectionNames)) {
		for _, form := range headingForms {
			for _, written := range []string{name, titled(name), strings.ToUpper(name)} {
				text := strings.Replace(form, "X", written, 1) + "- Ines 7:00-15:30\n"
				n, found := readNote(t, text)
				assert.Empty(t, found, text)
				assert.Len(t, n.Entries, 1, text)
				assert.Equal(t, sectionNames[name], n.Entries[0].Section, text)
			}
		}
	}
}

// TestHeadingsWithASlip says what a heading with a slip is read as, and which are asked about.
func TestHeadingsWithASlip(t *testing.T) {
	for _, c := range []struct {
		heading string
		opens   notes.Section // "" for none, where there is a finding
		write   string        // what the finding says to write, "" for no finding
	}{
		{"## Matrials", notes.Materials, `"Materials"`},
		{"**Deficencies**", notes.Deficiencies, `"Deficiencies"`},
		{"## Wrok", notes.Done, `"Work"`},
		{"## Extas", notes.Extras, `"Extras"`},
		{"Extrs:", notes.Extras, `"Extras"`},
		{"MATERAILS", notes.Materials, `"Materials"`},
		{"## Wrok done", notes.Done, `"Work done"`},
		{"**Quetions for ofice:**", notes.Questions, `"Questions for office"`},
		{"Hors", notes.Time, `"Hours"`},
		{"2. Delivries", notes.Deliveries, `"Deliveries"`},
		{"Safty\n---", notes.Safety, `"Safety"`},
		{"### Corections needed", notes.Deficiencies, `"Corrections needed"`},
		{"## Lft", "", `"Left" or "Lift"`},
		{"**Tie**", "", `"Time"`},
		{"## Punhc", notes.Left, `"Punch"`},
		{"## Lights", "", ""},
		{"## Kitchen", "", ""},
		{"## Lunch", "", ""},
		{"**Relays**", "", ""},
		{"West:", "", ""},
		{"## Loft", "", ""},
		{"## Work zone", "", ""},
		{"## Ines", "", ""},
		{"## Gossip", "", ""},
		{"## Don", "", ""},
	} {
		n, found := readNote(t, "## Conditions\n- fog till 10\n\n"+c.heading+"\n- Ines 7:00-15:30\n")
		in := n.Entries[len(n.Entries)-1].Section
		switch {
		case c.write == "":
			assert.Empty(t, found, c.heading)
			assert.Contains(t, []notes.Section{"", notes.Conditions}, in, c.heading)
		case assert.Len(t, found, 1, c.heading):
			assert.Len(t, n.Entries, 2, c.heading)
			assert.Equal(t, c.opens, in, c.heading)
			assert.Equal(t, "write "+c.write+", or name what is meant in other words", found[0].Hint)
			rule := "heading/slip"
			if c.opens == "" {
				rule = "heading/which"
			}
			assert.Equal(t, rule, found[0].Rule, c.heading)
			assert.Equal(t, plainName(strings.TrimRight(c.heading, "-\n")), strings.ToLower(found[0].Span.Text()), "only the words are marked")
		}
	}
}

// TestWordsNearANameAreNoSlips writes every word that is known to stand near the name of a section as a heading.
func TestWordsNearANameAreNoSlips(t *testing.T) {
	for word := range nearWords {
		_, found := readNote(t, "## "+titled(word)+"\n- Ines 7:00-15:30\n")
		assert.Empty(t, found, word)
	}
}

// TestPeopleWithoutHoursAreTheCrew reads who was there from a list of names, unless the front matter says it.
func TestPeopleWithoutHoursAreTheCrew(t *testing.T) {
	for text, crew := range map[string][]string{
		"Crew\n- Ines\n- Tobias Reed and Ana\n":                             {"Ines Marlow", "Tobias Reed", "Ana Brandt"},
		"crew - Ines & Tobias\n":                                            {"Ines Marlow", "Tobias Reed"},
		"Names: Ines, Tobias\n":                                             {"Ines Marlow", "Tobias Reed"},
		"---\ncrew: [Ana]\n---\nCrew: Ines\n":                               {"Ana Brandt"},
		"On site\n- Ines 7:00-15:30\n":                                      nil,
		"Crew\n- Ines left the key at the gate, the super has it all day\n": nil,
	} {
		n, found := readNote(t, text)
		assert.Empty(t, found, text)
		assert.Equal(t, crew, n.Crew, text)
	}
}
