package finding

import "strings"

// panelRules are the rules about panelboards: how they are laid out, and the circuits in them.
var panelRules = []Rule{
	{
		ID: "panel/bad", Severity: Error, Since: "1",
		Title: "a cell of a panel's tables that cannot be read",
		Why:   "It counts as empty, and what depends on it is not checked.",
		Wrong: panelsFile("| LP1 | 42 | 2 | 208Y/120 | 225A main breaker | 75 | |\n", ""),
		Right: panelsFile("| LP1 | 42 | 3 | 208Y/120 | 225A main breaker | 75 | |\n", ""),
	},
	{
		ID: "panel/breaker", Severity: Warning, Since: "1",
		Title: "a breaker larger than its conductor allows in general",
		Why:   "The wire may overheat before the breaker opens; only a load with a rule of its own may have it.",
		Wrong: lightingPanel + circuitNote("- 2,4: proofing cabinet, 40A 2P, 10 AWG\n"),
		Right: lightingPanel + circuitNote("- 2,4: proofing cabinet, 30A 2P, 10 AWG\n"),
	},
	{
		ID: "panel/conductor", Severity: Warning, Since: "1",
		Title: "a conductor of no known size",
		Why:   "Nothing can be said of the breaker that protects it.",
		Wrong: lightingPanel + circuitNote("- 2,4: proofing cabinet, 30A 2P, 11 AWG\n"),
		Right: lightingPanel + circuitNote("- 2,4: proofing cabinet, 30A 2P, 10 AWG\n"),
	},
	{
		ID: "panel/description", Severity: Note, Since: "1",
		Title: "a circuit nobody can tell from the others",
		Why:   "In an emergency nobody finds its breaker; a directory has to name each circuit's purpose.",
		Wrong: lightingPanel + circuitNote("- 6: lights, 20A 1P, 12 AWG\n"),
		Right: lightingPanel + circuitNote("- 6: lights over the front counter, 20A 1P, 12 AWG\n"),
	},
	{
		ID: "panel/handles", Severity: Warning, Since: "1",
		Title: "circuits that share a neutral and do not switch off together",
		Why:   "With one breaker off the neutral still carries the other circuit's current: a shock for whoever works on it.",
		Wrong: lightingPanel + circuitNote("- 16/18: front sign and shop lights, 20A 1P, share a neutral, handles not tied\n"),
		Right: lightingPanel + circuitNote("- 16/18: front sign and shop lights, 20A 2P, share a neutral\n"),
	},
	{
		ID: "panel/handles-unsaid", Severity: Note, Since: "1",
		Title: "circuits that share a neutral, and nothing about their handles",
		Why:   "Whether one motion switches off both cannot be told from the office.",
		Wrong: lightingPanel + circuitNote("- 16/18: front sign and shop lights, share a neutral\n"),
		Right: lightingPanel + circuitNote("- 16/18: front sign and shop lights, share a neutral, handle tie\n"),
	},
	{
		ID: "panel/none", Severity: Error, Since: "1",
		Title: "a panels.md that lays out no panel",
		Why:   "Spaces, legs and terminals are not known, and nothing is held against them.",
		Wrong: file("jobs/2431-quay/panels.md", "LP1 has 42 spaces.\n"),
		Right: panelsFile("| LP1 | 42 | 3 | 208Y/120 | 225A main breaker | 75 | |\n", ""),
	},
	{
		ID: "panel/not-laid-out", Severity: Warning, Since: "1",
		Title: "a note that names a panel the job does not have",
		Why:   "Its circuits are listed apart, and on no directory of a panel that is laid out.",
		Wrong: lightingPanel + circuitNote("- LP7 2,4: proofing cabinet, 30A 2P, 10 AWG\n"),
		Right: lightingPanel + circuitNote("- LP1 2,4: proofing cabinet, 30A 2P, 10 AWG\n"),
	},
	{
		ID: "panel/one-leg", Severity: Warning, Since: "1",
		Title: "circuits that share a neutral on one leg",
		Why:   "The neutral carries the sum instead of the difference, and no breaker protects it.",
		Wrong: lightingPanel + circuitNote("- 14/20: front sign and shop lights, 20A 1P, 12 AWG, share a neutral, tied\n"),
		Right: lightingPanel + circuitNote("- 16/18: front sign and shop lights, 20A 1P, 12 AWG, share a neutral, tied\n"),
	},
	{
		ID: "panel/poles", Severity: Warning, Since: "1",
		Title: "spaces that do not fit the poles of the breaker",
		Why:   "The poles of one breaker stand one below the other; across the panel two spaces are on one leg.",
		Wrong: lightingPanel + circuitNote("- 1,2: proofing cabinet, 30A 2P, 10 AWG\n"),
		Right: lightingPanel + circuitNote("- 2,4: proofing cabinet, 30A 2P, 10 AWG\n"),
	},
	{
		ID: "panel/size", Severity: Error, Since: "1",
		Title: "a panels.md beyond what can be read",
		Why:   "It is left unread as a whole.",
		Wrong: file("jobs/2431-quay/panels.md", strings.Repeat("- ", 101)+"LP1\n"),
		Right: panelsFile("| LP1 | 42 | 3 | 208Y/120 | 225A main breaker | 75 | |\n", ""),
	},
	{
		ID: "panel/space-outside", Severity: Error, Since: "1",
		Title: "a space the panel does not have",
		Why:   "The circuit is on no directory until its space is right.",
		Wrong: lightingPanel + circuitNote("- 44: front sign, 20A 1P, 12 AWG\n"),
		Right: lightingPanel + circuitNote("- 40: front sign, 20A 1P, 12 AWG\n"),
	},
	{
		ID: "panel/space-reserved", Severity: Warning, Since: "1",
		Title: "a circuit in a space that was held for another",
		Why:   "What it was held for will find no room.",
		Wrong: lightingPanel + circuitNote("- 12: front sign, 20A 1P, 12 AWG\n"),
		Right: lightingPanel + circuitNote("- 12: second oven, 20A 1P, 12 AWG\n"),
	},
	{
		ID: "panel/space-twice", Severity: Warning, Since: "1",
		Title: "two circuits in one space",
		Why:   "Either two wires are under one breaker, or the directory is wrong.",
		Wrong: lightingPanel + circuitNote("- 7: dough mixer, 20A 1P, 12 AWG\n"),
		Right: lightingPanel + circuitNote("- 7: dough mixer, 20A 1P, 12 AWG, replaces the cooler\n"),
	},
	{
		ID: "panel/terminals", Severity: Note, Since: "1",
		Title: "a breaker that fits its conductor only with 75 degree terminals",
		Why:   "Up to 100 A terminals count as 60 degrees C unless they are marked otherwise.",
		Wrong: panelsFile("| LP1 | 42 | 3 | 208Y/120 | 225A main breaker |  | |\n", "") + circuitNote("- 2,4: deck oven, 50A 2P, 8 AWG\n"),
		Right: lightingPanel + circuitNote("- 2,4: deck oven, 50A 2P, 8 AWG\n"),
	},
	{
		ID: "panel/twice", Severity: Error, Since: "1",
		Title: "two rows for one panel",
		Why:   "Only the first is used.",
		Wrong: panelsFile("| LP1 | 42 | 3 | 208Y/120 | 225A main breaker | 75 | |\n| LP-1 | 30 | 1 | 120/240 | 100A | 60 | |\n", ""),
		Right: panelsFile("| LP1 | 42 | 3 | 208Y/120 | 225A main breaker | 75 | |\n| LP2 | 30 | 1 | 120/240 | 100A | 60 | |\n", ""),
	},
	{
		ID: "panel/unknown", Severity: Error, Since: "1",
		Title: "a table of circuits for a panel that has no row",
		Why:   "They are not read: nothing says how many spaces and phases the panel has.",
		Wrong: panelsFile("| LP1 | 42 | 3 | 208Y/120 | 225A main breaker | 75 | |\n", "\n## LP9\n"+panelRows),
		Right: lightingPanel,
	},
	{
		ID: "panel/unsaid", Severity: Warning, Since: "1",
		Title: "a circuit of one of several panels",
		Why:   "It is on no directory until somebody says which panel it is in.",
		Wrong: panelsFile(twoPanels, "") + circuitNote("- 2,4: proofing cabinet, 30A 2P, 10 AWG\n"),
		Right: panelsFile(twoPanels, "") + circuitNote("- LP2 2,4: proofing cabinet, 30A 2P, 10 AWG\n"),
	},
}

// panelsFile is a panels.md with rows of panels and the circuits below them.
func panelsFile(rows, circuits string) string {
	return file("jobs/2431-quay/panels.md", `| Panel | Spaces | Phases | Volts | Main | Terminals | Feeder |
|-------|--------|--------|-------|------|-----------|--------|
`+rows+circuits)
}

const panelRows = `
| Space | Breaker | Conductor | Serves |
|-------|---------|-----------|--------|
| 7 | 20A 1P | 12 AWG | walk-in cooler |
| 12 | | | reserved for the second oven |
`

const twoPanels = `| LP1 | 42 | 3 | 208Y/120 | 225A main breaker | 75 | |
| LP2 | 24 | 3 | 208Y/120 | 100A main breaker | 75 | LP1 1,3,5 |
`

// lightingPanel is a layout the circuits of an example are held against.
var lightingPanel = panelsFile("| LP1 | 42 | 3 | 208Y/120 | 225A main breaker | 75 | |\n", "\n## LP1\n"+panelRows)

func circuitNote(circuits string) string {
	return dayNote("---\ncrew: [Ines Marrow]\n---\n\n## Done\n- C: 2 of 3 GFCI receptacles in, 2 h, Ines\n\n## Circuits\n" +
		circuits + "\n## Time\n- Ines 7:00-9:00\n")
}
