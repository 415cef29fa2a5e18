package finding

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"
)

// TestSARIFValidates holds a log against the schema of SARIF 2.1.0; where the copy comes from is
// in testdata/README.md.
func TestSARIFValidates(t *testing.T) {
	schemaFile, err := os.Open("testdata/sarif-2.1.0-rtm.5.json")
	require.NoError(t, err)
	defer schemaFile.Close()
	doc, err := jsonschema.UnmarshalJSON(schemaFile)
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	require.NoError(t, c.AddResource("sarif.json", doc))
	schema, err := c.Compile("sarif.json")
	require.NoError(t, err)

	for _, l := range []List{nil, examples(t)} {
		log := writeSARIF(t, l)
		instance, err := jsonschema.UnmarshalJSON(bytes.NewReader(log))
		require.NoError(t, err)
		require.NoError(t, schema.Validate(instance))
		require.Equal(t, log, writeSARIF(t, l), "the same findings give the same bytes")
	}
	broken, err := jsonschema.UnmarshalJSON(bytes.NewReader([]byte(`{"version":"2.1.0","runs":[{"tool":{}}]}`)))
	require.NoError(t, err)
	require.Error(t, schema.Validate(broken), "the schema must be able to refuse")
}

func writeSARIF(t *testing.T, l List) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteSARIF(&b, l, "1.2.3"))
	return b.Bytes()
}

func TestSARIFSaysWhatTheFindingSays(t *testing.T) {
	var log sarifLog
	require.NoError(t, json.Unmarshal(writeSARIF(t, examples(t)), &log))
	run := log.Runs[0]
	require.Equal(t, "unicodeCodePoints", run.ColumnKind)
	require.Len(t, run.Tool.Driver.Rules, len(Rules))

	first := run.Results[0]
	require.Equal(t, "unknown unit \"fet\"\ndid you mean \"ft\"?", first.Message.Text)
	require.Equal(t, "material on line B until this is readable", first.Properties["held"])
	place := first.Locations[0].Physical
	require.Equal(t, "jobs/2431-quay%20bakery/2026-03-12.md", place.Artifact.URI)
	require.Equal(t, bookBase, place.Artifact.Base)
	require.Equal(t, &sarifRegion{2, 6, 2, 9, &sarifText{Text: "fet"}}, place.Region)

	twice := run.Results[6]
	require.Equal(t, "the first line with this label", twice.Related[0].Message.Text)
	require.Equal(t, 1, twice.Related[0].Physical.Region.StartLine)

	noCompany := run.Results[7]
	require.Equal(t, ruleIndex("book/no-company"), noCompany.RuleIndex)
	require.Equal(t, noCompany.RuleID, run.Tool.Driver.Rules[noCompany.RuleIndex].ID)
	require.Nil(t, noCompany.Locations[0].Physical.Region, "an empty file has no line 1")
	require.Empty(t, run.Results[8].Locations)
}

func TestJSON(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, WriteJSON(&b, examples(t)))
	golden(t, "testdata/findings.golden.json", b.Bytes())
	b.Reset()
	require.NoError(t, WriteJSON(&b, nil))
	require.Equal(t, "[]\n", b.String())
}
