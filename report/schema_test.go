package report_test

import (
	"bytes"
	"encoding/json"
	"os"
	"reflect"
	"testing"

	generator "github.com/invopop/jsonschema"
	validator "github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"jobday/notes"
	"jobday/report"
)

const schemaFile = "jobday.schema.json"

// schemaID names the schema wherever it lies; it ends in the version of the format.
const schemaID = "urn:jobday:report:" + notes.Version

// texts are the types that JSON writes as strings, with what such a string looks like.
var texts = map[reflect.Type]generator.Schema{
	reflect.TypeFor[notes.Money]():   {Type: "string", Pattern: `^-?[0-9]+\.[0-9]{2}$`, Description: "an amount with two decimals"},
	reflect.TypeFor[notes.Decimal](): {Type: "string", Pattern: `^-?[0-9]+(\.[0-9]+)?$`, Description: "an exact decimal number"},
	reflect.TypeFor[notes.Date]():    {Type: "string", Pattern: `^([0-9]{4}-[0-9]{2}-[0-9]{2})?$`, Description: "an ISO 8601 date, or nothing when none is known"},
	reflect.TypeFor[notes.Clock]():   {Type: "string", Pattern: `^[0-2][0-9]:[0-5][0-9](\+1)?$`, Description: "a time of day; +1 is on the following day"},
}

// enums are the closed sets of words.
var enums = map[reflect.Type][]any{
	reflect.TypeFor[notes.Outcome](): words(notes.InScope, notes.Extra, notes.Deficiency, notes.Material, notes.TimeEntry,
		notes.Test, notes.Circuit, notes.LeftOpen, notes.Question, notes.Delivery, notes.EquipmentUse, notes.Delay,
		notes.Instruction, notes.SafetyCheck, notes.Condition, notes.Subcontractor, notes.Narrative, notes.Unclear),
	reflect.TypeFor[notes.LineState](): words(notes.NotStarted, notes.UnderWay, notes.Complete, notes.Over, notes.Blocked, notes.NotReported),
	reflect.TypeFor[notes.ExtraState](): words(notes.NeedsPrice, notes.NeedsAuthorization, notes.ExtraAuthorized,
		notes.ExtraDeclined, notes.ExtraNoCharge, notes.ExtraBilled),
	reflect.TypeFor[notes.ExtraOutcome](): words(notes.ExtraDone, notes.ExtraNotDone, notes.ExtraCredit),
	reflect.TypeFor[notes.FaultState](): words(notes.FaultFound, notes.FaultMadeSafe, notes.FaultCorrected, notes.FaultLeft,
		notes.FaultDeclined),
	reflect.TypeFor[notes.Severity](): words(notes.Danger, notes.Hazard, notes.Maintenance),
	reflect.TypeFor[notes.Verdict]():  words(notes.Within, notes.Outside, notes.Recorded),
	reflect.TypeFor[notes.Section]():  words(append(notes.Sections, "")...),
}

// readings are what a reading may be, and of which outcome.
var readings = []struct {
	of       reflect.Type
	outcomes []notes.Outcome
}{
	{reflect.TypeFor[notes.MaterialReading](), []notes.Outcome{notes.Material}},
	{reflect.TypeFor[notes.TimeReading](), []notes.Outcome{notes.TimeEntry}},
	{reflect.TypeFor[notes.WorkReading](), []notes.Outcome{notes.InScope, notes.Extra}},
	{reflect.TypeFor[notes.FaultReading](), []notes.Outcome{notes.Deficiency}},
	{reflect.TypeFor[notes.TestReading](), []notes.Outcome{notes.Test}},
	{reflect.TypeFor[notes.NoReading](), nil},
}

func words[T ~string](list ...T) []any {
	var out []any
	for _, w := range list {
		out = append(out, string(w))
	}
	return out
}

func ref(t reflect.Type) *generator.Schema { return &generator.Schema{Ref: "#/$defs/" + t.Name()} }

// mapped is the schema of a type whose JSON its Go type does not tell.
func mapped(t reflect.Type) *generator.Schema {
	if s, ok := texts[t]; ok {
		return &s
	}
	if list, ok := enums[t]; ok {
		return &generator.Schema{Type: "string", Enum: list}
	}
	if t == reflect.TypeFor[notes.Reading]() {
		any := &generator.Schema{}
		for _, r := range readings {
			any.AnyOf = append(any.AnyOf, ref(r.of))
		}
		return any
	}
	return nil
}

// makeSchema derives the schema of what report.JSON writes from the Go types.
func makeSchema(t *testing.T) []byte {
	r := generator.Reflector{Mapper: mapped}
	require.NoError(t, r.AddGoComments("jobday/report", "../notes"))
	s := r.ReflectFromType(reflect.TypeFor[[]notes.JobDay]())
	for _, reading := range readings {
		for name, def := range r.ReflectFromType(reading.of).Definitions {
			s.Definitions[name] = def
		}
		nullPointers(s, reading.of)
	}
	tieReadings(s.Definitions["EntryResult"])
	s.Definitions["Authorization"].Properties.Set("state",
		&generator.Schema{Type: "string", Enum: words("none", "asked", "authorized", "declined")})
	s.Definitions["FindingRef"].Properties.Set("severity",
		&generator.Schema{Type: "string", Enum: words("error", "warning", "note")})
	s.ID, s.Title = schemaID, "Daily reports of jobs, in order"
	var text bytes.Buffer
	enc := json.NewEncoder(&text)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	require.NoError(t, enc.Encode(s))
	return text.Bytes()
}

// nullPointers lets the fields of a struct that are pointers be null.
func nullPointers(s *generator.Schema, t reflect.Type) {
	for i := range t.NumField() {
		if f := t.Field(i); f.Type.Kind() == reflect.Pointer {
			name := f.Tag.Get("json")
			was, _ := s.Definitions[t.Name()].Properties.Get(name)
			s.Definitions[t.Name()].Properties.Set(name,
				&generator.Schema{AnyOf: []*generator.Schema{was, {Type: "null"}}})
		}
	}
}

// tieReadings says which reading goes with which outcome.
func tieReadings(entry *generator.Schema) {
	for _, r := range readings {
		if len(r.outcomes) == 0 {
			continue
		}
		when, then := generator.NewProperties(), generator.NewProperties()
		when.Set("outcome", &generator.Schema{Enum: words(r.outcomes...)})
		then.Set("reading", ref(r.of))
		entry.AllOf = append(entry.AllOf, &generator.Schema{
			If: &generator.Schema{Properties: when}, Then: &generator.Schema{Properties: then},
		})
	}
}

func TestSchemaIsFresh(t *testing.T) {
	made := makeSchema(t)
	if *update {
		require.NoError(t, os.WriteFile(schemaFile, made, 0o644))
	}
	kept, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	require.Equal(t, string(made), string(kept), "stale; make it with: go test ./report -update")
	if !*update {
		require.Equal(t, string(kept), string(report.Schema()))
	}
}

// compiled is the schema as the independent validator takes it.
func compiled(t *testing.T) *validator.Schema {
	doc, err := validator.UnmarshalJSON(bytes.NewReader(makeSchema(t)))
	require.NoError(t, err)
	c := validator.NewCompiler()
	require.NoError(t, c.AddResource(schemaID, doc))
	s, err := c.Compile(schemaID)
	require.NoError(t, err)
	return s
}

func TestJSONValidates(t *testing.T) {
	s := compiled(t)
	for name, fixture := range fixtures {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, s.Validate(decode(t, render(t, writers["json"], fixture(t)))))
		})
	}
	t.Run("no days", func(t *testing.T) {
		var out bytes.Buffer
		require.NoError(t, report.JSON(&out, nil))
		require.Equal(t, "[]\n", out.String())
		require.NoError(t, s.Validate(decode(t, out.Bytes())))
	})
}

// TestSchemaRefuses breaks a good document in ways a program could, and wants each one refused.
func TestSchemaRefuses(t *testing.T) {
	s := compiled(t)
	good := string(render(t, writers["json"], fullDay(t)))
	for name, change := range map[string][2]string{
		"a list that is null":      {`"circuits": [`, `"circuits": null, "was": [`},
		"an amount as a number":    {`"subtotal": "997.60"`, `"subtotal": 997.60`},
		"an amount with no cents":  {`"subtotal": "997.60"`, `"subtotal": "997.6"`},
		"a word out of the set":    {`"state": "blocked"`, `"state": "stuck"`},
		"an outcome out of set":    {`"outcome": "unclear"`, `"outcome": "work"`},
		"a key nobody knows":       {`"final": true`, `"final": true, "last": true`},
		"a key that is missing":    {`"final": true,`, ``},
		"a reading of other kind":  {`"verdict": "outside"` + "\n        },", `"verdict": "outside", "kind": "x"` + "\n        },"},
		"a reading that is absent": {`"item": "10/2 MC"` + "\n        },", `"people": []` + "\n        },"},
	} {
		t.Run(name, func(t *testing.T) {
			bad := bytes.Replace([]byte(good), []byte(change[0]), []byte(change[1]), 1)
			if string(bad) == good {
				t.Fatalf("the document does not hold %s", change[0])
			}
			require.Error(t, s.Validate(decode(t, bad)))
		})
	}
}

func decode(t *testing.T, text []byte) any {
	t.Helper()
	v, err := validator.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	return v
}
