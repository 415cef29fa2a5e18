package finding

import (
	"io"
	"net/url"
	"strings"
)

// sarifSchema names the schema of SARIF 2.1.0: "Static Analysis Results Interchange Format (SARIF)
// Version 2.1.0", OASIS Standard, 27 March 2020, and its errata 01 of 28 August 2023.
const sarifSchema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

// bookBase is the name of the folder that the places in a log are relative to.
const bookBase = "BOOK"

// WriteSARIF writes the findings as a SARIF 2.1.0 log with one run of the given version of the
// program ("" leaves it out). Columns count code points, as everywhere; places are relative to the
// book; every rule of the table is described, whether it was raised or not. No time and no path of
// the machine is in it: the same findings give the same bytes.
func WriteSARIF(w io.Writer, l List, version string) error {
	driver := sarifDriver{Name: "jobday", Version: version, Rules: sarifRules()}
	run := sarifRun{
		Tool:       sarifTool{driver},
		ColumnKind: "unicodeCodePoints",
		Bases:      map[string]sarifArtifact{bookBase: {Description: &sarifText{Text: "the job book"}}},
		Results:    make([]sarifResult, 0, len(l)),
	}
	for _, f := range l {
		run.Results = append(run.Results, sarifResultOf(f))
	}
	return WriteIndented(w, sarifLog{Schema: sarifSchema, Version: "2.1.0", Runs: []sarifRun{run}})
}

type (
	sarifLog struct {
		Schema  string     `json:"$schema"`
		Version string     `json:"version"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct {
		Tool       sarifTool                `json:"tool"`
		ColumnKind string                   `json:"columnKind"`
		Bases      map[string]sarifArtifact `json:"originalUriBaseIds"`
		Results    []sarifResult            `json:"results"`
	}
	sarifTool struct {
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct {
		Name    string      `json:"name"`
		Version string      `json:"version,omitempty"`
		Rules   []sarifRule `json:"rules"`
	}
	sarifRule struct {
		ID      string         `json:"id"`
		Short   sarifText      `json:"shortDescription"`
		Full    sarifText      `json:"fullDescription"`
		Help    sarifText      `json:"help"`
		Default sarifRuleLevel `json:"defaultConfiguration"`
	}
	sarifRuleLevel struct {
		Level string `json:"level"`
	}
	sarifText struct {
		Text     string `json:"text"`
		Markdown string `json:"markdown,omitempty"`
	}
	sarifResult struct {
		RuleID     string            `json:"ruleId"`
		RuleIndex  int               `json:"ruleIndex"` // -1 when the rule is not in the table
		Level      string            `json:"level"`
		Message    sarifText         `json:"message"`
		Locations  []sarifLocation   `json:"locations,omitempty"`
		Related    []sarifLocation   `json:"relatedLocations,omitempty"`
		Properties map[string]string `json:"properties,omitempty"`
	}
	sarifLocation struct {
		ID       int           `json:"id,omitempty"`
		Physical sarifPhysical `json:"physicalLocation"`
		Message  *sarifText    `json:"message,omitempty"`
	}
	sarifPhysical struct {
		Artifact sarifArtifact `json:"artifactLocation"`
		Region   *sarifRegion  `json:"region,omitempty"`
	}
	sarifArtifact struct {
		URI         string     `json:"uri,omitempty"`
		Base        string     `json:"uriBaseId,omitempty"`
		Description *sarifText `json:"description,omitempty"`
	}
	sarifRegion struct {
		StartLine   int        `json:"startLine"`
		StartColumn int        `json:"startColumn"`
		EndLine     int        `json:"endLine"`
		EndColumn   int        `json:"endColumn"`
		Snippet     *sarifText `json:"snippet,omitempty"`
	}
)

func sarifRules() []sarifRule {
	rows := make([]sarifRule, 0, len(Rules))
	for _, r := range Rules {
		rows = append(rows, sarifRule{
			ID: r.ID, Short: sarifText{Text: r.Title}, Full: sarifText{Text: r.Why},
			Help:    sarifText{Text: r.help(), Markdown: r.Markdown()},
			Default: sarifRuleLevel{r.Severity.String()},
		})
	}
	return rows
}

// sarifResultOf puts the hint into the message, where every viewer shows it.
func sarifResultOf(f Finding) sarifResult {
	message := f.Message
	if f.Hint != "" {
		message += "\n" + f.Hint
	}
	res := sarifResult{
		RuleID: f.Rule, RuleIndex: ruleIndex(f.Rule), Level: f.Severity.String(),
		Message: sarifText{Text: message},
	}
	if f.Span.Known() {
		res.Locations = []sarifLocation{{Physical: sarifPlace(f.Span)}}
	}
	for i, r := range f.Related {
		if r.Span.Known() {
			res.Related = append(res.Related, sarifLocation{
				ID: i + 1, Physical: sarifPlace(r.Span), Message: &sarifText{Text: r.Message},
			})
		}
	}
	if f.Holds != "" {
		res.Properties = map[string]string{"held": f.Holds}
	}
	return res
}

// sarifPlace leaves the region out for an empty file: it has no line 1.
func sarifPlace(s Span) sarifPhysical {
	p := sarifPhysical{Artifact: sarifArtifact{URI: relativeURI(s.File.Name), Base: bookBase}}
	if len(s.File.Text) == 0 {
		return p
	}
	at := placeOf(s)
	p.Region = &sarifRegion{StartLine: at.Line, StartColumn: at.Column, EndLine: at.EndLine, EndColumn: at.EndColumn}
	if text := excerpt(s); text != "" {
		p.Region.Snippet = &sarifText{Text: strings.ToValidUTF8(text, "\ufffd")}
	}
	return p
}

// relativeURI writes a file's name as a relative reference (RFC 3986, section 4.2).
func relativeURI(name string) string {
	return (&url.URL{Path: strings.ToValidUTF8(name, "\ufffd")}).String()
}
