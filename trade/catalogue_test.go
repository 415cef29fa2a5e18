package trade

import (
	"bytes"
	"cmp"
	"flag"
	"fmt"
	"go/format"
	"os"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"jobday/notes"
)

var update = flag.Bool("update", false, "write what is made from the data anew")

// catalogueFile is deficiencies.yaml as it is written.
type catalogueFile struct {
	Words map[string][]string `yaml:"words"`
	Kinds []struct {
		Slug       string   `yaml:"slug"`
		Title      string   `yaml:"title"`
		Look       string   `yaml:"look"`
		Hazard     string   `yaml:"hazard"`
		Severity   string   `yaml:"severity"`
		Why        string   `yaml:"why"`
		Correction string   `yaml:"correction"`
		Caution    string   `yaml:"caution"`
		FollowUp   string   `yaml:"follow_up"`
		Phrases    []string `yaml:"phrases"`
		Rules      []struct {
			Code     string   `yaml:"code"`
			Section  string   `yaml:"section"`
			Editions []string `yaml:"editions"`
			Checked  bool     `yaml:"checked"`
		} `yaml:"rules"`
	} `yaml:"kinds"`
}

func readCatalogue(t *testing.T) ([]Fold, []Kind) {
	src, err := os.ReadFile("deficiencies.yaml")
	require.NoError(t, err)
	var f catalogueFile
	require.NoError(t, yaml.Load(src, &f, yaml.WithKnownFields()))
	var words []Fold
	for w, forms := range f.Words {
		words = append(words, Fold{w, forms})
	}
	sort.Slice(words, func(i, j int) bool { return words[i].Word < words[j].Word })
	var list []Kind
	for _, k := range f.Kinds {
		k.Phrases = once(k.Phrases)
		kind := Kind{
			Slug: k.Slug, Title: k.Title, LookFor: k.Look, Hazard: k.Hazard, Severity: notes.Severity(k.Severity),
			Why: k.Why, Correction: k.Correction, Caution: k.Caution, FollowUp: k.FollowUp, Phrases: k.Phrases,
		}
		for _, r := range k.Rules {
			if r.Code == "" {
				r.Code = "NEC"
			}
			if r.Code == "NEC" && r.Editions == nil {
				r.Editions = Editions
			}
			kind.Code = append(kind.Code, Reference{r.Code, r.Section, r.Editions, r.Checked})
		}
		list = append(list, kind)
	}
	return words, list
}

// once drops phrases that fold to the same words as one before.
func once(list []string) []string {
	seen := map[string]bool{}
	return slices.DeleteFunc(list, func(p string) bool {
		f := strings.Fields(p)
		for i := range f {
			f[i] = stem(f[i])
		}
		slices.Sort(f)
		key := strings.Join(f, " ")
		defer func() { seen[key] = true }()
		return seen[key]
	})
}

// The Go literals are what deficiencies.yaml says, so that no program has to read YAML to start.
func TestCatalogueIsMadeFromItsFile(t *testing.T) {
	words, list := readCatalogue(t)
	var b bytes.Buffer
	b.WriteString("// Code generated from deficiencies.yaml by go test ./trade -run Catalogue -update; DO NOT EDIT.\n\npackage trade\n\n")
	b.WriteString("// kinds is the catalogue of deficiencies.\nvar kinds = []Kind{\n")
	for _, k := range list {
		s := strings.ReplaceAll(fmt.Sprintf("%#v,\n", k), "trade.", "")
		b.WriteString(strings.TrimPrefix(s, "Kind"))
	}
	b.WriteString("}\n\n// faultWords folds what people write to the words of the phrases.\nvar faultWords = []Fold{\n")
	for _, w := range words {
		fmt.Fprintf(&b, "{%q, %#v},\n", w.Word, w.Forms)
	}
	b.WriteString("}\n")
	src := strings.ReplaceAll(b.String(), "[]string(nil)", "nil")
	src = strings.ReplaceAll(src, "[]Reference(nil)", "nil")
	src = strings.ReplaceAll(src, `[]Reference{Reference{`, "[]Reference{{")
	src = strings.ReplaceAll(src, `}, Reference{`, "}, {")
	src = strings.ReplaceAll(src, `", LookFor`, "\",\nLookFor")
	for _, field := range []string{"Hazard", "Why", "Correction", "Caution", "FollowUp", "Code", "Phrases"} {
		src = strings.ReplaceAll(src, `", `+field+":", "\",\n"+field+":")
	}
	src = strings.ReplaceAll(src, "}, Phrases:", "},\nPhrases:")
	src = strings.ReplaceAll(src, "nil, Phrases:", "nil,\nPhrases:")
	made, err := format.Source([]byte(strings.ReplaceAll(src, "notes.Severity", "")))
	require.NoError(t, err)
	// An untyped constant fits the severity, so the generated file imports nothing.
	if *update {
		require.NoError(t, os.WriteFile("catalogue_data.go", made, 0o644))
	}
	have, err := os.ReadFile("catalogue_data.go")
	require.NoError(t, err)
	assert.Equal(t, string(made), string(have), "catalogue_data.go is stale: run with -update")
}

func TestCatalogueIsComplete(t *testing.T) {
	list := Kinds()
	require.GreaterOrEqual(t, len(list), 45)
	seen := map[string]bool{}
	for _, k := range list {
		assert.False(t, seen[k.Slug], "slug %s twice", k.Slug)
		seen[k.Slug] = true
		for what, s := range map[string]string{
			"title": k.Title, "look": k.LookFor, "why": k.Why, "correction": k.Correction, "caution": k.Caution, "follow_up": k.FollowUp,
		} {
			assert.NotEmpty(t, strings.TrimSpace(s), "%s: %s", k.Slug, what)
			assert.NotContains(t, strings.ToLower(s), " safe", "%s: %s promises safety", k.Slug, what)
		}
		assert.Contains(t, Hazards, k.Hazard, k.Slug)
		assert.Contains(t, []notes.Severity{notes.Danger, notes.Hazard, notes.Maintenance}, k.Severity, k.Slug)
		assert.GreaterOrEqual(t, len(k.Phrases), 5, k.Slug)
		checkReferences(t, k)
		got, ok := KindOf(k.Slug)
		assert.True(t, ok)
		assert.Equal(t, k.Title, got.Title)
	}
	_, ok := KindOf("no-such-kind")
	assert.False(t, ok)
}

func checkReferences(t *testing.T, k Kind) {
	for _, r := range k.Code {
		assert.NotEmpty(t, r.Section, k.Slug)
		if r.Code != "NEC" {
			assert.Len(t, r.Editions, len(Editions), "%s: one edition of %s for each of the NEC", k.Slug, r.Code)
			continue
		}
		assert.NotEmpty(t, r.Editions, k.Slug)
		for _, e := range r.Editions {
			assert.Contains(t, Editions, e, k.Slug)
		}
	}
	for _, e := range Editions {
		assert.NotEmpty(t, k.RulesFor(e), "%s %s", k.Slug, e)
	}
}

// Words that fold together make two phrases one; then no two kinds may lay claim to it.
func TestCatalogueGivesNoPhraseToTwoKinds(t *testing.T) {
	x := phrases()
	claimed := map[string]phrase{}
	for _, p := range x.phrase {
		for _, key := range spellOut(p.words) {
			if q, taken := claimed[key]; taken && q.kind != p.kind {
				t.Errorf("%q of %s is %q of %s", p.text, kinds[p.kind].Slug, q.text, kinds[q.kind].Slug)
			}
			claimed[key] = p
		}
	}
	require.Less(t, len(x.weight), maxWords)
}

// spellOut lists every way to choose one word each, in any order.
func spellOut(words [][]int16) []string {
	lists := [][]int16{nil}
	for _, set := range words {
		if len(set) == 3 && set[0] == phrases().missing {
			set = set[:1]
		}
		var next [][]int16
		for _, l := range lists {
			for _, id := range set {
				next = append(next, append(slices.Clone(l), id))
			}
		}
		lists = next
	}
	var out []string
	for _, l := range lists {
		slices.Sort(l)
		out = append(out, fmt.Sprint(l))
	}
	return out
}

func TestFoldedWordsStandForOneWordOnly(t *testing.T) {
	seen := map[string]string{}
	for _, f := range faultWords {
		for _, v := range append([]string{f.Word}, f.Forms...) {
			var key []string
			for _, j := range jots(strings.ReplaceAll(v, "_", "")) {
				key = append(key, j.stem)
			}
			k := strings.Join(key, " ")
			if w, taken := seen[k]; taken && w != f.Word {
				t.Errorf("%q stands for both %q and %q", v, w, f.Word)
			}
			seen[k] = f.Word
		}
	}
}

// Sections that moved, came or went between editions (SOURCES.md names what was checked).
func TestRulesFollowTheEdition(t *testing.T) {
	for _, c := range []struct{ kind, edition, has, hasNot string }{
		{"raceway-unsealed", "2017", "230.8", ""},
		{"no-surge-protector", "2017", "", "230.67"},
		{"no-surge-protector", "2020", "230.67", "215.18"},
		{"no-surge-protector", "2023", "215.18", ""},
		{"no-outside-disconnect", "2017", "", "230.85"},
		{"no-outside-disconnect", "2023", "230.85", ""},
		{"no-gfci", "2017", "210.8(A)", "210.8(F)"},
		{"no-gfci", "2020", "210.8(F)", ""},
		{"no-afci", "2017", "210.12(D)", "210.12(E)"},
		{"no-afci", "2023", "210.12(E)", "210.12(D)"},
		{"aluminum-on-copper-device", "2023", "404.14(D)(1)", "404.14(C)"},
		{"conduit-overfilled", "2017", "310.15(B)(3)(a)", "310.15(C)(1)"},
		{"conduit-overfilled", "2020", "310.15(C)(1)", "310.15(B)(3)(a)"},
		{"breaker-too-big", "2017", "310.15(B)(16)", "310.16"},
		{"breaker-too-big", "2023", "310.16", "310.15(B)(16)"},
		{"subpanel-neutral-bonded", "2020", "250.24(A)(5)", "250.24(B)"},
		{"generator-no-transfer", "2023", "702.5(A)", "702.5"},
		{"two-neutrals-one-screw", "2020", "408.41", ""},
		{"single-rod-unproven", "2023", "250.53(A)(2)", ""},
	} {
		k, ok := KindOf(c.kind)
		require.True(t, ok, c.kind)
		var sections []string
		for _, r := range k.RulesFor(c.edition) {
			sections = append(sections, r.Section)
		}
		if c.has != "" {
			assert.Contains(t, sections, c.has, "%s %s", c.kind, c.edition)
		}
		assert.NotContains(t, append(sections, "-"), cmp.Or(c.hasNot, "none"), "%s %s", c.kind, c.edition)
	}
	k, _ := KindOf("no-outside-disconnect")
	assert.Equal(t, []notes.CodeRule{{Code: GoodPractice}}, k.RulesFor("2017"))
	assert.Empty(t, k.RulesFor("1999"), "an unknown edition claims nothing")
	k, _ = KindOf("smoke-alarm-not-linked")
	assert.Contains(t, k.RulesFor("2020"), notes.CodeRule{Code: "IRC", Edition: "2021", Section: "R314"})
}
