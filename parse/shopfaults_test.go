package parse

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"jobday/finding"
	"jobday/notes"
)

func TestDeficienciesOfAShop(t *testing.T) {
	kinds, found := Deficiencies(finding.NewFile("deficiencies.yaml", []byte(`words:
  pedestal: [bollard, dock box]
kinds:
  - slug: pedestal-lock-missing
    title: Dock pedestal without its lock
    hazard: shock
    severity: danger
    phrases: [pedestal missing lock, pedestal not locked]
    rules:
      - {section: "110.31", editions: [2020, 2023]}
      - {code: NFPA 303, section: "5.1", editions: [2021]}
  - slug: knockout-open
    title: Hole in a box, ours to close
    correction: Close it at once, at no charge.
`)))
	require.Empty(t, found)
	k, _, ok := kinds.FindKind("the dock box on B pier has no lock")
	require.True(t, ok)
	assert.Equal(t, "pedestal-lock-missing", k.Slug)
	assert.Equal(t, []notes.CodeRule{{Code: "NEC", Edition: "2020", Section: "110.31"}, {Code: "NFPA 303", Edition: "2021", Section: "5.1"}},
		k.RulesFor("2020"))
	assert.NotEmpty(t, k.Caution, "the general caution")
	k, _, ok = kinds.FindKind("open knockout in LP1")
	require.True(t, ok, "a kind of a built-in slug keeps the phrases it does not write")
	assert.Equal(t, "Hole in a box, ours to close", k.Title)
	assert.Equal(t, "Close it at once, at no charge.", k.Correction)
	k, _, ok = kinds.FindKind("two wires under one breaker")
	assert.True(t, ok && k.Slug == "two-wires-one-breaker", "the built-in kinds stay")
}

func TestDeficienciesThatAreWrong(t *testing.T) {
	sound := "kinds:\n  - slug: a-b\n    title: T\n    phrases: [hub cracked]\n"
	for _, c := range []struct{ name, text, rule, at, says string }{
		{"wrong key", sound + "    severty: danger\n", "key/unknown", "5:5", `did you mean "severity"?`},
		{"wrong key at the top", "knids: []\n" + sound, "key/unknown", "1:1", `did you mean "kinds"?`},
		{"no edition", sound + "    rules:\n      - section: '408.7'\n", "deficiency/rule", "6:18", "names no edition"},
		{"unknown edition", sound + "    rules: [{section: '408.7', editions: [2021]}]\n", "deficiency/rule", "5:42", "known: 2017, 2020, 2023"},
		{"no section", sound + "    rules: [{editions: [2020]}]\n", "deficiency/rule", "5:13", "without its section"},
		{"hazard", sound + "    hazard: schock\n", "value/bad", "5:13", `did you mean "shock"?`},
		{"severity", sound + "    severity: bad\n", "value/bad", "5:15", "known: danger, hazard, maintenance"},
		{"no slug", "kinds:\n  - title: T\n    phrases: [x y]\n", "deficiency/kind", "2:5", "without a slug"},
		{"no phrases", "kinds:\n  - slug: a-b\n    title: T\n", "deficiency/kind", "2:11", "no phrases"},
		{"empty phrase", "kinds:\n  - slug: a-b\n    title: T\n    phrases: [missing, hub gone]\n", "value/bad", "4:14", "cannot announce anything"},
		{"twice", sound + "  - slug: a-b\n    title: U\n    phrases: [hub lost]\n", "deficiency/kind", "5:11", "written twice"},
		{"phrase of a built-in kind", "kinds:\n  - slug: a-b\n    title: T\n    phrases: [box missing cover, hub cracked]\n", "deficiency/phrase", "2:11", "to take the place of that kind"},
		{"phrase of another kind", sound + "  - slug: c-d\n    title: U\n    phrases: [cracked hubs]\n", "deficiency/phrase", "5:11", `announces "T" already`},
		{"not YAML", "kinds: [\n", "yaml/syntax", "1:1", "cannot be read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			kinds, found := Deficiencies(finding.NewFile("deficiencies.yaml", []byte(c.text)))
			require.Len(t, found, 1)
			f := found[0]
			assert.Equal(t, c.rule, f.Rule)
			line, column := f.Span.Position()
			assert.Equal(t, c.at, strconv.Itoa(line)+":"+strconv.Itoa(column))
			assert.Contains(t, f.Message+"; "+f.Hint, c.says)
			_, ok := kinds.KindOf("knockout-open")
			assert.True(t, ok, "the rest still compiles")
		})
	}
}

func FuzzDeficiencies(f *testing.F) {
	f.Add("kinds:\n  - {slug: a, title: b, phrases: ['c|d e', |, 'no'], rules: [{code: x, section: y, editions: [1]}]}\n", "c e gone")
	f.Add("words: {\"\": [a], é: ['']}\nkinds: [1, null, &x {slug: *x}]", "e")
	f.Fuzz(func(t *testing.T, text, note string) {
		file := finding.NewFile("deficiencies.yaml", []byte(text))
		kinds, found := Deficiencies(file)
		kinds.FindKinds(note)
		for _, one := range found {
			assert.True(t, one.Span.Start >= 0 && one.Span.End <= len(file.Text))
			_, known := finding.RuleNamed(one.Rule)
			assert.True(t, known, one.Rule)
		}
	})
}

func TestUsualTestsOfACompany(t *testing.T) {
	read := func(yaml string) ([]string, finding.List) {
		c, found := Company(finding.NewFile("company.yaml", []byte("name: A\n"+yaml)))
		return c.TestsOff, found
	}
	off, found := read("usual_tests: {torque: false, gfci: no, motor: true}\n")
	assert.Empty(t, found)
	assert.Equal(t, []string{"gfci", "torque"}, off)
	off, found = read("usual_tests: {gfic: false, afci: maybe}\n")
	assert.Empty(t, off, "a slip switches nothing off")
	require.Len(t, found, 2)
	assert.Equal(t, "value/bad", found[0].Rule)
	assert.Equal(t, "key/unknown", found[1].Rule)
	assert.Equal(t, `did you mean "gfci"?`, found[1].Hint)
}
